//! Roll period, spectra, extremes and response against published values, closed forms, random phases and
//! integration in time.

use std::f64::consts::{FRAC_PI_2, TAU};

use snugdown::mechanics::motion::GRAVITY;
use snugdown::mechanics::rolling::damping::{Damping, quadratic_of_bertin};
use snugdown::mechanics::rolling::stopwatch::{Loading, gm_m};
use snugdown::mechanics::rolling::{coefficient, period_s};
use snugdown::mechanics::seaway::extremes::{one_wave_in_m, share_of_higher_waves};
use snugdown::mechanics::seaway::response::{BoatInSea, Hull, Seaway, Spreading, encounter_rad_s};
use snugdown::mechanics::seaway::spectrum::{Shape, Spectrum, USUAL_GAMMA};
use snugdown::mechanics::seaway::states::{KNOT_M_S, Waters, period_range_s};
use snugdown::mechanics::seaway::wake::{self, WaveTrain};

#[track_caller]
fn assert_near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} is not within {tolerance} of {expected}"
    );
}

/// 46 CFR 28.575 prints the coefficient with the length in feet; its foot form 0.000131 L is 0.043 L/100
/// in metres to half a per cent. Worked: B 5, d 1.5, L 16, GM 0.9 m.
#[test]
fn the_roll_period_formula_is_that_of_the_federal_rule() {
    let metric = coefficient(16.0, 5.0, 1.5);
    let feet = 0.373 + 0.023 * 5.0 / 1.5 - 0.000131 * (16.0 / 0.3048);
    assert_near(metric, feet, 5e-5);
    assert_near(metric, 0.44279, 5e-6);
    assert_near(period_s(metric, 5.0, 0.9), 4.66738, 5e-5);
}

/// IMO resolution A.749(18), annex 3: the table of f, and its worked value 1.21 m for f 0.88, B 5, T 4.
#[test]
fn the_rolling_period_test_has_the_published_table() {
    let published = [0.88, 0.78, 0.75, 0.73, 0.95, 0.80, 0.60];
    for (loading, factor) in Loading::ALL.into_iter().zip(published) {
        assert_near(loading.factor(), factor, 1e-12);
    }
    assert_near(gm_m(0.88, 5.0, 4.0), 1.2100, 1e-9);
}

/// Closed forms: m0 = Hs²/16; T01/Tp = 1.25^(-1/4) / Γ(3/4); Tz/Tp = (1.25 π)^(-1/4), with what the cut
/// of the tail at 40 times the peak leaves.
#[test]
fn bretschneider_has_its_closed_moments() {
    let sea = Spectrum::new(1.88, 8.8, Shape::Bretschneider);
    let moment = |n| sea.moment(n).unwrap();
    assert_near(moment(0), 0.220900, 1e-6);
    assert_near(sea.density(TAU / 8.8), 0.443201, 1e-6);
    assert_near(TAU * moment(0) / moment(1) / 8.8, 0.771771, 3e-5);
    assert_near(TAU * (moment(0) / moment(2)).sqrt() / 8.8, 0.710371, 4e-4);
}

/// The usual normalisation 1 - 0.287 ln γ leaves m0 0.24 % high at 3.3; ours is by integration, so that the
/// two differ by that.
#[test]
fn jonswap_keeps_the_height() {
    let sea = Spectrum::new(1.0, 5.0, Shape::Jonswap { gamma: USUAL_GAMMA });
    let peak = TAU / 5.0;
    let m0 = sea.moment(0).unwrap();
    assert_near(m0, 1.0 / 16.0, 2e-4 / 16.0);
    let plain = Spectrum::new(1.0, 5.0, Shape::Bretschneider).density(peak);
    let usual = (1.0 - 0.287 * USUAL_GAMMA.ln()) * USUAL_GAMMA * plain;
    assert_near(usual / sea.density(peak), 1.0024, 3e-4);
}

