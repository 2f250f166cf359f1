use super::*;
use crate::checks::fixture;

const PLANNED: &str = "deck 10x4; running roll=15/4
point E1 4,1.6 h=0.3 strength=9; point E2 4.6,1.6 h=0.3 strength=9
place G gate 0.4,0; place A seat 9,0; way W G A width=0.6
stand P1 4.3,1.3; stand P2 7,1.3; lash L1 E1 P1 E2 h=0.44 strength=9; lie P3 7,-1.5 towards=0";

fn moment(text: &str) -> Moment {
    Moment::of(&fixture::plan(text).unwrap(), None, None).unwrap()
}

fn compared(found: &str) -> Comparison {
    compare(&moment(PLANNED), &moment(found))
}

fn kinds(comparison: &Comparison) -> Vec<(DifferenceKind, &str)> {
    let differences = comparison.differences.iter();
    differences
        .map(|item| (item.kind, item.about.as_str()))
        .collect()
}

#[test]
fn what_is_as_planned_differs_in_nothing() {
    let same = compared(PLANNED);
    assert_eq!(kinds(&same), []);
    assert_eq!(same.limits, []);
}

#[test]
fn a_strap_left_off_lowers_the_limit_of_its_cylinder() {
    let found = compared(&PLANNED.replace("; lash L1 E1 P1 E2 h=0.44 strength=9", ""));
    assert_eq!(kinds(&found), [(DifferenceKind::Missing, "L1")]);
    let change = &found.differences[0].limits;
    assert_eq!(change.len(), 1, "{change:?}");
    assert_eq!(change[0].cylinder, "P1");
    assert_ne!(change[0].planned, change[0].with_it);
    assert_eq!(
        found.limits, *change,
        "one difference is all the difference"
    );
}

#[test]
fn a_shift_is_told_with_how_far_and_which_way() {
    let found = compared(&PLANNED.replace("P2 7,1.3", "P2 6.9,1.3"));
    assert_eq!(kinds(&found), [(DifferenceKind::Moved, "P2")]);
    assert!(
        found.differences[0].sentence.contains("0.10 m astern"),
        "{found:?}"
    );
}

#[test]
fn a_turn_of_one_that_lies_is_told() {
    let found = compared(&PLANNED.replace("towards=0", "towards=90"));
    assert_eq!(kinds(&found), [(DifferenceKind::Turned, "P3")]);
}

#[test]
fn who_came_and_who_is_gone_are_told() {
    let found = compared(&PLANNED.replace("stand P2 7,1.3", "stand P9 7,1.3"));
    let expected = [
        (DifferenceKind::Missing, "P2"),
        (DifferenceKind::Added, "P9"),
    ];
    assert_eq!(kinds(&found), expected);
}

#[test]
fn one_in_the_way_narrows_the_walkway() {
    let narrow = |at: &str| {
        moment(&format!(
            "deck 10x2; running roll=15/4; place G gate 0.4,0; place A seat 9,0; way W G A width=0.6; stand P2 {at}"
        ))
    };
    let found = compare(&narrow("7,0.85"), &narrow("7,0.1"));
    let kinds = kinds(&found);
    assert!(kinds.contains(&(DifferenceKind::Moved, "P2")), "{kinds:?}");
    assert!(
        kinds.contains(&(DifferenceKind::WalkwayNarrowed, "W")),
        "{kinds:?}"
    );
}

#[test]
fn a_part_of_the_day_is_as_it_was_then() {
    let text = "deck 10x4; fast early; stand P1 4,1; running late roll=15/4; stand P1 6,1";
    let plan = fixture::plan(text).unwrap();
    let early = Moment::of(&plan, None, Some("early")).unwrap();
    let late = Moment::of(&plan, None, Some("late")).unwrap();
    let moved = compare(&early, &late);
    assert!(
        kinds(&moved).contains(&(DifferenceKind::Moved, "P1")),
        "{moved:?}"
    );
    assert!(Moment::of(&plan, None, Some("noon")).is_err());
}

mod random {
    use super::*;
    use crate::layout::Plan;
    use proptest::prelude::*;
    use std::fmt::Write as _;

    fn with(spots: &[(u8, u8)]) -> Plan {
        let mut text = "deck 10x4; running roll=15/4".to_owned();
        for (index, (x, y)) in spots.iter().enumerate() {
            let (x, y) = (0.5 + 0.5 * f64::from(*x), -1.5 + 0.5 * f64::from(*y));
            write!(text, "; stand C{index} {x},{y}").unwrap();
        }
        fixture::plan(&text).unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        /// Against looking at every cylinder of both lists by hand.
        #[test]
        fn moves_and_counts_are_those_of_the_lists(
            a in prop::collection::vec((0..18_u8, 0..7_u8), 0..5),
            b in prop::collection::vec((0..18_u8, 0..7_u8), 0..5),
        ) {
            let side = |spots: &[(u8, u8)]| Moment::of(&with(spots), None, None).unwrap();
            let told = compare(&side(&a), &side(&b));
            let count = |kind| told.differences.iter().filter(|item| item.kind == kind).count();
            let common = a.len().min(b.len());
            let moved = (0..common).filter(|index| a[*index] != b[*index]).count();
            prop_assert_eq!(count(DifferenceKind::Moved), moved);
            prop_assert_eq!(count(DifferenceKind::Missing), a.len() - common);
            prop_assert_eq!(count(DifferenceKind::Added), b.len() - common);
        }
    }
}
