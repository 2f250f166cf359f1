//! What was asked for while a record is looked at.

use std::path::Path;

use super::super::Editor;
use super::super::files::{Dialog, FileList, Purpose, has_ending};
use super::super::words::audit as words;
use super::{AuditPlace, Look};
use crate::sheet::Paper;

/// See the module.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum AuditCommand {
    /// Leave it.
    Leave,
    /// Look at something else.
    Show(Look),
    /// Look at another account.
    Account(usize),
    /// Look at another page.
    Page(usize),
    /// Print on this.
    Paper(Paper),
    /// Ask for another record.
    Another,
    /// Ask where to save the report.
    Save,
}

impl Editor {
    /// Asks for a record, or leaves the one that is open.
    pub(in super::super) fn audit_incident(&mut self) {
        if self.audit.take().is_none() {
            self.ask_for_record();
        }
    }

    fn ask_for_record(&mut self) {
        let open = self.audit.as_ref();
        let folder = open.and_then(|place| place.path.parent().map(Path::to_owned));
        let folder = folder.unwrap_or_else(|| self.folder());
        let list = FileList::of(Purpose::AuditRecord, &folder, "", None);
        self.ask_for_file(list);
    }

    /// Opens a record and looks at it.
    pub fn open_record(&mut self, path: &Path) {
        match AuditPlace::open(path, self.settings.units) {
            Ok(place) => {
                self.audit = Some(Box::new(place));
                self.dialog = None;
            }
            Err(why) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::NOT_OPENED.to_owned(),
                    lines: why.lines().map(str::to_owned).collect(),
                });
            }
        }
    }

    /// Writes the report; what was there was told in the question.
    pub(in super::super) fn write_report(&mut self, path: &Path) {
        let Some(place) = &mut self.audit else {
            return;
        };
        let bytes = place.report(has_ending(path, &["svg"]));
        let written = bytes.and_then(|bytes| {
            crate::store::write_atomic(path, &bytes).map_err(|error| error.to_string())
        });
        self.dialog = match written {
            Ok(()) => {
                self.notice = Some(words::written(&path.display().to_string()));
                None
            }
            Err(why) => Some(Dialog::Trouble {
                title: words::NOT_WRITTEN.to_owned(),
                lines: vec![why],
            }),
        };
    }

    pub(in super::super) fn audit_command(&mut self, command: &AuditCommand) {
        if *command == AuditCommand::Leave {
            self.audit = None;
            return;
        }
        if *command == AuditCommand::Another {
            self.ask_for_record();
            return;
        }
        let Some(place) = &mut self.audit else {
            return;
        };
        match command {
            AuditCommand::Leave | AuditCommand::Another => {}
            AuditCommand::Show(look) => {
                place.look = *look;
                place.page = 0;
            }
            AuditCommand::Account(account) => place.account = *account,
            AuditCommand::Page(page) => place.page = *page,
            AuditCommand::Paper(paper) => {
                place.paper = *paper;
                place.page = 0;
            }
            AuditCommand::Save => {
                let folder = place.path.parent().map(Path::to_owned);
                let folder = folder.unwrap_or_else(|| self.folder());
                let list = FileList::of(Purpose::AuditReport, &folder, words::FILE_NAME, None);
                self.ask_for_file(list);
            }
        }
    }
}
