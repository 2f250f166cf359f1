//! How much of the apparent force a body can stand that lashings and backing hold: limit analysis.
//!
//! # Derivation
//!
//! A body of mass `m` stands on `feet` and is held by restraints that can only pull (a leg of a
//! lashing) or only push (a fixture behind it). Restraint `i` pulls along the unit vector `u_i` with
//! any force `T_i` up to its strength. With `u_h` its horizontal part, `sin b = -u_z` (positive for a
//! pull that presses the body down), `a_i` its horizontal attachment from the projected centre of
//! gravity and `s_i` the height of the attachment, the body can be in equilibrium under the share `L`
//! of the apparent force if for every unit horizontal direction `e`
//!
//! ```text
//! tip    L m t.e + sum T_i [ s_i (u_h,i . e) + (a_i . e) sin b_i - rho(e) sin b_i ] <= rho(e) m a_n
//! slide  L m f_h.e + sum T_i [ u_h,i . e - mu sin b_i ]                             <= mu m a_n
//! lift   sum T_i sin b_i + m a_n >= 0
//! 0 <= T_i <= strength_i ,   sum of T_i on a shared point <= its strength
//! ```
//!
//! `t = h f_h + kappa2 w` is the overturning moment per unit mass with the part that turns the body
//! with the deck, `rho(e)` the support distance of the feet, `mu` the friction. The largest such `L` is
//! the share of the force that it can stand (lower-bound theorem of plasticity), and the utilisation is
//! `U = 1/L`. It must be found over **all** directions: a lashing that is strong against the force may
//! pull the body over sideways, or drag its foot out from under it. A foot that is stopped (lip, cup,
//! saddle) has no slide rows.
//!
//! Lift: while `a_n > 0` it is a resistance and stays whole; when `a_n < 0` it is part of what must be
//! held and is multiplied by `L` like the rest. At `L = 1` both are the same balance.
//!
//! # Assumptions
//!
//! * Lashings share the load as it suits the body best. That is right for tough lashings of similar
//!   stiffness, which is what the factor 1.5 between securing load and calculation strength is for;
//!   where the stiffness is known and unequal, [`mechanism`](super::mechanism) bounds it.
//! * Friction carries what it can wherever that helps. For a frictional foot the theorem is not strict (the
//!   foot slides along the deck and does not rise); in a rigid-body engine strapped cylinders go within 4 %
//!   of these limits (`tests/outside/rigid_body/lashed.rs`).
//! * The body does not turn about its own axis, and the lashing does not slip on it except round a
//!   [`Bight`].
//! * A pretension is part of a lashing's strength, never added to it.
//! * Where [`Restraint::sliding_capacity_n`] bounds how much of a pull counts against sliding, the foot
//!   must be in balance both with the whole pull and with the part that counts: the rest never helps,
//!   but it may hurt.
//!
//! # Accuracy
//!
//! The share `L` is exact for the model to 1e-8 and to 1e-6 of itself: directions are not taken from a
//! fixed fan but found in closed form (see `program`). Below 1e-4 a utilisation is given as zero.
//!
//! # References
//!
//! Balances of forces and moments of the CSS Code (IMO), annex 13, section 7 (sliding with
//! `f = cos + mu sin`, tipping with levers), lift and the search over all directions added: derived in
//! `docs/method.md`, "Lashings".

mod backing;
mod dual_simplex;
mod feet;
mod ground;
mod held;
mod program;
mod wrench;

#[cfg(test)]
mod tests;

pub use self::backing::backing;
pub use self::feet::{Feet, Footing};
pub use self::held::{Held, LeastCapacity, Outcome, Used};
pub use self::program::Mechanism;

use self::ground::{Row, feet_balance};
use self::program::{Aim, Program};
use super::motion::Force;
use super::vector::Vec3;
use crate::geometry::Vec2;

/// A larger share of the load than this is not looked for.
const MOST_SHARE: f64 = 1e4;

