//! What a sea or a passing wake makes of the boat: from the plan to a motion, with its steps.

mod curves;
mod words;

pub use self::curves::{SeaDirection, SeaPoint, sea_curves, sea_directions};

use std::f64::consts::PI;

use super::numbers::{Crossing, CylinderNumbers, SeaNumbers, WakeNumbers};
use super::rolling;
use crate::geometry::Elementary as _;
use crate::layout::{
    Boat, MotionInput, MotionSource, RunningKind, Sea, SpectrumKind, SpreadingKind, Wake,
    WatersKind,
};
use crate::mechanics::annex13;
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::rolling::damping::Damping;
use crate::mechanics::seaway::extremes::RandomSwing;
use crate::mechanics::seaway::response::{BoatInSea, Hull, Rolling, Seaway, Spreading};
use crate::mechanics::seaway::running::{self, Preset};
use crate::mechanics::seaway::spectrum::{Shape, Spectrum, USUAL_GAMMA};
use crate::mechanics::seaway::states::{self, KNOT_M_S, Waters};
use crate::mechanics::seaway::wake::{self, WaveTrain};

/// How long a part of the day lasts for which nobody said it, in hours.
const USUAL_DURATION_H: f64 = 1.0;

/// Height above the roll axis at which the force along the deck is meant where no cylinder is aboard, in
/// metres above the highest deck: the centre of a standing cylinder, about.
const USUAL_CENTRE_M: f64 = 0.4;

/// Periods that are tried over a range.
const TRIED: u32 = 5;

/// A sea without height moves nothing; it is computed for waves of a millimetre.
const LEAST_HEIGHT_M: f64 = 0.001;

/// What every estimate says of itself.
const LIMITS: [&str; 4] = [
    "linear theory: it over-states large rolls",
    "no breaking sea, no slamming, no water on deck, no broach",
    "roll, pitch and heave are taken at their largest together",
    "pitch and heave were held against two hulls of 14 m without speed only",
];

/// What is estimated from, apart from the sea: all that the estimate hangs on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SeaInput {
    sea: Option<Sea>,
    wake: Option<Wake>,
    duration_h: f64,
    lever_m: f64,
    length_m: f64,
    beam_m: f64,
    roll_period_s: [f64; 2],
    damping: [Damping; 3],
}

/// What came of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SeaEstimate {
    pub(super) sea: Option<SeaNumbers>,
    pub(super) wake: Option<WakeNumbers>,

    /// The motion for the checks; `None` where there is neither sea nor wake.
    pub(super) motion: Option<MotionInput>,

    /// The random force that governs, for how often a limit is passed; `None` for a preset.
    force: Option<RandomSwing>,
    period_s: f64,
    lever_m: f64,
}

impl SeaInput {
    /// `centre_above_water_m`: the highest centre of a cylinder above the waterline, if any is aboard.
    pub(super) fn new(
        boat: &Boat,
        sea: Option<&Sea>,
        wake: Option<&Wake>,
        duration_h: Option<f64>,
        centre_above_water_m: Option<f64>,
    ) -> Self {
        let highest_deck = boat
            .decks
            .iter()
            .map(|deck| deck.height_above_waterline_m)
            .fold(0.0, f64::max);
        let centre_m = centre_above_water_m.unwrap_or(highest_deck + USUAL_CENTRE_M);
        Self {
            sea: sea.cloned(),
            wake: wake.cloned(),
            duration_h: duration_h
                .filter(|hours| *hours > 0.0)
                .unwrap_or(USUAL_DURATION_H),
            lever_m: centre_m - boat.roll_axis_height(),
            length_m: boat.waterline_length_m.unwrap_or(boat.length_overall_m),
            beam_m: boat.beam_m,
            roll_period_s: rolling::roll_period_s(boat).0,
            damping: rolling::damping(boat).0,
        }
    }

    fn hull(&self, roll_period_s: f64, damping: Damping) -> Hull {
        Hull {
            length_m: self.length_m,
            beam_m: self.beam_m,
            roll_period_s,
            damping,
            lever_m: self.lever_m,
        }
    }

