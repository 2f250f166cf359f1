use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::fixture::is_zero;

/// Which waters: it decides the period that goes with a wave height.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum WatersKind {
    /// Near the coast: short seas, in which small boats roll hardest.
    #[default]
    Coastal,
    /// Open ocean: long seas.
    Ocean,
}

/// How the energy of the sea lies round its period.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SpectrumKind {
    /// Bretschneider: grown over open water.
    #[default]
    Bretschneider,
    /// JONSWAP with a peak of 3.3: young, over a limited fetch.
    Jonswap,
}

/// How the sea is spread round its direction.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SpreadingKind {
    /// All from one direction.
    #[default]
    LongCrested,
    /// Cosine squared: a confused wind sea.
    Cosine2,
    /// Cosine to the fourth.
    Cosine4,
    /// Cosine to the eighth.
    Cosine8,
}

/// How a boat runs that is too fast for an estimate.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum RunningKind {
    /// People stand at ease.
    Easy,
    /// Everybody holds on.
    Hard,
    /// It leaves the water and lands.
    Airborne,
}

/// The sea of a part of the day. Either the wave height or the sea state is given.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
#[expect(clippy::struct_field_names, reason = "sea state is the trade's word")]
pub struct Sea {
    /// Significant wave height, in metres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wave_height_m: Option<f64>,

    /// Sea state of the WMO code instead: the greatest height of it counts.
    #[schemars(range(max = 8))]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sea_state: Option<u32>,

    /// Peak period in seconds; unless given, the worst of those that go with the height in these waters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wave_period_s: Option<f64>,

    /// Which waters.
    #[serde(skip_serializing_if = "is_default")]
    pub waters: WatersKind,

    /// How the energy lies round the period.
    #[serde(skip_serializing_if = "is_default")]
    pub spectrum: SpectrumKind,

    /// How the sea is spread round its direction.
    #[serde(skip_serializing_if = "is_default")]
    pub spreading: SpreadingKind,

    /// Where the waves come from, in degrees off the bow to either side: 0 ahead, 90 on the beam, 180
    /// astern; the worst for each of roll, pitch and heave unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub waves_from_deg: Option<f64>,

    /// Speed through the water, in knots.
    #[serde(skip_serializing_if = "is_zero")]
    pub speed_kn: f64,

    /// How it runs, for a speed that is too great for an estimate; hard unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub runs: Option<RunningKind>,
}

/// The wake of a boat that passes: a few waves of one height, on the beam.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wake {
    /// Height from trough to crest, in metres.
    pub wave_height_m: f64,

    /// Period in seconds.
    pub wave_period_s: f64,

    /// How many waves.
    #[schemars(range(min = 1, max = 50))]
    pub waves: u32,
}

/// The kind and loading of the boat in the table of the rolling-period test (IMO A.749(18), annex 3).
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum RollTestLoading {
    /// Empty, or in ballast: f 0.88.
    EmptyOrBallast,
    /// Full load, liquids a fifth of the load: f 0.78.
    LiquidsFifth,
    /// Full load, liquids a tenth of the load: f 0.75.
    LiquidsTenth,
    /// Full load, liquids a twentieth of the load: f 0.73.
    LiquidsTwentieth,
    /// A boat with two trawl booms: f 0.95.
    DoubleBoom,
    /// A deep-sea fishing boat: f 0.80.
    DeepSeaFishing,
    /// A boat with a live fish well: f 0.60.
    LiveFishWell,
}

/// One run of a rolling-period test.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RollTestRun {
    /// Full swings counted: out, over and back.
    #[schemars(range(min = 1, max = 1000))]
    pub swings: u32,

    /// Seconds from the first to the last.
    pub total_s: f64,
}

/// A rolling-period test by stopwatch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RollTest {
    /// The runs; three of five swings and more are as the published test wants it.
    #[schemars(length(min = 1))]
    pub runs: Vec<RollTestRun>,

    /// How she was loaded; it gives f, and with it GM. No GM unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loading: Option<RollTestLoading>,
}

fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
