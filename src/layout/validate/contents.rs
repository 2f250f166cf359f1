//! What a cylinder is and what is in it: names of the catalogue or of the trip's own kinds.

use std::collections::BTreeSet;

use super::Report;
use crate::catalogue::{Catalogue, gases};
use crate::layout::nearest::nearest;
use crate::layout::{Cylinder, CylinderKind, Trip};

pub(super) fn check(trip: &Trip, place: &str, report: &mut Report) {
    let own = own_kinds(&trip.kinds);
    for (i, cylinder) in trip.cylinders.iter().enumerate() {
        let Cylinder { kind, gas, .. } = cylinder;
        if let Err(help) = find_kind(kind, &own) {
            report.add(
                format!("{place}.cylinders[{i}].kind"),
                format!("there is no kind of cylinder called {kind:?}"),
                help,
            );
        }
        if let Err(error) = gases::parse(gas) {
            report.add(
                format!("{place}.cylinders[{i}].gas"),
                error.to_string(),
                format!("write the gas as one of {}", gases::EXAMPLES.join(", ")),
            );
        }
    }
}

/// The names of a trip's own kinds.
pub(crate) fn own_kinds(kinds: &[CylinderKind]) -> BTreeSet<&str> {
    kinds.iter().map(|kind| kind.id.as_str()).collect()
}

/// Looks for a kind by its name, among a trip's own and in the catalogue; says what to do if there
/// is none.
pub(crate) fn find_kind(kind: &str, own: &BTreeSet<&str>) -> Result<(), String> {
    let catalogue = Catalogue::built_in();
    if own.contains(kind) || catalogue.kind(kind).is_some() || catalogue.twin(kind).is_some() {
        return Ok(());
    }
    let meant = nearest(kind, own.iter().copied()).or_else(|| catalogue.nearest_kind_name(kind));
    Err(match meant {
        Some(meant) => format!("did you mean {meant:?}?"),
        None => "take a name of the catalogue, or describe the kind among the trip's \"kinds\""
            .to_owned(),
    })
}
