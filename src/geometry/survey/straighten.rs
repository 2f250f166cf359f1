use super::linear::solve;
use super::{Covariance, ErrorEllipse};
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// A point in a photo and the same point on the plan.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Pair {
    /// In the picture, in pixels: x to the right, y down, from the upper left corner.
    pub pixel: Vec2,
    /// On the plan, in metres.
    pub at: Vec2,
}

/// From the pixels of a photo to the plan: a projective map of the plane.
///
/// Two pairs give a scale and a turn (a scan, or a photo taken from straight above); four give the
/// perspective of a flat deck seen at a slant.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct PlanFromImage {
    /// Row by row; the last entry is 1 in the scaled frame in which it was solved.
    rows: [[f64; 3]; 3],
    /// The sign of the denominator on the seen side of the horizon.
    seen: f64,
}

/// Why points give no map.
#[derive(Copy, Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StraightenError {
    /// Neither two nor four.
    #[error("two points give the scale, four corners straighten; there are {0}")]
    NotTwoOrFour(usize),

    /// Points that coincide, or three of four in a line.
    #[error("two of the points coincide, or three of the corners lie in a line")]
    InALine,

    /// The corners run round the other way in the photo than on the plan, or cross over.
    #[error("the corners do not run round in the same order in the photo and on the plan")]
    OutOfOrder,

    /// A coordinate is no number.
    #[error("a coordinate is no number")]
    NotFinite,
}

impl PlanFromImage {
    /// The map through two or four pairs.
    ///
    /// ```text
    /// two:   at = a·conj(p) + b        (complex numbers; the conjugate because pixels count down)
    /// four:  x = (h₁u + h₂v + h₃) / (h₇u + h₈v + 1),  y = (h₄u + h₅v + h₆) / (h₇u + h₈v + 1)
    /// ```
    ///
    /// Solved in coordinates shifted to the middle and scaled to the size of the points.
    ///
    /// # Assumptions
    ///
    /// The deck is flat and the lens draws straight lines straight; the wide lens of a phone bends them
    /// by up to a few per cent near the edge of the photo (common knowledge, no source): keep the deck in
    /// the middle.
    ///
    /// # Accuracy
    ///
    /// Exact for the given pairs up to rounding; the error to expect from clicks: [`Fit`].
    ///
    /// # References
    ///
    /// R. Hartley, A. Zisserman (2003), Multiple View Geometry in Computer Vision, 2nd edition, Cambridge
    /// University Press, sections 4.1 (four points) and 4.4 (normalisation).
    pub fn through(pairs: &[Pair]) -> Result<Self, StraightenError> {
        if pairs
            .iter()
            .any(|p| !p.pixel.is_finite() || !p.at.is_finite())
        {
            return Err(StraightenError::NotFinite);
        }
        match pairs {
            [a, b] => Self::similar(*a, *b),
            [a, b, c, d] => Self::projective([*a, *b, *c, *d]),
            _ => Err(StraightenError::NotTwoOrFour(pairs.len())),
        }
    }

    fn similar(a: Pair, b: Pair) -> Result<Self, StraightenError> {
        let (p, q) = ((b.pixel - a.pixel).mirrored_y(), b.at - a.at);
        let square = p.length_squared();
        if !(square > 0.0 && q.length_squared() > 0.0) {
            return Err(StraightenError::InALine);
        }
        // q / p as complex numbers.
        let (re, im) = (p.dot(q) / square, p.cross(q) / square);
        let (u, v) = (a.pixel.x, -a.pixel.y);
        let rows = [
            [re, im, a.at.x - (re * u - im * v)],
            [im, -re, a.at.y - (im * u + re * v)],
            [0.0, 0.0, 1.0],
        ];
        Ok(Self { rows, seen: 1.0 })
    }

