//! What is to be seen of an account on the deck plan: everything as found, ghosts of how it was planned,
//! arrows between the two, lashings and fronts, and the marked spot.

use super::compare::{DifferenceKind, DifferentThing};
use super::result::AccountAudit;
use super::{Case, Moment};
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, Scene};
use crate::geometry::Elementary as _;
use crate::layout::{Front, Id, Point, Rack};

/// Angle of the steps in which round things are drawn.
const STEP_RAD: f64 = 0.2;

/// What begins above this height is over everybody's head, in metres.
const OVERHEAD_M: f64 = 1.5;

/// A thing as a shape with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenThing {
    /// What sort of thing.
    pub sort: ThingSort,

    /// Its name.
    pub id: Id,

    /// Corner by corner, in metres.
    pub outline: Vec<Point>,
}

/// A lashing or the front of a rack, as a line.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenLine {
    /// Its name.
    pub id: Id,

    /// Point by point, in metres.
    pub line: Vec<Point>,

    /// Does it hold: shut, and there?
    pub holds: bool,
}

/// One deck of an account.
#[derive(Clone, Debug, PartialEq)]
pub struct Sight {
    /// The deck.
    pub deck: Id,

    /// What the crew call it.
    pub name: String,

    /// Its outline.
    pub outline: Vec<Point>,

    /// What is on it, as found; fixtures and racks first.
    pub things: Vec<SeenThing>,

    /// What was planned and found elsewhere, otherwise or not at all.
    pub ghosts: Vec<SeenThing>,

    /// From where it was planned to where it was found.
    pub arrows: Vec<[Point; 2]>,

    /// Lashings and fronts: as found, and open or gone those that were planned.
    pub lines: Vec<SeenLine>,

    /// The marked spot, if it is on this deck.
    pub spot: Option<Point>,

    /// Cylinders that are told otherwise than planned.
    pub otherwise: Vec<Id>,
}

/// The decks on which something differs or the marked spot is, or the first where there is none.
pub fn sights(case: &Case, account: &AccountAudit) -> Vec<Sight> {
    let told = case.accounts.iter().find(|it| it.account.id == account.id);
    let Some(told) = told else { return Vec::new() };
    let (was, is) = (case.planned.scene(), told.moment.scene());
    let all: Vec<Sight> = is
        .decks
        .iter()
        .filter_map(|deck| sight(case, account, (&was, deck), &told.moment))
        .collect();
    let matters = |sight: &&Sight| {
        sight.spot.is_some() || !sight.ghosts.is_empty() || !sight.otherwise.is_empty()
    };
    let wanted: Vec<Sight> = all.iter().filter(matters).cloned().collect();
    if wanted.is_empty() {
        return all.into_iter().take(1).collect();
    }
    wanted
}

fn sight(
    case: &Case,
    account: &AccountAudit,
    (was, deck): (&Scene, &DeckScene),
    found: &Moment,
) -> Option<Sight> {
    let floor = deck.floor.as_ref()?;
    let differences = &account.comparison.differences;
    let is_otherwise = |id: &Id| {
        let movable = [DifferentThing::Cylinder, DifferentThing::Gear];
        differences
            .iter()
            .any(|it| it.about == *id && movable.contains(&it.thing))
    };
    let planned = was.deck(&deck.deck);
    let ghosts: Vec<SeenThing> = planned
        .map(seen_things)
        .unwrap_or_default()
        .into_iter()
        .filter(|thing| matches!(thing.sort, ThingSort::Cylinder | ThingSort::Gear))
        .filter(|thing| is_otherwise(&thing.id))
        .collect();
    let found_things = seen_things(deck);
    let otherwise: Vec<Id> = found_things
        .iter()
        .filter(|thing| matches!(thing.sort, ThingSort::Cylinder | ThingSort::Gear))
        .filter(|thing| is_otherwise(&thing.id))
        .map(|thing| thing.id.clone())
        .collect();
    let is_here = |id: &Id| otherwise.contains(id) || ghosts.iter().any(|ghost| ghost.id == *id);
    let arrows = differences
        .iter()
        .filter(|it| it.kind == DifferenceKind::Moved && is_here(&it.about))
        .filter_map(|it| Some([it.from?, it.to?]))
        .collect();
    let spot = case.opened.record.marked_spot.as_ref();
    Some(Sight {
        deck: deck.deck.clone(),
        name: deck.name.clone(),
        outline: floor
            .outline()
            .vertices()
            .iter()
            .map(|point| (*point).into())
            .collect(),
        lines: lines(&case.planned, found, deck, &found_things),
        things: found_things,
        ghosts,
        arrows,
        spot: spot
            .filter(|spot| spot.deck == deck.deck)
            .map(|spot| spot.at),
        otherwise,
    })
}

