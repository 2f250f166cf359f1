//! Audit records on disk, with the files that they refer to.
//!
//! A record is read as strictly as a deck plan: all faults at once, each with line, column and field. The
//! files it refers to are looked for from its own folder; each is hashed (SHA-256) and held against what
//! the record says. A layout that is missing or cannot be read is an error, since nothing can be computed
//! without it; a photo or log that is missing or changed is told, and so is a log that cannot be read.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs::File;
use std::io::{BufReader, ErrorKind, Read as _};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use schemars::schema_for;
use serde_json::Value;
use sha2::{Digest as _, Sha256};

use super::document::{self, Format, Instead};
use super::fault::{Faults, ReadError};
use super::motion_log::{LogUnits, read_whole_log};
use super::refusal::{Trying, in_one_line, refused};
use super::watch::{Watch, Watched};
use super::{SaveError, print, schema, write_atomic};
use crate::layout::{Plan, validate as validate_plan};
use crate::mechanics::motion::GRAVITY;
use crate::record::{
    AccelerationUnit, AngleUnit, AuditRecord, FileState, Input, LayoutFile, LogUnitsSaid,
    MotionLog, MotionLogFile, Opened, RECORD_VERSION, TimeUnit, validate,
};

static FORMAT: LazyLock<Format> = LazyLock::new(|| {
    Format::new(&record_schema(), RECORD_VERSION, &["version"]).or_rather(PLAN_INSTEAD)
});

/// A deck plan where an audit record is wanted.
const PLAN_INSTEAD: Instead = Instead {
    has: "boat",
    has_not: "accounts",
    is: "this is a deck plan, not an audit record",
    help: "`snugdown audit-record RECORD.json --planned PLAN.json --found FOUND.json` starts a record from deck plans",
};

/// Where records that are shipped find their schema.
pub const RECORD_SCHEMA_PATH: &str = "../../docs/audit-record.schema.json";

/// Bytes of a file that is hashed, at most: a long video.
const MOST_BYTES: u64 = 4 * 1024 * 1024 * 1024;

/// Bytes of a motion log that is read whole, at most.
const MOST_LOG_BYTES: usize = 1024 * 1024 * 1024;

fn record_schema() -> Value {
    let mut schema = schema_for!(AuditRecord).to_value();
    schema::add_bounds(&mut schema);
    if let Some(object) = schema.as_object_mut() {
        object.insert("title".to_owned(), "Snugdown audit record".into());
    }
    schema
}

/// The JSON Schema of an audit record, as text.
pub fn record_schema_text() -> String {
    print::to_text(&record_schema())
}

/// The fields of an audit record as a page of the docs (Markdown), from the same schema.
pub fn record_field_reference() -> String {
    super::reference::page_after(
        &record_schema(),
        "# The audit record\n\nWhat [an audit](guide.md#after-an-incident) is made from: every field with its \
         meaning, unit and range. Generated from the types that the program reads; run `UPDATE_DOCS=1 cargo \
         test` to renew it. `layouts/incident/record.json` is a whole one.\n\n\
         **Bold** fields must be there. `[x, y]` is a place in metres: x forward of the transom, y to port of \
         the centreline. What is said of cylinders, lashings and gear is as in [the layout \
         file](layout-fields.md).\n",
    )
}

/// A record as the text of its file.
pub fn record_text(record: &AuditRecord) -> String {
    print::to_text(record)
}

/// Reads a record from text; `name` is what the text is called in what is told of it.
pub fn parse_record(text: &str, name: &str) -> Result<AuditRecord, Faults> {
    document::from_bytes(&FORMAT, text.as_bytes(), name, validate)
}

/// Saves a record: all of it or nothing, and only what can be opened again.
pub fn save_record(record: &AuditRecord, path: &Path) -> Result<(), SaveError> {
    let text = record_text(record);
    parse_record(&text, &path.display().to_string())?;
    Ok(write_atomic(path, text.as_bytes())?)
}

