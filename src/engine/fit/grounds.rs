//! A deck with everything on it, ready for questions of fit.

use std::collections::BTreeMap;

use super::{FitInput, TOUCHING_M};
use crate::engine::numbers::{FitKind, FitNumbers, FitThing, ThingSort};
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::{Shape, Vec2};
use crate::layout::{
    Boat, Condition, Cylinder, Fixture, Gear, GearKind, GearShape, Id, Placing, Rack, RackKind,
};

/// What something on deck is in the plan.
#[derive(Copy, Clone, Debug)]
pub(super) enum What<'a> {
    Fixture(&'a Fixture),
    Rack(&'a Rack),
    Cylinder(&'a Cylinder),
    Gear(&'a Gear),
    Person,
}

/// Something on deck.
#[derive(Clone, Debug)]
pub(super) struct Item<'a> {
    pub(super) thing: &'a SceneThing,
    /// Its shape without soft kit.
    pub(super) hard: &'a Shape,
    pub(super) what: What<'a>,
}

/// A deck and what is on it.
#[derive(Debug)]
pub(super) struct Grounds<'a> {
    pub(super) boat: &'a Boat,
    pub(super) deck: &'a DeckScene,
    pub(super) condition: Condition,
    pub(super) items: Vec<Item<'a>>,
    /// Which item a thing of the deck is.
    item_of: Vec<Option<usize>>,
}

impl<'a> Grounds<'a> {
    pub(super) fn new(input: FitInput<'a>, deck: &'a DeckScene) -> Self {
        fn by_id<'a, T>(
            things: impl Iterator<Item = &'a T>,
            id: impl Fn(&'a T) -> &'a str,
        ) -> BTreeMap<&'a str, &'a T> {
            things.map(|thing| (id(thing), thing)).collect()
        }
        let fixtures = by_id(input.boat.fixtures.iter(), |fixture| &fixture.id);
        let racks = by_id(input.boat.racks.iter(), |rack| &rack.id);
        let cylinders = by_id(
            input.day.cylinders.iter().map(|state| &state.cylinder),
            |cylinder| &cylinder.id,
        );
        let gear = by_id(input.day.gear.iter().map(|state| &state.gear), |gear| {
            &gear.id
        });
        let shell = |id: &str| {
            (input.shells)
                .binary_search_by(|(name, _)| name.as_str().cmp(id))
                .ok()
                .map(|found| &input.shells[found].1)
        };
        let known: Vec<Option<Item<'_>>> = (deck.things.iter())
            .map(|thing| {
                let id = thing.thing.id.as_str();
                let what = match thing.sort {
                    ThingSort::Fixture => What::Fixture(fixtures.get(id)?),
                    ThingSort::Rack => What::Rack(racks.get(id)?),
                    ThingSort::Cylinder => What::Cylinder(cylinders.get(id)?),
                    ThingSort::Gear => What::Gear(gear.get(id)?),
                    ThingSort::Person => What::Person,
                    ThingSort::Edge | ThingSort::Lashing | ThingSort::Place => return None,
                };
                let hard = match what {
                    What::Cylinder(_) => shell(id).unwrap_or(&thing.shape),
                    _ => &thing.shape,
                };
                Some(Item { thing, hard, what })
            })
            .collect();
        let mut count = 0;
        let item_of = (known.iter())
            .map(|item| {
                item.as_ref()?;
                count += 1;
                Some(count - 1)
            })
            .collect();
        let items = known.into_iter().flatten().collect();
        Self {
            boat: input.boat,
            deck,
            condition: input.condition,
            items,
            item_of,
        }
    }

    /// The items whose bounds come within `margin_m` of those of a shape.
    pub(super) fn near(
        &self,
        shape: &Shape,
        margin_m: f64,
    ) -> impl Iterator<Item = (usize, &Item<'a>)> {
        (self.deck.near(&shape.bounds(), margin_m).into_iter())
            .filter_map(|thing| self.item_of[thing])
            .map(|number| (number, &self.items[number]))
    }

    /// The rack, crate or net that a cylinder is in.
    pub(super) fn rack_of(item: &Item<'a>) -> Option<&'a Id> {
        item.cylinder()
            .and_then(|cylinder| rack_of(&cylinder.placing))
    }

    /// A finding about the first thing and something else.
    pub(super) fn note(
        &self,
        kind: FitKind,
        items: [&Item<'a>; 2],
        at: Vec2,
        found_m: f64,
    ) -> FitNumbers {
        FitNumbers {
            kind,
            things: items.map(Item::name),
            deck: self.deck.deck.clone(),
            at: at.into(),
            found_m,
            wanted_m: 0.0,
            shift_m: None,
            of_boat: items.iter().all(|item| item.thing.of_boat),
        }
    }
}

fn rack_of(placing: &Placing) -> Option<&Id> {
    match placing {
        Placing::InSlot { rack, .. } | Placing::InCrate { rack, .. } => Some(rack),
        _ => None,
    }
}

impl<'a> Item<'a> {
    pub(super) fn name(&self) -> FitThing {
        FitThing {
            kind: self.thing.sort,
            id: self.thing.thing.id.clone(),
        }
    }

    pub(super) fn id(&self) -> &'a str {
        &self.thing.thing.id
    }

    pub(super) fn cylinder(&self) -> Option<&'a Cylinder> {
        match self.what {
            What::Cylinder(cylinder) => Some(cylinder),
            _ => None,
        }
    }

    /// Does it take its place with somebody, or give way to what is put on it or round it?
    pub(super) fn gives_way(&self) -> bool {
        match self.what {
            What::Person => true,
            What::Cylinder(cylinder) => matches!(cylinder.placing, Placing::OnDiver { .. }),
            What::Rack(rack) => rack.kind == RackKind::Net,
            What::Gear(gear) => {
                gear.kind == GearKind::Mat || matches!(gear.floor, GearShape::Line { .. })
            }
            What::Fixture(fixture) => fixture.walked_on,
        }
    }

    /// Is one wholly above the other?
    pub(super) fn clears_in_height(&self, other: &Self) -> bool {
        // A rack on a bench begins where its cylinders stand.
        let from = |item: &Self, against: &Self| match (item.what, against.what) {
            (What::Rack(rack), What::Fixture(_)) => item.thing.from_m.max(rack.shelf_height_m),
            _ => item.thing.from_m,
        };
        from(self, other) >= other.thing.to_m - TOUCHING_M
            || from(other, self) >= self.thing.to_m - TOUCHING_M
    }
}
