//! The words of questions over the window.

use super::super::briefing::Output;
use super::super::files::Purpose;

pub(crate) const UNSAVED: &str = "Save the changes first?";
pub(crate) const SAVE_FIRST: &str = "Save";
pub(crate) const DROP_CHANGES: &str = "Drop the changes";
pub(crate) const GO_BACK: &str = "Go back";
pub(crate) const NEW_BOAT: &str = "A new boat";
pub(crate) const NEW_BOAT_HELP: &str = "Length and beam are enough to begin: the deck is drawn from them, and everything else, the name too, can come later. 11.5, 38 ft and 37 ft 9 in are all understood.";
pub(crate) const BOAT_NAME: &str = "The boat's name";
pub(crate) const BOAT_LENGTH: &str = "Length overall";
pub(crate) const BOAT_BEAM: &str = "Beam";
pub(crate) const BEGIN: &str = "Begin";
pub(crate) const OPEN: &str = "Open a deck plan";
pub(crate) const SAVE_AS: &str = "Save the deck plan";
pub(crate) const OUTSIDE: &str = "Choose the file in the dialog of the desktop";
pub(crate) const OUTSIDE_HELP: &str =
    "It is open beside this window, perhaps behind it. The plan waits for it.";
pub(crate) const NOBODY_KNOWS_HOW_FAR: &str = "This takes a moment; a large photo a few.";
pub(crate) const GIVE_UP: &str = "Give it up";
pub(crate) const BUILT_IN_INSTEAD: &str = "Use the built-in dialog instead";
pub(crate) const DIALOGS_BUILT_IN: &str = "Files are chosen in the built-in dialog from now on.";
pub(crate) const DIALOGS_DESKTOP: &str =
    "Files are chosen in the desktop's own dialogs from now on, where it has them.";
pub(crate) const NOT_SHOWN: &str =
    "The desktop showed no dialog: here is the built-in one. Look, Built-in file dialogs keeps it.";
pub(crate) const OPEN_IT: &str = "Open this one";
pub(crate) const SAVE_IT: &str = "Save it here";
pub(crate) const FILE_NAME: &str = "File name";
pub(crate) const FOLDER_ABOVE: &str = "Folder above";
pub(crate) const EMPTY_FOLDER: &str = "No deck plans in this folder.";
pub(crate) const WILL_REPLACE: &str = "This file is there already and will be replaced.";
pub(crate) const UNDERSTOOD: &str = "Close this";
pub(crate) const COPY_TEXT: &str = "Copy the text";
pub(crate) const KEYS: &str = "Keys for every action";
pub(crate) const POINTER: &str = "Pointer";
pub(crate) const POINTER_LINES: [&str; 7] = [
    "Drag a thing to move it; with Alt it goes freely, without whole centimetres",
    "Click again on the same place, twice quickly, for the thing below",
    "Shift and click adds to what is selected",
    "Drag on empty deck draws a band round things",
    "Drag on the water, drag with the middle button, or hold Space and drag, to shift the plan",
    "The wheel shows the plan larger or smaller at the pointer",
    "The other button shows what can be done with a thing",
];

pub(crate) const LEFT_BEHIND: &str = "Unsaved work was left behind";
pub(crate) const TAKE_IT: &str = "Go on with it";
pub(crate) const DROP_IT: &str = "Drop it";
pub(crate) const CHANGED_ON_DISK: &str = "The file was changed elsewhere";
pub(crate) const WRITE_OVER: &str = "Write over it";
pub(crate) const CHANGED_ON_DISK_HELP: &str =
    "Reading it again puts the other plan in place of this one as a step that can be undone.";
pub(crate) const READ_AGAIN: &str = "Read it again";
pub(crate) const KEEP_OURS: &str = "Keep this one";
pub(crate) const VERSIONS: &str = "Versions kept";
pub(crate) const VERSIONS_HELP: &str = "Keep the plan as it is now under a name, such as: as of this morning. Going back to one is a step that can be undone. They lie in a folder beside the file, each a deck plan of its own.";
pub(crate) const VERSION_NAME: &str = "Name of this version";
pub(crate) const KEEP_VERSION: &str = "Keep it";
pub(crate) const NO_VERSIONS: &str = "None was kept yet.";
pub(crate) const GO_BACK_TO_IT: &str = "Go back to it";
pub(crate) const NO_SUCH_NAME: &str =
    "A version cannot be called that: letters, digits, spaces and - _ . , ( ) only.";
pub(crate) const STEPS: &str = "Steps";
pub(crate) const STEPS_HELP: &str =
    "Press one to go back or forward to where it was just done; nothing is lost by looking.";
pub(crate) const AT_FIRST: &str = "As it was opened";
pub(crate) const CYLINDER_LIST: &str = "Cylinder list";
pub(crate) const CYLINDER_LIST_HELP: &str = "Paste cells from a spreadsheet, headings first: number and kind at least; gas, pressure, fill, slot, rack, boot, diver if you have them. A cylinder that is aboard already stays where it is unless the list has a slot for it.";
pub(crate) const CYLINDER_LIST_SAMPLE: &str =
    "number,kind,gas,pressure,slot\n12,al-80cf,air,200 bar,P1";
