//! Lashings made better: stronger, tighter, at another height, to other points.

use super::Case;

fn strap(more: &str) -> String {
    format!(
        "deck 6x3; running roll=9/5; stand P1 3,0; point E1 3,0.6; point E2 3,-0.6
         lash L1 E1 P1 E1 {more}; lash L2 E2 P1 E2 h=0.44 tight=0.2"
    )
}

#[test]
fn a_slack_strap_is_tightened() {
    let case = Case::new(&strap("h=0.44 slack=0.25"));
    let after = case.cured_by("L403", "L1", "Tighten L1");
    assert_eq!(after.plan.trips[0].lashings[0].slack_m, None);
}

#[test]
fn a_strap_slack_in_a_later_part_is_tightened_there_too() {
    let mut case = Case::new(&format!(
        "{}; running back roll=9/5; open L2",
        strap("h=0.44 tight=0.2")
    ));
    let change = crate::layout::LashingChange {
        lashing: "L1".into(),
        shut: None,
        round: None,
        slack_m: Some(crate::layout::Known::Value(0.25)),
    };
    let changes = &mut case.plan.trips[0].parts[1].changes.lashings;
    changes.clear();
    changes.push(change);
    let case = Case::of(case.plan);
    case.cured_by("L403", "L1", "Tighten L1");
}

#[test]
fn a_strap_round_the_valve_is_moved_to_the_straight_shell() {
    let case = Case::new(&strap("h=0.72 tight=0.2"));
    let after = case.cured_by("L407", "L1", "Move L1 to 0.48 m up");
    assert!((after.plan.trips[0].lashings[0].height_m - 0.48).abs() < 1e-9);
}

#[test]
fn a_worn_strap_is_replaced_from_the_gear_aboard() {
    let worn = strap("h=0.44 tight=0.2 is=cut");
    Case::new(&worn).not_cured_by("L409", "L1", "Replace");
    // Two are in use, the third is free.
    Case::new(&format!("{worn}; aboard S strap 2")).not_cured_by("L409", "L1", "Replace");
    let case = Case::new(&format!("{worn}; aboard S strap 3"));
    case.cured_by("L409", "L1", "Replace L1 by one of S");
    // It is long enough for nothing.
    let short = format!("{worn}; aboard S strap 3 length=0.8");
    Case::new(&short).not_cured_by("L409", "L1", "Replace");
}

#[test]
fn a_guard_rail_is_exchanged_for_a_point() {
    let text = "deck 6x3; running roll=3/8; stand P1 3,0; point E1 3,0.6; point E2 3,-0.6
                point G 3,0.9 is=guard_rail h=0.4
                lash L1 G P1 G h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2";
    let case = Case::new(text);
    let about = &case
        .findings
        .iter()
        .find(|item| item.code == "L406")
        .unwrap()
        .about[0]
        .id
        .clone();
    case.cured_by("L406", about, "fast to E1 instead");
}

#[test]
fn a_steep_strap_goes_to_points_farther_away() {
    let text = "deck 6x3; running roll=5/6; stand P1 3,0; point E1 3,0.15 h=0; point E2 3,-0.9
                point E3 3,0.9
                lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2";
    Case::new(text).cured_by("L405", "L1", "Make L1 fast to E3 instead");
    let none = text.replace("point E3 3,0.9", "point E3 3,0.14 h=0");
    Case::new(&none).not_cured_by("L405", "L1", "E3");
}
