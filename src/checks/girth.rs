//! A lashing that was shut round several goes slack by the girth of one that leaves: how slack it is then, and what
//! that lets the others do.

use super::check::CheckContext;
use super::left_standing::in_moment;
use super::{figures, security, words};
use crate::engine::numbers::{CylinderNumbers, LashingHold};
use crate::layout::{DayState, Id, Known, Lashing, Part, Plan, Trip};

/// Less than this is no slack that anybody could feel, in metres.
pub(super) const LEAST_M: f64 = 0.001;

/// Less than this is no pull to speak of, in newtons.
const LEAST_PULL_N: f64 = 5.0;

/// What a lashing still does after somebody left it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LeftSlack {
    /// How slack it is, in metres: what the girth that left has left over, and what it was slack by before.
    pub(super) slack_m: f64,

    /// For each that it is still round, in the order of their names: when it would bite.
    bites: Vec<(Id, Bite)>,
}

/// When a slack lashing bites, and how hard.
#[derive(Copy, Clone, Debug, PartialEq)]
struct Bite {
    /// How far the cylinder leans by then, in degrees; `None` where no lean of it tightens the lashing.
    lean_deg: Option<f64>,

    /// The steady lean at which the cylinder tips, in degrees.
    tips_at_deg: Option<f64>,

    /// The pull of the snatch and what counts of the lashing, in newtons, where both are known.
    pull_n: Option<[f64; 2]>,
}

/// How slack a lashing is now that some of those it was shut round have left it, and what it would still do;
/// `None` where nobody left it, or where it was never shut round all of them on this day.
pub(super) fn left_slack(ctx: &CheckContext<'_>, lashing: &Lashing) -> Option<LeftSlack> {
    let gone = security::left(ctx, lashing);
    if gone.is_empty() || !lashing.shut {
        return None;
    }
    let before = last_round_all(ctx, lashing)?;
    let girth_m = girth_m(ctx.plan, ctx.trip, ctx.part, &before, &lashing.id, &gone)?;
    let slack_m = girth_m + lashing.slack_m.and_then(Known::value).unwrap_or(0.0);
    let still: Vec<&Id> = (lashing.round.iter())
        .filter(|id| !gone.contains(id))
        .collect();
    let moment = of_group(
        &ctx.trip.of_moment(ctx.part, ctx.day),
        lashing,
        &still,
        Some(slack_m),
    );
    let of = |cylinder: &CylinderNumbers| {
        let hold = cylinder
            .lashings
            .iter()
            .find(|hold| hold.lashing == lashing.id)?;
        Some((cylinder.cylinder.clone(), bite(cylinder, hold)))
    };
    in_moment(ctx.plan, &moment, |ctx| LeftSlack {
        slack_m,
        bites: ctx.numbers.cylinders.iter().filter_map(of).collect(),
    })
}

fn bite(cylinder: &CylinderNumbers, hold: &LashingHold) -> Bite {
    Bite {
        lean_deg: hold.lean_deg,
        tips_at_deg: cylinder.static_tip_angle_deg,
        pull_n: (hold.snatch_n.zip(hold.capacity_n)).map(|(pull, counts)| [pull, counts]),
    }
}

impl LeftSlack {
    /// By how much it went slack, to follow `went slack`; nothing where that is not to be felt.
    pub(super) fn by(&self) -> String {
        if self.slack_m < LEAST_M {
            String::new()
        } else {
            format!(" by {}", figures::metres(self.slack_m))
        }
    }

    /// When it would bite for one of those it is still round, as a clause that follows a comma.
    pub(super) fn bites(&self, cylinder: &str) -> Option<String> {
        let (id, bite) = self.bites.iter().find(|(id, _)| id == cylinder)?;
        (self.slack_m >= LEAST_M).then(|| bite.words(id))
    }
}

