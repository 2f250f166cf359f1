//! What a crew needs in hand to load and secure exactly what was planned: the load list, the lashing
//! list, an order in which to load, and a few things to say on the quay.
//!
//! Nothing here is judged anew: everything is read from the plan and from the engine's numbers for one
//! part of the day, the one in which the boat is loaded. [`Brief::of`] makes it; the command line and
//! the window print it.

mod deck_work;
mod lashing_list;
mod load_list;
mod loading;
mod lying;
mod remarks;
mod securing;
mod sequence;
mod tables;
mod talk_points;

pub use self::deck_work::{DeckWork, PushAgain, WorkLine};
pub(crate) use self::lashing_list::NO_PULL_N;
pub use self::lashing_list::{FrontRow, LashingRow};
pub use self::load_list::LoadRow;
pub(crate) use self::load_list::without_measures;
pub use self::loading::{
    BrokenRule, LoadingOrder, LoadingSettings, LoadingStep, order as loading_order,
};
pub use self::securing::{HandAction, Securing};
pub use self::sequence::{Item, Sequence, Verdict, sequence};
pub use self::tables::{Table, TableError, heel as heel_words};
pub use self::talk_points::{PUSH_AGAIN, TalkPoint, WALKWAYS};

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::digest::{Line, NotKnown, ToFindOut, when};
use crate::checks::{self, Digest, Finding, LimitCard};
pub use crate::checks::{natural, runs};
use crate::day::Work;
use crate::engine::numbers::PartNumbers;
use crate::engine::{Assessor, Scene};
use crate::layout::{DayState, Id, LoadingTick, Part, Plan, ThingKind, Trip};

/// The check of what holds a rack down.
const FIXINGS: &str = "R308";

/// Said wherever the brief is shown.
pub const CAUTION: &str = "A planning aid, no approval: local codes, the flag state, the makers of the \
                           gear and the licensed master decide.";

/// Everything that the crew is told before loading.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Brief {
    /// The boat's name.
    pub boat: String,

    /// The trip.
    pub trip: Id,

    /// What the crew call it.
    pub trip_name: String,

    /// The day, as the trip has it.
    pub date: Option<String>,

    /// The part of the day in which the boat is loaded.
    pub part: Id,

    /// What the crew call it.
    pub part_name: String,

    /// Every cylinder of the trip, in the order of their names.
    pub load_list: Vec<LoadRow>,

    /// What has no place aboard in that part and is not in the water: names with the numbers on them.
    pub ashore: Vec<String>,

    /// Every lashing in use, in the order of their names.
    pub lashing_list: Vec<LashingRow>,

    /// What is shut across the fronts of racks, rack by rack.
    pub front_list: Vec<FrontRow>,

    /// In which order to load.
    pub loading: LoadingOrder,

    /// What to say on the quay.
    pub talk_points: Vec<TalkPoint>,

    /// The walkways to keep clear, by name.
    pub walkways: Vec<String>,

    /// What to put right still, as sentences with their signal words.
    pub still_open: Vec<String>,

    /// The same with what each line is about, for whoever tells many alike together.
    #[serde(skip)]
    pub open_points: Vec<OpenPoint>,

    /// What was taken on, by whom and why.
    pub taken_on: Vec<String>,

    /// What was ticked off so far, in the order in which it was done.
    pub ticks: Vec<LoadingTick>,

    /// What nobody knows and the stowage hangs on.
    pub not_known: Vec<NotKnown>,

    /// The work on deck with which each part of the day begins, in the order of the day.
    pub deck_work: Vec<DeckWork>,

    /// How far the stowage is good, part by part.
    pub limits: Vec<String>,

    /// The same as limit cards, also in a sea and with cures; none before [`Brief::add_cards`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cards: Vec<LimitCard>,

    /// What this paper is and is not.
    pub caution: &'static str,

    /// Where everything is, for whoever draws it.
    #[serde(skip)]
    pub scene: Scene,

    /// How lashings run, for whoever draws them.
    #[serde(skip)]
    pub legs: Vec<LashingLeg>,
}

