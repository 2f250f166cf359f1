use super::*;
use crate::mechanics::shell::{BaseForm, Shell, ShellMaterial, ShellMeasures};
use proptest::prelude::*;
use std::f64::consts::{FRAC_PI_2, PI};

fn cylinder(base: BaseForm) -> Cylinder {
    let measures = ShellMeasures {
        outside_diameter_m: 0.203,
        length_m: 0.620,
        mass_kg: 16.9,
        material: ShellMaterial::Steel,
        base,
    };
    Cylinder {
        shell: Shell::solve(&measures).unwrap(),
        gas_kg: 4.05,
        valve: Some(Valve {
            mass_kg: 0.75,
            centre_above_neck_m: 0.03,
            top_above_neck_m: 0.065,
        }),
        boot: None,
        net_kg: 0.0,
        handle_kg: 0.0,
        stand_radius_m: None,
    }
}

fn boot() -> Boot {
    Boot {
        mass_kg: 0.6,
        outside_diameter_m: 0.217,
        height_m: 0.110,
        lift_m: 0.010,
    }
}

const KIT: Kit = Kit {
    jacket_kg: 4.0,
    ballast_kg: 0.0,
    first_stage_kg: 0.8,
    hoses_kg: 1.4,
};

#[test]
fn a_bare_round_base_cannot_stand() {
    let bare = single(&cylinder(BaseForm::Round), None, None);
    assert_eq!(bare.base, Base::Disc { radius_m: 0.0 });
    assert!(bare.height_to_base().is_infinite());
}

#[test]
fn a_boot_lifts_widens_and_takes_strap_room() {
    let bare = single(&cylinder(BaseForm::Round), None, None);
    let booted = Cylinder {
        boot: Some(boot()),
        ..cylinder(BaseForm::Round)
    };
    let booted = single(&booted, None, None);
    assert_eq!(booted.base, Base::Disc { radius_m: 0.1015 });
    assert!((booted.height_overall_m - bare.height_overall_m - 0.010).abs() < 1e-12);
    // 10 mm higher, less what half a kilogram at the very bottom pulls it down.
    let rise = booted.cg_height_m - bare.cg_height_m;
    assert!(rise > 0.0 && rise < 0.010, "{rise}");
    assert!((booted.strap_from_m - 0.1115).abs() < 1e-9);
    assert!((booted.strap_to_m - (0.010 + 0.620 - 0.028 - 0.1015)).abs() < 1e-9);
}

#[test]
fn a_side_cylinder_pulls_the_centre_to_its_side() {
    let small = ShellMeasures {
        outside_diameter_m: 0.100,
        length_m: 0.495,
        mass_kg: 4.0,
        material: ShellMaterial::Steel,
        base: BaseForm::Round,
    };
    let side = SideCylinder {
        cylinder: Cylinder {
            shell: Shell::solve(&small).unwrap(),
            gas_kg: 0.8,
            ..cylinder(BaseForm::Flat)
        },
        bearing_rad: FRAC_PI_2,
        gap_m: 0.01,
        bottom_m: 0.1,
        bracket_kg: 0.5,
    };
    let both = single(&cylinder(BaseForm::Flat), None, Some(&side));
    let plain = single(&cylinder(BaseForm::Flat), None, None);
    let added = 4.0 + 0.8 + 0.75 + 0.5;
    assert!((both.mass_kg - plain.mass_kg - added).abs() < 1e-9);
    let arm = 0.1015 + 0.01 + 0.05;
    let expected = (5.55 * arm + 0.5 * (0.1015 + 0.005)) / both.mass_kg;
    assert!((both.cg_left_m - expected).abs() < 1e-9);
    assert!(both.cg_offset_m.abs() < 1e-12);
    assert_eq!(both.columns.len(), 2);
    assert!(both.kappa2_m2(FRAC_PI_2) > both.kappa2_m2(0.0));
}

