//! The roll at which each cylinder goes, while what is not surely known is varied within its range.
//!
//! Every input lies somewhere in its range: a half is as it was given, 0 the end that is thought worse, 1 the better
//! one. All cylinders are varied alike at a time.

use super::body::Body;
use super::front::Fronts;
use super::hold::{Hold, Wall};
use super::limits::{Prepared, going};
use super::motion;
use super::needs::lever;
use super::numbers::{LimitNumbers, MotionNumbers};
use super::seaway::{SeaEstimate, SeaInput};
use super::stowed::Stowed;
use super::ways::Judge;
use crate::layout::{Id, MotionSource, Part};
use crate::mechanics::motion::Motion;
use crate::mechanics::support::Base;

/// Something that is not surely known.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Uncertain {
    /// Friction underfoot.
    Friction,
    /// Height of the centre of gravity.
    Centre,
    /// Width of what it stands on.
    Foot,
    /// Roll period.
    RollPeriod,
    /// Vertical acceleration.
    Vertical,
    /// Height of the roll axis.
    RollAxis,
    /// Slack of its lashings.
    Slack,
    /// Strength of what holds it.
    Strength,
}

impl Uncertain {
    /// All of them, in the order of a draw.
    pub const ALL: [Self; 8] = [
        Self::Friction,
        Self::Centre,
        Self::Foot,
        Self::RollPeriod,
        Self::Vertical,
        Self::RollAxis,
        Self::Slack,
        Self::Strength,
    ];
}

/// Where each input lies in its range, in the order of [`Uncertain::ALL`]: 0 to 1, a half as given.
pub type Draw = [f64; Uncertain::ALL.len()];

/// Everything as it was given.
pub const AS_GIVEN: Draw = [0.5; Uncertain::ALL.len()];

/// Shares by which an input may be off (`docs/method.md`, "What is not surely known": judgement, no source).
const FRICTION_MEASURED: f64 = 0.1;
const FRICTION_ASSUMED: f64 = 0.3;
const CENTRE: f64 = 0.05;
const FOOT: f64 = 0.08;

/// Friction where nobody knows it, least and most.
const FRICTION_UNKNOWN: [f64; 2] = [0.1, 0.6];

/// Height of the roll axis, m to both sides.
const ROLL_AXIS_M: f64 = 0.3;

/// Slack of a lashing for which nobody gave it, at most, m.
const SLACK_UNKNOWN_M: f64 = 0.02;

/// Strength that a worn lashing, point or rack has left, and what a better one than stated has.
const STRENGTH: [f64; 2] = [0.7, 1.1];

/// Shares by which roll period, vertical acceleration and roll may be off, by where the motion comes from.
fn motion_spread(source: MotionSource) -> [f64; 3] {
    match source {
        MotionSource::Recorded => [0.02, 0.1, 0.05],
        MotionSource::Stopwatch => [0.05, 0.3, 0.15],
        MotionSource::Estimate
        | MotionSource::Wake
        | MotionSource::Preset
        | MotionSource::Assumed => [0.1, 0.3, 0.3],
    }
}

/// A part of the day whose inputs are varied.
#[derive(Debug)]
pub struct Varied<'s, 'a> {
    stowed: &'s Stowed<'a>,
    motion: Motion,
    numbers: MotionNumbers,
}

/// A value in a range of which the middle is given.
fn within([low, given, high]: [f64; 3], at: f64) -> f64 {
    if at < 0.5 {
        low + (given - low) * 2.0 * at
    } else {
        given + (high - given) * (2.0 * at - 1.0)
    }
}

impl<'s, 'a> Varied<'s, 'a> {
    /// `part` is the part of the day of the stowage.
    pub fn new(stowed: &'s Stowed<'a>, part: &Part) -> Self {
        let boat = stowed.boat;
        let highest_m = (stowed.bodies.iter().map(|body| body.cg.z)).max_by(f64::total_cmp);
        let (sea, wake) = (part.sea.as_ref(), part.wake.as_ref());
        let estimate = if sea.is_none() && wake.is_none() {
            SeaEstimate::default()
        } else {
            SeaInput::new(boat, sea, wake, part.duration_h, highest_m).estimate()
        };
        let (motion, numbers) = motion::resolve(boat, part, &estimate);
        Self {
            stowed,
            motion,
            numbers,
        }
    }

