//! Walkways, trips, rails and slip.

use super::{Limit, declare_limits};

/// Longest aisle for which the lesser width is enough.
pub const AISLE_SHORT_LENGTH_M: f64 = 4.572;
/// Width of a short aisle.
pub const AISLE_SHORT_WIDTH_M: f64 = 0.610;
/// Width of a longer aisle.
pub const AISLE_LONG_WIDTH_M: f64 = 0.760;
/// From the front of a seat to the front of the next.
pub const SEAT_SPACING_M: f64 = 0.760;
/// Least headroom.
pub const HEADROOM_M: f64 = 1.880;
/// Width of doors and passageways.
pub const DOOR_WIDTH_M: f64 = 0.810;
/// Width of doors and passageways that only crew uses.
pub const CREW_DOOR_WIDTH_M: f64 = 0.710;
/// Width of escape stairways and corridors.
pub const ESCAPE_WIDTH_M: f64 = 0.700;
/// Width of an accessible walking surface on a passenger vessel.
pub const ACCESSIBLE_WIDTH_M: f64 = 0.915;
/// Floor that one person takes.
pub const FLOOR_PER_PERSON_M2: f64 = 0.9;
/// Change of level that needs nothing.
pub const LEVEL_CHANGE_IGNORED_M: f64 = 0.0064;
/// Change of level that a bevel is enough for.
pub const LEVEL_CHANGE_BEVELLED_M: f64 = 0.013;
/// Steepest bevel, rise over run.
pub const BEVEL_SLOPE: f64 = 0.5;
/// Height up to which one steps over a thing.
pub const STEP_OVER_HEIGHT_M: f64 = 0.45;
/// Height at which a crossing line begins to catch feet.
pub const ANKLE_HEIGHT_M: f64 = 0.05;
/// Height of rails on most small passenger vessels.
pub const RAIL_HEIGHT_M: f64 = 0.910;
/// Height of rails on ferries, excursion and load-line vessels.
pub const RAIL_HEIGHT_FERRY_M: f64 = 1.000;
/// Point load that a rail must take.
pub const RAIL_POINT_LOAD_KG: f64 = 91.0;
/// Height of a high guard rail on small craft.
pub const GUARD_RAIL_HIGH_M: f64 = 0.600;
/// Height of a low guard rail on small craft.
pub const GUARD_RAIL_LOW_M: f64 = 0.450;
/// Foot-stop of a craft without sails.
pub const FOOT_STOP_M: f64 = 0.025;
/// Sideways force that a stanchion must take at its top.
pub const STANCHION_TOP_FORCE_N: f64 = 560.0;
/// Force at which a guard line may give its deflection.
pub const GUARD_LINE_FORCE_N: f64 = 40.0;
/// Deflection that a guard line may have under its force.
pub const GUARD_LINE_DEFLECTION_M: f64 = 0.050;
/// Pendulum test value from which slipping is unlikely.
pub const SLIP_PENDULUM_LOW_RISK: f64 = 36.0;

