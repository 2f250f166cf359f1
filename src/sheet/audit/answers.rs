//! What each cylinder needed, who could have reached the spot, what would have held, what the recorded motion did.

use super::setting::{BEGIN_MM, part, points, put_plot, say};
use super::tables::table;
use super::{HEADING_PT, LIST_PT, TEXT_PT, fall_picture, margins_plot};
use crate::audit::{AccountAudit, Audit, Outcome, ReverseRow};
use crate::layout::Id;
use crate::sheet::Page;
use crate::sheet::flow::{Flow, GUTTER_MM, MARGIN_MM};

/// Every cylinder in question, as planned and by each account, then with each remedy.
pub(super) fn reverse(flow: &mut Flow, audit: &Audit) {
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "What each cylinder needed to go");
    let ranges = audit.plausible.iter().map(|range| {
        let [low, high] = range.roll_deg;
        vec![
            range.id.clone(),
            range.source.words().to_owned(),
            format!("{low:.1}° to {high:.1}°"),
            range.from.clone(),
        ]
    });
    part(flow, "What was plausible, roll to each side");
    if audit.plausible.is_empty() {
        say(flow, TEXT_PT, &["The record has no range.".to_owned()]);
    }
    table(
        flow,
        &[
            ("range", 14.0),
            ("source", 22.0),
            ("roll", 30.0),
            ("from", 116.0),
        ],
        ranges.collect(),
    );
    for account in &audit.accounts {
        part(
            flow,
            &format!("By account {}, the readiest first", account.id),
        );
        if account.reverse.is_empty() {
            let line = "No cylinder could have reached the marked spot.".to_owned();
            say(flow, TEXT_PT, &[line]);
            continue;
        }
        let mut columns = vec![
            ("cylinder".to_owned(), 16.0),
            ("as found".to_owned(), 34.0),
            ("as planned".to_owned(), 34.0),
        ];
        for range in &audit.plausible {
            let [low, high] = range.roll_deg;
            columns.push((format!("{}: {low:.0}° to {high:.0}°", range.id), 22.0));
        }
        columns.push(("with one thing otherwise".to_owned(), 54.0));
        let rows = account.reverse.iter().map(reverse_row).collect();
        table(flow, &columns, rows);
    }
}

fn reverse_row(row: &ReverseRow) -> Vec<String> {
    let mut cells = vec![
        row.cylinder.clone(),
        row.as_found.words.clone(),
        row.as_planned.words.clone(),
    ];
    cells.extend(row.beside.iter().map(|it| it.as_found.words().to_owned()));
    let with = row.remedy_lines();
    cells.push(if with.is_empty() {
        "nothing that was tried changes it".to_owned()
    } else {
        with.join("\n")
    });
    cells
}

/// Room for a picture of a fall, in millimetres.
const PICTURE_MM: f64 = 64.0;

/// What must stand beside what is in between.
const IN_ONE_PLANE: &str = "What stands in between is looked at in the plane of the fall or roll, as drawn. What is \
                            stopped there may still turn, slide off, or knock away what stops it; where it is not \
                            known how a thing is fixed, it is taken as fixed.";

pub(super) fn reach(flow: &mut Flow, account: &AccountAudit) {
    if account.reach.is_empty() {
        return;
    }
    // The table and the first pictures stand together where they can.
    let rows = account.reach.len().min(6) as f64;
    flow.room(BEGIN_MM + 9.0 * rows + PICTURE_MM);
    flow.heading(
        HEADING_PT,
        &format!(
            "Who could have reached the marked spot, account {}",
            account.id
        ),
    );
    let rows = account
        .reach
        .iter()
        .map(|row| {
            let number = |value: Option<f64>, decimals: usize| {
                value.map_or_else(|| "–".to_owned(), |value| format!("{value:.decimals$}"))
            };
            vec![
                row.cylinder.clone(),
                row.how_words(),
                format!("{:.2}", row.distance_m),
                number(row.valve_height_m, 2),
                number(row.energy_j, 0),
                row.needed.words.clone(),
            ]
        })
        .collect();
    table(
        flow,
        &[
            ("cylinder", 19.0),
            ("how, and what stands in between", 66.0),
            ("stood off, m", 22.0),
            ("valve high, m", 22.0),
            ("joules", 14.0),
            ("needed to go", 39.0),
        ],
        rows,
    );
    if account.reach.iter().any(|row| !row.between.is_empty()) {
        say(flow, LIST_PT, &[IN_ONE_PLANE.to_owned()]);
    }
    let pictures: Vec<Page> = account.reach.iter().map(fall_picture).collect();
    for pair in pictures.chunks(2) {
        let high = pair
            .iter()
            .map(|piece| piece.paper.height_mm())
            .fold(0.0, f64::max);
        flow.room(high + 2.0);
        let y = flow.y;
        for (index, piece) in pair.iter().enumerate() {
            let left = MARGIN_MM + index as f64 * (flow.half() + GUTTER_MM);
            flow.page().put(piece, (left, y));
        }
        flow.gap(high + 2.0);
    }
}

