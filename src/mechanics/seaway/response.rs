//! What a boat makes of a sea, by linear theory: roll, force along the deck, pitch, vertical
//! acceleration.
//!
//! ```text
//! slope across the boat   a = k sin mu, averaged over the projected beam and length
//! roll                    H = 1 / (1 - r^2 + 2 i zeta r),  r = w_e T / 2 pi
//! force along the deck    absolute roll   (g + w_e^2 z) H a
//!                         roll less slope [g (H - 1) + w_e^2 z H] a
//! pitch                   k cos mu W(k L |cos mu| / 2),  W(X) = 3 (sin X - X cos X) / X^3
//! vertical acceleration   w_e^2 times the averaged surface
//! encounter               w_e = |w - w^2 U cos mu / g|, mu 0 following, 180 degrees ahead: [`encounter_rad_s`]
//! ```
//!
//! Pitch and vertical acceleration are multiplied by `1/sqrt((1 - r^2)^2 + (0.8 r)^2)` with their own period.
//! Variances are integrals over the wave's own frequency, which has no singular points.
//!
//! In beam seas the wave carries the boat sideways, so that a loose body feels roll less slope: in long waves
//! nearly nothing, in waves shorter than the boat's own more than roll alone would make. Against a panel
//! method the second form was never below the truth, the first up to 30 % below it in short waves
//! (`tests/outside/box_hull.rs`); the larger of the two governs.
//!
//! # Assumptions
//!
//! Long waves against the boat's breadth, deep water, small angles, no coupling of roll with sway, no
//! slamming. Large rolls are over-stated.
//!
//! # References
//!
//! Derived in `docs/method.md`, "Motion from the boat and the sea".

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::extremes::RandomSwing;
use super::spectrum::Spectrum;
use crate::geometry::Elementary as _;
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::rolling::damping::Damping;

/// Period and damping of pitch and heave in the response factor, from two hulls of 14 m in a panel
/// method at no speed.
pub const PITCH_HEAVE_PERIOD_S: f64 = 2.5;
const PITCH_HEAVE_DAMPING: f64 = 0.4;

/// Frequencies that are integrated over: below, no sea; above, the averages leave nothing.
const RANGE_RAD_S: [f64; 2] = [0.05, 25.0];

/// Steps of the logarithm of the frequency: 1.5 % each, a tenth of the narrowest resonance.
const STEPS: u32 = 400;

/// Directions of a short-crested sea, over 180 degrees.
const DIRECTIONS: u32 = 18;

/// How the sea comes from round its main direction.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Spreading {
    /// All from one direction.
    LongCrested,
    /// Cosine squared: a wind sea.
    Cosine2,
    /// Cosine to the fourth.
    Cosine4,
    /// Cosine to the eighth: nearly long-crested.
    Cosine8,
}

impl Spreading {
    /// Angles from the main direction with the share of the energy of each, radians; the shares add up to 1.
    pub fn directions(self) -> Vec<(f64, f64)> {
        let power = match self {
            Self::LongCrested => return vec![(0.0, 1.0)],
            Self::Cosine2 => 2,
            Self::Cosine4 => 4,
            Self::Cosine8 => 8,
        };
        let step = PI / f64::from(DIRECTIONS);
        let angle = |i| -FRAC_PI_2 + (f64::from(i) + 0.5) * step;
        let weights: Vec<(f64, f64)> = (0..DIRECTIONS)
            .map(|i| (angle(i), angle(i).cosine().whole_power(power)))
            .collect();
        let sum: f64 = weights.iter().map(|(_, weight)| weight).sum();
        let share = |(angle, weight): (f64, f64)| (angle, weight / sum);
        weights.into_iter().map(share).collect()
    }
}

