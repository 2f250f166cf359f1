//! The place itself: what is replayed on the left, the plots in the middle, the deck and what went on the right.

use egui::{
    Button, CentralPanel, Checkbox, DragValue, Key, Modifiers, Panel, ProgressBar, RichText,
    ScrollArea, Ui,
};

use super::super::Editor;
use super::super::actions::{Action, Facts};
use super::super::command::Command;
use super::super::words::replay as words;
use super::{ReplayCommand, ReplayPlace, SPEEDS, Source, plan, plots};
use crate::audit::replay::{Mounting, ReplayReport};

/// The least height of what is clicked, in points.
const TARGET: f32 = 44.0;

pub(super) fn ask(commands: &mut Vec<Command>, command: ReplayCommand) {
    commands.push(Command::Replay(command));
}

/// Takes the whole window while a motion is replayed.
pub(crate) fn replay_ui(
    ui: &mut Ui,
    editor: &mut Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let Some(place) = editor.replay.take() else {
        return;
    };
    if editor.dialog.is_none() && !egui::Popup::is_any_open(ui.ctx()) {
        keys_ui(ui, facts, &place, commands);
    }
    Panel::left("replay").exact_size(250.0).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| side_ui(ui, editor, &place, commands));
    });
    if let Some(found) = place.found() {
        Panel::right("replay went")
            .exact_size(340.0)
            .show(ui, |ui| {
                plan::plan_ui(ui, editor, &place, found);
                ScrollArea::vertical()
                    .auto_shrink([false, false])
                    .show(ui, |ui| went_ui(ui, &place, found, commands));
            });
    }
    CentralPanel::default().show(ui, |ui| middle_ui(ui, editor, &place, commands));
    editor.replay = Some(place);
}

/// What the keys do here.
const KEYS: [Action; 5] = [
    Action::Replay,
    Action::NextPart,
    Action::PreviousPart,
    Action::TextLarger,
    Action::TextSmaller,
];

fn keys_ui(ui: &mut Ui, facts: &Facts, place: &ReplayPlace, commands: &mut Vec<Command>) {
    for action in KEYS.into_iter().filter(|action| action.is_enabled(facts)) {
        let keys = action.entry().keys;
        if ui.input_mut(|input| input.consume_shortcut(&keys)) {
            commands.push(Command::Do(action));
        }
    }
    if ui.text_edit_focused() {
        return;
    }
    let [start_s, end_s] = place.span_s();
    let slower = place.speed.saturating_sub(1);
    for (modifiers, key, command) in [
        // Those with Shift first: without, they would be taken too.
        (Modifiers::SHIFT, Key::ArrowRight, ReplayCommand::Step(20)),
        (Modifiers::SHIFT, Key::ArrowLeft, ReplayCommand::Step(-20)),
        (Modifiers::NONE, Key::ArrowRight, ReplayCommand::Step(1)),
        (Modifiers::NONE, Key::ArrowLeft, ReplayCommand::Step(-1)),
        (Modifiers::NONE, Key::Escape, ReplayCommand::Leave),
        (Modifiers::NONE, Key::Space, ReplayCommand::PlayOrPause),
        (Modifiers::NONE, Key::Home, ReplayCommand::Cursor(start_s)),
        (Modifiers::NONE, Key::End, ReplayCommand::Cursor(end_s)),
        (
            Modifiers::NONE,
            Key::Plus,
            ReplayCommand::Speed(place.speed + 1),
        ),
        (Modifiers::NONE, Key::Minus, ReplayCommand::Speed(slower)),
    ] {
        if ui.input_mut(|input| input.consume_key(modifiers, key)) {
            ask(commands, command);
        }
    }
}

