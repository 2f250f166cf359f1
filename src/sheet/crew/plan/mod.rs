//! The deck plan to scale, turned to the way the reader faces.

mod again;
mod drawing;
mod facing;
mod listed;
mod marks;
mod naming;
mod parts;
#[cfg(test)]
mod tests;
mod things;

use self::again::Again;
pub use self::facing::Facing;
pub(super) use self::facing::facing;
pub(super) use self::parts::{Drawn, deck_and_parts};

use super::labels::{Area, Labels};
use super::{Brief, whole};
use crate::engine::DeckScene;
use crate::engine::numbers::ThingSort;
use crate::geometry::Vec2;
use crate::layout::{Id, Place, Plan, Point};
use crate::sheet::{Page, Paper};

/// The scales that a rule can be laid on.
const SCALES: [f64; 15] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 300.0, 500.0,
];

/// Room before bow and stern for their names, in millimetres.
const ENDS_MM: f64 = 12.0;

/// From this width on there is room to spare beside a deck, in millimetres.
const WIDE_MM: f64 = 180.0;

/// Angle of the steps in which round things are drawn.
const STEP_RAD: f64 = 0.2;

/// What begins above this height is over the heads of those who load, in metres.
const OVERHEAD_M: f64 = 1.5;

/// From the deck plan to the paper.
struct Paperwise {
    right: Vec2,
    up: Vec2,
    /// What stands in the upper left corner, along right and up, in metres.
    corner: (f64, f64),
    left_mm: f64,
    top_mm: f64,
    mm_per_m: f64,
}

impl Paperwise {
    fn at(&self, point: Vec2) -> (f64, f64) {
        let (along, above) = (point.dot(self.right), point.dot(self.up));
        (
            self.left_mm + self.mm_per_m * (along - self.corner.0),
            self.top_mm + self.mm_per_m * (self.corner.1 - above),
        )
    }

    /// The point of the deck that stands there.
    fn deck_point(&self, (x, y): (f64, f64)) -> Vec2 {
        let along = (x - self.left_mm) / self.mm_per_m + self.corner.0;
        let above = self.corner.1 - (y - self.top_mm) / self.mm_per_m;
        self.right * along + self.up * above
    }

    fn all(&self, points: &[Vec2]) -> Vec<(f64, f64)> {
        points.iter().map(|point| self.at(*point)).collect()
    }
}

/// The decks that something of the stowage is on, or the only one there is.
pub(super) fn decks_to_draw(brief: &Brief) -> Vec<&DeckScene> {
    let decks = &brief.scene.decks;
    let is_used =
        |deck: &&DeckScene| decks.len() == 1 || deck.things.iter().any(|thing| !thing.of_boat);
    decks
        .iter()
        .filter(|deck| deck.floor.is_some())
        .filter(is_used)
        .collect()
}

/// The deck of a cylinder, or the first that is drawn, with the cylinder lit.
pub fn deck_picture(plan: &Plan, brief: &Brief, lit: Option<&Id>) -> Page {
    let decks = decks_to_draw(brief);
    let has = |deck: &&&DeckScene| {
        let mut things = deck.things.iter();
        things.any(|thing| thing.sort == ThingSort::Cylinder && Some(&thing.thing.id) == lit)
    };
    let deck = decks.iter().find(has).or(decks.first());
    match deck {
        Some(deck) => {
            let room = Room::of((super::ALONE_MM, super::ALONE_MM));
            let facing = facing(plan, brief);
            let of = Of {
                plan,
                brief,
                facing,
            };
            piece(of, deck, room, &Extent::default(), lit).page
        }
        None => Page::new(Paper::Cut {
            wide: 100,
            high: 40,
        }),
    }
}

/// The place over which cylinders are handed aboard: there the reader stands.
fn hand_over<'a>(plan: &'a Plan, brief: &Brief) -> Option<&'a Place> {
    plan.boat.place(brief.loading.hand_over_place.as_ref()?)
}

/// What is drawn, and which way the reader of it faces.
#[derive(Copy, Clone)]
pub(super) struct Of<'a> {
    pub(super) plan: &'a Plan,
    pub(super) brief: &'a Brief,
    pub(super) facing: Facing,
}

