//! Motion, balance and limits: the stopwatch, the sea, a log, the balance, the limit card.

use std::cell::Cell;
use std::rc::Rc;

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};
use snugdown::layout::Plan;

use crate::support::{press_label, window_of};

fn day_boat() -> Plan {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/day-boat.json");
    snugdown::store::read(&path).unwrap()
}

/// The window with this opened by its keys.
fn opened(plan: Plan, key: Key) -> Harness<'static, Editor> {
    opened_in(plan, key, Theme::Light, [1280.0, 800.0])
}

fn opened_in(plan: Plan, key: Key, theme: Theme, [w, h]: [f32; 2]) -> Harness<'static, Editor> {
    let mut editor = Editor::new(plan);
    editor.set_theme(theme);
    let mut harness = window_of(editor, vec2(w, h));
    harness.key_press_modifiers(Modifiers::COMMAND, key);
    harness.run();
    harness
}

/// Is this told somewhere in the window?
#[track_caller]
fn assert_told(harness: &Harness<'static, Editor>, words: &str) {
    let found = harness.query_all_by_label_contains(words).next();
    assert!(found.is_some(), "{words:?} is not told");
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() < 1e-9
}

/// A watch that is set by the test.
fn watched(plan: Plan) -> (Harness<'static, Editor>, Rc<Cell<f64>>) {
    let mut harness = opened(plan, Key::M);
    let now = Rc::new(Cell::new(100.0));
    let read = Rc::clone(&now);
    harness.state_mut().set_stopwatch(move || read.get());
    (harness, now)
}

#[test]
fn swings_are_tapped_and_a_run_is_kept() {
    let (mut harness, now) = watched(day_boat());
    for at in [100.0, 103.2, 106.0, 109.6] {
        now.set(at);
        harness.key_press(Key::Space);
        harness.run();
    }
    assert_told(&harness, "3.20 s a swing: 3 swings in 9.6 s");
    assert_told(&harness, "shortest 2.80 s, longest 3.60 s");
    // One tap too many, by the button, and taken back by the key.
    now.set(110.2);
    press_label(&mut harness, "Tap: down again (4)");
    assert_told(&harness, "a tap missed?");
    harness.key_press(Key::Backspace);
    harness.run();
    assert_told(&harness, "3.20 s a swing");
    press_label(&mut harness, "Keep this run");
    let test = harness.state().plan().boat.roll_test.clone().unwrap();
    assert_eq!(test.runs[0].swings, 3);
    assert!(close(test.runs[0].total_s, 9.6), "{test:?}");
    assert_told(&harness, "The first tap starts the watch.");
    assert_told(&harness, "three runs of five swings");
    press_label(&mut harness, "Take away");
    assert_eq!(harness.state().plan().boat.roll_test, None);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert!(harness.state().plan().boat.roll_test.is_some(), "undone");
}

#[test]
fn a_twin_hull_gets_no_period_and_the_reason() {
    let mut plan = day_boat();
    plan.boat.hull = Some(snugdown::layout::Hull::TwinHull);
    plan.boat.roll_period_s = None;
    plan.boat.roll_period_range_s = Some([2.0, 4.0]);
    let harness = opened(plan, Key::M);
    assert_told(
        &harness,
        "gives none: two hulls roll about the water between them",
    );
    assert_told(&harness, "Counts: 2.00 to 4.00 s");
    assert_told(&harness, "Both ends are checked");
    assert_told(&harness, "common practice, no source");
}

#[test]
fn periods_that_disagree_are_told() {
    let mut plan = day_boat();
    plan.boat.roll_period_s = Some(6.0);
    plan.boat.roll_test = Some(snugdown::layout::RollTest {
        runs: vec![
            snugdown::layout::RollTestRun {
                swings: 5,
                total_s: 15.0
            };
            3
        ],
        loading: None,
    });
    let harness = opened(plan, Key::M);
    assert_told(
        &harness,
        "They disagree: roll period given 6.00 s, roll period by stopwatch 3.00 s",
    );
    assert_told(&harness, "as the published test wants it");
    assert_told(&harness, "no GM: nobody said how she was loaded");
}

#[test]
fn the_balance_says_where_gm_comes_from_and_approves_nothing() {
    let mut plan = day_boat();
    plan.boat.gm_m = None;
    let harness = opened(plan.clone(), Key::E);
    assert_told(&harness, "It approves nothing");
    assert_told(&harness, "Heel: not known, no GM is known");
    plan.boat.gm_m = Some(0.9);
    plan.boat.displacement_kg = Some(9000.0);
    let mut harness = opened(plan, Key::E);
    assert_told(&harness, "(GM as given for the boat, 0.90 m)");
    assert_told(&harness, "The gear is counted once");
    assert_told(&harness, "Steady heel from this wind: ");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(
        harness
            .query_by_label_contains("It approves nothing")
            .is_none(),
        "Escape leaves"
    );
}
