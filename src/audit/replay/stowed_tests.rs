//! What `engine::Stowed` and its tables tell, held against the engine's own judgement.

use std::collections::BTreeSet;

use crate::checks::fixture;
use crate::engine::Stowed;
use crate::geometry::Vec2;
use crate::layout::Plan;
use crate::mechanics::attitude::Attitude;
use crate::mechanics::envelope::Envelope;
use crate::mechanics::rocking::Felt;
use crate::mechanics::vector::vec3;

/// Free, in a rack, in sockets, lashed, against a bulwark, lying in chocks.
const DECK: &str = "deck 10x4; running roll=10/4
    stand F1 2,0; stand F2 3,-1 kit=90
    rack R1 bench 6,1.5 columns=3 pitch=0.25 edge=0.44 strength=2 fixings=9; front R1 B1 strap strength=3
    slot R1a R1/1; slot R1b R1/2
    point E1 4,0.6 h=0.3 strength=6; point E2 4,-0.6 h=0.3 strength=6; stand L1 4,0
    lash S1 E1 L1 E2 h=0.44 strength=2.5
    lie Y1 8,-1 towards=0";

fn plan() -> Plan {
    fixture::plan(DECK).unwrap()
}

#[test]
fn what_stands_free_is_told_and_what_is_held_is_not() {
    let plan = plan();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let free: Vec<String> = (stowed.takes().into_iter())
        .filter(|takes| takes.free.is_some())
        .map(|takes| takes.cylinder)
        .collect();
    assert_eq!(free, ["F1", "F2"]);
    assert!(stowed.stands("L1") && !stowed.stands("Y1"));
}

#[test]
fn what_falls_takes_its_neighbour_along_unless_that_has_gone() {
    let plan = fixture::plan("deck 10x4; running roll=10/4; stand A 5,0; stand B 5,-0.3").unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let at = Attitude {
        roll_rad: 0.3,
        roll_acceleration: -0.7,
        ..Attitude::default()
    };
    let gone = BTreeSet::new();
    let fallen = stowed.fall("A", &at, None, &gone).unwrap();
    let fall = fallen.fall;
    assert!((fall.towards_deg + 90.0).abs() < 1e-6);
    assert_eq!(fall.chain, ["B"]);
    let gone = BTreeSet::from(["B".to_owned()]);
    let alone = stowed.fall("A", &at, None, &gone).unwrap();
    assert!(alone.fall.chain.is_empty());
    // It falls to starboard and rolls on that way, to the edge of a deck 4 m wide: no further than its own radius.
    let rolls = alone.rolls.unwrap();
    assert_eq!(rolls.stopped_by, None);
    assert!(
        (rolls.to[1] + 2.0).abs() < 1e-6 && (rolls.to[0] - 5.0).abs() < 1e-6,
        "{rolls:?}"
    );
    assert!(
        (rolls.far_m - (rolls.from[1] - rolls.to[1])).abs() < 1e-9,
        "{rolls:?}"
    );
}

/// A bench on its way stops it.
#[test]
fn what_rolls_is_stopped_by_a_fixture() {
    let text =
        "deck 10x4; running roll=10/4; fixture B1 bench 4..6,-1.5..-1.2 h=0.45; stand A 5,0.5";
    let plan = fixture::plan(text).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let at = Attitude {
        roll_rad: 0.3,
        roll_acceleration: -0.7,
        ..Attitude::default()
    };
    let rolls = stowed
        .fall("A", &at, None, &BTreeSet::new())
        .unwrap()
        .rolls
        .unwrap();
    assert_eq!(rolls.stopped_by.as_deref(), Some("B1"));
    assert!((rolls.to[1] + 1.2).abs() < 1e-6, "{rolls:?}");
}

/// What one leaves behind: a strap round three is slack, a front that is pressed open, and nobody else is touched.
#[test]
fn who_is_held_otherwise_without_one_is_told() {
    let text = "deck 10x4; running roll=10/4
        point E1 3.4,1.9 h=0.4 strength=9; point E2 4.6,1.9 h=0.4 strength=9
        stand A 3.7,1.5; stand B 4,1.5; stand C 4.3,1.5; lash S1 E1 A+B+C E2 h=0.44 strength=9
        rack R1 bench 7,-1.5 columns=3 pitch=0.25 edge=0.44 strength=2 fixings=9; front R1 F1 strap strength=3
        slot D R1/1; slot G R1/2; stand X 1,0";
    let plan = fixture::plan(text).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let gone = BTreeSet::from(["B".to_owned()]);
    let after = stowed.without(&gone, &BTreeSet::new());
    assert_eq!(after.slack_since(&stowed), ["S1"]);
    let changed: Vec<String> = (after.changed_since(&stowed).into_iter())
        .map(|takes| takes.cylinder)
        .collect();
    assert_eq!(changed, ["A", "C"]);
    let now_free = after.changed_since(&stowed);
    assert!(
        now_free.iter().all(|takes| takes.free.is_some()),
        "they stand free"
    );
    // A front is opened by what presses on it, and not by what is pressed against its back rail.
    let pressed = |y: f64| {
        let felt = Felt {
            f: vec3(0.0, y, -9.0),
            ..Felt::default()
        };
        stowed.presses_on("D", &felt)
    };
    let name = ("R1".to_owned(), "F1".to_owned());
    let (one, other) = (pressed(2.0), pressed(-2.0));
    assert_eq!(
        [one.is_some(), other.is_some()]
            .iter()
            .filter(|it| **it)
            .count(),
        1
    );
    assert_eq!(one.or(other), Some(name.clone()));
    let gone = BTreeSet::from(["D".to_owned()]);
    let opened = BTreeSet::from([name]);
    let after = stowed.without(&gone, &opened);
    assert_eq!(after.slack_since(&stowed), ["F1"]);
    let changed = after.changed_since(&stowed);
    assert_eq!(
        changed
            .iter()
            .map(|it| it.cylinder.as_str())
            .collect::<Vec<_>>(),
        ["G"]
    );
}

/// The table against the engine's own judgement, for every way of stowing.
#[test]
fn the_table_is_the_engines() {
    let plan = plan();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let mut asked = 0;
    for takes in stowed.takes() {
        let id = &takes.cylinder;
        // A body that a wall half holds is rounded off at the corner, by 6 % of the push there.
        let slack = if matches!(takes.envelope, Envelope::Ratio(_)) {
            1e-6
        } else {
            0.07
        };
        for step in 0..18_u32 {
            let towards = Vec2::from_angle((f64::from(step) * 20.0 + 7.3).to_radians());
            for a_n in [4.1, 9.3, 13.7] {
                let goes = |push: f64| {
                    let along = push * towards;
                    let felt = Felt {
                        f: vec3(along.x, along.y, -a_n),
                        ..Felt::default()
                    };
                    stowed.way(id, &felt).unwrap().1 >= 1.0
                };
                let used = takes.envelope.used(towards.x, towards.y, a_n);
                if used < 0.025 {
                    continue;
                }
                asked += 1;
                assert!(goes((1.0 + slack) / used), "{id}: holds beyond {used}");
                assert!(!goes((1.0 - slack) / used), "{id}: goes before {used}");
            }
        }
    }
    assert!(asked > 200, "{asked}");
}