declare_limits! {
    AISLE_SHORT = {
        id: "aisle-width-short",
        says: "An aisle of at most 4.572 m (15 ft) is at least 610 mm (24 in) wide.",
        figures: [
            ("longest such aisle", AISLE_SHORT_LENGTH_M, "m"),
            ("least width", AISLE_SHORT_WIDTH_M, "m"),
        ],
        clause: "46 CFR 177.820(d)",
        edition: "undated copy",
        status: Verified,
        address: "https://captainsground.com/cfr/46/177/177.820",
    }
    AISLE_LONG = {
        id: "aisle-width-long",
        says: "A longer aisle is at least 760 mm (30 in) wide.",
        figures: [("least width", AISLE_LONG_WIDTH_M, "m")],
        clause: "46 CFR 177.820(d)",
        edition: "undated copy",
        status: Verified,
        address: "https://captainsground.com/cfr/46/177/177.820",
    }
    SEAT_SPACING = {
        id: "seat-spacing",
        says: "From the front of one seat to the front of the next are at least 760 mm.",
        figures: [("least distance", SEAT_SPACING_M, "m")],
        clause: "46 CFR 177.820(d)",
        edition: "undated copy",
        status: Verified,
        address: "https://captainsground.com/cfr/46/177/177.820",
    }
    HEADROOM = {
        id: "headroom",
        says: "Rooms and aisles have at least 1,880 mm (74 in) of headroom.",
        figures: [("least headroom", HEADROOM_M, "m")],
        clause: "46 CFR 177.800(b)",
        edition: "undated copy",
        status: Verified,
        address: "https://captainsground.com/cfr/46/177/177.800",
    }
    AISLES_CLEAR = {
        id: "aisles-clear",
        says: "Aisles stay free of obstructions.",
        figures: [],
        clause: "46 CFR 177.800(c)",
        edition: "undated copy",
        status: Verified,
        address: "https://captainsground.com/cfr/46/177/177.800",
    }
    MEANS_OF_ESCAPE = {
        id: "means-of-escape",
        says: "Every space for people has two means of escape far apart; one person is counted for each 0.9 m2 (10 sq ft).",
        figures: [("floor per person", FLOOR_PER_PERSON_M2, "m2")],
        clause: "46 CFR 177.500",
        edition: "2004",
        status: Verified,
        address: "http://edocket.access.gpo.gov/cfr_2004/octqtr/46cfr177.500.htm",
    }
    DOOR_WIDTH = {
        id: "door-width",
        says: "Doors and passageways of an escape are at least 810 mm (32 in) clear, 710 mm (28 in) where only crew passes.",
        figures: [
            ("least width", DOOR_WIDTH_M, "m"),
            ("least width, crew only", CREW_DOOR_WIDTH_M, "m"),
        ],
        clause: "46 CFR 177.500",
        edition: "",
        status: FromMemory,
        address: "",
    }
    ESCAPE_WIDTH = {
        id: "escape-width",
        says: "Escape stairways and corridors are at least 700 mm clear; the copy does not name the code it belongs to.",
        figures: [("least width", ESCAPE_WIDTH_M, "m")],
        clause: "IMO collection, GUID-06E84CE3-61E4-42AA-B917-E953D46A4411",
        edition: "",
        status: Verified,
        address: "https://www.imorules.com/GUID-06E84CE3-61E4-42AA-B917-E953D46A4411.html",
    }
    ACCESSIBLE_WIDTH = {
        id: "accessible-width",
        says: "An accessible walking surface on a passenger vessel is at least 915 mm (36 in) wide.",
        figures: [("least width", ACCESSIBLE_WIDTH_M, "m")],
        clause: "US Access Board, passenger vessel guidelines, V403",
        edition: "undated copy",
        status: Verified,
        address: "https://github.com/atbcb/usab-uswds",
    }
    LEVEL_CHANGE = {
        id: "level-change",
        says: "A change of level up to 6.4 mm (1/4 in) may stand upright, up to 13 mm (1/2 in) it is bevelled no steeper than 1:2, and more needs a ramp.",
        figures: [
            ("needs nothing up to", LEVEL_CHANGE_IGNORED_M, "m"),
            ("bevel is enough up to", LEVEL_CHANGE_BEVELLED_M, "m"),
            ("steepest bevel, rise over run", BEVEL_SLOPE, ""),
        ],
        clause: "ADA Standards, section 303",
        edition: "undated copy",
        status: Verified,
        address: "https://www.corada.com/documents/aba-pg-v2/303-3",
    }
    STEP_OVER = {
        id: "step-over",
        says: "What is lower than about the knee is stepped over, if it is seen; it does not stop a person but trips one.",
        figures: [("height", STEP_OVER_HEIGHT_M, "m")],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
    CROSSING_LINE = {
        id: "crossing-line",
        says: "A line across a walkway catches people anywhere between ankle and head.",
        figures: [
            ("from", ANKLE_HEIGHT_M, "m"),
            ("to", HEADROOM_M, "m"),
        ],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
    RAILS = {
        id: "rails",
        says: "Rails are at least 910 mm (36 in) high, 1,000 mm (39.5 in) on ferries, excursion and load-line vessels, and take a point load of 91 kg (200 lb).",
        figures: [
            ("least height", RAIL_HEIGHT_M, "m"),
            ("least height, ferries and the like", RAIL_HEIGHT_FERRY_M, "m"),
            ("point load", RAIL_POINT_LOAD_KG, "kg"),
        ],
        clause: "46 CFR 177.900",
        edition: "2003",
        status: Verified,
        address: "http://edocket.access.gpo.gov/cfr_2003/octqtr/46cfr177.900.htm",
    }
    SMALL_CRAFT_RAILS = {
        id: "small-craft-rails",
        says: "On craft up to 24 m a low guard rail is at least 450 mm and a high one at least 600 mm high; the foot-stop of a craft without sails is 25 mm (offshore and ocean).",
        figures: [
            ("low guard rail", GUARD_RAIL_LOW_M, "m"),
            ("high guard rail", GUARD_RAIL_HIGH_M, "m"),
            ("foot-stop", FOOT_STOP_M, "m"),
        ],
        clause: "ISO 15085",
        edition: "2003 (an edition of 2024 exists)",
        status: VerifiedSecondary,
        address: "http://nieuw.yacht-ce-marking.com/index.php/falling-overboard",
    }
    STANCHION = {
        id: "stanchion",
        says: "A stanchion takes 560 N sideways at its top, 600 mm up: made to stop a person, not to hold cylinders.",
        figures: [("force at the top", STANCHION_TOP_FORCE_N, "N")],
        clause: "ISO 15085, as quoted by a maker",
        edition: "",
        status: VerifiedSecondary,
        address: "https://www.i-carbon.it/quality-assessment-2/",
    }
    GUARD_LINE = {
        id: "guard-line",
        says: "A guard line gives at most 50 mm at mid-span under 40 N.",
        figures: [
            ("force", GUARD_LINE_FORCE_N, "N"),
            ("deflection", GUARD_LINE_DEFLECTION_M, "m"),
        ],
        clause: "Offshore Special Regulations 3.14",
        edition: "",
        status: VerifiedSecondary,
        address: "https://www.racingrulesofsailing.org/cases/233",
    }
    SLIP = {
        id: "slip",
        says: "A floor with a pendulum test value of at least 36 has a low risk of slipping.",
        figures: [("pendulum test value", SLIP_PENDULUM_LOW_RISK, "")],
        clause: "HSE and UK Slip Resistance Group guidance",
        edition: "",
        status: Verified,
        address: "https://www.ukslipresistance.org.uk/faq/what-values-must-my-floor-achieve-to-pass-the-slip-test/",
    }
}

/// Least clear width of a walkway of this length, and the rule that asks for it.
pub fn aisle_width_m(length_m: f64) -> (f64, &'static Limit) {
    if length_m <= AISLE_SHORT_LENGTH_M {
        (AISLE_SHORT_WIDTH_M, &AISLE_SHORT)
    } else {
        (AISLE_LONG_WIDTH_M, &AISLE_LONG)
    }
}

/// What a change of level in a walkway needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LevelChange {
    /// Nothing.
    Ignored,
    /// A bevel no steeper than 1:2.
    NeedsBevel,
    /// A ramp, or it is a trip.
    Trip,
}

/// What a change of level needs by [`LEVEL_CHANGE`].
pub fn level_change(height_m: f64) -> LevelChange {
    if height_m <= LEVEL_CHANGE_IGNORED_M {
        LevelChange::Ignored
    } else if height_m <= LEVEL_CHANGE_BEVELLED_M {
        LevelChange::NeedsBevel
    } else {
        LevelChange::Trip
    }
}
