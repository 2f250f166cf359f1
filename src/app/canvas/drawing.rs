//! What is drawn, in metres and as plain data, from back to front.

use super::super::here::Here;
use super::super::outcome::Tone;
use super::super::selection::Selection;
use super::marks::{self, FindingMark};
use crate::checks::Finding;
use crate::engine::numbers::ThingSort;
use crate::geometry::{Region, Shape, Vec2};
use crate::layout::ThingRef;

/// What sort of line or ground something has.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Ink {
    /// The floor.
    Deck,
    /// A fixture.
    Fixture,
    /// Something overhead: outline only.
    Overhead,
    /// A rack.
    Rack,
    /// A free slot.
    Slot,
    /// A cylinder.
    Cylinder,
    /// A cylinder that goes at the lean shown.
    Leaning,
    /// A cylinder by how well it holds.
    Held(Tone),
    /// The deck round a cylinder, by how well it holds.
    Heat(Tone),
    /// Kit on a cylinder.
    Kit,
    /// Somebody.
    Person,
    /// Loose gear.
    Gear,
    /// A lashing.
    Lashing,
    /// A walkway.
    Walkway,
    /// What a falling cylinder sweeps.
    Sweep,
    /// The tape, a band, a guide.
    Guide,
}

/// How something stands out.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Stress {
    /// Not at all.
    Plain,
    /// The pointer is on it.
    Hovered,
    /// It is selected.
    Selected,
    /// It is only thought of.
    Thought,
    /// It is on another deck.
    Faint,
}

/// A form in metres.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Form {
    /// Filled and outlined.
    Area(Shape),
    /// A floor with its holes.
    Floor(Region),
    /// A line; open lashings and the like are broken.
    Line { points: Vec<Vec2>, broken: bool },
    /// A strip along a line.
    Strip { points: Vec<Vec2>, width_m: f64 },
    /// A sign of fixed size on the screen.
    Sign { at: Vec2, sign: Sign },
    /// A short line with two heads and its length.
    Width { from: Vec2, to: Vec2 },
}

/// A sign of fixed size on the screen.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) enum Sign {
    /// A lashing point.
    Point,
    /// A place.
    Place,
    /// A corner that can be moved.
    Corner,
    /// Which way somebody faces.
    Facing(f64),
    /// It is locked in its place.
    Locked,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Item {
    /// What it is.
    pub(crate) form: Form,
    /// How it is drawn.
    pub(crate) ink: Ink,
    /// How it stands out.
    pub(crate) stress: Stress,
}

/// A name on the plan.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    /// What it says.
    pub(crate) text: String,
    /// Where it is.
    pub(crate) spot: Spot,
    /// Drawn first and kept where two meet.
    pub(crate) rank: u8,
}

/// Where a name is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Spot {
    /// With its middle there, if the room in metres is enough.
    In { at: Vec2, room_m: f64 },
    /// Close to one of these points, wherever nothing else is.
    Beside(Vec<Vec2>),
}

/// All that is drawn in one frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Drawing {
    /// From back to front.
    pub(crate) items: Vec<Item>,
    /// Names.
    pub(crate) labels: Vec<Label>,
    /// What must be put right.
    pub(crate) marks: Vec<FindingMark>,
}

/// What the drawing depends on beside the plan.
#[derive(Debug)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own in a menu"
)]
pub(crate) struct Looks<'a> {
    /// What is selected.
    pub(crate) selection: &'a Selection,
    /// What the pointer is on.
    pub(crate) hovered: Option<&'a ThingRef>,
    /// What must be put right, in the part shown.
    pub(crate) findings: &'a [(usize, &'a Finding)],
    /// The one that is chosen.
    pub(crate) chosen: Option<usize>,
    /// The cylinders that go at the lean shown.
    pub(crate) leaning: &'a [String],
    /// Do other decks show through?
    pub(crate) other_decks: bool,
    /// Are names shown?
    pub(crate) names: bool,
    /// Are walkways shown?
    pub(crate) walkways: bool,
    /// Are cylinders coloured and numbered by how well they hold?
    pub(crate) margins: bool,
}

impl Drawing {
    /// Decides what is drawn.
    pub(crate) fn of(here: &Here<'_>, looks: &Looks<'_>) -> Self {
        let mut drawing = Self::default();
        if looks.other_decks {
            for deck in here
                .scene
                .decks
                .iter()
                .filter(|deck| deck.deck != here.deck)
            {
                drawing.faint(deck);
            }
        }
        let Some(deck) = here.deck_scene() else {
            return drawing;
        };
        if let Some(floor) = &deck.floor {
            drawing.push(Form::Floor(floor.clone()), Ink::Deck, Stress::Plain);
        }
        if looks.walkways {
            drawing.walkways(here, looks);
        }
        let sorts = [ThingSort::Fixture, ThingSort::Rack];
        for thing in deck.things.iter().filter(|item| sorts.contains(&item.sort)) {
            drawing.body(here, looks, thing);
        }
        if looks.margins {
            drawing.heat(here, &deck.things);
        }
        drawing.falls(here, looks);
        for thing in deck
            .things
            .iter()
            .filter(|item| !sorts.contains(&item.sort))
        {
            drawing.body(here, looks, thing);
        }
        drawing.lashings(here, looks);
        drawing.points_and_places(here, looks);
        drawing.locks(here);
        drawing.marks = marks::of(here, looks);
        drawing
    }

    /// The floors, and all that stands on them: the grid goes between.
    pub(crate) fn split(&self) -> (Self, Self) {
        let is_floor = |item: &&Item| matches!(item.form, Form::Floor(_));
        let of = |items: Vec<Item>| Self {
            items,
            ..Self::default()
        };
        let (floors, rest): (Vec<&Item>, Vec<&Item>) = self.items.iter().partition(is_floor);
        (
            of(floors.into_iter().cloned().collect()),
            of(rest.into_iter().cloned().collect()),
        )
    }

    /// A drawing of these items alone.
    pub(crate) fn plain(items: Vec<Item>) -> Self {
        Self {
            items,
            ..Self::default()
        }
    }

    pub(super) fn push(&mut self, form: Form, ink: Ink, stress: Stress) {
        self.items.push(Item { form, ink, stress });
    }

    pub(super) fn label(&mut self, text: impl Into<String>, at: Vec2, room_m: f64, rank: u8) {
        self.labels.push(Label {
            text: text.into(),
            spot: Spot::In { at, room_m },
            rank,
        });
    }

    /// A name close to one of some points.
    pub(super) fn label_beside(&mut self, text: impl Into<String>, points: Vec<Vec2>, rank: u8) {
        self.labels.push(Label {
            text: text.into(),
            spot: Spot::Beside(points),
            rank,
        });
    }
}

impl Looks<'_> {
    pub(super) fn stress(&self, what: &ThingRef) -> Stress {
        if self.selection.contains(what) {
            Stress::Selected
        } else if self.hovered == Some(what) {
            Stress::Hovered
        } else {
            Stress::Plain
        }
    }
}
