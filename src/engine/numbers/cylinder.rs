//! All computed numbers of one cylinder, and how it is held.

use schemars::JsonSchema;
use serde::Serialize;

use super::{BackingPush, LimitNumbers, Need, Utilisation, Way};
use crate::layout::{Id, Point};

/// How a cylinder is held.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Stance {
    /// Upright, with nothing but its foot.
    StandsFree,
    /// Upright against something that backs it, with nothing else.
    Backed,
    /// Upright in a rack.
    InRack,
    /// Upright with a lashing.
    Lashed,
    /// Upright and held by somebody.
    HeldByHand,
    /// Upright on the filling whip.
    OnWhip,
    /// Upside down in its cage.
    UpsideDown,
    /// Hanging.
    Hanging,
    /// Lying.
    Lying,
    /// Lying in a cradle.
    InCradle,
    /// Loose in an open crate or under a net.
    InCrate,
    /// On a diver's back.
    OnDiver,
}

impl Stance {
    /// Does it stand upright on its foot?
    pub fn is_upright(self) -> bool {
        matches!(
            self,
            Self::StandsFree
                | Self::Backed
                | Self::InRack
                | Self::Lashed
                | Self::HeldByHand
                | Self::OnWhip
                | Self::UpsideDown
        )
    }
}

/// How a rack holds one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RackHold {
    /// The rack.
    pub rack: Id,

    /// The slot.
    pub slot: String,

    /// Sideways force on the slot's edge or back rail, in newtons, at the worst.
    pub edge_force_n: f64,

    /// What that edge can take, in newtons; `None` if not known.
    pub edge_strength_n: Option<f64>,

    /// Height of the edge above what the cylinder stands on, in metres.
    pub edge_height_m: f64,

    /// Force on the front strap, chain, cord or bar from this cylinder, in newtons, at the worst.
    pub front_force_n: Option<f64>,

    /// The front that serves the slot, whether shut or not.
    pub front: Option<Id>,

    /// Is the slot closed all round (a socket, or a shut front)?
    pub closed: bool,

    /// Play of the cylinder in its slot across, in metres; `None` if the bore is not given.
    pub play_m: Option<f64>,

    /// How far it can lean before the edge holds it, in degrees.
    pub lean_deg: f64,

    /// Sideways force on the foot's stop, in newtons; 0 where the foot is free.
    pub foot_force_n: f64,

    /// The roll at which the foot kicks out, in degrees, where only friction holds it.
    pub kick_out_roll_deg: Option<f64>,

    /// Upward force in newtons that the hold-down must take; 0 where the deck is never left.
    pub lift_force_n: f64,
}

/// How a lashing holds one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LashingHold {
    /// The lashing.
    pub lashing: Id,

    /// Its greatest pull over the load cases, in newtons; infinite (`null` in JSON) where no pull of it could
    /// hold the cylinder.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What counts of its strength (CS: the weaker of strap and points, divided by 1.5), in newtons; `None` if
    /// not known.
    pub capacity_n: Option<f64>,

    /// Is it on the straight shell?
    pub on_straight_shell: bool,

    /// Is it counted? Where a closed slot of a rack holds the cylinder, the slot alone is.
    pub counted: bool,

    /// How far the slack lets the cylinder lean before it bites, in degrees; `None` if the slack is not
    /// known.
    pub lean_deg: Option<f64>,

    /// The peak pull when it bites after the slack, in newtons.
    pub snatch_n: Option<f64>,

    /// How far a hand at the valve (150 N) can move the top before the lashing is tight, in metres.
    pub push_test_m: Option<f64>,
}

/// All computed numbers of one cylinder in one part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct CylinderNumbers {
    /// The cylinder.
    pub cylinder: Id,

    /// The deck it is on.
    pub deck: Id,

    /// Where it is, in metres.
    pub at: Point,

    /// How it is held.
    pub stance: Stance,

    /// Mass with gas, valve, boot and kit, in kilograms.
    pub mass_kg: f64,

    /// Height of the centre of gravity above what it stands or lies on, in metres.
    pub cg_height_m: f64,

    /// Height of that centre above the waterline, in metres.
    pub cg_above_waterline_m: f64,

    /// The least distance from the centre of gravity to the edge it stands on, in metres; 0 where it
    /// cannot stand.
    pub base_radius_m: f64,

    /// Height over all, in metres.
    pub height_m: f64,

    /// Radius of the body, in metres.
    pub body_radius_m: f64,

    /// From where to where its straight shell reaches above its foot, in metres: there a lashing holds.
    pub straight_shell_m: [f64; 2],

    /// Height divided by the width of what it stands on; `None` where it does not stand.
    pub height_to_base_ratio: Option<f64>,

    /// The steady lean at which it would tip, held by nothing, in degrees.
    pub static_tip_angle_deg: Option<f64>,

    /// Friction underfoot; `None` if not known.
    pub friction: Option<f64>,

    /// Where the friction comes from, in words.
    pub friction_source: String,

    /// Every way in which it could go, with how much of what holds is used up; worst first.
    pub utilisations: Vec<Utilisation>,

    /// What nobody knows and would have to be at least this good.
    pub needs: Vec<Need>,

    /// How its rack holds it.
    pub rack: Option<RackHold>,

    /// The row of touching cylinders in which it lies, itself among them; empty where none touches it.
    pub row: Vec<Id>,

    /// How much of what keeps it from tipping is used up where its lashings, all of known stiffness, share the
    /// pull by their stiffness and the first at its strength ends it: to be read beside `tips`, for which
    /// each takes what it can. In the load case that turns it over hardest, its foot stopped; `None` with
    /// fewer than two lashings, with backing or rails beside them, or where nothing would hold.
    pub tips_by_stiffness: Option<f64>,

    /// Which of those lashings is at its strength first when they share by stiffness.
    pub stiffest_lashing: Option<Id>,

    /// How its lashings hold it.
    pub lashings: Vec<LashingHold>,

    /// What backs it, by name.
    pub backed_by: Vec<Id>,

    /// What it pushes on each of those: what [`BackingNumbers`](super::BackingNumbers) sums up.
    #[serde(skip)]
    #[schemars(skip)]
    pub(crate) backing_pushes: Vec<BackingPush>,

    /// The pull in newtons that a person at its valve needs to hold it, for held by hand.
    pub hand_force_n: Option<f64>,

    /// What it presses on what it stands or lies on with, in newtons, at the worst.
    pub landing_load_n: f64,

    /// The motion at which it goes.
    pub limit: LimitNumbers,
}

impl CylinderNumbers {
    /// The utilisation for one way of going.
    pub fn utilisation(&self, way: Way) -> Option<&Utilisation> {
        self.utilisations.iter().find(|item| item.way == way)
    }
}
