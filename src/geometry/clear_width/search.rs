//! Which gap is the first that completes a ring between two places.

use super::Walls;
use super::clearest::Neighbourhood;
use super::gaps::{BANDS_M, Gap, Layer, Merged};
use super::parity::{Forest, Joined, Line};
use super::zone::{Spot, Zone};
use crate::geometry::Vec2;
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// One question: which gap separates the ends of this line?
#[derive(Clone, Debug)]
pub(super) struct Search {
    line: Line,
    forest: Forest,
}

impl Search {
    pub(super) fn new(walls: &Walls, [from, to]: [Vec2; 2]) -> Self {
        Self {
            line: Line::new(from, to),
            forest: Forest::new(walls.piece_count()),
        }
    }

    /// The gap narrower than this that first completes a ring round one of the ends.
    pub(super) fn run(&mut self, walls: &Walls, below_m: f64) -> Option<Gap> {
        self.run_on(walls.layers(), below_m)
    }

    fn run_on(&mut self, layers: &[Arc<Layer>], below_m: f64) -> Option<Gap> {
        let lower = |layer: usize| layers[..layer].iter().map(Arc::as_ref);
        let mut known_m = 0.0;
        let (top, rest) = layers.split_last()?;
        for (band, to_m) in BANDS_M.into_iter().enumerate() {
            let found = self.first_odd_ring(top.merged(band, rest).iter(), below_m);
            if found.is_some() || below_m <= to_m {
                return found;
            }
            known_m = to_m;
        }
        while known_m < below_m {
            let to_m = (2.0 * known_m).min(below_m);
            let wider: Vec<_> = (layers.iter().enumerate())
                .map(|(number, layer)| layer.gaps(lower(number), known_m, to_m))
                .collect();
            let lists = Merged::new(wider.iter().map(Vec::as_slice));
            let found = self.first_odd_ring(lists, to_m);
            if found.is_some() {
                return found;
            }
            known_m = to_m;
        }
        None
    }

    /// Closes gaps in the order given, up to a width, until a ring separates the ends.
    fn first_odd_ring<'g>(
        &mut self,
        gaps: impl Iterator<Item = &'g Gap>,
        below_m: f64,
    ) -> Option<Gap> {
        (gaps.take_while(|gap| gap.width() < below_m))
            .find(|gap| self.close(gap) == Joined::OddRing)
            .copied()
    }

    fn close(&mut self, gap: &Gap) -> Joined {
        let odd = self.is_odd(gap);
        let [first, second] = gap.numbers;
        self.forest.join(first, second, odd)
    }

    /// Does the way from piece to piece over their gap meet the line an odd number of times?
    fn is_odd(&self, gap: &Gap) -> bool {
        let sided = |p: Vec2| (p, self.line.is_left(p));
        let [first, second] = gap.middles.map(sided);
        let (a, b) = (sided(gap.nearest.a), sided(gap.nearest.b));
        self.line.is_met(first, a) ^ self.line.is_met(a, b) ^ self.line.is_met(b, second)
    }
}

/// A question as bits, so that it can be compared exactly: both ends, and the greatest width.
type Key = [u64; 5];

/// What was found on certain walls.
#[derive(Clone, Debug)]
struct Answer {
    /// With every gap closed that comes before the one that was found.
    search: Search,
    found: Option<Gap>,
}

/// What walls were asked to which more may be added.
#[derive(Debug)]
pub(super) struct Settled {
    /// The layers of these walls.
    layers: usize,
    answers: Mutex<BTreeMap<Key, Arc<Answer>>>,
    /// By the zone as bits.
    places: Mutex<BTreeMap<[u64; 3], Clearest>>,
}

/// The clearest point of a zone, and how far from its middle walls matter to that.
#[derive(Copy, Clone, Debug)]
struct Clearest {
    spot: Option<Spot>,
    walls_within_m: f64,
}

/// More questions than this are not remembered: two ends of a walkway have few points each.
const MOST_ANSWERS: usize = 64;

impl Settled {
    pub(super) fn new(layers: usize) -> Self {
        Self {
            layers,
            answers: Mutex::default(),
            places: Mutex::default(),
        }
    }

    /// The clearest point of a zone. It is where it was on the settled walls if nothing was added near it.
    pub(super) fn clearest(&self, walls: &Walls, zone: Zone) -> Option<Spot> {
        let known = self.clearest_before(walls, zone);
        let is_as_before = !walls.has_walls_near(self.layers, zone, known.walls_within_m);
        if is_as_before {
            known.spot
        } else {
            Neighbourhood::new(walls, zone, None).clearest()
        }
    }

    /// The same without what was added.
    fn clearest_before(&self, walls: &Walls, zone: Zone) -> Clearest {
        let key = [zone.at.x, zone.at.y, zone.radius_m].map(f64::to_bits);
        let mut places = self.places.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = places.get(&key) {
            return *known;
        }
        let settled = walls.first_layers(self.layers);
        let near = Neighbourhood::new(&settled, zone, None);
        let found = Clearest {
            spot: near.clearest(),
            walls_within_m: near.pieces_within_m(),
        };
        if places.len() >= MOST_ANSWERS {
            places.clear();
        }
        places.insert(key, found);
        found
    }

    /// As [`Search::run`], on the settled walls with what was added to them.
    ///
    /// If what was added completes no ring with the gaps that come before the one that was found
    /// without it, that one is still the first.
    pub(super) fn first_odd_ring(
        &self,
        walls: &Walls,
        ends: [Vec2; 2],
        below_m: f64,
    ) -> Option<Gap> {
        let (settled, added) = walls.layers().split_at(self.layers);
        let answer = self.answer(walls, settled, ends, below_m);
        if added.is_empty() {
            return answer.found;
        }
        if below_m <= BANDS_M[BANDS_M.len() - 1] {
            let mut search = answer.search.clone();
            search.forest.grow(walls.piece_count());
            let comes_before = |gap: &&Gap| {
                gap.width() < below_m
                    && (answer.found.as_ref())
                        .is_none_or(|found| gap.order(found) != Ordering::Greater)
            };
            let layers = walls.layers();
            let changes_nothing = (self.layers..layers.len()).all(|number| {
                let lower = || layers[..number].iter().map(Arc::as_ref);
                (0..BANDS_M.len()).all(|band| {
                    (layers[number].band(band, lower()).iter())
                        .take_while(comes_before)
                        .all(|gap| search.close(gap) == Joined::Fine)
                })
            });
            if changes_nothing {
                return answer.found;
            }
        }
        Search::new(walls, ends).run(walls, below_m)
    }

    /// What is found without what was added.
    fn answer(
        &self,
        walls: &Walls,
        settled: &[Arc<Layer>],
        ends: [Vec2; 2],
        below_m: f64,
    ) -> Arc<Answer> {
        let [from, to] = ends;
        let key = [from.x, from.y, to.x, to.y, below_m].map(f64::to_bits);
        let mut answers = self.answers.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = answers.get(&key) {
            return Arc::clone(known);
        }
        let mut search = Search::new(walls, ends);
        let found = search.run_on(settled, below_m);
        let answer = Arc::new(Answer { search, found });
        if answers.len() >= MOST_ANSWERS {
            answers.clear();
        }
        answers.insert(key, Arc::clone(&answer));
        answer
    }
}
