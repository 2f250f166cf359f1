use egui::Ui;

use super::super::super::actions::Action;
use super::super::super::command::Command;
use super::super::super::words::card as words;
use super::super::super::words::decks as deck_words;
use super::super::super::{Editor, curve, day, stores, trips};
use super::super::fields::{self, Number};
use super::super::menu::with_keys;
use super::fixture::surface_ui;
use super::{Changed, Units, alter, altered, hull_ui};
use crate::layout::{
    Boat, Condition, Edit, GearAboard, GearAboardKind, MotionInput, MotionSource, Part, Thing, Trip,
};
use crate::units::Quantity;

/// With nothing selected: the part of the day, the deck and the boat.
pub(super) fn boat_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    egui::CollapsingHeader::new(words::PART)
        .default_open(true)
        .show(ui, |ui| part_ui(ui, editor, commands));
    egui::CollapsingHeader::new(words::THE_TRIP).show(ui, |ui| trip_ui(ui, editor, commands));
    egui::CollapsingHeader::new(words::THE_DECK).show(ui, |ui| deck_ui(ui, editor, commands));
    egui::CollapsingHeader::new(words::BOAT).show(ui, |ui| {
        let mut boat = editor.plan().boat.clone();
        if let Some(field) = dimensions_ui(ui, editor.settings.units, &mut boat) {
            let name = boat.name.clone();
            let edits = vec![Edit::SetBoat(Box::new(boat))];
            alter(editor, field, &name, edits, commands);
        }
    });
}

fn part_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let Some(mut part) = part.cloned() else {
        return;
    };
    let units = editor.settings.units;
    let mut changed = Changed::default();
    fields::grid(ui, "part", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut part.name),
        );
        let conditions = [
            Condition::MadeFast,
            Condition::AtAnchor,
            Condition::Drifting,
            Condition::Running,
        ];
        let conditions = conditions.map(|item| (item, words::condition(item).to_owned()));
        let value = &mut part.condition;
        changed.note(
            "condition",
            fields::choice(ui, words::BOAT_IS, value, &conditions),
        );
        let lasts = Number::new(words::DURATION, "duration_h", Quantity::Hours);
        let value = &mut part.duration_h;
        let lasts = fields::optional(ui, lasts, units, value, words::NOT_SAID);
        changed.note("duration", lasts);
        changed.note(
            "nobody",
            fields::flag(ui, words::NOBODY, &mut part.nobody_on_deck),
        );
        motion_ui(ui, editor, &mut part, &mut changed);
    });
    ui.horizontal_wrapped(|ui| day::part_menu_ui(ui, editor, editor.part, commands));
    if part.motion.is_none() {
        ui.weak(words::MOTION_ASSUMED);
    }
    if let Some(field) = changed.0 {
        altered(editor, field, Thing::Part(part), commands);
    }
}

