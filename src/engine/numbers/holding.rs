//! Racks, lashings and lashing points: what each has to hold, all cylinders together.

use schemars::JsonSchema;
use serde::Serialize;

use super::Utilisation;
use crate::layout::Id;

/// All computed numbers of one rack.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RackNumbers {
    /// The rack.
    pub rack: Id,

    /// Its own mass and that of what is in it, in kilograms.
    pub mass_kg: f64,

    /// Sideways force on its fixings, in newtons, at the worst.
    pub fixing_force_n: f64,

    /// What its fixings can take, in newtons; `None` if not known; 0 if unfixed.
    pub fixing_strength_n: Option<f64>,

    /// The friction that an unfixed rack needs so as not to slide, where nobody knows what it has.
    pub friction_needed: Option<f64>,

    /// How much of what keeps an unfixed rack from tipping or sliding is used up.
    pub utilisations: Vec<Utilisation>,

    /// The pull on each front, in newtons, at the worst: the front, the pull, what it can take.
    pub fronts: Vec<FrontNumbers>,

    /// What all in a crate push on its sides together, or the most that one cylinder pushes on its saddle,
    /// in newtons, at the worst; `None` for other racks.
    pub side_force_n: Option<f64>,

    /// What a side of the crate, or a saddle, can take, in newtons; `None` if not known, and for other racks.
    pub side_strength_n: Option<f64>,

    /// Weight on its shelf when the boat lands, in newtons.
    pub landing_load_n: f64,

    /// What the shelf may carry, in newtons at rest; `None` if not given or not known.
    pub load_limit_n: Option<f64>,
}

/// The pull on the front of a rack.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FrontNumbers {
    /// The front.
    pub front: Id,

    /// The cylinders behind it.
    pub behind: Vec<Id>,

    /// The pull in newtons at the worst.
    pub pull_n: f64,

    /// What it can take, in newtons; `None` if not known.
    pub strength_n: Option<f64>,

    /// Is it shut?
    pub shut: bool,
}

/// All computed numbers of one lashing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LashingNumbers {
    /// The lashing.
    pub lashing: Id,

    /// Is it made fast?
    pub shut: bool,

    /// The cylinders it goes round.
    pub round: Vec<Id>,

    /// Its greatest pull, in newtons; infinite (`null` in JSON) where no pull of it could hold what it is
    /// round.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What it alone can take (CS), in newtons; `None` if not known.
    pub capacity_n: Option<f64>,

    /// The steepest of its two legs below the horizontal, in degrees.
    pub steepest_leg_deg: f64,

    /// How long it is from point to point, round all of it, in metres: the shortest and the longest, the same but
    /// between opposite points, where it may pass on either side; `None` where it cannot run so.
    pub length_m: Option<[f64; 2]>,

    /// Its legs, from cylinder to point, in metres above the deck plan: `[x, y, z above waterline]`.
    pub legs: Vec<[[f64; 3]; 2]>,
}

/// The pull on one lashing point.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PointNumbers {
    /// The point.
    pub point: Id,

    /// The lashings made fast to it.
    pub lashings: Vec<Id>,

    /// The sum of their pulls, in newtons, at the worst; infinite (`null` in JSON) where one of them is.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What it can take in that direction (CS), in newtons; `None` if not known.
    pub capacity_n: Option<f64>,
}

/// What all cylinders that lean on one fixture push on it together.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct BackingNumbers {
    /// The fixture.
    pub fixture: Id,

    /// The cylinders that lean on it, in the order of their names.
    pub behind: Vec<Id>,

    /// The sum of their pushes in the load case in which it is greatest, in newtons.
    pub push_n: f64,

    /// Where that sum points, in degrees from the bow towards port.
    pub towards_deg: f64,

    /// That load case, in words.
    pub case: String,

    /// What the fixture can take, in newtons; `None` if not known.
    pub strength_n: Option<f64>,
}

/// What one cylinder pushes on a fixture that backs it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct BackingPush {
    /// The fixture.
    pub(crate) fixture: Id,

    /// Unit vector from the cylinder to the fixture.
    pub(crate) towards: [f64; 2],

    /// The least push with which the cylinder stays, in newtons, one for each load case of the part.
    pub(crate) by_case_n: Vec<f64>,
}
