//! How each sort of thing on a deck is drawn, with its name.

use super::super::here::{Here, at};
use super::super::moving::placing_point;
use super::super::outcome;
use super::super::things::reference;
use super::drawing::{Drawing, Form, Ink, Looks, Sign, Stress};
use super::hit;
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::{Shape, Vec2, vec2};
use crate::layout::{Cylinder, Fill, FixtureKind, Kit, Placing, Rack, RackKind, ThingKind};

impl Drawing {
    pub(super) fn faint(&mut self, deck: &DeckScene) {
        if let Some(floor) = &deck.floor {
            self.push(Form::Floor(floor.clone()), Ink::Deck, Stress::Faint);
        }
        for thing in &deck.things {
            let ink = match thing.sort {
                ThingSort::Fixture | ThingSort::Edge | ThingSort::Place => Ink::Fixture,
                ThingSort::Rack => Ink::Rack,
                ThingSort::Cylinder => Ink::Cylinder,
                ThingSort::Gear => Ink::Gear,
                ThingSort::Person => Ink::Person,
                ThingSort::Lashing => Ink::Lashing,
            };
            self.push(Form::Area(thing.shape.clone()), ink, Stress::Faint);
        }
    }

    pub(super) fn body(&mut self, here: &Here<'_>, looks: &Looks<'_>, thing: &SceneThing) {
        let stress = looks.stress(&thing.thing);
        let id = thing.thing.id.as_str();
        match thing.sort {
            ThingSort::Fixture => self.fixture(here, looks, thing, stress),
            ThingSort::Rack => {
                if let Some(rack) = here.plan.boat.rack(id) {
                    self.rack(here, looks, rack, &thing.shape, stress);
                }
            }
            ThingSort::Cylinder => {
                if let Some(cylinder) = here.day.cylinder(id) {
                    self.cylinder(here, looks, cylinder, &thing.shape, stress);
                }
            }
            ThingSort::Person => {
                self.push(Form::Area(thing.shape.clone()), Ink::Person, stress);
                let people = here.day.people.iter().map(|state| &state.person);
                if let Some(person) = people.into_iter().find(|person| person.id == id) {
                    let sign = Sign::Facing(person.faces_deg.to_radians());
                    let at = at(person.at);
                    self.push(Form::Sign { at, sign }, Ink::Person, stress);
                }
                if looks.names {
                    self.label(id, thing.shape.centroid(), 0.6, 2);
                }
            }
            ThingSort::Gear => {
                self.push(Form::Area(thing.shape.clone()), Ink::Gear, stress);
                if looks.names {
                    self.label(&thing.name, thing.shape.centroid(), room(&thing.shape), 1);
                }
            }
            ThingSort::Lashing | ThingSort::Edge | ThingSort::Place => {}
        }
    }

    fn fixture(&mut self, here: &Here<'_>, looks: &Looks<'_>, thing: &SceneThing, stress: Stress) {
        let fixture = here.plan.boat.fixture(&thing.thing.id);
        let overhead = fixture
            .is_some_and(|item| item.underside_m > 0.5 || item.kind == FixtureKind::Overhead);
        let ink = if overhead {
            Ink::Overhead
        } else {
            Ink::Fixture
        };
        self.push(Form::Area(thing.shape.clone()), ink, stress);
        if looks.names {
            let name = fixture
                .and_then(|item| item.name.clone())
                .unwrap_or_else(|| {
                    fixture.map_or_else(
                        || thing.name.clone(),
                        |item| super::super::words::stores::fixture(item.kind).to_owned(),
                    )
                });
            self.label(name, thing.shape.centroid(), room(&thing.shape), 1);
        }
    }