pub(super) fn motion_ui(ui: &mut Ui, editor: &Editor, part: &mut Part, changed: &mut Changed) {
    let mut given = part.motion.is_some();
    if fields::flag(ui, words::MOTION_GIVEN, &mut given) {
        part.motion = given.then(|| used(editor));
        changed.note("motion", true);
    }
    let units = editor.settings.units;
    let Some(motion) = &mut part.motion else {
        return;
    };
    let sources = [
        MotionSource::Recorded,
        MotionSource::Stopwatch,
        MotionSource::Estimate,
        MotionSource::Wake,
        MotionSource::Preset,
        MotionSource::Assumed,
    ];
    let sources = sources.map(|item| (item, words::motion_source(item).to_owned()));
    let source = fields::choice(ui, words::MOTION_FROM, &mut motion.source, &sources);
    changed.note("motion source", source);
    let angle = |name, field| Number::new(name, field, Quantity::Angle);
    let gravity = |name| Number::new(name, "push_port_g", Quantity::Gravity);
    let time = |name, field| Number::new(name, field, Quantity::Time);
    let roll = angle(words::ROLL, "roll_amplitude_deg");
    changed.note(
        "roll",
        fields::number(ui, roll, units, &mut motion.roll_amplitude_deg),
    );
    let period = time(words::ROLL_PERIOD, "roll_period_s");
    let value = &mut motion.roll_period_s;
    let period = fields::optional(ui, period, units, value, words::OF_BOAT);
    changed.note("roll period", period);
    let pitch = angle(words::PITCHES, "pitch_amplitude_deg");
    let value = &mut motion.pitch_amplitude_deg;
    changed.note("pitch", fields::number(ui, pitch, units, value));
    let period = time(words::PITCH_PERIOD, "pitch_period_s");
    let value = &mut motion.pitch_period_s;
    let period = fields::optional(ui, period, units, value, words::USUAL_PITCH);
    changed.note("pitch period", period);
    for (field, number, value) in [
        ("vertical", gravity(words::VERTICAL), &mut motion.vertical_g),
        ("heel", angle(words::HEEL, "heel_deg"), &mut motion.heel_deg),
        ("trim", angle(words::TRIM, "trim_deg"), &mut motion.trim_deg),
        (
            "ahead",
            gravity(words::PUSH_AHEAD),
            &mut motion.push_ahead_g,
        ),
        (
            "astern",
            gravity(words::PUSH_ASTERN),
            &mut motion.push_astern_g,
        ),
        (
            "to port",
            gravity(words::PUSH_PORT),
            &mut motion.push_port_g,
        ),
        (
            "to starboard",
            gravity(words::PUSH_STARBOARD),
            &mut motion.push_starboard_g,
        ),
    ] {
        changed.note(field, fields::number(ui, number, units, value));
    }
}

/// The motion that was assumed so far, as a start for one's own.
fn used(editor: &Editor) -> MotionInput {
    let part = editor.live.assessor().assessment().parts.get(editor.part);
    part.map_or_else(MotionInput::default, |part| {
        curve::motion_used(&part.motion)
    })
}

fn deck_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(mut deck) = editor.plan().boat.deck(&editor.deck).cloned() else {
        return;
    };
    let units = editor.settings.units;
    let mut changed = Changed::default();
    fields::grid(ui, "deck", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut deck.name),
        );
        let height = Number::new(
            words::DECK_HEIGHT,
            "height_above_waterline_m",
            Quantity::Length,
        );
        let value = &mut deck.height_above_waterline_m;
        changed.note("height", fields::number(ui, height, units, value));
        surface_ui(ui, units, &mut deck.surface, &mut changed);
        let load = Number::new(words::DECK_LOAD, "load_limit_kg_per_m2", Quantity::AreaLoad);
        let value = &mut deck.load_limit_kg_per_m2;
        changed.note("load", fields::known(ui, load, units, value));
        for corner in &mut deck.outline {
            changed.note("corner", fields::point(ui, units, corner));
        }
    });
    ui.horizontal_wrapped(|ui| {
        let another = Action::AnotherDeck.entry().text;
        if with_keys(ui.button(another), Action::AnotherDeck).clicked() {
            commands.push(Command::Do(Action::AnotherDeck));
        }
        let more = editor.plan().boat.decks.len() > 1;
        let less = ui.add_enabled(more, egui::Button::new(deck_words::REMOVE));
        if less.clicked() {
            commands.push(Command::RemoveDeck);
        }
    });
    if let Some(field) = changed.0 {
        altered(editor, field, Thing::Deck(deck), commands);
    }
}

fn dimensions_ui(ui: &mut Ui, units: Units, boat: &mut Boat) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "boat", |ui| {
        changed.note("name", fields::text(ui, words::NAME, &mut boat.name));
        let length = Number::new(words::BOAT_LENGTH, "length_overall_m", Quantity::Length);
        changed.note(
            "length",
            fields::number(ui, length, units, &mut boat.length_overall_m),
        );
        if let Some(field) = hull_ui(ui, units, boat, words::ROLL_PERIOD) {
            changed.note(field, true);
        }
    });
    changed.0
}

