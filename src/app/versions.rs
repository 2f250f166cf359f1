//! Named versions of a deck plan, to go back to: each is a whole deck plan in a folder beside the file,
//! so that the file itself stays small and a version can be opened, copied or sent like any other.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::words::dialogs as words;
use crate::layout::Plan;
use crate::store;

/// One version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Version {
    /// What it was called.
    pub(crate) name: String,

    /// Where it is.
    pub(crate) path: PathBuf,

    /// When it was kept.
    pub(crate) when: Option<SystemTime>,
}

/// The folder of the versions of a file: `boat versions` beside `boat.json`.
pub(crate) fn folder_of(file: &Path) -> Option<PathBuf> {
    let stem = file.file_stem()?.to_string_lossy().into_owned();
    Some(file.with_file_name(format!("{stem} versions")))
}

/// The versions of a file, the latest first; none if nothing was kept yet.
pub(crate) fn of(file: &Path) -> Vec<Version> {
    let entries = folder_of(file).and_then(|folder| std::fs::read_dir(folder).ok());
    let entries = entries.into_iter().flatten().flatten();
    let mut versions: Vec<Version> = entries
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .filter_map(|path| {
            let name = path.file_stem()?.to_string_lossy().into_owned();
            let when = std::fs::metadata(&path).ok()?.modified().ok();
            (!name.starts_with('.')).then_some(Version { name, path, when })
        })
        .collect();
    versions.sort_by(|a, b| b.when.cmp(&a.when).then_with(|| a.name.cmp(&b.name)));
    versions
}

/// Where a version of this name would be; `None` if a file cannot be called that.
pub(crate) fn place_of(file: &Path, name: &str) -> Option<PathBuf> {
    /// Longer names are refused by some disks.
    const LONGEST: usize = 80;
    let name = name.trim();
    let fits = !name.is_empty()
        && name.chars().count() <= LONGEST
        && !name.starts_with('.')
        && name
            .chars()
            .all(|c| c.is_alphanumeric() || " -_.,+()".contains(c));
    let folder = folder_of(file)?;
    fits.then(|| folder.join(format!("{name}.json")))
}

/// Keeps a plan under a name; one that is taken stays as it is.
pub(crate) fn keep(file: &Path, name: &str, plan: &Plan) -> Result<(), String> {
    let path = place_of(file, name).ok_or_else(|| words::NO_SUCH_NAME.to_owned())?;
    if path.exists() {
        return Err(words::name_is_taken(name.trim()));
    }
    let folder = path.parent().unwrap_or(Path::new(""));
    std::fs::create_dir_all(folder).map_err(|err| err.to_string())?;
    store::save(plan, &path).map_err(|err| err.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_version_is_kept_once_under_its_name_and_can_be_read() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("boat.json");
        assert!(of(&file).is_empty(), "nothing was kept yet");
        let morning = Plan::new("Petrel", 8.0, 3.0);
        keep(&file, " this morning ", &morning).unwrap();
        let err = keep(&file, "this morning", &Plan::new("Petrel", 9.0, 3.0)).unwrap_err();
        assert!(err.contains("this morning"), "{err}");
        let versions = of(&file);
        assert_eq!(versions.len(), 1, "{versions:?}");
        assert_eq!(versions[0].name, "this morning");
        assert_eq!(store::read(&versions[0].path).unwrap(), morning);
    }

    #[test]
    fn a_name_cannot_lead_elsewhere() {
        let file = Path::new("boat.json");
        for name in [
            "",
            "  ",
            "..",
            "../x",
            "a/b",
            "a\\b",
            "c:x",
            &"x".repeat(81),
        ] {
            assert!(place_of(file, name).is_none(), "{name:?}");
        }
        let place = place_of(file, "as of 08.10 (calm)").unwrap();
        assert_eq!(place, Path::new("boat versions/as of 08.10 (calm).json"));
    }
}
