//! The rolling-period test, timed with a tap on each swing.

use egui::{Button, DragValue, RichText, Ui};

use super::super::command::Command;
use super::super::words::motion as words;
use super::place::ask;
use super::{MotionCommand, MotionPlace};
use crate::layout::{Boat, RollTestLoading, RollTestRun};

/// What is tapped: a gloved hand on a moving boat.
const TAP_SIZE: [f32; 2] = [280.0, 88.0];

/// A run that is typed in begins so.
const TYPED: RollTestRun = RollTestRun {
    swings: 5,
    total_s: 15.0,
};

pub(super) fn stopwatch_ui(ui: &mut Ui, place: &MotionPlace, commands: &mut Vec<Command>) {
    ui.strong(words::STOPWATCH);
    egui::CollapsingHeader::new(words::HOW_TO)
        .default_open(true)
        .show(ui, |ui| {
            for line in words::HOW_TO_STEPS {
                ui.add(egui::Label::new(line).wrap());
            }
        });
    let taps = &place.taps;
    let text = RichText::new(words::tap(taps.count())).size(22.0).strong();
    if ui.add_sized(TAP_SIZE, Button::new(text)).clicked() {
        ask(commands, MotionCommand::Tap);
    }
    let timing = taps.timing();
    match &timing {
        Some(timing) => {
            let told = words::timing(timing.swings, timing.total_s, timing.mean_s);
            ui.label(RichText::new(told).size(17.0).strong());
            ui.label(words::spread(timing.spread_s, timing.last_s));
            if timing.has_missed_one() {
                ui.label(words::MISSED_ONE);
            }
        }
        None => {
            ui.weak(words::no_timing(taps.count()));
        }
    }
    ui.horizontal_wrapped(|ui| {
        let back = Button::new(words::TAKE_TAP_BACK).min_size(egui::vec2(0.0, 44.0));
        if ui.add_enabled(taps.count() > 0, back).clicked() {
            ask(commands, MotionCommand::TakeTapBack);
        }
        let again = Button::new(words::CLEAR_TAPS).min_size(egui::vec2(0.0, 44.0));
        if ui.add_enabled(taps.count() > 0, again).clicked() {
            ask(commands, MotionCommand::ClearTaps);
        }
        let keep = Button::new(words::KEEP_RUN).min_size(egui::vec2(0.0, 44.0));
        if ui.add_enabled(timing.is_some(), keep).clicked() {
            ask(commands, MotionCommand::AddRun(None));
        }
    });
    if ui.button(words::TYPE_RUN).clicked() {
        ask(commands, MotionCommand::AddRun(Some(TYPED)));
    }
}

/// The runs kept, and how she was loaded. Returns whether the boat was changed.
pub(super) fn runs_ui(ui: &mut Ui, boat: &mut Boat) -> bool {
    let Some(test) = &mut boat.roll_test else {
        ui.weak(words::NO_RUNS);
        return false;
    };
    let mut changed = false;
    let mut gone = None;
    for (index, run) in test.runs.iter_mut().enumerate() {
        ui.push_id(index, |ui| {
            ui.horizontal_wrapped(|ui| {
                let label = ui.label(words::run(index + 1));
                let swings = DragValue::new(&mut run.swings).range(1..=1000).speed(0.1);
                changed |= ui.add(swings).labelled_by(label.id).changed();
                let label = ui.label(words::SWINGS_IN);
                let total = DragValue::new(&mut run.total_s)
                    .range(0.5..=3600.0)
                    .speed(0.1)
                    .max_decimals(2)
                    .suffix(words::SECONDS);
                changed |= ui.add(total).labelled_by(label.id).changed();
                ui.label(words::every(run.total_s / f64::from(run.swings.max(1))));
                let away = ui.button(words::RUN_AWAY);
                if away.on_hover_text(words::run_away(index + 1)).clicked() {
                    gone = Some(index);
                }
            });
        });
    }
    if let Some(index) = gone {
        test.runs.remove(index);
        changed = true;
    }
    changed |= loading_ui(ui, &mut test.loading);
    if test.runs.is_empty() {
        boat.roll_test = None;
    }
    changed
}

/// How she was loaded: it gives f of the published table, and with it GM.
fn loading_ui(ui: &mut Ui, loading: &mut Option<RollTestLoading>) -> bool {
    use RollTestLoading::{
        DeepSeaFishing, DoubleBoom, EmptyOrBallast, LiquidsFifth, LiquidsTenth, LiquidsTwentieth,
        LiveFishWell,
    };
    let rows = [
        None,
        Some(EmptyOrBallast),
        Some(LiquidsFifth),
        Some(LiquidsTenth),
        Some(LiquidsTwentieth),
        Some(DoubleBoom),
        Some(DeepSeaFishing),
        Some(LiveFishWell),
    ];
    let before = *loading;
    ui.label(words::LOADING);
    egui::ComboBox::from_id_salt(words::LOADING)
        .width(330.0)
        .truncate()
        .selected_text(words::loading(*loading))
        .show_ui(ui, |ui| {
            for row in rows {
                if ui
                    .selectable_label(row == *loading, words::loading(row))
                    .clicked()
                {
                    *loading = row;
                }
            }
        })
        .response
        .accessible_name(words::LOADING);
    *loading != before
}
