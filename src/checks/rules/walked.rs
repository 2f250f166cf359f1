//! What the rules about walkways have in common.

use crate::catalogue::published::LEVEL_CHANGE_BEVELLED_M;
use crate::checks::{Check, CheckContext, Finding, Signal, Subject, figures, words};
use crate::engine::KNEE_M;
use crate::engine::numbers::{Intruder, ThingSort, TightSpot, WalkwayNumbers};
use crate::geometry::Segment;
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
    (way, spot, blockers): (&Walkway, Option<&TightSpot>, Vec<Subject>),
    sentence: String,
) -> Finding {
    let mut about = vec![ctx.subject(ThingKind::Walkway, &way.id)];
    about.extend(blockers);
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

/// A tight spot further than this from the line of its walkway, in metres, is on a way round, as over the other side
/// of the deck. Our judgement.
const OFF_THE_WAY_M: f64 = 1.0;

/// Is the narrowest place of the widest way not on the walkway itself, as that is narrower still?
pub(super) fn leads_round(way: &Walkway, spot: Option<&TightSpot>) -> bool {
    let Some(at) = spot.map(middle) else {
        return false;
    };
    let legs = way.line.windows(2);
    let nearest = legs.map(|leg| {
        let leg = Segment::new(leg[0].into(), leg[1].into());
        leg.distance(at.into())
    });
    nearest.fold(f64::INFINITY, f64::min) > OFF_THE_WAY_M.max(way.clear_width_m.unwrap_or(0.0))
}

/// What of the stowage stands in a walkway and cannot be stepped over; with `low`, what can be.
fn in_its_way(ctx: &CheckContext<'_>, (numbers, low): (&WalkwayNumbers, bool)) -> Vec<Subject> {
    let stowed = numbers.intruders.iter().filter(|it| {
        let stays = matches!(
            it.kind,
            ThingSort::Cylinder | ThingSort::Gear | ThingSort::Rack
        );
        let high_m = it.from_to_m[1];
        let hinders = if low {
            high_m > LEVEL_CHANGE_BEVELLED_M && high_m <= KNEE_M
        } else {
            high_m > KNEE_M
        };
        stays && !it.of_boat && hinders && it.into_m > SAME_M
    });
    stowed.map(|it| subject(ctx, it.kind, &it.thing)).collect()
}

/// Where the widest way leads round: what of the stowage stands in the walkway itself.
pub(super) fn blockers(
    ctx: &CheckContext<'_>,
    (way, numbers): (&Walkway, &WalkwayNumbers),
    (spot, low): (Option<&TightSpot>, bool),
) -> Vec<Subject> {
    if leads_round(way, spot) {
        in_its_way(ctx, (numbers, low))
    } else {
        Vec::new()
    }
}

/// The same as a clause, ` by Crate and P6`; empty where nothing does.
pub(super) fn by(blockers: &[Subject]) -> String {
    let names: Vec<&str> = blockers.iter().map(|it| it.name.as_str()).collect();
    if names.is_empty() {
        String::new()
    } else {
        format!(" by {}", words::list(&names))
    }
}

/// The two things of a tight spot, as a clause: `between P6 and the edge of main deck`; where the widest way leads
/// round, that it does.
pub(super) fn between(ctx: &CheckContext<'_>, way: &Walkway, spot: Option<&TightSpot>) -> String {
    let Some(spot) = spot else {
        return String::new();
    };
    let between = between_what(ctx, spot);
    if leads_round(way, Some(spot)) {
        format!(" on the widest way, which leads round{between}")
    } else {
        between
    }
}

fn between_what(ctx: &CheckContext<'_>, spot: &TightSpot) -> String {
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
pub(super) fn shift(ctx: &CheckContext<'_>, way: &Walkway, spot: Option<&TightSpot>) -> String {
    let what = if leads_round(way, spot) {
        "opens the way round"
    } else {
        "opens it"
    };
    spot.and_then(|spot| spot.shift.as_ref())
        .map_or_else(String::new, |shift| {
            let name = ctx.name(kind_of(shift.kind), &shift.thing);
            format!("; moving {name} {} {what}", figures::shift(shift.by_m))
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