    /// Works it out.
    pub(super) fn estimate(&self) -> SeaEstimate {
        let mut estimate = SeaEstimate {
            lever_m: self.lever_m,
            period_s: self.roll_period_s[0],
            ..SeaEstimate::default()
        };
        if let Some(sea) = &self.sea {
            self.of_sea(sea, &mut estimate);
        }
        if let Some(wake) = &self.wake {
            self.of_wake(wake, &mut estimate);
        }
        estimate
    }

    /// What the estimate does not know, and which published accelerations are no help.
    fn limits(&self, sea: &Sea) -> Vec<String> {
        let mut limits = LIMITS.map(str::to_owned).to_vec();
        if let Err(why) = annex13::length_speed_factor(self.length_m, sea.speed_kn) {
            limits.push(format!("CSS Code, {why}: none of it is used"));
        }
        limits
    }

    fn duration_s(&self) -> f64 {
        3600.0 * self.duration_h
    }

    fn of_sea(&self, sea: &Sea, estimate: &mut SeaEstimate) {
        let height_m = significant_height_m(sea);
        let periods = wave_periods_s(sea, height_m);
        let largest_kn = running::largest_speed_kn(self.length_m);
        if sea.speed_kn > largest_kn {
            let (numbers, motion) = self.preset(sea, height_m, periods, largest_kn);
            estimate.sea = Some(numbers);
            estimate.motion = Some(motion);
            return;
        }
        let worst = self.worst_rolling(sea, height_m, periods);
        let (pitch, vertical) = self.worst_pitch_and_heave(sea, height_m, periods);
        let duration_s = self.duration_s();
        let largest = worst.largest;
        let seen_rad = largest.roll.most_probable_largest(duration_s);
        let by_roll = largest.by_roll.most_probable_largest(duration_s);
        let less_slope = largest.by_roll_less_slope.most_probable_largest(duration_s);
        let period_s = finite_or(largest.roll.zero_crossing_period_s(), worst.natural_s);
        let slope_governs = less_slope > by_roll;
        let checked_rad = if slope_governs {
            seen_rad.max(roll_of_force(less_slope, period_s, self.lever_m))
        } else {
            seen_rad
        };
        let band = [self.damping[0], self.damping[2]].map(|damping| {
            let hull = self.hull(worst.natural_s, damping);
            let rolling = BoatInSea::new(hull, &worst.sea).at_the_largest(duration_s);
            degrees(rolling.roll.most_probable_largest(duration_s))
        });
        let mut numbers = SeaNumbers {
            refused: None,
            wave_height_m: height_m,
            sea_state: states::state_of(height_m),
            wave_period_tried_s: periods,
            wave_period_s: worst.sea.spectrum.peak_period_s(),
            rolls_most_from_deg: degrees(worst.sea.from_rad),
            lasts_h: self.duration_h,
            natural_roll_period_s: worst.natural_s,
            damping_ratio: worst.usual.damping_ratio,
            roll_sigma_deg: degrees(worst.usual.roll.sigma),
            roll_zero_crossing_s: period_s,
            seen_roll_deg: degrees(seen_rad),
            seen_roll_band_deg: band,
            one_in_ten_roll_deg: degrees(largest.roll.passed_with_chance(duration_s, 0.1)),
            by_roll_m_s2: by_roll,
            by_roll_less_slope_m_s2: less_slope,
            lever_m: self.lever_m,
            checked_roll_deg: degrees(checked_rad),
            pitch_deg: degrees(pitch.most_probable_largest(duration_s)),
            pitch_zero_crossing_s: finite_or(pitch.zero_crossing_period_s(), 2.5),
            vertical_g: vertical.most_probable_largest(duration_s) / GRAVITY,
            crossings: Vec::new(),
            steps: Vec::new(),
            limits: self.limits(sea),
        };
        numbers.steps = words::steps(sea, &numbers);
        let made_from = words::made_from(sea, &numbers);
        estimate.motion = Some(MotionInput {
            source: MotionSource::Estimate,
            made_from: Some(made_from),
            // No further than a plan may say.
            roll_amplitude_deg: numbers.checked_roll_deg.min(60.0),
            roll_period_s: Some(period_s.clamp(0.5, 30.0)),
            pitch_amplitude_deg: numbers.pitch_deg.min(45.0),
            pitch_period_s: Some(numbers.pitch_zero_crossing_s.clamp(0.5, 30.0)),
            vertical_g: numbers.vertical_g.min(5.0),
            ..MotionInput::default()
        });
        let largest = worst.largest;
        estimate.force = Some(if slope_governs {
            largest.by_roll_less_slope
        } else {
            largest.by_roll
        });
        estimate.period_s = period_s;
        estimate.sea = Some(numbers);
    }

