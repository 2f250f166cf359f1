//! Pages as pixels: grey, with soft edges.
//!
//! Every mark becomes polygons (letters by their outlines, lines by their two sides), and each pixel is
//! covered by the share of it that lies inside: exact along a row, in [`ROWS`] rows per pixel across. Equal
//! pages give equal pixels.

use ttf_parser::OutlineBuilder;

use super::font;
use super::page::{Align, BOLD_EM, DASHES_MM, Line, Mark, Page, Path, level};
use crate::geometry::Elementary as _;

/// Rows per pixel in which edges are found.
const ROWS: usize = 5;

/// Into how many straight pieces a curve of a letter goes.
const PIECES: u8 = 5;

/// Corners of the round end of a line.
const ROUND: u32 = 12;

/// Pixels to a side, at most: more than any screen or printer wants.
const MOST: f64 = 12_000.0;

/// A page as pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Pixels across.
    pub width: usize,

    /// Pixels down.
    pub height: usize,

    /// From 0 (black) to 255 (white), row by row from the top.
    pub grey: Vec<u8>,
}

/// Why pixels did not become a file.
#[derive(Debug, thiserror::Error)]
#[error("the picture cannot be written as PNG: {0}")]
pub struct PngError(#[from] image::ImageError);

impl Picture {
    /// The page at so many pixels per millimetre, on white.
    pub fn of(page: &Page, pixels_per_mm: f64) -> Self {
        let long = page.paper.width_mm().max(page.paper.height_mm());
        let scale = pixels_per_mm.clamp(0.1, MOST / long);
        let mut canvas = Canvas::new(
            pixels(page.paper.width_mm() * scale),
            pixels(page.paper.height_mm() * scale),
            scale,
        );
        for mark in page.marks() {
            match mark {
                Mark::Text(line) => canvas.text(line),
                Mark::Path(path) => canvas.path(path),
            }
        }
        Self {
            width: canvas.width,
            height: canvas.height,
            grey: canvas.grey,
        }
    }

    /// The bytes of a PNG file.
    pub fn png(&self) -> Result<Vec<u8>, PngError> {
        let mut bytes = std::io::Cursor::new(Vec::new());
        let (width, height) = (self.width, self.height);
        let size = |pixels: usize| u32::try_from(pixels).unwrap_or(u32::MAX);
        image::write_buffer_with_format(
            &mut bytes,
            &self.grey,
            size(width),
            size(height),
            image::ExtendedColorType::L8,
            image::ImageFormat::Png,
        )?;
        Ok(bytes.into_inner())
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "within what MOST allows, and above 0"
)]
fn pixels(length: f64) -> usize {
    length.round().max(1.0) as usize
}

type Corner = (f64, f64);

struct Canvas {
    width: usize,
    height: usize,
    scale: f64,
    grey: Vec<u8>,
}

impl Canvas {
    fn new(width: usize, height: usize, scale: f64) -> Self {
        Self {
            width,
            height,
            scale,
            grey: vec![255; width * height],
        }
    }

    fn path(&mut self, path: &Path) {
        let (scale, grow) = (self.scale, |(x, y): Corner, k: f64| (k * x, k * y));
        let points: Vec<Corner> = path.points.iter().map(|at| grow(*at, scale)).collect();
        if let Some(fill) = path.fill {
            self.fill(std::slice::from_ref(&points), level(fill));
        }
        if let Some(pen) = path.pen {
            let mut line = points;
            if path.closed
                && let Some(first) = line.first().copied()
            {
                line.push(first);
            }
            let width = pen.width_mm * scale;
            let pieces = if pen.dashed {
                dashes(&line, DASHES_MM.map(|mm| mm * scale))
            } else {
                vec![line]
            };
            let shapes: Vec<Vec<Corner>> = pieces
                .iter()
                .flat_map(|piece| sides(piece, width, !pen.dashed))
                .collect();
            self.fill(&shapes, level(pen.grey));
        }
    }

    fn text(&mut self, line: &Line) {
        let Some(face) = font::face() else { return };
        let size_mm = line.size_pt * font::POINT_MM;
        let back = match line.align {
            Align::Left => 0.0,
            Align::Middle => 0.5,
            Align::Right => 1.0,
        } * font::width_mm(&line.text, line.size_pt);
        let (sin, cos) = line.turn_deg.to_radians().sine_cosine();
        let per_unit = size_mm / f64::from(face.units_per_em());
        let mut along = -back;
        for c in line.text.chars() {
            let mut glyph = Glyph::default();
            if let Some(id) = face.glyph_index(c) {
                face.outline_glyph(id, &mut glyph);
            }
            let shapes = glyph.shapes.into_iter().map(|shape| {
                let place = |(x, y): Corner| {
                    let (x, y) = (along + x * per_unit, -y * per_unit);
                    let (at_x, at_y) = line.at;
                    (
                        self.scale * (at_x + x * cos - y * sin),
                        self.scale * (at_y + x * sin + y * cos),
                    )
                };
                shape.into_iter().map(place).collect::<Vec<Corner>>()
            });
            let shapes: Vec<Vec<Corner>> = shapes.collect();
            self.fill(&shapes, level(line.grey));
            if line.bold {
                let thick = BOLD_EM * size_mm * self.scale;
                let edges: Vec<Vec<Corner>> = shapes
                    .into_iter()
                    .flat_map(|mut shape| {
                        shape.extend(shape.first().copied());
                        sides(&shape, thick, false)
                    })
                    .collect();
                self.fill(&edges, level(line.grey));
            }
            along += font::width_mm(c.encode_utf8(&mut [0; 4]), line.size_pt);
        }
    }

    /// Fills what the shapes go round, where they go round it in one way more often than in the other.
    fn fill(&mut self, shapes: &[Vec<Corner>], grey: u8) {
        let ys = shapes.iter().flatten().map(|(_, y)| *y);
        let (top, bottom) = ys.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| {
            (low.min(y), high.max(y))
        });
        if top > bottom {
            return;
        }
        let first = row(top, self.height);
        let last = row(bottom, self.height.saturating_sub(1));
        let edges: Vec<(Corner, Corner)> = shapes
            .iter()
            .flat_map(|shape| {
                let next = shape.iter().cycle().skip(1);
                shape.iter().copied().zip(next.copied())
            })
            .collect();
        let mut cover = vec![0.0_f64; self.width];
        let mut crossings: Vec<(f64, i32)> = Vec::new();
        for y in first..=last {
            let mut touched = false;
            for sub in 0..ROWS {
                let level = y as f64 + (sub as f64 + 0.5) / ROWS as f64;
                crossings.clear();
                for ((ax, ay), (bx, by)) in &edges {
                    if (*ay <= level) != (*by <= level) {
                        let x = ax + (level - ay) / (by - ay) * (bx - ax);
                        crossings.push((x, if ay < by { 1 } else { -1 }));
                    }
                }
                crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
                let mut winding = 0;
                for pair in crossings.windows(2) {
                    winding += pair[0].1;
                    if winding != 0 {
                        span(&mut cover, pair[0].0, pair[1].0);
                        touched = true;
                    }
                }
            }
            if touched {
                self.blend(y, &mut cover, grey);
            }
        }
    }

    fn blend(&mut self, y: usize, cover: &mut [f64], grey: u8) {
        let Some(row) = self.grey.get_mut(y * self.width..(y + 1) * self.width) else {
            return;
        };
        for (pixel, cover) in row.iter_mut().zip(cover) {
            if *cover > 0.0 {
                let share = (*cover / ROWS as f64).min(1.0);
                let mixed = share * f64::from(grey) + (1.0 - share) * f64::from(*pixel);
                *pixel = level(mixed / 255.0);
                *cover = 0.0;
            }
        }
    }
}

