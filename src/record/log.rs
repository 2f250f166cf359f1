//! The motion log of a record: by reference, with what its headings do not say and how its sensor was mounted.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::account::{Provenance, is_as_found};

/// A motion log by reference.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MotionLogFile {
    /// The file, from the folder of the record.
    pub path: String,

    /// The SHA-256 of its bytes when it was recorded.
    pub sha256: String,

    /// What made it and how.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_by: Option<String>,

    /// The units of columns whose headings do not say them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub units: Option<LogUnitsSaid>,

    /// How the sensor was mounted; level, in the axes of the boat, unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mounting: Option<SensorMounting>,

    /// The stretch that the report looks at closely beside all of it, from and to, in seconds from the start of the
    /// log. Unless given, the one round the events and what went first, where the log is much longer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub closely_s: Option<[f64; 2]>,
}

/// Units of the columns of a log whose headings do not say them. A heading that does goes before.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LogUnitsSaid {
    /// Of roll and pitch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub angle: Option<AngleUnit>,

    /// Of time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time: Option<TimeUnit>,

    /// Of the vertical acceleration.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub acceleration: Option<AccelerationUnit>,
}

impl LogUnitsSaid {
    /// As it is printed: `angles in degrees, time in milliseconds`.
    pub fn words(&self) -> String {
        let angle = self.angle.map(|unit| match unit {
            AngleUnit::Deg => "angles in degrees",
            AngleUnit::Rad => "angles in radians",
        });
        let time = self.time.map(|unit| match unit {
            TimeUnit::S => "time in seconds",
            TimeUnit::Ms => "time in milliseconds",
        });
        let acceleration = self.acceleration.map(|unit| match unit {
            AccelerationUnit::G => "acceleration in g",
            AccelerationUnit::MPerS2 => "acceleration in m/s²",
        });
        let said = [angle, time, acceleration];
        said.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// A unit of angles.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum AngleUnit {
    /// Degrees.
    Deg,
    /// Radians.
    Rad,
}

/// A unit of time.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum TimeUnit {
    /// Seconds.
    S,
    /// Milliseconds.
    Ms,
}

/// A unit of acceleration.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
pub enum AccelerationUnit {
    /// Times the acceleration of gravity.
    #[serde(rename = "g")]
    G,
    /// Metres per second squared.
    #[serde(rename = "m/s2")]
    MPerS2,
}

/// How the sensor of a motion log was mounted. The replay puts its readings right by it: signs first, then what it
/// told while the boat was upright and level, then its turn.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SensorMounting {
    /// Does it tell roll to port as positive?
    #[serde(default, skip_serializing_if = "is_false")]
    pub roll_to_port_positive: bool,

    /// Does it tell bow up as positive?
    #[serde(default, skip_serializing_if = "is_false")]
    pub bow_up_positive: bool,

    /// Does it tell a fall as positive vertical acceleration?
    #[serde(default, skip_serializing_if = "is_false")]
    pub fall_positive: bool,

    /// Its own fore-and-aft, in degrees from the bow towards port: 90 where it lay athwartships.
    #[serde(default, skip_serializing_if = "is_zero")]
    #[schemars(range(min = -360.0, max = 360.0))]
    pub turned_deg: f64,

    /// What it tells as roll while the boat is upright, in degrees.
    #[serde(default, skip_serializing_if = "is_zero")]
    #[schemars(range(min = -90.0, max = 90.0))]
    pub roll_offset_deg: f64,

    /// What it tells as pitch while the boat is level, in degrees.
    #[serde(default, skip_serializing_if = "is_zero")]
    #[schemars(range(min = -90.0, max = 90.0))]
    pub pitch_offset_deg: f64,

    /// Where it stood: metres from the transom, to port, above the waterline. On the axes of roll and pitch unless
    /// given; only its vertical acceleration asks for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<[f64; 3]>,

    /// Who or what says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,

    /// How sure that is.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,
}

impl SensorMounting {
    /// Why it is taken so, for the table of assumptions: `sketch F3, as found`.
    pub fn why(&self) -> String {
        match &self.from {
            Some(from) => format!("{from}; {}", self.state.words()),
            None => self.state.words(),
        }
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it so")]
fn is_false(value: &bool) -> bool {
    !*value
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it so")]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}
