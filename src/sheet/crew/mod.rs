//! The crew's sheet: what was planned, on paper, for ten minutes on the quay.
//!
//! First the deck as the reader sees it, with the places as painted; then what to say; then the lists with
//! boxes to tick; then what is still open, how far it is good, and who signs. Black on white, so that any
//! printer will do.

mod actions;
mod large;
mod plan;

pub use self::large::{large_type, slate};
pub use self::plan::Facing;

use super::flow::Flow;
use super::{Align, Column, Page, Paper, Table, TableStyle};
use crate::brief::{Brief, CAUTION};
use crate::checks::words;
use crate::layout::Plan;

/// How the sheet is printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Options {
    /// On what.
    pub paper: Paper,

    /// Which way the reader faces; taken from the hand-over place unless given.
    pub facing: Option<Facing>,

    /// What tells this state of the plan from any other: a short hash of the file.
    pub version: String,
}

const TITLE_PT: f64 = 15.0;
const HEADING_PT: f64 = 11.5;
const TEXT_PT: f64 = 9.0;
const LIST_PT: f64 = 7.5;

/// The title of the document.
pub fn title(brief: &Brief) -> String {
    format!("Crew's sheet – {}, {}", brief.boat, brief.trip)
}

/// The pages of the sheet.
pub fn pages(plan: &Plan, brief: &Brief, options: &Options) -> Vec<Page> {
    let mut flow = Flow::new(options.paper);
    head(&mut flow, brief, options);
    plan::draw(&mut flow, plan, brief, options.facing);
    talk(&mut flow, brief);
    actions::strip(&mut flow);
    load_list(&mut flow, brief);
    lashing_list(&mut flow, brief);
    loading(&mut flow, brief);
    open(&mut flow, brief);
    signatures(&mut flow);
    flow.finish(&foot(brief, options))
}

fn foot(brief: &Brief, options: &Options) -> String {
    format!(
        "{}, trip {}, {} · version {} · planning aid, no approval",
        brief.boat,
        brief.trip,
        brief.date.as_deref().unwrap_or("no date"),
        options.version
    )
}

fn head(flow: &mut Flow, brief: &Brief, options: &Options) {
    flow.line(TITLE_PT, 0.0, &brief.boat);
    let date = brief.date.as_deref().unwrap_or("date: ____________");
    flow.line(
        TEXT_PT,
        0.0,
        &format!(
            "Trip {} · {date} · loaded in the part {} · {} cylinders · version {}",
            brief.trip,
            brief.part,
            brief.load_list.len(),
            options.version
        ),
    );
    flow.paragraph(LIST_PT, 0.0, CAUTION);
    flow.gap(1.5);
}

fn talk(flow: &mut Flow, brief: &Brief) {
    flow.heading(HEADING_PT, "To say on the quay");
    for (index, point) in brief.talk_points.iter().enumerate() {
        let text = format!("{} [{}]", point.say, point.from);
        flow.point(TEXT_PT, &format!("{}", index + 1), &text);
    }
}

fn column(heading: &str, share: f64, width: f64) -> Column {
    Column {
        heading: heading.to_owned(),
        width_mm: share * width,
    }
}

/// A table whose columns take these shares of the page.
fn table(flow: &Flow, columns: &[(&str, f64)], rows: Vec<Vec<String>>, row_mm: f64) -> Table {
    let all: f64 = columns.iter().map(|(_, share)| share).sum();
    let width = flow.width();
    Table {
        columns: columns
            .iter()
            .map(|(heading, share)| column(heading, share / all, width))
            .collect(),
        rows,
        style: TableStyle {
            size_pt: LIST_PT,
            row_mm,
            ruled: true,
        },
    }
}

fn load_list(flow: &mut Flow, brief: &Brief) {
    flow.heading(HEADING_PT, "Load list");
    let columns = [
        ("name", 9.0),
        ("number", 12.0),
        ("kind", 27.0),
        ("gas, pressure", 22.0),
        ("diver", 13.0),
        ("analysed", 14.0),
        ("where, how", 31.0),
        ("secured by", 22.0),
        ("hooked", 12.5),
        ("pushed", 12.5),
        ("by", 8.0),
        ("at", 8.0),
    ];
    let rows = brief
        .load_list
        .iter()
        .map(|row| {
            let kit = if row.kit.is_empty() {
                String::new()
            } else {
                format!(", {}", row.kit)
            };
            vec![
                row.cylinder.clone(),
                row.number.clone(),
                row.kind.clone(),
                format!("{}, {}", row.gas, row.pressure),
                row.diver.clone(),
                row.analysed.clone(),
                format!("{}; {}{kit}", row.where_to, row.posture),
                row.secured_by.clone(),
            ]
        })
        .collect();
    let table = table(flow, &columns, rows, 5.2);
    flow.table(&table);
}

