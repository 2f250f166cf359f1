//! What is done to several things at once: taken away, copied, laid down, filled in.

use super::here::{Here, at, whole_turn};
use super::moving::{self, Grabbed, put};
use super::tools::standing;
use super::{naming, stores};
use crate::geometry::{Bounds, Vec2, vec2};
use crate::layout::{
    Cylinder, Edit, GearShape, Kit, Known, Placing, RackKind, Thing, ThingKind, ThingRef,
};

/// How far beside the old a copy is put, in metres.
const BESIDE_M: f64 = 0.3;

/// The edits that take things away.
pub(crate) fn removed(here: &Here<'_>, things: &[ThingRef]) -> Vec<Edit> {
    // Points take their lashings with them, so lashings go first.
    let free = things.iter().filter(|what| !here.is_locked(what));
    let mut order: Vec<&ThingRef> = free.collect();
    order.sort_by_key(|what| what.kind != ThingKind::Lashing);
    order
        .into_iter()
        .map(|what| Edit::Remove {
            trip: what.kind.is_of_trip().then(|| here.trip.id.clone()),
            what: what.clone(),
        })
        .collect()
}

/// The edits that lock things in their places, or free them if all of them are locked; and whether they are
/// locked then. `None` if there are none that can be.
pub(crate) fn locked_or_freed(here: &Here<'_>, things: &[ThingRef]) -> Option<(Vec<Edit>, bool)> {
    let (mut boat, mut trip) = (here.plan.boat.clone(), here.trip.clone());
    let of_boat = |what: &ThingRef| !what.kind.is_of_trip() && boat.has_thing(&what.id);
    let can = things.iter().filter(|what| {
        let moves = matches!(
            what.kind,
            ThingKind::Cylinder | ThingKind::Gear | ThingKind::Person
        );
        moves || of_boat(what)
    });
    let things: Vec<&ThingRef> = can.collect();
    if things.is_empty() {
        return None;
    }
    let lock = !things.iter().all(|what| here.is_locked(what));
    for what in things {
        let locked = if what.kind.is_of_trip() {
            &mut trip.locked
        } else {
            &mut boat.locked
        };
        locked.retain(|id| *id != what.id);
        if lock {
            locked.push(what.id.clone());
        }
    }
    let mut edits = Vec::new();
    boat.locked.sort();
    trip.locked.sort();
    if boat.locked != here.plan.boat.locked {
        edits.push(Edit::SetBoat(Box::new(boat)));
    }
    if trip.locked != here.trip.locked {
        edits.push(Edit::PutTrip(Box::new(trip)));
    }
    Some((edits, lock))
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
        put_copy(here, thing, &mut edits);
    }
    (edits, new)
}

/// The edits that put a copy: a cylinder is there from the part of the day shown on.
fn put_copy(here: &Here<'_>, thing: Thing, edits: &mut Vec<Edit>) {
    match thing {
        Thing::Cylinder(cylinder) if here.part > 0 => {
            let placing = cylinder.placing.clone();
            let base = Cylinder {
                placing: Placing::Ashore,
                ..cylinder
            };
            let id = base.id.clone();
            edits.push(put(here.trip, Thing::Cylinder(base)));
            edits.push(moving::place(here, &id, placing));
        }
        thing => edits.push(put(here.trip, thing)),
    }
}

/// A copy beside the old one; a rack goes at the end of its own row.
fn copy_of(here: &Here<'_>, old: &Thing, id: &str) -> Option<Thing> {
    let by = match old {
        Thing::Rack(rack) => {
            let along = rack.outer_size()[0] + 0.1;
            at(rack.on_deck([along, 0.0])) - at(rack.at)
        }
        _ => vec2(BESIDE_M, 0.0),
    };
    copy_by(here, old, id, by)
}

/// A copy, shifted by so much.
fn copy_by(here: &Here<'_>, old: &Thing, id: &str, by: Vec2) -> Option<Thing> {
    let mut thing = old.clone();
    let id = id.to_owned();
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
            point(&mut item.at);
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

/// Which way things are lined up.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Line {
    /// Fore and aft: all as far from the centreline.
    ForeAndAft,
    /// Athwartships: all as far from the stern.
    Athwart,
}

/// The edits that put things in the line of the last one.
pub(crate) fn lined_up(here: &Here<'_>, held: &[Grabbed], line: Line) -> Vec<Edit> {
    let Some(target) = held.last().and_then(|last| last.anchor(here.plan)) else {
        return Vec::new();
    };
    let edits = held.iter().filter_map(|item| {
        let anchor = item.anchor(here.plan)?;
        let by = match line {
            Line::ForeAndAft => vec2(0.0, target.y - anchor.y),
            Line::Athwart => vec2(target.x - anchor.x, 0.0),
        };
        (by.length() > 1e-9).then(|| item.moved(here, by))
    });
    edits.flatten().collect()
}

