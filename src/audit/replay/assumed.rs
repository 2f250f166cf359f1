//! Motions that nobody recorded: a steady swing, and a sea drawn at random with a fixed seed.
//!
//! The sea is a sum of waves of the spectrum, one in each of 300 bands of equal ratio, at a frequency and a
//! phase drawn from a generator that is the same on every machine. Roll, pitch and vertical acceleration answer to
//! the same waves, as in [`crate::mechanics::seaway::response`]; each is then scaled so that its most probable largest
//! swing in the time of the part is the one that the checks use. Large swings of it are rarer or commoner by chance.
//!
//! # References
//!
//! Sum of waves with random phases (textbook). Responses: `docs/method.md`, "Motion from the boat and the sea".

use std::f64::consts::TAU;

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng as _, SeedableRng as _};

use crate::engine::numbers::{MotionNumbers, PartNumbers};
use crate::geometry::Elementary as _;
use crate::layout::{Boat, Sea, SpectrumKind};
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::motion_log::Sample;
use crate::mechanics::seaway::extremes::RandomSwing;
use crate::mechanics::seaway::response::encounter_rad_s;
use crate::mechanics::seaway::spectrum::{Shape, Spectrum, USUAL_GAMMA};
use crate::mechanics::seaway::states::KNOT_M_S;

/// Waves that a sea is made of, one in each band: it does not repeat within a day.
const WAVES: u32 = 300;

/// Frequencies of the waves, rad/s: below there is no sea, above it moves no boat.
const RANGE_RAD_S: [f64; 2] = [0.2, 8.0];

/// Samples each second of an assumed motion.
pub const RATE_HZ: f64 = 25.0;

/// Period and damping of pitch and heave (`docs/method.md`).
const PITCH_HEAVE_PERIOD_S: f64 = 2.5;
const PITCH_HEAVE_DAMPING: f64 = 0.4;

/// A motion that is assumed.
#[derive(Clone, Debug)]
pub enum Assumed {
    /// Roll and pitch as the checks take them, swing after swing.
    Steady(Steady),
    /// A sea drawn at random.
    Drawn(Box<DrawnSea>),
}

impl Assumed {
    /// The next sample.
    pub fn sample(&mut self, number: u64) -> Sample {
        let time_s = number as f64 / RATE_HZ;
        match self {
            Self::Steady(steady) => steady.at(time_s),
            Self::Drawn(sea) => sea.next(time_s),
        }
    }

    /// What it is, in words.
    pub fn words(&self) -> String {
        match self {
            Self::Steady(steady) => format!(
                "assumed: a steady roll of {:.1}° every {:.2} s about {:.1}°, pitch {:.1}° every {:.2} s, {:.2} g up and \
                 down with the roll",
                steady.roll_rad.to_degrees(),
                steady.roll_period_s,
                steady.heel_rad.to_degrees(),
                steady.pitch_rad.to_degrees(),
                steady.pitch_period_s,
                steady.vertical / GRAVITY
            ),
            Self::Drawn(sea) => format!(
                "assumed: a sea of {:.2} m every {:.1} s drawn at random (seed {}), most probable largest roll {:.1}°, \
                 pitch {:.1}°",
                sea.height_m,
                sea.period_s,
                sea.seed,
                sea.largest_roll_rad.to_degrees(),
                sea.largest_pitch_rad.to_degrees()
            ),
        }
    }
}

/// Swing after swing of the same size. The boat is lightest at the end of the swing to starboard and heaviest at the
/// other end.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Steady {
    /// To each side, rad.
    pub roll_rad: f64,
    /// s.
    pub roll_period_s: f64,
    /// Both ways, rad.
    pub pitch_rad: f64,
    /// s.
    pub pitch_period_s: f64,
    /// Vertical acceleration at its largest, m/s².
    pub vertical: f64,
    /// About which it rolls, rad.
    pub heel_rad: f64,
    /// About which it pitches, rad.
    pub trim_rad: f64,
}

