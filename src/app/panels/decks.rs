//! The questions for another deck and for what is looked for on the plan.

use egui::{ComboBox, Key, TextEdit, Ui};

use super::super::command::Command;
use super::super::decks::{AnotherDeck, FirstShape, ThenAsk};
use super::super::files::Dialog;
use super::super::words::decks as words;
use super::super::words::dialogs as all;
use super::super::{Editor, search, words as window};
use super::dialogs::{length_of, show};
use crate::units::System;

/// Found things are listed up to so many.
const MOST_LISTED: usize = 12;

/// Name, height and first shape of one more deck.
pub(super) fn another_deck_ui(
    ui: &mut Ui,
    deck: &AnotherDeck,
    system: System,
    commands: &mut Vec<Command>,
) {
    ui.heading(words::TITLE);
    ui.label(words::HELP);
    let mut typed = deck.clone();
    egui::Grid::new("another deck")
        .num_columns(2)
        .show(ui, |ui| {
            field_ui(ui, words::NAME, &mut typed.name);
            field_ui(ui, words::HEIGHT, &mut typed.height);
            let label = ui.label(words::SHAPE);
            ComboBox::from_id_salt("first shape")
                .selected_text(words::shape(typed.shape))
                .show_ui(ui, |ui| {
                    for shape in FirstShape::ALL {
                        ui.selectable_value(&mut typed.shape, shape, words::shape(shape));
                    }
                })
                .response
                .labelled_by(label.id);
            ui.end_row();
            if typed.shape == FirstShape::Rectangle {
                field_ui(ui, words::FROM, &mut typed.from);
                field_ui(ui, words::LENGTH, &mut typed.length);
                field_ui(ui, words::WIDTH, &mut typed.width);
            }
        });
    let troubles = troubles(&typed, system);
    for trouble in &troubles {
        ui.label(trouble);
    }
    ui.add_space(8.0);
    ui.horizontal_wrapped(|ui| {
        for (name, then) in [
            (words::ADD, ThenAsk::Nothing),
            (words::ADD_TAPE, ThenAsk::Tape),
            (words::ADD_DRAWING, ThenAsk::Drawing),
        ] {
            let add = ui.add_enabled(troubles.is_empty(), egui::Button::new(name));
            if add.clicked() {
                let asked = AnotherDeck {
                    then,
                    ..typed.clone()
                };
                commands.push(Command::AddDeck(Box::new(asked)));
                return;
            }
        }
        if ui.button(all::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != *deck {
            show(commands, Some(Dialog::AnotherDeck(typed.clone())));
        }
    });
}

fn field_ui(ui: &mut Ui, name: &str, value: &mut String) {
    let label = ui.label(name);
    ui.add(TextEdit::singleline(value).desired_width(220.0))
        .labelled_by(label.id);
    ui.end_row();
}

/// What cannot be read or is out of range, line by line.
fn troubles(typed: &AnotherDeck, system: System) -> Vec<String> {
    let height = length_of(&typed.height, "height_above_waterline_m", system);
    let mut asked = vec![height];
    if typed.shape == FirstShape::Rectangle {
        let sides = [&typed.from, &typed.length, &typed.width];
        asked.extend(sides.map(|text| length_of(text, "", system)));
    }
    asked.into_iter().filter_map(Result::err).collect()
}

/// What is looked for on the plan, and what is called so.
pub(super) fn find_ui(ui: &mut Ui, editor: &Editor, text: &str, commands: &mut Vec<Command>) {
    ui.heading(words::FIND);
    ui.weak(words::FIND_HELP);
    let mut typed = text.to_owned();
    let field = TextEdit::singleline(&mut typed)
        .hint_text(words::FIND_FIELD)
        .desired_width(f32::INFINITY);
    let response = ui.add(field).accessible_name(words::FIND_FIELD);
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if !response.has_focus() && !entered && text.is_empty() {
        response.request_focus();
    }
    let Some(trip) = editor.trip() else { return };
    let hits = search::found(editor.plan(), trip, &typed);
    if hits.is_empty() && !typed.trim().is_empty() {
        ui.label(words::NONE_FOUND);
    }
    let mut chosen = entered.then(|| hits.first()).flatten();
    for hit in hits.iter().take(MOST_LISTED) {
        let title = window::titled(hit.what.kind, &hit.name);
        let button = egui::Button::selectable(false, words::hit(&title, hit.by.as_deref()));
        if ui.add(button).clicked() {
            chosen = Some(hit);
        }
    }
    if hits.len() > MOST_LISTED {
        ui.weak(words::more(hits.len() - MOST_LISTED));
    }
    ui.add_space(8.0);
    if let Some(hit) = chosen {
        let add = ui.input(|input| input.modifiers.shift);
        let what = hit.what.clone();
        commands.push(Command::GoTo { what, add });
    } else if ui.button(all::GO_BACK).clicked() {
        show(commands, None);
    } else if typed != text {
        show(commands, Some(Dialog::Find(typed)));
    }
}
