use proptest::prelude::*;

use crate::engine::Assessor;
use crate::engine::numbers::{FallNumbers, PartNumbers, StruckKind};
use crate::engine::testing::cases;
use crate::geometry::Elementary as _;
use crate::layout::{
    Cylinder, Fixture, FixtureKind, Known, MotionInput, Person, Place, PlaceKind, Placing, Plan,
    Posture, Rack, Role, Walkway,
};

/// Roll that lets a free 80 cu ft cylinder tip to both sides, and nothing else.
fn plan(roll_deg: f64) -> Plan {
    let mut plan = Plan::new("Test", 12.0, 5.0);
    plan.trips[0].parts[0].motion = Some(MotionInput {
        roll_amplitude_deg: roll_deg,
        roll_period_s: Some(4.0),
        vertical_g: 0.1,
        ..MotionInput::default()
    });
    plan
}

fn standing(plan: &mut Plan, id: &str, kind: &str, at: [f64; 2]) {
    let placing = Placing::Standing {
        deck: "main".into(),
        at,
        on: None,
    };
    plan.trips[0]
        .cylinders
        .push(Cylinder::new(id, kind, placing));
}

fn assess(plan: &Plan) -> PartNumbers {
    let mut assessor = Assessor::default();
    assessor.assess(plan, &plan.trips[0]).parts[0].clone()
}

fn falls_of<'a>(numbers: &'a PartNumbers, id: &str) -> Vec<&'a FallNumbers> {
    numbers
        .falls
        .iter()
        .filter(|fall| fall.cylinder == id)
        .collect()
}

fn fixture(id: &str, kind: FixtureKind, corner: [f64; 4], height_m: f64) -> Fixture {
    let [x1, y1, x2, y2] = corner;
    Fixture {
        id: id.into(),
        name: None,
        deck: "main".into(),
        kind,
        outline: vec![[x1, y1], [x2, y1], [x2, y2], [x1, y2]],
        height_m,
        underside_m: 0.0,
        walked_on: false,
        clear_floor_m: None,
        front_deg: None,
        must_stay_open: Vec::new(),
        opens_over: Vec::new(),
        backing_kn: None,
        shelf: None,
    }
}

fn person(id: &str, at: [f64; 2]) -> Person {
    Person {
        id: id.into(),
        role: Role::Diver,
        mass_kg: None,
        deck: "main".into(),
        at,
        posture: Posture::Standing,
        faces_deg: 0.0,
        fins: false,
    }
}

#[test]
fn it_falls_to_both_sides_and_reaches_its_height() {
    let mut plan = plan(14.0);
    standing(&mut plan, "P1", "al-80cf", [6.0, 0.0]);
    let numbers = assess(&plan);
    let falls = falls_of(&numbers, "P1");
    let mut headings: Vec<f64> = falls.iter().map(|fall| fall.towards_deg).collect();
    headings.sort_by(f64::total_cmp);
    assert_eq!(headings.len(), 2, "to port and to starboard: {headings:?}");
    assert!((headings[0] + 90.0).abs() < 1e-6 && (headings[1] - 90.0).abs() < 1e-6);
    for fall in falls {
        let cylinder = &numbers.cylinders[0];
        let reach = cylinder.height_m.hypotenuse(cylinder.body_radius_m);
        assert!((fall.reach_m - reach).abs() < 1e-9);
        // Table of `docs/method.md`, "Falling": 41.5 J for the 80 cu ft cylinder, which the catalogue's
        // is within some percent.
        assert!((fall.energy_j - 41.5).abs() < 2.5, "{}", fall.energy_j);
        assert!(fall.utilisation.unwrap() > 1.0);
        assert!(fall.struck.is_empty() && fall.chain.is_empty());
    }
}

#[test]
fn one_that_holds_is_told_by_the_way_it_would_go_first() {
    let mut plan = plan(4.0);
    // Off the centreline to port the low side is to port.
    standing(&mut plan, "P1", "al-80cf", [6.0, 1.5]);
    let numbers = assess(&plan);
    let falls = falls_of(&numbers, "P1");
    assert_eq!(falls.len(), 1, "{falls:?}");
    assert!(falls[0].utilisation.unwrap() < 1.0);
}

