use proptest::prelude::*;

use super::distances::{FROM_HEAT_M, OXYGEN_CLEAR_M};
use super::*;
use crate::engine::SceneThing;
use crate::engine::numbers::{FitKind, ThingSort};
use crate::engine::testing::{cases, mirrored, rect, scene, thing};
use crate::geometry::{Vec2, vec2};
use crate::layout::{
    Cylinder, CylinderState, Fixings, Fixture, FixtureKind, Gear, GearKind, GearShape, GearState,
    Known, Place, PlaceKind, Placing, Point, Rack, RackKind,
};

/// Rounding of some lengths of a few metres.
const ROUNDING: f64 = 1e-9;

/// A boat, what is stowed on it, and where all of it is.
#[derive(Clone)]
struct Case {
    boat: Boat,
    day: DayState,
    things: Vec<SceneThing>,
    condition: Condition,
}

impl Case {
    fn new() -> Self {
        Self {
            boat: Boat::new("Test", 6.0, 3.0),
            day: DayState::default(),
            things: Vec::new(),
            condition: Condition::Running,
        }
    }

    fn fixture(
        mut self,
        id: &str,
        kind: FixtureKind,
        corner: [f64; 4],
        height_m: f64,
        set: impl FnOnce(&mut Fixture),
    ) -> Self {
        let [x1, y1, x2, y2] = corner;
        let mut fixture = Fixture {
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
        };
        set(&mut fixture);
        let mut item = thing(ThingSort::Fixture, id, rect(x1, y1, x2, y2), height_m);
        item.walked_on = fixture.walked_on;
        self.boat.fixtures.push(fixture);
        self.things.push(item);
        self
    }

    fn cylinder(mut self, id: &str, shape: Shape, from_m: f64, placing: Placing) -> Self {
        let mut item = thing(ThingSort::Cylinder, id, shape, from_m + 0.65);
        item.from_m = from_m;
        self.things.push(item);
        self.day.cylinders.push(CylinderState {
            cylinder: Cylinder::new(id, "al80", placing),
            moved: false,
        });
        self
    }

    fn standing(self, id: &str, x: f64, y: f64) -> Self {
        let placing = Placing::Standing {
            deck: "main".into(),
            at: [x, y],
            on: None,
        };
        self.cylinder(id, Shape::disc(vec2(x, y), 0.1), 0.0, placing)
    }

    fn rack(mut self, id: &str, kind: RackKind, corner: [f64; 4], shelf_height_m: f64) -> Self {
        let [x1, y1, x2, y2] = corner;
        let at = [0.5 * (x1 + x2), 0.5 * (y1 + y2)];
        self.boat.racks.push(Rack {
            id: id.into(),
            name: None,
            deck: "main".into(),
            kind,
            at,
            turn_deg: 0.0,
            columns: 1,
            rows: 1,
            pitch_m: 0.25,
            row_pitch_m: None,
            slot_names: vec!["1".into()],
            bore_m: None,
            edge_height_m: 0.4,
            shelf_height_m,
            surface: None,
            foot_held: false,
            slot_strength_kn: Known::NotKnown,
            hold_down_kn: None,
            fronts: Vec::new(),
            saddle_half_angle_deg: None,
            size_m: Some([x2 - x1, y2 - y1]),
            own_floor: false,
            mass_kg: 10.0,
            fixings: Fixings::Unfixed,
            load_limit_kg: None,
        });
        let to_m = shelf_height_m + 0.4;
        self.things
            .push(thing(ThingSort::Rack, id, rect(x1, y1, x2, y2), to_m));
        self
    }

    fn gear(mut self, id: &str, kind: GearKind, corner: [f64; 4], height_m: f64) -> Self {
        let [x1, y1, x2, y2] = corner;
        self.day.gear.push(GearState {
            gear: Gear {
                id: id.into(),
                name: None,
                kind,
                deck: "main".into(),
                floor: GearShape::Box {
                    at: [0.5 * (x1 + x2), 0.5 * (y1 + y2)],
                    length_m: x2 - x1,
                    width_m: y2 - y1,
                    turn_deg: 0.0,
                },
                height_m,
                mass_kg: 0.0,
                friction: None,
                stowed: false,
            },
        });
        self.things
            .push(thing(ThingSort::Gear, id, rect(x1, y1, x2, y2), height_m));
        self
    }

