use super::*;
use crate::layout::Plan;

fn estimate(sea: Option<&Sea>, wake: Option<&Wake>) -> SeaEstimate {
    let mut boat = Plan::new("Test", 11.0, 3.6).boat;
    boat.roll_period_s = Some(3.5);
    SeaInput::new(&boat, sea, wake, Some(2.0), Some(1.4)).estimate()
}

fn half_a_metre() -> Sea {
    Sea {
        wave_height_m: Some(0.5),
        ..Sea::default()
    }
}

#[test]
fn ocean_periods_hide_what_coastal_ones_show() {
    let coastal = estimate(Some(&half_a_metre()), None).sea.unwrap();
    let ocean = Sea {
        waters: WatersKind::Ocean,
        ..half_a_metre()
    };
    let ocean = estimate(Some(&ocean), None).sea.unwrap();
    assert!(coastal.seen_roll_deg > 1.05 * ocean.seen_roll_deg);
    assert!(coastal.checked_roll_deg >= coastal.seen_roll_deg);
    assert!(coastal.seen_roll_band_deg[0] < coastal.seen_roll_deg);
    assert!(coastal.seen_roll_band_deg[1] > coastal.seen_roll_deg);
}

#[test]
fn more_sea_more_motion_and_none_none() {
    let of = |height| {
        let sea = Sea {
            wave_height_m: Some(height),
            ..Sea::default()
        };
        estimate(Some(&sea), None).motion.unwrap()
    };
    let (flat, low, high) = (of(0.0), of(0.3), of(0.8));
    assert!(flat.roll_amplitude_deg < 1e-9 && flat.vertical_g < 1e-9);
    assert!(low.roll_amplitude_deg < high.roll_amplitude_deg);
    assert!(low.vertical_g < high.vertical_g);
}

#[test]
fn a_boat_too_fast_gets_a_preset_and_the_reason() {
    let fast = Sea {
        speed_kn: 22.0,
        ..half_a_metre()
    };
    let found = estimate(Some(&fast), None);
    let refused = found.sea.as_ref().unwrap().refused.as_ref().unwrap();
    assert!(refused.contains("linear theory") && refused.contains("hard"));
    let motion = found.motion.unwrap();
    assert_eq!(motion.source, MotionSource::Preset);
    assert!(motion.push_astern_g > 0.0);
}

#[test]
fn a_wake_counts_at_the_quay_and_with_a_sea_the_larger() {
    let wake = Wake {
        wave_height_m: 0.4,
        wave_period_s: 3.5,
        waves: 5,
    };
    let alone = estimate(None, Some(&wake));
    assert_eq!(alone.motion.as_ref().unwrap().source, MotionSource::Wake);
    let flat = Sea {
        wave_height_m: Some(0.05),
        ..Sea::default()
    };
    let both = estimate(Some(&flat), Some(&wake)).motion.unwrap();
    let roll = alone.motion.unwrap().roll_amplitude_deg;
    assert!((both.roll_amplitude_deg - roll).abs() < 1e-12);
    assert!(both.pitch_amplitude_deg > 0.0, "the pitch is the sea's");
}

#[test]
fn a_range_of_roll_periods_takes_the_worst() {
    let mut boat = Plan::new("Test", 11.0, 3.6).boat;
    let force = |boat: &Boat| {
        let input = SeaInput::new(boat, Some(&half_a_metre()), None, None, Some(1.4));
        let sea = input.estimate().sea.unwrap();
        sea.by_roll_m_s2.max(sea.by_roll_less_slope_m_s2)
    };
    boat.roll_period_range_s = Some([2.0, 4.0]);
    let worst = force(&boat);
    boat.roll_period_range_s = None;
    for period in [2.0, 3.0, 4.0] {
        boat.roll_period_s = Some(period);
        assert!(force(&boat) <= worst * 1.000_001, "{period}");
    }
}

/// The area below the curve of roll is the variance that the estimate gives, and that below the curve of the sea
/// the sea's; in a beam sea, in one met at speed from off the bow, and in spread ones.
#[test]
fn the_curves_hold_what_the_estimate_says() {
    let boat = Plan::new("Test", 11.0, 3.6).boat;
    for (from, speed_kn, spreading) in [
        (90.0, 0.0, SpreadingKind::LongCrested),
        (60.0, 4.0, SpreadingKind::LongCrested),
        (90.0, 0.0, SpreadingKind::Cosine2),
        (30.0, 4.0, SpreadingKind::Cosine8),
    ] {
        let sea = Sea {
            waves_from_deg: Some(from),
            speed_kn,
            spreading,
            ..half_a_metre()
        };
        let input = SeaInput::new(&boat, Some(&sea), None, None, Some(1.4));
        let numbers = input.estimate().sea.unwrap();
        assert!((numbers.rolls_most_from_deg - from).abs() < 1e-9);
        let points = sea_curves(&boat, &sea, &numbers);
        let area = |of: fn(&SeaPoint) -> f64| -> f64 {
            let pairs = points.windows(2);
            pairs
                .map(|pair| {
                    let step = pair[1].wave_period_s - pair[0].wave_period_s;
                    0.5 * step * (of(&pair[0]) + of(&pair[1]))
                })
                .sum()
        };
        let roll = area(|point| point.roll_deg2_per_s).sqrt();
        assert!(
            (roll / numbers.roll_sigma_deg - 1.0).abs() < 0.02,
            "{roll} for {} with {spreading:?}",
            numbers.roll_sigma_deg
        );
        let height = 4.0 * area(|point| point.sea_m2_per_s).sqrt();
        assert!(
            (height / numbers.wave_height_m - 1.0).abs() < 0.03,
            "{height}"
        );
    }
}
