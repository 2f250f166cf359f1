use egui::{Button, Response, Ui};

use super::super::actions::{self, Action, Facts, Menu};
use super::super::command::Command;
use super::super::{Editor, words};

/// What of the window's height a menu leaves free, in points.
const MENU_MARGIN: f32 = 60.0;

/// One action as a line of a menu.
pub(super) fn action_ui(ui: &mut Ui, action: Action, facts: &Facts, commands: &mut Vec<Command>) {
    let entry = action.entry();
    let keys = ui.ctx().format_shortcut(&entry.keys);
    let button = Button::new(action.text_now(facts)).shortcut_text(keys);
    let response = ui.add_enabled(action.is_enabled(facts), button);
    if response.on_hover_text(entry.tooltip).clicked() {
        commands.push(Command::Do(action));
        ui.close();
    }
}

/// All actions of a menu.
pub(super) fn menu_ui(ui: &mut Ui, menu: Menu, facts: &Facts, commands: &mut Vec<Command>) {
    let of_menu = actions::all().filter(|action| action.entry().menu == menu);
    // With large text or in a low window a menu may be higher than the window.
    let room = ui.ctx().content_rect().height() - MENU_MARGIN;
    egui::ScrollArea::vertical()
        .max_height(room)
        .show(ui, |ui| {
            for action in of_menu {
                if !matches!(action, Action::Nudge(..)) {
                    action_ui(ui, action, facts, commands);
                }
            }
        });
}

/// One action as a button of its own.
pub(in super::super) fn action_button(
    ui: &mut Ui,
    action: Action,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let button = Button::new(action.entry().text);
    let response = ui.add_enabled(action.is_enabled(facts), button);
    if with_keys(response, action).clicked() {
        commands.push(Command::Do(action));
    }
}

/// The same, called by a shorter name where there is little room.
pub(in super::super) fn action_button_short(
    ui: &mut Ui,
    (action, text): (Action, &str),
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let response = ui.add_enabled(action.is_enabled(facts), Button::new(text));
    let response = response.accessible_name(action.entry().text);
    if with_keys(response, action).clicked() {
        commands.push(Command::Do(action));
    }
}

/// What it does and its keys, on hovering.
pub(super) fn with_keys(response: Response, action: Action) -> Response {
    let entry = action.entry();
    let keys = response.ctx.format_shortcut(&entry.keys);
    response.on_hover_text(format!("{} ({keys})", entry.tooltip))
}

/// The menu of the plan, on a press of the other button.
pub(in super::super) fn plan_menu(
    response: &Response,
    editor: &Editor,
    commands: &mut Vec<Command>,
) {
    response.context_menu(|ui| {
        let facts = editor.facts();
        let names = editor.selected_names();
        if names.is_empty() {
            ui.label(words::NOTHING_SELECTED);
            ui.separator();
            for action in [Action::Paste, Action::SelectAll, Action::Fit] {
                action_ui(ui, action, &facts, commands);
            }
            return;
        }
        ui.label(names.join(", "));
        ui.separator();
        for action in [
            Action::FillRack,
            Action::LayOrStand,
            Action::TurnToPort,
            Action::TurnToStarboard,
            Action::OtherSide,
            Action::Lock,
            Action::ToNextDeck,
            Action::Duplicate,
            Action::CopiesInRow,
            Action::Copy,
            Action::FrameSelected,
            Action::Remove,
        ] {
            if action.is_enabled(&facts) {
                action_ui(ui, action, &facts, commands);
            }
        }
    });
}
