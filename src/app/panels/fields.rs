//! Fields of a card: a name on the left, what can be changed on the right. Each returns whether it was
//! changed.

use egui::{ComboBox, DragValue, Ui};

use super::super::words::card as words;
use crate::layout::{Known, bounds};
use crate::units::{self, Quantity, System};

/// How wide lists and text fields are, in points.
const WIDE: f32 = 142.0;

/// A number on a card.
#[derive(Copy, Clone, Debug)]
pub(in super::super) struct Number {
    /// Its name on the card.
    pub(in super::super) name: &'static str,
    /// The field of the layout file, whose sane range holds.
    pub(in super::super) field: &'static str,
    /// What it is of.
    pub(in super::super) quantity: Quantity,
    /// So many base units of the quantity make one of the field's.
    pub(in super::super) scale: f64,
}

impl Number {
    /// A field in the base unit of its quantity.
    pub(in super::super) const fn new(
        name: &'static str,
        field: &'static str,
        quantity: Quantity,
    ) -> Self {
        Self {
            name,
            field,
            quantity,
            scale: 1.0,
        }
    }
}

/// The name of a field, and what stands beside it.
fn row<R>(ui: &mut Ui, name: &str, add: impl FnOnce(&mut Ui) -> R) -> R {
    let label = ui.add(egui::Label::new(name).wrap());
    let result = ui
        .horizontal_wrapped(|ui| ui.label_inputs_by(label.id, add))
        .inner;
    ui.end_row();
    result
}

/// A number with its unit; any unit may be typed.
pub(in super::super) fn number(
    ui: &mut Ui,
    number: Number,
    system: System,
    value: &mut f64,
) -> bool {
    row(ui, number.name, |ui| drag(ui, number, system, value))
}

fn drag(ui: &mut Ui, number: Number, system: System, value: &mut f64) -> bool {
    let Number {
        field,
        quantity,
        scale,
        ..
    } = number;
    let range = bounds::for_field(field).map_or(f64::MIN..=f64::MAX, |bound| bound.min..=bound.max);
    let before = *value;
    let field = DragValue::new(value)
        .range(range)
        .clamp_existing_to_range(false)
        .speed(quantity.step(system) / scale)
        .update_while_editing(false)
        .custom_formatter(|value, _| quantity.show(value * scale, system))
        .custom_parser(|text| {
            let parsed = units::parse(text, quantity, system);
            parsed.ok().map(|value| value / scale)
        });
    let response = ui.add(field);
    if let Some(bound) = bounds::for_field(number.field) {
        let [least, most] =
            [bound.min, bound.max].map(|value| quantity.show(value * scale, system));
        response.on_hover_text(words::from_to(&least, &most));
    }
    before.to_bits() != value.to_bits()
}

/// A whole number.
pub(in super::super) fn count(
    ui: &mut Ui,
    name: &str,
    value: &mut u32,
    range: std::ops::RangeInclusive<u32>,
) -> bool {
    row(ui, name, |ui| {
        ui.add(DragValue::new(value).range(range).speed(0.1))
            .changed()
    })
}

/// A number, or "not known".
pub(in super::super) fn known(
    ui: &mut Ui,
    number: Number,
    system: System,
    value: &mut Known,
) -> bool {
    row(ui, number.name, |ui| {
        let mut is_known = value.value().is_some();
        let mut changed = false;
        if ui.checkbox(&mut is_known, words::KNOWN).changed() {
            changed = true;
            *value = if is_known {
                Known::Value(usual(number.field))
            } else {
                Known::NotKnown
            };
        }
        match value {
            Known::Value(value) => changed |= drag(ui, number, system, value),
            Known::NotKnown => {
                ui.weak(words::NOT_KNOWN);
            }
        }
        changed
    })
}

/// A number that may be left out.
pub(in super::super) fn optional(
    ui: &mut Ui,
    number: Number,
    system: System,
    value: &mut Option<f64>,
    without: &str,
) -> bool {
    row(ui, number.name, |ui| {
        let mut given = value.is_some();
        let mut changed = false;
        if ui.checkbox(&mut given, words::GIVEN).changed() {
            changed = true;
            *value = given.then(|| usual(number.field));
        }
        match value {
            Some(value) => changed |= drag(ui, number, system, value),
            None => {
                ui.weak(without);
            }
        }
        changed
    })
}