/// One deck, or a part of it, on a piece of its own.
pub(super) struct Piece {
    /// One to how much.
    pub(super) scale: f64,
    pub(super) page: Page,
    /// What found no room for its name, or for its number behind it.
    pub(super) unnamed: Vec<Unnamed>,
}

/// A name that found no room.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Unnamed {
    pub(super) name: String,
    /// Does the name stand there, and only the number behind it is missing?
    pub(super) number_only: bool,
    /// Where on the deck what it names is, in metres.
    pub(super) at_m: Vec2,
    /// How far from the transom that is, no farther than the ends of the deck, in metres.
    pub(super) from_transom_m: f64,
}

/// A part of a deck, between two distances from the transom in metres.
pub(super) type Stretch = (f64, f64);

/// How much of a deck a piece shows.
#[derive(Clone, Debug, Default)]
pub(super) struct Extent {
    /// A part of the deck only.
    pub(super) stretch: Option<Stretch>,
    /// The parts of it that are drawn larger elsewhere: what stands in them is named there only.
    pub(super) larger: Vec<Stretch>,
    /// What is done otherwise than when it was drawn before.
    pub(super) again: Again,
}

impl Extent {
    /// A part of the deck.
    pub(super) fn part(stretch: Stretch) -> Self {
        Self {
            stretch: Some(stretch),
            ..Self::default()
        }
    }
}

/// The room that a piece has.
#[derive(Copy, Clone)]
pub(super) struct Room {
    /// Its greatest width and height, in millimetres.
    pub(super) most_mm: (f64, f64),
    /// It is drawn no larger than one to so much.
    pub(super) least_scale: f64,
}

impl Room {
    /// As large as the room is.
    pub(super) fn of(most_mm: (f64, f64)) -> Self {
        Self {
            most_mm,
            least_scale: 0.0,
        }
    }
}

/// One deck on a piece of its own; a part of it if a stretch is given.
pub(super) fn piece(
    of: Of<'_>,
    deck: &DeckScene,
    room: Room,
    extent: &Extent,
    lit: Option<&Id>,
) -> Piece {
    let Of {
        plan,
        brief,
        facing,
    } = of;
    let stretch = extent.stretch;
    let Some(floor) = &deck.floor else {
        return Piece {
            scale: 1.0,
            page: Page::new(Paper::Cut { wide: 10, high: 10 }),
            unnamed: Vec::new(),
        };
    };
    let (right, up) = facing.axes();
    let outline = floor.outline().vertices();
    let span = |axis: Vec2| {
        let along = outline.iter().map(|point| point.dot(axis));
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        match stretch {
            // Along the boat it is the stretch that is drawn, whichever way the reader faces.
            Some((from_m, to_m)) if axis.x.abs() > 0.5 => {
                let (a, b) = (from_m * axis.x, to_m * axis.x);
                (low.max(a.min(b)), high.min(a.max(b)))
            }
            _ => (low, high),
        }
    };
    let ((left_m, right_m), (bottom_m, top_m)) = (span(right), span(up));
    // Level names stand beside a deck that lies along the page; beside one across it they are turned.
    let is_wide = facing.is_along() && room.most_mm.0 >= WIDE_MM && stretch.is_none();
    let beside = naming::beside_mm(plan, brief, deck, is_wide);
    let (side, end) = if facing.is_along() {
        (beside, ENDS_MM - 4.0)
    } else {
        (ENDS_MM, beside)
    };
    // The reader's mark stands below, under the scale bar and, along the page, the word for the end.
    let below = end.max(if facing.is_along() { 14.0 } else { 9.0 });
    let fits = |scale: &f64| {
        let mm_per_m = 1000.0 / scale;
        mm_per_m * (right_m - left_m) + 2.0 * side <= room.most_mm.0
            && mm_per_m * (top_m - bottom_m) + end + below <= room.most_mm.1
    };
    let mut scales = SCALES.into_iter();
    let found = scales.find(|scale| *scale >= room.least_scale && fits(scale));
    let scale = found.unwrap_or(1000.0);
    let mm_per_m = 1000.0 / scale;
    let wide = mm_per_m * (right_m - left_m) + 2.0 * side;
    let high = mm_per_m * (top_m - bottom_m) + end + below;
    let mut page = Page::new(Paper::Cut {
        wide: whole(wide),
        high: whole(high),
    });
    let paper = Paperwise {
        right,
        up,
        corner: (left_m, top_m),
        left_mm: side,
        top_mm: end,
        mm_per_m,
    };
    let whole_piece = Area {
        left: 0.0,
        top: 0.0,
        right: wide,
        bottom: high,
    };
    // Beyond the ends of a stretch nothing is drawn and nothing named.
    let window = match (stretch, facing.is_along()) {
        (None, _) => whole_piece,
        (Some(_), true) => Area {
            top: end,
            bottom: end + mm_per_m * (top_m - bottom_m),
            ..whole_piece
        },
        (Some(_), false) => Area {
            left: side,
            right: side + mm_per_m * (right_m - left_m),
            ..whole_piece
        },
    };
    let mut labels = Labels::new(window);
    let mut picture = Picture {
        page: &mut page,
        paper: &paper,
        labels: &mut labels,
        plan,
        brief,
        deck,
        outline,
        window,
        is_part: stretch.is_some(),
        extent,
        is_first_turn: false,
        unnamed: Vec::new(),
    };
    picture.draw(lit);
    let unnamed = picture.unnamed;
    Piece {
        scale,
        page,
        unnamed,
    }
}

