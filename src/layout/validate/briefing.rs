//! What was settled for loading: names that lead somewhere, each cylinder once.

use std::collections::BTreeSet;

use super::names::Names;
use super::placing::References;
use super::{Field, Report};
use crate::layout::{Briefing, Trip};

pub(super) fn check(
    briefing: &Briefing,
    trip: &Trip,
    known: &References<'_, '_>,
    place: Field<'_>,
    report: &mut Report,
) {
    if let Some(part) = &briefing.part {
        let parts = trip.parts.iter().map(|part| part.id.as_str());
        Names::new("part of the day", parts).check(part, format_args!("{place}.part"), report);
    }
    for (field, wanted) in [
        ("hand_over", &briefing.hand_over),
        ("set_down", &briefing.set_down),
    ] {
        if let Some(wanted) = wanted {
            let places = &known.boat.places;
            places.check(wanted, format_args!("{place}.{field}"), report);
        }
    }
    let mut seen = BTreeSet::new();
    for (i, cylinder) in briefing.order.iter().enumerate() {
        let field = format_args!("{place}.order[{i}]");
        once(cylinder, &mut seen, "is in the order", field, known, report);
    }
    let mut seen = BTreeSet::new();
    for (i, tick) in briefing.ticks.iter().enumerate() {
        let field = format_args!("{place}.ticks[{i}]");
        let cylinder = format_args!("{field}.cylinder");
        once(
            &tick.cylinder,
            &mut seen,
            "is ticked off",
            cylinder,
            known,
            report,
        );
        for (name, text) in [("by", &tick.by), ("when", &tick.when)] {
            if text.trim().is_empty() {
                report.add(
                    format_args!("{field}.{name}"),
                    format!(
                        "the tick of {:?} does not say {}",
                        tick.cylinder,
                        said(name)
                    ),
                    "a record without name and time is none: write it or take the tick out",
                );
            }
        }
        if tick
            .skipped
            .as_ref()
            .is_some_and(|reason| reason.trim().is_empty())
        {
            report.add(
                format_args!("{field}.skipped"),
                format!("{:?} was skipped without a reason", tick.cylinder),
                "write why, or leave the field out if it was loaded",
            );
        }
    }
}

fn said(name: &str) -> &'static str {
    if name == "by" { "by whom" } else { "when" }
}

/// Checks a cylinder that may be named once.
fn once<'b>(
    cylinder: &'b str,
    seen: &mut BTreeSet<&'b str>,
    what: &str,
    field: Field<'_>,
    known: &References<'_, '_>,
    report: &mut Report,
) {
    if seen.insert(cylinder) {
        known.cylinders.check(cylinder, field, report);
    } else {
        report.add(
            field,
            format!("{cylinder:?} {what} twice"),
            "name each cylinder once",
        );
    }
}