    fn fits(&self) -> Vec<FitNumbers> {
        self.fits_in(&scene(self.things.clone()))
    }

    fn fits_in(&self, scene: &Scene) -> Vec<FitNumbers> {
        fits(FitInput {
            boat: &self.boat,
            day: &self.day,
            scene,
            condition: self.condition,
            shells: &[],
        })
    }
}

fn told(found: &[FitNumbers]) -> Vec<(FitKind, &str, &str)> {
    (found.iter())
        .map(|fit| {
            (
                fit.kind,
                fit.things[0].id.as_str(),
                fit.things[1].id.as_str(),
            )
        })
        .collect()
}

#[test]
fn touching_is_allowed_and_overlap_is_not() {
    let touching = Case::new()
        .standing("A", 1.0, 0.0)
        .standing("B", 1.199, 0.0);
    assert!(touching.fits().is_empty(), "1 mm in each other");
    let case = Case::new().standing("A", 1.0, 0.0).standing("B", 1.15, 0.0);
    let found = case.fits();
    assert_eq!(told(&found), [(FitKind::Overlap, "B", "A")]);
    assert!((found[0].found_m - 0.05).abs() < ROUNDING, "{found:?}");
    let shift = found[0].shift_m.unwrap();
    assert!((shift[0] - 0.05).abs() < ROUNDING && shift[1].abs() < ROUNDING);
}

#[test]
fn what_is_meant_is_no_overlap() {
    let in_slot = Placing::InSlot {
        rack: "R".into(),
        slot: "1".into(),
    };
    let disc = |x: f64| Shape::disc(vec2(x, 0.0), 0.1);
    let case = Case::new()
        .rack("R", RackKind::Sockets, [1.0, -0.2, 1.5, 0.2], 0.0)
        .cylinder("in", disc(1.25), 0.0, in_slot)
        .standing("out", 1.52, 0.0);
    let found = case.fits();
    assert_eq!(
        told(&found),
        [(FitKind::Overlap, "out", "R")],
        "only the other"
    );

    let on_bench = Placing::Standing {
        deck: "main".into(),
        at: [3.0, 0.0],
        on: Some("bench".into()),
    };
    let bench = Case::new().fixture(
        "bench",
        FixtureKind::Bench,
        [2.5, -0.3, 3.5, 0.3],
        0.45,
        |_| {},
    );
    let on = bench.clone().cylinder("on", disc(3.0), 0.45, on_bench);
    assert!(on.fits().is_empty(), "it stands on the bench");
    let through = bench.clone().standing("in", 3.45, 0.0);
    assert_eq!(told(&through.fits()), [(FitKind::Overlap, "in", "bench")]);
    let rack_on = bench
        .clone()
        .rack("R", RackKind::BenchRow, [2.6, -0.2, 3.4, 0.2], 0.45);
    assert!(rack_on.fits().is_empty(), "a rack built onto the bench");
    let rack_in = bench.rack("R", RackKind::BenchRow, [2.6, -0.2, 3.6, 0.2], 0.0);
    assert_eq!(told(&rack_in.fits()), [(FitKind::Overlap, "R", "bench")]);

    let lying = |y: f64, upon: &[&str]| Placing::Lying {
        deck: "main".into(),
        at: [2.0, y],
        valve_towards_deg: 0.0,
        on: None,
        on_kit: false,
        chocks: None,
        upon: upon.iter().map(|id| (*id).to_owned()).collect(),
    };
    let stadium = |y: f64| Shape::Stadium {
        from: vec2(1.7, y),
        to: vec2(2.3, y),
        radius: 0.1,
    };
    let tiers = Case::new()
        .cylinder("a", stadium(0.0), 0.0, lying(0.0, &[]))
        .cylinder("b", stadium(0.2), 0.0, lying(0.2, &[]))
        .cylinder("top", stadium(0.1), 0.0, lying(0.1, &["a", "b"]));
    assert!(tiers.fits().is_empty(), "{:?}", tiers.fits());

    let gear = Case::new()
        .gear("crate", GearKind::Crate, [1.0, 0.0, 1.6, 0.4], 0.3)
        .gear("fins", GearKind::Fins, [1.1, 0.1, 1.5, 0.3], 0.1)
        .gear("mat", GearKind::Mat, [0.9, -0.1, 1.7, 0.5], 0.005)
        .gear("bag", GearKind::KitBag, [1.5, 0.1, 2.0, 0.4], 0.4);
    assert_eq!(told(&gear.fits()), [(FitKind::Overlap, "crate", "bag")]);
}

