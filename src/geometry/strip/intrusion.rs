//! What lies in a strip: how far into it, and the shifts that bring it off.

use super::Strip;
use crate::geometry::escape::{Obstacle, ways_out};
use crate::geometry::separation::gap_m;
use crate::geometry::tolerances::TOUCH_M;
use crate::geometry::{Segment, Shape, Vec2, middle_of_nearest, separation};

/// How something lies in a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Intrusion {
    /// What it takes of the width, in metres, if people pass on the better side of it; at most the
    /// width of the strip.
    pub into_m: f64,

    /// The point of it in the strip that is nearest to the middle line, in the middle of where it is as near.
    pub at: Vec2,

    /// The smallest shift that brings it off the strip.
    pub shift: Vec2,

    /// That shift and others in clearly different directions, each the smallest in its direction,
    /// the smallest first.
    pub shifts: Vec<Vec2>,
}

impl Strip {
    /// How something lies in the strip; `None` if it does not, or only touches its edge.
    ///
    /// The shifts are exact, see `ways_out`. They only look at the strip, so whoever uses one
    /// must look where it leads.
    pub fn intrusion(&self, shape: &Shape) -> Option<Intrusion> {
        if !self.bounds.meets(&shape.bounds()) {
            return None;
        }
        let parts: Vec<&Shape> = self.parts.iter().collect();
        let obstacles: Vec<_> = Obstacle::between(&[shape], &parts).collect();
        if (obstacles.iter()).all(|obstacle| obstacle.depth_at(Vec2::ZERO) <= TOUCH_M) {
            return None;
        }
        let shifts = ways_out(&obstacles, |_| true);
        let nearest = (self.segments())
            .map(|middle| Shape::line(middle.from, middle.to))
            .map(|middle| (gap_m(shape, &middle), middle))
            .min_by(|a, b| a.0.total_cmp(&b.0))?;
        let at_bends = (self.points[1..self.points.len() - 1].iter())
            .map(|bend| separation(shape, &Shape::disc(*bend, 0.0)).gap_m)
            .map(|gap| 0.5 * self.width_m - gap);
        let across = (self.segments()).filter_map(|middle| self.taken_of_width(shape, &middle));
        Some(Intrusion {
            into_m: across.chain(at_bends).fold(0.0, f64::max),
            at: middle_of_nearest(shape, &nearest.1),
            shift: shifts.first().copied().unwrap_or(Vec2::ZERO),
            shifts,
        })
    }

    /// What a shape takes of the width beside a straight piece of the middle line.
    fn taken_of_width(&self, shape: &Shape, middle: &Segment) -> Option<f64> {
        let (right, left) = extent_beside(shape, middle)?;
        let half = 0.5 * self.width_m;
        let (from_left, from_right) = (half - right, left + half);
        (from_left > 0.0 && from_right > 0.0).then(|| from_left.min(from_right).min(self.width_m))
    }
}

/// How far a shape reaches to the right and to the left of a line, as far as it lies beside it:
/// distances to the left, the least and the greatest.
fn extent_beside(shape: &Shape, line: &Segment) -> Option<(f64, f64)> {
    let along = line.span().normalized()?;
    let length = line.length();
    let local = |p: Vec2| {
        let offset = p - line.from;
        Vec2 {
            x: offset.dot(along),
            y: along.cross(offset),
        }
    };
    let (core, radius) = shape.core();
    let mut extent: Option<(f64, f64)> = None;
    let mut reach = |y: f64| {
        let (least, most) = extent.unwrap_or((y, y));
        extent = Some((least.min(y), most.max(y)));
    };
    for edge in core.edges() {
        let edge = Segment::new(local(edge.from), local(edge.to));
        let out = radius * edge.span().perp().normalized().unwrap_or(Vec2::ZERO);
        // Straight sides; for a shape with a radius one on either side of its line.
        for side in [out, -out] {
            let side = Segment::new(edge.from + side, edge.to + side);
            cut_to_band(&side, length)
                .into_iter()
                .flatten()
                .for_each(&mut reach);
        }
    }
    if radius > 0.0 {
        for center in core.as_slice().iter().map(|p| local(*p)) {
            // The nearest point of the band to the middle is where the arc reaches furthest.
            let off = center.x - center.x.clamp(0.0, length);
            if off.abs() < radius {
                let half = (radius * radius - off * off).sqrt();
                [center.y - half, center.y + half]
                    .into_iter()
                    .for_each(&mut reach);
            }
        }
    }
    extent
}

/// The heights of both ends of the part of a segment between `x` = 0 and `x` = `length`.
fn cut_to_band(segment: &Segment, length: f64) -> Option<[f64; 2]> {
    let Segment { from, to } = *segment;
    let (low, high) = (from.x.min(to.x), from.x.max(to.x));
    if high < 0.0 || low > length {
        return None;
    }
    let run = to.x - from.x;
    let height_at = |x: f64| {
        if run == 0.0 {
            from.y
        } else {
            from.y + (x - from.x) / run * (to.y - from.y)
        }
    };
    if run == 0.0 {
        return Some([from.y, to.y]);
    }
    Some([
        height_at(from.x.clamp(0.0, length)),
        height_at(to.x.clamp(0.0, length)),
    ])
}
