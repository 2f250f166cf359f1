//! Ellipses and splines of a drawing as corners, close enough for any deck.
//!
//! The unit of the drawing is not known yet when it is read, so how far the straight pieces may lie from the
//! curve is a share of the curve's own size: a ten-thousandth, a millimetre on a deck of ten metres.

use dxf::entities::{Ellipse, Spline};

use super::Corner;
use super::fitted::{Ends, Fitted};
use crate::geometry::Elementary as _;
use crate::geometry::{Bounds, Vec2, vec2};

/// How far straight pieces may lie from their curve, as a share of its size.
const DEVIATION_SHARE: f64 = 1e-4;

/// A piece of a curve is halved so often at most.
const MOST_HALVINGS: u32 = 12;

/// Corners along a curve, and how far the curve lies from the straight pieces between them.
pub(super) struct Along {
    pub(super) corners: Vec<Corner>,
    pub(super) closed: bool,
    pub(super) deviation: f64,
}

/// An ellipse or a part of one. Its middle and axes are in the frame of the drawing, whichever way it faces.
pub(super) fn ellipse(ellipse: &Ellipse, up: f64) -> Along {
    let centre = vec2(ellipse.center.x, ellipse.center.y);
    let major = vec2(ellipse.major_axis.x, ellipse.major_axis.y);
    let minor = up * ellipse.minor_axis_ratio * major.perp();
    let turn = std::f64::consts::TAU;
    let sweep = match (ellipse.end_parameter - ellipse.start_parameter).rem_euclid(turn) {
        // From where it began to where it began is all of it.
        sweep if sweep < 1e-9 || turn - sweep < 1e-9 => turn,
        sweep => sweep,
    };
    let start = ellipse.start_parameter;
    let at = |share: f64| {
        let angle = start + share * sweep;
        centre + angle.cosine() * major + angle.sine() * minor
    };
    let quarters: Vec<f64> = (0..=4).map(|i| f64::from(i) / 4.0).collect();
    let mut along = straightened(&quarters, at);
    along.closed = sweep >= turn;
    if along.closed {
        along.corners.pop();
    }
    along
}

/// A spline by its control points, with weights where it has them; where it has none, by the points that it was
/// fitted through.
///
/// # Errors
///
/// What is wrong with it.
pub(super) fn spline(spline: &Spline) -> Result<Along, &'static str> {
    let control: Vec<Vec2> = spline
        .control_points
        .iter()
        .map(|p| vec2(p.x, p.y))
        .collect();
    if control.is_empty() {
        return fitted(spline);
    }
    let degree = usize::try_from(spline.degree_of_curve).unwrap_or(0);
    let knots = &spline.knot_values;
    let fits = (1..=11).contains(&degree)
        && control.len() > degree
        && knots.len() == control.len() + degree + 1
        && knots.windows(2).all(|pair| pair[0] <= pair[1])
        && knots.iter().all(|knot| knot.is_finite());
    let weights = &spline.weight_values;
    let weighs = weights.is_empty()
        || weights.len() == control.len() && weights.iter().all(|w| w.is_finite() && *w > 0.0);
    if !fits || !weighs {
        return Err("has knots or weights that do not fit its points");
    }
    let (first, last) = (knots[degree], knots[control.len()]);
    if last <= first {
        return Err("has no length");
    }
    // Halved from knot to knot, as the curve is smooth only between them.
    let inner = knots[degree..=control.len()].iter();
    let mut shares: Vec<f64> = inner.map(|k| (k - first) / (last - first)).collect();
    shares.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
    let at = |share: f64| {
        let t = first + share * (last - first);
        de_boor(degree, knots, &control, weights, t)
    };
    // Two more between knots, so that an S between two of them is not taken for a straight line.
    let shares: Vec<f64> = shares
        .windows(2)
        .flat_map(|pair| [0.0, 0.37, 0.71].map(|s| pair[0] + s * (pair[1] - pair[0])))
        .chain([1.0])
        .collect();
    Ok(straightened(&shares, at))
}

