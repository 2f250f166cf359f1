//! The ways in which one body can go under one force, with how much of what holds is used up.

use std::cell::OnceCell;

use super::body::{Body, Lying, Rest};
use super::hold::{ClosedSlot, Hold, HoldDown, Wall};
use super::limits::{Prepared, front_share};
use super::numbers::{Stance, Way};
use crate::geometry::Elementary as _;
use crate::layout::Chocks;
use crate::mechanics::equilibrium::{self, Footing, Held, Holding, Load, Mechanism, Mode};
use crate::mechanics::lashing::strength::calculation_strength_n;
use crate::mechanics::lean::PlaneForce;
use crate::mechanics::lying::{self, LyingForce, RollStop, flat_twin_tip};
use crate::mechanics::motion::{Extremes, Force, GRAVITY, LoadCase};
use crate::mechanics::rack::{Rail, RailForces, SetRail, rail_forces_at_most, set_rail_forces};
use crate::mechanics::tiers::{LowerRow, TwoTiers, groove_angle_rad};
use crate::mechanics::vector::vec3;

/// Friction that is taken while nobody knows it, for the limit "if the unknowns hold".
const HOPED_FRICTION: f64 = 1.0;

/// The most ways a body has.
const MOST: usize = 5;

/// Each way a body could go, with its utilisation.
#[derive(Copy, Clone, Debug)]
pub(super) struct Ways {
    items: [(Way, f64); MOST],
    count: usize,
}

impl Ways {
    fn new() -> Self {
        Self {
            items: [(Way::Tips, 0.0); MOST],
            count: 0,
        }
    }

    fn add(&mut self, way: Way, value: f64) {
        if self.count < MOST {
            self.items[self.count] = (way, value);
            self.count += 1;
        }
    }

    /// All of them.
    pub(super) fn iter(&self) -> impl Iterator<Item = (Way, f64)> + '_ {
        self.items[..self.count].iter().copied()
    }

    /// The worst; of equal ones the first.
    pub(super) fn worst(&self) -> (Way, f64) {
        let mut worst = (Way::Tips, 0.0);
        for (way, value) in self.iter() {
            if value > worst.1 || value.is_nan() {
                worst = (way, value);
            }
        }
        worst
    }
}

/// A body with what holds it, ready to be asked at many forces.
#[derive(Debug)]
pub(super) struct Judge<'a> {
    pub(super) body: &'a Body,
    pub(super) hold: &'a Hold,
    friction: f64,
    footing: Footing,
    stop: [RollStop; 2],
    groove: Option<f64>,
    /// The edge and the front of its closed slot.
    rails: Option<(SetRail, Option<SetRail>)>,
    /// What it feels, load case by load case; looked at when first asked for.
    forces: OnceCell<Vec<(LoadCase, Force)>>,
    /// In its closed slot, load case by load case; looked at when first asked for.
    slot_forces: OnceCell<Vec<SlotForces>>,
}

impl<'a> Judge<'a> {
    /// Prepares what does not depend on the force. `lower_pitch_m` is the distance between the two shells in
    /// whose groove the body rests.
    pub(super) fn new(body: &'a Body, hold: &'a Hold, lower_pitch_m: Option<f64>) -> Self {
        let stop = hold
            .row
            .as_ref()
            .map_or_else(|| stops(body, hold), |row| row.ends);
        let groove =
            lower_pitch_m.and_then(|pitch| groove_angle_rad(pitch, body.radius_m, body.radius_m));
        let rails = hold.slot.as_ref().map(|slot| {
            let edge = edge_of(body, slot);
            let front = slot.front.as_ref().map(|front| Rail {
                height_m: front.height_m,
                play_m: edge.play_m + front.gives_m,
                ..edge
            });
            (edge.into(), front.map(SetRail::from))
        });
        Self {
            rails,
            friction: body.friction.value.unwrap_or(HOPED_FRICTION),
            footing: Footing::from(&body.base),
            stop,
            groove,
            forces: OnceCell::new(),
            slot_forces: OnceCell::new(),
            body,
            hold,
        }
    }

    /// What it feels, load case by load case. A judge is asked under one motion only.
    pub(super) fn forces(&self, prepared: &Prepared) -> &[(LoadCase, Force)] {
        self.forces
            .get_or_init(|| prepared.cases.list_of_forces(self.body.cg))
    }

