use egui::Ui;

use super::super::super::actions::{Action, Facts};
use super::super::super::command::Command;
use super::super::super::stores::RACKS;
use super::super::super::words::card as words;
use super::super::super::words::stores as names;
use super::super::super::{Editor, stores};
use super::super::fields::{self, Number};
use super::super::menu::action_button;
use super::{Changed, Units};
use crate::layout::{Fixings, Front, FrontKind, Known, Placing, Rack, RackKind};
use crate::units::{self, Quantity};

/// How full it is, what pulls at it, and the button that fills it.
pub(super) fn numbers_ui(
    ui: &mut Ui,
    editor: &Editor,
    rack: &Rack,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let Some(here) = editor.here() else { return };
    if !matches!(rack.kind, RackKind::Crate | RackKind::Net) {
        let placings = here
            .day
            .cylinders
            .iter()
            .map(|state| &state.cylinder.placing);
        let taken = placings.filter(
            |placing| matches!(placing, Placing::InSlot { rack: of, .. } if *of == rack.id),
        );
        ui.label(words::slots_taken(taken.count(), rack.slot_count()));
        ui.horizontal_wrapped(|ui| {
            action_button(ui, Action::FillRack, facts, commands);
            let kind = stores::kind_name(&editor.kind_in_hand());
            ui.weak(words::with_kind(&kind));
        });
    }
    let numbers = here.numbers.and_then(|numbers| {
        let mut racks = numbers.racks.iter();
        racks.find(|item| item.rack == rack.id)
    });
    if let Some(numbers) = numbers {
        let units = editor.settings.units;
        fields::grid(ui, "rack numbers", |ui| {
            let mass = Quantity::Mass.show(numbers.mass_kg, units);
            fields::told(ui, words::TOTAL_MASS, &mass);
            let force = units::pull(numbers.fixing_force_n, units);
            fields::told(ui, words::AT_FIXINGS, &force);
            for front in &numbers.fronts {
                let pull = units::pull(front.pull_n, units);
                let found = rack.fronts.iter().find(|it| it.id == front.front);
                let called = found.map_or_else(|| front.front.clone(), Front::called);
                fields::told(ui, &words::at_front(&called), &pull);
            }
        });
    }
    ui.separator();
}

/// The properties of a rack; returns the field that was changed.
pub(super) fn rack_ui(
    ui: &mut Ui,
    editor: &Editor,
    rack: &mut Rack,
    commands: &mut Vec<Command>,
) -> Option<&'static str> {
    let units = editor.settings.units;
    let mut changed = Changed::default();
    fields::grid(ui, "rack", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut rack.name),
        );
        let kinds = RACKS.map(|kind| (kind, names::rack(kind).to_owned()));
        changed.note(
            "kind",
            fields::choice(ui, words::KIND, &mut rack.kind, &kinds),
        );
        changed.note("at", fields::point(ui, units, &mut rack.at));
        let turn = Number::new(words::TURN, "turn_deg", Quantity::Angle);
        changed.note("turn", fields::number(ui, turn, units, &mut rack.turn_deg));
        slots_ui(ui, units, rack, &mut changed);
        holds_ui(ui, units, rack, &mut changed);
        fixings_ui(ui, units, rack, &mut changed);
    });
    let mut fronts = rack.fronts.clone();
    for front in &mut fronts {
        front_ui(ui, editor, rack, front, &mut changed, commands);
    }
    rack.fronts = fronts;
    changed.0
}

fn slots_ui(ui: &mut Ui, units: Units, rack: &mut Rack, changed: &mut Changed) {
    if let Some([length, width]) = &mut rack.size_m {
        let number = |name| Number::new(name, "size_m", Quantity::Length);
        changed.note(
            "length",
            fields::number(ui, number(words::LENGTH), units, length),
        );
        changed.note(
            "width",
            fields::number(ui, number(words::WIDTH), units, width),
        );
    } else {
        let was = rack.slot_count();
        changed.note(
            "columns",
            fields::count(ui, words::COLUMNS, &mut rack.columns, 1..=200),
        );
        changed.note(
            "rows",
            fields::count(ui, words::ROWS, &mut rack.rows, 1..=50),
        );
        if rack.slot_count() != was {
            follow_slots(rack, was);
        }
        let pitch = Number::new(words::PITCH, "pitch_m", Quantity::SmallLength);
        changed.note("pitch", fields::number(ui, pitch, units, &mut rack.pitch_m));
        let pitch = Number::new(words::ROW_PITCH, "row_pitch_m", Quantity::SmallLength);
        let value = &mut rack.row_pitch_m;
        let pitch = fields::optional(ui, pitch, units, value, words::SAME_PITCH);
        changed.note("row pitch", pitch);
        let bore = Number::new(words::BORE, "bore_m", Quantity::SmallLength);
        let value = &mut rack.bore_m;
        let bore = fields::optional(ui, bore, units, value, words::NOT_SAID);
        changed.note("bore", bore);
        let mut painted = rack.slot_names.join(" ");
        if fields::text(ui, words::SLOT_NAMES, &mut painted) {
            rack.slot_names = painted.split_whitespace().map(str::to_owned).collect();
            changed.note("slot names", true);
        }
    }
    let edge = Number::new(words::EDGE_HEIGHT, "edge_height_m", Quantity::SmallLength);
    changed.note(
        "edge",
        fields::number(ui, edge, units, &mut rack.edge_height_m),
    );
    let shelf = Number::new(words::SHELF_HEIGHT, "shelf_height_m", Quantity::SmallLength);
    changed.note(
        "shelf",
        fields::number(ui, shelf, units, &mut rack.shelf_height_m),
    );
}

