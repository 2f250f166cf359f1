//! How far a thing that is being moved is from what is nearest to it.

use super::super::here::{Here, at};
use super::super::things;
use crate::engine::numbers::ThingSort;
use crate::geometry::{Segment, Vec2, separation};
use crate::layout::{Fixture, Point, ThingKind, ThingRef};

/// The gap to one thing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Clearance {
    /// On the thing moved.
    pub(crate) from: Vec2,
    /// On the other one.
    pub(crate) to: Vec2,
    /// How far, in metres; 0 where they touch.
    pub(crate) gap_m: f64,
    /// What the other is called.
    pub(crate) name: String,
    /// How far it should be at least, in metres: across a walkway, or before what wants clear floor.
    pub(crate) wanted_m: Option<f64>,
}

impl Clearance {
    /// Is it less than it should be?
    pub(crate) fn is_short(&self) -> bool {
        self.wanted_m.is_some_and(|wanted| self.gap_m < wanted)
    }
}

/// Farther things are not told, in metres.
const FAR_M: f64 = 1.5;

/// The gaps to the nearest things, at most so many, the nearest first.
pub(crate) fn of(here: &Here<'_>, what: &ThingRef, most: usize) -> Vec<Clearance> {
    let Some((deck, moved)) = here.scene.thing(what) else {
        return Vec::new();
    };
    let near = moved.shape.bounds().grown(FAR_M);
    let others = deck.things.iter().filter(|other| {
        other.thing != *what
            && other.sort != ThingSort::Person
            && !other.walked_on
            && other.from_m < moved.to_m
            && moved.inside.as_ref() != Some(&other.thing.id)
            && other.inside.as_ref() != Some(&what.id)
            && near.meets(&other.shape.bounds())
    });
    let mut gaps: Vec<Clearance> = others
        .map(|other| {
            let apart = separation(&moved.shape, &other.shape);
            Clearance {
                from: apart.a,
                to: apart.b,
                gap_m: apart.gap_m,
                name: things::name(here.plan, here.trip, &other.thing),
                wanted_m: wanted_m(here, &other.thing, apart.a, apart.b),
            }
        })
        .filter(|gap| gap.gap_m <= FAR_M)
        .collect();
    gaps.sort_by(|a, b| a.gap_m.total_cmp(&b.gap_m));
    gaps.truncate(most);
    gaps
}

/// How wide the gap between two points should be: the clear floor of the fixture at its end, or the width of
/// the walkways that it lies across, whichever is more.
fn wanted_m(here: &Here<'_>, other: &ThingRef, from: Vec2, to: Vec2) -> Option<f64> {
    let boat = &here.plan.boat;
    let fixture = boat
        .fixture(&other.id)
        .filter(|_| other.kind == ThingKind::Fixture);
    let in_front = |fixture: &Fixture| {
        let front = fixture
            .front_deg
            .map(|deg| Vec2::from_angle(deg.to_radians()));
        let towards = (from - to).normalized();
        // Within 60 degrees of its front: beside it and behind it nobody has to stand.
        (front.zip(towards)).is_none_or(|(front, towards)| front.dot(towards) >= 0.5)
    };
    let floor_m = fixture
        .filter(|fixture| in_front(fixture))
        .and_then(|fixture| fixture.clear_floor_m);
    let ways = boat.walkways.iter().filter(|way| way.deck == here.deck);
    let across = ways.filter(|way| {
        let gap = Segment::new(from, to);
        let crosses = |step: &[Point]| {
            let step = Segment::new(at(step[0]), at(step[1]));
            step.crossing(&gap).is_some()
        };
        from != to && way.line.windows(2).any(crosses)
    });
    let width_m = across.filter_map(|way| {
        let numbers = here.numbers.into_iter().flat_map(|part| &part.walkways);
        let found = numbers.into_iter().find(|item| item.walkway == way.id);
        found.map(|item| item.wanted_m).or(way.clear_width_m)
    });
    width_m.chain(floor_m).reduce(f64::max)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::tools::standing;
    use crate::layout::{Cylinder, Place, PlaceKind, Plan, Walkway};

    #[test]
    fn the_gap_is_between_the_edges() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, x) in [("A", 2.0), ("B", 3.0), ("far", 6.0)] {
            let cylinder = Cylinder::new(id, "al-80cf", standing("main", [x, 0.0]));
            plan.trips[0].cylinders.push(cylinder);
        }
        let plan = Arc::new(plan);
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let gaps = of(&here, &things::reference(ThingKind::Cylinder, "A"), 3);
        assert_eq!(gaps.len(), 1, "{gaps:?}");
        // Outside diameter of the 80 cu ft cylinder: 184.2 mm (7.25 in), data of the catalogue.
        assert!((gaps[0].gap_m - (1.0 - 0.1842)).abs() < 0.002, "{gaps:?}");
        assert_eq!(gaps[0].name, "B");
        assert_eq!(gaps[0].wanted_m, None);
        assert!(!gaps[0].is_short());
    }

    #[test]
    fn across_a_walkway_its_width_is_wanted() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, x) in [("A", 2.0), ("B", 2.7)] {
            let cylinder = Cylinder::new(id, "al-80cf", standing("main", [x, 0.0]));
            plan.trips[0].cylinders.push(cylinder);
        }
        let place = |id: &str, y: f64| Place {
            id: id.to_owned(),
            name: None,
            deck: "main".into(),
            at: [2.35, y],
            kind: PlaceKind::Gate,
            floor_m: None,
        };
        plan.boat.places = vec![place("port", 1.5), place("starboard", -1.5)];
        plan.boat.walkways = vec![Walkway {
            id: "across".into(),
            name: None,
            deck: "main".into(),
            from: "port".into(),
            to: "starboard".into(),
            line: vec![[2.35, 1.5], [2.35, -1.5]],
            clear_width_m: Some(0.61),
            headroom_m: None,
        }];
        let plan = Arc::new(plan);
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let gaps = of(&here, &things::reference(ThingKind::Cylinder, "A"), 1);
        assert_eq!(gaps[0].wanted_m, Some(0.61));
        assert!(gaps[0].is_short(), "{gaps:?}");
    }
}