    fn projective(pairs: [Pair; 4]) -> Result<Self, StraightenError> {
        let (pixel_middle, pixel_size) = frame(pairs.map(|p| p.pixel));
        let (at_middle, at_size) = frame(pairs.map(|p| p.at));
        if !(pixel_size > 0.0 && at_size > 0.0) {
            return Err(StraightenError::InALine);
        }
        let from = pairs.map(|p| (p.pixel - pixel_middle) / pixel_size);
        let to = pairs.map(|p| (p.at - at_middle) / at_size);
        check_corners(from, to)?;
        let mut a = [[0.0; 8]; 8];
        let mut b = [0.0; 8];
        for (i, (p, q)) in from.iter().zip(&to).enumerate() {
            let (u, v, x, y) = (p.x, p.y, q.x, q.y);
            a[2 * i] = [u, v, 1.0, 0.0, 0.0, 0.0, -u * x, -v * x];
            a[2 * i + 1] = [0.0, 0.0, 0.0, u, v, 1.0, -u * y, -v * y];
            (b[2 * i], b[2 * i + 1]) = (x, y);
        }
        let h = solve(a, b).ok_or(StraightenError::InALine)?;
        let inner = [[h[0], h[1], h[2]], [h[3], h[4], h[5]], [h[6], h[7], 1.0]];
        let before = [
            [1.0 / pixel_size, 0.0, -pixel_middle.x / pixel_size],
            [0.0, 1.0 / pixel_size, -pixel_middle.y / pixel_size],
            [0.0, 0.0, 1.0],
        ];
        let after = [
            [at_size, 0.0, at_middle.x],
            [0.0, at_size, at_middle.y],
            [0.0, 0.0, 1.0],
        ];
        let rows = times(after, times(inner, before));
        let [g, k, l] = rows[2];
        let denominator = |p: &Pair| g * p.pixel.x + k * p.pixel.y + l;
        let seen = denominator(&pairs[0]).signum();
        // A horizon that runs between the corners: the deck would be seen from both sides at once.
        let all_seen = pairs.iter().all(|p| denominator(p) * seen > 0.0);
        if !all_seen {
            return Err(StraightenError::OutOfOrder);
        }
        Ok(Self { rows, seen })
    }

    /// Where on the plan a pixel lies; `None` on the horizon and beyond.
    pub fn at(&self, pixel: Vec2) -> Option<Vec2> {
        let [x, y, w] = self.rows.map(|[a, b, c]| a * pixel.x + b * pixel.y + c);
        let at = vec2(x / w, y / w);
        (w * self.seen > 0.0 && at.is_finite()).then_some(at)
    }

    /// The pixel that shows a point of the plan; `None` where the photo cannot show it.
    pub fn pixel(&self, at: Vec2) -> Option<Vec2> {
        let [[a, b, c], [d, e, f], [g, h, i]] = self.rows;
        // The adjugate: the inverse up to a factor, which the division takes out.
        let u = (e * i - f * h) * at.x + (c * h - b * i) * at.y + (b * f - c * e);
        let v = (f * g - d * i) * at.x + (a * i - c * g) * at.y + (c * d - a * f);
        let w = (d * h - e * g) * at.x + (b * g - a * h) * at.y + (a * e - b * d);
        let pixel = vec2(u / w, v / w);
        (pixel.is_finite() && self.at(pixel).is_some()).then_some(pixel)
    }

    /// The nine numbers, row by row, scaled so that the last is 1 where that can be.
    pub fn matrix(&self) -> [[f64; 3]; 3] {
        let last = self.rows[2][2];
        let divisor = if last == 0.0 { 1.0 } else { last };
        self.rows.map(|row| row.map(|value| value / divisor))
    }

    /// How long a pixel is on the plan there, in metres: the longer way.
    pub fn pixel_size_m(&self, pixel: Vec2) -> Option<f64> {
        let [along, down] = self.derivatives(pixel)?;
        Some(along.length().max(down.length()))
    }

    /// How the place on the plan shifts per pixel to the right and per pixel down.
    fn derivatives(&self, pixel: Vec2) -> Option<[Vec2; 2]> {
        let at = self.at(pixel)?;
        let [[a, b, _], [d, e, _], [g, h, i]] = self.rows;
        let w = g * pixel.x + h * pixel.y + i;
        let along = vec2(a - g * at.x, d - g * at.y) / w;
        let down = vec2(b - h * at.x, e - h * at.y) / w;
        Some([along, down])
    }
}

/// The middle of four points and their mean distance from it.
fn frame(points: [Vec2; 4]) -> (Vec2, f64) {
    let middle = points.iter().fold(Vec2::ZERO, |sum, p| sum + *p) / 4.0;
    let mean = points.iter().map(|p| p.distance(middle)).sum::<f64>() / 4.0;
    (middle, mean)
}

/// Both sets must be convex and run round the same way, once pixels are counted upwards.
fn check_corners(pixels: [Vec2; 4], plan: [Vec2; 4]) -> Result<(), StraightenError> {
    let turns = |points: [Vec2; 4]| {
        [0, 1, 2, 3].map(|i| {
            let [a, b, c] = [0, 1, 2].map(|k| points[(i + k) % 4]);
            (b - a).cross(c - b)
        })
    };
    let (seen, wanted) = (turns(pixels.map(Vec2::mirrored_y)), turns(plan));
    // The points are scaled to about 1, so that an area below this is a line drawn by rounding.
    if seen.iter().chain(&wanted).any(|turn| turn.abs() < 1e-9) {
        return Err(StraightenError::InALine);
    }
    let same = seen
        .iter()
        .chain(&wanted)
        .all(|turn| turn * wanted[0] > 0.0);
    same.then_some(()).ok_or(StraightenError::OutOfOrder)
}

