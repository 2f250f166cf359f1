//! A deck that is too full for its scale: the stretches of it in which names found no room, drawn larger.

use super::again::drawn_until_named;
use super::drawing::LYING;
use super::{Extent, OVERHEAD_M, Of, Piece, Room, Stretch, Unnamed, piece};
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::sheet::Page;

/// A deck is cut into so many stretches at most.
const MOST_STRETCHES: u32 = 8;

/// So often shorter stretches may help nothing before the search ends.
const MOST_IN_VAIN: u32 = 3;

/// Shorter stretches than this are not drawn, in metres.
const LEAST_M: f64 = 2.5;

/// So much of the neighbours is drawn with a stretch, in metres: what is cut is whole on the next one.
const OVERLAP_M: f64 = 0.3;

/// How far, how often and by how much more the ends of a stretch move from what they would cut, in metres.
const MOST_LONGER_M: f64 = 0.7;
const MOST_MOVED: u32 = 8;
const CLEAR_M: f64 = 0.03;

/// So many names of lashings and points may be missing on a deck of which no part is drawn larger.
const FEW: usize = 2;

/// A plan with what stands above it.
pub(in super::super) struct Drawn {
    pub(in super::super) caption: String,
    pub(in super::super) page: Page,
    /// One to how much.
    pub(in super::super) scale: f64,
}

/// What a part of a deck is called, counted from the stern.
pub(super) fn part_name(index: usize) -> String {
    format!("part {}", index + 1)
}

/// A deck, and behind it the stretches of it, drawn larger, in which names found no room: as few as
/// will do. The rooms are those of the deck and of a stretch; the deck is drawn no larger than one to
/// `least_scale`.
pub(in super::super) fn deck_and_parts(
    of: Of<'_>,
    deck: &DeckScene,
    [room, part_room]: [(f64, f64); 2],
    least_scale: f64,
) -> Vec<Drawn> {
    let room = Room {
        most_mm: room,
        least_scale,
    };
    let first = piece(of, deck, room, &Extent::default(), None);
    let parts = parts(of, deck, part_room, &first);
    // Where a larger plan names it, the small one does not crowd it.
    let extent = Extent {
        larger: parts.iter().map(|(stretch, _)| *stretch).collect(),
        ..Extent::default()
    };
    let whole = if parts.is_empty() {
        first
    } else {
        piece(of, deck, room, &extent, None)
    };
    let whole = drawn_until_named(of, deck, room, &extent, whole);
    let parts = parts.into_iter().map(|(stretch, part)| {
        let (room, extent) = (Room::of(part_room), Extent::part(stretch));
        (stretch, drawn_until_named(of, deck, room, &extent, part))
    });
    let parts: Vec<(Stretch, Piece)> = parts.collect();
    let mut drawn = vec![Drawn {
        caption: caption(of, deck, &whole, &parts),
        page: whole.page.trimmed(),
        scale: whole.scale,
    }];
    drawn.extend(parts.into_iter().enumerate().map(|(index, part)| Drawn {
        caption: part_caption(of, deck, index, &part),
        page: part.1.page.trimmed(),
        scale: part.1.scale,
    }));
    drawn
}

