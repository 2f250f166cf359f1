//! `snugdown compare`: as found, held against as planned.

use super::args::{CompareFormat, CompareOptions};
use super::check::CAUTIONS;
use super::columns::paragraph;
use super::{Console, Failure, Status, choose};
use crate::audit::{Comparison, LimitChange, Moment, compare};

pub(super) fn run(options: &CompareOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    let moment = |path: &std::path::Path| -> Result<Moment, Failure> {
        let (trip, part) = (options.trip.as_deref(), options.part.as_deref());
        Ok(choose::moment(path, trip, part)?.moment)
    };
    let (planned, found) = (moment(&options.planned)?, moment(&options.found)?);
    let comparison = compare(&planned, &found);
    match options.format {
        CompareFormat::Text => {
            let text = for_people(&comparison, console.terminal.columns());
            console.out.write_all(text.as_bytes())?;
        }
        CompareFormat::Json => {
            serde_json::to_writer_pretty(&mut *console.out, &comparison)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
    }
    Ok(if comparison.differences.is_empty() {
        Status::Success
    } else {
        Status::Findings
    })
}

fn for_people(comparison: &Comparison, width: usize) -> String {
    let mut text = String::new();
    if comparison.differences.is_empty() {
        text.push_str("Found as planned.\n");
    }
    for difference in &comparison.differences {
        text.push_str(&paragraph(
            "-",
            1,
            2,
            &format!("{}.", difference.sentence),
            width,
        ));
        for change in &difference.limits {
            text.push_str(&paragraph("", 0, 4, &change_words(change), width));
        }
    }
    if !comparison.limits.is_empty() {
        text.push_str("\nAll of it together\n");
        for change in &comparison.limits {
            text.push_str(&paragraph("-", 1, 2, &change_words(change), width));
        }
    }
    text.push('\n');
    for caution in CAUTIONS {
        text.push_str(&paragraph("", 0, 0, caution, width));
    }
    text
}

fn change_words(change: &LimitChange) -> String {
    let LimitChange {
        cylinder,
        planned,
        with_it,
    } = change;
    format!("{cylinder}: as planned it {planned}; so it {with_it}.")
}
