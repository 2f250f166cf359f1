//! The deck plan to scale, turned to the way the reader faces.

use super::{Brief, centred, cut};
use crate::brief::LashingLeg;
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Vec2;
use crate::layout::{Plan, Point};
use crate::sheet::flow::{Flow, MARGIN_MM};
use crate::sheet::{Align, Page, Pen, width_mm};

/// Which way somebody with the sheet in hand looks; that is up on paper.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Facing {
    /// Towards the bow.
    Ahead,
    /// Towards the stern.
    Astern,
    /// Towards the port side.
    Port,
    /// Towards the starboard side.
    Starboard,
}

/// The scales that a rule can be laid on.
const SCALES: [f64; 15] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 300.0, 500.0,
];

/// The greatest height of a deck on paper, so that the rest of the page has room, in millimetres.
const MOST_HEIGHT_MM: f64 = 120.0;

/// Room round a deck for what stands beside it, in millimetres.
const BESIDE_MM: f64 = 9.0;

/// Angle of the steps in which round things are drawn.
const STEP_RAD: f64 = 0.2;

/// What begins above this height is over the heads of those who load, in metres.
const OVERHEAD_M: f64 = 1.5;

const NAME_PT: f64 = 5.0;
const SMALL_PT: f64 = 4.2;

impl Facing {
    /// What lies to the right and what lies ahead of the reader, on the deck plan.
    fn axes(self) -> (Vec2, Vec2) {
        let (x, y) = (Vec2 { x: 1.0, y: 0.0 }, Vec2 { x: 0.0, y: 1.0 });
        let (minus_x, minus_y) = (Vec2 { x: -1.0, y: 0.0 }, Vec2 { x: 0.0, y: -1.0 });
        match self {
            Self::Ahead => (minus_y, x),
            Self::Astern => (y, minus_x),
            Self::Port => (x, y),
            Self::Starboard => (minus_x, minus_y),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Ahead => "ahead",
            Self::Astern => "astern",
            Self::Port => "to port",
            Self::Starboard => "to starboard",
        }
    }

    /// From a place at the side one looks inboard; else the bow is to the right, as in the window.
    fn from(at: Option<Point>, beam_m: f64) -> Self {
        match at {
            Some([_, y]) if y > 0.2 * beam_m => Self::Starboard,
            _ => Self::Port,
        }
    }
}

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

    fn all(&self, points: &[Vec2]) -> Vec<(f64, f64)> {
        points.iter().map(|point| self.at(*point)).collect()
    }
}

/// Draws every deck that something is on.
pub(super) fn draw(flow: &mut Flow, plan: &Plan, brief: &Brief, facing: Option<Facing>) {
    let stand = stand(plan, brief);
    let facing = facing.unwrap_or_else(|| Facing::from(stand, plan.boat.beam_m));
    for deck in &brief.scene.decks {
        let of_stowage = |thing: &SceneThing| !thing.of_boat;
        if brief.scene.decks.len() > 1 && !deck.things.iter().any(of_stowage) {
            continue;
        }
        one_deck(flow, plan, brief, deck, facing, stand);
    }
}

/// Where the reader stands: the hand-over place of the order.
fn stand(plan: &Plan, brief: &Brief) -> Option<Point> {
    let wanted = brief.loading.hand_over.as_ref()?;
    let found = plan
        .boat
        .places
        .iter()
        .find(|place| place.name.as_ref().unwrap_or(&place.id) == wanted);
    found.map(|place| place.at)
}

fn one_deck(
    flow: &mut Flow,
    plan: &Plan,
    brief: &Brief,
    deck: &DeckScene,
    facing: Facing,
    stand: Option<Point>,
) {
    let Some(floor) = &deck.floor else { return };
    let (right, up) = facing.axes();
    let span = |axis: Vec2| {
        let along = floor
            .outline()
            .vertices()
            .iter()
            .map(|point| point.dot(axis));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let ((left_m, right_m), (bottom_m, top_m)) = (span(right), span(up));
    let fits = |scale: &f64| {
        let mm_per_m = 1000.0 / scale;
        mm_per_m * (right_m - left_m) <= flow.width() - 2.0 * BESIDE_MM
            && mm_per_m * (top_m - bottom_m) <= MOST_HEIGHT_MM
    };
    let scale = SCALES
        .into_iter()
        .find(|scale| fits(scale))
        .unwrap_or(1000.0);
    let mm_per_m = 1000.0 / scale;
    let height = mm_per_m * (top_m - bottom_m);
    flow.room(height + 2.0 * BESIDE_MM + 6.0);
    flow.line(
        8.0,
        0.0,
        &format!(
            "{}, scale 1:{scale:.0}, drawn as you see it facing {}",
            deck.name,
            facing.words()
        ),
    );
    let width = mm_per_m * (right_m - left_m);
    let paper = Paperwise {
        right,
        up,
        corner: (left_m, top_m),
        left_mm: MARGIN_MM + 0.5 * (flow.width() - width),
        top_mm: flow.y + BESIDE_MM,
        mm_per_m,
    };
    let page = flow.page();
    page.fill(
        &paper.all(floor.outline().vertices()),
        1.0,
        Some(Pen::solid(0.5)),
    );
    for hole in floor.holes() {
        page.fill(&paper.all(hole.vertices()), 0.6, Some(Pen::solid(0.3)));
    }
    for way in plan
        .boat
        .walkways
        .iter()
        .filter(|way| way.deck == deck.deck)
    {
        let line: Vec<Vec2> = way
            .line
            .iter()
            .map(|[x, y]| Vec2 { x: *x, y: *y })
            .collect();
        page.line(&paper.all(&line), false, Pen::dashed(0.25));
    }
    for thing in &deck.things {
        draw_thing(page, &paper, thing);
    }
    draw_lashings(page, &paper, plan, brief, deck);
    for thing in deck
        .things
        .iter()
        .filter(|thing| thing.sort == ThingSort::Cylinder)
    {
        name_cylinder(page, &paper, brief, thing);
    }
    if let Some([x, y]) = stand.filter(|_| is_hand_over_deck(plan, brief, deck)) {
        mark_reader(page, paper.at(Vec2 { x, y }));
    }
    ends(page, &paper, floor.outline().vertices());
    scale_bar(
        page,
        (paper.left_mm, paper.top_mm + height + BESIDE_MM - 3.0),
        mm_per_m,
    );
    flow.gap(height + 2.0 * BESIDE_MM + 1.0);
}

fn is_hand_over_deck(plan: &Plan, brief: &Brief, deck: &DeckScene) -> bool {
    let wanted = brief.loading.hand_over.as_ref();
    plan.boat.places.iter().any(|place| {
        Some(place.name.as_ref().unwrap_or(&place.id)) == wanted && place.deck == deck.deck
    })
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
    if matches!(thing.sort, ThingSort::Fixture | ThingSort::Gear) {
        let span = outline.iter().map(|(x, _)| *x);
        let (low, high) = span.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
            (low.min(x), high.max(x))
        });
        if high - low > 8.0 {
            let name = cut(&thing.name, NAME_PT, high - low - 1.0);
            centred(page, paper.at(thing.shape.centroid()), NAME_PT, &name);
        }
    }
}