fn side_ui(ui: &mut Ui, editor: &Editor, place: &ReplayPlace, commands: &mut Vec<Command>) {
    ui.add_space(6.0);
    if ui
        .add_sized([226.0, TARGET], Button::new(words::LEAVE))
        .clicked()
    {
        ask(commands, ReplayCommand::Leave);
    }
    ui.heading(words::TITLE);
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    if let Some(part) = part {
        ui.label(words::part(part.name.as_ref().unwrap_or(&part.id)));
    }
    ui.add_space(6.0);
    let is_log = matches!(place.source, Source::Log(_));
    for (source, text) in [(Source::Steady, words::STEADY), (Source::Sea, words::SEA)] {
        let button = Button::selectable(place.source == source, RichText::new(text)).wrap();
        if ui.add_sized([226.0, TARGET], button).clicked() {
            ask(commands, ReplayCommand::From(source));
        }
    }
    let button = Button::selectable(is_log, RichText::new(words::LOG)).wrap();
    if ui.add_sized([226.0, TARGET], button).clicked() {
        ask(commands, ReplayCommand::ChooseLog);
    }
    if place.source == Source::Sea {
        let mut seed = place.seed;
        ui.horizontal(|ui| {
            ui.label(words::SEED);
            let field = ui.add(DragValue::new(&mut seed).speed(0.05));
            field.clone().accessible_name(words::SEED);
            if field.changed() {
                ask(commands, ReplayCommand::Seed(seed));
            }
        });
    }
    if let Source::Log(path) = &place.source {
        let name = path.file_name().map(|name| name.to_string_lossy());
        ui.label(name.unwrap_or_default());
        mounting_ui(ui, &place.mounting, commands);
    }
    if let Some(found) = place.found() {
        ui.add_space(8.0);
        ui.label(words::summary(found));
        for line in &found.assumptions {
            ui.weak(line);
        }
    }
    ui.add_space(8.0);
    ui.weak(words::CAUTION);
}

/// How the sensor was mounted.
fn mounting_ui(ui: &mut Ui, mounting: &Mounting, commands: &mut Vec<Command>) {
    let mut next = *mounting;
    ui.add_space(6.0);
    ui.label(words::MOUNTING);
    ui.add(Checkbox::new(&mut next.roll_reversed, words::ROLL_TO_PORT));
    ui.add(Checkbox::new(&mut next.pitch_reversed, words::BOW_UP));
    ui.add(Checkbox::new(
        &mut next.vertical_reversed,
        words::FALLS_POSITIVE,
    ));
    for (angle, text) in [
        (&mut next.turned_rad, words::TURNED),
        (&mut next.roll_offset_rad, words::ROLL_OFFSET),
        (&mut next.pitch_offset_rad, words::PITCH_OFFSET),
    ] {
        let mut deg = angle.to_degrees();
        ui.horizontal(|ui| {
            let field = DragValue::new(&mut deg)
                .speed(0.1)
                .range(-180.0..=180.0)
                .suffix("°");
            let field = ui.add(field);
            field.clone().accessible_name(text);
            if field.changed() {
                *angle = deg.to_radians();
            }
            ui.label(text);
        });
    }
    for (number, text) in words::SENSOR_AT.into_iter().enumerate() {
        ui.horizontal(|ui| {
            let field = DragValue::new(&mut next.place_m[number])
                .speed(0.01)
                .suffix(" m");
            ui.add(field).accessible_name(text);
            ui.label(text);
        });
    }
    if next != *mounting {
        ask(commands, ReplayCommand::Mounted(next));
    }
}

fn middle_ui(ui: &mut Ui, editor: &Editor, place: &ReplayPlace, commands: &mut Vec<Command>) {
    let Some(job) = &place.job else { return };
    match job.found() {
        None => {
            ui.add_space(20.0);
            ui.label(words::WORKED_OUT);
            let bar = ProgressBar::new(job.progress()).show_percentage();
            ui.add(bar).accessible_name(words::WORKED_OUT);
        }
        Some(Err(trouble)) => {
            ui.add_space(20.0);
            ui.heading(words::NOT_REPLAYED);
            ui.label(trouble);
        }
        Some(Ok(found)) => {
            let palette = editor.settings.theme.palette();
            transport_ui(ui, place, commands);
            let [_, end_s] = place.span_s();
            ui.horizontal(|ui| {
                let clock = RichText::new(words::clock(place.cursor_s, end_s));
                ui.label(clock.monospace().strong());
                ui.label(words::ROLL_AND_PITCH);
            });
            plots::motion_ui(ui, place, found, palette, commands);
            ui.label(words::MARGINS);
            plots::margins_ui(ui, place, found, palette, commands);
        }
    }
}

