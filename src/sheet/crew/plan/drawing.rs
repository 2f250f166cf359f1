//! The shapes and lines of the deck plan.

use super::super::labels::Weight;
use super::{OVERHEAD_M, Paperwise, Picture, STEP_RAD, vec};
use crate::brief::{FrontRow, LashingLeg};
use crate::engine::SceneThing;
use crate::engine::numbers::ThingSort;
use crate::geometry::Elementary as _;
use crate::geometry::{Region, Vec2};
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
            draw_thing(self.page, paper, thing);
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

fn draw_thing(page: &mut Page, paper: &Paperwise, thing: &SceneThing) {
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
    page.fill(&outline, grey, Some(pen));
}