impl Bite {
    fn words(&self, id: &str) -> String {
        let Some(lean) = self.lean_deg else {
            return format!("and no lean of {id} tightens it again");
        };
        let leans = words::degrees(lean);
        match (self.tips_at_deg, self.pull_n) {
            (Some(tips_at), _) if lean >= tips_at => format!(
                "and bites again only when {id} leans {leans}, when it has tipped from {} on",
                words::degrees(tips_at)
            ),
            (_, Some([pull, _])) if pull < LEAST_PULL_N => {
                format!("and bites again when {id} leans {leans}, with next to no pull")
            }
            (_, Some([pull, counts])) => format!(
                "and bites again when {id} leans {leans}, with {}, of which {} counts",
                figures::pull(pull),
                figures::weight(counts)
            ),
            _ => format!("and bites again when {id} leans {leans}"),
        }
    }
}

/// The girth that somebody takes along who leaves a lashing: how much longer it is round all than round the others,
/// as they stand on this day, in metres; where it may pass on either side, the most.
pub(super) fn girth_m(
    plan: &Plan,
    trip: &Trip,
    part: &Part,
    day: &DayState,
    lashing: &str,
    gone: &[Id],
) -> Option<f64> {
    let mut lashings = day.lashings.iter().map(|state| &state.lashing);
    let lashing = lashings.find(|item| item.id == lashing)?;
    let moment = trip.of_moment(part, day);
    let length_m = |round: &[&Id]| {
        let moment = of_group(&moment, lashing, round, None);
        let length_m = in_moment(plan, &moment, |ctx| {
            let mut lashings = ctx.numbers.lashings.iter();
            lashings.find(|item| item.lashing == lashing.id)?.length_m
        });
        length_m.flatten()
    };
    let all: Vec<&Id> = lashing.round.iter().collect();
    let others: Vec<&Id> = (lashing.round.iter())
        .filter(|id| !gone.contains(id))
        .collect();
    let ([_, longest_m], [shortest_m, _]) = (length_m(&all)?, length_m(&others)?);
    Some((longest_m - shortest_m).max(0.0))
}

/// The trip with nothing aboard but some of those that a lashing goes round, and the lashing round them.
fn of_group(moment: &Trip, lashing: &Lashing, round: &[&Id], slack_m: Option<f64>) -> Trip {
    let mut trip = moment.clone();
    trip.cylinders
        .retain(|cylinder| round.contains(&&cylinder.id));
    let mut alone = Lashing {
        round: round.iter().map(|id| (*id).clone()).collect(),
        shut: true,
        ..lashing.clone()
    };
    if let Some(slack_m) = slack_m {
        alone.slack_m = Some(Known::Value(slack_m));
        alone.pretension_kn = None;
    }
    trip.lashings = vec![alone];
    trip
}

/// The last time before this part at which all that a lashing goes round were in place and it was shut.
fn last_round_all(ctx: &CheckContext<'_>, lashing: &Lashing) -> Option<DayState> {
    let there = |day: &DayState| {
        let mut then = day.lashings.iter().map(|state| &state.lashing);
        then.any(|then| then.id == lashing.id && then.shut && then.round == lashing.round)
            && lashing.round.iter().all(|id| {
                day.cylinder(id)
                    .is_some_and(|cylinder| cylinder.placing.can_be_lashed())
            })
    };
    let before = ctx.days.iter().take(ctx.part_index).rev();
    let last = before.into_iter().find(|day| there(day)).cloned();
    last.or_else(|| Some(DayState::at_start(&ctx.plan.boat.racks, ctx.trip)).filter(there))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pull_of_nothing_is_not_told_as_a_number() {
        let bite = |pull_n: f64| Bite {
            lean_deg: Some(5.8),
            tips_at_deg: Some(20.0),
            pull_n: Some([pull_n, 2670.0]),
        };
        let words = bite(0.0).words("S9");
        assert_eq!(
            words,
            "and bites again when S9 leans 5.8°, with next to no pull"
        );
        assert!(bite(100.0).words("S9").ends_with(" counts"));
    }
}
