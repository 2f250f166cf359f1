//! `snugdown uncertainty`: the roll at which each cylinder goes as a band, and what moves it most.

use serde::Serialize;

use super::args::{CompareFormat, UncertaintyOptions};
use super::check::CAUTIONS;
use super::columns::paragraph;
use super::replay::{moment, nothing_there};
use super::{Console, Failure};
use crate::audit::uncertainty::{Bands, bands};
use crate::engine::{Stowed, Varied};

#[derive(Debug, Serialize)]
struct Report {
    program: &'static str,
    cautions: [&'static str; 2],
    boat: String,
    trip: String,
    part: String,
    uncertainty: Bands,
}

pub(super) fn run(options: &UncertaintyOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let moment = moment(&options.stowage)?;
    let plan = &moment.plan;
    let trip = plan.trips.first().ok_or_else(nothing_there)?;
    let part = trip.parts.first().ok_or_else(nothing_there)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing_there)?;
    let varied = Varied::new(&stowed, part);
    let report = Report {
        program: concat!("snugdown ", env!("CARGO_PKG_VERSION")),
        cautions: CAUTIONS,
        boat: plan.boat.name.clone(),
        trip: trip.id.clone(),
        part: part.id.clone(),
        uncertainty: bands(&varied, options.draws, options.seed),
    };
    match options.stowage.format {
        CompareFormat::Json => {
            serde_json::to_writer_pretty(&mut *console.out, &report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        CompareFormat::Text => {
            let text = for_people(&report, console.terminal.columns());
            console.out.write_all(text.as_bytes())?;
        }
    }
    Ok(())
}

fn for_people(report: &Report, width: usize) -> String {
    let bands = &report.uncertainty;
    let [low, given, high] = bands.roll_deg;
    let mut text = paragraph(
        "",
        0,
        0,
        &format!(
            "{}: roll {given:.1}°, taken as {low:.1}° to {high:.1}°. Each input at both ends of its range alone, then \
             {} draws of all together (seed {}).",
            report.part, bands.draws, bands.seed
        ),
        width,
    );
    text.push('\n');
    for band in &bands.cylinders {
        text.push_str(&paragraph("-", 1, 2, &format!("{}.", band.sentence), width));
    }
    text.push_str("\nRanges that were taken\n");
    for assumption in &bands.assumptions {
        text.push_str(&paragraph("-", 1, 2, &format!("{assumption}."), width));
    }
    text.push('\n');
    for caution in CAUTIONS {
        text.push_str(&paragraph("", 0, 0, caution, width));
    }
    text
}