/// Why a record was not opened.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// The record itself.
    #[error(transparent)]
    Record(ReadError),

    /// A layout that it refers to.
    #[error("{what}: {error}")]
    Layout {
        /// What it is to the record.
        what: String,
        /// Why it was not read.
        error: ReadError,
    },
}

/// Reads a record and every file that it refers to.
pub fn open_record(path: &Path) -> Result<Opened, RecordError> {
    open_record_watched(path, &Watch::default())
}

/// The same under watch: how much of it is done, and whether it is given up. Given up, its motion log is told as one
/// that cannot be read.
pub fn open_record_watched(path: &Path, watch: &Watch) -> Result<Opened, RecordError> {
    let bytes = document::read_bytes(path).map_err(RecordError::Record)?;
    let name = path.display().to_string();
    let record = document::from_bytes(&FORMAT, &bytes, &name, validate)
        .map_err(|faults| RecordError::Record(faults.into()))?;
    let folder = path.parent().unwrap_or_else(|| Path::new(""));
    let own_name = path.file_name().unwrap_or_default();
    let mut inputs = vec![Input {
        what: "record".to_owned(),
        path: own_name.to_string_lossy().into_owned(),
        recorded_sha256: None,
        sha256: Some(hex(&Sha256::digest(&bytes))),
        state: FileState::Itself,
    }];
    let planned = layout(folder, &record.planned, "plan as issued", &mut inputs)?;
    let mut layouts = BTreeMap::new();
    for account in &record.accounts {
        if let Some(file) = &account.layout {
            let what = format!("layout of account {}", account.id);
            layouts.insert(
                account.id.clone(),
                layout(folder, file, &what, &mut inputs)?,
            );
        }
    }
    let motion_log = match &record.motion_log {
        None => MotionLog::None,
        Some(log) => read_log(folder, log, watch, &mut inputs),
    };
    for file in &record.files {
        let what = format!("file {}", file.id);
        inputs.push(hashed(folder, &what, &file.path, &file.sha256));
    }
    Ok(Opened {
        record,
        planned,
        layouts,
        inputs,
        motion_log,
    })
}

fn layout(
    folder: &Path,
    file: &LayoutFile,
    what: &str,
    inputs: &mut Vec<Input>,
) -> Result<Plan, RecordError> {
    let path = folder.join(&file.path);
    let told = |error| RecordError::Layout {
        what: what.to_owned(),
        error,
    };
    let bytes = document::read_bytes(&path).map_err(told)?;
    let sha256 = hex(&Sha256::digest(&bytes));
    inputs.push(Input {
        what: what.to_owned(),
        path: file.path.clone(),
        recorded_sha256: Some(file.sha256.clone()),
        state: held_against(&sha256, &file.sha256),
        sha256: Some(sha256),
    });
    let name = path.display().to_string();
    document::from_bytes(&super::FORMAT, &bytes, &name, validate_plan)
        .map_err(|faults| told(faults.into()))
}

/// Why no record can refer to a layout.
#[derive(Debug, thiserror::Error)]
pub enum ReferenceError {
    /// The folder of the record.
    #[error("{}: no record can be saved in it: {}", path.display(), refused(source, Trying::ToWrite))]
    Folder {
        /// Which folder.
        path: PathBuf,
        /// Why not.
        source: std::io::Error,
    },

    /// The layout.
    #[error(transparent)]
    Layout(ReadError),
}

/// A layout file as a record in `record` refers to it: its path from the record's folder, and its hash now.
pub fn reference(
    record: &Path,
    layout: &Path,
    trip: Option<String>,
    part: Option<String>,
) -> Result<LayoutFile, ReferenceError> {
    let folder = match record.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let no_folder = |source| ReferenceError::Folder {
        path: folder.to_owned(),
        source,
    };
    let folder = folder.canonicalize().map_err(no_folder)?;
    let unread = |source| {
        let path = layout.to_owned();
        ReferenceError::Layout(ReadError::Io { path, source })
    };
    let file = layout.canonicalize().map_err(unread)?;
    let common = folder
        .components()
        .zip(file.components())
        .take_while(|(a, b)| a == b)
        .count();
    let mut path = String::new();
    for _ in folder.components().skip(common) {
        path.push_str("../");
    }
    // With slashes on every platform, so that a record can be handed on.
    let parts: Vec<_> = file
        .components()
        .skip(common)
        .map(|part| part.as_os_str().to_string_lossy())
        .collect();
    path.push_str(&parts.join("/"));
    Ok(LayoutFile {
        path,
        sha256: sha256_of(&file).map_err(unread)?,
        trip,
        part,
    })
}

