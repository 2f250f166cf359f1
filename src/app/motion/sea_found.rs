//! What a sea and a wake make of the boat: the roll that is seen, the force that is felt, how often each limit is
//! passed, and what the estimate does not know.

use egui::{Button, CollapsingHeader, Grid, Label, RichText, ScrollArea, Ui, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::words::sea as words;
use super::sea_plot::plot_ui;
use crate::engine::numbers::{Crossing, PartNumbers, SeaNumbers, WakeNumbers};
use crate::layout::Part;
use crate::mechanics::motion::GRAVITY;

/// Height of the list of how often limits are passed, in points.
const LIST_HIGH: f32 = 190.0;

fn numbers(editor: &Editor) -> Option<&PartNumbers> {
    let assessment = editor.live.assessor().assessment();
    assessment.parts.get(editor.part)
}

/// Which motion the checks use now; taking the estimate over, or going back to it.
pub(super) fn counts_ui(ui: &mut Ui, editor: &Editor, part: &mut Part) -> Option<&'static str> {
    let numbers = numbers(editor)?;
    let mut changed = None;
    ui.add_space(8.0);
    ui.strong(words::COUNTS);
    let motion = &numbers.motion;
    let every = super::super::words::motion::every_so(motion, editor.settings.units);
    let told = words::checked_with(
        motion.roll_amplitude_deg,
        &every,
        motion.pitch_amplitude_deg,
        motion.vertical_m_s2 / GRAVITY,
    );
    ui.add(Label::new(RichText::new(told).strong()).wrap());
    ui.add(Label::new(words::source(motion.source, part.motion.is_some())).wrap());
    if let Some(made) = &motion.made_from {
        ui.add(Label::new(words::made_from(made)).wrap());
    }
    for line in &motion.assumed {
        ui.add(Label::new(words::assumed(line)).wrap());
    }
    let estimated = editor.live.assessor().estimated_motion(editor.part);
    ui.horizontal_wrapped(|ui| {
        let button = |text| Button::new(text).min_size(vec2(0.0, 44.0));
        let over = ui.add_enabled(estimated.is_some(), button(words::TAKE_OVER));
        if over.on_hover_text(words::TAKE_OVER_HELP).clicked() {
            part.motion = estimated.cloned();
            changed = Some("taken over");
        }
        let back = ui.add_enabled(part.motion.is_some(), button(words::BACK_TO_ESTIMATE));
        if back.on_hover_text(words::BACK_HELP).clicked() {
            part.motion = None;
            changed = Some("estimate");
        }
    });
    changed
}

pub(super) fn found_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(numbers) = numbers(editor) else {
        return;
    };
    match &numbers.sea {
        Some(sea) => sea_ui(ui, editor, sea, commands),
        None => {
            ui.add(Label::new(words::NO_SEA).wrap());
        }
    }
    if let Some(wake) = &numbers.wake {
        ui.add_space(8.0);
        wake_ui(ui, wake);
    }
}

fn sea_ui(ui: &mut Ui, editor: &Editor, sea: &SeaNumbers, commands: &mut Vec<Command>) {
    let palette = editor.settings.theme.palette();
    if let Some(why) = &sea.refused {
        let text = RichText::new(words::refused(why)).color(palette.warning);
        ui.add(Label::new(text.strong()).wrap());
        return;
    }
    let big = |text: String| Label::new(RichText::new(text).size(17.0).strong()).wrap();
    ui.add(big(words::seen(
        sea.seen_roll_deg,
        sea.lasts_h,
        sea.seen_roll_band_deg,
    )));
    ui.add(big(words::felt(sea.checked_roll_deg)));
    ui.add(Label::new(words::WHY_TWO).wrap());
    figures_ui(ui, editor, sea);
    plot_ui(ui, editor, sea);
    crossings_ui(ui, &sea.crossings);
    ui.strong(words::NOT_KNOWN);
    for limit in &sea.limits {
        ui.add(Label::new(words::bullet(limit)).wrap());
    }
    CollapsingHeader::new(words::SHOW_SUM).show(ui, |ui| {
        for (index, step) in sea.steps.iter().enumerate() {
            ui.add(Label::new(format!("{}. {step}", index + 1)).wrap());
        }
        if ui.button(words::COPY).clicked() {
            commands.push(Command::Copy(sea.steps.join("\n")));
        }
    });
}

fn figures_ui(ui: &mut Ui, editor: &Editor, sea: &SeaNumbers) {
    let units = editor.settings.units;
    let height = crate::units::Quantity::Length.show(sea.wave_height_m, units);
    let lever = crate::units::Quantity::Length.show(sea.lever_m, units);
    let governs = if sea.by_roll_less_slope_m_s2 > sea.by_roll_m_s2 {
        words::SLOPE_GOVERNS
    } else {
        words::ROLL_GOVERNS
    };
    let rows = [
        (
            words::THE_SEA,
            words::waves(&height, sea.sea_state, sea.wave_period_s),
        ),
        (
            words::TRIED,
            words::tried(sea.wave_period_tried_s, sea.rolls_most_from_deg),
        ),
        (
            words::ROLL_SPREAD,
            words::spread(sea.roll_sigma_deg, sea.roll_zero_crossing_s),
        ),
        (
            words::IN_TEN,
            words::in_ten(sea.one_in_ten_roll_deg, sea.lasts_h),
        ),
        (
            words::FORCE,
            words::force(&lever, sea.by_roll_m_s2, sea.by_roll_less_slope_m_s2),
        ),
        ("", governs.to_owned()),
        (
            words::PITCH,
            words::pitch(sea.pitch_deg, sea.pitch_zero_crossing_s, sea.vertical_g),
        ),
        (
            words::OWN_PERIOD,
            words::own(sea.natural_roll_period_s, sea.damping_ratio),
        ),
    ];
    let wide = ui.available_width();
    Grid::new("sea figures")
        .num_columns(2)
        .spacing(vec2(12.0, 4.0))
        .max_col_width(0.66 * wide)
        .show(ui, |ui| {
            for (name, told) in rows {
                ui.add(Label::new(name).wrap());
                ui.add(Label::new(told).wrap());
                ui.end_row();
            }
        });
}

/// How often each cylinder's limit is passed.
fn crossings_ui(ui: &mut Ui, crossings: &[Crossing]) {
    ui.strong(words::PASSED);
    if crossings.is_empty() {
        ui.weak(words::NONE_PASSED);
        return;
    }
    ScrollArea::vertical()
        .id_salt("crossings")
        .max_height(LIST_HIGH)
        .show(ui, |ui| {
            Grid::new("crossings")
                .num_columns(3)
                .striped(true)
                .spacing(vec2(18.0, 4.0))
                .show(ui, |ui| {
                    for title in words::PASSED_COLUMNS {
                        ui.strong(title);
                    }
                    ui.end_row();
                    for crossing in crossings {
                        ui.label(&crossing.cylinder);
                        ui.label(words::goes_at(crossing.limit_roll_deg));
                        ui.label(words::per_hour(crossing.per_hour));
                        ui.end_row();
                    }
                });
        });
}

fn wake_ui(ui: &mut Ui, wake: &WakeNumbers) {
    ui.strong(words::THE_WAKE);
    let big = |text: String| Label::new(RichText::new(text).size(17.0).strong()).wrap();
    ui.add(big(words::wake(wake.seen_roll_deg, wake.checked_roll_deg)));
    let told = words::wake_force(wake.by_roll_m_s2, wake.by_roll_less_slope_m_s2);
    ui.add(Label::new(told).wrap());
    ui.add(Label::new(words::WAKE_LIMITS).wrap());
}
