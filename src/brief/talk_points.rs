//! Three to seven things to say on the quay, each tied to what it comes from.

use schemars::JsonSchema;
use serde::Serialize;

use super::LoadingOrder;
use super::securing::every;
use crate::checks::digest::{Line, NotKnown, when};
use crate::checks::{Digest, Signal, natural_order, words};
use crate::layout::{Condition, DayState, Id, Kit, Plan, Posture, ThingKind, ThingRef, Trip};

/// What a talk point that names all walkways comes from.
pub const WALKWAYS: &str = "walkways";

/// What the talk point about pushing again comes from.
pub const PUSH_AGAIN: &str = "common practice, no source";

/// How many things people remember from a talk on the quay. Common practice, no source.
const MOST: usize = 7;

/// Fewer are no talk.
const FEWEST: usize = 3;

/// How many of them may be about what is still to put right.
const MOST_OPEN: usize = 3;

/// Something to say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TalkPoint {
    /// What to say.
    pub say: String,

    /// What it comes from: a code, or what in the plan.
    pub from: String,

    /// The finding that it is about, by its place in the list of all; `None` where it is about no finding.
    #[serde(skip)]
    pub finding: Option<usize>,

    /// What in the plan it is about.
    #[serde(skip)]
    pub things: Vec<ThingRef>,
}

impl TalkPoint {
    fn new(say: String, from: &str, things: Vec<ThingRef>) -> Self {
        Self {
            say,
            from: from.to_owned(),
            finding: None,
            things,
        }
    }

    /// The parts of the day in which it stands come first, but for what stands all day.
    fn of_line(trip: &Trip, line: &Line) -> Self {
        let when = when(trip, &line.lead_parts);
        let say = if when.is_empty() || line.lead_parts.len() == trip.parts.len() {
            line.sentence.to_string()
        } else {
            format!("{}: {}", capital(&when), line.sentence)
        };
        Self {
            say,
            from: line.code.to_owned(),
            finding: line.findings.first().copied(),
            things: Vec::new(),
        }
    }
}

/// With a capital letter to begin with, where it is no name of the crew's own.
fn capital(when: &str) -> String {
    match when.strip_prefix("all day") {
        Some(rest) => format!("All day{rest}"),
        None => when.to_owned(),
    }
}

pub(super) fn talk_points(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    digest: &Digest,
    loading: &LoadingOrder,
) -> Vec<TalkPoint> {
    // What stands in the plan first; then, where that is little, what holds on every boat.
    let mut points: Vec<TalkPoint> = vec![always(day, digest)];
    points.extend(open_lines(digest).map(|line| TalkPoint::of_line(trip, line)));
    points.extend(kit_on(trip, day));
    points.extend(shared_things(day));
    points.extend(ways(plan));
    points.extend(push_again(trip));
    points.extend(not_known(digest));
    points.truncate(MOST);
    if let Some(gap) = gap(loading).filter(|_| points.len() < MOST) {
        points.push(gap);
    }
    for usual in [one_by_one(loading), set_down(loading)] {
        if points.len() < FEWEST {
            points.push(usual);
        }
    }
    points
}

fn always(day: &DayState, digest: &Digest) -> TalkPoint {
    let upright = day.cylinders.iter().map(|state| &state.cylinder);
    let upright = upright.filter(|cylinder| cylinder.placing.is_aboard());
    let mut point = TalkPoint::new(
        "A cylinder that stands is hooked or held, always: nobody lets go of one before it is secured."
            .to_owned(),
        "U101",
        upright.map(|it| thing(ThingKind::Cylinder, &it.id)).collect(),
    );
    let found = digest.lines.iter().find(|line| line.code == "U101");
    point.finding = found.and_then(|line| line.findings.first().copied());
    point
}

fn thing(kind: ThingKind, id: &str) -> ThingRef {
    ThingRef {
        kind,
        id: id.to_owned(),
    }
}

/// The gravest of what is still open; what was taken on has been talked about.
fn open_lines(digest: &Digest) -> impl Iterator<Item = &Line> {
    digest
        .lines
        .iter()
        .filter(|line| line.taken_on.is_none() && line.signal > Signal::Caution)
        .take(MOST_OPEN)
}

/// Where anybody kits up in this trip: whose kit is on then.
fn kit_on(trip: &Trip, day: &DayState) -> Option<TalkPoint> {
    let at_start = day.cylinders.iter().map(|state| &state.cylinder);
    let at_start = at_start.filter(|cylinder| cylinder.kit == Kit::On);
    let later = trip.parts.iter().flat_map(|part| &part.changes.cylinders);
    let later = later.filter(|change| change.kit == Some(Kit::On));
    let mut names: Vec<&Id> = at_start
        .map(|cylinder| &cylinder.id)
        .chain(later.map(|change| &change.cylinder))
        .collect();
    names.sort();
    names.dedup();
    let seated = trip
        .people
        .iter()
        .any(|person| person.posture == Posture::SeatedKitted);
    let things = names.into_iter().map(|id| thing(ThingKind::Cylinder, id));
    let things: Vec<ThingRef> = things.collect();
    (seated || !things.is_empty()).then(|| {
        TalkPoint::new(
            "Nobody leaves a cylinder with kit on standing between kitting up and getting in: it is \
             top-heavy, and the one who wears it stays with it."
                .to_owned(),
            "kit on in this trip",
            things,
        )
    })
}

