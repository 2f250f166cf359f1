use proptest::prelude::*;

use super::*;
use crate::engine::SceneThing;
use crate::engine::numbers::ThingSort;
use crate::engine::testing::{cases, cylinder, mirrored, rect, scene, thing};
use crate::geometry::{Shape, vec2};
use crate::layout::{Place, PlaceKind};

/// Rounding of some lengths of a few metres.
const ROUNDING: f64 = 1e-9;

fn boat(width: Option<f64>, from: [f64; 2], to: [f64; 2]) -> Boat {
    let place = |id: &str, at| Place {
        id: id.into(),
        name: None,
        deck: "main".into(),
        at,
        kind: PlaceKind::Gate,
        floor_m: None,
    };
    let mut boat = Boat::new("Test", 6.0, 3.0);
    boat.places = vec![place("A", from), place("B", to)];
    boat.walkways = vec![Walkway {
        id: "W".into(),
        name: None,
        deck: "main".into(),
        from: "A".into(),
        to: "B".into(),
        line: vec![from, to],
        clear_width_m: width,
        headroom_m: None,
    }];
    boat
}

fn lengthwise() -> Boat {
    boat(Some(0.6), [0.5, 0.0], [5.5, 0.0])
}

fn figures(boat: &Boat, scene: &Scene, legs: &[LashingLeg]) -> WalkwayNumbers {
    walkways(boat, scene, legs, 0, &mut WalkwayCache::default()).remove(0)
}

/// Benches on both sides that leave 1 m between them.
fn benches() -> Vec<SceneThing> {
    vec![
        thing(ThingSort::Fixture, "bench-p", rect(1.0, 0.5, 5.0, 1.5), 0.8),
        thing(
            ThingSort::Fixture,
            "bench-s",
            rect(1.0, -1.5, 5.0, -0.5),
            0.8,
        ),
    ]
}

fn with(mut things: Vec<SceneThing>, more: Vec<SceneThing>) -> Scene {
    things.extend(more);
    scene(things)
}

/// 46 CFR 177.820(d): up to 15 ft 24 in, longer 30 in (both as printed there in metric).
#[test]
fn the_width_wanted_goes_by_the_length() {
    for (length, wanted) in [(4.572, 0.61), (4.573, 0.76)] {
        let figures = figures(
            &boat(None, [0.5, 0.0], [0.5 + length, 0.0]),
            &scene(vec![]),
            &[],
        );
        assert!((figures.wanted_m - wanted).abs() < ROUNDING, "{length}");
        assert!(
            figures.wanted_source.contains("177.820(d)"),
            "{}",
            figures.wanted_source
        );
    }
    let own = figures(&lengthwise(), &scene(vec![]), &[]);
    assert!((own.wanted_m - 0.6).abs() < ROUNDING, "its own width");
}

#[test]
fn a_cylinder_narrows_the_walkway_and_its_shift_clears_it() {
    let stowed = vec![cylinder("P6", 3.0, 0.2)];
    let full = with(benches(), stowed);
    let found = figures(&lengthwise(), &full, &[]);
    // Between the cylinder at 0.2 - 0.1 and the starboard bench at -0.5.
    assert!((found.boat_clear_m - 1.0).abs() < ROUNDING, "{found:?}");
    assert!((found.clear_m - 0.6).abs() < ROUNDING, "{found:?}");
    let wider = boat(Some(0.75), [0.5, 0.0], [5.5, 0.0]);
    let found = figures(&wider, &full, &[]);
    let spot = found.clear_spot.unwrap();
    assert_eq!(spot.between, ["bench-s".to_owned(), "P6".to_owned()]);
    assert_eq!(spot.kinds, [ThingSort::Fixture, ThingSort::Cylinder]);
    assert!(!spot.of_boat);
    let shift = spot.shift.unwrap();
    assert_eq!(shift.thing, "P6");
    assert!((shift.by_m[1] - 0.15).abs() < ROUNDING, "{shift:?}");
    let moved = vec![cylinder("P6", 3.0 + shift.by_m[0], 0.2 + shift.by_m[1])];
    let after = figures(&wider, &with(benches(), moved), &[]);
    assert!(after.clear_m > 0.75 - ROUNDING, "{after:?}");
    // In the strip of 0.75 m it took 0.275 m on the port side.
    assert_eq!(found.intruders.len(), 1);
    assert!((found.intruders[0].into_m - 0.275).abs() < ROUNDING);
    assert!(after.intruders[0].into_m < 0.1251, "{after:?}");
}

