//! What is made fast: one row for each lashing, and one for each front of a rack.

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::words;
use crate::engine::numbers::PartNumbers;
use crate::layout::{DayState, Id, Known, Lashing, Plan};

/// One lashing of the lashing list.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LashingRow {
    /// What the crew call it.
    pub lashing: String,

    /// What it is made of.
    pub material: String,

    /// The point it starts from.
    pub from: String,

    /// What it goes round.
    pub round: Vec<Id>,

    /// The point it ends at.
    pub to: String,

    /// Its height on the cylinders above what they stand on, in metres.
    pub height_m: f64,

    /// How tight it is to be, in words.
    pub how_tight: String,

    /// How far the top may move when one hand pushes at the valve with about 15 kg, in words.
    pub push_test: String,

    /// Its greatest pull in this part of the day, in words.
    pub pull: String,

    /// Whom it leaves unsecured when it is opened, in words.
    pub opened: String,
}

/// What closes the front of a rack.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FrontRow {
    /// The rack.
    pub rack: String,

    /// The front.
    pub front: Id,

    /// The slots that it serves, as painted.
    pub slots: Vec<String>,

    /// Is it to be shut?
    pub shut: bool,

    /// Its greatest pull in this part of the day, in words.
    pub pull: String,

    /// Whom it leaves unsecured when it is opened, in words.
    pub opened: String,
}

pub(super) fn rows(plan: &Plan, day: &DayState, numbers: &PartNumbers) -> Vec<LashingRow> {
    let mut rows: Vec<LashingRow> = day
        .lashings
        .iter()
        .map(|state| &state.lashing)
        .filter(|lashing| lashing.shut)
        .map(|lashing| row(plan, numbers, lashing))
        .collect();
    rows.sort_by(|a, b| a.lashing.cmp(&b.lashing));
    rows
}

fn row(plan: &Plan, numbers: &PartNumbers, lashing: &Lashing) -> LashingRow {
    let point_name = |id: &str| {
        let point = plan.boat.lashing_point(id);
        point
            .and_then(|point| point.name.clone())
            .unwrap_or_else(|| id.to_owned())
    };
    let computed = numbers
        .lashings
        .iter()
        .find(|item| item.lashing == lashing.id);
    let furthest = numbers
        .cylinders
        .iter()
        .flat_map(|body| &body.lashings)
        .filter(|hold| hold.lashing == lashing.id)
        .filter_map(|hold| hold.push_test_m)
        .max_by(f64::total_cmp);
    LashingRow {
        lashing: lashing.name.clone().unwrap_or_else(|| lashing.id.clone()),
        material: lashing.material.clone(),
        from: point_name(&lashing.from),
        round: lashing.round.clone(),
        to: point_name(&lashing.to),
        height_m: lashing.height_m,
        how_tight: how_tight(lashing),
        push_test: furthest.map_or_else(
            || "slack not known: no play is right".to_owned(),
            |metres| format!("may move {:.0} mm at the valve", (metres * 1000.0).ceil()),
        ),
        pull: computed.map_or_else(String::new, |item| pull(item.pull_n)),
        opened: opened(&lashing.round),
    }
}

fn pull(newtons: f64) -> String {
    if newtons.is_finite() {
        words::pull(newtons)
    } else {
        "cannot hold it".to_owned()
    }
}

fn how_tight(lashing: &Lashing) -> String {
    match (lashing.pretension_kn, lashing.slack_m) {
        (Some(Known::Value(kn)), _) => format!("pulled tight with {}", words::pull(1000.0 * kn)),
        (_, Some(Known::Value(slack))) if slack > 0.0 => {
            format!("{:.0} mm of slack", 1000.0 * slack)
        }
        (_, Some(Known::Value(_))) => "hand tight, no slack".to_owned(),
        _ => "not known: pull it tight".to_owned(),
    }
}

fn opened(round: &[Id]) -> String {
    if round.len() > 1 {
        format!("opened for one, open for {}", words::list(round))
    } else {
        String::new()
    }
}

pub(super) fn fronts(plan: &Plan, day: &DayState, numbers: &PartNumbers) -> Vec<FrontRow> {
    let mut rows: Vec<FrontRow> = day
        .fronts
        .iter()
        .map(|state| {
            let rack = numbers.racks.iter().find(|rack| rack.rack == state.rack);
            let computed =
                rack.and_then(|rack| rack.fronts.iter().find(|item| item.front == state.front.id));
            let behind = computed.map(|item| item.behind.clone()).unwrap_or_default();
            let name = plan
                .boat
                .rack(&state.rack)
                .and_then(|rack| rack.name.clone());
            FrontRow {
                rack: name.unwrap_or_else(|| state.rack.clone()),
                front: state.front.id.clone(),
                slots: state.front.slots.clone(),
                shut: state.front.shut,
                pull: computed.map_or_else(String::new, |item| pull(item.pull_n)),
                opened: if state.front.tied_between_slots {
                    String::new()
                } else {
                    opened(&behind)
                },
            }
        })
        .collect();
    rows.sort_by(|a, b| (&a.rack, &a.front).cmp(&(&b.rack, &b.front)));
    rows
}
