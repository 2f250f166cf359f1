//! `snugdown crew-sheet`: the brief on paper, or the plan alone as a picture.

use std::path::Path;

use super::args::CrewSheetOptions;
use super::{Console, Failure, briefed};
use crate::sheet::{self, crew};
use crate::store;

pub(super) fn run(options: &CrewSheetOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    if let Some(out) = &options.out {
        briefed::refuse_to_replace(&options.loading, out)?;
    }
    // The slate, the large letters and the plan alone have no limit cards.
    let alone = options.plan || options.large_type || options.slate;
    let cards = options.out.is_some() && !alone;
    let (plan, brief) = briefed::read(&options.loading, cards)?;
    let Some(out) = &options.out else {
        for line in crew::slate(&brief) {
            writeln!(console.out, "{}", line.trim_end())?;
        }
        return Ok(());
    };
    let paper = crew::Options {
        paper: options.paper.into(),
        facing: options.facing.map(Into::into),
        version: store::version_of(&plan),
    };
    let pages = if options.plan && ending(out).as_deref() == Some("pdf") {
        crew::plan_pages(&plan, &brief, &paper)
    } else if options.plan {
        vec![crew::plan_alone(&plan, &brief, &paper)]
    } else if options.slate {
        crew::slate_page(&brief, &paper)
    } else if options.large_type {
        crew::large_type(&brief, &paper)
    } else {
        crew::pages(&plan, &brief, &paper)
    };
    let bytes = match ending(out).as_deref() {
        Some("pdf") => sheet::pdf(&pages, &crew::title(&brief)).map_err(|error| told(&error))?,
        Some("svg") => sheet::svg(&pages).into_bytes(),
        Some("png") => match pages.as_slice() {
            [page] => sheet::Picture::of(page, crew::PIXELS_PER_MM)
                .png()
                .map_err(|error| told(&error))?,
            _ => {
                return Err(Failure::Told(
                    "a PNG holds one picture: add --plan, or name the sheet with .pdf or .svg at the end"
                        .to_owned(),
                ));
            }
        },
        _ => {
            return Err(Failure::Told(format!(
                "{}: name the sheet with .pdf or .svg at the end, the plan alone also with .png",
                out.display()
            )));
        }
    };
    store::write_atomic(out, &bytes).map_err(|error| told(&error))?;
    let count = pages.len();
    let pages = if count == 1 { "page" } else { "pages" };
    writeln!(console.out, "{}: {count} {pages}", out.display())?;
    Ok(())
}

fn ending(path: &Path) -> Option<String> {
    let ending = path.extension()?.to_str()?;
    Some(ending.to_ascii_lowercase())
}
