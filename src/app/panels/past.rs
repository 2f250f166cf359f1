//! Questions about what was: versions that were kept, steps that were done, and the list of cylinders.

use std::time::SystemTime;

use egui::{ScrollArea, TextEdit, Ui};

use super::super::command::Command;
use super::super::files::{Dialog, FileList, Purpose, Versions};
use super::super::perform::FileCommand;
use super::super::words::dialogs as words;
use super::super::{Editor, versions};
use super::dialogs::show;
use crate::layout::{Cylinder, Placing};
use crate::store::cylinder_list::cylinder_list;

/// The versions that were kept, and one more.
pub(super) fn versions_ui(
    ui: &mut Ui,
    editor: &Editor,
    shown: &Versions,
    commands: &mut Vec<Command>,
) {
    ui.heading(words::VERSIONS);
    ui.label(words::VERSIONS_HELP);
    let mut typed = shown.clone();
    let file = editor.file.path();
    let ready = file.is_some_and(|file| versions::place_of(file, &typed.name).is_some());
    ui.horizontal(|ui| {
        let label = ui.label(words::VERSION_NAME);
        ui.add(TextEdit::singleline(&mut typed.name).desired_width(200.0))
            .labelled_by(label.id);
        let keep = ui.add_enabled(ready, egui::Button::new(words::KEEP_VERSION));
        if keep.clicked() {
            let command = FileCommand::KeepVersion(typed.name.clone());
            commands.push(Command::File(command));
        }
    });
    if let Some(trouble) = &shown.trouble {
        ui.label(trouble);
    } else if !ready && !typed.name.trim().is_empty() {
        ui.label(words::NO_SUCH_NAME);
    }
    ui.add_space(6.0);
    if shown.list.is_empty() {
        ui.weak(words::NO_VERSIONS);
    }
    let now = now();
    list(ui, |ui| {
        for version in &shown.list {
            ui.horizontal(|ui| {
                let back = words::back_to(&version.name);
                let button = ui.button(words::GO_BACK_TO_IT);
                if button.accessible_name(back).clicked() {
                    commands.push(Command::File(FileCommand::BackTo(version.clone())));
                }
                ui.label(&version.name);
                let age = version.when.and_then(|when| now.duration_since(when).ok());
                if let Some(age) = age {
                    ui.weak(words::ago(age.as_secs()));
                }
            });
        }
    });
    ui.add_space(8.0);
    if ui.button(words::UNDERSTOOD).clicked() {
        show(commands, None);
    } else if typed.name != shown.name && commands.is_empty() {
        show(commands, Some(Dialog::Versions(typed)));
    }
}

/// The steps done, the last one at the bottom, and those undone; a press goes there.
pub(super) fn steps_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    ui.heading(words::STEPS);
    ui.label(words::STEPS_HELP);
    let done = editor.history.undo_count();
    list(ui, |ui| {
        let mut line = |ui: &mut Ui, count: usize, text: &str| {
            let response = ui.selectable_label(count == done, text);
            if response.clicked() && count != done {
                commands.push(Command::GoToStep(count));
            }
            if count == done && ui.is_rect_visible(response.rect) {
                response.scroll_to_me(None);
            }
        };
        line(ui, 0, words::AT_FIRST);
        let steps = editor.history.done().chain(editor.history.undone());
        for (index, label) in steps.enumerate() {
            line(ui, index + 1, &words::numbered(index + 1, label));
        }
    });
    ui.add_space(8.0);
    if ui.button(words::UNDERSTOOD).clicked() {
        show(commands, None);
    }
}

/// A list of cylinders from a spreadsheet: pasted, or from a file.
pub(super) fn cylinder_list_ui(
    ui: &mut Ui,
    editor: &Editor,
    text: &str,
    commands: &mut Vec<Command>,
) {
    ui.heading(words::CYLINDER_LIST);
    ui.label(words::CYLINDER_LIST_HELP);
    let Some(trip) = editor.trip() else { return };
    let mut typed = text.to_owned();
    ScrollArea::both()
        .id_salt("list")
        .max_height(180.0)
        .show(ui, |ui| {
            ui.add(
                TextEdit::multiline(&mut typed)
                    .code_editor()
                    .hint_text(words::CYLINDER_LIST_SAMPLE)
                    .desired_rows(9)
                    .desired_width(f32::INFINITY),
            )
            .accessible_name(words::CYLINDER_LIST);
        });
    let boat = &editor.plan().boat;
    let read = (!typed.trim().is_empty())
        .then(|| cylinder_list(typed.as_bytes(), words::LIST_NAME, boat, &trip.kinds));
    match &read {
        None => {}
        Some(Ok(cylinders)) => {
            let aboard = |item: &&Cylinder| trip.cylinder(&item.id).is_some();
            let known = cylinders.iter().filter(aboard).count();
            let ashore = cylinders.iter().filter(|item| {
                item.placing == Placing::Ashore && trip.cylinder(&item.id).is_none()
            });
            ui.label(words::list_has(cylinders.len(), known, ashore.count()));
        }
        Some(Err(faults)) => {
            ScrollArea::vertical()
                .id_salt("faults")
                .max_height(120.0)
                .show(ui, |ui| {
                    for line in faults.to_string().lines() {
                        ui.label(line);
                    }
                });
        }
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let ready = matches!(&read, Some(Ok(cylinders)) if !cylinders.is_empty());
        let put = ui.add_enabled(ready, egui::Button::new(words::PUT_ABOARD));
        if let (true, Some(Ok(cylinders))) = (put.clicked(), read) {
            commands.push(Command::File(FileCommand::PutAboard(cylinders)));
        } else if ui.button(words::FROM_FILE).clicked() {
            let folder = editor.folder();
            let list = FileList::of(Purpose::CylinderList, &folder, "", None);
            commands.push(Command::File(FileCommand::AskForFile(list)));
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != text {
            show(commands, Some(Dialog::CylinderList(typed)));
        }
    });
}

/// A list that scrolls before it is higher than the window.
fn list(ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
    let height = (ui.ctx().content_rect().height() - 300.0).clamp(100.0, 320.0);
    ScrollArea::vertical()
        .max_height(height)
        .auto_shrink([false, true])
        .show(ui, add);
}

/// The time, to tell how old versions are; nothing that is computed depends on it.
#[expect(
    clippy::disallowed_methods,
    reason = "an age on the screen is one of now"
)]
fn now() -> SystemTime {
    SystemTime::now()
}
