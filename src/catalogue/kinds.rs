//! Kinds of cylinder and twin sets: measures with provenance, and what follows from them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::accessories::ValveKind;
use super::fingerprint::Fingerprint;
use super::provenance::{Provenance, Sourced};
use crate::mechanics::gas::{FILLING_TEMPERATURE_C, Gas, GasError};
use crate::mechanics::shell::{BaseForm, Closure, Shell, ShellError, ShellMaterial, ShellMeasures};

/// The measures of a cylinder kind as a deck plan can carry them: of the catalogue or of one's own.
///
/// Shell only: without valve, boot and gas.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KindData {
    /// What the crew calls it.
    pub name: String,
    /// Material of the shell.
    pub material: ShellMaterial,
    /// Water capacity, litres.
    pub water_capacity_l: f64,
    /// Working pressure, bar.
    pub working_pressure_bar: f64,
    /// Outside diameter of the shell.
    pub outside_diameter_mm: f64,
    /// From the lowest point to the top of the neck.
    pub length_without_valve_mm: f64,
    /// Empty mass as stamped on the shoulder, without valve.
    pub empty_mass_without_valve_kg: f64,
    /// Form of the bottom.
    pub base_form: BaseForm,
    /// Height of the centre of gravity above the shell's lowest point, if measured: full, with its
    /// valve, without boot and kit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_cg_height_mm: Option<f64>,
    /// Inertia of the bare, empty shell about a horizontal axis through its centre of gravity, if
    /// given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_inertia_kg_m2: Option<f64>,
}

impl KindData {
    /// Outside measures and mass of the bare shell in SI.
    pub fn measures(&self) -> ShellMeasures {
        ShellMeasures {
            outside_diameter_m: self.outside_diameter_mm / 1000.0,
            length_m: self.length_without_valve_mm / 1000.0,
            mass_kg: self.empty_mass_without_valve_kg,
            material: self.material,
            base: self.base_form,
        }
    }

    /// The bare shell; a given inertia stands over the computed one.
    ///
    /// A measured centre of gravity is of the full cylinder with its valve: it enters where these
    /// are known, in [`super::Catalogue::assemble`].
    pub fn shell(&self) -> Result<Shell, ShellError> {
        let mut shell = Shell::solve(&self.measures())?;
        if let Some(inertia) = self.measured_inertia_kg_m2 {
            shell.inertia_tip_kg_m2 = inertia;
        }
        Ok(shell)
    }

    /// Whether diameter, length, mass and water capacity can belong to one cylinder.
    pub fn closure(&self) -> Result<Closure, ShellError> {
        self.measures().closure(self.water_capacity_l / 1000.0)
    }

    /// Mass of the gas at a gauge pressure and temperature.
    pub fn gas_kg(&self, gas: &Gas, fill_bar: f64, temperature_c: f64) -> Result<f64, GasError> {
        Ok(gas.density_kg_m3(fill_bar, temperature_c)? * self.water_capacity_l / 1000.0)
    }

    /// Mass of the gas at the working pressure and 15 °C.
    pub fn full_gas_kg(&self, gas: &Gas) -> Result<f64, GasError> {
        self.gas_kg(gas, self.working_pressure_bar, FILLING_TEMPERATURE_C)
    }

    /// The same kind with the empty mass that is stamped on one cylinder.
    ///
    /// The wall follows the mass; a measured inertia, which belonged to another mass, scales with it.
    #[must_use]
    pub fn with_stamped_mass(&self, empty_mass_without_valve_kg: f64) -> Self {
        let scale = empty_mass_without_valve_kg / self.empty_mass_without_valve_kg;
        Self {
            empty_mass_without_valve_kg,
            measured_inertia_kg_m2: self.measured_inertia_kg_m2.map(|inertia| inertia * scale),
            ..self.clone()
        }
    }