/// A deck as it is being drawn.
struct Picture<'a> {
    page: &'a mut Page,
    paper: &'a Paperwise,
    labels: &'a mut Labels,
    plan: &'a Plan,
    brief: &'a Brief,
    deck: &'a DeckScene,
    outline: &'a [Vec2],
    /// What of the piece is drawn on: all of it, or the stretch.
    window: Area,
    /// Is it a part of the deck only?
    is_part: bool,
    extent: &'a Extent,
    /// Are the names being written whose turn is before all others?
    is_first_turn: bool,
    /// What found no room for its name.
    unnamed: Vec<Unnamed>,
}

impl Picture<'_> {
    fn draw(&mut self, lit: Option<&Id>) {
        self.shapes();
        if self.is_part {
            let window = self.window;
            let corners = [window.left, window.top, window.right, window.bottom];
            *self.page = self.page.cut_to(corners);
        }
        if let Some(lit) = lit {
            self.light(lit);
        }
        self.set_down();
        self.parts_drawn_larger();
        self.ends();
        self.reader();
        self.scale_bar();
        self.names(lit);
    }

    /// Is what stands there on the piece, or is it beyond the ends of the stretch?
    fn is_shown(&self, at: (f64, f64)) -> bool {
        !self.is_part || self.window.contains(at)
    }

    /// Is what stands so far from the transom named in the larger plan of its part only?
    fn is_on_a_part(&self, from_transom_m: f64) -> bool {
        let mut larger = self.extent.larger.iter();
        larger.any(|(from, to)| (*from..=*to).contains(&from_transom_m))
    }

    /// The same of a point on paper.
    fn is_at_a_part(&self, at: (f64, f64)) -> bool {
        self.is_on_a_part(self.paper.deck_point(at).x)
    }

    /// Is it the turn of this name, of what is there on paper?
    fn has_turn(&self, name: &str, at: (f64, f64)) -> bool {
        let again = &self.extent.again;
        self.is_first_turn == again.is_first(name, self.paper.deck_point(at))
    }

    /// What found no room for its name.
    fn leave_out(&mut self, name: &str, at: (f64, f64), number_only: bool) {
        let at_m = self.paper.deck_point(at);
        let along = self.outline.iter().map(|point| point.x);
        let ends = along.fold((0.0_f64, 0.0_f64), |(low, high), x| {
            (low.min(x), high.max(x))
        });
        self.unnamed.push(Unnamed {
            name: name.to_owned(),
            number_only,
            at_m,
            from_transom_m: at_m.x.clamp(ends.0, ends.1),
        });
    }
}

fn vec([x, y]: &Point) -> Vec2 {
    Vec2 { x: *x, y: *y }
}