fn times(a: [[f64; 3]; 3], b: [[f64; 3]; 3]) -> [[f64; 3]; 3] {
    a.map(|row| [0, 1, 2].map(|j| (0..3).map(|k| row[k] * b[k][j]).sum()))
}

/// A map with the error that clicks and the known sides bring into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    map: PlanFromImage,
    /// Pairs of maps with one coordinate of one pair a step more and a step less.
    nudged: Vec<(PlanFromImage, PlanFromImage)>,
    click_error_px: f64,
}

impl Fit {
    /// The map, its clicks with a standard error of `click_error_px` in each coordinate and the points on
    /// the plan with one of `plan_error_m`.
    pub fn new(
        pairs: &[Pair],
        click_error_px: f64,
        plan_error_m: f64,
    ) -> Result<Self, StraightenError> {
        let map = PlanFromImage::through(pairs)?;
        let mut nudged = Vec::new();
        for i in 0..pairs.len() {
            for unit in [vec2(1.0, 0.0), vec2(0.0, 1.0)] {
                for (pixel, at) in [(click_error_px, 0.0), (0.0, plan_error_m)] {
                    if pixel + at <= 0.0 {
                        continue;
                    }
                    let moved = |sign: f64| {
                        let mut pairs = pairs.to_vec();
                        pairs[i].pixel += sign * pixel * unit;
                        pairs[i].at += sign * at * unit;
                        PlanFromImage::through(&pairs)
                    };
                    nudged.push((moved(0.5)?, moved(-0.5)?));
                }
            }
        }
        Ok(Self {
            map,
            nudged,
            click_error_px,
        })
    }

    /// The map itself.
    pub fn map(&self) -> &PlanFromImage {
        &self.map
    }

    /// How uncertain the plan's place of something clicked in the photo is; `None` beyond the horizon.
    ///
    /// ```text
    /// C = Σ (∂at/∂c)² σ_c²  over the coordinates c of all pairs, by central differences of one σ_c,
    ///     plus J Jᵀ σ_click² of the click itself
    /// ```
    ///
    /// Between the corners it is about that of a click; outside it grows with the distance from them.
    ///
    /// # References
    ///
    /// Law of propagation of variances, as for [`fix_by_two_tapes`](super::fix_by_two_tapes).
    pub fn error_at(&self, pixel: Vec2) -> Option<ErrorEllipse> {
        let mut covariance = self.own(pixel)?;
        for (more, less) in &self.nudged {
            covariance = covariance.plus_along(more.at(pixel)? - less.at(pixel)?);
        }
        Some(covariance.ellipse())
    }

    /// The distance on the plan between two things clicked in the photo, and its standard error, both in
    /// metres.
    ///
    /// What shifts both ends alike falls out.
    pub fn distance(&self, from: Vec2, to: Vec2) -> Option<(f64, f64)> {
        let span = self.map.at(to)? - self.map.at(from)?;
        let direction = span.normalized().unwrap_or(vec2(1.0, 0.0));
        let mut variance = self.own(from)?.along(direction) + self.own(to)?.along(direction);
        for (more, less) in &self.nudged {
            let more = (more.at(to)? - more.at(from)?).length();
            let less = (less.at(to)? - less.at(from)?).length();
            variance += (more - less).whole_power(2);
        }
        Some((span.length(), variance.sqrt()))
    }

