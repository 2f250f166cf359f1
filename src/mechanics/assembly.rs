//! What stands on deck as one rigid body: shell, gas, valve, boot, net, kit, twin or side cylinder.
//!
//! The **item frame** has its origin on the deck (or shelf) below the cylinder's axis, or midway
//! between the axes of a twin: `x` towards the side that the kit faces (across the pair of a twin),
//! `y` to the left of it (along the pair), `z` up. Directions run from `+x` towards `+y`.
//!
//! What it is not: it knows no catalogue (see `catalogue::cylinder`) and no motion.
//!
//! # References
//!
//! Adding masses and the parallel-axis theorem are textbook. Where the kit sits on the cylinder, and
//! its masses, are from memory (common practice, no source); so is every foot radius.

use super::shell::{BaseForm, Shell};

/// A bare flat base stands on a ring of this share of the radius (from memory: 10 to 15 mm less).
pub const BARE_FOOT_SHARE: f64 = 0.9;
/// The rounded corner above a flat base, on which no strap holds (assumed).
const FLAT_CORNER_M: f64 = 0.02;
/// Centre of a boot, as a share of its height (assumed: floor and wall of equal thickness).
const BOOT_CENTRE_SHARE: f64 = 0.4;

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

/// A valve on a neck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Valve {
    /// Mass.
    pub mass_kg: f64,
    /// Its centre above the top of the neck.
    pub centre_above_neck_m: f64,
    /// Its top above the top of the neck.
    pub top_above_neck_m: f64,
}

/// A boot: cup of rubber or plastic in which a cylinder stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boot {
    /// Mass.
    pub mass_kg: f64,
    /// Outside diameter.
    pub outside_diameter_m: f64,
    /// Height above the deck; no strap holds below it.
    pub height_m: f64,
    /// How much higher the shell's lowest point stands.
    pub lift_m: f64,
}

/// Buoyancy jacket and regulator on the cylinder.
#[expect(clippy::struct_field_names, reason = "the unit belongs in the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kit {
    /// Jacket or plate and wing.
    pub jacket_kg: f64,
    /// Ballast in its pockets.
    pub ballast_kg: f64,
    /// First stage of the regulator.
    pub first_stage_kg: f64,
    /// Hoses, second stages and gauge.
    pub hoses_kg: f64,
}

/// One cylinder with what belongs to it alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cylinder {
    /// The bare shell.
    pub shell: Shell,
    /// Mass of the gas in it.
    pub gas_kg: f64,
    /// The valve; a twin has its valves in the manifold.
    pub valve: Option<Valve>,
    /// The boot.
    pub boot: Option<Boot>,
    /// Mass of a net over the shell.
    pub net_kg: f64,
    /// Mass of a carrying handle at the neck.
    pub handle_kg: f64,
}

/// What makes a twin of two equal cylinders.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwinParts {
    /// Distance between the two axes.
    pub spacing_m: f64,
    /// One of the two valves; `manifold_kg` is the rest.
    pub valve: Valve,
    /// Manifold without the valves.
    pub manifold_kg: f64,
    /// Both bands with their bolts.
    pub bands_kg: f64,
}

/// A small cylinder strapped to the side of a large one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideCylinder {
    /// The small cylinder; a boot on it is ignored, it does not reach the deck.
    pub cylinder: Cylinder,
    /// Direction in which it sits, radians from the front.
    pub bearing_rad: f64,
    /// Gap between the two shells.
    pub gap_m: f64,
    /// Its lowest point above the large shell's lowest point.
    pub bottom_m: f64,
    /// Bracket or bands.
    pub bracket_kg: f64,
}

/// A thing known only by its outside measures, as a rebreather on its stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenMeasures {
    /// Mass.
    pub mass_kg: f64,
    /// Height of the centre of gravity above the deck.
    pub cg_height_m: f64,
    /// How far the centre of gravity lies in front of the middle of the stand.
    pub cg_forward_m: f64,
    /// Height over all.
    pub height_m: f64,
    /// Depth of the body, front to back.
    pub depth_m: f64,
    /// Width of the body.
    pub width_m: f64,
    /// Depth of what it stands on.
    pub foot_depth_m: f64,
    /// Width of what it stands on.
    pub foot_width_m: f64,
}

/// What a body stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Base {
    /// A round foot centred on the axis; radius 0: it cannot stand.
    Disc {
        /// Radius of the ring it stands on.
        radius_m: f64,
    },
    /// Two equal round feet at `y` = ± half the spacing.
    Twin {
        /// Radius of each foot.
        foot_radius_m: f64,
        /// Distance between their centres.
        spacing_m: f64,
    },
    /// A rectangle centred on the origin.
    Rectangle {
        /// Extent along `x`.
        depth_m: f64,
        /// Extent along `y`.
        width_m: f64,
    },
}

