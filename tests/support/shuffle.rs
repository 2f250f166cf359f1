//! A plan whose lists stand in another order: all but those whose order means something.

use snugdown::layout::{Plan, Trip};

/// The same plan with its lists in an order that hangs on the seed. The parts of the day, corners of
/// outlines, names along a rack and cylinders along a lashing keep their order.
pub(crate) fn shuffled(plan: &Plan, seed: u64) -> Plan {
    let mut dice = Dice(seed);
    let mut plan = plan.clone();
    let boat = &mut plan.boat;
    dice.shuffle(&mut boat.decks);
    dice.shuffle(&mut boat.fixtures);
    dice.shuffle(&mut boat.places);
    dice.shuffle(&mut boat.walkways);
    dice.shuffle(&mut boat.racks);
    dice.shuffle(&mut boat.lashing_points);
    for deck in &mut boat.decks {
        dice.shuffle(&mut deck.holes);
    }
    for fixture in &mut boat.fixtures {
        dice.shuffle(&mut fixture.must_stay_open);
    }
    for rack in &mut boat.racks {
        dice.shuffle(&mut rack.fronts);
        for front in &mut rack.fronts {
            dice.shuffle(&mut front.slots);
        }
    }
    for trip in &mut plan.trips {
        shuffle_trip(&mut dice, trip);
    }
    plan
}

fn shuffle_trip(dice: &mut Dice, trip: &mut Trip) {
    dice.shuffle(&mut trip.kinds);
    dice.shuffle(&mut trip.materials);
    dice.shuffle(&mut trip.gear_aboard);
    dice.shuffle(&mut trip.cylinders);
    dice.shuffle(&mut trip.lashings);
    dice.shuffle(&mut trip.gear);
    dice.shuffle(&mut trip.people);
    for part in &mut trip.parts {
        dice.shuffle(&mut part.changes.cylinders);
        dice.shuffle(&mut part.changes.lashings);
        dice.shuffle(&mut part.changes.fronts);
        dice.shuffle(&mut part.changes.gear);
        dice.shuffle(&mut part.changes.people);
    }
}

/// Throws that are the same in every run (Knuth's linear congruential generator, MMIX).
struct Dice(u64);

impl Dice {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).expect("31 bits") % count
    }

    fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last + 1));
        }
    }
}
