//! Lying cylinders stacked in two tiers: the upper ones rest in the grooves of the lower ones.
//!
//! Lower row of `n` at pitch `s`, upper row of `n - 1`, all of one mass, no friction, with
//! `x = a_across / a_n` and `gamma` the contact angle of saddles or end chocks:
//!
//! ```text
//! groove             sin nu = s / (2 (R_lower + R_upper));  the upper tier leaves it at x >= tan nu
//! every lower one in its own saddle
//!                    the end one needs tan gamma >= (1.5 x + 0.5 tan nu) / (1.5 + 0.5 x / tan nu),
//!                    the others tan gamma >= x
//! lower row touching, one end chock
//!                    H / V < tan gamma,  V = 1.5 + x / (2 tan nu),
//!                    H = (2n - 1) x                        for x >= tan nu / 3
//!                    H = 2 (n - 2) x + (3 x + tan nu) / 2  for x <  tan nu / 3
//! ```
//!
//! # Assumptions
//!
//! * Without friction: the safe side. The upper row does not touch itself; where it does, it holds
//!   somewhat more (limit analysis), which is not counted.
//! * Each tier has its own height, so its own `x`: give the larger.
//!
//! # References
//!
//! Statics of frictionless contacts, derived in `docs/method.md`, "Lying"; held there against linear
//! programming and a rigid-body engine.

use crate::geometry::Elementary as _;

/// Two tiers of lying cylinders.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TwoTiers {
    /// Cylinders in the lower row; the upper one has one fewer.
    pub lower_count: u32,

    /// `nu`: slope of the line of centres from the upright, rad; see [`groove_angle_rad`].
    pub groove_angle_rad: f64,

    /// `gamma` of the saddles or of the end chocks, rad.
    pub contact_angle_rad: f64,

    /// How the lower row is held.
    pub lower_row: LowerRow,
}

/// How the lower row of a stack is held.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum LowerRow {
    /// Each in its own saddle.
    Saddles,

    /// Touching each other, chocked at both ends of the row.
    EndChocks,
}

/// Angle of the groove between two lower cylinders at pitch `pitch_m`; `None` where the upper one
/// would fall through to the deck or rest on nothing.
pub fn groove_angle_rad(pitch_m: f64, lower_radius_m: f64, upper_radius_m: f64) -> Option<f64> {
    let sin = pitch_m / (2.0 * (lower_radius_m + upper_radius_m));
    (sin > 0.0 && sin < 1.0).then(|| sin.arc_sine())
}

impl TwoTiers {
    /// `x` at which the upper tier leaves its grooves.
    pub fn groove_limit(&self) -> f64 {
        self.groove_angle_rad.tangent()
    }

    /// `x` at which the lower row gives way; 0 when it spreads at rest.
    pub fn row_limit(&self) -> f64 {
        let tan_nu = self.groove_angle_rad.tangent();
        let tan_gamma = self.contact_angle_rad.tangent();
        let n = f64::from(self.lower_count.max(2));
        let limit = match self.lower_row {
            LowerRow::Saddles => {
                let end = crossing(
                    1.5 * tan_gamma - 0.5 * tan_nu,
                    1.5 - 0.5 * tan_gamma / tan_nu,
                );
                end.min(tan_gamma)
            }
            LowerRow::EndChocks => {
                let press = 0.5 * tan_gamma / tan_nu;
                let slow = crossing(
                    1.5 * tan_gamma - 0.5 * tan_nu,
                    2.0 * (n - 2.0) + 1.5 - press,
                );
                if slow < tan_nu / 3.0 {
                    slow
                } else {
                    crossing(1.5 * tan_gamma, 2.0 * n - 1.0 - press)
                }
            }
        };
        limit.max(0.0)
    }

    /// `x` up to which the whole stack holds.
    pub fn limit(&self) -> f64 {
        self.groove_limit().min(self.row_limit())
    }

    /// Share of the limit that a force uses; infinite when nothing presses the stack down, or when
    /// it spreads at rest.
    pub fn utilisation(&self, across: f64, a_n: f64) -> f64 {
        let limit = self.limit();
        if a_n <= 0.0 || limit <= 0.0 {
            f64::INFINITY
        } else {
            across.abs() / (a_n * limit)
        }
    }
}

