//! `snugdown crew-sheet`: the brief on paper.

use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;

use super::args::CrewSheetOptions;
use super::create::refuse_to_replace;
use super::cylinders::{no_such, trip_id};
use super::{Console, Failure};
use crate::brief::{Brief, LoadingSettings};
use crate::layout::Plan;
use crate::sheet::{self, crew};
use crate::store;

/// How many bytes of the hash stand on a sheet: enough to tell two states of a plan apart by eye.
const VERSION_BYTES: usize = 4;

pub(super) fn run(options: &CrewSheetOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    if let Some(out) = &options.out
        && !options.overwrite
    {
        refuse_to_replace(out)?;
    }
    let plan = store::read(&options.layout).map_err(|error| told(&error))?;
    let id = trip_id(&plan, options.trip.as_deref())?;
    let Some(trip) = plan.trip(&id) else {
        return Err(Failure::Told(format!("there is no trip {id:?}")));
    };
    if let Some(part) = &options.part
        && trip.part(part).is_none()
    {
        let known = trip.parts.iter().map(|part| part.id.as_str());
        return Err(Failure::Told(no_such("part of the day", part, known)));
    }
    let settings = LoadingSettings::default();
    let brief =
        Brief::of(&plan, trip, options.part.as_deref(), &settings).map_err(|error| told(&error))?;
    let Some(out) = &options.out else {
        for line in crew::slate(&brief) {
            writeln!(console.out, "{}", line.trim_end())?;
        }
        return Ok(());
    };
    let paper = crew::Options {
        paper: options.paper.into(),
        facing: options.facing.map(Into::into),
        version: version(&plan),
    };
    let pages = if options.large_type {
        crew::large_type(&brief, &paper)
    } else {
        crew::pages(&plan, &brief, &paper)
    };
    let ending = out.extension().and_then(|ending| ending.to_str());
    let bytes = match ending.map(str::to_ascii_lowercase).as_deref() {
        Some("pdf") => sheet::pdf(&pages, &crew::title(&brief)).map_err(|error| told(&error))?,
        Some("svg") => sheet::svg(&pages).into_bytes(),
        _ => {
            return Err(Failure::Told(format!(
                "{}: name the sheet with .pdf or .svg at the end",
                out.display()
            )));
        }
    };
    store::write_atomic(out, &bytes).map_err(|error| told(&error))?;
    writeln!(console.out, "{}: {} pages", out.display(), pages.len())?;
    Ok(())
}

/// A short name for this state of the plan: the start of the SHA-256 of the file as it would be saved.
fn version(plan: &Plan) -> String {
    let hash = Sha256::digest(store::to_text(plan).as_bytes());
    let mut text = String::new();
    for byte in hash.iter().take(VERSION_BYTES) {
        write!(text, "{byte:02x}").ok();
    }
    text
}
