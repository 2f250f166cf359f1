//! Where on the plan what must be put right is marked: one mark per thing, with its gravest signal
//! word and how many lines there are.

use std::collections::BTreeMap;

use super::super::here::{Here, at};
use super::drawing::Looks;
use super::hit;
use crate::checks::{Finding, Signal};
use crate::geometry::Vec2;
use crate::layout::ThingRef;

/// A mark on the plan.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct FindingMark {
    /// The gravest signal word.
    pub(crate) signal: Signal,
    /// Where.
    pub(crate) at: Vec2,
    /// The findings marked, by their place in the list, the gravest first.
    pub(crate) findings: Vec<usize>,
    /// Is one of them chosen?
    pub(crate) chosen: bool,
}

/// Marks nearer than this to each other, in metres, are one.
const SAME_PLACE_M: f64 = 0.02;

/// All marks of the deck shown, the gravest last, so that they lie on top.
pub(super) fn of(here: &Here<'_>, looks: &Looks<'_>) -> Vec<FindingMark> {
    let mut marks: Vec<FindingMark> = Vec::new();
    let mut of_thing: BTreeMap<ThingRef, usize> = BTreeMap::new();
    for (index, finding) in looks.findings {
        let Some((what, place)) = place_of(here, finding) else {
            continue;
        };
        let chosen = looks.chosen == Some(*index);
        let near = marks
            .iter()
            .position(|mark| mark.at.distance(place) < SAME_PLACE_M);
        let own = what.as_ref().and_then(|what| of_thing.get(what).copied());
        let same = near.into_iter().chain(own).min();
        if let Some(mark) = same.and_then(|number| marks.get_mut(number)) {
            mark.signal = mark.signal.max(finding.signal);
            mark.findings.push(*index);
            mark.chosen |= chosen;
            continue;
        }
        if let Some(what) = what {
            of_thing.entry(what).or_insert(marks.len());
        }
        marks.push(FindingMark {
            signal: finding.signal,
            at: place,
            findings: vec![*index],
            chosen,
        });
    }
    marks.sort_by_key(|mark| (mark.chosen, mark.signal));
    marks
}

/// Where a finding is on the deck shown, and the thing to put right.
fn place_of(here: &Here<'_>, finding: &Finding) -> Option<(Option<ThingRef>, Vec2)> {
    let subject = finding.about.first().map(|subject| ThingRef {
        kind: subject.kind,
        id: subject.id.clone(),
    });
    let deck = finding
        .deck
        .clone()
        .or_else(|| hit::deck_of(here, subject.as_ref()?));
    if deck.as_deref().is_some_and(|deck| deck != here.deck) {
        return None;
    }
    if let Some(point) = finding.at {
        return Some((subject, at(point)));
    }
    let bounds = hit::bounds(here, subject.as_ref()?)?;
    Some((subject, bounds.center()))
}

/// Where to look for a finding: what it is about, or its place.
pub(crate) fn bounds(here: &Here<'_>, finding: &Finding) -> Option<crate::geometry::Bounds> {
    use crate::geometry::Bounds;
    let mut all = Bounds::EMPTY;
    if let Some(point) = finding.at {
        all = all.union(&Bounds::of([at(point)]).grown(0.5));
    }
    for subject in &finding.about {
        let what = ThingRef {
            kind: subject.kind,
            id: subject.id.clone(),
        };
        if let Some(bounds) = hit::bounds(here, &what) {
            all = all.union(&bounds);
        }
    }
    all.center().is_finite().then_some(all)
}
