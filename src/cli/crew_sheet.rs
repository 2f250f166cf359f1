//! `snugdown crew-sheet`: the brief on paper, or the plan alone as a picture.

use std::path::Path;

use super::args::CrewSheetOptions;
use super::columns::one_line;
use super::{Console, Failure, briefed};
use crate::sheet::{self, crew};
use crate::store;

/// What is written, by the ending of the file's name.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Kind {
    Pdf,
    Svg,
    Png,
}

pub(super) fn run(options: &CrewSheetOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    let Some(out) = &options.out else {
        needs_a_file(options)?;
        let (_, brief) = briefed::read(&options.loading, false)?;
        for line in crew::slate(&brief) {
            writeln!(console.out, "{}", one_line(&line).trim_end())?;
        }
        return Ok(());
    };
    briefed::refuse_to_replace(&options.loading, out)?;
    let kind = kind_of(out)?;
    refuse_without_effect(options, kind)?;
    // The slate, the large letters and the plan alone have no limit cards.
    let alone = options.plan || options.large_type || options.slate;
    let (plan, brief) = briefed::read(&options.loading, !alone)?;
    let paper = crew::Options {
        paper: options.paper.unwrap_or_default().into(),
        facing: options.facing.map(Into::into),
        version: store::version_of(&plan),
    };
    let pages = if options.plan && kind == Kind::Pdf {
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
    let count = pages.len();
    let bytes = match (kind, pages.as_slice()) {
        (Kind::Pdf, _) => sheet::pdf(&pages, &crew::title(&brief)).map_err(|error| told(&error))?,
        (Kind::Svg, _) => sheet::svg(&pages).into_bytes(),
        (Kind::Png, [page]) => sheet::Picture::of(page, crew::PIXELS_PER_MM)
            .png()
            .map_err(|error| told(&error))?,
        (Kind::Png, _) => {
            return Err(Failure::Told(format!(
                "{}: a PNG holds one page, and these are {count}: name the file with .pdf or .svg at the end, \
                 or add --plan or --slate",
                out.display()
            )));
        }
    };
    store::write_atomic(out, &bytes).map_err(|error| told(&error))?;
    let pages = if count == 1 { "page" } else { "pages" };
    writeln!(console.out, "{}: {count} {pages}", out.display())?;
    Ok(())
}

/// Refuses what would do nothing where the slate goes to the terminal.
fn needs_a_file(options: &CrewSheetOptions) -> Result<(), Failure> {
    let given = [
        (options.plan, "--plan"),
        (options.large_type, "--large-type"),
        (options.paper.is_some(), "--paper"),
        (options.facing.is_some(), "--facing"),
        (options.loading.overwrite, "--overwrite"),
    ];
    match given.iter().find(|(given, _)| *given) {
        None => Ok(()),
        Some((_, option)) => Err(Failure::Told(format!(
            "{option} needs --out FILE; without a file the six lines for a slate are printed"
        ))),
    }
}

/// Refuses options that would change nothing of what is written.
fn refuse_without_effect(options: &CrewSheetOptions, kind: Kind) -> Result<(), Failure> {
    let only_words = [
        (options.slate, "--slate"),
        (options.large_type, "--large-type"),
    ];
    let only_words = only_words.iter().find(|(given, _)| *given);
    if let (Some(_), Some((_, page))) = (options.facing, only_words) {
        return Err(Failure::Told(format!(
            "--facing has no effect with {page}: no plan is drawn there; leave one of them out"
        )));
    }
    if options.plan && kind != Kind::Pdf && options.paper.is_some() {
        return Err(Failure::Told(
            "--paper has no effect on the plan alone as .svg or .png, which is a piece of its own size; leave it \
             out, or name the file with .pdf at the end"
                .to_owned(),
        ));
    }
    Ok(())
}

fn kind_of(out: &Path) -> Result<Kind, Failure> {
    let ending = out.extension().and_then(|ending| ending.to_str());
    match ending.map(str::to_ascii_lowercase).as_deref() {
        Some("pdf") => Ok(Kind::Pdf),
        Some("svg") => Ok(Kind::Svg),
        Some("png") => Ok(Kind::Png),
        Some("csv") => Err(Failure::Told(format!(
            "{}: name the sheet with .pdf or .svg at the end, one page also with .png; {LISTS}",
            out.display()
        ))),
        _ => Err(Failure::Told(format!(
            "{}: name the sheet with .pdf or .svg at the end, one page also with .png",
            out.display()
        ))),
    }
}

/// Where the lists for a spreadsheet come from.
pub(super) const LISTS: &str =
    "the lists as CSV are made by: snugdown brief FILE --page load-list --format csv";
