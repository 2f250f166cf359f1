//! Files, the question for unsaved changes, a new boat.

use std::path::Path;
use std::sync::{Arc, Mutex};

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, FileAnswer, FileChooser, FileQuestion, TellAnswer};
use snugdown::layout::Plan;

use crate::support::{on_screen, press_label, press_step, window, window_of};

fn place_something(harness: &mut Harness<'static, Editor>) {
    press_label(harness, "Pad eye");
    let at = on_screen(harness, 3.0, 1.0);
    crate::support::click_at(harness, at);
    harness.key_press(Key::Escape);
    harness.run();
}

fn saved(folder: &Path) -> std::path::PathBuf {
    let path = folder.join("boat.json");
    snugdown::store::save(&Plan::new("Saved", 9.0, 3.0), &path).unwrap();
    path
}

fn ctrl(harness: &mut Harness<'static, Editor>, key: Key) {
    harness.key_press_modifiers(Modifiers::COMMAND, key);
    harness.run();
}

#[test]
fn a_change_is_saved_in_the_file_it_came_from() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let editor = Editor::open(&path).unwrap();
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    place_something(&mut harness);
    assert!(harness.state().has_unsaved_changes());
    ctrl(&mut harness, Key::S);
    assert!(!harness.state().has_unsaved_changes());
    let plan = snugdown::store::read(&path).unwrap();
    assert_eq!(plan.boat.lashing_points.len(), 1);
}

#[test]
fn a_new_boat_asks_for_name_length_and_beam_only() {
    let mut harness = window(Plan::new("Old", 9.0, 3.0));
    ctrl(&mut harness, Key::N);
    for (label, text) in [
        ("The boat's name", "Petrel"),
        ("Length overall", "38 ft"),
        ("Beam", "4,2"),
    ] {
        let field = harness.get_by_role_and_label(egui::Role::TextInput, label);
        field.focus();
        harness.run();
        let field = harness.get_by_role_and_label(egui::Role::TextInput, label);
        field.type_text(text);
        harness.run();
    }
    press_label(&mut harness, "Begin");
    let boat = &harness.state().plan().boat;
    assert_eq!(boat.name, "Petrel");
    assert!(
        (boat.length_overall_m - 11.5824).abs() < 1e-9,
        "{}",
        boat.length_overall_m
    );
    assert!((boat.beam_m - 4.2).abs() < 1e-9, "{}", boat.beam_m);
    assert!(
        !harness.state().has_unsaved_changes(),
        "nothing was done to it yet"
    );
}

#[test]
fn unsaved_changes_are_asked_for_before_another_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let editor = Editor::open(&path).unwrap();
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    place_something(&mut harness);
    ctrl(&mut harness, Key::N);
    harness.get_by_label("Save the changes first?");
    press_label(&mut harness, "Go back");
    assert_eq!(
        harness.state().plan().boat.lashing_points.len(),
        1,
        "nothing lost"
    );
    ctrl(&mut harness, Key::O);
    press_label(&mut harness, "Drop the changes");
    press_label(&mut harness, "boat.json");
    press_label(&mut harness, "Open this one");
    assert!(
        harness.state().plan().boat.lashing_points.is_empty(),
        "as in the file"
    );
    assert!(!harness.state().has_unsaved_changes());
}

#[test]
fn closing_asks_too_and_can_save_first() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let editor = Editor::open(&path).unwrap();
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    place_something(&mut harness);
    let root = harness
        .input_mut()
        .viewports
        .entry(egui::ViewportId::ROOT)
        .or_default();
    root.events.push(egui::ViewportEvent::Close);
    harness.step();
    let commands = &harness.output().viewport_output[&egui::ViewportId::ROOT].commands;
    assert!(
        commands.contains(&egui::ViewportCommand::CancelClose),
        "{commands:?}"
    );
    harness.run();
    press_step(&mut harness, "Save");
    let commands = &harness.output().viewport_output[&egui::ViewportId::ROOT].commands;
    assert!(
        commands.contains(&egui::ViewportCommand::Close),
        "{commands:?}"
    );
    let plan = snugdown::store::read(&path).unwrap();
    assert_eq!(plan.boat.lashing_points.len(), 1, "saved first");
}

#[test]
fn a_file_that_cannot_be_read_is_explained_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("broken.json");
    snugdown::store::write_atomic(&path, b"{\"version\": 1, \"boot\": {}}").unwrap();
    let good = saved(folder.path());
    let editor = Editor::open(&good).unwrap();
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    ctrl(&mut harness, Key::O);
    press_label(&mut harness, "broken.json");
    press_label(&mut harness, "Open this one");
    harness.get_by_label("The file was not opened");
    let told = harness.query_all_by_label_contains("broken.json:1").count();
    assert!(told > 0, "where it is wrong");
    press_label(&mut harness, "Close this");
    assert_eq!(harness.state().plan().boat.name, "Saved", "as it was");
}

#[test]
fn saving_a_boat_without_a_file_asks_where() {
    let folder = tempfile::tempdir().unwrap();
    let good = saved(folder.path());
    let editor = Editor::open(&good).unwrap();
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    harness.run();
    let field = harness.get_by_role_and_label(egui::Role::TextInput, "File name");
    field.focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    let field = harness.get_by_role_and_label(egui::Role::TextInput, "File name");
    field.type_text("other");
    harness.run();
    press_label(&mut harness, "Save it here");
    assert_eq!(
        harness.state().path().unwrap(),
        folder.path().join("other.json")
    );
    assert!(folder.path().join("other.json").exists());
}