/// The stretches, as few as name everything that the whole deck does not.
fn parts(of: Of<'_>, deck: &DeckScene, room: (f64, f64), whole: &Piece) -> Vec<(Stretch, Piece)> {
    let mut best: Vec<(Stretch, Piece)> = Vec::new();
    let cylinders = cylinders_of(deck);
    if !asks_for_parts(of, whole) {
        return best;
    }
    let wanted_at: Vec<f64> = whole.unnamed.iter().map(|it| it.from_transom_m).collect();
    let Some((low, high)) = span(deck, &wanted_at) else {
        return best;
    };
    let mut fewest = usize::MAX;
    let mut in_vain = 0;
    for count in 1..=MOST_STRETCHES {
        let long = (high - low) / f64::from(count);
        let stretches = (0..count).map(|index| {
            let from = low + long * f64::from(index);
            (from, from + long)
        });
        let wanted = stretches.filter(|(from, to)| {
            let mut wanted = wanted_at.iter();
            wanted.any(|it| (*from..=*to).contains(it))
        });
        let drawn = wanted.map(|(from, to)| {
            let stretch = between_cylinders((from - OVERLAP_M, to + OVERLAP_M), &cylinders);
            (
                stretch,
                piece(of, deck, Room::of(room), &Extent::part(stretch), None),
            )
        });
        let drawn: Vec<(Stretch, Piece)> = drawn.collect();
        let is_larger = drawn.iter().all(|(_, part)| part.scale < whole.scale);
        let left = missing(whole, &drawn).len();
        if is_larger && left < fewest {
            (fewest, best, in_vain) = (left, drawn, 0);
        } else {
            in_vain += 1;
        }
        if fewest == 0 || in_vain >= MOST_IN_VAIN {
            break;
        }
    }
    best
}

/// One or two names of lashings and their points that found no room are told and found in the lists; for more, and for
/// anything else, a part of the deck is drawn larger.
fn asks_for_parts(of: Of<'_>, whole: &Piece) -> bool {
    let is_of_lashing = |it: &Unnamed| {
        let mut rows = of.brief.lashing_list.iter();
        rows.any(|row| [&row.lashing, &row.from, &row.to].contains(&&it.name))
    };
    whole.unnamed.len() > FEW || !whole.unnamed.iter().all(is_of_lashing)
}

/// From where to where each cylinder of a deck reaches, in metres from the transom.
fn cylinders_of(deck: &DeckScene) -> Vec<Stretch> {
    let things = deck.things.iter();
    let cylinders = things.filter(|thing| thing.sort == ThingSort::Cylinder);
    cylinders.map(reach).collect()
}

fn reach(thing: &SceneThing) -> Stretch {
    let bounds = thing.shape.bounds();
    (bounds.min.x, bounds.max.x)
}

/// The stretch, longer until no cylinder is cut by its ends.
pub(super) fn between_cylinders((from, to): Stretch, cylinders: &[Stretch]) -> Stretch {
    let (mut low, mut high) = (from, to);
    // With what is kept clear round them.
    let cylinders = cylinders.iter().map(|it| (it.0 - CLEAR_M, it.1 + CLEAR_M));
    let cylinders: Vec<Stretch> = cylinders.collect();
    for _ in 0..MOST_MOVED {
        let cut = |at: f64| move |it: &&Stretch| it.0 < at && at < it.1;
        let lower = cylinders.iter().filter(cut(low)).map(|it| it.0);
        let higher = cylinders.iter().filter(cut(high)).map(|it| it.1);
        let next = (lower.fold(low, f64::min), higher.fold(high, f64::max));
        if next == (low, high) || next.0 < from - MOST_LONGER_M || next.1 > to + MOST_LONGER_M {
            break;
        }
        (low, high) = next;
    }
    (low, high)
}

/// What neither the deck nor one of its stretches names.
fn missing<'a>(whole: &'a Piece, parts: &[(Stretch, Piece)]) -> Vec<&'a Unnamed> {
    let is_named = |it: &&Unnamed| {
        let at = it.from_transom_m;
        let mut of_it = parts
            .iter()
            .filter(|((from, to), _)| (*from..=*to).contains(&at));
        of_it.any(|(_, part)| part.unnamed.iter().all(|other| other.name != it.name))
    };
    whole.unnamed.iter().filter(|it| !is_named(it)).collect()
}