/// Published: 13.5, 1 and 0.03 % of waves are higher than 1, 1.5 and 2 Hs (a cargo insurers' handbook);
/// with Hs 10 m one wave in 10, 100, 1000 is higher than 10.7, 15.1, 18.6 m (a weather service).
#[test]
fn waves_are_as_high_as_published() {
    for (times, percent, rounding) in [(1.0, 13.5, 0.05), (1.5, 1.0, 0.15), (2.0, 0.03, 0.005)] {
        assert_near(
            100.0 * share_of_higher_waves(times * 3.0, 3.0),
            percent,
            rounding,
        );
    }
    for (waves, height_m) in [(10.0, 10.7), (100.0, 15.1), (1000.0, 18.6)] {
        assert_near(one_wave_in_m(waves, 10.0), height_m, 0.08);
    }
}

/// IMO guidance for high-speed craft, table 1: coastal waves of 1, 2, 3 m run at 15-18, 17-23, 19-27 knots,
/// which are these periods.
#[test]
fn coastal_periods_are_those_of_the_published_speeds() {
    for (height_m, low_s, high_s) in [(1.0, 4.9, 5.9), (2.0, 5.6, 7.6), (3.0, 6.3, 8.9)] {
        let [low, high] = period_range_s(height_m, Waters::Coastal);
        assert_near(low, low_s, 0.06);
        assert_near(high, high_s, 0.06);
        let [ocean, _] = period_range_s(height_m, Waters::Ocean);
        assert!(ocean > low, "ocean seas are longer");
    }
}

