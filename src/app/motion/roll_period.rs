//! Roll period, GM and damping: everything that there is of each, beside each other.

use egui::{DragValue, Grid, RichText, Sense, Ui, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::panels::fields::{self, Number};
use super::super::panels::hull_ui;
use super::super::words::{card, motion as words};
use super::super::{theme::Palette, words as all};
use super::{MotionPlace, stopwatch};
use crate::engine::numbers::RollPeriodNumbers;
use crate::engine::roll_period;
use crate::layout::{Boat, Edit};
use crate::units::{Quantity, System};

/// The damping that the drawing ends at, as a share of the critical.
const MOST_DAMPING: f64 = 0.3;

pub(super) fn roll_period_ui(
    ui: &mut Ui,
    editor: &Editor,
    place: &MotionPlace,
    commands: &mut Vec<Command>,
) {
    let numbers = roll_period(&editor.plan().boat);
    let mut boat = editor.plan().boat.clone();
    let mut changed = None;
    taken_ui(ui, &numbers);
    compared_ui(ui, editor, &numbers);
    ui.add_space(8.0);
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        // Columns are justified; what stands in them is not.
        left.vertical(|ui| {
            changed = boat_ui(ui, editor.settings.units, &mut boat);
            ui.add_space(10.0);
            damping_ui(ui, editor, &numbers, &mut boat, &mut changed);
        });
        right.vertical(|ui| {
            stopwatch::stopwatch_ui(ui, place, commands);
            ui.add_space(6.0);
            ui.strong(words::RUNS);
            if stopwatch::runs_ui(ui, &mut boat) {
                changed = Some("roll test");
            }
        });
    });
    if let Some(field) = changed {
        let name = boat.name.clone();
        commands.push(Command::Alter {
            field: format!("{name} {field} motion"),
            label: all::step_change(&name),
            edits: vec![Edit::SetBoat(Box::new(boat))],
        });
    }
}

/// What the checks use, in one line.
fn taken_ui(ui: &mut Ui, numbers: &RollPeriodNumbers) {
    let text = words::taken(numbers.taken_s, &numbers.taken_from);
    ui.add(egui::Label::new(RichText::new(text).size(17.0).strong()).wrap());
    let [short, long] = numbers.taken_s;
    if short < long {
        ui.add(egui::Label::new(words::RANGE_IS_WORST).wrap());
    }
}

/// Every way to a roll period and to GM beside each other, and where they disagree.
fn compared_ui(ui: &mut Ui, editor: &Editor, numbers: &RollPeriodNumbers) {
    let boat = &editor.plan().boat;
    let seconds = |value: Option<f64>| value.map_or_else(|| "–".to_owned(), words::seconds);
    let length = |value: Option<f64>| {
        let shown = |value| Quantity::Length.show(value, editor.settings.units);
        value.map_or_else(|| "–".to_owned(), shown)
    };
    let timed = numbers.timed.as_ref();
    let by_watch = timed.map_or_else(
        || words::NO_RUNS.to_owned(),
        |timed| {
            words::timed(
                timed.swings,
                timed.spread_s,
                timed.band_s,
                timed.by_the_code,
            )
        },
    );
    let range = boat.roll_period_range_s;
    let formula = match &numbers.formula_refused {
        Some(why) => words::refused(why),
        None => words::BY_CODE.to_owned(),
    };
    let tested = match (&numbers.test_refused, numbers.tested_gm_band_m) {
        (Some(why), _) => words::no_gm(why),
        (None, Some([low, high])) => {
            let units = editor.settings.units;
            let shown = [low, high].map(|gm| Quantity::Length.show(gm, units));
            words::gm_band(&shown[0], &shown[1])
        }
        (None, None) => String::new(),
    };
    let rows = [
        (
            words::ROW_GIVEN,
            seconds(numbers.given_s),
            length(numbers.given_gm_m),
            String::new(),
        ),
        (
            words::ROW_TIMED,
            seconds(timed.map(|timed| timed.period_s)),
            length(numbers.tested_gm_m),
            [by_watch, tested]
                .into_iter()
                .filter(|text| !text.is_empty())
                .collect::<Vec<String>>()
                .join("; "),
        ),
        (
            words::ROW_RANGE,
            range.map_or_else(|| "–".to_owned(), words::from_to_seconds),
            "–".to_owned(),
            String::new(),
        ),
        (
            words::ROW_FORMULA,
            seconds(numbers.by_formula_s),
            "–".to_owned(),
            formula,
        ),
    ];
    Grid::new("roll periods")
        .num_columns(4)
        .striped(true)
        .spacing(vec2(16.0, 6.0))
        .show(ui, |ui| {
            for title in words::COMPARED {
                ui.strong(title);
            }
            ui.end_row();
            for (name, period, gm, told) in rows {
                ui.label(name);
                ui.label(period);
                ui.label(gm);
                let rest = ui.available_width().max(240.0);
                ui.scope(|ui| {
                    ui.set_max_width(rest.min(560.0));
                    ui.add(egui::Label::new(told).wrap());
                });
                ui.end_row();
            }
        });
    let palette = editor.settings.theme.palette();
    for line in &numbers.disagreements {
        let text = RichText::new(words::disagree(line)).color(palette.warning);
        ui.add(egui::Label::new(text.strong()).wrap());
    }
}

