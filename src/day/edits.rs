//! How changes of a part of the day are put together.

use crate::layout::{
    Changes, CylinderChange, Fill, FrontChange, GearChange, Id, Kit, LashingChange, PersonChange,
    Placing, Posture,
};

/// The change of this cylinder, made if there is none yet.
fn cylinder<'c>(changes: &'c mut Changes, id: &str) -> &'c mut CylinderChange {
    let known = changes
        .cylinders
        .iter()
        .position(|item| item.cylinder == id);
    let index = known.unwrap_or_else(|| {
        changes.cylinders.push(CylinderChange {
            cylinder: id.to_owned(),
            placing: None,
            kit: None,
            kit_faces_deg: None,
            fill: None,
            pressure_bar: None,
        });
        changes.cylinders.len() - 1
    });
    &mut changes.cylinders[index]
}

pub(super) fn place(changes: &mut Changes, id: &str, placing: Placing) {
    cylinder(changes, id).placing = Some(placing);
}

pub(super) fn fill(changes: &mut Changes, id: &str, fill: Fill) {
    cylinder(changes, id).fill = Some(fill);
}

pub(super) fn kit(changes: &mut Changes, id: &str, kit: Kit) {
    cylinder(changes, id).kit = Some(kit);
}

pub(super) fn lashing(changes: &mut Changes, id: &str, shut: bool) {
    match changes.lashings.iter_mut().find(|item| item.lashing == id) {
        Some(change) => change.shut = Some(shut),
        None => changes.lashings.push(LashingChange {
            lashing: id.to_owned(),
            shut: Some(shut),
            round: None,
            slack_m: None,
        }),
    }
}

pub(super) fn front(changes: &mut Changes, rack: &str, front: &str, shut: bool) {
    changes
        .fronts
        .retain(|item| item.rack != rack || item.front != front);
    changes.fronts.push(FrontChange {
        rack: rack.to_owned(),
        front: front.to_owned(),
        shut,
    });
}

pub(super) fn stow(changes: &mut Changes, gear: &str) {
    match changes.gear.iter_mut().find(|item| item.gear == gear) {
        Some(change) => change.stowed = Some(true),
        None => changes.gear.push(GearChange {
            gear: gear.to_owned(),
            floor: None,
            stowed: Some(true),
        }),
    }
}

pub(super) fn posture(changes: &mut Changes, person: &Id, posture: Posture) {
    match changes
        .people
        .iter_mut()
        .find(|item| item.person == *person)
    {
        Some(change) => change.posture = Some(posture),
        None => changes.people.push(PersonChange {
            person: person.clone(),
            deck: None,
            at: None,
            posture: Some(posture),
            fins: None,
        }),
    }
}
