//! Splines that a drawing gives only by the points that they were fitted through.
//!
//! Through the points runs a cubic whose slope and bend go on without a jump, with the lengths from point to point
//! as its parameter. The points themselves are met exactly. What a drawing program drew between them the format does
//! not say: by how much another usual way to choose the parameter (square roots of the lengths) would bend otherwise
//! is found here too and added to how far the curve may be off.

use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// Points nearer to each other than this share of the whole size are one.
const SAME_SHARE: f64 = 1e-9;

/// Between two points the two curves are held against each other at so many places.
const PLACES: u32 = 8;

/// A cubic spline through points.
#[derive(Clone, Debug)]
pub(super) struct Fitted {
    /// The parameter at each point; for a closed one the first point again at the end.
    params: Vec<f64>,
    points: Vec<Vec2>,
    /// The second derivative at each point.
    bends: Vec<Vec2>,
}

/// What is known of an end that is not joined to the other.
#[derive(Copy, Clone, Debug)]
pub(super) struct Ends {
    /// The way in which it sets out, if the drawing says so.
    pub(super) start: Option<Vec2>,
    /// The way in which it arrives.
    pub(super) end: Option<Vec2>,
}

impl Fitted {
    /// The curve through these points; `None` where fewer than two lie apart.
    pub(super) fn through(points: &[Vec2], closed: bool, ends: Ends) -> Option<Self> {
        Self::with_power(points, closed, ends, 1.0)
    }

    /// How far another usual curve through the same points lies from it, at most.
    pub(super) fn doubt(points: &[Vec2], closed: bool, ends: Ends) -> f64 {
        let (Some(one), Some(other)) = (
            Self::with_power(points, closed, ends, 1.0),
            Self::with_power(points, closed, ends, 0.5),
        ) else {
            return 0.0;
        };
        let mut most = 0.0_f64;
        for index in 1..one.params.len() {
            let places = |curve: &Self, count: u32| -> Vec<Vec2> {
                let (from, to) = (curve.params[index - 1], curve.params[index]);
                let shares = (0..=count).map(|i| f64::from(i) / f64::from(count));
                shares.map(|s| curve.at(from + s * (to - from))).collect()
            };
            let beside = places(&other, 4 * PLACES);
            for place in places(&one, PLACES) {
                let pairs = beside.windows(2);
                let nearest = pairs.map(|pair| to_segment(place, pair[0], pair[1]));
                most = most.max(nearest.fold(f64::INFINITY, f64::min));
            }
        }
        most
    }

    fn with_power(points: &[Vec2], closed: bool, ends: Ends, power: f64) -> Option<Self> {
        let size = points
            .iter()
            .map(|p| p.distance(*points.first().unwrap_or(p)))
            .fold(0.0, f64::max);
        let mut points: Vec<Vec2> = points.to_vec();
        points.dedup_by(|a, b| a.distance(*b) <= SAME_SHARE * size);
        if closed
            && points.len() > 1
            && points[0].distance(points[points.len() - 1]) > SAME_SHARE * size
        {
            points.push(points[0]);
        }
        if points.len() < 2 || !points.iter().all(|point| point.is_finite()) {
            return None;
        }
        let mut params = vec![0.0];
        for pair in points.windows(2) {
            let last = params[params.len() - 1];
            params.push(last + pair[0].distance(pair[1]).power(power));
        }
        // A closed curve of two places is a line there and back.
        let bends = if closed && points.len() > 3 {
            closed_bends(&params, &points)
        } else {
            open_bends(&params, &points, ends)
        };
        Some(Self {
            params,
            points,
            bends,
        })
    }

    /// The parameter at each point that it runs through.
    pub(super) fn params(&self) -> &[f64] {
        &self.params
    }

    /// The place at a parameter.
    pub(super) fn at(&self, t: f64) -> Vec2 {
        let last = self.params.len() - 1;
        let i = self
            .params
            .partition_point(|param| *param <= t)
            .clamp(1, last);
        let (from, to) = (self.params[i - 1], self.params[i]);
        let h = to - from;
        let (a, b) = ((to - t) / h, (t - from) / h);
        let bent = (a * a * a - a) * self.bends[i - 1] + (b * b * b - b) * self.bends[i];
        a * self.points[i - 1] + b * self.points[i] + (h * h / 6.0) * bent
    }
}

