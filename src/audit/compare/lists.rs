//! Going through both sides list by list.

use std::collections::BTreeSet;

use super::carry::front_name;
use super::describe::{one_cylinder, one_front, one_lashing};
use super::{DifferenceKind, DifferentThing, SAME_M, Seen};
use crate::audit::Moment;
use crate::checks::words;
use crate::engine::numbers::{CylinderNumbers, PartNumbers, Stance};
use crate::layout::{Boat, Cylinder, Gear, GearShape, Id, Point, Rack, Trip};

/// Everything in which the two sides differ.
pub(super) fn all(
    planned: &Moment,
    found: &Moment,
    before: &PartNumbers,
    after: &PartNumbers,
) -> Vec<Seen> {
    let mut seen = Vec::new();
    if let (Some(was), Some(is)) = (planned.trip(), found.trip()) {
        cylinders((was, is), (before, after), &mut seen);
        lashings(was, is, &mut seen);
        gear(was, is, &mut seen);
    }
    let (was, is) = (&planned.plan.boat, &found.plan.boat);
    fronts(was, is, &mut seen);
    boat(was, is, &mut seen);
    walkways(before, after, &mut seen);
    seen
}

/// The names that either side has, in order.
fn names<'a, T>(planned: &'a [T], found: &'a [T], id: fn(&T) -> &Id) -> BTreeSet<&'a Id> {
    planned.iter().chain(found).map(id).collect()
}

fn body<'n>(numbers: &'n PartNumbers, id: &str) -> Option<&'n CylinderNumbers> {
    numbers.cylinders.iter().find(|body| body.cylinder == *id)
}

fn cylinders(
    (was, is): (&Trip, &Trip),
    (before, after): (&PartNumbers, &PartNumbers),
    seen: &mut Vec<Seen>,
) {
    for id in names(&was.cylinders, &is.cylinders, |cylinder| &cylinder.id) {
        let aboard = |cylinder: &&Cylinder| cylinder.placing.is_aboard();
        let was_there = was.cylinder(id).filter(aboard);
        let is_there = is.cylinder(id).filter(aboard);
        let (was_body, is_body) = (body(before, id), body(after, id));
        let (from, to) = (was_body.map(|it| it.at), is_body.map(|it| it.at));
        let mut tell = |kind, sentence, from, to| {
            seen.push(Seen::new(DifferentThing::Cylinder, id, kind, sentence).at(from, to));
        };
        match (was_there, is_there) {
            (None, None) => {}
            (Some(_), None) => {
                let sentence = format!("{id} was planned and not found");
                tell(DifferenceKind::Missing, sentence, from, None);
            }
            (None, Some(_)) => {
                let sentence = format!("{id} was found and not planned");
                tell(DifferenceKind::Added, sentence, None, to);
            }
            (Some(was), Some(is)) => {
                for (kind, sentence) in one_cylinder(was, is, from, to) {
                    tell(kind, sentence, from, to);
                }
                if was_body.is_some_and(is_secured)
                    && let Some(loose) = is_body.filter(|it| !is_secured(it))
                {
                    let sentence = format!("nothing secured {id}: {}", stance(loose));
                    tell(DifferenceKind::Unsecured, sentence, from, to);
                }
            }
        }
    }
}

/// Does more than its foot and what happens to stand behind it keep it up? Of lying ones another rule speaks.
fn is_secured(body: &CylinderNumbers) -> bool {
    match body.stance {
        Stance::StandsFree | Stance::Backed => false,
        Stance::InRack => body.rack.as_ref().is_none_or(|rack| rack.closed) || is_lashed(body),
        _ => true,
    }
}

fn is_lashed(body: &CylinderNumbers) -> bool {
    body.lashings.iter().any(|lashing| lashing.counted)
}

fn stance(body: &CylinderNumbers) -> String {
    match body.stance {
        Stance::Backed => format!("it stood against {}", words::list(&body.backed_by)),
        Stance::InRack => "it stood in an open slot".to_owned(),
        _ => "it stood on its foot alone".to_owned(),
    }
}

fn lashings(was: &Trip, is: &Trip, seen: &mut Vec<Seen>) {
    for id in names(&was.lashings, &is.lashings, |lashing| &lashing.id) {
        let told: Vec<(DifferenceKind, String)> = match (was.lashing(id), is.lashing(id)) {
            (None, None) => Vec::new(),
            (Some(_), None) => vec![(DifferenceKind::Missing, format!("{id} was left off"))],
            (None, Some(_)) => vec![(DifferenceKind::Added, format!("{id} was not planned"))],
            (Some(was), Some(is)) => one_lashing(was, is),
        };
        let told = told.into_iter();
        seen.extend(told.map(|(kind, text)| Seen::new(DifferentThing::Lashing, id, kind, text)));
    }
}

fn fronts(was: &Boat, is: &Boat, seen: &mut Vec<Seen>) {
    for rack in &was.racks {
        let Some(other) = is.rack(&rack.id) else {
            continue;
        };
        for id in names(&rack.fronts, &other.fronts, |front| &front.id) {
            let find = |rack: &Rack| rack.fronts.iter().find(|it| it.id == *id).cloned();
            let of = format!("{id} of {}", rack.id);
            let told = match (find(rack), find(other)) {
                (None, None) => Vec::new(),
                (Some(_), None) => {
                    vec![(DifferenceKind::Missing, format!("{of} was not there"))]
                }
                (None, Some(_)) => vec![(DifferenceKind::Added, format!("{of} was not planned"))],
                (Some(was), Some(is)) => one_front(&of, &was, &is),
            };
            let name = front_name(&rack.id, id);
            let told = told.into_iter();
            seen.extend(
                told.map(|(kind, text)| Seen::new(DifferentThing::Front, &name, kind, text)),
            );
        }
    }
}

