//! The front of a rack: what one body pushes on it, and what all behind it pull in it together.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::body::Body;
use super::hold::{ClosedSlot, Hold};
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::mechanics::lean::{PlaneForce, tipping_direction};
use crate::mechanics::motion::Force;
use crate::mechanics::rack::{Rail, RailForces, rail_forces};
use crate::mechanics::standing;
use crate::mechanics::support::Base;
use crate::mechanics::vector::Vec3;

/// The front of a closed slot.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ClosedFront {
    pub(super) id: Id,
    pub(super) towards: Vec2,
    pub(super) height_m: f64,
    /// Strength; `None` if not known.
    pub(super) strength_n: Option<f64>,
    /// Pull in the front for one newton of push: of this slot alone, or of all together.
    pub(super) pull_per_push: f64,
    /// Everything behind a front that is fastened at its ends only, this body among it; `None` where each
    /// slot is held on its own.
    pub(super) row: Option<Arc<[Behind]>>,
    /// How far it lets a body come out before it holds, beside the play of the slot.
    pub(super) gives_m: f64,
    /// Is it shock cord alone?
    pub(super) is_cord: bool,
}

/// A body behind a front, as far as its push goes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Behind {
    body: standing::Body,
    base: Base,
    /// The centre of gravity in the boat frame.
    cg: Vec3,
    front_height_m: f64,
    play_m: f64,
    foot_stopped: bool,
    friction: f64,
}

impl Behind {
    pub(super) fn new(body: &Body, slot: &ClosedSlot) -> Self {
        Self {
            body: body.upright(),
            base: body.base.clone(),
            cg: body.cg,
            front_height_m: slot.front.as_ref().map_or(0.0, |front| front.height_m),
            play_m: slot.play_m.unwrap_or(0.0).max(0.0),
            foot_stopped: slot.foot_stopped,
            friction: body.friction.value.unwrap_or(0.0),
        }
    }

    /// What the front does to this body where it leans on it, and how much of the push points at the front.
    pub(super) fn at_front(&self, front: &ClosedFront, force: &Force) -> Option<(RailForces, f64)> {
        let direction = tipping_direction(force, &self.body);
        let towards_front = direction.dot(front.towards);
        (towards_front > 0.0).then(|| {
            let rail = Rail {
                height_m: self.front_height_m,
                play_m: self.play_m + front.gives_m,
                foot_stopped: self.foot_stopped,
                friction: self.friction,
            };
            let plane = PlaneForce::worst(force, &self.body);
            let reach_m = self.base.ray(direction);
            (
                rail_forces(&self.body, reach_m, &rail, &plane),
                towards_front,
            )
        })
    }

    fn push_n(&self, front: &ClosedFront, force: &Force) -> f64 {
        self.at_front(front, force)
            .map_or(0.0, |(rail, towards_front)| rail.rail_n * towards_front)
    }
}

impl ClosedFront {
    /// The pull in the front, in newtons, under the force that `body` feels: its own push where each slot is
    /// held on its own, else that of all behind it together, each with the force where it stands.
    pub(super) fn pull_n(&self, body: &Body, slot: &ClosedSlot, force: &Force) -> f64 {
        self.pull_per_push
            * match &self.row {
                None => Behind::new(body, slot).push_n(self, force),
                Some(row) => row
                    .iter()
                    .map(|other| other.push_n(self, &force.moved_by(other.cg - body.cg)))
                    .sum(),
            }
    }
}

/// Tells every front that is fastened at its ends only what stands behind it.
pub(super) fn gather_rows(bodies: &[Body], holds: &mut [Hold]) {
    let mut rows: BTreeMap<(Id, Id), Vec<Behind>> = BTreeMap::new();
    for (body, hold) in bodies.iter().zip(holds.iter()) {
        if let Some(slot) = &hold.slot
            && let Some(front) = &slot.front
            && front.row.is_some()
        {
            rows.entry((slot.rack.clone(), front.id.clone()))
                .or_default()
                .push(Behind::new(body, slot));
        }
    }
    let rows: BTreeMap<(Id, Id), Arc<[Behind]>> = rows
        .into_iter()
        .map(|(key, row)| (key, Arc::from(row)))
        .collect();
    for hold in holds {
        if let Some(slot) = &mut hold.slot
            && let Some(front) = &mut slot.front
            && front.row.is_some()
        {
            front.row = rows.get(&(slot.rack.clone(), front.id.clone())).cloned();
        }
    }
}