#[test]
fn what_is_about_is_told_by_kind() {
    let mut plan = plan(14.0);
    standing(&mut plan, "P1", "al-80cf", [6.0, 0.0]);
    let place = |id: &str, at, kind| Place {
        id: id.into(),
        name: None,
        deck: "main".into(),
        at,
        kind,
        floor_m: None,
    };
    plan.boat.places = vec![
        place("seat", [6.0, 0.5], PlaceKind::Seat),
        place("gate", [9.0, 0.0], PlaceKind::Gate),
        place("far seat", [6.0, 1.6], PlaceKind::Seat),
    ];
    plan.boat.walkways = vec![Walkway {
        id: "W".into(),
        name: None,
        deck: "main".into(),
        from: "seat".into(),
        to: "gate".into(),
        line: vec![[4.0, -0.9], [9.0, -0.9]],
        clear_width_m: Some(0.6),
        headroom_m: None,
    }];
    plan.boat.fixtures = vec![
        fixture("window", FixtureKind::Glass, [6.3, 0.3, 6.4, 0.5], 1.0),
        fixture("bench", FixtureKind::Bench, [5.6, 0.3, 5.8, 0.5], 0.4),
    ];
    plan.trips[0].people = vec![person("Ann", [6.0, -1.8]), person("Bob", [9.0, -1.8])];
    let numbers = assess(&plan);
    let falls = falls_of(&numbers, "P1");
    let told = |port: bool| -> Vec<(StruckKind, &str, bool)> {
        let fall = falls.iter().find(|fall| (fall.towards_deg > 0.0) == port);
        (fall.unwrap().struck.iter())
            .map(|item| (item.kind, item.thing.as_str(), item.afterwards))
            .collect()
    };
    assert_eq!(
        told(true),
        [
            (StruckKind::Place, "seat", false),
            (StruckKind::Glass, "window", false),
            (StruckKind::Place, "far seat", true),
        ]
    );
    assert_eq!(
        told(false),
        [
            (StruckKind::Walkway, "W", false),
            (StruckKind::Person, "Ann", true),
        ]
    );
    // What stops it keeps the person behind it safe.
    plan.boat.fixtures.push(fixture(
        "box",
        FixtureKind::EngineBox,
        [5.0, -1.4, 7.0, -1.2],
        0.5,
    ));
    let numbers = assess(&plan);
    let starboard = falls_of(&numbers, "P1")
        .into_iter()
        .find(|f| f.towards_deg < 0.0);
    assert!(
        starboard
            .unwrap()
            .struck
            .iter()
            .all(|item| item.thing != "Ann")
    );
}

#[test]
fn a_row_goes_one_after_the_other() {
    let mut plan = plan(14.0);
    for (i, y) in [0.0, 0.5, 1.0, 2.1].into_iter().enumerate() {
        standing(&mut plan, &format!("P{i}"), "al-80cf", [6.0, y]);
    }
    let numbers = assess(&plan);
    let port = falls_of(&numbers, "P0")
        .into_iter()
        .find(|f| f.towards_deg > 0.0);
    assert_eq!(
        port.unwrap().chain,
        ["P1", "P2"],
        "the last is out of reach"
    );
    let starboard = falls_of(&numbers, "P2")
        .into_iter()
        .find(|f| f.towards_deg < 0.0);
    assert_eq!(starboard.unwrap().chain, ["P1", "P0"]);
    assert!(
        starboard
            .unwrap()
            .struck
            .iter()
            .any(|s| s.goes_too && s.thing == "P0" && s.by == "P1")
    );
}