/// Where `rise * x` passes `margin`; never when it does not rise.
fn crossing(margin: f64, rise: f64) -> f64 {
    if margin < 0.0 {
        0.0
    } else if rise <= 0.0 {
        f64::INFINITY
    } else {
        margin / rise
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::testing::{assert_close, assert_infinite};
    use proptest::prelude::*;

    /// Half of the last digit of the tables of `docs/method.md`, "Lying".
    const TABLE: f64 = 0.5e-5;

    fn touching(lower_count: u32, gamma_deg: f64) -> TwoTiers {
        TwoTiers {
            lower_count,
            groove_angle_rad: groove_angle_rad(2.0, 1.0, 1.0).unwrap(),
            contact_angle_rad: gamma_deg.to_radians(),
            lower_row: LowerRow::EndChocks,
        }
    }

    #[test]
    fn grooves_match_the_table() {
        for (pitch, limit) in [
            (2.0, 0.57735),
            (2.2, 0.65855),
            (2.4, 0.75000),
            (2.8, 0.98020),
        ] {
            let nu = groove_angle_rad(pitch, 1.0, 1.0).unwrap();
            assert_close(nu.tangent(), limit, TABLE);
        }
        assert_eq!(groove_angle_rad(4.0, 1.0, 1.0), None);
    }

    #[test]
    fn touching_rows_match_the_table() {
        for (n, limits) in [
            (2, [0.34641, 0.57735, 0.57735]),
            (3, [0.19245, 0.36285, 0.57735]),
        ] {
            for (gamma_deg, limit) in [30.0, 45.0, 60.0].into_iter().zip(limits) {
                assert_close(touching(n, gamma_deg).limit(), limit, TABLE);
            }
        }
    }

    #[test]
    fn a_low_chock_lets_the_row_spread_at_rest() {
        let least = 0.19245_f64.arc_tangent().to_degrees();
        assert_close(least, 10.9, 0.05);
        assert_infinite(touching(3, least - 0.1).utilisation(0.0, 9.0));
        assert!(touching(3, least + 0.1).limit() > 0.0);
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(128))]

        /// Both branches of the end chock, evaluated as they stand.
        #[test]
        fn the_end_chock_limit_is_its_balance(n in 2..8_u32, gamma in 0.2..1.3_f64, pitch in 2.0..3.5_f64) {
            let nu = groove_angle_rad(pitch, 1.0, 1.0).unwrap().tangent();
            let stack = TwoTiers {
                lower_count: n,
                groove_angle_rad: nu.arc_tangent(),
                contact_angle_rad: gamma,
                lower_row: LowerRow::EndChocks,
            };
            let holds = |x: f64| {
                let n = f64::from(n);
                let h = if x >= nu / 3.0 { (2.0 * n - 1.0) * x } else { 2.0 * (n - 2.0) * x + 1.5 * x + 0.5 * nu };
                h / (1.5 + x / (2.0 * nu)) < gamma.tangent()
            };
            let limit = stack.row_limit();
            if limit > 0.0 && limit.is_finite() {
                prop_assert!(holds(limit * (1.0 - 1e-9)));
                prop_assert!(!holds(limit * (1.0 + 1e-9)));
            } else {
                prop_assert_eq!(holds(0.0), limit > 0.0);
            }
        }

        #[test]
        fn the_saddle_limit_is_its_balance(gamma in 0.05..1.3_f64, pitch in 2.0..3.5_f64) {
            let nu = groove_angle_rad(pitch, 1.0, 1.0).unwrap().tangent();
            let stack = TwoTiers {
                lower_count: 3,
                groove_angle_rad: nu.arc_tangent(),
                contact_angle_rad: gamma,
                lower_row: LowerRow::Saddles,
            };
            let holds = |x: f64| {
                gamma.tangent() >= (1.5 * x + 0.5 * nu) / (1.5 + 0.5 * x / nu) && gamma.tangent() >= x
            };
            let limit = stack.row_limit();
            if limit > 0.0 {
                prop_assert!(holds(limit * (1.0 - 1e-9)));
                prop_assert!(!holds(limit * (1.0 + 1e-9)));
            } else {
                prop_assert!(!holds(0.0));
            }
        }

        #[test]
        fn a_longer_row_never_holds_more(n in 2..8_u32, gamma in 0.2..1.3_f64) {
            let (short, long) = (touching(n, gamma.to_degrees()), touching(n + 1, gamma.to_degrees()));
            prop_assert!(long.limit() <= short.limit());
        }
    }
}
