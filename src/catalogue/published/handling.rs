//! Lifting by hand.

use super::declare_limits;

/// Guideline weight for men, close to the body at waist height.
pub const LIFT_MEN_KG: f64 = 25.0;
/// Guideline weight for women, close to the body at waist height.
pub const LIFT_WOMEN_KG: f64 = 16.0;
/// Load constant of the lifting equation.
pub const LIFT_CONSTANT_KG: f64 = 23.0;

declare_limits! {
    LIFT_GUIDELINE = {
        id: "lift-guideline",
        says: "Close to the body at waist height 25 kg for men and 16 kg for women are guideline weights: a filter for a closer look, not a limit.",
        figures: [
            ("men", LIFT_MEN_KG, "kg"),
            ("women", LIFT_WOMEN_KG, "kg"),
        ],
        clause: "HSE INDG143",
        edition: "rev. 4, 2020",
        status: VerifiedSecondary,
        address: "https://www.pennyhydraulics.com/help-guides/health-and-safety-guidelines/",
    }
    LIFT_EQUATION = {
        id: "lift-equation",
        says: "The recommended weight starts at 23 kg (51 lb) and shrinks with reach, height, distance, twisting and frequency.",
        figures: [("load constant", LIFT_CONSTANT_KG, "kg")],
        clause: "NIOSH lifting equation, DHHS (NIOSH) 94-110",
        edition: "1994",
        status: Verified,
        address: "http://what-when-how.com/Tutorial/topic-53604/Fundamentals-and-Assessment-Tools-for-Occupational-Ergonomics-892.html",
    }
}