/// The painted name in it, its own number beside it on the outboard side.
fn name_cylinder(page: &mut Page, paper: &Paperwise, brief: &Brief, thing: &SceneThing) {
    let middle = thing.shape.centroid();
    let at = paper.at(middle);
    let Some(row) = brief
        .load_list
        .iter()
        .find(|row| row.cylinder == thing.name)
    else {
        return;
    };
    centred(page, at, NAME_PT, &thing.name);
    if row.number.is_empty() || row.number == thing.name {
        return;
    }
    let outboard = if middle.y < 0.0 { -1.0 } else { 1.0 };
    let beside = middle
        + Vec2 {
            x: 0.0,
            y: outboard * 0.16,
        };
    let (x, y) = paper.at(beside);
    let (down, across) = (y - at.1, x - at.0);
    if down.abs() > across.abs() {
        let align = if down > 0.0 {
            Align::Right
        } else {
            Align::Left
        };
        page.text_turned((x + 0.5, y), SMALL_PT, align, -90.0, &row.number);
    } else {
        let align = if across > 0.0 {
            Align::Left
        } else {
            Align::Right
        };
        page.text((x, y + 0.5), SMALL_PT, align, &row.number);
    }
}

fn draw_lashings(page: &mut Page, paper: &Paperwise, plan: &Plan, brief: &Brief, deck: &DeckScene) {
    let points = plan.boat.lashing_points.iter();
    for point in points.filter(|point| point.deck == deck.deck) {
        let (x, y) = paper.at(Vec2 {
            x: point.at[0],
            y: point.at[1],
        });
        let side = 0.7;
        page.fill(
            &[(x - side, y), (x, y - side), (x + side, y), (x, y + side)],
            0.0,
            None,
        );
    }
    let is_here = |leg: &&LashingLeg| {
        let mut things = deck.things.iter();
        things.any(|thing| thing.sort == ThingSort::Cylinder && leg.round.contains(&thing.name))
    };
    for leg in brief.legs.iter().filter(is_here) {
        let flat = |[x, y, _]: [f64; 3]| paper.at(Vec2 { x, y });
        page.line(
            &[flat(leg.ends[0]), flat(leg.ends[1])],
            false,
            Pen::solid(0.6),
        );
    }
}

fn mark_reader(page: &mut Page, (x, y): (f64, f64)) {
    page.fill(
        &[(x - 2.0, y + 2.4), (x, y - 2.4), (x + 2.0, y + 2.4)],
        0.0,
        Some(Pen::solid(0.2)),
    );
    let words = "you stand here";
    let width = width_mm(words, 7.0) + 2.0;
    page.rectangle(
        (x - 0.5 * width, y + 3.0),
        (width, 3.6),
        1.0,
        Some(Pen::solid(0.2)),
    );
    centred(page, (x, y + 4.8), 7.0, words);
}

/// Bow and stern, so that nobody turns the sheet round.
fn ends(page: &mut Page, paper: &Paperwise, outline: &[Vec2]) {
    let ahead = outline.iter().max_by(|a, b| a.x.total_cmp(&b.x));
    let astern = outline.iter().min_by(|a, b| a.x.total_cmp(&b.x));
    for (end, words, sign) in [(ahead, "bow", 1.0), (astern, "stern", -1.0)] {
        let Some(end) = end else { continue };
        let away = 4.5 / paper.mm_per_m;
        let at = paper.at(Vec2 {
            x: end.x + sign * away,
            y: 0.0,
        });
        centred(page, at, 7.0, words);
    }
}

fn scale_bar(page: &mut Page, (x, y): (f64, f64), mm_per_m: f64) {
    page.line(
        &[
            (x, y - 1.0),
            (x, y),
            (x + mm_per_m, y),
            (x + mm_per_m, y - 1.0),
        ],
        false,
        Pen::solid(0.3),
    );
    page.text((x + mm_per_m + 1.0, y), 6.0, Align::Left, "1 m");
}