    /// What it does to the edge and the front of its closed slot, load case by load case; nothing where it is in
    /// none. A judge is asked under one motion only.
    pub(super) fn slot_forces_by_case(&self, prepared: &Prepared) -> &[SlotForces] {
        self.slot_forces.get_or_init(|| {
            let forces = |slot: &ClosedSlot| {
                let forces = self.forces(prepared).iter();
                forces
                    .map(|(_, force)| self.slot_forces(slot, force))
                    .collect()
            };
            self.hold.slot.as_ref().map_or_else(Vec::new, forces)
        })
    }

    /// Every way under this force.
    pub(super) fn ways(&self, force: &Force) -> Ways {
        if let Some(lying) = &self.body.lying {
            return self.lying_ways(lying, force);
        }
        if self.body.stance == Stance::Hanging {
            return self.hanging_ways(force);
        }
        if let Some(slot) = &self.hold.slot {
            let forces = self.slot_forces(slot, force);
            let row = slot.front.as_ref().filter(|front| front.row.is_some());
            let pull_n = row.map(|front| front.pull_n(self.body, slot, force));
            return self.slot_ways(slot, &forces, pull_n, force);
        }
        match self.held() {
            Some(mut held) => Self::held_ways(&mut held, &self.load(force)).0,
            None => self.free_ways(force),
        }
    }

    /// The same body and hold with another friction underfoot.
    pub(super) fn with_friction(&self, friction: f64) -> Self {
        Self {
            friction,
            footing: self.footing.clone(),
            forces: OnceCell::new(),
            slot_forces: OnceCell::new(),
            ..*self
        }
    }

    /// A hanging body swings; its whole weight comes on its point, which counts with its calculation
    /// strength.
    fn hanging_ways(&self, force: &Force) -> Ways {
        let mut ways = Ways::new();
        if let Some((_, Some(strength))) = &self.hold.hangs_by {
            let pull = self.body.mass_kg * force.f.length();
            ways.add(
                Way::LashingGives,
                share(pull, calculation_strength_n(*strength)),
            );
        }
        ways
    }

    fn free_ways(&self, force: &Force) -> Ways {
        let mut ways = Ways::new();
        let body = self.body.upright();
        ways.add(
            Way::Tips,
            crate::mechanics::standing::tip(force, &body, &self.body.base),
        );
        ways.add(
            Way::Slides,
            crate::mechanics::standing::slide(force, self.friction),
        );
        ways.add(Way::Lifts, lift(force, 0.0, self.body.mass_kg));
        ways
    }

    /// The body and what holds it, for the limit analysis.
    pub(super) fn analysis(&self) -> (equilibrium::Body<'_>, Holding<'_>) {
        let body = equilibrium::Body {
            mass_kg: self.body.mass_kg,
            friction: self.friction,
            foot: self.hold.foot(),
            feet: self.footing.feet(),
        };
        let holding = Holding {
            restraints: &self.hold.restraints,
            point_capacities_n: &self.hold.point_capacities_n,
            bights: &self.hold.bights,
        };
        (body, holding)
    }

    /// The load for the limit analysis.
    pub(super) fn load(&self, force: &Force) -> Load {
        Load::of(force, self.body.cg_height_m, self.body.kappa2_m2)
    }

