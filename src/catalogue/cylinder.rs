//! From a kind and what is fitted to it to one rigid body.

use super::Catalogue;
use super::accessories::ValveKind;
use super::kinds::{KindData, TwinMeasures};
use crate::mechanics::assembly::{self, Assembled, Cylinder, Kit, SideCylinder, TwinParts, Valve};
use crate::mechanics::gas::{FILLING_TEMPERATURE_C, Gas, GasError};
use crate::mechanics::shell::ShellError;

/// Usual gap between a cylinder and one strapped to its side (from memory).
const SIDE_GAP_M: f64 = 0.010;
/// Usual mass of the bracket or bands of a side cylinder (from memory).
const SIDE_BRACKET_KG: f64 = 0.5;

/// Why a cylinder has no computed values.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum CylinderError {
    /// Its measures cannot be.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// Its filling is outside what is known.
    #[error(transparent)]
    Gas(#[from] GasError),
}

/// A cylinder with what is fitted to it and filled into it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted<'a> {
    /// Measures of the shell.
    pub kind: &'a KindData,
    /// Empty mass without valve as stamped on this very cylinder, over the kind's.
    pub stamped_mass_kg: Option<f64>,
    /// Valve; a twin has its own.
    pub valve: ValveKind,
    /// Stands in a boot.
    pub boot: bool,
    /// Has a net.
    pub net: bool,
    /// Has a handle.
    pub handle: bool,
    /// Jacket and regulator on it.
    pub kit: Option<Kit>,
    /// Radius of a stand that it is fixed to, over that of its own foot.
    pub stand_radius_m: Option<f64>,
    /// What is in it.
    pub gas: Gas,
    /// Pressure, bar gauge.
    pub fill_bar: f64,
    /// Temperature of the gas, °C.
    pub temperature_c: f64,
}

impl<'a> Fitted<'a> {
    /// A bare cylinder with a single valve, full of air at 15 °C.
    pub fn full_of_air(kind: &'a KindData) -> Self {
        Self {
            kind,
            stamped_mass_kg: None,
            valve: ValveKind::Single,
            boot: false,
            net: false,
            handle: false,
            kit: None,
            stand_radius_m: None,
            gas: Gas::Air,
            fill_bar: kind.working_pressure_bar,
            temperature_c: FILLING_TEMPERATURE_C,
        }
    }
}

/// What is strapped to the side of a large cylinder.
#[derive(Debug, Clone, PartialEq)]
pub struct Side<'a> {
    /// The small cylinder.
    pub small: Fitted<'a>,
    /// Its mass with gas and valve, if that alone is known: all of it is scaled.
    pub mass_kg: Option<f64>,
    /// Direction in which it sits, radians from the side that the kit faces.
    pub bearing_rad: f64,
    /// Its lowest point above the large shell's lowest point.
    pub bottom_m: f64,
}

impl Catalogue {
    /// The cylinder alone, ready to be assembled.
    fn cylinder(&self, fitted: &Fitted<'_>) -> Result<Cylinder, CylinderError> {
        let shell = match fitted.stamped_mass_kg {
            Some(mass) => fitted.kind.with_stamped_mass(mass).shell()?,
            None => fitted.kind.shell()?,
        };
        let accessories = &self.accessories;
        let valve = accessories.valve(fitted.valve);
        let cylinder = Cylinder {
            shell,
            gas_kg: fitted.kind.full_gas_kg(&fitted.gas)?,
            valve,
            boot: fitted
                .boot
                .then(|| accessories.boot(fitted.kind.outside_diameter_mm))
                .flatten(),
            net_kg: usual_if(fitted.net, accessories.net_kg.value.typical),
            handle_kg: usual_if(fitted.handle, accessories.handle_kg.value.typical),
            stand_radius_m: fitted.stand_radius_m,
        };
        // What was measured was the full cylinder; what is left of the gas comes after.
        let cylinder = match fitted.kind.measured_cg_height_mm {
            Some(mm) => cylinder.with_measured_centre(mm / 1000.0),
            None => cylinder,
        };
        let gas_kg = fitted
            .kind
            .gas_kg(&fitted.gas, fitted.fill_bar, fitted.temperature_c)?;
        Ok(Cylinder { gas_kg, ..cylinder })
    }

    /// A single cylinder as one rigid body, with a small one at its side if given.
    pub fn assemble(
        &self,
        fitted: &Fitted<'_>,
        side: Option<&Side<'_>>,
    ) -> Result<Assembled, CylinderError> {
        let cylinder = self.cylinder(fitted)?;
        let side = side.map(|side| self.side_cylinder(side)).transpose()?;
        Ok(assembly::single(
            &cylinder,
            fitted.kit.as_ref(),
            side.as_ref(),
        ))
    }

    fn side_cylinder(&self, side: &Side<'_>) -> Result<SideCylinder, CylinderError> {
        let small = self.cylinder(&side.small)?;
        Ok(SideCylinder {
            cylinder: match side.mass_kg {
                Some(mass_kg) => small.scaled_to(mass_kg),
                None => small,
            },
            bearing_rad: side.bearing_rad,
            gap_m: SIDE_GAP_M,
            bottom_m: side.bottom_m,
            bracket_kg: SIDE_BRACKET_KG,
        })
    }

    /// A twin as one rigid body; `fitted` is one of its two equal cylinders.
    pub fn assemble_twin(
        &self,
        twin: &TwinMeasures,
        fitted: &Fitted<'_>,
    ) -> Result<Assembled, CylinderError> {
        let cylinder = self.cylinder(fitted)?;
        let valve = self.accessories.valve(ValveKind::Single).unwrap_or(Valve {
            mass_kg: 0.0,
            centre_above_neck_m: 0.0,
            top_above_neck_m: 0.0,
        });
        let parts = TwinParts {
            spacing_m: twin.centre_spacing_m,
            valve,
            manifold_kg: (twin.manifold_with_two_valves_kg - 2.0 * valve.mass_kg).max(0.0),
            bands_kg: twin.bands_kg,
        };
        Ok(assembly::twin(&cylinder, &parts, fitted.kit.as_ref()))
    }
}

impl Catalogue {
    /// Usual manifold and bands for a twin of which only the spacing is known.
    pub fn usual_twin(&self, centre_spacing_m: f64) -> TwinMeasures {
        TwinMeasures {
            centre_spacing_m,
            manifold_with_two_valves_kg: self.accessories.manifold_with_two_valves_kg.value.typical,
            bands_kg: self.accessories.bands_kg.value.typical,
        }
    }
}

fn usual_if(present: bool, usual: f64) -> f64 {
    if present { usual } else { 0.0 }
}
