use super::*;
use proptest::prelude::*;

fn aluminium_80() -> ShellMeasures {
    ShellMeasures {
        outside_diameter_m: 0.1842,
        length_m: 0.662,
        mass_kg: 14.35,
        material: ShellMaterial::Aluminium,
        base: BaseForm::Flat,
    }
}

#[test]
fn the_solid_cylinder_must_hold_gas_and_metal() {
    // The published length of 475 mm for a 63 cu ft aluminium cylinder cannot be.
    let impossible = ShellMeasures {
        outside_diameter_m: 0.1841,
        length_m: 0.475,
        mass_kg: 11.39,
        ..aluminium_80()
    };
    assert!(matches!(
        impossible.closure(8.72e-3),
        Err(ShellError::SolidTooSmall { .. })
    ));
    let doubtful = ShellMeasures {
        length_m: 0.60,
        ..impossible
    };
    assert!(doubtful.closure(8.72e-3).unwrap().is_doubtful());
    let right = ShellMeasures {
        length_m: 0.540,
        ..impossible
    };
    let closure = right.closure(8.72e-3).unwrap();
    assert!(!closure.is_doubtful());
    assert!(
        (closure.length_needed_m - 0.541).abs() < 0.001,
        "{closure:?}"
    );
}

#[test]
fn what_cannot_be_is_refused() {
    let light = ShellMeasures {
        mass_kg: 0.05,
        ..aluminium_80()
    };
    assert!(matches!(
        Shell::solve(&light),
        Err(ShellError::TooLight { .. })
    ));
    let heavy = ShellMeasures {
        mass_kg: 143.5,
        ..aluminium_80()
    };
    assert!(matches!(
        Shell::solve(&heavy),
        Err(ShellError::TooHeavy { .. })
    ));
    let short = ShellMeasures {
        length_m: 0.1,
        ..aluminium_80()
    };
    assert!(matches!(
        Shell::solve(&short),
        Err(ShellError::TooShort { .. })
    ));
    let nameless = ShellMeasures {
        mass_kg: f64::NAN,
        ..aluminium_80()
    };
    assert!(matches!(
        Shell::solve(&nameless),
        Err(ShellError::NotPositive {
            what: "empty mass",
            ..
        })
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A solved shell weighs what it was solved for, and its centre lies inside it.
    #[test]
    fn a_solved_shell_has_its_mass(
        diameter in 0.09_f64..0.25,
        slenderness in 2.0_f64..7.0,
        wall_share in 0.03_f64..0.2,
        steel: bool,
        round: bool,
    ) {
        let mut measures = ShellMeasures {
            outside_diameter_m: diameter,
            length_m: diameter * slenderness,
            mass_kg: 1.0,
            material: if steel { ShellMaterial::Steel } else { ShellMaterial::Aluminium },
            base: if round { BaseForm::Round } else { BaseForm::Flat },
        };
        let wall = wall_share * diameter / 2.0;
        let ends = Ends::default();
        measures.mass_kg = metal(&measures, wall, ends).volume * measures.material.density_kg_m3();
        let volume = outer(&measures).volume - hollow_m3(&measures, wall, ends);
        prop_assert!((volume / metal(&measures, wall, ends).volume - 1.0).abs() < 1e-9);
        let shell = Shell::solve(&measures).unwrap();
        prop_assert!((shell.wall_m - wall).abs() < 1e-9);
        prop_assert!(shell.centre_m > 0.3 * measures.length_m);
        prop_assert!(shell.centre_m < 0.6 * measures.length_m);
        prop_assert!(shell.inertia_tip_kg_m2 > 0.0);
        let (low, high) = Shell::centre_range_m(&measures).unwrap();
        prop_assert!(low < shell.centre_m && shell.centre_m < high);
    }
}