    /// The wave period, roll period and heading that make the largest force along the deck.
    fn worst_rolling(&self, sea: &Sea, height_m: f64, periods: [f64; 2]) -> Worst {
        let headings: &[f64] = match sea.waves_from_deg {
            Some(_) => &[],
            None if sea.speed_kn > 0.0 => &[30.0, 60.0, 90.0, 120.0, 150.0],
            None => &[90.0],
        };
        let one = sea.waves_from_deg.unwrap_or(90.0);
        let headings = if headings.is_empty() {
            &[one]
        } else {
            headings
        };
        let duration_s = self.duration_s();
        let mut worst: Option<(f64, Worst)> = None;
        for natural_s in over(self.roll_period_s) {
            for peak_s in over(periods) {
                for heading in headings {
                    let met = met(sea, height_m, peak_s, *heading);
                    let boat = BoatInSea::new(self.hull(natural_s, self.damping[1]), &met);
                    let largest = boat.at_the_largest(duration_s);
                    let force = largest
                        .by_roll
                        .most_probable_largest(duration_s)
                        .max(largest.by_roll_less_slope.most_probable_largest(duration_s));
                    if worst.as_ref().is_none_or(|(most, _)| force > *most) {
                        let usual = boat.respond().rolling;
                        let found = Worst {
                            sea: met,
                            natural_s,
                            usual,
                            largest,
                        };
                        worst = Some((force, found));
                    }
                }
            }
        }
        worst.map_or_else(
            || Worst {
                sea: met(sea, height_m, periods[0], 90.0),
                natural_s: self.roll_period_s[0],
                usual: Rolling::default(),
                largest: Rolling::default(),
            },
            |(_, worst)| worst,
        )
    }

    fn worst_pitch_and_heave(
        &self,
        sea: &Sea,
        height_m: f64,
        periods: [f64; 2],
    ) -> (RandomSwing, RandomSwing) {
        let one = sea.waves_from_deg.unwrap_or(0.0);
        let headings: &[f64] = match sea.waves_from_deg {
            Some(_) => &[one],
            None => &[0.0, 45.0, 90.0],
        };
        let duration_s = self.duration_s();
        let larger = |a: RandomSwing, b: RandomSwing| {
            if b.most_probable_largest(duration_s) > a.most_probable_largest(duration_s) {
                b
            } else {
                a
            }
        };
        let mut worst = (RandomSwing::default(), RandomSwing::default());
        for peak_s in over(periods) {
            for heading in headings {
                let met = met(sea, height_m, peak_s, *heading);
                let hull = self.hull(self.roll_period_s[0], self.damping[1]);
                let response = BoatInSea::new(hull, &met).respond();
                worst.0 = larger(worst.0, response.pitch);
                worst.1 = larger(worst.1, response.vertical);
            }
        }
        worst
    }

    /// What stands in for the estimate of a boat that is too fast for it.
    fn preset(
        &self,
        sea: &Sea,
        height_m: f64,
        periods: [f64; 2],
        largest_kn: f64,
    ) -> (SeaNumbers, MotionInput) {
        let kind = sea.runs.unwrap_or(RunningKind::Hard);
        let motion = running_motion(kind);
        let refused = format!(
            "at {:.0} knots she lifts and slams, which linear theory does not know: no estimate above {largest_kn:.1} \
             knots for {:.1} m on the waterline (Froude number {}, our judgement). Record a log; until then the \
             preset for running {} takes its place",
            sea.speed_kn,
            self.length_m,
            running::LARGEST_FROUDE,
            running_word(kind)
        );
        let numbers = SeaNumbers {
            refused: Some(refused),
            wave_height_m: height_m,
            sea_state: states::state_of(height_m),
            wave_period_tried_s: periods,
            wave_period_s: periods[0],
            rolls_most_from_deg: sea.waves_from_deg.unwrap_or(90.0),
            lasts_h: self.duration_h,
            natural_roll_period_s: self.roll_period_s[0],
            damping_ratio: self.damping[1].linear,
            roll_sigma_deg: 0.0,
            roll_zero_crossing_s: self.roll_period_s[0],
            seen_roll_deg: motion.roll_amplitude_deg,
            seen_roll_band_deg: [motion.roll_amplitude_deg; 2],
            one_in_ten_roll_deg: motion.roll_amplitude_deg,
            by_roll_m_s2: 0.0,
            by_roll_less_slope_m_s2: 0.0,
            lever_m: self.lever_m,
            checked_roll_deg: motion.roll_amplitude_deg,
            pitch_deg: motion.pitch_amplitude_deg,
            pitch_zero_crossing_s: 2.5,
            vertical_g: motion.vertical_g,
            crossings: Vec::new(),
            steps: Vec::new(),
            limits: vec!["the preset: common practice, no source".to_owned()],
        };
        (numbers, motion)
    }

