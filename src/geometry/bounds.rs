use super::{Vec2, vec2};

/// An upright rectangle: the smallest one round something.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Bounds {
    /// The corner with the least `x` and `y`.
    pub min: Vec2,

    /// The corner with the greatest `x` and `y`.
    pub max: Vec2,
}

impl Bounds {
    /// The bounds of nothing: inside out, so that every union with it gives the other.
    pub const EMPTY: Self = Self {
        min: vec2(f64::INFINITY, f64::INFINITY),
        max: vec2(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// Round all these points.
    pub fn of(points: impl IntoIterator<Item = Vec2>) -> Self {
        points.into_iter().fold(Self::EMPTY, |bounds, p| {
            bounds.union(&Self { min: p, max: p })
        })
    }

    /// Round both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            min: vec2(self.min.x.min(other.min.x), self.min.y.min(other.min.y)),
            max: vec2(self.max.x.max(other.max.x), self.max.y.max(other.max.y)),
        }
    }

    /// Larger by this much on every side.
    #[must_use]
    pub fn grown(&self, margin_m: f64) -> Self {
        let margin = vec2(margin_m, margin_m);
        Self {
            min: self.min - margin,
            max: self.max + margin,
        }
    }

    /// Do they share a point?
    pub fn meets(&self, other: &Self) -> bool {
        self.min.x <= other.max.x
            && other.min.x <= self.max.x
            && self.min.y <= other.max.y
            && other.min.y <= self.max.y
    }

    /// Is the point inside or on the edge?
    pub fn contains(&self, p: Vec2) -> bool {
        self.min.x <= p.x && p.x <= self.max.x && self.min.y <= p.y && p.y <= self.max.y
    }

    /// The middle.
    pub fn center(&self) -> Vec2 {
        self.min.lerp(self.max, 0.5)
    }

    /// Width and height.
    pub fn size(&self) -> Vec2 {
        self.max - self.min
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_are_closed() {
        let square = Bounds::of([vec2(1.0, 1.0), vec2(0.0, 0.0)]);
        assert!(square.contains(vec2(1.0, 0.5)), "the edge belongs to it");
        let beside = Bounds::of([vec2(1.0, 1.0), vec2(2.0, 2.0)]);
        assert!(square.meets(&beside), "they share a corner");
        assert!(!square.meets(&beside.grown(-0.1)), "a gap of 0.1");
        assert!(!Bounds::EMPTY.meets(&square), "nothing meets nothing");
        assert_eq!(Bounds::EMPTY.union(&square), square, "nothing adds nothing");
    }
}
