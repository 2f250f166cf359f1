use super::super::canvas::drawing::{Drawing, Form, Ink, Item, Sign, Stress};
use super::super::command::Command;
use super::super::here::{Here, at, mm, to_cm};
use super::super::moving::put;
use super::super::selection::Selection;
use super::super::{things, words};
use super::{Phase, Pointer};
use crate::geometry::{Outline, Segment, vec2};
use crate::layout::{GearShape, Point, Thing, ThingKind, ThingRef};

/// Two corners of a deck belong together if one is the other's image to within this, in metres.
const TWIN_M: f64 = 0.02;

/// Reshapes a deck, a fixture, a walkway or a hose by its corners. Corners of a deck that are each
/// other's image about the centreline are moved together.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct ShapeTool {
    /// Do corners of one side move alone?
    one_side: bool,

    held: Option<Held>,
}

/// The corner that is held.
#[derive(Clone, Debug, PartialEq)]
struct Held {
    what: ThingRef,
    corner: usize,
    twin: Option<usize>,
    /// All corners as they were.
    start: Vec<Point>,
}

/// What is reshaped: what is selected if it has corners, else the deck shown.
fn target(here: &Here<'_>, selection: &Selection) -> ThingRef {
    let selected = selection.primary();
    let shaped = selected.filter(|what| corners(here, what).is_some());
    shaped
        .cloned()
        .unwrap_or_else(|| things::reference(ThingKind::Deck, here.deck))
}

/// The corners of a thing that has some.
fn corners(here: &Here<'_>, what: &ThingRef) -> Option<Vec<Point>> {
    match things::get(here.plan, here.trip, what)? {
        Thing::Deck(item) => Some(item.outline),
        Thing::Fixture(item) => Some(item.outline),
        Thing::Walkway(item) => Some(item.line),
        Thing::Gear(item) => match item.floor {
            GearShape::Line { points, .. } => Some(points),
            GearShape::Round { .. } | GearShape::Box { .. } => None,
        },
        _ => None,
    }
}

/// Is it closed, so that the last corner leads to the first?
fn is_closed(what: &ThingRef) -> bool {
    matches!(what.kind, ThingKind::Deck | ThingKind::Fixture)
}

/// The thing with other corners; `None` if they make no outline.
fn reshaped(here: &Here<'_>, what: &ThingRef, points: Vec<Point>) -> Option<Thing> {
    if is_closed(what) {
        Outline::new(points.iter().map(|p| at(*p)).collect()).ok()?;
    }
    let mut thing = things::get(here.plan, here.trip, what)?;
    match &mut thing {
        Thing::Deck(item) => item.outline = points,
        Thing::Fixture(item) => item.outline = points,
        Thing::Walkway(item) => item.line = points,
        Thing::Gear(item) => match &mut item.floor {
            GearShape::Line { points: line, .. } => *line = points,
            GearShape::Round { .. } | GearShape::Box { .. } => return None,
        },
        _ => return None,
    }
    Some(thing)
}

/// The other corner that is this one's image about the centreline.
fn twin(points: &[Point], corner: usize) -> Option<usize> {
    let image = at(points[corner]).mirrored_y();
    let mut others = points.iter().enumerate();
    let found = others.find(|(index, p)| *index != corner && at(**p).distance(image) <= TWIN_M);
    found.map(|(index, _)| index)
}

impl ShapeTool {
    /// A tool that holds nothing yet; corners of one side of a deck move alone, or both sides together.
    pub(crate) fn new(one_side: bool) -> Self {
        Self {
            one_side,
            held: None,
        }
    }

    pub(super) fn cancel(&mut self, commands: &mut Vec<Command>) -> bool {
        let held = self.held.take().is_some();
        if held {
            commands.push(Command::Abort);
        }
        held
    }

    /// Is a corner held?
    pub(super) fn is_holding(&self) -> bool {
        self.held.is_some()
    }

    pub(super) fn update(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        selection: &Selection,
        commands: &mut Vec<Command>,
    ) -> bool {
        let what = target(here, selection);
        match pointer.phase {
            Phase::Hovered => false,
            Phase::DragStarted => self.take(pointer, here, what, commands),
            Phase::Dragged | Phase::Dropped => self.drag(pointer, here, commands),
            Phase::Clicked if pointer.add => {
                remove_corner(pointer, here, &what, !self.one_side, commands);
                true
            }
            Phase::Clicked => {
                let met = super::super::canvas::hit::all(here, pointer.at, pointer.reach_m);
                let shaped = met.into_iter().find(|what| corners(here, what).is_some());
                let next = shaped.map_or_else(Selection::none, Selection::one);
                commands.push(Command::Select(next));
                true
            }
            Phase::DoubleClicked => {
                insert_corner(pointer, here, &what, !self.one_side, commands);
                true
            }
        }
    }

