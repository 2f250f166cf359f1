//! Names of what can be placed.

use super::super::stores::Section;
use crate::layout::{FixtureKind, GearKind, PlaceKind, PointKind, RackKind, Role};

/// A strip to walk along.
pub(crate) const WALKWAY: &str = "Walkway";

/// The title of a shelf.
pub(crate) fn section(section: Section) -> &'static str {
    match section {
        Section::Cylinders => "Cylinders",
        Section::Racks => "Racks",
        Section::Points => "Lashing points",
        Section::Lashings => "Straps and ropes",
        Section::Gear => "Gear",
        Section::People => "People",
        Section::Ways => "Walkways and places",
        Section::Fixtures => "Fixtures",
    }
}

/// A kind of rack.
pub(crate) fn rack(kind: RackKind) -> &'static str {
    match kind {
        RackKind::Sockets => "Sockets in a grid",
        RackKind::BenchRow => "Bench row with a strap",
        RackKind::Cradles => "Cradles for lying cylinders",
        RackKind::Crate => "Open crate",
        RackKind::Net => "Net on deck",
    }
}

/// A kind of lashing point.
pub(crate) fn point(kind: PointKind) -> &'static str {
    match kind {
        PointKind::PadEye => "Pad eye",
        PointKind::EyeBolt => "Eye bolt",
        PointKind::Cleat => "Cleat",
        PointKind::Stanchion => "Stanchion",
        PointKind::GuardRail => "Guard rail as a point",
        PointKind::GluedPatch => "Glued patch",
        PointKind::LashingRail => "Rail made for lashing",
        PointKind::Ring => "Ring",
        PointKind::Other => "Other lashing point",
    }
}

/// A kind of gear.
pub(crate) fn gear(kind: GearKind) -> &'static str {
    match kind {
        GearKind::Fins => "Fins",
        GearKind::Weights => "Weights",
        GearKind::Crate => "Box",
        GearKind::KitBag => "Kit bag",
        GearKind::Bin => "Bin",
        GearKind::Hose => "Hose",
        GearKind::Line => "Line",
        GearKind::Mat => "Non-slip mat",
        GearKind::Camera => "Camera",
        GearKind::Other => "Other gear",
    }
}

/// What somebody is aboard.
pub(crate) fn role(role: Role) -> &'static str {
    match role {
        Role::Skipper => "Skipper",
        Role::Mate => "Mate",
        Role::Crew => "Crew",
        Role::Diver => "Diver",
        Role::Passenger => "Passenger",
    }
}

/// A kind of place.
pub(crate) fn place(kind: PlaceKind) -> &'static str {
    match kind {
        PlaceKind::Seat => "Seat",
        PlaceKind::Gate => "Gate",
        PlaceKind::Helm => "Helm",
        PlaceKind::LadderHead => "Ladder head",
        PlaceKind::MusterPoint => "Muster point",
        PlaceKind::Door => "Door",
        PlaceKind::EmergencyGear => "Emergency gear",
        PlaceKind::Filling => "Filling place",
        PlaceKind::HandOver => "Hand-over",
        PlaceKind::SetDown => "Set-down",
        PlaceKind::CasualtyFloor => "Floor for a casualty",
        PlaceKind::Other => "Other place",
    }
}

/// A kind of fixture.
pub(crate) fn fixture(kind: FixtureKind) -> &'static str {
    match kind {
        FixtureKind::Bench => "Bench",
        FixtureKind::Console => "Console",
        FixtureKind::EngineBox => "Engine box",
        FixtureKind::Hatch => "Hatch",
        FixtureKind::Wheelhouse => "Wheelhouse",
        FixtureKind::Glass => "Glass",
        FixtureKind::Winch => "Winch",
        FixtureKind::GuardRail => "Guard rail",
        FixtureKind::Bulwark => "Bulwark",
        FixtureKind::Tube => "Inflatable tube",
        FixtureKind::Ladder => "Ladder",
        FixtureKind::Gate => "Gate in the rail",
        FixtureKind::FreeingPort => "Freeing port",
        FixtureKind::Compressor => "Compressor",
        FixtureKind::OxygenKit => "Oxygen kit",
        FixtureKind::Extinguisher => "Extinguisher",
        FixtureKind::Liferaft => "Liferaft",
        FixtureKind::Fuel => "Fuel",
        FixtureKind::Heat => "Something hot",
        FixtureKind::Sill => "Sill",
        FixtureKind::Locker => "Table or locker",
        FixtureKind::Post => "Post",
        FixtureKind::Overhead => "Roof or beam",
        FixtureKind::Other => "Other fixture",
    }
}
