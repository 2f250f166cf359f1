//! The sea of the part of the day and a passing wake: what is given of them.

use egui::{DragValue, Label, RichText, Ui};

use super::super::Editor;
use super::super::command::Command;
use super::super::moving::put;
use super::super::panels::fields::{self, Number};
use super::super::panels::motion_given_ui;
use super::super::words::sea as words;
use super::super::words::{self as all, card};
use super::sea_found;
use crate::engine::running_motion;
use crate::layout::{Part, RunningKind, Sea, SpectrumKind, SpreadingKind, Thing, Wake, WatersKind};
use crate::mechanics::seaway::states;
use crate::units::{Quantity, System};

/// The sea that a part begins with.
const FIRST_HEIGHT_M: f64 = 0.5;

/// The wake that a part begins with: that of a motor yacht that passes close by. Common practice, no source.
const FIRST_WAKE: Wake = Wake {
    wave_height_m: 0.4,
    wave_period_s: 3.5,
    waves: 5,
};

pub(super) fn sea_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let (Some(trip), Some(mut part)) = (editor.trip(), part.cloned()) else {
        return;
    };
    let mut changed = None;
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        // Columns are justified; what stands in them is not.
        changed = left.vertical(|ui| given_ui(ui, editor, &mut part)).inner;
        right.vertical(|ui| sea_found::found_ui(ui, editor, commands));
    });
    if let Some(field) = changed {
        let name = part.id.clone();
        commands.push(Command::Alter {
            field: format!("{name} {field} motion"),
            label: all::step_change(&name),
            edits: vec![put(trip, Thing::Part(part))],
        });
    }
}

/// Everything that can be given here; tells what was changed.
fn given_ui(ui: &mut Ui, editor: &Editor, part: &mut Part) -> Option<&'static str> {
    let asked = asked_ui(ui, editor, part);
    let counts = sea_found::counts_ui(ui, editor, part);
    let by_hand = part.motion.is_some().then(|| {
        egui::CollapsingHeader::new(words::BY_HAND)
            .default_open(false)
            .show(ui, |ui| motion_given_ui(ui, editor, part))
    });
    let by_hand = by_hand.and_then(|shown| shown.body_returned.flatten());
    let preset = presets_ui(ui, part);
    asked.or(counts).or(by_hand).or(preset)
}

/// What is given of sea and wake.
fn asked_ui(ui: &mut Ui, editor: &Editor, part: &mut Part) -> Option<&'static str> {
    let units = editor.settings.units;
    let mut changed = None;
    fields::grid(ui, "sea", |ui| {
        let mut has_sea = part.sea.is_some();
        if fields::flag(ui, words::HAS_SEA, &mut has_sea) {
            part.sea = has_sea.then(|| Sea {
                wave_height_m: Some(FIRST_HEIGHT_M),
                ..Sea::default()
            });
            changed = Some("sea");
        }
        if let Some(sea) = &mut part.sea {
            changed = waves_ui(ui, units, sea).or(changed);
            changed = way_ui(ui, units, sea).or(changed);
            let lasts = Number::new(card::DURATION, "duration_h", Quantity::Hours);
            let value = &mut part.duration_h;
            if fields::optional(ui, lasts, units, value, words::ONE_HOUR) {
                changed = Some("duration");
            }
        }
        let mut has_wake = part.wake.is_some();
        if fields::flag(ui, words::HAS_WAKE, &mut has_wake) {
            part.wake = has_wake.then_some(FIRST_WAKE);
            changed = Some("wake");
        }
        if let Some(wake) = &mut part.wake {
            let height = Number::new(words::WAKE_HEIGHT, "wave_height_m", Quantity::Length);
            let period = Number::new(words::WAKE_PERIOD, "wave_period_s", Quantity::Time);
            let mut is = fields::number(ui, height, units, &mut wake.wave_height_m);
            is |= fields::number(ui, period, units, &mut wake.wave_period_s);
            is |= fields::count(ui, words::WAKE_WAVES, &mut wake.waves, 1..=50);
            if is {
                changed = Some("wake");
            }
            if *wake == FIRST_WAKE {
                ui.label("");
                ui.add(Label::new(RichText::new(words::FIRST_WAKE).weak()).wrap());
                ui.end_row();
            }
        }
    });
    changed
}