    /// A body that lashings, backing or an open slot hold, ready for the limit analysis at many loads;
    /// `None` for one that is judged in another way.
    pub(super) fn held(&self) -> Option<Held<'_>> {
        let is_judged_otherwise = self.body.lying.is_some()
            || self.body.stance == Stance::Hanging
            || self.hold.slot.is_some();
        (self.hold.is_restrained() && !is_judged_otherwise).then(|| {
            let (body, holding) = self.analysis();
            Held::new(body, holding)
        })
    }

    /// As [`Judge::ways`] for the body that [`Judge::held`] made ready, and by which mechanism it goes.
    pub(super) fn held_ways(held: &mut Held<'_>, load: &Load) -> (Ways, Option<Mechanism>) {
        let mut ways = Ways::new();
        let found = held.utilisation(load);
        let way = match found.failure.map(|failure| failure.mode) {
            Some(Mode::Slides) => Way::Slides,
            Some(Mode::KicksOut) => Way::FootKicksOut,
            Some(Mode::Lifts) => Way::Lifts,
            Some(Mode::Tips) | None => Way::Tips,
        };
        ways.add(way, found.utilisation);
        (ways, found.mechanism)
    }

    /// The rail that the edge of a slot is to this body.
    pub(super) fn edge(&self, slot: &ClosedSlot) -> Rail {
        edge_of(self.body, slot)
    }

    /// The forces between a body and the edge and front of its slot.
    pub(super) fn slot_forces(&self, slot: &ClosedSlot, force: &Force) -> SlotForces {
        let body = self.body.upright();
        let (plane, direction) = PlaneForce::worst_and_whither(force, &body);
        let reach_m = self.body.base.ray(direction);
        let Some((edge_rail, front_rail)) = &self.rails else {
            return SlotForces::default();
        };
        let edge = set_rail_forces(&body, reach_m, edge_rail, &plane);
        let stop_n = |rail: &RailForces| rail.stop_n.unwrap_or(0.0).abs();
        let leaning_on = slot.front.as_ref().and_then(|front| {
            let towards_front = direction.dot(front.towards);
            (towards_front > 0.0).then_some((front, towards_front))
        });
        let leaning_on = leaning_on.zip(front_rail.as_ref());
        let Some(((_, towards_front), front_rail)) = leaning_on else {
            return SlotForces {
                edge_n: edge.rail_n,
                front_n: 0.0,
                stop_n: stop_n(&edge),
                kick: edge.kick,
            };
        };
        let at_front = set_rail_forces(&body, reach_m, front_rail, &plane);
        // The push is shared by its direction: the front takes what points at it, the dividers the rest.
        let aside = (1.0 - towards_front * towards_front).max(0.0).sqrt();
        SlotForces {
            edge_n: part_of(edge.rail_n, aside),
            front_n: at_front.rail_n * towards_front,
            stop_n: stop_n(if aside > towards_front {
                &edge
            } else {
                &at_front
            }),
            // What slides the foot out under the one and under the other stand square to each other.
            kick: part_of(edge.kick, aside).hypotenuse(part_of(at_front.kick, towards_front)),
        }
    }

    /// More than [`Self::slot_ways`] gives in any way between these extremes; infinite where that is not known. Without
    /// the pull in the front where `front` is false.
    pub(super) fn slot_use_at_most(&self, front: bool, extremes: &Extremes) -> f64 {
        let (Some(slot), Some((edge, at_front))) = (&self.hold.slot, &self.rails) else {
            return f64::INFINITY;
        };
        let body = self.body.upright();
        let reach_m = self.body.base.ray_bounds();
        let at_most = |rail: &SetRail| rail_forces_at_most(&body, reach_m, rail, extremes);
        let (Some(edge), Some(at_front)) = (
            at_most(edge),
            at_front
                .as_ref()
                .map_or(Some(RailForces::default()), at_most),
        ) else {
            return f64::INFINITY;
        };
        // A push that is shared by its direction leaves no more to either than the whole of it would be.
        let stop_n = |rail: &RailForces| rail.stop_n.unwrap_or(0.0);
        let forces = SlotForces {
            edge_n: edge.rail_n,
            front_n: at_front.rail_n,
            stop_n: stop_n(&edge).max(stop_n(&at_front)),
            kick: edge.kick.max(at_front.kick),
        };
        let lightest = Force {
            f: vec3(0.0, 0.0, -extremes.a_n[0]),
            ..Force::default()
        };
        let pull_n = (!front).then_some(0.0);
        self.slot_use(slot, &forces, pull_n, &lightest)
    }

    /// The ways of a body in a slot, with the forces in it. The pull in the front is that of the body alone
    /// where none is given.
    pub(super) fn slot_ways(
        &self,
        slot: &ClosedSlot,
        forces: &SlotForces,
        front_pull_n: Option<f64>,
        force: &Force,
    ) -> Ways {
        let [gives, kick, lifts] = self.slot_shares(slot, forces, front_pull_n, force);
        let mut ways = Ways::new();
        ways.add(Way::RackGives, gives);
        if !slot.foot_stopped {
            ways.add(Way::FootKicksOut, kick);
        }
        ways.add(Way::Lifts, lifts);
        ways
    }

    /// The worst of [`Self::slot_ways`] alone.
    pub(super) fn slot_use(
        &self,
        slot: &ClosedSlot,
        forces: &SlotForces,
        front_pull_n: Option<f64>,
        force: &Force,
    ) -> f64 {
        let mut worst = 0.0;
        for share in self.slot_shares(slot, forces, front_pull_n, force) {
            if share > worst || share.is_nan() {
                worst = share;
            }
        }
        worst
    }

    /// How much is used up of the rack and its front, of what keeps the foot, and of what keeps it down.
    fn slot_shares(
        &self,
        slot: &ClosedSlot,
        forces: &SlotForces,
        front_pull_n: Option<f64>,
        force: &Force,
    ) -> [f64; 3] {
        let of_edge = |force_n: f64| slot.edge_n.map_or(0.0, |strength| share(force_n, strength));
        let alone_n = || {
            let front = slot.front.as_ref();
            front.map_or(0.0, |front| front.pull_per_push * forces.front_n)
        };
        let front = front_share(slot, front_pull_n.unwrap_or_else(alone_n));
        // What stops the foot is as strong as the edge, unless somebody says otherwise: nobody asks for both.
        let edge_and_stop = of_edge(forces.edge_n).max(of_edge(forces.stop_n));
        let kick = if slot.foot_stopped { 0.0 } else { forces.kick };
        let hold_down = match slot.hold_down {
            HoldDown::Nothing => 0.0,
            HoldDown::Known(strength) => strength,
            HoldDown::NotKnown => f64::INFINITY,
        };
        let lifts = lift(force, hold_down, self.body.mass_kg);
        [edge_and_stop.max(front), kick, lifts]
    }

    fn lying_ways(&self, lying: &Lying, force: &Force) -> Ways {
        let mut ways = Ways::new();
        let own = LyingForce::new(force, lying.axis_rad);
        let [left_wall, right_wall, valve_wall, foot_wall] = &self.hold.walls;
        let hold_down = if self.hold.pressed_down_unknown {
            f64::INFINITY
        } else {
            self.hold.pressed_down_n
        };
        ways.add(Way::Lifts, lift(force, hold_down, self.body.mass_kg));
        if lying.rest == Rest::Crate {
            return ways;
        }
        let walled_across = if own.across > 0.0 {
            left_wall
        } else {
            right_wall
        };
        let walled_along = if own.along > 0.0 {
            valve_wall
        } else {
            foot_wall
        };
        let row = lying::Lying {
            mass_kg: self.body.mass_kg,
            radius_m: self.body.radius_m,
            left: self.stop[0],
            right: self.stop[1],
            row: self.hold.row.as_ref().map_or(1, |row| row.count),
            strap: self.hold.over_strap,
        };
        if let Wall::Known(_, strength) = walled_across {
            // Against a wall at its end the whole row pushes.
            let row_kg = self.hold.row.as_ref().map(|row| row.mass_kg);
            let push = row_kg.unwrap_or(self.body.mass_kg) * own.across.abs();
            ways.add(Way::RollsAway, share(push, *strength));
        }
        if walled_across.is_open() {
            match (&lying.rest, self.body.assembled.base.pair_spacing_m()) {
                (Rest::Flat, spacing_m) => {
                    let a_n = own.a_n + self.hold.pressing_n / self.body.mass_kg;
                    if let Some(spacing_m) = spacing_m {
                        ways.add(
                            Way::RollsAway,
                            flat_twin_tip(&own, self.body.radius_m, spacing_m),
                        );
                    }
                    ways.add(
                        Way::Slides,
                        share_of_friction(own.across.abs(), a_n, self.friction),
                    );
                }
                (Rest::Groove(_), _) => ways.add(
                    Way::LeavesGroove,
                    self.groove.map_or(f64::INFINITY, |angle| {
                        if own.a_n <= 0.0 {
                            f64::INFINITY
                        } else {
                            own.across.abs() / (own.a_n * angle.tangent())
                        }
                    }),
                ),
                _ => ways.add(Way::RollsAway, row.roll(&own).max(self.under_a_tier(&own))),
            }
        }
        if let Wall::Known(_, strength) = walled_along {
            let push = self.body.mass_kg * own.along.abs();
            ways.add(Way::SlidesAlong, share(push, *strength));
        }
        if walled_along.is_open() {
            ways.add(
                Way::SlidesAlong,
                row.slide_along(&own, self.friction, self.hold.pressing_n),
            );
        }
        ways
    }
}

