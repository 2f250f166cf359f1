//! Where to find a thing of a part of the day by its name.

use std::cell::{Cell, OnceCell};
use std::collections::BTreeMap;

use super::check::CheckContext;
use super::security::{self, Security};
use crate::engine::numbers::{CylinderNumbers, PartNumbers};
use crate::layout::{Cylinder, DayState, Lashing};

/// Cylinders and lashings by name, so that a check of thousands looks nothing up by walking a list.
#[derive(Debug, Default)]
pub struct Index<'a> {
    states: ByName<'a, &'a Cylinder>,
    numbers: ByName<'a, &'a CylinderNumbers>,
    lashings: ByName<'a, &'a Lashing>,
    lashings_round: BTreeMap<&'a str, Vec<&'a Lashing>>,
    security: OnceCell<ByName<'a, Security>>,
}

/// Things in the order of their names. Most checks go through all cylinders in that order, so the one after the
/// one that was found last is looked at first.
#[derive(Debug)]
struct ByName<'a, T> {
    things: Vec<(&'a str, T)>,
    next: Cell<usize>,
}

impl<T> Default for ByName<'_, T> {
    fn default() -> Self {
        Self {
            things: Vec::new(),
            next: Cell::new(0),
        }
    }
}

impl<'a, T> FromIterator<(&'a str, T)> for ByName<'a, T> {
    fn from_iter<I: IntoIterator<Item = (&'a str, T)>>(things: I) -> Self {
        let mut things: Vec<(&str, T)> = things.into_iter().collect();
        things.sort_by_key(|(name, _)| *name);
        Self {
            things,
            next: Cell::new(0),
        }
    }
}

impl<T> ByName<'_, T> {
    fn get(&self, name: &str) -> Option<&T> {
        let next = self.next.get();
        let is_it = |number: usize| self.things.get(number).is_some_and(|(own, _)| *own == name);
        let number = if is_it(next) {
            next
        } else if next > 0 && is_it(next - 1) {
            next - 1
        } else {
            let found = self.things.binary_search_by_key(&name, |(own, _)| own);
            found.ok()?
        };
        self.next.set(number + 1);
        self.things.get(number).map(|(_, thing)| thing)
    }
}

impl<'a> Index<'a> {
    /// Of one part of the day.
    pub fn new(day: &'a DayState, numbers: &'a PartNumbers) -> Self {
        let mut round: BTreeMap<&str, Vec<&Lashing>> = BTreeMap::new();
        for state in &day.lashings {
            for id in &state.lashing.round {
                round.entry(id).or_default().push(&state.lashing);
            }
        }
        for list in round.values_mut() {
            list.sort_by(|a, b| a.id.cmp(&b.id));
        }
        Self {
            states: (day.cylinders.iter())
                .map(|state| (state.cylinder.id.as_str(), &state.cylinder))
                .collect(),
            numbers: (numbers.cylinders.iter())
                .map(|cylinder| (cylinder.cylinder.as_str(), cylinder))
                .collect(),
            lashings: (day.lashings.iter())
                .map(|state| (state.lashing.id.as_str(), &state.lashing))
                .collect(),
            lashings_round: round,
            security: OnceCell::new(),
        }
    }

    /// The cylinder as it is in this part.
    pub(super) fn state(&self, id: &str) -> Option<&'a Cylinder> {
        self.states.get(id).copied()
    }

    /// The numbers of a cylinder on deck.
    pub(super) fn numbers(&self, id: &str) -> Option<&'a CylinderNumbers> {
        self.numbers.get(id).copied()
    }

    /// The lashing as it is in this part.
    pub(super) fn lashing(&self, id: &str) -> Option<&'a Lashing> {
        self.lashings.get(id).copied()
    }

    /// The lashings round a cylinder, open ones too, in the order of their names.
    pub(super) fn lashings_round(&self, id: &str) -> &[&'a Lashing] {
        self.lashings_round.get(id).map_or(&[], Vec::as_slice)
    }

    /// What keeps each cylinder upright; worked out when first asked for.
    pub(super) fn security(&self, ctx: &CheckContext<'a>, id: &str) -> &Security {
        let all = self.security.get_or_init(|| {
            let cylinders = ctx.numbers.cylinders.iter();
            cylinders
                .map(|item| (item.cylinder.as_str(), security::work_out(ctx, item)))
                .collect()
        });
        all.get(id).unwrap_or(&Security::NotAsked)
    }
}
