//! What stands, lies and is about where cylinders may fall.

use super::sweep::{Shell, Sweep};
use super::{Body, FallInput, Rolls};
use crate::engine::hindrance::OVERHEAD_M;
use crate::engine::numbers::{Struck, StruckKind, ThingSort};
use crate::engine::walkway::strip_of;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::{Bounds, Region, Segment, Shape, Strip, Vec2, rectangle, separation};
use crate::layout::{Boat, FixtureKind, Id, PlaceKind};

/// How far a cylinder rolls where nothing stops it: longer than any deck that this is for.
const FAR_M: f64 = 60.0;

/// Something that is reached, other than a cylinder or a place.
#[derive(Debug)]
struct Target<'a> {
    kind: StruckKind,
    id: &'a Id,
    shape: &'a Shape,
}

/// Gear no higher than this lies flat on the deck, as a mat does, and takes no harm from what falls on it
/// (common practice, no source).
const FLAT_M: f64 = 0.02;

/// A deck, ready to be fallen on.
#[derive(Debug)]
struct DeckGround<'a> {
    scene: &'a DeckScene,
    targets: Vec<Target<'a>>,
    /// The target that each thing of the scene is.
    target_of: Vec<Option<usize>>,
    places: Vec<(&'a Id, Vec2)>,
    walkways: Vec<(&'a Id, Strip)>,
    /// The body that each thing of the scene is.
    body_of: Vec<Option<usize>>,
    /// What stops a rolling cylinder.
    stops: Vec<(&'a Id, &'a Shape)>,
}

/// All decks, ready to be fallen on.
#[derive(Debug)]
pub(super) struct Surroundings<'a> {
    decks: Vec<DeckGround<'a>>,
    all: &'a [Body],
    shells: Vec<Shell>,
    free: Vec<bool>,
}

impl<'a> Surroundings<'a> {
    pub(super) fn new(input: FallInput<'a>) -> Self {
        let shells: Vec<Shell> = (input.bodies.iter())
            .map(|body| {
                Shell::of(&body.shell_shape()).unwrap_or(Shell {
                    from: body.at,
                    to: body.at,
                    radius_m: body.radius_m,
                })
            })
            .collect();
        Self {
            decks: (input.scene.decks.iter())
                .map(|scene| DeckGround::new(input, scene))
                .collect(),
            all: input.bodies,
            shells,
            free: (0..input.bodies.len())
                .map(|number| input.stands_free(number))
                .collect(),
        }
    }