#[test]
fn a_rack_answers_for_its_cylinders() {
    let rack = thing(ThingSort::Rack, "R1", rect(2.5, 0.1, 3.5, 0.5), 0.6);
    let mut inside = cylinder("P1", 3.0, 0.3);
    inside.inside = Some("R1".into());
    let mut proud = cylinder("P2", 2.7, 0.1);
    proud.inside = Some("R1".into());
    let wider = boat(Some(0.75), [0.5, 0.0], [5.5, 0.0]);
    let within = figures(
        &wider,
        &with(benches(), vec![rack.clone(), inside.clone()]),
        &[],
    );
    let spot = within.clear_spot.unwrap();
    assert_eq!(spot.between[1], "R1", "the cylinder is hidden by its rack");
    assert_eq!(within.intruders.len(), 1);
    let found = figures(&wider, &with(benches(), vec![rack, inside, proud]), &[]);
    assert!((found.clear_m - 0.5).abs() < ROUNDING, "{found:?}");
    let spot = found.clear_spot.unwrap();
    assert_eq!(spot.between[1], "P2", "what sticks out is named");
    assert_eq!(spot.shift.unwrap().thing, "R1", "and its rack is moved");
    let mut names: Vec<_> = found.intruders.iter().map(|i| i.thing.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["P2", "R1"]);
}

#[test]
fn low_things_only_count_where_they_are_asked_for() {
    let crate_ = thing(ThingSort::Gear, "box", rect(2.8, -0.4, 3.2, 0.1), 0.3);
    let found = figures(&lengthwise(), &with(benches(), vec![crate_]), &[]);
    assert!((found.clear_m - 1.0).abs() < ROUNDING, "stepped over");
    assert!((found.clear_of_low_m - 0.4).abs() < ROUNDING, "{found:?}");
    assert!(!found.clear_of_low_spot.unwrap().of_boat);
    let line = thing(
        ThingSort::Gear,
        "hose",
        Shape::Stadium {
            from: vec2(3.0, -0.6),
            to: vec2(3.0, 0.6),
            radius: 0.012,
        },
        0.024,
    );
    let found = figures(&lengthwise(), &with(benches(), vec![line]), &[]);
    assert!(found.clear_of_low_m < 1e-3, "a hose all the way across");
    let mat = thing(ThingSort::Gear, "mat", rect(2.8, -0.6, 3.2, 0.6), 0.006);
    let found = figures(&lengthwise(), &with(benches(), vec![mat]), &[]);
    assert!((found.clear_of_low_m - 1.0).abs() < ROUNDING, "a thin mat");
    assert!(found.intruders.is_empty());
}

#[test]
fn what_is_walked_on_is_never_a_wall() {
    let mut hatch = thing(ThingSort::Fixture, "hatch", rect(2.5, -0.5, 3.5, 0.5), 0.02);
    hatch.walked_on = true;
    let found = figures(&lengthwise(), &with(benches(), vec![hatch]), &[]);
    assert!((found.clear_of_low_m - 1.0).abs() < ROUNDING, "{found:?}");
    assert_eq!(found.intruders.len(), 1, "but a change of level");
    assert!(found.intruders[0].of_boat);
}

#[test]
fn what_is_overhead_takes_headroom() {
    let mut beam = thing(ThingSort::Fixture, "beam", rect(2.5, -1.5, 3.5, 1.5), 2.0);
    beam.from_m = 1.8;
    let found = figures(&lengthwise(), &with(benches(), vec![beam]), &[]);
    assert!((found.clear_m - 1.0).abs() < ROUNDING, "passed under");
    assert_eq!(found.headroom, Some((1.8, "beam".to_owned())));
    let mut two = scene(benches());
    let mut upper = crate::engine::testing::deck([4.0, -1.0, 6.0, 1.0], vec![]);
    (upper.deck, upper.height_m) = ("upper".into(), 2.7);
    two.decks.push(upper);
    let (height, of) = figures(&lengthwise(), &two, &[]).headroom.unwrap();
    assert!((height - 2.1).abs() < ROUNDING, "from deck to deck");
    assert_eq!(of, "upper");
    two.decks[1].height_m = 0.7;
    assert_eq!(figures(&lengthwise(), &two, &[]).headroom, None, "a step");
}

#[test]
fn the_boats_own_tight_spot_is_told_as_such() {
    let own = vec![thing(
        ThingSort::Fixture,
        "console",
        rect(2.0, -0.5, 2.5, 0.1),
        1.1,
    )];
    // As tight as the boat's own, elsewhere: the stowage takes nothing away.
    let stowed = vec![cylinder("P1", 4.0, 0.2)];
    let mut things = benches();
    things.extend(own);
    let found = figures(&lengthwise(), &with(things.clone(), stowed), &[]);
    assert!((found.clear_m - 0.4).abs() < ROUNDING, "{found:?}");
    let spot = found.clear_spot.unwrap();
    assert!(spot.of_boat && spot.shift.is_none(), "{spot:?}");
    assert_eq!(spot.between, ["bench-p".to_owned(), "console".to_owned()]);
    // One that is tighter than it.
    let tighter = figures(
        &lengthwise(),
        &with(
            things,
            vec![cylinder("P1", 4.0, -0.1), cylinder("P2", 4.0, 0.3)],
        ),
        &[],
    );
    let spot = tighter.clear_spot.clone().unwrap();
    assert!(!spot.of_boat, "{spot:?}");
    assert!((tighter.clear_m - 0.3).abs() < ROUNDING, "{tighter:?}");
    assert!((spot.shift.unwrap().by_m[1] - 0.3).abs() < ROUNDING);
}

