//! The edits that move, change or stow one thing from a part of the day on.

use crate::checks::CheckContext;
use crate::geometry::Elementary as _;
use crate::layout::{
    Cylinder, CylinderChange, Edit, Gear, GearChange, GearShape, Id, Lashing, LashingChange, Part,
    PersonChange, Placing, Point, Thing, ThingKind,
};

/// A little more than needed, so that rounding does not leave a touch, in metres.
pub(super) const MORE_M: f64 = 0.01;

/// Lengthens a shift so that it clears with certainty, and rounds it to millimetres.
pub(super) fn enough([x, y]: Point) -> Point {
    let length = x.hypotenuse(y);
    if length <= 0.0 {
        return [0.0, 0.0];
    }
    let factor = (length + MORE_M) / length;
    [x, y].map(|value| (value * factor * 1000.0).round() / 1000.0)
}

fn shifted([x, y]: Point, [dx, dy]: Point) -> Point {
    [x + dx, y + dy].map(|value| (value * 1e4).round() / 1e4)
}

/// Moves a thing by a shift, from this part of the day on; `None` if such a thing does not move.
pub(super) fn move_by(
    ctx: &CheckContext<'_>,
    kind: ThingKind,
    id: &str,
    by: Point,
) -> Option<Vec<Edit>> {
    match kind {
        ThingKind::Cylinder => {
            let mut placing = ctx.state(id)?.placing.clone();
            let at = placing.at_mut()?;
            *at = shifted(*at, by);
            Some(vec![place(ctx, id, placing)])
        }
        ThingKind::Rack => {
            let mut rack = ctx.plan.boat.rack(id)?.clone();
            rack.at = shifted(rack.at, by);
            Some(vec![Edit::Put {
                trip: None,
                thing: Box::new(Thing::Rack(rack)),
            }])
        }
        ThingKind::Gear => {
            let gear = ctx.day.gear.iter().map(|state| &state.gear);
            let mut floor = gear.clone().find(|gear| gear.id == id)?.floor.clone();
            match &mut floor {
                GearShape::Round { at, .. } | GearShape::Box { at, .. } => *at = shifted(*at, by),
                GearShape::Line { points, .. } => {
                    for point in points {
                        *point = shifted(*point, by);
                    }
                }
            }
            Some(vec![change_gear(ctx, id, Some(floor), None)?])
        }
        ThingKind::Person => {
            let at = shifted(ctx.day.person(id)?.at, by);
            Some(vec![move_person(ctx, id, at)?])
        }
        _ => None,
    }
}

/// Places a cylinder from this part on.
pub(super) fn place(ctx: &CheckContext<'_>, id: &str, placing: Placing) -> Edit {
    Edit::Place {
        trip: ctx.trip.id.clone(),
        part: ctx.part_index,
        cylinder: id.to_owned(),
        placing,
    }
}

/// Replaces a cylinder, as it is over the whole trip.
pub(super) fn put_cylinder(
    ctx: &CheckContext<'_>,
    id: &str,
    change: impl FnOnce(&mut Cylinder),
) -> Option<Edit> {
    let mut cylinder = ctx.trip.cylinder(id)?.clone();
    change(&mut cylinder);
    Some(put(ctx, Thing::Cylinder(cylinder)))
}

/// Replaces or adds a thing of the trip.
pub(super) fn put(ctx: &CheckContext<'_>, thing: Thing) -> Edit {
    Edit::Put {
        trip: Some(ctx.trip.id.clone()),
        thing: Box::new(thing),
    }
}

/// Changes loose gear from this part on.
pub(super) fn change_gear(
    ctx: &CheckContext<'_>,
    id: &str,
    floor: Option<GearShape>,
    stowed: Option<bool>,
) -> Option<Edit> {
    let mut part = ctx.part.clone();
    let change = part
        .changes
        .gear
        .iter_mut()
        .find(|change| change.gear == id);
    if ctx.part_index == 0 && change.is_none() {
        let gear = ctx.trip.gear.iter().find(|gear| gear.id == id)?;
        return Some(put(
            ctx,
            Thing::Gear(Gear {
                floor: floor.unwrap_or_else(|| gear.floor.clone()),
                stowed: stowed.unwrap_or(gear.stowed),
                ..gear.clone()
            }),
        ));
    }
    match change {
        Some(change) => {
            change.floor = floor.or_else(|| change.floor.clone());
            change.stowed = stowed.or(change.stowed);
        }
        None => part.changes.gear.push(GearChange {
            gear: id.to_owned(),
            floor,
            stowed,
        }),
    }
    Some(put(ctx, Thing::Part(part)))
}

