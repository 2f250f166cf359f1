//! The sea and what the boat makes of it over the period of the waves, for drawing.

use super::{SeaInput, met, radians};
use crate::engine::numbers::SeaNumbers;
use crate::layout::{Boat, Sea};
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::rolling::damping::Damping;

/// Shortest and longest waves that are drawn, in seconds; below, boats of this size average the slope away.
const PERIODS_S: [f64; 2] = [0.6, 18.0];

/// How many points there are.
const POINTS: u32 = 300;

/// One period of the waves.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct SeaPoint {
    /// Period of the waves as somebody sees it who stands still, in seconds.
    pub wave_period_s: f64,

    /// Period at which the boat meets them, in seconds.
    pub met_every_s: f64,

    /// Variance of the surface for each second of period, m²/s.
    pub sea_m2_per_s: f64,

    /// Roll over the slope of the waves.
    pub roll_over_slope: f64,

    /// Variance of roll for each second of period, in square degrees a second.
    pub roll_deg2_per_s: f64,

    /// Variance of the force along the deck by roll less slope, as degrees of lean squared for each second.
    pub force_deg2_per_s: f64,
}

/// The curves behind an estimate, for its worst waves, heading and roll period; of a spread sea those that come
/// from the main direction alone.
pub fn sea_curves(boat: &Boat, sea: &Sea, numbers: &SeaNumbers) -> Vec<SeaPoint> {
    let input = SeaInput::new(boat, Some(sea), None, None, None);
    let from_rad = radians(numbers.rolls_most_from_deg);
    let waves = met(
        sea,
        numbers.wave_height_m,
        numbers.wave_period_s,
        numbers.rolls_most_from_deg,
    );
    let mut hull = input.hull(
        numbers.natural_roll_period_s,
        Damping::linear(numbers.damping_ratio),
    );
    hull.lever_m = numbers.lever_m;
    let [short, long] = PERIODS_S;
    let step = (long / short).ln() / f64::from(POINTS);
    let point = |number: u32| {
        let period_s = short * (f64::from(number) * step).exp();
        let w = std::f64::consts::TAU / period_s;
        let k = w * w / GRAVITY;
        let encounter = (w + w * k * waves.speed_m_s * from_rad.cos()).abs();
        // dw over dT: the area below the curve stays the variance.
        let sea_m2_per_s = waves.spectrum.density(w) * w / period_s;
        let slope2 = hull.slope_across(w, from_rad).powi(2) * sea_m2_per_s;
        let gain2 = hull.roll_gain2(encounter, numbers.damping_ratio);
        let force2 = hull.relative_gain2(encounter, numbers.damping_ratio);
        let degrees2 = 1.0_f64.to_degrees().powi(2);
        SeaPoint {
            wave_period_s: period_s,
            met_every_s: std::f64::consts::TAU / encounter,
            sea_m2_per_s,
            roll_over_slope: gain2.sqrt(),
            roll_deg2_per_s: degrees2 * gain2 * slope2,
            force_deg2_per_s: degrees2 * force2 * slope2 / (GRAVITY * GRAVITY),
        }
    };
    (0..=POINTS).map(point).collect()
}