fn hull(damping: Damping) -> Hull {
    Hull {
        length_m: 12.0,
        beam_m: 4.0,
        roll_period_s: 4.0,
        damping,
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

/// One degree of freedom: at resonance 1 / 2ζ (10, 7.14, 5, 3.33), far below it 1, far above it 1/r².
#[test]
fn the_response_has_its_closed_forms() {
    let hull = hull(Damping::linear(0.1));
    let natural = hull.natural_rad_s();
    for (ratio, gain) in [
        (0.05, 10.0),
        (0.07, 7.142857),
        (0.10, 5.0),
        (0.15, 3.333333),
    ] {
        assert_near(hull.roll_gain2(natural, ratio).sqrt(), gain, 1e-5);
    }
    assert_near(hull.roll_gain2(0.01 * natural, 0.1).sqrt(), 1.0, 2e-4);
    assert_near(
        hull.roll_gain2(30.0 * natural, 0.1).sqrt() * 900.0,
        1.0,
        2e-3,
    );
    // Long swell: nothing along the deck. At resonance: what the roll makes, the slope a quarter late.
    let slow = 0.05 * natural;
    assert!(hull.relative_gain2(slow, 0.1) < 1e-3 * hull.absolute_gain2(slow, 0.1));
    let (g, w2z) = (GRAVITY, natural * natural * 1.5);
    let closed = (w2z + g).hypot(2.0 * 0.1 * g) / 0.2;
    assert_near(hull.relative_gain2(natural, 0.1).sqrt(), closed, 1e-9);
    // Waves far shorter than the boat's own: the slope alone.
    let fast = 40.0 * natural;
    let flat = Hull {
        lever_m: 0.0,
        ..hull
    };
    assert_near(flat.relative_gain2(fast, 0.1).sqrt(), g, 0.01);
    assert!(flat.absolute_gain2(fast, 0.1).sqrt() < 0.01);
}

/// A resonance much narrower than the sea is filled as by white noise: `σ² = π ω₀ S(ω₀) / 4ζ`
/// (textbook); at ζ 0.005 to 2 %.
#[test]
fn a_narrow_resonance_is_filled_by_what_the_sea_has_there() {
    let sea = beam_sea(0.5, 4.5);
    let sigma2 = |ratio: f64| {
        let boat = BoatInSea::new(hull(Damping::linear(ratio)), &sea);
        boat.respond().rolling.roll.sigma.powi(2)
    };
    let natural = TAU / 4.0;
    let k = natural * natural / GRAVITY;
    let average = (2.0 * k).sin() / (2.0 * k);
    let slope = (k * average).powi(2) * sea.spectrum.density(natural);
    let ratio = 0.02;
    // What is not resonance (the quasi-static part) does not hang on the damping: taken off by a difference.
    let resonant = sigma2(ratio) - sigma2(2.0 * ratio);
    let white = std::f64::consts::PI * natural * slope / 4.0;
    let expected = white / ratio - white / (2.0 * ratio);
    assert_near(resonant / expected, 1.0, 0.02);
}

/// Crests followed one by one: waves of period T stand g T²/2π apart and run at g T/2π (textbook, deep water). A
/// boat at 10 knots meets waves of 5 s from ahead 1.659 times as often; before the sea, as often as crests pass
/// her or she passes them; on the beam as if she stood still.
#[test]
fn waves_are_met_as_often_as_their_crests() {
    for period_s in [2.0, 3.5, 5.0, 8.0, 12.0] {
        let (apart_m, runs_m_s) = (
            GRAVITY * period_s * period_s / TAU,
            GRAVITY * period_s / TAU,
        );
        for speed_m_s in [0.0, 2.0, 5.1444] {
            for from_deg in [0.0_f64, 40.0, 90.0, 150.0, 180.0] {
                let from_rad = from_deg.to_radians();
                let towards = runs_m_s + speed_m_s * from_rad.cos();
                let between_s = apart_m / towards.abs();
                let met = encounter_rad_s(TAU / period_s, speed_m_s, from_rad);
                assert_near(met * between_s / TAU, 1.0, 1e-12);
            }
        }
    }
    let w = TAU / 5.0;
    assert_near(encounter_rad_s(w, 10.0 * KNOT_M_S, 0.0) / w, 1.6592, 5e-5);
}

/// How often the slope across her swings at speed, integrated here in equal steps of the frequency with crests
/// followed as above: the whole response has to use it.
#[test]
fn at_speed_the_slope_swings_as_often_as_crests_are_met() {
    let spectrum = Spectrum::new(0.6, 5.0, Shape::Bretschneider);
    for (from_deg, speed_m_s) in [(60.0_f64, 3.0), (135.0, 2.0), (90.0, 4.0)] {
        let sea = Seaway {
            spectrum,
            spreading: Spreading::LongCrested,
            from_rad: from_deg.to_radians(),
            speed_m_s,
        };
        let hull = hull(Damping::linear(0.1));
        let found = BoatInSea::new(hull, &sea).respond().slope;
        let (sin, cos) = from_deg.to_radians().sin_cos();
        let (mut m0, mut m2) = (0.0, 0.0);
        let step = 0.001;
        for i in 50..25_000 {
            let w = (f64::from(i) + 0.5) * step;
            let period_s = TAU / w;
            let apart_m = GRAVITY * period_s * period_s / TAU;
            let (beam, length) = (
                std::f64::consts::PI * hull.beam_m * sin / apart_m,
                std::f64::consts::PI * hull.length_m * cos / apart_m,
            );
            let average = |x: f64| if x.abs() < 1e-9 { 1.0 } else { x.sin() / x };
            let slope = TAU / apart_m * sin * average(beam) * average(length);
            let part = slope * slope * spectrum.density(w) * step;
            let every_s = apart_m / (apart_m / period_s + speed_m_s * cos).abs();
            m0 += part;
            m2 += part * (TAU / every_s).powi(2);
        }
        assert_near(found.sigma / m0.sqrt(), 1.0, 2e-3);
        let every_s = TAU * (m0 / m2).sqrt();
        assert_near(found.zero_crossing_period_s() / every_s, 1.0, 2e-3);
    }
}

/// A small generator (`SplitMix64`), so that the phases are the same everywhere.
struct Phases(u64);

impl Phases {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) as f64 / u64::MAX as f64
    }
}

/// A sum of cosines with random phases, advanced by turning each.
struct Train {
    /// Amplitude times cosine and sine of the phase now; cosine and sine of a step.
    waves: Vec<[f64; 4]>,
}

impl Train {
    /// `density`: variance per unit of frequency. The frequencies are jittered, so that it does not repeat.
    fn new(seed: u64, step_s: f64, density: impl Fn(f64) -> f64) -> Self {
        let mut phases = Phases(seed);
        let (low, high, count) = (0.4, 5.0, 160);
        let width = (high - low) / f64::from(count);
        let waves = (0..count).map(|i| {
            let w = low + (f64::from(i) + phases.next()) * width;
            let amplitude = (2.0 * density(w) * width).sqrt();
            let (sin, cos) = (TAU * phases.next()).sin_cos();
            let (turn_sin, turn_cos) = (w * step_s).sin_cos();
            [amplitude * cos, amplitude * sin, turn_cos, turn_sin]
        });
        Self {
            waves: waves.collect(),
        }
    }