#[test]
fn what_sticks_out_is_brought_in_by_its_shift() {
    let case = Case::new().standing("A", 5.95, 0.0);
    let found = case.fits();
    assert_eq!(told(&found), [(FitKind::OffDeck, "A", "main")]);
    assert!((found[0].found_m - 0.05).abs() < ROUNDING, "{found:?}");
    assert!((found[0].shift_m.unwrap()[0] + 0.05).abs() < ROUNDING);
    assert_eq!(found[0].things[1].kind, ThingSort::Edge);

    let in_crate = Placing::InCrate {
        rack: "C".into(),
        at: [1.05, 0.0],
        valve_towards_deg: 0.0,
    };
    let case = Case::new()
        .rack("C", RackKind::Crate, [1.0, -0.2, 1.5, 0.2], 0.0)
        .cylinder("A", Shape::disc(vec2(1.05, 0.0), 0.1), 0.0, in_crate);
    assert_eq!(told(&case.fits()), [(FitKind::OffSupport, "A", "C")]);

    let lying = |x: f64| {
        let placing = Placing::Lying {
            deck: "main".into(),
            at: [x, 0.0],
            valve_towards_deg: 0.0,
            on: Some("bench".into()),
            on_kit: false,
            chocks: None,
            upon: Vec::new(),
        };
        let shape = Shape::Stadium {
            from: vec2(x - 0.4, 0.0),
            to: vec2(x + 0.4, 0.0),
            radius: 0.1,
        };
        Case::new()
            .fixture(
                "bench",
                FixtureKind::Bench,
                [2.0, -0.5, 2.5, 0.5],
                0.45,
                |_| {},
            )
            .cylinder("A", shape, 0.45, placing)
            .fits()
    };
    assert!(lying(2.25).is_empty(), "across a narrow bench");
    assert_eq!(told(&lying(2.4)), [(FitKind::OffSupport, "A", "bench")]);
}

#[test]
fn what_must_stay_open_is_not_covered() {
    let hatch = |condition| {
        let mut case = Case::new().fixture(
            "hatch",
            FixtureKind::Hatch,
            [2.0, -0.3, 2.6, 0.3],
            0.01,
            |hatch| {
                hatch.walked_on = true;
                hatch.must_stay_open = vec![Condition::Running];
                hatch.opens_over = vec![[2.6, -0.3], [3.2, -0.3], [3.2, 0.3], [2.6, 0.3]];
            },
        );
        case.condition = condition;
        case.standing("on", 2.55, 0.0).standing("behind", 3.15, 0.0)
    };
    let found = hatch(Condition::Running).fits();
    assert_eq!(
        told(&found),
        [
            (FitKind::Covers, "on", "hatch"),
            (FitKind::UnderLid, "behind", "hatch"),
            (FitKind::UnderLid, "on", "hatch"),
        ]
    );
    assert!(hatch(Condition::MadeFast).fits().is_empty(), "may be shut");
}

#[test]
fn clear_floor_in_front_and_all_round() {
    let kit = |front_deg: Option<f64>| {
        Case::new()
            .fixture(
                "kit",
                FixtureKind::Extinguisher,
                [2.0, 0.9, 2.4, 1.1],
                0.5,
                |kit| {
                    kit.clear_floor_m = Some(0.6);
                    kit.front_deg = front_deg;
                },
            )
            .standing("before", 2.2, 0.4)
            .standing("beside", 2.6, 1.0)
    };
    // It faces starboard: 0.9 - 0.5 m are left before it.
    let found = kit(Some(-90.0)).fits();
    assert_eq!(told(&found), [(FitKind::ClearFloor, "before", "kit")]);
    assert!((found[0].found_m - 0.4).abs() < ROUNDING, "{found:?}");
    assert!((found[0].wanted_m - 0.6).abs() < ROUNDING);
    // To the side it is 0.2 + 0.1 to the edge of that floor, straight off 0.2.
    let shift = Vec2::from(found[0].shift_m.unwrap());
    assert!((shift.length() - 0.2).abs() < ROUNDING, "{shift:?}");
    let found = kit(None).fits();
    assert_eq!(
        told(&found),
        [
            (FitKind::ClearFloor, "before", "kit"),
            (FitKind::ClearFloor, "beside", "kit"),
        ]
    );
    assert!((found[1].found_m - 0.1).abs() < ROUNDING, "{found:?}");
    assert!((Vec2::from(found[1].shift_m.unwrap()).length() - 0.5).abs() < ROUNDING);
}