    /// A short hash of every value, the same on every machine.
    ///
    /// A trip keeps it beside the values it used, to be told when the catalogue has changed. The
    /// name is left out: a better name is no reason to weigh again.
    pub fn fingerprint(&self) -> String {
        let Self {
            name: _,
            material,
            water_capacity_l,
            working_pressure_bar,
            outside_diameter_mm,
            length_without_valve_mm,
            empty_mass_without_valve_kg,
            base_form,
            measured_cg_height_mm,
            measured_inertia_kg_m2,
        } = self;
        let mut fingerprint = Fingerprint::default();
        fingerprint.add(&format!("{material:?} {base_form:?}"));
        for value in [
            water_capacity_l,
            working_pressure_bar,
            outside_diameter_mm,
            length_without_valve_mm,
            empty_mass_without_valve_kg,
        ] {
            fingerprint.add(&value.to_string());
        }
        for value in [measured_cg_height_mm, measured_inertia_kg_m2] {
            fingerprint.add(&format!("{value:?}"));
        }
        fingerprint.text()
    }
}

/// A cylinder kind of the catalogue: every value with its provenance.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kind {
    /// Short name by which deck plans refer to it.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Material of the shell.
    pub material: ShellMaterial,
    /// Water capacity, litres.
    pub water_capacity_l: Sourced<f64>,
    /// Working pressure, bar.
    pub working_pressure_bar: Sourced<f64>,
    /// Outside diameter of the shell.
    pub outside_diameter_mm: Sourced<f64>,
    /// From the lowest point to the top of the neck.
    pub length_without_valve_mm: Sourced<f64>,
    /// Empty mass without valve.
    pub empty_mass_without_valve_kg: Sourced<f64>,
    /// Form of the bottom.
    pub base_form: Sourced<BaseForm>,
    /// Gas that it usually holds, a name that [`super::gases::parse`] reads.
    pub filled_with: String,
    /// Valve that it usually carries.
    pub valve: ValveKind,
    /// Content as the trade names it.
    pub nominal_content: Option<String>,
    /// What else is known about its measures.
    pub note: Option<String>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

impl Kind {
    /// The measures alone.
    pub fn data(&self) -> KindData {
        KindData {
            name: self.name.clone(),
            material: self.material,
            water_capacity_l: self.water_capacity_l.value,
            working_pressure_bar: self.working_pressure_bar.value,
            outside_diameter_mm: self.outside_diameter_mm.value,
            length_without_valve_mm: self.length_without_valve_mm.value,
            empty_mass_without_valve_kg: self.empty_mass_without_valve_kg.value,
            base_form: self.base_form.value,
            measured_cg_height_mm: None,
            measured_inertia_kg_m2: None,
        }
    }

    /// The weakest provenance among diameter, length and mass: how far its sums can be trusted.
    pub fn provenance(&self) -> Provenance {
        self.outside_diameter_mm
            .provenance
            .max(self.length_without_valve_mm.provenance)
            .max(self.empty_mass_without_valve_kg.provenance)
    }
}

/// What joins two cylinders to a twin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwinMeasures {
    /// Distance between the two axes.
    pub centre_spacing_m: f64,
    /// Manifold with both valves.
    pub manifold_with_two_valves_kg: f64,
    /// Both bands with their bolts.
    pub bands_kg: f64,
}

/// Two cylinders of one kind joined by a manifold and bands.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TwinSet {
    /// Short name by which deck plans refer to it.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Id of the kind of its cylinders.
    pub single: String,
    /// Distance between the two axes.
    pub centre_spacing_mm: Sourced<f64>,
    /// Manifold with both valves.
    pub manifold_with_two_valves_kg: Sourced<f64>,
    /// Both bands with their bolts.
    pub bands_kg: Sourced<f64>,
}

impl TwinSet {
    /// The measures alone.
    pub fn measures(&self) -> TwinMeasures {
        TwinMeasures {
            centre_spacing_m: self.centre_spacing_mm.value / 1000.0,
            manifold_with_two_valves_kg: self.manifold_with_two_valves_kg.value,
            bands_kg: self.bands_kg.value,
        }
    }
}
