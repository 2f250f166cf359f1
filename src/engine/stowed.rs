//! A part of the day as it stands, to be asked again and again while the boat moves in time: what each cylinder
//! takes, in which way it goes under a force, and what it takes along when it does.

use std::collections::BTreeSet;

use super::Scene;
use super::assembled::Assemblies;
use super::assessor::groove_pitch;
use super::body::{self, Body};
use super::fall::{self, FallInput, Fallen};
use super::hold::{self, Hold};
use super::mats::Mats;
use super::numbers::{Stance, Way};
use super::straps::Straps;
use super::ways::Judge;
use crate::geometry::Vec2;
use crate::layout::{Boat, DayState, Id, Plan, Trip};
use crate::mechanics::attitude::Attitude;
use crate::mechanics::envelope::Envelope;
use crate::mechanics::motion::{Axes, Cases, Force, GRAVITY, LoadCase, Motion, Swing};
use crate::mechanics::rocking::{Felt, Upright};
use crate::mechanics::support::{Base, Offset};
use crate::mechanics::vector::vec3;

/// No push along the deck that is searched is greater, m/s².
const MOST_PUSH: f64 = 5.0 * GRAVITY;

/// Halvings of the search: to a hundred thousandth of [`MOST_PUSH`], and finer below.
const HALVINGS: u32 = 26;

/// A cylinder that nothing holds but its foot.
#[derive(Clone, Debug, PartialEq)]
pub struct FreeStanding {
    /// The body that may rock.
    pub upright: Upright,

    /// Friction underfoot; `None` if not known.
    pub friction: Option<f64>,
}

/// What a cylinder takes before it goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Takes {
    /// The cylinder.
    pub cylinder: Id,

    /// Its centre of gravity: forward of the pitch axis, to port, above the roll axis, in metres.
    pub place_m: [f64; 3],

    /// How much higher than its centre the turning of the deck counts, in metres: `kappa^2 / h`, since the body's own
    /// turning is part of its overturning moment.
    pub turns_above_m: f64,

    /// What it takes, by the force at that place.
    pub envelope: Envelope,

    /// For one that stands free: whether it comes back or goes over is told by its rocking.
    pub free: Option<FreeStanding>,
}

/// One part of the day of a plan.
#[derive(Debug)]
pub struct Stowed<'a> {
    pub(super) boat: &'a Boat,
    pub(super) bodies: Vec<Body>,
    pub(super) holds: Vec<Hold>,
    pub(super) pitches: Vec<Option<f64>>,
    scene: Scene,
    trip: &'a Trip,
    day: DayState,
    straps: Straps,
}

impl<'a> Stowed<'a> {
    /// A part of the day by its number; `None` if there is no such part.
    pub fn of(plan: &'a Plan, trip: &'a Trip, part: usize) -> Option<Self> {
        let day = DayState::of_trip(plan, trip).into_iter().nth(part)?;
        Some(Self::of_day(&plan.boat, trip, day))
    }

    fn of_day(boat: &'a Boat, trip: &'a Trip, day: DayState) -> Self {
        let mut assemblies = Assemblies::default();
        assemblies.set_trip(trip);
        let mats = Mats::of_day(&day);
        let mut bodies: Vec<Body> = (day.cylinders.iter())
            .filter_map(|state| body::body(boat, &mats, &mut assemblies, &state.cylinder))
            .collect();
        bodies.sort_by(|a, b| a.id.cmp(&b.id));
        let straps = Straps::of_day(boat, trip, &day);
        let holds = hold::holds(boat, &day, &straps, &bodies);
        let pitches = (bodies.iter())
            .map(|body| groove_pitch(body, &bodies))
            .collect();
        let scene = Scene::build(boat, &day, &bodies);
        Self {
            boat,
            bodies,
            holds,
            pitches,
            scene,
            trip,
            day,
            straps,
        }
    }

