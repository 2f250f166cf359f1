//! The walls of the stowage, kept as far as it stays where it is.

use std::collections::{BTreeMap, BTreeSet};

use super::tags::Tagged;
use crate::engine::hindrance::Hindrance;
use crate::geometry::{Shape, Tag, Walls};

/// More things than this that are elsewhere than before are no drag: then all walls are made anew.
const FEW: usize = 24;

/// Something that is a wall.
#[derive(Clone, Debug, PartialEq)]
struct Wall {
    tag: Tag,
    hindrance: Hindrance,
    /// Is it hidden by its rack where low things are walls too?
    hidden_among_low: bool,
    shape: Shape,
}

/// Walls with only what one cannot step over, and with low things too.
#[derive(Clone, Debug)]
struct Pair {
    high: Walls,
    low: Walls,
}

/// The walls of some stowage that stays.
#[derive(Clone, Debug)]
struct Settled {
    /// In the order of their tags.
    staying: Vec<Wall>,
    walls: Pair,
    /// All that was there when it was asked last.
    last: Vec<Wall>,
}

/// What was prepared before, for each set of things that are left out because they are at the ends of a
/// walkway.
#[derive(Clone, Debug, Default)]
pub(super) struct StowedWalls {
    known: BTreeMap<BTreeSet<usize>, Settled>,
}

impl StowedWalls {
    /// The walls of the boat and of the stowage: without low things, and with them.
    pub(super) fn walls(
        &mut self,
        empty: &Walls,
        all: &[Tagged<'_>],
        left_out: &BTreeSet<usize>,
    ) -> [Walls; 2] {
        let stowage: Vec<&Tagged<'_>> = (all.iter())
            .filter(|thing| !thing.of_boat && thing.is_wall())
            .filter(|thing| !thing.index.is_some_and(|index| left_out.contains(&index)))
            .collect();
        let known = self.known.remove(left_out);
        let settled = match known {
            Some(mut known) if moved(&known.staying, &stowage).is_some() => {
                known.last = walls_of(&stowage);
                known
            }
            Some(known) => {
                let staying: Vec<Wall> = (known.last.into_iter())
                    .filter(|wall| stowage.iter().any(|thing| is_same(wall, thing)))
                    .collect();
                let few = stowage.len() - staying.len() <= FEW;
                let staying = if few { staying } else { walls_of(&stowage) };
                Settled::new(empty, all, staying, &stowage)
            }
            None => Settled::new(empty, all, walls_of(&stowage), &stowage),
        };
        let moved = moved(&settled.staying, &stowage).unwrap_or_default();
        let Pair { high, low } = settled.walls.clone();
        self.known.insert(left_out.clone(), settled);
        if moved.is_empty() {
            return [high, low];
        }
        let tall = (moved.iter()).filter(|thing| thing.hindrance == Hindrance::Tall);
        let seen = (moved.iter()).filter(|thing| !thing.hidden_among_low);
        [
            high.with(tall.map(|thing| (thing.tag, &*thing.shape))),
            low.with(seen.map(|thing| (thing.tag, &*thing.shape))),
        ]
    }
}

impl Settled {
    fn new(empty: &Walls, all: &[Tagged<'_>], staying: Vec<Wall>, stowage: &[&Tagged<'_>]) -> Self {
        let tall = (staying.iter()).filter(|wall| wall.hindrance == Hindrance::Tall);
        // What stands in a low rack is hidden by it here, so these are walls of their own: fewer than those
        // without low things and the racks.
        let seen = (staying.iter()).filter(|wall| !wall.hidden_among_low);
        let own_low = (all.iter())
            .filter(|thing| thing.of_boat && thing.is_wall() && thing.hindrance == Hindrance::Low)
            .map(|thing| (thing.tag, &*thing.shape));
        let high = empty.with(tall.map(|wall| (wall.tag, &wall.shape)));
        let low = empty.with(own_low.chain(seen.map(|wall| (wall.tag, &wall.shape))));
        Self {
            walls: Pair {
                high: high.settled(),
                low: low.settled(),
            },
            staying,
            last: walls_of(stowage),
        }
    }
}

fn walls_of(stowage: &[&Tagged<'_>]) -> Vec<Wall> {
    (stowage.iter())
        .map(|thing| Wall {
            tag: thing.tag,
            hindrance: thing.hindrance,
            hidden_among_low: thing.hidden_among_low,
            shape: thing.shape.clone().into_owned(),
        })
        .collect()
}

fn is_same(wall: &Wall, thing: &Tagged<'_>) -> bool {
    wall.tag == thing.tag
        && wall.hindrance == thing.hindrance
        && wall.hidden_among_low == thing.hidden_among_low
        && wall.shape == *thing.shape
}

/// What is not among the staying; `None` if some of these have gone, or what is new is too much.
fn moved<'s, 'a>(staying: &[Wall], stowage: &[&'s Tagged<'a>]) -> Option<Vec<&'s Tagged<'a>>> {
    let mut rest = staying.iter().peekable();
    let moved: Vec<&Tagged<'a>> = (stowage.iter().copied())
        .filter(|thing| rest.next_if(|wall| is_same(wall, thing)).is_none())
        .collect();
    (rest.peek().is_none() && moved.len() <= FEW).then_some(moved)
}