/// The row of pixels of a height, at most the last one.
fn row(y: f64, last: usize) -> usize {
    pixels(y.floor().clamp(0.0, last as f64) + 1.0) - 1
}

/// Adds how much of each pixel lies between two places of a row.
fn span(cover: &mut [f64], from: f64, to: f64) {
    let wide = cover.len() as f64;
    let (from, to) = (from.clamp(0.0, wide), to.clamp(0.0, wide));
    if to <= from {
        return;
    }
    let (first, last) = (row(from, cover.len() - 1), row(to, cover.len() - 1));
    for (index, share) in cover.iter_mut().enumerate().take(last + 1).skip(first) {
        let left = index as f64;
        *share += (to.min(left + 1.0) - from.max(left)).max(0.0);
    }
}

/// The area of a line of some width: a strip for each piece, all round the same way, and round corners.
fn sides(line: &[Corner], width: f64, round: bool) -> Vec<Vec<Corner>> {
    let half = 0.5 * width;
    let mut shapes = Vec::new();
    for pair in line.windows(2) {
        let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
        let length = (bx - ax).hypotenuse(by - ay);
        if length <= 0.0 {
            continue;
        }
        let (nx, ny) = (half * (by - ay) / length, half * (ax - bx) / length);
        shapes.push(vec![
            (ax + nx, ay + ny),
            (bx + nx, by + ny),
            (bx - nx, by - ny),
            (ax - nx, ay - ny),
        ]);
    }
    let corners = line.len().saturating_sub(2);
    for (x, y) in line.iter().skip(1).take(if round { corners } else { 0 }) {
        let disc = (0..ROUND).map(|step| {
            let (sin, cos) =
                (f64::from(step) * std::f64::consts::TAU / f64::from(ROUND)).sine_cosine();
            (x + half * cos, y + half * sin)
        });
        shapes.push(disc.collect());
    }
    shapes
}

/// A line as dashes.
fn dashes(line: &[Corner], [dash, gap]: [f64; 2]) -> Vec<Vec<Corner>> {
    let mut pieces = Vec::new();
    // How far into the pattern the line has come.
    let mut into = 0.0;
    for pair in line.windows(2) {
        let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
        let length = (bx - ax).hypotenuse(by - ay);
        if length <= 0.0 {
            continue;
        }
        let at = |along: f64| {
            let share = along / length;
            (ax + share * (bx - ax), ay + share * (by - ay))
        };
        let mut along = -into;
        while along < length {
            let (from, to) = (along.max(0.0), (along + dash).min(length));
            if to > from {
                pieces.push(vec![at(from), at(to)]);
            }
            along += dash + gap;
        }
        into = (into + length) % (dash + gap);
    }
    pieces
}

