//! What came of a replay.

use schemars::JsonSchema;
use serde::Serialize;

use super::margins::Margins;
use super::run::{Counted, Running};
use super::tracks::{Buckets, MOST_BUCKETS};
use crate::engine::numbers::{Struck, Way};
use crate::engine::{Fallen, Rolls};
use crate::layout::Id;
use crate::mechanics::attitude::Attitude;
use crate::mechanics::rocking::Outcome;

/// What made a cylinder go.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// What holds it gave.
    LimitPassed,
    /// It stood free, rocked and did not come back.
    WentOver,
    /// It stood free and slid.
    Slid,
    /// Nothing pressed it down any more.
    LiftedOff,
    /// Another took it along.
    ThrownOver,
}

/// That a cylinder went.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ReplayEvent {
    /// When, in seconds of the replay.
    pub time_s: f64,

    /// The cylinder.
    pub cylinder: Id,

    /// In which way; falling, for one that another took along.
    pub way: Way,

    /// What made it.
    pub why: Why,

    /// Which one took it along.
    pub by: Option<Id>,

    /// Roll at that moment, in degrees, starboard down > 0; for one that rocked, when its foot left the deck.
    pub roll_deg: f64,

    /// Pitch then, in degrees, bow down > 0.
    pub pitch_deg: f64,

    /// Where it fell, in degrees from the bow towards port.
    pub towards_deg: Option<f64>,

    /// Its energy when it was down, in joules.
    pub energy_j: Option<f64>,

    /// The floor that it sweeps, corner by corner, in metres.
    pub sweep: Vec<[f64; 2]>,

    /// What it reached, itself or by those that it took along.
    pub struck: Vec<Struck>,

    /// Where it may roll when it lies, to millimetres.
    pub rolls: Option<Rolls>,

    /// Lashings and fronts that held others too and hold them no more, by name.
    pub left_slack: Vec<Id>,
}

impl ReplayEvent {
    pub(super) fn new(
        (cylinder, time_s): (&Id, f64),
        way: Way,
        why: Why,
        at: &Attitude,
        fallen: Option<&Fallen>,
    ) -> Self {
        let fall = fallen.map(|fallen| &fallen.fall);
        let (sweep, struck) = fall.map_or_else(Default::default, |fall| {
            (fall.sweep.clone(), fall.struck.clone())
        });
        Self {
            time_s: rounded(time_s, 1e3),
            cylinder: cylinder.clone(),
            way,
            why,
            by: None,
            roll_deg: rounded(at.roll_rad.to_degrees(), 1e2),
            pitch_deg: rounded(at.pitch_rad.to_degrees(), 1e2),
            towards_deg: fall.map(|fall| rounded(fall.towards_deg, 10.0)),
            energy_j: fall.map(|fall| rounded(fall.energy_j, 10.0)),
            sweep,
            struck,
            rolls: fallen
                .and_then(|fallen| fallen.rolls.as_ref())
                .map(|it| Rolls {
                    from: it.from.map(|m| rounded(m, 1e3)),
                    to: it.to.map(|m| rounded(m, 1e3)),
                    far_m: rounded(it.far_m, 1e2),
                    stopped_by: it.stopped_by.clone(),
                }),
            left_slack: Vec::new(),
        }
    }

    pub(super) fn taken_along((cylinder, time_s): (&Id, f64), by: &Id, at: &Attitude) -> Self {
        Self {
            by: Some(by.clone()),
            ..Self::new((cylinder, time_s), Way::Tips, Why::ThrownOver, at, None)
        }
    }
}

/// What one cylinder did by rocking, under one view of its impacts.
#[derive(Copy, Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RockedNumbers {
    /// How often its foot lifted.
    pub uplifts: u64,

    /// When it first did, in seconds.
    pub first_uplift_s: Option<f64>,

    /// The largest lean that it came back from, in degrees.
    pub largest_lean_deg: f64,

    /// When it had gone over, in seconds; `None` if it did not.
    pub over_s: Option<f64>,
}

impl RockedNumbers {
    fn of(outcome: &Outcome) -> Self {
        let time = |s: Option<f64>| s.map(|s| rounded(s, 1e3));
        Self {
            uplifts: outcome.uplifts,
            first_uplift_s: time(outcome.first_uplift_s),
            largest_lean_deg: rounded(outcome.largest_lean_rad.to_degrees(), 1e3),
            over_s: time(outcome.over_s),
        }
    }
}

