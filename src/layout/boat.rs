use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Deck, Fixture, Id, LashingPoint, Place, Rack, RollTest, Walkway};

/// The form of the hull; it decides which roll-period formulas hold and how the boat damps.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[expect(clippy::enum_variant_names, reason = "twin hull is the trade's word")]
pub enum Hull {
    /// One displacement hull.
    Monohull,
    /// Two hulls side by side.
    TwinHull,
    /// A hull that planes.
    Planing,
    /// Rigid or soft with inflatable tubes.
    Inflatable,
}

/// The boat: what stays from trip to trip. Everything but length and beam may be missing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Boat {
    /// The boat's name.
    pub name: String,

    /// The form of the hull.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hull: Option<Hull>,

    /// Length overall in metres.
    pub length_overall_m: f64,

    /// Greatest beam in metres.
    pub beam_m: f64,

    /// Waterline length in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waterline_length_m: Option<f64>,

    /// Moulded draught in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub draught_m: Option<f64>,

    /// Displacement with everybody and everything aboard, in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub displacement_kg: Option<f64>,

    /// Metacentric height in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gm_m: Option<f64>,

    /// Moment that trims the boat by one centimetre over its waterline length, in kilogram metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub moment_to_trim_1_cm_kg_m: Option<f64>,

    /// Roll period by stopwatch (one full swing out, over and back), in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_period_s: Option<f64>,

    /// Shortest and longest roll period in seconds, where no more is known ("2 to 4 s"): the worst counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_period_range_s: Option<[f64; 2]>,

    /// A rolling-period test by stopwatch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_test: Option<RollTest>,

    /// Roll damping as a share of the critical; that of the form of the hull unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_damping_ratio: Option<f64>,

    /// Bertin's coefficient N per degree, for damping that grows with the roll: the loss of angle in half
    /// a swing is N times the square of the angle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_bertin_n: Option<f64>,

    /// Height of the roll axis above the waterline in metres; the waterline unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_axis_height_m: Option<f64>,

    /// Distance of the pitch axis forward of the transom in metres; the middle of the waterline
    /// length unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pitch_axis_x_m: Option<f64>,

    /// The decks that things stand on.
    pub decks: Vec<Deck>,

    /// What is built onto the decks: benches, boxes, hatches, rails.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fixtures: Vec<Fixture>,

    /// Where people are or must get to: seats, gates, ladder heads.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<Place>,

    /// Strips along which people must be able to pass.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub walkways: Vec<Walkway>,

    /// What holds cylinders: sockets, bench rows, cradles, crates, nets.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub racks: Vec<Rack>,

    /// Where a lashing can be made fast.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lashing_points: Vec<LashingPoint>,

    /// Names of what stays where it is while the deck is arranged in the window: fixtures, places,
    /// walkways, racks and lashing points.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub locked: Vec<Id>,
}

impl Boat {
    /// A boat of which only length and beam are known, with one deck.
    pub fn new(name: &str, length_overall_m: f64, beam_m: f64) -> Self {
        Self {
            name: name.to_owned(),
            hull: None,
            length_overall_m,
            beam_m,
            waterline_length_m: None,
            draught_m: None,
            displacement_kg: None,
            gm_m: None,
            moment_to_trim_1_cm_kg_m: None,
            roll_period_s: None,
            roll_period_range_s: None,
            roll_test: None,
            roll_damping_ratio: None,
            roll_bertin_n: None,
            roll_axis_height_m: None,
            pitch_axis_x_m: None,
            decks: vec![Deck::from_length_and_beam(length_overall_m, beam_m)],
            fixtures: Vec::new(),
            places: Vec::new(),
            walkways: Vec::new(),
            racks: Vec::new(),
            lashing_points: Vec::new(),
            locked: Vec::new(),
        }
    }

    /// The deck with this id.
    pub fn deck(&self, id: &str) -> Option<&Deck> {
        by_id(&self.decks, id, |deck| &deck.id)
    }

    /// The fixture with this id.
    pub fn fixture(&self, id: &str) -> Option<&Fixture> {
        by_id(&self.fixtures, id, |fixture| &fixture.id)
    }

    /// The place with this id.
    pub fn place(&self, id: &str) -> Option<&Place> {
        by_id(&self.places, id, |place| &place.id)
    }

    /// The walkway with this id.
    pub fn walkway(&self, id: &str) -> Option<&Walkway> {
        self.walkways.iter().find(|walkway| walkway.id == id)
    }

    /// The rack with this id.
    pub fn rack(&self, id: &str) -> Option<&Rack> {
        by_id(&self.racks, id, |rack| &rack.id)
    }

    /// The lashing point with this id.
    pub fn lashing_point(&self, id: &str) -> Option<&LashingPoint> {
        by_id(&self.lashing_points, id, |point| &point.id)
    }

    /// Is a fixture, place, walkway, rack or lashing point with this id locked in its place?
    pub fn is_locked(&self, id: &str) -> bool {
        self.locked.iter().any(|locked| locked == id)
    }

    /// Has the boat a fixture, place, walkway, rack or lashing point with this id?
    pub fn has_thing(&self, id: &str) -> bool {
        self.fixture(id).is_some()
            || self.place(id).is_some()
            || self.walkway(id).is_some()
            || self.rack(id).is_some()
            || self.lashing_point(id).is_some()
    }

    /// Height of the roll axis above the waterline in metres.
    pub fn roll_axis_height(&self) -> f64 {
        self.roll_axis_height_m.unwrap_or(0.0)
    }

    /// Where the pitch axis lies, in metres forward of the transom.
    pub fn pitch_axis_x(&self) -> f64 {
        self.pitch_axis_x_m
            .unwrap_or(0.5 * self.waterline_length_m.unwrap_or(self.length_overall_m))
    }
}

/// The thing with this id. Lists are mostly in the order of their names, so it is looked for there first.
fn by_id<'a, T>(things: &'a [T], id: &str, id_of: impl Fn(&T) -> &String) -> Option<&'a T> {
    let found = things.binary_search_by(|thing| id_of(thing).as_str().cmp(id));
    match found {
        Ok(number) => things.get(number),
        Err(_) => things.iter().find(|thing| id_of(thing) == id),
    }
}