    fn deck(&self, body: &Body) -> Option<&DeckGround<'a>> {
        self.decks.iter().find(|deck| deck.scene.deck == body.deck)
    }

    pub(super) fn gap_m(&self, one: usize, other: usize) -> f64 {
        self.shells[one].gap_m(&self.shells[other])
    }

    /// The cylinders that stand free in a sweep, the nearest first; one that stands behind another is
    /// only reached by that one.
    pub(super) fn standing_in(
        &self,
        input: FallInput<'_>,
        falling: usize,
        sweep: &Sweep,
    ) -> Vec<usize> {
        let from = &input.bodies[falling];
        let Some(deck) = self.deck(from) else {
            return Vec::new();
        };
        let mut near: Vec<(f64, usize)> = (deck.bodies_near(sweep))
            .filter(|&number| number != falling && self.all[number].stance.is_upright())
            .filter(|&number| sweep.touches_shell(&self.shells[number]))
            .map(|number| (from.at.distance(self.all[number].at), number))
            .collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut reached: Vec<usize> = Vec::new();
        let mut seen: Vec<usize> = Vec::new();
        for (_, number) in near {
            let body = &self.all[number];
            let way = Segment::new(from.at, body.at);
            let hidden = (seen.iter().map(|&other| &self.all[other]))
                .any(|other| way.distance(other.at) < 0.5 * other.radius_m);
            if !hidden {
                seen.push(number);
                if self.free[number] {
                    reached.push(number);
                }
            }
        }
        reached
    }

    /// Everything in a sweep.
    pub(super) fn reached(&self, by: &Body, sweep: &Sweep, struck: &mut Vec<Struck>) {
        let Some(deck) = self.deck(by) else { return };
        let mut add = |kind: StruckKind, thing: &Id| {
            struck.push(Struck {
                thing: thing.clone(),
                kind,
                goes_too: false,
                by: by.id.clone(),
                afterwards: false,
            });
        };
        for number in deck.bodies_near(sweep) {
            let body = &self.all[number];
            if body.id != by.id && sweep.touches_shell(&self.shells[number]) {
                add(StruckKind::Cylinder, &body.id);
            }
        }
        for (id, at) in &deck.places {
            if sweep.touches_disc(*at, 0.0) {
                add(StruckKind::Place, id);
            }
        }
        let round = Bounds::of([sweep.edge]).grown(sweep.reach_m());
        let targets: Vec<&Target<'_>> = deck.targets_near(&round).collect();
        let walkways: Vec<_> = (deck.walkways.iter())
            .filter(|(_, strip)| strip.bounds().meets(&round))
            .collect();
        if targets.is_empty() && walkways.is_empty() {
            return;
        }
        let Some(sector) = sweep.sector() else { return };
        for target in targets {
            if sector.touches(target.shape) {
                add(target.kind, target.id);
            }
        }
        for (id, strip) in walkways {
            if strip.parts().iter().any(|part| sector.touches(part)) {
                add(StruckKind::Walkway, id);
            }
        }
    }

    /// Where one that has fallen rolls: from where its middle lies, down the low side.
    pub(super) fn rolls(&self, body: &Body, sweep: &Sweep, downhill: Vec2) -> Option<Rolls> {
        let deck = self.deck(body)?;
        let start = sweep.edge + 0.5 * sweep.height_m * sweep.towards;
        let (far_m, stop) = deck.rolls_m(start, downhill, sweep.radius_m);
        Some(Rolls {
            from: start.into(),
            to: (start + far_m * downhill).into(),
            far_m,
            stopped_by: stop.cloned(),
        })
    }

    /// People and places over which it rolls when it lies: as wide as it is long, from where its
    /// middle lies down to the next thing that stops it or the deck's edge.
    pub(super) fn rolled_over(
        &self,
        body: &Body,
        sweep: &Sweep,
        downhill: Vec2,
        struck: &mut Vec<Struck>,
    ) {
        let Some(deck) = self.deck(body) else { return };
        let start = sweep.edge + 0.5 * sweep.height_m * sweep.towards;
        let (far_m, _) = deck.rolls_m(start, downhill, sweep.radius_m);
        let middle = start + 0.5 * far_m * downhill;
        let half_width = 0.5 * sweep.height_m;
        let Ok(band) = rectangle(middle, 0.5 * far_m, half_width, downhill.angle()) else {
            return;
        };
        let mut add = |kind: StruckKind, thing: &Id| {
            struck.push(Struck {
                thing: thing.clone(),
                kind,
                goes_too: false,
                by: body.id.clone(),
                afterwards: true,
            });
        };
        for target in deck.targets_near(&band.bounds()) {
            let person = target.kind == StruckKind::Person;
            if person && separation(target.shape, &band).overlaps() {
                add(target.kind, target.id);
            }
        }
        for (id, at) in &deck.places {
            if band.contains(*at) {
                add(StruckKind::Place, id);
            }
        }
    }
}

impl<'a> DeckGround<'a> {
    fn new(input: FallInput<'a>, scene: &'a DeckScene) -> Self {
        let target = |thing: &'a SceneThing| -> Option<Target<'a>> {
            if thing.from_m >= OVERHEAD_M {
                return None;
            }
            let id = &thing.thing.id;
            let kind = match thing.sort {
                ThingSort::Person => StruckKind::Person,
                ThingSort::Gear if thing.to_m <= FLAT_M => return None,
                ThingSort::Gear => StruckKind::Gear,
                ThingSort::Fixture => breaks(input.boat.fixture(id)?.kind)?,
                _ => return None,
            };
            let shape = &thing.shape;
            Some(Target { kind, id, shape })
        };
        let mut targets = Vec::new();
        let target_of = (scene.things.iter())
            .map(|thing| {
                targets.push(target(thing)?);
                Some(targets.len() - 1)
            })
            .collect();
        // Both are in the order of their names.
        let mut bodies = (input.bodies.iter().enumerate())
            .filter(|(_, body)| body.deck == scene.deck)
            .peekable();
        let body_of = (scene.things.iter())
            .map(|thing| {
                let is_it = |(_, body): &(usize, &Body)| body.id == thing.thing.id;
                let is_cylinder = thing.sort == ThingSort::Cylinder;
                let (number, _) = bodies.next_if(|body| is_cylinder && is_it(body))?;
                Some(number)
            })
            .collect();
        let stops = (scene.things.iter())
            .filter(|thing| match thing.sort {
                ThingSort::Fixture => !thing.walked_on && thing.from_m < OVERHEAD_M,
                ThingSort::Rack => true,
                _ => false,
            })
            .map(|thing| (&thing.thing.id, &thing.shape))
            .collect();
        Self {
            scene,
            targets,
            target_of,
            body_of,
            places: places(input.boat, &scene.deck),
            walkways: walkways(input.boat, &scene.deck),
            stops,
        }
    }

