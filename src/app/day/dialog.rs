//! Questions about the day over the window: the work on deck, a day laid out, the deck made ready.

use egui::{RichText, ScrollArea, Ui};

use super::super::Editor;
use super::super::command::Command;
use super::super::files::Dialog;
use super::super::panels::show_dialog;
use super::super::words::day as words;
use super::super::words::dialogs as dialog_words;
use crate::day::{DeckStep, LimitThen, PartWork, Pattern, Purpose};

/// Which question.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum DayDialog {
    /// The work on deck.
    Work {
        /// Of the whole day, not of the part shown alone.
        whole_day: bool,
    },
    /// A day laid out from a pattern.
    LayOut(Pattern),
    /// The deck made ready after the part shown.
    Ready(Purpose),
}

/// What the dialog shows.
pub(crate) fn day_dialog_ui(
    ui: &mut Ui,
    editor: &Editor,
    dialog: DayDialog,
    commands: &mut Vec<Command>,
) {
    match dialog {
        DayDialog::Work { whole_day } => work_ui(ui, editor, whole_day, commands),
        DayDialog::LayOut(pattern) => lay_out_ui(ui, editor, pattern, commands),
        DayDialog::Ready(purpose) => ready_ui(ui, editor, purpose, commands),
    }
}

fn ask(commands: &mut Vec<Command>, dialog: DayDialog) {
    show_dialog(commands, Some(Dialog::Day(dialog)));
}

fn list(ui: &mut Ui, below: f32, inside: impl FnOnce(&mut Ui)) {
    let height = (ui.ctx().content_rect().height() - below).clamp(120.0, 460.0);
    ScrollArea::vertical()
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, true])
        .show(ui, inside);
}

fn work_ui(ui: &mut Ui, editor: &Editor, whole_day: bool, commands: &mut Vec<Command>) {
    ui.heading(words::WORK);
    ui.label(words::WORK_HELP);
    let mut all = whole_day;
    ui.checkbox(&mut all, words::OF_WHOLE_DAY);
    if all != whole_day {
        ask(commands, DayDialog::Work { whole_day: all });
    }
    let shown: Vec<&PartWork> = if whole_day {
        editor.day.work.parts.iter().collect()
    } else {
        editor.day.work.parts.get(editor.part).into_iter().collect()
    };
    list(ui, 260.0, |ui| {
        for work in &shown {
            part_work_ui(ui, work);
        }
    });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(dialog_words::UNDERSTOOD).clicked() {
            show_dialog(commands, None);
        }
        if ui.button(dialog_words::COPY_TEXT).clicked() {
            commands.push(Command::Copy(words::work_as_text(&shown)));
        }
    });
}

fn part_work_ui(ui: &mut Ui, work: &PartWork) {
    ui.strong(words::as_it_begins(&work.name));
    if work.steps.is_empty() {
        ui.weak(words::NO_WORK);
    }
    for step in &work.steps {
        step_ui(ui, step);
    }
    ui.add_space(6.0);
}

fn step_ui(ui: &mut Ui, step: &DeckStep) {
    ui.add(egui::Label::new(words::step(step)).wrap());
    for left in &step.unsecured_meanwhile {
        ui.indent(("meanwhile", step.number, &left.cylinder), |ui| {
            let text = RichText::new(words::meanwhile(left));
            let text = if left.goes { text.strong() } else { text };
            ui.add(egui::Label::new(text).wrap());
        });
    }
}

/// What cannot be done, each with a mark that is no colour.
fn cannot_ui(ui: &mut Ui, cannot: &[String]) {
    for why in cannot {
        ui.add(egui::Label::new(RichText::new(words::cannot(why)).strong()).wrap());
    }
}

fn lay_out_ui(ui: &mut Ui, editor: &Editor, pattern: Pattern, commands: &mut Vec<Command>) {
    ui.heading(words::LAY_OUT);
    ui.horizontal_wrapped(|ui| {
        for other in Pattern::ALL {
            if ui
                .selectable_label(other == pattern, other.name())
                .clicked()
            {
                ask(commands, DayDialog::LayOut(other));
            }
        }
    });
    ui.label(pattern.told());
    let (Some((draft, work)), Some(trip)) = (editor.day.draft(), editor.trip()) else {
        return;
    };
    cannot_ui(ui, &draft.cannot);
    for note in &draft.notes {
        ui.add(egui::Label::new(note).wrap());
    }
    list(ui, 380.0, |ui| {
        for (part, work) in draft.parts.iter().zip(&work.parts) {
            ui.collapsing(words::part_in_short(part, work), |ui| {
                if work.steps.is_empty() {
                    ui.weak(words::NO_WORK);
                }
                for step in &work.steps {
                    step_ui(ui, step);
                }
            });
        }
    });
    if !draft.parts.is_empty() {
        ui.label(words::replaces(trip.parts.len()));
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let go = egui::Button::new(words::LAY_OUT_SO);
        if ui.add_enabled(!draft.parts.is_empty(), go).clicked() {
            commands.push(Command::Run {
                label: words::step_lay_out(pattern.name()),
                edits: draft.edits(trip),
                select: None,
            });
            commands.push(Command::ShowPart(0));
            show_dialog(commands, None);
        } else if ui.button(dialog_words::GO_BACK).clicked() {
            show_dialog(commands, None);
        }
    });
}

fn ready_ui(ui: &mut Ui, editor: &Editor, purpose: Purpose, commands: &mut Vec<Command>) {
    ui.heading(words::ready(purpose));
    let Some(deckwork) = editor.day.deckwork() else {
        return;
    };
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let name = part.map_or("", |part| part.name.as_ref().unwrap_or(&part.id));
    ui.label(words::ready_help(purpose, name));
    cannot_ui(ui, &deckwork.cannot);
    list(ui, 380.0, |ui| {
        if deckwork.is_done_already() {
            ui.label(words::NOTHING_TO_CHANGE);
        }
        for step in &deckwork.work.steps {
            step_ui(ui, step);
        }
    });
    ui.add_space(6.0);
    egui::Grid::new("before and after")
        .num_columns(3)
        .spacing(egui::vec2(16.0, 4.0))
        .show(ui, |ui| {
            for text in ["", words::FIRST_TO_GO, words::TO_PUT_RIGHT] {
                ui.weak(text);
            }
            ui.end_row();
            limit_ui(ui, words::BEFORE, &deckwork.before);
            limit_ui(ui, words::AFTERWARDS, &deckwork.afterwards);
        });
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let go = egui::Button::new(words::DO_SO);
        if ui.add_enabled(!deckwork.is_done_already(), go).clicked() {
            commands.push(Command::Run {
                label: words::ready(purpose).to_owned(),
                edits: deckwork.edits.clone(),
                select: None,
            });
            commands.push(Command::ShowPart(editor.part + 1));
            show_dialog(commands, None);
        } else if ui.button(dialog_words::GO_BACK).clicked() {
            show_dialog(commands, None);
        }
    });
}

fn limit_ui(ui: &mut Ui, when: &str, then: &LimitThen) {
    ui.strong(when);
    ui.label(words::first_then(then));
    ui.label(then.to_put_right.in_words());
    ui.end_row();
}
