//! Where files are chosen: in the desktop's own dialogs where it has them, else in the built-in one.
//!
//! A desktop's dialog is asked beside the window, which goes on being drawn; meanwhile a question over it says so and
//! offers the built-in one instead. Tests and pictures have no chooser and so always the built-in dialog.

mod desktop;
#[cfg(target_os = "linux")]
mod portal;

pub(crate) use self::desktop::DesktopChooser;

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use super::Editor;
use super::files::{Dialog, FileList};
use super::settings::FileDialogs;
use super::words::dialogs as words;

/// What somebody outside the window is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileQuestion {
    /// What stands above it.
    pub title: String,

    /// The folder in which it begins.
    pub folder: PathBuf,

    /// The name that is proposed for a file that is written.
    pub name: String,

    /// Is a file written, rather than read?
    pub writes: bool,

    /// What sort of files these are, in words.
    pub kind: String,

    /// How their names end.
    pub endings: Vec<&'static str>,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileAnswer {
    /// This file.
    Chosen(PathBuf),

    /// None, after all.
    GoneBack,

    /// Nobody was asked: no dialog came.
    NotShown,
}

/// Told the answer, once, from any thread.
pub type TellAnswer = Box<dyn FnOnce(FileAnswer) + Send>;

/// Somebody outside the window who asks for files.
pub trait FileChooser: std::fmt::Debug {
    /// Can it be asked, as far as is known now? It must not wait to find out.
    fn is_there(&self) -> bool;

    /// Asks, without waiting for the answer. Called on the thread of the window, as some desktops demand.
    fn ask(&self, question: &FileQuestion, tell: TellAnswer);
}

/// Who is asked for files, and what was asked.
#[derive(Debug, Default)]
pub(super) struct Choosing {
    chooser: Option<Box<dyn FileChooser>>,

    /// To be asked at the end of this frame.
    wanted: Option<FileList>,

    /// What is being asked outside the window.
    asked: Option<(FileList, Receiver<FileAnswer>)>,
}

/// Is a file asked for outside the window?
fn is_outside(setting: FileDialogs, chooser: Option<&dyn FileChooser>) -> bool {
    setting == FileDialogs::Desktop && chooser.is_some_and(FileChooser::is_there)
}

impl Editor {
    /// From now on files are asked for by this chooser where it can be asked.
    pub fn choose_files_with(&mut self, chooser: Box<dyn FileChooser>) {
        self.choosing.chooser = Some(chooser);
    }

    /// Asks for a file when this frame ends.
    pub(super) fn ask_for_file(&mut self, list: FileList) {
        self.choosing.wanted = Some(list);
    }

    /// Asks for what is wanted: outside the window, or in it.
    pub(super) fn ask_wanted_file(&mut self, ctx: &egui::Context) {
        let Some(list) = self.choosing.wanted.take() else {
            return;
        };
        let chooser = self.choosing.chooser.as_deref();
        let setting = self.settings.file_dialogs;
        let Some(chooser) = chooser.filter(|chooser| is_outside(setting, Some(*chooser))) else {
            self.dialog = Some(Dialog::Files(list));
            return;
        };
        let (send, receive) = channel();
        let ctx = ctx.clone();
        let tell = Box::new(move |answer| {
            send.send(answer).ok();
            ctx.request_repaint();
        });
        chooser.ask(&question(&list), tell);
        self.choosing.asked = Some((list, receive));
        self.dialog = Some(Dialog::AskedOutside);
    }

    /// Takes the answer of whoever was asked outside the window; tells what was chosen.
    pub(super) fn answered_file(&mut self) -> Option<FileList> {
        let (list, receive) = self.choosing.asked.as_ref()?;
        if self.dialog != Some(Dialog::AskedOutside) {
            // Somebody went on without it; a late answer is not wanted any more.
            self.choosing.asked = None;
            return None;
        }
        let answer = match receive.try_recv() {
            Ok(answer) => answer,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => FileAnswer::NotShown,
        };
        let list = list.clone();
        self.choosing.asked = None;
        self.dialog = None;
        match answer {
            FileAnswer::Chosen(path) => {
                let (list, renamed) = named(list, &path);
                if renamed && list.chosen().is_some_and(|path| path.exists()) {
                    // The desktop asked about another name: that this one is there is told in the built-in dialog.
                    self.dialog = Some(Dialog::Files(list));
                    return None;
                }
                Some(list)
            }
            FileAnswer::GoneBack => None,
            FileAnswer::NotShown => {
                self.notice = Some(words::NOT_SHOWN.to_owned());
                self.dialog = Some(Dialog::Files(list));
                None
            }
        }
    }

