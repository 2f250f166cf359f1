use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Point;
use crate::geometry::survey::{Fit, Pair, StraightenError};
use crate::geometry::vec2;

/// A point in the picture and where it is on the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnderlayPoint {
    /// In the picture, upright as its rotation tag says: pixels to the right and down from the upper left
    /// corner.
    pub pixel: [f64; 2],

    /// On the plan, in metres.
    pub at: Point,
}

/// A photo or scan that lies beneath the plan of a deck. The picture stays in its own file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Underlay {
    /// The picture (PNG or JPEG), as a path from the folder of this file, with forward slashes.
    pub file: String,

    /// The SHA-256 of the picture's bytes, in small hexadecimal letters, so that another picture of the same
    /// name is noticed.
    pub sha256: String,

    /// Two points give the scale; four, the corners of a rectangle in their order, straighten it.
    #[schemars(length(min = 2, max = 4))]
    pub points: Vec<UnderlayPoint>,

    /// How far off a click may be: its standard error in pixels.
    #[serde(default = "usual_click_error_px")]
    pub click_error_px: f64,

    /// How exactly the points are known on the plan: their standard error in metres.
    #[serde(default = "usual_point_error_m")]
    pub point_error_m: f64,
}

/// Two pixels: a corner that is clicked at full size. Common practice, no source.
fn usual_click_error_px() -> f64 {
    2.0
}

/// Half a centimetre: a tape read to a centimetre.
fn usual_point_error_m() -> f64 {
    0.005
}

impl Underlay {
    /// A picture with the usual errors.
    pub fn new(file: &str, sha256: &str, points: Vec<UnderlayPoint>) -> Self {
        Self {
            file: file.to_owned(),
            sha256: sha256.to_owned(),
            points,
            click_error_px: usual_click_error_px(),
            point_error_m: usual_point_error_m(),
        }
    }

    /// The map from the picture to the plan, with the error to expect.
    pub fn fit(&self) -> Result<Fit, StraightenError> {
        let pairs: Vec<Pair> = self
            .points
            .iter()
            .map(|point| Pair {
                pixel: vec2(point.pixel[0], point.pixel[1]),
                at: vec2(point.at[0], point.at[1]),
            })
            .collect();
        Fit::new(&pairs, self.click_error_px, self.point_error_m)
    }
}
