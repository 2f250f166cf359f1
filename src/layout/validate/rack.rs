//! Racks, their slots and their fronts.

use std::collections::{BTreeMap, BTreeSet};

use super::names::check_unique;
use super::{Field, Report};
use crate::layout::nearest::nearest;
use crate::layout::{Rack, RackKind};

/// Slots of one rack, at most; the file format allows 200 by 50.
const MOST_SLOTS: usize = 10_000;

pub(super) fn check(rack: &Rack, place: Field<'_>, report: &mut Report) {
    let slots = rack.slot_count();
    if slots > MOST_SLOTS {
        // Columns and rows are out of range, which is told of them.
        return;
    }
    let mut painted: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, name) in rack.slot_names.iter().enumerate() {
        let field = format_args!("{place}.slot_names[{i}]");
        if name.trim().is_empty() {
            report.add(
                field,
                "the slot has an empty name",
                "write what is painted on it",
            );
        } else if let Some(earlier) = painted.get(name.as_str()) {
            report.add(
                field,
                format!("slot {} is called {name:?} already", earlier + 1),
                "each slot of a rack needs a name of its own",
            );
        }
        painted.entry(name).or_insert(i);
    }
    if rack.slot_names.len() > slots {
        report.add(
            format_args!("{place}.slot_names"),
            format!(
                "{} names for {slots} slots ({} in a row, {} rows)",
                rack.slot_names.len(),
                rack.columns,
                rack.rows
            ),
            "take names out, or set columns and rows to what is on board",
        );
    }
    check_fronts(rack, place, report);
}

fn check_fronts(rack: &Rack, place: Field<'_>, report: &mut Report) {
    let ids = rack.fronts.iter().map(|front| front.id.as_str());
    check_unique(ids, format_args!("{place}.fronts"), "front", report);
    if rack.kind != RackKind::BenchRow && !rack.fronts.is_empty() {
        report.add(
            format_args!("{place}.fronts"),
            "only a bench row has fronts",
            "take them out, or make the rack a \"bench_row\"; a strap over something else is a \
             lashing",
        );
    }
    for (i, front) in rack.fronts.iter().enumerate() {
        let mut seen = BTreeSet::new();
        for (j, slot) in front.slots.iter().enumerate() {
            let field = format_args!("{place}.fronts[{i}].slots[{j}]");
            if seen.insert(slot) {
                check_slot(rack, slot, field, report);
            } else {
                report.add(
                    field,
                    format!("slot {slot:?} stands here twice"),
                    "take one out",
                );
            }
        }
    }
}

/// Checks that a rack has a slot of this name.
pub(super) fn check_slot(rack: &Rack, slot: &str, field: Field<'_>, report: &mut Report) {
    if has_slot(rack, slot) {
        return;
    }
    let message = format!("the rack {:?} has no slot {slot:?}", rack.id);
    let guesses = if report.takes_guesses() {
        rack.slot_count()
    } else {
        0
    };
    let painted = rack.slot_names.iter().take(guesses);
    let painted = painted.map(String::as_str);
    let help = match nearest(slot, painted) {
        Some(meant) => format!("did you mean {meant:?}?"),
        None => match rack.slot_count() {
            0 => "the rack has no slots at all".to_owned(),
            count => format!(
                "its slots go from {:?} to {:?}",
                rack.slot_name(0),
                rack.slot_name(count - 1)
            ),
        },
    };
    report.add(field, message, help);
}

/// Whether a rack has a slot of this name, without writing all the names down.
fn has_slot(rack: &Rack, slot: &str) -> bool {
    let count = rack.slot_count();
    if rack.slot_names.iter().take(count).any(|name| name == slot) {
        return true;
    }
    // Slots without a painted name are numbered after the rack.
    let number = slot
        .strip_prefix(rack.id.as_str())
        .and_then(|rest| rest.strip_prefix('-'))
        .and_then(|number| number.parse::<usize>().ok());
    number.is_some_and(|number| {
        number > rack.slot_names.len() && number <= count && rack.slot_name(number - 1) == slot
    })
}
