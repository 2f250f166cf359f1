//! A change on the card of one thing, made to all selected things of its kind.

use super::here::Here;
use super::moving::{cylinder_changed, put};
use super::selection::Selection;
use super::things;
use crate::layout::{Edit, Thing, ThingRef};
use crate::store::carried_over;

/// The edits that make the change from `old` to `new` to the other selected things of the same kind.
pub(crate) fn others_too(
    here: &Here<'_>,
    selection: &Selection,
    old: &Thing,
    new: &Thing,
) -> Vec<Edit> {
    let what = old.to_ref();
    let others = selection.things().iter();
    let others = others.filter(|other| other.kind == what.kind && other.id != what.id);
    others
        .filter_map(|other| change(here, other, old, new))
        .flatten()
        .collect()
}

fn change(here: &Here<'_>, what: &ThingRef, old: &Thing, new: &Thing) -> Option<Vec<Edit>> {
    if let (Thing::Cylinder(old), Thing::Cylinder(new)) = (old, new) {
        let other = here.day.cylinder(&what.id)?;
        return Some(cylinder_changed(here, &carried_over(old, new, other)?));
    }
    let other = things::get(here.plan, here.trip, what)?;
    let changed = match (old, new, &other) {
        (Thing::Fixture(a), Thing::Fixture(b), Thing::Fixture(c)) => {
            Thing::Fixture(carried_over(a, b, c)?)
        }
        (Thing::Place(a), Thing::Place(b), Thing::Place(c)) => Thing::Place(carried_over(a, b, c)?),
        (Thing::Walkway(a), Thing::Walkway(b), Thing::Walkway(c)) => {
            Thing::Walkway(carried_over(a, b, c)?)
        }
        (Thing::Rack(a), Thing::Rack(b), Thing::Rack(c)) => Thing::Rack(carried_over(a, b, c)?),
        (Thing::LashingPoint(a), Thing::LashingPoint(b), Thing::LashingPoint(c)) => {
            Thing::LashingPoint(carried_over(a, b, c)?)
        }
        (Thing::Lashing(a), Thing::Lashing(b), Thing::Lashing(c)) => {
            Thing::Lashing(carried_over(a, b, c)?)
        }
        (Thing::Gear(a), Thing::Gear(b), Thing::Gear(c)) => Thing::Gear(carried_over(a, b, c)?),
        (Thing::Person(a), Thing::Person(b), Thing::Person(c)) => {
            Thing::Person(carried_over(a, b, c)?)
        }
        _ => return None,
    };
    Some(vec![put(here.trip, changed)])
}
