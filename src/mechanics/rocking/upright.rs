//! A round body on a moving deck: the plane in which it rocks, and what became of it.

use super::{Drive, Ended, Impact, Rocker, Side, Swing};
use crate::geometry::{Vec2, vec2};
use crate::mechanics::standing::unit_or_x;
use crate::mechanics::support::Base;
use crate::mechanics::vector::Vec3;

/// A body that stands free.
#[derive(Clone, Debug, PartialEq)]
pub struct Upright {
    /// Height of the centre of gravity above what it stands on, m.
    pub centre_height_m: f64,

    /// `I_cg / m` about a level axis through the centre of gravity, m².
    pub kappa2_m2: f64,

    /// What it stands on.
    pub base: Base,
}

/// What a body feels at an instant, and how the deck turns under it.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Felt {
    /// Apparent force per unit mass at its centre of gravity in the boat frame, m/s².
    pub f: Vec3,

    /// Angular acceleration of the roll, rad/s².
    pub roll_acceleration: f64,

    /// Angular acceleration of the pitch, rad/s².
    pub pitch_acceleration: f64,
}

impl Felt {
    /// `a_n`: what presses the body onto the deck, m/s².
    pub fn onto(&self) -> f64 {
        -self.f.z
    }

    /// Overturning moment per unit mass, m²/s², pointing the way it tips.
    pub fn tipping(&self, body: &Upright) -> Vec2 {
        let (h, k2) = (body.centre_height_m, body.kappa2_m2);
        vec2(
            self.f.x * h - k2 * self.pitch_acceleration,
            self.f.y * h + k2 * self.roll_acceleration,
        )
    }

    /// The part in the upright plane along the unit vector `towards`.
    pub fn drive(&self, towards: Vec2) -> Drive {
        Drive {
            along: self.f.horizontal().dot(towards),
            onto: self.onto(),
            turning: self.pitch_acceleration * towards.x - self.roll_acceleration * towards.y,
        }
    }
}

/// What became of a body that stood free.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    /// How often it left its foot.
    pub uplifts: u64,

    /// When it first did, s.
    pub first_uplift_s: Option<f64>,

    /// When it last did, s.
    pub last_uplift_s: Option<f64>,

    /// The largest lean that it came back from, rad.
    pub largest_lean_rad: f64,

    /// When that was, s.
    pub largest_lean_s: f64,

    /// When it had gone over, s: its lean passed [`super::OVER_RAD`].
    pub over_s: Option<f64>,

    /// Where it fell to; of length one.
    pub towards: Option<Vec2>,

    /// When it was lifted off, s: nothing pressed it down.
    pub lifted_off_s: Option<f64>,
}

impl Outcome {
    /// When it went, over or off.
    pub fn went_s(&self) -> Option<f64> {
        match (self.over_s, self.lifted_off_s) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        }
    }
}

/// One body carried on through a motion.
///
/// It lifts off its foot in the plane of the moment of that instant. With every impact the plane turns towards the
/// moment of the instant, the speed kept: a round foot may turn, and this is the worse way.
#[derive(Clone, Debug)]
pub struct Rocking {
    impact: Impact,
    swing: Swing,
    plane: Vec2,
    rocker: Rocker,
    before: Option<(f64, Felt)>,
    lean_before: f64,
    outcome: Outcome,
}

/// Leans below it are told as none: the swing is no more than rest, rad.
const TOLD_RAD: f64 = super::REST_RAD;

impl Rocking {
    /// A body at rest, whose impacts take this away.
    pub fn new(body: &Upright, impact: Impact) -> Self {
        let plane = vec2(1.0, 0.0);
        Self {
            impact,
            swing: Swing::REST,
            plane,
            rocker: rocker(body, plane),
            before: None,
            lean_before: 0.0,
            outcome: Outcome::default(),
        }
    }

    /// What became of it so far.
    pub fn outcome(&self) -> &Outcome {
        &self.outcome
    }

    /// Is it off its whole foot?
    pub fn rocks(&self) -> bool {
        self.swing.on.is_some()
    }

    /// Its lean now, rad.
    pub fn lean_rad(&self) -> f64 {
        self.swing.lean_rad.abs()
    }