    fn own(&self, pixel: Vec2) -> Option<Covariance> {
        let [along, down] = self.map.derivatives(pixel)?;
        Some(
            Covariance::default()
                .plus_along(self.click_error_px * along)
                .plus_along(self.click_error_px * down),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::test_support::cases;
    use proptest::prelude::*;

    fn pair(u: f64, v: f64, x: f64, y: f64) -> Pair {
        Pair {
            pixel: vec2(u, v),
            at: vec2(x, y),
        }
    }

    /// A scan at 100 pixels to the metre, bow to the right, port up.
    #[test]
    fn two_points_scale_a_scan() {
        let pairs = [pair(50.0, 200.0, 0.0, 0.0), pair(650.0, 200.0, 6.0, 0.0)];
        let fit = Fit::new(&pairs, 1.0, 0.0).unwrap();
        let at = fit.map().at(vec2(250.0, 100.0)).unwrap();
        assert!(at.distance(vec2(2.0, 1.0)) < 1e-12, "{at:?}");
        assert!((fit.map().pixel_size_m(vec2(0.0, 0.0)).unwrap() - 0.01).abs() < 1e-12);
        // At the first point: its own click, and the pair's click at the same place.
        let there = fit.error_at(vec2(50.0, 200.0)).unwrap();
        assert!(
            (there.major_m - 0.01 * 2.0_f64.sqrt()).abs() < 1e-6,
            "{there:?}"
        );
        // The distance between the two: two clicks now and two then, each of one pixel.
        let (distance, error) = fit.distance(pairs[0].pixel, pairs[1].pixel).unwrap();
        assert!((distance - 6.0).abs() < 1e-12);
        assert!((error - 0.02).abs() < 1e-5, "{error}");
    }

    #[test]
    fn corners_out_of_order_are_told() {
        let square = [
            pair(100.0, 100.0, 0.0, 1.0),
            pair(500.0, 120.0, 2.0, 1.0),
            pair(480.0, 400.0, 2.0, 0.0),
            pair(90.0, 420.0, 0.0, 0.0),
        ];
        assert!(PlanFromImage::through(&square).is_ok());
        let [a, b, c, d] = square;
        let swapped = [Pair { at: b.at, ..a }, Pair { at: a.at, ..b }, c, d];
        assert_eq!(
            PlanFromImage::through(&swapped),
            Err(StraightenError::OutOfOrder)
        );
        let mirrored = [
            Pair { at: b.at, ..a },
            Pair { at: a.at, ..b },
            Pair { at: d.at, ..c },
            Pair { at: c.at, ..d },
        ];
        assert_eq!(
            PlanFromImage::through(&mirrored),
            Err(StraightenError::OutOfOrder)
        );
        let in_line = [
            a,
            b,
            Pair {
                pixel: vec2(300.0, 110.0),
                ..c
            },
            d,
        ];
        assert_eq!(
            PlanFromImage::through(&in_line),
            Err(StraightenError::InALine)
        );
        let three = PlanFromImage::through(&square[..3]);
        assert_eq!(three, Err(StraightenError::NotTwoOrFour(3)));
        let twice = PlanFromImage::through(&[a, a]);
        assert_eq!(twice, Err(StraightenError::InALine));
    }

    proptest! {
        #![proptest_config(cases(100))]

        /// A camera over a deck: what it sees of the plan comes back to the plan, the error of a far point
        /// is more than that of one between the corners, and places beyond the horizon have none.
        #[test]
        fn a_photo_from_a_mast_is_straightened(
            height in 2.0_f64..8.0, back in 0.5_f64..4.0, slant in 0.1_f64..0.6,
            length in 1.0_f64..4.0, width in 1.0_f64..2.0,
            px in 0.0_f64..1.0, py in 0.0_f64..1.0,
        ) {
            // Looks forward and down; pixels right = starboard, down = aft.
            let see = |at: Vec2| {
                let (forward, up) = (at.x + back, -height);
                let depth = forward * slant.sine() - up * slant.cosine();
                let rise = forward * slant.cosine() + up * slant.sine();
                vec2(2000.0 - 3000.0 * at.y / depth, 1500.0 - 3000.0 * rise / depth)
            };
            let half = 0.5 * width;
            let corners = [
                vec2(0.0, half), vec2(0.0, -half), vec2(length, -half), vec2(length, half),
            ];
            let pairs = corners.map(|at| Pair { pixel: see(at), at });
            let fit = Fit::new(&pairs, 2.0, 0.003).unwrap();
            let inside = vec2(px * length, (py - 0.5) * width);
            let found = fit.map().at(see(inside)).unwrap();
            prop_assert!(found.distance(inside) < 1e-8, "{found:?} {inside:?}");
            let again = fit.map().pixel(inside).unwrap();
            prop_assert!(again.distance(see(inside)) < 1e-5);
            let middle = fit.error_at(see(vec2(0.5 * length, 0.0))).unwrap();
            let far = fit.error_at(see(vec2(3.0 * length, 0.0))).unwrap();
            prop_assert!(far.major_m > middle.major_m, "{far:?} {middle:?}");
            let horizon = 1500.0 - 3000.0 * slant.cosine() / slant.sine();
            prop_assert!(fit.map().at(vec2(2000.0, horizon - 10.0)).is_none());
            prop_assert!(fit.map().at(vec2(2000.0, horizon + 10.0)).is_some());
        }
    }
}