/// Frequency in rad/s at which a boat meets waves of this frequency: `|w + w^2 U cos / g|`, deep water.
///
/// `from_rad` is where they come from, off the bow: at 0 they are met head on and faster, at half a turn she
/// runs before them. Waves of period `T` stand `g T^2 / 2 pi` apart and run at `g T / 2 pi`: from ahead a crest
/// is met each `length / (wave speed + U)`. Textbook; checked by following crests in
/// `tests/outside/seaway.rs`.
pub fn encounter_rad_s(w_rad_s: f64, speed_m_s: f64, from_rad: f64) -> f64 {
    let k = w_rad_s * w_rad_s / GRAVITY;
    (w_rad_s + k * speed_m_s * from_rad.cosine()).abs()
}

/// The sea as the boat meets it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Seaway {
    /// Height, period and shape.
    pub spectrum: Spectrum,
    /// How it is spread.
    pub spreading: Spreading,
    /// Where the waves come from, radians from the bow: 0 ahead, a quarter turn on the beam.
    pub from_rad: f64,
    /// Speed through the water, m/s.
    pub speed_m_s: f64,
}

/// The boat as the sea meets it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Hull {
    /// Length on the waterline, m.
    pub length_m: f64,
    /// Beam on the waterline, m.
    pub beam_m: f64,
    /// Natural roll period, s.
    pub roll_period_s: f64,
    /// Roll damping.
    pub damping: Damping,
    /// Height above the roll axis at which the force along the deck is wanted, m.
    pub lever_m: f64,
}

impl Hull {
    /// Natural frequency of roll, rad/s.
    pub fn natural_rad_s(&self) -> f64 {
        TAU / self.roll_period_s
    }

    /// Slope across the boat of a wave of unit amplitude, averaged over the projected beam and length, 1/m.
    pub fn slope_across(&self, w_rad_s: f64, from_rad: f64) -> f64 {
        let k = w_rad_s * w_rad_s / GRAVITY;
        let (sin, cos) = from_rad.sine_cosine();
        let over_length = 0.5 * k * self.length_m * cos.abs();
        let over_beam = 0.5 * k * self.beam_m * sin.abs();
        k * sin * sinc(over_beam) * sinc(over_length)
    }

    /// `|H|^2`: square of roll over slope.
    pub fn roll_gain2(&self, w_e: f64, ratio: f64) -> f64 {
        let r = w_e / self.natural_rad_s();
        1.0 / ((1.0 - r * r).whole_power(2) + (2.0 * ratio * r).whole_power(2))
    }

    /// Square of the force along the deck over slope, m²/s⁴, by absolute roll.
    pub fn absolute_gain2(&self, w_e: f64, ratio: f64) -> f64 {
        (GRAVITY + w_e * w_e * self.lever_m).whole_power(2) * self.roll_gain2(w_e, ratio)
    }

    /// Square of the force along the deck over slope, m²/s⁴, by roll less slope.
    pub fn relative_gain2(&self, w_e: f64, ratio: f64) -> f64 {
        let r = w_e / self.natural_rad_s();
        let real = w_e * w_e * self.lever_m + GRAVITY * r * r;
        let imaginary = GRAVITY * 2.0 * ratio * r;
        (real * real + imaginary * imaginary) * self.roll_gain2(w_e, ratio)
    }
}

/// `sin x / x`.
fn sinc(x: f64) -> f64 {
    if x.abs() < 1e-4 {
        1.0 - x * x / 6.0
    } else {
        x.sine() / x
    }
}

/// Average of the moment of a slope over a length: `3 (sin X - X cos X) / X^3`.
fn moment_average(x: f64) -> f64 {
    if x.abs() < 1e-2 {
        1.0 - x * x / 10.0
    } else {
        3.0 * (x.sine() - x * x.cosine()) / x.whole_power(3)
    }
}

/// Square of the response factor of pitch and heave.
fn pitch_heave_gain2(w_e: f64) -> f64 {
    let r = w_e * PITCH_HEAVE_PERIOD_S / TAU;
    1.0 / ((1.0 - r * r).whole_power(2) + (2.0 * PITCH_HEAVE_DAMPING * r).whole_power(2))
}

