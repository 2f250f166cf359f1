//! Which way the reader of a sheet faces: that is up on paper.

use super::super::Brief;
use super::hand_over;
use crate::geometry::Vec2;
use crate::layout::{Plan, Point};

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

impl Facing {
    /// What lies to the right and what lies ahead of the reader, on the deck plan.
    pub(super) fn axes(self) -> (Vec2, Vec2) {
        let (x, y) = (Vec2 { x: 1.0, y: 0.0 }, Vec2 { x: 0.0, y: 1.0 });
        let (minus_x, minus_y) = (Vec2 { x: -1.0, y: 0.0 }, Vec2 { x: 0.0, y: -1.0 });
        match self {
            Self::Ahead => (minus_y, x),
            Self::Astern => (y, minus_x),
            Self::Port => (x, y),
            Self::Starboard => (minus_x, minus_y),
        }
    }

    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Ahead => "ahead",
            Self::Astern => "astern",
            Self::Port => "to port",
            Self::Starboard => "to starboard",
        }
    }

    /// From the hand-over place one looks inboard, away from the nearest edge; without one the bow is to the
    /// right, as in the window.
    fn from(at: Option<Point>, deck: Option<&[Point]>) -> Self {
        let (Some([x, y]), Some(deck)) = (at, deck) else {
            return Self::Port;
        };
        let span = |axis: usize| {
            let along = deck.iter().map(|point| point[axis]);
            along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let ((aft, fore), (starboard, port)) = (span(0), span(1));
        let edges = [
            (port - y, Self::Starboard),
            (y - starboard, Self::Port),
            (x - aft, Self::Ahead),
            (fore - x, Self::Astern),
        ];
        let nearest = edges.into_iter().min_by(|a, b| a.0.total_cmp(&b.0));
        nearest.map_or(Self::Port, |(_, facing)| facing)
    }

    /// Does the boat stand along the page rather than across it?
    pub(in super::super) fn is_along(self) -> bool {
        matches!(self, Self::Ahead | Self::Astern)
    }
}

/// Which way the reader of a brief faces.
pub(in super::super) fn facing(plan: &Plan, brief: &Brief) -> Facing {
    let place = hand_over(plan, brief);
    let deck = place.and_then(|place| plan.boat.deck(&place.deck));
    Facing::from(
        place.map(|place| place.at),
        deck.map(|deck| deck.outline.as_slice()),
    )
}
