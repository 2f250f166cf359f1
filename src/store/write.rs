//! Writing that leaves the old or the new file whole, whatever happens between.
//!
//! The bytes go to a temporary file in the same folder, which is synced to the disk and then
//! renamed over the old one; a rename within a folder is atomic (POSIX.1-2017, `rename`). At last
//! the folder is synced, so that the new name survives a power cut. A crash before the rename
//! leaves the old file and at most one file named `.NAME.unsaved-N` beside it.

use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::refusal::{Trying, refused};

/// Why a file could not be written. The old file, if there was one, is as it was; only when the
/// step is "syncing the folder" does the new one stand in its place already.
#[derive(Debug, thiserror::Error)]
#[error("{}: cannot be saved, {step} failed: {}", path.display(), refused(source, Trying::ToWrite))]
pub struct WriteError {
    /// Which file.
    pub path: PathBuf,

    /// What was tried.
    pub step: &'static str,

    /// Why it failed.
    pub source: io::Error,
}

/// Writes a file: all of it or nothing.
///
/// A symbolic link stays one: the file it leads to is replaced. The permissions of an existing
/// file are kept; its owner and further hard links are not, since the file is a new one.
pub fn write_atomic(path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    write_with(&mut Disk, path, bytes)
}

/// The steps of a save, one by one, so that a test can let each of them fail.
trait Steps {
    fn create(&mut self, temporary: &Path) -> io::Result<File>;
    fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()>;
    fn permit(&mut self, file: &File, permissions: Permissions) -> io::Result<()>;
    fn sync(&mut self, file: &File) -> io::Result<()>;
    fn rename(&mut self, temporary: &Path, target: &Path) -> io::Result<()>;
    fn sync_folder(&mut self, folder: &Path) -> io::Result<()>;

    /// Takes the temporary file away after a failure.
    fn discard(&mut self, temporary: &Path);
}

/// The real steps.
struct Disk;

impl Steps for Disk {
    fn create(&mut self, temporary: &Path) -> io::Result<File> {
        OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(temporary)
    }

    fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    fn permit(&mut self, file: &File, permissions: Permissions) -> io::Result<()> {
        file.set_permissions(permissions)
    }

    fn sync(&mut self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    fn rename(&mut self, temporary: &Path, target: &Path) -> io::Result<()> {
        fs::rename(temporary, target)
    }

    #[cfg(unix)]
    fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
        match File::open(folder).and_then(|folder| folder.sync_all()) {
            // Some network file systems cannot sync a folder; then there is nothing to be done.
            Err(error)
                if matches!(
                    error.kind(),
                    io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported
                ) =>
            {
                Ok(())
            }
            result => result,
        }
    }

    /// A folder cannot be opened as a file here; the file system's journal has to do.
    #[cfg(not(unix))]
    fn sync_folder(&mut self, _: &Path) -> io::Result<()> {
        Ok(())
    }

    fn discard(&mut self, temporary: &Path) {
        // It may not even be there; the failure that led here is what is told.
        fs::remove_file(temporary).ok();
    }
}

fn write_with(steps: &mut impl Steps, path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    let failed = |step| {
        move |source| WriteError {
            path: path.to_owned(),
            step,
            source,
        }
    };
    let target = follow(path).map_err(failed("following the link"))?;
    let permissions = permissions(&target).map_err(failed("looking at the old file"))?;
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };

    let (temporary, mut file) =
        create(steps, folder, &target).map_err(failed("creating a file beside it"))?;
    let written = steps
        .write(&mut file, bytes)
        .map_err(failed("writing"))
        .and_then(|()| match permissions {
            Some(permissions) => steps
                .permit(&file, permissions)
                .map_err(failed("keeping the permissions")),
            None => Ok(()),
        })
        .and_then(|()| steps.sync(&file).map_err(failed("syncing")));
    // Some systems do not rename an open file.
    drop(file);
    let renamed = written.and_then(|()| {
        steps
            .rename(&temporary, &target)
            .map_err(failed("renaming"))
    });
    if renamed.is_err() {
        steps.discard(&temporary);
    }
    renamed?;
    steps
        .sync_folder(folder)
        .map_err(failed("syncing the folder"))
}

/// The file that a path leads to through symbolic links, even if it does not exist yet.
fn follow(path: &Path) -> io::Result<PathBuf> {
    /// As many links as Linux follows.
    const MOST_LINKS: usize = 40;
    let mut target = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::symlink_metadata(&target) {
            Ok(metadata) if metadata.is_symlink() => {
                let next = fs::read_link(&target)?;
                target = match target.parent() {
                    Some(folder) => folder.join(next),
                    None => next,
                };
            }
            Ok(_) => return Ok(target),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(target),
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other("the links lead in a circle"))
}

/// The permissions of the file that is to be replaced, if there is one and it may be replaced.
fn permissions(target: &Path) -> io::Result<Option<Permissions>> {
    let metadata = match fs::metadata(target) {
        Ok(metadata) => metadata,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(error),
    };
    if metadata.is_dir() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    if !metadata.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    // A rename would replace it all the same, since that is a matter of the folder.
    if metadata.permissions().readonly() {
        return Err(io::Error::new(
            io::ErrorKind::PermissionDenied,
            "it is write-protected",
        ));
    }
    Ok(Some(metadata.permissions()))
}

