use super::super::command::Command;
use super::super::here::{Here, at, mm, to_cm};
use super::super::moving::put;
use super::super::naming;
use super::super::selection::Selection;
use super::super::words;
use super::{Phase, Pointer, Preview};
use crate::geometry::Vec2;
use crate::layout::{
    Edit, Gear, GearKind, GearShape, Place, PlaceKind, Point, Thing, ThingKind, ThingRef, Walkway,
};

/// How near a place the end of a walkway must be to lead to it, in metres.
const PLACE_REACH_M: f64 = 0.5;

/// What is drawn point by point.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum LineWhat {
    /// A walkway.
    Walkway,
    /// A hose or a line.
    Gear(GearKind),
}

/// Draws something point by point; a double click or Enter ends it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LineTool {
    /// What.
    pub(crate) what: LineWhat,

    /// The points so far.
    pub(crate) points: Vec<Point>,

    /// Where the keyboard draws; `None` while it does not.
    pub(crate) pen: Option<Vec2>,
}

impl LineTool {
    /// With nothing drawn yet.
    pub(crate) fn new(what: LineWhat) -> Self {
        Self {
            what,
            points: Vec::new(),
            pen: None,
        }
    }

    /// Moves the pen of the keyboard, which begins at the last point, or there.
    pub(crate) fn move_pen(&mut self, by: Vec2, beginning: Vec2) -> Vec2 {
        let last = self.points.last().map(|point| at(*point));
        let from = self.pen.or(last).unwrap_or(beginning);
        let pen = at(to_cm(from + by));
        self.pen = Some(pen);
        pen
    }

    /// Sets a point where the pen is, which is there from then on.
    pub(crate) fn set_point(&mut self, beginning: Vec2) {
        let point = to_cm(self.move_pen(Vec2::ZERO, beginning));
        if self.points.last() != Some(&point) {
            self.points.push(point);
        }
    }

    /// The straight walkway from selected place to selected place, and what it is called; `None` unless only
    /// places are selected, two at least.
    pub(crate) fn between_selected(
        here: &Here<'_>,
        selection: &Selection,
    ) -> Option<(Vec<Edit>, ThingRef)> {
        let things = selection.things();
        let points = things.iter().map(|what| {
            let place = here.plan.boat.place(&what.id)?;
            (what.kind == ThingKind::Place && place.deck == here.deck).then_some(place.at)
        });
        let points: Option<Vec<Point>> = points.collect();
        points
            .filter(|points| points.len() > 1)
            .map(|points| walkway(here, points))
    }

    pub(super) fn cancel(&mut self) -> bool {
        let under_way = !self.points.is_empty() || self.pen.is_some();
        self.points.clear();
        self.pen = None;
        under_way
    }

    pub(super) fn update(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        commands: &mut Vec<Command>,
    ) -> bool {
        match pointer.phase {
            Phase::Clicked => {
                self.add(pointer);
                true
            }
            Phase::DoubleClicked => {
                // The first click of the two has set the point.
                self.finish(here, commands);
                true
            }
            Phase::Hovered | Phase::DragStarted | Phase::Dragged | Phase::Dropped => false,
        }
    }

    fn add(&mut self, pointer: &Pointer) {
        let point = if pointer.free {
            [mm(pointer.at.x), mm(pointer.at.y)]
        } else {
            to_cm(pointer.at)
        };
        if self.points.last() != Some(&point) {
            self.points.push(point);
        }
        self.pen = None;
    }

    /// Ends the line and puts it on the plan, if it has two points.
    pub(super) fn finish(&mut self, here: &Here<'_>, commands: &mut Vec<Command>) {
        // What the pen has come to is the end.
        if !self.points.is_empty() && self.pen.is_some() {
            self.set_point(Vec2::ZERO);
        }
        if self.points.len() < 2 {
            commands.push(Command::Tell(words::LINE_TOO_SHORT.to_owned()));
            return;
        }
        let points = std::mem::take(&mut self.points);
        self.pen = None;
        let (edits, what) = match self.what {
            LineWhat::Walkway => walkway(here, points),
            LineWhat::Gear(kind) => gear(here, kind, points),
        };
        commands.push(Command::Run {
            label: words::step_place(&what.id),
            edits,
            select: Some(Selection::one(what)),
        });
    }

    pub(super) fn preview(&self) -> Preview {
        let text = match (self.points.len(), self.what) {
            (0, LineWhat::Walkway) => words::WALKWAY_FROM,
            (0, LineWhat::Gear(_)) => words::LINE_FROM,
            (1, _) => words::LINE_NEXT,
            _ => words::LINE_END,
        };
        Preview {
            edits: Vec::new(),
            cylinder: None,
            text: Some(text.to_owned()),
        }
    }
}

fn gear(here: &Here<'_>, kind: GearKind, points: Vec<Point>) -> (Vec<Edit>, ThingRef) {
    let thing = Thing::Gear(Gear {
        id: naming::free(here.plan, here.trip, ThingKind::Gear),
        name: None,
        kind,
        deck: here.deck.to_owned(),
        floor: GearShape::Line {
            points,
            thickness_m: 0.02,
        },
        height_m: 0.02,
        mass_kg: 0.0,
        friction: None,
        stowed: false,
    });
    let what = thing.to_ref();
    (vec![put(here.trip, thing)], what)
}

/// A walkway between the places at its ends; where there is none, one is put there.
fn walkway(here: &Here<'_>, points: Vec<Point>) -> (Vec<Edit>, ThingRef) {
    let mut edits = Vec::new();
    let mut new_names = Vec::new();
    let ends = [points[0], points[points.len() - 1]].map(|end| {
        place_near(here, end).unwrap_or_else(|| {
            let id = naming::free_after(here.plan, here.trip, ThingKind::Place, &new_names);
            new_names.push(id.clone());
            edits.push(put(
                here.trip,
                Thing::Place(Place {
                    id: id.clone(),
                    name: None,
                    deck: here.deck.to_owned(),
                    at: end,
                    kind: PlaceKind::Other,
                    floor_m: None,
                }),
            ));
            id
        })
    });
    let [from, to] = ends;
    let thing = Thing::Walkway(Walkway {
        id: naming::free(here.plan, here.trip, ThingKind::Walkway),
        name: None,
        deck: here.deck.to_owned(),
        from,
        to,
        line: points,
        clear_width_m: None,
        headroom_m: None,
    });
    let what = thing.to_ref();
    edits.push(put(here.trip, thing));
    (edits, what)
}

fn place_near(here: &Here<'_>, end: Point) -> Option<String> {
    let places = here.plan.boat.places.iter();
    let near = places
        .filter(|place| place.deck == here.deck)
        .map(|place| (at(place.at).distance(at(end)), place))
        .filter(|(distance, _)| *distance <= PLACE_REACH_M);
    let nearest = near.min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map(|(_, place)| place.id.clone())
}
