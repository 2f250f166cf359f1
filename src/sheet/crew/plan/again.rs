//! A piece drawn once more where names found no room: those first, and at last with bent lines that lead to them.

use super::{Extent, Of, Piece, Room, Unnamed, piece};
use crate::engine::DeckScene;
use crate::geometry::Vec2;

/// So often a piece is drawn again at most.
const MOST_TIMES: usize = 6;

/// After so many times lines that lead to names may be bent.
const STRAIGHT_TIMES: usize = 3;

/// What is done otherwise when a piece is drawn again.
#[derive(Clone, Debug, Default)]
pub(in super::super) struct Again {
    /// Names that found no room when their turn came, with where on the deck what they name is: their turn is first.
    first: Vec<(String, Vec2)>,

    /// May lines that lead to names be bent?
    pub(super) bent: bool,
}

impl Again {
    /// Is the turn of this name before all others?
    pub(super) fn is_first(&self, name: &str, at: Vec2) -> bool {
        let mut first = self.first.iter();
        first.any(|(other, there)| other == name && (*there - at).length() < 1e-6)
    }

    /// Are there such names?
    pub(super) fn has_first(&self) -> bool {
        !self.first.is_empty()
    }

    fn put_first(&mut self, unnamed: &[Unnamed]) {
        for it in unnamed {
            if !self.is_first(&it.name, it.at_m) {
                self.first.push((it.name.clone(), it.at_m));
            }
        }
    }
}

/// The piece, drawn again until everything on it is named, or as often as may be.
pub(super) fn drawn_until_named(
    of: Of<'_>,
    deck: &DeckScene,
    room: Room,
    extent: &Extent,
    first: Piece,
) -> Piece {
    drawn_again((of, deck), room, extent, (first, MOST_TIMES))
}

/// The same, so many times: of all drawings the one that leaves the fewest names without room, the first of several.
fn drawn_again(
    (of, deck): (Of<'_>, &DeckScene),
    room: Room,
    extent: &Extent,
    (first, times): (Piece, usize),
) -> Piece {
    let mut best = first;
    let mut extent = extent.clone();
    extent.again.put_first(&best.unnamed);
    for time in 1..=times {
        if best.unnamed.is_empty() {
            break;
        }
        extent.again.bent = time > STRAIGHT_TIMES;
        let next = piece(of, deck, room, &extent, None);
        extent.again.put_first(&next.unnamed);
        if next.unnamed.len() < best.unnamed.len() {
            best = next;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::super::super::tests::{brief_of, many};
    use super::super::{Facing, decks_to_draw};
    use super::*;

    /// Before any line is bent more is named, as those come first that found no room.
    #[test]
    fn whose_turn_is_first_finds_room() {
        let plan = many(60);
        let brief = brief_of(&plan);
        let deck = decks_to_draw(&brief)[0];
        let of = Of {
            plan: &plan,
            brief: &brief,
            facing: Facing::Ahead,
        };
        let mut gained = 0;
        for most_mm in [(60.0, 190.0), (90.0, 150.0), (120.0, 200.0)] {
            let (room, extent) = (Room::of(most_mm), Extent::default());
            let first = piece(of, deck, room, &extent, None);
            let before = first.unnamed.len();
            let again = drawn_again((of, deck), room, &extent, (first, STRAIGHT_TIMES));
            assert!(again.unnamed.len() <= before);
            gained += before - again.unnamed.len();
        }
        assert!(gained > 0, "nothing was gained");
    }
}
