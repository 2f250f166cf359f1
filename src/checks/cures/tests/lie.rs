//! Chocks, a turn, the kit, a strap over a lying cylinder, a cap.

use super::Case;
use crate::layout::{Chocks, GearShape, Placing};

const ROLLS: &str = "deck 6x3; running roll=20/4; lie P1 3,0 towards=0 cap";

fn chock_height_m(case: &Case) -> Option<f64> {
    match &case.plan.trips[0].cylinders[0].placing {
        Placing::Lying {
            chocks: Some(Chocks::Blocks { height_m, .. }),
            ..
        } => Some(*height_m),
        _ => None,
    }
}

#[test]
fn the_lowest_chocks_aboard_that_are_high_enough() {
    let aboard =
        "aboard A chock 2 height=0.005; aboard B chock 2 height=0.03; aboard C chock 2 height=0.08";
    let after = Case::new(&format!("{ROLLS}; {aboard}")).cured_by("Y501", "P1", "with 30 mm");
    assert_eq!(chock_height_m(&after), Some(0.03));
    assert!(
        after.finding("Y502", "P1").is_none(),
        "{:#?}",
        after.findings
    );
}

#[test]
fn no_more_chocks_than_are_aboard() {
    Case::new(ROLLS).not_cured_by("Y501", "P1", "Chock");
    Case::new(&format!("{ROLLS}; aboard B chock 1 height=0.06"))
        .not_cured_by("Y501", "P1", "Chock");
    let used = format!("{ROLLS}; lie P2 3,1 chock=0.06; aboard B chock 3 height=0.06");
    Case::new(&used).not_cured_by("Y501", "P1", "Chock");
    let enough = used.replace("chock 3", "chock 4");
    Case::new(&enough).cured_by("Y501", "P1", "Chock P1 on both sides with 60 mm");
}

#[test]
fn chocks_of_another_height_are_not_those_in_use() {
    // The high ones lie beside P2: the low ones are free, and they are too low.
    let text = format!(
        "{ROLLS}; lie P2 3,1 chock=0.06; aboard A chock 2 height=0.005; aboard B chock 2 height=0.06"
    );
    Case::new(&text).not_cured_by("Y501", "P1", "60 mm");
}

#[test]
fn chocks_that_are_wanted_later_in_the_day_are_not_free() {
    let text =
        "deck 6x3; aboard B chock 2 height=0.06; lie P1 3,0 towards=0 cap; lie P2 3,1 saddle=60 cap
                running out roll=20/4; running back roll=20/4; lie P2 3,1 chock=0.06";
    Case::new(text).not_cured_by("Y501", "P1", "Chock");
}

#[test]
fn chocks_that_are_too_low_or_loose() {
    let low = "deck 6x3; running roll=25/4; lie P1 3,0 towards=0 cap chock=0.01; aboard B chock 4 height=0.07";
    Case::new(low).cured_by("Y502", "P1", "with 70 mm");
    let loose = "deck 6x3; running roll=20/4; lie P1 3,0 towards=0 cap chock=0.06 unfixed; aboard B chock 2 height=0.06";
    Case::new(loose).cured_by("Y502", "P1", "snug and fixed");
}

#[test]
fn turned_fore_and_aft_it_does_not_roll() {
    let text = "deck 6x3; running roll=6/5; lie P1 3,0 towards=90 cap chock=0.001";
    let across = text.replace("towards=90", "towards=0");
    let rolls = Case::new(&across);
    assert!(
        rolls.finding("Y502", "P1").is_some(),
        "{:#?}",
        rolls.findings
    );
    rolls.cured_by("Y502", "P1", "Turn P1 by 90°");
}

#[test]
fn turned_onto_its_kit() {
    let text = "deck 6x3 friction=0.8; running roll=3/6; lie P1 3,0 towards=0 cap kit=90";
    Case::new(text).cured_by("Y501", "P1", "so that it lies on its kit");
    Case::new("deck 6x3 friction=0.8; running roll=3/6; lie P1 3,0 towards=0 cap").not_cured_by(
        "Y501",
        "P1",
        "on its kit",
    );
}

#[test]
fn a_valve_is_turned_out_of_a_walkway() {
    let text =
        "deck 6x3; fast roll=0.1/8; place A seat 0.5,0; place B gate 5.5,0; way W A B width=0.6
                lie P1 3,1 towards=-90 saddle=60 cap";
    let after = Case::new(text).cured_by("Y506", "P1", "its valve points to port");
    assert!(after.finding("Y506", "P1").is_none());
}

#[test]
fn a_strap_over_it_stops_the_slide() {
    let text = "deck 6x3 friction=0.2; running roll=15/4; lie P1 3,0 towards=90 saddle=60 cap
                point E1 2.7,0.1; point E2 3.3,0.1; point E3 2.7,-0.1; point E4 3.3,-0.1";
    let case = Case::new(&format!("{text}; aboard S strap 2"));
    case.cured_by("Y503", "P1", "Strap over P1");
    Case::new(text).not_cured_by("Y503", "P1", "Strap");
}

#[test]
fn a_bare_valve_is_capped() {
    let case = Case::new("deck 6x3; running roll=1/8; lie P1 3,0 saddle=60");
    let after = case.cured_by("Y505", "P1", "Cap or guard the valve of P1");
    assert!(after.plan.trips[0].cylinders[0].valve_protected);
}

#[test]
fn no_more_mats_than_are_aboard() {
    let text = "deck 6x3 friction=0.2; running roll=8/5; lie P1 3,0 towards=90 saddle=60 cap";
    Case::new(text).not_cured_by("Y503", "P1", "mat");
    let used = format!("{text}; gear D mat 1,1 size=0.4x0.4 h=0.004; aboard M mat 1");
    Case::new(&used).not_cured_by("Y503", "P1", "mat");
}

/// A lying one touches the deck along its whole shell: a mat as long as a foot is wide leaves most of it on
/// the bare deck.
#[test]
fn a_mat_is_as_long_as_what_lies_on_it() {
    let text = "deck 6x3; running roll=8/8; lie P1 3,0 towards=30 onkit cap; aboard M mat 1";
    let case = Case::new(text);
    let after = case.cured_by("T202", "P1", "Lay a non-slip mat under P1 (M)");
    assert!(after.findings.is_empty(), "{:#?}", after.findings);
    let GearShape::Box {
        length_m, turn_deg, ..
    } = after.plan.trips[0].gear[0].floor
    else {
        panic!("{:#?}", after.plan.trips[0].gear);
    };
    // An 80 cu ft aluminium cylinder is 0.72 m long with its valve.
    assert!((0.7..0.74).contains(&length_m), "{length_m}");
    assert!((turn_deg - 30.0).abs() < 1e-9, "{turn_deg}");
}
