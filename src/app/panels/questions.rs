//! Questions about work left behind, about copies, tape readings, and what is taken on.

use egui::{TextEdit, Ui};

use super::super::Editor;
use super::super::command::Command;
use super::super::files::{Dialog, Next, RowOfCopies};
use super::super::perform::FileCommand;
use super::super::rows::Grid;
use super::super::tools::deck_from_stations;
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
        ui.label(&finding.sentence);
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

/// The deck as tape readings.
pub(super) fn deck_by_tape_ui(
    ui: &mut Ui,
    text: &str,
    system: System,
    commands: &mut Vec<Command>,
) {
    ui.heading(words::DECK_BY_TAPE);
    ui.label(words::DECK_BY_TAPE_HELP);
    let mut typed = text.to_owned();
    ui.add(
        TextEdit::multiline(&mut typed)
            .desired_rows(9)
            .desired_width(f32::INFINITY),
    )
    .accessible_name(words::READINGS);
    let readings = stations(&typed, system);
    let outline = match &readings {
        Ok(readings) => deck_from_stations(readings).is_some(),
        Err(_) => false,
    };
    match &readings {
        Err(why) => {
            ui.label(why);
        }
        Ok(_) if !outline => {
            ui.label(words::NO_OUTLINE_YET);
        }
        Ok(readings) => {
            ui.weak(words::readings(readings.len()));
        }
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let draw = ui.add_enabled(outline, egui::Button::new(words::DRAW_DECK));
        if let (true, Ok(readings)) = (draw.clicked(), readings) {
            commands.push(Command::DeckFromStations(readings));
        } else if ui.button(words::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != text {
            show(commands, Some(Dialog::DeckByTape(typed)));
        }
    });
}

/// One reading per line: distance from the stern, then half-width, parted by a semicolon or, where each
/// is one word, by a space.
fn stations(text: &str, system: System) -> Result<Vec<[f64; 2]>, String> {
    let mut readings = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        let parts: Vec<&str> = match line.split_once(';') {
            Some((first, second)) => vec![first, second],
            None => line.split_whitespace().collect(),
        };
        let [along, half] = parts[..] else {
            return Err(words::two_readings(index + 1));
        };
        let read = |text: &str| {
            units::parse(text, Quantity::Length, system)
                .map_err(|err| words::in_line(index + 1, &err.to_string()))
        };
        readings.push([read(along)?, read(half)?]);
    }
    Ok(readings)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tape_readings_are_read_line_by_line() {
        let text = "0 2.1\n6 m; 2,1 m\n\n38 ft ; 0";
        let readings = stations(text, System::Metric).unwrap();
        assert_eq!(readings.len(), 3);
        assert!((readings[2][0] - 11.5824).abs() < 1e-9, "{readings:?}");
        let err = stations("0 2\n5", System::Metric).unwrap_err();
        assert!(err.contains('2'), "names the line: {err}");
        let err = stations("0 2\n5 x", System::Metric).unwrap_err();
        assert!(err.contains("no number"), "{err}");
    }
}
