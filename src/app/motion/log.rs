//! A motion log: chosen, read beside the window, its swings beside the estimate, and put in its place.

use egui::{Button, ComboBox, Grid, Label, ProgressBar, RichText, ScrollArea, Ui, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::words::motion_log as words;
use super::log_job::{LogFound, LogJob, LogTrouble};
use super::place::ask;
use super::{MotionCommand, MotionPlace};
use crate::engine::numbers::PartNumbers;
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::motion_log::Swings;
use crate::store::motion_log::LogUnits;

/// Height of a list, in points.
const LIST_HIGH: f32 = 180.0;

/// A log and how it is read.
#[derive(Debug, Default)]
pub(crate) struct LogState {
    /// Units of columns whose names do not say them.
    pub(super) units: LogUnits,
    pub(super) job: Option<LogJob>,
}

impl LogState {
    /// Is it still read?
    pub(crate) fn is_busy(&self) -> bool {
        self.job.as_ref().is_some_and(LogJob::is_busy)
    }
}

pub(super) fn log_ui(
    ui: &mut Ui,
    editor: &Editor,
    place: &mut MotionPlace,
    commands: &mut Vec<Command>,
) {
    for line in words::WHAT {
        ui.add(Label::new(line).wrap());
    }
    let choose = Button::new(words::CHOOSE).min_size(vec2(0.0, 44.0));
    if ui.add(choose).clicked() {
        ask(commands, MotionCommand::ChooseLog);
    }
    let state = &mut place.log;
    let Some(job) = &mut state.job else {
        return;
    };
    job.collect();
    let name = job.path.file_name().map(|name| name.to_string_lossy());
    ui.strong(name.unwrap_or_default());
    match job.found() {
        None => {
            let progress = job.progress();
            let bar = ProgressBar::new(progress)
                .desired_width(360.0)
                .show_percentage();
            ui.add(bar);
            if ui.button(words::GIVE_UP).clicked() {
                ask(commands, MotionCommand::DropLog);
            }
            ui.request_repaint_after(std::time::Duration::from_millis(100));
        }
        Some(Err(trouble)) => {
            let (why, asks) = match trouble {
                LogTrouble::NoUnit(why) => (why, true),
                LogTrouble::Other(why) => (why, false),
            };
            let color = editor.settings.theme.palette().danger;
            let text = RichText::new(words::not_read(why)).color(color);
            ui.add(Label::new(text).wrap());
            if asks {
                units_ui(ui, &mut state.units, commands);
            }
        }
        Some(Ok(found)) => {
            let part = editor.live.assessor().assessment().parts.get(editor.part);
            found_ui(ui, found, part, commands);
        }
    }
}

/// The units that the first line of the log does not say.
fn units_ui(ui: &mut Ui, units: &mut LogUnits, commands: &mut Vec<Command>) {
    unit_pickers_ui(ui, units);
    let again = Button::new(words::READ_AGAIN).min_size(vec2(0.0, 44.0));
    if ui.add(again).clicked() {
        ask(commands, MotionCommand::ReadLogAgain);
    }
}

/// The units of columns whose headings do not say them, to be picked.
pub(in crate::app) fn unit_pickers_ui(ui: &mut Ui, units: &mut LogUnits) {
    ui.add(Label::new(words::WHICH_UNITS).wrap());
    let degree = std::f64::consts::PI / 180.0;
    unit_ui(
        ui,
        words::ANGLES,
        &mut units.angle_rad,
        &[("°", degree), ("rad", 1.0)],
    );
    unit_ui(
        ui,
        words::TIME,
        &mut units.time_s,
        &[("s", 1.0), ("ms", 1e-3)],
    );
    unit_ui(
        ui,
        words::ACCELERATIONS,
        &mut units.acceleration_m_s2,
        &[("g", GRAVITY), ("m/s²", 1.0)],
    );
}

fn unit_ui(ui: &mut Ui, name: &str, unit: &mut Option<f64>, units: &[(&str, f64)]) {
    let known = |value: f64| {
        units
            .iter()
            .find(|(_, one)| one.to_bits() == value.to_bits())
    };
    let shown = unit
        .and_then(known)
        .map_or(words::AS_WRITTEN, |found| found.0);
    ui.horizontal(|ui| {
        ui.label(name);
        ComboBox::from_id_salt(name)
            .selected_text(shown)
            .show_ui(ui, |ui| {
                if ui
                    .selectable_label(unit.is_none(), words::AS_WRITTEN)
                    .clicked()
                {
                    *unit = None;
                }
                for (symbol, value) in units {
                    if ui.selectable_label(shown == *symbol, *symbol).clicked() {
                        *unit = Some(*value);
                    }
                }
            })
            .response
            .accessible_name(name);
    });
}

fn found_ui(
    ui: &mut Ui,
    found: &LogFound,
    part: Option<&PartNumbers>,
    commands: &mut Vec<Command>,
) {
    let report = &found.report;
    ui.label(words::rows(report.rows, found.measures.hours));
    let odd = words::odd(
        report.gaps,
        report.duplicates,
        report.resets,
        report.bad_rows,
    );
    ui.label(odd);
    if !report.notes.is_empty() {
        egui::CollapsingHeader::new(words::WHERE_ODD).show(ui, |ui| {
            for note in &report.notes {
                ui.label(words::note(note.line, &note.what));
            }
        });
    }
    ui.add_space(6.0);
    compared_ui(ui, found, part);
    ui.add_space(6.0);
    let stand_in = Button::new(words::STAND_IN).min_size(vec2(0.0, 44.0));
    if ui
        .add(stand_in)
        .on_hover_text(words::STAND_IN_HELP)
        .clicked()
    {
        ask(commands, MotionCommand::StandIn);
    }
    if found.measures.vertical.is_none() {
        ui.add(Label::new(words::NO_ACCELERATIONS).wrap());
    }
    ui.add_space(6.0);
    ui.strong(words::WOULD_HAVE_GONE);
    let gone: Vec<_> = found
        .passed
        .iter()
        .filter(|(_, times)| *times > 0)
        .collect();
    if gone.is_empty() {
        ui.label(words::NONE_WOULD);
        return;
    }
    ScrollArea::vertical()
        .id_salt("passed in log")
        .max_height(LIST_HIGH)
        .show(ui, |ui| {
            for (cylinder, times) in gone {
                ui.label(words::would_have_gone(cylinder, *times));
            }
        });
}

/// What was measured beside what is estimated.
fn compared_ui(ui: &mut Ui, found: &LogFound, part: Option<&PartNumbers>) {
    let sea = part.and_then(|part| part.sea.as_ref());
    let sea = sea.filter(|sea| sea.refused.is_none());
    let degrees = |swings: &Swings, of: fn(&Swings) -> f64| words::degrees(of(swings).to_degrees());
    let none = || "–".to_owned();
    let measures = &found.measures;
    let pitch = measures.pitch.as_ref();
    let vertical = measures.vertical.as_ref();
    let rows = [
        (
            words::ROLL_LARGEST,
            degrees(&measures.roll, |swings| swings.largest),
            sea.map_or_else(none, |sea| words::degrees(sea.seen_roll_deg)),
        ),
        (
            words::ROLL_SIGNIFICANT,
            degrees(&measures.roll, |swings| swings.significant),
            // The mean of the highest third of narrow swings is twice the standard deviation.
            sea.map_or_else(none, |sea| words::degrees(2.0 * sea.roll_sigma_deg)),
        ),
        (
            words::ROLL_EVERY,
            words::seconds(measures.roll.period_s),
            sea.map_or_else(none, |sea| words::seconds(sea.roll_zero_crossing_s)),
        ),
        (words::ROLL_COUNT, measures.roll.count.to_string(), none()),
        (
            words::HEEL,
            degrees(&measures.roll, |swings| swings.mean),
            none(),
        ),
        (
            words::PITCH_LARGEST,
            pitch.map_or_else(none, |pitch| degrees(pitch, |swings| swings.largest)),
            sea.map_or_else(none, |sea| words::degrees(sea.pitch_deg)),
        ),
        (
            words::PITCH_EVERY,
            pitch.map_or_else(none, |pitch| words::seconds(pitch.period_s)),
            sea.map_or_else(none, |sea| words::seconds(sea.pitch_zero_crossing_s)),
        ),
        (
            words::VERTICAL,
            vertical.map_or_else(none, |vertical| words::gravity(vertical.largest / GRAVITY)),
            sea.map_or_else(none, |sea| words::gravity(sea.vertical_g)),
        ),
    ];
    Grid::new("log beside estimate")
        .num_columns(3)
        .striped(true)
        .spacing(vec2(24.0, 5.0))
        .show(ui, |ui| {
            for title in words::COMPARED {
                ui.strong(title);
            }
            ui.end_row();
            for (name, measured, estimated) in rows {
                ui.label(name);
                ui.label(measured);
                ui.label(estimated);
                ui.end_row();
            }
        });
    if sea.is_none() {
        ui.weak(words::NO_ESTIMATE);
    }
}
