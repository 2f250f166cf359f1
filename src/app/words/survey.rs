//! The words of the deck by tape, of outlines from drawings, and of the measuring sheet.

use crate::app::survey::BowTyped;
use crate::store::drawing::BowTowards;

pub(crate) const STATIONS: &str = "Tape readings";
pub(crate) const BOW: &str = "Bow";
pub(crate) const FAIR_FROM: &str = "curved from reading";
pub(crate) const DIAGONALS: &str = "Diagonals";
pub(crate) const DIAGONALS_HELP: &str =
    "To check: from the port or starboard edge at one reading to another, as in 1P 3S 4.52 m.";
pub(crate) const ACCURACY: &str = "The tape is read to ±";
pub(crate) const NO_ACCURACY: &str = "Say how exactly the tape is read, as in 10 mm.";
pub(crate) const NO_STEM: &str = "A round or fair bow needs the stem as the last reading, with half-width 0, and one reading before it.";
pub(crate) const DIAGONAL_FORM: &str = "write two points and a length, as in 1P 3S 4.52 m";
pub(crate) const SAME_ENDS: &str = "both ends are the same point";
pub(crate) const NO_OUTLINE_YET: &str = "These readings make no outline yet: three different places are needed at least, and no crossing sides.";
pub(crate) const PREVIEW: &str = "The deck from these readings";
pub(crate) const SAVE_SHEET: &str = "Save a measuring sheet to print";
pub(crate) const SHEET_NAME: &str = "measuring-sheet.pdf";
pub(crate) const SHEET_NOT_SAVED: &str = "The measuring sheet was not saved";
pub(crate) const FROM_DRAWING: &str = "The deck from a drawing";
pub(crate) const CHOOSE_DRAWING: &str = "Choose a DXF drawing";
pub(crate) const READER_ENDED: &str = "The reader ended without an answer.";
pub(crate) const DRAWING_NOT_READ: &str = "The drawing was not read";
pub(crate) const LAYER: &str = "Part of the drawing";
pub(crate) const DRAWN_IN: &str = "Drawn in";
pub(crate) const BOW_POINTS: &str = "The bow points";
pub(crate) const CHOOSE_UNIT: &str = "The drawing does not say its unit: choose it.";
pub(crate) const NOTHING_CLOSED: &str = "Nothing closed is drawn here.";
pub(crate) const DRAWING_PREVIEW: &str = "The deck from the drawing";
pub(crate) const NOT_CHOSEN: &str = "choose";

/// `2 P`.
pub(crate) fn end(station: usize, port: bool) -> String {
    format!("{station} {}", if port { 'P' } else { 'S' })
}

/// See the text.
pub(crate) fn sheet_saved(path: &str, pages: usize) -> String {
    format!("Saved {path}: {pages} pages to print")
}

/// What a bow is called.
pub(crate) fn bow(bow: BowTyped) -> &'static str {
    match bow {
        BowTyped::Straight => "straight between readings",
        BowTyped::Round => "round",
        BowTyped::Fair => "fair curve",
    }
}

/// Which way the bow points in a drawing.
pub(crate) fn towards(bow: BowTowards) -> &'static str {
    match bow {
        BowTowards::Right => "to the right",
        BowTowards::Up => "up",
        BowTowards::Left => "to the left",
        BowTowards::Down => "down",
    }
}

/// See the text.
pub(crate) fn in_diagonal(line: usize, why: &str) -> String {
    format!("Diagonals, line {line}: {why}")
}

/// See the text.
pub(crate) fn no_station(number: usize) -> String {
    format!("there is no reading {number}")
}

/// See the text.
pub(crate) fn along(station: usize) -> String {
    format!("the distance from the stern of reading {station}")
}

/// See the text.
pub(crate) fn half_width(end: &str) -> String {
    format!("the half-width at {end}")
}

/// See the text.
pub(crate) fn diagonal(name: &str) -> String {
    format!("the diagonal {name}")
}

/// What a diagonal says.
pub(crate) fn misclosure(name: &str, off_mm: f64, allowed_mm: f64, verdict: &str) -> String {
    let (off, way) = (
        off_mm.abs(),
        if off_mm < 0.0 { "shorter" } else { "longer" },
    );
    format!("{name}: {off:.0} mm {way} than drawn, ± {allowed_mm:.0} mm expected: {verdict}")
}

/// Verdicts.
pub(crate) const AGREES: &str = "agrees";
pub(crate) const READ_AGAIN: &str = "read it again";
pub(crate) const A_READING_IS_WRONG: &str = "a reading is wrong";

/// Which reading is wrong, as far as the readings tell them apart.
pub(crate) fn likely_wrong(readings: &[&str]) -> String {
    match readings {
        [one] => format!("Most likely wrong: {one}."),
        _ => format!(
            "One of these is wrong, and another diagonal from the same point would tell which: {}.",
            readings.join("; ")
        ),
    }
}

/// See the text.
pub(crate) fn curve_within(mm: f64) -> String {
    format!("The curve is drawn in straight pieces within {mm:.1} mm of it.")
}

/// See the text.
pub(crate) fn sides_differ(mm: f64) -> String {
    format!("Port and starboard differ by up to {mm:.0} mm.")
}

/// See the text.
pub(crate) fn outline_found(corners: usize, deviation_mm: f64, gap_mm: f64) -> String {
    format!(
        "{corners} corners; arcs within {deviation_mm:.1} mm, gaps of up to {gap_mm:.1} mm closed."
    )
}

/// See the text.
pub(crate) fn left_out(count: usize) -> String {
    format!("{count} more left out here:")
}

/// See the text.
pub(crate) fn drawing_fault(what: &str, message: &str, help: &str) -> String {
    format!("{what} {message}; {help}.")
}

/// See the text.
pub(crate) fn size(length: &str, beam: &str) -> String {
    format!("{length} long, {beam} wide.")
}
