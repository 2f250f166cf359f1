//! An account under the recorded motion, and how far its limits hang on what is not known exactly.

use std::fmt::Write as _;

use schemars::JsonSchema;
use serde::Serialize;

use super::needed::rounded;
use super::replay::{Mounting, Replay, ReplayEvent, ReplayReport, Why};
use super::uncertainty::{USUAL_DRAWS, USUAL_SEED, bands};
use super::{Moment, Progress};
use crate::checks::words;
use crate::engine::{Stowed, Varied};
use crate::layout::Id;
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::{LogPiece, Recorded};

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

    /// All of it over time, for plots; from the start of the log.
    #[serde(skip)]
    pub replay: ReplayReport,
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
    moment: &Moment,
    recorded: &Recorded,
    mounting: Mounting,
    cylinders: &[Id],
    progress: &mut Progress<'_>,
) -> Option<OverTime> {
    let stowed = Stowed::of(&moment.plan, moment.trip()?, 0)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), mounting);
    let all = recorded.samples().len().max(1) as f64;
    let start_s = recorded.samples().first().map_or(0.0, |it| it.time_s);
    let (mut shifted, mut done) = (Vec::new(), 0);
    for piece in recorded.pieces() {
        match piece {
            LogPiece::Break => replay.break_off(),
            LogPiece::Samples(samples) => {
                shifted.clear();
                shifted.extend(samples.iter().map(|sample| Sample {
                    time_s: sample.time_s - start_s,
                    ..*sample
                }));
                replay.push(&shifted);
                done += samples.len();
            }
        }
        progress.at(done as f64 / all)?;
    }
    let report = replay.finish("log".to_owned());
    let [port, starboard] = report.largest_roll_deg;
    let notes = vec![format!(
        "{:.0} s; largest roll {port:.1}° to port, {starboard:.1}° to starboard.",
        report.lasts_s
    )];
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
            rocking: it.rocking.map(|rocking| rocking.verdict.to_owned()),
        })
        .collect();
    Some(OverTime {
        went: report.events.iter().map(went).collect(),
        nearest,
        notes,
        replay: report,
    })
}

fn went(event: &ReplayEvent) -> WentAt {
    let mut sentence = match event.why {
        Why::WentOver => "stood free, rocked and went over".to_owned(),
        Why::Slid => "stood free and slid".to_owned(),
        Why::LiftedOff => "stood free and was lifted off the deck".to_owned(),
        Why::ThrownOver => format!(
            "was thrown over by {}",
            event.by.as_deref().unwrap_or("another")
        ),
        Why::LimitPassed => format!("passed its limit: it {}", words::way(event.way)),
    };
    let side = if event.roll_deg < 0.0 {
        "port"
    } else {
        "starboard"
    };
    write!(sentence, " (roll {:.1}° to {side})", event.roll_deg.abs()).ok();
    if let Some(energy) = event.energy_j {
        write!(sentence, "; it landed with {energy:.0} J").ok();
    }
    WentAt {
        time_s: rounded(event.time_s, 1),
        cylinder: event.cylinder.clone(),
        sentence,
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