/// Variance that one frequency from one direction brings.
#[derive(Copy, Clone, Debug)]
struct Ripple {
    encounter_rad_s: f64,
    /// Of the averaged slope across.
    across: f64,
}

/// Random swings of roll and of the force along the deck, for one damping ratio.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Rolling {
    /// Share of the critical damping that they are for.
    pub damping_ratio: f64,
    /// Roll, rad.
    pub roll: RandomSwing,
    /// Force along the deck by absolute roll, m/s².
    pub by_roll: RandomSwing,
    /// Force along the deck by roll less slope, m/s².
    pub by_roll_less_slope: RandomSwing,
}

/// The whole response.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Response {
    /// Roll and force along the deck.
    pub rolling: Rolling,
    /// Pitch, rad.
    pub pitch: RandomSwing,
    /// Vertical acceleration, m/s².
    pub vertical: RandomSwing,
    /// Averaged slope of the sea across the boat, rad.
    pub slope: RandomSwing,
}

/// A boat in a sea, with everything that does not hang on the damping worked out.
#[derive(Clone, Debug)]
pub struct BoatInSea {
    hull: Hull,
    ripples: Vec<Ripple>,
    pitch: RandomSwing,
    vertical: RandomSwing,
    slope: RandomSwing,
}

impl BoatInSea {
    /// Works out the sea as the boat meets it.
    pub fn new(hull: Hull, sea: &Seaway) -> Self {
        let [low, high] = RANGE_RAD_S;
        let step = (high / low).natural_logarithm() / f64::from(STEPS);
        let waves: Vec<(f64, f64)> = (0..STEPS)
            .map(|i| low * ((f64::from(i) + 0.5) * step).exponential())
            .map(|w| (w, sea.spectrum.density(w) * w * step))
            .filter(|(_, variance)| *variance > 0.0)
            .collect();
        let mut ripples = Vec::with_capacity(waves.len());
        let mut moments = [[0.0_f64; 2]; 3];
        for (offset, share) in sea.spreading.directions() {
            let from_rad = sea.from_rad + offset;
            let (sin, cos) = from_rad.sine_cosine();
            for &(w, variance) in &waves {
                let k = w * w / GRAVITY;
                let encounter = encounter_rad_s(w, sea.speed_m_s, from_rad);
                let over_length = 0.5 * k * hull.length_m * cos.abs();
                let over_beam = 0.5 * k * hull.beam_m * sin.abs();
                let average = sinc(over_beam) * sinc(over_length);
                let variance = variance * share;
                let across = (k * sin * average).whole_power(2) * variance;
                let gain2 = pitch_heave_gain2(encounter);
                let along = k * cos * moment_average(over_length) * sinc(over_beam);
                let pitch = along * along * gain2 * variance;
                let lift = (encounter * encounter * average).whole_power(2) * gain2 * variance;
                let rate2 = encounter * encounter;
                for (moment, part) in moments.iter_mut().zip([across, pitch, lift]) {
                    moment[0] += part;
                    moment[1] += part * rate2;
                }
                ripples.push(Ripple {
                    encounter_rad_s: encounter,
                    across,
                });
            }
        }
        let [slope, pitch, vertical] = moments.map(|m| RandomSwing::from_moments(m[0], m[1]));
        Self {
            hull,
            ripples,
            pitch,
            vertical,
            slope,
        }
    }

    /// Roll and force along the deck with this share of the critical damping.
    pub fn with_ratio(&self, damping_ratio: f64) -> Rolling {
        let mut moments = [[0.0_f64; 2]; 3];
        for ripple in &self.ripples {
            let w = ripple.encounter_rad_s;
            let gains = [
                self.hull.roll_gain2(w, damping_ratio),
                self.hull.absolute_gain2(w, damping_ratio),
                self.hull.relative_gain2(w, damping_ratio),
            ];
            for (moment, gain2) in moments.iter_mut().zip(gains) {
                moment[0] += gain2 * ripple.across;
                moment[1] += gain2 * ripple.across * w * w;
            }
        }
        let [roll, by_roll, by_roll_less_slope] =
            moments.map(|m| RandomSwing::from_moments(m[0], m[1]));
        Rolling {
            damping_ratio,
            roll,
            by_roll,
            by_roll_less_slope,
        }
    }