/// The trip's name, its gear aboard, and a new one like it.
fn trip_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(mut trip) = editor.trip().cloned() else {
        return;
    };
    let mut changed = Changed::default();
    fields::grid(ui, "trip", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut trip.name),
        );
        changed.note(
            "date",
            fields::optional_text(ui, words::DATE, &mut trip.date),
        );
    });
    ui.strong(words::GEAR_ABOARD);
    ui.weak(words::GEAR_ABOARD_HELP);
    let mut gone = None;
    for (index, gear) in trip.gear_aboard.iter_mut().enumerate() {
        ui.push_id(index, |ui| {
            ui.horizontal_wrapped(|ui| {
                let label = ui.label(words::gear_aboard(gear.kind, &gear.id));
                let count = egui::DragValue::new(&mut gear.count)
                    .range(0..=1000)
                    .speed(0.1);
                let count = ui.add(count).labelled_by(label.id).changed();
                changed.note("gear aboard", count);
                if ui.button(words::TAKE_OFF).clicked() {
                    gone = Some(index);
                }
            });
        });
    }
    if let Some(index) = gone {
        trip.gear_aboard.remove(index);
        changed.note("gear aboard", true);
    }
    ui.menu_button(words::ADD_GEAR, |ui| {
        for kind in GEAR_ABOARD {
            if ui.button(words::gear_aboard_kind(kind)).clicked() {
                trip.gear_aboard.push(new_gear(&trip, kind));
                changed.note("gear aboard", true);
                ui.close();
            }
        }
    });
    let only = editor.plan().trips.len() < 2;
    let gone = ui.add_enabled(!only, egui::Button::new(words::REMOVE_TRIP));
    if gone.clicked() {
        commands.push(Command::Run {
            label: words::REMOVE_TRIP.to_owned(),
            edits: vec![Edit::RemoveTrip(trip.id.clone())],
            select: None,
        });
    } else if ui.button(words::NEW_TRIP).clicked() {
        let new = trips::copied(editor.plan(), &trip);
        let id = new.id.clone();
        commands.push(Command::Run {
            label: words::NEW_TRIP.to_owned(),
            edits: vec![Edit::PutTrip(Box::new(new))],
            select: None,
        });
        commands.push(Command::ShowTrip(id));
    } else if let Some(field) = changed.0 {
        let id = trip.id.clone();
        let edits = vec![Edit::PutTrip(Box::new(trip))];
        alter(editor, field, &id, edits, commands);
    }
}

/// All that can be aboard for a cure.
const GEAR_ABOARD: [GearAboardKind; 8] = [
    GearAboardKind::Strap,
    GearAboardKind::Cord,
    GearAboardKind::Rope,
    GearAboardKind::Chain,
    GearAboardKind::Net,
    GearAboardKind::Chock,
    GearAboardKind::Mat,
    GearAboardKind::Boot,
];

fn new_gear(trip: &Trip, kind: GearAboardKind) -> GearAboard {
    let taken = |id: &str| trip.gear_aboard.iter().any(|gear| gear.id == id);
    let stem = words::gear_aboard_kind(kind);
    let id = (1..=trip.gear_aboard.len() + 1)
        .map(|number| format!("{stem} {number}"))
        .find(|id| !taken(id))
        .unwrap_or_default();
    let material = match kind {
        GearAboardKind::Strap => Some(stores::usual_material()),
        _ => None,
    };
    GearAboard {
        id,
        kind,
        count: 1,
        material,
        strength_kn: None,
        length_m: (kind == GearAboardKind::Strap).then_some(3.0),
        height_m: (kind == GearAboardKind::Chock).then_some(0.05),
    }
}
