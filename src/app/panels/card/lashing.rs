use egui::Ui;

use super::super::super::Editor;
use super::super::super::stores::{POINTS, Section, StoreItem};
use super::super::super::words::card as words;
use super::super::super::words::stores as names;
use super::super::fields::{self, Number};
use super::Changed;
use crate::layout::{LashCondition, Lashing, LashingPoint};
use crate::units::{self, Quantity};

/// What pulls at it and how much it can take.
pub(super) fn numbers_ui(ui: &mut Ui, editor: &Editor, lashing: &Lashing) {
    let Some(here) = editor.here() else { return };
    let numbers = here.numbers.and_then(|numbers| {
        let mut list = numbers.lashings.iter();
        list.find(|item| item.lashing == lashing.id)
    });
    let Some(numbers) = numbers else { return };
    let system = editor.settings.units;
    fields::grid(ui, "lashing numbers", |ui| {
        let pull = units::pull(numbers.pull_n, system);
        fields::told(ui, words::PULLS, &pull);
        let takes = numbers.capacity_n;
        let takes = takes.map_or_else(
            || words::NOT_KNOWN.to_owned(),
            |takes| units::pull(takes, system),
        );
        fields::told(ui, words::COUNTS, &takes);
        let steepest = Quantity::Angle.show(numbers.steepest_leg_deg, system);
        fields::told(ui, words::STEEPEST, &steepest);
    });
    ui.separator();
}

/// The properties of a lashing; returns the field that was changed.
pub(super) fn lashing_ui(
    ui: &mut Ui,
    editor: &Editor,
    lashing: &mut Lashing,
) -> Option<&'static str> {
    let units = editor.settings.units;
    let mut changed = Changed::default();
    fields::grid(ui, "lashing", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut lashing.name),
        );
        let mut materials: Vec<(String, String)> = Section::Lashings
            .items(&[])
            .into_iter()
            .filter_map(|item| match &item {
                StoreItem::Lashing(id) => Some((id.clone(), item.name())),
                _ => None,
            })
            .collect();
        if !materials.iter().any(|(id, _)| *id == lashing.material) {
            materials.push((lashing.material.clone(), lashing.material.clone()));
        }
        let material = fields::choice(ui, words::MATERIAL, &mut lashing.material, &materials);
        changed.note("material", material);
        let points: Vec<(String, String)> = editor
            .plan()
            .boat
            .lashing_points
            .iter()
            .map(|point| (point.id.clone(), point.id.clone()))
            .collect();
        changed.note(
            "from",
            fields::choice(ui, words::FROM, &mut lashing.from, &points),
        );
        fields::told(ui, words::ROUND, &lashing.round.join(", "));
        changed.note(
            "to",
            fields::choice(ui, words::TO, &mut lashing.to, &points),
        );
        let height = Number::new(words::HEIGHT_ON_CYLINDER, "height_m", Quantity::SmallLength);
        let value = &mut lashing.height_m;
        changed.note("height", fields::number(ui, height, units, value));
        let conditions = [
            LashCondition::Good,
            LashCondition::Knotted,
            LashCondition::Bleached,
            LashCondition::Cut,
        ];
        let conditions = conditions.map(|item| (item, words::lash_condition(item).to_owned()));
        let value = &mut lashing.condition;
        let condition = fields::choice(ui, words::CONDITION, value, &conditions);
        changed.note("condition", condition);
        let strength = Number::new(words::STRENGTH, "strength_kn", Quantity::Force);
        let value = &mut lashing.strength_kn;
        let strength = fields::optional_known(ui, strength, units, value, words::OF_MATERIAL);
        changed.note("strength", strength);
        let slack = Number::new(words::SLACK, "slack_m", Quantity::SmallLength);
        let value = &mut lashing.slack_m;
        let slack = fields::optional_known(ui, slack, units, value, words::NOT_SAID);
        if slack {
            lashing.pretension_kn = None;
        }
        changed.note("slack", slack);
        let tight = Number::new(words::PRETENSION, "pretension_kn", Quantity::Force);
        let value = &mut lashing.pretension_kn;
        let tight = fields::optional_known(ui, tight, units, value, words::NOT_SAID);
        if tight {
            lashing.slack_m = None;
        }
        changed.note("pretension", tight);
        changed.note(
            "shut",
            fields::flag(ui, words::MADE_FAST, &mut lashing.shut),
        );
    });
    changed.0
}

/// The properties of a lashing point; returns the field that was changed.
pub(super) fn point_ui(
    ui: &mut Ui,
    editor: &Editor,
    point: &mut LashingPoint,
) -> Option<&'static str> {
    let units = editor.settings.units;
    let mut changed = Changed::default();
    let numbers = editor.here().and_then(|here| {
        let mut points = here.numbers?.points.iter();
        points.find(|item| item.point == point.id).cloned()
    });
    fields::grid(ui, "point", |ui| {
        if let Some(numbers) = &numbers {
            fields::told(ui, words::PULLS, &units::pull(numbers.pull_n, units));
        }
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut point.name),
        );
        let kinds = POINTS.map(|kind| (kind, names::point(kind).to_owned()));
        changed.note(
            "kind",
            fields::choice(ui, words::KIND, &mut point.kind, &kinds),
        );
        changed.note("at", fields::point(ui, units, &mut point.at));
        let height = Number::new(words::HEIGHT, "height_m", Quantity::SmallLength);
        changed.note(
            "height",
            fields::number(ui, height, units, &mut point.height_m),
        );
        let strength = Number::new(words::STRENGTH, "strength_kn", Quantity::Force);
        let value = &mut point.strength_kn;
        changed.note("strength", fields::known(ui, strength, units, value));
    });
    changed.0
}