impl Steady {
    /// The motion that the numbers of a part were made with.
    pub fn of(motion: &MotionNumbers) -> Self {
        Self {
            roll_rad: motion.roll_amplitude_deg.to_radians(),
            roll_period_s: motion.roll_period_s,
            pitch_rad: motion.pitch_amplitude_deg.to_radians(),
            pitch_period_s: motion.pitch_period_s,
            vertical: motion.vertical_m_s2,
            heel_rad: motion.heel_deg.to_radians(),
            trim_rad: motion.trim_deg.to_radians(),
        }
    }

    fn at(&self, time_s: f64) -> Sample {
        let roll = (TAU * time_s / self.roll_period_s).sine();
        Sample {
            time_s,
            roll_rad: self.heel_rad + self.roll_rad * roll,
            pitch_rad: self.trim_rad + self.pitch_rad * (TAU * time_s / self.pitch_period_s).sine(),
            vertical: -self.vertical * roll,
        }
    }
}

/// One wave of a sea, turning in time, with what it does to the boat: parts in phase and a quarter turn later.
#[derive(Copy, Clone, Debug)]
struct Wave {
    turn: [f64; 2],
    step: [f64; 2],
    roll: [f64; 2],
    pitch: [f64; 2],
    vertical: [f64; 2],
}

/// A sea drawn at random, sample after sample.
#[derive(Clone, Debug)]
pub struct DrawnSea {
    seed: u64,
    height_m: f64,
    period_s: f64,
    largest_roll_rad: f64,
    largest_pitch_rad: f64,
    heel_rad: f64,
    trim_rad: f64,
    waves: Vec<Wave>,
    samples: u64,
}

/// Why no sea can be drawn.
#[derive(Copy, Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoSea {
    /// The part has none.
    #[error("this part of the day has no sea: give it one, or replay the steady swing")]
    NotGiven,
    /// The boat is too fast for an estimate.
    #[error("there is no estimate of this sea's motion at this speed: record a log")]
    TooFast,
}

/// `1 / (1 - r^2 + 2 i z r)` as real and imaginary part.
fn resonance(r: f64, damping: f64) -> [f64; 2] {
    let (real, imaginary) = (1.0 - r * r, 2.0 * damping * r);
    let size2 = real * real + imaginary * imaginary;
    [real / size2, -imaginary / size2]
}

fn times([a, b]: [f64; 2], [c, d]: [f64; 2]) -> [f64; 2] {
    [a * c - b * d, a * d + b * c]
}

fn scaled([a, b]: [f64; 2], by: f64) -> [f64; 2] {
    [by * a, by * b]
}

