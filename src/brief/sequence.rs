//! An order of things to bring aboard in which the boat never leans further than is wanted.

use std::collections::BTreeSet;

/// How many half-finished orders are looked at for one limit before the search gives up on it.
const MOST_STATES: usize = 60_000;

/// How often the limit is halved towards the least that is possible, when the wanted one is not.
const HALVINGS: usize = 12;

/// Lengths and moments that differ by less than this are the same (kg·m, m).
const SAME: f64 = 1e-9;

/// Something to bring aboard.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its mass in kilograms.
    pub mass_kg: f64,

    /// Its distance from the centreline in metres, port positive.
    pub y_m: f64,

    /// What must be aboard before it, by place in the list: what would otherwise have to be passed over
    /// or round it.
    pub after: Vec<usize>,

    /// The lower, the earlier it is wanted, other things equal.
    pub rank: usize,
}

/// How sure an order is.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It stays within the limit.
    Within,
    /// No order stays within the limit; this one leans the boat the least that was found.
    NoneExists,
    /// No order within the limit was found before the search gave up; there may be one.
    GaveUp,
}

/// An order of things to bring aboard.
#[derive(Clone, Debug, PartialEq)]
pub struct Sequence {
    /// Places in the list, first things first.
    pub order: Vec<usize>,

    /// The greatest sideways shift of the boat's centre of gravity along it, in metres, or the greatest
    /// moment in kg·m where the boat's mass is not known.
    pub greatest: f64,

    /// How sure it is.
    pub verdict: Verdict,
}

/// Finds an order in which the boat never leans further than the limit.
///
/// Of what may come next the one
/// that rights the boat comes before one that leans it further, then the lower rank. Where that runs into
/// the limit, other orders are tried.
///
/// `boat_kg` is the boat's mass before the first thing is aboard; with it the limit is on the sideways
/// shift of the common centre of gravity in metres (`tan heel · GM`), without it on the moment in kg·m.
/// `None` if what must come before what runs in a circle.
pub fn sequence(items: &[Item], boat_kg: Option<f64>, limit: f64) -> Option<Sequence> {
    if has_circle(items) {
        return None;
    }
    let search = |limit: f64| Search::new(items, boat_kg, limit).run();
    let found = |order: Vec<usize>, verdict: Verdict| Sequence {
        greatest: greatest(items, boat_kg, &order),
        order,
        verdict,
    };
    let first = search(limit);
    let verdict = match first {
        Outcome::Found(order) => return Some(found(order, Verdict::Within)),
        Outcome::None => Verdict::NoneExists,
        Outcome::GaveUp => Verdict::GaveUp,
    };
    // Without a limit the first try always ends; from there down to the least that can be found.
    let Outcome::Found(mut best) = search(f64::INFINITY) else {
        return None;
    };
    let (mut low, mut high) = (limit, greatest(items, boat_kg, &best));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        match search(middle) {
            Outcome::Found(order) => {
                high = greatest(items, boat_kg, &order);
                best = order;
            }
            Outcome::None | Outcome::GaveUp => low = middle,
        }
    }
    Some(found(best, verdict))
}

/// The greatest lean along an order, in the measure of the limit.
fn greatest(items: &[Item], boat_kg: Option<f64>, order: &[usize]) -> f64 {
    let (mut moment, mut mass, mut greatest) = (0.0, 0.0, 0.0_f64);
    for &index in order {
        moment += items[index].mass_kg * items[index].y_m;
        mass += items[index].mass_kg;
        greatest = greatest.max(lean(moment, mass, boat_kg));
    }
    greatest
}

fn lean(moment: f64, mass: f64, boat_kg: Option<f64>) -> f64 {
    match boat_kg {
        Some(boat_kg) => moment.abs() / (boat_kg + mass),
        None => moment.abs(),
    }
}

fn has_circle(items: &[Item]) -> bool {
    let mut waiting: Vec<usize> = (0..items.len()).collect();
    loop {
        let before = waiting.len();
        let left = waiting.clone();
        waiting.retain(|index| items[*index].after.iter().any(|other| left.contains(other)));
        if waiting.is_empty() || waiting.len() == before {
            return !waiting.is_empty();
        }
    }
}

