//! Three to seven things to say on the quay, each tied to what it comes from.

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::digest::Line;
use crate::checks::{Digest, Signal, words};
use crate::layout::{Condition, DayState, Kit, Plan, Posture, Trip};

/// How many things people remember from a talk on the quay. Common practice, no source.
const MOST: usize = 7;

/// How many of them may be about what is still to put right.
const MOST_OPEN: usize = 3;

/// Something to say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TalkPoint {
    /// What to say.
    pub say: String,

    /// What it comes from: a code, or what in the plan.
    pub from: String,
}

pub(super) fn talk_points(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    digest: &Digest,
) -> Vec<TalkPoint> {
    let mut points = Vec::new();
    let mut say = |say: String, from: &str| {
        points.push(TalkPoint {
            say,
            from: from.to_owned(),
        });
    };
    say(
        "A cylinder that stands is hooked or held, always: nobody lets go of one before it is secured."
            .to_owned(),
        "U101",
    );
    for line in open_lines(digest) {
        say(line.sentence.to_string(), line.code);
    }
    if kits_up(trip, day) {
        say(
            "Nobody leaves a cylinder with kit on standing between kitting up and getting in: it is \
             top-heavy, and the one who wears it stays with it."
                .to_owned(),
            "kit on in this trip",
        );
    }
    let shared: Vec<&str> = shared_things(day);
    if !shared.is_empty() {
        say(
            format!(
                "Opened for one is open for all behind it: shut {} again at once.",
                words::list(&shared)
            ),
            "straps and cords that hold several",
        );
    }
    let ways: Vec<&str> = plan
        .boat
        .walkways
        .iter()
        .map(|way| way.name.as_deref().unwrap_or(&way.id))
        .collect();
    if !ways.is_empty() {
        say(
            format!("Keep clear, also of fins and bags: {}.", words::list(&ways)),
            "walkways",
        );
    }
    if trip
        .parts
        .iter()
        .any(|part| part.condition == Condition::Running)
    {
        say(
            "Push every cylinder by hand again after a quarter of an hour's running, after each dive and \
             before the night."
                .to_owned(),
            "common practice, no source",
        );
    }
    if !digest.parts.iter().all(|part| part.hangs_on.is_empty()) {
        let mut names: Vec<&str> = digest
            .parts
            .iter()
            .flat_map(|part| part.hangs_on.iter().map(String::as_str))
            .collect();
        names.sort_unstable();
        names.dedup();
        say(
            format!(
                "Nobody knows how strong these are, so do not trust them: {}.",
                words::list(&names)
            ),
            "not known",
        );
    }
    points.truncate(MOST);
    points
}

/// The gravest of what is still open; what was taken on has been talked about.
fn open_lines(digest: &Digest) -> impl Iterator<Item = &Line> {
    digest
        .lines
        .iter()
        .filter(|line| line.taken_on.is_none() && line.signal > Signal::Caution)
        .take(MOST_OPEN)
}

/// Does anybody kit up in this trip?
fn kits_up(trip: &Trip, day: &DayState) -> bool {
    let at_start = day
        .cylinders
        .iter()
        .any(|state| state.cylinder.kit == Kit::On);
    let seated = trip
        .people
        .iter()
        .any(|person| person.posture == Posture::SeatedKitted);
    let later = trip
        .parts
        .iter()
        .flat_map(|part| &part.changes.cylinders)
        .any(|change| change.kit == Some(Kit::On));
    at_start || seated || later
}

/// Lashings and fronts that hold several cylinders at once.
fn shared_things(day: &DayState) -> Vec<&str> {
    let lashings = day
        .lashings
        .iter()
        .map(|state| &state.lashing)
        .filter(|lashing| lashing.shut && lashing.round.len() > 1)
        .map(|lashing| lashing.name.as_deref().unwrap_or(&lashing.id));
    let fronts = day
        .fronts
        .iter()
        .map(|state| &state.front)
        .filter(|front| front.shut && front.slots.len() > 1 && !front.tied_between_slots)
        .map(|front| front.id.as_str());
    let mut names: Vec<&str> = lashings.chain(fronts).collect();
    names.sort_unstable();
    names.dedup();
    names
}
