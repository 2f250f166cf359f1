//! What of the gear aboard is not in use.

use crate::catalogue::Catalogue;
use crate::catalogue::materials::MaterialForm;
use crate::checks::CheckContext;
use crate::layout::{Chocks, GearAboard, GearAboardKind, GearKind, Id, Lashing, Placing};

/// A strap, rope or chain that is aboard and not in use.
#[derive(Clone, Debug)]
pub(super) struct SpareLashing {
    /// Its entry in the gear aboard.
    pub(super) gear: Id,
    /// What it is made of.
    pub(super) material: String,
    /// A strength that its entry gives, over the catalogue's.
    pub(super) strength_kn: Option<crate::layout::Known>,
    /// Its length in metres, if given.
    pub(super) length_m: Option<f64>,
    /// How many are left.
    pub(super) left: usize,
    /// Maximum securing load in kilonewtons; 0 where nobody knows.
    msl_kn: f64,
}

/// What lashings that can hold a cylinder are left, strongest first, ties by name.
pub(super) fn spare_lashings(ctx: &CheckContext<'_>) -> Vec<SpareLashing> {
    let mut spare: Vec<SpareLashing> = ctx
        .trip
        .gear_aboard
        .iter()
        .filter_map(|gear| spare_lashing(ctx, gear))
        .collect();
    spare.sort_by(|a, b| {
        b.msl_kn
            .total_cmp(&a.msl_kn)
            .then_with(|| a.gear.cmp(&b.gear))
    });
    spare
}

fn spare_lashing(ctx: &CheckContext<'_>, gear: &GearAboard) -> Option<SpareLashing> {
    let usual = match gear.kind {
        GearAboardKind::Strap => "ratchet_strap_25",
        GearAboardKind::Rope => "polyester_rope_8",
        GearAboardKind::Chain => "chain_6",
        _ => return None,
    };
    let material = gear.material.clone().unwrap_or_else(|| usual.to_owned());
    let known = Catalogue::built_in().material(&material);
    if known.is_some_and(|known| known.form == MaterialForm::ShockCord) {
        return None;
    }
    let used = |lashing: &&Lashing| lashing.material == material;
    let used = ctx.trip.lashings.iter().filter(used).count();
    let others = ctx
        .trip
        .gear_aboard
        .iter()
        .filter(|other| other.id < gear.id);
    // Entries of one material fill up in the order of their names.
    let taken_by_others: usize = others
        .filter(|other| other.material == gear.material && other.kind == gear.kind)
        .map(|other| other.count as usize)
        .sum();
    let used_of_this = used.saturating_sub(taken_by_others);
    let left = (gear.count as usize).saturating_sub(used_of_this);
    let given = gear.strength_kn.and_then(crate::layout::Known::value);
    let msl = given.or_else(|| known.and_then(|known| Some(known.msl_kn()?.value)));
    (left > 0).then(|| SpareLashing {
        gear: gear.id.clone(),
        strength_kn: gear.strength_kn,
        length_m: gear.length_m,
        left,
        msl_kn: msl.unwrap_or(0.0),
        material,
    })
}

/// A pair of chocks that is aboard and not in use: entry and height in metres, lowest first, ties by name.
pub(super) fn spare_chocks(ctx: &CheckContext<'_>) -> Vec<(Id, f64)> {
    let beside = |placing: &Placing| {
        let chocks = match placing {
            Placing::Lying { chocks, .. } => chocks.as_ref(),
            _ => None,
        };
        matches!(chocks, Some(Chocks::Blocks { .. } | Chocks::Wedges { .. }))
    };
    let cylinders = ctx.day.cylinders.iter().map(|state| &state.cylinder);
    let mut used = 2 * cylinders.filter(|item| beside(&item.placing)).count();
    let mut all: Vec<(&Id, f64, usize)> = (ctx.trip.gear_aboard.iter())
        .filter(|gear| gear.kind == GearAboardKind::Chock)
        .map(|gear| (&gear.id, gear.height_m.unwrap_or(0.0), gear.count as usize))
        .collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(b.0)));
    let mut spare = Vec::new();
    for (id, height, count) in all {
        let taken = used.min(count);
        used -= taken;
        if count - taken >= 2 {
            spare.push((id.clone(), height));
        }
    }
    spare
}

/// The entry of a boot that is aboard and on no cylinder, first by name.
pub(super) fn spare_boot(ctx: &CheckContext<'_>) -> Option<Id> {
    let used = ctx.trip.cylinders.iter().filter(|item| item.boot).count();
    spare_of(ctx, GearAboardKind::Boot, used)
}

/// The entry of a mat that is aboard and not on the floor, first by name.
pub(super) fn spare_mat(ctx: &CheckContext<'_>) -> Option<Id> {
    let mats = ctx
        .trip
        .gear
        .iter()
        .filter(|gear| gear.kind == GearKind::Mat);
    spare_of(ctx, GearAboardKind::Mat, mats.count())
}

fn spare_of(ctx: &CheckContext<'_>, kind: GearAboardKind, used: usize) -> Option<Id> {
    let mut entries: Vec<&GearAboard> = ctx
        .trip
        .gear_aboard
        .iter()
        .filter(|gear| gear.kind == kind)
        .collect();
    entries.sort_by(|a, b| a.id.cmp(&b.id));
    let mut used = used;
    for gear in entries {
        let count = gear.count as usize;
        if used < count {
            return Some(gear.id.clone());
        }
        used -= count;
    }
    None
}
