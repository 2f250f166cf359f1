//! The file that the plan is in, and the questions that go with files.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::briefing::Output;
use super::by_two_tapes::TwoTapes;
use super::day::DayDialog;
use super::decks::AnotherDeck;
use super::drawn::DrawingChoice;
use super::keeping::fingerprint;
use super::survey::DeckSurvey;
use super::underlay::PhotoChoice;
use super::versions::Version;
use crate::layout::Plan;
use crate::units::{Quantity, System};

/// The file that the plan is in, and what was last saved.
#[derive(Debug)]
pub(crate) struct FileState {
    path: Option<PathBuf>,
    saved: Arc<Plan>,

    /// What the file has in it, as far as this window knows.
    known: Option<u64>,
}

impl FileState {
    /// As just opened or begun.
    pub(crate) fn new(path: Option<PathBuf>, saved: Arc<Plan>) -> Self {
        let known = path.as_deref().and_then(fingerprint);
        Self { path, saved, known }
    }

    /// Did somebody else change the file since it was read or saved?
    pub(crate) fn is_changed_on_disk(&self, path: &Path) -> bool {
        if self.path.as_deref() != Some(path) {
            return false;
        }
        let now = fingerprint(path);
        now.is_some() && now != self.known
    }

    /// What somebody else wrote there is known now, and ours is kept all the same.
    pub(crate) fn seen_on_disk(&mut self) {
        self.known = self.path.as_deref().and_then(fingerprint);
    }

    /// The plan as it was read or saved last.
    pub(crate) fn saved_plan(&self) -> &Plan {
        &self.saved
    }

    /// Is the plan another one than what was saved?
    pub(crate) fn is_changed(&self, plan: &Arc<Plan>) -> bool {
        !Arc::ptr_eq(&self.saved, plan) && self.saved != *plan
    }

    /// Where it is.
    pub(crate) fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Its name, without the folder.
    pub(crate) fn name(&self) -> Option<String> {
        let name = self.path.as_ref()?.file_name()?;
        Some(name.to_string_lossy().into_owned())
    }

    /// It was saved there.
    pub(crate) fn saved(&mut self, path: PathBuf, plan: Arc<Plan>) {
        self.known = fingerprint(&path);
        self.path = Some(path);
        self.saved = plan;
    }
}

/// What comes after the question for unsaved changes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Next {
    /// The window closes.
    Close,
    /// Another file is chosen.
    ChooseFile,
    /// This file is opened.
    Open(PathBuf),
    /// A new boat is asked for.
    NewBoat,
    /// The versions that were kept are shown.
    Versions,
}

/// A question over the window.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Dialog {
    /// Save what was changed?
    Unsaved {
        /// What was asked for.
        next: Next,
    },

    /// Name, length and beam of a new boat.
    NewBoat(NewBoat),

    /// Which file?
    Files(FileList),

    /// A file is being asked for in a dialog of the desktop.
    AskedOutside,

    /// Something went wrong: what, where, and what to do.
    Trouble {
        /// What was tried.
        title: String,
        /// What went wrong, line by line.
        lines: Vec<String>,
    },

    /// The keys for every action.
    Shortcuts,

    /// Unsaved work was left behind: take it?
    LeftBehind(Box<Plan>),

    /// Somebody else changed the file since: which of the two counts?
    ChangedOnDisk {
        /// The file.
        path: PathBuf,
        /// Was this found on saving?
        saving: bool,
        /// What comes after saving.
        then: Option<Next>,
    },

    /// Who takes it on, and why?
    TakeOn {
        /// Which finding, by its place in the list.
        finding: usize,
        /// Who, as typed.
        by: String,
        /// Why, as typed.
        reason: String,
    },

    /// The deck as tape readings, as typed.
    DeckByTape(Box<DeckSurvey>),

    /// Something built onto the deck, by two tapes to each corner.
    ByTwoTapes(Box<TwoTapes>),

    /// A drawing or a photo with this name is being read.
    Reading(String),

    /// The deck from a drawing.
    DeckFromDrawing(Box<DrawingChoice>),

    /// The points of a photo that is to lie beneath the plan.
    Photo(Box<PhotoChoice>),

    /// Something about the day.
    Day(DayDialog),

    /// How many copies, and how far apart?
    Row(RowOfCopies),

    /// Name, height and first shape of one more deck.
    AnotherDeck(AnotherDeck),

    /// What is looked for on the plan, as typed.
    Find(String),

    /// The versions that were kept.
    Versions(Versions),

    /// The steps that were done and undone.
    Steps,

    /// A list of cylinders from a spreadsheet, as pasted or read.
    CylinderList(String),
}

/// The versions that were kept, and the name of the next one as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Versions {
    /// The name as typed.
    pub(crate) name: String,
    /// The versions, the latest first.
    pub(crate) list: Vec<Version>,
    /// Why the last one was not kept.
    pub(crate) trouble: Option<String>,
}

/// What is asked of a row of copies, as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct RowOfCopies {
    /// How many in all along the boat.
    pub(crate) forward: u32,
    /// How many in all athwartships.
    pub(crate) across: u32,
    /// How far apart along the boat.
    pub(crate) forward_m: String,
    /// How far apart athwartships.
    pub(crate) across_m: String,
}

impl RowOfCopies {
    /// Four in a row, a hand's breadth between usual cylinders.
    pub(crate) fn of(system: System) -> Self {
        let apart = Quantity::Length.show(0.3, system);
        Self {
            forward: 4,
            across: 1,
            forward_m: apart.clone(),
            across_m: apart,
        }
    }
}