impl Base {
    /// Smallest extent of the base through its middle: the D of the height-to-base ratio.
    pub fn least_diameter_m(&self) -> f64 {
        match *self {
            Self::Disc { radius_m } => 2.0 * radius_m,
            Self::Twin { foot_radius_m, .. } => 2.0 * foot_radius_m,
            Self::Rectangle { depth_m, width_m } => depth_m.min(width_m),
        }
    }
}

/// A round body of the assembly as seen from above.
#[expect(clippy::struct_field_names, reason = "the unit belongs in the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Centre, towards the front.
    pub x_m: f64,
    /// Centre, to the left.
    pub y_m: f64,
    /// Radius of the shell.
    pub radius_m: f64,
    /// Lowest point above the deck.
    pub from_m: f64,
    /// Top of the valve above the deck.
    pub to_m: f64,
}

/// One rigid body on deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Assembled {
    /// Mass of everything.
    pub mass_kg: f64,
    /// Height of the centre of gravity above what it stands on.
    pub cg_height_m: f64,
    /// How far the centre of gravity lies in front of the middle of the base (towards the kit).
    pub cg_offset_m: f64,
    /// How far the centre of gravity lies to the left of the middle of the base.
    pub cg_left_m: f64,
    /// Inertia about the horizontal axis along `y` through the centre of gravity: tipping forward.
    pub inertia_fore_aft_kg_m2: f64,
    /// Inertia about the horizontal axis along `x` through the centre of gravity: tipping sideways.
    pub inertia_sideways_kg_m2: f64,
    /// Product Σ m x y about the centre of gravity; not zero when something sits askew.
    pub inertia_product_kg_m2: f64,
    /// Inertia about the upright axis through the centre of gravity.
    pub inertia_spin_kg_m2: f64,
    /// What it stands on.
    pub base: Base,
    /// Height over all, with valve or first stage.
    pub height_overall_m: f64,
    /// Radius of the body that a rack or a strap holds; half the lesser side of a given body.
    pub body_radius_m: f64,
    /// Lowest height at which a strap may sit: above boot and bottom.
    pub strap_from_m: f64,
    /// Greatest height at which a strap may sit: below the shoulder.
    pub strap_to_m: f64,
    /// Height of the top of the neck, where the valve begins.
    pub neck_m: f64,
    /// Round bodies seen from above, the main one or the pair first.
    pub columns: Vec<Column>,
    /// How far the kit reaches in front of the origin; 0 without kit.
    pub kit_reach_m: f64,
}

impl Assembled {
    /// Inertia for tipping towards a direction (radians from the front) over mass, κ² = I/m.
    ///
    /// The axis of tipping is horizontal and square to the direction.
    pub fn kappa2_m2(&self, direction_rad: f64) -> f64 {
        let (s, c) = direction_rad.sin_cos();
        let inertia = self.inertia_fore_aft_kg_m2 * c * c
            + self.inertia_sideways_kg_m2 * s * s
            + 2.0 * self.inertia_product_kg_m2 * s * c;
        inertia / self.mass_kg
    }

    /// Height over all divided by the least diameter of the base; infinite if it cannot stand.
    pub fn height_to_base(&self) -> f64 {
        self.height_overall_m / self.base.least_diameter_m()
    }
}

/// Sums of mass, first and second moments about the origin of the item frame.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    mass: f64,
    first: [f64; 3],
    /// Σ m x², Σ m y², Σ m z², the pieces' own extent included.
    second: [f64; 3],
    xy: f64,
}

impl Sum {
    /// Adds a piece at `at` whose own second moments (Σ m x² etc. about its centre) are `own`.
    fn add(&mut self, mass: f64, at: [f64; 3], own: [f64; 3]) {
        self.mass += mass;
        for axis in 0..3 {
            self.first[axis] += mass * at[axis];
            self.second[axis] += own[axis] + mass * at[axis] * at[axis];
        }
        self.xy += mass * at[0] * at[1];
    }

    fn add_point(&mut self, mass: f64, at: [f64; 3]) {
        self.add(mass, at, [0.0; 3]);
    }

    /// Adds a body of revolution about an upright axis, from its two moments of inertia.
    fn add_round(&mut self, mass: f64, at: [f64; 3], tip: f64, spin: f64) {
        // spin = 2 Σ m x², tip = Σ m x² + Σ m z².
        let across = spin / 2.0;
        self.add(mass, at, [across, across, tip - across]);
    }

