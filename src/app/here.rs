//! What is on the plan in the part of the day and on the deck that the window shows.

use crate::engine::numbers::{CylinderNumbers, PartNumbers};
use crate::engine::{DeckScene, Scene};
use crate::geometry::{Vec2, vec2};
use crate::layout::{DayState, Plan, Point, ThingKind, ThingRef, Trip};

/// All that a tool or a drawing may look at.
#[derive(Copy, Clone, Debug)]
pub(crate) struct Here<'a> {
    /// The plan.
    pub(crate) plan: &'a Plan,

    /// The trip shown.
    pub(crate) trip: &'a Trip,

    /// The part of the day shown, by its place in the day.
    pub(crate) part: usize,

    /// The deck shown.
    pub(crate) deck: &'a str,

    /// Everything as it is in this part.
    pub(crate) day: &'a DayState,

    /// Where everything is in this part.
    pub(crate) scene: &'a Scene,

    /// Every computed number of this part.
    pub(crate) numbers: Option<&'a PartNumbers>,
}

impl<'a> Here<'a> {
    /// The deck shown and what is on it.
    pub(crate) fn deck_scene(&self) -> Option<&'a DeckScene> {
        self.scene.deck(self.deck)
    }

    /// Is it locked in its place?
    pub(crate) fn is_locked(&self, what: &ThingRef) -> bool {
        match what.kind {
            ThingKind::Cylinder | ThingKind::Gear | ThingKind::Person => {
                self.trip.is_locked(&what.id)
            }
            kind => !kind.is_of_trip() && self.plan.boat.is_locked(&what.id),
        }
    }

    /// The computed numbers of a cylinder.
    pub(crate) fn cylinder_numbers(&self, id: &str) -> Option<&'a CylinderNumbers> {
        let cylinders = &self.numbers?.cylinders;
        // In the order of their names.
        let found = cylinders.binary_search_by(|item| item.cylinder.as_str().cmp(id));
        cylinders.get(found.ok()?)
    }
}

/// A point of the plan as a vector.
pub(crate) fn at(point: Point) -> Vec2 {
    vec2(point[0], point[1])
}

/// A vector as a point of the plan, to the centimetre.
pub(crate) fn to_cm(v: Vec2) -> Point {
    [cm(v.x), cm(v.y)]
}

/// A length to the centimetre.
pub(crate) fn cm(value: f64) -> f64 {
    // Adding zero turns −0 into 0.
    (value * 100.0).round() / 100.0 + 0.0
}

/// A length to the millimetre.
pub(crate) fn mm(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}

/// An angle to the degree, in (−180, 180].
pub(crate) fn whole_turn(deg: f64) -> f64 {
    let turned = deg.round().rem_euclid(360.0);
    if turned > 180.0 {
        turned - 360.0
    } else {
        turned
    }
}
