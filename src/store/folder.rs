//! What lies in a folder.

use std::path::{Path, PathBuf};

use super::ReadError;

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
