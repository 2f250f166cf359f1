//! An account under the recorded motion, and how far its limits hang on what is not known exactly.

use schemars::JsonSchema;
use serde::Serialize;

use super::needed::rounded;
use super::replay::{FromStart, Mounting, Replay, ReplayEvent, ReplayReport, Tracks, close_up};
use super::uncertainty::{USUAL_DRAWS, USUAL_SEED, bands};
use super::{Moment, Progress};
use crate::checks::words;
use crate::engine::{Stowed, Varied};
use crate::layout::Id;
use crate::mechanics::recorded::{LogPiece, Recorded};
use crate::record::AuditRecord;

/// Something that went under the recorded motion.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WentAt {
    /// When, in seconds from the start of the log, to a tenth.
    pub time_s: f64,

    /// The cylinder.
    pub cylinder: Id,

    /// What it did, in a sentence.
    pub sentence: String,
}

/// How near a cylinder came to going under the recorded motion.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct NearestToGoing {
    /// The cylinder.
    pub cylinder: Id,

    /// What was left of what it takes, at the least, in words.
    pub margin: String,

    /// When that was, in seconds from the start of the log, to a tenth.
    pub at_s: Option<f64>,

    /// For one that stands free: did it stand, rock or go over?
    pub rocking: Option<String>,
}

/// One account under the recorded motion.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct OverTime {
    /// What went, in the order in which it did.
    pub went: Vec<WentAt>,

    /// The cylinders in question.
    pub nearest: Vec<NearestToGoing>,

    /// How long and how large the motion was.
    pub notes: Vec<String>,

    /// The stretch that is looked at closely beside all of it, in seconds from the start of the log, to a tenth;
    /// nothing where all of it is fine enough.
    pub closely_s: Option<[f64; 2]>,

    /// All of it over time, for plots; from the start of the log.
    #[serde(skip)]
    pub replay: ReplayReport,

    /// The stretch that is looked at closely, for plots.
    #[serde(skip)]
    pub closely: Tracks,
}

/// A stretch that is looked at closely begins so long before what counts and ends so long after it, s.
const ROUND_IT_S: f64 = 30.0;

/// Points of a whole log that are further apart than this hide single swings, s.
const HIDES_SWINGS_S: f64 = 0.5;

/// The stretch of a log in which it happened: round the events and what went first, or round the last event, or round
/// what went first, whichever of these is the first that is no more than a quarter of it.
fn stretch(record: &AuditRecord, found: &ReplayReport) -> Option<[f64; 2]> {
    let (first, last) = (found.tracks.time_s.first()?, found.tracks.time_s.last()?);
    let log = record.motion_log.as_ref();
    if let Some([from, to]) = log.and_then(|log| log.closely_s) {
        let stretch = [from.max(*first), to.min(*last)];
        return (stretch[0] < stretch[1]).then_some(stretch);
    }
    let point_s = (last - first) / found.tracks.time_s.len() as f64;
    if point_s < HIDES_SWINGS_S {
        return None;
    }
    let events = record.events.iter().filter_map(|event| event.at_s);
    let inside = |at_s: &f64| (*first..=*last).contains(at_s);
    let events: Vec<f64> = events.filter(inside).collect();
    let went = found.events.first().map(|event| event.time_s);
    let all: Vec<f64> = events.iter().copied().chain(went).collect();
    let alone = |at_s: Option<f64>| at_s.map(|at_s| vec![at_s]).unwrap_or_default();
    let latest = events.iter().copied().reduce(f64::max);
    let sets = [all, alone(latest), alone(went)];
    let round_it = sets.iter().filter(|set| !set.is_empty()).map(|set| {
        let (low, high) = set
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), s| {
                (a.min(*s), b.max(*s))
            });
        let (from, to) = (low - ROUND_IT_S, high + ROUND_IT_S);
        [rounded(from.max(*first), 1), rounded(to.min(*last), 1)]
    });
    let short = |[from, to]: &[f64; 2]| from < to && to - from <= 0.25 * (last - first);
    round_it.into_iter().find(short)
}

