//! The words of decks, and of finding things on them.

use crate::app::decks::FirstShape;

pub(crate) const TITLE: &str = "Another deck";
pub(crate) const HELP: &str = "Above or below the one shown, or a platform. Its shape can be typed from tape readings, taken from a drawing or drawn by its corners afterwards.";
pub(crate) const NAME: &str = "What it is called";
pub(crate) const HEIGHT: &str = "Height above the water";
pub(crate) const SHAPE: &str = "At first";
pub(crate) const FROM: &str = "Begins forward of the stern by";
pub(crate) const LENGTH: &str = "Length";
pub(crate) const WIDTH: &str = "Width";
pub(crate) const ADD: &str = "Add it";
pub(crate) const ADD_TAPE: &str = "Add it, then tape readings…";
pub(crate) const ADD_DRAWING: &str = "Add it, then a drawing…";
pub(crate) const REMOVE: &str = "Take this deck away with all on it";

/// What a new deck looks like at first.
pub(crate) fn shape(shape: FirstShape) -> &'static str {
    match shape {
        FirstShape::Same => "as the deck shown",
        FirstShape::Rectangle => "a rectangle",
    }
}

pub(crate) const FIND: &str = "Find on the plan";
pub(crate) const FIND_HELP: &str = "A name, a slot, a number stamped on a cylinder, or who breathes from it. Enter goes to the first; with Shift it is selected beside what is selected already.";
pub(crate) const FIND_FIELD: &str = "What is looked for";
pub(crate) const NONE_FOUND: &str = "Nothing aboard is called so.";

/// Something that was found, and by what.
pub(crate) fn hit(title: &str, by: Option<&str>) -> String {
    match by {
        Some(by) => format!("{title} ({by})"),
        None => title.to_owned(),
    }
}

/// How many more there are.
pub(crate) fn more(count: usize) -> String {
    format!("and {count} more")
}
