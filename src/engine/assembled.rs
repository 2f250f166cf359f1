//! From a cylinder of the trip to one rigid body with mass, centre and base.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::catalogue::Catalogue;
use crate::catalogue::accessories::ValveKind;
use crate::catalogue::cylinder::Fitted;
use crate::catalogue::kinds::KindData;
use crate::layout::{BaseForm, Cylinder, CylinderKind, ShellMaterial, Trip};
use crate::mechanics::assembly::{Assembled, Kit};
use crate::mechanics::gas::{FILLING_TEMPERATURE_C, Gas, HIGHEST_BAR};
use crate::mechanics::shell;

/// What decides a cylinder's mass and centre: equal keys give equal bodies.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    kind: String,
    gas: String,
    /// Pressure, stamped tare and kit mass as bits, so that they can be compared exactly.
    numbers: [Option<u64>; 3],
    boot: bool,
    net: bool,
    kit: bool,
}

/// Bodies that were assembled before, by what decides them.
#[derive(Clone, Debug, Default)]
pub(super) struct Assemblies {
    trip_kinds: Vec<CylinderKind>,
    known: BTreeMap<Key, Option<Arc<Assembled>>>,
}

impl Assemblies {
    /// Forgets everything if the trip's own kinds have changed.
    pub(super) fn set_trip(&mut self, trip: &Trip) {
        if self.trip_kinds != trip.kinds {
            self.trip_kinds.clone_from(&trip.kinds);
            self.known.clear();
        }
    }

    /// The cylinder as one rigid body; `None` if its kind or gas is not known or its measures cannot be
    /// (reading a file refuses such).
    pub(super) fn get(&mut self, cylinder: &Cylinder) -> Option<Arc<Assembled>> {
        let working = working_pressure_bar(&self.trip_kinds, &cylinder.kind)?;
        let pressure = cylinder.counted_pressure_bar(working);
        let key = Key {
            kind: cylinder.kind.clone(),
            gas: cylinder.gas.clone(),
            numbers: [
                Some(pressure.to_bits()),
                cylinder.stamped_tare_kg.map(f64::to_bits),
                cylinder.kit_mass_kg.map(f64::to_bits),
            ],
            boot: cylinder.boot,
            net: cylinder.net,
            kit: cylinder.has_kit(),
        };
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        let assembled = assemble(&self.trip_kinds, cylinder, pressure).map(Arc::new);
        self.known.insert(key, assembled.clone());
        assembled
    }
}

/// Working pressure of a kind in bar: the trip's own kinds before the catalogue's.
pub(crate) fn working_pressure_bar(trip_kinds: &[CylinderKind], id: &str) -> Option<f64> {
    if let Some(kind) = trip_kinds.iter().find(|kind| kind.id == id) {
        return Some(kind.working_pressure_bar);
    }
    let catalogue = Catalogue::built_in();
    let kind = catalogue.kind(id).or_else(|| {
        let twin = catalogue.twin(id)?;
        catalogue.kind(&twin.single)
    })?;
    Some(kind.working_pressure_bar.value)
}

fn kind_data(kind: &CylinderKind) -> KindData {
    KindData {
        name: kind.name.clone(),
        material: match kind.material {
            ShellMaterial::Steel => shell::ShellMaterial::Steel,
            ShellMaterial::Aluminium => shell::ShellMaterial::Aluminium,
        },
        water_capacity_l: kind.water_capacity_l,
        working_pressure_bar: kind.working_pressure_bar,
        outside_diameter_mm: kind.outside_diameter_mm,
        length_without_valve_mm: kind.length_without_valve_mm,
        empty_mass_without_valve_kg: kind.empty_mass_without_valve_kg,
        base_form: match kind.base_form {
            BaseForm::Flat => shell::BaseForm::Flat,
            BaseForm::Round => shell::BaseForm::Round,
        },
        measured_cg_height_mm: kind.measured_cg_height_mm,
        measured_inertia_kg_m2: None,
    }
}

fn kit_of(cylinder: &Cylinder, pony_kg: f64) -> Option<Kit> {
    let usual = Catalogue::built_in().accessories().kit();
    let kit = cylinder.has_kit().then(|| match cylinder.kit_mass_kg {
        None => usual,
        Some(mass) => {
            let whole = usual.jacket_kg + usual.ballast_kg + usual.first_stage_kg + usual.hoses_kg;
            let share = mass / whole;
            Kit {
                jacket_kg: usual.jacket_kg * share,
                ballast_kg: usual.ballast_kg * share,
                first_stage_kg: usual.first_stage_kg * share,
                hoses_kg: usual.hoses_kg * share,
            }
        }
    });
    if pony_kg <= 0.0 {
        return kit;
    }
    // A small cylinder at the side hangs about where ballast pockets do, as far out and as high.
    let bare = Kit {
        jacket_kg: 0.0,
        ballast_kg: 0.0,
        first_stage_kg: 0.0,
        hoses_kg: 0.0,
    };
    let mut kit = kit.unwrap_or(bare);
    kit.ballast_kg += pony_kg;
    Some(kit)
}

fn assemble(trip_kinds: &[CylinderKind], cylinder: &Cylinder, pressure: f64) -> Option<Assembled> {
    let catalogue = Catalogue::built_in();
    let gas: Gas = catalogue.gas(&cylinder.gas).ok()?;
    let own = trip_kinds.iter().find(|kind| kind.id == cylinder.kind);
    let (data, valve, twin) = match own {
        Some(kind) => {
            let spacing_m = kind.twin_spacing_mm.map(|spacing| spacing / 1000.0);
            let twin = spacing_m.map(|spacing| catalogue.usual_twin(spacing));
            (kind_data(kind), ValveKind::Single, twin)
        }
        None => {
            if let Some(set) = catalogue.twin(&cylinder.kind) {
                let single = catalogue.kind(&set.single)?;
                (single.data(), single.valve, Some(set.measures()))
            } else {
                let kind = catalogue.kind(&cylinder.kind)?;
                (kind.data(), kind.valve, None)
            }
        }
    };
    let fitted = Fitted {
        kind: &data,
        stamped_mass_kg: cylinder.stamped_tare_kg,
        valve,
        boot: cylinder.boot,
        net: cylinder.net,
        handle: false,
        kit: kit_of(
            cylinder,
            own.and_then(|kind| kind.pony_mass_kg).unwrap_or(0.0),
        ),
        stand_radius_m: own
            .and_then(|kind| kind.stand_radius_mm)
            .map(|radius| radius / 1000.0),
        gas,
        fill_bar: pressure.min(HIGHEST_BAR),
        temperature_c: FILLING_TEMPERATURE_C,
    };
    match &twin {
        Some(set) => catalogue.assemble_twin(set, &fitted).ok(),
        None => catalogue.assemble(&fitted, None).ok(),
    }
}
