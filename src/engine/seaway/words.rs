//! The estimate in words.

use crate::engine::numbers::SeaNumbers;
use crate::layout::{Sea, SpectrumKind, WatersKind};

/// The estimate step by step.
pub(super) fn steps(sea: &Sea, numbers: &SeaNumbers) -> Vec<String> {
    let n = numbers;
    let spectrum = match sea.spectrum {
        SpectrumKind::Bretschneider => "Bretschneider",
        SpectrumKind::Jonswap => "JONSWAP, peak 3.3",
    };
    let waters = match (sea.wave_period_s, sea.waters) {
        (Some(_), _) => "given",
        (None, WatersKind::Coastal) => "coastal waters, IMO wave speeds",
        (None, WatersKind::Ocean) => "open ocean, IMO wave speeds",
    };
    let governs = if n.by_roll_less_slope_m_s2 > n.by_roll_m_s2 {
        "roll less slope governs"
    } else {
        "roll governs"
    };
    vec![
        format!(
            "sea: significant height {:.2} m (sea state {}), peak period {:.1} to {:.1} s ({waters}), worst {:.1} s; \
             {spectrum}",
            n.wave_height_m,
            n.sea_state,
            n.wave_period_tried_s[0],
            n.wave_period_tried_s[1],
            n.wave_period_s
        ),
        format!(
            "waves {}; speed {:.1} knots",
            match sea.waves_from_deg {
                Some(from) => format!("from {from:.0}° off the bow"),
                None => "from the worst side for each of roll, pitch and heave".to_owned(),
            },
            sea.speed_kn
        ),
        format!(
            "natural roll period {:.2} s, damping {:.3} of the critical",
            n.natural_roll_period_s, n.damping_ratio
        ),
        format!(
            "roll: standard deviation {:.2}°, every {:.2} s; most probable largest in {:.1} h {:.1}° ({:.1} to {:.1}° over \
             the band of damping), one such time in ten passes {:.1}°",
            n.roll_sigma_deg,
            n.roll_zero_crossing_s,
            n.lasts_h,
            n.seen_roll_deg,
            n.seen_roll_band_deg[0],
            n.seen_roll_band_deg[1],
            n.one_in_ten_roll_deg
        ),
        format!(
            "force along the deck {:.2} m above the roll axis: {:.2} m/s² by roll, {:.2} m/s² by roll less the wave's \
             slope; {governs}: checked with a roll of {:.1}°",
            n.lever_m, n.by_roll_m_s2, n.by_roll_less_slope_m_s2, n.checked_roll_deg
        ),
        format!(
            "pitch {:.1}° every {:.2} s; up and down {:.2} g",
            n.pitch_deg, n.pitch_zero_crossing_s, n.vertical_g
        ),
    ]
}

/// How the motion was made, in one line for the plan.
pub(super) fn made_from(sea: &Sea, numbers: &SeaNumbers) -> String {
    let from = match sea.waves_from_deg {
        Some(from) => format!("from {from:.0}° off the bow"),
        None => "from the worst side".to_owned(),
    };
    format!(
        "waves of {:.2} m every {:.1} s {from} for {:.1} h: {:.1}° seen, checked with {:.1}°",
        numbers.wave_height_m,
        numbers.wave_period_s,
        numbers.lasts_h,
        numbers.seen_roll_deg,
        numbers.checked_roll_deg
    )
}
