//! What each thing of a line has of it: in which parts of the day, and whether what is said of the first holds of it
//! word for word.

use std::collections::BTreeMap;

use super::line::urgency;
use super::when::{name, when};
use crate::checks::check::{Finding, Subject};
use crate::checks::names;
use crate::layout::{Id, Trip};
use crate::units::Said;

/// A thing with the parts of the day in which it stands so.
pub(super) struct Share<'f> {
    /// The thing.
    pub(super) thing: &'f Subject,

    /// The places of the parts in the day, each once.
    pub(super) places: Vec<usize>,

    /// Is the same said of it in all of them as of the gravest finding, but for its name?
    alike: bool,
}

/// The things of a line, each once, in the order in which people count.
pub(super) struct Shares<'f> {
    pub(super) all: Vec<Share<'f>>,
    lead: Option<usize>,
}

impl<'f> Shares<'f> {
    /// Of the findings of one line, the gravest first: those that have the rule of that one.
    pub(super) fn of(trip: &Trip, findings: &'f [Finding], members: &[usize]) -> Self {
        let Some(lead) = members.first().map(|index| &findings[*index]) else {
            return Self {
                all: Vec::new(),
                lead: None,
            };
        };
        let of_rule = members.iter().map(|index| &findings[*index]);
        let of_rule = of_rule.filter(|finding| finding.code == lead.code);
        let mut told: Vec<(&Subject, usize, &Finding)> = of_rule
            .filter_map(|finding| {
                let (place, _) = trip.part(&finding.part)?;
                Some((finding.about.first()?, place, finding))
            })
            .collect();
        told.sort_by(|a, b| {
            let order = a.0.kind.cmp(&b.0.kind);
            order
                .then_with(|| names::natural_order(&a.0.id, &b.0.id))
                .then_with(|| a.1.cmp(&b.1))
        });
        let mut all: Vec<Share<'_>> = Vec::new();
        for (thing, place, finding) in told {
            let is_new = all.last().is_none_or(|share| share.thing != thing);
            if is_new {
                all.push(Share {
                    thing,
                    places: Vec::new(),
                    alike: true,
                });
            }
            if let Some(share) = all.last_mut() {
                share.alike = share.alike && says_the_same(lead, finding);
                if share.places.last() != Some(&place) {
                    share.places.push(place);
                }
            }
        }
        let first = lead.about.first();
        let lead = all.iter().position(|share| Some(share.thing) == first);
        Self { all, lead }
    }

    /// The thing that the gravest finding is about.
    pub(super) fn lead(&self) -> Option<&Share<'f>> {
        self.all.get(self.lead?)
    }

    /// The sentence of the gravest finding with what makes it true of all: the part of the day whose figures it has,
    /// and who shares it, with the parts of the day in which they do where these are others.
    ///
    /// A part of the day in which only another rule of the same cause and cure speaks has the sentence of that one.
    pub(super) fn sentence(
        &self,
        trip: &Trip,
        findings: &[Finding],
        (members, parts): (&[usize], &[Id]),
    ) -> Said {
        let Some(gravest) = members.first().map(|index| &findings[*index]) else {
            return Said::default();
        };
        let said = gravest.sentence.clone();
        let Some(lead) = self.lead() else {
            return said;
        };
        let untold = self.untold(trip, parts);
        if self.all.len() == 1 && lead.alike && untold.is_empty() {
            return said;
        }
        let mut more = if lead.alike {
            String::new()
        } else {
            let part = trip.parts.iter().find(|part| part.id == gravest.part);
            let part = part.map_or(gravest.part.as_str(), name);
            let of_lead = members.iter().map(|index| &findings[*index]);
            let of_lead = of_lead.filter(|it| {
                it.code == gravest.code && it.part != gravest.part && it.first() == gravest.first()
            });
            format!("; {} {part}", worst_in(gravest, of_lead))
        };
        // Those who stand so in the same parts, and alike or not, are told together.
        let mut groups: BTreeMap<(usize, bool), Vec<&str>> = BTreeMap::new();
        let mut sets: Vec<&[usize]> = vec![&lead.places];
        for share in self.all.iter().filter(|share| share.thing != lead.thing) {
            let known = sets.iter().position(|places| *places == share.places);
            let set = known.unwrap_or_else(|| {
                sets.push(&share.places);
                sets.len() - 1
            });
            let key = (set, !share.alike);
            groups.entry(key).or_default().push(&share.thing.name);
        }
        for ((set, others), them) in groups {
            let how = if others {
                "likewise, with other figures,"
            } else {
                "likewise"
            };
            more = format!("{more}; {how} {}", names::list(&them));
            if set > 0 {
                let parts: Vec<Id> = sets[set]
                    .iter()
                    .map(|at| trip.parts[*at].id.clone())
                    .collect();
                more = format!("{more} ({})", when(trip, &parts));
            }
        }
        said.with(more)
            .with(others_rules(trip, findings, members, untold))
    }

    /// The parts of the day in which none of the things stands so.
    fn untold<'p>(&self, trip: &Trip, parts: &'p [Id]) -> Vec<&'p Id> {
        let is_told = |part: &&Id| {
            let place = trip.part(part).map(|(place, _)| place);
            let mut shares = self.all.iter();
            place.is_none_or(|place| shares.any(|share| share.places.contains(&place)))
        };
        parts.iter().filter(|part| !is_told(part)).collect()
    }
}

/// What is to be said of these parts of the day by the gravest finding in each.
fn others_rules(
    trip: &Trip,
    findings: &[Finding],
    members: &[usize],
    mut untold: Vec<&Id>,
) -> Said {
    let mut said = Said::default();
    let of = || members.iter().map(|index| &findings[*index]);
    while let Some(gravest) = of().find(|finding| untold.contains(&&finding.part)) {
        let same = of().filter(|it| it.code == gravest.code && it.sentence == gravest.sentence);
        let parts: Vec<Id> = same
            .map(|it| it.part.clone())
            .filter(|part| untold.contains(&part))
            .collect();
        untold.retain(|part| !parts.contains(part));
        let besides = format!("; besides ({}): ", when(trip, &parts));
        said = said.with(besides).with(gravest.sentence.clone());
    }
    said
}

/// How the part of the day is told whose figures the sentence has.
fn worst_in<'f>(gravest: &Finding, mut others: impl Iterator<Item = &'f Finding>) -> &'static str {
    let needed = |finding: &Finding| finding.measure.as_ref().map(|measure| measure.limit);
    if gravest.not_known {
        let least = others.any(|other| needed(other) != needed(gravest));
        return if least { "most in" } else { "so in" };
    }
    let is_less = |other: &Finding| {
        let urgency = urgency(gravest).total_cmp(&urgency(other));
        gravest.signal.cmp(&other.signal).then(urgency).is_gt()
    };
    if others.all(is_less) {
        "worst in"
    } else {
        "so in"
    }
}

/// Is the same said of the first thing of one as of that of the other?
fn says_the_same(one: &Finding, other: &Finding) -> bool {
    if one.sentence == other.sentence {
        return true;
    }
    let (Some(a), Some(b)) = (one.about.first(), other.about.first()) else {
        return false;
    };
    if a.name == b.name || a.name.is_empty() || b.name.is_empty() {
        return false;
    }
    let (a, b) = (
        one.sentence.split(a.name.as_str()),
        other.sentence.split(b.name.as_str()),
    );
    a.eq(b)
}