/// The rocking of a cylinder that stands free.
#[derive(Copy, Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RockingNumbers {
    /// With nothing taken off for impacts: what the verdict counts on.
    pub lossless: RockedNumbers,

    /// With what Housner takes off for impacts.
    pub housner: RockedNumbers,

    /// In words: did it stand, rock, or go over?
    pub verdict: &'static str,
}

/// What became of one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct CylinderReplay {
    /// The cylinder.
    pub cylinder: Id,

    /// The least share that was left of what it takes; 0 and less: passed. `None` where nothing was seen.
    pub least_margin: Option<f64>,

    /// When that was, in seconds.
    pub least_margin_s: Option<f64>,

    /// How often what it takes was passed before it went.
    pub passed: u64,

    /// When it went, in seconds; `None` if it stayed.
    pub went_s: Option<f64>,

    /// For one that stands free.
    pub rocking: Option<RockingNumbers>,
}

/// Roll, pitch and margins bucket by bucket, for plots.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Tracks {
    /// The middles of the buckets, in seconds.
    pub time_s: Vec<f64>,

    /// Roll in each, least and most, in degrees; `None` where nothing was recorded.
    pub roll_deg: Vec<Option<[f64; 2]>>,

    /// Pitch in each, least and most, in degrees.
    pub pitch_deg: Vec<Option<[f64; 2]>>,

    /// The least and the most margin of each cylinder in each bucket, in the order of the cylinders; `None` once it
    /// has gone.
    pub margins: Vec<Vec<Option<[f64; 2]>>>,
}

/// What came of a replay.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct ReplayReport {
    /// The motion, in words.
    pub motion: String,

    /// What was put right or assumed, in words.
    pub assumptions: Vec<String>,

    /// What it does not know, in words.
    pub limits: Vec<String>,

    /// Samples that were read.
    pub samples: u64,

    /// Of these, with neighbours near enough to tell accelerations.
    pub judged: u64,

    /// Breaks of the record.
    pub breaks: u64,

    /// How much was recorded, breaks left out, in seconds.
    pub lasts_s: f64,

    /// The largest roll to port and to starboard, in degrees.
    pub largest_roll_deg: [f64; 2],

    /// The largest pitch, bow up and bow down, in degrees.
    pub largest_pitch_deg: [f64; 2],

    /// What went, in the order in which it did.
    pub events: Vec<ReplayEvent>,

    /// Each cylinder, in the order of their names.
    pub cylinders: Vec<CylinderReplay>,

    /// For plots.
    pub tracks: Tracks,
}

/// What no replay knows.
const LIMITS: [&str; 7] = [
    "a cylinder that stands free rocks in one plane at a time; a real one also walks round its rim: the plane is the \
     lower bound of mischief",
    "no credit is taken for what impacts take away; with Housner's loss is told beside it",
    "what went is out of its place from then on, and who is held otherwise without it is judged anew: a lashing round \
     several is slack, a front that it went through is open, a row has lost it; a lashing point is taken to outlast \
     the lashing that gave",
    "one that has fallen is taken to roll straight down the low side of that moment, to the next fixture or rack or to \
     the deck's edge; how it rolls to and fro later, and whom it strikes then, is not followed",
    "one that slides is told with its moment; where it slides to, and what it strikes, is not followed",
    "sideways acceleration by the waves themselves is in it only as far as the record has it: roll, pitch and vertical \
     acceleration",
    "what breaks seas, collisions and people do is not in it",
];

