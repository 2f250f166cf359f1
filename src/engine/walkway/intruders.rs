//! What lies in a walkway's strip, and what hangs over it.

use std::collections::BTreeSet;

use super::LashingLeg;
use super::ask::Ask;
use super::tags::Tagged;
use crate::engine::hindrance::{Hindrance, LEVEL_M, OVERHEAD_M};
use crate::engine::numbers::{Intruder, ThingSort};
use crate::engine::{DeckScene, Scene};
use crate::geometry::{Intrusion, Region, Segment, Shape, Strip, Vec2, overhang, separation};

/// Two things on top of each other at these heights are not in each other's way.
const OVER_EACH_OTHER_M: f64 = 0.002;

/// Everything in the strip that people walk into, over or under with a bent back, things in the
/// order of the scene, then lashings.
///
/// Who is at an end of the walkway does not count, nor what they wear (`at_ends`).
pub(super) fn intruders(
    deck: &DeckScene,
    legs: &[&LashingLeg],
    tagged: &[Tagged<'_>],
    ask: &Ask,
    at_ends: &BTreeSet<usize>,
) -> Vec<Intruder> {
    let Some(strip) = &ask.strip else {
        return Vec::new();
    };
    let mut found: Vec<(usize, f64, Intruder)> = Vec::new();
    for thing in tagged {
        let Some(index) = thing.index else { continue };
        let passed = matches!(thing.hindrance, Hindrance::None | Hindrance::Overhead);
        if passed || thing.hidden || at_ends.contains(&index) {
            continue;
        }
        let Some(intrusion) = strip.intrusion(&thing.shape) else {
            continue;
        };
        let item = &deck.things[index];
        found.push((
            index,
            intrusion.into_m,
            Intruder {
                thing: item.thing.id.clone(),
                kind: item.sort,
                into_m: intrusion.into_m,
                at: intrusion.at.into(),
                from_to_m: [item.from_m, item.to_m],
                shift_m: best_shift(deck, index, &intrusion).into(),
                of_boat: item.of_boat,
            },
        ));
    }
    let seen_with_rack = |intruder: &Intruder, index: usize, into_m: f64| {
        let rack = deck.things[index].inside.as_deref();
        rack.is_some_and(|rack| {
            found.iter().any(|(_, more, other)| {
                other.kind == ThingSort::Rack && other.thing == rack && *more >= into_m
            })
        }) && intruder.kind == ThingSort::Cylinder
    };
    let mut all: Vec<Intruder> = (found.iter())
        .filter(|(index, into_m, intruder)| !seen_with_rack(intruder, *index, *into_m))
        .map(|(_, _, intruder)| intruder.clone())
        .collect();
    merge_pieces(&mut all);
    let mut across: Vec<Intruder> = legs.iter().filter_map(|leg| crossing(strip, leg)).collect();
    across.sort_by(|a, b| a.thing.cmp(&b.thing));
    merge_pieces(&mut across);
    all.extend(across);
    all
}

/// A bent hose is several pieces of one thing, a lashing two legs: one intruder, as far in as the
/// furthest piece.
fn merge_pieces(all: &mut Vec<Intruder>) {
    all.dedup_by(|next, kept| {
        let same = next.kind == kept.kind && next.thing == kept.thing;
        if same {
            let heights = [
                next.from_to_m[0].min(kept.from_to_m[0]),
                next.from_to_m[1].max(kept.from_to_m[1]),
            ];
            if next.into_m > kept.into_m {
                std::mem::swap(next, kept);
            }
            kept.from_to_m = heights;
        }
        same
    });
}

/// The smallest shift off the strip that stays on the deck and touches nothing else; else the
/// smallest that stays on the deck; else the smallest.
fn best_shift(deck: &DeckScene, index: usize, intrusion: &Intrusion) -> Vec2 {
    let item = &deck.things[index];
    let on_deck = |shape: &Shape| {
        (deck.floor.as_ref()).is_none_or(|floor: &Region| !overhang(shape, floor).sticks_out())
    };
    let is_free = |shape: &Shape| {
        let bounds = shape.bounds();
        !deck.things.iter().enumerate().any(|(i, other)| {
            let with_it = i == index
                || other.thing == item.thing
                || other.inside.as_deref() == Some(item.thing.id.as_str())
                || item.inside.as_deref() == Some(other.thing.id.as_str());
            let over_or_under = other.from_m >= item.to_m - OVER_EACH_OTHER_M
                || item.from_m >= other.to_m - OVER_EACH_OTHER_M;
            !with_it
                && !over_or_under
                && other.shape.bounds().meets(&bounds)
                && separation(shape, &other.shape).overlaps()
        })
    };
    let mut fallback = None;
    for shift in &intrusion.shifts {
        let moved = item.shape.translated(*shift);
        if on_deck(&moved) {
            if is_free(&moved) {
                return *shift;
            }
            fallback.get_or_insert(*shift);
        }
    }
    fallback.unwrap_or(intrusion.shift)
}

/// A lashing across the strip anywhere between ankle and head.
fn crossing(strip: &Strip, leg: &LashingLeg) -> Option<Intruder> {
    let plan = leg.plan();
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for (from, to) in strip.stretches_over(&plan) {
        let ends = [leg.height(from), leg.height(to)];
        low = low.min(ends[0].min(ends[1]));
        high = high.max(ends[0].max(ends[1]));
    }
    if !(high > LEVEL_M && low < OVERHEAD_M) {
        return None;
    }
    let Segment { from, to } = plan;
    let intrusion = strip.intrusion(&Shape::line(from, to))?;
    Some(Intruder {
        thing: leg.lashing.clone(),
        kind: ThingSort::Lashing,
        into_m: intrusion.into_m,
        at: intrusion.at.into(),
        from_to_m: [low, high],
        shift_m: intrusion.shift.into(),
        of_boat: false,
    })
}

/// The least headroom along the strip, and what makes it: something overhead, or a deck above
/// (counted from deck to deck, as nobody told how thick it is).
pub(super) fn headroom(scene: &Scene, deck: &DeckScene, ask: &Ask) -> Option<(f64, String)> {
    let strip = ask.strip.as_ref()?;
    let is_over = |shape: &Shape| {
        strip.bounds().meets(&shape.bounds())
            && (strip.parts().iter()).any(|part| separation(part, shape).overlaps())
    };
    let things = (deck.things.iter())
        .filter(|thing| Hindrance::of(thing) == Hindrance::Overhead && is_over(&thing.shape))
        .map(|thing| (thing.from_m, thing.thing.id.clone()));
    let decks = (scene.decks.iter())
        .filter(|other| other.height_m - deck.height_m >= OVERHEAD_M)
        .filter(|other| (other.floor.as_ref()).is_some_and(|floor| is_roof(floor, strip)))
        .map(|other| (other.height_m - deck.height_m, other.deck.clone()));
    things
        .chain(decks)
        .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)))
}

/// Is any of the floor over the strip? Its openings are no roof.
fn is_roof(floor: &Region, strip: &Strip) -> bool {
    let outline = Shape::Polygon(floor.outline().clone());
    let in_opening = |part: &Shape| {
        (floor.holes().iter()).any(|hole| !overhang(part, &Region::from(hole.clone())).sticks_out())
    };
    strip.bounds().meets(&floor.bounds())
        && (strip.parts().iter())
            .any(|part| separation(part, &outline).overlaps() && !in_opening(part))
}