/// How far the limit of one cylinder hangs on what is not known exactly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HowSure {
    /// The cylinder.
    pub cylinder: Id,

    /// The band, and what moves it most, in a sentence.
    pub sentence: String,
}

/// Replays what was recorded over an account; `None` where it is given up or nothing is stowed.
pub(super) fn over_time(
    (moment, record): (&Moment, &AuditRecord),
    recorded: &Recorded,
    mounting: Mounting,
    cylinders: &[Id],
    progress: &mut Progress<'_>,
) -> Option<OverTime> {
    let stowed = Stowed::of(&moment.plan, moment.trip()?, 0)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), mounting);
    let all = recorded.samples().len().max(1) as f64;
    let (mut from_start, mut done) = (FromStart::default(), 0);
    for piece in recorded.pieces() {
        from_start.hand(piece, &mut replay);
        if let LogPiece::Samples(samples) = piece {
            done += samples.len();
        }
        progress.at(done as f64 / all)?;
    }
    let report = replay.finish("log".to_owned());
    let [port, starboard] = report.largest_roll_deg;
    let mut notes = vec![format!(
        "{:.0} s; largest roll {port:.1}° to port, {starboard:.1}° to starboard.",
        report.lasts_s
    )];
    let closely_s = stretch(record, &report);
    let closely = closely_s.map(|stretch_s| {
        let [from, to] = stretch_s;
        notes.push(format!("Looked at closely: {from:.1} s to {to:.1} s."));
        let read = |each: &mut dyn FnMut(LogPiece<'_>)| {
            recorded.pieces().for_each(each);
            Ok::<(), std::convert::Infallible>(())
        };
        match close_up(moment, mounting, stretch_s, read) {
            Ok(tracks) => tracks,
            Err(never) => match never {},
        }
    });
    let nearest = report
        .cylinders
        .iter()
        .filter(|it| cylinders.contains(&it.cylinder))
        .map(|it| NearestToGoing {
            cylinder: it.cylinder.clone(),
            margin: it.least_margin.map_or_else(
                || "nothing seen".to_owned(),
                |margin| {
                    if margin > 0.0 {
                        format!("{} to spare", words::percent(margin))
                    } else {
                        "nothing to spare".to_owned()
                    }
                },
            ),
            at_s: it.least_margin_s.map(|s| rounded(s, 1)),
            rocking: it.rocking.map(|rocking| rocking.sentence()),
        })
        .collect();
    Some(OverTime {
        went: report.events.iter().map(went).collect(),
        nearest,
        notes,
        closely_s,
        replay: report,
        closely: closely.unwrap_or_default(),
    })
}

fn went(event: &ReplayEvent) -> WentAt {
    WentAt {
        time_s: rounded(event.time_s, 1),
        cylinder: event.cylinder.clone(),
        sentence: event.sentence(),
    }
}

/// How sure the limits of these cylinders are; and what was taken for the ranges.
pub(super) fn how_sure(moment: &Moment, cylinders: &[Id]) -> (Vec<HowSure>, Vec<String>) {
    let stowed = moment
        .trip()
        .and_then(|trip| Some((Stowed::of(&moment.plan, trip, 0)?, trip.parts.first()?)));
    let Some((stowed, part)) = stowed.filter(|_| !cylinders.is_empty()) else {
        return (Vec::new(), Vec::new());
    };
    let found = bands(&Varied::new(&stowed, part), USUAL_DRAWS, USUAL_SEED);
    let told = found
        .cylinders
        .iter()
        .filter(|band| cylinders.contains(&band.cylinder))
        .map(|band| HowSure {
            cylinder: band.cylinder.clone(),
            sentence: format!("{}.", band.sentence),
        });
    (told.collect(), found.assumptions)
}