    fn of_wake(&self, wake: &Wake, estimate: &mut SeaEstimate) {
        let train = WaveTrain {
            height_m: wake.wave_height_m,
            period_s: wake.wave_period_s,
            waves: wake.waves,
        };
        let mut worst: Option<(f64, f64, wake::WakeRoll)> = None;
        for natural_s in over(self.roll_period_s) {
            let rolled = wake::roll(&self.hull(natural_s, self.damping[1]), &train);
            let force = rolled.by_roll.max(rolled.by_roll_less_slope);
            if worst.is_none_or(|(most, _, _)| force > most) {
                worst = Some((force, natural_s, rolled));
            }
        }
        let Some((_, natural_s, rolled)) = worst else {
            return;
        };
        let checked_rad = if rolled.by_roll_less_slope > rolled.by_roll {
            let roll = roll_of_force(rolled.by_roll_less_slope, natural_s, self.lever_m);
            rolled.roll_rad.max(roll)
        } else {
            rolled.roll_rad
        };
        let numbers = WakeNumbers {
            seen_roll_deg: degrees(rolled.roll_rad),
            by_roll_m_s2: rolled.by_roll,
            by_roll_less_slope_m_s2: rolled.by_roll_less_slope,
            checked_roll_deg: degrees(checked_rad),
        };
        let words = format!(
            "{} waves of {:.2} m every {:.1} s from a passing boat: {:.1}° seen, checked with {:.1}°",
            wake.waves,
            wake.wave_height_m,
            wake.wave_period_s,
            numbers.seen_roll_deg,
            numbers.checked_roll_deg
        );
        let roll_deg = numbers.checked_roll_deg.min(60.0);
        let vertical_g = (train.vertical_m_s2() / GRAVITY).min(5.0);
        let motion = match estimate.motion.take() {
            None => MotionInput {
                source: MotionSource::Wake,
                made_from: Some(words),
                roll_amplitude_deg: roll_deg,
                roll_period_s: Some(natural_s),
                vertical_g,
                ..MotionInput::default()
            },
            // Of sea and wake the larger of each, at the shorter period.
            Some(sea) => MotionInput {
                source: if roll_deg > sea.roll_amplitude_deg {
                    MotionSource::Wake
                } else {
                    sea.source
                },
                made_from: Some(match &sea.made_from {
                    Some(made) => format!("{made}; {words}"),
                    None => words,
                }),
                roll_amplitude_deg: sea.roll_amplitude_deg.max(roll_deg),
                roll_period_s: sea.roll_period_s.map(|period| period.min(natural_s)),
                vertical_g: sea.vertical_g.max(vertical_g),
                ..sea
            },
        };
        estimate.motion = Some(motion);
        estimate.wake = Some(numbers);
    }
}

impl SeaEstimate {
    /// How often the limit of each cylinder is passed, most often first.
    pub(super) fn crossings(&self, cylinders: &[CylinderNumbers]) -> Vec<Crossing> {
        let Some(force) = self.force else {
            return Vec::new();
        };
        let mut crossings: Vec<Crossing> = cylinders
            .iter()
            .filter_map(|numbers| {
                let limit_roll_deg = numbers.limit.roll_deg?;
                let limit = force_of_roll(radians(limit_roll_deg), self.period_s, self.lever_m);
                Some(Crossing {
                    cylinder: numbers.cylinder.clone(),
                    limit_roll_deg,
                    per_hour: force.times_passed(limit, 3600.0),
                })
            })
            .collect();
        crossings.sort_by(|a, b| {
            b.per_hour
                .total_cmp(&a.per_hour)
                .then_with(|| a.cylinder.cmp(&b.cylinder))
        });
        crossings
    }
}

