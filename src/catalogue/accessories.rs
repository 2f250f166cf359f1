//! What is fitted to a cylinder: valves, boots, nets and kit, with what is usual of each.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::provenance::{Sourced, Spread};
use crate::mechanics::assembly::{Boot, Kit, Valve};

/// Which valve a cylinder carries.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ValveKind {
    /// One outlet, yoke or screw-in.
    #[default]
    Single,
    /// Two outlets on one cylinder.
    TwinOutlet,
    /// Post valve of medical oxygen.
    Medical,
    /// Hand-wheel valve of a bank cylinder.
    Bank,
}

/// A valve.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ValveData {
    /// Which one.
    pub kind: ValveKind,
    /// Name for people.
    pub name: String,
    /// Mass.
    pub mass_kg: Sourced<Spread>,
    /// Its centre above the top of the neck.
    pub centre_above_neck_mm: Sourced<f64>,
    /// Its top above the top of the neck.
    pub top_above_neck_mm: Sourced<Spread>,
}

/// A size of boot.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BootData {
    /// Largest shell diameter that it is meant for.
    pub fits_diameter_to_mm: f64,
    /// Mass.
    pub mass_kg: Sourced<Spread>,
    /// Outside diameter over that of the shell.
    pub wider_than_shell_mm: Sourced<f64>,
    /// Height above the deck.
    pub height_mm: Sourced<Spread>,
    /// How much higher the shell stands.
    pub raises_shell_mm: Sourced<Spread>,
}

/// Buoyancy jacket and regulator.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KitData {
    /// Jacket.
    pub jacket_kg: Sourced<Spread>,
    /// Steel plate and wing instead of a jacket.
    pub plate_and_wing_kg: Sourced<Spread>,
    /// Ballast in pockets.
    pub ballast_kg: Sourced<Spread>,
    /// First stage.
    pub first_stage_kg: Sourced<Spread>,
    /// Hoses and second stages.
    pub hoses_kg: Sourced<Spread>,
    /// Pressure gauge or console.
    pub gauge_kg: Sourced<Spread>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Accessories {
    /// One per [`ValveKind`].
    pub valves: Vec<ValveData>,
    /// By rising diameter.
    pub boots: Vec<BootData>,
    /// Mass of a net.
    pub net_kg: Sourced<Spread>,
    /// Mass of a handle.
    pub handle_kg: Sourced<Spread>,
    /// Mass of a twin's manifold with both valves.
    pub manifold_with_two_valves_kg: Sourced<Spread>,
    /// Mass of a twin's two bands.
    pub bands_kg: Sourced<Spread>,
    /// Kit on the cylinder.
    pub kit: KitData,
}

impl Accessories {
    /// The usual valve of a kind; none if the data has no such valve.
    pub fn valve(&self, kind: ValveKind) -> Option<Valve> {
        let data = self.valves.iter().find(|valve| valve.kind == kind)?;
        Some(Valve {
            mass_kg: data.mass_kg.value.typical,
            centre_above_neck_m: data.centre_above_neck_mm.value / 1000.0,
            top_above_neck_m: data.top_above_neck_mm.value.typical / 1000.0,
        })
    }

    /// The usual boot for a shell of this diameter; none for a shell wider than any boot.
    pub fn boot(&self, outside_diameter_mm: f64) -> Option<Boot> {
        let data = self
            .boots
            .iter()
            .find(|boot| outside_diameter_mm <= boot.fits_diameter_to_mm)?;
        Some(Boot {
            mass_kg: data.mass_kg.value.typical,
            outside_diameter_m: (outside_diameter_mm + data.wider_than_shell_mm.value) / 1000.0,
            height_m: data.height_mm.value.typical / 1000.0,
            lift_m: data.raises_shell_mm.value.typical / 1000.0,
        })
    }

    /// The usual kit: jacket, regulator with gauge, no ballast.
    pub fn kit(&self) -> Kit {
        let kit = &self.kit;
        Kit {
            jacket_kg: kit.jacket_kg.value.typical,
            ballast_kg: kit.ballast_kg.value.typical,
            first_stage_kg: kit.first_stage_kg.value.typical,
            hoses_kg: kit.hoses_kg.value.typical + kit.gauge_kg.value.typical,
        }
    }

    /// A kit of which only the mass is known: a usual regulator, the rest jacket and ballast.
    ///
    /// A kit lighter than a regulator is a lighter regulator without jacket.
    pub fn kit_of_mass(&self, mass_kg: f64) -> Kit {
        let usual = self.kit();
        let regulator = usual.first_stage_kg + usual.hoses_kg;
        let share = (mass_kg / regulator).clamp(0.0, 1.0);
        Kit {
            jacket_kg: (mass_kg - regulator).max(0.0),
            ballast_kg: 0.0,
            first_stage_kg: usual.first_stage_kg * share,
            hoses_kg: usual.hoses_kg * share,
        }
    }
}
