//! People, heel, roll period and waves.

use super::declare_limits;

/// Assumed mass of a person.
pub const PERSON_KG: f64 = 83.9;
/// Assumed mass of a diver's gear.
pub const DIVER_GEAR_KG: f64 = 36.0;
/// Assumed height of the centre of gravity of persons above the deck.
pub const PERSON_CG_HEIGHT_M: f64 = 0.760;
/// Heel that people crowding to one side may give.
pub const CROWDING_HEEL_DEG: f64 = 7.0;
/// Heel that people crowding to one side may give with enough freeboard.
pub const CROWDING_HEEL_MOST_DEG: f64 = 10.0;
/// Mass of a person in the crowding test.
pub const CROWDING_PERSON_KG: f64 = 75.0;
/// Froude number above which linear motion estimates are not offered.
pub const ESTIMATE_FROUDE: f64 = 0.3;

declare_limits! {
    PERSON_MASS = {
        id: "person-mass",
        says: "A person is taken as 185 lb (83.9 kg) unless weighed.",
        figures: [("mass", PERSON_KG, "kg")],
        clause: "46 CFR 170.090(d)(1)",
        edition: "from 1 December 2011",
        status: Verified,
        address: "https://codes.findlaw.com/cfr/title-46-shipping/cfr-sect-46-170-090/",
    }
    DIVER_GEAR = {
        id: "diver-gear",
        says: "All diving gear counts in the stability proof, 36 kg (80 lb) for each diver; persons and loads act at least 760 mm (2.5 ft) above the deck.",
        figures: [
            ("gear per diver", DIVER_GEAR_KG, "kg"),
            ("height above the deck", PERSON_CG_HEIGHT_M, "m"),
        ],
        clause: "46 CFR 178.330",
        edition: "2004",
        status: Verified,
        address: "http://edocket.access.gpo.gov/cfr_2004/octqtr/46cfr178.330.htm",
    }
    CROWDING = {
        id: "crowding",
        says: "With everybody (75 kg each) at one side a small passenger boat heels at most 7 degrees, 10 with freeboard to spare.",
        figures: [
            ("heel", CROWDING_HEEL_DEG, "deg"),
            ("heel with freeboard to spare", CROWDING_HEEL_MOST_DEG, "deg"),
            ("mass of a person", CROWDING_PERSON_KG, "kg"),
        ],
        clause: "small commercial vessel code, 11.4.1",
        edition: "",
        status: Verified,
        address: "https://www.imorules.com/GUID-C3AA5890-34D9-43EB-A3EB-D1CEEBCAA021.html",
    }
    ROLL_PERIOD = {
        id: "roll-period",
        says: "Roll period T = 2 C B / sqrt(GM) with C = 0.373 + 0.023 B/d - 0.043 L/100, in metres and seconds, for single hulls of ordinary form.",
        figures: [
            ("constant", 0.373, ""),
            ("per B/d", 0.023, ""),
            ("per L/100", -0.043, "1/m"),
        ],
        clause: "46 CFR 28.575 (IMO 2008 IS Code, part A, 2.3, in its metric form from memory)",
        edition: "undated copy",
        status: Verified,
        address: "https://d1tvxue8o4w0fl.cloudfront.net/regulation/code-of-federal-regulations/title-46-shipping/chapter-i-coast-guard-department-of-homeland-security/subchapter-c-uninspected-vessels/part-28-requirements-for-commercial-fishing-industry-vessels/subpart-e-stability/section-28575-severe-wind-and-roll",
    }
    ROLLING_TEST = {
        id: "rolling-test",
        says: "A stopwatch gives GM = (f B / T)^2; f is 0.88 empty, 0.73 to 0.78 loaded, 0.80 for deep-sea fishing boats and 0.95 for twin-boom shrimpers, within 0.05.",
        figures: [
            ("f, empty", 0.88, ""),
            ("f, fishing boat", 0.80, ""),
            ("uncertainty of f", 0.05, ""),
        ],
        clause: "IMO A.749(18), Annex 3, 3.4",
        edition: "1993",
        status: Verified,
        address: "https://www.imorules.com/GUID-D8BFA384-F7DA-4052-8401-287626363F86.html",
    }
    COASTAL_WAVES = {
        id: "coastal-waves",
        says: "Near the coast waves of 1 m run at 15 to 18 knots, of 2 m at 17 to 23, of 3 m at 19 to 27; in deep water the period follows from the speed, 4.9 to 5.9 s for 1 m.",
        figures: [
            ("1 m, slowest", 15.0, "kn"),
            ("1 m, fastest", 18.0, "kn"),
            ("2 m, slowest", 17.0, "kn"),
            ("2 m, fastest", 23.0, "kn"),
            ("3 m, slowest", 19.0, "kn"),
            ("3 m, fastest", 27.0, "kn"),
        ],
        clause: "IMO guidance for high-speed craft, table 1",
        edition: "",
        status: Verified,
        address: "https://www.imorules.com/GUID-28C750C4-15C4-4587-BE70-6DBAB324CEBB.html",
    }
    ESTIMATE_SPEED = {
        id: "estimate-speed",
        says: "Above a Froude number of 0.3 a boat slams and planes; motion is then recorded, not estimated.",
        figures: [("Froude number", ESTIMATE_FROUDE, "")],
        clause: "common practice, no source",
        edition: "",
        status: CommonPractice,
        address: "",
    }
}