/// Something to put right still.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenPoint {
    /// Its signal word and code: `DANGER U101`.
    pub word: String,

    /// The rule in a few words: `unsecured upright cylinder`.
    pub rule: String,

    /// What is wrong.
    pub sentence: String,

    /// What it is about, as the crew call it.
    pub about: Vec<String>,

    /// The parts of the day in which the sentence holds, in words; empty where the day has one part only.
    pub when: String,

    /// The place of its gravest finding in the list of all.
    pub finding: Option<usize>,
}

impl OpenPoint {
    fn of(trip: &Trip, line: &Line) -> Self {
        Self {
            word: format!("{} {}", line.signal, line.code),
            rule: line.name.replace('-', " "),
            sentence: line.sentence.to_string(),
            about: line.things.iter().map(|thing| thing.name.clone()).collect(),
            when: when(trip, &line.lead_parts),
            finding: line.findings.first().copied(),
        }
    }

    /// Its signal word and code with the parts of the day in which it stands.
    pub fn heading(&self) -> String {
        if self.when.is_empty() {
            self.word.clone()
        } else {
            format!("{} ({})", self.word, self.when)
        }
    }
}

/// One leg of a lashing, from cylinder to point or from cylinder to cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct LashingLeg {
    /// What the crew call the lashing.
    pub lashing: String,

    /// The cylinders that its lashing goes round.
    pub round: Vec<Id>,

    /// Both ends, `[x, y, z above waterline]` in metres; the height counts for nothing on a plan and is 0 where the
    /// leg runs between cylinders or over one that lies.
    pub ends: [[f64; 3]; 2],
}

/// Why there is no brief.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BriefError {
    /// The trip has no part of this name.
    #[error("the trip {trip} has no part of the day {part}; it has {known}")]
    NoSuchPart {
        /// The trip.
        trip: Id,
        /// What was asked for.
        part: Id,
        /// What there is.
        known: String,
    },
}

impl Brief {
    /// Makes the brief of a trip for loading in this part of the day; unless given, in the one that was settled
    /// for the trip, else in the first.
    pub fn of(
        plan: &Plan,
        trip: &Trip,
        part: Option<&str>,
        settings: &LoadingSettings,
    ) -> Result<Self, BriefError> {
        with_numbers(plan, trip, |assessed| {
            Self::assessed(plan, trip, part, settings, assessed)
        })
    }

    /// The same with its limit cards, as it is printed.
    pub fn for_paper(
        plan: &Plan,
        trip: &Trip,
        part: Option<&str>,
        settings: &LoadingSettings,
    ) -> Result<Self, BriefError> {
        with_numbers(plan, trip, |assessed| {
            let mut brief = Self::assessed(plan, trip, part, settings, assessed)?;
            brief.add_cards(plan, trip, assessed, &mut |_| true);
            Ok(brief)
        })
    }

