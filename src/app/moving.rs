//! Moving, turning and mirroring things: from where they were when the gesture began to the edit that
//! puts them where they are wanted.

use super::here::{Here, at, whole_turn};
use super::things;
use crate::geometry::{Vec2, vec2};
use crate::layout::{
    Changes, Cylinder, CylinderChange, Edit, Fixture, Gear, GearChange, GearShape, Known, Part,
    Person, PersonChange, Placing, Plan, Point, Thing, ThingKind, ThingRef, Trip,
};

/// A thing as it was when it was taken hold of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Grabbed {
    /// The thing with the placing, floor or place that it has in the part of the day shown.
    thing: Thing,
}

/// Gives the point another one.
type Carry<'a> = &'a dyn Fn(Vec2) -> Vec2;

impl Grabbed {
    /// Takes hold of a thing that can be moved and is not locked in its place.
    pub(crate) fn take(here: &Here<'_>, what: &ThingRef) -> Option<Self> {
        (!here.is_locked(what)).then(|| Self::as_it_is(here, what))?
    }

    /// A thing that can be moved, as it is in the part of the day shown, locked or not.
    pub(crate) fn as_it_is(here: &Here<'_>, what: &ThingRef) -> Option<Self> {
        let day = here.day;
        let thing = match what.kind {
            ThingKind::Cylinder => Thing::Cylinder(day.cylinder(&what.id)?.clone()),
            ThingKind::Gear => {
                let found = day.gear.iter().find(|state| state.gear.id == what.id)?;
                Thing::Gear(found.gear.clone())
            }
            ThingKind::Person => {
                let mut people = day.people.iter().map(|state| &state.person);
                Thing::Person(people.find(|person| person.id == what.id)?.clone())
            }
            ThingKind::Fixture
            | ThingKind::Place
            | ThingKind::Walkway
            | ThingKind::Rack
            | ThingKind::LashingPoint => things::get(here.plan, here.trip, what)?,
            ThingKind::Deck | ThingKind::Lashing | ThingKind::GearAboard | ThingKind::Part => {
                return None;
            }
        };
        Some(Self { thing })
    }

    /// What it is.
    pub(crate) fn what(&self) -> ThingRef {
        self.thing.to_ref()
    }

    /// The thing as it was.
    pub(crate) fn thing(&self) -> &Thing {
        &self.thing
    }

    /// The point that is put on whole centimetres.
    pub(crate) fn anchor(&self, plan: &Plan) -> Option<Vec2> {
        match &self.thing {
            Thing::Cylinder(item) => placing_point(plan, &item.placing),
            Thing::Gear(item) => match &item.floor {
                GearShape::Round { at: p, .. } | GearShape::Box { at: p, .. } => Some(at(*p)),
                GearShape::Line { points, .. } => points.first().map(|p| at(*p)),
            },
            Thing::Person(item) => Some(at(item.at)),
            Thing::Fixture(item) => item.outline.first().map(|p| at(*p)),
            Thing::Place(item) => Some(at(item.at)),
            Thing::Walkway(item) => item.line.first().map(|p| at(*p)),
            Thing::Rack(item) => Some(at(item.at)),
            Thing::LashingPoint(item) => Some(at(item.at)),
            Thing::Deck(_) | Thing::Lashing(_) | Thing::GearAboard(_) | Thing::Part(_) => None,
        }
    }

    /// The edits that move it.
    pub(crate) fn moved(&self, here: &Here<'_>, by: Vec2) -> Vec<Edit> {
        self.carried(here, &|p| p + by, 0.0, Side::Same)
    }

    /// The edits that turn it about a point, from the bow towards port.
    pub(crate) fn turned(&self, here: &Here<'_>, about: Vec2, deg: f64) -> Vec<Edit> {
        let rad = deg.to_radians();
        if let Thing::Cylinder(cylinder) = &self.thing
            && !matches!(
                cylinder.placing,
                Placing::Lying { .. } | Placing::InCrate { .. }
            )
        {
            // Something round looks the same from all sides; its kit does not.
            let faces = cylinder.kit_faces_deg.and_then(Known::value).unwrap_or(0.0);
            let turned = Cylinder {
                kit_faces_deg: Some(Known::Value(whole_turn(faces + deg))),
                ..cylinder.clone()
            };
            return cylinder_changed(here, &turned);
        }
        self.carried(here, &|p| about + (p - about).rotated(rad), deg, Side::Same)
    }