    fn take(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        what: ThingRef,
        commands: &mut Vec<Command>,
    ) -> bool {
        let Some(start) = corners(here, &what) else {
            return false;
        };
        let Some(corner) = near_corner(&start, pointer) else {
            return false;
        };
        let of_deck = what.kind == ThingKind::Deck && !pointer.free && !self.one_side;
        commands.push(Command::Begin(words::step_reshape(&what.id)));
        self.held = Some(Held {
            twin: of_deck.then(|| twin(&start, corner)).flatten(),
            what,
            corner,
            start,
        });
        true
    }

    fn drag(&mut self, pointer: &Pointer, here: &Here<'_>, commands: &mut Vec<Command>) -> bool {
        let Some(Held {
            what,
            corner,
            twin,
            start,
        }) = &self.held
        else {
            return false;
        };
        let to = if pointer.free {
            [mm(pointer.at.x), mm(pointer.at.y)]
        } else {
            let p = to_cm(pointer.at);
            // A corner without a twin is the stem: it stays on the centreline when near it.
            let on_middle = what.kind == ThingKind::Deck && p[1].abs() < pointer.reach_m;
            if on_middle && twin.is_none() {
                [p[0], 0.0]
            } else {
                p
            }
        };
        let mut points = start.clone();
        points[*corner] = to;
        if let Some(twin) = twin {
            points[*twin] = [to[0], 0.0 - to[1]];
        }
        if let Some(thing) = reshaped(here, what, points) {
            commands.push(Command::Drag(vec![put(here.trip, thing)]));
        }
        if pointer.phase == Phase::Dropped {
            commands.push(Command::Commit);
            self.held = None;
        }
        true
    }

    /// A handle on every corner.
    pub(super) fn guide(here: &Here<'_>, selection: &Selection) -> Drawing {
        let what = target(here, selection);
        let corners = corners(here, &what).unwrap_or_default();
        let handles = corners.into_iter().map(|p| Item {
            form: Form::Sign {
                at: at(p),
                sign: Sign::Corner,
            },
            ink: Ink::Guide,
            stress: Stress::Plain,
        });
        Drawing::plain(handles.collect())
    }
}

fn near_corner(points: &[Point], pointer: &Pointer) -> Option<usize> {
    let distance = |p: &Point| at(*p).distance(pointer.at);
    let near = points.iter().enumerate();
    let near = near.filter(|(_, p)| distance(p) <= 1.4 * pointer.reach_m);
    near.min_by(|a, b| distance(a.1).total_cmp(&distance(b.1)))
        .map(|(index, _)| index)
}

fn remove_corner(
    pointer: &Pointer,
    here: &Here<'_>,
    what: &ThingRef,
    both_sides: bool,
    commands: &mut Vec<Command>,
) {
    let Some(mut points) = corners(here, what) else {
        return;
    };
    let least = if is_closed(what) { 3 } else { 2 };
    let Some(corner) = near_corner(&points, pointer).filter(|_| points.len() > least) else {
        return;
    };
    let twin = (both_sides && what.kind == ThingKind::Deck)
        .then(|| twin(&points, corner))
        .flatten();
    let mut gone = vec![corner];
    gone.extend(twin.filter(|_| points.len() > least + 1));
    gone.sort_unstable_by(|a, b| b.cmp(a));
    for index in gone {
        points.remove(index);
    }
    apply(here, what, points, commands);
}

fn insert_corner(
    pointer: &Pointer,
    here: &Here<'_>,
    what: &ThingRef,
    both_sides: bool,
    commands: &mut Vec<Command>,
) {
    let Some(mut points) = corners(here, what) else {
        return;
    };
    let Some(index) = nearest_edge(&points, is_closed(what), pointer) else {
        return;
    };
    let new = to_cm(pointer.at);
    let image = vec2(pointer.at.x, -pointer.at.y);
    points.insert(index + 1, new);
    if both_sides && what.kind == ThingKind::Deck && new[1].abs() > TWIN_M {
        let mirrored = Pointer {
            at: image,
            ..*pointer
        };
        if let Some(index) = nearest_edge(&points, true, &mirrored) {
            points.insert(index + 1, [new[0], 0.0 - new[1]]);
        }
    }
    apply(here, what, points, commands);
}

/// The edge near the pointer, by the corner at which it starts.
fn nearest_edge(points: &[Point], closed: bool, pointer: &Pointer) -> Option<usize> {
    let count = if closed {
        points.len()
    } else {
        points.len() - 1
    };
    let distance = |index: usize| {
        let ends = [points[index], points[(index + 1) % points.len()]].map(at);
        Segment::new(ends[0], ends[1]).distance(pointer.at)
    };
    let near = (0..count).filter(|index| distance(*index) <= 1.4 * pointer.reach_m);
    near.min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
}