pub(crate) const LIST_NAME: &str = "list";
pub(crate) const PUT_ABOARD: &str = "Put them aboard";
pub(crate) const FROM_FILE: &str = "From a file…";
pub(crate) const OPEN_LIST: &str = "Open a cylinder list";
pub(crate) const SAVE_ELSEWHERE: &str = "Save as…";
pub(crate) const TAKE_ON: &str = "Take it on";
pub(crate) const TAKE_ON_HELP: &str =
    "It stays in the list, with your name and reason, and is kept in the file.";
pub(crate) const TAKEN_BY: &str = "Taken on by";
pub(crate) const REASON: &str = "Because";
pub(crate) const TAKE_IT_ON: &str = "Take on";
pub(crate) const DECK_BY_TAPE: &str = "The deck by tape";
pub(crate) const DECK_BY_TAPE_HELP: &str = "From the stern forward, one reading per line: how far from the stern; half the width there; half the width to starboard, if it is another. End with half-width 0 at the stem.";
pub(crate) const DRAW_DECK: &str = "Draw the deck so";
pub(crate) const ROW: &str = "Copies in a row or a grid";
pub(crate) const ROW_HELP: &str = "The old one counts. Negative distances go aft, or to starboard.";
pub(crate) const FORWARD: &str = "In all along the boat";
pub(crate) const FORWARD_APART: &str = "apart along the boat";
pub(crate) const ACROSS: &str = "In all athwartships";
pub(crate) const ACROSS_APART: &str = "apart athwartships";
pub(crate) const PUT_THEM: &str = "Put them there";

/// See the text.
pub(crate) fn left_behind(boat: &str) -> String {
    format!("The window did not close as it should last time. The unsaved work on {boat} was kept.")
}

/// See the text.
pub(crate) fn changed_on_disk(path: &str) -> String {
    format!("Somebody or something has changed {path} since it was opened here.")
}

/// See the text.
pub(crate) fn two_readings(line: usize) -> String {
    format!("Line {line}: write two readings, as in 6.0; 2.1")
}

/// See the text.
pub(crate) fn in_line(line: usize, why: &str) -> String {
    format!("Line {line}: {why}")
}

/// See the text.
pub(crate) fn unsaved_help(file: Option<&str>) -> String {
    match file {
        Some(file) => format!("There are changes that are not in {file}."),
        None => "This deck plan is in no file yet.".to_owned(),
    }
}

/// See the text.
pub(crate) fn out_of_range(value: &str, least: &str, most: &str) -> String {
    format!("{value} is not between {least} and {most}")
}

/// See the text.
pub(crate) fn folder_trouble(why: &str) -> String {
    format!("This folder cannot be read: {why}. Go to the folder above, or type another place.")
}

/// A folder in a list.
pub(crate) fn folder(name: &str) -> String {
    format!("{name}/")
}

/// See the text.
pub(crate) fn name_is_taken(name: &str) -> String {
    format!("A version called {name} was kept already; it stays as it is.")
}

/// See the text.
pub(crate) fn back_to(name: &str) -> String {
    format!("Go back to {name}")
}

/// "3. Move P6".
pub(crate) fn numbered(number: usize, step: &str) -> String {
    format!("{number}. {step}")
}

/// "5 min ago".
pub(crate) fn ago(seconds: u64) -> String {
    match seconds {
        0..60 => "just now".to_owned(),
        60..3600 => format!("{} min ago", seconds / 60),
        3600..86_400 => format!("{} h ago", seconds / 3600),
        _ => format!("{} days ago", (seconds / 86_400).max(1)),
    }
}

/// See the text.
pub(crate) fn list_has(count: usize, known: usize, ashore: usize) -> String {
    format!("{count} cylinders, {known} of them aboard already; {ashore} stay ashore until placed.")
}

pub(crate) fn reading(name: &str) -> String {
    format!("Reading {name}…")
}

/// What a question for a file is called.
pub(crate) fn choose(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Open => OPEN,
        Purpose::Save => SAVE_AS,
        Purpose::CylinderList => OPEN_LIST,
        Purpose::Drawing => super::survey::CHOOSE_DRAWING,
        Purpose::Photo => super::underlay::CHOOSE_PHOTO,
        Purpose::MotionLog => super::motion_log::CHOOSE,
        Purpose::Sheet => super::survey::SAVE_SHEET,
        Purpose::Brief(output) => super::briefing::save(output),
        Purpose::AuditRecord => super::audit::CHOOSE_RECORD,
        Purpose::AuditReport => super::audit::SAVE_REPORT,
    }
}

/// What sort of files a desktop's dialog lists.
pub(crate) fn kind_of_files(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Open | Purpose::Save => "Deck plans",
        Purpose::CylinderList => "Lists from a spreadsheet",
        Purpose::Drawing => "Drawings",
        Purpose::Photo => "Photos and scans",
        Purpose::MotionLog => "Motion logs",
        Purpose::Sheet | Purpose::AuditReport => "Pages to print",
        Purpose::AuditRecord => "Audit records",
        Purpose::Brief(Output::LoadList | Output::LashingList) => "Lists for a spreadsheet",
        Purpose::Brief(_) => "Pages and pictures",
    }
}
