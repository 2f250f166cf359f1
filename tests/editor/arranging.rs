//! Arranging: lines, spaces, grids; corners of the deck; parts of the day and trips; taking on.

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::layout::{Cylinder, Placing, Plan};

use crate::support::{
    click_at, drag, fill_in, on_screen, press_label, press_step, wait, window, window_of,
};

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

fn keys(harness: &mut Harness<'static, Editor>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn three() -> Plan {
    let mut plan = Plan::new("Test", 10.0, 4.0);
    for (id, at) in [("P1", [2.0, 0.2]), ("P2", [2.6, 0.0]), ("P3", [5.0, -0.3])] {
        let placing = Placing::Standing {
            deck: "main".into(),
            at,
            on: None,
        };
        plan.trips[0]
            .cylinders
            .push(Cylinder::new(id, "al-80cf", placing));
    }
    plan
}

fn places(harness: &Harness<'static, Editor>) -> Vec<[f64; 2]> {
    let cylinders = harness.state().plan().trips[0].cylinders.iter();
    cylinders.map(|item| item.placing.at().unwrap()).collect()
}

fn tall(plan: Plan) -> Harness<'static, Editor> {
    window_of(Editor::new(plan), vec2(1280.0, 2400.0))
}

#[test]
fn several_are_lined_up_and_spread_each_as_one_step() {
    let mut harness = window(three());
    keys(&mut harness, CTRL, Key::A);
    keys(&mut harness, CTRL_SHIFT, Key::E);
    let spread: Vec<f64> = places(&harness).iter().map(|at| at[0]).collect();
    assert_eq!(spread, [2.0, 3.5, 5.0]);
    keys(&mut harness, CTRL_SHIFT, Key::L);
    let lines: Vec<f64> = places(&harness).iter().map(|at| at[1]).collect();
    assert!(lines.iter().all(|y| *y == lines[0]), "{lines:?}");
    keys(&mut harness, CTRL, Key::Z);
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(*harness.state().plan(), three());
}

#[test]
fn copies_are_put_in_a_grid() {
    let mut harness = window(three());
    let at = on_screen(&harness, 2.0, 0.2);
    click_at(&mut harness, at);
    keys(&mut harness, CTRL_SHIFT, Key::D);
    press_label(&mut harness, "Put them there");
    let places = places(&harness);
    assert_eq!(places.len(), 6, "four in a row, one of them the old one");
    assert_eq!(places[3..], [[2.3, 0.2], [2.6, 0.2], [2.9, 0.2]]);
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(*harness.state().plan(), three(), "one step");
}

#[test]
fn a_corner_of_the_deck_takes_its_twin_along() {
    let mut plan = Plan::new("Test", 10.0, 4.0);
    plan.boat.decks[0].outline = vec![
        [0.0, -2.0],
        [8.0, -2.0],
        [10.0, 0.0],
        [8.0, 2.0],
        [0.0, 2.0],
    ];
    let mut harness = window(plan.clone());
    keys(&mut harness, Modifiers::NONE, Key::C);
    let (from, to) = (on_screen(&harness, 0.0, 2.0), on_screen(&harness, 0.5, 1.5));
    drag(&mut harness, from, to);
    let outline = harness.state().plan().boat.decks[0].outline.clone();
    assert!(
        outline.contains(&[0.5, 1.5]) && outline.contains(&[0.5, -1.5]),
        "{outline:?}"
    );
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(*harness.state().plan(), plan, "one step");
}

#[test]
fn a_deck_is_typed_as_tape_readings() {
    let mut harness = window(Plan::new("Test", 10.0, 4.0));
    keys(&mut harness, CTRL_SHIFT, Key::O);
    let field = || "Tape readings";
    harness.get_by_label(field()).focus();
    harness.run();
    keys(&mut harness, CTRL, Key::A);
    harness
        .get_by_label(field())
        .type_text("0 2.1\n6 ft; 2,1 m\n9.5; 0");
    harness.run();
    press_label(&mut harness, "Draw the deck so");
    let outline = &harness.state().plan().boat.decks[0].outline;
    // 6 ft = 1.8288 m exactly (international foot, 1959).
    assert_eq!(outline.len(), 5, "{outline:?}");
    assert!(
        outline.iter().any(|p| (p[0] - 1.8288).abs() < 1e-9),
        "{outline:?}"
    );
}

