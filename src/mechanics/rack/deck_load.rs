//! What a rack hands on to the deck and its fixings.

use crate::geometry::{Vec2, vec2};
use crate::mechanics::motion::Force;
use crate::mechanics::standing::{Body, lift_force_n, unit_or_x};
use crate::mechanics::support::Base;

/// All that a rack, or anything else with several bodies, hands on to the deck in one load case.
///
/// Moments are taken about a point on the deck, usually below the middle of the rack; the base and
/// the rays are measured from the same point.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct DeckLoad {
    /// Along the deck, N.
    pub along_n: Vec2,

    /// Overturning moment, N m, pointing the way it tips.
    pub moment_nm: Vec2,

    /// Pressing onto the deck, N.
    pub normal_n: f64,
}

impl DeckLoad {
    /// Adds a body that the rack carries wholly: one on the rack's floor, or the rack's own frame.
    ///
    /// `at` is the place of its centre of gravity on plan from the point of moments; heights are
    /// above the deck.
    pub fn add_body(&mut self, body: &Body, at: Vec2, force: &Force) {
        let normal_n = body.mass_kg * force.a_n();
        self.along_n += body.mass_kg * force.along_deck();
        self.moment_nm += body.mass_kg * force.tipping(body.centre_height_m, body.kappa2_m2);
        self.moment_nm += normal_n * at;
        self.normal_n += normal_n;
    }

    /// Adds the pull of a rail at a height above the deck: a body that stands on the deck itself,
    /// in an open-bottomed rack.
    pub fn add_rail(&mut self, rail_n: f64, direction: Vec2, height_m: f64) {
        self.along_n += rail_n * direction;
        self.moment_nm += rail_n * height_m * direction;
    }

    /// Share of the limit at which it tips over the edge of its base without fixings.
    pub fn tip(&self, base: &Base) -> f64 {
        let size = self.moment_nm.length();
        let ray = base.ray(unit_or_x(self.moment_nm, size));
        if self.normal_n <= 0.0 || ray <= 0.0 {
            f64::INFINITY
        } else {
            size / (self.normal_n * ray)
        }
    }

    /// Share of the limit at which it slides without fixings.
    pub fn slide(&self, friction: f64) -> f64 {
        if self.normal_n <= 0.0 || friction <= 0.0 {
            f64::INFINITY
        } else {
            self.along_n.length() / (friction * self.normal_n)
        }
    }

    /// What the fixings at the edges of a rectangular footprint must pull down in all, N.
    ///
    /// `row` is the unit vector along the footprint's length, `half_m` half its length and half its
    /// width; moments are about its middle. Each axis is balanced by itself about the edge over which it
    /// tips, and the two pulls are added: exact for a moment about one axis and for a pure lift, on the
    /// safe side for both at once. An uneven load along a long rack does not tip it over its long side.
    /// Derived here (balance of moments about the tipping edge).
    pub fn fixing_pull_n(&self, row: Vec2, half_m: [f64; 2]) -> f64 {
        let moments = [self.moment_nm.dot(row), self.moment_nm.dot(row.perp())];
        let pulls = moments.iter().zip(half_m).map(|(moment_nm, half)| {
            let excess = moment_nm.abs() - self.normal_n * half;
            if excess <= 0.0 {
                0.0
            } else if half <= 0.0 {
                f64::INFINITY
            } else {
                excess / (2.0 * half)
            }
        });
        pulls.sum()
    }

    /// What fixings must carry along the deck, N; friction under a rack is not counted.
    pub fn fixing_shear_n(&self) -> f64 {
        self.along_n.length()
    }
}

/// Common centre of gravity of bodies carried wholly by one rack: place on plan and height, m.
///
/// `None` when nothing is carried.
pub fn common_centre(bodies: impl IntoIterator<Item = (Body, Vec2)>) -> Option<(Vec2, f64)> {
    let (mut mass, mut place, mut height) = (0.0, vec2(0.0, 0.0), 0.0);
    for (body, at) in bodies {
        mass += body.mass_kg;
        place += body.mass_kg * at;
        height += body.mass_kg * body.centre_height_m;
    }
    (mass > 0.0).then(|| ((1.0 / mass) * place, height / mass))
}

/// What a hold-down over one body must carry, N: nothing while the shelf presses on it.
pub fn hold_down_n(force: &Force, body: &Body) -> f64 {
    lift_force_n(force, body.mass_kg)
}