    /// The built-in dialog always, or the desktop's where it has them.
    pub(super) fn built_in_dialogs(&mut self) {
        let (next, told) = match self.settings.file_dialogs {
            FileDialogs::Desktop => (FileDialogs::BuiltIn, words::DIALOGS_BUILT_IN),
            FileDialogs::BuiltIn => (FileDialogs::Desktop, words::DIALOGS_DESKTOP),
        };
        self.settings.file_dialogs = next;
        self.notice = Some(told.to_owned());
    }

    /// Goes on in the built-in dialog, or not at all, without waiting for the one outside.
    pub(super) fn leave_outside(&mut self, built_in: bool) {
        let asked = self.choosing.asked.take();
        self.dialog = asked
            .filter(|_| built_in)
            .map(|(list, _)| Dialog::Files(list));
    }
}

/// The question that a list stands for.
fn question(list: &FileList) -> FileQuestion {
    FileQuestion {
        title: words::choose(list.purpose).to_owned(),
        folder: list.folder.clone(),
        name: list.name.clone(),
        writes: list.purpose.writes(),
        kind: words::kind_of_files(list.purpose).to_owned(),
        endings: list.purpose.endings().to_vec(),
    }
}

/// The list with a file chosen in it, and whether the file gets another name than was chosen, as it had no ending.
fn named(list: FileList, path: &Path) -> (FileList, bool) {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let folder = path.parent().unwrap_or(&list.folder).to_owned();
    let list = FileList {
        folder,
        name: name.into_owned(),
        ..list
    };
    let renamed = list.chosen().is_some_and(|chosen| chosen != path);
    (list, renamed)
}

#[cfg(test)]
mod tests {
    use super::super::files::Purpose;
    use super::*;

    #[derive(Debug)]
    struct Fake(bool);

    impl FileChooser for Fake {
        fn is_there(&self) -> bool {
            self.0
        }

        fn ask(&self, _: &FileQuestion, tell: TellAnswer) {
            tell(FileAnswer::GoneBack);
        }
    }

    #[test]
    fn the_desktop_is_asked_where_it_is_there_and_wanted() {
        for (setting, chooser, outside) in [
            (FileDialogs::Desktop, None, false),
            (FileDialogs::Desktop, Some(Fake(false)), false),
            (FileDialogs::Desktop, Some(Fake(true)), true),
            (FileDialogs::BuiltIn, Some(Fake(true)), false),
        ] {
            let asked = chooser.as_ref().map(|fake| fake as &dyn FileChooser);
            assert_eq!(
                is_outside(setting, asked),
                outside,
                "{setting:?} {chooser:?}"
            );
        }
    }

    #[test]
    fn a_name_without_an_ending_gets_one() {
        let list = FileList::of(Purpose::Save, Path::new("nowhere"), "boat.json", None);
        let (chosen, renamed) = named(list.clone(), Path::new("elsewhere/otter"));
        assert_eq!(chosen.chosen(), Some(PathBuf::from("elsewhere/otter.json")));
        assert!(renamed);
        let (chosen, renamed) = named(list, Path::new("elsewhere/otter.json"));
        assert_eq!(chosen.chosen(), Some(PathBuf::from("elsewhere/otter.json")));
        assert!(!renamed);
        let open = FileList::of(Purpose::Open, Path::new("nowhere"), "", None);
        let (chosen, renamed) = named(open, Path::new("elsewhere/otter"));
        assert_eq!(
            chosen.chosen(),
            Some(PathBuf::from("elsewhere/otter")),
            "as it is"
        );
        assert!(!renamed);
    }
}
