//! What an upright cylinder reaches when it goes, and which others it takes along.
//!
//! It turns over its foot's edge and may come to lie anywhere in a sector about the direction in
//! which it goes; afterwards it rolls to the low side up to the next thing that stops it. Another
//! cylinder that stands free goes too where the energy or the push at contact is enough
//! ([`crate::mechanics::falling`]); one that is racked or lashed does not.
//!
//! A cylinder that holds within the motion is judged at the force at which it would just go: the
//! force along the deck is grown, for its neighbours as well.

mod chain;
mod headings;
mod struck;
mod sweep;

use schemars::JsonSchema;
use serde::Serialize;

use self::chain::Chain;
use self::headings::{Heading, headings};
use self::struck::Surroundings;
use self::sweep::Sweep;
use super::Scene;
use super::body::Body;
use super::hold::Hold;
use super::numbers::{CylinderNumbers, FallNumbers, StruckKind};
use crate::geometry::{Vec2, vec2};
use crate::layout::{Boat, Id};
use crate::mechanics::falling::{Upright, landing_energy_j};
use crate::mechanics::lean::Stance;
use crate::mechanics::motion::{Cases, LoadCase, Motion};

/// One part of the day, as falls look at it. `bodies`, `holds` and `cylinders` are in the order of
/// names, one for each cylinder.
#[derive(Copy, Clone, Debug)]
pub(super) struct FallInput<'a> {
    pub(super) boat: &'a Boat,
    pub(super) scene: &'a Scene,
    pub(super) bodies: &'a [Body],
    pub(super) holds: &'a [Hold],
    pub(super) cylinders: &'a [CylinderNumbers],
    pub(super) motion: &'a Motion,
    pub(super) cases: &'a Cases,
}

impl FallInput<'_> {
    /// Does nothing but its foot, a hand or a fixture behind it keep it upright?
    fn stands_free(&self, number: usize) -> bool {
        let (body, hold) = (&self.bodies[number], &self.holds[number]);
        body.stance.is_upright() && hold.slot.is_none() && !hold.is_lashed()
    }

    /// Can it fall: does it stand free, or does what holds it give?
    fn may_fall(&self, number: usize) -> bool {
        let goes = (self.cylinders[number].utilisations.iter()).any(|item| item.goes);
        self.stands_free(number) || (self.bodies[number].stance.is_upright() && goes)
    }
}

/// The falls of one part of the day, in the order of names.
pub(super) fn falls(input: FallInput<'_>) -> Vec<FallNumbers> {
    let falling: Vec<usize> = (0..input.bodies.len())
        .filter(|&number| input.may_fall(number))
        .collect();
    if falling.is_empty() {
        return Vec::new();
    }
    let surroundings = Surroundings::new(input);
    let mut all = Vec::new();
    for number in falling {
        for heading in headings(input, number) {
            all.push(fall(input, &surroundings, number, &heading));
        }
    }
    all
}

/// Where one that has fallen may roll, at the moment at which it fell: down the low side, straight, to the next fixture
/// or rack or to the deck's edge.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Rolls {
    /// Where its middle lies, in metres.
    pub from: [f64; 2],

    /// Where it is stopped, in metres.
    pub to: [f64; 2],

    /// How far that is, in metres.
    pub far_m: f64,

    /// What stops it; nothing where that is the deck's edge.
    pub stopped_by: Option<Id>,
}

/// A fall that happens, and where its body may roll afterwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Fallen {
    /// What it reaches.
    pub fall: FallNumbers,

    /// Where it rolls; `None` on no deck.
    pub rolls: Option<Rolls>,
}

/// What one body reaches that goes now: `towards` where it falls and where the deck is lowest, both of length one,
/// under the motion's own load case.
pub(super) fn fall_now(
    input: FallInput<'_>,
    number: usize,
    (towards, downhill): (Vec2, Vec2),
    case: LoadCase,
) -> Fallen {
    let heading = Heading {
        towards,
        downhill,
        utilisation: 1.0,
        case,
        grown: 1.0,
    };
    let surroundings = Surroundings::new(input);
    let body = &input.bodies[number];
    Fallen {
        rolls: surroundings.rolls(body, &sweep(body, towards), downhill),
        fall: fall(input, &surroundings, number, &heading),
    }
}

fn fall(
    input: FallInput<'_>,
    surroundings: &Surroundings<'_>,
    number: usize,
    heading: &Heading,
) -> FallNumbers {
    let body = &input.bodies[number];
    let sweep = sweep(body, heading.towards);
    let chain = Chain::follow(input, surroundings, number, heading);
    let mut struck = Vec::new();
    for link in &chain.links {
        surroundings.reached(&input.bodies[link.number], &link.sweep, &mut struck);
    }
    for item in &mut struck {
        item.goes_too = item.kind == StruckKind::Cylinder && chain.ids.contains(&item.thing);
    }
    surroundings.rolled_over(body, &sweep, heading.downhill, &mut struck);
    // Each thing once, by the first that reaches it.
    let mut seen = std::collections::BTreeSet::new();
    struck.retain(|item| item.thing != body.id && seen.insert((item.kind, item.thing.clone())));
    struck.sort_by(|a, b| (a.afterwards, a.kind, &a.thing).cmp(&(b.afterwards, b.kind, &b.thing)));
    FallNumbers {
        cylinder: body.id.clone(),
        towards_deg: heading.towards.angle().to_degrees(),
        utilisation: Some(heading.utilisation).filter(|value| value.is_finite()),
        at: body.at.into(),
        reach_m: sweep.reach_m(),
        sweep: sweep.sector().map_or_else(Vec::new, |sector| {
            (sector.outline().vertices().iter())
                .map(|p| (*p).into())
                .collect()
        }),
        energy_j: energy_j(body, heading.towards),
        struck,
        chain: chain.ids,
    }
}

/// The body as it stands in the plane of a fall.
fn upright(body: &Body, towards: Vec2) -> Upright {
    Upright {
        mass_kg: body.mass_kg,
        height_m: body.top_m(),
        radius_m: extent(body, towards),
        stance: Stance {
            centre_height_m: body.cg_height_m,
            reach_m: body.base.ray(towards),
        },
    }
}

/// How far the shell reaches from its middle in a direction: more than its radius for a twin.
fn extent(body: &Body, towards: Vec2) -> f64 {
    body.shell_shape().support(towards) - body.at.dot(towards)
}

/// The floor that it may come to lie on.
fn sweep(body: &Body, towards: Vec2) -> Sweep {
    let centre = vec2(body.cg.x, body.cg.y);
    Sweep {
        edge: centre + body.base.ray(towards) * towards,
        towards,
        height_m: body.top_m(),
        radius_m: extent(body, towards.perp()).max(extent(body, -towards.perp())),
    }
}

/// Energy in joules with which it lands on the deck.
fn energy_j(body: &Body, towards: Vec2) -> f64 {
    landing_energy_j(&Upright {
        radius_m: body.radius_m,
        ..upright(body, towards)
    })
}

#[cfg(test)]
mod tests;
