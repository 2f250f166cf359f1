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
    let fall = stowed.fall("A", &at, None, &gone).unwrap();
    assert!((fall.towards_deg + 90.0).abs() < 1e-6);
    assert_eq!(fall.chain, ["B"]);
    let gone = BTreeSet::from(["B".to_owned()]);
    assert!(stowed.fall("A", &at, None, &gone).unwrap().chain.is_empty());
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
