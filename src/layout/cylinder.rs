use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::fixture::is_false;
use super::{Id, Known, Point};

/// What a shell is made of.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ShellMaterial {
    /// Steel.
    Steel,
    /// Aluminium alloy.
    Aluminium,
}

/// The form of a shell's bottom.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum BaseForm {
    /// Flat: stands by itself.
    Flat,
    /// Round: cannot stand without a boot.
    Round,
}

/// A kind of cylinder by its measures: one of the boat's own, or the catalogue's as it was when the
/// trip used it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CylinderKind {
    /// How cylinders refer to it.
    pub id: Id,

    /// What it is called.
    pub name: String,

    /// What the shell is made of.
    pub material: ShellMaterial,

    /// Water capacity in litres.
    pub water_capacity_l: f64,

    /// Working pressure in bar.
    pub working_pressure_bar: f64,

    /// Outside diameter in millimetres.
    pub outside_diameter_mm: f64,

    /// Length without valve in millimetres.
    pub length_without_valve_mm: f64,

    /// Empty mass without valve in kilograms.
    pub empty_mass_without_valve_kg: f64,

    /// The form of the bottom.
    pub base_form: BaseForm,

    /// Distance between the two centres in millimetres, for a manifolded twin.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub twin_spacing_mm: Option<f64>,

    /// Measured height of the centre of gravity, full, above the shell's bottom, in millimetres; from
    /// the shell model unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_cg_height_mm: Option<f64>,

    /// A small cylinder strapped to its side: its mass with gas in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pony_mass_kg: Option<f64>,

    /// Radius of the stand that it stands on, in millimetres, for a rebreather on its stand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stand_radius_mm: Option<f64>,
}

/// How full a cylinder is, where nobody read the gauge.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Fill {
    /// At its working pressure.
    #[default]
    Full,
    /// Half its working pressure is assumed.
    PartUsed,
    /// Nothing in it.
    Empty,
}

/// Is the kit (jacket and regulator) fitted?
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Kit {
    /// The bare cylinder.
    #[default]
    Off,
    /// Jacket and regulator fitted.
    On,
}

/// What keeps a lying cylinder from rolling.
#[derive(Copy, Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Chocks {
    /// Square-edged chocks on both sides.
    Blocks {
        /// Height of the edge that touches the cylinder, in metres.
        height_m: f64,
        /// Gap between cylinder and chock, in metres; snug unless given.
        #[serde(default, skip_serializing_if = "super::fixture::is_zero")]
        gap_m: f64,
        /// Are the chocks fixed, so that they cannot slide away?
        fixed: bool,
    },
    /// Wedges on both sides.
    Wedges {
        /// Height of the wedge in metres.
        height_m: f64,
        /// Slope of the wedge in degrees.
        slope_deg: f64,
        /// Are the wedges fixed?
        fixed: bool,
    },
    /// A saddle under it.
    Saddle {
        /// Half the angle over which it grips, in degrees.
        half_angle_deg: f64,
    },
}

/// Where a cylinder is and how.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "how", rename_all = "snake_case", deny_unknown_fields)]
pub enum Placing {
    /// Upright on a deck or on a fixture's top.
    Standing {
        /// The deck.
        deck: Id,
        /// Where, in metres.
        at: Point,
        /// The fixture on whose top it stands.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        on: Option<Id>,
    },
    /// In a slot of a rack: upright in sockets and bench rows, lying in cradles.
    InSlot {
        /// The rack.
        rack: Id,
        /// The slot's painted name.
        slot: String,
    },
    /// Lying on a deck or on a fixture's top.
    Lying {
        /// The deck.
        deck: Id,
        /// Its middle, in metres.
        at: Point,
        /// Where the valve points, in degrees from the bow towards port.
        valve_towards_deg: f64,
        /// The fixture on whose top it lies.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        on: Option<Id>,
        /// Does it lie on its kit, which keeps it from rolling?
        #[serde(default, skip_serializing_if = "is_false")]
        on_kit: bool,
        /// What keeps it from rolling.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        chocks: Option<Chocks>,
        /// The two cylinders in whose groove it rests, for an upper tier.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        upon: Vec<Id>,
    },
    /// Loose in an open crate or under a net.
    InCrate {
        /// The crate or net.
        rack: Id,
        /// Its middle, in metres.
        at: Point,
        /// Where the valve points, in degrees from the bow towards port.
        valve_towards_deg: f64,
    },
    /// Upside down in its cage, valve below.
    UpsideDown {
        /// The deck.
        deck: Id,
        /// Where, in metres.
        at: Point,
        /// Radius of the cage that it stands on, in metres.
        cage_radius_m: f64,
        /// How much higher the cage lifts the shell's shoulder above the deck, in metres.
        cage_height_m: f64,
    },
    /// Hanging from a lashing point or rail by its valve or handle.
    Hanging {
        /// The point it hangs from.
        from: Id,
        /// Where, in metres.
        at: Point,
        /// Height of its bottom above the deck, in metres.
        clear_of_deck_m: f64,
    },
    /// Upright and held by somebody.
    HeldByHand {
        /// The deck.
        deck: Id,
        /// Where, in metres.
        at: Point,
        /// Who holds it.
        by: Id,
    },
    /// On a diver's back.
    OnDiver {
        /// Who wears it.
        by: Id,
    },
    /// Upright on the filling whip.
    Filling {
        /// The deck.
        deck: Id,
        /// Where, in metres.
        at: Point,
    },
    /// In the water.
    InWater,
    /// Not aboard.
    Ashore,
}

