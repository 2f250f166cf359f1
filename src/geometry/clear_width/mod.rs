//! The widest thing that can be pushed from one place on a floor to another, by any route.
//!
//! The clear width of a route is the diameter of the largest disc that passes along it between the
//! walls: the edges of the floor and of its holes, and the obstacles on it. The clear width between
//! two places is that of the best route.
//!
//! # How
//!
//! Every wall is cut into convex blocks: edges of the floor, discs and stadiums, whole convex obstacles,
//! and the edges of others. Two blocks close the space between them for every disc wider than their gap.
//! Such closed gaps, taken in rising order, join blocks to chains, and a chain that comes back to where it began
//! is a ring. A ring separates the two places exactly if it meets the straight line between them an
//! odd number of times; the gap that first completes such a ring is the tight spot, and its width
//! is the answer. Chains are kept as a forest (union-find) that also knows, for every block, whether the
//! way to its root meets that line an odd number of times.
//!
//! # Assumptions
//!
//! Convex blocks make a good cover of what a disc cannot enter, so that the rings of the graph carry
//! all rings of the covered set (nerve theorem). This needs three guards:
//!
//! * the way from block to block is counted along the real path, from a fixed point of the one to
//!   its nearest point, over the gap, to a fixed point of the other; where blocks overlap the path
//!   goes through one common point;
//! * only gaps below twice the distance from either place to its nearest wall count: above that a
//!   place itself lies in the covered set, and that limit is the answer;
//! * sides of the line are decided by one half-open rule for all points, so that a point on the line
//!   is counted once.
//!
//! # Places
//!
//! A place such as a gate lies on the edge of the floor, where no disc fits. So a place is a
//! [`Zone`]: the floor near it. The width is that between the clearest points of both zones.
//!
//! # Accuracy
//!
//! Between points, exact up to rounding. Between zones never too large, and too small where another
//! point of a zone than those that were tried leads to a wider way; see the outside checks.
//!
//! # References
//!
//! C. Ó'Dúnlaing, C. K. Yap (1985), A "retraction" method for planning the motion of a disc, Journal
//! of Algorithms 6, 104-111: what a disc passes is decided by the gaps between pairs of walls.
//!
//! K. Borsuk (1948), On the imbedding of systems of compacta in simplicial complexes, Fundamenta
//! Mathematicae 35, 217-234: the nerve theorem.

mod block;
mod clearest;
mod gaps;
mod parity;
mod piece;
mod search;
mod walls;
mod zone;

pub use self::walls::{Clearance, Walls};
pub use self::zone::{Place, PlaceError, Zone};

use super::tolerances::NO_WAY_M;
use super::{Region, Shape, Vec2};

/// The caller's number for the thing that a wall belongs to. Where several gaps are equally tight,
/// the one between the highest numbers is named, so give what never moves the lowest ones.
pub type Tag = usize;

/// The diameter of the largest disc that can go from one place to another, and what limits it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct ClearWidth {
    /// The diameter in metres; 0 where a closed ring of walls lies between.
    pub width_m: f64,

    /// What keeps it from being larger.
    pub limit: Limit,
}

/// What limits a clear width.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Limit {
    /// A gap between two walls on the best route.
    TightSpot(TightSpot),

    /// No gap is tighter than the room at one of the ends.
    End {
        /// Which of the two.
        end: End,
        /// The nearest wall there.
        tag: Tag,
        /// Where that wall is nearest.
        at: Vec2,
    },

    /// Nothing below the greatest width that was asked for; see [`Walls::new`].
    Widest,
}

/// One of the two ends of a way.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum End {
    /// Where it starts.
    From,
    /// Where it leads.
    To,
}

/// The narrowest place of the widest way.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TightSpot {
    /// One of the two things that make it; not larger than `b`.
    pub a: Tag,

    /// The other; the same if one thing makes it alone, as a floor with a waist does.
    pub b: Tag,

    /// The point of the first nearest to the second.
    pub at_a: Vec2,

    /// The point of the second nearest to the first.
    pub at_b: Vec2,
}

impl TightSpot {
    /// Half-way between both.
    pub fn middle(&self) -> Vec2 {
        self.at_a.lerp(self.at_b, 0.5)
    }
}

impl ClearWidth {
    /// Between two places on a floor with these obstacles.
    ///
    /// For a single question. Where several are asked about the same walls, prepare [`Walls`] once.
    pub fn between<'a>(
        floor: &Region,
        floor_tag: Tag,
        obstacles: impl IntoIterator<Item = (Tag, &'a Shape)>,
        from: Zone,
        to: Zone,
    ) -> Result<Self, PlaceError> {
        Walls::new(floor.clone(), floor_tag, f64::INFINITY)
            .with(obstacles)
            .clear_width(from, to)
    }

    /// Is there no way at all, not even for something as thin as a stick?
    pub fn no_way(&self) -> bool {
        self.width_m < NO_WAY_M
    }