    /// The cylinders, in the order of their names.
    pub fn cylinders(&self) -> impl ExactSizeIterator<Item = &Id> + '_ {
        self.stowed.cylinders()
    }

    /// The motion of the part.
    pub fn motion(&self) -> &MotionNumbers {
        &self.numbers
    }

    /// The roll of the part, least, given and most, in degrees.
    pub fn roll_deg(&self) -> [f64; 3] {
        let roll = self.numbers.roll_amplitude_deg;
        let spread = motion_spread(self.numbers.source)[2];
        [roll * (1.0 - spread), roll, roll * (1.0 + spread)]
    }

    /// The worse end, the given value and the better end of an input of a cylinder; `None` where it has no such input.
    /// Friction is the coefficient, the period seconds, heights and slack metres; the others are shares of the given
    /// value.
    pub fn range(&self, number: usize, input: Uncertain) -> Option<[f64; 3]> {
        let (body, hold) = (&self.stowed.bodies[number], &self.stowed.holds[number]);
        let [period, vertical, _] = motion_spread(self.numbers.source);
        let upright = body.lying.is_none();
        match input {
            Uncertain::Friction => Some(friction_range(body)),
            Uncertain::Centre => upright.then(|| {
                let h = body.cg_height_m;
                [h * (1.0 + CENTRE), h, h * (1.0 - CENTRE)]
            }),
            Uncertain::Foot => upright.then_some([1.0 - FOOT, 1.0, 1.0 + FOOT]),
            Uncertain::RollPeriod => {
                let t = self.motion.roll_period_s;
                Some([t * (1.0 - period), t, t * (1.0 + period)])
            }
            Uncertain::Vertical => (self.motion.vertical_amplitude > 0.0).then_some([
                1.0 + vertical,
                1.0,
                1.0 - vertical,
            ]),
            Uncertain::RollAxis => {
                let z = self.motion.axes.roll_height_m;
                Some([z - ROLL_AXIS_M, z, z + ROLL_AXIS_M])
            }
            Uncertain::Slack => {
                let most = most_slack_m(hold);
                most.filter(|_| upright).map(|most| [most, 0.0, 0.0])
            }
            Uncertain::Strength => {
                is_held_by_strength(hold).then_some([STRENGTH[0], 1.0, STRENGTH[1]])
            }
        }
    }

    /// The roll at which each cylinder goes, in degrees, in the order of their names: 0 where it goes without any,
    /// infinite where it holds as far as is searched.
    pub fn limits_deg(&self, draw: &Draw) -> Vec<f64> {
        let at = |input: Uncertain| {
            (Uncertain::ALL.iter().zip(draw))
                .find(|(other, _)| **other == input)
                .map_or(0.5, |(_, at)| *at)
        };
        let mut bodies = self.stowed.bodies.clone();
        let mut holds = self.stowed.holds.clone();
        for (number, (body, hold)) in bodies.iter_mut().zip(&mut holds).enumerate() {
            let value = |input| {
                self.range(number, input)
                    .map(|range| within(range, at(input)))
            };
            vary(body, hold, &value);
        }
        let [period, vertical, _] = motion_spread(self.numbers.source);
        let mut motion = self.motion;
        let share = |spread: f64, at: f64| within([1.0 - spread, 1.0, 1.0 + spread], at);
        let slower = share(period, at(Uncertain::RollPeriod));
        motion.roll_period_s *= slower;
        motion.longest_roll_period_s = motion.longest_roll_period_s.map(|s| s * slower);
        motion.vertical_amplitude *= share(vertical, 1.0 - at(Uncertain::Vertical));
        let axis_m = 2.0 * ROLL_AXIS_M * (at(Uncertain::RollAxis) - 0.5);
        motion.axes.roll_height_m += axis_m;
        motion.axes.pitch_height_m += axis_m;
        let prepared = Prepared::new(&motion);
        let judges: Vec<Judge<'_>> = (bodies.iter().zip(&holds).zip(&self.stowed.pitches))
            .map(|((body, hold), pitch)| Judge::new(body, hold, *pitch))
            .collect();
        let fronts = Fronts::of(&judges, &prepared);
        let of = |judge: &Judge<'_>| {
            let forces = judge.slot_forces_by_case(&prepared);
            limit_deg(&going(judge, &prepared, &fronts, forces).limit)
        };
        judges.iter().map(of).collect()
    }
}

fn limit_deg(limit: &LimitNumbers) -> f64 {
    if limit.goes_without_roll || limit.goes_at_rest {
        0.0
    } else {
        limit.roll_deg.unwrap_or(f64::INFINITY)
    }
}