/// The SHA-256 of a file, in small hexadecimal letters.
pub fn sha256_of(path: &Path) -> std::io::Result<String> {
    let mut hasher = Sha256::new();
    let mut file = File::open(path)?.take(MOST_BYTES);
    let mut chunk = vec![0_u8; 64 * 1024];
    loop {
        let count = file.read(&mut chunk)?;
        if count == 0 {
            return Ok(hex(&hasher.finalize()));
        }
        hasher.update(chunk.get(..count).unwrap_or_default());
    }
}

fn hashed(folder: &Path, what: &str, path: &str, recorded: &str) -> Input {
    let sha256 = sha256_of(&folder.join(path)).ok();
    let state = sha256
        .as_deref()
        .map_or(FileState::Missing, |now| held_against(now, recorded));
    Input {
        what: what.to_owned(),
        path: path.to_owned(),
        recorded_sha256: Some(recorded.to_owned()),
        sha256,
        state,
    }
}

fn held_against(now: &str, recorded: &str) -> FileState {
    if now == recorded {
        FileState::Unchanged
    } else {
        FileState::Changed
    }
}

/// Reads the motion log, of which the very bytes are hashed that are read.
fn read_log(
    folder: &Path,
    log: &MotionLogFile,
    watch: &Watch,
    inputs: &mut Vec<Input>,
) -> MotionLog {
    let bytes = read_whole(&folder.join(&log.path));
    let sha256 = (bytes.as_ref().ok()).map(|bytes| hex(&Sha256::digest(bytes)));
    inputs.push(Input {
        what: "motion log".to_owned(),
        path: log.path.clone(),
        recorded_sha256: Some(log.sha256.clone()),
        state: (sha256.as_deref()).map_or(FileState::Missing, |now| held_against(now, &log.sha256)),
        sha256,
    });
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return MotionLog::Missing,
        Err(error) => {
            return MotionLog::Unreadable(in_one_line(&refused(&error, Trying::ToRead)));
        }
    };
    if bytes.len() > MOST_LOG_BYTES {
        return MotionLog::Unreadable(format!("it is longer than {MOST_LOG_BYTES} bytes"));
    }
    let mut reader = BufReader::new(Watched::new(&bytes, 1.0, watch));
    match read_whole_log(&mut reader, log_units(log.units.unwrap_or_default())) {
        Ok(recorded) => MotionLog::Read(recorded),
        Err(error) => MotionLog::Unreadable(in_one_line(&error.to_string())),
    }
}

fn read_whole(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?
        .take(MOST_LOG_BYTES as u64 + 1)
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// What a record says of the units of its log, as the reader wants it.
pub fn log_units(said: LogUnitsSaid) -> LogUnits {
    LogUnits {
        angle_rad: said.angle.map(|unit| match unit {
            AngleUnit::Deg => 1.0_f64.to_radians(),
            AngleUnit::Rad => 1.0,
        }),
        time_s: said.time.map(|unit| match unit {
            TimeUnit::S => 1.0,
            TimeUnit::Ms => 1e-3,
        }),
        acceleration_m_s2: said.acceleration.map(|unit| match unit {
            AccelerationUnit::G => GRAVITY,
            AccelerationUnit::MPerS2 => 1.0,
        }),
    }
}

fn hex(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(2 * bytes.len());
    for byte in bytes {
        write!(text, "{byte:02x}").ok();
    }
    text
}

#[cfg(test)]
mod tests;
