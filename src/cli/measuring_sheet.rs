//! `snugdown measuring-sheet`.

use super::args::MeasuringSheetOptions;
use super::create::refuse_to_replace;
use super::{Console, Failure};
use crate::sheet::{self, measuring};
use crate::store;

pub(super) fn run(
    options: &MeasuringSheetOptions,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let MeasuringSheetOptions {
        file,
        out,
        paper,
        units,
        overwrite,
    } = options;
    refuse_to_replace(out, *overwrite)?;
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    let plan = match file {
        Some(file) => Some(store::read(file).map_err(|error| told(&error))?),
        None => None,
    };
    let options = measuring::Options {
        paper: (*paper).into(),
        units: (*units).into(),
    };
    let pages = measuring::pages(plan.as_ref(), options);
    let ending = out.extension().and_then(|ending| ending.to_str());
    let bytes = match ending.map(str::to_ascii_lowercase).as_deref() {
        Some("pdf") => {
            sheet::pdf(&pages, &measuring::title(plan.as_ref())).map_err(|error| told(&error))?
        }
        Some("svg") => sheet::svg(&pages).into_bytes(),
        _ => {
            return Err(Failure::Told(format!(
                "{}: name the sheet with .pdf or .svg at the end",
                out.display()
            )));
        }
    };
    store::write_atomic(out, &bytes).map_err(|error| told(&error))?;
    let pages = pages.len();
    writeln!(console.out, "{}: {pages} pages", out.display())?;
    Ok(())
}
