//! Putting a finding together.

use super::check::{Check, CheckContext, Finding, Measure, Signal, Subject};
use crate::engine::numbers::{CylinderNumbers, Governing, Need, Sum, Utilisation};
use crate::layout::{Cylinder, Front, Id, Point, ThingKind};
use crate::units::Said;

impl Finding {
    /// A finding of this check in this part of the day, about these things; the first is the one to put
    /// right.
    pub(super) fn new(
        check: &'static Check,
        ctx: &CheckContext<'_>,
        signal: Signal,
        about: Vec<Subject>,
        sentence: impl Into<Said>,
    ) -> Self {
        let fold = about
            .first()
            .map_or_else(String::new, |first| format!("{}/{}", check.code, first.id));
        Self {
            code: check.code,
            name: check.name,
            signal,
            about,
            deck: None,
            at: None,
            part: ctx.part.id.clone(),
            case: None,
            measure: None,
            sentence: sentence.into(),
            not_known: false,
            hand_test: None,
            source: check.source(),
            sum: Sum::default(),
            cures: Vec::new(),
            fold,
            taken_on: None,
        }
    }

    /// Where it is.
    #[must_use]
    pub(super) fn on(mut self, deck: &str, at: Point) -> Self {
        self.deck = Some(deck.to_owned());
        self.at = Some(at);
        self
    }

    /// Where the cylinder is.
    #[must_use]
    pub(super) fn at_cylinder(self, cylinder: &CylinderNumbers) -> Self {
        self.on(&cylinder.deck, cylinder.at)
    }

    /// The number and its limit.
    #[must_use]
    pub(super) fn measured(
        mut self,
        what: &'static str,
        value: impl Into<Option<f64>>,
        limit: f64,
        unit: &'static str,
    ) -> Self {
        self.measure = Some(Measure {
            what,
            value: value.into().filter(|value| value.is_finite()),
            limit,
            unit,
        });
        self
    }

    /// The load case and the sum of what governs it.
    #[must_use]
    pub(super) fn governed_by(mut self, utilisation: &Utilisation) -> Self {
        self.case = utilisation.governing.as_ref().map(Governing::case_in_words);
        self.sum = utilisation.sum.clone();
        self
    }

    /// The key of those with the same cause and the same cure.
    #[must_use]
    pub(super) fn fold_as(mut self, key: String) -> Self {
        self.fold = key;
        self
    }

    /// It waits for something that nobody knows.
    #[must_use]
    pub(super) fn unknown(mut self, hand_test: impl Into<Said>) -> Self {
        self.not_known = true;
        self.hand_test = Some(hand_test.into());
        self
    }

    /// The first thing it is about.
    pub(super) fn first(&self) -> &str {
        self.about.first().map_or("", |subject| &subject.id)
    }
}

impl<'a> CheckContext<'a> {
    /// The numbers of a cylinder on deck.
    pub(super) fn cylinder(&self, id: &str) -> Option<&'a CylinderNumbers> {
        self.index.numbers(id)
    }

    /// The cylinder as it is in this part.
    pub(super) fn state(&self, id: &str) -> Option<&'a Cylinder> {
        self.index.state(id)
    }

    /// What is not known of a thing, and how good it would have to be.
    pub(super) fn needs(&self) -> impl Iterator<Item = (&'a CylinderNumbers, &'a Need)> + use<'a> {
        self.numbers
            .cylinders
            .iter()
            .flat_map(|cylinder| cylinder.needs.iter().map(move |need| (cylinder, need)))
    }

    /// Is the boat doing anything but lying made fast?
    pub(super) fn under_way(&self) -> bool {
        self.part.condition != crate::layout::Condition::MadeFast
    }

    /// A thing by its kind and name, with what the crew call it.
    pub(super) fn subject(&self, kind: ThingKind, id: &str) -> Subject {
        Subject {
            kind,
            id: id.to_owned(),
            name: self.name(kind, id),
        }
    }

    /// Several things of one kind.
    pub(super) fn subjects(&self, kind: ThingKind, ids: &[Id]) -> Vec<Subject> {
        ids.iter().map(|id| self.subject(kind, id)).collect()
    }

    /// What the crew call a thing.
    pub(super) fn name(&self, kind: ThingKind, id: &str) -> String {
        let boat = &self.plan.boat;
        let given = match kind {
            ThingKind::Deck => boat.deck(id).and_then(|thing| thing.name.clone()),
            ThingKind::Fixture => boat.fixture(id).and_then(|thing| thing.name.clone()),
            ThingKind::Place => boat.place(id).and_then(|thing| thing.name.clone()),
            ThingKind::Walkway => boat.walkway(id).and_then(|thing| thing.name.clone()),
            ThingKind::Rack => boat.rack(id).and_then(|thing| thing.name.clone()),
            ThingKind::LashingPoint => boat.lashing_point(id).and_then(|thing| thing.name.clone()),
            ThingKind::Lashing => self.trip.lashing(id).and_then(|thing| thing.name.clone()),
            ThingKind::Gear => {
                let gear = self.trip.gear.iter().find(|gear| gear.id == id);
                gear.and_then(|gear| gear.name.clone())
            }
            ThingKind::Part => self.trip.part(id).and_then(|(_, part)| part.name.clone()),
            ThingKind::Cylinder | ThingKind::Person | ThingKind::GearAboard => None,
        };
        given.unwrap_or_else(|| id.to_owned())
    }

    /// What the crew call a front of a rack.
    pub(super) fn front(&self, rack: &str, front: &str) -> String {
        let of_rack = self.plan.boat.rack(rack).map(|rack| rack.fronts.as_slice());
        let mut fronts = of_rack.unwrap_or_default().iter();
        let found = fronts.find(|item| item.id == front);
        found.map_or_else(|| front.to_owned(), Front::called)
    }

    /// The names of several things of one kind, as a list.
    pub(super) fn names(&self, kind: ThingKind, ids: &[Id]) -> String {
        let names: Vec<String> = ids.iter().map(|id| self.name(kind, id)).collect();
        super::words::list(&names)
    }
}

/// How a utilisation is graded; `None` while it holds with enough to spare. The value is infinite where
/// nothing holds.
pub(super) fn graded(utilisation: &Utilisation, warning_from: f64) -> Option<(Signal, f64)> {
    if utilisation.goes {
        return Some((Signal::Danger, utilisation.value.unwrap_or(f64::INFINITY)));
    }
    let value = utilisation.value?;
    grade(value, warning_from).map(|signal| (signal, value))
}

/// How a share of a strength that is used up is graded; `None` while there is enough to spare.
pub(super) fn grade(share: f64, warning_from: f64) -> Option<Signal> {
    if share >= 1.0 {
        Some(Signal::Danger)
    } else if share >= warning_from {
        Some(Signal::Warning)
    } else {
        None
    }
}
