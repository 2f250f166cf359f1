//! What a body is put together from.

use super::Column;
use super::moments::{Sum, thin_tube};
use crate::mechanics::shell::{BaseForm, Shell};

/// A bare flat base stands on a ring of this share of the radius (from memory: 10 to 15 mm less).
pub const BARE_FOOT_SHARE: f64 = 0.9;
/// The rounded corner above a flat base, on which no strap holds (assumed).
pub(super) const FLAT_CORNER_M: f64 = 0.02;
/// Centre of a boot, as a share of its height (assumed: floor and wall of equal thickness).
const BOOT_CENTRE_SHARE: f64 = 0.4;

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
    /// Radius of a stand that it is fixed to, over that of its own foot.
    pub stand_radius_m: Option<f64>,
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

impl Cylinder {
    /// The same cylinder made heavier or lighter throughout, for one known by its mass alone.
    #[must_use]
    pub fn scaled_to(&self, mass_kg: f64) -> Self {
        let own = self.shell.measures.mass_kg
            + self.gas_kg
            + self.valve.map_or(0.0, |valve| valve.mass_kg)
            + self.net_kg
            + self.handle_kg;
        let scale = mass_kg / own;
        let mut scaled = *self;
        scaled.shell.measures.mass_kg *= scale;
        scaled.shell.inertia_tip_kg_m2 *= scale;
        scaled.shell.inertia_spin_kg_m2 *= scale;
        scaled.gas_kg *= scale;
        scaled.valve = self.valve.map(|valve| Valve {
            mass_kg: valve.mass_kg * scale,
            ..valve
        });
        scaled.net_kg *= scale;
        scaled.handle_kg *= scale;
        scaled
    }

    /// The same cylinder with its shell's centre of gravity moved so that shell, gas and valve
    /// together have theirs at `centre_m` above the shell's lowest point.
    #[must_use]
    pub fn with_measured_centre(&self, centre_m: f64) -> Self {
        let shell_kg = self.shell.measures.mass_kg;
        let (valve_kg, valve_m) = self.valve.map_or((0.0, 0.0), |valve| {
            let height = self.shell.measures.length_m + valve.centre_above_neck_m;
            (valve.mass_kg, height)
        });
        let total = shell_kg + self.gas_kg + valve_kg;
        let others = self.gas_kg * self.shell.gas_centre_m + valve_kg * valve_m;
        let mut measured = *self;
        measured.shell.centre_m = (total * centre_m - others) / shell_kg;
        measured
    }

    /// Height of the shell's lowest point above the deck.
    pub(super) fn lift_m(&self) -> f64 {
        self.boot.map_or(0.0, |boot| boot.lift_m)
    }

    pub(super) fn radius_m(&self) -> f64 {
        self.shell.measures.outside_diameter_m / 2.0
    }

    /// Radius of the ring it stands on: about the shell's own radius in a boot, 0.9 of it on a bare
    /// flat base, nothing on a bare round one.
    pub(super) fn foot_radius_m(&self) -> f64 {
        if let Some(radius) = self.stand_radius_m {
            return radius;
        }
        match (self.boot, self.shell.measures.base) {
            (Some(boot), _) => self.radius_m().min(boot.outside_diameter_m / 2.0),
            (None, BaseForm::Flat) => BARE_FOOT_SHARE * self.radius_m(),
            (None, BaseForm::Round) => 0.0,
        }
    }

    pub(super) fn neck_m(&self) -> f64 {
        self.lift_m() + self.shell.measures.length_m
    }

    pub(super) fn top_m(&self) -> f64 {
        self.neck_m() + self.valve.map_or(0.0, |valve| valve.top_above_neck_m)
    }

    /// Between which heights above the deck a strap may sit.
    pub(super) fn strap_zone_m(&self) -> (f64, f64) {
        let measures = &self.shell.measures;
        let bottom = self.lift_m() + measures.straight_from_m().max(FLAT_CORNER_M);
        let boot_top = self.boot.map_or(0.0, |boot| boot.height_m);
        (
            bottom.max(boot_top),
            self.lift_m() + measures.straight_to_m(),
        )
    }

    pub(super) fn column(&self, x_m: f64, y_m: f64, from_m: f64) -> Column {
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
    pub(super) fn add_to(&self, sum: &mut Sum, [x, y, bottom]: [f64; 3]) {
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

    pub(super) fn add_boot_to(&self, sum: &mut Sum, x: f64, y: f64) {
        if let Some(boot) = self.boot {
            let (tip, spin) = thin_tube(boot.mass_kg, boot.outside_diameter_m / 2.0, boot.height_m);
            let z = BOOT_CENTRE_SHARE * boot.height_m;
            sum.add_round(boot.mass_kg, [x, y, z], tip, spin);
        }
    }
}
