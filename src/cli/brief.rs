//! `snugdown brief`: what the crew needs in hand to load and secure what was planned.

use std::fmt::Write as _;
use std::path::Path;

use super::args::{BriefFormat, BriefOptions, BriefPage};
use super::columns::{Align, paragraph, table};
use super::{Console, Failure, briefed};
use crate::brief::{Brief, Table};
use crate::store;

pub(super) fn run(options: &BriefOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    if let Some(out) = &options.out {
        briefed::refuse_to_replace(&options.loading, out)?;
    }
    let told = |why: String| Failure::Told(why);
    let (_, brief) = briefed::read(&options.loading, false)?;
    // What is named like a spreadsheet's file is one.
    let format = match (options.format, ending(options.out.as_deref())) {
        (BriefFormat::Text, Some("csv")) => BriefFormat::Csv,
        (format, _) => format,
    };
    let text = match format {
        BriefFormat::Text => for_people(&brief, options.page, console.terminal.columns()),
        BriefFormat::Csv => csv(&brief, options.page)?,
        BriefFormat::Json => {
            let mut text = serde_json::to_string_pretty(&brief).map_err(std::io::Error::from)?;
            text.push('\n');
            text
        }
    };
    match &options.out {
        None => console.out.write_all(text.as_bytes())?,
        Some(out) => {
            store::write_atomic(out, text.as_bytes()).map_err(|error| told(error.to_string()))?;
            writeln!(console.out, "{} written", out.display())?;
        }
    }
    Ok(())
}

fn csv(brief: &Brief, page: BriefPage) -> Result<String, Failure> {
    let table = match page {
        BriefPage::LoadList => Table::load_list(brief),
        BriefPage::LashingList => Table::lashing_list(brief),
        BriefPage::LoadingOrder => Table::loading_order(brief),
        BriefPage::All | BriefPage::TalkPoints => {
            return Err(Failure::Told(
                "CSV holds one list: add --page load-list, lashing-list or loading-order"
                    .to_owned(),
            ));
        }
    };
    table
        .to_csv()
        .map_err(|error| Failure::Told(error.to_string()))
}

fn for_people(brief: &Brief, page: BriefPage, width: usize) -> String {
    let mut text = format!("{}, trip {}", brief.boat, brief.trip);
    if let Some(date) = &brief.date {
        write!(text, ", {date}").ok();
    }
    writeln!(text, "; as in the part {}", brief.part).ok();
    let all = page == BriefPage::All;
    if all || page == BriefPage::TalkPoints {
        heading(&mut text, "To say on the quay");
        for (index, point) in brief.talk_points.iter().enumerate() {
            let label = format!("{}.", index + 1);
            let said = format!("{} ({})", point.say, point.from);
            text += &paragraph(&label, label.len(), 4, &said, width);
        }
    }
    if all || page == BriefPage::LoadList {
        heading(&mut text, "Load list");
        text += &blocks(
            &Table::load_list(brief),
            &[
                "cylinder",
                "number",
                "kind",
                "gas",
                "pressure",
                "where",
                "how",
                "secured by",
                "mass kg",
            ],
        );
    }
    if all || page == BriefPage::LashingList {
        heading(&mut text, "Lashing list");
        text += &blocks(
            &Table::lashing_list(brief),
            &[
                "lashing",
                "from",
                "round",
                "to",
                "height m",
                "how tight",
                "push test",
            ],
        );
    }
    if all || page == BriefPage::LoadingOrder {
        heading(&mut text, "Loading order");
        text += &blocks(
            &Table::loading_order(brief),
            &["step", "heel then", "what to do", "against the rules"],
        );
        let loading = &brief.loading;
        let place = |label: &str, name: Option<&String>| {
            format!(
                "{label}: {}\n",
                name.map_or("none in the plan", String::as_str)
            )
        };
        text += &place("handed aboard at", loading.hand_over.as_ref());
        if let Some(gap_m) = loading.gap_to_quay_m {
            writeln!(text, "gap to the quay: {gap_m:.2} m").ok();
        }
        text += &place("set-down spot", loading.set_down.as_ref());
        match loading.greatest_heel_deg {
            Some(deg) => writeln!(
                text,
                "greatest heel while loading: {deg:.1}° (not to pass {:.1}°)",
                loading.most_heel_deg
            ),
            None => writeln!(
                text,
                "greatest sideways moment while loading: {:.0} kg·m",
                loading.greatest_moment_kg_m
            ),
        }
        .ok();
        for remark in &loading.remarks {
            text += &paragraph("-", 1, 2, remark, width);
        }
    }
    if all {
        deck_work(&mut text, brief, width);
        heading(&mut text, "Still open");
        if brief.still_open.is_empty() {
            text += "nothing\n";
        }
        for line in &brief.still_open {
            text += &paragraph("-", 1, 2, line, width);
        }
        if !brief.taken_on.is_empty() {
            heading(&mut text, "Taken on");
            for line in &brief.taken_on {
                text += &paragraph("-", 1, 2, line, width);
            }
        }
        heading(&mut text, "How far it is good");
        for line in &brief.limits {
            text += &paragraph("-", 1, 2, line, width);
        }
    }
    text.push('\n');
    text += &paragraph("", 0, 0, brief.caution, width);
    text
}

fn ending(out: Option<&Path>) -> Option<&str> {
    out?.extension()?.to_str()
}

/// What is done on deck as each part begins, and when to push again.
fn deck_work(text: &mut String, brief: &Brief, width: usize) {
    heading(text, "Work on deck, part by part");
    for part in &brief.deck_work {
        let again = part.push_again.iter().map(|when| when.words());
        let again: Vec<&str> = again.collect();
        let again = if again.is_empty() {
            String::new()
        } else {
            format!("; push again {}", again.join("; "))
        };
        *text += &paragraph("", 0, 2, &format!("{}{again}", part.name), width);
        for (index, line) in part.lines.iter().enumerate() {
            *text += &paragraph(&format!("  {:>2}.", index + 1), 5, 6, &line.told(), width);
        }
        if part.lines.is_empty() {
            *text += "  nothing changes on deck\n";
        }
    }
}

fn heading(text: &mut String, words: &str) {
    write!(text, "\n{words}\n").ok();
}

/// Some columns of a table; numbers stand right.
fn blocks(whole: &Table, wanted: &[&str]) -> String {
    if whole.rows.is_empty() {
        return "nothing\n".to_owned();
    }
    let columns: Vec<usize> = wanted
        .iter()
        .filter_map(|name| whole.headings.iter().position(|heading| heading == name))
        .collect();
    let headings: Vec<(&str, Align)> = columns
        .iter()
        .map(|column| {
            let name = whole.headings[*column];
            let align = if matches!(name, "step" | "mass kg" | "height m") {
                Align::Right
            } else {
                Align::Left
            };
            (name, align)
        })
        .collect();
    let rows: Vec<Vec<String>> = whole
        .rows
        .iter()
        .map(|row| columns.iter().map(|column| row[*column].clone()).collect())
        .collect();
    table(&headings, &rows)
}
