use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::Id;

/// A rolling-period test, taken together.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct TimedRoll {
    /// Mean period over all swings, in seconds.
    pub period_s: f64,

    /// Shortest and longest mean period of a run, in seconds.
    pub spread_s: [f64; 2],

    /// The period with the error of the stopwatch and the spread of the runs, in seconds.
    pub band_s: [f64; 2],

    /// Swings counted in all.
    pub swings: u32,

    /// Is it as the published test wants it?
    pub by_the_code: bool,
}

/// The roll period and GM of the boat: what there is of each, beside each other.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RollPeriodNumbers {
    /// Shortest and longest period that is taken, in seconds; the same where there is one.
    pub taken_s: [f64; 2],

    /// Where that comes from, in words.
    pub taken_from: String,

    /// As given for the boat, in seconds.
    pub given_s: Option<f64>,

    /// By stopwatch.
    pub timed: Option<TimedRoll>,

    /// By the formula from dimensions and GM, in seconds.
    pub by_formula_s: Option<f64>,

    /// Why the formula gives nothing.
    pub formula_refused: Option<String>,

    /// GM as given, in metres.
    pub given_gm_m: Option<f64>,

    /// GM by the rolling-period test, in metres.
    pub tested_gm_m: Option<f64>,

    /// The same with what f and the stopwatch may be off, in metres.
    pub tested_gm_band_m: Option<[f64; 2]>,

    /// Why the test gives no GM.
    pub test_refused: Option<String>,

    /// Where two of them disagree, in words.
    pub disagreements: Vec<String>,

    /// Roll damping: least, taken, most, as shares of the critical.
    pub damping_ratio: [f64; 3],

    /// Damping that grows with the roll, 1/rad; 0 where it is taken as linear.
    pub damping_growth: f64,

    /// Where the damping comes from.
    pub damping_source: String,
}

/// How often a cylinder's limit is passed in this sea.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Crossing {
    /// The cylinder.
    pub cylinder: Id,

    /// The roll at which it goes, in degrees.
    pub limit_roll_deg: f64,

    /// How many times in an hour that is passed, to either side, on average.
    pub per_hour: f64,
}

/// A passing wake.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WakeNumbers {
    /// The largest roll that is seen, in degrees.
    pub seen_roll_deg: f64,

    /// Greatest force along the deck by absolute roll, in m/s².
    pub by_roll_m_s2: f64,

    /// Greatest force along the deck by roll less wave slope, in m/s².
    pub by_roll_less_slope_m_s2: f64,

    /// The roll that makes the greater force, in degrees: what the checks get.
    pub checked_roll_deg: f64,
}

/// What the sea of a part of the day makes of the boat.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SeaNumbers {
    /// Why there is no estimate; then all that follows is of the preset that takes its place.
    pub refused: Option<String>,

    /// Significant wave height, in metres.
    pub wave_height_m: f64,

    /// Sea state of the WMO code.
    pub sea_state: u8,

    /// Peak periods that were tried, from and to, in seconds.
    pub wave_period_tried_s: [f64; 2],

    /// The one of them that is worst, in seconds.
    pub wave_period_s: f64,

    /// Where the waves come from that make the largest force along the deck, in degrees off the bow.
    pub rolls_most_from_deg: f64,

    /// How long the sea lasts, in hours.
    pub lasts_h: f64,

    /// Natural roll period that was taken, in seconds; the worst of a range.
    pub natural_roll_period_s: f64,

    /// Share of the critical damping, for the standard deviation.
    pub damping_ratio: f64,

    /// Standard deviation of roll, in degrees.
    pub roll_sigma_deg: f64,

    /// Mean time between swings to the same side, in seconds.
    pub roll_zero_crossing_s: f64,

    /// The most probable largest roll that is seen, in degrees.
    pub seen_roll_deg: f64,

    /// The same with the most and the least damping of the band, in degrees.
    pub seen_roll_band_deg: [f64; 2],

    /// The roll that one such part of the day in ten passes, in degrees.
    pub one_in_ten_roll_deg: f64,

    /// Most probable largest force along the deck by absolute roll, in m/s².
    pub by_roll_m_s2: f64,

    /// The same by roll less wave slope, in m/s².
    pub by_roll_less_slope_m_s2: f64,

    /// Height above the roll axis at which these two are meant, in metres.
    pub lever_m: f64,

    /// The roll that makes the greater of the two, in degrees: what the checks get.
    pub checked_roll_deg: f64,

    /// Most probable largest pitch, in degrees.
    pub pitch_deg: f64,

    /// Mean time between pitches, in seconds.
    pub pitch_zero_crossing_s: f64,

    /// Most probable largest vertical acceleration, in g.
    pub vertical_g: f64,

    /// How often the limit of each cylinder is passed, most often first.
    pub crossings: Vec<Crossing>,

    /// The estimate step by step, in words.
    pub steps: Vec<String>,

    /// What the estimate does not know.
    pub limits: Vec<String>,
}
