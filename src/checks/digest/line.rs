//! Findings with the same cause and the same cure as one line.

use std::borrow::Cow;
use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::shares::Shares;
use crate::checks::check::{Cure, Finding, Signal, Subject};
use crate::checks::cures::Clinic;
use crate::checks::{names, order_of};
use crate::layout::{Id, TakenOn, Trip};
use crate::units::Said;

/// One thing to put right: one finding, or several with the same cause and the same cure.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Line {
    /// The rule's code.
    pub code: &'static str,

    /// The rule's name.
    pub name: &'static str,

    /// The gravest signal word of its findings.
    pub signal: Signal,

    /// Why, in one plain sentence: of the gravest finding, in which part of the day its figures hold where they
    /// differ, and who shares it. Those who are told with it but stand so in other parts have these behind them.
    pub sentence: Said,

    /// The things to put right, each once, in the order in which people count.
    pub things: Vec<Subject>,

    /// How many things that is.
    pub count: usize,

    /// The parts of the day in which any of it stands, in the order of the day.
    pub parts: Vec<Id>,

    /// The parts in which what the sentence begins with stands so: what is said of it holds in these.
    pub lead_parts: Vec<Id>,

    /// Does the verdict wait for something that nobody knows?
    pub not_known: bool,

    /// The test by hand that would show it.
    pub hand_test: Option<Said>,

    /// Where the rule comes from.
    pub source: Cow<'static, str>,

    /// What was tried and found to help all of them; only after [`super::Digest::fill_cures`].
    pub cure: Option<Cure>,

    /// Who took it on, and why.
    pub taken_on: Option<TakenOn>,

    /// The places of its findings in the list of findings, the gravest first.
    #[serde(skip)]
    pub findings: Vec<usize>,
}

/// What makes findings one line.
type Key<'f> = (bool, &'f str, bool);

/// Folds findings into lines: the gravest first, ties by family, code and names; taken-on ones last.
pub(super) fn fold(
    trip: &Trip,
    findings: &[Finding],
    counts: impl Fn(&Finding) -> bool,
) -> Vec<Line> {
    let mut groups: BTreeMap<Key<'_>, Vec<usize>> = BTreeMap::new();
    let counted = findings.iter().enumerate();
    for (index, finding) in counted.filter(|(_, finding)| counts(finding)) {
        groups.entry(key(finding)).or_default().push(index);
    }
    let mut lines: Vec<Line> = groups
        .into_values()
        .filter_map(|members| line(trip, findings, members))
        .collect();
    lines.sort_by(|a, b| {
        let taken = a.taken_on.is_some().cmp(&b.taken_on.is_some());
        taken
            .then(b.signal.cmp(&a.signal))
            .then_with(|| order_of(a.code).cmp(&order_of(b.code)))
            .then_with(|| a.things.cmp(&b.things))
            .then_with(|| a.sentence.cmp(&b.sentence))
    });
    lines
}

fn key(finding: &Finding) -> Key<'_> {
    (
        finding.taken_on.is_some(),
        finding.fold.as_str(),
        finding.not_known,
    )
}

/// The signal words of the lines that are not taken on, without making the lines: for who only counts them, anew in
/// every frame of a drag.
pub(super) fn signals(
    findings: &[Finding],
    counts: impl Fn(&Finding) -> bool,
) -> impl Iterator<Item = Signal> {
    let counted = findings
        .iter()
        .filter(|finding| finding.taken_on.is_none() && counts(finding));
    let mut gravest: BTreeMap<Key<'_>, Signal> = BTreeMap::new();
    for finding in counted {
        let signal = gravest.entry(key(finding)).or_insert(finding.signal);
        *signal = finding.signal.max(*signal);
    }
    gravest.into_values()
}