    /// The record is broken here: it stands at rest where it goes on, unless it has gone.
    pub fn break_off(&mut self) {
        self.before = None;
        self.lean_before = 0.0;
        self.swing = Swing::REST;
    }

    /// Nothing that it felt until this instant lifted it: it goes on from here. Only for a body at rest.
    pub fn rests_until(&mut self, time_s: f64, felt: &Felt) {
        self.before = Some((time_s, *felt));
    }

    /// Takes what it feels at the next instant; the force runs straight from the one before.
    ///
    /// Nothing more happens to a body that has gone.
    pub fn push(&mut self, body: &Upright, time_s: f64, felt: &Felt) {
        if self.outcome.went_s().is_some() {
            return;
        }
        let Some((before_s, before)) = self.before.replace((time_s, *felt)) else {
            return;
        };
        let step_s = time_s - before_s;
        if step_s <= 0.0 {
            return;
        }
        if self.swing.on.is_none() {
            if felt.onto() <= 0.0 {
                self.outcome.lifted_off_s = Some(time_s);
                return;
            }
            let moment = felt.tipping(body);
            let size = moment.length();
            // What cannot lift at the shortest reach stays at rest: nearly always.
            let was_near = before.tipping(body).length() > before.onto() * body.least_reach_m();
            if size <= felt.onto() * body.least_reach_m() && !was_near {
                return;
            }
            self.plane = unit_or_x(moment, size);
            self.rocker = rocker(body, self.plane);
        }
        let drives = (before.drive(self.plane), felt.drive(self.plane));
        let (was_on, side_before) = (self.swing.on.is_some(), self.swing.on);
        let ended = self
            .swing
            .advance(&self.rocker, (&drives.0, &drives.1), step_s, self.impact);
        let lean = self.swing.lean_rad.abs();
        if !was_on && self.swing.on.is_some() {
            self.outcome.uplifts += 1;
            self.outcome.first_uplift_s.get_or_insert(time_s);
            self.outcome.last_uplift_s = Some(time_s);
        }
        match ended {
            Some((Ended::Over(side), share)) => {
                self.outcome.over_s = Some(before_s + share * step_s);
                self.outcome.towards = Some(side.sign() * self.plane);
            }
            Some((Ended::LiftedOff, share)) => {
                self.outcome.lifted_off_s = Some(before_s + share * step_s);
            }
            None => {
                // A lean counts once it has come back from it.
                if lean < self.lean_before && self.lean_before > self.outcome.largest_lean_rad {
                    self.outcome.largest_lean_rad = self.lean_before;
                    self.outcome.largest_lean_s = before_s;
                }
                if side_before.is_some() && self.swing.on.is_some() && side_before != self.swing.on
                {
                    self.turn(body, felt);
                }
            }
        }
        self.lean_before = if lean > TOLD_RAD { lean } else { 0.0 };
    }

    /// Turns the plane towards the moment of this instant, just after an impact.
    fn turn(&mut self, body: &Upright, felt: &Felt) {
        let moment = felt.tipping(body);
        let Some(wanted) = moment.normalized() else {
            return;
        };
        let onward = self.swing.on.map_or(1.0, Side::sign);
        // The line of the moment, in the sense in which it moves.
        let moving = onward * self.plane;
        let line = if wanted.dot(moving) < 0.0 {
            -wanted
        } else {
            wanted
        };
        self.plane = onward * line;
        self.rocker = rocker(body, self.plane);
    }
}

/// The body in a plane.
fn rocker(body: &Upright, plane: Vec2) -> Rocker {
    Rocker {
        centre_height_m: body.centre_height_m,
        reach_m: [body.base.ray(plane), body.base.ray(-plane)],
        kappa2_m2: body.kappa2_m2,
    }
}

impl Upright {
    /// A reach that no direction falls below, m.
    pub fn least_reach_m(&self) -> f64 {
        use crate::mechanics::support::Offset;
        match &self.base {
            Base::Disc { radius_m, offset }
            | Base::Twin {
                foot_radius_m: radius_m,
                offset,
                ..
            } => {
                let off = match offset {
                    Offset::Known(offset) => offset.length(),
                    Offset::UnknownHeading(distance) => distance.abs(),
                };
                (radius_m - off).max(0.0)
            }
            Base::Hull(_) | Base::None => 0.0,
        }
    }
}
