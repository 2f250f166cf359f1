//! Names of the catalogue: cylinder kinds and gases, materials of lashings, surfaces.

use std::collections::BTreeSet;

use super::{Field, Report};
use crate::catalogue::{Catalogue, gases};
use crate::layout::nearest::{either, nearest};
use crate::layout::{Boat, Cylinder, CylinderKind, Surface, Trip};

pub(super) fn check(trip: &Trip, place: Field<'_>, report: &mut Report) {
    let own = own_kinds(&trip.kinds);
    for (i, cylinder) in trip.cylinders.iter().enumerate() {
        let Cylinder { kind, gas, .. } = cylinder;
        if let Err(help) = find_kind(kind, &own) {
            report.add(
                format_args!("{place}.cylinders[{i}].kind"),
                format!("there is no kind of cylinder called {kind:?}"),
                help,
            );
        }
        if let Err(error) = gases::parse(gas) {
            report.add(
                format_args!("{place}.cylinders[{i}].gas"),
                error.to_string(),
                format!("write the gas as one of {}", gases::EXAMPLES.join(", ")),
            );
        }
    }
}

/// Checks what decks, shelves and racks are made of.
pub(super) fn check_surfaces(boat: &Boat, report: &mut Report) {
    for (i, deck) in boat.decks.iter().enumerate() {
        check_surface(
            &deck.surface,
            format_args!("boat.decks[{i}].surface"),
            report,
        );
    }
    for (i, fixture) in boat.fixtures.iter().enumerate() {
        if let Some(shelf) = &fixture.shelf {
            let field = format_args!("boat.fixtures[{i}].shelf.surface");
            check_surface(&shelf.surface, field, report);
        }
    }
    for (i, rack) in boat.racks.iter().enumerate() {
        if let Some(surface) = &rack.surface {
            check_surface(surface, format_args!("boat.racks[{i}].surface"), report);
        }
    }
}

fn check_surface(surface: &Surface, place: Field<'_>, report: &mut Report) {
    let catalogue = Catalogue::built_in();
    let kind = surface.kind.as_str();
    if catalogue.surface(kind).is_some() {
        return;
    }
    let known = catalogue.surfaces().iter().map(|surface| &*surface.id);
    let help = match catalogue.nearest_surface_name(kind) {
        Some(meant) => format!("did you mean {meant:?}?"),
        None => format!(
            "write {}; a measured \"friction\" goes before its value",
            either(known)
        ),
    };
    let message = format!("there is no surface called {kind:?}");
    report.add(format_args!("{place}.kind"), message, help);
}

/// Checks what lashings are made of.
pub(super) fn check_materials(trip: &Trip, place: Field<'_>, report: &mut Report) {
    let own: BTreeSet<&str> = trip.materials.iter().map(|used| used.id.as_str()).collect();
    let lashings = trip.lashings.iter().enumerate();
    let lashings = lashings.map(|(i, lashing)| (format!("lashings[{i}]"), Some(&lashing.material)));
    let gear = trip.gear_aboard.iter().enumerate();
    let gear = gear.map(|(i, gear)| (format!("gear_aboard[{i}]"), gear.material.as_ref()));
    let catalogue = Catalogue::built_in();
    for (field, material) in lashings.chain(gear) {
        let Some(material) = material else { continue };
        if own.contains(material.as_str()) || catalogue.material(material).is_some() {
            continue;
        }
        let names = own.iter().copied();
        let meant = nearest(material, names).or_else(|| catalogue.nearest_material_name(material));
        let known = catalogue.materials().iter().map(|known| &*known.id);
        let help = match meant {
            Some(meant) => format!("did you mean {meant:?}?"),
            None => format!("write {}", either(known)),
        };
        report.add(
            format_args!("{place}.{field}.material"),
            format!("there is no material called {material:?}"),
            help,
        );
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
