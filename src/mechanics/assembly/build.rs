//! Putting the parts together.

use super::moments::Sum;
use super::parts::{Cylinder, FLAT_CORNER_M, GivenMeasures, Kit, SideCylinder, TwinParts};
use super::{Assembled, Base, Column};
use crate::geometry::Elementary as _;

/// Where kit sits on a cylinder of length L and radius R (common practice, from memory).
mod kit_place {
    /// Jacket or wing: height as a share of L.
    pub(super) const JACKET_SHARE: f64 = 0.62;
    /// Jacket or wing: in front of the shell's surface.
    pub(super) const JACKET_FORWARD_M: f64 = 0.060;
    /// Jacket as a box for its own inertia: depth, width, height (assumed).
    pub(super) const JACKET_BOX_M: [f64; 3] = [0.12, 0.35, 0.50];
    /// Ballast pockets: height as a share of L.
    pub(super) const BALLAST_SHARE: f64 = 0.35;
    /// Ballast pockets: in front of the surface.
    pub(super) const BALLAST_FORWARD_M: f64 = 0.120;
    /// First stage: above the neck, on the axis.
    pub(super) const FIRST_STAGE_ABOVE_NECK_M: f64 = 0.055;
    /// Hoses, second stages and gauge: height as a share of L.
    pub(super) const HOSES_SHARE: f64 = 0.65;
    /// Hoses, second stages and gauge: beside the surface, half on each side.
    pub(super) const HOSES_BESIDE_M: f64 = 0.040;
    /// How far the whole kit reaches in front of the surface.
    pub(super) const REACH_M: f64 = 0.180;
}

/// Where the two bands of a twin sit, as shares of the length (fits the reference table of twins).
const BAND_SHARES: [f64; 2] = [0.22, 0.72];

fn add_kit_to(sum: &mut Sum, kit: &Kit, cylinder: &Cylinder) {
    use kit_place as place;
    let (length, r) = (cylinder.shell.measures.length_m, cylinder.radius_m());
    let at_share = |share: f64| cylinder.lift_m() + share * length;
    let jacket_own = place::JACKET_BOX_M.map(|side| kit.jacket_kg * side * side / 12.0);
    sum.add(
        kit.jacket_kg,
        [
            r + place::JACKET_FORWARD_M,
            0.0,
            at_share(place::JACKET_SHARE),
        ],
        jacket_own,
    );
    sum.add_point(
        kit.ballast_kg,
        [
            r + place::BALLAST_FORWARD_M,
            0.0,
            at_share(place::BALLAST_SHARE),
        ],
    );
    let first_stage = cylinder.neck_m() + place::FIRST_STAGE_ABOVE_NECK_M;
    sum.add_point(kit.first_stage_kg, [0.0, 0.0, first_stage]);
    for side in [-1.0, 1.0] {
        sum.add_point(
            kit.hoses_kg / 2.0,
            [
                0.0,
                side * (r + place::HOSES_BESIDE_M),
                at_share(place::HOSES_SHARE),
            ],
        );
    }
}

/// A single cylinder, with kit and a side cylinder if given.
pub fn single(
    cylinder: &Cylinder,
    kit: Option<&Kit>,
    side_cylinder: Option<&SideCylinder>,
) -> Assembled {
    let mut sum = Sum::default();
    let lift = cylinder.lift_m();
    cylinder.add_to(&mut sum, [0.0, 0.0, lift]);
    cylinder.add_boot_to(&mut sum, 0.0, 0.0);
    let mut columns = vec![cylinder.column(0.0, 0.0, lift)];
    if let Some(side) = side_cylinder {
        let distance = cylinder.radius_m() + side.gap_m + side.cylinder.radius_m();
        let (sin, cos) = side.bearing_rad.sine_cosine();
        let (x, y) = (distance * cos, distance * sin);
        let bottom = lift + side.bottom_m;
        side.cylinder.add_to(&mut sum, [x, y, bottom]);
        let half = side.cylinder.shell.measures.length_m / 2.0;
        // The bracket sits between the two shells, at the middle of the small one.
        let share = (cylinder.radius_m() + side.gap_m / 2.0) / distance;
        sum.add_point(side.bracket_kg, [x * share, y * share, bottom + half]);
        columns.push(side.cylinder.column(x, y, bottom));
    }
    let base = Base::Disc {
        radius_m: cylinder.foot_radius_m(),
    };
    finish(sum, cylinder, kit, base, columns)
}