/// The worst of what was tried.
struct Worst {
    sea: Seaway,
    natural_s: f64,
    /// With the damping for the standard deviation.
    usual: Rolling,
    /// With the damping for the largest.
    largest: Rolling,
}

/// The motion of a preset for a boat that runs.
pub fn running_motion(kind: RunningKind) -> MotionInput {
    let figures = match kind {
        RunningKind::Easy => Preset::Easy,
        RunningKind::Hard => Preset::Hard,
        RunningKind::Airborne => Preset::Airborne,
    }
    .motion();
    MotionInput {
        source: MotionSource::Preset,
        made_from: Some(format!(
            "preset for running {}: common practice, no source",
            running_word(kind)
        )),
        roll_amplitude_deg: figures.roll_deg,
        pitch_amplitude_deg: figures.pitch_deg,
        vertical_g: figures.vertical_g,
        push_astern_g: figures.stopping_g,
        push_port_g: figures.turning_g,
        push_starboard_g: figures.turning_g,
        ..MotionInput::default()
    }
}

fn running_word(kind: RunningKind) -> &'static str {
    match kind {
        RunningKind::Easy => "easy",
        RunningKind::Hard => "hard",
        RunningKind::Airborne => "airborne",
    }
}

fn significant_height_m(sea: &Sea) -> f64 {
    let of_state = || {
        let state = u8::try_from(sea.sea_state?).ok()?;
        Some(states::height_range_m(state)?[1])
    };
    let height_m = sea.wave_height_m.or_else(of_state).unwrap_or(0.0);
    height_m.max(0.0)
}

fn wave_periods_s(sea: &Sea, height_m: f64) -> [f64; 2] {
    if let Some(period) = sea.wave_period_s {
        return [period; 2];
    }
    let waters = match sea.waters {
        WatersKind::Coastal => Waters::Coastal,
        WatersKind::Ocean => Waters::Ocean,
    };
    states::period_range_s(height_m.max(LEAST_HEIGHT_M), waters)
}

fn met(sea: &Sea, height_m: f64, peak_s: f64, from_deg: f64) -> Seaway {
    let shape = match sea.spectrum {
        SpectrumKind::Bretschneider => Shape::Bretschneider,
        SpectrumKind::Jonswap => Shape::Jonswap { gamma: USUAL_GAMMA },
    };
    Seaway {
        spectrum: Spectrum::new(height_m, peak_s, shape),
        spreading: match sea.spreading {
            SpreadingKind::LongCrested => Spreading::LongCrested,
            SpreadingKind::Cosine2 => Spreading::Cosine2,
            SpreadingKind::Cosine4 => Spreading::Cosine4,
            SpreadingKind::Cosine8 => Spreading::Cosine8,
        },
        from_rad: radians(from_deg),
        speed_m_s: sea.speed_kn * KNOT_M_S,
    }
}

/// A range in equal steps; one value where there is one.
fn over([from, to]: [f64; 2]) -> Vec<f64> {
    if from >= to {
        return vec![from];
    }
    let step = (to - from) / f64::from(TRIED - 1);
    (0..TRIED).map(|i| from + f64::from(i) * step).collect()
}

/// `g sin phi + w^2 phi z`: force along the deck of a roll, m/s².
fn force_of_roll(roll_rad: f64, period_s: f64, lever_m: f64) -> f64 {
    let w = 2.0 * PI / period_s;
    GRAVITY * roll_rad.sine() + w * w * roll_rad * lever_m
}

/// The roll that makes this force along the deck: the smallest, up to 60 degrees.
fn roll_of_force(force: f64, period_s: f64, lever_m: f64) -> f64 {
    let (mut low, mut high) = (0.0, PI / 3.0);
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if force_of_roll(middle, period_s, lever_m) < force {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

fn finite_or(value: f64, other: f64) -> f64 {
    if value.is_finite() && value > 0.0 {
        value
    } else {
        other
    }
}

fn degrees(radians: f64) -> f64 {
    radians.to_degrees()
}

fn radians(degrees: f64) -> f64 {
    degrees.to_radians()
}

#[cfg(test)]
mod tests;
