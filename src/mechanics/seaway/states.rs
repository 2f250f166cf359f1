//! Heights of the WMO sea states, and the periods that go with a height.
//!
//! Open-ocean periods are those of swell. Small boats roll every 2 to 6 s and meet that in short coastal
//! seas: an ocean period would hide the danger, so coastal periods are the default.
//!
//! # References
//!
//! * Sea states: WMO code table 3700.
//! * Periods: wave speeds against significant height in coastal and ocean waters, IMO guidance for
//!   high-speed craft, table 1, with `T = 2 pi c / g`. Below 1 m the period goes with the square root of
//!   the height (the same steepness as at 1 m): our own continuation. The period is taken as the peak's.

use std::f64::consts::TAU;

use crate::mechanics::motion::GRAVITY;

/// Metres per second in a knot.
pub const KNOT_M_S: f64 = 1852.0 / 3600.0;

/// Least and greatest significant height of sea states 0 to 8 in metres (WMO code table 3700).
const STATES: [[f64; 2]; 9] = [
    [0.0, 0.0],
    [0.0, 0.1],
    [0.1, 0.5],
    [0.5, 1.25],
    [1.25, 2.5],
    [2.5, 4.0],
    [4.0, 6.0],
    [6.0, 9.0],
    [9.0, 14.0],
];

/// Least and greatest significant height of a sea state in metres; state 9, above 14 m, has none.
pub fn height_range_m(state: u8) -> Option<[f64; 2]> {
    STATES.get(usize::from(state)).copied()
}

/// The sea state of a significant height: a bounding height takes the lower state.
pub fn state_of(significant_height_m: f64) -> u8 {
    let below = STATES
        .iter()
        .take_while(|range| significant_height_m > range[1])
        .count();
    u8::try_from(below).unwrap_or(9)
}

/// Which waters.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Waters {
    /// Near the coast: short seas.
    Coastal,
    /// Open ocean: long seas.
    Ocean,
}

/// Wave speeds in knots for significant heights of 1, 2, … 6 m.
const fn speeds_kn(waters: Waters) -> [[f64; 2]; 6] {
    match waters {
        Waters::Coastal => [
            [15.0, 18.0],
            [17.0, 23.0],
            [19.0, 27.0],
            [20.0, 30.0],
            [21.0, 33.0],
            [23.0, 35.0],
        ],
        Waters::Ocean => [
            [19.0, 29.0],
            [21.0, 31.0],
            [25.0, 35.0],
            [29.0, 39.0],
            [32.0, 42.0],
            [36.0, 46.0],
        ],
    }
}

/// Period in seconds of a deep-water wave that runs at this speed.
pub fn period_of_speed_s(speed_kn: f64) -> f64 {
    TAU * speed_kn * KNOT_M_S / GRAVITY
}

/// Shortest and longest period in seconds for a significant height; above 6 m that of 6 m.
pub fn period_range_s(significant_height_m: f64, waters: Waters) -> [f64; 2] {
    let rows = speeds_kn(waters).map(|row| row.map(period_of_speed_s));
    let first = rows[0];
    if significant_height_m <= 1.0 {
        let share = significant_height_m.max(0.0).sqrt();
        return [first[0] * share, first[1] * share];
    }
    let mut upper = 1.0;
    for pair in rows.windows(2) {
        let above = significant_height_m - upper;
        if above <= 1.0 {
            let between = |i: usize| pair[0][i] + above * (pair[1][i] - pair[0][i]);
            return [between(0), between(1)];
        }
        upper += 1.0;
    }
    rows[5]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    #[test]
    fn a_bounding_height_takes_the_lower_state() {
        let heights = [0.0, 0.05, 0.1, 0.3, 0.5, 1.25, 1.26, 6.0, 14.0, 15.0];
        let states = heights.map(state_of);
        assert_eq!(states, [0, 1, 1, 2, 2, 3, 4, 6, 8, 9]);
        assert_eq!(height_range_m(3), Some([0.5, 1.25]));
        assert_eq!(height_range_m(9), None);
    }

    #[test]
    fn periods_grow_with_the_height_and_do_not_jump() {
        for waters in [Waters::Coastal, Waters::Ocean] {
            let mut before = [0.0, 0.0];
            for step in 0..=700 {
                let now = period_range_s(f64::from(step) * 0.01, waters);
                assert!(now[0] >= before[0] && now[1] >= before[1]);
                assert!(step < 20 || now[1] - before[1] < 0.2, "at {step}");
                before = now;
            }
        }
    }

    #[test]
    fn half_a_metre_near_the_coast_is_short() {
        let [low, high] = period_range_s(0.5, Waters::Coastal);
        assert_close(low, 4.943_9 * 0.5_f64.sqrt(), 1e-3);
        assert_close(high, 5.932_7 * 0.5_f64.sqrt(), 1e-3);
    }
}
