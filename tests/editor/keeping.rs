//! Keeping work: unsaved work after a crash, files changed elsewhere, versions, steps, recent files.

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::layout::Plan;

use crate::support::{click_at, drop_file, fill_in, on_screen, press_label, window_of};

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

fn saved(folder: &Path) -> PathBuf {
    let path = folder.join("boat.json");
    snugdown::store::save(&Plan::new("Saved", 9.0, 3.0), &path).unwrap();
    path
}

fn window(path: &Path) -> Harness<'static, Editor> {
    window_of(Editor::open(path).unwrap(), vec2(1280.0, 800.0))
}

fn keys(harness: &mut Harness<'static, Editor>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn place_something(harness: &mut Harness<'static, Editor>) {
    press_label(harness, "Pad eye");
    let at = on_screen(harness, 3.0, 1.0);
    click_at(harness, at);
    keys(harness, Modifiers::NONE, Key::Escape);
}

fn points(harness: &Harness<'static, Editor>) -> usize {
    harness.state().plan().boat.lashing_points.len()
}

/// Waits for a file to be there or gone, at most ten seconds.
fn wait_for(path: &Path, there: bool) {
    for _ in 0..1000 {
        if path.exists() == there {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    panic!("{} is there: {}", path.display(), !there);
}

#[test]
fn unsaved_work_is_asked_for_after_a_crash_and_gone_once_saved() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let kept = folder.path().join(".boat.json.unsaved");
    let mut editor = Editor::open(&path).unwrap();
    editor.keep_in(folder.path().join("settings"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    press_label(&mut harness, "Skip this");
    place_something(&mut harness);
    wait_for(&kept, true);
    // The window is gone without having been closed.
    drop(harness);

    let mut editor = Editor::open(&path).unwrap();
    editor.keep_in(folder.path().join("settings"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    assert!(
        harness.query_by_label("Skip this").is_none(),
        "the first round is over"
    );
    harness.get_by_label("Unsaved work was left behind");
    press_label(&mut harness, "Go on with it");
    assert_eq!(points(&harness), 1, "as it was");
    assert!(harness.state().has_unsaved_changes());
    keys(&mut harness, CTRL, Key::S);
    wait_for(&kept, false);
    assert_eq!(
        snugdown::store::read(&path).unwrap(),
        *harness.state().plan()
    );
}

#[test]
fn a_file_changed_elsewhere_is_noticed_when_the_window_is_back() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let mut harness = window(&path);
    place_something(&mut harness);
    harness.event(egui::Event::WindowFocused(true));
    harness.run();
    let question = "The file was changed elsewhere";
    assert!(harness.query_by_label(question).is_none(), "nobody did");
    snugdown::store::save(&Plan::new("Theirs", 8.0, 3.0), &path).unwrap();
    harness.event(egui::Event::WindowFocused(true));
    harness.run();
    harness.get_by_label(question);
    press_label(&mut harness, "Read it again");
    assert_eq!(harness.state().plan().boat.name, "Theirs");
    assert!(!harness.state().has_unsaved_changes());
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(points(&harness), 1, "ours is one step back");

    snugdown::store::save(&Plan::new("Theirs again", 8.0, 3.0), &path).unwrap();
    for _ in 0..2 {
        harness.event(egui::Event::WindowFocused(true));
        harness.run();
        if harness.query_by_label("Keep this one").is_some() {
            press_label(&mut harness, "Keep this one");
        }
    }
    assert!(harness.query_by_label(question).is_none(), "asked once");
    assert_eq!(points(&harness), 1, "ours is kept");
}

#[test]
fn saving_over_a_file_changed_elsewhere_asks() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let mut harness = window(&path);
    place_something(&mut harness);
    snugdown::store::save(&Plan::new("Theirs", 8.0, 3.0), &path).unwrap();
    keys(&mut harness, CTRL, Key::S);
    assert_eq!(snugdown::store::read(&path).unwrap().boat.name, "Theirs");
    press_label(&mut harness, "Go back");
    assert!(harness.state().has_unsaved_changes(), "nothing was written");
    keys(&mut harness, CTRL, Key::S);
    press_label(&mut harness, "Write over it");
    assert_eq!(snugdown::store::read(&path).unwrap().boat.name, "Saved");
    assert!(!harness.state().has_unsaved_changes());
}

#[test]
fn a_version_is_kept_and_gone_back_to_as_one_step() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let mut harness = window(&path);
    keys(&mut harness, CTRL_SHIFT, Key::K);
    fill_in(&mut harness, "Name of this version", "this morning");
    press_label(&mut harness, "Keep it");
    let file = folder
        .path()
        .join("boat versions")
        .join("this morning.json");
    assert!(file.exists(), "a deck plan of its own");
    press_label(&mut harness, "Close this");
    place_something(&mut harness);
    keys(&mut harness, CTRL_SHIFT, Key::K);
    press_label(&mut harness, "Go back to this morning");
    assert_eq!(points(&harness), 0, "as of this morning");
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(points(&harness), 1, "one step back");
}

#[test]
fn the_steps_are_listed_and_lead_there_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(&saved(folder.path()));
    let start = harness.state().plan().clone();
    place_something(&mut harness);
    keys(&mut harness, CTRL, Key::A);
    keys(&mut harness, Modifiers::NONE, Key::ArrowRight);
    let end = harness.state().plan().clone();
    keys(&mut harness, CTRL, Key::H);
    press_label(&mut harness, "As it was opened");
    assert_eq!(*harness.state().plan(), start);
    let second = harness.query_all_by_label_contains("2. Move ").count();
    assert_eq!(second, 1, "the steps undone stay in the list");
    let label = {
        use egui_kittest::kittest::NodeT as _;
        let node = harness.get_by_label_contains("2. Move ");
        node.accesskit_node().label().unwrap()
    };
    press_label(&mut harness, &label);
    assert_eq!(*harness.state().plan(), end);
}

#[test]
fn a_file_dropped_on_the_window_opens_and_is_remembered() {
    let folder = tempfile::tempdir().unwrap();
    let path = saved(folder.path());
    let other = folder.path().join("other.json");
    snugdown::store::save(&Plan::new("Other", 7.0, 3.0), &other).unwrap();
    let mut editor = Editor::open(&path).unwrap();
    editor.keep_in(folder.path().join("settings"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    press_label(&mut harness, "Skip this");
    drop_file(&mut harness, &other);
    assert_eq!(harness.state().plan().boat.name, "Other");
    press_label(&mut harness, "File");
    press_label(&mut harness, "boat.json");
    assert_eq!(harness.state().plan().boat.name, "Saved", "opened last");
}

#[test]
fn a_list_of_cylinders_is_read_from_a_file_or_pasted() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(&saved(folder.path()));
    let list = folder.path().join("list.csv");
    let text = b"number,kind,pressure\n1,al-80cf,3000 psi\n2,al-80cf,200\n";
    snugdown::store::write_atomic(&list, text).unwrap();
    drop_file(&mut harness, &list);
    press_label(&mut harness, "Put them aboard");
    let cylinders = &harness.state().plan().trips[0].cylinders;
    assert_eq!(cylinders.len(), 2);
    let bar = cylinders[0].pressure_bar.unwrap();
    // 3000 psi = 206.843 bar, told to a tenth (1 psi = 6894.757 Pa, NIST SP 811, table B.9).
    assert!((bar - 206.843).abs() < 0.05, "{bar}");
    keys(&mut harness, CTRL_SHIFT, Key::I);
    fill_in(&mut harness, "Cylinder list", "number,kind\n3,al-81cf");
    let told = harness.query_all_by_label_contains("al-81cf").count();
    assert!(told > 0, "what is wrong is told");
    press_label(&mut harness, "Go back");
    assert_eq!(harness.state().plan().trips[0].cylinders.len(), 2);
}