/// The outline of a letter as polygons, in the font's own units, y up.
#[derive(Default)]
struct Glyph {
    shapes: Vec<Vec<Corner>>,
}

impl Glyph {
    fn go(&mut self, x: f64, y: f64) {
        if let Some(shape) = self.shapes.last_mut() {
            shape.push((x, y));
        }
    }

    fn here(&self) -> Corner {
        let last = self.shapes.last().and_then(|shape| shape.last());
        last.copied().unwrap_or((0.0, 0.0))
    }

    fn curve(&mut self, at: impl Fn(f64) -> Corner) {
        for piece in 1..=PIECES {
            let (x, y) = at(f64::from(piece) / f64::from(PIECES));
            self.go(x, y);
        }
    }
}

impl OutlineBuilder for Glyph {
    fn move_to(&mut self, x: f32, y: f32) {
        self.shapes.push(vec![(f64::from(x), f64::from(y))]);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.go(f64::from(x), f64::from(y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (a, b) = (self.here(), (f64::from(x1), f64::from(y1)));
        let c = (f64::from(x), f64::from(y));
        self.curve(|t| {
            let mix = |a: f64, b: f64, c: f64| {
                (1.0 - t) * (1.0 - t) * a + 2.0 * t * (1.0 - t) * b + t * t * c
            };
            (mix(a.0, b.0, c.0), mix(a.1, b.1, c.1))
        });
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (a, b) = (self.here(), (f64::from(x1), f64::from(y1)));
        let (c, d) = ((f64::from(x2), f64::from(y2)), (f64::from(x), f64::from(y)));
        self.curve(|t| {
            let s = 1.0 - t;
            let mix = |a: f64, b: f64, c: f64, d: f64| {
                s * s * s * a + 3.0 * s * s * t * b + 3.0 * s * t * t * c + t * t * t * d
            };
            (mix(a.0, b.0, c.0, d.0), mix(a.1, b.1, c.1, d.1))
        });
    }

    fn close(&mut self) {}
}

#[cfg(test)]
mod tests {
    use super::super::{Paper, Pen};
    use super::*;

    fn page() -> Page {
        Page::new(Paper::Cut { wide: 40, high: 20 })
    }

    /// The dark on a picture, in square millimetres of full black.
    fn ink_mm2(picture: &Picture, per_mm: f64) -> f64 {
        let dark = picture
            .grey
            .iter()
            .map(|grey| 1.0 - f64::from(*grey) / 255.0);
        dark.sum::<f64>() / (per_mm * per_mm)
    }

    #[test]
    fn shapes_and_lines_have_their_area() {
        for per_mm in [3.0, 7.3] {
            let mut filled = page();
            filled.rectangle((3.17, 4.41), (11.0, 7.0), 0.0, None);
            let ink = ink_mm2(&Picture::of(&filled, per_mm), per_mm);
            assert!((ink - 77.0).abs() < 0.4, "{ink}");
            let mut line = page();
            line.line(&[(2.0, 2.0), (32.0, 12.0)], false, Pen::solid(0.8));
            let ink = ink_mm2(&Picture::of(&line, per_mm), per_mm);
            let exact = 0.8 * 30.0_f64.hypotenuse(10.0);
            assert!((ink - exact).abs() < 0.4, "{ink} {exact}");
        }
    }

    #[test]
    fn a_hole_in_a_letter_stays_open_and_what_is_off_the_page_is_cut() {
        let mut with_hole = page();
        with_hole.text((5.0, 15.0), 40.0, Align::Left, "O");
        let picture = Picture::of(&with_hole, 8.0);
        let middle = 5.0 + 0.5 * font::width_mm("O", 40.0);
        let at =
            |x: f64, y: f64| picture.grey[row(8.0 * y, 1000) * picture.width + row(8.0 * x, 1000)];
        assert_eq!(at(middle, 10.0), 255, "the middle of an O is white");
        assert!(picture.grey.contains(&0), "and its ring is black");
        let mut off = page();
        off.rectangle((-50.0, -50.0), (200.0, 200.0), 0.5, Some(Pen::dashed(1.0)));
        assert!(Picture::of(&off, 2.0).grey.iter().all(|grey| *grey == 128));
    }

    #[test]
    fn a_png_reads_back_as_it_was() {
        let mut written = page();
        written.bold((5.0, 15.0), 24.0, Align::Left, "P12");
        let picture = Picture::of(&written, 4.0);
        let read = image::load_from_memory(&picture.png().unwrap())
            .unwrap()
            .to_luma8();
        assert_eq!((read.width(), read.height()), (160, 80));
        assert_eq!(read.into_raw(), picture.grey);
    }
}
