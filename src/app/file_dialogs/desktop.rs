//! The desktop's own file dialogs.

use std::time::{Duration, Instant};

use super::{FileAnswer, FileChooser, FileQuestion, TellAnswer};

/// Nobody goes back from a dialog faster than this: then none came.
const NOBODY: Duration = Duration::from_millis(150);

/// Asks by the dialogs of the desktop: on Linux by its portal, elsewhere by those of the system.
#[derive(Debug)]
pub(crate) struct DesktopChooser {
    #[cfg(target_os = "linux")]
    portal: super::portal::Portal,
}

impl DesktopChooser {
    /// Begins to find out whether there are any, beside the window.
    pub(crate) fn new() -> Self {
        Self {
            #[cfg(target_os = "linux")]
            portal: super::portal::Portal::looked_for(),
        }
    }
}

impl FileChooser for DesktopChooser {
    #[cfg(target_os = "linux")]
    fn is_there(&self) -> bool {
        self.portal.is_there()
    }

    #[cfg(not(target_os = "linux"))]
    fn is_there(&self) -> bool {
        true
    }

    fn ask(&self, question: &FileQuestion, tell: TellAnswer) {
        let mut dialog = rfd::AsyncFileDialog::new()
            .set_title(&question.title)
            .add_filter(&question.kind, &question.endings);
        if question.folder.is_dir() {
            dialog = dialog.set_directory(&question.folder);
        }
        if question.writes && !question.name.is_empty() {
            dialog = dialog.set_file_name(&question.name);
        }
        // Some desktops make dialogs on the thread of the window only: the dialog is made here and waited for there.
        let writes = question.writes;
        let begun = Instant::now();
        let answered = move |file: Option<rfd::FileHandle>| match file {
            Some(file) => FileAnswer::Chosen(file.path().to_owned()),
            None if begun.elapsed() < NOBODY => FileAnswer::NotShown,
            None => FileAnswer::GoneBack,
        };
        let thread = std::thread::Builder::new().name("file dialog".to_owned());
        let started = if writes {
            let asked = dialog.save_file();
            thread.spawn(move || tell(answered(pollster::block_on(asked))))
        } else {
            let asked = dialog.pick_file();
            thread.spawn(move || tell(answered(pollster::block_on(asked))))
        };
        if let Err(err) = started {
            // `tell` went with the thread, which is told as no dialog.
            log::error!("no file dialog: {err}");
        }
    }
}