    pub(super) fn rack(
        &mut self,
        here: &Here<'_>,
        looks: &Looks<'_>,
        rack: &Rack,
        shape: &Shape,
        stress: Stress,
    ) {
        self.push(Form::Area(shape.clone()), Ink::Rack, stress);
        let [length, width] = rack.outer_size();
        if looks.names {
            let name = rack.name.as_deref().unwrap_or(&rack.id);
            let (half, side) = (0.5 * length, 0.5 * width);
            let edges = [[half, 0.0], [-half, 0.0], [0.0, side], [0.0, -side]];
            let more = [
                [0.6 * half, side],
                [-0.6 * half, side],
                [0.6 * half, -side],
                [-0.6 * half, -side],
            ];
            let points = edges
                .iter()
                .chain(&more)
                .map(|edge| at(rack.on_deck(*edge)));
            self.label_beside(name, points.collect(), 1);
        }
        let line = |back: f64| {
            let end = |along: f64| at(rack.on_deck([along, back]));
            vec![end(-0.5 * length), end(0.5 * length)]
        };
        if rack.kind == RackKind::BenchRow {
            let points = line(0.5 * width);
            self.push(
                Form::Line {
                    points,
                    broken: false,
                },
                Ink::Rack,
                stress,
            );
            let fronts = here.day.fronts.iter().filter(|state| state.rack == rack.id);
            for state in fronts {
                let slots: Vec<f64> = (state.front.slots.iter())
                    .filter_map(|name| rack.slot(name))
                    .map(|slot| super::super::tools::local(rack, at(slot.at)).x)
                    .collect();
                let (Some(first), Some(last)) = (
                    slots.iter().copied().reduce(f64::min),
                    slots.iter().copied().reduce(f64::max),
                ) else {
                    continue;
                };
                let half = 0.5 * rack.pitch_m;
                let end = |along: f64| at(rack.on_deck([along, -0.5 * width]));
                let points = vec![end(first - half), end(last + half)];
                let broken = !state.front.shut;
                if looks.names {
                    self.label_beside(state.front.called(), along(&points), 1);
                }
                self.push(Form::Line { points, broken }, Ink::Lashing, stress);
            }
        }
        if matches!(
            rack.kind,
            RackKind::Sockets | RackKind::BenchRow | RackKind::Cradles
        ) {
            let radius = 0.5 * rack.bore_m.unwrap_or(0.78 * rack.pitch_m);
            for slot in rack.slots() {
                let form = if rack.kind == RackKind::Cradles {
                    let across = Vec2::from_angle(rack.turn_deg.to_radians()).perp();
                    let half = 0.3 * width;
                    Shape::Stadium {
                        from: at(slot.at) - half * across,
                        to: at(slot.at) + half * across,
                        radius: 0.35 * rack.pitch_m,
                    }
                } else {
                    Shape::disc(at(slot.at), radius)
                };
                self.push(Form::Area(form), Ink::Slot, Stress::Plain);
                if looks.names {
                    self.label(&slot.name, at(slot.at), 2.0 * radius, 0);
                }
            }
        }
    }

    fn cylinder(
        &mut self,
        here: &Here<'_>,
        looks: &Looks<'_>,
        cylinder: &Cylinder,
        shape: &Shape,
        stress: Stress,
    ) {
        let leaning = looks.leaning.contains(&cylinder.id);
        let held = (here.cylinder_numbers(&cylinder.id).zip(here.numbers))
            .filter(|_| looks.margins)
            .map(|(numbers, part)| (numbers, outcome::of_cylinder(numbers, &part.motion).tone));
        let ink = match held {
            _ if leaning => Ink::Leaning,
            Some((_, tone)) => Ink::Held(tone),
            None => Ink::Cylinder,
        };
        let middle = placing_point(here.plan, &cylinder.placing).unwrap_or(shape.centroid());
        let upright = here.cylinder_numbers(&cylinder.id);
        let upright = upright.filter(|numbers| numbers.stance.is_upright());
        if let (Kit::On, Some(numbers)) = (cylinder.kit, upright) {
            // The shape is that of the cylinder with its kit; the shell stands out from it.
            self.push(Form::Area(shape.clone()), Ink::Kit, stress);
            let shell = Shape::disc(middle, numbers.body_radius_m);
            self.push(Form::Area(shell), ink, stress);
        } else {
            self.push(Form::Area(shape.clone()), ink, stress);
        }
        if let Shape::Disc { center, radius } = shape {
            // An empty one is drawn hollow, as it is lighter than it looks.
            if cylinder.fill == Fill::Empty {
                let hollow = Form::Area(Shape::disc(*center, 0.62 * radius));
                self.push(hollow, Ink::Slot, Stress::Plain);
            }
        }
        if let Some(towards) = valve_towards(&cylinder.placing)
            && let Some(tip) = valve_end(shape, towards)
        {
            self.push(Form::Area(Shape::disc(tip, 0.028)), Ink::Kit, stress);
        }
        let used = held.and_then(|(numbers, _)| outcome::worst_share(numbers));
        if let Some(used) = used {
            let text = outcome::percent(used.min(9.99));
            self.label(text, middle, 1.6 * shape.bounds().size().x, 3);
        } else if looks.names {
            self.label(&cylinder.id, middle, shape.bounds().size().x, 3);
        }
    }