    fn centre(&self) -> [f64; 3] {
        self.first.map(|moment| moment / self.mass)
    }
}

impl Cylinder {
    /// Height of the shell's lowest point above the deck.
    fn lift_m(&self) -> f64 {
        self.boot.map_or(0.0, |boot| boot.lift_m)
    }

    fn radius_m(&self) -> f64 {
        self.shell.measures.outside_diameter_m / 2.0
    }

    /// Radius of the ring it stands on: about the shell's own radius in a boot, 0.9 of it on a bare
    /// flat base, nothing on a bare round one.
    fn foot_radius_m(&self) -> f64 {
        match (self.boot, self.shell.measures.base) {
            (Some(boot), _) => self.radius_m().min(boot.outside_diameter_m / 2.0),
            (None, BaseForm::Flat) => BARE_FOOT_SHARE * self.radius_m(),
            (None, BaseForm::Round) => 0.0,
        }
    }

    fn neck_m(&self) -> f64 {
        self.lift_m() + self.shell.measures.length_m
    }

    fn top_m(&self) -> f64 {
        self.neck_m() + self.valve.map_or(0.0, |valve| valve.top_above_neck_m)
    }

    /// Between which heights above the deck a strap may sit.
    fn strap_zone_m(&self) -> (f64, f64) {
        let measures = &self.shell.measures;
        let bottom = self.lift_m() + measures.straight_from_m().max(FLAT_CORNER_M);
        let boot_top = self.boot.map_or(0.0, |boot| boot.height_m);
        (
            bottom.max(boot_top),
            self.lift_m() + measures.straight_to_m(),
        )
    }

    fn column(&self, x_m: f64, y_m: f64, from_m: f64) -> Column {
        Column {
            x_m,
            y_m,
            radius_m: self.radius_m(),
            from_m,
            to_m: from_m + self.top_m() - self.lift_m(),
        }
    }

    /// Adds shell, gas, valve, net and handle with the axis at (x, y) and the lowest point at
    /// `bottom` above the deck; the boot too, if it stands on the deck.
    fn add_to(&self, sum: &mut Sum, [x, y, bottom]: [f64; 3]) {
        let shell = &self.shell;
        let length = shell.measures.length_m;
        let r = self.radius_m();
        sum.add_round(
            shell.measures.mass_kg,
            [x, y, bottom + shell.centre_m],
            shell.inertia_tip_kg_m2,
            shell.inertia_spin_kg_m2,
        );
        sum.add_round(
            self.gas_kg,
            [x, y, bottom + shell.gas_centre_m],
            self.gas_kg * shell.gas_tip_m2,
            self.gas_kg * shell.gas_spin_m2,
        );
        if let Some(valve) = self.valve {
            let z = bottom + length + valve.centre_above_neck_m;
            sum.add_point(valve.mass_kg, [x, y, z]);
        }
        let (from, to) = (
            shell.measures.straight_from_m(),
            shell.measures.straight_to_m(),
        );
        let (tip, spin) = thin_tube(self.net_kg, r, to - from);
        let net_z = bottom + f64::midpoint(from, to);
        sum.add_round(self.net_kg, [x, y, net_z], tip, spin);
        sum.add_point(self.handle_kg, [x, y, bottom + length]);
    }

    fn add_boot_to(&self, sum: &mut Sum, x: f64, y: f64) {
        if let Some(boot) = self.boot {
            let (tip, spin) = thin_tube(boot.mass_kg, boot.outside_diameter_m / 2.0, boot.height_m);
            let z = BOOT_CENTRE_SHARE * boot.height_m;
            sum.add_round(boot.mass_kg, [x, y, z], tip, spin);
        }
    }
}

/// Inertia of a thin tube about a diameter through its middle and about its axis.
fn thin_tube(mass: f64, r: f64, height: f64) -> (f64, f64) {
    (mass * (r * r / 2.0 + height * height / 12.0), mass * r * r)
}

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
        let (sin, cos) = side.bearing_rad.sin_cos();
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::shell::{ShellMaterial, ShellMeasures};
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
        assert!((body.kappa2_m2(0.0) - (0.28_f64.powi(2) + 0.72_f64.powi(2)) / 12.0).abs() < 1e-12);
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
            let offset = turned.cg_offset_m.hypot(turned.cg_left_m);
            prop_assert!((offset - ahead.cg_offset_m).abs() < 1e-9);
            prop_assert!((turned.kappa2_m2(bearing) - ahead.kappa2_m2(0.0)).abs() < 1e-9);
            prop_assert!((turned.inertia_spin_kg_m2 - ahead.inertia_spin_kg_m2).abs() < 1e-9);
        }
    }
}