    /// The same from numbers and findings that are there already.
    pub fn assessed(
        plan: &Plan,
        trip: &Trip,
        part: Option<&str>,
        settings: &LoadingSettings,
        Assessed { assessor, findings }: Assessed<'_>,
    ) -> Result<Self, BriefError> {
        let digest = Digest::of(plan, trip, findings, assessor.assessment());
        let index = part_index(trip, part)?;
        let missing = || BriefError::NoSuchPart {
            trip: trip.id.clone(),
            part: "first".to_owned(),
            known: names_of_parts(trip),
        };
        let numbers = assessor.assessment().parts.get(index).ok_or_else(missing)?;
        let day = assessor.days().get(index).ok_or_else(missing)?;
        let of_day = lashing_list::Numbers {
            loading: numbers,
            day: &assessor.assessment().parts,
        };
        let limits = digest
            .parts
            .iter()
            .map(|part| format!("{}: {}", part.name, part.sentence))
            .collect();
        let not_known = not_known(&digest);
        let lines = digest.lines.iter();
        let (taken_on, open): (Vec<_>, Vec<_>) = lines.partition(|line| line.taken_on.is_some());
        let ways = plan.boat.walkways.iter();
        let loading = loading::order(plan, trip, day, numbers, settings);
        Ok(Self {
            boat: named(&plan.boat.name, "boat without a name"),
            trip: trip.id.clone(),
            trip_name: named(trip.name.as_deref().unwrap_or_default(), &trip.id),
            date: trip.date.clone(),
            part: numbers.part.clone(),
            part_name: (trip.parts.get(index)).map_or_else(String::new, part_name),
            load_list: load_list::rows(plan, trip, day, numbers),
            ashore: load_list::ashore(day),
            lashing_list: lashing_list::rows((plan, trip), day, of_day),
            front_list: lashing_list::fronts((plan, trip), day, of_day),
            talk_points: talk_points::talk_points(plan, trip, day, &digest, &loading),
            loading,
            walkways: ways
                .map(|way| way.name.clone().unwrap_or_else(|| way.id.clone()))
                .collect(),
            open_points: open.iter().map(|line| OpenPoint::of(trip, line)).collect(),
            still_open: open
                .into_iter()
                .map(|line| still_open(trip, line))
                .collect(),
            taken_on: taken_on
                .into_iter()
                .map(|line| still_open(trip, line))
                .collect(),
            ticks: trip
                .briefing
                .as_ref()
                .map(|briefing| briefing.ticks.clone())
                .unwrap_or_default(),
            not_known,
            deck_work: deck_work::rows(trip, assessor.days(), &Work::of(plan, trip).parts),
            limits,
            cards: Vec::new(),
            caution: CAUTION,
            scene: assessor.scenes().get(index).cloned().unwrap_or_default(),
            legs: legs(plan, day, numbers),
        })
    }

    /// Adds the limit cards, for which seas and cures are tried: what takes longest of a brief. `go_on` is told how
    /// much is done, from 0 to 1, and says whether to go on; the cards are missing without that.
    pub fn add_cards(
        &mut self,
        plan: &Plan,
        trip: &Trip,
        Assessed { assessor, findings }: Assessed<'_>,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) {
        self.cards = checks::limit_cards_for_paper(plan, trip, (assessor, findings), go_on);
    }

    /// The row of the load list of a cylinder.
    pub fn row(&self, cylinder: &str) -> Option<&LoadRow> {
        self.load_list.iter().find(|row| row.cylinder == cylinder)
    }

    /// The tick of a cylinder.
    pub fn tick(&self, cylinder: &str) -> Option<&LoadingTick> {
        self.ticks.iter().find(|tick| tick.cylinder == cylinder)
    }
}

/// Numbers and findings of a trip as it is.
#[derive(Copy, Clone, Debug)]
pub struct Assessed<'a> {
    /// It has assessed the trip.
    pub assessor: &'a Assessor,

    /// What the checks found.
    pub findings: &'a [Finding],
}

/// A name, or what else it is called where nobody gave it one.
fn named(name: &str, otherwise: &str) -> String {
    let name = if name.trim().is_empty() {
        otherwise
    } else {
        name
    };
    name.to_owned()
}

/// Assesses a trip and checks it for whoever makes something from that.
fn with_numbers<T>(plan: &Plan, trip: &Trip, make: impl FnOnce(Assessed<'_>) -> T) -> T {
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, plan, trip);
    make(Assessed {
        assessor: &assessor,
        findings: &findings,
    })
}

/// The place in the day of the part in which the boat is loaded.
fn part_index(trip: &Trip, part: Option<&str>) -> Result<usize, BriefError> {
    let settled = trip.briefing.as_ref().and_then(|it| it.part.as_deref());
    let Some(id) = part.or(settled) else {
        return Ok(0);
    };
    let found = trip.part(id).map(|(index, _)| index);
    found.ok_or_else(|| BriefError::NoSuchPart {
        trip: trip.id.clone(),
        part: id.to_owned(),
        known: names_of_parts(trip),
    })
}

