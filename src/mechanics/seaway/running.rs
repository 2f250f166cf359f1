//! A boat that runs: where linear theory ends, and what is assumed beyond.
//!
//! Above a Froude number of 0.3 on the waterline (a speed-length ratio of about 1 in knots and feet) a small
//! boat lifts, slams and jumps, and none of it is in linear theory: the estimate is refused. A recorded log
//! is best; until there is one, a preset says what loose things feel. The Froude number is our judgement,
//! the presets are common practice, no source.

use super::states::KNOT_M_S;
use crate::mechanics::motion::GRAVITY;

/// Froude number above which the estimate is refused.
pub const LARGEST_FROUDE: f64 = 0.3;

/// `V / sqrt(g L)`.
pub fn froude(speed_kn: f64, waterline_length_m: f64) -> f64 {
    speed_kn * KNOT_M_S / (GRAVITY * waterline_length_m).sqrt()
}

/// The greatest speed in knots for which the estimate is given.
pub fn largest_speed_kn(waterline_length_m: f64) -> f64 {
    LARGEST_FROUDE * (GRAVITY * waterline_length_m).sqrt() / KNOT_M_S
}

/// How a boat runs.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Preset {
    /// In a slight sea, at a speed at which people stand at ease.
    Easy,
    /// Into a short sea: everybody holds on.
    Hard,
    /// Leaving the water and landing.
    Airborne,
}

/// What loose things feel on a boat that runs: degrees to each side, shares of gravity.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct RunningMotion {
    /// Roll to each side, degrees.
    pub roll_deg: f64,
    /// Pitch up and down, degrees.
    pub pitch_deg: f64,
    /// Vertical acceleration up and down, g; above 1 everything must be held down.
    pub vertical_g: f64,
    /// Stopping, g.
    pub stopping_g: f64,
    /// Turning, g.
    pub turning_g: f64,
}

impl Preset {
    /// All of them, gentlest first.
    pub const ALL: [Self; 3] = [Self::Easy, Self::Hard, Self::Airborne];

    /// The figures: common practice, no source.
    pub fn motion(self) -> RunningMotion {
        let [roll_deg, pitch_deg, vertical_g, stopping_g, turning_g] = match self {
            Self::Easy => [6.0, 4.0, 0.3, 0.2, 0.2],
            Self::Hard => [10.0, 6.0, 0.8, 0.4, 0.3],
            Self::Airborne => [12.0, 8.0, 1.5, 0.7, 0.5],
        };
        RunningMotion {
            roll_deg,
            pitch_deg,
            vertical_g,
            stopping_g,
            turning_g,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    #[test]
    fn the_limit_is_where_it_says() {
        for length_m in [6.0, 11.0, 24.0] {
            let speed_kn = largest_speed_kn(length_m);
            assert_close(froude(speed_kn, length_m), LARGEST_FROUDE, 1e-12);
            // Knots over the root of the length in feet.
            let ratio = speed_kn / (length_m / 0.3048_f64).sqrt();
            assert_close(ratio, 1.0, 0.01);
        }
    }

    #[test]
    fn harder_is_harder_in_every_way() {
        let [easy, hard, airborne] = Preset::ALL.map(Preset::motion);
        for (a, b) in [(easy, hard), (hard, airborne)] {
            assert!(a.roll_deg < b.roll_deg && a.pitch_deg < b.pitch_deg);
            assert!(a.vertical_g < b.vertical_g && a.stopping_g < b.stopping_g);
            assert!(a.turning_g < b.turning_g);
        }
        assert!(airborne.vertical_g > 1.0, "things leave the deck");
    }
}
