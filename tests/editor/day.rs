//! The strip of the day: parts chosen by pointer and keys, the work on deck, a day laid out, the deck made ready.

use egui::{Key, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};
use snugdown::checks::fixture;
use snugdown::layout::Plan;

use crate::pictures::keep;
use crate::support::{press_label, window, window_of};

/// A row for the divers with one shared strap, cradles with the fulls of the second dive.
const SWAP: &str = "deck 8x4
    rack R1 bench 4,1.6 columns=4 foot; front R1 F1 strap
    rack C1 cradles 2,0 columns=4 pitch=0.3
    slot P1 R1/1; slot P2 R1/2; slot P3 R1/3
    slot F1 C1/1; slot F2 C1/2
    person Ann diver 4,1.2; person Bob diver 4.4,1.2; person Cy diver 3.6,1.2; person Kim crew 3,0.5
    fast roll=3/4; running roll=8/4";

fn swap() -> Plan {
    fixture::plan(SWAP).unwrap()
}

fn parts(harness: &Harness<'static, Editor>) -> Vec<String> {
    let trip = &harness.state().plan().trips[0];
    trip.parts.iter().map(|part| part.id.clone()).collect()
}

/// A press on the cell of a part, whatever there is to put right in it.
fn press_part(harness: &mut Harness<'static, Editor>, name: &str) {
    use egui_kittest::kittest::NodeT as _;
    let found = harness.query_all_by_label_contains(name).find_map(|node| {
        let label = node.accesskit_node().label()?;
        let is_it = label == name || label.starts_with(&format!("{name}: "));
        is_it.then_some(label)
    });
    press_label(harness, &found.unwrap());
}

fn is_told(harness: &Harness<'static, Editor>, text: &str) -> bool {
    harness.query_all_by_label_contains(text).next().is_some()
}

#[test]
fn a_cell_shows_its_part_by_pointer_and_by_keys() {
    let mut harness = window(swap());
    assert!(is_told(&harness, "fast"));
    press_part(&mut harness, "running");
    harness.key_press(Key::F2);
    harness.run();
    assert!(
        is_told(&harness, "As running begins"),
        "the part that was pressed"
    );
    press_label(&mut harness, "Close this");
    harness.key_press(Key::PageUp);
    harness.run();
    harness.key_press(Key::F2);
    harness.run();
    assert!(is_told(&harness, "As fast begins"));
}

#[test]
fn a_day_is_laid_out_looked_at_and_is_one_step() {
    let mut harness = window(swap());
    let before = harness.state().plan().clone();
    harness.key_press(Key::F3);
    harness.run();
    assert!(is_told(&harness, "never both standing"));
    assert!(is_told(
        &harness,
        "No full cylinder is left for the second dive of"
    ));
    assert!(is_told(&harness, "empties down: at anchor"));
    assert_eq!(
        harness.state().plan(),
        &before,
        "looked at, nothing is changed"
    );
    press_label(&mut harness, "Drift dive");
    assert!(is_told(&harness, "drifting beside the divers"));
    press_label(&mut harness, "Day charter, two dives");
    press_label(&mut harness, "Lay the day out so");
    let laid = parts(&harness);
    assert_eq!(laid.first().unwrap(), "alongside");
    assert!(laid.contains(&"fulls in".to_owned()), "{laid:?}");
    for _ in 0..5 {
        harness.key_press(Key::PageDown);
        harness.run();
    }
    harness.key_press(Key::F2);
    harness.run();
    assert!(
        is_told(&harness, "meanwhile"),
        "opened for one it is open for all"
    );
    press_label(&mut harness, "Close this");
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().plan(), &before, "one step");
}

#[test]
fn what_a_pattern_cannot_do_it_says_and_changes_nothing() {
    let mut harness = window(Plan::new("Petrel", 8.0, 3.0));
    harness.key_press(Key::F3);
    harness.run();
    assert!(is_told(
        &harness,
        "Nobody among the people of this trip is a diver"
    ));
    let before = harness.state().plan().clone();
    press_label(&mut harness, "Lay the day out so");
    assert_eq!(harness.state().plan(), &before);
}

