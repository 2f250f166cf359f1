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
    let expected = [
        (DifferenceKind::Missing, "L1"),
        (DifferenceKind::Unsecured, "P1"),
    ];
    assert_eq!(kinds(&found), expected);
    let undone = &found.differences[0].undone;
    assert_eq!(undone.len(), 1, "{undone:?}");
    assert_eq!(undone[0].without_it, found.differences[0].limits[0].planned);
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

/// Against a list of edits that were made: every one is told, and nothing else.
mod random {
    use std::collections::BTreeSet;

    use proptest::prelude::*;

    use super::*;
    use crate::layout::{Cylinder, GearShape, Known, Placing, Plan, Trip};

    const DECK: &str = "deck 12x5; running roll=15/4
rack R1 bench 6,2.1 columns=4 pitch=0.3 edge=0.44 strength=2 fixings=9; front R1 F1 strap
point E1 4,1.6 h=0.3 strength=9; point E2 4.6,1.6 h=0.3 strength=9; point E3 5,-1.6 h=0.3 strength=9
stand P1 1,0; lie P2 7,-1.5 towards=0; stand P3 2,0; stand P4 3,0; stand P5 8,0; slot P6 R1/1
stand P7 4.3,1.3; stand P8 5,-1; lash L1 E1 P7 E2 h=0.44 strength=9 tight=0.2
lash L2 E3 P8 E1 h=0.44 strength=9 tight=0.2; lash L3 E2 P8 E3 h=0.4 strength=9 tight=0.2
gear G crate 9,1 size=0.4x0.3 h=0.3; gear H crate 9,-1 size=0.4x0.3 h=0.3";

    /// One edit that a hand on deck could have made.
    #[derive(Copy, Clone, Debug)]
    enum Made {
        Shift(i32, i32),
        Turn(i32),
        TakeAway,
        OtherKind,
        Pressure(i32),
        OtherSlot,
        Bring,
        Open,
        Slack(i32),
        Higher(i32),
        LeaveOff,
        OpenFront,
        ShiftGear(i32),
        StowGear,
        OtherRack,
    }

    fn edits() -> impl Strategy<Value = Vec<Made>> {
        let all = (1..300, -90..90, 10..350, 1..200, (1..20, 1..10), -90..-1).prop_map(
            |(x, y, turn, bar, (slack, higher), gear)| {
                vec![
                    Made::Shift(x, y),
                    Made::Turn(turn),
                    Made::TakeAway,
                    Made::OtherKind,
                    Made::Pressure(bar),
                    Made::OtherSlot,
                    Made::Bring,
                    Made::Open,
                    Made::Slack(slack),
                    Made::Higher(higher),
                    Made::LeaveOff,
                    Made::OpenFront,
                    Made::ShiftGear(gear),
                    Made::StowGear,
                    Made::OtherRack,
                ]
            },
        );
        (all, any::<u16>()).prop_map(|(all, chosen)| {
            let all = all.into_iter().enumerate();
            let taken = all.filter(|(i, _)| chosen & (1 << i) != 0);
            taken.map(|(_, made)| made).collect()
        })
    }

    fn cylinder<'t>(trip: &'t mut Trip, id: &str) -> &'t mut Cylinder {
        trip.cylinders.iter_mut().find(|it| it.id == id).unwrap()
    }

    /// Makes the edit, and says what must be told of it.
    fn make(plan: &mut Plan, made: Made) -> Vec<(DifferenceKind, &'static str)> {
        use DifferenceKind as Kind;
        let trip = &mut plan.trips[0];
        let cm = |value: i32| f64::from(value) / 100.0;
        match made {
            Made::Shift(x, y) => {
                let placing = &mut cylinder(trip, "P1").placing;
                let at = placing.at_mut().unwrap();
                *at = [at[0] + cm(x), at[1] + cm(y)];
                vec![(Kind::Moved, "P1")]
            }
            Made::Turn(deg) => {
                if let Placing::Lying {
                    valve_towards_deg, ..
                } = &mut cylinder(trip, "P2").placing
                {
                    *valve_towards_deg += f64::from(deg);
                }
                vec![(Kind::Turned, "P2")]
            }
            Made::TakeAway => {
                trip.cylinders.retain(|it| it.id != "P3");
                vec![(Kind::Missing, "P3")]
            }
            Made::OtherKind => {
                cylinder(trip, "P4").kind = "st-12l-short-232".to_owned();
                vec![(Kind::OtherKind, "P4")]
            }
            Made::Pressure(bar) => {
                cylinder(trip, "P5").pressure_bar = Some(f64::from(bar));
                vec![(Kind::OtherState, "P5")]
            }
            Made::OtherSlot => {
                cylinder(trip, "P6").placing = Placing::InSlot {
                    rack: "R1".to_owned(),
                    slot: "3".to_owned(),
                };
                vec![(Kind::PlacedOtherwise, "P6"), (Kind::Moved, "P6")]
            }
            Made::Bring => {
                let placing = Placing::Standing {
                    deck: plan.boat.decks[0].id.clone(),
                    at: [10.0, 0.5],
                    on: None,
                };
                let new = Cylinder::new("P9", "al-80cf", placing);
                plan.trips[0].cylinders.push(new);
                vec![(Kind::Added, "P9")]
            }
            Made::Open => {
                trip.lashings[0].shut = false;
                vec![(Kind::Opened, "L1"), (Kind::Unsecured, "P7")]
            }
            Made::Slack(cm) => {
                trip.lashings[1].pretension_kn = None;
                trip.lashings[1].slack_m = Some(Known::Value(f64::from(cm) / 100.0));
                vec![(Kind::Slacker, "L2")]
            }
            Made::Higher(value) => {
                trip.lashings[1].height_m += cm(value);
                vec![(Kind::LashingChanged, "L2")]
            }
            Made::LeaveOff => {
                trip.lashings.retain(|it| it.id != "L3");
                vec![(Kind::Missing, "L3")]
            }
            Made::OpenFront => {
                plan.boat.racks[0].fronts[0].shut = false;
                vec![(Kind::Opened, "R1/F1"), (Kind::Unsecured, "P6")]
            }
            Made::ShiftGear(value) => {
                if let GearShape::Box { at, .. } = &mut trip.gear[0].floor {
                    at[0] += cm(value);
                }
                vec![(Kind::Moved, "G")]
            }
            Made::StowGear => {
                trip.gear.iter_mut().find(|it| it.id == "H").unwrap().stowed = true;
                vec![(Kind::Missing, "H")]
            }
            Made::OtherRack => {
                plan.boat.racks[0].mass_kg += 1.0;
                vec![(Kind::BoatDiffers, "R1")]
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        #[test]
        fn every_edit_is_told_and_nothing_else(edits in edits()) {
            let plan = fixture::plan(DECK).unwrap();
            let mut found = plan.clone();
            let mut expected = BTreeSet::new();
            for made in edits {
                let told = make(&mut found, made).into_iter();
                expected.extend(told.map(|(kind, about)| (kind, about.to_owned())));
            }
            let of = |plan: &Plan| Moment::of(plan, None, None).unwrap();
            let (planned, mut found) = (of(&plan), of(&found));
            let comparison = compare(&planned, &found);
            let differences = comparison.differences.iter();
            let told: BTreeSet<_> = differences.map(|it| (it.kind, it.about.clone())).collect();
            prop_assert_eq!(&told, &expected);

            // Undone one by one, nothing is left of them.
            for difference in &comparison.differences {
                carry(&planned, &mut found, difference.thing, &difference.about);
            }
            prop_assert_eq!(compare(&planned, &found).differences, vec![]);
        }
    }
}
