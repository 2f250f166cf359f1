//! A picture beneath a deck: where it is, and whether its points make a map.

use super::{Field, Report};
use crate::layout::Underlay;

pub(super) fn check(underlay: &Underlay, place: Field<'_>, report: &mut Report) {
    let file = underlay.file.as_str();
    let from_a_root = file.starts_with('/') || file.contains(':') || file.contains('\\');
    if file.trim().is_empty() || from_a_root {
        report.add(
            format_args!("{place}.file"),
            format!("{file:?} is no path from the folder of this file"),
            "put the picture beside the layout file and write its name, with forward slashes",
        );
    }
    let is_hex = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
    if underlay.sha256.len() != 64 || !underlay.sha256.chars().all(is_hex) {
        report.add(
            format_args!("{place}.sha256"),
            "this is no SHA-256: 64 of the characters 0 to 9 and a to f",
            "choose the picture again in the window, or write what `sha256sum` prints",
        );
    }
    if let Err(error) = underlay.fit() {
        report.add(
            format_args!("{place}.points"),
            error.to_string(),
            "click the points again: two apart from each other, or four corners in their order",
        );
    }
}
