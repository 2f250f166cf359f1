//! After an incident: a record opened, every look, another account, the report saved.

use std::fmt::Write as _;
use std::path::PathBuf;

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};

use crate::support::{fill_in, press_label, wait, window_of};

fn record() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("layouts/incident/record.json")
}

/// The demonstration incident, opened in a window.
fn opened(theme: Theme, width: f32, height: f32) -> Harness<'static, Editor> {
    let mut editor = Editor::demonstration();
    editor.set_theme(theme);
    editor.open_record(&record());
    let mut harness = window_of(editor, vec2(width, height));
    wait(&mut harness);
    harness
}

fn light() -> Harness<'static, Editor> {
    opened(Theme::Light, 1280.0, 800.0)
}

#[test]
fn every_look_is_reached_by_its_digit_and_by_its_button() {
    let mut harness = light();
    harness.get_by_label_contains("There are 2 accounts");
    for (key, told) in [
        (Key::Num2, "Main deck, planned and found"),
        (Key::Num3, "with one thing otherwise"),
        (Key::Num4, "How P4 could have come there"),
        (Key::Num5, "the plan as issued"),
        (Key::Num6, "What went"),
        (Key::Num7, "difference to the plan"),
        (Key::Num8, "The report"),
        (Key::Num1, "Turnstone: trip may, between dives, drifting"),
    ] {
        harness.key_press(key);
        harness.step();
        wait(&mut harness);
        harness.get_by_label(told);
    }
    press_label(&mut harness, "7  Accounts side by side");
    harness.get_by_label("difference to the plan");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(harness.query_by_label("After an incident").is_none());
}

#[test]
fn the_other_account_is_looked_at_by_itself() {
    let mut harness = light();
    harness.key_press(Key::Num2);
    harness.run();
    harness.get_by_label("P4 was to be in slot P4 of rack-P, and was found standing on deck");
    harness.key_press(Key::A);
    harness.run();
    assert!(
        harness
            .query_by_label("P4 was to be in slot P4 of rack-P, and was found standing on deck")
            .is_none()
    );
    harness.get_by_label("kit bag was found on the floor");
    press_label(&mut harness, "Account A: mate, at the wheelhouse door");
    harness.get_by_label("P4 was to be in slot P4 of rack-P, and was found standing on deck");
}

