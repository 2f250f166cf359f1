//! The shapes and lines of the deck plan.

use super::super::labels::Weight;
use super::{OVERHEAD_M, Paperwise, Picture, STEP_RAD, vec};
use crate::brief::{FrontRow, LashingLeg};
use crate::engine::SceneThing;
use crate::engine::numbers::ThingSort;
use crate::geometry::Elementary as _;
use crate::geometry::{Region, Shape, Vec2};
use crate::layout::{Rack, RackKind};
use crate::sheet::{Page, Pen};

impl Picture<'_> {
    /// All of it, from back to front, and what of it names should keep off.
    pub(super) fn shapes(&mut self) {
        let paper = self.paper;
        let outline = paper.all(self.outline);
        self.page.fill(&outline, 1.0, Some(Pen::solid(0.5)));
        self.keep_off_round(&outline, Weight::Heavy);
        for hole in self.deck.floor.iter().flat_map(Region::holes) {
            let hole = paper.all(hole.vertices());
            self.page.fill(&hole, 0.6, Some(Pen::solid(0.3)));
            self.keep_off_round(&hole, Weight::Thin);
        }
        for thing in &self.deck.things {
            let posture = self.posture(thing);
            draw_thing(self.page, paper, thing, posture);
            let has_edge = matches!(
                thing.sort,
                ThingSort::Fixture | ThingSort::Rack | ThingSort::Gear
            );
            if let Some(outline) = thing.shape.to_polygon(STEP_RAD).filter(|_| has_edge) {
                self.keep_off_round(&paper.all(&outline), Weight::Thin);
            }
        }
        self.walkways();
        self.slots();
        self.fronts();
        self.lashings();
    }

    fn keep_off_round(&mut self, corners: &[(f64, f64)], weight: Weight) {
        let mut ring = corners.to_vec();
        ring.extend(corners.first());
        self.labels.keep_off(&ring, weight);
    }

    fn walkways(&mut self) {
        let ways = self.plan.boat.walkways.iter();
        for way in ways.filter(|way| way.deck == self.deck.deck) {
            let line: Vec<Vec2> = way.line.iter().map(vec).collect();
            let line = self.paper.all(&line);
            self.page.line(&line, false, Pen::dashed(0.35));
            self.labels.keep_off(&line, Weight::Thin);
        }
    }

    /// The racks of the deck.
    pub(super) fn racks(&self) -> Vec<&Rack> {
        let racks = self.plan.boat.racks.iter();
        racks.filter(|rack| rack.deck == self.deck.deck).collect()
    }

    /// Slots that stay free: name, middle and half width on paper.
    pub(super) fn free_slots(&self) -> Vec<(String, (f64, f64), f64)> {
        let rows = &self.brief.load_list;
        let is_free = |rack: &Rack, name: &str| {
            !rows
                .iter()
                .any(|row| row.rack == rack.id && row.slot == name)
        };
        let mut free = Vec::new();
        // What lies in a crate or a net lies in no slot of it that has a name on board.
        let has_slots = |rack: &&Rack| !matches!(rack.kind, RackKind::Crate | RackKind::Net);
        for rack in self.racks().into_iter().filter(has_slots) {
            let radius = 0.4 * rack.pitch_m.min(0.25) * self.paper.mm_per_m;
            for slot in rack.slots() {
                if is_free(rack, &slot.name) {
                    let at = self.paper.at(vec(&slot.at));
                    if self.is_shown(at) {
                        free.push((slot.name.clone(), at, radius));
                    }
                }
            }
        }
        free
    }

    fn slots(&mut self) {
        for (_, at, radius) in self.free_slots() {
            self.page.line(&round(at, radius), true, Pen::grey(0.2));
        }
    }

    /// The lines before the slots that the shut fronts of racks serve.
    pub(super) fn front_lines(&self) -> Vec<(FrontRow, [(f64, f64); 2])> {
        let racks = self.racks();
        let shut = self.brief.front_list.iter().filter(|row| row.shut);
        let lines = shut.filter_map(|row| {
            let rack = racks.iter().find(|rack| rack.id == row.rack_id)?;
            let slots = row.slots.iter().filter_map(|name| rack.slot(name));
            let slots: Vec<Vec2> = slots.map(|slot| vec(&slot.at)).collect();
            let (first, last) = (slots.first()?, slots.last()?);
            let (sin, cos) = rack.turn_deg.to_radians().sine_cosine();
            let (along, out) = (Vec2 { x: cos, y: sin }, Vec2 { x: sin, y: -cos });
            let reach = 0.45 * rack.pitch_m;
            let end =
                |at: Vec2, sign: f64| self.paper.at(at + along * (sign * reach) + out * reach);
            let sign = if (*last - *first).dot(along) < 0.0 {
                -1.0
            } else {
                1.0
            };
            Some((row.clone(), [end(*first, -sign), end(*last, sign)]))
        });
        lines.collect()
    }

    fn fronts(&mut self) {
        for (_, line) in self.front_lines() {
            self.page.line(&line, false, Pen::solid(0.7));
            self.labels.keep_off(&line, Weight::Heavy);
        }
    }

    /// The legs of the lashings round cylinders of this deck, each with the name of its lashing.
    pub(super) fn leg_lines(&self) -> Vec<(String, [(f64, f64); 2])> {
        let deck = self.deck;
        let is_here = |leg: &&LashingLeg| {
            let mut things = deck.things.iter();
            things.any(|thing| {
                thing.sort == ThingSort::Cylinder && leg.round.contains(&thing.thing.id)
            })
        };
        let flat = |[x, y, _]: [f64; 3]| self.paper.at(Vec2 { x, y });
        let legs = self.brief.legs.iter().filter(is_here);
        legs.map(|leg| (leg.lashing.clone(), leg.ends.map(flat)))
            .collect()
    }

    fn lashings(&mut self) {
        for (_, ends) in self.leg_lines() {
            self.page.line(&ends, false, Pen::solid(0.7));
            self.labels.keep_off(&ends, Weight::Heavy);
        }
    }

    pub(super) fn of_sort(&self, sort: ThingSort) -> impl Iterator<Item = &SceneThing> {
        let things = self.deck.things.iter();
        things.filter(move |thing| thing.sort == sort)
    }

    /// How a cylinder is drawn; nothing for what is none.
    fn posture(&self, thing: &SceneThing) -> Option<Drawn> {
        let id = &thing.thing.id;
        let row = self
            .brief
            .row(id)
            .filter(|_| thing.sort == ThingSort::Cylinder)?;
        if row.posture == LYING {
            return Some(Drawn::Lying);
        }
        let steps = self.brief.loading.steps.iter();
        let step = steps
            .filter(|step| step.cylinder == *id)
            .map(|it| vec(&it.at))
            .next();
        let (from, ..) = self.stretch_of(thing);
        // The outline of one with kit begins at its shell, that of a pair has a shell at each end.
        let is_single = step.is_none_or(|at| (at - from).length() < SAME_M);
        Some(if is_single {
            Drawn::Standing
        } else {
            Drawn::Pair
        })
    }

    /// From where to where a cylinder reaches on the deck, and how far to its sides; a lying one towards its valve.
    pub(super) fn stretch_of(&self, thing: &SceneThing) -> (Vec2, Vec2, f64) {
        if let Shape::Stadium { from, to, radius } = thing.shape {
            return (from, to, radius);
        }
        let middle = thing.shape.centroid();
        (middle, middle, self.radius_mm(thing) / self.paper.mm_per_m)
    }

    /// How far a thing reaches from its middle across the paper and up and down it, in millimetres.
    pub(super) fn extent(&self, thing: &SceneThing) -> (f64, f64) {
        let (x, y) = self.paper.at(thing.shape.centroid());
        let corners = thing.shape.to_polygon(STEP_RAD).unwrap_or_default();
        let corners = self.paper.all(&corners);
        let far = corners
            .iter()
            .map(|at| ((at.0 - x).abs(), (at.1 - y).abs()));
        far.fold((0.0, 0.0), |far, at| {
            (f64::max(far.0, at.0), f64::max(far.1, at.1))
        })
    }

    /// How far a thing reaches on paper.
    pub(super) fn radius_mm(&self, thing: &SceneThing) -> f64 {
        let middle = thing.shape.centroid();
        let corners = thing.shape.to_polygon(STEP_RAD).unwrap_or_default();
        let far = corners.iter().map(|corner| (*corner - middle).length());
        far.fold(0.0, f64::max) * self.paper.mm_per_m
    }
}

