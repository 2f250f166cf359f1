//! Files that are made beside the window: sheets, lists, pictures. The window goes on meanwhile, shows how far each
//! is, and tells what came of it. A file is there whole or not at all.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread::JoinHandle;

use egui::{Align2, Area, Button, Context, Frame, Id, Order, ProgressBar, Ui, vec2};

use super::Editor;
use super::command::Command;
use super::files::Dialog;
use super::words::writing as words;
use crate::store::{self, Watch};

/// A piece of work that is done sooner than this is not shown, in seconds: it would only flicker.
const SHOWN_AFTER_S: f64 = 0.3;

/// How often its progress is looked at, in milliseconds.
const LOOK_EVERY_MS: u64 = 100;

/// How wide the list of files being made is, in points.
const WIDE: f32 = 320.0;

/// What a piece of work made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Made {
    /// What is in the file.
    pub(crate) bytes: Vec<u8>,
    /// What is told once it is there.
    pub(crate) told: String,
}

/// A file that is being made.
#[derive(Debug)]
pub(crate) struct Writing {
    path: PathBuf,
    /// What stands above the reason if it comes to nothing.
    not_written: &'static str,
    watch: Watch,
    /// What is told, or why there is no file.
    ended: Receiver<Result<String, String>>,
    thread: Option<JoinHandle<()>>,
    /// When it was first seen, in the window's seconds.
    since_s: Option<f64>,
}

impl Drop for Writing {
    fn drop(&mut self) {
        self.watch.give_up();
    }
}

impl Writing {
    fn name(&self) -> String {
        let name = self.path.file_name().unwrap_or_default();
        name.to_string_lossy().into_owned()
    }
}

/// Makes the bytes and writes them, unless it was given up meanwhile.
fn make_and_write(
    path: &Path,
    watch: &Watch,
    make: impl FnOnce(&Watch) -> Result<Made, String>,
) -> Result<String, String> {
    let made = make(watch)?;
    if watch.is_given_up() {
        return Err(words::GIVEN_UP.to_owned());
    }
    store::write_atomic(path, &made.bytes).map_err(|error| error.to_string())?;
    Ok(made.told)
}

impl Editor {
    /// Makes a file beside the window. If the same file is being made already, the newer one counts.
    pub(super) fn write_beside(
        &mut self,
        ctx: &Context,
        path: &Path,
        not_written: &'static str,
        make: impl FnOnce(&Watch) -> Result<Made, String> + Send + 'static,
    ) {
        self.dialog = None;
        let older = self.writings.iter().position(|it| it.path == path);
        let older = older.and_then(|index| self.writings.remove(index).thread.take());
        let (send, ended) = channel();
        let watch = Watch::default();
        let (ctx, watched, to) = (ctx.clone(), watch.clone(), path.to_owned());
        let thread = std::thread::Builder::new().name("writing".to_owned());
        let thread = thread.spawn(move || {
            if let Some(older) = older {
                // It was given up; whatever it still does comes first.
                older.join().ok();
            }
            send.send(make_and_write(&to, &watched, make)).ok();
            ctx.request_repaint();
        });
        match thread {
            Ok(thread) => self.writings.push(Writing {
                path: path.to_owned(),
                not_written,
                watch,
                ended,
                thread: Some(thread),
                since_s: None,
            }),
            Err(error) => self.not_written.push(Dialog::Trouble {
                title: not_written.to_owned(),
                lines: vec![path.display().to_string(), error.to_string()],
            }),
        }
    }

    /// Is a file being made?
    pub(super) fn is_writing(&self) -> bool {
        !self.writings.is_empty()
    }

    /// Tells what came of files that were being made, and closes the window if it waited for them.
    pub(super) fn look_after_writings(&mut self, ui: &Ui) {
        let mut told = None;
        let not_written = &mut self.not_written;
        self.writings.retain_mut(|writing| {
            let why = match writing.ended.try_recv() {
                Err(TryRecvError::Empty) => return true,
                Ok(Ok(text)) => {
                    told = Some(text);
                    return false;
                }
                Ok(Err(why)) => why,
                Err(TryRecvError::Disconnected) => words::ENDED_EARLY.to_owned(),
            };
            not_written.push(Dialog::Trouble {
                title: writing.not_written.to_owned(),
                lines: vec![writing.path.display().to_string(), why],
            });
            false
        });
        if told.is_some() {
            self.notice = told;
        }
        // A question that is open is answered first.
        if self.dialog.is_none() && !self.not_written.is_empty() {
            self.dialog = Some(self.not_written.remove(0));
            (self.closing, self.close_when_written) = (false, false);
        }
        if self.close_when_written && !self.is_writing() && self.not_written.is_empty() {
            self.close_when_written = false;
            ui.send_viewport_cmd(egui::ViewportCommand::Close);
        }
    }

    /// Gives a file up that is being made, by its place in the list.
    pub(super) fn give_writing_up(&mut self, index: usize) {
        if index < self.writings.len() {
            let given_up = self.writings.remove(index);
            self.notice = Some(words::given_up(&given_up.name()));
            self.close_when_written = false;
        }
    }

    /// How far the files are that are being made, in a corner over everything else.
    pub(super) fn writings_ui(&mut self, ui: &Ui, commands: &mut Vec<Command>) {
        let now_s = ui.input(|input| input.time);
        for writing in &mut self.writings {
            writing.since_s.get_or_insert(now_s);
        }
        if self.writings.is_empty() {
            return;
        }
        ui.request_repaint_after(std::time::Duration::from_millis(LOOK_EVERY_MS));
        let is_old = |writing: &Writing| {
            let since_s = writing.since_s.unwrap_or(now_s);
            now_s - since_s >= SHOWN_AFTER_S
        };
        if !self.close_when_written && !self.writings.iter().any(is_old) {
            return;
        }
        Area::new(Id::unique("files being made"))
            .order(Order::Foreground)
            .anchor(Align2::RIGHT_BOTTOM, vec2(-16.0, -16.0))
            .show(ui.ctx(), |ui| {
                Frame::popup(ui.style()).show(ui, |ui| {
                    ui.set_width(WIDE);
                    if self.close_when_written {
                        ui.strong(words::CLOSES_THEN);
                    }
                    for (index, writing) in self.writings.iter().enumerate() {
                        one_ui(ui, index, writing, commands);
                    }
                });
            });
    }
}

fn one_ui(ui: &mut Ui, index: usize, writing: &Writing, commands: &mut Vec<Command>) {
    let name = writing.name();
    ui.label(words::being_made(&name));
    #[expect(clippy::cast_possible_truncation, reason = "a share from 0 to 1")]
    let share = writing.watch.share() as f32;
    ui.add(ProgressBar::new(share).show_percentage())
        .accessible_name(words::progress(&name));
    let give_up = Button::new(words::GIVE_UP).min_size(vec2(0.0, 44.0));
    let response = ui.add(give_up);
    let response = response.accessible_name(words::give_up(&name));
    if response.clicked() {
        commands.push(Command::GiveWritingUp(index));
    }
}

#[cfg(test)]
mod tests;
