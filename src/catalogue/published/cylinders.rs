//! Stowing and securing compressed-gas cylinders.

use super::declare_limits;

/// Greatest share of the open deck that dangerous cargo may cover.
pub const DECK_SHARE: f64 = 0.50;
/// Height of dunnage that keeps a crib of cylinders off a metal deck.
pub const CRIB_OFF_DECK_M: f64 = 0.100;
/// Distance from structure that becomes hot.
pub const HEAT_DISTANCE_M: f64 = 2.4;
/// Temperature from which structure counts as hot, °C.
pub const HOT_SURFACE_C: f64 = 55.0;
/// Distance of oxygen from things that burn.
pub const OXYGEN_DISTANCE_M: f64 = 6.1;
/// Height of the strap as a share of the cylinder's height.
pub const STRAP_HEIGHT_SHARE: f64 = 2.0 / 3.0;
/// Distance within which a cylinder counts as held by a person.
pub const HELD_REACH_M: f64 = 0.8;
/// Greatest force with which a person holds a cylinder upright.
pub const HELD_FORCE_N: f64 = 150.0;
/// Lever arm of a hand at the valve.
pub const HELD_LEVER_M: f64 = 0.7;

declare_limits! {
    SHIFTING = {
        id: "no-shifting",
        says: "Dangerous cargo is secured and dunnaged so that it cannot shift in any direction.",
        figures: [],
        clause: "49 CFR 176.69(d)",
        edition: "undated copy",
        status: Verified,
        address: "http://www.law.cornell.edu/cfr/text/49/176.69",
    }
    GUARD_RAIL_LASHING = {
        id: "guard-rail-lashing",
        says: "On deck, boxes and cradles are lashed to eye pads; nothing is lashed to guard rails.",
        figures: [],
        clause: "49 CFR 176.74(a)",
        edition: "undated copy",
        status: Verified,
        address: "https://d1tvxue8o4w0fl.cloudfront.net/regulation/code-of-federal-regulations/title-49-transportation/subtitle-b-other-regulations-relating-to-transportation/chapter-i-pipeline-and-hazardous-materials-safety-administration-department-of-transportation/subchapter-c-hazardous-materials-regulations/part-176-carriage-by-vessel/subpart-c-general-handling-and-stowage/section-17674-on-deck-stowage-of-break-bulk-hazardous-materials",
    }
    DECK_AREA_SHARE = {
        id: "deck-area-share",
        says: "Dangerous cargo covers at most half of the open deck.",
        figures: [("share", DECK_SHARE, "")],
        clause: "49 CFR 176.74(c)",
        edition: "undated copy",
        status: Verified,
        address: "https://d1tvxue8o4w0fl.cloudfront.net/regulation/code-of-federal-regulations/title-49-transportation/subtitle-b-other-regulations-relating-to-transportation/chapter-i-pipeline-and-hazardous-materials-safety-administration-department-of-transportation/subchapter-c-hazardous-materials-regulations/part-176-carriage-by-vessel/subpart-c-general-handling-and-stowage/section-17674-on-deck-stowage-of-break-bulk-hazardous-materials",
    }
    DECK_ACCESS = {
        id: "deck-access",
        says: "Fire plugs, hoses and sounding pipes stay clear, and quarters and every working part of the deck can be reached safely.",
        figures: [],
        clause: "49 CFR 176.74(d) and (g)",
        edition: "undated copy",
        status: Verified,
        address: "https://d1tvxue8o4w0fl.cloudfront.net/regulation/code-of-federal-regulations/title-49-transportation/subtitle-b-other-regulations-relating-to-transportation/chapter-i-pipeline-and-hazardous-materials-safety-administration-department-of-transportation/subchapter-c-hazardous-materials-regulations/part-176-carriage-by-vessel/subpart-c-general-handling-and-stowage/section-17674-on-deck-stowage-of-break-bulk-hazardous-materials",
    }
    NO_METAL_CONTACT = {
        id: "no-metal-contact",
        says: "Cylinders do not touch deck, side or bulwark directly: dunnage or shoring lies between.",
        figures: [],
        clause: "49 CFR 176.200(a)",
        edition: "undated copy",
        status: Verified,
        address: "https://chanrobles.com/usa/uslaws/cfr/title49/49-2.1.1.3.11.8.php",
    }
    LYING_TIERS = {
        id: "lying-tiers",
        says: "Lying cylinders rest in the grooves of the tier below, valves of neighbouring tiers at opposite ends, and are lashed against any shifting.",
        figures: [],
        clause: "49 CFR 176.200(b)",
        edition: "undated copy",
        status: Verified,
        address: "https://chanrobles.com/usa/uslaws/cfr/title49/49-2.1.1.3.11.8.php",
    }
    UPRIGHT_CRIB = {
        id: "upright-crib",
        says: "Upright cylinders stand in a block, cribbed or boxed, braced, the crib chocked and lashed and dunnaged at least 10 cm (3.9 in) off a metal deck.",
        figures: [("off the deck", CRIB_OFF_DECK_M, "m")],
        clause: "49 CFR 176.200(c)",
        edition: "undated copy",
        status: Verified,
        address: "https://chanrobles.com/usa/uslaws/cfr/title49/49-2.1.1.3.11.8.php",
    }
    COOL = {
        id: "cool",
        says: "Cylinders are kept as cool as can be, away from heat and ignition.",
        figures: [],
        clause: "49 CFR 176.200(f)",
        edition: "undated copy",
        status: Verified,
        address: "https://chanrobles.com/usa/uslaws/cfr/title49/49-2.1.1.3.11.8.php",
    }
    HEAT_DISTANCE = {
        id: "heat-distance",
        says: "Protected from heat means at least 2.4 m from structure that can pass 55 degrees C.",
        figures: [
            ("distance", HEAT_DISTANCE_M, "m"),
            ("temperature", HOT_SURFACE_C, "deg C"),
        ],
        clause: "PHMSA rule-making on 49 CFR part 176",
        edition: "",
        status: VerifiedSecondary,
        address: "https://www.yumpu.com/en/document/view/15635775/billing-code-phmsa-department-of-transportation/303",
    }
    ROAD = {
        id: "road",
        says: "On a vehicle cylinders are securely restrained upright or lying, loaded in racks, or packed.",
        figures: [],
        clause: "49 CFR 177.840(a)(1)",
        edition: "2003",
        status: Verified,
        address: "http://edocket.access.gpo.gov/cfr_2003/octqtr/49cfr177.840.htm",
    }
    DIVING_CYLINDERS = {
        id: "diving-cylinders",
        says: "In commercial diving, cylinders are stored ventilated, protected from great heat, and kept from falling.",
        figures: [],
        clause: "46 CFR 197.338",
        edition: "undated copy",
        status: Verified,
        address: "https://lexbuild.dev/ecfr/title-46/chapter-I/part-197/section-197.338",
    }
    RESEARCH_VESSELS = {
        id: "research-vessels",
        says: "On research vessels cylinders have their valves protected and stand upright in racks.",
        figures: [],
        clause: "46 CFR 194.20-17",
        edition: "undated copy",
        status: Verified,
        address: "https://lexbuild.dev/ecfr/title-46/chapter-I/part-194/section-194.20-17",
    }
    UPRIGHT_ONLY = {
        id: "upright-only",
        says: "In construction, cylinders for welding are secured upright at all times but for short moves. This conflicts with rules that let cylinders lie when lashed; it does not speak of diving.",
        figures: [],
        clause: "29 CFR 1926.350(a)(9)",
        edition: "interpretation letter",
        status: Verified,
        address: "https://www.osha.gov/pls/oshaweb/owadisp.show_document?p_table=INTERPRETATIONS&p_id=28370",
    }
    LYING_ALLOWED = {
        id: "lying-allowed",
        says: "Most codes let cylinders lie if they are lashed or rest in grooves; only the rule for welding on construction sites does not. No code that was found sets a pretension or a slack for a cylinder's strap.",
        figures: [],
        clause: "49 CFR 176.200(b) and 177.840 against 29 CFR 1926.350(a)(9)",
        edition: "",
        status: Derived,
        address: "",
    }
    OXYGEN_DISTANCE = {
        id: "oxygen-distance",
        says: "Stored oxygen is at least 6.1 m (20 ft) from things that burn, and cylinders stand where nobody knocks them over, away from stairs and gangways.",
        figures: [("distance", OXYGEN_DISTANCE_M, "m")],
        clause: "29 CFR 1910.253(b)(2), read in WAC 296-24-68203",
        edition: "",
        status: VerifiedSecondary,
        address: "https://app.leg.wa.gov/wac/default.aspx?cite=296-24-68203",
    }
    COMMERCIAL_DIVING = {
        id: "commercial-diving",
        says: "Diving cylinders are stored ventilated, protected from heat and secured from falling, the valve recessed or capped except in use.",
        figures: [],
        clause: "29 CFR 1910.430(e)",
        edition: "",
        status: FromMemory,
        address: "",
    }
    TIP_FALL_ROLL = {
        id: "tip-fall-roll",
        says: "Cylinders are secured so that they cannot tip, fall or roll.",
        figures: [],
        clause: "Cal/OSHA, Title 8, 4650(e)",
        edition: "undated copy",
        status: Verified,
        address: "http://www.dir.ca.gov/Title8/4650.html",
    }
    QUICK_RELEASE = {
        id: "quick-release",
        says: "On board, cylinders stand on wood rather than bare steel, each secured with a quick release, metal not touching metal.",
        figures: [],
        clause: "UK Code of Safe Working Practices for Merchant Seafarers, 24.8",
        edition: "",
        status: VerifiedSecondary,
        address: "https://chirp.co.uk/?p=2947",
    }
    STRAP_HEIGHT = {
        id: "strap-height",
        says: "Chain or strap sits about two thirds up the cylinder.",
        figures: [("share of the height", STRAP_HEIGHT_SHARE, "")],
        clause: "university laboratory guidance citing NFPA 55",
        edition: "",
        status: VerifiedSecondary,
        address: "https://ehs.msu.edu/lab-clinic/lab-inspect/cg-properly-secured.html",
    }
    HELD_BY_HAND = {
        id: "held-by-hand",
        says: "A cylinder is held by hand only by a named person within 0.8 m who holds nothing else and needs at most 150 N at the valve, and never while running.",
        figures: [
            ("reach", HELD_REACH_M, "m"),
            ("force", HELD_FORCE_N, "N"),
            ("lever arm", HELD_LEVER_M, "m"),
        ],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
    UNSECURED_UPRIGHT = {
        id: "unsecured-upright",
        says: "Under way an upright cylinder is secured or held, whatever the numbers say.",
        figures: [],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
}
