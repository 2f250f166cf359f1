//! The report and the pictures of an audit, saved.

use std::path::Path;

use crate::audit::{Audit, Case, Sight, sights};
use crate::cli::Failure;
use crate::cli::create::refuse_to_replace;
use crate::sheet::{self, Page, Paper, audit as sheets};
use crate::store;
use crate::store::folder::input_at;

/// The greatest size of a picture of a deck that stands alone, in millimetres.
const ALONE_MM: (f64, f64) = (250.0, 180.0);

/// Everything of an audit that goes onto paper.
pub(super) struct Pages<'a> {
    record: &'a Path,
    audit: &'a Audit,
    sights: Vec<Vec<Sight>>,
    paper: Paper,
}

impl<'a> Pages<'a> {
    pub(super) fn of(record: &'a Path, case: &Case, audit: &'a Audit, paper: Paper) -> Self {
        let accounts = audit.accounts.iter();
        Self {
            record,
            audit,
            sights: accounts.map(|account| sights(case, account)).collect(),
            paper,
        }
    }

    /// What an audit is made from stays as it is.
    fn refuse_inputs(&self, out: &Path) -> Result<(), Failure> {
        let input = input_at(self.record, &self.audit.inputs, out);
        input.map_or(Ok(()), |input| {
            Err(Failure::Told(format!(
                "{} is an input of this audit ({}): nothing takes its place\n  help: name another file",
                out.display(),
                input.what
            )))
        })
    }

    /// Saves the report; tells where and how many pages it has.
    pub(super) fn save_report(&self, out: &Path) -> Result<String, Failure> {
        let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
        self.refuse_inputs(out)?;
        let pages = sheets::pages(self.audit, &self.sights, self.paper);
        let ending = out.extension().and_then(|ending| ending.to_str());
        let bytes = match ending.map(str::to_ascii_lowercase).as_deref() {
            Some("pdf") => {
                sheet::pdf(&pages, &sheets::title(self.audit)).map_err(|error| told(&error))?
            }
            Some("svg") => sheet::svg(&pages).into_bytes(),
            _ => {
                return Err(Failure::Told(format!(
                    "{}: name the report with .pdf or .svg at the end",
                    out.display()
                )));
            }
        };
        store::write_atomic(out, &bytes).map_err(|error| told(&error))?;
        let count = pages.len();
        let pages = if count == 1 { "page" } else { "pages" };
        Ok(format!("{}: {count} {pages}", out.display()))
    }

    /// Saves one picture of each deck and of each cylinder that could have reached the marked spot.
    pub(super) fn save_pictures(
        &self,
        folder: &Path,
        overwrite: bool,
    ) -> Result<Vec<String>, Failure> {
        let mut pictures: Vec<(String, Page)> = Vec::new();
        for (account, sights) in self.audit.accounts.iter().zip(&self.sights) {
            for sight in sights {
                let name = format!("{}-deck-{}", account.id, sight.deck);
                pictures.push((name, sheets::plan_picture(sight, ALONE_MM).1));
            }
            for row in &account.reach {
                let name = format!("{}-{}", account.id, row.cylinder);
                pictures.push((name, sheets::fall_picture(row)));
            }
        }
        let mut saved = Vec::new();
        for (name, page) in pictures {
            let is_plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
            let name: String = name
                .chars()
                .map(|c| if is_plain(c) { c } else { '-' })
                .collect();
            let out = folder.join(format!("{name}.svg"));
            self.refuse_inputs(&out)?;
            refuse_to_replace(&out, overwrite)?;
            store::write_atomic(&out, sheet::svg(&[page]).as_bytes())
                .map_err(|error| Failure::Told(error.to_string()))?;
            saved.push(out.display().to_string());
        }
        Ok(saved)
    }
}
