//! What holds a body in one part of the day: lashings, backing, the slot of a rack.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::body::{self, Body};
use super::front::{ClosedFront, gather_rows};
use super::hold_lying::{add_crate, add_over_straps, add_walls, carries_at_rad};
use super::leaning;
use super::rows::{self, Row};
use super::straps::{StrapState, Straps};
use crate::geometry::Elementary as _;
use crate::geometry::{Shape, Vec2, separation, vec2};
use crate::layout::{Boat, DayState, Fixture, Front, FrontKind, Id, Known, Rack, RackKind};
use crate::mechanics::equilibrium::{Bight, Foot, Restraint, backing};
use crate::mechanics::lashing::leg::{Leg, Shell, strap_round};
use crate::mechanics::lashing::strength::calculation_strength_n;
use crate::mechanics::lying::OverStrap;
use crate::mechanics::rack::row_strap_pull_n;
use crate::mechanics::vector::{Vec3, vec3};

/// A fixture closer than this backs a body (common practice, no source).
pub(super) const BACKING_GAP_M: f64 = 0.030;

/// Grip of webbing or rope on a painted shell, for how far the two legs of a strap may pull unequally
/// (cautious assumption, no source).
const STRAP_GRIP: f64 = 0.2;

/// How much the middle of a front strap gives at its load, as a share of half its free length, where no
/// slack is given: webbing stretched by 4 % (EN 12195-2 allows 7 % at the lashing capacity).
const STRETCHED_FRONT: f64 = 0.286;

/// What a restraint is, beside its mechanics.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum HeldBy {
    /// A leg of a lashing.
    Lashing { lashing: Id, point: Id },
    /// A fixture.
    Backing(Id),
    /// The back rail or a divider of a rack.
    Rack(Id),
}

/// A lashing on this body, whether it counts or not.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StrapOnBody {
    pub(super) state: StrapState,
    /// Is it on the straight shell?
    pub(super) on_straight_shell: bool,
    /// Height above what the body stands on.
    pub(super) height_m: f64,
    /// Its legs from this body; empty if it cannot run as drawn.
    pub(super) legs: Vec<Leg>,
    /// Over how many bodies its strength is shared.
    pub(super) shared_by: usize,
}

/// What holds a racked cylinder down.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) enum HoldDown {
    /// Nothing.
    Nothing,
    /// This force, in newtons.
    Known(f64),
    /// Something of a strength that nobody knows.
    NotKnown,
}

/// The closed slot of a rack.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ClosedSlot {
    pub(super) rack: Id,
    pub(super) slot: String,
    pub(super) edge_height_m: f64,
    /// Strength of the edge; `None` if not known.
    pub(super) edge_n: Option<f64>,
    pub(super) play_m: Option<f64>,
    pub(super) foot_stopped: bool,
    /// Towards the front, and the front that closes it; `None` for a socket.
    pub(super) front: Option<ClosedFront>,
    pub(super) hold_down: HoldDown,
}

/// What stands close to one side of a lying body.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) enum Wall {
    /// Nothing.
    #[default]
    Open,
    /// A fixture of this strength, in newtons.
    Known(Id, f64),
    /// A fixture of a strength that nobody knows.
    NotKnown(Id),
}

impl Wall {
    /// Is nothing there?
    pub(super) fn is_open(&self) -> bool {
        *self == Self::Open
    }

    /// Of two fixtures on the same side the one that counts: nobody knows how they share the push, so it is
    /// the weaker, and one that nobody knows before any other.
    pub(super) fn weaker(self, other: Self) -> Self {
        match (self, other) {
            (Self::Open, wall) | (wall, Self::Open) => wall,
            (Self::NotKnown(a), Self::NotKnown(b)) => Self::NotKnown(a.min(b)),
            (Self::NotKnown(id), Self::Known(..)) | (Self::Known(..), Self::NotKnown(id)) => {
                Self::NotKnown(id)
            }
            (Self::Known(a, mine), Self::Known(b, other)) => {
                if mine < other || (mine <= other && a <= b) {
                    Self::Known(a, mine)
                } else {
                    Self::Known(b, other)
                }
            }
        }
    }
}