/// Lashings and fronts that hold several cylinders at once.
fn shared_things(day: &DayState) -> Option<TalkPoint> {
    let lashings = day.lashings.iter().map(|state| &state.lashing);
    let lashings = lashings.filter(|lashing| lashing.shut && lashing.round.len() > 1);
    let fronts = day.fronts.iter().filter(|state| {
        let front = &state.front;
        front.shut && front.slots.len() > 1 && !front.tied_between_slots
    });
    let lashings: Vec<_> = lashings.collect();
    let fronts: Vec<_> = fronts.collect();
    let mut names: Vec<&str> = lashings
        .iter()
        .map(|lashing| lashing.name.as_deref().unwrap_or(&lashing.id))
        .collect();
    let called: Vec<String> = fronts.iter().map(|state| state.front.called()).collect();
    names.extend(called.iter().map(String::as_str));
    names.sort_by(|a, b| natural_order(a, b));
    names.dedup();
    let things = lashings
        .iter()
        .map(|lashing| thing(ThingKind::Lashing, &lashing.id))
        .chain(
            fronts
                .iter()
                .map(|state| thing(ThingKind::Rack, &state.rack)),
        );
    let mut things: Vec<ThingRef> = things.collect();
    things.sort();
    things.dedup();
    (!names.is_empty()).then(|| {
        TalkPoint::new(
            format!(
                "Opened for one is open for all behind it: shut {} again at once.",
                words::list(&names)
            ),
            "straps and cords that hold several",
            things,
        )
    })
}

fn ways(plan: &Plan) -> Option<TalkPoint> {
    let ways = &plan.boat.walkways;
    let names: Vec<&str> = ways
        .iter()
        .map(|way| way.name.as_deref().unwrap_or(&way.id))
        .collect();
    let things = ways.iter().map(|way| thing(ThingKind::Walkway, &way.id));
    (!names.is_empty()).then(|| {
        TalkPoint::new(
            format!("Keep clear, also of fins and bags: {}.", every(&names)),
            WALKWAYS,
            things.collect(),
        )
    })
}

fn push_again(trip: &Trip) -> Option<TalkPoint> {
    let mut parts = trip.parts.iter();
    let runs = parts.any(|part| part.condition == Condition::Running);
    runs.then(|| {
        TalkPoint::new(
            "Push every cylinder by hand again after a quarter of an hour's running, after each dive and \
             before the night."
                .to_owned(),
            PUSH_AGAIN,
            Vec::new(),
        )
    })
}

fn not_known(digest: &Digest) -> Option<TalkPoint> {
    let unknown = super::not_known(digest);
    let about = |line: &&Line| line.not_known && line.taken_on.is_none();
    let line = digest.lines.iter().find(about);
    (!unknown.is_empty()).then(|| TalkPoint {
        finding: line.and_then(|line| line.findings.first().copied()),
        ..TalkPoint::new(
            format!(
                "Nobody knows {}: do not trust that before it is found out.",
                NotKnown::told(&unknown)
            ),
            "not known",
            Vec::new(),
        )
    })
}

/// From here on somebody reaches out over the water to take a cylinder, in metres. Common practice, no source.
const REACH_OUT_M: f64 = 0.3;

/// Over a wide gap to the quay a cylinder is taken from hand to hand.
fn gap(loading: &LoadingOrder) -> Option<TalkPoint> {
    let gap_m = loading
        .gap_to_quay_m
        .filter(|gap_m| *gap_m >= REACH_OUT_M)?;
    let place = loading.hand_over_place.iter();
    Some(TalkPoint::new(
        format!(
            "Between quay and boat is a gap of {}: from hand to hand, never thrown, never over somebody's feet.",
            words::metres(gap_m)
        ),
        "gap to the quay",
        place.map(|id| thing(ThingKind::Place, id)).collect(),
    ))
}

fn one_by_one(loading: &LoadingOrder) -> TalkPoint {
    let first = loading.steps.first();
    TalkPoint::new(
        "One after the other, in the order of the list: each is secured and pushed before the next is \
         handed over."
            .to_owned(),
        "loading order",
        first
            .map(|step| thing(ThingKind::Cylinder, &step.cylinder))
            .into_iter()
            .collect(),
    )
}

fn set_down(loading: &LoadingOrder) -> TalkPoint {
    let say = match &loading.set_down {
        Some(place) => {
            format!(
                "If passing them on stops, cylinders are laid down {}, never stood down.",
                super::at_set_down(place)
            )
        }
        None => "If passing them on stops, cylinders are laid down, never stood down: agree where."
            .to_owned(),
    };
    let place = loading.set_down_place.iter();
    TalkPoint::new(
        say,
        "set-down spot",
        place.map(|id| thing(ThingKind::Place, id)).collect(),
    )
}
