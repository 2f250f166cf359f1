//! Whatever is changed, an assessor that remembers gives exactly what a new one gives: cylinders, racks,
//! lashings, walkways, falls, fit and decks.

use proptest::prelude::*;

use super::{Assessor, add, lash, plan, rack, standing};
use crate::engine::OtherMotion;
use crate::engine::testing::cases;
use crate::layout::{
    CylinderChange, Fill, Fixture, FixtureKind, Front, FrontKind, Gear, GearKind, GearShape, Known,
    MotionInput, Person, Place, PlaceKind, Placing, Plan, Posture, RackKind, Role, Walkway,
};

/// Something that is done to the plan.
#[derive(Clone, Debug)]
enum Change {
    /// A free cylinder is dragged.
    Cylinder(usize, [f64; 2]),
    /// One is laid down or stood up.
    Turn(usize, bool),
    /// One is taken into the water.
    Away(usize),
    Rack([f64; 2]),
    Front(bool),
    Roll(f64),
    /// In the second part only.
    Empty(usize),
    Person([f64; 2]),
    Gear([f64; 2]),
    Fixture(f64),
    Strap(bool),
    SlotStrength(f64),
    Walkway(f64),
    Cylinders(usize),
}

fn spot() -> impl Strategy<Value = [f64; 2]> {
    (5..115i32, -22..=22i32).prop_map(|(x, y)| [0.1 * f64::from(x), 0.1 * f64::from(y)])
}

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        6 => (0..6usize, spot()).prop_map(|(which, at)| Change::Cylinder(which, at)),
        1 => (0..6usize, any::<bool>()).prop_map(|(which, lies)| Change::Turn(which, lies)),
        1 => (0..6usize).prop_map(Change::Away),
        2 => spot().prop_map(Change::Rack),
        1 => any::<bool>().prop_map(Change::Front),
        1 => (0..4u8).prop_map(|n| Change::Roll(8.0 + 5.0 * f64::from(n))),
        1 => (0..6usize).prop_map(Change::Empty),
        2 => spot().prop_map(Change::Person),
        2 => spot().prop_map(Change::Gear),
        1 => (0..3u8).prop_map(|n| Change::Fixture(0.3 + 0.4 * f64::from(n))),
        1 => any::<bool>().prop_map(Change::Strap),
        1 => (1..4u8).prop_map(|n| Change::SlotStrength(0.2 * f64::from(n))),
        1 => (0..3u8).prop_map(|n| Change::Walkway(0.5 + 0.4 * f64::from(n))),
        1 => (0..3usize).prop_map(Change::Cylinders),
    ]
}

impl Change {
    fn make(self, plan: &mut Plan) {
        let place = |plan: &mut Plan, which: usize, placing: Placing| {
            if let Some(cylinder) = plan.trips[0].cylinders.get_mut(which) {
                cylinder.placing = placing;
            }
        };
        match self {
            Self::Cylinder(which, at) => place(plan, which, standing(at)),
            Self::Turn(which, lies) => {
                let at = [4.0 + 0.5 * which as f64, 0.3];
                let lying = Placing::Lying {
                    deck: "main".into(),
                    at,
                    valve_towards_deg: 30.0,
                    on: None,
                    on_kit: false,
                    chocks: None,
                    upon: Vec::new(),
                };
                place(plan, which, if lies { lying } else { standing(at) });
            }
            Self::Away(which) => place(plan, which, Placing::InWater),
            Self::Rack(at) => plan.boat.racks[0].at = at,
            Self::Front(shut) => plan.boat.racks[0].fronts[0].shut = shut,
            Self::Roll(deg) => {
                if let Some(motion) = &mut plan.trips[0].parts[0].motion {
                    motion.roll_amplitude_deg = deg;
                }
            }
            Self::Empty(which) => {
                let cylinder = format!("P{which}");
                plan.trips[0].parts[1].changes.cylinders = vec![CylinderChange {
                    cylinder,
                    placing: None,
                    kit: None,
                    kit_faces_deg: None,
                    fill: Some(Fill::Empty),
                    pressure_bar: None,
                }];
            }
            Self::Person(at) => plan.trips[0].people[0].at = at,
            Self::Gear([x, y]) => {
                plan.trips[0].gear[0].floor = GearShape::Box {
                    at: [x, y],
                    length_m: 0.5,
                    width_m: 0.35,
                    turn_deg: 20.0,
                };
            }
            Self::Fixture(height_m) => plan.boat.fixtures[0].height_m = height_m,
            Self::Strap(shut) => plan.trips[0].lashings[0].shut = shut,
            Self::SlotStrength(kn) => plan.boat.racks[0].slot_strength_kn = Known::Value(kn),
            Self::Walkway(width_m) => plan.boat.walkways[0].clear_width_m = Some(width_m),
            Self::Cylinders(more) => {
                let known = plan.trips[0].cylinders.len();
                for index in 0..more {
                    let at = [2.0 + 0.4 * index as f64, -1.5];
                    add(plan, &format!("Q{}", known + index), standing(at));
                }
            }
        }
    }
}