    /// The edits that put it on the other side of the centreline.
    pub(crate) fn mirrored(&self, here: &Here<'_>) -> Vec<Edit> {
        self.carried(here, &|p| vec2(p.x, -p.y), 0.0, Side::Other)
    }

    fn carried(&self, here: &Here<'_>, carry: Carry<'_>, turn: f64, side: Side) -> Vec<Edit> {
        let mut thing = self.thing.clone();
        carry_thing(here.plan, &mut thing, carry, turn, side);
        let mut edits = Vec::new();
        if let Thing::Rack(rack) = &thing {
            // What lies loose in a crate goes with it; what is in a slot does so by itself.
            let inside = here.day.cylinders.iter().map(|state| &state.cylinder);
            for cylinder in inside {
                if let Placing::InCrate { rack: of, .. } = &cylinder.placing
                    && *of == rack.id
                {
                    let mut placing = cylinder.placing.clone();
                    carry_placing(here.plan, &mut placing, carry, turn, side);
                    edits.push(place(here, &cylinder.id, placing));
                }
            }
        }
        edits.push(put_in_part(here, thing));
        edits
    }
}

/// Which side of the centreline a thing goes to.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Side {
    Same,
    Other,
}

impl Side {
    /// A direction after turning, or after mirroring.
    fn direction(self, deg: f64, turn: f64) -> f64 {
        match self {
            Self::Same if turn == 0.0 => deg,
            Self::Same => whole_turn(deg + turn),
            Self::Other => whole_turn(-deg),
        }
    }
}

fn carry_thing(plan: &Plan, thing: &mut Thing, carry: Carry<'_>, turn: f64, side: Side) {
    let point = |p: &mut Point| *p = tidy(carry(at(*p)));
    match thing {
        Thing::Cylinder(item) => {
            carry_placing(plan, &mut item.placing, carry, turn, side);
            if let Some(Known::Value(deg)) = &mut item.kit_faces_deg {
                *deg = side.direction(*deg, turn);
            }
        }
        Thing::Gear(item) => match &mut item.floor {
            GearShape::Round { at, .. } => point(at),
            GearShape::Box { at, turn_deg, .. } => {
                point(at);
                *turn_deg = side.direction(*turn_deg, turn);
            }
            GearShape::Line { points, .. } => points.iter_mut().for_each(point),
        },
        Thing::Person(item) => {
            point(&mut item.at);
            item.faces_deg = side.direction(item.faces_deg, turn);
        }
        Thing::Fixture(Fixture {
            outline,
            opens_over,
            front_deg,
            ..
        }) => {
            outline.iter_mut().for_each(point);
            opens_over.iter_mut().for_each(point);
            if let Some(deg) = front_deg {
                *deg = side.direction(*deg, turn);
            }
        }
        Thing::Place(item) => point(&mut item.at),
        Thing::Walkway(item) => item.line.iter_mut().for_each(point),
        Thing::Rack(item) => {
            point(&mut item.at);
            item.turn_deg = match side {
                Side::Same => side.direction(item.turn_deg, turn),
                // The back stays on the outside: mirrored, the row runs the other way.
                Side::Other => whole_turn(180.0 - item.turn_deg),
            };
        }
        Thing::LashingPoint(item) => {
            point(&mut item.at);
            if let Some(pull) = &mut item.straight_pull {
                pull.turn_deg = side.direction(pull.turn_deg, turn);
            }
        }
        Thing::Deck(_) | Thing::Lashing(_) | Thing::GearAboard(_) | Thing::Part(_) => {}
    }
}

fn carry_placing(plan: &Plan, placing: &mut Placing, carry: Carry<'_>, turn: f64, side: Side) {
    if let Placing::InSlot { .. } = placing
        && let Some(free) = out_of_slot(plan, placing)
    {
        *placing = free;
    }
    if let Some(point) = placing.at_mut() {
        *point = tidy(carry(at(*point)));
    }
    if let Placing::Lying {
        valve_towards_deg,
        upon,
        ..
    } = placing
    {
        *valve_towards_deg = side.direction(*valve_towards_deg, turn);
        upon.clear();
    }
    if let Placing::InCrate {
        valve_towards_deg, ..
    } = placing
    {
        *valve_towards_deg = side.direction(*valve_towards_deg, turn);
    }
}

