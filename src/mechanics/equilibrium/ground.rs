//! What the ground under a body can balance, as rows of the program.

use super::feet::{Excess, Feet};
use super::wrench::{Scale, Wrench};
use super::{Body, Foot, Load};
use crate::geometry::Vec2;

/// By how much a direction may be missed, relative to the terms of its row.
pub(super) const MISSED: f64 = 1e-9;

/// What a row stands for.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) enum Row {
    /// It must not tip that way.
    Tip(Vec2),
    /// Its foot must not slide that way.
    Slide(Vec2),
    /// The same with only what counts against sliding.
    SlideCounted(Vec2),
    /// It must not lift.
    Lift,
    /// A shared point, a bight, an unknown strength.
    Link,
}

/// What a body stands on, as what it can balance.
#[derive(Copy, Clone, Debug)]
pub(super) struct Ground<'a> {
    feet: Feet<'a>,
    /// `None` for a foot that is stopped.
    friction: Option<f64>,
    /// Is there a pull that counts in part only against sliding?
    has_bounded: bool,
    scale: Scale,
}

impl<'a> Ground<'a> {
    pub(super) fn of(body: &Body<'a>, has_bounded: bool) -> Self {
        Self {
            feet: body.feet,
            friction: match body.foot {
                Foot::Free => Some(body.friction.max(0.0)),
                Foot::Stopped => None,
            },
            has_bounded,
            scale: Scale::of(body),
        }
    }

    /// The rows that a wrench misses by more than a tolerance, relative to the terms of the row; a
    /// negative tolerance asks for a margin.
    pub(super) fn missed(&self, wrench: &Wrench, tolerance: f64) -> [Option<Row>; 4] {
        let missed = |amount: f64, size: f64| amount > tolerance * (1.0 + size);
        let mut rows = [None; 4];
        rows[0] = missed(-wrench.weight, 0.0).then_some(Row::Lift);
        // A body that lifts presses nowhere; its feet and friction then carry nothing. The feet are in
        // metres, the moment in scaled lengths.
        let weight = wrench.weight.max(0.0);
        rows[1] = (self.feet)
            .excess(wrench.moment, weight / self.scale.length_m)
            .filter(|tip| missed(tip.amount, wrench.moment.length()))
            .map(|tip| Row::Tip(tip.direction));
        if let Some(friction) = self.friction {
            rows[2] = slide(wrench.shear, friction * weight)
                .filter(|slide| missed(slide.amount, wrench.shear.length()))
                .map(|slide| Row::Slide(slide.direction));
            if self.has_bounded {
                let counted = friction * wrench.counted_weight.max(0.0);
                rows[3] = slide(wrench.counted_shear, counted)
                    .filter(|slide| missed(slide.amount, wrench.counted_shear.length()))
                    .map(|slide| Row::SlideCounted(slide.direction));
            }
        }
        rows
    }

    /// What a wrench asks of a row.
    pub(super) fn demand_of(&self, row: Row) -> impl Fn(&Wrench) -> f64 + use<> {
        let rho = match row {
            Row::Tip(e) => self.feet.support_distance(e) / self.scale.length_m,
            _ => 0.0,
        };
        let friction = self.friction.unwrap_or(0.0);
        move |w: &Wrench| match row {
            Row::Tip(e) => e.dot(w.moment) - rho * w.weight,
            Row::Slide(e) => e.dot(w.shear) - friction * w.weight,
            Row::SlideCounted(e) => e.dot(w.counted_shear) - friction * w.counted_weight,
            Row::Lift => -w.weight,
            Row::Link => 0.0,
        }
    }
}

/// Do its feet alone keep a body where it is under the whole load?
pub(super) fn feet_balance(body: &Body<'_>, load: &Load) -> bool {
    let ground = Ground::of(body, false);
    let [mut wrench, demand] = ground.scale.load(body, load);
    wrench.add(&demand, 1.0);
    ground.missed(&wrench, MISSED).iter().all(Option::is_none)
}

fn slide(shear: Vec2, held: f64) -> Option<Excess> {
    Some(Excess {
        direction: shear.normalized()?,
        amount: shear.length() - held,
    })
}
