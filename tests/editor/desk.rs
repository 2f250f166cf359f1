//! More decks than one, things measured by two tapes one by one, locks on what is stowed, finding by name, US
//! units in what must be put right, and parts of the day copied.

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::layout::{Cylinder, Placing, Plan};

use crate::support::{click_at, drag, fill_in, on_screen, press_label, window, window_of};
use crate::survey::type_into;

const CTRL: Modifiers = Modifiers::COMMAND;

fn keys(harness: &mut Harness<'static, Editor>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn with_cylinders(places: &[(&str, [f64; 2])]) -> Plan {
    let mut plan = Plan::new("Otter", 10.0, 4.0);
    for (id, at) in places {
        let placing = Placing::Standing {
            deck: "main".into(),
            at: *at,
            on: None,
        };
        let cylinder = Cylinder::new(id, "al-80cf", placing);
        plan.trips[0].cylinders.push(cylinder);
    }
    plan
}

/// The bytes that would be saved.
fn bytes(harness: &Harness<'static, Editor>) -> String {
    snugdown::store::to_text(harness.state().plan())
}

/// What was just done, undone and done again gives the same bytes.
fn undone_and_done_again(harness: &mut Harness<'static, Editor>, before: &str) {
    let after = bytes(harness);
    assert_ne!(after, before, "something was done");
    keys(harness, CTRL, Key::Z);
    assert_eq!(bytes(harness), before, "undone in one step");
    keys(harness, CTRL, Key::Y);
    assert_eq!(bytes(harness), after, "done again");
}

#[test]
fn another_deck_is_added_shown_and_filled_with_the_other_showing_through() {
    let mut harness = window(with_cylinders(&[("A", [3.0, 0.5])]));
    let before = bytes(&harness);
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::N);
    fill_in(&mut harness, "What it is called", "Upper deck");
    type_into(&mut harness, "Height above the water", "high");
    assert!(
        harness.query_by_label_contains("is no number").is_some(),
        "what cannot be read is told"
    );
    type_into(&mut harness, "Height above the water", "2.9");
    press_label(&mut harness, "At first");
    press_label(&mut harness, "a rectangle");
    type_into(&mut harness, "Begins forward of the stern by", "1");
    type_into(&mut harness, "Length", "5 m");
    type_into(&mut harness, "Width", "3");
    crate::pictures::keep(&mut harness, "question-another-deck");
    press_label(&mut harness, "Add it");
    undone_and_done_again(&mut harness, &before);
    let decks = &harness.state().plan().boat.decks;
    assert_eq!(decks.len(), 2);
    assert_eq!(decks[1].name.as_deref(), Some("Upper deck"));
    assert_eq!(decks[1].height_above_waterline_m, 2.9);
    let outline = [[1.0, -1.5], [6.0, -1.5], [6.0, 1.5], [1.0, 1.5]];
    assert_eq!(decks[1].outline, outline);
    // Chosen at the window, and something put onto it.
    press_label(&mut harness, "Upper deck");
    press_label(&mut harness, "Pad eye");
    let at = on_screen(&harness, 3.0, 1.0);
    click_at(&mut harness, at);
    keys(&mut harness, Modifiers::NONE, Key::Escape);
    let boat = &harness.state().plan().boat;
    assert_eq!(boat.lashing_points[0].deck, boat.decks[1].id);
    crate::pictures::keep(&mut harness, "two-decks");
    // To the next deck, which is the main one again.
    let before = bytes(&harness);
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::X);
    assert_eq!(harness.state().plan().boat.lashing_points[0].deck, "main");
    undone_and_done_again(&mut harness, &before);
}

#[test]
fn a_deck_is_added_and_its_tape_readings_asked_at_once() {
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::N);
    fill_in(&mut harness, "What it is called", "Platform");
    press_label(&mut harness, "Add it, then tape readings…");
    type_into(&mut harness, "Tape readings", "0; 0.8\n1.5; 0.8");
    press_label(&mut harness, "Draw the deck so");
    let decks = &harness.state().plan().boat.decks;
    let outline = [[0.0, -0.8], [1.5, -0.8], [1.5, 0.8], [0.0, 0.8]];
    assert_eq!(decks[1].outline, outline);
    let main = &Plan::new("Otter", 7.0, 2.6).boat.decks[0].outline;
    assert_eq!(decks[0].outline, *main, "the other one stays");
}

#[test]
fn lashing_points_are_placed_by_two_tapes_each() {
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    let before = bytes(&harness);
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::G);
    press_label(&mut harness, "What was measured");
    press_label(&mut harness, "Ring");
    // From the corners of the stern at (0, ±1.3) to (2, 0.3) and (2, 1.1).
    let lines = "1P 2.23607; 1S 2.56125\n1P 2.00998; 1S 3.12410";
    type_into(&mut harness, "Spots by two tapes", lines);
    type_into(&mut harness, "What it is called", "Bench ring");
    type_into(&mut harness, "Height above the deck", "0.4");
    harness.get_by_label_contains("the tapes meet at 65°");
    crate::pictures::keep(&mut harness, "points-by-two-tapes");
    press_label(&mut harness, "Put it on the deck");
    let points = &harness.state().plan().boat.lashing_points;
    let places: Vec<[f64; 2]> = points.iter().map(|point| point.at).collect();
    assert_eq!(places, [[2.0, 0.3], [2.0, 1.1]]);
    let names: Vec<_> = points.iter().map(|point| point.name.as_deref()).collect();
    assert_eq!(names, [Some("Bench ring 1"), Some("Bench ring 2")]);
    assert!(points.iter().all(|point| point.height_m == 0.4));
    undone_and_done_again(&mut harness, &before);
}