enum Outcome {
    Found(Vec<usize>),
    None,
    GaveUp,
}

struct Search<'a> {
    items: &'a [Item],
    boat_kg: Option<f64>,
    limit: f64,
    aboard: Vec<bool>,
    order: Vec<usize>,
    /// What was aboard where no way led on: the lean depends on what is aboard, not on how it came.
    dead: BTreeSet<Vec<bool>>,
}

impl<'a> Search<'a> {
    fn new(items: &'a [Item], boat_kg: Option<f64>, limit: f64) -> Self {
        Self {
            items,
            boat_kg,
            limit,
            aboard: vec![false; items.len()],
            order: Vec::with_capacity(items.len()),
            dead: BTreeSet::new(),
        }
    }

    /// Depth first, by hand: a deck of a hundred cylinders is no reason to nest a hundred calls.
    fn run(mut self) -> Outcome {
        let (mut moment, mut mass) = (0.0, 0.0);
        let mut open: Vec<std::vec::IntoIter<usize>> = vec![self.next(moment, mass).into_iter()];
        while let Some(choices) = open.last_mut() {
            if self.order.len() == self.items.len() {
                return Outcome::Found(self.order);
            }
            if let Some(index) = choices.next() {
                let item = &self.items[index];
                self.aboard[index] = true;
                if self.dead.contains(&self.aboard) {
                    self.aboard[index] = false;
                    continue;
                }
                self.order.push(index);
                moment += item.mass_kg * item.y_m;
                mass += item.mass_kg;
                let next = self.next(moment, mass);
                open.push(next.into_iter());
                continue;
            }
            open.pop();
            if self.dead.len() >= MOST_STATES {
                return Outcome::GaveUp;
            }
            self.dead.insert(self.aboard.clone());
            if let Some(index) = self.order.pop() {
                let item = &self.items[index];
                self.aboard[index] = false;
                moment -= item.mass_kg * item.y_m;
                mass -= item.mass_kg;
            }
        }
        Outcome::None
    }

