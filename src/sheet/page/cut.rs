//! A page without what lies beyond some sides of it.

use super::{Mark, Page, Path, Pen};

impl Page {
    /// The same page without what its shapes and lines reach beyond these sides: left, top, right, bottom. What is
    /// cut has no edge where it was cut. Texts are whole or gone, by the point that they stand at.
    pub(in crate::sheet) fn cut_to(&self, sides: [f64; 4]) -> Self {
        let [left, top, right, bottom] = sides;
        let holds = |(x, y): (f64, f64)| left <= x && x <= right && top <= y && y <= bottom;
        let mut cut = Self::new(self.paper);
        for mark in &self.marks {
            match mark {
                Mark::Text(line) if holds(line.at) => cut.marks.push(mark.clone()),
                Mark::Text(_) => {}
                Mark::Path(path) => cut
                    .marks
                    .extend(path.cut_to(sides).into_iter().map(Mark::Path)),
            }
        }
        cut
    }
}

impl Path {
    /// What of it lies within these sides: its ground, then its line where that runs inside.
    fn cut_to(&self, sides: [f64; 4]) -> Vec<Self> {
        let [left, top, right, bottom] = sides;
        let holds = |(x, y): &(f64, f64)| left <= *x && *x <= right && top <= *y && *y <= bottom;
        if self.points.iter().all(holds) {
            return vec![self.clone()];
        }
        let mut pieces = Vec::new();
        if let Some(fill) = self.fill {
            let ground = ground_within(&self.points, sides);
            if ground.len() > 2 {
                pieces.push(Self {
                    points: ground,
                    closed: true,
                    fill: Some(fill),
                    pen: None,
                });
            }
        }
        let Some(pen) = self.pen else { return pieces };
        let mut ring = self.points.clone();
        if self.closed {
            ring.extend(self.points.first());
        }
        let mut run: Vec<(f64, f64)> = Vec::new();
        for pair in ring.windows(2) {
            let inside = line_within((pair[0], pair[1]), sides);
            let goes_on = inside.is_some_and(|(start, _)| run.last() == Some(&start));
            if !goes_on {
                pieces.extend(Self::run(&mut run, pen));
                run.extend(inside.map(|(start, _)| start));
            }
            run.extend(inside.map(|(_, end)| end));
        }
        pieces.extend(Self::run(&mut run, pen));
        pieces
    }

    /// A line along these points, which are taken.
    fn run(points: &mut Vec<(f64, f64)>, pen: Pen) -> Option<Self> {
        let points = std::mem::take(points);
        (points.len() > 1).then_some(Self {
            points,
            closed: false,
            fill: None,
            pen: Some(pen),
        })
    }
}

/// The part of a line that lies within these sides: left, top, right, bottom (Liang and Barsky 1984).
fn line_within(
    (a, b): ((f64, f64), (f64, f64)),
    [left, top, right, bottom]: [f64; 4],
) -> Option<((f64, f64), (f64, f64))> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, run, low, high) in [(a.0, b.0 - a.0, left, right), (a.1, b.1 - a.1, top, bottom)] {
        if run == 0.0 {
            if start < low || start > high {
                return None;
            }
            continue;
        }
        let (one, two) = ((low - start) / run, (high - start) / run);
        from = from.max(one.min(two));
        to = to.min(one.max(two));
    }
    let at = |share: f64| {
        if share <= 0.0 {
            a
        } else if share >= 1.0 {
            b
        } else {
            (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
        }
    };
    (from <= to).then(|| (at(from), at(to)))
}

/// The corners of what of a shape lies within these sides (Sutherland and Hodgman 1974); pieces that only touch along
/// a side are joined by it, which a ground without an edge does not show.
fn ground_within(points: &[(f64, f64)], [left, top, right, bottom]: [f64; 4]) -> Vec<(f64, f64)> {
    let mut ring = points.to_vec();
    // How far inside a side a point is.
    let sides: [&dyn Fn((f64, f64)) -> f64; 4] = [
        &|(x, _)| x - left,
        &|(x, _)| right - x,
        &|(_, y)| y - top,
        &|(_, y)| bottom - y,
    ];
    for inside in sides {
        let mut kept = Vec::with_capacity(ring.len() + 4);
        let next = ring.iter().cycle().skip(1);
        for (a, b) in ring.iter().zip(next) {
            let (da, db) = (inside(*a), inside(*b));
            if da >= 0.0 {
                kept.push(*a);
            }
            if (da < 0.0) != (db < 0.0) {
                let share = da / (da - db);
                kept.push((a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)));
            }
        }
        ring = kept;
    }
    ring
}