    pub(super) fn lashings(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        for state in &here.day.lashings {
            let lashing = &state.lashing;
            if let Some(points) = hit::lashing_line(here, lashing) {
                let stress = looks.stress(&reference(ThingKind::Lashing, &lashing.id));
                let broken = !lashing.shut;
                if looks.names {
                    let name = lashing.name.as_deref().unwrap_or(&lashing.id);
                    self.label_beside(name, along(&points), 2);
                }
                self.push(Form::Line { points, broken }, Ink::Lashing, stress);
            }
        }
    }

    pub(super) fn points_and_places(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let boat = &here.plan.boat;
        for point in boat
            .lashing_points
            .iter()
            .filter(|item| item.deck == here.deck)
        {
            let stress = looks.stress(&reference(ThingKind::LashingPoint, &point.id));
            let form = Form::Sign {
                at: at(point.at),
                sign: Sign::Point,
            };
            self.push(form, Ink::Lashing, stress);
            if looks.names {
                let name = point.name.as_deref().unwrap_or(&point.id);
                self.label_beside(name, vec![at(point.at)], 0);
            }
        }
        for place in boat.places.iter().filter(|item| item.deck == here.deck) {
            let stress = looks.stress(&reference(ThingKind::Place, &place.id));
            let form = Form::Sign {
                at: at(place.at),
                sign: Sign::Place,
            };
            self.push(form, Ink::Walkway, stress);
            if looks.names {
                let name = place.name.as_deref().unwrap_or(&place.id);
                self.label(name, at(place.at) + vec2(0.0, -0.12), 1.2, 1);
            }
        }
    }

    pub(super) fn walkways(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let walkways = here.plan.boat.walkways.iter();
        for walkway in walkways.filter(|item| item.deck == here.deck) {
            let stress = looks.stress(&reference(ThingKind::Walkway, &walkway.id));
            let numbers = here.numbers.and_then(|numbers| {
                let mut list = numbers.walkways.iter();
                list.find(|item| item.walkway == walkway.id)
            });
            let wanted = numbers.map(|item| item.wanted_m).or(walkway.clear_width_m);
            let form = Form::Strip {
                points: walkway.line.iter().map(|p| at(*p)).collect(),
                width_m: wanted.unwrap_or(0.6),
            };
            self.push(form, Ink::Walkway, stress);
            let spot = numbers.filter(|item| item.clear_m < item.wanted_m);
            if let Some(spot) = spot.and_then(|item| item.clear_spot.as_ref()) {
                let [from, to] = spot.at.map(at);
                self.push(Form::Width { from, to }, Ink::Guide, Stress::Plain);
            }
        }
    }

    /// The floor that the selected cylinders sweep if they go.
    pub(super) fn falls(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let Some(numbers) = here.numbers else { return };
        for fall in &numbers.falls {
            let what = reference(ThingKind::Cylinder, &fall.cylinder);
            if !looks.selection.contains(&what) || fall.sweep.len() < 3 {
                continue;
            }
            let outline = fall.sweep.iter().map(|p| at(*p)).collect();
            if let Ok(outline) = crate::geometry::Outline::new(outline) {
                let form = Form::Area(Shape::Polygon(outline));
                self.push(form, Ink::Sweep, Stress::Plain);
            }
        }
    }
}

/// Points along a line at which its name may stand, the middles of its pieces first.
fn along(points: &[Vec2]) -> Vec<Vec2> {
    let shares = [0.5, 0.25, 0.75];
    let pairs = || points.windows(2);
    let of = |share: f64| pairs().map(move |pair| pair[0] + share * (pair[1] - pair[0]));
    shares.into_iter().flat_map(of).collect()
}

/// The room for a name, in metres: the longer side.
fn room(shape: &Shape) -> f64 {
    let size = shape.bounds().size();
    size.x.max(0.6 * size.y)
}

/// Which way the valve of a lying cylinder points, in radians.
fn valve_towards(placing: &Placing) -> Option<f64> {
    match placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => Some(valve_towards_deg.to_radians()),
        _ => None,
    }
}

fn valve_end(shape: &Shape, towards_rad: f64) -> Option<Vec2> {
    let direction = Vec2::from_angle(towards_rad);
    match shape {
        Shape::Stadium { .. } | Shape::Polygon(_) => {
            let middle = shape.centroid();
            let reach = shape.support(direction) - middle.dot(direction);
            Some(middle + (reach - 0.03) * direction)
        }
        Shape::Disc { .. } => None,
    }
}
