//! Questions about work left behind, about copies, tape readings, and what is taken on.

use egui::{TextEdit, Ui};

use super::super::Editor;
use super::super::command::Command;
use super::super::files::{Dialog, Next, RowOfCopies};
use super::super::perform::FileCommand;
use super::super::reading::Reading;
use super::super::rows::Grid;
use super::super::words::dialogs as words;
use super::dialogs::show;
use crate::layout::Plan;
use crate::units::{self, Quantity, System};

/// Unsaved work that a crash or a power cut left behind.
pub(super) fn left_behind_ui(ui: &mut Ui, plan: &Plan, commands: &mut Vec<Command>) {
    ui.heading(words::LEFT_BEHIND);
    ui.label(words::left_behind(&plan.boat.name));
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(words::TAKE_IT).clicked() {
            let plan = Box::new(plan.clone());
            commands.push(Command::File(FileCommand::TakeLeftBehind(plan)));
        }
        if ui.button(words::DROP_IT).clicked() {
            commands.push(Command::File(FileCommand::DropLeftBehind));
        }
    });
}

/// Somebody else changed the file; `saving` has what comes after saving, if this was found on saving.
#[expect(
    clippy::option_option,
    reason = "saving, with or without something to come after it"
)]
pub(super) fn changed_on_disk_ui(
    ui: &mut Ui,
    path: &std::path::Path,
    saving: Option<Option<&Next>>,
    commands: &mut Vec<Command>,
) {
    ui.heading(words::CHANGED_ON_DISK);
    ui.label(words::changed_on_disk(&path.display().to_string()));
    ui.label(words::CHANGED_ON_DISK_HELP);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(words::READ_AGAIN).clicked() {
            commands.push(Command::File(FileCommand::ReadAgain(path.to_owned())));
        }
        match saving {
            Some(then) => {
                if ui.button(words::WRITE_OVER).clicked() {
                    let command = FileCommand::WriteOver(path.to_owned(), then.cloned());
                    commands.push(Command::File(command));
                }
                if ui.button(words::SAVE_ELSEWHERE).clicked() {
                    show(commands, None);
                    commands.push(Command::Do(super::super::actions::Action::SaveAs));
                }
                if ui.button(words::GO_BACK).clicked() {
                    show(commands, None);
                }
            }
            None => {
                if ui.button(words::KEEP_OURS).clicked() {
                    commands.push(Command::File(FileCommand::KeepOurs));
                }
            }
        }
    });
}

/// Who takes it on, and why.
pub(super) fn take_on_ui(
    ui: &mut Ui,
    editor: &Editor,
    finding: usize,
    [by, reason]: [&str; 2],
    commands: &mut Vec<Command>,
) {
    ui.heading(words::TAKE_ON);
    if let Some(finding) = editor.findings().get(finding) {
        ui.label(finding.sentence.show(editor.settings.units));
    }
    ui.label(words::TAKE_ON_HELP);
    let (mut new_by, mut new_reason) = (by.to_owned(), reason.to_owned());
    egui::Grid::new("take on").num_columns(2).show(ui, |ui| {
        for (name, value) in [
            (words::TAKEN_BY, &mut new_by),
            (words::REASON, &mut new_reason),
        ] {
            let label = ui.label(name);
            ui.add(TextEdit::singleline(value).desired_width(320.0))
                .labelled_by(label.id);
            ui.end_row();
        }
    });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let ready = !new_by.trim().is_empty() && !new_reason.trim().is_empty();
        if ui
            .add_enabled(ready, egui::Button::new(words::TAKE_IT_ON))
            .clicked()
        {
            commands.push(Command::TakeOn {
                finding,
                by: new_by.trim().to_owned(),
                reason: new_reason.trim().to_owned(),
            });
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if new_by != by || new_reason != reason {
            let dialog = Dialog::TakeOn {
                finding,
                by: new_by,
                reason: new_reason,
            };
            show(commands, Some(dialog));
        }
    });
}

/// How many copies, and how far apart.
pub(super) fn row_ui(ui: &mut Ui, row: &RowOfCopies, system: System, commands: &mut Vec<Command>) {
    ui.heading(words::ROW);
    ui.label(words::ROW_HELP);
    let mut typed = row.clone();
    egui::Grid::new("row").num_columns(4).show(ui, |ui| {
        for (name, apart, count, space) in [
            (
                words::FORWARD,
                words::FORWARD_APART,
                &mut typed.forward,
                &mut typed.forward_m,
            ),
            (
                words::ACROSS,
                words::ACROSS_APART,
                &mut typed.across,
                &mut typed.across_m,
            ),
        ] {
            let label = ui.label(name);
            let field = egui::DragValue::new(count).range(1..=50).speed(0.1);
            ui.add(field).labelled_by(label.id);
            let label = ui.label(apart);
            ui.add(TextEdit::singleline(space).desired_width(90.0))
                .labelled_by(label.id);
            ui.end_row();
        }
    });
    let length = |text: &str| units::parse(text, Quantity::Length, system);
    let lengths = (length(&typed.forward_m), length(&typed.across_m));
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let ready = lengths.0.is_ok() && lengths.1.is_ok();
        let put = ui
            .add_enabled(ready, egui::Button::new(words::PUT_THEM))
            .clicked();
        if let (true, (Ok(forward_m), Ok(across_m))) = (put, lengths) {
            commands.push(Command::CopiesInGrid(Grid {
                forward: typed.forward,
                across: typed.across,
                forward_m,
                across_m,
            }));
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != *row {
            show(commands, Some(Dialog::Row(typed)));
        }
    });
}

/// A file is being asked for outside the window.
pub(super) fn asked_outside_ui(ui: &mut Ui, commands: &mut Vec<Command>) {
    ui.heading(words::OUTSIDE);
    ui.label(words::OUTSIDE_HELP);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        for (text, built_in) in [(words::BUILT_IN_INSTEAD, true), (words::GO_BACK, false)] {
            if ui.button(text).clicked() {
                commands.push(Command::File(FileCommand::LeaveOutside(built_in)));
            }
        }
    });
}

/// A file is being read beside the window.
pub(super) fn reading_ui(ui: &mut Ui, editor: &Editor, name: &str, commands: &mut Vec<Command>) {
    ui.heading(words::reading(name));
    match editor.reading.as_ref().map(Reading::share) {
        Some(share) => {
            #[expect(clippy::cast_possible_truncation, reason = "a share from 0 to 1")]
            let bar = egui::ProgressBar::new(share as f32).show_percentage();
            ui.add(bar);
            ui.request_repaint_after(std::time::Duration::from_millis(100));
        }
        // How far a photo is nobody knows before it is there.
        None => {
            ui.label(words::NOBODY_KNOWS_HOW_FAR);
        }
    }
    ui.add_space(8.0);
    if ui.button(words::GIVE_UP).clicked() {
        show(commands, None);
    }
}