/// All that holds one body.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Hold {
    pub(super) restraints: Vec<Restraint>,
    pub(super) held_by: Vec<HeldBy>,
    /// Strength of shared points; unknown ones are infinite here.
    pub(super) point_capacities_n: Vec<f64>,
    /// The names of those points and fixtures, and whether their strength is known.
    pub(super) points: Vec<(HeldBy, bool)>,
    pub(super) bights: Vec<Bight>,
    pub(super) foot_stopped: bool,
    pub(super) slot: Option<ClosedSlot>,
    pub(super) backed_by: Vec<Id>,
    pub(super) straps: Vec<StrapOnBody>,
    /// A slot that is not closed: its rack, slot and front.
    pub(super) open_slot: Option<(Id, String, Option<Id>)>,
    /// For a lying body: what walls its sides (left, right of its axis) and its ends (valve, foot).
    pub(super) walls: [Wall; 4],
    /// For a hanging body: strength of the point it hangs from.
    pub(super) hangs_by: Option<(Id, Option<f64>)>,
    pub(super) over_strap: Option<OverStrap>,
    /// Pressing of pretensioned straps over a lying body, in newtons.
    pub(super) pressing_n: f64,
    /// Downward strength of straps over a lying body and of nets, in newtons.
    pub(super) pressed_down_n: f64,
    /// Straps over a lying body with something that nobody knows, and what a newton of pull in them presses
    /// down with.
    pub(super) unknown_over: Vec<(Id, f64)>,
    /// The net or crate that keeps a lying body down with a force that nobody knows.
    pub(super) unknown_hold_down: Option<Id>,
    /// For a lying body that carries another: the angle of the groove in which that one lies, in radians.
    pub(super) carries_at_rad: Option<f64>,
    /// For a lying body that touches others beside it: the row.
    pub(super) row: Option<Row>,
    /// A net or hold-down of unknown strength.
    pub(super) pressed_down_unknown: bool,
}

impl Hold {
    /// Does anything but the foot hold it, so that the limit analysis is needed?
    pub(super) fn is_restrained(&self) -> bool {
        !self.restraints.is_empty()
    }

    /// The foot as the limit analysis wants it.
    pub(super) fn foot(&self) -> Foot {
        if self.foot_stopped {
            Foot::Stopped
        } else {
            Foot::Free
        }
    }

    /// Is a lashing made fast to it on the straight shell?
    pub(super) fn is_lashed(&self) -> bool {
        self.straps
            .iter()
            .any(|strap| strap.state.counts() && strap.on_straight_shell && !strap.legs.is_empty())
    }

    /// Does something count that nobody knows the strength of?
    pub(super) fn has_unknown_strength(&self) -> bool {
        self.points.iter().any(|(_, known)| !known)
            || self.straps.iter().any(|strap| {
                self.slot.is_none()
                    && strap.on_straight_shell
                    && strap.state.counts()
                    && strap.state.msl_n.is_none()
            })
            || self.pressed_down_unknown
            || self
                .walls
                .iter()
                .any(|wall| matches!(wall, Wall::NotKnown(_)))
            || self
                .hangs_by
                .as_ref()
                .is_some_and(|(_, strength)| strength.is_none())
            || self.slot.as_ref().is_some_and(|slot| {
                slot.edge_n.is_none()
                    || slot
                        .front
                        .as_ref()
                        .is_some_and(|front| front.strength_n.is_none())
            })
    }
}

pub(super) fn newtons(known: Known) -> Option<f64> {
    known.value().map(|kilonewtons| 1000.0 * kilonewtons)
}

/// What holds each body, in the order of the bodies.
pub(super) fn holds(boat: &Boat, day: &DayState, straps: &Straps, bodies: &[Body]) -> Vec<Hold> {
    let around = Around {
        boat,
        straps,
        bodies,
        backs: backs(boat),
        fronts: day.fronts_by_slot(),
    };
    let mut holds: Vec<Hold> = bodies.iter().map(|body| hold(&around, body)).collect();
    gather_rows(bodies, &mut holds);
    rows::gather(bodies, &mut holds);
    leaning::share_out(bodies, &mut holds);
    holds
}

