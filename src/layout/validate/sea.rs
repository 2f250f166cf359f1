//! The sea of a part of the day, and what was timed of the boat's roll.

use super::{Field, Report};
use crate::layout::{Boat, Part};

/// One height, and no period that the wave could not stand up with.
pub(super) fn check_part(part: &Part, place: Field<'_>, report: &mut Report) {
    if let Some(sea) = &part.sea {
        match (sea.wave_height_m, sea.sea_state) {
            (None, None) => report.add(
                format_args!("{place}.sea"),
                "the sea has no height",
                "give wave_height_m or sea_state",
            ),
            (Some(_), Some(_)) => report.add(
                format_args!("{place}.sea.sea_state"),
                "the sea has a wave height and a sea state",
                "take one of the two out",
            ),
            _ => {}
        }
        if let (Some(height_m), Some(period_s)) = (sea.wave_height_m, sea.wave_period_s) {
            check_steepness(height_m, period_s, format_args!("{place}.sea"), report);
        }
    }
    if let Some(wake) = &part.wake {
        let place = format_args!("{place}.wake");
        check_steepness(wake.wave_height_m, wake.wave_period_s, place, report);
    }
}

/// A wave higher than a seventh of its length breaks (Stokes' limit for deep water, textbook).
fn check_steepness(height_m: f64, period_s: f64, place: Field<'_>, report: &mut Report) {
    let length_m = 9.80665 * period_s * period_s / std::f64::consts::TAU;
    if height_m > length_m / 7.0 {
        report.add(
            format_args!("{place}.wave_period_s"),
            format!("waves of {height_m} m every {period_s} s cannot stand: they break"),
            format!(
                "time the waves again: so high, they come at least {:.1} s apart",
                (7.0 * height_m * std::f64::consts::TAU / 9.80665).sqrt()
            ),
        );
    }
}

/// A range that runs from short to long.
pub(super) fn check_boat(boat: &Boat, report: &mut Report) {
    if let Some([short, long]) = boat.roll_period_range_s
        && short > long
    {
        report.add(
            "boat.roll_period_range_s",
            format!("the shortest roll period, {short} s, is longer than the longest, {long} s"),
            "write the shorter one first",
        );
    }
}