impl Judge<'_> {
    /// Share of what keeps a body in its saddle or between its chocks while another rests in the groove
    /// beside it: `tan gamma >= (1.5 x + 0.5 tan nu) / (1.5 + 0.5 x cot nu)` of the end one of its row
    /// (docs/method.md, lying).
    fn under_a_tier(&self, own: &LyingForce) -> f64 {
        let row = self.hold.row.as_ref();
        let carries = row.map_or(self.hold.carries_at_rad, |row| row.carries_at_rad);
        let Some(nu) = carries else {
            return 0.0;
        };
        if own.a_n <= 0.0 {
            return f64::INFINITY;
        }
        let x = own.across.abs() / own.a_n;
        if let Some(row) = row {
            let stack = TwoTiers {
                lower_count: row.count,
                groove_angle_rad: nu,
                contact_angle_rad: row.ends[usize::from(own.across <= 0.0)].contact_angle_rad,
                lower_row: LowerRow::EndChocks,
            };
            // At a wall the row holds whatever rests on it.
            if stack.contact_angle_rad >= std::f64::consts::FRAC_PI_2 {
                return 0.0;
            }
            let limit = stack.row_limit();
            return if limit > 0.0 {
                x / limit
            } else {
                f64::INFINITY
            };
        }
        let asked = (1.5 * x + 0.5 * nu.tangent()) / (1.5 + 0.5 * x / nu.tangent());
        let weaker = self
            .stop
            .iter()
            .map(|stop| stop.limit(self.body.radius_m))
            .fold(f64::INFINITY, f64::min);
        asked / weaker
    }
}