pub(super) fn round((x, y): (f64, f64), radius: f64) -> Vec<(f64, f64)> {
    let steps = (0..48).map(|step| f64::from(step) * std::f64::consts::TAU / 48.0);
    let corners = steps.map(|turn| (x + radius * turn.cosine(), y + radius * turn.sine()));
    corners.collect()
}

/// How the load list tells that something lies.
pub(super) const LYING: &str = "lying";

/// What is smaller than this on paper has no mark for its valve or for its kit, in millimetres.
const MARKED_MM: f64 = 0.5;

/// What is nearer than this is at the same place, in metres.
const SAME_M: f64 = 0.005;

/// How a cylinder is drawn.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Drawn {
    Lying,
    Standing,
    Pair,
}

/// On what lies, the end with the valve is black; on what stands with kit or as a pair, each shell is a circle of its
/// own in the outline of all of it.
fn draw_posture(page: &mut Page, paper: &Paperwise, thing: &SceneThing, posture: Drawn) {
    let Shape::Stadium { from, to, radius } = thing.shape else {
        return;
    };
    let (a, b, radius_mm) = (paper.at(from), paper.at(to), radius * paper.mm_per_m);
    let run = (b.0 - a.0, b.1 - a.1);
    let far = run.0.hypotenuse(run.1);
    if radius_mm < MARKED_MM || far < 1e-9 {
        return;
    }
    let shells = match posture {
        Drawn::Lying => &[][..],
        Drawn::Standing => &[a][..],
        Drawn::Pair => &[a, b][..],
    };
    for at in shells {
        page.fill(&round(*at, radius_mm), 1.0, Some(Pen::solid(0.35)));
    }
    if posture != Drawn::Lying {
        return;
    }
    let (along, across) = ((run.0 / far, run.1 / far), (-run.1 / far, run.0 / far));
    let cap = (0..=12).map(|step| {
        let (sin, cos) = (f64::from(step) * std::f64::consts::PI / 12.0).sine_cosine();
        (
            b.0 + radius_mm * (cos * across.0 + sin * along.0),
            b.1 + radius_mm * (cos * across.1 + sin * along.1),
        )
    });
    page.fill(&cap.collect::<Vec<_>>(), 0.0, None);
}

