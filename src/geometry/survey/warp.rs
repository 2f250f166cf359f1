use super::PlanFromImage;
use crate::geometry::{Bounds, Vec2, vec2};

/// A picture: four bytes a pixel (red, green, blue, opacity), row by row from the upper left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Raster {
    width: usize,
    height: usize,
    rgba: Vec<u8>,
}

/// Pixels to a side of a straightened picture, at most.
const MOST_PIXELS: usize = 4096;

impl Raster {
    /// A picture of these bytes; `None` if there are too few or too many of them.
    pub fn new(width: usize, height: usize, rgba: Vec<u8>) -> Option<Self> {
        let wanted = width.checked_mul(height)?.checked_mul(4)?;
        (wanted == rgba.len() && wanted > 0).then_some(Self {
            width,
            height,
            rgba,
        })
    }

    /// Pixels to a row.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    pub fn height(&self) -> usize {
        self.height
    }

    /// The bytes.
    pub fn rgba(&self) -> &[u8] {
        &self.rgba
    }

    /// The picture as it lies on the plan within bounds, bow to the right, its upper left corner at the
    /// least `x` and the greatest `y`. What the picture does not show is transparent.
    ///
    /// Each pixel takes the colour at the place that its middle comes from, mixed from the four pixels
    /// around it (bilinear); a photo that is much finer than the result loses detail rather than shimmers.
    ///
    /// `None` if the bounds are empty or would need more than 4096 pixels a side.
    pub fn straightened(
        &self,
        map: &PlanFromImage,
        bounds: &Bounds,
        metres_per_pixel: f64,
    ) -> Option<Self> {
        let size = bounds.size();
        let count = |length_m: f64| pixels(length_m / metres_per_pixel);
        let (width, height) = (count(size.x)?, count(size.y)?);
        let mut rgba = Vec::with_capacity(4 * width * height);
        for row in 0..height {
            for column in 0..width {
                let from_corner = vec2(column as f64 + 0.5, -(row as f64 + 0.5));
                let corner = vec2(bounds.min.x, bounds.max.y);
                let at = corner + metres_per_pixel * from_corner;
                let colour = map.pixel(at).and_then(|pixel| self.colour(pixel));
                rgba.extend(colour.unwrap_or([0; 4]));
            }
        }
        Self::new(width, height, rgba)
    }

    /// The colour at a place in pixels from the upper left corner of the picture.
    fn colour(&self, at: Vec2) -> Option<[u8; 4]> {
        // The middle of the first pixel is at one half.
        let (x, y) = (at.x - 0.5, at.y - 0.5);
        let (last_x, last_y) = (self.width as f64 - 1.0, self.height as f64 - 1.0);
        if !(-0.5..=last_x + 0.5).contains(&x) || !(-0.5..=last_y + 0.5).contains(&y) {
            return None;
        }
        let (x, y) = (x.clamp(0.0, last_x), y.clamp(0.0, last_y));
        let (left, top) = (index(x), index(y));
        let (right, bottom) = (
            (left + 1).min(self.width - 1),
            (top + 1).min(self.height - 1),
        );
        let (along, down) = (x - x.floor(), y - y.floor());
        let byte = |column: usize, row: usize, k: usize| {
            f64::from(self.rgba[4 * (row * self.width + column) + k])
        };
        Some([0, 1, 2, 3].map(|k| {
            let upper = byte(left, top, k) * (1.0 - along) + byte(right, top, k) * along;
            let lower = byte(left, bottom, k) * (1.0 - along) + byte(right, bottom, k) * along;
            to_byte(upper * (1.0 - down) + lower * down)
        }))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "checked against the range first"
)]
fn pixels(wanted: f64) -> Option<usize> {
    let wanted = wanted.ceil();
    (wanted >= 1.0 && wanted <= MOST_PIXELS as f64).then_some(wanted as usize)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the picture by the caller"
)]
fn index(place: f64) -> usize {
    place.floor().max(0.0) as usize
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte"
)]
fn to_byte(value: f64) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

#[cfg(test)]
mod tests {
    use super::super::Pair;
    use super::*;

    /// Left half red, right half blue, 40 by 20 pixels.
    fn halves() -> Raster {
        let pixel = |i: usize| {
            if i % 40 < 20 {
                [255, 0, 0, 255]
            } else {
                [0, 0, 255, 255]
            }
        };
        Raster::new(40, 20, (0..800).flat_map(pixel).collect()).unwrap()
    }

    fn pair(u: f64, v: f64, x: f64, y: f64) -> Pair {
        Pair {
            pixel: vec2(u, v),
            at: vec2(x, y),
        }
    }

    #[test]
    fn a_scan_keeps_its_colours_where_they_are() {
        // Ten pixels to the metre: the picture is 4 m by 2 m, its middle on the centreline.
        let pairs = [pair(0.0, 10.0, 0.0, 0.0), pair(40.0, 10.0, 4.0, 0.0)];
        let map = PlanFromImage::through(&pairs).unwrap();
        let bounds = Bounds::of([vec2(0.0, -1.0), vec2(5.0, 1.0)]);
        let made = halves().straightened(&map, &bounds, 0.1).unwrap();
        assert_eq!((made.width(), made.height()), (50, 20));
        assert_eq!(made.rgba()[..4], [255, 0, 0, 255], "aft is red");
        assert_eq!(
            made.rgba()[4 * 39..4 * 40],
            [0, 0, 255, 255],
            "forward is blue"
        );
        assert_eq!(made.rgba()[4 * 45..4 * 46], [0; 4], "beyond the picture");
    }

    #[test]
    fn a_slanted_photo_comes_out_square() {
        // The far edge of a 2 m square is half as long as the near one.
        let pairs = [
            pair(10.0, 2.0, 2.0, 1.0),
            pair(30.0, 2.0, 2.0, -1.0),
            pair(40.0, 20.0, 0.0, -1.0),
            pair(0.0, 20.0, 0.0, 1.0),
        ];
        let map = PlanFromImage::through(&pairs).unwrap();
        let bounds = Bounds::of([vec2(0.0, -1.0), vec2(2.0, 1.0)]);
        let made = halves().straightened(&map, &bounds, 0.05).unwrap();
        let at = |column: usize, row: usize| {
            let first = 4 * (row * made.width() + column);
            [made.rgba()[first], made.rgba()[first + 2]]
        };
        for column in 0..40 {
            assert_eq!(at(column, 5), [255, 0], "port is red, {column}");
            assert_eq!(at(column, 34), [0, 255], "starboard is blue, {column}");
        }
    }

    #[test]
    fn too_fine_a_picture_is_refused() {
        let map = PlanFromImage::through(&[pair(0.0, 0.0, 0.0, 0.0), pair(1.0, 0.0, 1.0, 0.0)]);
        let bounds = Bounds::of([vec2(0.0, 0.0), vec2(10.0, 2.0)]);
        let map = map.unwrap();
        assert!(halves().straightened(&map, &bounds, 1e-4).is_none());
        assert!(halves().straightened(&map, &bounds, 0.0).is_none());
        assert!(Raster::new(2, 2, vec![0; 15]).is_none());
    }
}
