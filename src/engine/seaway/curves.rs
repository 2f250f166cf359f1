//! The sea and what the boat makes of it over the period of the waves, for drawing.

use std::f64::consts::TAU;

use super::{SeaInput, met};
use crate::engine::numbers::SeaNumbers;
use crate::geometry::Elementary as _;
use crate::layout::{Boat, Sea};
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::rolling::damping::Damping;
use crate::mechanics::seaway::response::{Seaway, encounter_rad_s};

/// Shortest and longest waves that are drawn, in seconds; below, boats of this size average the slope away.
const PERIODS_S: [f64; 2] = [0.6, 18.0];

/// How many points there are.
const POINTS: u32 = 300;

/// One period of the waves.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct SeaPoint {
    /// Period of the waves as somebody sees it who stands still, in seconds.
    pub wave_period_s: f64,

    /// Period at which the boat meets those from the main direction, in seconds.
    pub met_every_s: f64,

    /// Variance of the surface for each second of period, m²/s.
    pub sea_m2_per_s: f64,

    /// Roll over the slope of the waves from the main direction.
    pub roll_over_slope: f64,

    /// Variance of roll for each second of period, in square degrees a second.
    pub roll_deg2_per_s: f64,

    /// Variance of the force along the deck by roll less slope, as degrees of lean squared for each second.
    pub force_deg2_per_s: f64,
}

/// One direction of a sea.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct SeaDirection {
    /// Where its waves come from, in degrees off the bow, from -180 to 180.
    pub from_deg: f64,

    /// The share of the sea's energy that comes from there; all add up to 1.
    pub share: f64,
}

/// Where the sea of an estimate comes from, over its spread: one direction where all of it comes from one side.
pub fn sea_directions(sea: &Sea, numbers: &SeaNumbers) -> Vec<SeaDirection> {
    let waves = of_estimate(sea, numbers);
    let directions = waves.spreading.directions().into_iter();
    let directions = directions.map(|(offset, share)| {
        let from_deg =
            (numbers.rolls_most_from_deg + offset.to_degrees() + 180.0).rem_euclid(360.0);
        SeaDirection {
            from_deg: from_deg - 180.0,
            share,
        }
    });
    directions.collect()
}

/// The curves behind an estimate, for its worst waves, heading and roll period: of a spread sea what comes from
/// all its directions together.
pub fn sea_curves(boat: &Boat, sea: &Sea, numbers: &SeaNumbers) -> Vec<SeaPoint> {
    let input = SeaInput::new(boat, Some(sea), None, None, None);
    let waves = of_estimate(sea, numbers);
    let directions = waves.spreading.directions();
    let mut hull = input.hull(
        numbers.natural_roll_period_s,
        Damping::linear(numbers.damping_ratio),
    );
    hull.lever_m = numbers.lever_m;
    let [short, long] = PERIODS_S;
    let step = (long / short).natural_logarithm() / f64::from(POINTS);
    let point = |number: u32| {
        let period_s = short * (f64::from(number) * step).exponential();
        let w = TAU / period_s;
        // dw over dT: the area below the curve stays the variance.
        let sea_m2_per_s = waves.spectrum.density(w) * w / period_s;
        let (mut roll2, mut force2) = (0.0, 0.0);
        for &(offset, share) in &directions {
            let from_rad = waves.from_rad + offset;
            let encounter = encounter_rad_s(w, waves.speed_m_s, from_rad);
            let slope2 = share * hull.slope_across(w, from_rad).whole_power(2) * sea_m2_per_s;
            roll2 += hull.roll_gain2(encounter, numbers.damping_ratio) * slope2;
            force2 += hull.relative_gain2(encounter, numbers.damping_ratio) * slope2;
        }
        let met = encounter_rad_s(w, waves.speed_m_s, waves.from_rad);
        let degrees2 = 1.0_f64.to_degrees().whole_power(2);
        SeaPoint {
            wave_period_s: period_s,
            met_every_s: TAU / met,
            sea_m2_per_s,
            roll_over_slope: hull.roll_gain2(met, numbers.damping_ratio).sqrt(),
            roll_deg2_per_s: degrees2 * roll2,
            force_deg2_per_s: degrees2 * force2 / (GRAVITY * GRAVITY),
        }
    };
    (0..=POINTS).map(point).collect()
}

/// The waves that an estimate found the worst.
fn of_estimate(sea: &Sea, numbers: &SeaNumbers) -> Seaway {
    met(
        sea,
        numbers.wave_height_m,
        numbers.wave_period_s,
        numbers.rolls_most_from_deg,
    )
}
