//! Lashings: securing loads, calculation strength, balances, friction.

use super::declare_limits;

/// Maximum securing load of webbing, share of breaking strength.
pub const MSL_WEBBING: f64 = 0.50;
/// Maximum securing load of fibre rope.
pub const MSL_FIBRE_ROPE: f64 = 0.33;
/// Maximum securing load of shackles, rings, deck eyes and turnbuckles of mild steel.
pub const MSL_FITTINGS: f64 = 0.50;
/// Maximum securing load of wire rope for single use.
pub const MSL_WIRE_SINGLE_USE: f64 = 0.80;
/// Maximum securing load of wire rope that is used again.
pub const MSL_WIRE_REUSED: f64 = 0.30;
/// Maximum securing load of steel band for single use.
pub const MSL_STEEL_BAND: f64 = 0.70;
/// Maximum securing load of chain.
pub const MSL_CHAIN: f64 = 0.50;
/// Calculation strength is the maximum securing load divided by this.
pub const CS_DIVISOR: f64 = 1.5;
/// Divisor of the calculation strength in the alternative balance.
pub const CS_DIVISOR_ALTERNATIVE: f64 = 1.35;
/// Steepest lashing that the rule of thumb counts, above the deck.
pub const STEEPEST_LASHING_DEG: f64 = 60.0;
/// Least length of a ship for which Annex 13 gives accelerations.
pub const ANNEX13_LEAST_LENGTH_M: f64 = 50.0;
/// Share of static friction that counts once a lashing must stretch.
pub const SLIDING_FRICTION_SHARE: f64 = 0.75;
/// Lashing capacity of a strap, share of the breaking force of the whole assembly.
pub const STRAP_LC_SHARE: f64 = 0.5;
/// Hand force for which the tension of a strap is stated.
pub const STRAP_HAND_FORCE_N: f64 = 500.0;
/// Greatest stretch of a strap at its lashing capacity.
pub const STRAP_STRETCH_AT_LC: f64 = 0.07;
/// Least tension left after tightening, share of the lashing capacity.
pub const STRAP_TENSION_LEAST_SHARE: f64 = 0.1;
/// Greatest tension left after tightening, share of the lashing capacity.
pub const STRAP_TENSION_MOST_SHARE: f64 = 0.5;
/// Lashings that differ in stiffness by more than this factor do not share a load.
pub const STIFFNESS_RATIO: f64 = 3.0;
/// Gap up to which a fixture beside a body holds it.
pub const BACKING_GAP_M: f64 = 0.030;
/// Height of a chock as a share of the radius of what it holds.
pub const CHOCK_HEIGHT_SHARE: f64 = 1.0 / 3.0;
/// Height of a chock as a share of the radius where straps go over the top too.
pub const CHOCK_HEIGHT_SHARE_STRAPPED: f64 = 0.2;