    /// The two things that make it as narrow as it is, if it is two things.
    pub fn tight_spot(&self) -> Option<TightSpot> {
        match self.limit {
            Limit::TightSpot(spot) => Some(spot),
            Limit::End { .. } | Limit::Widest => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, rectangle, vec2};

    fn floor(points: &[(f64, f64)]) -> Region {
        let vertices = points.iter().map(|&(x, y)| vec2(x, y)).collect();
        Region::from(Outline::new(vertices).unwrap())
    }

    fn two_by_four() -> Region {
        floor(&[(0., 0.), (4., 0.), (4., 2.), (0., 2.)])
    }

    fn across(floor: &Region, obstacles: &[Shape]) -> ClearWidth {
        let (from, to) = (Zone::point(vec2(0.9, 1.0)), Zone::point(vec2(3.1, 1.0)));
        ClearWidth::between(floor, 0, (1..).zip(obstacles), from, to).unwrap()
    }

    /// Half the last digit of the values below.
    const ROUNDED: f64 = 5e-6;

    /// Values of an independent study with buffered polygons (shapely 2.2, GEOS 3.14): a floor of
    /// 4 x 2 m with places at (0.9, 1) and (3.1, 1).
    #[test]
    fn worked_values() {
        let post = across(&two_by_four(), &[Shape::disc(vec2(2.0, 1.0), 0.1)]);
        assert!((post.width_m - 0.9).abs() < ROUNDED, "{post:?}");
        let spot = post.tight_spot().unwrap();
        assert_eq!((spot.a, spot.b), (0, 1), "edge and post");

        let hole = Outline::new(
            [(1.7, 0.8), (2.3, 0.8), (2.3, 1.2), (1.7, 1.2)]
                .map(|(x, y)| vec2(x, y))
                .to_vec(),
        );
        let holed = Region::new(two_by_four().outline().clone(), vec![hole.unwrap()]).unwrap();
        let round_the_hole = across(&holed, &[]);
        assert!(
            (round_the_hole.width_m - 0.8).abs() < ROUNDED,
            "{round_the_hole:?}"
        );

        let free = across(&two_by_four(), &[]);
        assert!((free.width_m - 1.8).abs() < ROUNDED, "{free:?}");
        let expected = Limit::End {
            end: End::From,
            tag: 0,
            at: vec2(0.0, 1.0),
        };
        assert_eq!(
            free.limit, expected,
            "the room at the end, 0.9 m from the edge"
        );
    }

    #[test]
    fn a_closed_ring_is_no_way() {
        let wall = rectangle(vec2(2.0, 1.0), 0.1, 1.0, 0.0).unwrap();
        let blocked = across(&two_by_four(), std::slice::from_ref(&wall));
        assert!(blocked.no_way(), "from edge to edge: {blocked:?}");
        let boxes =
            [(2.0, 0.5), (2.1, 1.5)].map(|(x, y)| rectangle(vec2(x, y), 0.3, 0.5, 0.0).unwrap());
        assert!(
            across(&two_by_four(), &boxes).no_way(),
            "two boxes that touch"
        );
        let around = [(0.9, 0.4), (0.9, 1.6), (0.4, 1.0), (1.4, 1.0)]
            .map(|(x, y)| Shape::disc(vec2(x, y), 0.45));
        assert!(
            across(&two_by_four(), &around).no_way(),
            "shut in by four discs"
        );
    }

    #[test]
    fn the_widest_of_several_ways_counts() {
        let post = |y| Shape::disc(vec2(2.0, y), 0.1);
        // Gaps along x = 2: 0.3, 0.5, 0.6; the rest is post.
        let posts = [post(0.4), post(1.1), post(1.8)];
        let width = across(&two_by_four(), &posts);
        assert!(
            (width.width_m - 0.5).abs() < 1e-9,
            "0.3, 0.5, 0.5, 0.1: {width:?}"
        );
        // A waist of the floor itself.
        let waist = floor(&[(0., 0.), (2., 0.7), (4., 0.), (4., 2.), (2., 1.3), (0., 2.)]);
        let width = across(&waist, &[]);
        assert!((width.width_m - 0.6).abs() < 1e-9, "waist: {width:?}");
        let spot = width.tight_spot().unwrap();
        assert_eq!((spot.a, spot.b), (0, 0), "the floor alone makes it");
        assert!(spot.middle().distance(vec2(2.0, 1.0)) < 1e-9, "{spot:?}");
    }

    #[test]
    fn wider_than_asked_is_not_measured() {
        let walls = Walls::new(two_by_four(), 0, 1.5);
        let (from, to) = (Zone::point(vec2(0.9, 1.0)), Zone::point(vec2(3.1, 1.0)));
        let width = walls.clear_width(from, to).unwrap();
        assert_eq!(
            width,
            ClearWidth {
                width_m: 1.5,
                limit: Limit::Widest
            },
            "1.8 in truth"
        );
    }

    #[test]
    fn places_at_the_edge_have_room() {
        let post = Shape::disc(vec2(2.0, 1.0), 0.3);
        let gates = [vec2(0.5, 0.0), vec2(3.5, 2.0)].map(Zone::around);
        let width =
            ClearWidth::between(&two_by_four(), 0, [(1, &post)], gates[0], gates[1]).unwrap();
        // 0.7 m on both sides of the post; the gates have room for 0.9 m.
        assert!((width.width_m - 0.7).abs() < 1e-9, "{width:?}");
    }
}