    /// The response with the damping that is equivalent for its standard deviation.
    pub fn respond(&self) -> Response {
        let damping = &self.hull.damping;
        let rolling = self.settle(|rolling| {
            damping.for_deviation(rolling.roll.sigma_rate, self.hull.natural_rad_s())
        });
        Response {
            rolling,
            pitch: self.pitch,
            vertical: self.vertical,
            slope: self.slope,
        }
    }

    /// Roll and force with the damping that is equivalent for the largest swing in a time: the larger
    /// swings are damped harder.
    pub fn at_the_largest(&self, duration_s: f64) -> Rolling {
        let damping = &self.hull.damping;
        self.settle(|rolling| {
            let largest = rolling.roll.most_probable_largest(duration_s);
            let w = TAU / rolling.roll.zero_crossing_period_s();
            damping.for_amplitude(largest, w, self.hull.natural_rad_s())
        })
    }

    /// The damping ratio that agrees with the response to it. Damping falls as the response falls, so
    /// that the two meet once.
    fn settle(&self, ratio_for: impl Fn(&Rolling) -> f64) -> Rolling {
        let least = self.hull.damping.linear;
        let first = self.with_ratio(least);
        if self.hull.damping.quadratic <= 0.0 {
            return first;
        }
        // False position with the Illinois rule between the least and what the largest response asks for.
        let (mut low, mut excess) = (least, ratio_for(&first) - least);
        let mut high = least + excess.max(0.0);
        let mut lack = high - ratio_for(&self.with_ratio(high));
        let mut last_was_low = None;
        let mut ratio = high;
        for _ in 0..40 {
            if excess <= 0.0 || lack <= 0.0 || high - low < 1e-9 {
                break;
            }
            ratio = low + (high - low) * excess / (excess + lack);
            let found = ratio_for(&self.with_ratio(ratio)) - ratio;
            if found.abs() < 1e-9 {
                break;
            }
            if found > 0.0 {
                (low, excess) = (ratio, found);
                if last_was_low == Some(true) {
                    lack *= 0.5;
                }
            } else {
                (high, lack) = (ratio, -found);
                if last_was_low == Some(false) {
                    excess *= 0.5;
                }
            }
            last_was_low = Some(found > 0.0);
        }
        self.with_ratio(ratio)
    }
}

#[cfg(test)]
mod tests {
    use super::super::spectrum::Shape;
    use super::*;
    use crate::mechanics::property::assert_close;
    use crate::mechanics::rolling::damping::quadratic_of_bertin;

    fn hull(roll_period_s: f64, ratio: f64, beam_m: f64) -> Hull {
        Hull {
            length_m: 14.0,
            beam_m,
            roll_period_s,
            damping: Damping::linear(ratio),
            lever_m: 1.5,
        }
    }

    fn beam_sea(height_m: f64, peak_s: f64) -> Seaway {
        Seaway {
            spectrum: Spectrum::new(height_m, peak_s, Shape::Bretschneider),
            spreading: Spreading::LongCrested,
            from_rad: FRAC_PI_2,
            speed_m_s: 0.0,
        }
    }

