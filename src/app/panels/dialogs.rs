use egui::{Id, Modal, ScrollArea, TextEdit, Ui, vec2};

use super::super::actions::{self, Menu};
use super::super::command::Command;
use super::super::day::day_dialog_ui;
use super::super::files::{Dialog, FileList, NewBoat, Next};
use super::super::perform::FileCommand;
use super::super::words::dialogs as words;
use super::super::{Editor, words as all};
use super::{decks, past, photo, questions, survey, two_tapes};
use crate::layout::bounds;
use crate::units::{self, Quantity, System};

/// The question over the window, if there is one.
pub(in super::super) fn dialogs_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(dialog) = &editor.dialog else { return };
    let modal = Modal::new(Id::unique("question")).show(ui.ctx(), |ui| {
        let is_wide = matches!(
            dialog,
            Dialog::DeckByTape(_)
                | Dialog::DeckFromDrawing(_)
                | Dialog::Photo(_)
                | Dialog::ByTwoTapes(_)
                | Dialog::Day(_)
        );
        ui.set_width(if is_wide { 640.0 } else { 460.0 });
        match dialog {
            Dialog::Unsaved { next } => unsaved_ui(ui, editor, next, commands),
            Dialog::NewBoat(boat) => new_boat_ui(ui, boat, editor.settings.units, commands),
            Dialog::Files(list) => files_ui(ui, list, commands),
            Dialog::Reading(name) => questions::reading_ui(ui, editor, name, commands),
            Dialog::AskedOutside => questions::asked_outside_ui(ui, commands),
            Dialog::Trouble { title, lines } => trouble_ui(ui, title, lines, commands),
            Dialog::Shortcuts => shortcuts_ui(ui, commands),
            Dialog::LeftBehind(plan) => questions::left_behind_ui(ui, plan, commands),
            Dialog::ChangedOnDisk { path, saving, then } => {
                let then = saving.then_some(then.as_ref());
                questions::changed_on_disk_ui(ui, path, then, commands);
            }
            Dialog::Versions(versions) => past::versions_ui(ui, editor, versions, commands),
            Dialog::Steps => past::steps_ui(ui, editor, commands),
            Dialog::CylinderList(text) => past::cylinder_list_ui(ui, editor, text, commands),
            Dialog::TakeOn {
                finding,
                by,
                reason,
            } => questions::take_on_ui(ui, editor, *finding, [by, reason], commands),
            Dialog::DeckByTape(typed) => survey::deck_by_tape_ui(ui, editor, typed, commands),
            Dialog::ByTwoTapes(typed) => two_tapes::two_tapes_ui(ui, editor, typed, commands),
            Dialog::Photo(choice) => photo::photo_ui(ui, editor, choice, commands),
            Dialog::DeckFromDrawing(choice) => {
                survey::deck_from_drawing_ui(ui, editor, choice, commands);
            }
            Dialog::AnotherDeck(deck) => {
                decks::another_deck_ui(ui, deck, editor.settings.units, commands);
            }
            Dialog::Day(asked) => day_dialog_ui(ui, editor, *asked, commands),
            Dialog::Find(text) => decks::find_ui(ui, editor, text, commands),
            Dialog::Row(row) => questions::row_ui(ui, row, editor.settings.units, commands),
        }
    });
    // Work is not dropped by a slip of the hand.
    let may_close = !matches!(dialog, Dialog::LeftBehind(_) | Dialog::ChangedOnDisk { .. });
    if modal.should_close() && commands.is_empty() && may_close {
        show(commands, None);
    }
}

pub(in super::super) fn show(commands: &mut Vec<Command>, dialog: Option<Dialog>) {
    commands.push(Command::File(FileCommand::Dialog(dialog)));
}

fn unsaved_ui(ui: &mut Ui, editor: &Editor, next: &Next, commands: &mut Vec<Command>) {
    ui.heading(words::UNSAVED);
    let name = editor.file.name();
    ui.label(words::unsaved_help(name.as_deref()));
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(words::SAVE_FIRST).clicked() {
            commands.push(Command::File(FileCommand::SaveFirst(next.clone())));
        }
        if ui.button(words::DROP_CHANGES).clicked() {
            commands.push(Command::File(FileCommand::DropChanges(next.clone())));
        }
        if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        }
    });
}

fn new_boat_ui(ui: &mut Ui, boat: &NewBoat, system: System, commands: &mut Vec<Command>) {
    ui.heading(words::NEW_BOAT);
    ui.label(words::NEW_BOAT_HELP);
    let mut typed = boat.clone();
    egui::Grid::new("new boat").num_columns(2).show(ui, |ui| {
        for (name, value) in [
            (words::BOAT_NAME, &mut typed.name),
            (words::BOAT_LENGTH, &mut typed.length),
            (words::BOAT_BEAM, &mut typed.beam),
        ] {
            let label = ui.label(name);
            ui.add(TextEdit::singleline(value).desired_width(240.0))
                .labelled_by(label.id);
            ui.end_row();
        }
    });
    let length = length_of(&typed.length, "length_overall_m", system);
    let beam = length_of(&typed.beam, "beam_m", system);
    for (text, result) in [(&typed.length, &length), (&typed.beam, &beam)] {
        if let Err(why) = result
            && !text.trim().is_empty()
        {
            ui.label(why);
        }
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let ready = length.is_ok() && beam.is_ok();
        let begin = ui.add_enabled(ready, egui::Button::new(words::BEGIN));
        if begin.clicked()
            && let (Ok(length_m), Ok(beam_m)) = (&length, &beam)
        {
            commands.push(Command::File(FileCommand::NewBoat {
                name: match typed.name.trim() {
                    "" => words::NEW_BOAT.to_owned(),
                    name => name.to_owned(),
                },
                length_m: *length_m,
                beam_m: *beam_m,
            }));
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != *boat {
            show(commands, Some(Dialog::NewBoat(typed)));
        }
    });
}

