//! What could have been otherwise: each difference undone, and the cures that the checks know.

use super::Moment;
use super::compare::{Comparison, DifferentThing, carry};
use crate::checks::cures::Clinic;
use crate::checks::{self, Signal};
use crate::engine::Assessor;
use crate::layout::{Edit, Id};

/// The most remedies that are tried for one account.
pub const MOST_REMEDIES: usize = 10;

/// The most of them that undo a difference, so that there is room for cures.
const MOST_UNDONE: usize = 7;

/// The most cures that raise the limit, one after the other, that are looked for.
const MOST_RAISING: usize = 3;

/// One thing that could have been otherwise.
#[derive(Clone, Debug)]
pub(super) struct Remedy {
    /// In the imperative, or as what was planned.
    pub(super) label: String,
    act: Act,
}

#[derive(Clone, Debug)]
enum Act {
    Undo(DifferentThing, Id),
    Edits(Vec<Edit>),
}

impl Remedy {
    /// Puts the remedy into a stowage; `None` where it cannot be.
    fn apply(&self, planned: &Moment, moment: &mut Moment) -> Option<()> {
        match &self.act {
            Act::Undo(thing, id) => carry(planned, moment, *thing, id),
            Act::Edits(edits) => {
                let plan = moment.plan.with(edits).ok()?;
                // A cure may write a change of the part; the moment has it at its start.
                *moment = Moment::of(&plan, None, None).ok()?;
                Some(())
            }
        }
    }

    /// What is undone comes before cures, which are made for things where they then stand.
    fn rank(&self) -> u8 {
        match self.act {
            Act::Undo(..) => 0,
            Act::Edits(_) => 1,
        }
    }
}

/// The stowage with several remedies; `None` where they exclude each other.
pub(super) fn with_all(planned: &Moment, moment: &Moment, remedies: &[&Remedy]) -> Option<Moment> {
    let mut after = moment.clone();
    let mut remedies = remedies.to_vec();
    remedies.sort_by_key(|remedy| remedy.rank());
    for remedy in remedies {
        remedy.apply(planned, &mut after)?;
    }
    Some(after)
}

/// Everything that is worth trying for these cylinders: differences that touch their limits undone, then
/// cures of what the checks find about them.
///
/// What changes nothing by itself, or comes to the same as another, is left out. Tells how many more there
/// would be.
pub(super) fn pool(
    planned: &Moment,
    moment: &Moment,
    comparison: &Comparison,
    cylinders: &[Id],
) -> (Vec<Remedy>, usize) {
    let mut candidates = undone(comparison, cylinders);
    let mut left_out = 0;
    let cures = cures(moment, cylinders).into_iter();
    candidates.extend(cures.map(|(label, edits)| Remedy {
        label,
        act: Act::Edits(edits),
    }));
    let mut pool: Vec<Remedy> = Vec::new();
    let mut known = vec![moment.clone()];
    for remedy in candidates {
        let Some(after) = with_all(planned, moment, &[&remedy]) else {
            continue;
        };
        if known.contains(&after) {
            continue;
        }
        known.push(after);
        let most = match remedy.act {
            Act::Undo(..) => MOST_UNDONE,
            Act::Edits(_) => MOST_REMEDIES,
        };
        if pool.len() < most {
            pool.push(remedy);
        } else {
            left_out += 1;
        }
    }
    (pool, left_out)
}

fn undone(comparison: &Comparison, cylinders: &[Id]) -> Vec<Remedy> {
    let mut pool: Vec<Remedy> = Vec::new();
    for difference in &comparison.differences {
        let mut touched = difference
            .limits
            .iter()
            .map(|change| &change.cylinder)
            .chain(difference.undone.iter().map(|change| &change.cylinder));
        let counts = cylinders.contains(&difference.about)
            || touched.any(|cylinder| cylinders.contains(cylinder));
        let label = format!("{} as planned", difference.about);
        let is_new = pool.iter().all(|old| old.label != label);
        if counts && is_new && difference.thing != DifferentThing::Walkway {
            pool.push(Remedy {
                label,
                act: Act::Undo(difference.thing, difference.about.clone()),
            });
        }
    }
    pool
}

/// What the checks would try, tried, for findings about these cylinders: label and edits.
fn cures(moment: &Moment, cylinders: &[Id]) -> Vec<(String, Vec<Edit>)> {
    let Some(trip) = moment.trip() else {
        return Vec::new();
    };
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, &moment.plan, trip);
    let mut clinic = Clinic::new(&moment.plan, trip, &findings);
    let mut found = Vec::new();
    let about = |finding: &&checks::Finding| {
        let is_held = !finding.code.starts_with('F');
        let mut subjects = finding.about.iter();
        is_held
            && finding.signal >= Signal::Warning
            && subjects.any(|subject| cylinders.contains(&subject.id))
    };
    for finding in findings.iter().filter(about).take(MOST_REMEDIES) {
        let cures = clinic.cures(finding).into_iter();
        found.extend(cures.map(|cure| (cure.label.to_string(), cure.edits)));
    }
    if let Some(part) = trip.parts.first() {
        let raising = clinic.raising_most(&part.id, MOST_RAISING).cures;
        let raising = raising.into_iter();
        found.extend(raising.map(|best| (best.cure.label.to_string(), best.cure.edits)));
    }
    found
}