impl ReplayReport {
    pub(super) fn new(
        motion: String,
        assumptions: Vec<String>,
        counted: &Counted,
        running: &[Running],
        margins: &Margins,
        mut events: Vec<ReplayEvent>,
    ) -> Self {
        events.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
        let buckets = &margins.buckets;
        let degrees = |range: [f64; 2]| range.map(|rad| rounded(rad.to_degrees(), 1e2));
        let all = || 0..buckets.count;
        let mut tracks = Tracks {
            time_s: all().map(|i| rounded(buckets.middle_s(i), 1e3)).collect(),
            roll_deg: all().map(|i| margins.roll.get(i).map(degrees)).collect(),
            pitch_deg: all().map(|i| margins.pitch.get(i).map(degrees)).collect(),
            margins: Vec::new(),
        };
        let mut cylinders = Vec::new();
        for (running, margin) in running.iter().zip(&margins.cylinders) {
            let left = |used: f64| rounded((1.0 - used).max(-99.0), 1e4);
            tracks.margins.push(
                all()
                    .map(|i| {
                        margin
                            .used
                            .get(i)
                            .map(|[low, high]| [left(high), left(low)])
                    })
                    .collect(),
            );
            cylinders.push(CylinderReplay {
                cylinder: running.takes.cylinder.clone(),
                least_margin: margin.largest.map(|(used, _)| left(used)),
                least_margin_s: margin.largest.map(|(_, s)| rounded(s, 1e3)),
                passed: margin.passed,
                went_s: running.went_s.map(|s| rounded(s, 1e3)),
                rocking: running.outcomes().map(|outcomes| rocking(&outcomes)),
            });
        }
        let extremes = |ranges: &[Option<[f64; 2]>]| {
            ranges.iter().flatten().fold([0.0_f64; 2], |[a, b], range| {
                [a.max(-range[0]), b.max(range[1])]
            })
        };
        // Narrower than the samples are apart, buckets would be empty between them, and a line full of gaps.
        let step_s = counted.recorded_s / counted.steps.max(1) as f64;
        tracks = tracks.merged(each_of(buckets, step_s));
        Self {
            motion,
            assumptions,
            limits: LIMITS.map(str::to_owned).to_vec(),
            samples: counted.samples,
            judged: counted.judged,
            breaks: counted.breaks,
            lasts_s: rounded(counted.recorded_s, 10.0),
            largest_roll_deg: extremes(&tracks.roll_deg),
            largest_pitch_deg: extremes(&tracks.pitch_deg),
            events,
            cylinders,
            tracks,
        }
    }

    /// The same with no more buckets than this, each the least and most of those that it holds.
    pub fn coarser(&mut self, most: usize) {
        let tracks = &mut self.tracks;
        if most == 0 {
            *tracks = Tracks::default();
            return;
        }
        let each = tracks.time_s.len().div_ceil(most);
        *tracks = std::mem::take(tracks).merged(each);
    }
}

/// So many buckets hold two samples at least.
fn each_of(buckets: &Buckets, step_s: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the buckets"
    )]
    let each = (2.0 * step_s / buckets.width_s)
        .ceil()
        .clamp(1.0, MOST_BUCKETS as f64) as usize;
    if buckets.width_s >= step_s { 1 } else { each }
}

impl Tracks {
    /// The same with so many points as one, each the least and most of those that it holds.
    fn merged(self, each: usize) -> Self {
        if each < 2 {
            return self;
        }
        let merged = |ranges: &[Option<[f64; 2]>]| -> Vec<Option<[f64; 2]>> {
            let merge = |run: &[Option<[f64; 2]>]| {
                (run.iter().flatten().copied()).reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
            };
            ranges.chunks(each).map(merge).collect()
        };
        let middle = |run: &[f64]| run.iter().sum::<f64>() / run.len().max(1) as f64;
        Self {
            time_s: (self.time_s.chunks(each))
                .map(|run| rounded(middle(run), 1e3))
                .collect(),
            roll_deg: merged(&self.roll_deg),
            pitch_deg: merged(&self.pitch_deg),
            margins: self.margins.iter().map(|ranges| merged(ranges)).collect(),
        }
    }
}

fn rocking(outcomes: &[Outcome; 2]) -> RockingNumbers {
    let went = outcomes.map(|outcome| outcome.went_s().is_some());
    let verdict = match went {
        [true, true] => "went over, with and without losses at impacts",
        [true, false] => "went over without losses at impacts; with Housner's it came back",
        [false, true] => "went over with Housner's losses only; the worse of the two stands",
        [false, false] if outcomes[0].uplifts > 0 => "rocked and came back",
        [false, false] => "stood",
    };
    RockingNumbers {
        lossless: RockedNumbers::of(&outcomes[0]),
        housner: RockedNumbers::of(&outcomes[1]),
        verdict,
    }
}

/// As many digits as anything is known to, and the same on every machine.
pub(in crate::audit) fn rounded(value: f64, per_unit: f64) -> f64 {
    let value = (value * per_unit).round() / per_unit;
    // No minus before a zero.
    if value == 0.0 { 0.0 } else { value }
}
