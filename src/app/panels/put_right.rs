use std::sync::Arc;

use egui::{RichText, Sense, Ui, vec2};

use super::super::actions::{Action, Facts};
use super::super::canvas::glyph;
use super::super::command::Command;
use super::super::editor::Sought;
use super::super::lines::Line;
use super::super::{Editor, words};
use super::menu::with_keys;
use crate::checks::digest::first_to_go;
use crate::checks::{Finding, Signal};

/// The lines of the part of the day shown, by signal word.
pub(super) fn put_right_ui(
    ui: &mut Ui,
    editor: &Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let lines = editor.lines();
    ui.horizontal_wrapped(|ui| {
        ui.heading(words::TO_PUT_RIGHT);
        sought_ui(ui, editor, commands);
    });
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
    signals_ui(ui, editor, &lines, commands);
    let (taken, open): (Vec<&Line>, Vec<&Line>) = (lines.iter())
        .filter(|line| editor.is_looked_for(line))
        .partition(|line| taken_on(editor, line));
    if taken.is_empty() && open.is_empty() {
        ui.label(words::NONE_LOOKED_FOR);
    }
    open_ui(ui, editor, &open, facts, commands);
    if !taken.is_empty() {
        ui.add_space(4.0);
        ui.strong(words::taken_on_count(taken.len()));
        for line in &taken {
            line_ui(ui, editor, line, facts, commands);
        }
    }
}

/// The lines that are open. While something is dragged those out of sight keep their room and are not laid out: there
/// may be hundreds, and what they say changes with every step.
fn open_ui(
    ui: &mut Ui,
    editor: &Editor,
    lines: &[&Line],
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let memory = ui.scope_id().with("heights of lines");
    let before: Arc<Vec<f32>> = ui.data(|data| data.get_temp(memory)).unwrap_or_default();
    let sight = ui.clip_rect().y_range();
    let mut heights = Vec::with_capacity(lines.len());
    for (number, line) in lines.iter().enumerate() {
        let top = ui.cursor().top();
        let room = before.get(number).filter(|_| editor.history.is_open());
        match room {
            Some(room) if top > sight.max || top + room < sight.min => ui.add_space(*room),
            _ => line_ui(ui, editor, line, facts, commands),
        }
        heights.push(ui.cursor().top() - top);
    }
    ui.data_mut(|data| data.insert_temp(memory, Arc::new(heights)));
}

/// Was it taken on?
fn taken_on(editor: &Editor, line: &Line) -> bool {
    let first = line.findings.first();
    let finding = first.and_then(|index| editor.live.findings().get(*index));
    finding.is_some_and(|finding| finding.taken_on.is_some())
}

/// The search, and whether the whole day is listed.
fn sought_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let mut sought = editor.sought.clone();
    let field = egui::TextEdit::singleline(&mut sought.text)
        .hint_text(words::SEARCH_FINDINGS)
        .desired_width(110.0);
    let response = ui.add(field).accessible_name(words::SEARCH_FINDINGS);
    if sought.focus {
        response.request_focus();
    }
    sought.focus = false;
    ui.toggle_value(&mut sought.whole_day, words::WHOLE_DAY)
        .on_hover_text(words::WHOLE_DAY_HELP);
    seek(editor, sought, commands);
}

fn seek(editor: &Editor, sought: Sought, commands: &mut Vec<Command>) {
    let focus = editor.sought.focus;
    if sought
        != (Sought {
            focus: false,
            ..editor.sought.clone()
        })
    {
        commands.push(Command::Seek(Sought { focus, ..sought }));
    }
}

/// "DANGER: 3" with its sign, for each signal word; a press lists only those, another one all.
fn signals_ui(ui: &mut Ui, editor: &Editor, lines: &[Line], commands: &mut Vec<Command>) {
    let palette = editor.settings.theme.palette();
    let mut signals: Vec<Signal> = lines.iter().map(|line| line.signal).collect();
    signals.dedup();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 1.0;
        ui.spacing_mut().button_padding.x = 3.0;
        for signal in signals {
            let same = lines
                .iter()
                .filter(|line| line.signal == signal && !taken_on(editor, line));
            let count = same.count();
            let (rect, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
            glyph::signal(ui.painter(), palette, rect.center(), signal, 6.5);
            let text = RichText::new(words::signal_count(signal, count));
            let text = text.color(palette.signal(signal));
            let is_only = editor.sought.only == Some(signal);
            let response = ui.selectable_label(is_only, text);
            if response.on_hover_text(words::ONLY_THESE).clicked() {
                let only = (!is_only).then_some(signal);
                let sought = Sought {
                    only,
                    focus: false,
                    ..editor.sought.clone()
                };
                seek(editor, sought, commands);
            }
        }
    });
}