#[test]
fn a_casualty_must_find_room() {
    let mut case = Case::new();
    case.boat.places = vec![Place {
        id: "floor".into(),
        name: None,
        deck: "main".into(),
        at: [3.0, 0.0],
        kind: PlaceKind::CasualtyFloor,
        floor_m: Some([2.0, 0.8]),
    }];
    assert!(case.fits().is_empty(), "an empty deck");
    // Fore and aft it is blocked, athwartships it fits.
    let one = case.clone().standing("A", 2.2, 0.0);
    assert!(one.fits().is_empty(), "turned it fits");
    let both = one.clone().standing("B", 3.0, 0.8).standing("C", 2.3, 0.6);
    let crossed = both.standing("D", 2.3, -0.6);
    let found = crossed.fits();
    assert_eq!(found.len(), 1, "one is in the way: {found:?}");
    assert_eq!(found[0].kind, FitKind::PlaceFloor);
    assert_eq!(found[0].things[1].kind, ThingSort::Place);
    let tight = case.fixture(
        "box",
        FixtureKind::EngineBox,
        [2.9, -0.1, 3.1, 0.1],
        0.5,
        |_| {},
    );
    let found = tight.fits();
    assert_eq!(told(&found), [(FitKind::PlaceFloor, "box", "floor")]);
    assert!(found[0].of_boat, "the boat's own");
}

#[test]
fn heat_fuel_and_oil() {
    let case = |gas: &str, kind: FixtureKind, x: f64| {
        let mut case = Case::new()
            .fixture("F", kind, [0.0, -0.2, 0.4, 0.2], 0.5, |_| {})
            .standing("A", x, 0.0);
        case.day.cylinders[0].cylinder.gas = gas.into();
        case.fits()
    };
    // From the fixture's edge at 0.4 to the cylinder's at x - 0.1.
    let edge = 0.5;
    let near = case("air", FixtureKind::Heat, edge + FROM_HEAT_M - 0.1);
    assert_eq!(told(&near), [(FitKind::NearHeat, "A", "F")]);
    assert!((near[0].found_m - 2.3).abs() < ROUNDING);
    assert!((near[0].shift_m.unwrap()[0] - 0.1).abs() < ROUNDING);
    assert!(case("air", FixtureKind::Heat, edge + FROM_HEAT_M + 0.01).is_empty());
    assert!(case("air", FixtureKind::Fuel, 1.0).is_empty(), "air");
    assert!(case("nitrox 32", FixtureKind::Fuel, 1.0).is_empty(), "32 %");
    for (gas, kind, expected) in [
        ("oxygen", FixtureKind::Fuel, FitKind::OxygenNearFuel),
        (
            "nitrox 50",
            FixtureKind::Compressor,
            FitKind::OxygenNearCompressor,
        ),
    ] {
        let found = case(gas, kind, edge + OXYGEN_CLEAR_M - 0.05);
        assert_eq!(told(&found), [(expected, "A", "F")]);
        assert!(case(gas, kind, edge + OXYGEN_CLEAR_M + 0.01).is_empty());
    }
}

/// A slow, separate way to tell how deep a disc is in a disc or an upright rectangle.
fn depth_by_hand(center: Point, radius: f64, other: &Shape) -> f64 {
    let c = vec2(center[0], center[1]);
    match other {
        Shape::Disc {
            center,
            radius: other,
        } => radius + other - c.distance(*center),
        shape => {
            let b = shape.bounds();
            let nearest = vec2(c.x.clamp(b.min.x, b.max.x), c.y.clamp(b.min.y, b.max.y));
            if nearest == c {
                let inside = [c.x - b.min.x, b.max.x - c.x, c.y - b.min.y, b.max.y - c.y];
                radius + inside.into_iter().fold(f64::INFINITY, f64::min)
            } else {
                radius - c.distance(nearest)
            }
        }
    }
}

