//! Making room: the smallest shift that clears a walkway, and what is stowed.

use super::Case;
use crate::layout::GearShape;

const WAY: &str =
    "deck 6x2; fast roll=0.1/8; place A seat 0.5,0; place B gate 5.5,0; way W A B width=0.61";

fn at(case: &Case, gear: usize) -> [f64; 2] {
    match &case.plan.trips[0].gear[gear].floor {
        GearShape::Box { at, .. } | GearShape::Round { at, .. } => *at,
        GearShape::Line { points, .. } => points[0],
    }
}

#[test]
fn the_smallest_shift_that_opens_a_walkway() {
    // From y = -0.15 to 0.35 on a deck from -0.6 to 0.6: 0.45 m are left to starboard, 0.61 m are wanted.
    let narrow = WAY.replace("6x2", "6x1.2");
    let case = Case::new(&format!("{narrow}; gear G crate 3,0.1 size=0.6x0.5 h=0.8"));
    let after = case.cured_by("W601", "W", "Move G");
    let moved = at(&after, 0)[1] - 0.1;
    assert!((0.16..0.18).contains(&moved), "moved by {moved}");
    assert!(
        after.finding("W602", "W").is_none(),
        "{:#?}",
        after.findings
    );
    // On a deck on which it leaves no way however it stands a shift only moves the trouble: it is told.
    let narrower = WAY.replace("6x2", "6x1");
    let case = Case::new(&format!(
        "{narrower}; gear G crate 3,0.1 size=0.6x0.7 h=0.8"
    ));
    let over_the_edge = |cure: &crate::checks::Cure| {
        let mut trouble = cure.moves_trouble_to.iter();
        trouble.any(|sentence| sentence.contains("over the edge"))
    };
    let cures = case.cures("W601", "W");
    let mut moved = cures.iter().filter(|cure| cure.label.starts_with("Move G"));
    assert!(moved.all(over_the_edge), "{cures:#?}");
    case.cured_by("W601", "W", "Stow G away");
}

#[test]
fn the_smallest_shift_out_of_the_strip() {
    let case = Case::new(&format!("{WAY}; gear G kit_bag 3,0.4 size=0.5x0.4 h=0.4"));
    // Its edge lies at y = 0.20, the strip's at 0.305: 0.105 m, and a little more so that it is clear.
    let after = case.cured_by("W604", "G", "Move G 0.1");
    let moved = at(&after, 0)[1] - 0.4;
    assert!((0.105..0.125).contains(&moved), "moved by {moved}");
}

#[test]
fn loose_gear_is_stowed_away() {
    let case = Case::new(&format!("{WAY}; gear G kit_bag 3,0 size=0.5x0.4 h=0.4"));
    let after = case.cured_by("W604", "G", "Stow G away");
    assert!(after.plan.trips[0].gear[0].stowed);
    let hose = Case::new(&format!(
        "{WAY}; gear H hose 3,-0.9+3,0.9 thick=0.025 h=0.025"
    ));
    let of_hose = hose
        .findings
        .iter()
        .find(|item| item.about.iter().any(|about| about.id == "H"));
    let finding = of_hose.unwrap();
    hose.cured_by(finding.code, finding.first(), "Stow H away");
}

#[test]
fn what_cannot_be_stowed_is_not() {
    let case = Case::new(&format!("{WAY}; lie P1 3,0.3 saddle=60 cap"));
    case.not_cured_by("W604", "P1", "Stow");
    case.cured_by("W604", "P1", "Move P1");
}

#[test]
fn a_cylinder_is_moved_off_a_hatch() {
    let text = "deck 6x3; fast roll=0.1/8; fixture H hatch 2.5..3.5,-0.5..0.5 h=0.02 walked open-when=made_fast
                lie P1 3,0.4 saddle=60 cap";
    Case::new(text).cured_by("P804", "H", "Move P1");
}

#[test]
fn two_that_overlap_are_moved_apart() {
    let text = "deck 6x3; fast roll=0.1/8; lie P2 3,0.1 saddle=60 cap; lie P1 3,0 saddle=60 cap";
    let case = Case::new(text);
    let about = case
        .findings
        .iter()
        .find(|item| item.code == "P801")
        .unwrap()
        .first()
        .to_owned();
    case.cured_by("P801", &about, "Move P");
}

#[test]
fn what_hangs_over_the_edge_is_moved_aboard() {
    let after = Case::new("deck 6x3; fast roll=0.1/8; lie P1 3,1.45 saddle=60 cap").cured_by(
        "P802",
        "P1",
        "to starboard",
    );
    assert!(after.findings.is_empty(), "{:#?}", after.findings);
}

#[test]
fn a_shift_in_a_later_part_leaves_the_earlier_ones() {
    let text = "deck 6x2; place A seat 0.5,0; place B gate 5.5,0; way W A B width=0.61
                gear G kit_bag 3,0.8 size=0.5x0.4 h=0.4; fast out roll=0.1/8; fast back roll=0.1/8
                gear G kit_bag 3,0.3 size=0.5x0.4";
    let case = Case::new(text);
    let after = case.cured_by("W604", "G", "Move G");
    assert!(
        (at(&after, 0)[1] - 0.8).abs() < 1e-9,
        "where it was at the start of the day"
    );
}
