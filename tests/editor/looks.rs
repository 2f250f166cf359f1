//! The lean slider, units, the keys, the card.

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::layout::{Cylinder, Placing, Plan};

use crate::support::{click_at, on_screen, press_label, window, window_of};

/// So tall that the whole card is in sight.
const TALL: egui::Vec2 = egui::vec2(1280.0, 3200.0);

fn one() -> Plan {
    let mut plan = Plan::new("Test", 10.0, 4.0);
    let placing = Placing::Standing {
        deck: "main".into(),
        at: [4.0, 0.0],
        on: None,
    };
    plan.trips[0]
        .cylinders
        .push(Cylinder::new("P1", "al-80cf", placing));
    plan
}

#[test]
fn static_and_rolling_limits_have_two_names_and_two_numbers() {
    let harness = window(one());
    let slow = harness.get_by_label_contains("Leaning slowly: goes at ");
    let rolling = harness.get_by_label_contains("Rolling every ");
    let degrees = |text: &str| -> f64 {
        let number = text.split("goes at ").nth(1).unwrap();
        number.split('°').next().unwrap().parse().unwrap()
    };
    let (slow, rolling) = (text_of(&slow), text_of(&rolling));
    assert!(degrees(&slow) > degrees(&rolling), "{slow} / {rolling}");
}

#[test]
fn the_slider_leans_the_boat_until_the_cylinder_goes() {
    let mut harness = window(one());
    harness.get_by_role_and_label(egui::Role::Slider, "Lean the boat slowly");
    for _ in 0..3 {
        harness.key_press(Key::CloseBracket);
        harness.run();
    }
    harness.get_by_label("nothing goes at this lean");
    for _ in 0..40 {
        harness.key_press(Key::CloseBracket);
        harness.run();
    }
    harness.get_by_label("P1 goes at this lean");
}

#[test]
fn the_card_changes_the_thing_as_one_step() {
    let mut harness = window_of(Editor::new(one()), TALL);
    let at = on_screen(&harness, 4.0, 0.0);
    click_at(&mut harness, at);
    harness.get_by_label("Cylinder P1");
    press_label(&mut harness, "Has a boot");
    assert!(harness.state().plan().trips[0].cylinders[0].boot);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert!(!harness.state().plan().trips[0].cylinders[0].boot);
}

#[test]
fn the_sum_unfolds_with_its_figures() {
    let mut harness = window_of(Editor::new(one()), TALL);
    let at = on_screen(&harness, 4.0, 0.0);
    click_at(&mut harness, at);
    assert!(harness.query_by_label("Copy").is_none(), "folded");
    press_label(&mut harness, "Show the sum");
    harness.get_by_label("Copy");
}

#[test]
fn units_are_shown_at_one_switch() {
    let mut harness = window(one());
    let at = on_screen(&harness, 4.0, 0.0);
    click_at(&mut harness, at);
    assert!(harness.query_all_by_label_contains(" kg").count() > 0);
    press_label(&mut harness, "US");
    assert!(harness.query_all_by_label_contains(" lb").count() > 0);
}

#[test]
fn the_keys_of_every_action_are_listed() {
    let mut harness = window(one());
    harness.key_press(Key::F1);
    harness.run();
    harness.get_by_label("Keys for every action");
    assert!(harness.query_all_by_label("Turn 15° to port").count() > 0);
}

#[test]
fn an_empty_deck_says_what_to_do_first() {
    let mut harness = window(Plan::new("Test", 10.0, 4.0));
    harness.get_by_label_contains("No cylinders aboard");
    harness.key_press(Key::F6);
    harness.run();
    let _: &Editor = harness.state();
}

/// What a label says; egui gives it as its value.
fn text_of(node: &egui_kittest::Node<'_>) -> String {
    use egui_kittest::kittest::NodeT as _;
    let node = node.accesskit_node();
    node.value().or_else(|| node.label()).unwrap_or_default()
}

#[test]
fn no_menu_is_higher_than_the_window() {
    use egui_kittest::kittest::Queryable as _;
    let mut harness = crate::support::window(snugdown::layout::Plan::new("Otter", 10.0, 4.0));
    let screen = harness.ctx.content_rect();
    for (menu, last) in [
        ("File", "Close the window"),
        ("Edit", "Take on…"),
        ("Arrange", "Spread evenly"),
        ("Measure", "Take the photo away"),
        ("Plan", "Search what must be put right"),
        ("Look", "Large controls"),
        ("Help", "Keys…"),
    ] {
        crate::support::press_label(&mut harness, menu);
        // The line of a menu has its keys behind its name.
        let mut lines = harness.query_all_by_label_contains(last);
        let rect = lines.next_back().expect("the last line of the menu").rect();
        drop(lines);
        assert!(screen.contains_rect(rect), "{menu}: {last} at {rect:?}");
        harness.key_press(egui::Key::Escape);
        harness.run();
    }
}
