//! Longer reading: beside the window, with how far it is and a way to give it up.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use egui::Context;

use super::Editor;
use super::drawn::DrawingChoice;
use super::files::Dialog;
use super::words::survey as words;
use crate::store::Watch;
use crate::store::drawing::DrawingError;

/// What is on a layer is looked up at once if there are no more entities than this.
const AT_ONCE: usize = 2000;

/// A drawing that is being read or looked through.
#[derive(Debug)]
pub(crate) struct Reading {
    /// The file.
    path: PathBuf,
    watch: Watch,
    read: Receiver<Result<DrawingChoice, DrawingError>>,
}

impl Drop for Reading {
    fn drop(&mut self) {
        self.watch.give_up();
    }
}

impl Reading {
    /// Begins a piece of work on a drawing beside the window.
    fn begin(
        ctx: &Context,
        path: PathBuf,
        work: impl FnOnce(&Watch) -> Result<DrawingChoice, DrawingError> + Send + 'static,
    ) -> std::io::Result<Self> {
        let (send, read) = channel();
        let watch = Watch::default();
        let (ctx, watched) = (ctx.clone(), watch.clone());
        let thread = std::thread::Builder::new().name("drawing".to_owned());
        thread.spawn(move || {
            send.send(work(&watched)).ok();
            ctx.request_repaint();
        })?;
        Ok(Self { path, watch, read })
    }

    /// How far it is, from 0 to 1.
    pub(crate) fn share(&self) -> f64 {
        self.watch.share()
    }
}

impl Editor {
    /// Reads a drawing beside the window.
    pub(super) fn read_drawing(&mut self, ctx: &Context, path: PathBuf) {
        let file = path.clone();
        self.begin_reading(ctx, path, move |watch| DrawingChoice::open(&file, watch));
    }

    /// Looks up what is on the layer that was chosen; beside the window if that may take long.
    pub(super) fn look_up_drawing(&mut self, ctx: &Context, choice: DrawingChoice) {
        let layers = choice.drawing.layers.iter();
        let chosen = layers.clone().find(|layer| layer.name == choice.layer);
        if chosen.is_none_or(|layer| layer.entities <= AT_ONCE) {
            self.dialog = Some(Dialog::DeckFromDrawing(Box::new(choice.looked_up())));
            return;
        }
        let path = choice.path.clone();
        self.begin_reading(ctx, path, move |_| Ok(choice.looked_up()));
    }

    fn begin_reading(
        &mut self,
        ctx: &Context,
        path: PathBuf,
        work: impl FnOnce(&Watch) -> Result<DrawingChoice, DrawingError> + Send + 'static,
    ) {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let name = name.into_owned();
        match Reading::begin(ctx, path, work) {
            Ok(reading) => {
                self.reading = Some(reading);
                self.dialog = Some(Dialog::Reading(name));
            }
            Err(error) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::DRAWING_NOT_READ.to_owned(),
                    lines: vec![error.to_string()],
                });
            }
        }
    }

    /// Takes what was read, or drops it if nobody waits for it any more.
    pub(super) fn look_after_reading(&mut self) {
        let is_waited_for = matches!(self.dialog, Some(Dialog::Reading(_)));
        if !is_waited_for {
            self.reading = None;
            self.underlays.give_up();
            return;
        }
        let Some(reading) = &self.reading else { return };
        let path = reading.path.display().to_string();
        let trouble = |why: String| Dialog::Trouble {
            title: words::DRAWING_NOT_READ.to_owned(),
            lines: vec![path, why],
        };
        let dialog = match reading.read.try_recv() {
            Ok(Ok(choice)) => Dialog::DeckFromDrawing(Box::new(choice)),
            Ok(Err(error)) => trouble(error.to_string()),
            Err(TryRecvError::Empty) => return,
            Err(TryRecvError::Disconnected) => trouble(words::READER_ENDED.to_owned()),
        };
        self.reading = None;
        self.dialog = Some(dialog);
    }
}
