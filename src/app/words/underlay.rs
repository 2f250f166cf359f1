//! The words of the photo beneath the plan.

pub(crate) const CLICK_ANEW: &str = "Click once more on the photo to begin with the first again.";

pub(crate) const PHOTO: &str = "A photo beneath the plan";
pub(crate) const PHOTO_HELP: &str = "Keep the photo beside the file of the deck plan. Four corners of a rectangle of known sides straighten a photo taken at a slant; two points scale a scan.";
pub(crate) const CHOOSE_PHOTO: &str = "Choose a photo or a scan";
pub(crate) const PHOTO_NOT_READ: &str = "The photo was not read";
pub(crate) const FOUR_CORNERS: &str = "Four corners of a rectangle";
pub(crate) const TWO_POINTS: &str = "Two points";
pub(crate) const LENGTH_AND_WIDTH: &str = "Its length; its width";
pub(crate) const AFT_SIDE: &str = "Its aft side from the stern; its middle from the centreline";
pub(crate) const FIRST_POINT: &str = "The first point: from the stern; to port";
pub(crate) const SECOND_POINT: &str = "The second point: from the stern; to port";
pub(crate) const TWO_NUMBERS: &str =
    "Write two lengths with a semicolon between them, as in 2.40; 0.";
pub(crate) const LAY_IT_UNDER: &str = "Lay it under the plan";
pub(crate) const CLICK_HERE: &str = "The photo to be clicked";
pub(crate) const ELSEWHERE: &str =
    "Put the photo into the folder of the deck plan's file, so that both stay together.";
pub(crate) const SAVE_PLAN_FIRST: &str =
    "Save the deck plan first: the photo is kept beside its file.";
pub(crate) const NOT_STRAIGHTENED: &str = "The photo could not be laid under the plan.";
pub(crate) const STEP_LAY_UNDER: &str = "Lay a photo under the plan";
pub(crate) const STEP_NO_PHOTO: &str = "Take the photo away";

/// What is to be clicked next.
pub(crate) fn click_next(four: bool, clicked: usize) -> String {
    let what = match (four, clicked) {
        (true, 0) => "the aft corner to port",
        (true, 1) => "the aft corner to starboard",
        (true, 2) => "the forward corner to starboard",
        (true, _) => "the forward corner to port",
        (false, 0) => "the first point",
        (false, _) => "the second point",
    };
    format!("Click {what}.")
}

/// See the text.
pub(crate) fn not_read(path: &str, why: &str) -> String {
    format!("{path}: {why}")
}

/// See the text.
pub(crate) fn photo_trouble(file: &str, why: &str) -> String {
    format!("The photo {file} is not shown: {why}. The plan is the same without it.")
}

/// See the text.
pub(crate) fn another_photo(file: &str) -> String {
    format!("The photo {file} is another one than was clicked: lay it under again.")
}

/// See the text.
pub(crate) fn accuracy(mm: f64, pixel_mm: f64) -> String {
    format!(
        "Between the points a place is right within ± {mm:.0} mm; a dot of the photo is {pixel_mm:.1} mm. Farther off it is worse."
    )
}

/// A length measured over a photo.
pub(crate) fn by_photo(length: &str, error: &str) -> String {
    format!("{length} ± {error} by the photo")
}
