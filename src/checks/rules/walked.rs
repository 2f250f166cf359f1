//! What the rules about walkways have in common.

use crate::checks::{Check, CheckContext, Finding, Signal, Subject, figures};
use crate::engine::numbers::{Intruder, ThingSort, TightSpot, WalkwayNumbers};
use crate::layout::{Id, Point, ThingKind, Walkway};

/// Differences below this are the measuring's own, in metres.
pub(super) const SAME_M: f64 = 0.001;

/// Every walkway with its numbers, in the order of the names.
pub(super) fn walkways<'a>(
    ctx: &CheckContext<'a>,
) -> impl Iterator<Item = (&'a Walkway, &'a WalkwayNumbers)> {
    let boat = &ctx.plan.boat;
    let numbers = ctx.numbers.walkways.iter();
    numbers.filter_map(move |numbers| Some((boat.walkway(&numbers.walkway)?, numbers)))
}

/// The kind of thing in the plan that a sort of thing on deck is.
pub(in crate::checks) fn kind_of(sort: ThingSort) -> ThingKind {
    match sort {
        ThingSort::Edge => ThingKind::Deck,
        ThingSort::Fixture => ThingKind::Fixture,
        ThingSort::Rack => ThingKind::Rack,
        ThingSort::Cylinder => ThingKind::Cylinder,
        ThingSort::Gear => ThingKind::Gear,
        ThingSort::Person => ThingKind::Person,
        ThingSort::Lashing => ThingKind::Lashing,
        ThingSort::Place => ThingKind::Place,
    }
}

/// A thing by its sort and name.
pub(super) fn subject(ctx: &CheckContext<'_>, sort: ThingSort, id: &str) -> Subject {
    ctx.subject(kind_of(sort), id)
}

/// A finding about a walkway at a tight spot.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (way, spot): (&Walkway, Option<&TightSpot>),
    sentence: String,
) -> Finding {
    let mut about = vec![ctx.subject(ThingKind::Walkway, &way.id)];
    if let Some(spot) = spot {
        let sides = spot.between.iter().zip(&spot.kinds);
        // The edge and the places at its ends are where the walkway is, not what is in its way.
        let things = sides.filter(|(_, kind)| !matches!(kind, ThingSort::Edge | ThingSort::Place));
        about.extend(things.map(|(id, kind)| subject(ctx, *kind, id)));
        about.dedup();
    }
    let at = spot.map_or_else(|| way.line.first().copied().unwrap_or_default(), middle);
    Finding::new(check, ctx, signal, about, sentence).on(&way.deck, at)
}

/// Halfway between the two things of a tight spot.
pub(super) fn middle(spot: &TightSpot) -> Point {
    let [a, b] = spot.at;
    [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]
}

/// The two things of a tight spot, as a clause: `between P6 and the edge of main deck`.
pub(super) fn between(ctx: &CheckContext<'_>, spot: Option<&TightSpot>) -> String {
    let Some(spot) = spot else {
        return String::new();
    };
    let names: Vec<String> = spot
        .between
        .iter()
        .zip(&spot.kinds)
        .map(|(id, kind)| match kind {
            ThingSort::Edge => {
                let deck = id.strip_prefix("edge of ").unwrap_or(id);
                format!("the edge of {}", ctx.name(ThingKind::Deck, deck))
            }
            kind => ctx.name(kind_of(*kind), id),
        })
        .collect();
    match names.as_slice() {
        [a, b] if a != b => format!(" between {a} and {b}"),
        [a, ..] => format!(" at {a}"),
        [] => String::new(),
    }
}

/// The shift that opens a tight spot, as a clause: `; move P6 0.12 m to port`.
pub(super) fn shift(ctx: &CheckContext<'_>, spot: Option<&TightSpot>) -> String {
    spot.and_then(|spot| spot.shift.as_ref())
        .map_or_else(String::new, |shift| {
            let name = ctx.name(kind_of(shift.kind), &shift.thing);
            format!("; moving {name} {} opens it", figures::shift(shift.by_m))
        })
}

/// How much of the width is the stowage's doing, as a clause; empty where the empty boat is no wider.
///
/// An empty boat without a tight spot is wider than is measured.
pub(super) fn taken(clear_m: f64, empty_m: f64, empty_spot: Option<&TightSpot>) -> String {
    let taken = empty_m - clear_m;
    if taken > SAME_M {
        let least = if empty_spot.is_some() {
            ""
        } else {
            "at least "
        };
        format!("; the stowage takes {least}{} away", figures::metres(taken))
    } else {
        String::new()
    }
}

/// The key of all that is cured by moving this thing out of a walkway.
pub(super) fn fold(way: &Walkway, thing: &Id) -> String {
    format!("walkway/{}/{thing}", way.id)
}

/// The key for a tight spot: that of the thing which would be moved.
pub(super) fn fold_spot(way: &Walkway, spot: Option<&TightSpot>) -> String {
    match spot.and_then(|spot| spot.shift.as_ref()) {
        Some(shift) => fold(way, &shift.thing),
        None => format!("walkway/{}", way.id),
    }
}

/// A finding about something that lies in a strip.
pub(super) fn intruder_finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (way, intruder): (&Walkway, &Intruder),
    sentence: String,
) -> Finding {
    let about = vec![
        subject(ctx, intruder.kind, &intruder.thing),
        ctx.subject(ThingKind::Walkway, &way.id),
    ];
    Finding::new(check, ctx, signal, about, sentence)
        .on(&way.deck, intruder.at)
        .measured("reach into the walkway", intruder.into_m, 0.0, "m")
        .fold_as(fold(way, &intruder.thing))
}