    /// The same after some have left their places and some fronts (rack and name) have been opened: a lashing round
    /// several holds none of the others once one of them is gone, and who leaned on one has lost that.
    #[must_use]
    pub fn without(&self, gone: &BTreeSet<Id>, opened: &BTreeSet<(Id, Id)>) -> Self {
        let mut day = self.day.clone();
        (day.cylinders).retain(|state| !gone.contains(&state.cylinder.id));
        for state in &mut day.fronts {
            let name = (state.rack.clone(), state.front.id.clone());
            state.front.shut &= !opened.contains(&name);
        }
        Self::of_day(self.boat, self.trip, day)
    }

    /// What those take that are held otherwise than they were `before`.
    pub fn changed_since(&self, before: &Self) -> Vec<Takes> {
        let is_changed = |number: &usize| {
            let id = &self.bodies[*number].id;
            let old = (before.bodies).binary_search_by(|body| body.id.cmp(id));
            old.is_ok_and(|old| {
                before.holds[old] != self.holds[*number]
                    || before.pitches[old] != self.pitches[*number]
                    || before.bodies[old] != self.bodies[*number]
            })
        };
        let changed = (0..self.bodies.len()).filter(is_changed);
        changed.map(|number| self.takes_of(number)).collect()
    }

    /// Lashings and fronts that held something `before` and hold those who are left no more, by name.
    pub fn slack_since(&self, before: &Self) -> Vec<Id> {
        let counted = |id: &Id| {
            let mut all = before.straps.all.iter();
            all.any(|strap| strap.id == *id && strap.counts())
        };
        let straps = (self.straps.all.iter())
            .filter(|strap| !strap.round.is_empty() && !strap.counts() && counted(&strap.id))
            .map(|strap| strap.id.clone());
        let stands_in = |rack: &Id, slot: &String| {
            let mut bodies = self.bodies.iter();
            bodies.any(|body| (body.slot.as_ref()).is_some_and(|it| it.0 == *rack && it.1 == *slot))
        };
        let fronts = (self.day.fronts.iter().zip(&before.day.fronts))
            .filter(|(now, old)| old.front.shut && !now.front.shut)
            .filter(|(now, _)| (now.front.slots.iter()).any(|slot| stands_in(&now.rack, slot)))
            .map(|(now, _)| now.front.id.clone());
        let mut names: Vec<Id> = straps.chain(fronts).collect();
        names.sort();
        names.dedup();
        names
    }

    /// The front of its rack that a cylinder in a closed slot is pressed against by what it feels: rack and front.
    pub fn presses_on(&self, cylinder: &str, felt: &Felt) -> Option<(Id, Id)> {
        let number = (self.bodies).binary_search_by(|body| body.id.as_str().cmp(cylinder));
        let slot = self.holds[number.ok()?].slot.as_ref()?;
        let front = slot.front.as_ref()?;
        let presses = felt.f.horizontal().dot(front.towards) > 0.0;
        presses.then(|| (slot.rack.clone(), front.id.clone()))
    }

