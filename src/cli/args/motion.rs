//! What `motion`, `card` and `balance` understand.

use std::path::PathBuf;

use super::{Cures, Format};
use crate::layout::{RunningKind, Sea, SpectrumKind, SpreadingKind, WatersKind};

/// The part of the day that a command is about.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct PartOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(in crate::cli) file: PathBuf,

    /// The trip, by id or name; the only one unless given
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// Only the part of the day with this id or name
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: Format,
}

/// What `snugdown motion` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct MotionOptions {
    #[command(flatten)]
    pub(in crate::cli) part: PartOptions,

    /// Significant wave height in metres, or with a unit: 50cm, 2ft
    #[arg(long, value_name = "M", conflicts_with = "sea_state", value_parser = super::length)]
    pub(in crate::cli) height: Option<f64>,

    /// Sea state of the WMO code, 0 to 8
    #[arg(long, value_name = "STATE")]
    pub(in crate::cli) sea_state: Option<u32>,

    /// Peak period in seconds
    #[arg(long, value_name = "S", value_parser = seconds)]
    pub(in crate::cli) period: Option<f64>,

    /// Open ocean instead of coastal waters
    #[arg(long)]
    pub(in crate::cli) ocean: bool,

    /// A young sea over a limited fetch (JONSWAP, peak 3.3) instead of Bretschneider's
    #[arg(long)]
    pub(in crate::cli) jonswap: bool,

    /// How the sea is spread round its direction: long-crested, cosine2, cosine4 or cosine8
    #[arg(long, value_name = "HOW", value_parser = spreading)]
    pub(in crate::cli) spreading: Option<SpreadingKind>,

    /// How she runs where the speed is too great for an estimate: easy, hard or airborne
    #[arg(long, value_name = "HOW", value_parser = runs)]
    pub(in crate::cli) runs: Option<RunningKind>,

    /// Where the waves come from, in degrees off the bow: 0 ahead, 90 on the beam, 180 astern
    #[arg(long, value_name = "DEG", value_parser = degrees)]
    pub(in crate::cli) from: Option<f64>,

    /// Speed through the water in knots, or with a unit: 6kn, 11km/h, 3m/s
    #[arg(long, value_name = "KN", value_parser = knots)]
    pub(in crate::cli) speed: Option<f64>,

    /// The wake of a passing boat: height in metres, period in seconds, number of waves
    #[arg(long, value_name = "M,S,N", value_parser = three)]
    pub(in crate::cli) wake: Option<[f64; 3]>,

    /// A recorded motion (CSV) instead: time, roll, and pitch and vertical acceleration if there are any, with
    /// the units in the headings, such as `time_s`, `roll_deg`, `pitch_deg`, `az_g`
    #[arg(long, value_name = "LOG.csv", conflicts_with_all = ["height", "sea_state", "wake"])]
    pub(in crate::cli) log: Option<PathBuf>,

    /// Unit of angles in the log where the headings do not say it: deg or rad
    #[arg(long, value_name = "UNIT", value_parser = angle_unit, requires = "log")]
    pub(in crate::cli) angle_unit: Option<f64>,

    /// Unit of time in the log where the headings do not say it: s or ms
    #[arg(long, value_name = "UNIT", value_parser = time_unit, requires = "log")]
    pub(in crate::cli) time_unit: Option<f64>,

    /// Unit of acceleration in the log where the headings do not say it: g or m/s2
    #[arg(long, value_name = "UNIT", value_parser = acceleration_unit, requires = "log")]
    pub(in crate::cli) acceleration_unit: Option<f64>,

    /// Put the estimate, or what was recorded, into the plan as the motion of the part
    #[arg(long)]
    pub(in crate::cli) write: bool,
}

impl MotionOptions {
    /// Do the options say anything of sea or wake?
    pub(in crate::cli) fn changes_something(&self) -> bool {
        self.height.is_some()
            || self.sea_state.is_some()
            || self.period.is_some()
            || self.ocean
            || self.jonswap
            || self.spreading.is_some()
            || self.runs.is_some()
            || self.from.is_some()
            || self.speed.is_some()
            || self.wake.is_some()
    }

    /// Puts what is said of the sea into one.
    pub(in crate::cli) fn put_into(&self, sea: &mut Sea) {
        if self.height.is_some() || self.sea_state.is_some() {
            sea.wave_height_m = self.height;
            sea.sea_state = self.sea_state;
            sea.wave_period_s = None;
        }
        sea.wave_period_s = self.period.or(sea.wave_period_s);
        if self.ocean {
            sea.waters = WatersKind::Ocean;
        }
        if self.jonswap {
            sea.spectrum = SpectrumKind::Jonswap;
        }
        sea.spreading = self.spreading.unwrap_or(sea.spreading);
        sea.runs = self.runs.or(sea.runs);
        sea.waves_from_deg = self.from.or(sea.waves_from_deg);
        sea.speed_kn = self.speed.unwrap_or(sea.speed_kn);
    }

    /// A number of waves as it was written: 0 where it is none that a plan may have.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to be a whole number of 1 to 50"
    )]
    pub(in crate::cli) fn wave_count(waves: f64) -> u32 {
        if waves.fract() == 0.0 && (1.0..=50.0).contains(&waves) {
            waves as u32
        } else {
            0
        }
    }
}

