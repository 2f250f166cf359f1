//! Slack lashings: how far a body leans before one bites, and the pull with which it is caught.
//!
//! # Derivation
//!
//! A body leans by `d` about the edge of its foot. Its net moment `M(d)` and the work `E(d)` from upright
//! are those of [`lean`](super::lean), times its mass; the moment grows by the softening
//!
//! ```text
//! G(d) = dM/dd = m [ a_n (h cos d + b sin d) + a_h (b cos d - h sin d) ]
//! ```
//!
//! A lashing with the lever `c` (how much it stretches per radian) and the stiffness `k` bites at the lean
//! `delta` where its slack is used up. From there the work so far and that of the further lean are taken up
//! by its stretch:
//!
//! ```text
//! F_s = M(delta) / c                                       the pull that would hold it still there
//! T_peak = F_s + sqrt( F_s^2 + 2 k E )                     the moment taken as constant
//! T_peak = k c [ M + sqrt( M^2 + 2 K E ) ] / K ,  K = k c^2 - G     the moment growing with the lean
//! ```
//!
//! With `K <= 0` the body runs away, however strong the lashing; the least stiffness that holds is
//! `G / c^2`. Without slack, but loaded suddenly, the peak is `2 F_s`. Slack means that there is no
//! pretension.
//!
//! # Accuracy
//!
//! Against a lean integrated in time with the geometry of the strap (see the tests), with the lean taken
//! from that geometry: the first form within 1.1 %, the second within 0.3 % for leans below 10°. For soft cords the second is on the safe
//! side: 62.4 N against 58.1 N at 800 N/m, 160 N against 102 N at 400 N/m and 31° of lean.
//!
//! # References
//!
//! Derived in `docs/method.md`, "Slack and snatch".

use super::lean::{PlaneForce, Stance};
use crate::geometry::Elementary as _;

/// A body that may lean about the edge of its foot, in the plane of the fall.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Leaning {
    /// Its mass.
    pub mass_kg: f64,

    /// How it stands.
    pub stance: Stance,

    /// What it feels.
    pub force: PlaneForce,
}

impl Leaning {
    /// `M(d)`, N m: the net moment at the lean `d` (rad); positive when it goes on tipping.
    pub fn moment(&self, lean_rad: f64) -> f64 {
        self.mass_kg * self.stance.moment(&self.force, lean_rad)
    }

    /// `E(d)`, J: the work of the apparent force from upright to the lean `d` (rad).
    pub fn work(&self, lean_rad: f64) -> f64 {
        self.mass_kg * self.stance.energy(&self.force, lean_rad)
    }

    /// `G(d)`, N m per radian: how fast the net moment grows with the lean.
    pub fn softening(&self, lean_rad: f64) -> f64 {
        let (sin, cos) = lean_rad.sine_cosine();
        let (h, b) = (self.stance.centre_height_m, self.stance.reach_m);
        let PlaneForce { a_h, a_n, spin: _ } = self.force;
        self.mass_kg * (a_n * (h * cos + b * sin) + a_h * (b * cos - h * sin))
    }
}

/// Leans beyond this are a fall.
const LARGEST_LEAN_RAD: f64 = std::f64::consts::FRAC_PI_2;

/// Steps in which the bite is looked for before it is bisected: a quarter of a degree each.
const LEAN_STEPS: u32 = 360;

/// The line of a lashing in the plane of the fall.
///
/// Distances along are from the edge of the foot, positive the way it falls; heights are above the foot.
#[expect(
    clippy::struct_field_names,
    reason = "the unit stands in the name of every quantity"
)]
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Line {
    /// Attachment on the body, along, m.
    pub attachment_along_m: f64,

    /// Attachment on the body, height, m.
    pub attachment_height_m: f64,

    /// Lashing point, along, m.
    pub point_along_m: f64,

    /// Lashing point, height, m.
    pub point_height_m: f64,

    /// How far the two are apart across the plane of the fall, m.
    pub across_m: f64,
}

impl Line {
    /// Vector from the point to the attachment at a lean, along and up.
    fn reach(&self, lean_rad: f64) -> (f64, f64) {
        let (sin, cos) = lean_rad.sine_cosine();
        let (x, z) = (self.attachment_along_m, self.attachment_height_m);
        (
            x * cos + z * sin - self.point_along_m,
            z * cos - x * sin - self.point_height_m,
        )
    }

    /// Length of the lashing at a lean, m.
    pub fn length_m(&self, lean_rad: f64) -> f64 {
        let (along, up) = self.reach(lean_rad);
        along.hypotenuse(up).hypotenuse(self.across_m)
    }

    /// Lever at a lean, m: how much the lashing stretches per radian.
    pub fn lever_m(&self, lean_rad: f64) -> f64 {
        let (sin, cos) = lean_rad.sine_cosine();
        let (x, z) = (self.attachment_along_m, self.attachment_height_m);
        let (along, up) = self.reach(lean_rad);
        let length = self.length_m(lean_rad);
        if length > 0.0 {
            (along * (z * cos - x * sin) - up * (x * cos + z * sin)) / length
        } else {
            0.0
        }
    }