    /// The cylinders on deck, in the order of their names.
    pub fn cylinders(&self) -> impl ExactSizeIterator<Item = &Id> + '_ {
        self.bodies.iter().map(|body| &body.id)
    }

    /// Where a cylinder stands, in metres, and on which deck.
    pub fn place(&self, cylinder: &str) -> Option<(&Id, [f64; 2])> {
        let body = body::find(&self.bodies, cylinder)?;
        Some((&body.deck, [body.at.x, body.at.y]))
    }

    /// What each cylinder takes, in the order of their names. Many are worked out side by side.
    pub fn takes(&self) -> Vec<Takes> {
        use rayon::prelude::*;
        (0..self.bodies.len())
            .into_par_iter()
            .map(|number| self.takes_of(number))
            .collect()
    }

    fn judge(&self, number: usize) -> Judge<'_> {
        Judge::new(
            &self.bodies[number],
            &self.holds[number],
            self.pitches[number],
        )
    }

    fn takes_of(&self, number: usize) -> Takes {
        let body = &self.bodies[number];
        let judge = self.judge(number);
        let free = self.free(number);
        let upright = body.lying.is_none() && body.stance != Stance::Hanging;
        let envelope = match &free {
            Some(free) if is_round(&free.upright.base) => {
                let reach = free.upright.base.ray(Vec2::from_angle(0.0));
                let tips = reach / body.cg_height_m;
                let slides = free.friction.unwrap_or(f64::INFINITY);
                Envelope::Ratio(tips.min(slides).max(1e-6))
            }
            _ => envelope(&judge),
        };
        Takes {
            cylinder: body.id.clone(),
            place_m: [
                body.cg.x - self.boat.pitch_axis_x(),
                body.cg.y,
                body.cg.z - self.boat.roll_axis_height(),
            ],
            turns_above_m: if upright && body.cg_height_m > 0.0 {
                body.kappa2_m2 / body.cg_height_m
            } else {
                0.0
            },
            envelope,
            free,
        }
    }

    /// The body, if nothing but its foot (or a hand) keeps it up.
    fn free(&self, number: usize) -> Option<FreeStanding> {
        let (body, hold) = (&self.bodies[number], &self.holds[number]);
        let free = body.stance.is_upright() && hold.slot.is_none() && !hold.is_restrained();
        (free && body.lying.is_none()).then(|| FreeStanding {
            upright: Upright {
                centre_height_m: body.cg_height_m,
                kappa2_m2: body.kappa2_m2,
                base: body.base.clone(),
            },
            friction: body.friction.value,
        })
    }

    /// In which way a cylinder goes under what it feels, and how much of what holds is used up.
    pub fn way(&self, cylinder: &str, felt: &Felt) -> Option<(Way, f64)> {
        let number = (self.bodies).binary_search_by(|body| body.id.as_str().cmp(cylinder));
        let force = Force {
            f: felt.f,
            roll_acceleration: -felt.roll_acceleration,
            pitch_acceleration: -felt.pitch_acceleration,
            ..Force::default()
        };
        Some(self.judge(number.ok()?).ways(&force).worst())
    }

    /// Does it stand upright, so that it falls when it goes?
    pub fn stands(&self, cylinder: &str) -> bool {
        body::find(&self.bodies, cylinder)
            .is_some_and(|body| body.stance.is_upright() && body.lying.is_none())
    }

    /// What a cylinder reaches that goes at an instant, where those in `gone` are no longer in their places. It falls
    /// `towards` (of length one), or where the force points.
    pub fn fall(
        &self,
        cylinder: &str,
        at: &Attitude,
        towards: Option<Vec2>,
        gone: &BTreeSet<Id>,
    ) -> Option<Fallen> {
        if !self.stands(cylinder) {
            return None;
        }
        let there = |body: &&Body| body.id == cylinder || !gone.contains(&body.id);
        let bodies: Vec<Body> = self.bodies.iter().filter(there).cloned().collect();
        let holds: Vec<Hold> = (self.bodies.iter().zip(&self.holds))
            .filter(|(body, _)| there(body))
            .map(|(_, hold)| hold.clone())
            .collect();
        let number = (bodies.binary_search_by(|body| body.id.as_str().cmp(cylinder))).ok()?;
        let body = &bodies[number];
        let axes = Axes {
            roll_height_m: self.boat.roll_axis_height(),
            pitch_x_m: self.boat.pitch_axis_x(),
            pitch_height_m: self.boat.roll_axis_height(),
        };
        let (motion, case) = as_motion(at, axes);
        let force = crate::mechanics::motion::force_at(&motion, &case, body.cg);
        let downhill = force.along_deck().normalized().or(towards)?;
        let towards = towards.unwrap_or(downhill);
        let input = FallInput {
            boat: self.boat,
            scene: &self.scene,
            bodies: &bodies,
            holds: &holds,
            cylinders: &[],
            motion: &motion,
            cases: &Cases::new(&motion),
        };
        Some(fall::fall_now(input, number, (towards, downhill), case))
    }
}