/// Second derivatives at the points of an open curve: at an end whose direction the drawing gives it sets out so, at
/// another it runs straight.
///
/// Symbols: h from point to point, M the second derivatives; the rows are
/// h₋ M₋ + 2(h₋ + h₊) M + h₊ M₊ = 6 (slope₊ − slope₋).
///
/// # References
///
/// C. de Boor (1978), *A Practical Guide to Splines*, chapter IV.
fn open_bends(params: &[f64], points: &[Vec2], ends: Ends) -> Vec<Vec2> {
    let last = points.len() - 1;
    let h = |i: usize| params[i + 1] - params[i];
    let slope = |i: usize| (1.0 / h(i)) * (points[i + 1] - points[i]);
    let mut rows = Rows::new(last + 1);
    // With lengths as the parameter a direction is a slope of one; with their roots, as steep as the first piece.
    let steep = |way: Option<Vec2>, i: usize| {
        way.and_then(Vec2::normalized)
            .map(|way| slope(i).length() * way)
    };
    match steep(ends.start, 0) {
        Some(way) => rows.set(0, 0.0, 2.0 * h(0), h(0), 6.0 * (slope(0) - way)),
        None => rows.set(0, 0.0, 1.0, 0.0, Vec2::ZERO),
    }
    for i in 1..last {
        let turn = 6.0 * (slope(i) - slope(i - 1));
        rows.set(i, h(i - 1), 2.0 * (h(i - 1) + h(i)), h(i), turn);
    }
    match steep(ends.end, last - 1) {
        Some(way) => rows.set(
            last,
            h(last - 1),
            2.0 * h(last - 1),
            0.0,
            6.0 * (way - slope(last - 1)),
        ),
        None => rows.set(last, 0.0, 1.0, 0.0, Vec2::ZERO),
    }
    rows.solved()
}

/// Second derivatives at the points of a closed curve, whose last point is its first: the rows go round, which a
/// second right side sets straight (Sherman and Morrison's formula).
fn closed_bends(params: &[f64], points: &[Vec2]) -> Vec<Vec2> {
    let count = points.len() - 1;
    let h = |i: usize| params[i % count + 1] - params[i % count];
    let slope = |i: usize| (1.0 / h(i)) * (points[i % count + 1] - points[i % count]);
    let before = |i: usize| (i + count - 1) % count;
    let diagonal = |i: usize| 2.0 * (h(before(i)) + h(i));
    // What couples the last row to the first, and the shift that takes it out.
    let corner = h(count - 1);
    let shift = -diagonal(0);
    let (mut rows, mut aside) = (Rows::new(count), Rows::new(count));
    for i in 0..count {
        let (low, high) = (
            if i == 0 { 0.0 } else { h(i - 1) },
            if i == count - 1 { 0.0 } else { h(i) },
        );
        let middle = match i {
            0 => diagonal(0) - shift,
            i if i == count - 1 => diagonal(i) - corner * corner / shift,
            i => diagonal(i),
        };
        let turn = 6.0 * (slope(i) - slope(before(i)));
        rows.set(i, low, middle, high, turn);
        let along = match i {
            0 => shift,
            i if i == count - 1 => corner,
            _ => 0.0,
        };
        aside.set(i, low, middle, high, Vec2 { x: along, y: 0.0 });
    }
    let (bends, aside) = (rows.solved(), aside.solved());
    let share = corner / shift;
    let over = 1.0 + aside[0].x + share * aside[count - 1].x;
    let along = (1.0 / over) * (bends[0] + share * bends[count - 1]);
    let mut bends: Vec<Vec2> = bends
        .iter()
        .zip(&aside)
        .map(|(bend, aside)| *bend - aside.x * along)
        .collect();
    bends.push(bends[0]);
    bends
}

/// Linear equations of which each has only its neighbours in it.
struct Rows {
    low: Vec<f64>,
    middle: Vec<f64>,
    high: Vec<f64>,
    right: Vec<Vec2>,
}

impl Rows {
    fn new(count: usize) -> Self {
        Self {
            low: vec![0.0; count],
            middle: vec![1.0; count],
            high: vec![0.0; count],
            right: vec![Vec2::ZERO; count],
        }
    }

    fn set(&mut self, i: usize, low: f64, middle: f64, high: f64, right: Vec2) {
        self.low[i] = low;
        self.middle[i] = middle;
        self.high[i] = high;
        self.right[i] = right;
    }

    /// Solved by elimination downwards and putting in upwards; the middles outweigh the others, so no row need be
    /// exchanged.
    fn solved(mut self) -> Vec<Vec2> {
        let count = self.middle.len();
        for i in 1..count {
            let share = self.low[i] / self.middle[i - 1];
            self.middle[i] -= share * self.high[i - 1];
            let above = self.right[i - 1];
            self.right[i] -= share * above;
        }
        let mut solved = self.right;
        for i in (0..count).rev() {
            let below = solved.get(i + 1).copied().unwrap_or(Vec2::ZERO);
            solved[i] = (1.0 / self.middle[i]) * (solved[i] - self.high[i] * below);
        }
        solved
    }
}

