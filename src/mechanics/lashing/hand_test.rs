//! The push test: how far a lashed cylinder gives way when it is pushed by hand at the valve.
//!
//! Alongside, a push `F` at the height `p` tips the body when `F p > m g b` and then slides through the
//! slack until the lashing bites; the foot slides when `F > mu m g`. Either way
//!
//! ```text
//! tipping   movement = p [ slack / c + (F p - m g b) / K ],   K = k c^2 - m g h
//! sliding   movement = slack / cos + (F - mu m g) / (k cos^2)
//! ```
//!
//! `c` is the lever of the lashing about the edge of the foot, `cos` the part of its pull that points
//! against the push, `k` its stiffness. The larger of the two is what the hand sees. Derived in
//! `docs/method.md`, "Slack and snatch".

use crate::mechanics::slack::Leaning;

/// What a person pushes with one hand: 150 N, 15 kg of pull (common practice, no source).
pub const HAND_PUSH_N: f64 = 150.0;

/// The lashing that is tried.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TriedLashing {
    /// Lever about the edge of the foot, m, in the direction of the push.
    pub lever_m: f64,

    /// Part of the pull that points against the push, 0 to 1.
    pub against_push: f64,

    /// Slack, m.
    pub slack_m: f64,

    /// Stiffness along the lashing, N/m.
    pub stiffness_n_per_m: f64,
}

/// How far the place that is pushed moves, m; infinite if the lashing does not stop it.
///
/// `at_rest` is the body on a level deck, `friction` that of its foot, `push_height_m` where it is
/// pushed with `push_n`.
pub fn movement_m(
    at_rest: &Leaning,
    friction: f64,
    lashing: &TriedLashing,
    push_height_m: f64,
    push_n: f64,
) -> f64 {
    let tipping = push_n * push_height_m + at_rest.moment(0.0);
    let tilt = if tipping <= 0.0 {
        0.0
    } else if lashing.lever_m <= 0.0 {
        f64::INFINITY
    } else {
        let lever = lashing.lever_m;
        let slack_lean = lashing.slack_m / lever;
        let stiffness = lashing.stiffness_n_per_m * lever * lever - at_rest.softening(slack_lean);
        if stiffness <= 0.0 {
            f64::INFINITY
        } else {
            slack_lean + tipping / stiffness
        }
    };
    let sliding = push_n - friction * at_rest.mass_kg * at_rest.force.a_n;
    let slide = if sliding <= 0.0 {
        0.0
    } else if lashing.against_push <= 0.0 {
        f64::INFINITY
    } else {
        let cos = lashing.against_push;
        lashing.slack_m / cos + sliding / (lashing.stiffness_n_per_m * cos * cos)
    };
    (push_height_m * tilt).max(slide)
}

/// The most slack, m, that a lashing can have when the pushed place moved by `movement_m`.
///
/// It takes none of the movement as stretch, so the true slack is no more.
pub fn slack_of_movement_m(movement_m: f64, lashing: &TriedLashing, push_height_m: f64) -> f64 {
    let tilted = movement_m * lashing.lever_m / push_height_m;
    let slid = movement_m * lashing.against_push;
    tilted.max(slid).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::lean::{PlaneForce, Stance};
    use crate::mechanics::motion::GRAVITY;
    use crate::mechanics::testing::{AL80, AL80_BASE_M, assert_close};

    fn upright() -> Leaning {
        Leaning {
            mass_kg: AL80.mass_kg,
            stance: Stance {
                centre_height_m: AL80.centre_height_m,
                reach_m: AL80_BASE_M,
            },
            force: PlaneForce {
                a_n: GRAVITY,
                ..PlaneForce::default()
            },
        }
    }

    fn lashing(slack_m: f64, stiffness_n_per_m: f64) -> TriedLashing {
        TriedLashing {
            lever_m: 0.44,
            against_push: 1.0,
            slack_m,
            stiffness_n_per_m,
        }
    }

    /// A rigid strap: the valve at 0.66 m moves 1.5 times the slack at 0.44 m.
    #[test]
    fn a_rigid_strap_shows_its_slack() {
        let moved = movement_m(&upright(), 0.5, &lashing(0.02, 1e12), 0.66, HAND_PUSH_N);
        assert_close(moved, 0.03, 1e-9);
        assert_close(
            slack_of_movement_m(moved, &lashing(0.0, 1e12), 0.66),
            0.03,
            1e-9,
        );
    }

    /// By hand: net moment 150 * 0.66 - 17.8 * 9.80665 * 0.0829 = 84.529 N m over
    /// 40000 * 0.44^2 - 17.8 * 9.80665 * 0.319 = 7688.3 N m: 10.994 mrad, 7.256 mm.
    #[test]
    fn a_tight_strap_gives_by_its_stretch() {
        let moved = movement_m(&upright(), 0.5, &lashing(0.0, 40e3), 0.66, HAND_PUSH_N);
        assert_close(moved, 7.256e-3, 2e-6);
    }

    #[test]
    fn what_nothing_holds_moves_without_end() {
        let none = TriedLashing {
            lever_m: -0.1,
            ..lashing(0.0, 40e3)
        };
        assert!(movement_m(&upright(), 0.5, &none, 0.66, HAND_PUSH_N).is_infinite());
        // 10 N neither tips nor slides it.
        assert_close(movement_m(&upright(), 0.5, &none, 0.66, 10.0), 0.0, 1e-12);
        // A cord so soft that the weight wins.
        let moved = movement_m(&upright(), 0.5, &lashing(0.0, 200.0), 0.66, HAND_PUSH_N);
        assert!(moved.is_infinite());
    }
}