fn lashing_list(flow: &mut Flow, brief: &Brief) {
    flow.heading(HEADING_PT, "Lashing list and push test");
    flow.paragraph(
        LIST_PT,
        0.0,
        "Push test: one hand at the valve, about 15 kg, towards every side. It may move as far as the table \
         says and no further. Push again after 15 min of running, after each dive and before the night \
         (common practice, no source).",
    );
    flow.gap(1.0);
    let mut rows: Vec<Vec<String>> = brief
        .lashing_list
        .iter()
        .map(|row| {
            vec![
                row.lashing.clone(),
                format!("{} to {}, {}", row.from, row.to, row.material),
                words::list(&row.round),
                format!("{:.2} m", row.height_m),
                row.how_tight.clone(),
                row.push_test.clone(),
                row.pull.clone(),
                row.opened.clone(),
            ]
        })
        .collect();
    rows.extend(brief.front_list.iter().map(|row| {
        vec![
            row.front.clone(),
            format!("across {}", row.rack),
            format!("slots {}", words::list(&row.slots)),
            String::new(),
            if row.shut { "shut" } else { "open" }.to_owned(),
            String::new(),
            row.pull.clone(),
            row.opened.clone(),
        ]
    }));
    if rows.is_empty() {
        flow.line(TEXT_PT, 0.0, "No lashings and no fronts in this plan.");
        return;
    }
    let columns = [
        ("lashing", 20.0),
        ("from, to, of", 36.0),
        ("round", 22.0),
        ("height", 11.0),
        ("how tight", 22.0),
        ("push test", 22.0),
        ("greatest pull", 22.0),
        ("opened", 26.0),
    ];
    let table = table(flow, &columns, rows, 5.2);
    flow.table(&table);
}

fn loading(flow: &mut Flow, brief: &Brief) {
    flow.heading(HEADING_PT, "Loading order");
    let loading = &brief.loading;
    let named =
        |name: &Option<String>| name.clone().unwrap_or_else(|| "not in the plan".to_owned());
    let heel = loading.greatest_heel_deg.map_or_else(
        || {
            format!(
                "greatest sideways moment {:.0} kg·m (no GM or displacement: no degrees)",
                loading.greatest_moment_kg_m
            )
        },
        |deg| {
            format!(
                "greatest heel on the way {deg:.1}°, not to pass {:.1}°",
                loading.most_heel_deg
            )
        },
    );
    flow.paragraph(
        TEXT_PT,
        0.0,
        &format!(
            "Handed aboard at: {}. Set-down spot if the chain stalls: {}. The {heel}. Each one secured \
             before the next is handed over.",
            named(&loading.hand_over),
            named(&loading.set_down)
        ),
    );
    for remark in &loading.remarks {
        flow.point(LIST_PT, "–", remark);
    }
    flow.gap(1.0);
    let rows = loading
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            vec![
                format!("{}", index + 1),
                step.sentence.clone(),
                words::kilograms(step.mass_kg),
            ]
        })
        .collect();
    let columns = [
        ("step", 10.0),
        ("what to do", 145.0),
        ("mass", 14.0),
        ("done", 13.0),
    ];
    let table = table(flow, &columns, rows, 4.6);
    flow.table(&table);
}

fn open(flow: &mut Flow, brief: &Brief) {
    flow.heading(HEADING_PT, "Still open, and what was taken on");
    if brief.still_open.is_empty() {
        flow.line(TEXT_PT, 0.0, "Nothing.");
    }
    for line in &brief.still_open {
        flow.point(LIST_PT, "–", line);
    }
    if !brief.not_known.is_empty() {
        flow.heading(HEADING_PT, "Not known");
        flow.paragraph(
            TEXT_PT,
            0.0,
            &format!(
                "Nobody knows how strong these are: {}.",
                brief.not_known.join(", ")
            ),
        );
    }
    flow.heading(HEADING_PT, "How far it is good");
    for line in &brief.limits {
        flow.point(LIST_PT, "–", line);
    }
}

fn signatures(flow: &mut Flow) {
    flow.heading(HEADING_PT, "Signed");
    let columns = [
        ("role", 70.0),
        ("name", 45.0),
        ("signature", 45.0),
        ("time", 20.0),
    ];
    let rows = [
        "Loaded and pushed",
        "Checked",
        "Master accepts the open points",
    ]
    .iter()
    .map(|role| vec![(*role).to_owned()])
    .collect();
    let table = table(flow, &columns, rows, 10.0);
    flow.room(48.0);
    flow.table(&table);
}

/// A text that is cut to a width, with dots where it was.
fn cut(text: &str, size_pt: f64, most_mm: f64) -> String {
    if super::width_mm(text, size_pt) <= most_mm {
        return text.to_owned();
    }
    let mut kept = String::new();
    for c in text.chars() {
        let longer = format!("{kept}{c}…");
        if super::width_mm(&longer, size_pt) > most_mm {
            break;
        }
        kept.push(c);
    }
    kept.push('…');
    kept
}

/// A text in the middle of a point.
fn centred(page: &mut Page, at: (f64, f64), size_pt: f64, text: &str) {
    let drop = 0.35 * size_pt * 25.4 / 72.0;
    page.text((at.0, at.1 + drop), size_pt, Align::Middle, text);
}

#[cfg(test)]
mod tests;
