use egui::{RichText, Sense, Ui, vec2};

use super::super::actions::{Action, Facts};
use super::super::canvas::glyph;
use super::super::command::Command;
use super::super::lines::Line;
use super::super::{Editor, words};
use super::menu::with_keys;
use crate::checks::{Finding, Signal};

/// The lines of the part of the day shown, by signal word.
pub(super) fn put_right_ui(
    ui: &mut Ui,
    editor: &Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    ui.horizontal_wrapped(|ui| {
        ui.heading(words::TO_PUT_RIGHT);
        filter_ui(ui, editor, commands);
    });
    let lines = editor.lines();
    if lines.is_empty() {
        let numbers = editor.live.assessor().assessment().parts.get(editor.part);
        let any = numbers.is_some_and(|numbers| !numbers.cylinders.is_empty());
        ui.label(if any {
            words::NOTHING_TO_PUT_RIGHT
        } else {
            words::NO_CYLINDERS_YET
        });
        return;
    }
    limit_ui(ui, editor, commands);
    let lines: Vec<Line> = lines
        .into_iter()
        .filter(|line| editor.is_looked_for(line))
        .collect();
    if lines.is_empty() {
        ui.label(words::NONE_LOOKED_FOR);
    }
    let mut last: Option<Signal> = None;
    for line in &lines {
        if last != Some(line.signal) {
            last = Some(line.signal);
            let same = lines.iter().filter(|other| other.signal == line.signal);
            let count = same.map(|other| other.findings.len()).sum();
            ui.add_space(3.0);
            signal_ui(ui, editor, line.signal, count);
        }
        line_ui(ui, editor, line, facts, commands);
    }
}

/// The search among what must be put right.
fn filter_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let mut text = editor.filter.clone();
    let field = egui::TextEdit::singleline(&mut text)
        .hint_text(words::SEARCH_FINDINGS)
        .desired_width(130.0);
    let response = ui.add(field).accessible_name(words::SEARCH_FINDINGS);
    if editor.search_findings {
        response.request_focus();
    }
    if text != editor.filter {
        commands.push(Command::Filter(text));
    }
}

/// "DANGER: 3" with its sign.
fn signal_ui(ui: &mut Ui, editor: &Editor, signal: Signal, count: usize) {
    let palette = editor.settings.theme.palette();
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(24.0, 20.0), Sense::hover());
        glyph::signal(ui.painter(), palette, rect.center(), signal, 7.5);
        let text = words::signal_count(signal, count);
        ui.label(RichText::new(text).strong().color(palette.signal(signal)));
    });
}

fn line_ui(ui: &mut Ui, editor: &Editor, line: &Line, facts: &Facts, commands: &mut Vec<Command>) {
    let chosen = editor.chosen.filter(|index| line.findings.contains(index));
    let text = words::folded(&line.text, line.findings.len());
    let button = egui::Button::selectable(chosen.is_some(), text)
        .wrap()
        .min_size(vec2(ui.available_width(), 0.0));
    if ui.add(button).clicked() {
        let first = line.findings.first().copied();
        let next = first.filter(|_| chosen.is_none());
        commands.push(Command::ChooseFinding(next));
    }
    let finding = chosen.and_then(|index| editor.live.findings().get(index));
    if let Some(finding) = finding {
        ui.indent("why", |ui| {
            if line.findings.len() > 1 {
                others_ui(ui, editor, line, commands);
            }
            cures_ui(ui, editor, line, commands);
            why_ui(ui, editor, finding, facts, commands);
        });
    }
}

/// What would put it right, tried and found to help.
fn cures_ui(ui: &mut Ui, editor: &Editor, line: &Line, commands: &mut Vec<Command>) {
    let Some(first) = line.findings.first().copied() else {
        return;
    };
    let Some(cures) = editor.cures.of(first) else {
        ui.horizontal(|ui| {
            ui.spinner();
            ui.weak(words::TRYING);
        });
        return;
    };
    if cures.is_empty() {
        ui.weak(words::NO_CURE);
    }
    for (index, cure) in cures.iter().enumerate() {
        let text = words::cure(&cure.label);
        let mut response = ui.add(egui::Button::new(text).wrap());
        if index == 0 {
            response = with_keys(response, Action::Cure);
        }
        if response.clicked() {
            commands.push(Command::Cure {
                line: first,
                which: index,
            });
        }
        ui.weak(words::after(cure));
        for trouble in &cure.moves_trouble_to {
            ui.weak(words::but_then(trouble));
        }
    }
}

/// The limit now, and the cures that raise it most.
fn limit_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let numbers = editor.live.assessor().assessment().parts.get(editor.part);
    let Some(numbers) = numbers else { return };
    let (Some(limit), Some(first)) = (&numbers.limit.first, numbers.limit.order.first()) else {
        return;
    };
    let text = words::good_to(limit, first, numbers.motion.roll_amplitude_deg);
    ui.label(RichText::new(text).strong());
    let best = editor.cures.raising_most(limit.share, 3);
    if !best.is_empty() {
        ui.label(words::RAISES_MOST);
    }
    for (line, cure) in best {
        let text = words::raises(cure);
        if ui.add(egui::Button::new(text).wrap()).clicked() {
            commands.push(Command::Cure { line, which: 0 });
        }
    }
    if editor.is_busy() {
        ui.horizontal(|ui| {
            ui.spinner();
            ui.weak(words::TRYING);
        });
    }
    ui.separator();
}

/// What a line folds, one by one.
fn others_ui(ui: &mut Ui, editor: &Editor, line: &Line, commands: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        for index in &line.findings {
            let Some(finding) = editor.live.findings().get(*index) else {
                continue;
            };
            let subject = finding.about.first();
            let name = subject.map_or("", |subject| subject.name.as_str());
            let chosen = editor.chosen == Some(*index);
            if ui.selectable_label(chosen, name).clicked() {
                commands.push(Command::ChooseFinding(Some(*index)));
            }
        }
    });
}

/// Why, what would cure it, how the number was made.
fn why_ui(
    ui: &mut Ui,
    editor: &Editor,
    finding: &Finding,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    ui.label(&finding.sentence);
    if let Some(measure) = &finding.measure {
        ui.label(words::measure(measure));
    }
    if let Some(case) = &finding.case {
        ui.weak(words::when(case));
    }
    if let Some(test) = &finding.hand_test {
        ui.label(words::hand_test(test));
    }
    if !finding.sum.is_empty() {
        let name = Action::Sum.entry().text;
        let response = ui.selectable_label(editor.sum_shown, name);
        if with_keys(response, Action::Sum).clicked() {
            commands.push(Command::ShowSum(!editor.sum_shown));
        }
        if editor.sum_shown && facts.offers.sum {
            super::card::sum_ui(ui, &finding.sum, commands);
        }
    }
    match &finding.taken_on {
        Some(taken) => {
            ui.label(words::taken_on(&taken.by, &taken.reason));
        }
        None => super::menu::action_button(ui, Action::TakeOn, facts, commands),
    }
    ui.weak(words::code_and_source(finding.code, &finding.source));
}
