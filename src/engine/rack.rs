//! All computed numbers of one rack with what is in it.

use super::front::Fronts;
use super::limits::Prepared;
use super::numbers::{FrontNumbers, Governing, RackNumbers, Sum, Utilisation, Way};
use super::ways::Judge;
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};
use crate::layout::{Boat, DayState, Fixings, Known, Rack, RackKind};
use crate::mechanics::motion::{Force, GRAVITY, LoadCase};
use crate::mechanics::rack::DeckLoad;
use crate::mechanics::standing;
use crate::mechanics::support::Base;
use crate::mechanics::vector::vec3;

use super::friction::{Bottom, Friction};

/// All numbers of one rack. `inside` are the cylinders in it.
pub(super) fn numbers(
    boat: &Boat,
    day: &DayState,
    rack: &Rack,
    inside: &[&Judge<'_>],
    prepared: &Prepared,
    fronts: &Fronts<'_>,
) -> RackNumbers {
    let loads = deck_loads(boat, rack, inside, prepared);
    let [length, width] = rack.outer_size();
    let row = Vec2::from_angle(rack.turn_deg.to_radians());
    let mut fixing_force_n = 0.0_f64;
    let mut landing_load_n = 0.0_f64;
    for (_, _, load, standing_n) in &loads {
        let pull = load.fixing_pull_n(row, [0.5 * length, 0.5 * width]);
        fixing_force_n = fixing_force_n.max(load.fixing_shear_n().hypotenuse(pull));
        landing_load_n = landing_load_n.max(*standing_n);
    }
    let fixing_strength_n = match rack.fixings {
        Fixings::Fixed { strength_kn } => strength_kn.value().map(|kn| 1000.0 * kn),
        Fixings::Unfixed => Some(0.0),
    };
    let utilisations = if rack.fixings == Fixings::Unfixed {
        unfixed(boat, rack, &loads)
    } else {
        Vec::new()
    };
    let inside_kg: f64 = inside.iter().map(|judge| judge.body.mass_kg).sum();
    RackNumbers {
        rack: rack.id.clone(),
        mass_kg: rack.mass_kg + inside_kg,
        fixing_force_n,
        fixing_strength_n,
        friction_needed: friction_needed(boat, rack, &loads),
        utilisations,
        fronts: rack
            .fronts
            .iter()
            .map(|front| front_numbers(day, rack, front, (inside, prepared), fronts))
            .collect(),
        side_force_n: side_force_n(rack, inside, prepared),
        side_strength_n: rack
            .slot_strength_kn
            .value()
            .map(|kn| 1000.0 * kn)
            .filter(|_| has_sides(rack)),
        landing_load_n,
        load_limit_n: rack
            .load_limit_kg
            .and_then(Known::value)
            .map(|kilograms| kilograms * GRAVITY),
    }
}

/// Do cylinders in it push on something beside them that has a strength of its own?
fn has_sides(rack: &Rack) -> bool {
    matches!(rack.kind, RackKind::Crate | RackKind::Cradles)
}

/// What lies loose in a crate goes to its low side all together; in cradles each pushes its own saddle, square
/// to its axis.
fn side_force_n(rack: &Rack, inside: &[&Judge<'_>], prepared: &Prepared) -> Option<f64> {
    if !has_sides(rack) || inside.is_empty() {
        return None;
    }
    let mut sums: Vec<Vec2> = Vec::new();
    let mut most = 0.0_f64;
    let row = Vec2::from_angle(rack.turn_deg.to_radians());
    for judge in inside {
        for (index, (_, force)) in judge.forces(prepared).iter().enumerate() {
            let push = judge.body.mass_kg * force.along_deck();
            if rack.kind == RackKind::Cradles {
                most = most.max(push.dot(row).abs());
                continue;
            }
            if sums.len() <= index {
                sums.push(Vec2::ZERO);
            }
            sums[index] += push;
        }
    }
    Some(sums.iter().map(|sum| sum.length()).fold(most, f64::max))
}

/// What the rack hands on to the deck, case by case, and the weight on its shelf.
fn deck_loads(
    boat: &Boat,
    rack: &Rack,
    inside: &[&Judge<'_>],
    prepared: &Prepared,
) -> Vec<(LoadCase, Force, DeckLoad, f64)> {
    let deck_z = boat
        .deck(&rack.deck)
        .map_or(0.0, |deck| deck.height_above_waterline_m);
    let middle = vec2(rack.at[0], rack.at[1]);
    let centre_m = 0.5 * (rack.shelf_height_m + rack.edge_height_m);
    let own = standing::Body {
        mass_kg: rack.mass_kg,
        centre_height_m: centre_m,
        kappa2_m2: 0.0,
    };
    let position = vec3(middle.x, middle.y, deck_z + centre_m);
    // A shelf above the deck is part of the rack, and so are the floors of cradles and crates.
    let carries = rack.own_floor
        || rack.shelf_height_m > 0.0
        || matches!(rack.kind, RackKind::Cradles | RackKind::Crate);
    let mut loads: Vec<(LoadCase, Force, DeckLoad, f64)> = prepared
        .cases
        .forces(position)
        .map(|(case, force)| {
            let mut load = DeckLoad::default();
            load.add_body(&own, Vec2::ZERO, &force);
            (case, force, load, 0.0)
        })
        .collect();
    for judge in inside {
        let body = judge.body;
        let on_deck = standing::Body {
            centre_height_m: body.floor_m + body.cg_height_m,
            ..body.upright()
        };
        let slot_forces = judge.slot_forces_by_case(prepared);
        let cases = judge.forces(prepared).iter().zip(loads.iter_mut());
        for (number, ((_, force), (_, _, load, shelf_n))) in cases.enumerate() {
            *shelf_n += body.mass_kg * force.a_n().max(0.0);
            let at = vec2(body.cg.x, body.cg.y) - middle;
            let in_slot = (judge.hold.slot.as_ref()).zip(slot_forces.get(number));
            if carries || in_slot.is_none() {
                load.add_body(&on_deck, at, force);
            } else if let Some((slot, forces)) = in_slot {
                let direction = crate::mechanics::lean::tipping_direction(force, &on_deck);
                let rail_n = forces.edge_n.hypotenuse(forces.front_n);
                load.add_rail(rail_n, direction, slot.edge_height_m);
            }
        }
    }
    loads
}

/// The friction that an unfixed rack needs, where nobody knows that of its deck.
fn friction_needed(
    boat: &Boat,
    rack: &Rack,
    loads: &[(LoadCase, Force, DeckLoad, f64)],
) -> Option<f64> {
    let friction = Friction::of(&boat.deck(&rack.deck)?.surface, Bottom::Bare);
    if rack.fixings != Fixings::Unfixed || friction.value.is_some() {
        return None;
    }
    let needed = loads.iter().map(|(_, _, load, _)| load.slide(1.0));
    Some(needed.fold(0.0, f64::max)).filter(|needed| needed.is_finite())
}

/// An unfixed rack is itself a thing that tips and slides, with its cylinders in it.
fn unfixed(
    boat: &Boat,
    rack: &Rack,
    loads: &[(LoadCase, Force, DeckLoad, f64)],
) -> Vec<Utilisation> {
    let [length, width] = rack.outer_size();
    let along = 0.5 * length * Vec2::from_angle(rack.turn_deg.to_radians());
    let across = 0.5 * width * Vec2::from_angle(rack.turn_deg.to_radians()).perp();
    let base = Base::Hull(vec![
        -along - across,
        along - across,
        along + across,
        across - along,
    ]);
    let friction = boat
        .deck(&rack.deck)
        .and_then(|deck| Friction::of(&deck.surface, Bottom::Bare).value);
    let worst = |measure: &dyn Fn(&DeckLoad) -> f64, way: Way| {
        let mut worst: Option<(f64, LoadCase, Force)> = None;
        for (case, force, load, _) in loads {
            let value = measure(load);
            if worst.is_none_or(|(best, ..)| value > best) {
                worst = Some((value, *case, *force));
            }
        }
        let (value, case, force) = worst?;
        Some(Utilisation {
            way,
            value: Some(value).filter(|value| value.is_finite()),
            goes: value >= 1.0,
            governing: Some(Governing {
                case,
                towards_deg: force.along_deck().angle().to_degrees(),
                a_h_m_s2: force.a_h(),
                a_n_m_s2: force.a_n(),
            }),
            sum: Sum::default(),
        })
    };
    let tip = worst(&|load| load.tip(&base), Way::Tips);
    let slide = friction.and_then(|mu| worst(&|load| load.slide(mu), Way::Slides));
    tip.into_iter().chain(slide).collect()
}

fn front_numbers(
    day: &DayState,
    rack: &Rack,
    front: &crate::layout::Front,
    (inside, prepared): (&[&Judge<'_>], &Prepared),
    fronts: &Fronts<'_>,
) -> FrontNumbers {
    let state = day
        .fronts
        .iter()
        .find(|state| state.rack == rack.id && state.front.id == front.id);
    let front = state.map_or(front, |state| &state.front);
    let behind: Vec<&&Judge<'_>> = inside
        .iter()
        .filter(|judge| {
            let slot = judge.body.slot.as_ref();
            slot.is_some_and(|(_, slot)| front.slots.contains(slot))
        })
        .collect();
    let pulls = behind
        .iter()
        .filter(|_| front.shut)
        .filter_map(|judge| {
            let slot = judge.hold.slot.as_ref()?;
            Some((judge, slot, slot.front.as_ref()?))
        })
        .map(|(judge, slot, closed)| {
            if let Some(figures) = fronts.figures(slot) {
                return figures.most_n;
            }
            let forces = judge.slot_forces_by_case(prepared).iter();
            let most_n = forces.map(|forces| forces.front_n).fold(0.0, f64::max);
            closed.pull_per_push * most_n
        });
    let pull_n = pulls.fold(0.0, f64::max);
    FrontNumbers {
        front: front.id.clone(),
        behind: behind.iter().map(|judge| judge.body.id.clone()).collect(),
        pull_n,
        strength_n: front.strength_kn.value().map(|kn| 1000.0 * kn),
        shut: front.shut,
    }
}