/// What one body does to the edge and the front of its slot.
#[derive(Copy, Clone, Debug, Default)]
pub(super) struct SlotForces {
    /// On the edge, back rail or divider, in newtons.
    pub(super) edge_n: f64,
    /// On the front, in newtons.
    pub(super) front_n: f64,
    /// On what stops the foot, in newtons; none where nothing does.
    pub(super) stop_n: f64,
    /// Share of the limit at which the foot slides out.
    pub(super) kick: f64,
}

/// Share of what keeps a body down that is used up: its weight, and a hold-down in newtons.
pub(super) fn lift(force: &Force, hold_down_n: f64, mass_kg: f64) -> f64 {
    if hold_down_n.is_infinite() {
        return 0.0;
    }
    (GRAVITY - force.a_n()).max(0.0) / (GRAVITY + hold_down_n / mass_kg)
}

pub(super) fn share(force_n: f64, strength_n: f64) -> f64 {
    if force_n <= 0.0 {
        0.0
    } else if strength_n <= 0.0 {
        f64::INFINITY
    } else {
        force_n / strength_n
    }
}

/// A share of what may be infinite; nothing of it is nothing.
fn part_of(whole: f64, share: f64) -> f64 {
    if share <= 0.0 { 0.0 } else { whole * share }
}

fn share_of_friction(along: f64, a_n: f64, friction: f64) -> f64 {
    if a_n <= 0.0 || friction <= 0.0 {
        f64::INFINITY
    } else {
        along / (friction * a_n)
    }
}

fn edge_of(body: &Body, slot: &ClosedSlot) -> Rail {
    Rail {
        height_m: slot.edge_height_m,
        play_m: slot.play_m.unwrap_or(0.0).max(0.0),
        foot_stopped: slot.foot_stopped,
        friction: body.friction.value.unwrap_or(0.0),
    }
}

/// What stops a lying body on the left and on the right of its axis.
pub(super) fn stops(body: &Body, hold: &Hold) -> [RollStop; 2] {
    let Some(lying) = &body.lying else {
        return [RollStop::NONE; 2];
    };
    let radius = body.radius_m;
    let stop = match &lying.rest {
        Rest::Chocks(Chocks::Blocks {
            height_m,
            gap_m,
            fixed: true,
        }) => RollStop::chock(radius, *height_m, *gap_m),
        Rest::Chocks(Chocks::Wedges {
            height_m,
            slope_deg,
            fixed: true,
        }) => RollStop::wedge(radius, *height_m, slope_deg.to_radians(), 0.0),
        Rest::Chocks(Chocks::Saddle { half_angle_deg }) => {
            RollStop::saddle(half_angle_deg.to_radians())
        }
        Rest::Saddle(angle) => RollStop::saddle(*angle),
        // A chock that is not fixed is pushed away, and counts for nothing.
        Rest::Chocks(_) | Rest::Free | Rest::Flat | Rest::Groove(_) | Rest::Crate => RollStop::NONE,
    };
    let walled = |side: usize| {
        if hold.walls[side].is_open() {
            stop
        } else {
            RollStop::WALL
        }
    };
    [walled(0), walled(1)]
}
