//! A motion replayed in the window: worked out beside it, one cursor, the keyboard, a log.

use std::cell::Cell;
use std::fmt::Write as _;
use std::rc::Rc;

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};

use crate::support::{press_label, wait, window_of};

/// The badly stowed boat with the replay of its part's motion, as soon as it is worked out.
fn opened(theme: Theme, [width, height]: [f32; 2]) -> Harness<'static, Editor> {
    let mut editor = Editor::demonstration();
    editor.set_theme(theme);
    let mut harness = window_of(editor, vec2(width, height));
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::R);
    harness.run_steps(2);
    wait(&mut harness);
    harness
}

#[track_caller]
fn assert_told(harness: &Harness<'static, Editor>, words: &str) {
    let found = harness.query_all_by_label_contains(words).next();
    assert!(found.is_some(), "{words:?} is not told");
}

#[test]
fn what_goes_is_listed_and_the_plan_follows_the_cursor() {
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    assert_told(&harness, "What went");
    assert_told(&harness, "everything is in its place");
    harness.key_press(Key::End);
    harness.run();
    assert_told(&harness, "; gone: ");
    harness.key_press(Key::Home);
    harness.run();
    assert_told(&harness, "everything is in its place");
}

#[test]
fn time_runs_by_the_stopwatch_at_the_speed_asked_for() {
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    let now = Rc::new(Cell::new(50.0));
    let read = Rc::clone(&now);
    harness.state_mut().set_stopwatch(move || read.get());
    harness.key_press(Key::Home);
    harness.run();
    press_label(&mut harness, "16 ×");
    harness.key_press(Key::Space);
    harness.run_steps(2);
    assert_told(&harness, "Pause");
    now.set(52.0);
    harness.run_steps(2);
    // Two seconds of the watch are 32 of the sea.
    assert_told(&harness, "32.");
    harness.key_press(Key::Space);
    harness.run();
    assert_told(&harness, "Play");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(harness.query_by_label("What went").is_none());
}

#[test]
fn a_log_is_replayed_and_a_bad_one_told() {
    let folder = tempfile::tempdir().unwrap();
    let mut text = String::from("time_s,roll_deg\n");
    for number in 0..1200 {
        let time_s = f64::from(number) / 20.0;
        let roll = 30.0 * (std::f64::consts::TAU * time_s / 4.0).sin();
        writeln!(text, "{time_s:.2},{roll:.3}").unwrap();
    }
    let good = folder.path().join("rough.csv");
    let bad = folder.path().join("bad.csv");
    put(&good, &text);
    put(&bad, "a,b\n1,2\n");
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    harness.state_mut().replay_the_log(&good);
    harness.run_steps(2);
    wait(&mut harness);
    assert_told(&harness, "log rough.csv");
    assert_told(&harness, "How the sensor was mounted");
    harness.state_mut().replay_the_log(&bad);
    harness.run_steps(2);
    wait(&mut harness);
    assert_told(&harness, "It could not be replayed");
}

/// A log whose first line says no units: they are asked for, and it is replayed as soon as they are said.
#[test]
fn units_that_no_heading_says_are_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let mut text = String::from("time,roll\n");
    for number in 0..1200 {
        let time_s = f64::from(number) / 20.0;
        let roll = 30.0 * (std::f64::consts::TAU * time_s / 4.0).sin();
        writeln!(text, "{time_s:.2},{roll:.3}").unwrap();
    }
    let log = folder.path().join("bare.csv");
    put(&log, &text);
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    harness.state_mut().replay_the_log(&log);
    harness.run_steps(2);
    wait(&mut harness);
    assert_told(&harness, "has no unit");
    for (which, unit) in [("Time in", "s"), ("Angles in", "°")] {
        press_label(&mut harness, which);
        press_label(&mut harness, unit);
        wait(&mut harness);
    }
    assert_told(&harness, "log bare.csv");
    assert_told(&harness, "largest roll 30.0° to port");
}

/// Closer and along, by keys, by buttons and by scrolling over a plot; the cursor stays in sight.
#[test]
fn the_plots_go_closer_about_the_cursor() {
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    harness.key_press(Key::Home);
    harness.run();
    for _ in 0..3 {
        harness.key_press(Key::ArrowUp);
        harness.run();
    }
    assert_told(&harness, "shown: 0.");
    press_label(&mut harness, "Later");
    assert!(harness.query_by_label_contains("shown: 0.").is_none());
    harness.key_press(Key::End);
    harness.run();
    assert_told(&harness, "shown: 5");
    for _ in 0..2 {
        harness.key_press(Key::ArrowDown);
        harness.run();
    }
    assert_told(&harness, "shown: 3");
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    harness.run();
    assert!(harness.query_by_label_contains("shown: ").is_none());
}

/// Ten rolls a minute for a quarter of an hour, ten samples a second: longer than points can be fine over all of it.
fn long_log() -> String {
    let mut text = String::from("time_s,roll_deg\n");
    for number in 0..9000 {
        let time_s = f64::from(number) / 10.0;
        let roll = 6.0 * (std::f64::consts::TAU * time_s / 6.0).sin();
        writeln!(text, "{time_s:.1},{roll:.3}").unwrap();
    }
    text
}

/// Of a long log the points over all of it hide single swings; what is looked at closely is worked out anew, goes along
/// and says how fine it is. All of it is as it was.
#[test]
fn a_stretch_of_a_long_log_is_looked_at_closely() {
    let folder = tempfile::tempdir().unwrap();
    let log = folder.path().join("long.csv");
    put(&log, &long_log());
    let mut harness = opened(Theme::Light, [1280.0, 800.0]);
    harness.state_mut().replay_the_log(&log);
    harness.run_steps(2);
    wait(&mut harness);
    assert_told(&harness, "(each point the least of 0.8 s or more)");
    for _ in 0..4 {
        harness.key_press(Key::ArrowUp);
        harness.run_steps(2);
    }
    wait(&mut harness);
    assert_told(&harness, "shown: 0.");
    assert_told(&harness, "(each point the least of 0.2 s or more)");
    // Steps of the cursor are those of the points.
    harness.key_press(Key::ArrowRight);
    harness.run_steps(2);
    assert_told(&harness, "The deck at 0.");
    press_label(&mut harness, "Later");
    wait(&mut harness);
    press_label(&mut harness, "Later");
    wait(&mut harness);
    assert_told(&harness, "(each point the least of 0.2 s or more)");
    press_label(&mut harness, "All of it");
    assert_told(&harness, "(each point the least of 0.8 s or more)");
}

#[expect(clippy::disallowed_methods, reason = "a scratch file")]
fn put(path: &std::path::Path, text: &str) {
    std::fs::write(path, text).unwrap();
}

/// The pictures of the guide, made again with `UPDATE_PICTURES`.
#[test]
fn pictures_of_a_replay() {
    for (theme, size, name) in [
        (Theme::Light, [1280.0, 800.0], "replay-light"),
        (Theme::Dark, [1920.0, 1080.0], "replay-dark"),
    ] {
        let mut harness = opened(theme, size);
        harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
        harness.run();
        crate::pictures::keep(&mut harness, name);
    }
}