/// Standing free where its slot is.
fn out_of_slot(plan: &Plan, placing: &Placing) -> Option<Placing> {
    let Placing::InSlot { rack, slot } = placing else {
        return None;
    };
    let rack = plan.boat.rack(rack)?;
    let at = rack.slot(slot).map_or(rack.at, |slot| slot.at);
    Some(Placing::Standing {
        deck: rack.deck.clone(),
        at,
        on: None,
    })
}

/// Where a placing is on the plan, that of its slot included.
pub(crate) fn placing_point(plan: &Plan, placing: &Placing) -> Option<Vec2> {
    if let Placing::InSlot { rack, slot } = placing {
        return Some(at(plan.boat.rack(rack)?.slot(slot)?.at));
    }
    placing.at().map(at)
}

/// The edit that places a cylinder from the part shown on.
pub(crate) fn place(here: &Here<'_>, cylinder: &str, placing: Placing) -> Edit {
    Edit::Place {
        trip: here.trip.id.clone(),
        part: here.part,
        cylinder: cylinder.to_owned(),
        placing,
    }
}

/// The edit that puts a thing of the boat or of the trip.
pub(crate) fn put(trip: &Trip, thing: Thing) -> Edit {
    let of_trip = thing.to_ref().kind.is_of_trip();
    Edit::Put {
        trip: of_trip.then(|| trip.id.clone()),
        thing: Box::new(thing),
    }
}

/// The edits after which a cylinder's kit, fill and pressure are so from the part shown on; what else
/// differs belongs to the cylinder itself and holds all day. Its placing is left alone.
pub(crate) fn cylinder_changed(here: &Here<'_>, now: &Cylinder) -> Vec<Edit> {
    let (Some(base), Some(part)) = (here.trip.cylinder(&now.id), here.trip.parts.get(here.part))
    else {
        return Vec::new();
    };
    let mut own = Cylinder {
        placing: base.placing.clone(),
        ..now.clone()
    };
    let change = part
        .changes
        .cylinders
        .iter()
        .find(|item| item.cylinder == now.id);
    if here.part == 0 && change.is_none() {
        return vec![put(here.trip, Thing::Cylinder(own))];
    }
    let Some(was) = here.day.cylinder(&now.id) else {
        return Vec::new();
    };
    own.kit = base.kit;
    own.kit_faces_deg = base.kit_faces_deg;
    own.fill = base.fill;
    own.pressure_bar = base.pressure_bar;
    let mut change = change.cloned().unwrap_or_else(|| CylinderChange {
        cylinder: now.id.clone(),
        placing: None,
        kit: None,
        kit_faces_deg: None,
        fill: None,
        pressure_bar: None,
    });
    if now.kit != was.kit {
        change.kit = Some(now.kit);
    }
    if now.kit_faces_deg != was.kit_faces_deg {
        change.kit_faces_deg = now.kit_faces_deg;
    }
    if now.fill != was.fill || now.pressure_bar != was.pressure_bar {
        change.fill = Some(now.fill);
        change.pressure_bar = now.pressure_bar;
    }
    let mut part = part.clone();
    let list = &mut part.changes.cylinders;
    match list.iter_mut().find(|item| item.cylinder == now.id) {
        Some(old) => *old = change,
        None => list.push(change),
    }
    vec![
        put(here.trip, Thing::Cylinder(own)),
        put(here.trip, Thing::Part(part)),
    ]
}

/// The edit after which a thing is so from the part shown on.
fn put_in_part(here: &Here<'_>, thing: Thing) -> Edit {
    let part = here.trip.parts.get(here.part);
    match (thing, part) {
        (Thing::Cylinder(item), _) => place(here, &item.id, item.placing),
        (Thing::Gear(gear), Some(part)) if changes_gear(here.part, part, &gear) => {
            let mut part = part.clone();
            change_gear(&mut part.changes, gear);
            put(here.trip, Thing::Part(part))
        }
        (Thing::Person(person), Some(part)) if changes_person(here.part, part, &person) => {
            let mut part = part.clone();
            change_person(&mut part.changes, person);
            put(here.trip, Thing::Part(part))
        }
        (thing, _) => put(here.trip, thing),
    }
}

fn changes_gear(index: usize, part: &Part, gear: &Gear) -> bool {
    let mut changes = part.changes.gear.iter();
    index > 0 || changes.any(|change| change.gear == gear.id && change.floor.is_some())
}

fn change_gear(changes: &mut Changes, gear: Gear) {
    let found = changes.gear.iter_mut().find(|item| item.gear == gear.id);
    match found {
        Some(change) => change.floor = Some(gear.floor),
        None => changes.gear.push(GearChange {
            gear: gear.id,
            floor: Some(gear.floor),
            stowed: None,
        }),
    }
}