impl Dialog {
    /// Asks for unsaved changes before something else.
    pub(crate) fn unsaved(next: Next) -> Self {
        Self::Unsaved { next }
    }
}

/// What is asked of a new boat, as typed.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub(crate) struct NewBoat {
    /// Its name.
    pub(crate) name: String,
    /// Length overall.
    pub(crate) length: String,
    /// Greatest beam.
    pub(crate) beam: String,
}

/// Is a file opened, or saved?
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// Opened.
    Open,
    /// Saved.
    Save,
    /// A list of cylinders is read.
    CylinderList,
    /// A drawing is read.
    Drawing,
    /// A photo is read.
    Photo,
    /// A motion log is read.
    MotionLog,
    /// A measuring sheet is written.
    Sheet,
    /// Something of the brief is written.
    Brief(Output),
    /// An audit record is read.
    AuditRecord,
    /// The report of an audit is written.
    AuditReport,
}

impl Purpose {
    /// Is a file written, rather than read?
    pub(crate) fn writes(self) -> bool {
        matches!(
            self,
            Self::Save | Self::Sheet | Self::Brief(_) | Self::AuditReport
        )
    }

    /// How the names of its files end.
    pub(crate) fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Open | Self::Save | Self::AuditRecord => &["json"],
            Self::CylinderList | Self::MotionLog => &["csv", "tsv", "txt"],
            Self::Drawing => &["dxf"],
            Self::Photo => &["jpeg", "jpg", "png"],
            Self::Sheet | Self::AuditReport => &["pdf", "svg"],
            Self::Brief(output) => output.endings(),
        }
    }
}

/// A folder of which a file is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct FileList {
    /// What for.
    pub(crate) purpose: Purpose,
    /// The folder.
    pub(crate) folder: PathBuf,
    /// The name as typed or clicked.
    pub(crate) name: String,
    /// The folders in it.
    pub(crate) folders: Vec<String>,
    /// The deck plans in it.
    pub(crate) files: Vec<String>,
    /// Why the folder cannot be read.
    pub(crate) trouble: Option<String>,
    /// What comes after saving, if closing or opening waits for it.
    pub(crate) then: Option<Next>,
}

impl FileList {
    /// Lists a folder.
    pub(crate) fn of(purpose: Purpose, folder: &Path, name: &str, then: Option<Next>) -> Self {
        let mut list = Self {
            purpose,
            folder: folder.to_owned(),
            name: name.to_owned(),
            folders: Vec::new(),
            files: Vec::new(),
            trouble: None,
            then,
        };
        match std::fs::read_dir(folder) {
            Ok(entries) => {
                for entry in entries.flatten() {
                    let name = entry.file_name().to_string_lossy().into_owned();
                    let path = entry.path();
                    if name.starts_with('.') {
                        continue;
                    }
                    if path.is_dir() {
                        list.folders.push(name);
                    } else if has_ending(&path, purpose.endings()) {
                        list.files.push(name);
                    }
                }
            }
            Err(err) => list.trouble = Some(err.to_string()),
        }
        list.folders.sort_by_key(|name| name.to_lowercase());
        list.files.sort_by_key(|name| name.to_lowercase());
        list
    }

    /// The same question in another folder.
    pub(crate) fn elsewhere(&self, folder: &Path) -> Self {
        let name = match self.purpose {
            Purpose::Open
            | Purpose::CylinderList
            | Purpose::Drawing
            | Purpose::Photo
            | Purpose::MotionLog
            | Purpose::AuditRecord => "",
            Purpose::Save | Purpose::Sheet | Purpose::Brief(_) | Purpose::AuditReport => &self.name,
        };
        Self::of(self.purpose, folder, name, self.then.clone())
    }

    /// The file that is meant; a name without an ending gets the usual one.
    pub(crate) fn chosen(&self) -> Option<PathBuf> {
        let name = self.name.trim();
        if name.is_empty() {
            return None;
        }
        let mut path = self.folder.join(name);
        if self.purpose.writes()
            && path.extension().is_none()
            && let Some(ending) = self.purpose.endings().first()
        {
            path.set_extension(ending);
        }
        Some(path)
    }
}

/// Does the file's name end like one of these?
pub(crate) fn has_ending(path: &Path, endings: &[&str]) -> bool {
    let ending = path.extension().map(std::ffi::OsStr::to_ascii_lowercase);
    ending.is_some_and(|ending| endings.iter().any(|wanted| ending == *wanted))
}

/// Is this a photo by its name?
pub(crate) fn is_photo(path: &Path) -> bool {
    has_ending(path, Purpose::Photo.endings())
}

/// Is this a list from a spreadsheet by its name?
pub(crate) fn is_list(path: &Path) -> bool {
    has_ending(path, Purpose::CylinderList.endings())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_lists_its_deck_plans_and_folders() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["b.json", "A.json", "notes.txt", ".hidden.json"] {
            crate::store::write_atomic(&folder.path().join(name), b"{}").unwrap();
        }
        std::fs::create_dir(folder.path().join("old")).unwrap();
        let list = FileList::of(Purpose::Save, folder.path(), "deck", None);
        assert_eq!(list.files, ["A.json", "b.json"]);
        assert_eq!(list.folders, ["old"]);
        assert_eq!(list.chosen().unwrap(), folder.path().join("deck.json"));
        let none = list.elsewhere(&folder.path().join("nowhere"));
        assert!(none.trouble.is_some(), "{none:?}");
    }
}