#[cfg(test)]
mod tests {
    use super::super::{Align, Paper};
    use super::*;
    use crate::geometry::Elementary as _;
    use proptest::prelude::*;

    const SIDES: [f64; 4] = [10.0, 10.0, 40.0, 30.0];

    fn paths(page: &Page) -> Vec<Path> {
        let paths = page.marks().iter().filter_map(|mark| match mark {
            Mark::Path(path) => Some(path.clone()),
            Mark::Text(_) => None,
        });
        paths.collect()
    }

    #[test]
    fn a_rectangle_keeps_its_ground_and_loses_the_edge_where_it_is_cut() {
        let mut page = Page::new(Paper::A4);
        page.rectangle((30.0, 15.0), (20.0, 10.0), 0.5, Some(Pen::solid(0.3)));
        page.text((5.0, 20.0), 8.0, Align::Left, "gone");
        page.text((15.0, 20.0), 8.0, Align::Left, "kept");
        let cut = page.cut_to(SIDES);
        assert_eq!(cut.texts().collect::<Vec<_>>(), ["kept"]);
        let paths = paths(&cut);
        let ground: Vec<&Path> = paths.iter().filter(|it| it.fill.is_some()).collect();
        assert_eq!(ground.len(), 1);
        assert!((area(&ground[0].points) - 100.0).abs() < 1e-9);
        let lines = paths.iter().filter(|it| it.pen.is_some());
        let long: f64 = lines.map(|it| length(&it.points)).sum();
        // Two of 10 mm along, one of 10 mm across; the fourth lies beyond.
        assert!((long - 30.0).abs() < 1e-9, "{long}");
    }

    #[test]
    fn what_lies_inside_is_as_it_was_and_what_lies_outside_is_gone() {
        let mut page = Page::new(Paper::A4);
        page.rectangle((12.0, 12.0), (5.0, 5.0), 0.5, Some(Pen::solid(0.3)));
        assert_eq!(page.cut_to(SIDES), page);
        let mut beyond = Page::new(Paper::A4);
        beyond.rectangle((50.0, 12.0), (5.0, 5.0), 0.5, Some(Pen::solid(0.3)));
        beyond.line(&[(0.0, 0.0), (100.0, 5.0)], false, Pen::dashed(0.2));
        assert!(paths(&beyond.cut_to(SIDES)).is_empty());
    }

    fn area(points: &[(f64, f64)]) -> f64 {
        let next = points.iter().cycle().skip(1);
        let twice: f64 = points
            .iter()
            .zip(next)
            .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
            .sum();
        0.5 * twice.abs()
    }

    fn length(points: &[(f64, f64)]) -> f64 {
        let pairs = points.windows(2);
        pairs
            .map(|pair| (pair[1].0 - pair[0].0).hypotenuse(pair[1].1 - pair[0].1))
            .sum()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        /// The ground inside and the ground beyond each side make the whole; for triangles, which stay in one piece.
        #[test]
        fn ground_is_cut_and_not_lost(points in prop::collection::vec((0.0..50.0_f64, 0.0..50.0_f64), 3)) {
            let [left, top, right, bottom] = SIDES;
            let wide = 1000.0;
            let parts = [
                [left, top, right, bottom],
                [-wide, -wide, left, wide],
                [right, -wide, wide, wide],
                [left, -wide, right, top],
                [left, bottom, right, wide],
            ];
            let sum: f64 = parts.iter().map(|sides| area(&ground_within(&points, *sides))).sum();
            prop_assert!((sum - area(&points)).abs() < 1e-6, "{sum} of {}", area(&points));
            // Lines too: each stretch lies in one of the parts.
            let line = (points[0], points[1]);
            let long: f64 = parts
                .iter()
                .filter_map(|sides| line_within(line, *sides))
                .map(|(a, b)| length(&[a, b]))
                .sum();
            prop_assert!((long - length(&points[..2])).abs() < 1e-6, "{long}");
        }
    }
}