/// What may hold a body.
struct Around<'a> {
    boat: &'a Boat,
    straps: &'a Straps,
    bodies: &'a [Body],
    backs: Vec<Back<'a>>,
    /// The front of each slot, by rack.
    fronts: BTreeMap<&'a str, BTreeMap<&'a str, &'a Front>>,
}

fn hold(around: &Around<'_>, body: &Body) -> Hold {
    let Around {
        boat,
        straps,
        bodies,
        ..
    } = *around;
    let mut hold = Hold::default();
    if body.lying.is_some() {
        add_walls(boat, body, &mut hold);
        add_straps(straps, bodies, body, &mut hold);
        add_over_straps(body, &mut hold);
        add_crate(boat, body, &mut hold);
        hold.carries_at_rad = carries_at_rad(bodies, body);
        return hold;
    }
    if let Some((rack, slot)) = &body.slot
        && let Some(rack) = boat.rack(rack)
    {
        let front = (around.fronts.get(rack.id.as_str()))
            .and_then(|fronts| fronts.get(slot.as_str()).copied());
        add_slot(front, (rack, slot), body, &mut hold);
    }
    if let Some(id) = &body.hangs_from
        && let Some(point) = boat.lashing_point(id)
    {
        hold.hangs_by = Some((id.clone(), newtons(point.strength_kn)));
        return hold;
    }
    add_backing(&around.backs, body, &mut hold);
    hold.backed_by.sort();
    add_straps(straps, bodies, body, &mut hold);
    hold
}

fn add_point(hold: &mut Hold, held_by: HeldBy, strength_n: Option<f64>) -> usize {
    hold.point_capacities_n
        .push(strength_n.unwrap_or(f64::INFINITY));
    hold.points.push((held_by, strength_n.is_some()));
    hold.points.len() - 1
}

/// The point of a leg; legs that are made fast to the same point share its strength.
fn add_lashing_point(hold: &mut Hold, lashing: &Id, point: &Id, strength_n: Option<f64>) -> usize {
    let same = |held_by: &HeldBy| matches!(held_by, HeldBy::Lashing { point: other, .. } if other == point);
    if let Some(index) = hold.points.iter().position(|(held_by, _)| same(held_by)) {
        let capacity_n = &mut hold.point_capacities_n[index];
        *capacity_n = capacity_n.min(strength_n.unwrap_or(f64::INFINITY));
        return index;
    }
    let held_by = HeldBy::Lashing {
        lashing: lashing.clone(),
        point: point.clone(),
    };
    add_point(hold, held_by, strength_n)
}

fn add_push(
    hold: &mut Hold,
    held_by: &HeldBy,
    towards: Vec2,
    contact: (f64, f64),
    strength_n: Option<f64>,
) {
    let (reach_m, height_m) = contact;
    let point = add_point(hold, held_by.clone(), strength_n);
    let capacity = strength_n.unwrap_or(f64::INFINITY);
    for push in backing(towards, reach_m, height_m, capacity, point) {
        hold.restraints.push(push);
        hold.held_by.push(held_by.clone());
    }
}

/// A rail at one height: it does not hold the foot.
fn add_rail(
    hold: &mut Hold,
    held_by: &HeldBy,
    towards: Vec2,
    (reach_m, height_m): (f64, f64),
    strength_n: Option<f64>,
) {
    let point = add_point(hold, held_by.clone(), strength_n);
    let capacity = strength_n.unwrap_or(f64::INFINITY);
    let [_, at_height] = backing(towards, reach_m, height_m, capacity, point);
    hold.restraints.push(at_height);
    hold.held_by.push(held_by.clone());
}

/// From the projected centre of gravity to the contact towards a side.
fn reach(body: &Body, towards: Vec2) -> f64 {
    let offset = vec2(body.cg.x, body.cg.y) - body.at;
    body.radius_m - offset.dot(towards)
}

/// A fixture that can back a body.
struct Back<'a> {
    fixture: &'a Fixture,
    strength: Known,
    shape: Shape,
}