    /// What may come next, the most wanted first.
    fn next(&self, moment: f64, mass: f64) -> Vec<usize> {
        let mut next: Vec<usize> = (0..self.items.len())
            .filter(|index| !self.aboard[*index])
            .filter(|index| {
                self.items[*index]
                    .after
                    .iter()
                    .all(|other| self.aboard[*other])
            })
            .filter(|index| {
                let Item { mass_kg, y_m, .. } = self.items[*index];
                lean(moment + mass_kg * y_m, mass + mass_kg, self.boat_kg) <= self.limit + SAME
            })
            .collect();
        next.sort_by_key(|index| {
            let item = &self.items[*index];
            let rights = moment.abs() <= SAME
                || item.y_m.abs() <= SAME
                || (item.y_m < 0.0) != (moment < 0.0);
            (!rights, item.rank, *index)
        });
        next
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn item(mass_kg: f64, y_m: f64, after: &[usize], rank: usize) -> Item {
        Item {
            mass_kg,
            y_m,
            after: after.to_vec(),
            rank,
        }
    }

    #[test]
    fn sides_alternate_and_the_wanted_come_first() {
        let items = [
            item(15.0, 1.0, &[], 2),
            item(15.0, 1.5, &[], 3),
            item(15.0, -1.0, &[], 0),
            item(15.0, -1.5, &[], 1),
        ];
        let found = sequence(&items, None, 100.0).unwrap();
        assert_eq!(found.order, [2, 0, 3, 1]);
        assert_eq!(found.verdict, Verdict::Within);
        assert!((found.greatest - 22.5).abs() < 1e-9, "{}", found.greatest);
    }

    #[test]
    fn what_is_behind_comes_first() {
        let items = [item(15.0, 1.0, &[1], 0), item(15.0, 1.3, &[], 1)];
        assert_eq!(sequence(&items, None, 100.0).unwrap().order, [1, 0]);
    }

    #[test]
    fn a_circle_is_told() {
        let items = [item(15.0, 1.0, &[1], 0), item(15.0, 1.3, &[0], 1)];
        assert_eq!(sequence(&items, None, 100.0), None);
    }

    #[test]
    fn a_limit_that_cannot_be_kept_gives_the_least_lean() {
        // The first aboard leans the boat by at least 15 kg·m whichever it is.
        let items = [item(15.0, 1.0, &[], 0), item(20.0, -1.0, &[], 1)];
        let found = sequence(&items, None, 10.0).unwrap();
        assert_eq!(found.verdict, Verdict::NoneExists);
        assert_eq!(found.order, [0, 1]);
        assert!((found.greatest - 15.0).abs() < 1e-9, "{}", found.greatest);
    }

    #[test]
    fn a_large_load_is_ordered() {
        let items: Vec<Item> = (0..120)
            .map(|index| {
                let side = if index % 2 == 0 { 1.0 } else { -1.0 };
                item(
                    12.0 + f64::from(index % 7),
                    side * (0.8 + 0.01 * f64::from(index % 11)),
                    &[],
                    0,
                )
            })
            .collect();
        let found = sequence(&items, Some(9000.0), 0.003).unwrap();
        assert_eq!(found.verdict, Verdict::Within);
        assert_eq!(found.order.len(), 120);
    }

    /// Every order that is allowed, by trying them all.
    fn least_of_all(items: &[Item], boat_kg: Option<f64>) -> Option<f64> {
        fn go(
            items: &[Item],
            boat_kg: Option<f64>,
            order: &mut Vec<usize>,
            best: &mut Option<f64>,
        ) {
            if order.len() == items.len() {
                let value = greatest(items, boat_kg, order);
                *best = Some(best.map_or(value, |best| best.min(value)));
                return;
            }
            for index in 0..items.len() {
                let free = items[index].after.iter().all(|other| order.contains(other));
                if free && !order.contains(&index) {
                    order.push(index);
                    go(items, boat_kg, order, best);
                    order.pop();
                }
            }
        }
        let mut best = None;
        go(items, boat_kg, &mut Vec::new(), &mut best);
        best
    }

    prop_compose! {
        fn load()(count in 1..7_usize)(
            parts in prop::collection::vec((5.0..40.0_f64, -2.0..2.0_f64, prop::collection::vec(0..7_usize, 0..2)), count),
        ) -> Vec<Item> {
            let count = parts.len();
            parts
                .into_iter()
                .enumerate()
                .map(|(rank, (mass_kg, y_m, after))| Item {
                    mass_kg,
                    y_m,
                    after: after.into_iter().filter(|other| *other < count && *other != rank).collect(),
                    rank,
                })
                .collect()
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        /// Against trying every order there is.
        #[test]
        fn within_the_limit_whenever_any_order_is(
            items in load(),
            boat_kg in prop::option::of(500.0..5000.0_f64),
            share in 0.6..1.6_f64,
        ) {
            let least = least_of_all(&items, boat_kg);
            prop_assert_eq!(least.is_none(), has_circle(&items));
            let Some(least) = least else {
                prop_assert!(sequence(&items, boat_kg, 1.0).is_none(), "a circle has no order");
                return Ok(());
            };
            let limit = share * least;
            let found = sequence(&items, boat_kg, limit).unwrap();
            for (place, index) in found.order.iter().enumerate() {
                for other in &items[*index].after {
                    prop_assert!(found.order[..place].contains(other), "{:?} breaks the order", found.order);
                }
            }
            prop_assert!((greatest(&items, boat_kg, &found.order) - found.greatest).abs() < 1e-12);
            if least <= limit {
                prop_assert_eq!(found.verdict, Verdict::Within);
                prop_assert!(found.greatest <= limit + 2.0 * SAME);
            } else if least > limit + 1e-6 {
                prop_assert_eq!(found.verdict, Verdict::NoneExists);
                // The bisection stops at 1/4096 of the way from the limit to where it began, and it began
                // no higher than with everything on one side.
                let all: f64 = items.iter().map(|item| item.mass_kg * item.y_m.abs()).sum();
                let coarse = all / boat_kg.unwrap_or(1.0) / 4096.0;
                prop_assert!(found.greatest <= least + coarse + SAME, "{} {least}", found.greatest);
            }
        }
    }
}
