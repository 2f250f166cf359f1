//! What of the gear aboard is not in use.

use super::moves::stays;
use crate::catalogue::Catalogue;
use crate::catalogue::materials::MaterialForm;
use crate::checks::CheckContext;
use crate::layout::{Chocks, DayState, GearAboard, GearAboardKind, GearKind, Id, Lashing, Placing};

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

/// What an entry of the gear aboard is made of, if it can hold a cylinder.
fn material_of(gear: &GearAboard) -> Option<&str> {
    let usual = match gear.kind {
        GearAboardKind::Strap => "ratchet_strap_25",
        GearAboardKind::Rope => "polyester_rope_8",
        GearAboardKind::Chain => "chain_6",
        _ => return None,
    };
    Some(gear.material.as_deref().unwrap_or(usual))
}

fn spare_lashing(ctx: &CheckContext<'_>, gear: &GearAboard) -> Option<SpareLashing> {
    let material = material_of(gear)?;
    let known = Catalogue::built_in().material(material);
    if known.is_some_and(|known| known.form == MaterialForm::ShockCord) {
        return None;
    }
    let used = |lashing: &&Lashing| lashing.material == material;
    let used = ctx.trip.lashings.iter().filter(used).count();
    // Entries of one material are used up in the order of their names.
    let others = ctx.trip.gear_aboard.iter();
    let before: usize = others
        .filter(|other| other.id < gear.id && material_of(other) == Some(material))
        .map(|other| other.count as usize)
        .sum();
    let left = (gear.count as usize).saturating_sub(used.saturating_sub(before));
    let given = gear.strength_kn.and_then(crate::layout::Known::value);
    let msl = given.or_else(|| known.and_then(|known| Some(known.msl_kn()?.value)));
    (left > 0).then(|| SpareLashing {
        gear: gear.id.clone(),
        strength_kn: gear.strength_kn,
        length_m: gear.length_m,
        left,
        msl_kn: msl.unwrap_or(0.0),
        material: material.to_owned(),
    })
}

/// Heights of chocks that differ by less are the same, in metres.
const SAME_HEIGHT_M: f64 = 0.0005;

/// The sorts of chock of which a pair is aboard and not in use as long as this cylinder stays as it is, its own
/// being free: entry and height in metres, lowest first, ties by name.
pub(super) fn spare_chocks(ctx: &CheckContext<'_>, cylinder: &str) -> Vec<(Id, f64)> {
    let mut all: Vec<(&Id, f64, usize)> = (ctx.trip.gear_aboard.iter())
        .filter(|gear| gear.kind == GearAboardKind::Chock)
        .map(|gear| (&gear.id, gear.height_m.unwrap_or(0.0), gear.count as usize))
        .collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(b.0)));
    let (_, to) = stays(ctx, cylinder);
    let days = DayState::of_trip(ctx.plan, ctx.trip);
    let days = days.get(ctx.part_index..to).unwrap_or_default();
    let mut spare = all.clone();
    for day in days {
        let mut left = all.clone();
        let others = day.cylinders.iter().map(|state| &state.cylinder);
        let mut used: Vec<f64> = others
            .filter(|other| other.id != cylinder)
            .filter_map(|other| chock_height_m(&other.placing))
            .collect();
        used.sort_by(f64::total_cmp);
        for height in used {
            take_pair(&mut left, height);
        }
        for (spare, left) in spare.iter_mut().zip(left) {
            spare.2 = spare.2.min(left.2);
        }
    }
    spare
        .into_iter()
        .filter(|(_, _, left)| *left >= 2)
        .map(|(id, height, _)| (id.clone(), height))
        .collect()
}

/// How high the blocks or wedges on both sides of a cylinder are.
fn chock_height_m(placing: &Placing) -> Option<f64> {
    match placing {
        Placing::Lying {
            chocks: Some(Chocks::Blocks { height_m, .. } | Chocks::Wedges { height_m, .. }),
            ..
        } => Some(*height_m),
        _ => None,
    }
}

/// Takes two chocks of this height, or, where none is so high, the lowest there are.
fn take_pair(left: &mut [(&Id, f64, usize)], height: f64) {
    let same = |entry: &(&Id, f64, usize)| (entry.1 - height).abs() < SAME_HEIGHT_M;
    let found = left.iter().position(|entry| same(entry) && entry.2 >= 2);
    let found = found.or_else(|| left.iter().position(|entry| entry.2 >= 2));
    if let Some(entry) = found.and_then(|index| left.get_mut(index)) {
        entry.2 -= 2;
    }
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