/// From where to where names are missing, in metres from the transom, and so much of the deck that one knows
/// the place again; `None` where none is missing.
fn span(deck: &DeckScene, wanted_at: &[f64]) -> Option<Stretch> {
    let around = |(low, high): Stretch, at: f64| (low.min(at), high.max(at));
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    let outline = deck.floor.as_ref()?.outline().vertices();
    let (aft, fore) = outline.iter().map(|point| point.x).fold(none, around);
    let (low, high) = wanted_at.iter().copied().fold(none, around);
    // A rack is not parted.
    let racks = deck.things.iter().filter(|it| it.sort == ThingSort::Rack);
    let racks: Vec<Stretch> = racks.map(reach).collect();
    let over = |it: &&Stretch| it.0 <= high && low <= it.1;
    let (low, high) = racks
        .iter()
        .filter(over)
        .fold((low, high), |(low, high), it| {
            (low.min(it.0), high.max(it.1))
        });
    let more = (0.5 * (LEAST_M - (high - low))).max(OVERLAP_M);
    (low <= high).then(|| ((low - more).max(aft), (high + more).min(fore)))
}

/// What stands above a deck.
fn caption(of: Of<'_>, deck: &DeckScene, whole: &Piece, parts: &[(Stretch, Piece)]) -> String {
    let mut told = format!(
        "{}, scale 1:{:.0}, drawn as you see it facing {}",
        deck.name,
        whole.scale,
        of.facing.words()
    );
    let parts = match parts.len() {
        0 => String::new(),
        1 => "; part 1 is drawn larger, with its names".to_owned(),
        count => format!("; parts 1 to {count} are drawn larger, with their names"),
    };
    told.push_str(&parts);
    told.push_str(&left_out(&whole.unnamed));
    told.push_str(&key(of, deck));
    told
}

/// So many names that found no room are told one by one.
const MOST_TOLD: usize = 4;

/// What found no room, told behind a caption.
fn left_out(unnamed: &[Unnamed]) -> String {
    let (numbers, names): (Vec<&Unnamed>, Vec<&Unnamed>) =
        unnamed.iter().partition(|it| it.number_only);
    let first = names
        .iter()
        .take(MOST_TOLD)
        .map(|it| it.name.replace('\n', " "));
    let mut told = match names.len() {
        0 => String::new(),
        count if count <= MOST_TOLD => {
            let first: Vec<String> = first.collect();
            format!("; without room for the name: {}", first.join(", "))
        }
        count => format!("; {count} names found no room and stand in the lists"),
    };
    if !numbers.is_empty() {
        told.push_str("; some numbers stand in the load list only");
    }
    told
}

/// What lines and marks mean, as far as they occur.
fn key(of: Of<'_>, deck: &DeckScene) -> String {
    let mut ways = of.plan.boat.walkways.iter();
    let mut points = of.plan.boat.lashing_points.iter();
    let lies = |thing: &SceneThing| {
        let row = of.brief.row(&thing.thing.id);
        thing.sort == ThingSort::Cylinder && row.is_some_and(|row| row.posture == LYING)
    };
    let is_overhead = |thing: &SceneThing| thing.from_m > OVERHEAD_M;
    let keys = [
        (
            ways.any(|way| way.deck == deck.deck),
            "broken line: walkway",
        ),
        (
            deck.things.iter().any(is_overhead),
            "thin broken line: overhead",
        ),
        (
            deck.things.iter().any(lies),
            "black end: valve of what lies",
        ),
        (
            points.any(|point| point.deck == deck.deck),
            "black diamond: lashing point",
        ),
    ];
    let told: Vec<&str> = keys
        .iter()
        .filter(|(is, _)| *is)
        .map(|(_, it)| *it)
        .collect();
    if told.is_empty() {
        return String::new();
    }
    format!(". Key: {}", told.join(", "))
}

/// What stands above a part of a deck.
fn part_caption(
    of: Of<'_>,
    deck: &DeckScene,
    index: usize,
    ((from, to), part): &(Stretch, Piece),
) -> String {
    format!(
        "{}, {}, from {:.1} to {:.1} m from the transom, scale 1:{:.0}, drawn as you see it facing {}{}",
        deck.name,
        part_name(index),
        from.max(0.0),
        to,
        part.scale,
        of.facing.words(),
        left_out(&part.unnamed)
    )
}
