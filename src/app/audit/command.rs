//! What was asked for while a record is looked at.

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::Context;

use super::super::Editor;
use super::super::files::{Dialog, FileList, Purpose, has_ending};
use super::super::over_time::TimeCommand;
use super::super::words::audit as words;
use super::job::{AuditJob, Saving};
use super::{AuditPlace, Look};
use crate::sheet::Paper;
use crate::store::folder::input_at;

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum AuditCommand {
    /// Leave it.
    Leave,
    /// Give up the record that is being worked on.
    GiveUp,
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
    /// Something over time.
    Time(TimeCommand),
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

    /// Opens a record and looks at it, as soon as it has been worked out beside the window.
    pub fn open_record(&mut self, path: &Path) {
        self.record_wanted = Some(path.to_owned());
        self.dialog = None;
    }

    /// Writes the report beside the window; what was there was told in the question.
    pub(in super::super) fn write_report(&mut self, path: &Path) {
        self.report_wanted = Some(path.to_owned());
        self.dialog = None;
    }

    /// Has the record audited that is wanted, takes in what came of it, and lets time run.
    pub(in super::super) fn look_after_audit(&mut self, ctx: &Context) {
        if let Some(path) = self.record_wanted.take() {
            match AuditJob::begin(ctx, path) {
                Ok(job) => self.audit_job = Some(job),
                Err(error) => self.audit_trouble(words::NOT_OPENED, &error.to_string()),
            }
        }
        if let Some(came) = self.audit_job.as_ref().and_then(AuditJob::collect) {
            let path = self.audit_job.take().map(|job| job.path.clone());
            match came {
                Ok(seen) => {
                    let path = path.unwrap_or_default();
                    let place = AuditPlace::new(&path, seen, self.settings.units);
                    self.audit = Some(Box::new(place));
                }
                Err(why) => self.audit_trouble(words::NOT_OPENED, &why),
            }
        }
        if let Some(path) = self.report_wanted.take() {
            self.begin_report(ctx, path);
        }
        self.look_after_report();
        let now_s = self.stopwatch.now_s();
        let Some(place) = &mut self.audit else {
            if self.audit_job.is_some() {
                ctx.request_repaint_after(Duration::from_millis(100));
            }
            return;
        };
        place.drawn.collect();
        let mut view = std::mem::take(&mut place.view);
        let runs = (place.replay()).is_some_and(|found| view.follow(found, now_s));
        place.view = view;
        place.look_closely(ctx);
        if runs {
            ctx.request_repaint_after(Duration::from_millis(33));
        } else if place.is_busy() || self.audit_job.is_some() {
            ctx.request_repaint_after(Duration::from_millis(100));
        }
    }

    fn audit_trouble(&mut self, title: &str, why: &str) {
        self.dialog = Some(Dialog::Trouble {
            title: title.to_owned(),
            lines: why.lines().map(str::to_owned).collect(),
        });
    }

    fn begin_report(&mut self, ctx: &Context, path: PathBuf) {
        let Some(place) = &mut self.audit else {
            return;
        };
        if let Some(input) = input_at(&place.path, &place.audit().inputs, &path) {
            let why = words::is_input(&path.display().to_string(), &input.what);
            self.audit_trouble(words::NOT_WRITTEN, &why);
            return;
        }
        let as_what = (place.paper, has_ending(&path, &["svg"]));
        match Saving::begin(ctx, path, &place.seen, as_what) {
            Ok(saving) => place.saving = Some(saving),
            Err(error) => self.audit_trouble(words::NOT_WRITTEN, &error.to_string()),
        }
    }

    /// Tells that a report was written, or was not.
    fn look_after_report(&mut self) {
        let saving = (self.audit.as_mut()).and_then(|place| {
            let written = place.saving.as_ref()?.collect()?;
            Some((place.saving.take()?, written))
        });
        match saving {
            None => {}
            Some((saving, Ok(()))) => {
                self.notice = Some(words::written(&saving.path.display().to_string()));
            }
            Some((_, Err(why))) => self.audit_trouble(words::NOT_WRITTEN, &why),
        }
    }

    pub(in super::super) fn audit_command(&mut self, command: AuditCommand) {
        match command {
            AuditCommand::Leave => {
                self.audit = None;
                return;
            }
            AuditCommand::GiveUp => {
                self.audit_job = None;
                return;
            }
            AuditCommand::Another => {
                self.ask_for_record();
                return;
            }
            _ => {}
        }
        let now_s = self.stopwatch.now_s();
        let Some(place) = &mut self.audit else {
            return;
        };
        match command {
            AuditCommand::Leave | AuditCommand::GiveUp | AuditCommand::Another => {}
            AuditCommand::Show(look) => {
                place.look = look;
                place.page = 0;
                if look != Look::OverTime {
                    place.view.stop();
                }
            }
            AuditCommand::Account(account) => place.account = account,
            AuditCommand::Page(page) => place.page = page,
            AuditCommand::Paper(paper) => {
                place.paper = paper;
                place.page = 0;
            }
            AuditCommand::Save => {
                let folder = place.path.parent().map(Path::to_owned);
                let folder = folder.unwrap_or_else(|| self.folder());
                let list = FileList::of(Purpose::AuditReport, &folder, words::FILE_NAME, None);
                self.ask_for_file(list);
            }
            AuditCommand::Time(asked) => {
                let mut view = std::mem::take(&mut place.view);
                if let Some(looked) = place.looked() {
                    view.run(asked, &looked, now_s);
                }
                place.view = view;
            }
        }
    }
}
