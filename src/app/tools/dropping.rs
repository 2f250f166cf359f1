//! Where a cylinder comes to rest when it is let go over a point of the plan.

use super::super::here::{Here, at, to_cm};
use crate::geometry::{Outline, Vec2, vec2};
use crate::layout::{Id, Placing, Point, Rack, RackKind};

/// How far outside a rack's edge still counts as over it, in metres.
const RACK_MARGIN_M: f64 = 0.04;

/// The placing of a cylinder that is let go here: in the nearest free slot of the rack underneath, in
/// the crate or under the net, on the shelf, or on the deck as it stood or lay before.
pub(crate) fn dropped(here: &Here<'_>, id: &str, was: &Placing, target: Vec2) -> Placing {
    if let Some((rack, slot)) = free_slot(here, id, target) {
        return Placing::InSlot { rack, slot };
    }
    let point = to_cm(target);
    if let Some(rack) = crate_under(here, target) {
        let valve_towards_deg = match was {
            Placing::Lying {
                valve_towards_deg, ..
            }
            | Placing::InCrate {
                valve_towards_deg, ..
            } => *valve_towards_deg,
            _ => rack.turn_deg,
        };
        return Placing::InCrate {
            rack: rack.id.clone(),
            at: point,
            valve_towards_deg,
        };
    }
    on_deck(here, was, point)
}

fn on_deck(here: &Here<'_>, was: &Placing, point: Point) -> Placing {
    let shelf = shelf_under(here, at(point));
    let mut placing = was.clone();
    match &mut placing {
        Placing::Lying {
            deck, at, on, upon, ..
        } => {
            here.deck.clone_into(deck);
            *at = point;
            *on = shelf;
            upon.clear();
        }
        Placing::UpsideDown { deck, at, .. }
        | Placing::HeldByHand { deck, at, .. }
        | Placing::Filling { deck, at } => {
            here.deck.clone_into(deck);
            *at = point;
        }
        Placing::Hanging { at, .. } => *at = point,
        Placing::Standing { .. }
        | Placing::InSlot { .. }
        | Placing::InCrate { .. }
        | Placing::OnDiver { .. }
        | Placing::InWater
        | Placing::Ashore => {
            placing = Placing::Standing {
                deck: here.deck.to_owned(),
                at: point,
                on: shelf,
            };
        }
    }
    placing
}

/// The nearest free slot of the rack under the point.
pub(crate) fn free_slot(here: &Here<'_>, id: &str, target: Vec2) -> Option<(Id, String)> {
    let racks = here.plan.boat.racks.iter().rev();
    let mut under = racks.filter(|rack| {
        rack.deck == here.deck
            && !matches!(rack.kind, RackKind::Crate | RackKind::Net)
            && is_over(rack, target)
    });
    let rack = under.next()?;
    let taken: Vec<&str> = here
        .day
        .cylinders
        .iter()
        .map(|state| &state.cylinder)
        .filter(|cylinder| cylinder.id != id)
        .filter_map(|cylinder| match &cylinder.placing {
            Placing::InSlot { rack: of, slot } if *of == rack.id => Some(slot.as_str()),
            _ => None,
        })
        .collect();
    let free = rack
        .slots()
        .into_iter()
        .filter(|slot| !taken.contains(&slot.name.as_str()));
    let nearest = free.min_by(|a, b| {
        let distance = |point: Point| at(point).distance(target);
        distance(a.at).total_cmp(&distance(b.at))
    })?;
    Some((rack.id.clone(), nearest.name))
}

fn crate_under<'a>(here: &Here<'a>, target: Vec2) -> Option<&'a Rack> {
    here.plan.boat.racks.iter().rev().find(|rack| {
        rack.deck == here.deck
            && matches!(rack.kind, RackKind::Crate | RackKind::Net)
            && is_over(rack, target)
    })
}

/// The topmost fixture under the point on whose top things stand.
fn shelf_under(here: &Here<'_>, target: Vec2) -> Option<Id> {
    let mut fixtures = here.plan.boat.fixtures.iter().rev();
    let found = fixtures.find(|fixture| {
        fixture.deck == here.deck
            && fixture.shelf.is_some()
            && Outline::new(fixture.outline.iter().map(|p| at(*p)).collect())
                .is_ok_and(|outline| outline.contains(target))
    });
    found.map(|fixture| fixture.id.clone())
}

fn is_over(rack: &Rack, target: Vec2) -> bool {
    let [length, width] = rack.outer_size();
    let p = local(rack, target);
    p.x.abs() <= 0.5 * length + RACK_MARGIN_M && p.y.abs() <= 0.5 * width + RACK_MARGIN_M
}

/// A point of the plan in the rack's own directions: along the row, and towards the back.
pub(crate) fn local(rack: &Rack, p: Vec2) -> Vec2 {
    let turned = (p - at(rack.at)).rotated(-rack.turn_deg.to_radians());
    vec2(turned.x, turned.y)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::standing;
    use super::*;
    use crate::app::live::Live;
    use crate::layout::{Cylinder, Plan};

    fn with_rack() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let rack = crate::app::stores::rack_preset(RackKind::Sockets, "R1", "main", [3.0, 1.0]);
        plan.boat.racks.push(rack);
        plan
    }

    fn drop_at(plan: Plan, id: &str, target: Vec2) -> Placing {
        let mut live = Live::default();
        let plan = Arc::new(plan);
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        dropped(&here, id, &standing("main", [0.0, 0.0]), target)
    }

    #[test]
    fn the_nearest_free_slot_is_taken() {
        let mut plan = with_rack();
        let slots = plan.boat.racks[0].slots();
        let wanted = Placing::InSlot {
            rack: "R1".into(),
            slot: slots[1].name.clone(),
        };
        assert_eq!(drop_at(plan.clone(), "C1", at(slots[1].at)), wanted);
        let cylinder = Cylinder::new("C2", "al-80cf", wanted.clone());
        plan.trips[0].cylinders.push(cylinder);
        let other = drop_at(plan.clone(), "C1", at(slots[1].at));
        assert!(
            matches!(&other, Placing::InSlot { .. }) && other != wanted,
            "{other:?}"
        );
        assert_eq!(drop_at(plan, "C2", at(slots[1].at)), wanted, "its own slot");
    }

    #[test]
    fn beside_a_rack_it_stands_on_the_deck() {
        let placing = drop_at(with_rack(), "C1", vec2(6.003, -0.5));
        assert_eq!(placing, standing("main", [6.0, -0.5]));
    }
}