/// Below this share of the load nothing holds: the rounding of the program, with a margin.
const NO_SHARE: f64 = 1e-8;

/// A row whose share of the governing mechanism is smaller is there by rounding.
const PART_OF_MECHANISM: f64 = 1e-6;

/// One thing that holds a body: a pull or a push of one direction.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Restraint {
    /// Unit vector of its force on the body, boat frame.
    pub pull: Vec3,

    /// Where it acts, from the projected centre of gravity, m.
    pub attachment: Vec2,

    /// Height at which it acts, above what the body stands on, m.
    pub height_m: f64,

    /// The largest force that is counted (calculation strength), N; infinite where nothing bounds it.
    pub capacity_n: f64,

    /// The shared point it runs to, an index into [`Holding::point_capacities_n`].
    pub point: Option<usize>,

    /// How much of its force may help against sliding, N. Infinite, except for a lashing steeper than
    /// 60°, which counts with its pretension only.
    pub sliding_capacity_n: f64,
}

impl Restraint {
    /// Its lever, m, about the edge of the feet in the direction `e`: positive when it opposes tipping
    /// that way. It is also how much the lashing stretches per radian.
    ///
    /// `rho_m` is the support distance of the feet in that direction.
    pub fn tipping_lever(&self, e: Vec2, rho_m: f64) -> f64 {
        let down = -self.pull.z;
        (rho_m - self.attachment.dot(e)) * down - self.height_m * self.pull.horizontal().dot(e)
    }
}

/// Two restraints that are the legs of one strap round the body.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Bight {
    /// Indices of the two restraints.
    pub legs: (usize, usize),

    /// How many times the pull of one leg may exceed the other's before the strap slips: 1 without any
    /// grip, `exp(friction * wrapped angle)` by Euler and Eytelwein, infinite when made fast.
    pub tension_ratio: f64,
}

/// All that holds one body.
#[derive(Copy, Clone, Debug, Default)]
pub struct Holding<'a> {
    /// Legs of lashings and backing.
    pub restraints: &'a [Restraint],

    /// Strength of each shared point, N: the sum of the pulls on it stays below.
    pub point_capacities_n: &'a [f64],

    /// Which restraints are two legs of one strap.
    pub bights: &'a [Bight],
}

/// Whether the foot can slip.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Foot {
    /// Only friction holds it.
    Free,

    /// A lip, cup or saddle stops it on all sides.
    Stopped,
}

/// The body that is held.
#[derive(Copy, Clone, Debug)]
pub struct Body<'a> {
    /// Its mass.
    pub mass_kg: f64,

    /// Friction coefficient between foot and deck.
    pub friction: f64,

    /// Whether the foot can slip.
    pub foot: Foot,

    /// What it stands on.
    pub feet: Feet<'a>,
}

/// The apparent force on the body, per unit mass.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Load {
    /// Overturning moment about the projected centre of gravity, `h f_h + kappa2 w`, pointing the way
    /// it tips, m²/s².
    pub tipping: Vec2,

    /// `f_h`: the part along the deck, m/s².
    pub along_deck: Vec2,

    /// `a_n`: what presses it onto the deck, m/s²; negative when it lifts off.
    pub normal: f64,
}

impl Load {
    /// What a body feels whose centre of gravity is `cg_height_m` above its foot, `kappa2_m2 = I_cg / m`.
    pub fn of(force: &Force, cg_height_m: f64, kappa2_m2: f64) -> Self {
        Self {
            tipping: force.tipping(cg_height_m, kappa2_m2),
            along_deck: force.along_deck(),
            normal: force.a_n(),
        }
    }

    /// A force that acts at the height `cg_height_m`, on a deck that does not turn.
    pub fn at_height(along_deck: Vec2, normal: f64, cg_height_m: f64) -> Self {
        Self {
            tipping: cg_height_m * along_deck,
            along_deck,
            normal,
        }
    }
}

