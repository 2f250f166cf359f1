use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Known, Point, Underlay};

/// What a deck or shelf is made of underfoot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Surface {
    /// The surface's name in the catalogue.
    pub kind: String,

    /// Is it wet? A working deck is, unless somebody says otherwise.
    #[serde(default = "yes")]
    pub wet: bool,

    /// Measured friction coefficient under a cylinder; the catalogue's assumed value unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<Known>,
}

fn yes() -> bool {
    true
}

impl Default for Surface {
    fn default() -> Self {
        Self {
            kind: "painted".to_owned(),
            wet: true,
            friction: None,
        }
    }
}

/// One deck, flat, at a height above the waterline.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Deck {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// Height above the still waterline in metres.
    pub height_above_waterline_m: f64,

    /// The edge of the deck, corner by corner, in metres.
    #[schemars(length(min = 3))]
    pub outline: Vec<Point>,

    /// Openings in the deck, each corner by corner, in metres.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<Vec<Point>>,

    /// What it is made of underfoot.
    #[serde(default)]
    pub surface: Surface,

    /// What the deck may carry, in kilograms per square metre.
    #[serde(default)]
    pub load_limit_kg_per_m2: Known,

    /// A photo or scan that lies beneath the plan of this deck.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub underlay: Option<Underlay>,
}

impl Deck {
    /// A main deck with a square stern and a bow rounded over the forward 40 % of the length, drawn
    /// from length and beam alone; to be replaced by tape readings.
    pub fn from_length_and_beam(length_overall_m: f64, beam_m: f64) -> Self {
        let half = 0.5 * beam_m;
        let side = [(0.6, 1.0), (0.75, 0.9), (0.88, 0.66), (0.96, 0.34)];
        let mut outline = vec![[0.0, -half]];
        outline.extend(side.iter().map(|(x, y)| [x * length_overall_m, -y * half]));
        outline.push([length_overall_m, 0.0]);
        outline.extend(
            side.iter()
                .rev()
                .map(|(x, y)| [x * length_overall_m, y * half]),
        );
        outline.push([0.0, half]);
        for point in &mut outline {
            for value in point {
                *value = (*value * 1000.0).round() / 1000.0;
            }
        }
        Self {
            id: "main".to_owned(),
            name: Some("Main deck".to_owned()),
            height_above_waterline_m: 0.6,
            outline,
            holes: Vec::new(),
            surface: Surface::default(),
            load_limit_kg_per_m2: Known::NotKnown,
            underlay: None,
        }
    }
}
