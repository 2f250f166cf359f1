//! The place itself: what can be looked at on the left, what is looked at beside it.

use egui::{Button, CentralPanel, ComboBox, Key, Modifiers, Panel, RichText, ScrollArea, Ui};

use super::super::Editor;
use super::super::actions::{Action, Facts};
use super::super::balance::balance_ui;
use super::super::command::Command;
use super::super::limit_card::limit_card_ui;
use super::super::panels::action_button;
use super::super::words::motion as words;
use super::{Look, MotionCommand, MotionPlace, log, roll_period, sea};

/// Takes the whole window while motion, balance and limits are looked at.
pub(crate) fn motion_ui(
    ui: &mut Ui,
    editor: &mut Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let Some(mut place) = editor.motion.take() else {
        return;
    };
    if editor.dialog.is_none() && !egui::Popup::is_any_open(ui.ctx()) {
        keys_ui(ui, &place, facts, commands);
    }
    Panel::left("motion").exact_size(236.0).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| side_ui(ui, editor, &place, facts, commands));
    });
    CentralPanel::default().show(ui, |ui| {
        ScrollArea::vertical()
            .id_salt(place.look)
            .auto_shrink([false, false])
            .show(ui, |ui| look_ui(ui, editor, &mut place, commands));
    });
    editor.motion = Some(place);
}

fn look_ui(ui: &mut Ui, editor: &Editor, place: &mut MotionPlace, commands: &mut Vec<Command>) {
    ui.heading(words::look(place.look));
    match place.look {
        Look::RollPeriod => roll_period::roll_period_ui(ui, editor, place, commands),
        Look::Sea => sea::sea_ui(ui, editor, commands),
        Look::Log => log::log_ui(ui, editor, place, commands),
        Look::LimitCard => limit_card_ui(ui, editor, &mut place.card, commands),
        Look::Balance => balance_ui(ui, editor, &mut place.steady),
    }
}

/// What the keys do here.
const KEYS: [Action; 14] = [
    Action::Motion,
    Action::Balance,
    Action::LimitCard,
    Action::Save,
    Action::Undo,
    Action::Redo,
    Action::NextPart,
    Action::PreviousPart,
    Action::TextLarger,
    Action::TextSmaller,
    Action::LargeTargets,
    Action::NextTheme,
    Action::OtherUnits,
    Action::Shortcuts,
];

fn keys_ui(ui: &mut Ui, place: &MotionPlace, facts: &Facts, commands: &mut Vec<Command>) {
    let typing = ui.text_edit_focused();
    for action in KEYS.into_iter().filter(|action| action.is_enabled(facts)) {
        let keys = action.entry().keys;
        let plain = keys.modifiers == Modifiers::NONE;
        let of_text = typing && (plain || matches!(action, Action::Undo | Action::Redo));
        if !of_text && ui.input_mut(|input| input.consume_shortcut(&keys)) {
            commands.push(Command::Do(action));
        }
    }
    if typing {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Escape) {
        ask(commands, MotionCommand::Leave);
    }
    if place.look == Look::RollPeriod {
        if pressed(Key::Space) {
            ask(commands, MotionCommand::Tap);
        }
        if pressed(Key::Backspace) {
            ask(commands, MotionCommand::TakeTapBack);
        }
    }
}

pub(super) fn ask(commands: &mut Vec<Command>, command: MotionCommand) {
    commands.push(Command::Motion(command));
}

fn side_ui(
    ui: &mut Ui,
    editor: &Editor,
    place: &MotionPlace,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    ui.add_space(6.0);
    if ui.button(words::LEAVE).clicked() {
        ask(commands, MotionCommand::Leave);
    }
    ui.add_space(6.0);
    ui.heading(words::TITLE);
    if let Some(notice) = editor.told() {
        ui.label(notice);
    }
    part_ui(ui, editor, commands);
    ui.add_space(6.0);
    for look in Look::ALL {
        let text = RichText::new(words::look(look)).size(16.0);
        let button = Button::selectable(place.look == look, text).wrap();
        if ui.add_sized([212.0, 44.0], button).clicked() {
            ask(commands, MotionCommand::Show(look));
        }
    }
    ui.add_space(8.0);
    for action in [Action::Undo, Action::Redo, Action::Save] {
        action_button(ui, action, facts, commands);
    }
    ui.add_space(8.0);
    ui.weak(words::APPROVES_NOTHING);
}

/// Which part of the day.
fn part_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(trip) = editor.trip() else { return };
    let name = |index: usize| {
        let part = trip.parts.get(index);
        part.map_or("", |part| part.name.as_ref().unwrap_or(&part.id))
    };
    ui.label(words::PART);
    ComboBox::from_id_salt(words::PART)
        .width(206.0)
        .truncate()
        .selected_text(name(editor.part))
        .show_ui(ui, |ui| {
            for index in 0..trip.parts.len() {
                let is_shown = index == editor.part;
                if ui.selectable_label(is_shown, name(index)).clicked() {
                    commands.push(Command::ShowPart(index));
                }
            }
        })
        .response
        .accessible_name(words::PART);
}