    /// The first lean, rad, at which the lashing has stretched by `slack_m`; `None` if it never does.
    pub fn lean_at_bite_rad(&self, slack_m: f64) -> Option<f64> {
        let taut = self.length_m(0.0) + slack_m;
        let lean = |step: u32| f64::from(step) / f64::from(LEAN_STEPS) * LARGEST_LEAN_RAD;
        let bitten = (1..=LEAN_STEPS).find(|&step| self.length_m(lean(step)) >= taut)?;
        let (mut loose, mut tight) = (lean(bitten - 1), lean(bitten));
        // Each halving gains a bit; the step has fewer than these.
        for _ in 0..52 {
            let middle = f64::midpoint(loose, tight);
            if self.length_m(middle) >= taut {
                tight = middle;
            } else {
                loose = middle;
            }
        }
        Some(tight)
    }
}

/// A lashing that may be slack.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct SlackLashing {
    /// Lever about the edge of the foot with the body upright, m.
    pub lever_m: f64,

    /// Slack, m: what the lashing can be drawn out before it pulls.
    pub slack_m: f64,

    /// Stiffness along the lashing, N/m.
    pub stiffness_n_per_m: f64,

    /// Its line, from which the lean at the bite follows exactly. Without it the lean is taken as slack
    /// over lever, which is good to a few per cent up to 5°.
    pub line: Option<Line>,
}

/// How a body and its slack lashing get on.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Snatch {
    /// It does not lean at all.
    Stands,

    /// It falls: no lean stretches the lashing.
    NeverBites,

    /// It is caught.
    Caught(Catch),
}

/// A body caught by its lashing.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Catch {
    /// Lean at the bite, rad.
    pub lean_rad: f64,

    /// The lashing catches a body that would fall by itself.
    pub beyond_balance: bool,

    /// Energy gained by then, J.
    pub energy_j: f64,

    /// `F_s`: the pull that would hold it still at that lean, N.
    pub static_pull_n: f64,

    /// Peak pull with the moment taken as constant, N.
    pub peak_constant_n: f64,

    /// Peak pull, N; infinite when the lashing is too soft to stop it at all. Compare this one.
    pub peak_n: f64,

    /// Lean at the peak, rad; infinite likewise.
    pub peak_lean_rad: f64,

    /// Lean at which it comes to rest, rad; infinite likewise.
    pub steady_lean_rad: f64,
}

/// What happens when the load comes on with the lashing slack, or suddenly with no slack.
pub fn snatch(body: &Leaning, lashing: &SlackLashing) -> Snatch {
    if body.moment(0.0) <= 0.0 {
        return Snatch::Stands;
    }
    let Some((lean, lever)) = bite(lashing) else {
        return Snatch::NeverBites;
    };
    let moment = body.moment(lean);
    let energy = body.work(lean).max(0.0);
    let stiffness = lashing.stiffness_n_per_m;
    let static_pull_n = moment / lever;
    let left = stiffness * lever * lever - body.softening(lean);
    let further = if left > 0.0 {
        (moment + (moment * moment + 2.0 * left * energy).sqrt()) / left
    } else {
        f64::INFINITY
    };
    Snatch::Caught(Catch {
        lean_rad: lean,
        beyond_balance: lean > body.stance.tip_angle_rad(),
        energy_j: energy,
        static_pull_n,
        peak_constant_n: static_pull_n
            + (static_pull_n * static_pull_n + 2.0 * stiffness * energy).sqrt(),
        peak_n: stiffness * lever * further,
        peak_lean_rad: lean + further,
        steady_lean_rad: if left > 0.0 {
            lean + moment / left
        } else {
            f64::INFINITY
        },
    })
}

/// Lean and lever at the bite.
fn bite(lashing: &SlackLashing) -> Option<(f64, f64)> {
    if let Some(line) = lashing.line {
        let lean = line.lean_at_bite_rad(lashing.slack_m)?;
        let lever = line.lever_m(lean);
        return (lever > 0.0).then_some((lean, lever));
    }
    let lean = lashing.slack_m / lashing.lever_m;
    (lashing.lever_m > 0.0 && lean <= LARGEST_LEAN_RAD).then_some((lean, lashing.lever_m))
}

/// The least stiffness, N/m, of a lashing with this lever that keeps a body from running away.
///
/// Softer than that no strength holds it. `lean_rad` is that at the bite, zero without slack. Infinite
/// without a lever.
pub fn least_stiffness_n_per_m(body: &Leaning, lever_m: f64, lean_rad: f64) -> f64 {
    if lever_m > 0.0 {
        (body.softening(lean_rad) / (lever_m * lever_m)).max(0.0)
    } else {
        f64::INFINITY
    }
}

/// The peak pull, N, when a body slides into its slack lashing.
///
/// `net_n` is `m (a_h - mu a_n)`, the force that drives it; `against` the part of the lashing's pull that
/// points against it, 0 to 1. Zero if it does not slide, infinite if the lashing does not oppose it.
///
/// ```text
/// travel = slack / cos,  E = net travel,  F_s = net / cos,  T_peak = F_s + sqrt( F_s^2 + 2 k E )
/// ```
pub fn sliding_peak_n(net_n: f64, against: f64, slack_m: f64, stiffness_n_per_m: f64) -> f64 {
    if net_n <= 0.0 {
        return 0.0;
    }
    if against <= 0.0 {
        return f64::INFINITY;
    }
    let static_pull = net_n / against;
    let energy = net_n * slack_m / against;
    static_pull + (static_pull * static_pull + 2.0 * stiffness_n_per_m * energy).sqrt()
}

#[cfg(test)]
mod tests;