#[test]
fn what_is_selected_goes_to_a_spot_by_two_tapes() {
    let mut harness = window(with_cylinders(&[("A", [3.0, 0.5])]));
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::G);
    press_label(&mut harness, "What was measured");
    press_label(&mut harness, "Where the selected thing is");
    harness.get_by_label("Select what was measured first.");
    keys(&mut harness, Modifiers::NONE, Key::Escape);
    let at = on_screen(&harness, 3.0, 0.5);
    click_at(&mut harness, at);
    keys(&mut harness, CTRL | Modifiers::SHIFT, Key::G);
    press_label(&mut harness, "What was measured");
    press_label(&mut harness, "Where the selected thing is");
    // From (0, ±2) to (1.5, 0): 2.5 m each.
    type_into(&mut harness, "Spots by two tapes", "1P 2.5; 1S 2.5");
    press_label(&mut harness, "Put it on the deck");
    let placing = &harness.state().plan().trips[0].cylinders[0].placing;
    assert_eq!(placing.at(), Some([1.5, 0.0]));
}

#[test]
fn a_locked_cylinder_stays_and_says_so() {
    let mut harness = window(with_cylinders(&[("A", [3.0, 0.5]), ("B", [4.0, 0.5])]));
    let at = on_screen(&harness, 3.0, 0.5);
    click_at(&mut harness, at);
    let before = bytes(&harness);
    keys(&mut harness, Modifiers::NONE, Key::X);
    undone_and_done_again(&mut harness, &before);
    harness.get_by_label_contains("Locked in place");
    let locked = bytes(&harness);
    drag(&mut harness, at, at + vec2(60.0, 20.0));
    keys(&mut harness, Modifiers::NONE, Key::ArrowRight);
    keys(&mut harness, Modifiers::NONE, Key::Delete);
    assert_eq!(bytes(&harness), locked, "it stays where it is");
    let told = harness.state().told().unwrap_or_default();
    assert!(told.contains("X frees it"), "{told}");
    keys(&mut harness, Modifiers::NONE, Key::X);
    keys(&mut harness, Modifiers::NONE, Key::ArrowRight);
    assert_ne!(bytes(&harness), locked, "freed");
}

#[test]
fn things_are_found_by_name_on_any_deck() {
    let mut plan = with_cylinders(&[("A", [3.0, 0.5]), ("B12", [4.0, 0.5])]);
    plan.trips[0].cylinders[0].number = Some("4711".to_owned());
    let mut harness = window(plan);
    keys(&mut harness, CTRL, Key::G);
    fill_in(&mut harness, "What is looked for", "4711");
    harness.get_by_label("Cylinder A (4711)");
    keys(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().selected(), ["A"]);
    keys(&mut harness, CTRL, Key::G);
    fill_in(&mut harness, "What is looked for", "b1");
    press_label(&mut harness, "Cylinder B12");
    assert_eq!(harness.state().selected(), ["B12"]);
    keys(&mut harness, CTRL, Key::G);
    fill_in(&mut harness, "What is looked for", "zebra");
    harness.get_by_label("Nothing aboard is called so.");
}

/// Is there a word of this unit in the text, as in `0.58 m` or `42 kg`?
fn names_unit(text: &str, unit: &str) -> bool {
    let words: Vec<&str> = text.split([' ', ',', ';', ':', '(', ')', '.']).collect();
    words
        .windows(2)
        .any(|pair| pair[1] == unit && pair[0].chars().any(|c| c.is_ascii_digit()))
}

#[test]
fn in_us_units_no_sentence_is_metric() {
    let mut harness = window_of(Editor::demonstration(), vec2(1280.0, 2400.0));
    keys(&mut harness, Modifiers::NONE, Key::U);
    let whole_day = "Whole day";
    press_label(&mut harness, whole_day);
    let findings = harness.state().findings();
    assert!(findings.len() > 80, "only {}", findings.len());
    let us = snugdown::units::System::Us;
    let mut with_lengths = 0;
    for finding in findings {
        let shown = finding.sentence.show(us);
        let tests = finding.hand_test.iter().map(|test| test.show(us));
        for text in std::iter::once(shown).chain(tests) {
            // What a clause itself says is cited as it says it.
            let text = text.replace("(4.572 m)", "");
            for unit in ["m", "mm", "cm", "kg", "kg/m²", "m²", "J"] {
                assert!(!names_unit(&text, unit), "{}: {text}", finding.code);
            }
            with_lengths += usize::from(names_unit(&text, "in") || names_unit(&text, "lb"));
        }
    }
    assert!(
        with_lengths > 10,
        "only {with_lengths} have a length or a force"
    );
    // And so it stands in the window.
    let shown = harness.query_all_by_label_contains(" lb ").count();
    assert!(shown > 0, "pounds on the screen");
}

