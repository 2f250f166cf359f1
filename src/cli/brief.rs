//! `snugdown brief`: what the crew needs in hand to load and secure what was planned.

use std::fmt::Write as _;
use std::path::Path;

use clap::ValueEnum as _;

use super::args::{BriefFormat, BriefOptions, BriefPage};
use super::columns::{Align, one_line, paragraph, table_within};
use super::{Console, Failure, briefed};
use crate::brief::{Brief, Table, without_measures};
use crate::store;

pub(super) fn run(options: &BriefOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    match &options.out {
        Some(out) => briefed::refuse_to_replace(&options.loading, out)?,
        None if options.loading.overwrite => {
            return Err(Failure::Told(
                "--overwrite needs --out FILE; without a file nothing is written over".to_owned(),
            ));
        }
        None => {}
    }
    let told = |why: String| Failure::Told(why);
    let format = format_of(options)?;
    let (_, brief) = briefed::read(&options.loading, false)?;
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

/// The format that is asked for, or that the name of the file says; both agree.
fn format_of(options: &BriefOptions) -> Result<BriefFormat, Failure> {
    let file = options.out.as_deref();
    let ending = file.and_then(|out| out.extension()?.to_str());
    let ending = ending.map(str::to_ascii_lowercase).unwrap_or_default();
    let refused = |why: String| {
        let file = file.unwrap_or(Path::new("")).display();
        Err(Failure::Told(format!("{file}: {why}")))
    };
    let named = match ending.as_str() {
        "csv" => Some(BriefFormat::Csv),
        "json" => Some(BriefFormat::Json),
        "pdf" | "svg" | "png" => {
            return refused(format!(
                "brief writes text, CSV or JSON; a .{ending} is made by: snugdown crew-sheet FILE --out NAME.{ending}"
            ));
        }
        _ => None,
    };
    let format = match (options.format, named) {
        (Some(asked), Some(named)) if asked != named => {
            let asked = asked.to_possible_value();
            let asked = asked.as_ref().map_or("", |asked| asked.get_name());
            return refused(format!(
                "it is named .{ending}, and --format says {asked}: leave --format out, or name the file otherwise"
            ));
        }
        (asked, named) => asked.or(named).unwrap_or_default(),
    };
    if format == BriefFormat::Json && options.page != BriefPage::All {
        return Err(Failure::Told(
            "JSON holds all pages at once: leave --page out, or take --format csv or text"
                .to_owned(),
        ));
    }
    Ok(format)
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
    let mut first = format!("{}, trip {}", brief.boat, brief.trip);
    if let Some(date) = &brief.date {
        write!(first, ", {date}").ok();
    }
    write!(first, "; as in the part {}", brief.part).ok();
    let mut text = paragraph("", 0, 0, &first, width);
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
                "diver",
                "where",
                "how",
                "secured by",
                "mass kg",
            ],
            width,
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
                "greatest pull",
            ],
            width,
        );
    }
    if all || page == BriefPage::LoadingOrder {
        heading(&mut text, "Loading order");
        text += &blocks(
            &Table::loading_order(brief),
            &["step", "heel then", "what to do", "against the rules"],
            width,
        );
        let loading = &brief.loading;
        let place = |label: &str, name: Option<&String>| {
            format!(
                "{label}: {}\n",
                name.map_or_else(|| "none in the plan".to_owned(), |name| one_line(name))
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

/// Some columns of a table, those in which something stands; numbers stand right.
fn blocks(whole: &Table, wanted: &[&str], width: usize) -> String {
    if whole.rows.is_empty() {
        return "nothing\n".to_owned();
    }
    let columns: Vec<usize> = wanted
        .iter()
        .filter_map(|name| whole.headings.iter().position(|heading| heading == name))
        .filter(|column| whole.rows.iter().any(|row| !row[*column].is_empty()))
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
        .map(|row| {
            let cell = |column: &usize| match whole.headings[*column] {
                "kind" => without_measures(&row[*column]).to_owned(),
                _ => row[*column].clone(),
            };
            columns.iter().map(cell).collect()
        })
        .collect();
    table_within(&headings, &rows, width)
}
