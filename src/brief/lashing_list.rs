//! What is made fast: one row for each lashing, and one for each front of a rack.

use schemars::JsonSchema;
use serde::Serialize;

use super::securing::{every, goes_round_what_lies};
use crate::checks::digest::when;
use crate::checks::words;
use crate::checks::{natural, runs};
use crate::engine::numbers::PartNumbers;
use crate::geometry::Elementary as _;
use crate::layout::{DayState, Id, Known, Lashing, Placing, Plan, Trip};

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

    /// The same in words, with who of them is not there while the boat is loaded.
    pub round_words: String,

    /// The point it ends at.
    pub to: String,

    /// Its height on the cylinders above what they stand on, in metres.
    pub height_m: f64,

    /// Is that measured along what lies, from its foot?
    pub along: bool,

    /// How tight it is to be, in words.
    pub how_tight: String,

    /// How far the top may move when one hand pushes at the valve with about 15 kg, in words.
    pub push_test: String,

    /// The same in whole millimetres; `None` where nobody knows the slack or play, and where it stops no push.
    pub push_test_mm: Option<f64>,

    /// Does something that stands in it go over under that push?
    pub gives_way: bool,

    /// Its greatest pull in any part of the day, in words.
    pub pull: String,

    /// The same in newtons; `None` where it cannot hold at all.
    pub pull_n: Option<f64>,

    /// The parts of the day in which it cannot hold at all, in words; empty where it always can.
    pub cannot_hold: String,

    /// Whom it leaves unsecured when it is opened, in words.
    pub opened: String,
}

/// Said of a lashing that stops no push.
const GIVES_WAY: &str = "gives way under the push: put that right";

/// What closes the front of a rack.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FrontRow {
    /// The rack.
    pub rack: String,

    /// The same by its name in the plan.
    #[serde(skip)]
    pub rack_id: Id,

    /// The front, as the crew call it.
    pub front: String,

    /// The slots that it serves, as painted.
    pub slots: Vec<String>,

    /// The same in words, with those that are empty while the boat is loaded.
    pub slots_words: String,

    /// Is it to be shut?
    pub shut: bool,

    /// Its height above what the cylinders stand on, in metres.
    pub height_m: f64,

    /// How far the top of a cylinder behind it may move when one hand pushes at the valve with about 15 kg, in
    /// words.
    pub push_test: String,

    /// The same in whole millimetres; `None` where nobody knows the slack or play.
    pub push_test_mm: Option<f64>,

    /// Its greatest pull in any part of the day, in words.
    pub pull: String,

    /// The same in newtons; `None` where it cannot hold at all.
    pub pull_n: Option<f64>,

    /// The parts of the day in which it cannot hold at all, in words; empty where it always can.
    pub cannot_hold: String,

    /// Whom it leaves unsecured when it is opened, in words.
    pub opened: String,
}

/// The numbers that the lists are made from.
#[derive(Copy, Clone)]
pub(super) struct Numbers<'a> {
    /// Of the part in which the boat is loaded.
    pub(super) loading: &'a PartNumbers,
    /// Of the whole day.
    pub(super) day: &'a [PartNumbers],
}

impl Numbers<'_> {
    /// The greatest of a pull over the day; `None` where the thing is in no part.
    fn greatest(self, of: impl Fn(&PartNumbers) -> Option<f64>) -> Option<f64> {
        self.day.iter().filter_map(of).max_by(f64::total_cmp)
    }

    /// When no pull of the thing could hold, in words.
    fn cannot_hold(self, trip: &Trip, of: impl Fn(&PartNumbers) -> Option<f64>) -> String {
        let parts = self.day.iter();
        let parts = parts.filter(|part| of(part).is_some_and(|pull_n| !pull_n.is_finite()));
        let parts: Vec<Id> = parts.map(|part| part.part.clone()).collect();
        match when(trip, &parts) {
            told if told.is_empty() && !parts.is_empty() => "all day".to_owned(),
            told => told,
        }
    }
}

pub(super) fn rows(
    (plan, trip): (&Plan, &Trip),
    day: &DayState,
    numbers: Numbers<'_>,
) -> Vec<LashingRow> {
    let mut rows: Vec<LashingRow> = day
        .lashings
        .iter()
        .map(|state| &state.lashing)
        .filter(|lashing| lashing.shut)
        .map(|lashing| row((plan, trip), day, numbers, lashing))
        .collect();
    rows.sort_by_key(|row| natural(&row.lashing));
    rows
}

