//! The cylinders that one takes along, one after the other.

use super::headings::Heading;
use super::struck::Surroundings;
use super::sweep::Sweep;
use super::{FallInput, sweep, upright};
use crate::layout::Id;
use crate::mechanics::falling::{Faller, strike};
use crate::mechanics::lean::PlaneForce;
use crate::mechanics::motion::force_at;

/// How many are followed: by then the finding says all that it can say.
const MOST: usize = 20;

/// A body that falls.
#[derive(Copy, Clone, Debug)]
pub(super) struct Link {
    pub(super) number: usize,
    pub(super) sweep: Sweep,
    received_j: f64,
}

/// All that fall after the first has gone.
#[derive(Clone, Debug)]
pub(super) struct Chain {
    /// The first, then those that it takes along.
    pub(super) links: Vec<Link>,
    /// The names of those that it takes along.
    pub(super) ids: Vec<Id>,
}

impl Chain {
    /// From the first on: those that it throws over by name, then those that they throw over.
    pub(super) fn follow(
        input: FallInput<'_>,
        surroundings: &Surroundings<'_>,
        first: usize,
        heading: &Heading,
    ) -> Self {
        let mut links = vec![Link {
            number: first,
            sweep: sweep(&input.bodies[first], heading.towards),
            received_j: 0.0,
        }];
        let mut next = 0;
        while let Some(&link) = links.get(next) {
            next += 1;
            for number in surroundings.standing_in(input, link.number, &link.sweep) {
                if links.len() > MOST {
                    break;
                }
                if links.iter().all(|known| known.number != number) {
                    links.extend(thrown_over(input, surroundings, &link, number, heading));
                }
            }
        }
        Self {
            ids: (links[1..].iter())
                .map(|link| input.bodies[link.number].id.clone())
                .collect(),
            links,
        }
    }
}

/// Does a falling body throw this one over?
fn thrown_over(
    input: FallInput<'_>,
    surroundings: &Surroundings<'_>,
    link: &Link,
    number: usize,
    heading: &Heading,
) -> Option<Link> {
    let (falling, struck) = (&input.bodies[link.number], &input.bodies[number]);
    let towards = link.sweep.aimed_at(struck.at);
    let force_on = |body: &super::Body| {
        let force = heading.grown(force_at(input.motion, &heading.case, body.cg));
        PlaneForce::towards(&force, &body.upright(), towards)
    };
    let faller = Faller {
        body: upright(falling, towards),
        force: force_on(falling),
        received_j: link.received_j,
    };
    let hit = strike(
        &faller,
        &upright(struck, towards),
        &force_on(struck),
        surroundings.gap_m(link.number, number),
    )?;
    hit.topples().then(|| Link {
        number,
        sweep: sweep(struck, towards),
        received_j: hit.handed_on_j,
    })
}
