//! Cylinders and the oxygen kit too near to heat, fuel or oil.

use super::grounds::{Grounds, Item, What};
use crate::catalogue::gases;
use crate::engine::numbers::{FitKind, FitNumbers};
use crate::geometry::separation;
use crate::layout::FixtureKind;
use crate::mechanics::gas::Gas;

/// From what can exceed 55 °C: 2.4 m, PHMSA's text on protection from sources of heat in carriage
/// by vessel.
pub(super) const FROM_HEAT_M: f64 = 2.4;

/// Oxygen from fuel and from a compressor with its oil, on a small boat. Common practice, no source.
pub(super) const OXYGEN_CLEAR_M: f64 = 1.0;

/// From this share of oxygen on a gas is handled as oxygen. Common practice of mixed-gas filling, no
/// source.
const OXYGEN_RICH: f64 = 0.4;

/// Every such pair.
pub(super) fn find(grounds: &Grounds<'_>, found: &mut Vec<FitNumbers>) {
    for source in &grounds.items {
        let What::Fixture(fixture) = source.what else {
            continue;
        };
        let (kind, wanted_m) = match fixture.kind {
            FixtureKind::Heat => (FitKind::NearHeat, FROM_HEAT_M),
            FixtureKind::Fuel => (FitKind::OxygenNearFuel, OXYGEN_CLEAR_M),
            FixtureKind::Compressor => (FitKind::OxygenNearCompressor, OXYGEN_CLEAR_M),
            _ => continue,
        };
        for (_, item) in grounds.near(source.hard, wanted_m) {
            let counts = match item.what {
                What::Cylinder(cylinder) => {
                    kind == FitKind::NearHeat || is_oxygen_rich(&cylinder.gas)
                }
                What::Fixture(other) => other.kind == FixtureKind::OxygenKit,
                _ => false,
            };
            let apart = separation(item.hard, source.hard);
            if counts && apart.gap_m < wanted_m {
                let missing = wanted_m - apart.gap_m + apart.depth_m;
                found.push(FitNumbers {
                    wanted_m,
                    shift_m: is_movable(item).then(|| (missing * apart.away).into()),
                    ..grounds.note(kind, [item, source], apart.a, apart.gap_m)
                });
            }
        }
    }
}

fn is_movable(item: &Item<'_>) -> bool {
    !item.thing.of_boat
}

/// Oxygen itself and what is handled like it. A name that is no gas counts as air: reading a file
/// refuses it.
fn is_oxygen_rich(gas: &str) -> bool {
    gases::parse(gas).is_ok_and(|gas| match gas {
        Gas::Air => false,
        Gas::Mixture(mixture) => mixture.oxygen() > OXYGEN_RICH,
    })
}
