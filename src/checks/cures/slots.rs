//! Free slots of racks into which a cylinder fits.

use super::moves::{place, stays};
use crate::checks::security::distance;
use crate::checks::{CheckContext, Proposal};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{DayState, Edit, Id, Placing, Point, Rack, RackKind, ThingKind};

/// A bore is wide enough from this much play on, and too wide from that on, in metres. Common practice, no
/// source.
const PLAY_M: (f64, f64) = (0.0, 0.03);

/// The most slots that are proposed.
const MOST: usize = 3;

/// Puts the cylinder into the nearest slots that are free as long as it would be there and that fit it, one
/// of each rack, nearest first.
pub(super) fn into_slot(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Vec<Proposal> {
    let taken = taken(ctx, cylinder);
    let mut racks: Vec<(f64, &Rack, String)> = ctx
        .plan
        .boat
        .racks
        .iter()
        .filter(|rack| fits(rack, cylinder))
        .filter_map(|rack| {
            let (away, slot) = nearest_free(rack, cylinder.at, &taken)?;
            Some((away, rack, slot))
        })
        .collect();
    racks.sort_by(|a, b| {
        let order = (a.1.deck != cylinder.deck).cmp(&(b.1.deck != cylinder.deck));
        order
            .then(a.0.total_cmp(&b.0))
            .then_with(|| a.1.id.cmp(&b.1.id))
    });
    let nearest = racks.into_iter().take(MOST);
    nearest
        .map(|(_, rack, slot)| proposal(ctx, cylinder, rack, &slot))
        .collect()
}

fn proposal(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    rack: &Rack,
    slot: &str,
) -> Proposal {
    let id = &cylinder.cylinder;
    let rack_name = ctx.name(ThingKind::Rack, &rack.id);
    let front = ctx.day.front_of(&rack.id, slot);
    let open = front.filter(|front| !front.shut);
    let and_shut = open.map_or_else(String::new, |front| format!(" and shut {}", front.called()));
    let mut edits = vec![place(
        ctx,
        id,
        Placing::InSlot {
            rack: rack.id.clone(),
            slot: slot.to_owned(),
        },
    )];
    edits.extend(open.map(|front| shut(ctx, &rack.id, &front.id)));
    Proposal {
        label: format!("Put {id} in slot {slot} of {rack_name}{and_shut}").into(),
        edits,
        gear: None,
    }
}

/// Shuts a front from this part on.
pub(super) fn shut(ctx: &CheckContext<'_>, rack: &str, front: &str) -> Edit {
    Edit::SetFrontShut {
        trip: ctx.trip.id.clone(),
        part: ctx.part_index,
        rack: rack.to_owned(),
        front: front.to_owned(),
        shut: true,
    }
}

fn fits(rack: &Rack, cylinder: &CylinderNumbers) -> bool {
    let single = matches!(
        rack.kind,
        RackKind::Sockets | RackKind::BenchRow | RackKind::Cradles
    );
    let play = rack.bore_m.unwrap_or(rack.pitch_m) - 2.0 * cylinder.body_radius_m;
    let not_too_wide = rack.bore_m.is_none() || play <= PLAY_M.1;
    single && play >= PLAY_M.0 && not_too_wide
}

/// The slots that somebody else is in at any time while this cylinder stays as it is in this part.
fn taken(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Vec<(Id, String)> {
    let (_, to) = stays(ctx, &cylinder.cylinder);
    let days = DayState::of_trip(ctx.plan, ctx.trip);
    let here = ctx.part_index..to;
    let days = days
        .iter()
        .enumerate()
        .filter(|(index, _)| here.contains(index));
    let mut taken = Vec::new();
    for (_, day) in days {
        for state in &day.cylinders {
            if let Placing::InSlot { rack, slot } = &state.cylinder.placing {
                taken.push((rack.clone(), slot.clone()));
            }
        }
    }
    taken
}

/// The nearest slot of a rack that nobody is in and that can be closed, with its distance.
fn nearest_free(rack: &Rack, at: Point, taken: &[(Id, String)]) -> Option<(f64, String)> {
    let mut free: Vec<(f64, String)> = rack
        .slots()
        .into_iter()
        .filter(|slot| {
            !taken
                .iter()
                .any(|(of, name)| *of == rack.id && *name == slot.name)
        })
        .filter(|slot| rack.kind != RackKind::BenchRow || rack.front_of(&slot.name).is_some())
        .map(|slot| (distance(slot.at, at), slot.name))
        .collect();
    free.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
    free.into_iter().next()
}