fn changes_person(index: usize, part: &Part, person: &Person) -> bool {
    let mut changes = part.changes.people.iter();
    index > 0 || changes.any(|change| change.person == person.id && change.at.is_some())
}

fn change_person(changes: &mut Changes, person: Person) {
    let found = (changes.people.iter_mut()).find(|item| item.person == person.id);
    match found {
        Some(change) => change.at = Some(person.at),
        None => changes.people.push(PersonChange {
            person: person.id,
            deck: None,
            at: Some(person.at),
            posture: None,
            fins: None,
        }),
    }
}

/// A point without the dust of sums: to a tenth of a millimetre.
fn tidy(v: Vec2) -> Point {
    [v.x, v.y].map(|value| (value * 1e4).round() / 1e4 + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::live::Live;
    use crate::layout::{Cylinder, Fixings, Rack, RackKind};
    use std::sync::Arc;

    fn rack() -> Rack {
        Rack {
            turn_deg: 0.0,
            ..crate::app::stores::rack_preset(RackKind::Sockets, "R1", "main", [3.0, 1.0])
        }
    }

    fn plan() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        plan.boat.racks.push(rack());
        let standing = Placing::Standing {
            deck: "main".into(),
            at: [2.004, 0.5],
            on: None,
        };
        let slot = plan.boat.racks[0].slot_name(0);
        let in_slot = Placing::InSlot {
            rack: "R1".into(),
            slot,
        };
        let cylinders = &mut plan.trips[0].cylinders;
        cylinders.push(Cylinder::new("C1", "al-80cf", standing));
        cylinders.push(Cylinder::new("C2", "al-80cf", in_slot));
        plan
    }

    fn with_here<T>(plan: Plan, test: impl FnOnce(&Here<'_>) -> T) -> T {
        let mut live = Live::default();
        let plan = Arc::new(plan);
        live.refresh(&plan, "trip-1");
        test(&live.here(&plan, "trip-1", 0, "main").unwrap())
    }

    fn applied(plan: &Plan, edits: &[Edit]) -> Plan {
        let mut plan = plan.clone();
        for edit in edits {
            plan.apply(edit).unwrap();
        }
        plan
    }

    #[test]
    fn a_cylinder_comes_out_of_its_slot_when_moved() {
        let edits = with_here(plan(), |here| {
            let what = things::reference(ThingKind::Cylinder, "C2");
            Grabbed::take(here, &what)
                .unwrap()
                .moved(here, vec2(0.5, 0.0))
        });
        let after = applied(&plan(), &edits);
        let slot = plan().boat.racks[0].slots()[0].at;
        let now = after.trips[0].cylinders[1].placing.clone();
        let Placing::Standing { at, .. } = now else {
            panic!("{now:?}");
        };
        assert!((at[0] - slot[0] - 0.5).abs() < 1e-4, "{at:?} from {slot:?}");
    }

    #[test]
    fn mirroring_twice_gives_the_same_plan() {
        for kind in [ThingKind::Rack, ThingKind::Cylinder] {
            let id = if kind == ThingKind::Rack { "R1" } else { "C1" };
            let what = things::reference(kind, id);
            let mut now = plan();
            for _ in 0..2 {
                let edits = with_here(now.clone(), |here| {
                    Grabbed::take(here, &what).unwrap().mirrored(here)
                });
                now = applied(&now, &edits);
            }
            assert_eq!(now, plan(), "{kind}");
        }
    }

    #[test]
    fn a_rack_keeps_its_back_outside_when_mirrored() {
        let mut start = plan();
        start.trips[0].cylinders.clear();
        let edits = with_here(start.clone(), |here| {
            let what = things::reference(ThingKind::Rack, "R1");
            Grabbed::take(here, &what).unwrap().mirrored(here)
        });
        let after = applied(&start, &edits);
        let back = |rack: &Rack| rack.on_deck([0.0, 0.2])[1].abs() - rack.at[1].abs();
        let (was, is) = (&start.boat.racks[0], &after.boat.racks[0]);
        assert!(
            back(was) > 0.0 && (back(was) - back(is)).abs() < 1e-9,
            "{is:?}"
        );
        assert!(matches!(
            is.fixings,
            Fixings::Fixed { .. } | Fixings::Unfixed
        ));
    }
}
