//! Where a cylinder can be put: a free slot that it fits, a free cradle, floor on which it can lie.

use std::collections::BTreeSet;

use super::work::where_it_is;
use crate::checks::place_to_lie;
use crate::engine::Assessor;
use crate::geometry::Elementary as _;
use crate::layout::{Cylinder, DayState, Id, Part, Placing, Plan, Point, Rack, RackKind, Trip};

/// A bore is wide enough from this much play on, and too wide from that on, in metres. Common practice, no
/// source.
const PLAY_M: (f64, f64) = (0.0, 0.03);

/// Slots that are taken, by rack and painted name.
pub(super) type Taken = BTreeSet<(Id, String)>;

/// The slots that somebody is in.
pub(super) fn taken(day: &DayState) -> Taken {
    let cylinders = day.cylinders.iter().map(|state| &state.cylinder);
    let slots = cylinders.filter_map(|cylinder| match &cylinder.placing {
        Placing::InSlot { rack, slot } => Some((rack.clone(), slot.clone())),
        _ => None,
    });
    slots.collect()
}

/// Looks for spots on one boat.
#[derive(Copy, Clone)]
pub(super) struct Spots<'a> {
    pub(super) plan: &'a Plan,
    pub(super) trip: &'a Trip,
    pub(super) part: &'a Part,
}

impl Spots<'_> {
    /// Radius of the body in metres, wherever it is.
    pub(super) fn radius_m(&self, cylinder: &Cylinder) -> Option<f64> {
        let deck = self.plan.boat.decks.first()?;
        let standing = Placing::Standing {
            deck: deck.id.clone(),
            at: deck.outline.first().copied().unwrap_or([0.0, 0.0]),
            on: None,
        };
        let mut trip = self.trip.of_moment(self.part, &DayState::default());
        trip.cylinders = vec![Cylinder {
            placing: standing,
            ..cylinder.clone()
        }];
        let mut assessor = Assessor::default();
        let numbers = &assessor.assess(self.plan, &trip).parts;
        let body = numbers.first()?.cylinders.first()?;
        Some(body.body_radius_m)
    }

    /// Does a cylinder of this radius fit into a slot of this rack?
    pub(super) fn fits(rack: &Rack, radius_m: f64) -> bool {
        let play = rack.bore_m.unwrap_or(rack.pitch_m) - 2.0 * radius_m;
        play >= PLAY_M.0 && (rack.bore_m.is_none() || play <= PLAY_M.1)
    }

    /// The nearest free slot of these kinds of rack that it fits; the same deck before others.
    fn nearest_slot(
        &self,
        cylinder: &Cylinder,
        taken: &Taken,
        kinds: &[RackKind],
    ) -> Option<Placing> {
        let from = where_it_is(self.plan, cylinder);
        let radius = self.radius_m(cylinder)?;
        let deck = self.deck_of(&cylinder.placing);
        let mut free: Vec<(bool, f64, Id, String)> = Vec::new();
        for rack in &self.plan.boat.racks {
            if !kinds.contains(&rack.kind) || !Self::fits(rack, radius) {
                continue;
            }
            for slot in rack.slots() {
                let closable =
                    rack.kind != RackKind::BenchRow || rack.front_of(&slot.name).is_some();
                if closable && !taken.contains(&(rack.id.clone(), slot.name.clone())) {
                    let away = from.map_or(0.0, |from| distance(from, slot.at));
                    let elsewhere = deck.as_ref().is_some_and(|deck| *deck != rack.deck);
                    free.push((elsewhere, away, rack.id.clone(), slot.name));
                }
            }
        }
        free.sort_by(|a, b| {
            let order = a.0.cmp(&b.0).then(a.1.total_cmp(&b.1));
            order.then_with(|| (&a.2, &a.3).cmp(&(&b.2, &b.3)))
        });
        let (_, _, rack, slot) = free.into_iter().next()?;
        Some(Placing::InSlot { rack, slot })
    }

    /// The nearest free upright slot that can be closed.
    pub(super) fn upright(&self, cylinder: &Cylinder, taken: &Taken) -> Option<Placing> {
        self.nearest_slot(cylinder, taken, &[RackKind::Sockets, RackKind::BenchRow])
    }

    /// Where it can lie: in a free cradle, else on free floor between chocks or on its kit, as the deck is on this
    /// day.
    pub(super) fn lying_place(
        &self,
        day: &DayState,
        cylinder: &Cylinder,
        taken: &Taken,
    ) -> Option<Placing> {
        let cradle = self.nearest_slot(cylinder, taken, &[RackKind::Cradles]);
        cradle.or_else(|| {
            let moment = self.trip.of_moment(self.part, day);
            place_to_lie(self.plan, &moment, &cylinder.id)
        })
    }

    fn deck_of(&self, placing: &Placing) -> Option<Id> {
        match placing {
            Placing::InSlot { rack, .. } | Placing::InCrate { rack, .. } => {
                self.plan.boat.rack(rack).map(|rack| rack.deck.clone())
            }
            placing => placing.deck().map(str::to_owned),
        }
    }
}

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypotenuse(a[1] - b[1])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;

    /// A slot is for bodies that fill it: too much play and it leans, too little and it does not go in.
    #[test]
    fn a_bore_fits_within_three_centimetres() {
        let plan = fixture::plan("deck 6x3; rack R1 sockets 3,0 columns=2").unwrap();
        let mut rack = plan.boat.racks[0].clone();
        for (bore_m, fits) in [(0.18, false), (0.20, true), (0.21, true), (0.24, false)] {
            rack.bore_m = Some(bore_m);
            assert_eq!(Spots::fits(&rack, 0.0921), fits, "{bore_m}");
        }
        // Of a row without bores the pitch is the room.
        rack.bore_m = None;
        rack.pitch_m = 0.25;
        assert!(Spots::fits(&rack, 0.0921) && !Spots::fits(&rack, 0.13));
    }
}