#[test]
fn the_deck_is_secured_and_opened_as_parts_of_their_own() {
    let mut harness = window(swap());
    press_part(&mut harness, "running");
    harness.key_press(Key::F4);
    harness.run();
    assert!(is_told(&harness, "Kim go below") || is_told(&harness, "go below"));
    assert!(is_told(&harness, "Afterwards"));
    press_label(&mut harness, "Put it into the day");
    assert_eq!(parts(&harness), ["fast", "running", "night"]);
    harness.key_press(Key::F5);
    harness.run();
    assert!(is_told(&harness, "Open strap F1 across R1"));
    press_label(&mut harness, "Put it into the day");
    assert_eq!(
        parts(&harness),
        ["fast", "running", "night", "ready to dive"]
    );
    assert!(
        is_told(&harness, "ready to dive: DANGER"),
        "the price of it stands in the strip"
    );
}

#[test]
fn parts_are_added_split_and_moved() {
    let mut harness = window_of(Editor::new(swap()), vec2(1280.0, 3200.0));
    press_label(&mut harness, "+ part");
    assert_eq!(parts(&harness).len(), 3);
    press_part(&mut harness, "fast");
    press_label(&mut harness, "Split into two halves");
    assert_eq!(parts(&harness).len(), 4);
    assert!(is_told(&harness, "fast, second half"));
    // The first goes no earlier, the last no later, and what lies between goes both ways.
    let can = |harness: &Harness<'static, Editor>, label: &str| {
        use egui_kittest::kittest::NodeT as _;
        !harness.get_by_label(label).accesskit_node().is_disabled()
    };
    let all = parts(&harness);
    press_part(&mut harness, "fast");
    assert!(!can(&harness, "Earlier in the day") && can(&harness, "Later in the day"));
    press_label(&mut harness, "Later in the day");
    let moved = parts(&harness);
    assert_eq!([&moved[0], &moved[1]], [&all[1], &all[0]]);
    for _ in 0..2 {
        assert!(can(&harness, "Later in the day"));
        press_label(&mut harness, "Later in the day");
    }
    assert_eq!(parts(&harness).last(), all.first());
    assert!(can(&harness, "Earlier in the day") && !can(&harness, "Later in the day"));
}

#[test]
fn the_low_strip_shows_names_and_signs_alone() {
    let mut harness = window(swap());
    let high = harness.state().on_screen([0.0, 0.0]).unwrap();
    harness.key_press(Key::F9);
    harness.run();
    harness.run();
    let low = harness.state().on_screen([0.0, 0.0]).unwrap();
    assert!(low.y < high.y, "the plan has more room: {high} {low}");
    press_part(&mut harness, "running");
}

#[test]
fn pictures_of_the_day() {
    for (theme, name) in [(Theme::Light, "light"), (Theme::Dark, "dark")] {
        for (wide, high) in [(1280.0, 800.0), (1920.0, 1080.0)] {
            let mut editor = Editor::demonstration();
            editor.set_theme(theme);
            let mut harness = window_of(editor, vec2(wide, high));
            keep(&mut harness, &format!("day-strip-{name}-{wide}"));
            if wide > 1280.0 {
                continue;
            }
            harness.key_press(Key::F2);
            harness.run();
            keep(&mut harness, &format!("day-work-{name}-{wide}"));
            press_label(&mut harness, "Close this");
            harness.key_press(Key::F3);
            harness.run();
            keep(&mut harness, &format!("day-lay-out-{name}-{wide}"));
            press_label(&mut harness, "Go back");
            harness.key_press(Key::F4);
            harness.run();
            keep(&mut harness, &format!("day-night-{name}-{wide}"));
        }
    }
}
