//! What the rules about things that do not fit where they are have in common.

use std::collections::BTreeMap;

use super::walked::kind_of;
use crate::checks::{Check, CheckContext, Finding, Signal, Subject, words};
use crate::engine::numbers::{FitKind, FitNumbers, FitThing, ThingSort};

/// Overlaps and overhangs up to this are the tape's, in metres. Common practice, no source.
pub(super) const TAPE_M: f64 = 0.010;

/// What does not fit in one of these ways, in the order of the numbers.
pub(super) fn misfits<'a>(
    ctx: &CheckContext<'a>,
    kinds: &'static [FitKind],
) -> impl Iterator<Item = &'a FitNumbers> {
    ctx.numbers
        .fit
        .iter()
        .filter(|fit| kinds.contains(&fit.kind))
}

/// A thing as a subject.
pub(super) fn subject(ctx: &CheckContext<'_>, thing: &FitThing) -> Subject {
    ctx.subject(kind_of(thing.kind), &thing.id)
}

/// What is in the way of each thing, in one of these ways: the thing, and those that would be moved. What
/// belongs to the boat is not in its own way.
pub(super) fn in_the_way<'a>(
    ctx: &CheckContext<'a>,
    kinds: &'static [FitKind],
) -> BTreeMap<(&'a FitThing, &'a str), Vec<&'a FitNumbers>> {
    let mut all: BTreeMap<(&FitThing, &str), Vec<&FitNumbers>> = BTreeMap::new();
    for fit in misfits(ctx, kinds) {
        if !fit.of_boat && fit.things[0].kind != ThingSort::Fixture {
            let key = (&fit.things[1], fit.deck.as_str());
            all.entry(key).or_default().push(fit);
        }
    }
    all
}

/// The things that would be moved, each once, in the order of kind and name.
pub(super) fn movers(ctx: &CheckContext<'_>, fits: &[&FitNumbers]) -> Vec<Subject> {
    let mut subjects: Vec<Subject> = fits
        .iter()
        .map(|fit| subject(ctx, &fit.things[0]))
        .collect();
    subjects.sort();
    subjects.dedup();
    subjects
}

/// The names of subjects as a list.
pub(super) fn names(subjects: &[Subject]) -> String {
    let names: Vec<&String> = subjects.iter().map(|subject| &subject.name).collect();
    words::list_in_order(&names)
}

/// A finding about a thing and what is in its way.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (of, fits, movers): (Subject, &[&FitNumbers], Vec<Subject>),
    sentence: String,
) -> Finding {
    let mut about = vec![of];
    about.extend(movers);
    let finding = Finding::new(check, ctx, signal, about, sentence);
    match fits.first() {
        Some(fit) => finding.on(&fit.deck, fit.at),
        None => finding,
    }
}