#[test]
fn a_part_of_the_day_is_copied_with_its_changes() {
    let mut plan = with_cylinders(&[("A", [3.0, 0.5])]);
    plan.trips[0].parts[0].name = Some("Dive one".to_owned());
    let mut harness = window_of(Editor::new(plan), vec2(1280.0, 1600.0));
    press_label(&mut harness, "Add a part of the day after this one");
    let at = on_screen(&harness, 3.0, 0.5);
    drag(&mut harness, at, at + vec2(60.0, 0.0));
    keys(&mut harness, Modifiers::NONE, Key::Escape);
    keys(&mut harness, Modifiers::NONE, Key::PageUp);
    let before = bytes(&harness);
    press_label(&mut harness, "Copy this part of the day");
    press_label(&mut harness, "after part-1");
    undone_and_done_again(&mut harness, &before);
    let plan = harness.state().plan();
    let trip = &plan.trips[0];
    assert_eq!(trip.parts.len(), 3);
    assert_eq!(trip.parts[2].name.as_deref(), Some("Dive one again"));
    let days = snugdown::layout::DayState::of_trip(plan, trip);
    let place = |part: usize| days[part].cylinder("A").unwrap().placing.at();
    assert_eq!(place(2), place(0));
    assert_ne!(place(1), place(0), "the one between stays");
}

#[test]
fn a_lashing_and_a_walkway_are_made_of_what_is_selected_by_keys_alone() {
    let mut harness = window(with_cylinders(&[("A", [3.0, 0.5])]));
    for (item, x) in [("Pad eye", 2.5), ("Ring", 3.5)] {
        press_label(&mut harness, item);
        let at = on_screen(&harness, x, 1.0);
        click_at(&mut harness, at);
        keys(&mut harness, Modifiers::NONE, Key::Escape);
    }
    for (text, add) in [("E1", false), ("A", true), ("E2", true)] {
        keys(&mut harness, CTRL, Key::G);
        fill_in(&mut harness, "What is looked for", text);
        let with = if add {
            Modifiers::SHIFT
        } else {
            Modifiers::NONE
        };
        keys(&mut harness, with, Key::Enter);
    }
    assert_eq!(harness.state().selected(), ["E1", "A", "E2"]);
    let before = bytes(&harness);
    keys(&mut harness, Modifiers::NONE, Key::K);
    let lashing = &harness.state().plan().trips[0].lashings[0];
    let ends = (lashing.from.as_str(), lashing.to.as_str());
    assert_eq!(
        (ends, lashing.round.as_slice()),
        (("E1", "E2"), &["A".to_owned()][..])
    );
    undone_and_done_again(&mut harness, &before);
}

#[test]
fn a_walkway_with_a_bend_is_drawn_by_keys_alone() {
    let mut harness = window(Plan::new("Otter", 10.0, 4.0));
    let before = bytes(&harness);
    fill_in(&mut harness, "Search the stores", "walkway");
    press_label(&mut harness, "Walkway");
    keys(&mut harness, Modifiers::NONE, Key::P);
    for _ in 0..3 {
        keys(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    }
    keys(&mut harness, Modifiers::NONE, Key::P);
    for _ in 0..4 {
        keys(&mut harness, Modifiers::NONE, Key::ArrowUp);
    }
    keys(&mut harness, Modifiers::NONE, Key::Enter);
    let ways = &harness.state().plan().boat.walkways;
    assert_eq!(ways.len(), 1, "one walkway");
    let line = &ways[0].line;
    assert_eq!(line.len(), 3, "{line:?}");
    let leg = |i: usize| [line[i + 1][0] - line[i][0], line[i + 1][1] - line[i][1]];
    for (leg, wanted) in [(leg(0), [1.5, 0.0]), (leg(1), [0.0, 0.4])] {
        let off = (leg[0] - wanted[0]).hypot(leg[1] - wanted[1]);
        assert!(off < 1e-9, "{leg:?} instead of {wanted:?}");
    }
    undone_and_done_again(&mut harness, &before);
}

#[test]
fn a_whole_deck_stays_whole_in_a_larger_window() {
    let mut harness = window(Plan::new("Otter", 10.0, 4.0));
    let length = |harness: &Harness<'static, Editor>| {
        on_screen(harness, 10.0, 0.0).x - on_screen(harness, 0.0, 0.0).x
    };
    let small = length(&harness);
    harness.set_size(vec2(1920.0, 1080.0));
    harness.run();
    let large = length(&harness);
    assert!(large > 1.5 * small, "{small} then {large} points");
    // Once somebody has enlarged it, it stays so.
    keys(&mut harness, Modifiers::NONE, Key::Plus);
    let enlarged = length(&harness);
    harness.set_size(vec2(1280.0, 800.0));
    harness.run();
    assert!((length(&harness) - enlarged).abs() < 1.0);
}