fn line_ui(ui: &mut Ui, editor: &Editor, line: &Line, facts: &Facts, commands: &mut Vec<Command>) {
    let chosen = editor.chosen.filter(|index| line.findings.contains(index));
    let text = &words::folded(
        &line.sentence.show(editor.settings.units),
        line.count,
        line.findings.len(),
    );
    ui.horizontal(|ui| {
        let palette = editor.settings.theme.palette();
        let (rect, _) = ui.allocate_exact_size(vec2(18.0, 20.0), Sense::hover());
        glyph::signal(ui.painter(), palette, rect.center(), line.signal, 6.5);
        let width = ui.available_width();
        let button = egui::Button::selectable(chosen.is_some(), short(ui, text, width))
            .min_size(vec2(width, 0.0));
        // Upright, so that short lines begin where long ones do.
        let response = ui.vertical(|ui| ui.add(button)).inner;
        let response = response.accessible_name(text);
        if response.on_hover_text(text).clicked() {
            let first = line.findings.first().copied();
            let next = first.filter(|_| chosen.is_none());
            commands.push(Command::ChooseFinding(next));
        }
    });
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

/// The first two lines of a text: the whole of it shows on hovering, and unfolded.
fn short(ui: &Ui, text: &str, width: f32) -> Arc<egui::Galley> {
    let font = egui::TextStyle::Button.resolve(ui.style());
    let room = width - 2.0 * ui.spacing().button_padding.x;
    let color = ui.visuals().text_color();
    let mut job = egui::text::LayoutJob::simple(text.to_owned(), font, color, room);
    job.wrap.max_rows = 2;
    ui.painter().layout_job(job)
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
    let units = editor.settings.units;
    if cures.is_empty() {
        ui.weak(words::NO_CURE);
        let gear = editor.trip().map(|trip| trip.gear_aboard.len());
        if gear == Some(0) {
            ui.weak(words::NO_GEAR_TOLD);
        }
    }
    for (index, cure) in cures.iter().enumerate() {
        let text = words::cure(&cure.label.show(units));
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
            ui.weak(words::but_then(&trouble.show(units)));
        }
    }
}

/// The limit now, and the cures that raise it most.
fn limit_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let numbers = editor.live.assessor().assessment().parts.get(editor.part);
    let Some(numbers) = numbers else { return };
    // The same one as on the command line: who goes without any roll comes before who needs some.
    let Some(first) = first_to_go(numbers) else {
        return;
    };
    let rolls = numbers.motion.roll_amplitude_deg;
    let text = words::good_to(&first.limit, &first.cylinder, rolls);
    ui.label(RichText::new(text).strong());
    let best = editor.cures.raising_most(&numbers.part);
    let busy = editor.cures.is_busy();
    if busy || !best.is_empty() {
        ui.horizontal(|ui| {
            if !best.is_empty() {
                ui.label(words::RAISES_MOST);
            }
            if busy {
                ui.spinner();
                ui.weak(words::TRYING);
            }
        });
    }
    let units = editor.settings.units;
    for (index, best) in best.iter().enumerate() {
        let cure = &best.cure;
        // One line each, so that the list below has room; the whole of it shows on hovering.
        let width = ui.available_width();
        let button = egui::Button::new(words::raises_to(cure, units)).truncate();
        let response = ui.add(button.min_size(vec2(width, 0.0)));
        if response.on_hover_text(words::raises(cure, units)).clicked() {
            commands.push(Command::RaiseLimit(index + 1));
        }
    }
    for sentence in editor.cures.not_cured(&numbers.part) {
        ui.weak(sentence);
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
    let units = editor.settings.units;
    ui.label(finding.sentence.show(units));
    if let Some(measure) = &finding.measure {
        ui.label(words::measure(measure, units));
    }
    if let Some(case) = &finding.case {
        ui.weak(words::when(case));
    }
    if let Some(test) = &finding.hand_test {
        ui.label(words::hand_test(&test.show(units)));
    }
    if !finding.sum.is_empty() {
        let name = Action::Sum.entry().text;
        let response = ui.selectable_label(editor.sum_shown, name);
        if with_keys(response, Action::Sum).clicked() {
            commands.push(Command::ShowSum(!editor.sum_shown));
        }
        if editor.sum_shown && facts.offers.sum {
            super::card::sum_ui(ui, &finding.sum.lines(), commands);
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
