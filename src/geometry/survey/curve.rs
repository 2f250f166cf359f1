//! Curves to straight pieces with a stated deviation.

use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// Pieces of one curve, at most: an outline is refused beyond a thousand corners.
const MOST_PIECES: f64 = 400.0;

/// The arc of the circle through three points, as corners from the first to the last, and how far the
/// arc lies from the straight pieces between them at most, in metres.
///
/// ```text
/// sagitta = r (1 − cos(θ / 2n)) ≤ deviation
/// ```
///
/// `None` if the points lie in a line. The corners lie on the circle, so the pieces cut its inside; the
/// three points themselves are among them.
///
/// # References
///
/// The sagitta of a chord: elementary; the centre from the perpendicular bisectors.
pub fn arc_through(from: Vec2, via: Vec2, to: Vec2, deviation_m: f64) -> Option<(Vec<Vec2>, f64)> {
    let (a, b) = (via - from, to - from);
    let doubled = 2.0 * a.cross(b);
    let across = (a.length() * b.length()).max(f64::MIN_POSITIVE);
    // Flatter than a thousandth of a degree is a line, whatever the tape says.
    let bends = doubled.abs() > 2e-5 * across;
    if !bends {
        return None;
    }
    let (aa, bb) = (a.length_squared(), b.length_squared());
    let centre = from + vec2(b.y * aa - a.y * bb, a.x * bb - b.x * aa) / doubled;
    let mut corners = vec![from];
    let mut worst = 0.0_f64;
    for (start, end) in [(from, via), (via, to)] {
        let mut sweep = (end - centre).angle() - (start - centre).angle();
        if doubled > 0.0 && sweep < 0.0 {
            sweep += std::f64::consts::TAU;
        } else if doubled < 0.0 && sweep > 0.0 {
            sweep -= std::f64::consts::TAU;
        }
        let (on_arc, off) = arc(centre, start, sweep, deviation_m);
        worst = worst.max(off);
        corners.extend(&on_arc[1..on_arc.len() - 1]);
        corners.push(end);
    }
    Some((corners, worst))
}

/// The arc round a centre from a point on, swept by an angle from `+x` towards `+y`.
///
/// As corners from its first point to its last, and how far it lies from the straight pieces between them
/// at most, in metres. Cut into equal pieces; see [`arc_through`] for the bound.
pub fn arc(centre: Vec2, from: Vec2, sweep_rad: f64, deviation_m: f64) -> (Vec<Vec2>, f64) {
    let radius = centre.distance(from);
    let share = (deviation_m / radius).clamp(1e-9, 1.0);
    // Half a turn needs a corner in between, however coarse the pieces may be.
    let step = (2.0 * (1.0 - share).arc_cosine()).min(std::f64::consts::FRAC_PI_2);
    let pieces = count(sweep_rad.abs() / step);
    // The middle of a wide arc is a corner: the stem of a round bow.
    let wide = sweep_rad.abs() > std::f64::consts::FRAC_PI_2 - 1e-9;
    let pieces = pieces + if wide { pieces % 2 } else { 0 };
    let turned = |i: u32| (from - centre).rotated(sweep_rad * f64::from(i) / f64::from(pieces));
    let corners = (0..=pieces).map(|i| centre + turned(i)).collect();
    let off = radius * (1.0 - (sweep_rad / (2.0 * f64::from(pieces))).cosine());
    (corners, off)
}

