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
