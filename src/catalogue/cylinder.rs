//! From a kind and what is fitted to it to one rigid body.

use super::Catalogue;
use super::accessories::ValveKind;
use super::kinds::{KindData, TwinSet};
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
            gas: Gas::Air,
            fill_bar: kind.working_pressure_bar,
            temperature_c: FILLING_TEMPERATURE_C,
        }
    }
}

/// Where a small cylinder is strapped to a large one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SidePlace {
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
        let gas_kg = fitted
            .kind
            .gas_kg(&fitted.gas, fitted.fill_bar, fitted.temperature_c)?;
        Ok(Cylinder {
            shell,
            gas_kg,
            valve: accessories.valve(fitted.valve),
            boot: fitted
                .boot
                .then(|| accessories.boot(fitted.kind.outside_diameter_mm))
                .flatten(),
            net_kg: usual_if(fitted.net, accessories.net_kg.value.typical),
            handle_kg: usual_if(fitted.handle, accessories.handle_kg.value.typical),
        })
    }

    /// A single cylinder as one rigid body, with a small one at its side if given.
    pub fn assemble(
        &self,
        fitted: &Fitted<'_>,
        side: Option<(&Fitted<'_>, SidePlace)>,
    ) -> Result<Assembled, CylinderError> {
        let cylinder = self.cylinder(fitted)?;
        let side = side
            .map(|(small, place)| {
                Ok::<_, CylinderError>(SideCylinder {
                    cylinder: self.cylinder(small)?,
                    bearing_rad: place.bearing_rad,
                    gap_m: SIDE_GAP_M,
                    bottom_m: place.bottom_m,
                    bracket_kg: SIDE_BRACKET_KG,
                })
            })
            .transpose()?;
        Ok(assembly::single(
            &cylinder,
            fitted.kit.as_ref(),
            side.as_ref(),
        ))
    }

    /// A twin as one rigid body; `fitted` is one of its two equal cylinders.
    pub fn assemble_twin(
        &self,
        set: &TwinSet,
        fitted: &Fitted<'_>,
    ) -> Result<Assembled, CylinderError> {
        let cylinder = self.cylinder(fitted)?;
        let valve = self.accessories.valve(ValveKind::Single).unwrap_or(Valve {
            mass_kg: 0.0,
            centre_above_neck_m: 0.0,
            top_above_neck_m: 0.0,
        });
        let parts = TwinParts {
            spacing_m: set.centre_spacing_mm.value / 1000.0,
            valve,
            manifold_kg: (set.manifold_with_two_valves_kg.value - 2.0 * valve.mass_kg).max(0.0),
            bands_kg: set.bands_kg.value,
        };
        Ok(assembly::twin(&cylinder, &parts, fitted.kit.as_ref()))
    }
}

fn usual_if(present: bool, usual: f64) -> f64 {
    if present { usual } else { 0.0 }
}