/// The edits that give things equal spaces, along the longer way between the outermost two.
pub(crate) fn spread(here: &Here<'_>, held: &[Grabbed]) -> Vec<Edit> {
    let mut places: Vec<(Vec2, &Grabbed)> = held
        .iter()
        .filter_map(|item| Some((item.anchor(here.plan)?, item)))
        .collect();
    let bounds = Bounds::of(places.iter().map(|(anchor, _)| *anchor));
    let size = bounds.size();
    let lengthwise = size.x >= size.y;
    let along = |v: Vec2| if lengthwise { v.x } else { v.y };
    places.sort_by(|a, b| along(a.0).total_cmp(&along(b.0)));
    let (Some(first), Some(last)) = (places.first(), places.last()) else {
        return Vec::new();
    };
    let (low, high) = (along(first.0), along(last.0));
    let spaces = places.len().saturating_sub(1).max(1) as f64;
    let edits = places
        .iter()
        .enumerate()
        .filter_map(|(index, (anchor, item))| {
            let target = low + (high - low) * index as f64 / spaces;
            let shift = target - along(*anchor);
            let by = if lengthwise {
                vec2(shift, 0.0)
            } else {
                vec2(0.0, shift)
            };
            (shift.abs() > 1e-9).then(|| item.moved(here, by))
        });
    edits.flatten().collect()
}

/// A row or a grid of copies.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) struct Grid {
    /// How many there are in all along the boat, the old one counted.
    pub(crate) forward: u32,
    /// How many there are in all athwartships.
    pub(crate) across: u32,
    /// From one to the next along the boat, in metres, forward positive.
    pub(crate) forward_m: f64,
    /// From one to the next athwartships, in metres, to port positive.
    pub(crate) across_m: f64,
}

/// The edits that put copies in a grid, and what the copies are.
pub(crate) fn grid(here: &Here<'_>, things: &[Thing], grid: Grid) -> (Vec<Edit>, Vec<ThingRef>) {
    /// More are a slip of the pen.
    const MOST: u32 = 400;
    let mut edits = Vec::new();
    let mut new = Vec::new();
    let mut names: Vec<String> = Vec::new();
    let places = (0..grid.across).flat_map(|a| (0..grid.forward).map(move |f| (f, a)));
    for (forward, across) in places.skip(1).take(MOST as usize) {
        let by = vec2(
            f64::from(forward) * grid.forward_m,
            f64::from(across) * grid.across_m,
        );
        for old in things {
            let kind = old.to_ref().kind;
            let id = naming::free_after(here.plan, here.trip, kind, &names);
            if let Some(thing) = copy_by(here, old, &id, by) {
                names.push(id);
                new.push(thing.to_ref());
                put_copy(here, thing, &mut edits);
            }
        }
    }
    (edits, new)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::things::reference;
    use crate::layout::Plan;

    fn three() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, at) in [("A", [1.0, 0.1]), ("B", [1.3, 0.0]), ("C", [3.0, -0.2])] {
            let cylinder = Cylinder::new(id, "al-80cf", standing("main", at));
            plan.trips[0].cylinders.push(cylinder);
        }
        plan
    }

    fn after(work: impl FnOnce(&Here<'_>, &[Grabbed]) -> Vec<Edit>) -> Vec<[f64; 2]> {
        let plan = Arc::new(three());
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let held: Vec<Grabbed> = ["A", "B", "C"]
            .iter()
            .map(|id| Grabbed::take(&here, &reference(ThingKind::Cylinder, id)).unwrap())
            .collect();
        let edits = work(&here, &held);
        let mut plan = Plan::clone(&plan);
        for edit in &edits {
            plan.apply(edit).unwrap();
        }
        let cylinders = plan.trips[0].cylinders.iter();
        cylinders.map(|item| item.placing.at().unwrap()).collect()
    }

    #[test]
    fn lining_up_takes_the_line_of_the_last() {
        let places = after(|here, held| lined_up(here, held, Line::ForeAndAft));
        assert_eq!(places, [[1.0, -0.2], [1.3, -0.2], [3.0, -0.2]]);
        let places = after(|here, held| lined_up(here, held, Line::Athwart));
        assert_eq!(places, [[3.0, 0.1], [3.0, 0.0], [3.0, -0.2]]);
    }

    #[test]
    fn spreading_gives_equal_spaces() {
        let places = after(spread);
        assert_eq!(places, [[1.0, 0.1], [2.0, 0.0], [3.0, -0.2]]);
    }

    #[test]
    fn a_grid_counts_the_old_one() {
        let wanted = Grid {
            forward: 3,
            across: 2,
            forward_m: 0.3,
            across_m: -0.4,
        };
        let places = after(|here, held| {
            let things = [held[0].thing().clone()];
            let (edits, new) = grid(here, &things, wanted);
            assert_eq!(new.len(), 5);
            edits
        });
        assert_eq!(places.len(), 8);
        let last = places[7];
        assert!(
            (last[0] - 1.6).abs() < 1e-9 && (last[1] + 0.3).abs() < 1e-9,
            "{last:?}"
        );
    }
}
