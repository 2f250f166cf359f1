use egui::{ProgressBar, RichText, Ui};

use super::super::super::actions::{Action, Facts};
use super::super::super::command::Command;
use super::super::super::outcome;
use super::super::super::words::card as words;
use super::super::super::words::outcome as told;
use super::super::super::{Editor, words as all};
use super::super::fields;
use super::super::menu::with_keys;
use super::{curve, elevation, sum_ui};
use crate::engine::numbers::{CylinderNumbers, NeedKind, PartNumbers};
use crate::layout::Cylinder;
use crate::units::{self, Quantity};

/// How it holds in one line and one bar; the eight numbers; the sum.
pub(super) fn cylinder_ui(
    ui: &mut Ui,
    editor: &Editor,
    cylinder: &Cylinder,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let part = editor.live.assessor().assessment().parts.get(editor.part);
    let numbers = part.and_then(|part| {
        let mut list = part.cylinders.iter();
        list.find(|item| item.cylinder == cylinder.id)
    });
    let (Some(part), Some(numbers)) = (part, numbers) else {
        ui.label(told::NOT_ON_DECK);
        return;
    };
    let outcome = outcome::of_cylinder(numbers, &part.motion);
    let palette = editor.settings.theme.palette();
    let color = palette.tone(outcome.tone);
    ui.label(RichText::new(&outcome.text).strong().color(color));
    if let Some(share) = outcome::worst_share(numbers) {
        bar_ui(ui, share, color);
    }
    for need in &numbers.needs {
        let at_least = match need.what {
            NeedKind::Friction => format!("{:.2}", need.at_least),
            NeedKind::LashingSlack => {
                Quantity::SmallLength.show(need.at_least, editor.settings.units)
            }
            NeedKind::LoadLimit => {
                let kg = need.at_least * 1000.0 / 9.806_65;
                Quantity::Mass.show(kg, editor.settings.units)
            }
            _ => units::pull(need.at_least * 1000.0, editor.settings.units),
        };
        ui.label(words::need(need.what, &need.of, &at_least));
    }
    egui::CollapsingHeader::new(all::elevation::TITLE)
        .default_open(true)
        .show(ui, |ui| {
            let response = ui.selectable_label(editor.rolling, Action::Roll.entry().text);
            if with_keys(response, Action::Roll).clicked() {
                commands.push(Command::Do(Action::Roll));
            }
            elevation::elevation_ui(ui, editor, cylinder, numbers);
        });
    egui::CollapsingHeader::new(all::curves::TITLE).show(ui, |ui| {
        curve::curve_ui(ui, editor, part, numbers, commands);
    });
    egui::CollapsingHeader::new(words::THE_NUMBERS)
        .default_open(true)
        .show(ui, |ui| {
            fields::grid(ui, "numbers", |ui| eight_ui(ui, editor, part, numbers));
        });
    let response = ui.selectable_label(editor.sum_shown, Action::Sum.entry().text);
    if with_keys(response, Action::Sum).clicked() {
        commands.push(Command::ShowSum(!editor.sum_shown));
    }
    if editor.sum_shown && facts.offers.sum {
        sum_ui(ui, &sum_of(numbers), commands);
    }
    ui.separator();
}

/// How much of what holds is used up, as a bar that is full when it goes.
fn bar_ui(ui: &mut Ui, share: f64, color: egui::Color32) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "clamped to 0..=1 just before"
    )]
    let shown = share.clamp(0.0, 1.0) as f32;
    let text = outcome::percent(share.min(9.99));
    let bar = ProgressBar::new(shown)
        .fill(color.gamma_multiply(0.6))
        .text(text);
    ui.add(bar).on_hover_text(words::USED);
}

fn eight_ui(ui: &mut Ui, editor: &Editor, part: &PartNumbers, numbers: &CylinderNumbers) {
    let units = editor.settings.units;
    let length = |value: f64| Quantity::SmallLength.show(value, units);
    fields::told(
        ui,
        words::TOTAL_MASS,
        &Quantity::Mass.show(numbers.mass_kg, units),
    );
    fields::told(ui, words::CENTRE, &length(numbers.cg_height_m));
    fields::told(ui, words::BASE, &length(numbers.base_radius_m));
    let slender = numbers.height_to_base_ratio;
    fields::told(
        ui,
        words::SLENDER,
        &shown(slender, |value| format!("{value:.2}")),
    );
    let alone = numbers.static_tip_angle_deg;
    fields::told(ui, words::TIPS_ALONE, &shown(alone, outcome::degrees));
    let friction = words::friction(numbers.friction, &numbers.friction_source);
    fields::told(ui, words::FRICTION, &friction);
    let worst = numbers.utilisations.first();
    let case = worst.and_then(|item| item.governing.as_ref());
    let case = case.map_or_else(
        || words::NOTHING.to_owned(),
        |case| words::case(case.a_h_m_s2, case.a_n_m_s2, &case.case_in_words()),
    );
    fields::told(ui, words::WORST_CASE, &case);
    let used = worst.map_or_else(
        || words::NOTHING.to_owned(),
        |item| {
            let share = item.value.map_or_else(|| "∞".to_owned(), outcome::percent);
            words::used(&share, told::way(item.way))
        },
    );
    fields::told(ui, words::USED, &used);
    let goes = outcome::goes_text(&numbers.limit);
    let period = all::motion::every_so(&part.motion, units);
    fields::told(ui, words::GOES, &words::every(&period, &goes));
    if let Some(deg) = editor.live.lean_of(&numbers.cylinder) {
        let text = told::goes_at(&outcome::degrees(deg));
        fields::told(ui, all::LEAN, &text);
    }
}

fn shown(value: Option<f64>, text: impl Fn(f64) -> String) -> String {
    value.map_or_else(|| words::NOTHING.to_owned(), text)
}

/// The sums of all ways in which it could go, the worst first.
fn sum_of(numbers: &CylinderNumbers) -> Vec<String> {
    let mut lines = Vec::new();
    for item in &numbers.utilisations {
        if !item.sum.is_empty() {
            lines.push(format!("{}:", told::way(item.way)));
            lines.extend(item.sum.lines());
        }
    }
    lines
}
