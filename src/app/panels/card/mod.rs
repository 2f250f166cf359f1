//! The card of what is selected: how it holds in one line, the numbers on demand, and every property.

mod boat;
mod curve;
mod cylinder;
mod elevation;
mod fixture;
mod hull;
mod lashing;
mod numbers;
mod others;
mod placing;
mod rack;

pub(in super::super) use self::hull::hull_ui;

use egui::{RichText, Ui};

use super::super::actions::Facts;
use super::super::command::Command;
use super::super::moving::put;
use super::super::words::card as words;
use super::super::{Editor, several, things, words as all};
use super::fields;
use crate::layout::{Edit, Part, Thing, ThingRef};
use crate::units::System;

/// The motion given for a part of the day; tells the field that was changed.
pub(in super::super) fn motion_given_ui(
    ui: &mut Ui,
    editor: &Editor,
    part: &mut Part,
) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "motion given", |ui| {
        boat::motion_ui(ui, editor, part, &mut changed);
    });
    changed.0
}

/// The card of the thing selected last; without one, of the boat, the deck and the part of the day.
pub(super) fn card_ui(ui: &mut Ui, editor: &Editor, facts: &Facts, commands: &mut Vec<Command>) {
    let Some(what) = editor.selection.primary() else {
        ui.heading(words::THE_CARD);
        ui.label(all::NOTHING_SELECTED);
        boat::boat_ui(ui, editor, commands);
        return;
    };
    let Some(thing) = editor.thing_now(what) else {
        return;
    };
    title_ui(ui, editor, what);
    if facts.selected > 1 {
        let same = editor.selection.things().iter();
        let same = same.filter(|other| other.kind == what.kind).count();
        ui.weak(words::several(facts.selected, same));
    }
    let changed = match thing {
        Thing::Cylinder(cylinder) => {
            numbers::cylinder_ui(ui, editor, &cylinder, facts, commands);
            cylinder::cylinder_ui(ui, editor, cylinder, commands);
            return;
        }
        Thing::Rack(mut rack) => {
            rack::numbers_ui(ui, editor, &rack, facts, commands);
            let changed = rack::rack_ui(ui, editor, &mut rack, commands);
            changed.map(|field| (field, Thing::Rack(rack)))
        }
        Thing::Lashing(mut lashing) => {
            lashing::numbers_ui(ui, editor, &lashing);
            let changed = lashing::lashing_ui(ui, editor, &mut lashing);
            changed.map(|field| (field, Thing::Lashing(lashing)))
        }
        Thing::LashingPoint(mut point) => {
            let changed = lashing::point_ui(ui, editor, &mut point);
            changed.map(|field| (field, Thing::LashingPoint(point)))
        }
        Thing::Fixture(mut fixture) => {
            let changed = fixture::fixture_ui(ui, editor.settings.units, &mut fixture);
            changed.map(|field| (field, Thing::Fixture(fixture)))
        }
        Thing::Place(mut place) => {
            let changed = others::place_ui(ui, editor.settings.units, &mut place);
            changed.map(|field| (field, Thing::Place(place)))
        }
        Thing::Walkway(mut walkway) => {
            others::walkway_numbers_ui(ui, editor, &walkway);
            let changed = others::walkway_ui(ui, editor.settings.units, &mut walkway);
            changed.map(|field| (field, Thing::Walkway(walkway)))
        }
        Thing::Gear(mut gear) => {
            let changed = others::gear_ui(ui, editor.settings.units, &mut gear);
            changed.map(|field| (field, Thing::Gear(gear)))
        }
        Thing::Person(mut person) => {
            let changed = others::person_ui(ui, editor.settings.units, &mut person);
            changed.map(|field| (field, Thing::Person(person)))
        }
        Thing::Deck(_) | Thing::GearAboard(_) | Thing::Part(_) => None,
    };
    if let Some((field, thing)) = changed {
        altered(editor, field, thing, commands);
    }
}

fn title_ui(ui: &mut Ui, editor: &Editor, what: &ThingRef) {
    let Some(trip) = editor.trip() else { return };
    let name = things::name(editor.plan(), trip, what);
    ui.heading(all::titled(what.kind, &name));
    if editor.here().is_some_and(|here| here.is_locked(what)) {
        ui.weak(all::LOCKED);
    }
}

/// A change of one field of a thing.
fn altered(editor: &Editor, field: &str, thing: Thing, commands: &mut Vec<Command>) {
    let what = thing.to_ref();
    let Some(trip) = editor.trip() else { return };
    let mut edits = others_too(editor, &thing);
    edits.push(put(trip, thing));
    alter(editor, field, &what.id, edits, commands);
}

/// The edits that make the change of a thing to the other selected ones of its kind.
fn others_too(editor: &Editor, new: &Thing) -> Vec<Edit> {
    let (Some(here), Some(old)) = (editor.here(), editor.thing_now(&new.to_ref())) else {
        return Vec::new();
    };
    several::others_too(&here, &editor.selection, &old, new)
}

/// A change of one field, whatever its edits.
fn alter(editor: &Editor, field: &str, name: &str, edits: Vec<Edit>, commands: &mut Vec<Command>) {
    let many = editor.selection.things().len();
    commands.push(Command::Alter {
        field: format!("{name} {field} {many}"),
        label: all::step_change(name),
        edits,
    });
}

/// How a number was made, line by line, to be copied.
pub(super) fn sum_ui(ui: &mut Ui, lines: &[String], commands: &mut Vec<Command>) {
    if lines.is_empty() {
        ui.weak(words::NO_SUM);
        return;
    }
    egui::Frame::group(ui.style()).show(ui, |ui| {
        for line in lines {
            let text = RichText::new(line).monospace();
            ui.add(egui::Label::new(text).wrap().selectable(true));
        }
        if ui.button(words::COPY).clicked() {
            commands.push(Command::Copy(lines.join("\n")));
        }
    });
}

/// Remembers which field of a card was changed.
#[derive(Debug, Default)]
struct Changed(Option<&'static str>);

impl Changed {
    fn note(&mut self, field: &'static str, changed: bool) {
        if changed {
            self.0 = Some(field);
        }
    }
}

/// All that fields need to know beside their value.
type Units = System;