/// A length within the sane range of its field, or why not.
pub(super) fn length_of(text: &str, field: &str, system: System) -> Result<f64, String> {
    let value = units::parse(text, Quantity::Length, system).map_err(|err| err.to_string())?;
    match bounds::for_field(field) {
        Some(bound) if !bound.holds(value) => {
            let [least, most] = [bound.min, bound.max].map(|m| Quantity::Length.show(m, system));
            Err(words::out_of_range(
                &Quantity::Length.show(value, system),
                &least,
                &most,
            ))
        }
        _ => Ok(value),
    }
}

fn files_ui(ui: &mut Ui, list: &FileList, commands: &mut Vec<Command>) {
    let open = !list.purpose.writes();
    ui.heading(words::choose(list.purpose));
    ui.horizontal_wrapped(|ui| {
        let parent = list.folder.parent();
        let up = ui.add_enabled(parent.is_some(), egui::Button::new(words::FOLDER_ABOVE));
        if let Some(parent) = parent.filter(|_| up.clicked()) {
            show(commands, Some(Dialog::Files(list.elsewhere(parent))));
        }
        ui.label(list.folder.display().to_string());
    });
    if let Some(trouble) = &list.trouble {
        ui.label(words::folder_trouble(trouble));
    }
    let height = (ui.ctx().content_rect().height() - 280.0).clamp(120.0, 320.0);
    ScrollArea::vertical()
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| entries_ui(ui, list, commands));
    let mut typed = list.clone();
    let mut entered = false;
    ui.horizontal(|ui| {
        let label = ui.label(words::FILE_NAME);
        let field = TextEdit::singleline(&mut typed.name).desired_width(300.0);
        let response = ui.add(field).labelled_by(label.id);
        entered = response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let chosen = typed.chosen();
        let ready = chosen.as_ref().is_some_and(|path| !open || path.is_file());
        let text = if open { words::OPEN_IT } else { words::SAVE_IT };
        let go = ui.add_enabled(ready, egui::Button::new(text)).clicked();
        if (go || entered) && ready {
            commands.push(Command::File(FileCommand::Chosen(typed.clone())));
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != *list {
            show(commands, Some(Dialog::Files(typed.clone())));
        }
        let exists = !open && chosen.is_some_and(|path| path.exists());
        if exists {
            ui.label(words::WILL_REPLACE);
        }
    });
}

/// The folders and deck plans of a folder.
fn entries_ui(ui: &mut Ui, list: &FileList, commands: &mut Vec<Command>) {
    if list.folders.is_empty() && list.files.is_empty() && list.trouble.is_none() {
        ui.label(words::EMPTY_FOLDER);
    }
    for folder in &list.folders {
        let text = words::folder(folder);
        if ui.selectable_label(false, text).clicked() {
            let next = list.elsewhere(&list.folder.join(folder));
            show(commands, Some(Dialog::Files(next)));
        }
    }
    for file in &list.files {
        let response = ui.selectable_label(list.name == *file, file);
        let named = FileList {
            name: file.clone(),
            ..list.clone()
        };
        if response.double_clicked() && !list.purpose.writes() {
            commands.push(Command::File(FileCommand::Chosen(named)));
        } else if response.clicked() {
            show(commands, Some(Dialog::Files(named)));
        }
    }
}

fn trouble_ui(ui: &mut Ui, title: &str, lines: &[String], commands: &mut Vec<Command>) {
    ui.heading(title);
    let height = (ui.ctx().content_rect().height() - 240.0).max(80.0);
    ScrollArea::vertical()
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for line in lines {
                ui.add(egui::Label::new(line).wrap());
            }
        });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(words::UNDERSTOOD).clicked() {
            show(commands, None);
        }
        if ui.button(words::COPY_TEXT).clicked() {
            commands.push(Command::Copy(lines.join("\n")));
        }
    });
}

fn shortcuts_ui(ui: &mut Ui, commands: &mut Vec<Command>) {
    ui.heading(words::KEYS);
    let height = (ui.ctx().content_rect().height() - 200.0).max(120.0);
    ScrollArea::vertical()
        .max_height(height)
        .min_scrolled_height(height)
        .show(ui, |ui| {
            for (menu, name) in [
                (Menu::File, all::MENU_FILE),
                (Menu::Edit, all::MENU_EDIT),
                (Menu::Arrange, all::MENU_ARRANGE),
                (Menu::Measure, all::MENU_MEASURE),
                (Menu::Plan, all::MENU_PLAN),
                (Menu::Day, all::MENU_DAY),
                (Menu::Look, all::MENU_LOOK),
                (Menu::Help, all::MENU_HELP),
            ] {
                ui.strong(name);
                egui::Grid::new(name)
                    .num_columns(2)
                    .spacing(vec2(24.0, 3.0))
                    .show(ui, |ui| {
                        for action in actions::all() {
                            let entry = action.entry();
                            if entry.menu != menu {
                                continue;
                            }
                            ui.label(entry.text).on_hover_text(entry.tooltip);
                            ui.monospace(ui.ctx().format_shortcut(&entry.keys));
                            ui.end_row();
                        }
                    });
                ui.add_space(6.0);
            }
            ui.strong(words::POINTER);
            for line in words::POINTER_LINES {
                ui.label(line);
            }
        });
    ui.add_space(8.0);
    if ui.button(words::UNDERSTOOD).clicked() {
        show(commands, None);
    }
}