pub(super) fn held(flow: &mut Flow, account: &AccountAudit) {
    let held = &account.held;
    flow.room(BEGIN_MM);
    flow.heading(
        HEADING_PT,
        &format!("What would have held, account {}", account.id),
    );
    if held.cylinders.is_empty() {
        say(flow, TEXT_PT, &["No cylinder was in question.".to_owned()]);
        return;
    }
    say(
        flow,
        TEXT_PT,
        &[
            format!("Asked was {}.", held.wanted_from),
            format!("In question: {}.", held.cylinders.join(", ")),
        ],
    );
    let row = |what: String, outcome: &Outcome| {
        let verdict = if outcome.holds { "holds" } else { "goes" };
        vec![what, verdict.to_owned(), outcome.first_words()]
    };
    let mut rows = vec![
        row("as found".to_owned(), &held.as_found),
        row("the plan as issued".to_owned(), &held.as_planned),
    ];
    let singles = held.singles.iter();
    rows.extend(singles.map(|tried| row(tried.labels.join("; "), &tried.outcome)));
    if let Some(set) = &held.smallest {
        let label = format!("smallest set: {}", set.labels.join("; "));
        rows.push(row(label, &set.outcome));
    }
    table(
        flow,
        &[("stowage", 92.0), ("verdict", 18.0), ("first to go", 72.0)],
        rows,
    );
    say(flow, TEXT_PT, std::slice::from_ref(&held.searched));
}

/// What went under the recorded motion, and how near those in question came.
pub(super) fn over_time(flow: &mut Flow, account: &AccountAudit) {
    let Some(over_time) = &account.over_time else {
        return;
    };
    let in_question: Vec<Id> = over_time
        .nearest
        .iter()
        .map(|it| it.cylinder.clone())
        .collect();
    let replay = &over_time.replay;
    let wide = flow.width();
    let plot = margins_plot(replay, &replay.tracks, &in_question, wide);
    let near = margins_plot(replay, &over_time.closely, &in_question, wide);
    // The heading stays with its plot.
    let plot_mm = plot
        .as_ref()
        .map_or(0.0, |(piece, _)| piece.paper.height_mm());
    flow.room(BEGIN_MM + plot_mm);
    flow.heading(
        HEADING_PT,
        &format!("Under the recorded motion, account {}", account.id),
    );
    if let Some((piece, left_out)) = plot {
        put_plot(flow, &piece);
        if let Some((near, _)) = &near {
            put_plot(flow, near);
        }
        if left_out > 0 {
            let line = format!("{left_out} more are not drawn; all stand in the tables.");
            say(flow, LIST_PT, &[line]);
        }
    }
    if over_time.went.is_empty() {
        say(flow, TEXT_PT, &["Nothing went.".to_owned()]);
    }
    let went = over_time.went.iter().map(|it| {
        vec![
            format!("{:.1}", it.time_s),
            it.cylinder.clone(),
            format!("it {}", it.sentence),
        ]
    });
    table(
        flow,
        &[("at s", 14.0), ("went", 22.0), ("how", 146.0)],
        went.collect(),
    );
    let nearest = over_time.nearest.iter().map(|it| {
        vec![
            it.cylinder.clone(),
            it.margin.clone(),
            it.at_s.map_or_else(String::new, |s| format!("{s:.1}")),
            it.rocking.clone().unwrap_or_default(),
        ]
    });
    table(
        flow,
        &[
            ("in question", 24.0),
            ("at the least", 40.0),
            ("at s", 16.0),
            ("standing free", 102.0),
        ],
        nearest.collect(),
    );
    points(flow, &over_time.notes);
}

/// The bands of those in question, and the ranges that were taken unless they are those of the account before.
pub(super) fn how_sure(flow: &mut Flow, account: &AccountAudit, before: Option<&AccountAudit>) {
    if account.how_sure.is_empty() {
        return;
    }
    flow.room(BEGIN_MM);
    flow.heading(
        HEADING_PT,
        &format!("How sure the limits are, account {}", account.id),
    );
    let bands: Vec<String> = account
        .how_sure
        .iter()
        .map(|it| it.sentence.clone())
        .collect();
    points(flow, &bands);
    if let Some(before) = before.filter(|it| it.ranges == account.ranges) {
        let line = format!(
            "The ranges that were taken are those of account {}.",
            before.id
        );
        say(flow, LIST_PT, &[line]);
        return;
    }
    flow.room(BEGIN_MM);
    part(flow, "Ranges that were taken");
    say(flow, LIST_PT, &[account.ranges.join("; ")]);
}