/// A fair curve through points, in their order, as corners, and how far the curve lies from the
/// straight pieces at most, in metres.
///
/// A cubic spline, natural at both ends (no bending there), over the chord length from point to point:
/// what a thin batten does that is held at the points.
///
/// ```text
/// deviation of a piece ≤ h² max|p″| / 8
/// ```
///
/// # Assumptions
///
/// No two neighbours are the same point; with fewer than three points there is nothing to bend.
///
/// # Accuracy
///
/// The bound holds exactly: the second derivative of a cubic is linear, so it is greatest at an end.
///
/// # References
///
/// C. de Boor (2001), A Practical Guide to Splines, revised edition, Springer, chapter IV (natural
/// spline) and chapter II (interpolation error of a straight line, `h²/8 max|f″|`).
pub fn fair_curve(points: &[Vec2], deviation_m: f64) -> (Vec<Vec2>, f64) {
    if points.len() < 3 {
        return (points.to_vec(), 0.0);
    }
    let lengths: Vec<f64> = points
        .windows(2)
        .map(|pair| pair[0].distance(pair[1]))
        .collect();
    let bends = second_derivatives(points, &lengths);
    let mut corners = vec![points[0]];
    let mut worst = 0.0_f64;
    for (i, h) in lengths.iter().copied().enumerate() {
        let (p, q) = (points[i], points[i + 1]);
        let (bend, next_bend) = (bends[i], bends[i + 1]);
        let most = bend.length().max(next_bend.length());
        let pieces = count((h * h * most / (8.0 * deviation_m)).sqrt());
        let step = h / f64::from(pieces);
        worst = worst.max(step * step * most / 8.0);
        for k in 1..pieces {
            let t = f64::from(k) / f64::from(pieces);
            let s = 1.0 - t;
            let bent = (s * s * s - s) * bend + (t * t * t - t) * next_bend;
            corners.push(p.lerp(q, t) + h * h / 6.0 * bent);
        }
        corners.push(q);
    }
    (corners, worst)
}

/// The second derivatives of the natural spline at its points: a tridiagonal system, by elimination.
fn second_derivatives(points: &[Vec2], lengths: &[f64]) -> Vec<Vec2> {
    let n = points.len();
    let mut bends = vec![Vec2::ZERO; n];
    let mut diagonal = vec![1.0; n];
    for i in 1..n - 1 {
        let (before, after) = (lengths[i - 1], lengths[i]);
        let slope_change =
            (points[i + 1] - points[i]) / after - (points[i] - points[i - 1]) / before;
        let factor = if i == 1 {
            0.0
        } else {
            before / diagonal[i - 1]
        };
        diagonal[i] = 2.0 * (before + after) - factor * before;
        bends[i] = 6.0 * slope_change - factor * bends[i - 1];
    }
    bends[n - 1] = Vec2::ZERO;
    for i in (1..n - 1).rev() {
        bends[i] = (bends[i] - lengths[i] * bends[i + 1]) / diagonal[i];
    }
    bends
}

/// A number of pieces, at least one.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a small range first; what is no number becomes one piece"
)]
fn count(wanted: f64) -> u32 {
    wanted.ceil().clamp(1.0, MOST_PIECES) as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Segment;

    #[test]
    fn an_arc_stays_on_its_circle_and_within_the_deviation() {
        let (from, via, to) = (vec2(0.0, -1.0), vec2(1.0, 0.0), vec2(0.0, 1.0));
        let (corners, deviation) = arc_through(from, via, to, 1e-3).unwrap();
        assert!(deviation <= 1e-3 && deviation > 2e-4, "{deviation}");
        assert!(corners.iter().all(|p| (p.length() - 1.0).abs() < 1e-12));
        assert_eq!((corners[0], corners[corners.len() - 1]), (from, to));
        assert!(corners.contains(&via), "the stem is a corner");
        let flattest = corners
            .windows(2)
            .map(|pair| 1.0 - pair[0].lerp(pair[1], 0.5).length())
            .fold(0.0, f64::max);
        assert!(
            (flattest - deviation).abs() < 1e-12,
            "the stated deviation is met"
        );
    }

    #[test]
    fn points_in_a_line_have_no_arc() {
        let along = |x| vec2(x, 2.0 * x);
        assert!(arc_through(along(0.0), along(1.0), along(2.0), 1e-3).is_none());
    }

    #[test]
    fn a_fair_curve_passes_through_its_points_within_the_deviation() {
        let points = [
            vec2(0.0, 1.3),
            vec2(2.0, 1.2),
            vec2(3.2, 0.8),
            vec2(3.8, 0.0),
        ];
        let (coarse, deviation) = fair_curve(&points, 5e-3);
        let (fine, _) = fair_curve(&points, 1e-6);
        assert!(deviation <= 5e-3);
        assert!(
            points.iter().all(|p| coarse.contains(p)),
            "through every point"
        );
        let farthest = fine
            .iter()
            .map(|p| {
                let pieces = coarse.windows(2);
                let gaps = pieces.map(|w| {
                    Segment {
                        from: w[0],
                        to: w[1],
                    }
                    .distance(*p)
                });
                gaps.fold(f64::INFINITY, f64::min)
            })
            .fold(0.0, f64::max);
        assert!(farthest <= deviation + 1e-6, "{farthest} > {deviation}");
    }
}