/// About where a piece of gear is.
fn middle(gear: &Gear) -> Option<Point> {
    match &gear.floor {
        GearShape::Round { at, .. } | GearShape::Box { at, .. } => Some(*at),
        GearShape::Line { points, .. } => points.get(points.len() / 2).copied(),
    }
}

fn gear(was: &Trip, is: &Trip, seen: &mut Vec<Seen>) {
    let on_floor = |list: &[Gear], id: &Id| -> Option<Gear> {
        let found = list.iter().find(|gear| gear.id == *id && !gear.stowed);
        found.cloned()
    };
    for id in names(&was.gear, &is.gear, |gear| &gear.id) {
        let (was, is) = (on_floor(&was.gear, id), on_floor(&is.gear, id));
        let (from, to) = (was.as_ref().and_then(middle), is.as_ref().and_then(middle));
        let (kind, sentence) = match (&was, &is) {
            (None, Some(_)) => (
                DifferenceKind::Added,
                format!("{id} was found on the floor"),
            ),
            (Some(_), None) => (
                DifferenceKind::Missing,
                format!("{id} was not on the floor"),
            ),
            (Some(a), Some(b)) if a.floor != b.floor || a.deck != b.deck => {
                let by = from
                    .zip(to)
                    .map(|(from, to)| super::describe::shift(from, to));
                let sentence = match by.flatten() {
                    Some(by) => format!("{id} was found {by} of where it was planned"),
                    None => format!("{id} was found elsewhere or lying otherwise"),
                };
                (DifferenceKind::Moved, sentence)
            }
            (Some(a), Some(b)) if a != b => {
                (DifferenceKind::OtherState, format!("{id} is another one"))
            }
            _ => continue,
        };
        seen.push(Seen::new(DifferentThing::Gear, id, kind, sentence).at(from, to));
    }
}

/// What of the boat herself is drawn otherwise.
fn boat(was: &Boat, is: &Boat, seen: &mut Vec<Seen>) {
    let mut tell = |thing, id: &Id, what: &str| {
        let sentence = format!("{what} {id} of the boat is drawn otherwise in the two layouts");
        seen.push(Seen::new(thing, id, DifferenceKind::BoatDiffers, sentence));
    };
    for id in differing(&was.decks, &is.decks, |it| &it.id) {
        tell(DifferentThing::Deck, id, "deck");
    }
    for id in differing(&was.fixtures, &is.fixtures, |it| &it.id) {
        tell(DifferentThing::Fixture, id, "fixture");
    }
    for id in differing(&was.places, &is.places, |it| &it.id) {
        tell(DifferentThing::Place, id, "place");
    }
    for id in differing(&was.walkways, &is.walkways, |it| &it.id) {
        tell(DifferentThing::WalkwayLine, id, "walkway");
    }
    for id in differing(&was.lashing_points, &is.lashing_points, |it| &it.id) {
        tell(DifferentThing::LashingPoint, id, "lashing point");
    }
    let bare = |boat: &Boat| -> Vec<Rack> {
        let racks = boat.racks.iter().cloned();
        let without = racks.map(|rack| Rack {
            fronts: Vec::new(),
            ..rack
        });
        without.collect()
    };
    let (a, b) = (bare(was), bare(is));
    for id in differing(&a, &b, |it| &it.id) {
        tell(DifferentThing::Rack, id, "rack");
    }
    let measures = |boat: &Boat| Boat {
        name: String::new(),
        decks: Vec::new(),
        fixtures: Vec::new(),
        places: Vec::new(),
        walkways: Vec::new(),
        racks: Vec::new(),
        lashing_points: Vec::new(),
        ..boat.clone()
    };
    if measures(was) != measures(is) {
        let sentence = "measures of the boat differ in the two layouts".to_owned();
        let kind = DifferenceKind::BoatDiffers;
        seen.push(Seen::new(DifferentThing::Boat, &was.name, kind, sentence));
    }
}

/// The names of things that are not the same on both sides, or on one side only.
fn differing<'a, T: PartialEq>(was: &'a [T], is: &'a [T], id: fn(&T) -> &Id) -> Vec<&'a Id> {
    let find = |list: &'a [T], wanted: &Id| list.iter().find(|it| id(it) == wanted);
    let names = names(was, is, id).into_iter();
    names
        .filter(|name| find(was, name) != find(is, name))
        .collect()
}

fn walkways(before: &PartNumbers, after: &PartNumbers, seen: &mut Vec<Seen>) {
    for was in &before.walkways {
        let same = after.walkways.iter().find(|way| way.walkway == was.walkway);
        let Some(is) = same else { continue };
        for (what, a, b) in [
            ("is clear for", was.clear_m, is.clear_m),
            (
                "is clear of low things for",
                was.clear_of_low_m,
                is.clear_of_low_m,
            ),
        ] {
            if a - b >= SAME_M {
                let sentence = format!(
                    "{} {what} {} instead of {}",
                    was.walkway,
                    words::metres(b),
                    words::metres(a)
                );
                let kind = DifferenceKind::WalkwayNarrowed;
                seen.push(Seen::new(
                    DifferentThing::Walkway,
                    &was.walkway,
                    kind,
                    sentence,
                ));
            }
        }
    }
}