#[test]
fn a_racked_one_is_struck_and_stays() {
    let mut plan = plan(14.0);
    plan.boat.racks = vec![Rack {
        id: "R".into(),
        name: None,
        deck: "main".into(),
        kind: crate::layout::RackKind::Sockets,
        at: [6.0, 0.5],
        turn_deg: 0.0,
        columns: 1,
        rows: 1,
        pitch_m: 0.25,
        row_pitch_m: None,
        slot_names: vec!["1".into()],
        bore_m: Some(0.2),
        edge_height_m: 0.44,
        shelf_height_m: 0.0,
        surface: None,
        foot_held: true,
        slot_strength_kn: Known::Value(1.0),
        hold_down_kn: None,
        fronts: Vec::new(),
        saddle_half_angle_deg: None,
        size_m: None,
        own_floor: false,
        mass_kg: 12.0,
        fixings: crate::layout::Fixings::Fixed {
            strength_kn: Known::Value(5.0),
        },
        load_limit_kg: None,
    }];
    standing(&mut plan, "P1", "al-80cf", [6.0, 0.0]);
    plan.trips[0].cylinders.push(Cylinder::new(
        "R1",
        "al-80cf",
        Placing::InSlot {
            rack: "R".into(),
            slot: "1".into(),
        },
    ));
    let numbers = assess(&plan);
    assert!(falls_of(&numbers, "R1").is_empty(), "it holds");
    let port = falls_of(&numbers, "P1")
        .into_iter()
        .find(|f| f.towards_deg > 0.0);
    let port = port.unwrap();
    assert!(port.chain.is_empty());
    let names: Vec<_> = port
        .struck
        .iter()
        .map(|item| (item.thing.as_str(), item.goes_too))
        .collect();
    assert_eq!(names, [("R1", false)]);
}

#[test]
fn a_bulwark_behind_it_leaves_one_side() {
    let mut plan = plan(14.0);
    standing(&mut plan, "P1", "al-80cf", [6.0, 0.0]);
    let radius = assess(&plan).cylinders[0].body_radius_m;
    let mut bulwark = fixture(
        "bulwark",
        FixtureKind::Bulwark,
        [5.0, radius + 0.01, 7.0, radius + 0.2],
        1.0,
    );
    bulwark.backing_kn = Some(Known::Value(5.0));
    plan.boat.fixtures.push(bulwark);
    let numbers = assess(&plan);
    let falls = falls_of(&numbers, "P1");
    assert!(!falls.is_empty());
    for fall in falls {
        assert!(
            fall.towards_deg < 1.0 && fall.towards_deg > -179.0,
            "{}",
            fall.towards_deg
        );
    }
}

fn rows() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec(
        (0..12i32, -7..=7i32).prop_map(|(x, y)| (3.0 + 0.25 * f64::from(x), 0.25 * f64::from(y))),
        1..10,
    )
}

proptest! {
    #![proptest_config(cases(30))]

    #[test]
    fn a_mirror_mirrors_and_the_order_of_the_file_does_not_matter(places in rows(), roll in 4.0..16.0_f64) {
        let side = |sign: f64| {
            let mut plan = plan(roll);
            for (i, (x, y)) in places.iter().enumerate() {
                let at = [*x + 0.003 * i as f64, sign * (*y + 0.002 * i as f64)];
                standing(&mut plan, &format!("C{i}"), "al-80cf", at);
            }
            plan
        };
        let (port, starboard) = (assess(&side(1.0)), assess(&side(-1.0)));
        let told = |numbers: &PartNumbers, sign: f64| {
            let mut all: Vec<_> = (numbers.falls.iter())
                .map(|fall| {
                    // Whole tenths of a degree, 180° and -180° being the same.
                    let turn = (10.0 * sign * fall.towards_deg).round().rem_euclid(3600.0);
                    let mut chain = fall.chain.clone();
                    chain.sort();
                    (fall.cylinder.clone(), format!("{turn}"), chain)
                })
                .collect();
            all.sort();
            all
        };
        prop_assert_eq!(told(&port, 1.0), told(&starboard, -1.0));
        let mut shuffled = side(1.0);
        shuffled.trips[0].cylinders.reverse();
        prop_assert_eq!(&assess(&shuffled).falls, &port.falls);
        for fall in &port.falls {
            prop_assert!(!fall.chain.contains(&fall.cylinder));
        }
    }
}
