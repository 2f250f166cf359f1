//! What must be put right: seen, chosen, cured by a button, undone.

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use snugdown::app::Editor;
use snugdown::layout::{Cylinder, Placing, Plan};

use crate::support::{press_label, wait, window_of};

/// Two upright cylinders that nothing holds, and a rack with room for them.
fn loose() -> Plan {
    let text = include_str!("loose.json");
    snugdown::store::parse(text, "loose.json").unwrap()
}

fn window() -> Harness<'static, Editor> {
    window_of(Editor::new(loose()), egui::vec2(1280.0, 1600.0))
}

#[test]
fn a_loose_cylinder_is_in_danger_and_the_signal_word_is_text() {
    let harness = window();
    let found = harness.state().findings();
    assert!(
        found.iter().any(|finding| finding.about[0].id == "P1"),
        "{found:?}"
    );
    assert!(harness.query_all_by_label_contains("DANGER").count() > 0);
}

#[test]
fn the_cure_is_applied_by_its_button_as_one_step() {
    let mut harness = window();
    harness.key_press(Key::F8);
    harness.run_steps(2);
    let chosen = harness.state().selected().len();
    assert!(chosen > 0, "what it is about is selected");
    wait(&mut harness);
    let before = harness.state().findings().len();
    let label = {
        let cures = harness.query_all_by_label_contains("Put it right: ");
        let first = cures.into_iter().next().expect("a cure");
        first.accesskit_node().label().unwrap()
    };
    press_label(&mut harness, &label);
    let after = harness.state().findings().len();
    assert!(
        after < before,
        "{before} findings before {label:?}, {after} after"
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().plan(), &loose(), "one step back");
}

#[test]
fn findings_follow_a_drag() {
    let mut plan = loose();
    plan.trips[0].cylinders.truncate(1);
    let mut harness = window_of(Editor::new(plan), egui::vec2(1280.0, 800.0));
    let runs = harness.state().check_runs();
    let from = crate::support::on_screen(&harness, 4.0, 0.0);
    let to = crate::support::on_screen(&harness, 5.0, 0.4);
    crate::support::drag_to(&mut harness, from, to);
    assert!(
        harness.state().check_runs() > runs + 5,
        "computed while dragging"
    );
    harness.drop_at(to);
    harness.run();
}

#[test]
fn a_placed_cylinder_brings_its_finding_at_once() {
    let mut plan = loose();
    plan.trips[0].cylinders.clear();
    let mut harness = window_of(Editor::new(plan.clone()), egui::vec2(1280.0, 800.0));
    assert!(harness.state().findings().is_empty(), "nothing stowed");
    let placing = Placing::Standing {
        deck: "main".into(),
        at: [4.0, 0.0],
        on: None,
    };
    plan.trips[0]
        .cylinders
        .push(Cylinder::new("C1", "al-80cf", placing));
    press_label(&mut harness, "Cylinders");
    press_label(&mut harness, "Aluminium 3 L, 200/207 bar");
    let at = crate::support::on_screen(&harness, 4.0, 0.0);
    crate::support::click_at(&mut harness, at);
    let found = harness.state().findings();
    let about = found.iter().any(|finding| {
        finding.signal == snugdown::checks::Signal::Danger && finding.about[0].id == "C1"
    });
    assert!(about, "{found:?}");
}