fn legs(plan: &Plan, day: &DayState, numbers: &PartNumbers) -> Vec<LashingLeg> {
    let name = |id: &Id| {
        let mut lashings = day.lashings.iter().map(|state| &state.lashing);
        let found = lashings.find(|lashing| lashing.id == *id);
        found
            .and_then(|lashing| lashing.name.clone())
            .unwrap_or_else(|| id.clone())
    };
    let shut = numbers.lashings.iter().filter(|lashing| lashing.shut);
    let legs = shut.flat_map(|lashing| {
        let name = name(&lashing.lashing);
        // From cylinder to cylinder it runs along their sides.
        let middle = |id: &Id| {
            let found = numbers.cylinders.iter().find(|item| item.cylinder == *id);
            found.map(|item| [item.at[0], item.at[1], 0.0])
        };
        let round: Vec<[f64; 3]> = lashing.round.iter().filter_map(middle).collect();
        let mut ends = lashing.legs.clone();
        if ends.is_empty() {
            // Over a lying cylinder: from point to point.
            let point = |id: &str| {
                let point = plan.boat.lashing_point(id)?;
                Some([point.at[0], point.at[1], 0.0])
            };
            let state = day.lashings.iter().map(|state| &state.lashing);
            let state = state.into_iter().find(|item| item.id == lashing.lashing);
            let (from, to) = (
                state.and_then(|item| point(&item.from)),
                state.and_then(|item| point(&item.to)),
            );
            ends.extend(from.zip(round.first().copied()).map(|(a, b)| [a, b]));
            ends.extend(round.last().copied().zip(to).map(|(a, b)| [a, b]));
        }
        ends.extend(round.windows(2).map(|pair| [pair[0], pair[1]]));
        ends.into_iter().map(move |ends| LashingLeg {
            lashing: name.clone(),
            round: lashing.round.clone(),
            ends,
        })
    });
    legs.collect()
}

fn names_of_parts(trip: &Trip) -> String {
    let names: Vec<&str> = trip.parts.iter().map(|part| part.id.as_str()).collect();
    if names.is_empty() {
        "none".to_owned()
    } else {
        checks::words::list(&names)
    }
}

/// What nobody knows in any part of the day, each thing once.
fn not_known(digest: &Digest) -> Vec<NotKnown> {
    let parts = digest.parts.iter();
    let mut all: Vec<NotKnown> = parts.flat_map(|part| part.not_known.clone()).collect();
    // No single cylinder hangs on the fixings of a rack, and still what stands in it does.
    let of_fixings = digest
        .lines
        .iter()
        .filter(|line| line.not_known && line.code == FIXINGS);
    let racks = of_fixings.flat_map(|line| &line.things);
    let racks = racks.filter(|thing| thing.kind == ThingKind::Rack);
    all.extend(racks.map(|thing| NotKnown {
        what: ToFindOut::Strength,
        of: thing.id.clone(),
        name: format!("the fastening of {}", thing.name),
    }));
    NotKnown::sort(&mut all);
    all
}

/// `at Set-down spot by the gate`; a place of no other name is the set-down spot.
pub(crate) fn at_set_down(place: &str) -> String {
    if place.to_lowercase().starts_with("set-down") || place.to_lowercase().starts_with("set down")
    {
        format!("at the {}{}", place[..1].to_lowercase(), &place[1..])
    } else {
        format!("at {place}")
    }
}

fn part_name(part: &Part) -> String {
    part.name.clone().unwrap_or_else(|| part.id.clone())
}

fn still_open(trip: &Trip, line: &Line) -> String {
    let point = OpenPoint::of(trip, line);
    let told = format!("{}: {}", point.heading(), point.sentence);
    match &line.taken_on {
        None => told,
        Some(taken) => format!("{told} Taken on by {}: {}", taken.by, taken.reason),
    }
}

#[cfg(test)]
mod tests;