/// A number, "not known", or left out.
pub(in super::super) fn optional_known(
    ui: &mut Ui,
    number: Number,
    system: System,
    value: &mut Option<Known>,
    without: &str,
) -> bool {
    row(ui, number.name, |ui| {
        let mut changed = false;
        let shown = match value {
            None => without,
            Some(Known::NotKnown) => words::NOT_KNOWN,
            Some(Known::Value(_)) => words::KNOWN,
        };
        ComboBox::from_id_salt(number.name)
            .width(WIDE)
            .truncate()
            .selected_text(shown)
            .show_ui(ui, |ui| {
                for (text, choice) in [
                    (without, None),
                    (words::NOT_KNOWN, Some(Known::NotKnown)),
                    (words::KNOWN, Some(Known::Value(usual(number.field)))),
                ] {
                    if ui.selectable_label(shown == text, text).clicked() && shown != text {
                        *value = choice;
                        changed = true;
                    }
                }
            });
        if let Some(Known::Value(value)) = value {
            changed |= drag(ui, number, system, value);
        }
        changed
    })
}

/// What a field starts with when somebody says that it is known.
fn usual(field: &str) -> f64 {
    match field {
        "strength_kn" | "slot_strength_kn" | "backing_kn" | "hold_down_kn" | "gm_m"
        | "duration_h" | "length_m" => 1.0,
        "slack_m" => 0.02,
        "friction" => 0.3,
        "load_limit_kg" | "load_limit_kg_per_m2" => 400.0,
        "pressure_bar" => 200.0,
        "mass_kg" => 84.0,
        "clear_width_m" | "clear_floor_m" => 0.6,
        "headroom_m" => 1.9,
        "bore_m" => 0.2,
        "stamped_tare_kg" => 14.0,
        "kit_mass_kg" => 6.0,
        "displacement_kg" => 5000.0,
        "roll_period_s" => 3.0,
        "pitch_period_s" => 2.5,
        "saddle_half_angle_deg" => 50.0,
        "waterline_length_m" => 10.0,
        "draught_m" | "row_pitch_m" => 0.5,
        _ => 0.0,
    }
}

/// Yes or no.
pub(in super::super) fn flag(ui: &mut Ui, name: &str, value: &mut bool) -> bool {
    ui.label("");
    let changed = ui.checkbox(value, name).changed();
    ui.end_row();
    changed
}

/// One of several.
pub(in super::super) fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    name: &str,
    value: &mut T,
    choices: &[(T, String)],
) -> bool {
    let shown = choices.iter().find(|(choice, _)| choice == value);
    let shown = shown.map_or("", |(_, text)| text.as_str());
    choice_of(ui, (name, shown), value, || choices.to_vec())
}

/// One of several, which are looked for when the list is opened; `shown` is what the value is called.
pub(in super::super) fn choice_of<T: PartialEq + Clone>(
    ui: &mut Ui,
    (name, shown): (&str, &str),
    value: &mut T,
    choices: impl FnOnce() -> Vec<(T, String)>,
) -> bool {
    row(ui, name, |ui| {
        let mut changed = false;
        ComboBox::from_id_salt(name)
            .selected_text(shown)
            .width(WIDE)
            .truncate()
            .show_ui(ui, |ui| {
                for (choice, text) in &choices() {
                    if ui.selectable_label(choice == value, text).clicked() && choice != value {
                        *value = choice.clone();
                        changed = true;
                    }
                }
            });
        changed
    })
}

/// A line of text.
pub(in super::super) fn text(ui: &mut Ui, name: &str, value: &mut String) -> bool {
    row(ui, name, |ui| {
        let field = egui::TextEdit::singleline(value).desired_width(WIDE);
        ui.add(field).changed()
    })
}

/// A line of text that may be left out.
pub(in super::super) fn optional_text(ui: &mut Ui, name: &str, value: &mut Option<String>) -> bool {
    let mut typed = value.clone().unwrap_or_default();
    let changed = text(ui, name, &mut typed);
    if changed {
        *value = (!typed.is_empty()).then_some(typed);
    }
    changed
}

/// Something that can only be read.
pub(in super::super) fn told(ui: &mut Ui, name: &str, value: &str) {
    ui.label(name);
    ui.add(egui::Label::new(value).wrap());
    ui.end_row();
}

/// A grid of fields.
pub(in super::super) fn grid<R>(ui: &mut Ui, id: &str, add: impl FnOnce(&mut Ui) -> R) -> R {
    egui::Grid::new(id)
        .num_columns(2)
        .max_col_width(0.58 * ui.available_width())
        .show(ui, add)
        .inner
}

/// Where it is: forward of the transom, and to port.
pub(in super::super) fn point(ui: &mut Ui, system: System, at: &mut [f64; 2]) -> bool {
    let forward = Number::new(words::FORWARD, "at", Quantity::Length);
    let port = Number::new(words::TO_PORT, "at", Quantity::Length);
    let mut changed = number(ui, forward, system, &mut at[0]);
    changed |= number(ui, port, system, &mut at[1]);
    changed
}
