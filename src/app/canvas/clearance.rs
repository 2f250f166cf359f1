//! How far a thing that is being moved is from what is nearest to it.

use super::super::here::Here;
use super::super::things;
use crate::engine::numbers::ThingSort;
use crate::geometry::{Vec2, separation};
use crate::layout::ThingRef;

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
            }
        })
        .filter(|gap| gap.gap_m <= FAR_M)
        .collect();
    gaps.sort_by(|a, b| a.gap_m.total_cmp(&b.gap_m));
    gaps.truncate(most);
    gaps
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::tools::standing;
    use crate::layout::{Cylinder, Plan, ThingKind};

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
    }
}