/// Play, steps, speed and where the cursor is.
fn transport_ui(ui: &mut Ui, place: &ReplayPlace, commands: &mut Vec<Command>) {
    let [start_s, end_s] = place.span_s();
    ui.horizontal_wrapped(|ui| {
        let play = if place.playing.is_some() {
            words::PAUSE
        } else {
            words::PLAY
        };
        for (text, hint, command) in [
            (
                words::TO_START,
                words::TO_START_HINT,
                ReplayCommand::Cursor(start_s),
            ),
            (words::BACK, words::BACK_HINT, ReplayCommand::Step(-1)),
            (play, words::PLAY_HINT, ReplayCommand::PlayOrPause),
            (words::ON, words::ON_HINT, ReplayCommand::Step(1)),
            (
                words::TO_END,
                words::TO_END_HINT,
                ReplayCommand::Cursor(end_s),
            ),
        ] {
            let button = Button::new(text).min_size(egui::vec2(TARGET + 12.0, TARGET));
            if ui.add(button).on_hover_text(hint).clicked() {
                ask(commands, command);
            }
        }
        for (number, speed) in SPEEDS.into_iter().enumerate() {
            let text = words::speed(speed);
            let button = Button::selectable(place.speed == number, text)
                .min_size(egui::vec2(TARGET, TARGET));
            if ui.add(button).clicked() {
                ask(commands, ReplayCommand::Speed(number));
            }
        }
    });
}

/// What went when, then what stayed with the least margin.
fn went_ui(ui: &mut Ui, place: &ReplayPlace, found: &ReplayReport, commands: &mut Vec<Command>) {
    ui.heading(words::WENT);
    if found.events.is_empty() {
        ui.label(words::NOTHING_WENT);
    }
    for event in &found.events {
        let is_past = event.time_s <= place.cursor_s;
        let mut text = RichText::new(words::event(event));
        if is_past {
            text = text.strong();
        }
        let picked = place.picked.as_ref() == Some(&event.cylinder);
        let button = Button::selectable(picked, text).wrap();
        if ui.add(button.min_size(egui::vec2(310.0, TARGET))).clicked() {
            ask(commands, ReplayCommand::Cursor(event.time_s));
            ask(commands, ReplayCommand::Pick(Some(event.cylinder.clone())));
        }
    }
    ui.add_space(6.0);
    ui.heading(words::STAYED);
    let mut stayed: Vec<_> = (found.cylinders.iter())
        .filter(|cylinder| cylinder.went_s.is_none())
        .collect();
    stayed.sort_by(|a, b| {
        let left = |margin: Option<f64>| margin.unwrap_or(f64::INFINITY);
        left(a.least_margin).total_cmp(&left(b.least_margin))
    });
    if stayed.is_empty() {
        ui.label(words::NOTHING_STAYED);
    }
    for cylinder in stayed {
        let picked = place.picked.as_ref() == Some(&cylinder.cylinder);
        let button = Button::selectable(picked, words::stayed(cylinder)).wrap();
        if ui.add(button.min_size(egui::vec2(310.0, TARGET))).clicked() {
            let id = (!picked).then(|| cylinder.cylinder.clone());
            ask(commands, ReplayCommand::Pick(id));
            if let Some(at_s) = cylinder.least_margin_s {
                ask(commands, ReplayCommand::Cursor(at_s));
            }
        }
    }
}