/// A spline of which the drawing has only the points that it was fitted through.
fn fitted(spline: &Spline) -> Result<Along, &'static str> {
    let points: Vec<Vec2> = spline.fit_points.iter().map(|p| vec2(p.x, p.y)).collect();
    let closed = spline.flags & 1 != 0;
    let way = |p: &dxf::Point| {
        let way = vec2(p.x, p.y);
        (way.is_finite() && way.length() > 0.0).then_some(way)
    };
    let ends = Ends {
        start: way(&spline.start_tangent),
        end: way(&spline.end_tangent),
    };
    let curve = Fitted::through(&points, closed, ends).ok_or("has no points that lie apart")?;
    let params = curve.params();
    let (Some(first), Some(last)) = (params.first(), params.last()) else {
        return Err("has no points that lie apart");
    };
    let pairs = params.windows(2);
    let inner = pairs.flat_map(|pair| [0.0, 0.37, 0.71].map(|s| pair[0] + s * (pair[1] - pair[0])));
    let shares: Vec<f64> = inner
        .chain([*last])
        .map(|param| (param - first) / (last - first))
        .collect();
    let mut along = straightened(&shares, |share| curve.at(first + share * (last - first)));
    along.deviation += Fitted::doubt(&points, closed, ends);
    along.closed = closed && points.len() > 2;
    if along.closed {
        along.corners.pop();
    }
    Ok(along)
}

/// The point of a rational B-spline at `t` (de Boor's algorithm on weighted points).
///
/// Symbols: degree p, knots t₀ … tₙ₊ₚ₊₁, control points with weights w (1 unless given).
///
/// # References
///
/// C. de Boor (1978), *A Practical Guide to Splines*, chapter X; L. Piegl and W. Tiller (1997), *The NURBS
/// Book*, 2nd edition, section 4.2, for the weights.
fn de_boor(degree: usize, knots: &[f64], control: &[Vec2], weights: &[f64], t: f64) -> Vec2 {
    let last = control.len() - 1;
    let span = (degree..=last)
        .rev()
        .find(|i| knots[*i] <= t && knots[*i] < knots[*i + 1])
        .unwrap_or(degree);
    let weight = |i: usize| weights.get(i).copied().unwrap_or(1.0);
    let mut points: Vec<(Vec2, f64)> = (span - degree..=span)
        .map(|i| (weight(i) * control[i], weight(i)))
        .collect();
    for round in 1..=degree {
        for j in (round..=degree).rev() {
            let (low, high) = (knots[span + j - degree], knots[span + j + 1 - round]);
            let share = if high > low {
                (t - low) / (high - low)
            } else {
                0.0
            };
            let (a, b) = (points[j - 1], points[j]);
            points[j] = (
                (1.0 - share) * a.0 + share * b.0,
                (1.0 - share) * a.1 + share * b.1,
            );
        }
    }
    let (point, weight) = points[degree];
    (1.0 / weight) * point
}

/// Corners at these shares of a curve and as many between them as it takes.
fn straightened(shares: &[f64], at: impl Fn(f64) -> Vec2) -> Along {
    let first: Vec<Vec2> = shares.iter().map(|share| at(*share)).collect();
    let size = Bounds::of(first.iter().copied()).size().length();
    let most = DEVIATION_SHARE * size;
    let mut corners = vec![(first[0], 0.0)];
    let mut deviation = 0.0_f64;
    for (pair, ends) in shares.windows(2).zip(first.windows(2)) {
        let mut open = vec![(pair[0], ends[0], pair[1], ends[1], 0)];
        while let Some((s, from, e, to, halvings)) = open.pop() {
            let middle = 0.5 * (s + e);
            let point = at(middle);
            let off = point.distance(0.5 * (from + to));
            if off > most && halvings < MOST_HALVINGS {
                open.push((middle, point, e, to, halvings + 1));
                open.push((s, from, middle, point, halvings + 1));
            } else {
                deviation = deviation.max(off);
                corners.push((to, 0.0));
            }
        }
    }
    Along {
        corners,
        closed: false,
        deviation,
    }
}
