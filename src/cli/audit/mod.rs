//! `snugdown audit`: the audit of a record; `snugdown audit-record`: a record started from two layouts.

mod paper;
mod people;

use std::path::Path;

use super::args::{AuditOptions, AuditRecordOptions, CompareFormat};
use super::create::refuse_to_replace;
use super::{Console, Failure, Status, choose};
use crate::audit::{Audit, Case};
use crate::record::{Account, AuditRecord};
use crate::store::folder::is_same_file;
use crate::store::{self, SaveError};

pub(super) fn run(options: &AuditOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    if !options.overwrite
        && let Some(report) = &options.report
    {
        refuse_to_replace(report, false)?;
    }
    let (case, audit) = audit(&options.record)?;
    let mut saved = Vec::new();
    if options.report.is_some() || options.pictures.is_some() {
        let pages = paper::Pages::of(&options.record, &case, &audit, options.paper.into());
        if let Some(report) = &options.report {
            saved.push(pages.save_report(report)?);
        }
        if let Some(folder) = &options.pictures {
            saved.extend(pages.save_pictures(folder, options.overwrite)?);
        }
    }
    for line in saved {
        // What is printed stays the audit alone.
        writeln!(console.err, "{line}")?;
    }
    match options.format {
        CompareFormat::Text => {
            let text = people::text(&audit, console.terminal.columns());
            console.out.write_all(text.as_bytes())?;
        }
        CompareFormat::Json => {
            let text = json(&audit)?;
            console.out.write_all(text.as_bytes())?;
        }
    }
    if let Some(why) = audit.unreadable_log() {
        writeln!(
            console.err,
            "motion log: {why}; the audit was made without it"
        )?;
        return Ok(Status::Failure);
    }
    Ok(if audit.has_findings() {
        Status::Findings
    } else {
        Status::Success
    })
}

/// Reads a record and audits it.
fn audit(path: &Path) -> Result<(Case, Audit), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    let opened = store::open_record(path).map_err(|error| told(&error))?;
    let case =
        Case::of(opened).map_err(|error| Failure::Told(format!("{}: {error}", path.display())))?;
    let audit = Audit::of(&case).ok_or_else(|| {
        let path = path.display();
        Failure::Told(format!("{path}: the plan has no part of the day to audit"))
    })?;
    Ok((case, audit))
}

fn json(audit: &Audit) -> Result<String, Failure> {
    let mut text = serde_json::to_string_pretty(audit).map_err(std::io::Error::from)?;
    text.push('\n');
    Ok(text)
}

pub(super) fn start(
    options: &AuditRecordOptions,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let AuditRecordOptions {
        out,
        planned,
        found,
        trip,
        part,
        title,
        by,
        overwrite,
    } = options;
    refuse_to_replace(out, *overwrite)?;
    if let Some(input) = [planned, found]
        .into_iter()
        .find(|it| is_same_file(it, out))
    {
        return Err(Failure::Told(format!(
            "{} is to be recorded: no record takes its place\n  help: name another file for the record",
            input.display()
        )));
    }
    let file = |path: &Path| -> Result<_, Failure> {
        let asked = choose::moment(path, trip.as_deref(), part.as_deref())?;
        store::reference(out, path, asked.trip, asked.part)
            .map_err(|error| Failure::Told(error.to_string()))
    };
    let account = Account {
        id: "A".to_owned(),
        by: by.clone(),
        when: None,
        layout: Some(file(found)?),
        found: Vec::new(),
        lashings: Vec::new(),
    };
    let record = AuditRecord::new(title, file(planned)?, account);
    store::save_record(&record, out).map_err(|error| {
        Failure::Told(match error {
            SaveError::Write(error) => error.to_string(),
            SaveError::Faults(faults) => faults.to_string(),
        })
    })?;
    writeln!(
        console.out,
        "{}: a record with the plan as issued and one account. Add statements, measurements, files and ranges \
         of roll to it, then: `snugdown audit {}`",
        out.display(),
        out.display()
    )?;
    Ok(())
}
