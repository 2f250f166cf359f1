//! Opening, saving, closing, a new boat.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::super::actions::Action;
use super::super::drawn::DrawingChoice;
use super::super::editor::with_a_trip;
use super::super::files::{Dialog, FileList, NewBoat, Next, Purpose, Versions, is_photo};
use super::super::versions::{self, Version};
use super::super::{Editor, words};
use crate::layout::{Cylinder, Edit, Placing, Plan, Thing};

/// What was asked for about files.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum FileCommand {
    /// Open this file.
    Open(PathBuf),
    /// Look up what is on the layer of a drawing that was chosen.
    LookUpDrawing(Box<DrawingChoice>),
    /// Ask for a file.
    AskForFile(FileList),
    /// Do not wait for the dialog outside; go on in the built-in one?
    LeaveOutside(bool),
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
    /// Go on with the plan as it is here, although the file was changed elsewhere.
    KeepOurs,
    /// Read the file again that somebody else changed.
    ReadAgain(PathBuf),
    /// Keep the plan under this name.
    KeepVersion(String),
    /// Go back to a version.
    BackTo(Version),
    /// Read a list of cylinders.
    ReadList(PathBuf),
    /// Put these cylinders aboard.
    PutAboard(Vec<Cylinder>),
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
            Action::Versions if self.file.path().is_none() => {
                self.ask_where_to_save(Some(Next::Versions));
            }
            Action::Versions => self.show_versions(None),
            Action::CylinderList => self.dialog = Some(Dialog::CylinderList(String::new())),
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
                self.ask_for_file(FileList::of(Purpose::Open, &folder, "", None));
            }
            Next::Open(path) => self.open_file(&path),
            Next::Versions => self.show_versions(None),
            Next::NewBoat => self.dialog = Some(Dialog::NewBoat(NewBoat::default())),
        }
    }

    /// The folder of the file, or the one the program was started in.
    pub(in super::super) fn folder(&self) -> PathBuf {
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
            Err(err) => self.trouble(words::NOT_OPENED, &err.to_string()),
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
        self.ask_for_file(list);
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
            let saving = true;
            self.dialog = Some(Dialog::ChangedOnDisk { path, saving, then });
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
            Err(err) => self.trouble(words::NOT_SAVED, &err.to_string()),
        }
    }

    pub(super) fn file_command(&mut self, ui: &egui::Ui, command: FileCommand) {
        match command {
            FileCommand::Open(path) if is_drawing(&path) => self.read_drawing(ui.ctx(), path),
            FileCommand::Open(path) if is_photo(&path) => self.open_photo(ui, path),
            FileCommand::Open(path) => self.ask_then(ui, Next::Open(path)),
            FileCommand::LookUpDrawing(choice) => self.look_up_drawing(ui.ctx(), *choice),
            FileCommand::AskForFile(list) => self.ask_for_file(list),
            FileCommand::LeaveOutside(built_in) => self.leave_outside(built_in),
            FileCommand::Chosen(list) => {
                let Some(path) = list.chosen() else { return };
                match list.purpose {
                    Purpose::Open => self.go_on(ui, Next::Open(path)),
                    Purpose::Save => self.save_to(ui, path, list.then),
                    Purpose::CylinderList => self.read_list(&path),
                    Purpose::Drawing => self.read_drawing(ui.ctx(), path),
                    Purpose::Photo => self.open_photo(ui, path),
                    Purpose::MotionLog if self.replay.is_some() => self.replay_log(&path),
                    Purpose::MotionLog => self.read_log(ui.ctx(), &path),
                    Purpose::Sheet => self.write_sheet(ui.ctx(), &path),
                    Purpose::Brief(output) => self.write_briefing(ui.ctx(), &path, output),
                    Purpose::AuditRecord => self.open_record(&path),
                    Purpose::AuditReport => self.write_report(&path),
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
            FileCommand::KeepOurs => {
                self.dialog = None;
                self.file.seen_on_disk();
            }
            FileCommand::ReadAgain(path) => self.read_again(path),
            FileCommand::KeepVersion(name) => {
                let kept =
                    (self.file.path()).map(|file| versions::keep(file, &name, self.history.plan()));
                let trouble = kept.and_then(Result::err);
                if trouble.is_none() {
                    self.notice = Some(words::version_kept(name.trim()));
                }
                self.show_versions(trouble);
            }
            FileCommand::BackTo(version) => self.back_to(&version),
            FileCommand::ReadList(path) => self.read_list(&path),
            FileCommand::PutAboard(cylinders) => self.put_aboard(cylinders),
            FileCommand::TakeLeftBehind(plan) => {
                self.dialog = None;
                let plan = with_a_trip(*plan);
                self.history.replace(words::STEP_LEFT_BEHIND, plan);
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

    /// Reads the file again; the plan as it was here can be had back by undoing that.
    fn read_again(&mut self, path: PathBuf) {
        match crate::store::read(&path) {
            Ok(plan) => {
                self.history
                    .replace(words::STEP_READ_AGAIN, with_a_trip(plan));
                self.keeping.drop_work(self.file.path());
                self.notice = Some(words::opened(&path.display().to_string()));
                self.file.saved(path, Arc::clone(self.history.plan()));
                self.dialog = None;
            }
            Err(err) => self.trouble(words::NOT_OPENED, &err.to_string()),
        }
    }

    /// Asks which plan counts if somebody else changed the file.
    pub(in super::super) fn look_at_disk(&mut self) {
        let Some(path) = self.file.path().map(Path::to_owned) else {
            return;
        };
        if self.dialog.is_none() && self.file.is_changed_on_disk(&path) {
            self.dialog = Some(Dialog::ChangedOnDisk {
                path,
                saving: false,
                then: None,
            });
        }
    }

    fn show_versions(&mut self, trouble: Option<String>) {
        let list = self.file.path().map(versions::of).unwrap_or_default();
        self.dialog = Some(Dialog::Versions(Versions {
            name: String::new(),
            list,
            trouble,
        }));
    }

    /// Goes back to a version, as one step.
    fn back_to(&mut self, version: &Version) {
        match crate::store::read(&version.path) {
            Ok(plan) => {
                self.history
                    .replace(words::step_back_to(&version.name), with_a_trip(plan));
                self.dialog = None;
            }
            Err(err) => self.trouble(words::NOT_OPENED, &err.to_string()),
        }
    }

    fn read_list(&mut self, path: &Path) {
        match std::fs::read_to_string(path) {
            Ok(text) => self.dialog = Some(Dialog::CylinderList(text)),
            Err(err) => self.trouble(words::NOT_OPENED, &err.to_string()),
        }
    }

    /// Puts cylinders aboard as one step. One that is aboard already stays where it is, unless the list
    /// has a slot for it.
    fn put_aboard(&mut self, cylinders: Vec<Cylinder>) {
        self.dialog = None;
        let Some(trip) = self.trip() else { return };
        let count = cylinders.len();
        let edits = cylinders.into_iter().map(|mut cylinder| {
            let old = trip.cylinder(&cylinder.id);
            if let Some(old) = old.filter(|_| cylinder.placing == Placing::Ashore) {
                cylinder.placing = old.placing.clone();
            }
            Edit::Put {
                trip: Some(trip.id.clone()),
                thing: Box::new(Thing::Cylinder(cylinder)),
            }
        });
        let edits: Vec<Edit> = edits.collect();
        self.step(words::step_put_aboard(count), &edits, None);
    }

    fn trouble(&mut self, title: &str, text: &str) {
        self.dialog = Some(Dialog::Trouble {
            title: title.to_owned(),
            lines: text.lines().map(str::to_owned).collect(),
        });
    }

    /// Asks about unsaved work that a crash or a power cut left behind.
    pub(in super::super) fn look_for_work_left_behind(&mut self) {
        let saved = self.file.saved_plan();
        match self.keeping.left_behind(self.file.path(), saved) {
            None => {}
            Some(Ok(plan)) => self.dialog = Some(Dialog::LeftBehind(Box::new(plan))),
            Some(Err(why)) => self.trouble(words::LEFT_BEHIND_TORN, &why),
        }
    }
}

/// Is this a drawing rather than a deck plan?
fn is_drawing(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("dxf"))
}