fn places() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec(
        (5..=55i32, -10..=10i32).prop_map(|(x, y)| (0.1 * f64::from(x), 0.1 * f64::from(y))),
        0..30,
    )
}

fn deck_of(places: &[(f64, f64)]) -> Case {
    let mut case = Case::new()
        .fixture(
            "console",
            FixtureKind::Console,
            [2.0, -0.4, 2.6, 0.4],
            1.0,
            |_| {},
        )
        .fixture(
            "box",
            FixtureKind::EngineBox,
            [4.03, 0.21, 4.77, 0.83],
            0.6,
            |_| {},
        );
    for (i, (x, y)) in places.iter().enumerate() {
        // Never two in the same place: no direction would be the shortest way apart.
        let off = 0.003 * i as f64;
        case = case.standing(&format!("C{i:02}"), x + off, y + 0.7 * off);
    }
    case
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn it_finds_what_a_look_at_all_pairs_finds(places in places()) {
        let case = deck_of(&places);
        let scene = scene(case.things.clone());
        let things = &scene.decks[0].things;
        let mut expected = Vec::new();
        for (i, thing) in things.iter().enumerate() {
            let Shape::Disc { center, radius } = thing.shape else { continue };
            for other in &things[..i] {
                let depth = depth_by_hand(center.into(), radius, &other.shape);
                if depth > TOUCHING_M {
                    expected.push((thing.thing.id.clone(), other.thing.id.clone(), depth));
                }
            }
        }
        expected.sort_by(|a, b| (&a.0, &a.1).cmp(&(&b.0, &b.1)));
        let found: Vec<_> = case.fits_in(&scene).into_iter().filter(|fit| fit.kind == FitKind::Overlap).collect();
        let mut found: Vec<_> = found
            .into_iter()
            .map(|fit| {
                let [a, b] = fit.things.map(|thing| thing.id);
                if b > a && b.starts_with('C') && a.starts_with('C') {
                    (b, a, fit.found_m)
                } else {
                    (a, b, fit.found_m)
                }
            })
            .collect();
        found.sort_by(|a, b| (&a.0, &a.1).cmp(&(&b.0, &b.1)));
        prop_assert_eq!(found.len(), expected.len());
        for (a, b) in found.iter().zip(&expected) {
            prop_assert_eq!((&a.0, &a.1), (&b.0, &b.1));
            prop_assert!((a.2 - b.2).abs() < 1e-9, "{:?} {:?}", a, b);
        }
    }

    #[test]
    fn a_shift_clears_its_pair(places in places()) {
        let case = deck_of(&places);
        for fit in case.fits() {
            let (Some(shift), FitKind::Overlap | FitKind::OffDeck) = (fit.shift_m, fit.kind) else { continue };
            let mut moved = case.clone();
            for thing in &mut moved.things {
                if thing.thing.id == fit.things[0].id {
                    thing.shape = thing.shape.translated(shift.into());
                }
            }
            let still = moved.fits().into_iter().any(|after| {
                after.kind == fit.kind && {
                    let mut names = [&after.things, &fit.things].map(|t| t.clone().map(|t| t.id));
                    for pair in &mut names {
                        pair.sort();
                    }
                    names[0] == names[1]
                }
            });
            prop_assert!(!still, "{:?}", fit);
        }
    }

    #[test]
    fn a_mirror_mirrors_and_the_order_of_the_file_does_not_matter(places in places()) {
        let case = deck_of(&places);
        let whole = scene(case.things.clone());
        let found = case.fits_in(&whole);
        let mut shuffled = case.clone();
        shuffled.day.cylinders.reverse();
        shuffled.boat.fixtures.reverse();
        prop_assert_eq!(&shuffled.fits_in(&whole), &found);
        let other = case.fits_in(&mirrored(&whole));
        prop_assert_eq!(found.len(), other.len());
        for (a, b) in found.iter().zip(&other) {
            prop_assert_eq!((&a.kind, &a.things), (&b.kind, &b.things));
            prop_assert!((a.found_m - b.found_m).abs() < 1e-9);
        }
    }
}