#[test]
fn who_is_at_an_end_does_not_block_it() {
    let diver = |x: f64| {
        vec![
            thing(
                ThingSort::Person,
                "diver",
                rect(x - 0.4, -0.5, x + 0.4, 0.5),
                1.4,
            ),
            thing(
                ThingSort::Cylinder,
                "on-back",
                Shape::disc(vec2(x - 0.2, 0.0), 0.1),
                1.2,
            ),
        ]
    };
    let at_end = figures(&lengthwise(), &with(benches(), diver(5.4)), &[]);
    assert!((at_end.clear_m - 1.0).abs() < ROUNDING, "{at_end:?}");
    assert!(at_end.intruders.is_empty(), "{at_end:?}");
    let between = figures(&lengthwise(), &with(benches(), diver(3.0)), &[]);
    assert!(between.clear_m < 1e-3, "{between:?}");
}

#[test]
fn a_seat_in_a_bench_is_reached_from_its_front() {
    let seat = boat(Some(0.6), [0.5, 0.0], [3.0, 1.1]);
    let found = figures(&seat, &scene(benches()), &[]);
    // In front of the bench the passage of 1 m is all there is.
    assert!(found.clear_m > 0.85 && found.clear_m < 1.01, "{found:?}");
    let walled = thing(ThingSort::Gear, "crate", rect(1.0, -0.5, 5.0, 0.5), 0.9);
    let found = figures(&seat, &with(benches(), vec![walled]), &[]);
    assert!(found.clear_m < 1e-3, "nobody gets up any more: {found:?}");
    let spot = found.clear_spot.unwrap();
    assert_eq!(spot.kinds[1], ThingSort::Place);
    assert_eq!(spot.between[1], "B");
}

#[test]
fn a_place_off_the_deck_cannot_be_reached() {
    let found = figures(
        &boat(Some(0.6), [0.5, 0.0], [5.0, 2.5]),
        &scene(vec![]),
        &[],
    );
    assert!(found.clear_m < 1e-3 && found.boat_clear_m < 1e-3);
    assert_eq!(found.clear_spot.unwrap().between[0], "edge of main");
    let on_tube = figures(
        &boat(Some(0.6), [0.5, 0.0], [5.0, 1.8]),
        &scene(vec![]),
        &[],
    );
    assert!(on_tube.clear_m > 0.6, "from the edge: {on_tube:?}");
}

#[test]
fn lashings_across() {
    let leg = |heights: [f64; 2]| LashingLeg {
        lashing: "L1".into(),
        deck: "main".into(),
        ends: [[3.0, -0.5, heights[0]], [3.0, 0.5, heights[1]]],
    };
    let found = figures(&lengthwise(), &scene(benches()), &[leg([0.1, 0.4])]);
    assert!((found.clear_m - 1.0).abs() < ROUNDING, "{found:?}");
    assert!(found.clear_of_low_m < 1e-3, "{found:?}");
    assert_eq!(found.intruders[0].thing, "L1");
    assert!(
        (found.intruders[0].into_m - 0.6).abs() < ROUNDING,
        "the whole strip"
    );
    let heights = found.intruders[0].from_to_m;
    assert!(
        (heights[0] - 0.16).abs() < ROUNDING,
        "over the strip's edge"
    );
    let found = figures(&lengthwise(), &scene(benches()), &[leg([0.9, 1.0])]);
    assert!(
        found.clear_m < 1e-3,
        "at the height of the chest: {found:?}"
    );
    let found = figures(&lengthwise(), &scene(benches()), &[leg([1.9, 2.0])]);
    assert!((found.clear_of_low_m - 1.0).abs() < ROUNDING, "overhead");
    assert!(found.intruders.is_empty());
    // High at the port bench, low at the starboard one: half of the way is left.
    let found = figures(&lengthwise(), &scene(benches()), &[leg([0.0, 1.0])]);
    assert!((found.clear_m - 0.5).abs() < ROUNDING, "{found:?}");
}

fn stowage() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec(
        ((0..50i32), (-14..=14i32))
            .prop_map(|(x, y)| (0.5 + 0.1 * f64::from(x), 0.1 * f64::from(y))),
        0..8,
    )
}

