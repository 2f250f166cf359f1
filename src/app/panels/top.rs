use egui::{Panel, Ui};

use super::super::actions::{Action, Facts, Menu};
use super::super::command::Command;
use super::super::perform::FileCommand;
use super::super::theme::Theme;
use super::super::tools::Tool;
use super::super::{Editor, words};
use super::menu::{action_button, menu_ui};
use crate::units::System;

/// Menus, undo and redo, tools, units and light; below them the boat, trip and deck.
pub(in super::super) fn top_ui(
    ui: &mut Ui,
    editor: &Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    Panel::top("top").show(ui, |ui| {
        ui.add_space(3.0);
        ui.horizontal_wrapped(|ui| {
            menus_ui(ui, editor, facts, commands);
            ui.separator();
            for action in [Action::Undo, Action::Redo, Action::Save] {
                action_button(ui, action, facts, commands);
            }
            ui.separator();
            tools_ui(ui, editor, commands);
            ui.separator();
            looks_ui(ui, editor, commands);
        });
        ui.horizontal_wrapped(|ui| {
            title_ui(ui, editor);
            ui.separator();
            trip_ui(ui, editor, commands);
            deck_ui(ui, editor, commands);
        });
        ui.add_space(3.0);
    });
}

fn menus_ui(ui: &mut Ui, editor: &Editor, facts: &Facts, commands: &mut Vec<Command>) {
    for (menu, name) in [
        (Menu::File, words::MENU_FILE),
        (Menu::Edit, words::MENU_EDIT),
        (Menu::Arrange, words::MENU_ARRANGE),
        (Menu::Measure, words::MENU_MEASURE),
        (Menu::Plan, words::MENU_PLAN),
        (Menu::Day, words::MENU_DAY),
        (Menu::Look, words::MENU_LOOK),
        (Menu::Help, words::MENU_HELP),
    ] {
        ui.menu_button(name, |ui| {
            ui.set_min_width(260.0);
            menu_ui(ui, menu, facts, commands);
            if menu == Menu::File {
                recent_ui(ui, editor, commands);
            }
        });
    }
}

/// The files opened last.
fn recent_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    if editor.settings.recent.is_empty() {
        return;
    }
    ui.separator();
    ui.weak(words::RECENT);
    for path in &editor.settings.recent {
        let name = path
            .file_name()
            .map(|name| name.to_string_lossy().into_owned());
        let response = ui.button(name.unwrap_or_default());
        if response.on_hover_text(path.display().to_string()).clicked() {
            commands.push(Command::File(FileCommand::Open(path.clone())));
            ui.close();
        }
    }
}

/// The tools; the one in hand stands out.
fn tools_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    for action in [
        Action::TakeSelect,
        Action::TakeLash,
        Action::TakeTape,
        Action::TakeShape,
    ] {
        let in_hand = matches!(
            (&editor.tool, action),
            (Tool::Select(_), Action::TakeSelect)
                | (Tool::Lash(_), Action::TakeLash)
                | (Tool::Tape(_), Action::TakeTape)
                | (Tool::Shape(_), Action::TakeShape)
        );
        let response = ui.selectable_label(in_hand, action.entry().text);
        if super::menu::with_keys(response, action).clicked() {
            commands.push(Command::Do(action));
        }
    }
}

fn looks_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let settings = &editor.settings;
    for (units, name) in [(System::Metric, words::METRIC), (System::Us, words::US)] {
        if ui.selectable_label(settings.units == units, name).clicked() {
            commands.push(Command::SetUnits(units));
        }
    }
    ui.separator();
    for theme in Theme::ALL {
        let name = words::theme(theme);
        if ui.selectable_label(settings.theme == theme, name).clicked() {
            commands.push(Command::SetTheme(theme));
        }
    }
}

/// The boat and its file, with a mark while changes are unsaved.
fn title_ui(ui: &mut Ui, editor: &Editor) {
    ui.strong(&editor.plan().boat.name);
    let file = editor.file.name();
    let file = file.as_deref().unwrap_or(words::NO_FILE);
    if editor.has_unsaved_changes() {
        let response = ui.label(words::unsaved(file));
        response.on_hover_text(words::UNSAVED_HELP);
    } else {
        ui.weak(file);
    }
}

fn trip_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let trips = &editor.plan().trips;
    if trips.len() < 2 {
        return;
    }
    let shown = editor
        .trip()
        .map(|trip| trip.name.as_ref().unwrap_or(&trip.id));
    egui::ComboBox::from_label(words::TRIP)
        .selected_text(shown.map_or("", String::as_str))
        .show_ui(ui, |ui| {
            for trip in trips {
                let name = trip.name.as_ref().unwrap_or(&trip.id);
                if ui.selectable_label(trip.id == editor.trip, name).clicked() {
                    commands.push(Command::ShowTrip(trip.id.clone()));
                }
            }
        });
    ui.separator();
}

fn deck_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let decks = &editor.plan().boat.decks;
    if decks.len() < 2 {
        return;
    }
    ui.label(words::DECK);
    for deck in decks {
        let name = deck.name.as_ref().unwrap_or(&deck.id);
        if ui.selectable_label(deck.id == editor.deck, name).clicked() {
            commands.push(Command::ShowDeck(deck.id.clone()));
        }
    }
    ui.separator();
}