/// Moves somebody from this part on.
fn move_person(ctx: &CheckContext<'_>, id: &str, at: Point) -> Option<Edit> {
    let mut part: Part = ctx.part.clone();
    let change = part
        .changes
        .people
        .iter_mut()
        .find(|change| change.person == id);
    match change {
        Some(change) => change.at = Some(at),
        None if ctx.part_index == 0 => {
            let person = ctx.trip.people.iter().find(|person| person.id == id)?;
            let mut person = person.clone();
            person.at = at;
            return Some(put(ctx, Thing::Person(person)));
        }
        None => part.changes.people.push(PersonChange {
            person: id.to_owned(),
            deck: None,
            at: Some(at),
            posture: None,
            fins: None,
        }),
    }
    Some(put(ctx, Thing::Part(part)))
}

/// The parts of the day, from..to, over which this cylinder stays as it is placed in this one.
pub(super) fn stays(ctx: &CheckContext<'_>, cylinder: &str) -> (usize, usize) {
    let change = |change: &&CylinderChange| change.cylinder == cylinder && change.placing.is_some();
    let moves = |part: &Part| part.changes.cylinders.iter().any(|item| change(&item));
    let parts = &ctx.trip.parts;
    let from = (1..=ctx.part_index)
        .rev()
        .find(|index| moves(&parts[*index]))
        .unwrap_or(0);
    let to = (ctx.part_index + 1..parts.len()).find(|index| moves(&parts[*index]));
    (from, to.unwrap_or(parts.len()))
}

/// Adds a lashing, made fast while its cylinder stays where it is in this part.
pub(super) fn add_lashing(
    ctx: &CheckContext<'_>,
    mut lashing: Lashing,
    cylinder: &str,
) -> Vec<Edit> {
    let (from, to) = stays(ctx, cylinder);
    let id = lashing.id.clone();
    lashing.shut = from == 0;
    let mut edits = vec![put(ctx, Thing::Lashing(lashing))];
    let set = |part: usize, shut: bool| Edit::SetLashingShut {
        trip: ctx.trip.id.clone(),
        part,
        lashing: id.clone(),
        shut,
    };
    if from > 0 {
        edits.push(set(from, true));
    }
    if to < ctx.trip.parts.len() {
        edits.push(set(to, false));
    }
    edits
}

/// Replaces a lashing for the whole trip, and takes back what this part changed of its tightness.
pub(super) fn replace_lashing(
    ctx: &CheckContext<'_>,
    id: &str,
    change: impl FnOnce(&mut Lashing),
) -> Option<Vec<Edit>> {
    let mut lashing = ctx.trip.lashing(id)?.clone();
    change(&mut lashing);
    let tightened = lashing.slack_m.is_none();
    let mut edits = vec![put(ctx, Thing::Lashing(lashing))];
    if tightened {
        for part in &ctx.trip.parts {
            let loosens = |item: &LashingChange| item.lashing == id && item.slack_m.is_some();
            if part.changes.lashings.iter().any(loosens) {
                let mut part = part.clone();
                for item in part
                    .changes
                    .lashings
                    .iter_mut()
                    .filter(|item| loosens(item))
                {
                    item.slack_m = None;
                }
                edits.push(put(ctx, Thing::Part(part)));
            }
        }
    }
    Some(edits)
}

/// A name that no lashing of the trip has: `L7`.
pub(super) fn new_lashing_id(ctx: &CheckContext<'_>, more: usize) -> Id {
    let taken = |id: &String| ctx.trip.lashings.iter().any(|lashing| lashing.id == *id);
    let free = (1..).map(|n| format!("L{n}")).filter(|id| !taken(id));
    let mut free = free.skip(more);
    free.next().unwrap_or_else(|| "L".to_owned())
}