#[test]
fn parts_of_the_day_are_added_moved_and_taken_away() {
    let mut harness = tall(three());
    press_label(&mut harness, "Add a part of the day after this one");
    let ids = |harness: &Harness<'static, Editor>| -> Vec<String> {
        let parts = harness.state().plan().trips[0].parts.iter();
        parts.map(|part| part.id.clone()).collect()
    };
    assert_eq!(ids(&harness), ["running", "part-1"]);
    press_label(&mut harness, "Earlier in the day");
    assert_eq!(ids(&harness), ["part-1", "running"]);
    press_label(&mut harness, "Take this part of the day away");
    assert_eq!(ids(&harness), ["running"]);
}

#[test]
fn a_trip_is_made_from_another_and_taken_away() {
    let mut harness = tall(three());
    press_label(&mut harness, "This trip");
    press_label(&mut harness, "New trip from this one");
    let trips = &harness.state().plan().trips;
    assert_eq!(trips.len(), 2);
    assert_eq!(trips[1].cylinders, trips[0].cylinders);
    press_label(&mut harness, "Take this trip away");
    let trips = &harness.state().plan().trips;
    assert_eq!(trips.len(), 1);
    assert_eq!(trips[0].id, "trip-1", "the one shown went");
}

#[test]
fn gear_aboard_is_added_for_cures() {
    let mut harness = tall(three());
    press_label(&mut harness, "This trip");
    press_label(&mut harness, "Add gear aboard");
    press_label(&mut harness, "strap");
    let gear = &harness.state().plan().trips[0].gear_aboard;
    assert_eq!(gear.len(), 1, "{gear:?}");
    assert_eq!(gear[0].count, 1);
}

#[test]
fn what_is_taken_on_stays_in_sight_with_name_and_reason() {
    let mut harness = tall(three());
    keys(&mut harness, Modifiers::NONE, Key::F8);
    keys(&mut harness, CTRL_SHIFT, Key::A);
    fill_in(&mut harness, "Taken on by", "Ann");
    fill_in(&mut harness, "Because", "only alongside");
    press_label(&mut harness, "Take on");
    let taken = &harness.state().plan().trips[0].taken_on;
    assert_eq!(taken.len(), 1);
    assert_eq!(
        (taken[0].by.as_str(), taken[0].reason.as_str()),
        ("Ann", "only alongside")
    );
    let told = harness.query_all_by_label_contains("Taken on by Ann: only alongside");
    assert!(told.count() > 0, "it is told");
}

#[test]
fn what_must_be_put_right_is_searched() {
    let mut harness = tall(three());
    let lines = |harness: &Harness<'static, Editor>| {
        harness.query_all_by_label_contains("stands free").count()
    };
    assert!(lines(&harness) > 0, "it is there");
    keys(&mut harness, CTRL_SHIFT, Key::F);
    fill_in(&mut harness, "Search these", "there is no such thing");
    assert_eq!(lines(&harness), 0, "hidden");
    harness.get_by_label("Nothing to put right has that in it.");
}

#[test]
fn what_is_taken_on_is_struck_from_the_count() {
    let mut plan = three();
    plan.trips[0].cylinders.truncate(1);
    let mut harness = tall(plan);
    let danger = |harness: &Harness<'static, Editor>| -> String {
        use egui_kittest::kittest::NodeT as _;
        let mut found = harness.query_all_by_label_contains("DANGER: ");
        let first = found.next().expect("a count");
        first.accesskit_node().label().unwrap()
    };
    let all: usize = danger(&harness)["DANGER: ".len()..].parse().unwrap();
    keys(&mut harness, Modifiers::NONE, Key::F8);
    keys(&mut harness, CTRL_SHIFT, Key::A);
    fill_in(&mut harness, "Taken on by", "Ann");
    fill_in(&mut harness, "Because", "only alongside");
    press_label(&mut harness, "Take on");
    assert_eq!(danger(&harness), format!("DANGER: {}", all - 1));
    harness.get_by_label("Taken on, not counted: 1");
}

#[test]
fn one_signal_word_or_the_whole_day_is_listed() {
    let mut harness = tall(three());
    press_label(&mut harness, "Add a part of the day after this one");
    let runs =
        |harness: &Harness<'static, Editor>| harness.query_all_by_label_contains("P1").count();
    let one = runs(&harness);
    assert!(one > 0, "of this part");
    press_label(&mut harness, "Whole day");
    let told = harness.query_all_by_label_contains(" times)").count();
    assert!(told > 0, "each stands twice in the day");
    let danger = {
        use egui_kittest::kittest::NodeT as _;
        let mut found = harness.query_all_by_label_contains("DANGER: ");
        found.next().unwrap().accesskit_node().label().unwrap()
    };
    press_label(&mut harness, &danger);
    harness.get_by_label("Whole day");
    assert!(runs(&harness) > 0, "those in danger are still listed");
}