/// How a held body goes.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mode {
    /// Over the edge of its foot.
    Tips,

    /// Along the deck.
    Slides,

    /// The foot slips while the body turns.
    KicksOut,

    /// Off the deck.
    Lifts,
}

/// How a body goes, and where to.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Failure {
    /// How it goes.
    pub mode: Mode,

    /// Unit vector along the deck: the way it tips, or the way its foot slides. Zero if it lifts.
    pub direction: Vec2,
}

/// The result of [`utilisation`].
#[derive(Clone, Debug, PartialEq)]
pub struct Equilibrium {
    /// Load over what can be stood: at 1 it goes. Infinite when no share of the load can be stood.
    pub utilisation: f64,

    /// How it would go, unless nothing loads it.
    pub failure: Option<Failure>,

    /// The pull in each restraint when it goes, N. Where several ways of sharing are possible this is
    /// one of them.
    pub tensions_n: Vec<f64>,
}

/// The utilisation of a held body: the reciprocal of the share of the load that it can stand.
///
/// See the module for the balance. Where `a_n <= 0` and nothing holds the body down it is infinite.
///
/// # Assumptions
///
/// Finite numbers; unit directions; a positive mass. Indices of points and bights that do not exist
/// are ignored.
pub fn utilisation(body: &Body<'_>, holding: &Holding<'_>, load: &Load) -> Equilibrium {
    let tensions_n = vec![0.0; holding.restraints.len()];
    if let Some(failure) = goes_without_load(body, holding, load) {
        return goes_at_once(failure, tensions_n);
    }
    let mut program = Program::new(body, holding, load, Aim::Share(MOST_SHARE));
    if program.solve().is_err() {
        program = Program::bounded(body, holding, Aim::Share(MOST_SHARE));
        program.load(load);
        if program.solve().is_err() {
            program = Program::of_feet(body, holding, Aim::Share(MOST_SHARE));
            program.load(load);
            // Whether it was solved is asked of the program.
            program.solve().ok();
        }
    }
    let failure = failure(&program);
    let Some(share) = program.share_found() else {
        return goes_at_once(goes_at_once_as(failure, load), tensions_n);
    };
    let tensions_n = (0..tensions_n.len())
        .map(|i| program.tension_n(i))
        .collect();
    if share >= MOST_SHARE * (1.0 - NO_SHARE) {
        return Equilibrium {
            utilisation: 0.0,
            failure: None,
            tensions_n,
        };
    }
    Equilibrium {
        utilisation: 1.0 / share,
        failure,
        tensions_n,
    }
}

/// Whether the body stays where it is under the whole load: `utilisation <= 1`, but cheaper.
pub fn holds(body: &Body<'_>, holding: &Holding<'_>, load: &Load) -> bool {
    if goes_without_load(body, holding, load).is_some() {
        return false;
    }
    stands(body, load) || (!holding.restraints.is_empty() && balances(body, holding, load))
}

/// The same with nothing that holds it but its feet; it may fall once the load is gone.
fn stands(body: &Body<'_>, load: &Load) -> bool {
    load.normal > 0.0 && feet_balance(body, load)
}

/// Which strengths [`least_capacity`] seeks: all of them are to be equal.
#[derive(Copy, Clone, Debug, Default)]
pub struct Sought<'a> {
    /// Indices of restraints whose strength is not known.
    pub restraints: &'a [usize],

    /// Indices of shared points whose strength is not known.
    pub points: &'a [usize],
}

/// The least strength, N, that every sought lashing and point must have so that the body stays.
///
/// Strengths that are given in `holding` still bound the restraints and points beside it: set what is
/// sought to infinity. `None` if no strength is enough.
pub fn least_capacity(
    body: &Body<'_>,
    holding: &Holding<'_>,
    load: &Load,
    sought: &Sought<'_>,
) -> Option<f64> {
    if load.normal <= 0.0 && !can_hold_down(holding) {
        return None;
    }
    let mut program = Program::new(body, holding, load, Aim::Strength);
    for &restraint in sought.restraints {
        program.seek_restraint(restraint);
    }
    for &point in sought.points {
        program.seek_point(holding, point);
    }
    program.solve().ok()?;
    Some(program.strength_n())
}