fn is_round(base: &Base) -> bool {
    matches!(base, Base::Disc { offset, radius_m } if *offset == Offset::NONE && *radius_m > 0.0)
}

/// What a body takes towards all sides: for one that a limit analysis judges the analysis scales the push itself; for
/// the others it is searched.
fn envelope(judge: &Judge<'_>) -> Envelope {
    let force = |along: Vec2, a_n: f64| Force {
        f: vec3(along.x, along.y, -a_n),
        ..Force::default()
    };
    if let Some(mut held) = judge.held() {
        return Envelope::table(|towards, a_n| {
            let load = judge.load(&force(GRAVITY * towards, a_n));
            let used = Judge::held_ways(&mut held, &load).0.worst().1;
            GRAVITY / used
        });
    }
    Envelope::table(|towards, a_n| {
        let goes = |push: f64| {
            let used = judge.ways(&force(push * towards, a_n)).worst().1;
            used >= 1.0 || used.is_nan()
        };
        if goes(0.0) {
            return 0.0;
        }
        if !goes(MOST_PUSH) {
            return f64::INFINITY;
        }
        let (mut holds, mut fails) = (0.0, MOST_PUSH);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (holds + fails);
            if goes(middle) {
                fails = middle;
            } else {
                holds = middle;
            }
        }
        holds
    })
}

/// The swing by which an instant is written as the end of one, rad.
const SMALL_SWING_RAD: f64 = 1e-3;

/// An instant as the end of a small, quick swing with the same attitude and the same angular accelerations: what the
/// falls, which know load cases, are asked with. The rates, squared, are left out.
fn as_motion(at: &Attitude, axes: Axes) -> (Motion, LoadCase) {
    // Quartering takes sqrt(1/2) of each amplitude.
    let amplitude = SMALL_SWING_RAD * std::f64::consts::SQRT_2;
    let swing = |acceleration: f64| {
        let w2 = acceleration.abs() / SMALL_SWING_RAD;
        if w2 < 1e-9 {
            (0.0, 1.0, 1_i8)
        } else {
            let sign = if acceleration > 0.0 { -1 } else { 1 };
            (amplitude, std::f64::consts::TAU / w2.sqrt(), sign)
        }
    };
    let (roll, roll_period_s, roll_sign) = swing(at.roll_acceleration);
    let (pitch, pitch_period_s, pitch_sign) = swing(at.pitch_acceleration);
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let motion = Motion {
        roll_amplitude_rad: roll,
        roll_period_s,
        pitch_amplitude_rad: pitch,
        pitch_period_s,
        vertical_amplitude: at.vertical,
        heel_rad: at.roll_rad - half * f64::from(roll_sign) * roll,
        trim_rad: at.pitch_rad - half * f64::from(pitch_sign) * pitch,
        axes,
        ..Motion::default()
    };
    let case = LoadCase {
        swing: Swing::Quartering,
        roll_sign,
        pitch_sign,
        vertical_sign: 1,
        ..LoadCase::AT_REST
    };
    (motion, case)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::motion::force_at;

    #[test]
    fn an_instant_is_the_end_of_a_small_swing() {
        let at = Attitude {
            roll_rad: 0.21,
            pitch_rad: -0.05,
            vertical: 0.7,
            roll_acceleration: -0.9,
            pitch_acceleration: 0.3,
            ..Attitude::default()
        };
        let axes = Axes {
            roll_height_m: 0.2,
            pitch_x_m: 4.0,
            pitch_height_m: 0.2,
        };
        let (motion, case) = as_motion(&at, axes);
        let force = force_at(&motion, &case, vec3(6.0, 1.0, 1.5));
        let felt = at.felt([2.0, 1.0, 1.3]);
        assert!((force.f - felt.f).length() < 1e-9, "{force:?} {felt:?}");
        assert!((force.roll_acceleration + felt.roll_acceleration).abs() < 1e-9);
        assert!((force.pitch_acceleration + felt.pitch_acceleration).abs() < 1e-9);
    }
}