/// All of them.
fn backs(boat: &Boat) -> Vec<Back<'_>> {
    let back = |fixture: &'_ Fixture| -> Option<(Known, Shape)> {
        let outline = super::scene::corners(&fixture.outline)?;
        Some((fixture.backing_kn?, Shape::Polygon(outline)))
    };
    let all = boat.fixtures.iter();
    all.filter_map(|fixture| {
        let (strength, shape) = back(fixture)?;
        Some(Back {
            fixture,
            strength,
            shape,
        })
    })
    .collect()
}

fn add_backing(backs: &[Back<'_>], body: &Body, hold: &mut Hold) {
    let shell = Shape::disc(body.at, body.radius_m);
    let near = shell.bounds().grown(BACKING_GAP_M);
    for Back {
        fixture,
        strength,
        shape,
    } in backs
    {
        if !shape.bounds().meets(&near) || fixture.deck != body.deck {
            continue;
        }
        let height_m = (fixture.height_m - body.floor_m).min(body.assembled.strap_to_m);
        if height_m <= 0.0 || fixture.underside_m > body.floor_m + 0.05 {
            continue;
        }
        let apart = separation(&shell, shape);
        if apart.gap_m > BACKING_GAP_M || apart.depth_m > BACKING_GAP_M {
            continue;
        }
        let Some(towards) = (apart.b - body.at).normalized() else {
            continue;
        };
        hold.backed_by.push(fixture.id.clone());
        add_push(
            hold,
            &HeldBy::Backing(fixture.id.clone()),
            towards,
            (reach(body, towards), height_m),
            newtons(*strength),
        );
    }
}

fn add_slot(front: Option<&Front>, (rack, slot): (&Rack, &str), body: &Body, hold: &mut Hold) {
    let edge_n = newtons(rack.slot_strength_kn);
    let turn = rack.turn_deg.to_radians();
    let towards_back = Vec2::from_angle(turn).perp();
    hold.foot_stopped = rack.foot_held;
    // What stands on a mat stands higher in the rack. An edge above the straight shell touches the shoulder.
    let shoulder_m = body.assembled.strap_to_m;
    let edge_height_m = (rack.edge_height_m - body.mats_m).min(shoulder_m);
    let closed_front = match (rack.kind, front) {
        (RackKind::Sockets, _) => None,
        // A front above the shoulder slips over the valve, as a lashing there would.
        (_, Some(front)) if front.shut && front.height_m - body.mats_m <= shoulder_m + 1e-9 => {
            Some(ClosedFront {
                id: front.id.clone(),
                towards: -towards_back,
                height_m: front.height_m - body.mats_m,
                strength_n: newtons(front.strength_kn),
                pull_per_push: pull_per_push(rack, front),
                // Who stands behind it is gathered when all are there.
                row: (!holds_each(front)).then(|| Arc::from([])),
                gives_m: gives_m(rack, front),
                is_cord: front.kind == FrontKind::Cord,
            })
        }
        _ => {
            hold.open_slot = Some((
                rack.id.clone(),
                slot.to_owned(),
                front.map(|front| front.id.clone()),
            ));
            let held_by = HeldBy::Rack(rack.id.clone());
            let along = Vec2::from_angle(turn);
            for towards in [towards_back, along, -along] {
                let contact = (reach(body, towards), edge_height_m);
                add_rail(hold, &held_by, towards, contact, edge_n);
            }
            return;
        }
    };
    hold.slot = Some(ClosedSlot {
        rack: rack.id.clone(),
        slot: slot.to_owned(),
        edge_height_m,
        edge_n,
        play_m: rack.bore_m.map(|bore| bore - 2.0 * body.radius_m),
        foot_stopped: rack.foot_held,
        front: closed_front,
        hold_down: match rack.hold_down_kn {
            None => HoldDown::Nothing,
            Some(known) => newtons(known).map_or(HoldDown::NotKnown, HoldDown::Known),
        },
    });
    hold.pressed_down_unknown = rack.hold_down_kn.is_some_and(|known| known.is_not_known());
}

/// Is each slot behind this front held on its own: tied between the slots, or rigid?
fn holds_each(front: &Front) -> bool {
    front.tied_between_slots || front.kind == FrontKind::Bar
}

/// Pull in a front for one newton of push.
///
/// Tied between the slots, or rigid, each slot's push is carried where it arises. A strap that is only
/// fastened at its ends holds nothing until it bends: `T = sum F / (2 sin eps)`, with `eps` from how far
/// its middle can be pulled out.
fn pull_per_push(rack: &Rack, front: &Front) -> f64 {
    if holds_each(front) {
        return 1.0;
    }
    let slots = front.slots.len().max(1) as f64;
    let half_length = 0.5 * slots * rack.pitch_m;
    let end_angle = gives_m(rack, front).arc_tangent_over(half_length);
    row_strap_pull_n(1.0, end_angle)
}

/// How far a front can be pulled out at the middle until it holds: its slack, or what it stretches by where
/// it is fastened at its ends only.
fn gives_m(rack: &Rack, front: &Front) -> f64 {
    let slack_m = front.slack_m.and_then(Known::value).unwrap_or(0.0);
    if holds_each(front) {
        return slack_m;
    }
    let slots = front.slots.len().max(1) as f64;
    slack_m.max(STRETCHED_FRONT * 0.5 * slots * rack.pitch_m)
}

fn add_straps(straps: &Straps, bodies: &[Body], body: &Body, hold: &mut Hold) {
    for state in straps.on(&body.id) {
        let round: Vec<&Body> = state
            .round
            .iter()
            .filter_map(|id| body::find(bodies, id))
            .collect();
        let mine = round.iter().position(|other| other.id == body.id);
        let lashed: Vec<Shell> = round.iter().map(|other| shell(other)).collect();
        let points = [state.points[0].at, state.points[1].at];
        let run = strap_round(&lashed, state.height_m, points).ok();
        let on_straight_shell = body.lying.is_some()
            || (state.height_m >= body.assembled.strap_from_m - 1e-9
                && state.height_m <= body.assembled.strap_to_m + 1e-9);
        // A strap round several acts on each of them as it would on that one alone, with its strength
        // shared out evenly: the members lean on each other, and together need what all of them need.
        let alone =
            mine.and_then(|index| strap_round(&lashed[index..=index], state.height_m, points).ok());
        let shared_by = round.len().max(1);
        let legs: Vec<Leg> = match (&run, &alone) {
            (Some(_), Some(alone)) => alone.legs.to_vec(),
            _ => Vec::new(),
        };
        // Nobody knows how a slot and a lashing share: in a closed slot the slot alone counts.
        let counted = body.lying.is_none() && hold.slot.is_none();
        if counted && state.counts() && on_straight_shell && !legs.is_empty() {
            let first = hold.restraints.len();
            let wrapped = alone.as_ref().map_or(0.0, |strap| strap.wrapped_rad);
            for (leg, point) in legs.iter().zip(&state.points) {
                let strength =
                    calculation_strength_n(point.strength_n(leg).unwrap_or(f64::INFINITY))
                        / shared_by as f64;
                let known = point.msl_n.map(|_| strength);
                let index = add_lashing_point(hold, &state.id, &point.id, known);
                let capacity = state.msl_n.map_or(f64::INFINITY, |msl| {
                    calculation_strength_n(msl) / shared_by as f64
                });
                hold.restraints
                    .push(leg.restraint(capacity, state.pretension_n, Some(index)));
                hold.held_by.push(HeldBy::Lashing {
                    lashing: state.id.clone(),
                    point: point.id.clone(),
                });
            }
            hold.bights.push(Bight {
                legs: (first, first + 1),
                tension_ratio: (STRAP_GRIP * wrapped).exponential(),
            });
        }
        hold.straps.push(StrapOnBody {
            on_straight_shell,
            height_m: state.height_m,
            legs,
            shared_by,
            state: state.clone(),
        });
    }
}

fn shell(body: &Body) -> Shell {
    Shell {
        axis: body.at,
        radius_m: body.radius_m,
        centre_of_gravity: vec2(body.cg.x, body.cg.y),
        foot_height_m: body.deck_height_m + body.floor_m,
    }
}

/// Boat-frame position of a point given on plan with a height above a deck.
pub(super) fn position(boat: &Boat, deck: &str, at: [f64; 2], height_m: f64) -> Option<Vec3> {
    let deck = boat.deck(deck)?;
    Some(vec3(at[0], at[1], deck.height_above_waterline_m + height_m))
}
