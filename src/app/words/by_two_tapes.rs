//! The words of what is measured by two tapes.

use crate::app::by_two_tapes::Measured;

pub(crate) const TITLE: &str = "By two tapes";
pub(crate) const HELP: &str = "Each spot by two tapes from corners of the deck that are marked below, one per line, as in 1P 2.31; 1S 3.02.";
pub(crate) const HELP_BUILT: &str = "Two corners and the depth make a box that reaches away from the tapes; three corners or more go round.";
pub(crate) const HELP_EACH: &str = "One stands at each spot; of several the name gets a number.";
pub(crate) const HELP_SELECTED: &str =
    "Its middle goes to the spot, and what else is selected goes along.";
pub(crate) const WHAT: &str = "What was measured";
/// See the text.
pub(crate) fn measured(what: &Measured) -> String {
    match what {
        Measured::BuiltOn => "A box, bench or hatch, by its corners".to_owned(),
        Measured::Each(item) => item.name(),
        Measured::Selected => "Where the selected thing is".to_owned(),
    }
}

/// See the text.
pub(crate) fn help(what: &Measured) -> &'static str {
    match what {
        Measured::BuiltOn => HELP_BUILT,
        Measured::Each(_) => HELP_EACH,
        Measured::Selected => HELP_SELECTED,
    }
}

/// One of several with the same name.
pub(crate) fn numbered(name: &str, number: usize) -> String {
    format!("{name} {number}")
}

pub(crate) const NOTHING_SELECTED: &str = "Select what was measured first.";
pub(crate) const NAME: &str = "What it is called";
pub(crate) const CORNERS: &str = "Spots by two tapes";
pub(crate) const DEPTH: &str = "Depth beyond the two corners";
pub(crate) const HEIGHT: &str = "Height of its top above the deck";
pub(crate) const POINT_HEIGHT: &str = "Height above the deck";
pub(crate) const ACCURACY: &str = "Tapes are read to ±";
pub(crate) const NO_ACCURACY: &str = "Say how exactly the tape is read, as in 10 mm.";
pub(crate) const CORNER_FORM: &str =
    "write two corners of the deck with a length each, as in 1P 2.31; 1S 3.02";
pub(crate) const DEPTH_WANTED: &str =
    "Say how deep it is beyond the two corners, or add a third corner.";
pub(crate) const NO_SHAPE: &str = "The corners do not go round anything: type them in their order.";
pub(crate) const WHICH_SIDE: &str =
    "the tapes cross at two places on the deck: write forward, aft, port or starboard behind";
pub(crate) const OFF_THE_DECK: &str = "the tapes cross off the deck: read both again, or write forward, aft, port or starboard behind";
pub(crate) const BUILD_IT: &str = "Put it on the deck";
pub(crate) const PREVIEW: &str = "The spots on the deck";

/// See the text.
pub(crate) fn in_line(line: usize, why: &str) -> String {
    format!("Line {line}: {why}")
}

/// See the text.
pub(crate) fn no_corner(name: &str) -> String {
    format!("the deck has no corner {name}")
}

/// A corner that was fixed.
pub(crate) fn corner(number: usize, at: [&str; 2], worst_mm: f64, deg: f64, flat: bool) -> String {
    let [x, y] = at;
    let warned = if flat {
        ", too flat: measure it from another pair of corners"
    } else {
        ""
    };
    format!(
        "Spot {number}: {x} from the stern, {y} to port, ± {worst_mm:.0} mm; the tapes meet at {deg:.0}°{warned}."
    )
}
