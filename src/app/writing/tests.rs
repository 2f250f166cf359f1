//! Files made beside the window: whole or not at all, told, given up, waited for.

use std::sync::mpsc::{Receiver, Sender, channel};

use egui::{Key, Modifiers, ViewportCommand, ViewportId};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;

use super::super::prepare;
use super::*;
use crate::layout::Plan;

fn window() -> Harness<'static, Editor> {
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(500)
        .with_context_setup(prepare)
        .build_ui_state(
            |ui, editor: &mut Editor| editor.ui(ui),
            Editor::new(Plan::new("Otter", 7.0, 2.6)),
        );
    harness.run();
    harness
}

/// A file whose making waits.
struct Held {
    /// Dropped or sent to, it goes on.
    go: Sender<()>,
    /// The watch under which it is made, once it is being made.
    begun: Receiver<Watch>,
}

impl Held {
    fn begin(harness: &mut Harness<'static, Editor>, path: &Path, bytes: &'static [u8]) -> Self {
        let (go, wait) = channel::<()>();
        let (tell, begun) = channel();
        let ctx = harness.ctx.clone();
        let make = move |watch: &Watch| {
            watch.set(0.4);
            tell.send(watch.clone()).ok();
            wait.recv().ok();
            Ok(Made {
                bytes: bytes.to_vec(),
                told: "it is there".to_owned(),
            })
        };
        let editor = harness.state_mut();
        editor.write_beside(&ctx, path, "It was not saved", make);
        Self { go, begun }
    }
}

/// Frames until nothing is being made any more.
fn finish(harness: &mut Harness<'static, Editor>) {
    for _ in 0..6000 {
        harness.step();
        if !harness.state().is_writing() {
            harness.run();
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    panic!("still being made");
}

#[test]
fn the_window_goes_on_while_a_file_is_made() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = window();
    let held = Held::begin(&mut harness, &path, b"whole");
    held.begun.recv().unwrap();
    harness.run_steps(40);
    harness.get_by_label("sheet.pdf is being made");
    harness.get_by_label("How far sheet.pdf is");
    assert!(harness.state().is_busy());
    // Something else is done meanwhile.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::B);
    harness.run_steps(4);
    harness.get_by_label("Brief the crew");
    harness.get_by_label("sheet.pdf is being made");
    assert!(!path.exists(), "not half of it either");
    held.go.send(()).unwrap();
    finish(&mut harness);
    assert_eq!(std::fs::read(&path).unwrap(), b"whole");
    assert_eq!(harness.state().told(), Some("it is there"));
    assert!(harness.query_by_label("sheet.pdf is being made").is_none());
}

#[test]
fn a_short_piece_of_work_is_not_shown() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    let held = Held::begin(&mut harness, &folder.path().join("list.csv"), b"a,b");
    harness.run_steps(1);
    assert!(harness.query_by_label("list.csv is being made").is_none());
    drop(held);
    finish(&mut harness);
}

#[test]
fn a_file_that_is_given_up_is_not_written() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = window();
    let held = Held::begin(&mut harness, &path, b"whole");
    let watch = held.begun.recv().unwrap();
    harness.run_steps(40);
    harness.get_by_label("Give sheet.pdf up").click();
    harness.run();
    assert!(watch.is_given_up() && !harness.state().is_writing());
    let told = harness.state().told().unwrap();
    assert!(told.contains("nothing was written"), "{told}");
    // What a thread does that is given up.
    let made = |_: &Watch| {
        Ok(Made {
            bytes: b"whole".to_vec(),
            told: String::new(),
        })
    };
    assert_eq!(
        make_and_write(&path, &watch, made),
        Err(words::GIVEN_UP.to_owned())
    );
    assert!(!path.exists());
    drop(held);
}

#[test]
fn what_comes_to_nothing_is_told_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    // A folder of that name: the file cannot take its place.
    std::fs::create_dir(&path).unwrap();
    let mut harness = window();
    drop(Held::begin(&mut harness, &path, b"whole"));
    finish(&mut harness);
    harness.get_by_label("It was not saved");
    assert!(path.is_dir());
    let left = std::fs::read_dir(folder.path()).unwrap().count();
    assert_eq!(left, 1, "no piece of a file beside it");
    harness
        .get_by_label(super::super::words::dialogs::UNDERSTOOD)
        .click();
    harness.run();
    assert!(harness.query_by_label("It was not saved").is_none());
}

#[test]
fn work_that_ends_without_an_answer_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = window();
    let ctx = harness.ctx.clone();
    let fails = |watch: &Watch| {
        assert!(watch.share() > 2.0, "on purpose");
        Err("never".to_owned())
    };
    let editor = harness.state_mut();
    editor.write_beside(&ctx, &path, "It was not saved", fails);
    finish(&mut harness);
    harness.get_by_label("It was not saved");
    harness.get_by_label(words::ENDED_EARLY);
    assert!(!path.exists());
}

#[test]
fn of_two_of_the_same_name_the_newer_counts() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = window();
    let older = Held::begin(&mut harness, &path, b"older");
    let watch = older.begun.recv().unwrap();
    let newer = Held::begin(&mut harness, &path, b"newer");
    assert!(watch.is_given_up());
    assert!(
        newer.begun.try_recv().is_err(),
        "it waits for the older one to end"
    );
    drop(older);
    drop(newer);
    finish(&mut harness);
    assert_eq!(std::fs::read(&path).unwrap(), b"newer");
}

/// What the last frame asked of the desktop about closing.
fn asked(harness: &Harness<'static, Editor>, wanted: &ViewportCommand) -> bool {
    let viewports = harness.output().viewport_output.values();
    let mut commands = viewports.flat_map(|output| &output.commands);
    commands.any(|command| command == wanted)
}

#[test]
fn a_window_that_is_closed_writes_first() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = window();
    let held = Held::begin(&mut harness, &path, b"whole");
    held.begun.recv().unwrap();
    let viewports = &mut harness.input_mut().viewports;
    let root = viewports.entry(ViewportId::ROOT).or_default();
    root.events.push(egui::ViewportEvent::Close);
    harness.step();
    assert!(asked(&harness, &ViewportCommand::CancelClose));
    let viewports = &mut harness.input_mut().viewports;
    viewports
        .entry(ViewportId::ROOT)
        .or_default()
        .events
        .clear();
    harness.run_steps(2);
    harness.get_by_label(words::CLOSES_THEN);
    held.go.send(()).unwrap();
    for _ in 0..6000 {
        harness.step();
        if asked(&harness, &ViewportCommand::Close) {
            assert_eq!(std::fs::read(&path).unwrap(), b"whole");
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    panic!("it does not close");
}
