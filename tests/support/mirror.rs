//! A plan mirrored about the boat's centreline: port for starboard.

use std::mem;

use snugdown::layout::{
    Changes, Fixture, Gear, GearShape, Known, MotionInput, Placing, Plan, Point, Rack, Trip,
};

/// The same boat seen in a mirror, with all names as they were.
pub(crate) fn mirrored(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let boat = &mut plan.boat;
    for deck in &mut boat.decks {
        points(&mut deck.outline);
        deck.holes.iter_mut().for_each(|hole| points(hole));
    }
    boat.fixtures.iter_mut().for_each(fixture);
    boat.places
        .iter_mut()
        .for_each(|place| point(&mut place.at));
    boat.walkways
        .iter_mut()
        .for_each(|way| points(&mut way.line));
    boat.racks.iter_mut().for_each(rack);
    for lashing_point in &mut boat.lashing_points {
        point(&mut lashing_point.at);
        if let Some(straight) = &mut lashing_point.straight_pull {
            turn(&mut straight.turn_deg);
        }
    }
    plan.trips.iter_mut().for_each(trip);
    plan
}

fn point(at: &mut Point) {
    // Adding zero keeps the centreline from becoming -0.
    at[1] = 0.0 - at[1];
}

fn points(all: &mut [Point]) {
    all.iter_mut().for_each(point);
}

/// A direction from the bow towards port becomes one towards starboard.
fn turn(degrees: &mut f64) {
    *degrees = 0.0 - *degrees;
}

fn turn_known(degrees: &mut Option<Known>) {
    if let Some(Known::Value(degrees)) = degrees {
        turn(degrees);
    }
}

fn fixture(fixture: &mut Fixture) {
    points(&mut fixture.outline);
    points(&mut fixture.opens_over);
    if let Some(front) = &mut fixture.front_deg {
        turn(front);
    }
}

/// The back of a rack lies to the left of its row, in the mirror to the right: so the row runs the other
/// way, with its slots in the other order.
fn rack(rack: &mut Rack) {
    point(&mut rack.at);
    let names: Vec<String> = (0..rack.slot_count())
        .map(|index| rack.slot_name(index))
        .collect();
    rack.slot_names = names
        .chunks(rack.columns as usize)
        .flat_map(|row| row.iter().rev().cloned())
        .collect();
    rack.turn_deg = 180.0 - rack.turn_deg;
}

fn trip(trip: &mut Trip) {
    for cylinder in &mut trip.cylinders {
        placing(&mut cylinder.placing);
        turn_known(&mut cylinder.kit_faces_deg);
    }
    trip.gear.iter_mut().for_each(gear);
    for person in &mut trip.people {
        point(&mut person.at);
        turn(&mut person.faces_deg);
    }
    for part in &mut trip.parts {
        part.motion.iter_mut().for_each(motion);
        changes(&mut part.changes);
    }
}

fn motion(motion: &mut MotionInput) {
    turn(&mut motion.heel_deg);
    mem::swap(&mut motion.push_port_g, &mut motion.push_starboard_g);
}

fn gear(gear: &mut Gear) {
    floor(&mut gear.floor);
}

fn floor(floor: &mut GearShape) {
    match floor {
        GearShape::Round { at, .. } => point(at),
        GearShape::Box { at, turn_deg, .. } => {
            point(at);
            turn(turn_deg);
        }
        GearShape::Line { points: line, .. } => points(line),
    }
}

fn placing(placing: &mut Placing) {
    placing.at_mut().into_iter().for_each(point);
    match placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => turn(valve_towards_deg),
        Placing::Standing { .. }
        | Placing::InSlot { .. }
        | Placing::UpsideDown { .. }
        | Placing::Hanging { .. }
        | Placing::HeldByHand { .. }
        | Placing::OnDiver { .. }
        | Placing::Filling { .. }
        | Placing::InWater
        | Placing::Ashore => {}
    }
}

fn changes(changes: &mut Changes) {
    for change in &mut changes.cylinders {
        change.placing.iter_mut().for_each(placing);
        turn_known(&mut change.kit_faces_deg);
    }
    for change in &mut changes.gear {
        change.floor.iter_mut().for_each(floor);
    }
    for change in &mut changes.people {
        change.at.iter_mut().for_each(point);
    }
}
