//! What lies in a folder.

use std::path::{Path, PathBuf};

use super::ReadError;
use crate::record::Input;

/// Does a file's name end so, in capitals or not?
pub fn has_ending(path: &Path, ending: &str) -> bool {
    path.extension()
        .is_some_and(|found| found.eq_ignore_ascii_case(ending))
}

/// The deck plans and audit records (`.json`) and logs (`.csv`) in a folder, not in folders within it, in no order; a file is itself
/// alone.
pub fn plans_and_logs(folder: &Path) -> Result<Vec<PathBuf>, ReadError> {
    if folder.is_file() {
        return Ok(vec![folder.to_owned()]);
    }
    let refused = |source| ReadError::Io {
        path: folder.to_owned(),
        source,
    };
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(refused)? {
        let path = entry.map_err(refused)?.path();
        let wanted = has_ending(&path, "json") || has_ending(&path, "csv");
        if wanted && path.is_file() {
            files.push(path);
        }
    }
    Ok(files)
}

/// Do two paths lead to one file, by whatever way? Not where one of them is not there.
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| path.canonicalize().ok();
    real(one).is_some_and(|one| real(other) == Some(one))
}

/// The input of a record that lies at a path: nothing that comes of the record may be written there.
pub fn input_at<'a>(record: &Path, inputs: &'a [Input], out: &Path) -> Option<&'a Input> {
    let folder = record.parent().unwrap_or_else(|| Path::new(""));
    let mut inputs = inputs.iter();
    inputs.find(|input| is_same_file(&folder.join(&input.path), out))
}