/// A number of [0, 1) with 53 bits.
fn uniform(random: &mut Pcg64Mcg) -> f64 {
    (random.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
}

impl DrawnSea {
    /// The sea of a part, as its numbers were made from it.
    pub fn of(
        boat: &Boat,
        sea: Option<&Sea>,
        numbers: &PartNumbers,
        seed: u64,
    ) -> Result<Self, NoSea> {
        let (Some(sea), Some(found)) = (sea, &numbers.sea) else {
            return Err(NoSea::NotGiven);
        };
        if found.refused.is_some() {
            return Err(NoSea::TooFast);
        }
        let shape = match sea.spectrum {
            SpectrumKind::Bretschneider => Shape::Bretschneider,
            SpectrumKind::Jonswap => Shape::Jonswap { gamma: USUAL_GAMMA },
        };
        let spectrum = Spectrum::new(found.wave_height_m.max(0.001), found.wave_period_s, shape);
        let motion = &numbers.motion;
        let mut drawn = Self {
            seed,
            height_m: found.wave_height_m,
            period_s: found.wave_period_s,
            largest_roll_rad: found.checked_roll_deg.to_radians(),
            largest_pitch_rad: found.pitch_deg.to_radians(),
            heel_rad: motion.heel_deg.to_radians(),
            trim_rad: motion.trim_deg.to_radians(),
            waves: Vec::new(),
            samples: 0,
        };
        let met = Met {
            length_m: boat.waterline_length_m.unwrap_or(boat.length_overall_m),
            beam_m: boat.beam_m,
            roll_period_s: found.natural_roll_period_s,
            roll_damping: found.damping_ratio,
            from_rad: sea.waves_from_deg.unwrap_or(60.0).to_radians(),
            speed_m_s: sea.speed_kn * KNOT_M_S,
        };
        drawn.draw(&spectrum, &met);
        let largest = [
            found.checked_roll_deg.to_radians(),
            found.pitch_deg.to_radians(),
            found.vertical_g * GRAVITY,
        ];
        drawn.scale_to(largest, 3600.0 * found.lasts_h);
        Ok(drawn)
    }

    fn draw(&mut self, spectrum: &Spectrum, met: &Met) {
        let mut random = Pcg64Mcg::seed_from_u64(self.seed);
        let [low, high] = RANGE_RAD_S;
        let band = (high / low).natural_logarithm() / f64::from(WAVES);
        for number in 0..WAVES {
            let w = low * ((f64::from(number) + uniform(&mut random)) * band).exponential();
            let phase = TAU * uniform(&mut random);
            let amplitude = (2.0 * spectrum.density(w) * w * band).max(0.0).sqrt();
            self.waves.push(met.wave(w, amplitude, phase));
        }
    }

    /// Scales roll, pitch and vertical acceleration so that their most probable largest in a time are these.
    fn scale_to(&mut self, largest: [f64; 3], lasts_s: f64) {
        let part = |wave: &Wave, which: usize| [wave.roll, wave.pitch, wave.vertical][which];
        let mut factors = [0.0; 3];
        for (which, factor) in factors.iter_mut().enumerate() {
            let mut moments = [0.0; 2];
            for wave in &self.waves {
                let [a, b] = part(wave, which);
                let variance = 0.5 * (a * a + b * b);
                let w = wave.step[1].arc_tangent_over(wave.step[0]) * RATE_HZ;
                moments[0] += variance;
                moments[1] += variance * w * w;
            }
            let swing = RandomSwing::from_moments(moments[0], moments[1]);
            let now = swing.most_probable_largest(lasts_s);
            // A sea right on the beam pitches no boat: nothing is made of rounding.
            if now > 1e-6 && now.is_finite() {
                *factor = largest[which] / now;
            }
        }
        for wave in &mut self.waves {
            wave.roll = scaled(wave.roll, factors[0]);
            wave.pitch = scaled(wave.pitch, factors[1]);
            wave.vertical = scaled(wave.vertical, factors[2]);
        }
    }

    fn next(&mut self, time_s: f64) -> Sample {
        let mut sample = Sample {
            time_s,
            roll_rad: self.heel_rad,
            pitch_rad: self.trim_rad,
            vertical: 0.0,
        };
        // Now and then the turning vectors are brought back to length one.
        let renew = self.samples.is_multiple_of(4096);
        for wave in &mut self.waves {
            let [cos, sin] = wave.turn;
            sample.roll_rad += wave.roll[0] * cos - wave.roll[1] * sin;
            sample.pitch_rad += wave.pitch[0] * cos - wave.pitch[1] * sin;
            sample.vertical += wave.vertical[0] * cos - wave.vertical[1] * sin;
            wave.turn = times(wave.turn, wave.step);
            if renew {
                let [a, b] = wave.turn;
                wave.turn = scaled([a, b], 1.0 / a.hypotenuse(b));
            }
        }
        self.samples += 1;
        sample
    }
}

/// The boat as it meets a sea.
#[derive(Copy, Clone, Debug)]
struct Met {
    length_m: f64,
    beam_m: f64,
    roll_period_s: f64,
    roll_damping: f64,
    from_rad: f64,
    speed_m_s: f64,
}

impl Met {
    /// What one wave does to the boat, from its own phase on.
    fn wave(&self, w: f64, amplitude: f64, phase: f64) -> Wave {
        let k = w * w / GRAVITY;
        let (sin, cos) = self.from_rad.sine_cosine();
        let encounter = encounter_rad_s(w, self.speed_m_s, self.from_rad);
        let sinc = |x: f64| if x.abs() < 1e-4 { 1.0 } else { x.sine() / x };
        let over_length = 0.5 * k * self.length_m * cos.abs();
        let over_beam = 0.5 * k * self.beam_m * sin.abs();
        let average = sinc(over_beam) * sinc(over_length);
        let moment = if over_length < 1e-2 {
            1.0
        } else {
            3.0 * (over_length.sine() - over_length * over_length.cosine())
                / over_length.whole_power(3)
        };
        let roll = resonance(encounter * self.roll_period_s / TAU, self.roll_damping);
        let other = resonance(encounter * PITCH_HEAVE_PERIOD_S / TAU, PITCH_HEAVE_DAMPING);
        // A slope is a quarter turn from the surface.
        let slope = [0.0, amplitude * k];
        let step_rad = encounter / RATE_HZ;
        Wave {
            turn: [phase.cosine(), phase.sine()],
            step: [step_rad.cosine(), step_rad.sine()],
            roll: times(scaled(slope, sin * average), roll),
            pitch: times(scaled(slope, cos * moment * sinc(over_beam)), other),
            vertical: times([-encounter * encounter * amplitude * average, 0.0], other),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;
    use crate::engine::Assessor;
    use crate::mechanics::motion_log::SwingMeter;

    fn drawn(seed: u64) -> (DrawnSea, PartNumbers) {
        let mut plan = fixture::plan("deck 10x4; drifting; stand A 5,0").unwrap();
        let part = &mut plan.trips[0].parts[0];
        part.motion = None;
        part.sea = Some(Sea {
            wave_height_m: Some(0.7),
            ..Sea::default()
        });
        let mut assessor = Assessor::default();
        let numbers = assessor.assess(&plan, &plan.trips[0]).parts[0].clone();
        let sea = DrawnSea::of(
            &plan.boat,
            plan.trips[0].parts[0].sea.as_ref(),
            &numbers,
            seed,
        );
        (sea.unwrap(), numbers)
    }

    #[test]
    fn an_hour_of_it_has_the_largest_roll_of_the_estimate() {
        let (mut sea, numbers) = drawn(7);
        let mut meter = SwingMeter::of_angles();
        let mut square = 0.0;
        let count = 3600 * 25;
        for number in 0..count {
            let time_s = f64::from(number) / RATE_HZ;
            let sample = sea.next(time_s);
            square += sample.roll_rad * sample.roll_rad;
            meter.push(time_s, sample.roll_rad);
        }
        let swings = meter.swings();
        let expected = numbers.sea.as_ref().unwrap().checked_roll_deg;
        // The largest of an hour varies by chance; its standard deviation hardly does.
        let largest = swings.largest.to_degrees();
        assert!(
            (0.75..1.35).contains(&(largest / expected)),
            "{largest} {expected}"
        );
        let sigma = (square / f64::from(count)).sqrt().to_degrees();
        let of_sigma = expected / sigma;
        // sqrt(2 ln 2N) of 700 to 1500 swings.
        assert!((3.6..4.1).contains(&of_sigma), "{of_sigma}");
    }

    #[test]
    fn the_same_seed_is_the_same_sea() {
        let ((mut a, _), (mut b, _), (mut c, _)) = (drawn(1), drawn(1), drawn(2));
        let of = |sea: &mut DrawnSea| -> Vec<f64> {
            (0..50_u32)
                .map(|i| sea.next(f64::from(i)).roll_rad)
                .collect()
        };
        let (a, b, c) = (of(&mut a), of(&mut b), of(&mut c));
        assert_eq!(a, b);
        assert_ne!(a, c);
    }

    #[test]
    fn a_part_without_a_sea_has_none_to_draw() {
        let plan = fixture::plan("deck 10x4; drifting roll=10/4; stand A 5,0").unwrap();
        let numbers = Assessor::default().assess(&plan, &plan.trips[0]).parts[0].clone();
        let sea = DrawnSea::of(&plan.boat, None, &numbers, 1);
        assert_eq!(sea.err(), Some(NoSea::NotGiven));
    }
}