#[test]
fn a_cylinder_known_by_its_mass_alone_is_scaled() {
    let whole = single(&cylinder(BaseForm::Flat), None, None);
    let scaled = single(&cylinder(BaseForm::Flat).scaled_to(7.0), None, None);
    assert!((scaled.mass_kg - 7.0).abs() < 1e-9);
    assert!((scaled.cg_height_m - whole.cg_height_m).abs() < 1e-12);
    assert!((scaled.kappa2_m2(0.3) - whole.kappa2_m2(0.3)).abs() < 1e-12);
}

#[test]
fn a_measured_centre_is_kept() {
    let measured = cylinder(BaseForm::Flat).with_measured_centre(0.300);
    let full = single(&measured, None, None);
    assert!((full.cg_height_m - 0.300).abs() < 1e-12);
    // With less gas the centre moves, as it would on board.
    let part_used = Cylinder {
        gas_kg: 1.0,
        ..measured
    };
    assert!((single(&part_used, None, None).cg_height_m - 0.300).abs() > 1e-4);
}

#[test]
fn a_stand_replaces_the_foot() {
    let stood = Cylinder {
        stand_radius_m: Some(0.2),
        ..cylinder(BaseForm::Round)
    };
    assert_eq!(
        single(&stood, None, None).base,
        Base::Disc { radius_m: 0.2 }
    );
}

#[test]
fn a_given_body_keeps_its_measures() {
    let given = GivenMeasures {
        mass_kg: 34.0,
        cg_height_m: 0.33,
        cg_forward_m: 0.02,
        height_m: 0.72,
        depth_m: 0.28,
        width_m: 0.40,
        foot_depth_m: 0.24,
        foot_width_m: 0.36,
    };
    let body = from_measures(&given);
    assert!((body.height_to_base() - 3.0).abs() < 1e-12);
    assert!(
        (body.kappa2_m2(0.0) - (0.28_f64.whole_power(2) + 0.72_f64.whole_power(2)) / 12.0).abs()
            < 1e-12
    );
    assert!((body.cg_offset_m - 0.02).abs() < 1e-12);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Mass properties add up: the same pieces summed as points far enough apart must agree.
    #[test]
    fn tipping_inertia_is_between_its_two_main_values_without_side_cylinder(
        direction in 0.0..(2.0 * PI),
        ballast in 0.0_f64..8.0,
    ) {
        let kit = Kit { ballast_kg: ballast, ..KIT };
        let body = single(&cylinder(BaseForm::Flat), Some(&kit), None);
        let (a, b) = (body.kappa2_m2(0.0), body.kappa2_m2(FRAC_PI_2));
        let k = body.kappa2_m2(direction);
        prop_assert!(k >= a.min(b) - 1e-12 && k <= a.max(b) + 1e-12);
        prop_assert!((body.kappa2_m2(direction + PI) - k).abs() < 1e-9);
        prop_assert!(body.cg_offset_m > 0.0 && body.cg_left_m.abs() < 1e-12);
    }

    /// A side cylinder at any bearing gives the same body, turned.
    #[test]
    fn turning_the_side_cylinder_turns_the_body(bearing in -PI..PI) {
        let side = |bearing_rad| SideCylinder {
            cylinder: cylinder(BaseForm::Round),
            bearing_rad,
            gap_m: 0.0,
            bottom_m: 0.05,
            bracket_kg: 0.4,
        };
        let ahead = single(&cylinder(BaseForm::Flat), None, Some(&side(0.0)));
        let turned = single(&cylinder(BaseForm::Flat), None, Some(&side(bearing)));
        let offset = turned.cg_offset_m.hypotenuse(turned.cg_left_m);
        prop_assert!((offset - ahead.cg_offset_m).abs() < 1e-9);
        prop_assert!((turned.kappa2_m2(bearing) - ahead.kappa2_m2(0.0)).abs() < 1e-9);
        prop_assert!((turned.inertia_spin_kg_m2 - ahead.inertia_spin_kg_m2).abs() < 1e-9);
    }
}
