//! Files that are made beside the window.

pub(crate) const GIVE_UP: &str = "Give it up";
pub(crate) const GIVEN_UP: &str = "It was given up.";
pub(crate) const ENDED_EARLY: &str =
    "The work on it ended before the file was there. Try it again.";
pub(crate) const CLOSES_THEN: &str = "The window closes when this is written.";

pub(crate) fn being_made(name: &str) -> String {
    format!("{name} is being made")
}

pub(crate) fn progress(name: &str) -> String {
    format!("How far {name} is")
}

pub(crate) fn give_up(name: &str) -> String {
    format!("Give {name} up")
}

pub(crate) fn given_up(name: &str) -> String {
    format!("{name} was given up; nothing was written")
}
