//! Opening, saving, closing, a new boat.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::super::actions::Action;
use super::super::files::{Dialog, FileList, NewBoat, Next, Purpose};
use super::super::{Editor, words};
use crate::layout::{Edit, Plan};

/// What was asked for about files.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum FileCommand {
    /// Open this file.
    Open(PathBuf),
    /// A file was chosen.
    Chosen(FileList),
    /// Save, then go on.
    SaveFirst(Next),
    /// Go on without saving.
    DropChanges(Next),
    /// Begin a new boat.
    NewBoat {
        /// Its name.
        name: String,
        /// Length overall in metres.
        length_m: f64,
        /// Greatest beam in metres.
        beam_m: f64,
    },
    /// Write over a file that somebody else changed.
    WriteOver(PathBuf, Option<Next>),
    /// Go on with the work that was left behind.
    TakeLeftBehind(Box<Plan>),
    /// Drop it.
    DropLeftBehind,
    /// Ask this instead, or nothing more.
    Dialog(Option<Dialog>),
}

impl Editor {
    pub(super) fn file_action(&mut self, ui: &egui::Ui, action: Action) {
        match action {
            Action::New => self.ask_then(ui, Next::NewBoat),
            Action::Open => self.ask_then(ui, Next::ChooseFile),
            Action::Save => self.save(ui, None),
            Action::SaveAs => self.ask_where_to_save(None),
            Action::Quit => self.ask_then(ui, Next::Close),
            _ => {}
        }
    }

    /// Goes on at once, or after the question for unsaved changes.
    fn ask_then(&mut self, ui: &egui::Ui, next: Next) {
        if self.has_unsaved_changes() {
            self.dialog = Some(Dialog::unsaved(next));
        } else {
            self.go_on(ui, next);
        }
    }

    fn go_on(&mut self, ui: &egui::Ui, next: Next) {
        self.dialog = None;
        match next {
            Next::Close => {
                self.closing = true;
                ui.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            Next::ChooseFile => {
                let folder = self.folder();
                self.dialog = Some(Dialog::Files(FileList::of(
                    Purpose::Open,
                    &folder,
                    "",
                    None,
                )));
            }
            Next::Open(path) => self.open_file(&path),
            Next::NewBoat => self.dialog = Some(Dialog::NewBoat(NewBoat::default())),
        }
    }

    fn folder(&self) -> PathBuf {
        let of_file = self.file.path().and_then(Path::parent);
        let of_file = of_file.filter(|folder| !folder.as_os_str().is_empty());
        of_file.map_or_else(
            || std::env::current_dir().unwrap_or_default(),
            Path::to_owned,
        )
    }

    fn open_file(&mut self, path: &Path) {
        match crate::store::read(path) {
            Ok(plan) => {
                self.replace(plan, Some(path.to_owned()));
                self.settings.remember(path);
                self.look_for_work_left_behind();
                self.notice = Some(words::opened(&path.display().to_string()));
            }
            Err(err) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::NOT_OPENED.to_owned(),
                    lines: err.to_string().lines().map(str::to_owned).collect(),
                });
            }
        }
    }

    fn ask_where_to_save(&mut self, then: Option<Next>) {
        let name = self.file.name().unwrap_or_else(|| {
            let boat = self.history.plan().boat.name.trim().to_lowercase();
            let name: String = boat
                .chars()
                .map(|c| if c.is_alphanumeric() { c } else { '-' })
                .collect();
            format!("{name}.json")
        });
        let list = FileList::of(Purpose::Save, &self.folder(), &name, then);
        self.dialog = Some(Dialog::Files(list));
    }

    /// Saves in the plan's file, or asks where.
    fn save(&mut self, ui: &egui::Ui, then: Option<Next>) {
        match self.file.path().map(Path::to_owned) {
            Some(path) => self.save_to(ui, path, then),
            None => self.ask_where_to_save(then),
        }
    }

    fn save_to(&mut self, ui: &egui::Ui, path: PathBuf, then: Option<Next>) {
        if self.file.is_changed_on_disk(&path) {
            self.dialog = Some(Dialog::ChangedOnDisk { path, then });
            return;
        }
        self.write_to(ui, path, then);
    }

    /// Writes the plan, whatever is there.
    fn write_to(&mut self, ui: &egui::Ui, path: PathBuf, then: Option<Next>) {
        self.history.commit();
        let plan = Arc::clone(self.history.plan());
        match crate::store::save(&plan, &path) {
            Ok(()) => {
                self.keeping.drop_work(self.file.path());
                self.settings.remember(&path);
                self.notice = Some(words::saved(&path.display().to_string()));
                self.file.saved(path, plan);
                self.dialog = None;
                if let Some(next) = then {
                    self.go_on(ui, next);
                }
            }
            Err(err) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::NOT_SAVED.to_owned(),
                    lines: err.to_string().lines().map(str::to_owned).collect(),
                });
            }
        }
    }

    pub(super) fn file_command(&mut self, ui: &egui::Ui, command: FileCommand) {
        match command {
            FileCommand::Open(path) => self.ask_then(ui, Next::Open(path)),
            FileCommand::Chosen(list) => {
                let Some(path) = list.chosen() else { return };
                match list.purpose {
                    Purpose::Open => self.go_on(ui, Next::Open(path)),
                    Purpose::Save => self.save_to(ui, path, list.then),
                }
            }
            FileCommand::SaveFirst(next) => {
                self.dialog = None;
                self.save(ui, Some(next));
            }
            FileCommand::DropChanges(next) => {
                self.keeping.drop_work(self.file.path());
                self.go_on(ui, next);
            }
            FileCommand::WriteOver(path, then) => self.write_to(ui, path, then),
            FileCommand::TakeLeftBehind(plan) => {
                self.dialog = None;
                let label = words::STEP_LEFT_BEHIND.to_owned();
                self.history.begin(label);
                let plan = *plan;
                let mut edits = vec![Edit::SetBoat(Box::new(plan.boat))];
                edits.extend(
                    plan.trips
                        .into_iter()
                        .map(|trip| Edit::PutTrip(Box::new(trip))),
                );
                for edit in &edits {
                    if let Err(err) = self.history.apply(edit) {
                        self.notice = Some(err.to_string());
                    }
                }
                self.history.commit();
            }
            FileCommand::DropLeftBehind => {
                self.dialog = None;
                self.keeping.drop_work(self.file.path());
            }
            FileCommand::NewBoat {
                name,
                length_m,
                beam_m,
            } => {
                self.replace(Plan::new(&name, length_m, beam_m), None);
                self.notice = Some(words::NEW_BOAT_DONE.to_owned());
            }
            FileCommand::Dialog(dialog) => self.dialog = dialog,
        }
    }

    /// Asks about unsaved work that a crash or a power cut left behind.
    pub(in super::super) fn look_for_work_left_behind(&mut self) {
        let saved = self.file.saved_plan();
        let found = self.keeping.left_behind(self.file.path(), saved);
        if let Some(plan) = found {
            self.dialog = Some(Dialog::LeftBehind(Box::new(plan)));
        }
    }
}
