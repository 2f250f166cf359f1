//! `snugdown fleet`: folders of deck plans, audit records and logs as one table.

use std::path::{Path, PathBuf};

use super::args::{FleetFormat, FleetOptions};
use super::check::CAUTIONS;
use super::columns::{Align, paragraph, table};
use super::{Console, Failure, Status};
use crate::audit::fleet::{FleetDocument, FleetFiles, FleetRow, FleetWhat, fleet};
use crate::mechanics::recorded::LogPiece;
use crate::store;
use crate::store::folder::plans_and_logs;
use crate::store::motion_log::{LogUnits, open_motion_log, read_motion_log};

/// Files on disk.
struct OnDisk {
    units: LogUnits,
}

impl FleetFiles for OnDisk {
    fn within(&self, folder: &Path) -> Result<Vec<PathBuf>, String> {
        plans_and_logs(folder).map_err(|error| error.to_string())
    }

    fn document(&self, path: &Path) -> Result<FleetDocument, String> {
        let told = |error: &dyn std::fmt::Display| error.to_string();
        if store::is_record(path) {
            let opened = store::open_record(path).map_err(|error| told(&error))?;
            return Ok(FleetDocument::Record(Box::new(opened)));
        }
        let plan = store::read(path).map_err(|error| told(&error))?;
        Ok(FleetDocument::Plan(Box::new(plan)))
    }

    fn log(&self, path: &Path, each: &mut dyn FnMut(LogPiece<'_>)) -> Result<(), String> {
        let mut reader = open_motion_log(path).map_err(|error| error.to_string())?;
        match read_motion_log(&mut *reader, self.units, each) {
            Ok(_) => Ok(()),
            Err(error) => Err(error.to_string()),
        }
    }
}

pub(super) fn run(options: &FleetOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    let on_disk = OnDisk {
        units: options.units.units(),
    };
    let rows = fleet(&options.folders, &on_disk);
    match options.format {
        FleetFormat::Json => {
            serde_json::to_writer_pretty(&mut *console.out, &rows).map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        FleetFormat::Csv => {
            let text = store::csv_text(&rows)?;
            console.out.write_all(text.as_bytes())?;
        }
        FleetFormat::Text => {
            console.out.write_all(for_people(&rows).as_bytes())?;
            writeln!(console.out)?;
            for caution in CAUTIONS {
                let text = paragraph("", 0, 0, caution, console.terminal.columns());
                console.out.write_all(text.as_bytes())?;
            }
        }
    }
    // A table is told whatever is in it: only where nothing could be read has it failed.
    let read = rows.iter().any(|row| row.error.is_none());
    let findings = (rows.iter()).any(|row| {
        let passed = row.log_passed_limit == Some(true) || row.remark.is_some();
        row.danger + row.warning + row.caution > 0 || passed
    });
    Ok(if !read {
        Status::Failure
    } else if findings {
        Status::Findings
    } else {
        Status::Success
    })
}

fn for_people(rows: &[FleetRow]) -> String {
    if rows.is_empty() {
        return "No deck plan, no audit record and no log is there.\n".to_owned();
    }
    let headings = [
        ("file", Align::Left),
        ("trip", Align::Left),
        ("part", Align::Left),
        ("roll", Align::Right),
        ("limit", Align::Right),
        ("first to go", Align::Left),
        ("DANGER", Align::Right),
        ("WARNING", Align::Right),
        ("CAUTION", Align::Right),
        ("NOTICE", Align::Right),
        ("log rolled", Align::Right),
        ("passed", Align::Left),
        ("remark", Align::Left),
    ];
    let degrees = |deg: Option<f64>| deg.map_or_else(String::new, |deg| format!("{deg:.1}°"));
    let told = |row: &FleetRow| {
        let count = |number: usize| {
            if row.cylinders == 0 && row.error.is_some() {
                String::new()
            } else {
                number.to_string()
            }
        };
        vec![
            match &row.account {
                Some(account) => format!("{}, account {account}", row.file),
                None => row.file.clone(),
            },
            row.trip.clone(),
            row.part.clone(),
            degrees(row.roll_deg),
            match row.limit_deg {
                None if row.roll_deg.is_some() => "60° and more".to_owned(),
                limit => degrees(limit),
            },
            row.first_to_go.clone().unwrap_or_default(),
            count(row.danger),
            count(row.warning),
            count(row.caution),
            count(row.notice),
            degrees(row.log_largest_roll_deg),
            match (row.log_passed_limit, row.log_cylinders_passed) {
                (Some(true), Some(count)) => format!("yes, of {count}"),
                (Some(_), _) => "no".to_owned(),
                _ => String::new(),
            },
            [row.error.as_deref(), row.remark.as_deref()]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join("; "),
        ]
    };
    let has_record = rows.iter().any(|row| row.what == FleetWhat::AuditRecord);
    let rows: Vec<Vec<String>> = rows.iter().map(told).collect();
    let mut text = table(&headings, &rows);
    if has_record {
        text.push_str(
            "\nAn audit record has a row for each account, with the stowage as found; `snugdown audit RECORD` tells all \
             of it.\n",
        );
    }
    text
}
