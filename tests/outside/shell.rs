//! The shell model against integration in slices and against worked numbers.

use std::f64::consts::PI;

use snugdown::mechanics::shell::{BaseForm, Shell, ShellMaterial, ShellMeasures};

/// Fine enough that the step at the inner floor, which falls inside a slice, costs less than 0.1 mm.
const SLICES: usize = 40_000;

fn measures(
    diameter_mm: f64,
    length_mm: f64,
    mass_kg: f64,
    material: ShellMaterial,
    base: BaseForm,
) -> ShellMeasures {
    ShellMeasures {
        outside_diameter_m: diameter_mm / 1000.0,
        length_m: length_mm / 1000.0,
        mass_kg,
        material,
        base,
    }
}

fn aluminium_80() -> ShellMeasures {
    measures(
        184.2,
        662.0,
        14.35,
        ShellMaterial::Aluminium,
        BaseForm::Flat,
    )
}

fn steel_12_short() -> ShellMeasures {
    measures(203.0, 520.0, 14.0, ShellMaterial::Steel, BaseForm::Round)
}

fn steel_bank() -> ShellMeasures {
    measures(229.0, 1505.0, 60.0, ShellMaterial::Steel, BaseForm::Flat)
}

/// Outer and inner radius at a height: the drawing, not the closed forms.
fn radii_m(shell: &Shell, z: f64) -> (f64, f64) {
    let m = &shell.measures;
    let (neck_radius, neck_height) = match m.material {
        ShellMaterial::Steel => (0.025, 0.028),
        ShellMaterial::Aluminium => (0.0325, 0.028),
    };
    let sphere = |r: f64, from_face: f64| (r * r - from_face * from_face).max(0.0).sqrt();
    let round = m.base == BaseForm::Round;

    let r = m.outside_diameter_m / 2.0;
    let shoulder = m.length_m - neck_height - r;
    let outer = if z > m.length_m - neck_height {
        neck_radius
    } else if z > shoulder {
        sphere(r, z - shoulder)
    } else if round && z < r {
        sphere(r, r - z)
    } else {
        r
    };

    let end = 1.5 * shell.wall_m;
    let r = r - shell.wall_m;
    let top = m.length_m - neck_height - end;
    let inner = if z > top {
        0.0125
    } else if z > top - r {
        sphere(r, z - (top - r))
    } else if z < end {
        0.0
    } else if round && z < end + r {
        sphere(r, end + r - z)
    } else {
        r
    };
    (outer, inner)
}

/// Bounds: 0.08 % of mass, 0.6 mm, 0.2 % of inertia. What remains is the sliver between shoulder
/// sphere and neck, which the closed form counts twice.
#[test]
fn closed_forms_agree_with_integration_in_slices() {
    for measures in [aluminium_80(), steel_12_short(), steel_bank()] {
        let shell = Shell::solve(&measures).unwrap();
        let dz = measures.length_m / SLICES as f64;
        let (mut mass, mut first, mut tip, mut spin) = (0.0, 0.0, 0.0, 0.0);
        for slice in 0..SLICES {
            let z = (slice as f64 + 0.5) * dz;
            let (outer, inner) = radii_m(&shell, z);
            let density = measures.material.density_kg_m3();
            let slice_kg = PI * (outer.powi(2) - inner.powi(2)) * dz * density;
            let quartic = PI * (outer.powi(4) - inner.powi(4)) * dz * density;
            mass += slice_kg;
            first += slice_kg * z;
            tip += quartic / 4.0 + slice_kg * z * z;
            spin += quartic / 2.0;
        }
        let centre = first / mass;
        let tip = tip - mass * centre * centre;
        assert!(
            (mass / measures.mass_kg - 1.0).abs() < 0.0008,
            "mass {mass}"
        );
        assert!((centre - shell.centre_m).abs() < 0.0006, "centre {centre}");
        assert!(
            (tip / shell.inertia_tip_kg_m2 - 1.0).abs() < 0.002,
            "tip {tip}"
        );
        assert!(
            (spin / shell.inertia_spin_kg_m2 - 1.0).abs() < 0.002,
            "spin {spin}"
        );
    }
}

/// Worked numbers of an independent program (Python) for three shells, each to its last digit.
#[test]
fn three_worked_shells() {
    struct Worked {
        measures: ShellMeasures,
        wall_mm: f64,
        centre_mm: f64,
        tip: f64,
        spin: f64,
        gas_centre_mm: f64,
        inner_l: f64,
    }
    let worked = [
        Worked {
            measures: aluminium_80(),
            wall_mm: 14.04,
            centre_mm: 302.0,
            tip: 0.6106,
            spin: 0.0930,
            gas_centre_mm: 304.3,
            inner_l: 10.83,
        },
        Worked {
            measures: steel_12_short(),
            wall_mm: 5.27,
            centre_mm: 251.5,
            tip: 0.3747,
            spin: 0.1115,
            gas_centre_mm: 246.0,
            inner_l: 11.99,
        },
        Worked {
            measures: steel_bank(),
            wall_mm: 6.91,
            centre_mm: 715.7,
            tip: 12.6369,
            spin: 0.6941,
            gas_centre_mm: 720.8,
            inner_l: 51.65,
        },
    ];
    for w in worked {
        let shell = Shell::solve(&w.measures).unwrap();
        let pairs = [
            ("wall mm", shell.wall_m * 1000.0, w.wall_mm, 0.005),
            ("centre mm", shell.centre_m * 1000.0, w.centre_mm, 0.05),
            ("tip kg m2", shell.inertia_tip_kg_m2, w.tip, 0.00005),
            ("spin kg m2", shell.inertia_spin_kg_m2, w.spin, 0.00005),
            ("gas mm", shell.gas_centre_m * 1000.0, w.gas_centre_mm, 0.05),
            ("inner L", shell.inner_m3 * 1000.0, w.inner_l, 0.005),
        ];
        for (what, ours, expected, half_last_digit) in pairs {
            assert!(
                (ours - expected).abs() <= half_last_digit * 1.01,
                "{what}: {ours} against {expected}"
            );
        }
    }
}
