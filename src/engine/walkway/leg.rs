//! A lashing that may lie across a walkway.

use crate::engine::hindrance::LEVEL_M;
use crate::geometry::{Segment, Shape, Vec2, vec2};
use crate::layout::Id;

/// One leg of a lashing, from a cylinder to a lashing point.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::engine) struct LashingLeg {
    /// The lashing.
    pub(in crate::engine) lashing: Id,

    /// The deck from which its heights count.
    pub(in crate::engine) deck: Id,

    /// Its ends in the boat frame, heights above that deck, in metres.
    pub(in crate::engine) ends: [[f64; 3]; 2],
}

impl LashingLeg {
    /// Seen from above.
    pub(super) fn plan(&self) -> Segment {
        let [from, to] = self.ends.map(|[x, y, _]| vec2(x, y));
        Segment::new(from, to)
    }

    /// Its height at this share of its length, in metres.
    pub(super) fn height(&self, share: f64) -> f64 {
        let [from, to] = self.ends.map(|[_, _, z]| z);
        from + share * (to - from)
    }

    /// The part of it that is higher than `low_m`, but never on the deck, and not higher than
    /// `high_m`, as a line seen from above.
    pub(super) fn between(&self, low_m: f64, high_m: f64) -> Option<Shape> {
        let low_m = low_m.max(LEVEL_M);
        let (start, rise) = (self.height(0.0), self.height(1.0) - self.height(0.0));
        let (from, to) = if rise == 0.0 {
            (start > low_m && start <= high_m).then_some((0.0, 1.0))?
        } else {
            let [a, b] = [low_m, high_m].map(|height| (height - start) / rise);
            (a.min(b).max(0.0), a.max(b).min(1.0))
        };
        let plan = self.plan();
        let at = |share: f64| -> Vec2 { plan.from.lerp(plan.to, share) };
        (from < to).then(|| Shape::line(at(from), at(to)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leg(from: [f64; 3], to: [f64; 3]) -> LashingLeg {
        LashingLeg {
            lashing: "L1".into(),
            deck: "main".into(),
            ends: [from, to],
        }
    }

    #[test]
    fn it_is_cut_by_height() {
        let sloping = leg([0.0, 0.0, 1.0], [2.0, 0.0, 0.0]);
        let high = sloping.between(0.5, 1.2);
        assert_eq!(high, Some(Shape::line(vec2(0.0, 0.0), vec2(1.0, 0.0))));
        let low = sloping.between(0.0, 0.5).unwrap();
        assert!((low.bounds().min.x - 1.0).abs() < 1e-12, "{low:?}");
        assert!(
            (low.bounds().max.x - (2.0 - 2.0 * LEVEL_M)).abs() < 1e-12,
            "{low:?}"
        );
        let level = leg([0.0, 0.0, 0.4], [2.0, 0.0, 0.4]);
        assert_eq!(level.between(0.5, 1.2), None, "all of it is low");
        let whole = level.between(0.0, 0.5);
        assert_eq!(whole, Some(Shape::line(vec2(0.0, 0.0), vec2(2.0, 0.0))));
        let upright = leg([1.0, 0.0, 0.0], [1.0, 0.0, 1.0]);
        assert_eq!(
            upright.between(0.0, 0.5),
            Some(Shape::line(vec2(1.0, 0.0), vec2(1.0, 0.0))),
            "seen from above it is a point"
        );
    }
}