    /// Rows of `docs/method.md`, "Motion from the boat and the sea", computed apart from this program: sigma, Tz, swings in an hour, most
    /// probable largest to either side, passed with a chance of 10 %, sigma of the slope (degrees).
    #[test]
    fn rows_of_the_method() {
        let rows = [
            (
                (0.50, 3.5, 3.5, 0.15, 4.0),
                (4.86946, 3.22651, 1115.755, 19.12208, 21.73416, 2.63614),
            ),
            (
                (0.88, 4.5, 4.0, 0.15, 4.0),
                (6.83585, 3.76337, 956.589, 26.57470, 30.27422, 3.70575),
            ),
            (
                (1.88, 8.8, 4.5, 0.10, 5.0),
                (7.68390, 4.64356, 775.268, 29.45321, 33.66342, 3.04358),
            ),
        ];
        for ((height, peak, period, ratio, beam), expected) in rows {
            let boat = BoatInSea::new(hull(period, ratio, beam), &beam_sea(height, peak));
            let response = boat.respond();
            let roll = response.rolling.roll;
            let found = [
                roll.sigma.to_degrees(),
                roll.zero_crossing_period_s(),
                roll.swings(3600.0),
                roll.most_probable_largest(3600.0).to_degrees(),
                roll.passed_with_chance(3600.0, 0.1).to_degrees(),
                response.slope.sigma.to_degrees(),
            ];
            let expected = [
                expected.0, expected.1, expected.2, expected.3, expected.4, expected.5,
            ];
            for (found, expected) in found.into_iter().zip(expected) {
                assert_close(found, expected, 5e-4 * expected);
            }
        }
    }

    #[test]
    fn damping_that_grows_settles() {
        let damping = Damping {
            linear: 0.03,
            quadratic: quadratic_of_bertin(0.0106),
        };
        let hull = Hull {
            damping,
            ..hull(4.0, 0.03, 4.0)
        };
        let boat = BoatInSea::new(hull, &beam_sea(0.88, 4.5));
        let rolling = boat.respond().rolling;
        assert_close(rolling.damping_ratio, 0.0919, 2e-4);
        assert_close(rolling.roll.sigma.to_degrees(), 9.368, 0.01);
        let largest = boat.at_the_largest(3600.0);
        // The frequency at which that figure was taken is not told: 2 %.
        assert_close(largest.damping_ratio, 0.1344, 0.02 * 0.1344);
    }

    #[test]
    fn a_spread_sea_rolls_less_and_pitches_in_a_beam_sea() {
        // Long waves, so that the averages are 1: closed forms of the mean of sin^2 and cos^2.
        let boat = Hull {
            length_m: 0.1,
            ..hull(12.0, 0.1, 0.1)
        };
        let plain = BoatInSea::new(boat, &beam_sea(1.0, 12.0)).respond();
        let head = Seaway {
            from_rad: 0.0,
            ..beam_sea(1.0, 12.0)
        };
        let head = BoatInSea::new(boat, &head).respond();
        let spreadings = [
            (Spreading::Cosine2, 0.86603, 0.5),
            (Spreading::Cosine4, 0.91287, 0.40825),
            (Spreading::Cosine8, 0.94868, 0.31623),
        ];
        for (spreading, roll, pitch) in spreadings {
            let sea = Seaway {
                spreading,
                ..beam_sea(1.0, 12.0)
            };
            let spread = BoatInSea::new(boat, &sea).respond();
            let ratio = spread.rolling.roll.sigma / plain.rolling.roll.sigma;
            assert_close(ratio, roll, 1e-4);
            assert_close(spread.pitch.sigma / head.pitch.sigma, pitch, 1e-4);
        }
    }

    #[test]
    fn speed_into_the_sea_makes_it_heavier() {
        let sea = |speed_m_s| Seaway {
            from_rad: 0.0,
            speed_m_s,
            ..beam_sea(1.0, 7.0)
        };
        let vertical = |speed| {
            BoatInSea::new(hull(4.0, 0.1, 4.0), &sea(speed))
                .respond()
                .vertical
        };
        let (still, running) = (vertical(0.0), vertical(4.0));
        assert!(running.sigma > 1.4 * still.sigma);
        assert!(running.zero_crossing_period_s() < still.zero_crossing_period_s());
    }

    #[test]
    fn a_flat_sea_moves_nothing() {
        let flat = BoatInSea::new(hull(4.0, 0.1, 4.0), &beam_sea(0.0, 4.0)).respond();
        assert_close(flat.rolling.roll.sigma + flat.vertical.sigma, 0.0, 0.0);
    }
}