/// Everything on a deck but people and what is over their heads.
pub fn seen_things(deck: &DeckScene) -> Vec<SeenThing> {
    let things = deck.things.iter();
    things
        .filter(|thing| thing.from_m <= OVERHEAD_M && thing.sort != ThingSort::Person)
        .filter_map(|thing| {
            let outline = thing.shape.to_polygon(STEP_RAD)?;
            Some(SeenThing {
                sort: thing.sort,
                id: thing.thing.id.clone(),
                outline: outline.into_iter().map(Into::into).collect(),
            })
        })
        .collect()
}

/// Lashings through the cylinders that they go round, and fronts before their slots.
fn lines(
    planned: &Moment,
    found: &Moment,
    deck: &DeckScene,
    things: &[SeenThing],
) -> Vec<SeenLine> {
    let mut lines = Vec::new();
    let middle = |id: &Id| {
        let mut cylinders = things
            .iter()
            .filter(|thing| thing.sort == ThingSort::Cylinder);
        let thing = cylinders.find(|thing| thing.id == *id)?;
        let count = thing.outline.len() as f64;
        let sum = thing
            .outline
            .iter()
            .fold([0.0, 0.0], |sum, [x, y]| [sum[0] + x, sum[1] + y]);
        Some(sum.map(|value| value / count))
    };
    for (moment, is_found) in [(found, true), (planned, false)] {
        let (Some(trip), Some(other)) = (moment.trip(), found.trip()) else {
            continue;
        };
        for lashing in &trip.lashings {
            // Of the plan only what was left off.
            if !is_found && other.lashing(&lashing.id).is_some() {
                continue;
            }
            let boat = &moment.plan.boat;
            let point = |id: &Id| boat.lashing_point(id).map(|point| point.at);
            let mut line: Vec<Point> = point(&lashing.from).into_iter().collect();
            let round: Vec<Point> = lashing.round.iter().filter_map(middle).collect();
            if round.is_empty() {
                continue;
            }
            line.extend(round);
            line.extend(point(&lashing.to));
            lines.push(SeenLine {
                id: lashing.id.clone(),
                line,
                holds: is_found && lashing.shut,
            });
        }
    }
    for rack in found
        .plan
        .boat
        .racks
        .iter()
        .filter(|rack| rack.deck == deck.deck)
    {
        for front in &rack.fronts {
            if let Some(line) = before_slots(rack, front) {
                lines.push(SeenLine {
                    id: front.id.clone(),
                    line: line.to_vec(),
                    holds: front.shut,
                });
            }
        }
    }
    lines
}

/// The line of a front before the slots that it serves.
fn before_slots(rack: &Rack, front: &Front) -> Option<[Point; 2]> {
    let slots: Vec<Point> = front
        .slots
        .iter()
        .filter_map(|name| rack.slot(name))
        .map(|slot| slot.at)
        .collect();
    let (first, last) = (slots.first()?, slots.last()?);
    let (sin, cos) = rack.turn_deg.to_radians().sine_cosine();
    let ahead = (last[0] - first[0]) * cos + (last[1] - first[1]) * sin;
    let sign = if ahead < 0.0 { -1.0 } else { 1.0 };
    let (reach, out) = (0.45 * rack.pitch_m, 0.5 * rack.pitch_m);
    let end = |at: &Point, sign: f64| {
        [
            at[0] + sign * reach * cos + out * sin,
            at[1] + sign * reach * sin - out * cos,
        ]
    };
    Some([end(first, -sign), end(last, sign)])
}