#[test]
fn what_is_changed_on_the_card_is_changed_on_all_that_are_selected() {
    let mut harness = window_of(Editor::new(three()), vec2(1280.0, 3200.0));
    keys(&mut harness, CTRL, Key::A);
    press_label(&mut harness, "Has a boot");
    let boots = |harness: &Harness<'static, Editor>| -> Vec<bool> {
        let cylinders = harness.state().plan().trips[0].cylinders.iter();
        cylinders.map(|item| item.boot).collect()
    };
    let was = three().trips[0].cylinders[0].boot;
    assert_eq!(boots(&harness), [!was; 3]);
    let before: Vec<[f64; 2]> = places(&harness);
    assert_eq!(
        before,
        [[2.0, 0.2], [2.6, 0.0], [5.0, -0.3]],
        "places are each one's own"
    );
    keys(&mut harness, CTRL, Key::Z);
    assert_eq!(boots(&harness), [was; 3], "one step");
}

#[test]
fn a_corner_of_one_side_moves_alone_at_a_switch_and_the_bow_is_rounded() {
    let mut plan = Plan::new("Test", 10.0, 4.0);
    plan.boat.decks[0].outline = vec![
        [0.0, -2.0],
        [8.0, -2.0],
        [10.0, 0.0],
        [8.0, 2.0],
        [0.0, 2.0],
    ];
    let mut harness = window(plan);
    keys(&mut harness, CTRL_SHIFT, Key::W);
    let outline =
        |harness: &Harness<'static, Editor>| harness.state().plan().boat.decks[0].outline.clone();
    assert_eq!(outline(&harness).len(), 15, "five more on either side");
    keys(&mut harness, CTRL_SHIFT, Key::W);
    assert_eq!(outline(&harness).len(), 15, "no pointed bow is left");
    keys(&mut harness, Modifiers::NONE, Key::B);
    // Another key takes away what was told, which moves the plan a little.
    keys(&mut harness, Modifiers::NONE, Key::N);
    let (from, to) = (on_screen(&harness, 0.0, 2.0), on_screen(&harness, 0.5, 1.5));
    drag(&mut harness, from, to);
    let corners = outline(&harness);
    assert!(
        corners.contains(&[0.5, 1.5]) && corners.contains(&[0.0, -2.0]),
        "{corners:?}"
    );
}

#[test]
fn curves_are_worked_out_when_looked_at() {
    let mut harness = window_of(Editor::new(three()), vec2(1280.0, 3200.0));
    let at = on_screen(&harness, 2.0, 0.2);
    click_at(&mut harness, at);
    press_step(&mut harness, "Curves");
    harness.run_steps(4);
    wait(&mut harness);
    for (name, told) in [
        ("Limit and roll period", "every 1.5 s: "),
        ("Margin and heel", "15.0° to port: "),
        ("Margin and roll", "0.0° of roll: "),
    ] {
        press_label(&mut harness, name);
        wait(&mut harness);
        let found = harness.query_all_by_label_contains(told);
        assert!(found.count() > 0, "{name} in words");
    }
}

#[test]
fn what_is_locked_stays_until_it_is_freed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("boat.json");
    snugdown::store::save(&Plan::new("Test", 10.0, 4.0), &path).unwrap();
    let mut harness = window_of(Editor::open(&path).unwrap(), vec2(1280.0, 800.0));
    press_label(&mut harness, "Pad eye");
    let at = on_screen(&harness, 3.0, 1.0);
    click_at(&mut harness, at);
    keys(&mut harness, Modifiers::NONE, Key::Escape);
    keys(&mut harness, CTRL, Key::A);
    let place = |harness: &Harness<'static, Editor>| {
        let points = &harness.state().plan().boat.lashing_points;
        points.first().map(|point| point.at)
    };
    let was = place(&harness);
    keys(&mut harness, Modifiers::NONE, Key::X);
    keys(&mut harness, Modifiers::NONE, Key::ArrowRight);
    keys(&mut harness, Modifiers::NONE, Key::Delete);
    assert_eq!(place(&harness), was, "locked");
    keys(&mut harness, CTRL, Key::S);
    let saved = snugdown::store::read(&path).unwrap();
    assert_eq!(saved.boat.locked.len(), 1, "kept in the file");
    // What was told has moved the plan a little.
    let at = on_screen(&harness, 3.0, 1.0);
    click_at(&mut harness, at);
    keys(&mut harness, Modifiers::NONE, Key::X);
    keys(&mut harness, Modifiers::NONE, Key::ArrowRight);
    assert_ne!(place(&harness), was, "freed");
}
