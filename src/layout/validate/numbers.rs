//! The numbers of what an edit brings: finite, and within the sane range of their fields.

use serde::Serialize;
use serde_json::Value;

use super::{Mistake, Report};
use crate::layout::bounds;
use crate::layout::{Edit, Thing};

/// What is wrong with the numbers of an edit.
pub(in crate::layout) fn check(edit: &Edit) -> Vec<Mistake> {
    let mut report = Report::default();
    match edit {
        Edit::Put { thing, .. } => match thing.as_ref() {
            Thing::Deck(thing) => examine(thing, &mut report),
            Thing::Fixture(thing) => examine(thing, &mut report),
            Thing::Place(thing) => examine(thing, &mut report),
            Thing::Walkway(thing) => examine(thing, &mut report),
            Thing::Rack(thing) => examine(thing, &mut report),
            Thing::LashingPoint(thing) => examine(thing, &mut report),
            Thing::Cylinder(thing) => examine(thing, &mut report),
            Thing::Lashing(thing) => examine(thing, &mut report),
            Thing::Gear(thing) => examine(thing, &mut report),
            Thing::Person(thing) => examine(thing, &mut report),
            Thing::GearAboard(thing) => examine(thing, &mut report),
            Thing::Part(thing) => examine(thing, &mut report),
        },
        Edit::Place { placing, .. } => examine(placing, &mut report),
        Edit::SetBoat(boat) => examine(boat, &mut report),
        Edit::PutTrip(trip) => examine(trip, &mut report),
        Edit::SetBriefing { briefing, .. } => examine(briefing, &mut report),
        Edit::Remove { .. }
        | Edit::SetLashingShut { .. }
        | Edit::SetFrontShut { .. }
        | Edit::RemoveTrip(_)
        | Edit::TakeOn { .. } => {}
    }
    report.0
}

fn examine(thing: &impl Serialize, report: &mut Report) {
    // What cannot be serialized is no number either; saving tells of it.
    if let Ok(value) = serde_json::to_value(thing) {
        walk(&value, "", report);
    }
}

fn walk(value: &Value, field: &str, report: &mut Report) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                walk(value, name, report);
            }
        }
        Value::Array(items) => {
            for item in items {
                walk(item, field, report);
            }
        }
        // What is not there is left out; what is not finite has no other form in JSON.
        Value::Null => report.add(field, "this is no number", "give a number"),
        Value::Number(number) => {
            let value = number.as_f64().unwrap_or(f64::INFINITY);
            if let Some(bound) = bounds::for_field(field)
                && number.is_f64()
                && !bound.holds(value)
            {
                let bounds::Bound { min, max, unit, .. } = bound;
                report.add(
                    field,
                    format!("{value} {unit} is out of range ({min} to {max})"),
                    format!("give a value from {min} to {max} {unit}"),
                );
            }
        }
        Value::Bool(_) | Value::String(_) => {}
    }
}