fn row(
    (plan, trip): (&Plan, &Trip),
    day: &DayState,
    numbers: Numbers<'_>,
    lashing: &Lashing,
) -> LashingRow {
    let point_name = |id: &str| {
        let point = plan.boat.lashing_point(id);
        point
            .and_then(|point| point.name.clone())
            .unwrap_or_else(|| id.to_owned())
    };
    let pull_in = |part: &PartNumbers| {
        let mut of_part = part.lashings.iter();
        let found = of_part.find(|item| item.lashing == lashing.id && item.shut);
        found.map(|item| item.pull_n)
    };
    let pull_n = numbers.greatest(pull_in);
    let (there, away): (Vec<Id>, Vec<Id>) = lashing.round.iter().cloned().partition(|id| {
        let cylinder = day.cylinder(id);
        cylinder.is_some_and(|it| it.placing.can_be_lashed())
    });
    let holds = numbers.loading.cylinders.iter();
    let holds = holds.flat_map(|body| &body.lashings);
    let holds = holds.filter(|hold| hold.lashing == lashing.id);
    let furthest = holds
        .clone()
        .filter_map(|hold| hold.push_test_m)
        .max_by(f64::total_cmp);
    // How slack it is round one that stands is known, and still it stops no push.
    let mut holds = holds;
    let gives_way = holds.any(|hold| hold.lean_deg.is_some() && hold.push_test_m.is_none());
    LashingRow {
        lashing: lashing.name.clone().unwrap_or_else(|| lashing.id.clone()),
        material: lashing.material.clone(),
        from: point_name(&lashing.from),
        round: lashing.round.clone(),
        round_words: but(&there, &away, "not there"),
        to: point_name(&lashing.to),
        height_m: lashing.height_m,
        along: goes_round_what_lies(day, &lashing.round),
        how_tight: how_tight(lashing),
        push_test: match furthest {
            _ if gives_way => GIVES_WAY.to_owned(),
            Some(metres) => may_move(metres),
            None => "slack not known: no play is right".to_owned(),
        },
        push_test_mm: furthest.filter(|_| !gives_way).map(whole_mm),
        gives_way,
        pull: pull_n.map_or_else(String::new, pull),
        pull_n: pull_n.filter(|newtons| newtons.is_finite()),
        cannot_hold: numbers.cannot_hold(trip, pull_in),
        opened: opened(&there),
    }
}

/// `P1-P3 (P4 not there)`; of none that is there, `P1-P4, not there`.
fn but(there: &[String], others: &[String], what: &str) -> String {
    match (there, others) {
        (_, []) => runs(there).join(", "),
        ([], _) => format!("{}, {what}", runs(others).join(", ")),
        _ => format!(
            "{} ({} {what})",
            runs(there).join(", "),
            runs(others).join(", ")
        ),
    }
}

/// In whole millimetres, rounded up.
fn whole_mm(metres: f64) -> f64 {
    (metres * 1000.0 - 1e-6).ceil() + 0.0
}

fn may_move(metres: f64) -> String {
    format!("may move {:.0} mm at the valve", whole_mm(metres))
}

/// What the play of the loosest cylinder in its slot lets its top move before edge and front stop it, in
/// metres; `None` where it is not known of one of them.
fn loosest_m(numbers: &PartNumbers, behind: &[Id]) -> Option<f64> {
    let bodies = numbers.cylinders.iter();
    let behind = bodies.filter(|body| behind.contains(&body.cylinder));
    let moves = behind.map(|body| {
        let hold = body.rack.as_ref().filter(|hold| hold.play_m.is_some());
        hold.map(|hold| body.height_m * hold.lean_deg.to_radians().tangent())
    });
    moves.reduce(|a, b| Some(a?.max(b?)))?
}

/// Less than this is no pull, in newtons.
pub(crate) const NO_PULL_N: f64 = 0.05;

fn pull(newtons: f64) -> String {
    if !newtons.is_finite() {
        "cannot hold it".to_owned()
    } else if newtons < NO_PULL_N {
        "none".to_owned()
    } else {
        words::pull(newtons)
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
        let mut names: Vec<&str> = round.iter().map(String::as_str).collect();
        names.sort_by_key(|name| natural(name));
        format!("opened for one, open for {}", every(&runs(&names)))
    } else {
        String::new()
    }
}

pub(super) fn fronts(
    (plan, trip): (&Plan, &Trip),
    day: &DayState,
    numbers: Numbers<'_>,
) -> Vec<FrontRow> {
    let mut rows: Vec<FrontRow> = day
        .fronts
        .iter()
        .map(|state| {
            let (id, shut) = (&state.front.id, state.front.shut);
            let of = |part: &PartNumbers| {
                let rack = part.racks.iter().find(|rack| rack.rack == state.rack)?;
                rack.fronts.iter().find(|item| item.front == *id).cloned()
            };
            let mut behind = of(numbers.loading)
                .map(|item| item.behind)
                .unwrap_or_default();
            behind.sort_by_key(|id| natural(id));
            let pull_in = |part: &PartNumbers| of(part).map(|item| item.pull_n);
            let pull_n = numbers.greatest(pull_in);
            let slots = state.front.slots.iter().cloned();
            let (full, empty): (Vec<String>, Vec<String>) = slots.partition(|slot| {
                let here = (&state.rack, slot);
                let mut inside = day.cylinders.iter().map(|it| &it.cylinder.placing);
                inside.any(|placing| {
                    matches!(placing, Placing::InSlot { rack, slot } if (rack, slot) == here)
                })
            });
            let loosest = loosest_m(numbers.loading, &behind);
            let push_test = match loosest {
                _ if behind.is_empty() => String::new(),
                Some(metres) => may_move(metres),
                None => "play in the slot not known: none is right".to_owned(),
            };
            let name = plan
                .boat
                .rack(&state.rack)
                .and_then(|rack| rack.name.clone());
            FrontRow {
                rack: name.unwrap_or_else(|| state.rack.clone()),
                rack_id: state.rack.clone(),
                front: state.front.called(),
                slots_words: format!("slots {}", but(&full, &empty, "empty")),
                slots: state.front.slots.clone(),
                shut,
                height_m: state.front.height_m,
                push_test,
                push_test_mm: loosest.map(whole_mm),
                pull: pull_n.map_or_else(String::new, pull),
                pull_n: pull_n.filter(|newtons| newtons.is_finite()),
                cannot_hold: numbers.cannot_hold(trip, pull_in),
                opened: if state.front.tied_between_slots {
                    String::new()
                } else {
                    opened(&behind)
                },
            }
        })
        .collect();
    rows.sort_by_key(|row| (natural(&row.rack), natural(&row.front)));
    rows
}