declare_limits! {
    MSL_SHARES = {
        id: "msl-shares",
        says: "The maximum securing load is a share of the breaking strength, by material.",
        figures: [
            ("webbing", MSL_WEBBING, ""),
            ("fibre rope", MSL_FIBRE_ROPE, ""),
            ("shackles, rings, deck eyes, turnbuckles of mild steel", MSL_FITTINGS, ""),
            ("wire rope, single use", MSL_WIRE_SINGLE_USE, ""),
            ("wire rope, used again", MSL_WIRE_REUSED, ""),
            ("steel band, single use", MSL_STEEL_BAND, ""),
            ("chain", MSL_CHAIN, ""),
        ],
        clause: "IMO CSS Code, Annex 13, section 4, table 1",
        edition: "as before MSC.1/Circ.1623 (2020), which replaced the annex",
        status: Verified,
        address: "https://www.imorules.com/GUID-1EB98759-3F22-44FF-BE5F-EC858FFF2DD9.html",
    }
    WEAKEST_PART = {
        id: "weakest-part",
        says: "Of parts in a series the one with the least securing load counts for the whole.",
        figures: [],
        clause: "IMO CSS Code, Annex 13, 4.4",
        edition: "as before MSC.1/Circ.1623 (2020)",
        status: Verified,
        address: "https://www.imorules.com/GUID-1EB98759-3F22-44FF-BE5F-EC858FFF2DD9.html",
    }
    CALCULATION_STRENGTH = {
        id: "calculation-strength",
        says: "A balance of forces counts each lashing with its maximum securing load divided by 1.5 (1.35 in the alternative balance), because lashings never share a load evenly.",
        figures: [
            ("divisor", CS_DIVISOR, ""),
            ("divisor, alternative balance", CS_DIVISOR_ALTERNATIVE, ""),
        ],
        clause: "IMO CSS Code, Annex 13, 7.2 and 7.3, worked examples",
        edition: "as before MSC.1/Circ.1623 (2020)",
        status: Verified,
        address: "http://imorules.com/GUID-C99C6AF4-132B-4376-A696-0B5E10377595.html",
    }
    FORCE_BALANCE = {
        id: "force-balance",
        says: "Sideways force is held by friction and lashings, each lashing with cos(angle) + friction x sin(angle); tipping by weight and lashings with their levers.",
        figures: [],
        clause: "IMO CSS Code, Annex 13, section 7",
        edition: "as before MSC.1/Circ.1623 (2020)",
        status: Verified,
        address: "http://imorules.com/GUID-C99C6AF4-132B-4376-A696-0B5E10377595.html",
    }
    STEEP_LASHING = {
        id: "steep-lashing",
        says: "By the rule of thumb the securing loads on each side add up to the weight; a lashing steeper than 60 degrees does not count against sliding.",
        figures: [("steepest angle to the deck", STEEPEST_LASHING_DEG, "deg")],
        clause: "IMO CSS Code, Annex 13, section 5",
        edition: "as before MSC.1/Circ.1623 (2020)",
        status: Verified,
        address: "https://www.imorules.com/GUID-34077495-9F8D-4FDF-A8F7-69CBC3600AB8.html",
    }
    LASHING_ANGLES = {
        id: "lashing-angles",
        says: "A lashing works best against sliding at about 25 degrees to the deck and against tipping at 45 to 60 degrees.",
        figures: [
            ("against sliding", 25.0, "deg"),
            ("against tipping, from", 45.0, "deg"),
            ("against tipping, to", 60.0, "deg"),
        ],
        clause: "IMO CSS Code, heavy cargo annex, 5.3",
        edition: "",
        status: Verified,
        address: "https://www.imorules.com/GUID-B5CFD871-1B1A-48E5-85B0-963FE47FC658.html",
    }
    ANNEX13_SHIPS_ONLY = {
        id: "annex13-ships-only",
        says: "The accelerations of Annex 13 begin at ships of 50 m; its length factor turns negative near 14 m, so they are refused for smaller boats.",
        figures: [("least length", ANNEX13_LEAST_LENGTH_M, "m")],
        clause: "IMO CSS Code, Annex 13, length and speed table",
        edition: "",
        status: FromMemory,
        address: "",
    }
    SLIDING_FRICTION = {
        id: "sliding-friction",
        says: "Where a lashing must stretch before it holds, 75 % of the static friction counts.",
        figures: [("share", SLIDING_FRICTION_SHARE, "")],
        clause: "CTU Code, Annex 7, Appendix 2",
        edition: "2014",
        status: Verified,
        address: "https://wiki.unece.org/display/TransportSustainableCTUCode/Appendix+2.%09Friction+factors",
    }
    STRAP_LABEL = {
        id: "strap-label",
        says: "A strap's label gives its lashing capacity LC, half of what the whole assembly breaks at; it stretches at most 7 % at LC and holds 0.1 to 0.5 of LC after tightening with 50 daN by hand.",
        figures: [
            ("LC over breaking force", STRAP_LC_SHARE, ""),
            ("greatest stretch at LC", STRAP_STRETCH_AT_LC, ""),
            ("hand force", STRAP_HAND_FORCE_N, "N"),
            ("least tension left over LC", STRAP_TENSION_LEAST_SHARE, ""),
            ("greatest tension left over LC", STRAP_TENSION_MOST_SHARE, ""),
        ],
        clause: "EN 12195-2, as retold by strap makers",
        edition: "",
        status: VerifiedSecondary,
        address: "https://konnex.group/produkte/begriffe-aus-der-ladungssicherung/",
    }
    UNEQUAL_STIFFNESS = {
        id: "unequal-stiffness",
        says: "A lashing more than three times softer than its neighbour, as shock cord beside a strap, is not counted.",
        figures: [("ratio", STIFFNESS_RATIO, "")],
        clause: "follows from 1.5 in CSS Code, Annex 13, 7.2",
        edition: "",
        status: Derived,
        address: "",
    }
    BACKING = {
        id: "backing",
        says: "A bulwark, bench front or tube within 30 mm of a body holds it towards that side.",
        figures: [("gap", BACKING_GAP_M, "m")],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
    CHOCKS = {
        id: "chocks",
        says: "Wedges under a roll are at least a third of its radius high, or a fifth where straps go over it too.",
        figures: [
            ("height over radius", CHOCK_HEIGHT_SHARE, ""),
            ("height over radius, strapped", CHOCK_HEIGHT_SHARE_STRAPPED, ""),
        ],
        clause: "CTU Code",
        edition: "2014",
        status: FromMemory,
        address: "",
    }
}
