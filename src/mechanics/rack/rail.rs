//! The rail, the foot, and the strap across a row.

use crate::geometry::Elementary as _;
use crate::mechanics::lean::{PlaneForce, Stance};
use crate::mechanics::motion::Extremes;
use crate::mechanics::standing::Body;

/// What retains a body, and how its foot is held.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Rail {
    /// `r`: height of the retaining edge above what the body stands on, m.
    pub height_m: f64,

    /// `c`: bore less body diameter, m.
    pub play_m: f64,

    /// Does a socket floor, fiddle, lip or cup stop the foot?
    pub foot_stopped: bool,

    /// Friction under the foot.
    pub friction: f64,
}

impl Rail {
    /// Lean until the body touches it, rad.
    pub fn lean_rad(&self) -> f64 {
        self.play_m
            .max(0.0)
            .arc_tangent_over(self.height_m.max(0.0))
    }
}

/// What one body does to its rail, its foot stop and its shelf.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct RailForces {
    /// `F_mom`: what keeps it from falling over, N.
    pub moment_n: f64,

    /// `F_slide`: what friction under the foot leaves to be held, N.
    pub slide_n: f64,

    /// What the rail carries, N; infinite for a rail that is not above the foot.
    pub rail_n: f64,

    /// `S`: what the foot stop carries, N; outward > 0, inward < 0; `None` without a stop.
    pub stop_n: Option<f64>,

    /// `U_kick`: share of the limit at which the foot slides out under the rail; 0 with a stop.
    pub kick: f64,

    /// What must hold it down, N.
    pub lift_n: f64,
}

/// A rail with the lean at which a body touches it, for many forces.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct SetRail {
    rail: Rail,
    /// Sine and cosine of the lean.
    lean: (f64, f64),
}

impl From<Rail> for SetRail {
    fn from(rail: Rail) -> Self {
        let (play, r) = (rail.play_m.max(0.0), rail.height_m);
        let slant = (play * play + r * r).sqrt();
        Self {
            rail,
            lean: (play / slant, r / slant),
        }
    }
}

/// Forces between a body and the rail that holds it.
///
/// `reach_m` is the ray of its base towards the fall. A rail below the centre of gravity is judged
/// by these numbers like any other: with a stop its force grows as `1/r`, without one it kicks.
pub fn rail_forces(body: &Body, reach_m: f64, rail: &Rail, force: &PlaneForce) -> RailForces {
    set_rail_forces(body, reach_m, &SetRail::from(*rail), force)
}

/// As [`rail_forces`].
pub fn set_rail_forces(
    body: &Body,
    reach_m: f64,
    SetRail { rail, lean }: &SetRail,
    force: &PlaneForce,
) -> RailForces {
    let r = rail.height_m;
    let mass = body.mass_kg;
    let lift_n = mass * (-force.a_n).max(0.0);
    if r <= 0.0 {
        return RailForces {
            moment_n: f64::INFINITY,
            rail_n: f64::INFINITY,
            kick: f64::INFINITY,
            lift_n,
            ..RailForces::default()
        };
    }
    let stance = Stance {
        centre_height_m: body.centre_height_m,
        reach_m,
    };
    let moment_n = mass * stance.moment_at(force, *lean).max(0.0) / r;
    let slide_n = mass * (force.a_h - rail.friction * force.a_n.max(0.0)).max(0.0);
    if rail.foot_stopped {
        return RailForces {
            moment_n,
            slide_n,
            rail_n: moment_n,
            stop_n: Some(mass * force.a_h - moment_n),
            kick: 0.0,
            lift_n,
        };
    }
    RailForces {
        moment_n,
        slide_n,
        rail_n: moment_n.max(slide_n),
        stop_n: None,
        kick: kick(body, reach_m, rail, force),
        lift_n,
    }
}

/// What [`rail_forces`] gives at most between these extremes, whatever the direction: each of its forces by itself,
/// from the largest of each part of it. `None` where the body may lift off.
///
/// `reach_m` holds the least and the most of the rays of the base. What the stop carries is told as its size, and
/// what lifts is nothing.
pub fn rail_forces_at_most(
    body: &Body,
    reach_m: [f64; 2],
    SetRail { rail, lean }: &SetRail,
    extremes: &Extremes,
) -> Option<RailForces> {
    let r = rail.height_m;
    let [least_a_n, most_a_n] = extremes.a_n;
    if r <= 0.0 || least_a_n <= 0.0 || least_a_n.is_nan() {
        return None;
    }
    let mass = body.mass_kg;
    let h = body.centre_height_m;
    let (sin, cos) = *lean;
    let above = h * cos + reach_m[1] * sin;
    let beyond = h * sin - reach_m[0] * cos;
    let spin = body.kappa2_m2 * extremes.turning;
    let moment = extremes.a_h * above + (least_a_n * beyond).max(most_a_n * beyond) + spin;
    let moment_n = mass * moment.max(0.0) / r;
    let slide_n = mass * (extremes.a_h - rail.friction * least_a_n).max(0.0);
    if rail.foot_stopped {
        return Some(RailForces {
            moment_n,
            slide_n,
            rail_n: moment_n,
            stop_n: Some(moment_n.max(mass * extremes.a_h)),
            ..RailForces::default()
        });
    }
    let holding = least_a_n * (reach_m[0] + rail.friction * r);
    let kick = if holding <= 0.0 {
        f64::INFINITY
    } else {
        (extremes.a_h * (h - r).abs() + spin) / holding
    };
    Some(RailForces {
        moment_n,
        slide_n,
        rail_n: moment_n.max(slide_n),
        stop_n: None,
        kick,
        lift_n: 0.0,
    })
}

fn kick(body: &Body, reach_m: f64, rail: &Rail, force: &PlaneForce) -> f64 {
    let turning = (force.a_h * (body.centre_height_m - rail.height_m) + force.spin).abs();
    let holding = force.a_n * (reach_m.max(0.0) + rail.friction * rail.height_m);
    if holding <= 0.0 {
        f64::INFINITY
    } else {
        turning / holding
    }
}

/// Pull in N in a strap across a row of bodies that press on it with `sum_n` together.
///
/// `T = sum / (2 sin eps)`: the end legs leave the row at `end_angle_rad`. A straight strap
/// (`eps = 0`) holds nothing until it bends, so its pull is infinite.
pub fn row_strap_pull_n(sum_n: f64, end_angle_rad: f64) -> f64 {
    let sin = end_angle_rad.sine();
    if sum_n <= 0.0 {
        0.0
    } else if sin <= 0.0 {
        f64::INFINITY
    } else {
        sum_n / (2.0 * sin)
    }
}
