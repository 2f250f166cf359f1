//! What the operating system says when it refuses, in plain words, with what to do about it.

use std::io::{Error, ErrorKind};

/// What was tried.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Trying {
    /// Reading a file or a folder.
    ToRead,
    /// Writing a file.
    ToWrite,
}

/// Why it was refused, and below it what to do: `there is no such file\n  help: check the name …`.
pub fn refused(error: &Error, trying: Trying) -> String {
    let (what, help) = words(error, trying);
    format!("{what}\n  help: {help}")
}

/// The same, or any trouble with its help below it, in one line: for a sentence or a cell of a table.
pub fn in_one_line(trouble: &str) -> String {
    let mut lines = trouble.lines().map(|line| {
        let line = line.trim();
        line.strip_prefix("help: ").unwrap_or(line)
    });
    let first = lines.next().unwrap_or_default().to_owned();
    lines
        .filter(|line| !line.is_empty())
        .fold(first, |told, line| format!("{told}; {line}"))
}

fn words(error: &Error, trying: Trying) -> (String, &'static str) {
    let writes = trying == Trying::ToWrite;
    let either = |read, write| if writes { write } else { read };
    // What the program itself found out says so already.
    if let Some(own) = error.get_ref() {
        return (own.to_string(), help_of(error.kind(), writes));
    }
    let what = match error.kind() {
        ErrorKind::NotFound => either("there is no such file", "there is no such folder"),
        ErrorKind::IsADirectory => "it is a folder",
        ErrorKind::NotADirectory => "part of its path is a file and no folder",
        ErrorKind::PermissionDenied => {
            either("reading it is not permitted", "writing it is not permitted")
        }
        ErrorKind::ReadOnlyFilesystem => "nothing can be written to that disk",
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full",
        ErrorKind::FileTooLarge => "it is too long for that disk",
        ErrorKind::InvalidInput | ErrorKind::InvalidFilename => "no file can have that name",
        ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy => "another program is using it",
        ErrorKind::TimedOut
        | ErrorKind::StaleNetworkFileHandle
        | ErrorKind::HostUnreachable
        | ErrorKind::NetworkUnreachable
        | ErrorKind::NetworkDown => "the disk on the network does not answer",
        ErrorKind::BrokenPipe => "nobody reads on",
        _ => {
            // In the language of the system, without its number.
            let text = error.to_string();
            let text = text.split(" (os error").next().unwrap_or_default();
            return (
                format!("the system says: {text}"),
                help_of(error.kind(), writes),
            );
        }
    };
    (what.to_owned(), help_of(error.kind(), writes))
}

fn help_of(kind: ErrorKind, writes: bool) -> &'static str {
    let either = |read, write| if writes { write } else { read };
    match kind {
        ErrorKind::NotFound => either(
            "check the name, and in which folder it is",
            "make the folder first, or name another place",
        ),
        ErrorKind::IsADirectory => either("name the file in it", "name a file in it instead"),
        ErrorKind::NotADirectory => "check the path part by part",
        ErrorKind::PermissionDenied => either(
            "copy it to a folder of your own, or ask its owner",
            "save it in a folder of your own, or under another name",
        ),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            "make room on it, or save it on another disk"
        }
        ErrorKind::ReadOnlyFilesystem | ErrorKind::FileTooLarge => "save it on another disk",
        ErrorKind::InvalidInput | ErrorKind::InvalidFilename => {
            "give it a shorter name of letters and digits"
        }
        ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy => "close it there, then try again",
        _ => either(
            "copy it to this machine's own disk, then try again",
            "try again, or save it on this machine's own disk",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the system says, what is told has no number of its and a line with what to do.
    #[test]
    fn no_number_of_the_system_is_told_and_always_what_to_do() {
        let mut own_words = 0;
        for number in 1..=133 {
            for trying in [Trying::ToRead, Trying::ToWrite] {
                let told = refused(&Error::from_raw_os_error(number), trying);
                assert!(!told.contains("os error"), "{number}: {told}");
                let (what, help) = told.split_once("\n  help: ").unwrap();
                assert!(!what.is_empty() && help.len() > 10, "{number}: {told}");
                own_words += usize::from(!what.starts_with("the system says"));
            }
        }
        // On any system those that a crew meets are among them.
        assert!(own_words >= 10, "{own_words}");
    }

    #[test]
    fn a_missing_folder_and_a_missing_file_are_told_apart() {
        let missing = Error::from(ErrorKind::NotFound);
        assert!(refused(&missing, Trying::ToRead).starts_with("there is no such file\n"));
        assert!(refused(&missing, Trying::ToWrite).starts_with("there is no such folder\n"));
        assert_eq!(in_one_line("a: no\n  help: try b\n\n c"), "a: no; try b; c");
        let own = Error::other("the links lead in a circle");
        assert!(refused(&own, Trying::ToWrite).starts_with("the links lead in a circle\n"));
    }
}
