//! What is wrong with a plan that no single field shows: names given twice or leading nowhere,
//! outlines that enclose nothing, a slot used twice.
//!
//! This is about what the plan *says*, not about how the boat is stowed: what the checks can judge
//! is left to them. A thing that sticks out over the edge of a deck is for them; one that lies far
//! off every deck is a slip of the pen, and is refused here.

mod boat;
mod briefing;
pub(crate) mod contents;
mod day;
mod floor;
mod names;
pub(super) mod numbers;
mod placing;
mod rack;
mod sea;
mod trip;
mod underlay;

use super::Plan;

/// Something wrong in a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mistake {
    /// Which field, from the top of the file: `boat.decks[0].outline`.
    pub field: String,

    /// What is wrong.
    pub message: String,

    /// What to do.
    pub help: String,
}

/// Finds everything that is wrong with a plan, in the order of its sections.
///
/// Never panics and ends soon, whatever the plan holds: numbers may be out of any range.
pub fn validate(plan: &Plan) -> Vec<Mistake> {
    let mut report = Report::default();
    boat::check(&plan.boat, &mut report);
    let known = placing::BoatNames::of(&plan.boat);
    let ids = plan.trips.iter().map(|trip| trip.id.as_str());
    names::check_unique(ids, format_args!("trips"), "trip", &mut report);
    for (i, trip) in plan.trips.iter().enumerate() {
        trip::check(&known, trip, format_args!("trips[{i}]"), &mut report);
    }
    report.0
}

/// Where something is in the file: `boat.decks[0].outline`. It becomes text only where something is wrong.
type Field<'a> = std::fmt::Arguments<'a>;

/// The mistakes found so far.
#[derive(Debug, Default)]
struct Report(Vec<Mistake>);

/// Mistakes of one plan, at most: beyond that it is another kind of file, or a hostile one.
const MOST_MISTAKES: usize = 1000;

/// Mistakes for which the name that was meant is looked for, at most: each costs a comparison with
/// every known name.
const MOST_GUESSES: usize = 100;

impl Report {
    /// Is it still worth looking for the name that was meant?
    fn takes_guesses(&self) -> bool {
        self.0.len() < MOST_GUESSES
    }

    fn add(
        &mut self,
        field: impl std::fmt::Display,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        if self.0.len() >= MOST_MISTAKES {
            return;
        }
        self.0.push(Mistake {
            field: field.to_string(),
            message: message.into(),
            help: help.into(),
        });
    }
}

#[cfg(test)]
pub(crate) mod sample;
#[cfg(test)]
mod tests;
