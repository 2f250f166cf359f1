//! Chains of pieces, and how often they meet the line between two places.

use crate::geometry::Vec2;

/// The straight line between two places.
#[derive(Copy, Clone, Debug)]
pub(super) struct Line {
    from: Vec2,
    to: Vec2,
}

impl Line {
    pub(super) fn new(from: Vec2, to: Vec2) -> Self {
        Self { from, to }
    }

    /// Is the point on the left side? A point on the line is not.
    pub(super) fn is_left(&self, p: Vec2) -> bool {
        (self.to - self.from).cross(p - self.from) > 0.0
    }

    /// Does the straight way from `p` to `q` meet the line between its two ends, given on which sides
    /// `p` and `q` lie?
    ///
    /// The line is met if its ends lie on different sides of the way. They cannot lie on the way
    /// itself: every way that is asked about keeps away from both places.
    pub(super) fn is_met(&self, (p, p_left): (Vec2, bool), (q, q_left): (Vec2, bool)) -> bool {
        if p_left == q_left {
            return false;
        }
        let way = q - p;
        (way.cross(self.from - p) > 0.0) != (way.cross(self.to - p) > 0.0)
    }
}

/// A forest of pieces. Every piece knows whether the way to its parent meets the line an odd number
/// of times.
///
/// # References
///
/// R. E. Tarjan, J. van Leeuwen (1984), Worst-case analysis of set union algorithms, Journal of the
/// ACM 31, 245-281: path halving.
#[derive(Clone, Debug)]
pub(super) struct Forest {
    parents: Vec<u32>,
    odd: Vec<bool>,
    sizes: Vec<u32>,
}

/// What joining two pieces did.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) enum Joined {
    /// Two chains became one, or a ring closed that does not separate the places.
    Fine,
    /// A ring closed that meets the line an odd number of times.
    OddRing,
}

impl Forest {
    pub(super) fn new(pieces: usize) -> Self {
        Self {
            parents: (0..).take(pieces).collect(),
            odd: vec![false; pieces],
            sizes: vec![1; pieces],
        }
    }

    /// With single pieces added up to so many.
    pub(super) fn grow(&mut self, pieces: usize) {
        let known = self.parents.len();
        self.parents.extend((0..).take(pieces).skip(known));
        self.odd.resize(pieces.max(known), false);
        self.sizes.resize(pieces.max(known), 1);
    }

    /// Joins two pieces by a way that meets the line an odd number of times or not.
    pub(super) fn join(&mut self, i: u32, j: u32, odd: bool) -> Joined {
        let ((root_i, odd_i), (root_j, odd_j)) = (self.root(i), self.root(j));
        let odd = odd ^ odd_i ^ odd_j;
        if root_i == root_j {
            return if odd { Joined::OddRing } else { Joined::Fine };
        }
        let (mut small, mut large) = (root_i as usize, root_j as usize);
        if self.sizes[small] > self.sizes[large] {
            std::mem::swap(&mut small, &mut large);
        }
        self.parents[small] = if small == root_i as usize {
            root_j
        } else {
            root_i
        };
        self.odd[small] = odd;
        self.sizes[large] += self.sizes[small];
        Joined::Fine
    }

    /// The root, and whether the way to it meets the line an odd number of times.
    fn root(&mut self, piece: u32) -> (u32, bool) {
        let (mut i, mut odd) = (piece, false);
        loop {
            let parent = self.parents[i as usize];
            if parent == i {
                return (i, odd);
            }
            // Hang it on its grandparent; a root hangs on itself by a way that meets nothing.
            self.odd[i as usize] ^= self.odd[parent as usize];
            self.parents[i as usize] = self.parents[parent as usize];
            odd ^= self.odd[i as usize];
            i = self.parents[i as usize];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    #[test]
    fn a_way_through_a_point_on_the_line_counts_once() {
        let line = Line::new(vec2(0.0, 0.0), vec2(4.0, 0.0));
        let sided = |p: Vec2| (p, line.is_left(p));
        let (above, on, below) = (vec2(1.0, 1.0), vec2(2.0, 0.0), vec2(3.0, -1.0));
        let met = |p, q| line.is_met(sided(p), sided(q));
        assert!(met(above, below), "straight across");
        assert!(met(above, on) ^ met(on, below), "in two steps");
        assert!(!(met(above, on) ^ met(on, above)), "there and back");
        assert!(!met(vec2(5.0, 1.0), vec2(5.0, -1.0)), "behind the end");
    }

    #[test]
    fn rings_are_told_by_their_parity() {
        let mut forest = Forest::new(5);
        for (i, j, odd) in [(0, 1, true), (1, 2, false), (2, 3, true), (3, 4, false)] {
            assert_eq!(forest.join(i, j, odd), Joined::Fine, "a chain: {i} {j}");
        }
        assert_eq!(forest.join(4, 0, false), Joined::Fine, "two meetings");
        assert_eq!(forest.join(4, 0, true), Joined::OddRing, "three meetings");
        assert_eq!(
            forest.join(1, 3, true),
            Joined::Fine,
            "1-2-3 meets once, and back once"
        );
        assert_eq!(
            forest.join(1, 3, false),
            Joined::OddRing,
            "1-2-3 meets once"
        );
    }
}
