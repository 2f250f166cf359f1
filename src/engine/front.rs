//! The front of a rack: what one body pushes on it, and what all behind it pull in it together.

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::body::Body;
use super::hold::{ClosedSlot, Hold};
use super::limits::Prepared;
use super::ways::{Judge, share};
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::mechanics::lean::PlaneForce;
use crate::mechanics::limit::{Limit, SURELY_HOLDS, Scale};
use crate::mechanics::motion::{Force, LoadCase};
use crate::mechanics::rack::{Rail, rail_forces, rail_forces_at_most};
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
    fn new(body: &Body, slot: &ClosedSlot) -> Self {
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

    /// What the front takes of this body where it leans on it: the part of its push that points at the front.
    fn push_n(&self, front: &ClosedFront, force: &Force) -> f64 {
        let (plane, direction) = PlaneForce::worst_and_whither(force, &self.body);
        let towards_front = direction.dot(front.towards);
        if towards_front <= 0.0 {
            return 0.0;
        }
        let reach_m = self.base.ray(direction);
        rail_forces(&self.body, reach_m, &self.rail(front), &plane).rail_n * towards_front
    }
}

impl Behind {
    /// More than the front takes of this body at the largest motion of a scale; infinite where that is not known.
    fn push_at_most_n(&self, front: &ClosedFront, scale: &Scale) -> f64 {
        let extremes = scale.extremes(self.cg);
        let rail = self.rail(front);
        let forces =
            rail_forces_at_most(&self.body, self.base.ray_bounds(), &rail.into(), &extremes);
        forces.map_or(f64::INFINITY, |forces| forces.rail_n)
    }

    /// The rail that the front is to it.
    fn rail(&self, front: &ClosedFront) -> Rail {
        Rail {
            height_m: self.front_height_m,
            play_m: self.play_m + front.gives_m,
            foot_stopped: self.foot_stopped,
            friction: self.friction,
        }
    }
}

impl ClosedFront {
    /// The pull in the front, in newtons, under the force that `body` feels: its own push where each slot is
    /// held on its own, else that of all behind it together, each with the force where it stands.
    pub(super) fn pull_n(&self, body: &Body, slot: &ClosedSlot, force: &Force) -> f64 {
        match &self.row {
            None => self.pull_per_push * Behind::new(body, slot).push_n(self, force),
            Some(row) => self.pull_of_row_n(row, body.cg, force),
        }
    }

    /// The pull of all behind it together, under the force at this place.
    fn pull_of_row_n(&self, row: &[Behind], at: Vec3, force: &Force) -> f64 {
        let pushes = row
            .iter()
            .map(|other| other.push_n(self, &force.moved_by(other.cg - at)));
        self.pull_per_push * pushes.sum::<f64>()
    }
}

/// What a front that is fastened at its ends does for all behind it together: computed once for all of them.
#[derive(Debug)]
pub(super) struct FrontFigures {
    /// The pull in newtons, load case by load case.
    pub(super) pulls_n: Vec<f64>,
    /// The greatest of them.
    pub(super) most_n: f64,
    /// Where it gives as the whole motion, the roll, and the roll at the short period grow; `None` where its
    /// strength is not known.
    pub(super) limits: Option<[(Limit, LoadCase); 3]>,
}

impl FrontFigures {
    fn of(front: &ClosedFront, row: &[Behind], prepared: &Prepared) -> Self {
        let at = row.first().map_or(Vec3::default(), |first| first.cg);
        let pull = |force: &Force| front.pull_of_row_n(row, at, force);
        let mut pulls_n = Vec::new();
        let (mut most_n, mut governing) = (0.0, None);
        for (case, force) in prepared.cases.forces(at) {
            let pull_n = pull(&force);
            if pull_n > most_n {
                (most_n, governing) = (pull_n, Some(case));
            }
            pulls_n.push(pull_n);
        }
        let limits = front.strength_n.map(|strength_n| {
            let mut likely = governing;
            let mut descend = |scale: &Scale| {
                let pushes = row.iter().map(|other| other.push_at_most_n(front, scale));
                let most_n = front.pull_per_push * pushes.sum::<f64>();
                let not_within = scale.not_within();
                let (limit, case) = match likely {
                    Some(likely) if share(most_n, strength_n) < SURELY_HOLDS => {
                        (not_within, likely)
                    }
                    _ => {
                        let used = |_: &LoadCase, force: &Force| share(pull(force), strength_n);
                        scale.descend(at, likely, used)
                    }
                };
                likely = Some(case);
                (limit, case)
            };
            [
                descend(&prepared.whole),
                descend(&prepared.roll),
                descend(&prepared.roll_short),
            ]
        });
        Self {
            pulls_n,
            most_n,
            limits,
        }
    }
}

/// The fronts of a part of the day that are fastened at their ends, each looked at when it is first asked for.
#[derive(Debug)]
pub(super) struct Fronts<'a> {
    prepared: &'a Prepared,
    figures: BTreeMap<(&'a str, &'a str), (&'a ClosedFront, OnceCell<FrontFigures>)>,
}

impl<'a> Fronts<'a> {
    /// Those of all these bodies.
    pub(super) fn of(judges: &[Judge<'a>], prepared: &'a Prepared) -> Self {
        let fronts = judges.iter().filter_map(|judge| {
            let slot = judge.hold.slot.as_ref()?;
            let front = slot.front.as_ref().filter(|front| front.row.is_some())?;
            Some(((&*slot.rack, &*front.id), (front, OnceCell::new())))
        });
        Self {
            prepared,
            figures: fronts.collect(),
        }
    }

    /// The figures of the front of this slot; `None` where it has none or one that holds each on its own.
    pub(super) fn figures<'s>(&'s self, slot: &'s ClosedSlot) -> Option<&'s FrontFigures> {
        let id = &slot.front.as_ref()?.id;
        let (front, figures) = self.figures.get(&(&*slot.rack, &**id))?;
        let row = front.row.as_deref()?;
        Some(figures.get_or_init(|| FrontFigures::of(front, row, self.prepared)))
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