fn apply(here: &Here<'_>, what: &ThingRef, points: Vec<Point>, commands: &mut Vec<Command>) {
    if let Some(thing) = reshaped(here, what, points) {
        commands.push(Command::Run {
            label: words::step_reshape(&what.id),
            edits: vec![put(here.trip, thing)],
            select: None,
        });
    }
}

/// The outline of a deck with its pointed bow rounded: a quarter of an ellipse on either side, from the
/// corners next to the stem, with the stem where it was. `None` if there is no pointed bow.
pub(crate) fn bow_rounded(outline: &[Point]) -> Option<Vec<Point>> {
    /// So many corners on either side.
    const CORNERS: u32 = 5;
    /// So many times as far athwartships as forward, the sides meet in a bow that is round already.
    const BLUNT: f64 = 3.0;
    let count = outline.len();
    let foremost = (0..count).max_by(|a, b| outline[*a][0].total_cmp(&outline[*b][0]))?;
    let stem = outline[foremost];
    let [before, after] = [count - 1, 1].map(|step| outline[(foremost + step) % count]);
    let is_pointed = stem[1].abs() <= TWIN_M
        && at(before).distance(at(after).mirrored_y()) <= TWIN_M
        && before[1].abs() > TWIN_M
        && before[1].abs() < BLUNT * (stem[0] - before[0]);
    if !is_pointed {
        return None;
    }
    let on = |corner: Point, step: u32| {
        let angle = std::f64::consts::FRAC_PI_2 * f64::from(step) / f64::from(CORNERS + 1);
        let x = corner[0] + (stem[0] - corner[0]) * angle.sin();
        [mm(x), mm(corner[1] * angle.cos())]
    };
    let mut rounded = Vec::with_capacity(count + 2 * CORNERS as usize);
    for (index, point) in outline.iter().enumerate() {
        if index == foremost {
            rounded.extend((1..=CORNERS).map(|step| on(before, step)));
            rounded.push(*point);
            rounded.extend((1..=CORNERS).rev().map(|step| on(after, step)));
        } else {
            rounded.push(*point);
        }
    }
    Outline::new(rounded.iter().map(|p| at(*p)).collect()).ok()?;
    Some(rounded)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::layout::Plan;

    fn pointer(phase: Phase, x: f64, y: f64) -> Pointer {
        Pointer {
            phase,
            at: vec2(x, y),
            add: false,
            free: false,
            reach_m: 0.1,
        }
    }

    #[test]
    fn the_twin_corner_follows_on_the_other_side() {
        let plan = Arc::new(Plan::new("Test", 10.0, 4.0));
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let (mut tool, none) = (ShapeTool::default(), Selection::none());
        let mut commands = Vec::new();
        assert!(tool.update(
            &pointer(Phase::DragStarted, 0.0, 2.0),
            &here,
            &none,
            &mut commands
        ));
        tool.update(
            &pointer(Phase::Dropped, 0.3, 1.8),
            &here,
            &none,
            &mut commands,
        );
        let mut after = Plan::clone(&plan);
        for command in &commands {
            if let Command::Drag(edits) = command {
                for edit in edits {
                    after.apply(edit).unwrap();
                }
            }
        }
        let outline = &after.boat.decks[0].outline;
        assert!(
            outline.contains(&[0.3, 1.8]) && outline.contains(&[0.3, -1.8]),
            "{outline:?}"
        );
        assert!(!tool.is_holding(), "let go");
    }

    #[test]
    fn a_pointed_bow_becomes_half_an_ellipse() {
        let pointed = [
            [0.0, -2.0],
            [6.0, -2.0],
            [10.0, 0.0],
            [6.0, 2.0],
            [0.0, 2.0],
        ];
        let rounded = bow_rounded(&pointed).unwrap();
        let area = |points: &[Point]| {
            let outline = Outline::new(points.iter().map(|p| at(*p)).collect()).unwrap();
            outline.area()
        };
        // Six chords of a quarter of an ellipse with half-axes a and b enclose a b / 2 times 6 sin 15 degrees
        // (a regular polygon of 24 corners, stretched); the triangle encloses a b / 2.
        let gained = area(&rounded) - area(&pointed);
        let expected = 4.0 * 2.0 * (6.0 * 15_f64.to_radians().sin() - 1.0);
        assert!((gained - expected).abs() < 0.005, "{gained} for {expected}");
        for point in &rounded {
            assert!(
                rounded.contains(&[point[0], 0.0 - point[1]]),
                "{point:?} has no twin"
            );
        }
        let square = [[0.0, -2.0], [6.0, -2.0], [6.0, 2.0], [0.0, 2.0]];
        assert_eq!(bow_rounded(&square), None, "no pointed bow");
    }
}
