//! The deck plan: a boat and its trips, the edits that change it, and its history.
//!
//! The types here are the layout file's own types, field for field, so that what a person reads in
//! the file is what the program knows; units stand in the field names. When the file format needs a
//! version 2, version 1 is frozen into [`crate::store`] as types of its own.
//!
//! **The boat and the trip are separate**: decks, fixtures, racks and lashing points belong to the
//! boat and reach every trip; cylinders, lashings, gear and people belong to one trip.
//!
//! A [`Plan`] changes only through [`Edit`]s applied by [`Plan::apply`]; [`History`] keeps the
//! steps. Selection, zoom and the like are not here: they are view state and live in
//! [`crate::app`].

mod apply;
mod between;
mod boat;
pub mod bounds;
mod briefing;
mod cylinder;
mod day;
mod deck;
mod edit;
mod fixture;
mod history;
mod known;
mod lashing;
pub(crate) mod nearest;
mod part;
mod parts;
mod people;
mod rack;
mod remove;
mod sea;
mod trip;
mod underlay;
pub(crate) mod validate;
mod walkway;

pub use self::between::{Opened, Opening, openings};
pub use self::boat::{Boat, Hull};
pub use self::briefing::{Briefing, LoadingTick};
pub use self::cylinder::{
    BaseForm, Chocks, Cylinder, CylinderKind, Fill, Kit, Placing, ShellMaterial,
};
pub use self::day::{CylinderState, DayState, FrontState, GearState, LashingState, PersonState};
pub use self::deck::{Deck, Surface};
pub use self::edit::{Edit, EditError, Thing, ThingKind, ThingRef};
pub use self::fixture::{Fixture, FixtureKind, Shelf};
pub use self::history::History;
pub use self::known::Known;
pub use self::lashing::{
    GearAboard, GearAboardKind, LashCondition, Lashing, LashingPoint, PointKind, StraightPull,
};
pub use self::part::{
    Changes, Condition, CylinderChange, FrontChange, GearChange, LashingChange, MotionInput,
    MotionSource, Part, PersonChange,
};
pub(crate) use self::parts::free as free_name;
pub use self::parts::{
    with_part_after, with_part_copied, with_part_moved, with_part_put_in, with_part_split,
    without_part,
};
pub use self::people::{Gear, GearKind, GearShape, Person, Posture, Role};
pub use self::rack::{Fixings, Front, FrontKind, Rack, RackKind, Slot};
pub use self::sea::{
    RollTest, RollTestLoading, RollTestRun, RunningKind, Sea, SpectrumKind, SpreadingKind, Wake,
    WatersKind,
};
pub use self::trip::{MaterialUsed, TakenOn, Trip};
pub use self::underlay::{Underlay, UnderlayPoint};
pub use self::validate::{Mistake, validate};
pub use self::walkway::{Place, PlaceKind, Walkway};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A point on the deck plan: `[x, y]` in metres in the boat frame (x forward from the transom, y to
/// port of the centreline).
pub type Point = [f64; 2];

/// The name by which one thing refers to another; what the crew would say ("P6", "bench port").
pub type Id = String;

/// The version of the file format that this program writes.
pub const PLAN_VERSION: u32 = 1;

/// A deck plan with its trips: all that is saved to disk.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Where the schema of this file lies, so that an editor completes fields.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,

    /// The version of the file format; always 1.
    #[schemars(range(min = 1, max = 1))]
    pub version: u32,

    /// The boat: what stays from trip to trip.
    pub boat: Boat,

    /// The trips: what is stowed, and the parts of the day.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub trips: Vec<Trip>,
}

impl Plan {
    /// A boat of which only length and beam are known: one deck with a rounded bow, one trip with one
    /// part of the day under way.
    pub fn new(name: &str, length_overall_m: f64, beam_m: f64) -> Self {
        Self {
            schema: None,
            version: PLAN_VERSION,
            boat: Boat::new(name, length_overall_m, beam_m),
            trips: vec![Trip::new("trip-1")],
        }
    }

    /// The trip with this id.
    pub fn trip(&self, id: &str) -> Option<&Trip> {
        self.trips.iter().find(|trip| trip.id == id)
    }
}
