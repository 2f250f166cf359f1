//! What the rules about falling cylinders have in common.

use crate::checks::security;
use crate::checks::{Check, CheckContext, Finding, Signal, Subject, words};
use crate::engine::numbers::{CylinderNumbers, FallNumbers, Struck, StruckKind, Way};
use crate::layout::{Id, ThingKind};

/// Every cylinder that goes over within this part's motion, or stands unsecured, with what it would reach.
/// What is well secured is not imagined falling, so that a well-stowed boat shows nothing here.
pub(super) fn falls<'a>(
    ctx: &CheckContext<'a>,
) -> impl Iterator<Item = (&'a FallNumbers, &'a CylinderNumbers)> {
    let ctx = *ctx;
    ctx.numbers.falls.iter().filter_map(move |fall| {
        let cylinder = ctx.cylinder(&fall.cylinder)?;
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
        (goes_over || security::is_unsecured(&ctx, cylinder)).then_some((fall, cylinder))
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

/// What of the struck is of these kinds, in the order of kind and name.
pub(super) fn struck(ctx: &CheckContext<'_>, all: &[Struck], kinds: &[StruckKind]) -> Vec<Subject> {
    let of_kind = all.iter().filter(|item| kinds.contains(&item.kind));
    let mut found: Vec<Subject> = of_kind
        .map(|item| ctx.subject(kind_of(item.kind), &item.thing))
        .collect();
    found.sort();
    found.dedup();
    found
}

/// The names of subjects as a list.
pub(super) fn names(subjects: &[Subject]) -> String {
    let names: Vec<&String> = subjects.iter().map(|subject| &subject.name).collect();
    words::list(&names)
}

/// A finding about a fall: the cylinder first, then what it strikes.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (fall, struck): (&FallNumbers, Vec<Subject>),
    sentence: String,
) -> Finding {
    let mut about = vec![ctx.subject(ThingKind::Cylinder, &fall.cylinder)];
    about.extend(struck);
    let deck = ctx
        .cylinder(&fall.cylinder)
        .map_or("", |cylinder| &cylinder.deck);
    // The cure is to secure it, and that is told once for all.
    Finding::new(check, ctx, signal, about, sentence)
        .on(deck, fall.at)
        .measured("energy when it is down", fall.energy_j, 0.0, "J")
        .fold_as(fold(check, &fall.cylinder))
}

fn fold(check: &Check, cylinder: &Id) -> String {
    format!("{}/{cylinder}", check.code)
}

/// Where and how hard it comes down, as a clause.
pub(super) fn how_hard(fall: &FallNumbers) -> String {
    format!(
        "it reaches {} {} with {:.0} J",
        words::metres(fall.reach_m),
        words::towards(fall.towards_deg),
        fall.energy_j
    )
}