/// What `snugdown card` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct CardOptions {
    #[command(flatten)]
    pub(in crate::cli) part: PartOptions,

    /// Which cures are worked out
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) cures: Cures,
}

/// What `snugdown balance` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct BalanceOptions {
    #[command(flatten)]
    pub(in crate::cli) part: PartOptions,

    /// A steady wind on the beam: knots, area above the water in square metres, height of its middle above
    /// half the draught in metres
    #[arg(long, value_name = "KN,M2,M", value_parser = three)]
    pub(in crate::cli) wind: Option<[f64; 3]>,

    /// A steady turn: knots, radius in metres, height of the boat's centre of gravity above half the draught
    #[arg(long, value_name = "KN,M,M", value_parser = three)]
    pub(in crate::cli) turn: Option<[f64; 3]>,
}

fn one_of<T: Copy>(text: &str, units: &[(&str, T)]) -> Result<T, String> {
    let found = units.iter().find(|(name, _)| *name == text);
    found.map(|(_, meant)| *meant).ok_or_else(|| {
        let names: Vec<&str> = units.iter().map(|(name, _)| *name).collect();
        format!("one of: {}", names.join(", "))
    })
}

fn spreading(text: &str) -> Result<SpreadingKind, String> {
    use SpreadingKind::{Cosine2, Cosine4, Cosine8, LongCrested};
    let known = [
        ("long-crested", LongCrested),
        ("cosine2", Cosine2),
        ("cosine4", Cosine4),
        ("cosine8", Cosine8),
    ];
    one_of(text, &known)
}

fn runs(text: &str) -> Result<RunningKind, String> {
    use RunningKind::{Airborne, Easy, Hard};
    one_of(
        text,
        &[("easy", Easy), ("hard", Hard), ("airborne", Airborne)],
    )
}

pub(super) fn angle_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("deg", std::f64::consts::PI / 180.0), ("rad", 1.0)])
}

pub(super) fn time_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("s", 1.0), ("ms", 1e-3)])
}

pub(super) fn acceleration_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("g", 9.80665), ("m/s2", 1.0)])
}

/// A number, or one with a unit; what is neither is told with every unit that it may have.
fn in_unit(text: &str, what: &str, units: &[(&str, f64)]) -> Result<f64, String> {
    let text = text.trim();
    let with_unit = units
        .iter()
        .find_map(|(name, worth)| Some((text.strip_suffix(name)?, *worth)));
    let (number, worth) = with_unit.unwrap_or((text, 1.0));
    let number = number.trim().parse::<f64>().ok();
    let number = number.filter(|number| number.is_finite());
    number.map(|number| number * worth).ok_or_else(|| {
        let names: Vec<&str> = units.iter().map(|(name, _)| *name).collect();
        format!(
            "{what} is wanted, as 6 or with a unit: {}",
            names.join(", ")
        )
    })
}

fn seconds(text: &str) -> Result<f64, String> {
    // The longer of two that end alike stands first.
    in_unit(text, "a number of seconds", &[("min", 60.0), ("s", 1.0)])
}

fn degrees(text: &str) -> Result<f64, String> {
    in_unit(text, "a number of degrees", &[("deg", 1.0), ("°", 1.0)])
}

/// A knot is 1852 m an hour (exact); a statute mile 1609.344 m (exact).
fn knots(text: &str) -> Result<f64, String> {
    let units = [
        ("knots", 1.0),
        ("kn", 1.0),
        ("kt", 1.0),
        ("km/h", 1000.0 / 1852.0),
        ("m/s", 3600.0 / 1852.0),
        ("mph", 1609.344 / 1852.0),
    ];
    in_unit(text, "a number of knots", &units)
}

/// Three positive numbers with commas between.
fn three(text: &str) -> Result<[f64; 3], String> {
    let numbers: Vec<f64> = (text.split(','))
        .filter_map(|word| word.trim().parse().ok())
        .filter(|number: &f64| number.is_finite() && *number > 0.0)
        .collect();
    <[f64; 3]>::try_from(numbers).map_err(|_wrong| {
        "three numbers above 0 are wanted, with commas between: 0.4,3.5,5".to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_may_have_their_unit() {
        let close = |found: Result<f64, String>, expected: f64| {
            let found = found.unwrap();
            assert!((found - expected).abs() < 1e-4, "{found} for {expected}");
        };
        close(knots("6"), 6.0);
        close(knots("6 kn"), 6.0);
        close(knots("6knots"), 6.0);
        close(knots("11.112km/h"), 6.0);
        close(knots("3.0867m/s"), 6.0);
        close(knots("10mph"), 8.6898);
        close(seconds("4.5s"), 4.5);
        close(seconds("0.1min"), 6.0);
        close(degrees("90°"), 90.0);
        for wrong in ["6lb", "fast", "", "kn", "nan", "6 kn kn"] {
            let told = knots(wrong).unwrap_err();
            assert!(told.contains("knots, kn, kt, km/h, m/s, mph"), "{told}");
        }
    }
}
