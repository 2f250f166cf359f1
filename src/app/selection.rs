use crate::layout::{Plan, ThingRef, Trip};

use super::things;

/// What is selected, in the order in which it was; the last one is the one whose card is shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Selection {
    things: Vec<ThingRef>,
}

impl Selection {
    /// Nothing.
    pub(crate) fn none() -> Self {
        Self::default()
    }

    /// One thing.
    pub(crate) fn one(thing: ThingRef) -> Self {
        Self {
            things: vec![thing],
        }
    }

    /// Several things; doubles count once.
    pub(crate) fn of(list: impl IntoIterator<Item = ThingRef>) -> Self {
        let mut things = Vec::new();
        for thing in list {
            if !things.contains(&thing) {
                things.push(thing);
            }
        }
        Self { things }
    }

    /// The one whose card is shown.
    pub(crate) fn primary(&self) -> Option<&ThingRef> {
        self.things.last()
    }

    /// All of them.
    pub(crate) fn things(&self) -> &[ThingRef] {
        &self.things
    }

    /// Is it selected?
    pub(crate) fn contains(&self, thing: &ThingRef) -> bool {
        self.things.contains(thing)
    }

    /// With the thing added, or taken out if it was in.
    pub(crate) fn toggled(&self, thing: ThingRef) -> Self {
        let mut things = self.things.clone();
        match things.iter().position(|item| *item == thing) {
            Some(index) => {
                things.remove(index);
            }
            None => things.push(thing),
        }
        Self { things }
    }

    /// Drops what is gone from the plan.
    pub(crate) fn keep_existing(&mut self, plan: &Plan, trip: &Trip) {
        self.things
            .retain(|thing| things::exists(plan, trip, thing));
    }
}
