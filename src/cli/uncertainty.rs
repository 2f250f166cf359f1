//! `snugdown uncertainty`: the roll at which each cylinder goes as a band, and what moves it most.

use schemars::JsonSchema;
use serde::Serialize;

use super::args::UncertaintyOptions;
use super::columns::paragraph;
use super::stowage::{Told, asked, moment};
use super::{Console, Failure};
use crate::audit::uncertainty::{Bands, bands};
use crate::engine::Varied;

/// What is printed as JSON, beside what it is about.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Sure {
    /// The bands, and what was taken for them.
    uncertainty: Bands,
}

pub(super) fn run(options: &UncertaintyOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let moment = moment(&options.stowage)?;
    let about = asked(&moment)?;
    let varied = Varied::new(&about.stowed, about.part);
    let uncertainty = bands(&varied, options.draws, options.seed);
    Told::new(&about, Sure { uncertainty }).tell(options.stowage.format, console, for_people)
}

fn for_people(report: &Told<Sure>, width: usize) -> String {
    let bands = &report.answer.uncertainty;
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
    text
}