fn stowed(places: &[(f64, f64)], tall: impl Fn(usize) -> bool) -> Vec<SceneThing> {
    (places.iter().enumerate())
        .map(|(i, (x, y))| {
            let mut cylinder = cylinder(&format!("C{i}"), *x, *y);
            if !tall(i) {
                cylinder.to_m = 0.2;
            }
            cylinder
        })
        .collect()
}

proptest! {
    #![proptest_config(cases(20))]

    #[test]
    fn a_mirror_mirrors(places in stowage()) {
        let full = with(benches(), stowed(&places, |i| i % 3 > 0));
        let boat_p = boat(Some(0.6), [0.5, 0.2], [5.5, -0.1]);
        let boat_s = boat(Some(0.6), [0.5, -0.2], [5.5, 0.1]);
        let (one, other) = (figures(&boat_p, &full, &[]), figures(&boat_s, &mirrored(&full), &[]));
        // Zones that are climbed from mirrored starts agree to a tenth of a millimetre.
        let close = |a: f64, b: f64| (a - b).abs() < 3e-4;
        prop_assert!(close(one.clear_m, other.clear_m), "{one:?} {other:?}");
        prop_assert!(close(one.clear_of_low_m, other.clear_of_low_m));
        prop_assert!(close(one.boat_clear_m, other.boat_clear_m));
        prop_assert_eq!(one.intruders.len(), other.intruders.len());
        for (a, b) in one.intruders.iter().zip(&other.intruders) {
            prop_assert_eq!(&a.thing, &b.thing);
            prop_assert!(close(a.into_m, b.into_m), "{:?} {:?}", a, b);
        }
    }

    #[test]
    fn more_stowage_never_widens(places in stowage()) {
        let some = with(benches(), stowed(&places[..places.len() / 2], |i| i % 3 > 0));
        let more = with(benches(), stowed(&places, |i| i % 3 > 0));
        let (some, more) = (figures(&lengthwise(), &some, &[]), figures(&lengthwise(), &more, &[]));
        // A zone's clearest point is searched for, not computed: half a centimetre.
        let slack = 0.005;
        prop_assert!(more.clear_m <= some.clear_m + slack);
        prop_assert!(more.clear_of_low_m <= some.clear_of_low_m + slack);
        prop_assert!(more.clear_of_low_m <= more.clear_m + slack);
        prop_assert!(more.clear_m <= more.boat_clear_m + slack);
    }

    #[test]
    fn remembering_changes_nothing(places in stowage(), moves in prop::collection::vec((0..8usize, 0..2usize, -14..=14i32), 1..6)) {
        let mut cache = WalkwayCache::default();
        let boat = lengthwise();
        let mut days = [stowed(&places, |i| i % 3 > 0), stowed(&places, |_| true)];
        for (which, part, y) in moves {
            if let Some(moved) = days[part].get_mut(which) {
                moved.shape = Shape::disc(vec2(3.0, 0.1 * f64::from(y)), 0.1);
            }
            for (part, stowed) in days.iter().enumerate() {
                let full = with(benches(), stowed.clone());
                let remembered = walkways(&boat, &full, &[], part, &mut cache);
                prop_assert_eq!(&remembered, &vec![figures(&boat, &full, &[])]);
            }
        }
    }
}

/// A wide way is measured exactly where somebody wants one, and up to 2 m; elsewhere no wider than needed.
#[test]
fn a_wide_way_is_measured_where_one_is_wanted() {
    let leaving = |width: f64| {
        let half = 0.5 * width;
        scene(vec![
            thing(
                ThingSort::Fixture,
                "bench-p",
                rect(1.5, half, 4.5, 1.5),
                0.8,
            ),
            thing(
                ThingSort::Fixture,
                "bench-s",
                rect(1.5, -1.5, 4.5, -half),
                0.8,
            ),
        ])
    };
    let wide = boat(Some(1.2), [1.0, 0.0], [5.0, 0.0]);
    for width in [1.0, 1.3, 1.6, 1.8, 1.95] {
        let found = figures(&wide, &leaving(width), &[]);
        assert!(
            (found.clear_m - width).abs() < ROUNDING,
            "{width}: {found:?}"
        );
        let spot = found.clear_spot.expect("a tight spot");
        assert_eq!(spot.between, ["bench-p", "bench-s"]);
    }
    let found = figures(&wide, &leaving(2.2), &[]);
    assert!((found.clear_m - 2.0).abs() < ROUNDING && found.clear_spot.is_none());
    let found = figures(&lengthwise(), &leaving(1.6), &[]);
    assert!((found.clear_m - 1.25).abs() < ROUNDING && found.clear_spot.is_none());
    // Nobody wants more than 2 m often; then a quarter more is measured.
    assert!((widest_m(1.1) - 1.25).abs() < ROUNDING && (widest_m(2.4) - 3.0).abs() < ROUNDING);
}