fn friction_range(body: &Body) -> [f64; 3] {
    let Some(given) = body.friction.value else {
        // The limits take a good grip while nobody knows it.
        let [low, high] = FRICTION_UNKNOWN;
        return [low, high, high];
    };
    let spread = if body.friction.measured {
        FRICTION_MEASURED
    } else {
        FRICTION_ASSUMED
    };
    [given * (1.0 - spread), given, given * (1.0 + spread)]
}

/// The most slack of its lashings, twice what was given.
fn most_slack_m(hold: &Hold) -> Option<f64> {
    let counted = hold.straps.iter().filter(|strap| {
        hold.slot.is_none()
            && strap.state.counts()
            && strap.on_straight_shell
            && !strap.legs.is_empty()
    });
    counted
        .map(|strap| {
            strap
                .state
                .slack_m
                .map_or(SLACK_UNKNOWN_M, |slack| 2.0 * slack)
        })
        .reduce(f64::max)
}

fn is_held_by_strength(hold: &Hold) -> bool {
    let known = |n: &f64| n.is_finite();
    (hold.restraints.iter()).any(|restraint| known(&restraint.capacity_n))
        || hold.point_capacities_n.iter().any(known)
        || hold.slot.as_ref().is_some_and(|slot| {
            let front = slot.front.as_ref().and_then(|front| front.strength_n);
            slot.edge_n.is_some() || front.is_some()
        })
        || hold
            .walls
            .iter()
            .any(|wall| matches!(wall, Wall::Known(..)))
}

fn vary(body: &mut Body, hold: &mut Hold, value: &impl Fn(Uncertain) -> Option<f64>) {
    if let Some(friction) = value(Uncertain::Friction)
        && (body.friction.value.is_some() || friction < FRICTION_UNKNOWN[1])
    {
        body.friction.value = Some(friction);
    }
    if let Some(height) = value(Uncertain::Centre) {
        body.cg.z += height - body.cg_height_m;
        body.cg_height_m = height;
    }
    if let Some(share) = value(Uncertain::Foot) {
        body.base = scaled(&body.base, share, 0.0);
    }
    if let Some(slack) = value(Uncertain::Slack).filter(|slack| *slack > 0.0) {
        let lever_m = (hold.straps.iter().filter(|strap| strap.state.counts()))
            .map(|strap| lever(body, &strap.legs).1)
            .fold(0.0, f64::max);
        if lever_m > 0.0 {
            // Leaned by the slack, the centre stands that much nearer to the edge.
            let nearer_m = body.cg_height_m * (slack / lever_m).min(0.5);
            body.base = scaled(&body.base, 1.0, nearer_m);
        }
    }
    if let Some(share) = value(Uncertain::Strength) {
        for restraint in &mut hold.restraints {
            restraint.capacity_n *= share;
        }
        for capacity_n in &mut hold.point_capacities_n {
            *capacity_n *= share;
        }
        if let Some(slot) = &mut hold.slot {
            slot.edge_n = slot.edge_n.map(|n| n * share);
            if let Some(front) = &mut slot.front {
                front.strength_n = front.strength_n.map(|n| n * share);
            }
        }
        for wall in &mut hold.walls {
            if let Wall::Known(_, strength_n) = wall {
                *strength_n *= share;
            }
        }
    }
}

/// A base of another width, with so much taken off all round; a sliver is left of it.
fn scaled(base: &Base, share: f64, less_m: f64) -> Base {
    const SLIVER_M: f64 = 1e-3;
    let radius = |radius_m: f64| (radius_m * share - less_m).max(SLIVER_M);
    match base {
        Base::Disc { radius_m, offset } => Base::Disc {
            radius_m: radius(*radius_m),
            offset: *offset,
        },
        Base::Twin {
            foot_radius_m,
            spacing_m,
            axis_rad,
            offset,
        } => Base::Twin {
            foot_radius_m: radius(*foot_radius_m),
            spacing_m: *spacing_m,
            axis_rad: *axis_rad,
            offset: *offset,
        },
        Base::Hull(points) => {
            let nearer = |point: &crate::geometry::Vec2| {
                let length = point.length();
                let share = if length > 0.0 {
                    ((length * share - less_m) / length).max(0.01)
                } else {
                    1.0
                };
                share * *point
            };
            Base::Hull(points.iter().map(nearer).collect())
        }
        Base::None => Base::None,
    }
}
