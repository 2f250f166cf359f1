//! Keeping work: what is not saved yet is written beside the file every few seconds, so that a crash or
//! a power cut costs at most that much; and the settings outlast the window.

use std::hash::Hasher as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::settings::Settings;
use crate::layout::Plan;
use crate::store;

/// So often unsaved work is put beside the file, in seconds.
pub(crate) const EVERY_S: f64 = 5.0;

/// Where unsaved work and settings are kept.
#[derive(Debug, Default)]
pub(crate) struct Keeping {
    /// The folder of the settings, and of work that is in no file yet; `None` keeps neither.
    folder: Option<PathBuf>,

    /// What was kept last, and when (in seconds of the window's clock).
    last: Option<(Arc<Plan>, f64)>,

    /// The settings as they were written last.
    settings: Option<Settings>,

    /// What is being written.
    writing: Option<std::thread::JoinHandle<()>>,
}

impl Keeping {
    /// Keeps settings and unsaved work of boats without a file in a folder.
    pub(crate) fn in_folder(folder: PathBuf) -> Self {
        Self {
            folder: Some(folder),
            ..Self::default()
        }
    }

    /// The settings as they were kept; those of a first start if there are none.
    pub(crate) fn read_settings(&mut self) -> Settings {
        let path = self.folder.as_ref().map(|folder| folder.join(SETTINGS));
        let text = path.and_then(|path| std::fs::read_to_string(path).ok());
        let settings = text.map_or_else(Settings::first_start, |text| Settings::from_text(&text));
        self.settings = Some(settings.clone());
        settings
    }

    /// Writes the settings if they changed.
    pub(crate) fn keep_settings(&mut self, settings: &Settings) {
        if self.settings.as_ref() == Some(settings) {
            return;
        }
        self.settings = Some(settings.clone());
        let Some(folder) = &self.folder else { return };
        let written = std::fs::create_dir_all(folder).map_err(|err| err.to_string());
        let written = written.and_then(|()| {
            let bytes = settings.to_text();
            store::write_atomic(&folder.join(SETTINGS), bytes.as_bytes())
                .map_err(|err| err.to_string())
        });
        if let Err(err) = written {
            log::warn!("the settings were not kept: {err}");
        }
    }

    /// Where unsaved work of a file is kept.
    pub(crate) fn place_of(&self, file: Option<&Path>) -> Option<PathBuf> {
        match file {
            Some(file) => {
                let name = file.file_name()?.to_string_lossy().into_owned();
                Some(file.with_file_name(format!(".{name}.unsaved")))
            }
            None => Some(self.folder.as_ref()?.join("without-a-file.unsaved")),
        }
    }

    /// Puts unsaved work beside its file if that is due; `now_s` is the window's clock.
    pub(crate) fn keep_work(&mut self, file: Option<&Path>, plan: &Arc<Plan>, now_s: f64) {
        let due = match &self.last {
            Some((kept, when)) => !Arc::ptr_eq(kept, plan) && now_s - when >= EVERY_S,
            None => true,
        };
        if !due {
            return;
        }
        let Some(path) = self.place_of(file) else {
            return;
        };
        self.last = Some((Arc::clone(plan), now_s));
        let plan = Arc::clone(plan);
        let folder = self.folder.clone();
        // Disks can be slow; the window does not wait for them.
        let write = move || {
            if let Some(folder) = folder.filter(|folder| path.starts_with(folder)) {
                std::fs::create_dir_all(folder).ok();
            }
            let text = store::to_text(&plan);
            if let Err(err) = store::write_atomic(&path, text.as_bytes()) {
                log::warn!("unsaved work was not kept: {err}");
            }
        };
        self.wait();
        let thread = std::thread::Builder::new().name("keeping".to_owned());
        match thread.spawn(write) {
            Ok(writing) => self.writing = Some(writing),
            Err(err) => log::warn!("unsaved work was not kept: {err}"),
        }
    }

    /// Waits until what is being written is written, so that two writings never overtake each other.
    fn wait(&mut self) {
        if let Some(writing) = self.writing.take()
            && writing.join().is_err()
        {
            log::warn!("unsaved work was not kept");
        }
    }

    /// Takes away what this window kept, once it is no longer needed.
    pub(crate) fn drop_stale(&mut self, file: Option<&Path>) {
        if self.last.is_some() {
            self.drop_work(file);
        }
    }

    /// Takes away what was kept of a file, as it is saved or given up.
    pub(crate) fn drop_work(&mut self, file: Option<&Path>) {
        self.last = None;
        self.wait();
        if let Some(path) = self.place_of(file) {
            std::fs::remove_file(path).ok();
        }
    }

    /// Unsaved work of a file that was left behind; where it is and what is wrong with it if it cannot be
    /// read.
    pub(crate) fn left_behind(
        &self,
        file: Option<&Path>,
        saved: &Plan,
    ) -> Option<Result<Plan, String>> {
        let path = self.place_of(file).filter(|path| path.exists())?;
        match store::read(&path) {
            Ok(plan) if plan == *saved => None,
            Ok(plan) => Some(Ok(plan)),
            Err(err) => Some(Err(err.to_string())),
        }
    }
}

/// The name of the file of settings.
const SETTINGS: &str = "settings";

/// Where this program's settings belong on this desktop.
pub(crate) fn usual_folder() -> Option<PathBuf> {
    let from = |name: &str| std::env::var_os(name).map(PathBuf::from);
    let named = from("XDG_CONFIG_HOME").or_else(|| from("APPDATA"));
    let home = || Some(from("HOME")?.join(".config"));
    let folder = named.filter(|path| path.is_absolute()).or_else(home)?;
    Some(folder.join("snugdown"))
}

/// What a file has in it, in one number, to notice when somebody else changes it; `None` if there is none.
pub(crate) fn fingerprint(path: &Path) -> Option<u64> {
    let bytes = std::fs::read(path).ok()?;
    let mut hasher = std::hash::DefaultHasher::new();
    hasher.write(&bytes);
    Some(hasher.finish())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unsaved_work_is_found_again_and_goes_when_it_is_saved() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("boat.json");
        let saved = Plan::new("Petrel", 8.0, 3.0);
        let changed = Arc::new(Plan::new("Petrel", 8.5, 3.0));
        let mut keeping = Keeping::in_folder(folder.path().join("settings"));
        keeping.keep_work(Some(&file), &changed, 100.0);
        let place = keeping.place_of(Some(&file)).unwrap();
        keeping.wait();
        let found = keeping.left_behind(Some(&file), &saved).unwrap();
        assert_eq!(found, Ok(Plan::clone(&changed)));
        store::write_atomic(&place, b"{").unwrap();
        let torn = keeping.left_behind(Some(&file), &saved).unwrap();
        assert!(torn.unwrap_err().contains("boat.json"), "it is told where");
        keeping.drop_work(Some(&file));
        assert!(keeping.left_behind(Some(&file), &saved).is_none(), "gone");
    }

    #[test]
    fn settings_outlast_the_window() {
        let folder = tempfile::tempdir().unwrap();
        let mut keeping = Keeping::in_folder(folder.path().join("snugdown"));
        let first = keeping.read_settings();
        assert!(!first.toured, "a first start");
        let chosen = Settings {
            names: false,
            ..first
        };
        keeping.keep_settings(&chosen);
        let mut later = Keeping::in_folder(folder.path().join("snugdown"));
        assert_eq!(later.read_settings(), chosen);
    }
}
