use super::Bounds;
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

/// Finds which of many things lie near something, by the rectangles round them.
///
/// The things are numbered from 0 in the order given, and found in that order, so that nothing
/// depends on how the tree happens to be built. It is a first sieve: what it finds may still be
/// apart, what it leaves out is.
#[derive(Clone, Debug, Default)]
pub struct Index {
    tree: RTree<GeomWithData<Rectangle<[f64; 2]>, usize>>,
}

impl Index {
    /// Of things with these bounds.
    pub fn new(bounds: impl IntoIterator<Item = Bounds>) -> Self {
        let boxes = bounds.into_iter().enumerate().map(|(number, bounds)| {
            let corners = Rectangle::from_corners(bounds.min.into(), bounds.max.into());
            GeomWithData::new(corners, number)
        });
        Self {
            tree: RTree::bulk_load(boxes.collect()),
        }
    }

    /// The things whose bounds come within `margin_m` of these, in rising order.
    pub fn within(&self, bounds: &Bounds, margin_m: f64) -> Vec<usize> {
        let grown = bounds.grown(margin_m);
        let near = AABB::from_corners(grown.min.into(), grown.max.into());
        let mut found: Vec<_> = (self.tree.locate_in_envelope_intersecting(&near))
            .map(|entry| entry.data)
            .collect();
        found.sort_unstable();
        found
    }

    /// How many things there are.
    pub fn len(&self) -> usize {
        self.tree.size()
    }

    /// Is there nothing?
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Vec2, vec2};
    use proptest::prelude::*;

    fn boxes() -> impl Strategy<Value = Vec<Bounds>> {
        let bounds = (0..40i32, 0..40i32, 0..6i32, 0..6i32).prop_map(|(x, y, w, h)| {
            let corner = vec2(f64::from(x), f64::from(y));
            Bounds::of([corner, corner + vec2(f64::from(w), f64::from(h))])
        });
        proptest::collection::vec(bounds, 0..60)
    }

    proptest! {
        #![proptest_config(crate::geometry::test_support::cases(100))]

        #[test]
        fn it_finds_what_a_look_at_all_finds(boxes in boxes(), probe in 0..40i32, margin in 0..4i32) {
            let margin = f64::from(margin);
            let probe = Bounds::of([Vec2::ZERO, vec2(f64::from(probe), 3.0)]);
            let expected: Vec<usize> = (0..boxes.len())
                .filter(|&i| boxes[i].meets(&probe.grown(margin)))
                .collect();
            prop_assert_eq!(Index::new(boxes).within(&probe, margin), expected);
        }
    }
}
