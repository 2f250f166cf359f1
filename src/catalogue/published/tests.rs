use super::*;

use std::collections::BTreeSet;

#[test]
fn ids_are_unique_and_plain() {
    let mut seen = BTreeSet::new();
    for limit in limits() {
        assert!(seen.insert(limit.id), "{} stands twice", limit.id);
        assert!(
            limit
                .id
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
            "{}",
            limit.id
        );
        assert_eq!(super::limit(limit.id), Some(limit));
    }
    assert!(seen.len() >= 50, "{}", seen.len());
    assert_eq!(super::limit("no-such-limit"), None);
}

#[test]
fn every_limit_says_where_it_is_from() {
    for limit in limits() {
        assert!(
            limit.says.ends_with('.') && limit.says.len() > 20,
            "{}",
            limit.id
        );
        assert!(!limit.clause.is_empty(), "{}", limit.id);
        let was_read = matches!(limit.status, Status::Verified | Status::VerifiedSecondary);
        assert_eq!(was_read, limit.address.starts_with("http"), "{}", limit.id);
        for figure in limit.figures {
            assert!(figure.value.is_finite(), "{}: {}", limit.id, figure.what);
        }
    }
}

/// The rules print two units; the table must agree with both. Inches and feet are exact (1959),
/// the rules round to 5 or 10 mm, the pound figures to a kilogram.
#[test]
fn metric_figures_agree_with_the_printed_us_ones() {
    const INCH_M: f64 = 0.0254;
    const FOOT_M: f64 = 0.3048;
    const POUND_KG: f64 = 0.45359237;
    for (metric, us, rounding) in [
        (AISLE_SHORT_LENGTH_M, 15.0 * FOOT_M, 0.0005),
        (AISLE_SHORT_WIDTH_M, 24.0 * INCH_M, 0.005),
        (AISLE_LONG_WIDTH_M, 30.0 * INCH_M, 0.005),
        (HEADROOM_M, 74.0 * INCH_M, 0.005),
        (DOOR_WIDTH_M, 32.0 * INCH_M, 0.005),
        (CREW_DOOR_WIDTH_M, 28.0 * INCH_M, 0.005),
        (ACCESSIBLE_WIDTH_M, 36.0 * INCH_M, 0.005),
        (RAIL_HEIGHT_M, 36.0 * INCH_M, 0.005),
        (RAIL_HEIGHT_FERRY_M, 39.5 * INCH_M, 0.005),
        (LEVEL_CHANGE_IGNORED_M, 0.25 * INCH_M, 0.0001),
        (LEVEL_CHANGE_BEVELLED_M, 0.5 * INCH_M, 0.0005),
        (CRIB_OFF_DECK_M, 3.9 * INCH_M, 0.001),
        (OXYGEN_DISTANCE_M, 20.0 * FOOT_M, 0.005),
        (PERSON_CG_HEIGHT_M, 2.5 * FOOT_M, 0.005),
        (RAIL_POINT_LOAD_KG, 200.0 * POUND_KG, 0.5),
        (PERSON_KG, 185.0 * POUND_KG, 0.05),
        (DIVER_GEAR_KG, 80.0 * POUND_KG, 0.5),
        (LIFT_CONSTANT_KG, 51.0 * POUND_KG, 0.5),
        (FLOOR_PER_PERSON_M2, 10.0 * FOOT_M * FOOT_M, 0.05),
    ] {
        assert!((metric - us).abs() <= rounding, "{metric} against {us}");
    }
}

/// 46 CFR 177.820(d): 4.572 m needs 610 mm, a millimetre more needs 760 mm.
#[test]
fn an_aisle_needs_more_width_past_fifteen_feet() {
    assert_eq!(aisle_width_m(4.572), (0.610, &AISLE_SHORT));
    assert_eq!(aisle_width_m(4.573), (0.760, &AISLE_LONG));
}

/// ADA 303: 6.4 mm is let be, 6.5 to 13 mm needs a bevel, above 13 mm is a trip.
#[test]
fn a_step_is_let_be_bevelled_or_a_trip() {
    assert_eq!(level_change(0.0064), LevelChange::Ignored);
    assert_eq!(level_change(0.0065), LevelChange::NeedsBevel);
    assert_eq!(level_change(0.013), LevelChange::NeedsBevel);
    assert_eq!(level_change(0.0131), LevelChange::Trip);
}

/// CSS Code Annex 13 example 1: wire of 125 kN for single use with shackles of 180 kN carries 90 kN,
/// counted with 60 kN; example 2 lists 108 kN counted with 80 kN.
#[test]
fn the_worked_examples_of_annex_13() {
    let msl = (125.0 * MSL_WIRE_SINGLE_USE).min(180.0 * MSL_FITTINGS);
    assert!((msl - 90.0_f64).abs() < 1e-9);
    assert!((msl / CS_DIVISOR - 60.0).abs() < 1e-9);
    assert!((108.0_f64 / CS_DIVISOR_ALTERNATIVE - 80.0).abs() < 1e-9);
}

/// The shares that the material data carry are those of the table.
#[test]
fn materials_carry_the_shares_of_the_table() {
    use crate::catalogue::Catalogue;
    use crate::catalogue::materials::MaterialForm;
    for material in Catalogue::built_in().materials() {
        let expected = match material.form {
            MaterialForm::Strap => Some(MSL_WEBBING),
            MaterialForm::Rope | MaterialForm::Net => Some(MSL_FIBRE_ROPE),
            MaterialForm::Chain => Some(MSL_CHAIN),
            MaterialForm::WireRope => Some(MSL_WIRE_REUSED),
            MaterialForm::ShockCord => None,
        };
        assert_eq!(
            material.msl_share.map(|share| share.value),
            expected,
            "{}",
            material.id
        );
    }
}

#[test]
fn a_citation_names_clause_edition_and_status() {
    assert_eq!(
        AISLE_LONG.citation(),
        "46 CFR 177.820(d), undated copy (verified)"
    );
    assert_eq!(BACKING.citation(), "common practice, no source");
    assert_eq!(DOOR_WIDTH.citation(), "46 CFR 177.500 (from memory)");
}