/// New slots get the front that served all of the old ones.
fn follow_slots(rack: &mut Rack, was: usize) {
    let names: Vec<String> = (0..rack.slot_count()).map(|i| rack.slot_name(i)).collect();
    rack.slot_names.truncate(rack.slot_count());
    for front in &mut rack.fronts {
        let served_all = front.slots.len() >= was;
        if served_all {
            front.slots.clone_from(&names);
        } else {
            front.slots.retain(|slot| names.contains(slot));
        }
    }
}

fn holds_ui(ui: &mut Ui, units: Units, rack: &mut Rack, changed: &mut Changed) {
    changed.note(
        "foot",
        fields::flag(ui, words::FOOT_HELD, &mut rack.foot_held),
    );
    let strength = Number::new(words::SLOT_STRENGTH, "slot_strength_kn", Quantity::Force);
    let value = &mut rack.slot_strength_kn;
    changed.note("strength", fields::known(ui, strength, units, value));
    let hold_down = Number::new(words::HOLD_DOWN, "hold_down_kn", Quantity::Force);
    let value = &mut rack.hold_down_kn;
    let hold_down = fields::optional_known(ui, hold_down, units, value, words::NOTHING);
    changed.note("hold down", hold_down);
    if rack.kind == RackKind::Cradles {
        let half = Number::new(words::HALF_ANGLE, "saddle_half_angle_deg", Quantity::Angle);
        let value = &mut rack.saddle_half_angle_deg;
        let half = fields::optional(ui, half, units, value, words::NOT_SAID);
        changed.note("saddle", half);
    }
}

fn fixings_ui(ui: &mut Ui, units: Units, rack: &mut Rack, changed: &mut Changed) {
    changed.note(
        "floor",
        fields::flag(ui, words::OWN_FLOOR, &mut rack.own_floor),
    );
    let mass = Number::new(words::MASS, "mass_kg", Quantity::Mass);
    changed.note("mass", fields::number(ui, mass, units, &mut rack.mass_kg));
    let mut fixed = matches!(rack.fixings, Fixings::Fixed { .. });
    if fields::flag(ui, words::FIXED, &mut fixed) {
        rack.fixings = if fixed {
            Fixings::Fixed {
                strength_kn: Known::NotKnown,
            }
        } else {
            Fixings::Unfixed
        };
        changed.note("fixings", true);
    }
    if let Fixings::Fixed { strength_kn } = &mut rack.fixings {
        let strength = Number::new(words::FIXINGS, "strength_kn", Quantity::Force);
        changed.note("fixings", fields::known(ui, strength, units, strength_kn));
    }
    let load = Number::new(words::LOAD_LIMIT, "load_limit_kg", Quantity::Mass);
    let value = &mut rack.load_limit_kg;
    let load = fields::optional_known(ui, load, units, value, words::NOT_SAID);
    changed.note("load", load);
}

fn front_ui(
    ui: &mut Ui,
    editor: &Editor,
    rack: &Rack,
    front: &mut Front,
    changed: &mut Changed,
    commands: &mut Vec<Command>,
) {
    let units = editor.settings.units;
    ui.separator();
    ui.push_id(front.id.clone(), |ui| {
        fields::grid(ui, "front", |ui| {
            let kinds = [
                FrontKind::Strap,
                FrontKind::Chain,
                FrontKind::Cord,
                FrontKind::Bar,
            ];
            let kinds = kinds.map(|kind| (kind, words::front(kind).to_owned()));
            let kind = fields::choice(ui, words::FRONT, &mut front.kind, &kinds);
            changed.note("front kind", kind);
            let height = Number::new(words::FRONT_HEIGHT, "height_m", Quantity::SmallLength);
            let value = &mut front.height_m;
            changed.note("front height", fields::number(ui, height, units, value));
            let strength = Number::new(words::FRONT_STRENGTH, "strength_kn", Quantity::Force);
            let value = &mut front.strength_kn;
            changed.note("front strength", fields::known(ui, strength, units, value));
            let slack = Number::new(words::SLACK, "slack_m", Quantity::SmallLength);
            let value = &mut front.slack_m;
            let slack = fields::optional_known(ui, slack, units, value, words::NOT_SAID);
            changed.note("front slack", slack);
            let tied = fields::flag(ui, words::TIED_BETWEEN, &mut front.tied_between_slots);
            changed.note("front tied", tied);
            shut_ui(ui, editor, rack, front, commands);
        });
    });
}

/// Opened or shut from the part of the day shown on.
fn shut_ui(ui: &mut Ui, editor: &Editor, rack: &Rack, front: &Front, commands: &mut Vec<Command>) {
    let (Some(here), Some(trip)) = (editor.here(), editor.trip()) else {
        return;
    };
    let state = here.day.fronts.iter();
    let mut state = state.filter(|state| state.rack == rack.id && state.front.id == front.id);
    let mut shut = state.next().map_or(front.shut, |state| state.front.shut);
    if fields::flag(ui, words::SHUT, &mut shut) {
        let edit = crate::layout::Edit::SetFrontShut {
            trip: trip.id.clone(),
            part: editor.part,
            rack: rack.id.clone(),
            front: front.id.clone(),
            shut,
        };
        super::alter(editor, "front shut", &rack.id, vec![edit], commands);
    }
}
