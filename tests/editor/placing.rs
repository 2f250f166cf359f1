//! Placing from the stores, racks, lashings.

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use snugdown::layout::{Placing, Plan, PointKind};

use crate::support::{click_at, drag, drag_to, on_screen, press_label, window};

fn empty() -> Plan {
    Plan::new("Test", 10.0, 4.0)
}

#[test]
fn a_rack_and_a_cylinder_are_placed_by_press_and_click() {
    let mut harness = window(empty());
    press_label(&mut harness, "Bench row with a strap");
    let at = on_screen(&harness, 3.0, 1.5);
    click_at(&mut harness, at);
    assert_eq!(harness.state().plan().boat.racks[0].at, [3.0, 1.5]);
    harness.key_press(Key::Escape);
    harness.run();

    press_label(&mut harness, "Cylinders");
    press_label(&mut harness, "Aluminium 3 L, 200/207 bar");
    let slot = harness.state().plan().boat.racks[0].slots()[1].clone();
    let at = on_screen(&harness, slot.at[0], slot.at[1]);
    click_at(&mut harness, at);
    let at = on_screen(&harness, 6.0, -0.5);
    click_at(&mut harness, at);
    let cylinders = &harness.state().plan().trips[0].cylinders;
    let in_slot = Placing::InSlot {
        rack: "R1".into(),
        slot: slot.name,
    };
    assert_eq!(cylinders[0].placing, in_slot, "let go over a rack");
    assert_eq!(
        cylinders[1].placing.at(),
        Some([6.0, -0.5]),
        "let go on deck"
    );
    assert_eq!(
        harness.state().selected(),
        ["C2"],
        "the new one is selected"
    );
}

#[test]
fn dragging_out_of_the_stores_puts_down_once() {
    let mut harness = window(empty());
    let from = harness.get_by_label("Pad eye").rect().center();
    let to = on_screen(&harness, 4.0, 0.0);
    drag(&mut harness, from, to);
    let points = &harness.state().plan().boat.lashing_points;
    assert_eq!(points.len(), 1);
    assert_eq!(
        (points[0].at, points[0].kind),
        ([4.0, 0.0], PointKind::PadEye)
    );
    let at = on_screen(&harness, 5.0, 0.0);
    click_at(&mut harness, at);
    let points = &harness.state().plan().boat.lashing_points;
    assert_eq!(points.len(), 1, "it is in hand no longer");
}

#[test]
fn a_whole_rack_is_filled_with_the_kit_facing_inboard() {
    let mut harness = window(empty());
    press_label(&mut harness, "Bench row with a strap");
    let at = on_screen(&harness, 3.0, 1.5);
    click_at(&mut harness, at);
    press_label(&mut harness, "Fill the whole rack");
    let trip = &harness.state().plan().trips[0];
    assert_eq!(trip.cylinders.len(), 4);
    for cylinder in &trip.cylinders {
        assert_eq!(
            cylinder.kit_faces_deg.unwrap().value(),
            Some(-90.0),
            "inboard"
        );
    }
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    let trip = &harness.state().plan().trips[0];
    assert!(trip.cylinders.is_empty(), "one step");
}

#[test]
fn a_lashing_is_drawn_point_cylinder_point() {
    let mut harness = window(empty());
    press_label(&mut harness, "Pad eye");
    for (x, y) in [(3.0, 1.0), (4.0, 1.0)] {
        let at = on_screen(&harness, x, y);
        click_at(&mut harness, at);
    }
    press_label(&mut harness, "Cylinders");
    press_label(&mut harness, "Aluminium 3 L, 200/207 bar");
    let at = on_screen(&harness, 3.5, 0.7);
    click_at(&mut harness, at);
    press_label(&mut harness, "Draw a lashing");
    for (x, y) in [(3.0, 1.0), (3.5, 0.7), (4.0, 1.0)] {
        let at = on_screen(&harness, x, y);
        click_at(&mut harness, at);
    }
    let lashings = &harness.state().plan().trips[0].lashings;
    assert_eq!(lashings.len(), 1);
    let lashing = &lashings[0];
    assert_eq!((lashing.from.as_str(), lashing.to.as_str()), ("E1", "E2"));
    assert_eq!(lashing.round, ["C1"]);
    assert!(
        lashing.height_m > 0.1,
        "at the centre of gravity: {}",
        lashing.height_m
    );
}

#[test]
fn the_outcome_shows_before_letting_go() {
    let mut harness = window(empty());
    press_label(&mut harness, "Cylinders");
    press_label(&mut harness, "Aluminium 3 L, 200/207 bar");
    let at = on_screen(&harness, 5.0, 0.0);
    harness.hover_at(at);
    harness.run();
    let told = harness.state().told_under_cursor().unwrap();
    assert!(told.starts_with("stands free: goes at "), "{told}");
    assert!(
        harness.state().plan().trips[0].cylinders.is_empty(),
        "only thought of"
    );

    click_at(&mut harness, at);
    harness.key_press(Key::Escape);
    harness.run();
    let (from, to) = (at, on_screen(&harness, 6.0, 0.5));
    drag_to(&mut harness, from, to);
    let told = harness.state().told_under_cursor().unwrap();
    assert!(told.starts_with("stands free: goes at "), "{told}");
}