/// A twin: two equal cylinders side by side along `y`, joined by manifold and bands.
///
/// A valve of the single cylinder is left out: the twin's own stand in `parts`.
pub fn twin(cylinder: &Cylinder, parts: &TwinParts, kit: Option<&Kit>) -> Assembled {
    let one = Cylinder {
        valve: Some(parts.valve),
        ..*cylinder
    };
    let mut sum = Sum::default();
    let lift = one.lift_m();
    let mut columns = Vec::new();
    for y in [-parts.spacing_m / 2.0, parts.spacing_m / 2.0] {
        one.add_to(&mut sum, [0.0, y, lift]);
        one.add_boot_to(&mut sum, 0.0, y);
        columns.push(one.column(0.0, y, lift));
    }
    let along = parts.manifold_kg * parts.spacing_m * parts.spacing_m / 12.0;
    sum.add(
        parts.manifold_kg,
        [0.0, 0.0, one.neck_m() + parts.valve.centre_above_neck_m],
        [0.0, along, 0.0],
    );
    for share in BAND_SHARES {
        let z = lift + share * one.shell.measures.length_m;
        sum.add_point(parts.bands_kg / 2.0, [0.0, 0.0, z]);
    }
    let base = if one.foot_radius_m() > 0.0 {
        Base::Twin {
            foot_radius_m: one.foot_radius_m(),
            spacing_m: parts.spacing_m,
        }
    } else {
        // Two bare round bottoms touch the deck at two points: no width across the pair.
        Base::Rectangle {
            depth_m: 0.0,
            width_m: parts.spacing_m,
        }
    };
    finish(sum, &one, kit, base, columns)
}

fn finish(
    mut sum: Sum,
    cylinder: &Cylinder,
    kit: Option<&Kit>,
    base: Base,
    columns: Vec<Column>,
) -> Assembled {
    if let Some(kit) = kit {
        add_kit_to(&mut sum, kit, cylinder);
    }
    let first_stage_top = if kit.is_some_and(|kit| kit.first_stage_kg > 0.0) {
        cylinder.neck_m() + 2.0 * kit_place::FIRST_STAGE_ABOVE_NECK_M
    } else {
        0.0
    };
    let top = columns
        .iter()
        .map(|column| column.to_m)
        .fold(first_stage_top, f64::max);
    let (strap_from_m, strap_to_m) = cylinder.strap_zone_m();
    let [x, y, z] = sum.centre();
    let about = |axis: usize, at: f64| sum.second[axis] - sum.mass * at * at;
    let (xx, yy, zz) = (about(0, x), about(1, y), about(2, z));
    Assembled {
        mass_kg: sum.mass,
        cg_height_m: z,
        cg_offset_m: x,
        cg_left_m: y,
        inertia_fore_aft_kg_m2: xx + zz,
        inertia_sideways_kg_m2: yy + zz,
        inertia_product_kg_m2: sum.xy - sum.mass * x * y,
        inertia_spin_kg_m2: xx + yy,
        base,
        height_overall_m: top,
        body_radius_m: cylinder.radius_m(),
        strap_from_m,
        strap_to_m,
        neck_m: cylinder.neck_m(),
        columns,
        kit_reach_m: kit.map_or(0.0, |_| cylinder.radius_m() + kit_place::REACH_M),
    }
}

/// A body known by its outside measures only; its inertia is that of a uniform box.
///
/// A strap may sit anywhere on the lower nine tenths of it (assumed).
pub fn from_measures(given: &GivenMeasures) -> Assembled {
    let square = |side: f64| given.mass_kg * side * side / 12.0;
    let (xx, yy, zz) = (
        square(given.depth_m),
        square(given.width_m),
        square(given.height_m),
    );
    Assembled {
        mass_kg: given.mass_kg,
        cg_height_m: given.cg_height_m,
        cg_offset_m: given.cg_forward_m,
        cg_left_m: 0.0,
        inertia_fore_aft_kg_m2: xx + zz,
        inertia_sideways_kg_m2: yy + zz,
        inertia_product_kg_m2: 0.0,
        inertia_spin_kg_m2: xx + yy,
        base: Base::Rectangle {
            depth_m: given.foot_depth_m,
            width_m: given.foot_width_m,
        },
        height_overall_m: given.height_m,
        body_radius_m: given.depth_m.min(given.width_m) / 2.0,
        strap_from_m: FLAT_CORNER_M,
        strap_to_m: 0.9 * given.height_m,
        neck_m: given.height_m,
        columns: Vec::new(),
        kit_reach_m: 0.0,
    }
}