fn line(trip: &Trip, findings: &[Finding], mut members: Vec<usize>) -> Option<Line> {
    let place = |part: &str| trip.part(part).map(|(index, _)| index);
    members.sort_by(|a, b| {
        let (a, b) = (&findings[*a], &findings[*b]);
        b.signal
            .cmp(&a.signal)
            .then_with(|| a.code.cmp(b.code))
            .then_with(|| urgency(b).total_cmp(&urgency(a)))
            .then_with(|| names::natural_order(a.first(), b.first()))
            .then_with(|| a.about.cmp(&b.about))
            .then_with(|| place(&a.part).cmp(&place(&b.part)))
    });
    let lead = &findings[*members.first()?];
    let parts = trip
        .parts
        .iter()
        .map(|part| &part.id)
        .filter(|part| members.iter().any(|index| findings[*index].part == **part));
    let parts: Vec<Id> = parts.cloned().collect();
    let shares = Shares::of(trip, findings, &members);
    let things: Vec<Subject> = shares.all.iter().map(|share| share.thing.clone()).collect();
    Some(Line {
        code: lead.code,
        name: lead.name,
        signal: lead.signal,
        sentence: shares.sentence(trip, findings, (&members, &parts)),
        count: things.len(),
        lead_parts: shares.lead().map_or_else(
            || parts.clone(),
            |share| {
                share
                    .places
                    .iter()
                    .map(|at| trip.parts[*at].id.clone())
                    .collect()
            },
        ),
        parts,
        not_known: lead.not_known,
        hand_test: lead.hand_test.clone(),
        source: lead.source.clone(),
        cure: None,
        taken_on: lead.taken_on.clone(),
        things,
        findings: members,
    })
}

/// How far over its limit a finding is, so that the worst leads.
pub(super) fn urgency(finding: &Finding) -> f64 {
    let Some(measure) = &finding.measure else {
        return 0.0;
    };
    if finding.not_known {
        // The part that needs most; of what may be so much at most, the part that allows least.
        return measure.value.unwrap_or(1.0 / measure.limit);
    }
    match measure.value {
        None => f64::INFINITY,
        // Of widths, distances and rolls the small one is the worse; of shares and forces the large one.
        Some(value) if value < measure.limit => 1.0 - value / measure.limit,
        Some(value) if measure.limit > 0.0 => value / measure.limit,
        Some(value) => value,
    }
}

impl Line {
    /// Tries cures for it.
    pub(super) fn fill_cure(&mut self, clinic: &mut Clinic<'_>, findings: &[Finding]) {
        self.cure = clinic.cure_together(&self.members(findings));
    }

    /// Everything that was found to help, best first: what helps all of it, then what helps its gravest
    /// finding alone.
    pub fn cures(&self, clinic: &mut Clinic<'_>, findings: &[Finding]) -> Vec<Cure> {
        let members = self.members(findings);
        let Some(first) = members.first() else {
            return Vec::new();
        };
        let mut cures = Vec::new();
        if members.len() > 1 {
            cures.extend(clinic.cure_together(&members));
        }
        cures.extend(clinic.cures(first));
        cures
    }

    /// The findings to be cured: thing by thing, the gravest first, each in the order of the day, as what is
    /// put right in one part stays so until something is changed.
    fn members<'f>(&self, findings: &'f [Finding]) -> Vec<&'f Finding> {
        let all = self
            .findings
            .iter()
            .filter_map(|index| findings.get(*index));
        let all: Vec<&Finding> = all.filter(|finding| finding.code == self.code).collect();
        let mut members: Vec<&Finding> = Vec::with_capacity(all.len());
        let about = |finding: &Finding| finding.about.first().cloned();
        for finding in &all {
            if members.iter().any(|member| about(member) == about(finding)) {
                continue;
            }
            let of_thing = all.iter().filter(|other| about(other) == about(finding));
            let place =
                |finding: &Finding| self.parts.iter().position(|part| *part == finding.part);
            let mut of_thing: Vec<&Finding> = of_thing.copied().collect();
            of_thing.sort_by_key(|finding| place(finding));
            members.extend(of_thing);
        }
        members
    }
}