/// A chooser of the desktop that answers when the test says so.
#[derive(Debug, Default, Clone)]
struct Fake(Arc<Mutex<Asked>>);

#[derive(Default)]
struct Asked {
    is_there: bool,
    question: Option<FileQuestion>,
    tell: Option<TellAnswer>,
}

impl std::fmt::Debug for Asked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Asked({:?})", self.question)
    }
}

impl FileChooser for Fake {
    fn is_there(&self) -> bool {
        self.0.lock().unwrap().is_there
    }

    fn ask(&self, question: &FileQuestion, tell: TellAnswer) {
        let mut asked = self.0.lock().unwrap();
        asked.question = Some(question.clone());
        asked.tell = Some(tell);
    }
}

impl Fake {
    fn there() -> Self {
        let fake = Self::default();
        fake.0.lock().unwrap().is_there = true;
        fake
    }

    fn question(&self) -> Option<FileQuestion> {
        self.0.lock().unwrap().question.take()
    }

    /// Answers from another thread, as desktops do.
    fn answer(&self, answer: FileAnswer) {
        let tell = self.0.lock().unwrap().tell.take().unwrap();
        let desktop = std::thread::Builder::new().name("desktop".to_owned());
        desktop.spawn(move || tell(answer)).unwrap().join().unwrap();
    }
}

const OUTSIDE: &str = "Choose the file in the dialog of the desktop";

/// A window on a saved boat that asks this chooser.
fn with_chooser(path: &Path, fake: &Fake) -> Harness<'static, Editor> {
    let mut editor = Editor::open(path).unwrap();
    editor.choose_files_with(Box::new(fake.clone()));
    window_of(editor, egui::vec2(1280.0, 800.0))
}

#[test]
fn the_dialog_of_the_desktop_is_asked_and_its_answer_taken() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let other = folder.path().join("other.json");
    snugdown::store::save(&Plan::new("Other", 7.0, 2.6), &other).unwrap();
    let fake = Fake::there();
    let mut harness = with_chooser(&path, &fake);
    ctrl(&mut harness, Key::O);
    harness.get_by_label(OUTSIDE);
    let question = fake.question().unwrap();
    assert_eq!(question.folder, folder.path());
    assert_eq!(
        (question.writes, question.endings.as_slice()),
        (false, &["json"][..])
    );
    // Nothing is chosen after all.
    fake.answer(FileAnswer::GoneBack);
    harness.run();
    assert!(harness.query_by_label(OUTSIDE).is_none());
    assert_eq!(harness.state().plan().boat.name, "Saved");
    ctrl(&mut harness, Key::O);
    fake.answer(FileAnswer::Chosen(other));
    harness.run();
    assert_eq!(harness.state().plan().boat.name, "Other");
    assert!(harness.query_by_label(OUTSIDE).is_none());
    // It is asked again after another plan was opened; a name that is proposed goes along.
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    harness.run();
    let question = fake.question().unwrap();
    assert_eq!(
        (question.writes, question.name.as_str()),
        (true, "other.json")
    );
    fake.answer(FileAnswer::Chosen(folder.path().join("third")));
    harness.run();
    let third = snugdown::store::read(&folder.path().join("third.json")).unwrap();
    assert_eq!(third.boat.name, "Other", "with the usual ending");
}

#[test]
fn the_built_in_dialog_stands_in_wherever_the_desktop_has_none() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let fake = Fake::default();
    let mut harness = with_chooser(&path, &fake);
    ctrl(&mut harness, Key::O);
    assert!(fake.question().is_none(), "it is not there");
    harness.get_by_label("Open a deck plan");
    harness.key_press(Key::Escape);
    harness.run();
    fake.0.lock().unwrap().is_there = true;
    // None came: the built-in one, with a word.
    ctrl(&mut harness, Key::O);
    fake.answer(FileAnswer::NotShown);
    harness.run();
    harness.get_by_label("Open a deck plan");
    harness.key_press(Key::Escape);
    harness.run();
    // It hangs: the built-in one instead, and the late answer is not taken.
    ctrl(&mut harness, Key::O);
    press_label(&mut harness, "Use the built-in dialog instead");
    harness.get_by_label("Open a deck plan");
    fake.answer(FileAnswer::Chosen(folder.path().join("late.json")));
    harness.run();
    harness.get_by_label("Open a deck plan");
    harness.key_press(Key::Escape);
    harness.run();
    // Or always, by a setting.
    fake.question();
    ctrl(&mut harness, Key::F7);
    ctrl(&mut harness, Key::O);
    assert!(fake.question().is_none(), "not asked any more");
    harness.get_by_label("Open a deck plan");
}

#[test]
fn a_file_that_gets_its_ending_here_is_not_written_over_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let before = std::fs::read(&path).unwrap();
    let fake = Fake::there();
    let mut harness = with_chooser(&path, &fake);
    place_something(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    harness.run();
    // The desktop knows of no file called "boat", and so asked nothing.
    fake.answer(FileAnswer::Chosen(folder.path().join("boat")));
    harness.run();
    harness.get_by_label("This file is there already and will be replaced.");
    assert_eq!(
        std::fs::read(&path).unwrap(),
        before,
        "nothing is written yet"
    );
}
