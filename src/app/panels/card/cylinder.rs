use egui::Ui;

use super::super::super::command::Command;
use super::super::super::stores::{self, Section, StoreItem};
use super::super::super::words::card as words;
use super::super::super::{Editor, moving};
use super::super::fields::{self, Number};
use super::{Changed, Units, alter, others_too, placing};
use crate::catalogue::Catalogue;
use crate::layout::{Cylinder, Fill, Kit, Thing};
use crate::units::Quantity;

/// The properties of a cylinder, as they are in the part of the day shown.
pub(super) fn cylinder_ui(
    ui: &mut Ui,
    editor: &Editor,
    mut cylinder: Cylinder,
    commands: &mut Vec<Command>,
) {
    let units = editor.settings.units;
    let mut changed = Changed::default();
    let mut placed = None;
    fields::grid(ui, "cylinder", |ui| {
        placed = placing::placing_ui(ui, editor, &cylinder);
        kind_ui(ui, editor, &mut cylinder, &mut changed);
        what_ui(ui, units, &mut cylinder, &mut changed);
        kit_ui(ui, units, &mut cylinder, &mut changed);
    });
    let Some(here) = editor.here() else { return };
    if let Some((field, placing)) = placed {
        let edits = vec![moving::place(&here, &cylinder.id, placing)];
        alter(editor, field, &cylinder.id, edits, commands);
    } else if let Some(field) = changed.0 {
        let mut edits = moving::cylinder_changed(&here, &cylinder);
        let id = cylinder.id.clone();
        edits.extend(others_too(editor, &Thing::Cylinder(cylinder)));
        alter(editor, field, &id, edits, commands);
    }
}

fn kind_ui(ui: &mut Ui, editor: &Editor, cylinder: &mut Cylinder, changed: &mut Changed) {
    let own = editor.trip().map_or_else(Vec::new, |trip| {
        trip.kinds.iter().map(|kind| kind.id.clone()).collect()
    });
    let kinds = Section::Cylinders.items(&own).into_iter();
    let mut choices: Vec<(String, String)> = kinds
        .filter_map(|item| match item {
            StoreItem::Cylinder(id) => Some((id.clone(), stores::kind_name(&id))),
            _ => None,
        })
        .collect();
    if !choices.iter().any(|(id, _)| *id == cylinder.kind) {
        choices.insert(0, (cylinder.kind.clone(), cylinder.kind.clone()));
    }
    let was_changed = fields::choice(ui, words::KIND, &mut cylinder.kind, &choices);
    changed.note("kind", was_changed);
    if let Some(kind) = Catalogue::built_in().kind(&cylinder.kind) {
        let provenance = kind.provenance().words_for_measure();
        fields::told(ui, words::MEASURES, provenance);
    }
}

fn what_ui(ui: &mut Ui, units: Units, cylinder: &mut Cylinder, changed: &mut Changed) {
    let number = fields::optional_text(ui, words::NUMBER, &mut cylinder.number);
    changed.note("number", number);
    changed.note("gas", fields::text(ui, words::GAS, &mut cylinder.gas));
    let fills = [Fill::Full, Fill::PartUsed, Fill::Empty];
    let fills = fills.map(|fill| (fill, words::fill(fill).to_owned()));
    let fill = fields::choice(ui, words::FILL, &mut cylinder.fill, &fills);
    if fill {
        cylinder.pressure_bar = None;
    }
    changed.note("fill", fill);
    let pressure = Number::new(words::PRESSURE, "pressure_bar", Quantity::Pressure);
    let value = &mut cylinder.pressure_bar;
    let pressure = fields::optional(ui, pressure, units, value, words::BY_FILL);
    changed.note("pressure", pressure);
    let tare = Number::new(words::TARE, "stamped_tare_kg", Quantity::Mass);
    let value = &mut cylinder.stamped_tare_kg;
    let tare = fields::optional(ui, tare, units, value, words::OF_KIND);
    changed.note("tare", tare);
    changed.note("boot", fields::flag(ui, words::BOOT, &mut cylinder.boot));
    changed.note("net", fields::flag(ui, words::NET, &mut cylinder.net));
    let valve = fields::flag(ui, words::VALVE_PROTECTED, &mut cylinder.valve_protected);
    changed.note("valve", valve);
    let diver = fields::optional_text(ui, words::DIVER, &mut cylinder.diver);
    changed.note("diver", diver);
    let analysed = fields::optional_text(ui, words::ANALYSED, &mut cylinder.analysed);
    changed.note("analysed", analysed);
}

fn kit_ui(ui: &mut Ui, units: Units, cylinder: &mut Cylinder, changed: &mut Changed) {
    let kits = [Kit::Off, Kit::On].map(|kit| (kit, words::kit(kit).to_owned()));
    let kit = fields::choice(ui, words::KIT, &mut cylinder.kit, &kits);
    changed.note("kit", kit);
    if cylinder.kit == Kit::Off {
        return;
    }
    let faces = Number::new(words::KIT_FACES, "kit_faces_deg", Quantity::Angle);
    let value = &mut cylinder.kit_faces_deg;
    let faces = fields::optional_known(ui, faces, units, value, words::NOT_SAID);
    changed.note("kit faces", faces);
    let mass = Number::new(words::KIT_MASS, "kit_mass_kg", Quantity::Mass);
    let value = &mut cylinder.kit_mass_kg;
    let mass = fields::optional(ui, mass, units, value, words::USUAL_KIT);
    changed.note("kit mass", mass);
}