    fn bodies_near(&self, sweep: &Sweep) -> impl Iterator<Item = usize> {
        let round = Bounds::of([sweep.edge]).grown(sweep.reach_m());
        // The bounds of a thing are those of its shell with the kit on it.
        (self.scene.near(&round, 0.0).into_iter()).filter_map(|thing| self.body_of[thing])
    }

    fn targets_near(&self, round: &Bounds) -> impl Iterator<Item = &Target<'a>> {
        (self.scene.near(round, 0.0).into_iter())
            .filter_map(|thing| self.target_of[thing])
            .map(|number| &self.targets[number])
    }

    /// How far a cylinder rolls from a point, and what stops it there; nothing for the deck's edge.
    fn rolls_m(&self, start: Vec2, downhill: Vec2, radius_m: f64) -> (f64, Option<&'a Id>) {
        let way = Segment::new(start, start + FAR_M * downhill);
        let to_edge = (self.scene.floor.as_ref())
            .into_iter()
            .flat_map(Region::boundary_edges)
            .filter_map(|edge| way.crossing(&edge))
            .map(|p| start.distance(p))
            .fold(FAR_M, f64::min);
        let middle = Shape::Stadium {
            from: start,
            to: start + to_edge * downhill,
            radius: radius_m,
        };
        let (far_m, stop) = (self.stops.iter())
            .filter(|(_, stop)| stop.bounds().meets(&middle.bounds()))
            .filter(|(_, stop)| separation(stop, &middle).gap_m <= 0.0)
            .map(|(id, stop)| {
                let near = -stop.support(-downhill) - start.dot(downhill);
                (near, Some(*id))
            })
            .fold((to_edge, None), |nearest, stop| {
                if stop.0 < nearest.0 { stop } else { nearest }
            });
        (far_m.max(0.0), stop)
    }
}

/// A fixture that breaks, burns or bursts.
fn breaks(kind: FixtureKind) -> Option<StruckKind> {
    match kind {
        FixtureKind::Glass => Some(StruckKind::Glass),
        FixtureKind::Compressor | FixtureKind::OxygenKit | FixtureKind::Fuel => {
            Some(StruckKind::Fixture)
        }
        _ => None,
    }
}

/// The places where people are.
fn places<'a>(boat: &'a Boat, deck: &str) -> Vec<(&'a Id, Vec2)> {
    (boat.places.iter())
        .filter(|place| place.deck == deck)
        .filter(|place| match place.kind {
            PlaceKind::Seat
            | PlaceKind::Gate
            | PlaceKind::Helm
            | PlaceKind::LadderHead
            | PlaceKind::MusterPoint
            | PlaceKind::Door
            | PlaceKind::Filling
            | PlaceKind::HandOver
            | PlaceKind::CasualtyFloor => true,
            PlaceKind::EmergencyGear | PlaceKind::SetDown | PlaceKind::Other => false,
        })
        .map(|place| (&place.id, place.at.into()))
        .collect()
}

fn walkways<'a>(boat: &'a Boat, deck: &str) -> Vec<(&'a Id, Strip)> {
    (boat.walkways.iter())
        .filter(|walkway| walkway.deck == deck)
        .filter_map(|walkway| Some((&walkway.id, strip_of(walkway)?)))
        .collect()
}
