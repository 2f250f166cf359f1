//! A deck that is too full for its scale: the stretches of it in which names found no room, drawn larger.

use super::{Of, Piece, Room, Stretch, Unnamed, piece};
use crate::engine::DeckScene;
use crate::sheet::Page;

/// A deck is cut into so many stretches at most.
const MOST_STRETCHES: u32 = 8;

/// So often shorter stretches may help nothing before the search ends.
const MOST_IN_VAIN: u32 = 3;

/// Shorter stretches than this are not drawn, in metres.
const LEAST_M: f64 = 2.5;

/// So much of the neighbours is drawn with a stretch, in metres: what is cut is whole on the next one.
const OVERLAP_M: f64 = 0.3;

/// A plan with what stands above it.
pub(in super::super) struct Drawn {
    pub(in super::super) caption: String,
    pub(in super::super) page: Page,
    /// One to how much.
    pub(in super::super) scale: f64,
}

/// A deck, and behind it the stretches of it, drawn larger, in which names found no room: as few as will do. The
/// rooms are those of the deck and of a stretch; the deck is drawn no larger than one to `least_scale`.
pub(in super::super) fn deck_and_parts(
    of: Of<'_>,
    deck: &DeckScene,
    [room, part_room]: [(f64, f64); 2],
    least_scale: f64,
) -> Vec<Drawn> {
    let whole = piece(
        of,
        deck,
        Room {
            most_mm: room,
            least_scale,
        },
        None,
        None,
    );
    let parts = parts(of, deck, part_room, &whole);
    let mut drawn = vec![Drawn {
        caption: caption(of, deck, &whole, &parts),
        page: whole.page.trimmed(),
        scale: whole.scale,
    }];
    drawn.extend(parts.into_iter().map(|(stretch, part)| Drawn {
        caption: part_caption(of, deck, stretch, &part),
        page: part.page.trimmed(),
        scale: part.scale,
    }));
    drawn
}

/// The stretches, as few as name everything that the whole deck does not.
fn parts(of: Of<'_>, deck: &DeckScene, room: (f64, f64), whole: &Piece) -> Vec<(Stretch, Piece)> {
    let mut best: Vec<(Stretch, Piece)> = Vec::new();
    let Some((low, high)) = span(deck, &whole.unnamed) else {
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
            let mut missing = whole.unnamed.iter();
            missing.any(|it| (*from..=*to).contains(&it.from_transom_m))
        });
        let drawn = wanted.map(|(from, to)| {
            let stretch = (from - OVERLAP_M, to + OVERLAP_M);
            (
                stretch,
                piece(of, deck, Room::of(room), Some(stretch), None),
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
fn span(deck: &DeckScene, missing: &[Unnamed]) -> Option<Stretch> {
    let around = |(low, high): Stretch, at: f64| (low.min(at), high.max(at));
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    let outline = deck.floor.as_ref()?.outline().vertices();
    let (aft, fore) = outline.iter().map(|point| point.x).fold(none, around);
    let at = missing.iter().map(|it| it.from_transom_m);
    let (low, high) = at.fold(none, around);
    let more = (0.5 * (LEAST_M - (high - low))).max(OVERLAP_M);
    (low <= high).then(|| ((low - more).max(aft), (high + more).min(fore)))
}

/// What stands above a deck.
fn caption(of: Of<'_>, deck: &DeckScene, whole: &Piece, parts: &[(Stretch, Piece)]) -> String {
    let missing = missing(whole, parts);
    let larger = whole.unnamed.len() - missing.len();
    let (names, numbers): (Vec<&Unnamed>, Vec<&Unnamed>) =
        missing.into_iter().partition(|it| !it.number_only);
    let mut told = format!(
        "{}, scale 1:{:.0}, drawn as you see it facing {}",
        deck.name,
        whole.scale,
        of.facing.words()
    );
    for (count, [one, many]) in [
        (
            larger,
            [
                "one name stands in the larger plan of its part",
                "names stand in the larger plans of its parts",
            ],
        ),
        (
            names.len(),
            [
                "one name found no room and stands in the lists",
                "names found no room and stand in the lists",
            ],
        ),
    ] {
        match count {
            0 => {}
            1 => told.extend(["; ", one]),
            count => told.extend(["; ", &count.to_string(), " ", many]),
        }
    }
    if !numbers.is_empty() {
        told.push_str("; some numbers stand in the load list only");
    }
    told
}

/// What stands above a part of a deck.
fn part_caption(of: Of<'_>, deck: &DeckScene, (from, to): Stretch, part: &Piece) -> String {
    format!(
        "{}, from {:.1} to {:.1} m from the transom, scale 1:{:.0}, drawn as you see it facing {}",
        deck.name,
        from.max(0.0),
        to,
        part.scale,
        of.facing.words()
    )
}
