//! Forces and moments on a held body, scaled to about one.

use super::{Body, Load, Restraint};
use crate::geometry::Vec2;

/// What one unit of a variable does to the body, in scaled units.
#[derive(Copy, Clone, Debug, Default)]
pub(super) struct Wrench {
    /// Overturning moment about the point below the centre of gravity, pointing the way it tips.
    pub(super) moment: Vec2,
    /// Force that presses it down.
    pub(super) weight: f64,
    /// Force along the deck.
    pub(super) shear: Vec2,
    /// The same with only what counts against sliding.
    pub(super) counted_weight: f64,
    pub(super) counted_shear: Vec2,
}

impl Wrench {
    pub(super) fn add(&mut self, other: &Self, times: f64) {
        self.moment += times * other.moment;
        self.weight += times * other.weight;
        self.shear += times * other.shear;
        self.counted_weight += times * other.counted_weight;
        self.counted_shear += times * other.counted_shear;
    }
}

/// What a wrench is divided by.
#[derive(Copy, Clone, Debug)]
pub(super) struct Scale {
    pub(super) force_n: f64,
    pub(super) length_m: f64,
}

impl Scale {
    /// About the body's own weight, and about the height of a cylinder's centre of gravity.
    pub(super) fn of(body: &Body<'_>) -> Self {
        Self {
            force_n: body.mass_kg * 10.0,
            length_m: 0.3,
        }
    }

    fn part(&self, body: &Body<'_>, tipping: Vec2, along: Vec2, normal: f64) -> Wrench {
        let force = body.mass_kg / self.force_n;
        let moment = force / self.length_m;
        let shear = force * along;
        Wrench {
            moment: moment * tipping,
            weight: normal * force,
            shear,
            counted_weight: normal * force,
            counted_shear: shear,
        }
    }

    /// What acts in full whatever the share of the load is, and what grows with that share.
    ///
    /// A load that pulls the body off the deck is part of what must be held: it grows with the share.
    pub(super) fn load(&self, body: &Body<'_>, load: &Load) -> [Wrench; 2] {
        let nothing = Vec2::ZERO;
        [
            self.part(body, nothing, nothing, load.normal.max(0.0)),
            self.part(body, load.tipping, load.along_deck, load.normal.min(0.0)),
        ]
    }

    /// One scaled unit of the part of a pull that counts against sliding, where that is bounded.
    pub(super) fn counted_part(restraint: &Restraint) -> Wrench {
        Wrench {
            counted_weight: -restraint.pull.z,
            counted_shear: restraint.pull.horizontal(),
            ..Wrench::default()
        }
    }

    /// One scaled unit of pull.
    pub(super) fn restraint(&self, restraint: &Restraint) -> Wrench {
        let (u, down) = (restraint.pull.horizontal(), -restraint.pull.z);
        let (a, s) = (restraint.attachment, restraint.height_m);
        let counted = sign(restraint.sliding_capacity_n.is_infinite());
        Wrench {
            moment: (s * u + down * a) / self.length_m,
            weight: down,
            shear: u,
            counted_weight: counted * down,
            counted_shear: counted * u,
        }
    }
}

fn sign(holds: bool) -> f64 {
    f64::from(u8::from(holds))
}
