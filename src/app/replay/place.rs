//! The place itself: what is replayed on the left, the plots in the middle, the deck and what went on the right.

use egui::{
    Button, CentralPanel, Checkbox, DragValue, Key, Modifiers, Panel, ProgressBar, RichText,
    ScrollArea, Ui,
};

use super::super::Editor;
use super::super::actions::{Action, Facts};
use super::super::command::Command;
use super::super::motion::unit_pickers_ui;
use super::super::over_time::{self, Looked, Stand, TimeCommand};
use super::super::words::replay as words;
use super::job::Trouble;
use super::{ReplayCommand, ReplayPlace, Source};
use crate::audit::replay::Mounting;

/// The least height of what is clicked, in points.
const TARGET: f32 = 44.0;

pub(super) fn ask(commands: &mut Vec<Command>, command: ReplayCommand) {
    commands.push(Command::Replay(command));
}

fn ask_all(commands: &mut Vec<Command>, asked: Vec<TimeCommand>) {
    let asked = asked.into_iter().map(ReplayCommand::Time);
    commands.extend(asked.map(Command::Replay));
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
    if let Some(looked) = place.looked() {
        let mut asked = Vec::new();
        Panel::right("replay went")
            .exact_size(340.0)
            .show(ui, |ui| {
                let scene = editor.live.assessor().scenes().get(editor.part);
                let stand = scene.map_or_else(Stand::default, |scene| Stand::of(scene, None));
                let palette = editor.settings.theme.palette();
                over_time::plan_ui(ui, &place.view, &looked, &stand, palette);
                ScrollArea::vertical()
                    .auto_shrink([false, false])
                    .show(ui, |ui| {
                        over_time::went_ui(ui, &place.view, looked.found, &mut asked);
                    });
            });
        ask_all(commands, asked);
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
    if let Some(found) = place.found() {
        let mut asked = Vec::new();
        over_time::keys_ui(ui, &place.view, found, &mut asked);
        ask_all(commands, asked);
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        ask(commands, ReplayCommand::Leave);
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
            let (why, asks) = match trouble {
                Trouble::NoUnit(why) => (why, true),
                Trouble::Other(why) => (why, false),
            };
            ui.add_space(20.0);
            ui.heading(words::NOT_REPLAYED);
            ui.label(why);
            if asks {
                let mut units = place.units;
                ui.add_space(6.0);
                unit_pickers_ui(ui, &mut units);
                if units != place.units {
                    ask(commands, ReplayCommand::Units(units));
                }
            }
        }
        Some(Ok(found)) => {
            let palette = editor.settings.theme.palette();
            let mut asked = Vec::new();
            over_time::transport_ui(ui, &place.view, found, &mut asked);
            let looked = Looked::new(found, 0, &place.close);
            over_time::plots_ui(ui, &place.view, &looked, palette, &mut asked);
            ask_all(commands, asked);
        }
    }
}
