use std::sync::Arc;

use egui::{Panel, RichText, Slider, TextStyle, Ui};

use super::super::command::Command;
use super::super::outcome;
use super::super::perform::LEAN_MAX_DEG;
use super::super::words::outcome as told;
use super::super::{Editor, words};
use crate::checks::digest::first_to_go;
use crate::engine::numbers::PartNumbers;

/// The slow lean beside the limit when rolling; what is told; the cautions.
pub(in super::super) fn bottom_ui(ui: &mut Ui, editor: &mut Editor, commands: &mut Vec<Command>) {
    let plan = Arc::clone(editor.history.plan());
    let going = editor.leaning(&plan);
    let slow = slow_text(editor);
    Panel::bottom("bottom").show(ui, |ui| {
        ui.add_space(3.0);
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(words::LEAN);
            let mut deg = editor.lean_deg;
            ui.spacing_mut().slider_width = 180.0;
            let slider = Slider::new(&mut deg, 0.0..=LEAN_MAX_DEG)
                .suffix(words::LEAN_UNIT)
                .fixed_decimals(0)
                .step_by(1.0);
            if ui.add(slider).labelled_by(label.id).changed() {
                commands.push(Command::Lean(deg));
            }
            if editor.lean_deg > 0.0 {
                let text = RichText::new(words::go_at_this_lean(&going));
                let palette = editor.settings.theme.palette();
                let color = if going.is_empty() {
                    palette.good
                } else {
                    palette.danger
                };
                ui.label(text.color(color).strong());
            }
            ui.separator();
            ui.label(slow);
            ui.separator();
            ui.label(rolling_text(editor));
        });
        ui.separator();
        // One row for both, so that the plan above does not jump when something is told.
        ui.horizontal_wrapped(|ui| {
            ui.set_min_height(ui.text_style_height(&TextStyle::Body));
            if let Some(notice) = &editor.notice {
                ui.label(RichText::new(notice).strong());
                ui.separator();
            }
            ui.label(RichText::new(words::CAUTIONS).small());
        });
        ui.add_space(2.0);
    });
}

fn numbers(editor: &Editor) -> Option<&PartNumbers> {
    editor.live.assessor().assessment().parts.get(editor.part)
}

/// "Leaning slowly: goes at 14°, P6 first".
fn slow_text(editor: &mut Editor) -> String {
    let plan = Arc::clone(editor.history.plan());
    let waits = editor.history.is_open() && editor.lean_deg <= 0.0;
    let limits = editor.live.lean(&plan, &editor.trip, editor.part, waits);
    let first = limits.iter().min_by(|a, b| a.1.total_cmp(b.1));
    let text = match first {
        Some((id, deg)) => words::then(&told::goes_at(&outcome::degrees(*deg)), id),
        None => nothing_or_holds(editor).to_owned(),
    };
    words::leaning_slowly(&text)
}

fn nothing_or_holds(editor: &Editor) -> &'static str {
    let any = numbers(editor).is_some_and(|numbers| !numbers.cylinders.is_empty());
    if any {
        told::HOLDS_ALL
    } else {
        told::NOTHING_STOWED
    }
}

/// "Rolling every 2.8 s: goes at 8°, P6 first".
fn rolling_text(editor: &Editor) -> String {
    let Some(numbers) = numbers(editor) else {
        return words::NO_MOTION.to_owned();
    };
    let period = words::motion::every_so(&numbers.motion, editor.settings.units);
    let text = match first_to_go(numbers) {
        Some(first) => {
            let (limit, id) = (&first.limit, &first.cylinder);
            let text = outcome::goes_text(limit);
            let goes = limit.share.is_some() || limit.roll_deg.is_some();
            if goes || limit.goes_at_rest || limit.goes_without_roll {
                words::then(&text, id)
            } else {
                text
            }
        }
        None => nothing_or_holds(editor).to_owned(),
    };
    words::rolling_every(&period, &text)
}
