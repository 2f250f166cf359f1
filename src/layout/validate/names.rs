//! Names of things, and names that refer to them.

use std::collections::{BTreeMap, BTreeSet};

use super::{Field, Report};
use crate::layout::nearest::nearest;

/// Checks that the names of a list's things are names, and that no two things share one.
pub(super) fn check_unique<'p>(
    ids: impl Iterator<Item = &'p str>,
    list: Field<'_>,
    what: &str,
    report: &mut Report,
) {
    let ids: Vec<&str> = ids.collect();
    // Lists are mostly in the order of their names, and then no two are the same.
    let is_rising = ids.is_sorted_by(|a, b| a < b);
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, id) in ids.into_iter().enumerate() {
        let field = format_args!("{list}[{i}].id");
        if id.trim().is_empty() {
            report.add(
                field,
                format!("the {what} has an empty name"),
                "give it the name that the crew use",
            );
        } else if id.trim() != id {
            report.add(
                field,
                format!("the name {id:?} begins or ends with a space"),
                format!("write {:?}", id.trim()),
            );
        } else if let Some(earlier) = first.get(id) {
            report.add(
                field,
                format!("another {what} is called {id:?} already ({list}[{earlier}])"),
                "give each a name of its own",
            );
        }
        if !is_rising {
            first.entry(id).or_insert(i);
        }
    }
}

/// The names that a reference may lead to.
#[derive(Clone, Debug)]
pub(super) struct Names<'p> {
    /// What they are the names of: `deck`.
    what: &'static str,
    known: BTreeSet<&'p str>,
}

impl<'p> Names<'p> {
    pub(super) fn new(what: &'static str, known: impl IntoIterator<Item = &'p str>) -> Self {
        Self {
            what,
            known: known.into_iter().collect(),
        }
    }

    pub(super) fn contains(&self, id: &str) -> bool {
        self.known.contains(id)
    }

    /// Checks that a name leads somewhere.
    pub(super) fn check(
        &self,
        id: &str,
        field: impl std::fmt::Display,
        report: &mut Report,
    ) -> bool {
        let found = self.contains(id);
        if !found {
            let (message, help) = self.missing(id, report);
            report.add(field, message, help);
        }
        found
    }

    /// What to say of a name that leads nowhere.
    fn missing(&self, id: &str, report: &Report) -> (String, String) {
        let Self { what, known } = self;
        let message = format!("there is no {what} called {id:?}");
        let candidates = known.iter().copied().filter(|_| report.takes_guesses());
        let help = if let Some(meant) = nearest(id, candidates) {
            format!("did you mean {meant:?}?")
        } else if known.is_empty() {
            format!("add the {what} first; there is none yet")
        } else {
            format!("the names are {}", listed(known))
        };
        (message, help)
    }
}

/// The first names of a set, as a list.
fn listed(names: &BTreeSet<&str>) -> String {
    const MOST: usize = 12;
    let mut shown: Vec<String> = names.iter().take(MOST).map(|n| format!("{n:?}")).collect();
    if names.len() > MOST {
        shown.push(format!("… ({} more)", names.len() - MOST));
    }
    shown.join(", ")
}