fn fixture(id: &str, [x, y]: [f64; 2], backs: bool) -> Fixture {
    Fixture {
        id: id.into(),
        name: None,
        deck: "main".into(),
        kind: FixtureKind::Console,
        outline: vec![
            [x - 0.4, y - 0.3],
            [x + 0.4, y - 0.3],
            [x + 0.4, y + 0.3],
            [x - 0.4, y + 0.3],
        ],
        height_m: 1.0,
        underside_m: 0.0,
        walked_on: false,
        clear_floor_m: Some(0.6),
        front_deg: Some(0.0),
        must_stay_open: Vec::new(),
        opens_over: Vec::new(),
        backing_kn: backs.then_some(Known::Value(2.0)),
        shelf: None,
    }
}

/// Six cylinders of which one is lashed, three more in a rack, a person, a crate, two fixtures, a walkway,
/// two parts.
fn busy() -> Plan {
    let mut plan = plan(14.0);
    for index in 0..6 {
        let at = [3.0 + 0.5 * f64::from(index), 0.5];
        add(&mut plan, &format!("P{index}"), standing(at));
    }
    plan.trips[0].cylinders[1].placing = standing([6.0, 1.0]);
    lash(&mut plan, Known::Value(5.0), 0.44);
    for lashing in &mut plan.trips[0].lashings {
        lashing.round = vec!["P1".into()];
    }
    let mut row = rack(RackKind::BenchRow);
    row.at = [8.0, -1.5];
    row.fronts = vec![Front {
        id: "strap".into(),
        kind: FrontKind::Strap,
        slots: row.slot_names.clone(),
        height_m: 0.44,
        strength_kn: Known::Value(2.0),
        tied_between_slots: false,
        slack_m: None,
        shut: true,
    }];
    for slot in row.slot_names.clone() {
        let placing = Placing::InSlot {
            rack: row.id.clone(),
            slot: slot.clone(),
        };
        add(&mut plan, &format!("R{slot}"), placing);
    }
    plan.boat.racks.push(row);
    plan.boat.fixtures = vec![
        fixture("F1", [4.0, -1.5], true),
        fixture("F2", [9.5, 1.5], false),
    ];
    for (id, x) in [("A", 0.5), ("B", 11.5)] {
        plan.boat.places.push(Place {
            id: id.into(),
            name: None,
            deck: "main".into(),
            at: [x, 0.0],
            kind: PlaceKind::Gate,
            floor_m: None,
        });
    }
    plan.boat.walkways.push(Walkway {
        id: "W".into(),
        name: None,
        deck: "main".into(),
        from: "A".into(),
        to: "B".into(),
        line: vec![[0.5, 0.0], [11.5, 0.0]],
        clear_width_m: None,
        headroom_m: None,
    });
    let trip = &mut plan.trips[0];
    trip.people.push(Person {
        id: "D1".into(),
        role: Role::Diver,
        mass_kg: None,
        deck: "main".into(),
        at: [10.5, -1.0],
        posture: Posture::Standing,
        faces_deg: 90.0,
        fins: false,
    });
    trip.gear.push(Gear {
        id: "G1".into(),
        name: None,
        kind: GearKind::Crate,
        deck: "main".into(),
        floor: GearShape::Box {
            at: [2.0, 1.5],
            length_m: 0.5,
            width_m: 0.35,
            turn_deg: 0.0,
        },
        height_m: 0.3,
        mass_kg: 12.0,
        friction: None,
        stowed: false,
    });
    let mut second = trip.parts[0].clone();
    second.id = "second".into();
    trip.parts.push(second);
    plan
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn what_is_remembered_is_what_is_computed_anew(changes in prop::collection::vec(change(), 1..10)) {
        let mut plan = busy();
        let mut assessor = Assessor::default();
        assessor.assess(&plan, &plan.trips[0]);
        for change in changes {
            change.clone().make(&mut plan);
            let again = assessor.assess(&plan, &plan.trips[0]);
            let mut fresh = Assessor::default();
            fresh.assess(&plan, &plan.trips[0]);
            prop_assert_eq!(again, fresh.assessment(), "after {:?}", change);
            prop_assert_eq!(assessor.scenes(), fresh.scenes());
        }
    }
}

/// Under another motion the cylinders are as a plan with that motion has them, also where something was moved
/// since, and in whichever part it was asked before.
#[test]
fn another_motion_is_judged_as_if_it_were_the_parts_own() {
    let motion = || MotionInput {
        roll_amplitude_deg: 30.0,
        roll_period_s: Some(600.0),
        ..MotionInput::default()
    };
    let mut plan = busy();
    let mut other = OtherMotion::default();
    for at in [1.0, 1.2, 1.2] {
        plan.trips[0].cylinders[0].placing = standing([at, 0.4]);
        for part in [1, 0] {
            let mut given = plan.clone();
            given.trips[0].parts[part].motion = Some(motion());
            let mut alone = Assessor::default();
            let expected = alone.assess(&given, &given.trips[0]).parts[part]
                .cylinders
                .clone();
            let found = other.assess(&plan, &plan.trips[0], part, motion()).unwrap();
            assert_eq!(found.cylinders, expected, "part {part}");
            assert!(found.walkways.is_empty() && found.falls.is_empty());
        }
    }
    assert!(other.assess(&plan, &plan.trips[0], 7, motion()).is_none());
}