/// How far a point lies from a straight piece.
fn to_segment(point: Vec2, from: Vec2, to: Vec2) -> f64 {
    let along = to - from;
    let length = along.dot(along);
    let share = if length > 0.0 {
        ((point - from).dot(along) / length).clamp(0.0, 1.0)
    } else {
        0.0
    };
    point.distance(from + share * along)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    const FREE: Ends = Ends {
        start: None,
        end: None,
    };

    #[test]
    fn it_runs_through_its_points() {
        let points = [
            vec2(0.0, 0.0),
            vec2(1.0, 2.0),
            vec2(3.0, 2.5),
            vec2(4.0, 0.0),
        ];
        for closed in [false, true] {
            let curve = Fitted::through(&points, closed, FREE).unwrap();
            for (point, param) in points.iter().zip(curve.params()) {
                assert!(
                    curve.at(*param).distance(*point) < 1e-12,
                    "{point:?} {closed}"
                );
            }
        }
    }

    /// Natural cubic through (0, 0), (1, 1), (2, 0) at 0, 1, 2: second derivative −3 in the middle, so that the value
    /// at ½ is 11/16 (worked by hand from the rows).
    #[test]
    fn the_natural_cubic_is_that_of_the_book() {
        let params = [0.0, 1.0, 2.0];
        let points = [vec2(0.0, 0.0), vec2(1.0, 1.0), vec2(2.0, 0.0)];
        let bends = open_bends(&params, &points, FREE);
        assert!((bends[1].y + 3.0).abs() < 1e-12, "{bends:?}");
        let curve = Fitted {
            params: params.to_vec(),
            points: points.to_vec(),
            bends,
        };
        assert!((curve.at(0.5).y - 11.0 / 16.0).abs() < 1e-12);
        assert!(
            (curve.at(0.5).x - 0.5).abs() < 1e-12,
            "straight stays straight"
        );
    }

    /// Complete cubic splines are off by no more than 5/384 h⁴ of the fourth derivative (C. A. Hall and W. W. Meyer
    /// 1976, Optimal error bounds for cubic spline interpolation); the closed one through points of a circle obeys the
    /// same bound, as its derivatives go round without a jump.
    #[test]
    fn closed_through_points_of_a_circle_it_is_the_circle() {
        let count = 16;
        let step = std::f64::consts::TAU / f64::from(count);
        let points: Vec<Vec2> = (0..count)
            .map(|i| Vec2::from_angle(f64::from(i) * step))
            .collect();
        let curve = Fitted::through(&points, true, FREE).unwrap();
        let end = curve.params()[curve.params().len() - 1];
        let bound = 5.0 / 384.0 * step.whole_power(4) * 2.0_f64.sqrt();
        for i in 0..400 {
            let at = curve.at(end * f64::from(i) / 400.0);
            assert!(
                (at.length() - 1.0).abs() < bound,
                "{} beyond {bound}",
                at.length() - 1.0
            );
        }
        assert!(
            Fitted::doubt(&points, true, FREE) < 1e-9,
            "even lengths leave no doubt"
        );
    }

    #[test]
    fn it_sets_out_and_arrives_as_the_drawing_says() {
        let points = [vec2(0.0, 0.0), vec2(2.0, 0.0), vec2(4.0, 1.0)];
        let ends = Ends {
            start: Some(vec2(0.0, 3.0)),
            end: Some(vec2(5.0, 0.0)),
        };
        let curve = Fitted::through(&points, false, ends).unwrap();
        let last = curve.params()[2];
        let begins = curve.at(1e-6) - points[0];
        assert!(begins.x.abs() < 1e-3 * begins.y, "{begins:?}");
        let arrives = points[2] - curve.at(last - 1e-6);
        assert!(arrives.y.abs() < 1e-3 * arrives.x, "{arrives:?}");
    }

    #[test]
    fn uneven_points_leave_a_doubt_and_equal_ones_count_once() {
        let points = [
            vec2(0.0, 0.0),
            vec2(0.2, 0.5),
            vec2(3.0, 1.0),
            vec2(4.0, 0.0),
        ];
        assert!(Fitted::doubt(&points, false, FREE) > 0.01);
        let twice = [
            points[0], points[0], points[1], points[2], points[3], points[3],
        ];
        let (one, other) = (
            Fitted::through(&points, false, FREE).unwrap(),
            Fitted::through(&twice, false, FREE).unwrap(),
        );
        assert_eq!(one.params(), other.params());
        assert!(Fitted::through(&[points[0], points[0]], false, FREE).is_none());
    }
}