    fn next(&mut self) -> f64 {
        let mut sum = 0.0;
        for [x, y, cos, sin] in &mut self.waves {
            sum += *x;
            (*x, *y) = (*x * *cos - *y * *sin, *x * *sin + *y * *cos);
        }
        sum
    }
}

fn slope_density(hull: &Hull, sea: &Seaway, w: f64) -> f64 {
    let k = w * w / GRAVITY;
    let half = 0.5 * k * hull.beam_m;
    (k * half.sin() / half).powi(2) * sea.spectrum.density(w)
}

/// Twelve hours of the roll spectrum with random phases: how often |roll| passes one to two and a half
/// standard deviations, against the closed form. It counts crossings of a band that is not quite narrow;
/// within 12 % (three standard errors of the rarest count).
#[test]
fn random_phases_pass_limits_as_often_as_the_closed_form() {
    let hull = hull(Damping::linear(0.15));
    let sea = beam_sea(0.88, 4.5);
    let roll = BoatInSea::new(hull, &sea).respond().rolling.roll;
    let step_s = 0.1;
    let hours = 12_u32;
    let limits = [1.0, 1.5, 2.0, 2.5].map(|times| times * roll.sigma);
    let mut passed = [0_u32; 4];
    let mut square = 0.0;
    for hour in 0..hours {
        let mut train = Train::new(u64::from(hour) + 7, step_s, |w| {
            slope_density(&hull, &sea, w) * hull.roll_gain2(w, 0.15)
        });
        let mut before = 0.0_f64;
        for _ in 0..36_000 {
            let now = train.next();
            square += now * now;
            for (limit, count) in limits.iter().zip(&mut passed) {
                *count += u32::from(now.abs() > *limit && before.abs() <= *limit);
            }
            before = now;
        }
    }
    let sigma = (square / f64::from(hours * 36_000)).sqrt();
    assert_near(sigma / roll.sigma, 1.0, 0.02);
    for (limit, count) in limits.into_iter().zip(passed) {
        let expected = roll.times_passed(limit, 3600.0 * f64::from(hours));
        assert_near(f64::from(count) / expected, 1.0, 0.12);
    }
}

/// Quadratic damping in time against the equivalent linear one: standard deviation within 5 % over three
/// hours of random phases.
#[test]
fn quadratic_damping_in_time_agrees_with_its_equivalent() {
    let damping = Damping {
        linear: 0.03,
        quadratic: quadratic_of_bertin(0.0106),
    };
    let hull = hull(damping);
    let sea = beam_sea(0.88, 4.5);
    let expected = BoatInSea::new(hull, &sea).respond().rolling.roll.sigma;
    let (step_s, natural) = (0.05, hull.natural_rad_s());
    let mut square = 0.0;
    let steps = 216_000_u32;
    let mut train = Train::new(3, step_s, |w| slope_density(&hull, &sea, w));
    let (mut roll, mut rate) = (0.0_f64, 0.0_f64);
    for _ in 0..steps {
        // Leapfrog: the damping is small.
        let slope = train.next();
        let a = natural * natural * (slope - roll)
            - (2.0 * damping.linear * natural + damping.quadratic * rate.abs()) * rate;
        rate += step_s * a;
        roll += step_s * rate;
        square += roll * roll;
    }
    let sigma = (square / f64::from(steps)).sqrt();
    assert_near(sigma / expected, 1.0, 0.05);
}

/// At resonance a linear roll grows as α/2ζ (1 - exp(-ζ ω₀ t)): the largest after n waves within 3 % (the
/// closed form is for small ζ).
#[test]
fn a_wake_at_resonance_grows_as_the_closed_form() {
    let ratio = 0.05;
    let hull = hull(Damping::linear(ratio));
    for waves in [2, 4, 8, 30] {
        let train = WaveTrain {
            height_m: 0.3,
            period_s: 4.0,
            waves,
        };
        let steady = train.slope_rad(4.0) / (2.0 * ratio);
        let closed = steady * (1.0 - (-ratio * TAU * f64::from(waves)).exp());
        assert_near(wake::roll(&hull, &train).roll_rad / closed, 1.0, 0.03);
    }
}