/// A cylinder of the trip.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cylinder {
    /// How others refer to it: what the crew call it.
    pub id: Id,

    /// The number stamped or painted on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<String>,

    /// Its kind, by its name in the catalogue or among the trip's own kinds.
    pub kind: String,

    /// What is in it: `air`, `oxygen`, `nitrox 32`, `trimix 18/45`; air unless given.
    #[serde(default = "air", skip_serializing_if = "is_air")]
    pub gas: String,

    /// How full it is, where no pressure is given.
    #[serde(default, skip_serializing_if = "is_full")]
    pub fill: Fill,

    /// Pressure on the gauge, in bar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_bar: Option<f64>,

    /// Empty mass stamped on its shoulder, in kilograms (without valve); overrides the kind's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stamped_tare_kg: Option<f64>,

    /// Has it a boot?
    #[serde(default, skip_serializing_if = "is_false")]
    pub boot: bool,

    /// Has it a net?
    #[serde(default, skip_serializing_if = "is_false")]
    pub net: bool,

    /// Is its valve protected by a cap, guard or cage?
    #[serde(default, skip_serializing_if = "is_false")]
    pub valve_protected: bool,

    /// Is the kit fitted?
    #[serde(default, skip_serializing_if = "is_kit_off")]
    pub kit: Kit,

    /// Which way the kit faces, in degrees from the bow towards port.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit_faces_deg: Option<Known>,

    /// Mass of the kit in kilograms; the catalogue's usual kit unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit_mass_kg: Option<f64>,

    /// Who dives with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diver: Option<String>,

    /// By whom and when its gas was analysed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub analysed: Option<String>,

    /// Where it is and how, at the start of the day.
    pub placing: Placing,
}

fn air() -> String {
    "air".to_owned()
}

fn is_air(gas: &str) -> bool {
    gas == "air"
}

fn is_full(fill: &Fill) -> bool {
    *fill == Fill::Full
}

fn is_kit_off(kit: &Kit) -> bool {
    *kit == Kit::Off
}

impl Cylinder {
    /// A full cylinder of air of this kind, with nothing else known of it.
    pub fn new(id: &str, kind: &str, placing: Placing) -> Self {
        Self {
            id: id.to_owned(),
            number: None,
            kind: kind.to_owned(),
            gas: air(),
            fill: Fill::Full,
            pressure_bar: None,
            stamped_tare_kg: None,
            boot: false,
            net: false,
            valve_protected: false,
            kit: Kit::Off,
            kit_faces_deg: None,
            kit_mass_kg: None,
            diver: None,
            analysed: None,
            placing,
        }
    }
}

impl Placing {
    /// Where it is on the deck plan, for a placing that has a point of its own.
    pub fn at(&self) -> Option<Point> {
        match self {
            Self::Standing { at, .. }
            | Self::Lying { at, .. }
            | Self::InCrate { at, .. }
            | Self::UpsideDown { at, .. }
            | Self::Hanging { at, .. }
            | Self::HeldByHand { at, .. }
            | Self::Filling { at, .. } => Some(*at),
            Self::InSlot { .. } | Self::OnDiver { .. } | Self::InWater | Self::Ashore => None,
        }
    }

    /// The point to move it by, for a placing that has one.
    pub fn at_mut(&mut self) -> Option<&mut Point> {
        match self {
            Self::Standing { at, .. }
            | Self::Lying { at, .. }
            | Self::InCrate { at, .. }
            | Self::UpsideDown { at, .. }
            | Self::Hanging { at, .. }
            | Self::HeldByHand { at, .. }
            | Self::Filling { at, .. } => Some(at),
            Self::InSlot { .. } | Self::OnDiver { .. } | Self::InWater | Self::Ashore => None,
        }
    }

    /// The deck it names, if it names one.
    pub fn deck(&self) -> Option<&str> {
        match self {
            Self::Standing { deck, .. }
            | Self::Lying { deck, .. }
            | Self::UpsideDown { deck, .. }
            | Self::HeldByHand { deck, .. }
            | Self::Filling { deck, .. } => Some(deck),
            Self::InSlot { .. }
            | Self::InCrate { .. }
            | Self::Hanging { .. }
            | Self::OnDiver { .. }
            | Self::InWater
            | Self::Ashore => None,
        }
    }

    /// Is it on deck at all?
    pub fn is_aboard(&self) -> bool {
        !matches!(self, Self::InWater | Self::Ashore)
    }
}
