//! Selecting, moving, undoing, looking.

use egui::{Key, Modifiers};
use snugdown::layout::{Cylinder, Placing, Plan};

use crate::support::{click_at, drag, drag_to, on_screen, window};

fn standing(x: f64, y: f64) -> Placing {
    Placing::Standing {
        deck: "main".into(),
        at: [x, y],
        on: None,
    }
}

fn two() -> Plan {
    let mut plan = Plan::new("Test", 10.0, 4.0);
    for (id, x) in [("P1", 3.0), ("P2", 5.0)] {
        let cylinder = Cylinder::new(id, "al-80cf", standing(x, 0.0));
        plan.trips[0].cylinders.push(cylinder);
    }
    plan
}

fn place_of(harness: &egui_kittest::Harness<'static, snugdown::app::Editor>, id: &str) -> [f64; 2] {
    let trip = &harness.state().plan().trips[0];
    trip.cylinder(id).unwrap().placing.at().unwrap()
}

#[test]
fn a_drag_is_one_step_on_whole_centimetres() {
    let mut harness = window(two());
    let (from, to) = (on_screen(&harness, 3.0, 0.0), on_screen(&harness, 4.2, 0.7));
    drag(&mut harness, from, to);
    assert_eq!(harness.state().selected(), ["P1"]);
    let moved = place_of(&harness, "P1");
    assert!(
        (moved[0] - 4.2).abs() < 0.011 && (moved[1] - 0.7).abs() < 0.011,
        "{moved:?}"
    );
    for value in moved {
        let cm = value * 100.0;
        assert!((cm - cm.round()).abs() < 1e-9, "{moved:?}");
    }
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(place_of(&harness, "P1"), [3.0, 0.0], "undone at once");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Y);
    harness.run();
    assert_eq!(place_of(&harness, "P1"), moved, "done again");
}

#[test]
fn escape_gives_a_drag_up() {
    let mut harness = window(two());
    let (from, to) = (on_screen(&harness, 3.0, 0.0), on_screen(&harness, 4.0, 1.0));
    drag_to(&mut harness, from, to);
    assert_ne!(
        place_of(&harness, "P1"),
        [3.0, 0.0],
        "it follows the pointer"
    );
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(place_of(&harness, "P1"), [3.0, 0.0]);
    harness.drop_at(to);
    harness.run();
    assert_eq!(place_of(&harness, "P1"), [3.0, 0.0]);
    assert!(!harness.state().has_unsaved_changes());
}

#[test]
fn arrow_keys_nudge_by_a_centimetre_and_by_ten() {
    let mut harness = window(two());
    let at = on_screen(&harness, 5.0, 0.0);
    click_at(&mut harness, at);
    harness.key_press(Key::ArrowUp);
    harness.run();
    assert_eq!(place_of(&harness, "P2"), [5.0, 0.01], "to port");
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowLeft);
    harness.run();
    assert_eq!(place_of(&harness, "P2"), [4.9, 0.01], "aft");
}

#[test]
fn a_band_on_the_deck_selects_and_a_drag_on_the_water_shifts_the_plan() {
    let mut harness = window(two());
    let (from, to) = (
        on_screen(&harness, 2.0, -1.0),
        on_screen(&harness, 6.0, 1.0),
    );
    drag(&mut harness, from, to);
    assert_eq!(harness.state().selected(), ["P1", "P2"]);
    let before = on_screen(&harness, 3.0, 0.0);
    let water = on_screen(&harness, 3.0, 3.5);
    drag(&mut harness, water, water + egui::vec2(60.0, 20.0));
    let after = on_screen(&harness, 3.0, 0.0);
    assert!(
        (after - before - egui::vec2(60.0, 20.0)).length() < 1.0,
        "{before} {after}"
    );
    assert_eq!(harness.state().selected(), ["P1", "P2"], "still selected");
}

#[test]
fn the_wheel_enlarges_at_the_pointer() {
    let mut harness = window(two());
    let pointer = on_screen(&harness, 3.0, 0.0);
    let far = on_screen(&harness, 5.0, 0.0);
    harness.hover_at(pointer);
    harness.run();
    harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Line,
        delta: egui::vec2(0.0, 3.0),
        modifiers: Modifiers::NONE,
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
    });
    harness.run_steps(12);
    let now = on_screen(&harness, 3.0, 0.0);
    assert!((now - pointer).length() < 1.0, "{pointer} moved to {now}");
    assert!(on_screen(&harness, 5.0, 0.0).x > far.x + 20.0, "larger");
}

#[test]
fn all_is_taken_away_and_comes_back() {
    let mut harness = window(two());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness.key_press(Key::Delete);
    harness.run();
    assert!(harness.state().plan().trips[0].cylinders.is_empty());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().plan(), &two());
}

#[test]
fn nothing_is_computed_while_nothing_changes() {
    let mut harness = window(two());
    let before = harness.state().check_runs();
    let at = on_screen(&harness, 7.0, 0.3);
    harness.hover_at(at);
    harness.run_steps(5);
    assert_eq!(harness.state().check_runs(), before);
}
