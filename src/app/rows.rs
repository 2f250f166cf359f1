//! What is done to several things at once: taken away, copied, laid down, filled in.

use super::here::{Here, at, whole_turn};
use super::moving::{self, put};
use super::tools::standing;
use super::{naming, stores};
use crate::geometry::vec2;
use crate::layout::{
    Cylinder, Edit, GearShape, Kit, Known, Placing, RackKind, Thing, ThingKind, ThingRef,
};

/// How far beside the old a copy is put, in metres.
const BESIDE_M: f64 = 0.3;

/// The edits that take things away.
pub(crate) fn removed(here: &Here<'_>, things: &[ThingRef]) -> Vec<Edit> {
    // Points take their lashings with them, so lashings go first.
    let mut order: Vec<&ThingRef> = things.iter().collect();
    order.sort_by_key(|what| what.kind != ThingKind::Lashing);
    order
        .into_iter()
        .map(|what| Edit::Remove {
            trip: what.kind.is_of_trip().then(|| here.trip.id.clone()),
            what: what.clone(),
        })
        .collect()
}

/// The edits that lay cylinders down, or stand them up if the first of them lies; and whether they are
/// laid down.
pub(crate) fn laid_or_stood(here: &Here<'_>, things: &[ThingRef]) -> (Vec<Edit>, bool) {
    let cylinders: Vec<&Cylinder> = things
        .iter()
        .filter(|what| what.kind == ThingKind::Cylinder)
        .filter_map(|what| here.day.cylinder(&what.id))
        .collect();
    let lies = |cylinder: &Cylinder| matches!(cylinder.placing, Placing::Lying { .. });
    let lay = !cylinders.first().is_some_and(|first| lies(first));
    let edits = cylinders
        .into_iter()
        .filter(|cylinder| lies(cylinder) != lay);
    let edits = edits.filter_map(|cylinder| {
        let point = moving::placing_point(here.plan, &cylinder.placing)?;
        let point = super::here::to_cm(point);
        let placing = if lay {
            Placing::Lying {
                deck: here.deck.to_owned(),
                at: point,
                valve_towards_deg: 0.0,
                on: None,
                on_kit: false,
                chocks: None,
                upon: Vec::new(),
            }
        } else {
            standing(here.deck, point)
        };
        Some(moving::place(here, &cylinder.id, placing))
    });
    (edits.collect(), lay)
}

/// The edits that put a cylinder of a kind into every free slot of the racks, kit facing away from the
/// back. In bench rows the kit is on, as divers kit up there; elsewhere it is off.
pub(crate) fn filled<'a>(
    here: &Here<'_>,
    racks: impl Iterator<Item = &'a str>,
    kind: &str,
) -> Vec<Edit> {
    let mut edits = Vec::new();
    let mut names = Vec::new();
    for rack in racks.filter_map(|id| here.plan.boat.rack(id)) {
        if matches!(rack.kind, RackKind::Crate | RackKind::Net) {
            continue;
        }
        let inboard = whole_turn(rack.turn_deg - 90.0);
        for slot in rack.slots() {
            let wanted = Placing::InSlot {
                rack: rack.id.clone(),
                slot: slot.name,
            };
            let mut placings = here
                .day
                .cylinders
                .iter()
                .map(|state| &state.cylinder.placing);
            if placings.any(|placing| *placing == wanted) {
                continue;
            }
            let id = naming::free_after(here.plan, here.trip, ThingKind::Cylinder, &names);
            let mut made = stores::cylinder(here, &id, kind, wanted).edits;
            if let Some(Edit::Put { thing, .. }) = made.first_mut()
                && let Thing::Cylinder(cylinder) = thing.as_mut()
            {
                let bench = rack.kind == RackKind::BenchRow;
                cylinder.kit = if bench { Kit::On } else { Kit::Off };
                cylinder.kit_faces_deg = bench.then_some(Known::Value(inboard));
            }
            edits.extend(made);
            names.push(id);
        }
    }
    edits
}

/// The edits that put copies beside the old ones, and what the copies are. Lashings are not copied: a
/// copy would hold the old cylinders.
pub(crate) fn copies(here: &Here<'_>, things: &[Thing]) -> (Vec<Edit>, Vec<ThingRef>) {
    let mut edits = Vec::new();
    let mut new = Vec::new();
    let mut names: Vec<String> = Vec::new();
    for old in things {
        let kind = old.to_ref().kind;
        let id = naming::free_after(here.plan, here.trip, kind, &names);
        let Some(thing) = copy_of(here, old, &id) else {
            continue;
        };
        names.push(id);
        new.push(thing.to_ref());
        match thing {
            Thing::Cylinder(cylinder) => {
                let placing = cylinder.placing.clone();
                let first = if here.part == 0 {
                    placing.clone()
                } else {
                    Placing::Ashore
                };
                let base = Cylinder {
                    placing: first,
                    ..cylinder
                };
                let id = base.id.clone();
                edits.push(put(here.trip, Thing::Cylinder(base)));
                if here.part > 0 {
                    edits.push(moving::place(here, &id, placing));
                }
            }
            thing => edits.push(put(here.trip, thing)),
        }
    }
    (edits, new)
}

fn copy_of(here: &Here<'_>, old: &Thing, id: &str) -> Option<Thing> {
    let mut thing = old.clone();
    let id = id.to_owned();
    let by = vec2(BESIDE_M, 0.0);
    let point = |p: &mut [f64; 2]| *p = super::here::to_cm(at(*p) + by);
    match &mut thing {
        Thing::Cylinder(item) => {
            item.id = id;
            item.number = None;
            let was = moving::placing_point(here.plan, &item.placing)?;
            item.placing = super::tools::dropped(here, &item.id, &item.placing, was + by);
        }
        Thing::Rack(item) => {
            item.id = id;
            item.slot_names.clear();
            let along = item.outer_size()[0] + 0.1;
            item.at = super::here::to_cm(at(item.on_deck([along, 0.0])));
            let names: Vec<String> = (0..item.slot_count()).map(|i| item.slot_name(i)).collect();
            for front in &mut item.fronts {
                front.slots.clone_from(&names);
            }
        }
        Thing::Fixture(item) => {
            item.id = id;
            item.outline.iter_mut().for_each(point);
            item.opens_over.iter_mut().for_each(point);
        }
        Thing::Place(item) => {
            item.id = id;
            point(&mut item.at);
        }
        Thing::LashingPoint(item) => {
            item.id = id;
            point(&mut item.at);
        }
        Thing::Gear(item) => {
            item.id = id;
            match &mut item.floor {
                GearShape::Round { at, .. } | GearShape::Box { at, .. } => point(at),
                GearShape::Line { points, .. } => points.iter_mut().for_each(point),
            }
        }
        Thing::Person(item) => {
            item.id = id;
            point(&mut item.at);
        }
        Thing::Walkway(_)
        | Thing::Deck(_)
        | Thing::Lashing(_)
        | Thing::GearAboard(_)
        | Thing::Part(_) => return None,
    }
    Some(thing)
}
