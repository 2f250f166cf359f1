//! A sign on everything that is locked in its place.

use super::super::here::{Here, at};
use super::drawing::{Drawing, Form, Ink, Sign, Stress};
use crate::engine::numbers::ThingSort;
use crate::geometry::Vec2;

impl Drawing {
    /// A sign on everything on the deck shown that is locked in its place.
    pub(super) fn locks(&mut self, here: &Here<'_>) {
        for at in places(here) {
            let sign = Sign::Locked;
            self.push(Form::Sign { at, sign }, Ink::Guide, Stress::Plain);
        }
    }
}

fn places(here: &Here<'_>) -> Vec<Vec2> {
    let boat = &here.plan.boat;
    let mut locked: Vec<Vec2> = Vec::new();
    if let Some(deck) = here.deck_scene() {
        let things = deck.things.iter().filter(|thing| {
            !matches!(thing.sort, ThingSort::Edge | ThingSort::Place)
                && here.is_locked(&thing.thing)
        });
        locked.extend(things.map(|thing| {
            // Towards a corner, so that the name can be read.
            let bounds = thing.shape.bounds();
            bounds.center() + 0.35 * bounds.size().mirrored_y()
        }));
    }
    let is_here = |deck: &str, id: &str| deck == here.deck && boat.is_locked(id);
    let points = boat.lashing_points.iter();
    let points = points.filter(|item| is_here(&item.deck, &item.id));
    locked.extend(points.map(|item| at(item.at)));
    let marks = boat.places.iter();
    let marks = marks.filter(|item| is_here(&item.deck, &item.id));
    locked.extend(marks.map(|item| at(item.at)));
    let ways = boat.walkways.iter();
    let ways = ways.filter(|item| is_here(&item.deck, &item.id));
    locked.extend(ways.filter_map(|item| item.line.first().map(|p| at(*p))));
    locked
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::tools::standing;
    use crate::layout::{Cylinder, Plan};

    #[test]
    fn what_is_locked_on_this_deck_has_a_sign() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, x) in [("A", 2.0), ("B", 3.0)] {
            let cylinder = Cylinder::new(id, "al-80cf", standing("main", [x, 0.0]));
            plan.trips[0].cylinders.push(cylinder);
        }
        plan.trips[0].locked = vec!["B".to_owned()];
        let plan = Arc::new(plan);
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let found = places(&here);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!((found[0].x - 3.0).abs() < 0.1, "on B: {found:?}");
    }
}