/// Height, period and shape of the sea.
fn waves_ui(ui: &mut Ui, units: System, sea: &mut Sea) -> Option<&'static str> {
    let mut changed = None;
    let mut by_state = sea.sea_state.is_some();
    let ways = [
        (false, words::BY_HEIGHT.to_owned()),
        (true, words::BY_STATE.to_owned()),
    ];
    if fields::choice(ui, words::GIVEN_AS, &mut by_state, &ways) {
        let height = sea.wave_height_m.unwrap_or(FIRST_HEIGHT_M);
        (sea.wave_height_m, sea.sea_state) = if by_state {
            (None, Some(u32::from(states::state_of(height).min(8))))
        } else {
            let state = sea.sea_state.and_then(|state| u8::try_from(state).ok());
            let range = state.and_then(states::height_range_m);
            (Some(range.map_or(height, |range| range[1])), None)
        };
        changed = Some("given as");
    }
    if let Some(state) = &mut sea.sea_state {
        let states: Vec<(u32, String)> = (0..=8_u8)
            .filter_map(|state| {
                let shown = states::height_range_m(state)?
                    .map(|height| Quantity::Length.show(height, units));
                Some((u32::from(state), words::state(state, &shown)))
            })
            .collect();
        if fields::choice(ui, words::SEA_STATE, state, &states) {
            changed = Some("state");
        }
    } else {
        let height = Number::new(words::HEIGHT, "wave_height_m", Quantity::Length);
        let value = sea.wave_height_m.get_or_insert(FIRST_HEIGHT_M);
        if fields::number(ui, height, units, value) {
            changed = Some("height");
        }
    }
    let waters = [WatersKind::Coastal, WatersKind::Ocean];
    let waters = waters.map(|item| (item, words::waters(item).to_owned()));
    if fields::choice(ui, words::WATERS, &mut sea.waters, &waters) {
        changed = Some("waters");
    }
    let period = Number::new(words::PERIOD, "wave_period_s", Quantity::Time);
    let value = &mut sea.wave_period_s;
    let was = value.is_some();
    if fields::optional(ui, period, units, value, words::WORST_PERIOD) {
        if let (false, Some(value)) = (was, value) {
            *value = 4.0;
        }
        changed = Some("period");
    }
    let shapes = [SpectrumKind::Bretschneider, SpectrumKind::Jonswap];
    let shapes = shapes.map(|item| (item, words::spectrum(item).to_owned()));
    if fields::choice(ui, words::SHAPE, &mut sea.spectrum, &shapes) {
        changed = Some("shape");
    }
    let spread = [
        SpreadingKind::LongCrested,
        SpreadingKind::Cosine2,
        SpreadingKind::Cosine4,
        SpreadingKind::Cosine8,
    ];
    let spread = spread.map(|item| (item, words::spreading(item).to_owned()));
    if fields::choice(ui, words::SPREAD, &mut sea.spreading, &spread) {
        changed = Some("spread");
    }
    changed
}

/// Where the waves come from and how fast she goes.
fn way_ui(ui: &mut Ui, units: System, sea: &mut Sea) -> Option<&'static str> {
    let mut changed = None;
    let from = Number::new(words::FROM, "waves_from_deg", Quantity::Angle);
    let value = &mut sea.waves_from_deg;
    let was = value.is_some();
    if fields::optional(ui, from, units, value, words::WORST_SIDE) {
        if let (false, Some(value)) = (was, value) {
            *value = 90.0;
        }
        changed = Some("from");
    }
    let label = ui.add(Label::new(words::SPEED).wrap());
    let speed = DragValue::new(&mut sea.speed_kn)
        .range(0.0..=60.0)
        .speed(0.1)
        .max_decimals(1)
        .suffix(words::KNOTS);
    if ui.add(speed).labelled_by(label.id).changed() {
        changed = Some("speed");
    }
    ui.end_row();
    if sea.speed_kn > 0.0 {
        let runs = [
            None,
            Some(RunningKind::Easy),
            Some(RunningKind::Hard),
            Some(RunningKind::Airborne),
        ];
        let runs = runs.map(|item| (item, words::runs(item).to_owned()));
        if fields::choice(ui, words::RUNS, &mut sea.runs, &runs) {
            changed = Some("runs");
        }
    }
    changed
}

/// Presets for a boat that runs, put into the part's motion.
fn presets_ui(ui: &mut Ui, part: &mut Part) -> Option<&'static str> {
    ui.add_space(8.0);
    ui.strong(words::PRESETS);
    ui.add(Label::new(words::PRESETS_HELP).wrap());
    let mut changed = None;
    egui::Grid::new("presets").num_columns(2).show(ui, |ui| {
        for kind in [RunningKind::Easy, RunningKind::Hard, RunningKind::Airborne] {
            let motion = running_motion(kind);
            let button = egui::Button::new(words::preset(kind)).min_size(egui::vec2(96.0, 44.0));
            let told = words::preset_figures(&motion);
            if ui.add(button).on_hover_text(&told).clicked() {
                part.motion = Some(motion);
                changed = Some("preset");
            }
            ui.add(Label::new(told).wrap());
            ui.end_row();
        }
    });
    changed
}
