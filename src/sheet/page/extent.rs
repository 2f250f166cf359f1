//! What is drawn on a page, without the white round it.

use super::{Align, Mark, Page, Paper, Path};
use crate::geometry::Elementary as _;
use crate::sheet::font::{POINT_MM, width_mm};

/// How far letters reach above their foot and below it, as a share of their size.
const ABOVE: f64 = 0.8;
const BELOW: f64 = 0.25;

/// White that is left round what is drawn, in millimetres.
const LEFT_MM: f64 = 0.5;

impl Page {
    /// The same drawing on a piece of paper no larger than it is.
    pub(in crate::sheet) fn trimmed(&self) -> Self {
        let areas = self.marks.iter().map(area);
        let all = areas.reduce(|a, b| {
            [
                a[0].min(b[0]),
                a[1].min(b[1]),
                a[2].max(b[2]),
                a[3].max(b[3]),
            ]
        });
        let Some([left, top, right, bottom]) = all else {
            return self.clone();
        };
        let size = |from: f64, to: f64, whole: f64| {
            let needed = (to - from + 2.0 * LEFT_MM)
                .ceil()
                .clamp(1.0, whole.max(1.0));
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a size on paper, no larger than the page"
            )]
            let needed = needed as u32;
            needed
        };
        let mut page = Self::new(Paper::Cut {
            wide: size(left, right, self.paper.width_mm()),
            high: size(top, bottom, self.paper.height_mm()),
        });
        page.put(self, (LEFT_MM - left, LEFT_MM - top));
        page
    }
}

/// Left, top, right and bottom of a mark.
fn area(mark: &Mark) -> [f64; 4] {
    match mark {
        Mark::Path(Path { points, pen, .. }) => {
            let half = pen.map_or(0.0, |pen| 0.5 * pen.width_mm);
            let none = [
                f64::INFINITY,
                f64::INFINITY,
                f64::NEG_INFINITY,
                f64::NEG_INFINITY,
            ];
            points
                .iter()
                .fold(none, |[left, top, right, bottom], (x, y)| {
                    [
                        left.min(x - half),
                        top.min(y - half),
                        right.max(x + half),
                        bottom.max(y + half),
                    ]
                })
        }
        Mark::Text(line) => {
            let wide = width_mm(&line.text, line.size_pt);
            let size = line.size_pt * POINT_MM;
            let before = wide
                * match line.align {
                    Align::Left => 0.0,
                    Align::Middle => 0.5,
                    Align::Right => 1.0,
                };
            // Turned about its point, with the clock on paper.
            let (sin, cos) = line.turn_deg.to_radians().sine_cosine();
            let corners = [
                (-before, -ABOVE * size),
                (wide - before, -ABOVE * size),
                (-before, BELOW * size),
                (wide - before, BELOW * size),
            ];
            let corners = corners
                .map(|(x, y)| (line.at.0 + x * cos - y * sin, line.at.1 + x * sin + y * cos));
            area(&Mark::Path(Path {
                points: corners.to_vec(),
                closed: true,
                fill: None,
                pen: None,
            }))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Pen;
    use super::*;

    #[test]
    fn the_white_round_a_drawing_goes_and_nothing_of_it() {
        let mut page = Page::new(Paper::A4);
        page.line(&[(40.0, 60.0), (70.0, 80.0)], false, Pen::solid(1.0));
        page.text((50.0, 55.0), 10.0, Align::Left, "bow");
        page.text_turned((75.0, 90.0), 10.0, Align::Left, -90.0, "turned");
        let trimmed = page.trimmed();
        let high = 10.0 * POINT_MM;
        // From the head of "bow" to the foot of "turned", which is read from the right.
        let bottom = 90.0_f64.max(80.5);
        let wanted = (bottom - (55.0 - ABOVE * high) + 1.0).ceil();
        assert!(
            (trimmed.paper.height_mm() - wanted).abs() < 1e-9,
            "{:?}",
            trimmed.paper
        );
        let wanted = (75.0 + BELOW * high - 39.5 + 1.0).ceil();
        assert!(
            (trimmed.paper.width_mm() - wanted).abs() < 1e-9,
            "{:?}",
            trimmed.paper
        );
        for mark in trimmed.marks() {
            let [left, top, right, bottom] = area(mark);
            assert!(left >= 0.0 && top >= 0.0, "{mark:?}");
            assert!(
                right <= trimmed.paper.width_mm() && bottom <= trimmed.paper.height_mm(),
                "{mark:?}"
            );
        }
        assert_eq!(page.marks().len(), trimmed.marks().len());
    }
}
