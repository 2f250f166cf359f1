//! What the rules about falling cylinders have in common.

use std::collections::BTreeMap;

use crate::checks::security;
use crate::checks::{Check, CheckContext, Finding, Signal, Subject, figures, words};
use crate::engine::numbers::{CylinderNumbers, FallNumbers, Struck, StruckKind, Way};
use crate::layout::{Id, ThingKind};

/// What one cylinder would reach, for each direction in which it goes.
pub(super) type Fall<'a> = Vec<&'a FallNumbers>;

/// Every cylinder that goes over within this part's motion, or stands unsecured, with what it would reach.
/// What is well secured is not imagined falling, so that a well-stowed boat shows nothing here.
pub(super) fn falls<'a>(
    ctx: &CheckContext<'a>,
) -> impl Iterator<Item = (Fall<'a>, &'a CylinderNumbers)> {
    let ctx = *ctx;
    let mut all: BTreeMap<&Id, Fall<'_>> = BTreeMap::new();
    for fall in &ctx.numbers.falls {
        all.entry(&fall.cylinder).or_default().push(fall);
    }
    all.into_iter().filter_map(move |(id, falls)| {
        let cylinder = ctx.cylinder(id)?;
        let over = |way: Way| {
            matches!(
                way,
                Way::Tips | Way::FootKicksOut | Way::RackGives | Way::LashingGives
            )
        };
        let goes_over = cylinder
            .utilisations
            .iter()
            .any(|item| item.goes && over(item.way));
        (goes_over || security::is_unsecured(&ctx, cylinder)).then_some((falls, cylinder))
    })
}

/// DANGER where it goes within the motion, WARNING where it only stands unsecured.
pub(super) fn signal(cylinder: &CylinderNumbers, worst: Signal) -> Signal {
    if security::goes(cylinder) {
        worst
    } else {
        worst.min(Signal::Warning)
    }
}

/// The kind of thing in the plan that something struck is.
fn kind_of(kind: StruckKind) -> ThingKind {
    match kind {
        StruckKind::Person => ThingKind::Person,
        StruckKind::Place => ThingKind::Place,
        StruckKind::Walkway => ThingKind::Walkway,
        StruckKind::Gear => ThingKind::Gear,
        StruckKind::Glass | StruckKind::Fixture => ThingKind::Fixture,
        StruckKind::Cylinder => ThingKind::Cylinder,
    }
}

/// What is struck of these kinds, whichever way it falls, in the order of kind and name.
pub(super) fn struck(
    ctx: &CheckContext<'_>,
    fall: &[&FallNumbers],
    kinds: &[StruckKind],
) -> Vec<Subject> {
    reached(ctx, fall, |item| {
        !item.afterwards && kinds.contains(&item.kind)
    })
}

/// Who is reached only afterwards, when the fallen cylinder rolls to the low side.
pub(super) fn rolled_onto(ctx: &CheckContext<'_>, fall: &[&FallNumbers]) -> Vec<Subject> {
    let at_once = struck(ctx, fall, &[StruckKind::Person]);
    let mut found = reached(ctx, fall, |item| {
        item.afterwards && item.kind == StruckKind::Person
    });
    found.retain(|who| !at_once.contains(who));
    found
}

fn reached(
    ctx: &CheckContext<'_>,
    fall: &[&FallNumbers],
    wanted: impl Fn(&Struck) -> bool,
) -> Vec<Subject> {
    let all = fall.iter().flat_map(|fall| &fall.struck);
    let mut found: Vec<Subject> = all
        .filter(|item| wanted(item))
        .map(|item| ctx.subject(kind_of(item.kind), &item.thing))
        .collect();
    found.sort();
    found.dedup();
    found
}

/// The names of subjects as a list.
pub(super) fn names(subjects: &[Subject]) -> String {
    let names: Vec<&String> = subjects.iter().map(|subject| &subject.name).collect();
    words::list_in_order(&names)
}

/// A finding about a fall: the cylinder first, then what it strikes.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (cylinder, fall, struck): (&CylinderNumbers, &[&FallNumbers], Vec<Subject>),
    sentence: String,
) -> Finding {
    let mut about = vec![ctx.subject(ThingKind::Cylinder, &cylinder.cylinder)];
    about.extend(struck);
    Finding::new(check, ctx, signal, about, sentence)
        .at_cylinder(cylinder)
        .measured("energy when it is down", energy_j(fall), 0.0, "J")
}

fn energy_j(fall: &[&FallNumbers]) -> f64 {
    fall.iter().map(|fall| fall.energy_j).fold(0.0, f64::max)
}

/// Where to, as a clause: `to port or to starboard`. Directions in the order of their names, so that no
/// side of the boat comes first by chance of numbers.
pub(super) fn whither(fall: &[&FallNumbers]) -> String {
    let mut ways: Vec<&str> = fall
        .iter()
        .map(|fall| words::towards(fall.towards_deg))
        .collect();
    ways.sort_unstable();
    ways.dedup();
    if ways.len() > 3 {
        return "in many directions".to_owned();
    }
    ways.join(" or ")
}

/// Where it comes down, as a clause. How hard is in the measure: joules are no unit on deck.
pub(super) fn how_far(fall: &[&FallNumbers]) -> String {
    let reach_m = fall.iter().map(|fall| fall.reach_m).fold(0.0, f64::max);
    format!("it reaches {} {}", figures::metres(reach_m), whither(fall))
}