/// What the formulas ask of the boat.
fn boat_ui(ui: &mut Ui, units: System, boat: &mut Boat) -> Option<&'static str> {
    let mut changed = None;
    let mut note = |field: &'static str, is: bool| {
        if is {
            changed = Some(field);
        }
    };
    ui.strong(words::THE_BOAT);
    fields::grid(ui, "roll boat", |ui| {
        if let Some(field) = hull_ui(ui, units, boat, words::PERIOD_GIVEN) {
            note(field, true);
        }
        note("range", range_ui(ui, &mut boat.roll_period_range_s));
        let axis = Number::new(words::ROLL_AXIS, "roll_axis_height_m", Quantity::Length);
        let value = &mut boat.roll_axis_height_m;
        let is = fields::optional(ui, axis, units, value, words::AT_WATERLINE);
        note("roll axis", is);
    });
    changed
}

/// "2 to 4 s", where no more is known.
fn range_ui(ui: &mut Ui, range: &mut Option<[f64; 2]>) -> bool {
    let label = ui.add(egui::Label::new(words::RANGE).wrap());
    let mut changed = false;
    ui.horizontal_wrapped(|ui| {
        let mut given = range.is_some();
        let check = ui.checkbox(&mut given, card::GIVEN).labelled_by(label.id);
        if check.changed() {
            *range = given.then_some([2.0, 4.0]);
            changed = true;
        }
        let Some([short, long]) = range else {
            ui.weak(card::NOT_SAID);
            return;
        };
        let [before_short, before_long] = [*short, *long];
        for (value, name) in [(&mut *short, words::SHORTEST), (&mut *long, words::LONGEST)] {
            let field = DragValue::new(value)
                .range(0.5..=30.0)
                .speed(0.05)
                .max_decimals(2)
                .suffix(words::SECONDS);
            let response = ui.add(field);
            let response = response.on_hover_text(name);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::SpinButton, true, name));
        }
        // The shorter stays the shorter.
        if *short > *long {
            if before_short.to_bits() == short.to_bits() {
                *short = *long;
            } else {
                *long = *short;
            }
        }
        changed |=
            before_short.to_bits() != short.to_bits() || before_long.to_bits() != long.to_bits();
    });
    ui.end_row();
    changed
}

/// Damping as a band, and what may be given in its place.
fn damping_ui(
    ui: &mut Ui,
    editor: &Editor,
    numbers: &RollPeriodNumbers,
    boat: &mut Boat,
    changed: &mut Option<&'static str>,
) {
    ui.strong(words::DAMPING);
    let told = words::damping(numbers.damping_ratio, numbers.damping_growth > 0.0);
    band_ui(
        ui,
        editor.settings.theme.palette(),
        numbers.damping_ratio,
        &told,
    );
    ui.add(egui::Label::new(&told).wrap());
    ui.weak(words::from_where(&numbers.damping_source));
    fields::grid(ui, "damping", |ui| {
        let ratio = Number::new(words::DAMPING_GIVEN, "roll_damping_ratio", Quantity::Plain);
        let value = &mut boat.roll_damping_ratio;
        let was = value.is_some();
        if fields::optional(ui, ratio, editor.settings.units, value, words::OF_HULL) {
            if let (false, Some(value)) = (was, value) {
                *value = numbers.damping_ratio[1];
            }
            *changed = Some("damping");
        }
        let label = ui.add(egui::Label::new(words::BERTIN).wrap());
        ui.horizontal_wrapped(|ui| {
            let mut given = boat.roll_bertin_n.is_some();
            let check = ui.checkbox(&mut given, card::GIVEN).labelled_by(label.id);
            if check.changed() {
                boat.roll_bertin_n = given.then_some(0.0106);
                *changed = Some("bertin");
            }
            if let Some(value) = &mut boat.roll_bertin_n {
                let field = DragValue::new(value)
                    .range(0.0..=0.1)
                    .speed(0.0002)
                    .max_decimals(4);
                if ui.add(field).labelled_by(label.id).changed() {
                    *changed = Some("bertin");
                }
            } else {
                ui.weak(words::NO_BERTIN);
            }
        });
        ui.end_row();
    });
}

/// A line from no damping to much, with the band on it and a mark at what is taken.
fn band_ui(ui: &mut Ui, palette: &Palette, [low, taken, high]: [f64; 3], told: &str) {
    let wide = ui.available_width().min(360.0);
    let (rect, response) = ui.allocate_exact_size(vec2(wide, 26.0), Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, told));
    #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
    let x = |share: f64| rect.left() + rect.width() * (share / MOST_DAMPING).min(1.0) as f32;
    let (line, middle) = (palette.line_scale, rect.center().y);
    let painter = ui.painter();
    painter.hline(rect.x_range(), middle, (line, palette.control_line));
    let band = egui::Rect::from_x_y_ranges(x(low)..=x(high), middle - 6.0..=middle + 6.0);
    painter.rect_filled(band, 2.0, palette.lashing.gamma_multiply(0.45));
    painter.vline(x(taken), rect.y_range(), (3.0 * line, palette.lashing));
}