fn draw_thing(page: &mut Page, paper: &Paperwise, thing: &SceneThing, posture: Option<Drawn>) {
    let Some(outline) = thing.shape.to_polygon(STEP_RAD) else {
        return;
    };
    let outline = paper.all(&outline);
    // An awning hides nothing from who stands beneath it.
    if thing.from_m > OVERHEAD_M {
        page.line(&outline, true, Pen::dashed(0.2));
        return;
    }
    let (grey, pen) = match thing.sort {
        ThingSort::Fixture | ThingSort::Place | ThingSort::Edge => (0.88, Pen::grey(0.2)),
        ThingSort::Rack | ThingSort::Cylinder => (1.0, Pen::solid(0.35)),
        ThingSort::Gear | ThingSort::Lashing => (0.94, Pen::grey(0.2)),
        // Who stands where when loading is for the crew to say.
        ThingSort::Person => return,
    };
    let has_outline = matches!(thing.shape, Shape::Stadium { .. });
    match posture {
        Some(Drawn::Standing | Drawn::Pair) if has_outline => {
            page.fill(&outline, 0.94, Some(Pen::grey(0.2)));
        }
        _ => page.fill(&outline, grey, Some(pen)),
    }
    if let Some(posture) = posture {
        draw_posture(page, paper, thing, posture);
    }
}