fn balances(body: &Body<'_>, holding: &Holding<'_>, load: &Load) -> bool {
    Program::new(body, holding, load, Aim::Balance)
        .solve()
        .is_ok()
}

fn can_hold_down(holding: &Holding<'_>) -> bool {
    let presses = |restraint: &Restraint| restraint.pull.z < 0.0 && restraint.capacity_n > 0.0;
    holding.restraints.iter().any(presses)
}

/// The way it falls without any load along the deck, because its centre of gravity is beside its feet
/// and nothing holds it.
fn falls_at_rest(body: &Body<'_>, holding: &Holding<'_>, normal: f64) -> Option<Vec2> {
    let outside = body.feet.excess(Vec2::ZERO, normal.max(0.0))?;
    let rest = Load {
        normal,
        ..Load::default()
    };
    let falls = outside.amount > 0.0 && normal > 0.0 && !balances(body, holding, &rest);
    falls.then_some(outside.direction)
}

/// How it goes whatever the share of the load along the deck is: nothing presses it down, or its centre of
/// gravity is beside its feet.
fn goes_without_load(body: &Body<'_>, holding: &Holding<'_>, load: &Load) -> Option<Failure> {
    if load.normal <= 0.0 && !can_hold_down(holding) {
        return Some(Failure {
            mode: Mode::Lifts,
            direction: Vec2::ZERO,
        });
    }
    falls_at_rest(body, holding, load.normal).map(|direction| Failure {
        mode: Mode::Tips,
        direction,
    })
}

/// What is told of a body that can stand no share of its load, where the program tells nothing.
fn goes_at_once_as(failure: Option<Failure>, load: &Load) -> Failure {
    failure.unwrap_or(Failure {
        mode: Mode::Tips,
        direction: load.tipping.normalized().unwrap_or(Vec2::ZERO),
    })
}

fn goes_at_once(failure: Failure, tensions_n: Vec<f64>) -> Equilibrium {
    Equilibrium {
        utilisation: f64::INFINITY,
        failure: Some(failure),
        tensions_n,
    }
}

/// Reads the mechanism from the prices of the tight rows.
fn failure(program: &Program<'_>) -> Option<Failure> {
    let (tip_size, slide_size) = program.demand_sizes();
    let mut tips = (Vec2::ZERO, 0.0);
    let mut slides = (Vec2::ZERO, 0.0);
    let mut lifts = 0.0;
    for (row, price) in program.tight() {
        let (sum, e, weight) = match row {
            Row::Tip(e) => (&mut tips, e, price * tip_size),
            Row::Slide(e) | Row::SlideCounted(e) => (&mut slides, e, price * slide_size),
            Row::Lift => {
                lifts += price;
                continue;
            }
            Row::Link => continue,
        };
        sum.0 += weight * e;
        sum.1 += weight;
    }
    let direction = |sum: (Vec2, f64)| sum.0.normalized().unwrap_or(Vec2::ZERO);
    let mode = match (tips.1 > PART_OF_MECHANISM, slides.1 > PART_OF_MECHANISM) {
        (true, true) => Mode::KicksOut,
        (true, false) => Mode::Tips,
        (false, true) => Mode::Slides,
        (false, false) if lifts > 0.0 => Mode::Lifts,
        (false, false) => return None,
    };
    let sum = if slides.1 > PART_OF_MECHANISM {
        slides
    } else {
        tips
    };
    Some(Failure {
        mode,
        direction: match mode {
            Mode::Lifts => Vec2::ZERO,
            Mode::Tips | Mode::Slides | Mode::KicksOut => direction(sum),
        },
    })
}