/// Creates a file beside the target that does not exist yet, not even from an earlier crash.
fn create(steps: &mut impl Steps, folder: &Path, target: &Path) -> io::Result<(PathBuf, File)> {
    const MOST_LEFT_OVER: usize = 100;
    let name = target
        .file_name()
        .ok_or_else(|| io::Error::other("it has no file name"))?;
    // Short enough for every file system, however long the name is.
    let name: String = name.to_string_lossy().chars().take(50).collect();
    let mut last = io::Error::other("too many unsaved files stand beside it");
    for i in 0..MOST_LEFT_OVER {
        let temporary = folder.join(format!(".{name}.unsaved-{i}"));
        match steps.create(&temporary) {
            Ok(file) => return Ok((temporary, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    const OLD: &[u8] = b"old old old";
    const NEW: &[u8] = b"new new new new";

    /// Does the real steps until one of them fails: it does half of the writing, nothing of any
    /// other step. After a crash nothing is tidied up.
    struct Failing {
        left: usize,
        crash: bool,
    }

    impl Failing {
        fn step(&mut self) -> io::Result<()> {
            if self.left == 0 {
                return Err(io::Error::other("injected"));
            }
            self.left -= 1;
            Ok(())
        }
    }

    impl Steps for Failing {
        fn create(&mut self, temporary: &Path) -> io::Result<File> {
            self.step()?;
            Disk.create(temporary)
        }

        fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
            if let Err(error) = self.step() {
                Disk.write(file, &bytes[..bytes.len() / 2])?;
                return Err(error);
            }
            Disk.write(file, bytes)
        }

        fn permit(&mut self, file: &File, permissions: Permissions) -> io::Result<()> {
            self.step()?;
            Disk.permit(file, permissions)
        }

        fn sync(&mut self, file: &File) -> io::Result<()> {
            self.step()?;
            Disk.sync(file)
        }

        fn rename(&mut self, temporary: &Path, target: &Path) -> io::Result<()> {
            self.step()?;
            Disk.rename(temporary, target)
        }

        fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
            self.step()?;
            Disk.sync_folder(folder)
        }

        fn discard(&mut self, temporary: &Path) {
            if !self.crash {
                Disk.discard(temporary);
            }
        }
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    fn folder_with(bytes: Option<&[u8]>) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deck.json");
        if let Some(bytes) = bytes {
            File::create(&path).unwrap().write_all(bytes).unwrap();
        }
        (folder, path)
    }

    #[test]
    fn a_file_is_created_and_replaced() {
        let (folder, path) = folder_with(None);
        write_atomic(&path, OLD).unwrap();
        assert_eq!(fs::read(&path).unwrap(), OLD);
        write_atomic(&path, NEW).unwrap();
        assert_eq!(fs::read(&path).unwrap(), NEW);
        assert_eq!(names(folder.path()), ["deck.json"]);
    }

    /// Six steps on an existing file: create, write, permit, sync, rename, sync the folder.
    const STEPS: usize = 6;

    #[test]
    fn whichever_step_fails_one_whole_file_is_left_and_no_litter() {
        for left in 0..STEPS {
            let (folder, path) = folder_with(Some(OLD));
            let mut steps = Failing { left, crash: false };
            let error = write_with(&mut steps, &path, NEW).unwrap_err();
            assert!(error.to_string().contains("failed: injected\n"), "{error}");
            let expected = if left < STEPS - 1 { OLD } else { NEW };
            assert_eq!(fs::read(&path).unwrap(), expected, "step {left}: {error}");
            assert_eq!(names(folder.path()), ["deck.json"], "step {left}");
        }
        let (_folder, path) = folder_with(Some(OLD));
        let mut steps = Failing {
            left: STEPS,
            crash: false,
        };
        write_with(&mut steps, &path, NEW).unwrap();
        assert_eq!(steps.left, 0, "another number of steps than is tested");
    }

    #[test]
    fn a_new_file_is_there_whole_or_not_at_all() {
        // Without an old file there are no permissions to keep.
        for left in 0..STEPS - 1 {
            let (folder, path) = folder_with(None);
            let mut steps = Failing { left, crash: false };
            write_with(&mut steps, &path, NEW).unwrap_err();
            if left < STEPS - 2 {
                assert!(names(folder.path()).is_empty(), "step {left}");
            } else {
                assert_eq!(fs::read(&path).unwrap(), NEW);
            }
        }
    }

    #[test]
    fn a_crash_between_any_two_steps_leaves_a_whole_file_and_a_named_rest() {
        for left in 0..STEPS {
            let (folder, path) = folder_with(Some(OLD));
            let mut steps = Failing { left, crash: true };
            write_with(&mut steps, &path, NEW).unwrap_err();
            let whole = fs::read(&path).unwrap();
            assert!(whole == OLD || whole == NEW, "step {left}");
            let litter: Vec<String> = names(folder.path())
                .into_iter()
                .filter(|name| name != "deck.json")
                .collect();
            let expected: &[&str] = match left {
                0 | 5 => &[],
                _ => &[".deck.json.unsaved-0"],
            };
            assert_eq!(litter, expected, "step {left}");

            // The next save is not hindered by the rest.
            write_atomic(&path, NEW).unwrap();
            assert_eq!(fs::read(&path).unwrap(), NEW);
        }
    }

    /// Does the real steps and writes down which, in which order, and of which file.
    #[derive(Default)]
    struct Recording {
        steps: Vec<String>,
        folder: PathBuf,
    }

    impl Recording {
        fn note(&mut self, what: &str, path: &Path) {
            let name = path.strip_prefix(&self.folder).unwrap_or(path);
            let step = format!("{what} {}", name.display());
            self.steps.push(step.trim_end().to_owned());
        }
    }

    impl Steps for Recording {
        fn create(&mut self, temporary: &Path) -> io::Result<File> {
            self.note("create", temporary);
            Disk.create(temporary)
        }

        fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
            self.note(&format!("write {} bytes", bytes.len()), Path::new(""));
            Disk.write(file, bytes)
        }

        fn permit(&mut self, file: &File, permissions: Permissions) -> io::Result<()> {
            self.note("permit", Path::new(""));
            Disk.permit(file, permissions)
        }

        fn sync(&mut self, file: &File) -> io::Result<()> {
            // What is synced is what has been written, all of it.
            let length = file.metadata()?.len();
            self.note(&format!("sync {length} bytes"), Path::new(""));
            Disk.sync(file)
        }

        fn rename(&mut self, temporary: &Path, target: &Path) -> io::Result<()> {
            self.note("rename", temporary);
            self.note("to", target);
            Disk.rename(temporary, target)
        }

        fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
            self.note("sync folder", folder);
            Disk.sync_folder(folder)
        }

        fn discard(&mut self, temporary: &Path) {
            self.note("discard", temporary);
            Disk.discard(temporary);
        }
    }

    #[test]
    fn the_bytes_are_on_the_disk_before_the_name_and_the_name_before_it_is_told() {
        let (folder, path) = folder_with(None);
        let mut steps = Recording {
            folder: folder.path().to_owned(),
            ..Recording::default()
        };
        write_with(&mut steps, &path, NEW).unwrap();
        let new = [
            "create .deck.json.unsaved-0",
            "write 15 bytes",
            "sync 15 bytes",
            "rename .deck.json.unsaved-0",
            "to deck.json",
            "sync folder",
        ];
        assert_eq!(steps.steps, new);
        steps.steps.clear();
        write_with(&mut steps, &path, NEW).unwrap();
        let mut replaced = new.to_vec();
        replaced.insert(2, "permit");
        assert_eq!(
            steps.steps, replaced,
            "permissions are kept before the sync"
        );
    }

    #[test]
    fn what_is_no_file_is_refused() {
        let (folder, path) = folder_with(Some(OLD));
        let missing = folder.path().join("missing").join("deck.json");
        assert_eq!(
            write_atomic(&missing, NEW).unwrap_err().step,
            "creating a file beside it"
        );
        let error = write_atomic(folder.path(), NEW).unwrap_err();
        assert!(error.to_string().contains(": it is a folder\n"), "{error}");

        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        let error = write_atomic(&path, NEW).unwrap_err();
        assert!(
            error.to_string().contains(": it is write-protected\n"),
            "{error}"
        );
        assert_eq!(fs::read(&path).unwrap(), OLD);
    }

    #[test]
    fn a_long_name_can_be_saved() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("å".repeat(125));
        write_atomic(&path, NEW).unwrap();
        assert_eq!(fs::read(&path).unwrap(), NEW);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_and_permissions_are_kept() {
        use std::os::unix::fs::{PermissionsExt as _, symlink};

        let (folder, path) = folder_with(Some(OLD));
        fs::set_permissions(&path, Permissions::from_mode(0o640)).unwrap();
        let (first, second) = (folder.path().join("a.json"), folder.path().join("b.json"));
        symlink("b.json", &first).unwrap();
        symlink("deck.json", &second).unwrap();

        write_atomic(&first, NEW).unwrap();
        assert_eq!(fs::read(&path).unwrap(), NEW);
        assert_eq!(
            fs::metadata(&path).unwrap().permissions().mode() & 0o777,
            0o640
        );
        assert!(fs::symlink_metadata(&first).unwrap().is_symlink());
        assert!(fs::symlink_metadata(&second).unwrap().is_symlink());

        // A link to a file that is yet to come.
        fs::remove_file(&path).unwrap();
        write_atomic(&first, NEW).unwrap();
        assert_eq!(fs::read(&path).unwrap(), NEW);

        let circle = folder.path().join("c.json");
        symlink("c.json", &circle).unwrap();
        let error = write_atomic(&circle, NEW).unwrap_err();
        assert!(error.to_string().contains("circle"), "{error}");
    }
}
