//! The limit card of the part of the day shown: how far the stowage (not the boat) is good in a sea and in roll,
//! what goes first, and which cures raise it; worked out beside the window.

mod job;

pub(crate) use self::job::CardJob;

use std::sync::Arc;

use egui::{Button, CollapsingHeader, Label, RichText, Ui, vec2};
use egui_plot::{HLine, Line, LineStyle, PlotPoints};

use super::Editor;
use super::command::Command;
use super::still_plot::{Axes, still_plot};
use super::words::limit_card as words;
use crate::checks::{LimitCard, MarginAt};

/// Height of the drawing, in points.
const HEIGHT: f32 = 260.0;

/// Shares above it are drawn at it: nothing goes.
const MOST_SHARE: f64 = 4.0;

pub(crate) fn limit_card_ui(
    ui: &mut Ui,
    editor: &Editor,
    job: &mut CardJob,
    commands: &mut Vec<Command>,
) {
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let Some(part) = part else { return };
    if !editor.history.is_open() {
        job.ask(ui.ctx(), editor.history.plan(), &editor.trip, &part.id);
    }
    job.collect();
    let Some(card) = job.card() else {
        ui.label(if job.is_busy() {
            words::WORKING
        } else {
            words::NONE
        });
        return;
    };
    let card = Arc::clone(card);
    ui.add_space(4.0);
    let big = |text: &str| Label::new(RichText::new(text).size(20.0).strong()).wrap();
    ui.add(big(&card.sea_sentence));
    ui.add(Label::new(RichText::new(words::own_motion(&card.roll_sentence)).size(16.0)).wrap());
    if job.is_busy() {
        ui.weak(words::TRYING_CURES);
    }
    if let Some(cured) = &card.with_cures {
        ui.add(big(&cured.sentence));
    }
    cures_ui(ui, editor, &card, commands);
    ui.add_space(8.0);
    plot_ui(ui, editor, &card);
    ui.strong(words::NOT_KNOWN);
    for limit in &card.limits {
        ui.add(Label::new(words::bullet(limit)).wrap());
    }
    ui.add_space(8.0);
    let copy = Button::new(words::COPY).min_size(vec2(0.0, 44.0));
    if ui.add(copy).clicked() {
        commands.push(Command::Copy(words::as_text(&card)));
    }
}

/// The cures that raise the limit most, each to be done with those before it.
fn cures_ui(ui: &mut Ui, editor: &Editor, card: &LimitCard, commands: &mut Vec<Command>) {
    for (index, best) in card.cures.iter().enumerate() {
        let label = best.cure.label.show(editor.settings.units).into_owned();
        let text = words::cure(index + 1, label.trim_end_matches('.'), &best.sentence);
        ui.add(Label::new(text).wrap());
        let button = Button::new(words::apply(index + 1)).min_size(vec2(0.0, 44.0));
        if ui.add(button).clicked() {
            let done = card.cures.iter().take(index + 1);
            let edits = done.flat_map(|best| best.cure.edits.clone()).collect();
            commands.push(Command::Run {
                label: words::step_cures(index + 1),
                edits,
                select: None,
            });
        }
    }
    if !card.not_cured.is_empty() {
        CollapsingHeader::new(words::NOT_CURED).show(ui, |ui| {
            for sentence in &card.not_cured {
                ui.add(Label::new(sentence).wrap());
            }
        });
    }
}

fn line_of(margins: &[MarginAt]) -> Vec<[f64; 2]> {
    let share = |margin: &MarginAt| margin.share.unwrap_or(MOST_SHARE).min(MOST_SHARE);
    let points = margins.iter();
    points
        .map(|margin| [margin.wave_height_m, share(margin)])
        .collect()
}

/// The margin against wave height: above one the stowage holds.
fn plot_ui(ui: &mut Ui, editor: &Editor, card: &LimitCard) {
    if card.margins.is_empty() {
        return;
    }
    ui.strong(words::PLOT);
    let palette = editor.settings.theme.palette();
    let width = 2.0 * palette.line_scale;
    let told = words::plot(card.good_to_wave_height_m);
    let axes = Axes {
        across: words::ACROSS,
        up: words::UP,
    };
    let id = "margin against wave height";
    let plot = still_plot(id, HEIGHT, axes, palette, words::point).include_y(2.0);
    let shown = plot.show(ui, |plot| {
        plot.line(
            Line::new(words::AS_STOWED, PlotPoints::from(line_of(&card.margins)))
                .color(palette.lashing)
                .width(width),
        );
        if let Some(cured) = &card.with_cures {
            plot.line(
                Line::new(words::CURED, PlotPoints::from(line_of(&cured.margins)))
                    .color(palette.good)
                    .style(LineStyle::dashed_loose())
                    .width(width),
            );
        }
        plot.hline(
            HLine::new(words::GOES_BELOW, 1.0)
                .color(palette.danger)
                .style(LineStyle::dotted_dense()),
        );
    });
    let response = shown.response;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_never_goes_is_drawn_at_the_top() {
        let at = |share| MarginAt {
            wave_height_m: 0.5,
            share,
            holds: true,
        };
        let line = line_of(&[at(None), at(Some(1.5)), at(Some(9.0))]);
        assert_eq!(line, [[0.5, 4.0], [0.5, 1.5], [0.5, 4.0]]);
    }
}