#[test]
fn the_report_is_looked_at_page_by_page_and_saved() {
    // In a folder of its own, as the report is proposed beside the record.
    let folder = tempfile::tempdir().unwrap();
    for name in ["plan.json", "record.json", "motion.csv", "strap-front.svg"] {
        let from = record().with_file_name(name);
        std::fs::copy(from, folder.path().join(name)).unwrap();
    }
    let mut editor = Editor::demonstration();
    editor.open_record(&folder.path().join("record.json"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    wait(&mut harness);
    press_label(&mut harness, "8  The report");
    wait(&mut harness);
    harness.get_by_label_contains("page 1 of ");
    press_label(&mut harness, "Next page");
    harness.get_by_label_contains("page 2 of ");
    press_label(&mut harness, "US Letter");
    wait(&mut harness);
    harness.get_by_label_contains("page 1 of ");
    press_label(&mut harness, "Save the report…");
    press_label(&mut harness, "Save it here");
    wait(&mut harness);
    harness.get_by_label_contains("Saved: ");
    let bytes = std::fs::read(folder.path().join("audit.pdf")).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
}

/// The cursor where the record has the wake at its deepest.
fn to_the_wake(harness: &mut Harness<'static, Editor>) {
    press_label(harness, "10:42:12 (52 s)  deepest roll");
}

/// One cursor for the plots, the deck, what went and the record's own time line, whichever account is looked at.
#[test]
fn one_cursor_goes_through_the_recorded_motion() {
    let mut harness = light();
    harness.key_press(Key::Num6);
    harness.run();
    harness.get_by_label_contains("everything is in its place");
    harness.get_by_label_contains("Roll and pitch over ");
    harness.get_by_label_contains("Margins of ");
    to_the_wake(&mut harness);
    harness.get_by_label_contains("The deck at 52.0 s");
    harness.key_press(Key::A);
    harness.run();
    harness.get_by_label_contains("The deck at 52.0 s");
    harness.key_press(Key::End);
    harness.run();
    harness.get_by_label_contains("; gone: ");
    // Closer: what is shown is told, and follows the cursor.
    harness.key_press(Key::ArrowUp);
    harness.run();
    harness.get_by_label_contains("shown: ");
    harness.key_press(Key::Home);
    harness.run();
    harness.get_by_label_contains("shown: 0.");
    press_label(&mut harness, "All of it");
    assert!(harness.query_by_label_contains("shown: ").is_none());
}

/// A long log's stretch is worked out anew from the file, if it still is the one that was audited.
#[test]
fn a_stretch_of_the_recorded_motion_is_looked_at_closely() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["plan.json", "record.json", "strap-front.svg"] {
        let from = record().with_file_name(name);
        std::fs::copy(from, folder.path().join(name)).unwrap();
    }
    let log = folder.path().join("motion.csv");
    let mut text = String::from("time_s,roll_deg\n");
    for number in 0..6000 {
        let time_s = f64::from(number) / 10.0;
        let roll = 4.0 * (std::f64::consts::TAU * time_s / 4.0).sin();
        writeln!(text, "{time_s:.1},{roll:.3}").unwrap();
    }
    snugdown::store::write_atomic(&log, text.as_bytes()).unwrap();
    let mut editor = Editor::demonstration();
    editor.open_record(&folder.path().join("record.json"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    wait(&mut harness);
    harness.key_press(Key::Num6);
    harness.run_steps(2);
    harness.get_by_label_contains("(each point the least of 0.4 s or more)");
    for _ in 0..4 {
        harness.key_press(Key::ArrowUp);
        harness.run_steps(2);
    }
    wait(&mut harness);
    harness.get_by_label_contains("(each point the least of 0.2 s or more)");
    // The other account has a stretch of its own, over the same time.
    harness.key_press(Key::A);
    harness.run_steps(2);
    wait(&mut harness);
    harness.get_by_label_contains("(each point the least of 0.2 s or more)");
    snugdown::store::write_atomic(&log, b"time_s,roll_deg\n0,0\n").unwrap();
    for _ in 0..2 {
        harness.key_press(Key::PageDown);
        harness.run_steps(2);
        wait(&mut harness);
    }
    harness.get_by_label_contains("not the one that was audited any more");
    harness.get_by_label_contains("(each point the least of 0.4 s or more)");
}

/// The analysis is done beside the window, and can be given up.
#[test]
fn a_record_that_is_worked_on_can_be_given_up() {
    let mut editor = Editor::demonstration();
    editor.open_record(&record());
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    harness.step();
    // It may be done before it is looked at: then there is nothing to give up.
    if harness.query_by_label("Give up").is_some() {
        harness.key_press(Key::Escape);
        harness.step();
        harness.run();
        assert!(harness.query_by_label("In plain words").is_none());
    }
    harness.state_mut().open_record(&record());
    harness.step();
    wait(&mut harness);
    harness.get_by_label_contains("There are 2 accounts");
}

/// A log that cannot be read is told in plain words, among what is not known, and where the motion would be.
#[test]
fn a_log_that_cannot_be_read_is_told() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["plan.json", "record.json", "strap-front.svg"] {
        let from = record().with_file_name(name);
        std::fs::copy(from, folder.path().join(name)).unwrap();
    }
    snugdown::store::write_atomic(&folder.path().join("motion.csv"), b"a,b\n1,2\n").unwrap();
    let mut editor = Editor::demonstration();
    editor.open_record(&folder.path().join("record.json"));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    wait(&mut harness);
    harness.get_by_label_contains("The motion log was of no use: motion.csv cannot be read");
    harness.get_by_label_contains("What the motion log says of the boat's motion");
    harness.key_press(Key::Num6);
    harness.run();
    harness.get_by_label_contains("Nothing was replayed.");
}

#[test]
fn a_record_is_opened_by_keys_and_a_wrong_one_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("boat.json");
    let demonstration = record().with_file_name("plan.json");
    std::fs::copy(&demonstration, &plan).unwrap();
    std::fs::copy(&demonstration, folder.path().join("plan.json")).unwrap();
    let good = std::fs::read(record()).unwrap();
    snugdown::store::write_atomic(&folder.path().join("record.json"), &good).unwrap();
    let editor = Editor::open(&plan).unwrap();
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::I);
    harness.run();
    harness.get_by_label("Open an audit record");
    // A deck plan is no record.
    fill_in(&mut harness, "File name", "boat.json");
    press_label(&mut harness, "Open this one");
    wait(&mut harness);
    harness.get_by_label("The record was not opened");
    harness.key_press(Key::Escape);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::I);
    harness.run();
    fill_in(&mut harness, "File name", "record.json");
    press_label(&mut harness, "Open this one");
    wait(&mut harness);
    harness.get_by_label("After an incident");
    // The log and the drawing were left behind.
    harness.get_by_label_contains("Not as they were recorded, or missing");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::I);
    harness.run();
    assert!(harness.query_by_label("After an incident").is_none());
}

/// The pictures of the guide, made again with `UPDATE_PICTURES`.
#[test]
fn pictures_of_the_audit() {
    for (key, name) in [
        (Key::Num1, "audit-words"),
        (Key::Num2, "audit-found"),
        (Key::Num3, "audit-needed"),
        (Key::Num4, "audit-reach"),
        (Key::Num5, "audit-held"),
        (Key::Num6, "audit-over-time"),
        (Key::Num8, "audit-report"),
    ] {
        let mut harness = light();
        harness.key_press(key);
        harness.step();
        wait(&mut harness);
        if key == Key::Num6 {
            to_the_wake(&mut harness);
        }
        crate::pictures::keep(&mut harness, name);
    }
}

/// Larger and in the dark, only looked at, not kept in the guide.
#[test]
fn it_is_not_blank_in_the_dark() {
    let mut harness = opened(Theme::Dark, 1920.0, 1080.0);
    for (key, name) in [
        (Key::Num2, "audit-found-dark"),
        (Key::Num6, "audit-over-time-dark"),
        (Key::Num7, "audit-sides-dark"),
    ] {
        harness.key_press(key);
        harness.run();
        if key == Key::Num6 {
            to_the_wake(&mut harness);
        }
        let image = harness.render().unwrap();
        let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
        image.save(folder.join(format!("{name}.png"))).unwrap();
        let first = *image.get_pixel(0, 0);
        let other = image.pixels().filter(|pixel| **pixel != first).count();
        assert!(other > 10_000, "{name} is nearly blank");
    }
}
