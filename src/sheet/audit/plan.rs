//! The deck plan of one account, with ghosts of what was planned and arrows to where it was found.

use super::setting::whole;
use super::{LIST_PT, SMALL_PT};
use crate::audit::{SeenThing, Sight};
use crate::engine::numbers::ThingSort;
use crate::geometry::Elementary as _;
use crate::layout::Point;
use crate::sheet::crew::labels::{Area, Labels, Named, Off, Weight};
use crate::sheet::{Align, Page, Paper, Pen};

/// Round the deck, in millimetres: room for names of what stands at its edge.
const AROUND_MM: f64 = 9.0;

/// Below the deck, in millimetres: the scale bar and the legend.
const BELOW_MM: f64 = 13.0;

/// So far beyond it a name stands clear of the edge of the deck, in millimetres.
const ACROSS_MM: f64 = 2.6;

/// Room before bow and stern for their names, in millimetres.
const ENDS_MM: f64 = 12.0;

/// The scales that a rule can be laid on.
const SCALES: [f64; 14] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 500.0,
];

/// From the deck plan to the paper: bow to the right, port at the top.
struct OnPaper {
    /// What stands in the upper left corner, in metres.
    corner: Point,
    mm_per_m: f64,
    /// From the edge of the piece to that corner, in millimetres.
    left_mm: f64,
}

impl OnPaper {
    fn at(&self, [x, y]: Point) -> (f64, f64) {
        (
            self.left_mm + self.mm_per_m * (x - self.corner[0]),
            AROUND_MM + self.mm_per_m * (self.corner[1] - y),
        )
    }

    fn all(&self, points: &[Point]) -> Vec<(f64, f64)> {
        points.iter().map(|point| self.at(*point)).collect()
    }
}

/// One deck on a piece of its own, so wide and high at most, in millimetres; tells its scale.
pub fn picture(sight: &Sight, most: (f64, f64)) -> (f64, Page) {
    let span = |axis: usize| {
        let along = sight.outline.iter().map(|point| point[axis]);
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let ((left_m, right_m), (low_m, top_m)) = (span(0), span(1));
    if !(right_m > left_m && top_m > low_m) {
        return (1.0, Page::new(Paper::Cut { wide: 10, high: 10 }));
    }
    let fits = |scale: &&f64| {
        let mm_per_m = 1000.0 / **scale;
        mm_per_m * (right_m - left_m) + 2.0 * ENDS_MM <= most.0
            && mm_per_m * (top_m - low_m) + AROUND_MM + BELOW_MM <= most.1
    };
    let scale = *SCALES.iter().find(fits).unwrap_or(&1000.0);
    let mm_per_m = 1000.0 / scale;
    let deck_mm = mm_per_m * (right_m - left_m) + 2.0 * ENDS_MM;
    // A short deck stands in the middle above its legend.
    let wide = deck_mm.max(legend_mm(mm_per_m));
    let paper = OnPaper {
        corner: [left_m, top_m],
        mm_per_m,
        left_mm: ENDS_MM + 0.5 * (wide - deck_mm),
    };
    let high = paper.mm_per_m * (top_m - low_m) + AROUND_MM + BELOW_MM;
    let mut page = Page::new(Paper::Cut {
        wide: whole(wide),
        high: whole(high),
    });
    draw(&mut page, sight, &paper, (wide, high));
    (scale, page)
}

fn draw(page: &mut Page, sight: &Sight, paper: &OnPaper, (wide, high): (f64, f64)) {
    page.fill(&paper.all(&sight.outline), 1.0, Some(Pen::solid(0.5)));
    for thing in &sight.things {
        let outline = paper.all(&thing.outline);
        match thing.sort {
            ThingSort::Cylinder => {
                let is_otherwise = sight.otherwise.contains(&thing.id);
                let (grey, pen) = if is_otherwise {
                    (0.72, Pen::solid(0.5))
                } else {
                    (1.0, Pen::solid(0.3))
                };
                page.fill(&outline, grey, Some(pen));
            }
            ThingSort::Rack => page.fill(&outline, 1.0, Some(Pen::grey(0.25))),
            ThingSort::Gear => page.fill(&outline, 0.85, Some(Pen::solid(0.3))),
            _ => page.fill(&outline, 0.93, Some(Pen::grey(0.15))),
        }
    }
    for ghost in &sight.ghosts {
        page.line(&paper.all(&ghost.outline), true, Pen::dashed(0.35));
    }
    for seen in &sight.lines {
        let pen = if seen.holds {
            Pen::solid(0.55)
        } else {
            Pen::dashed(0.55)
        };
        page.line(&paper.all(&seen.line), false, pen);
    }
    for [from, to] in &sight.arrows {
        arrow(page, paper.at(*from), paper.at(*to));
    }
    let mut labels = Labels::new(Area {
        left: 0.0,
        top: 0.0,
        right: wide,
        bottom: high - BELOW_MM + 4.0,
    });
    let mut edge = paper.all(&sight.outline);
    edge.extend(edge.first().copied());
    labels.keep_off(&edge, Weight::Heavy);
    for seen in &sight.lines {
        labels.keep_off(&paper.all(&seen.line), Weight::Heavy);
    }
    if let Some(spot) = sight.spot {
        let at = paper.at(spot);
        cross(page, at);
        labels.take(Area::round(at, 2.4));
    }
    let cylinders = |thing: &&SeenThing| thing.sort == ThingSort::Cylinder;
    for thing in sight.things.iter().filter(cylinders) {
        labels.take(area(&paper.all(&thing.outline)));
    }
    for ghost in &sight.ghosts {
        labels.take(area(&paper.all(&ghost.outline)));
    }
    if let Some(spot) = sight.spot {
        let sides = [Off::Right, Off::Left, Off::Down, Off::Up];
        name(
            page,
            &mut labels,
            (paper.at(spot), 2.4),
            "marked spot",
            sides,
        );
    }
    // What is otherwise is named first, so that it has room.
    for is_otherwise in [true, false] {
        let named = sight
            .things
            .iter()
            .filter(|thing| matches!(thing.sort, ThingSort::Cylinder | ThingSort::Gear));
        for thing in named.filter(|it| sight.otherwise.contains(&it.id) == is_otherwise) {
            let area = area(&paper.all(&thing.outline));
            let at = (
                0.5 * (area.left + area.right),
                0.5 * (area.top + area.bottom),
            );
            let radius = 0.5 * (area.right - area.left).max(area.bottom - area.top);
            // Where many stand side by side, names stand across them, away from the middle of the boat.
            let (out, inward) = if thing.outline.iter().any(|[_, y]| *y > 0.0) {
                (Off::Up, Off::Down)
            } else {
                (Off::Down, Off::Up)
            };
            let sides = if is_otherwise {
                [Off::Right, Off::Left, out, inward]
            } else {
                [out, inward, Off::Right, Off::Left]
            };
            name(page, &mut labels, (at, radius), &thing.id, sides);
        }
    }
    for ghost in &sight.ghosts {
        if !sight.otherwise.contains(&ghost.id) {
            let area = area(&paper.all(&ghost.outline));
            let at = (
                0.5 * (area.left + area.right),
                0.5 * (area.top + area.bottom),
            );
            let text = format!("{} (not found)", ghost.id);
            let sides = [Off::Right, Off::Left, Off::Up, Off::Down];
            let radius = 0.5 * (area.right - area.left);
            name(page, &mut labels, (at, radius), &text, sides);
        }
    }
    ends(page, sight, paper);
    legend(page, paper, high);
}

fn area(outline: &[(f64, f64)]) -> Area {
    let start = Area {
        left: f64::INFINITY,
        top: f64::INFINITY,
        right: f64::NEG_INFINITY,
        bottom: f64::NEG_INFINITY,
    };
    outline.iter().fold(start, |area, (x, y)| Area {
        left: area.left.min(*x),
        top: area.top.min(*y),
        right: area.right.max(*x),
        bottom: area.bottom.max(*y),
    })
}

/// Writes a name beside something of this radius, on the first of these sides that has room.
fn name(
    page: &mut Page,
    labels: &mut Labels,
    (at, radius): ((f64, f64), f64),
    text: &str,
    sides: [Off; 4],
) {
    let names = [text.to_owned()];
    let named = Named {
        at,
        radius,
        names: &names,
        size_pt: SMALL_PT,
        over_lines: true,
    };
    // Close by, or across a line that runs there.
    let sides = [0.0, ACROSS_MM].map(|beyond| sides.map(|off| (off, beyond)));
    labels.beside(page, &named, &sides.concat());
}

/// A circle with a cross through it.
fn cross(page: &mut Page, (x, y): (f64, f64)) {
    let steps = (0..32).map(|step| f64::from(step) * std::f64::consts::TAU / 32.0);
    let ring: Vec<(f64, f64)> = steps
        .map(|turn| (x + 1.6 * turn.cosine(), y + 1.6 * turn.sine()))
        .collect();
    page.fill(&ring, 1.0, Some(Pen::solid(0.5)));
    page.line(&[(x - 2.4, y), (x + 2.4, y)], false, Pen::solid(0.4));
    page.line(&[(x, y - 2.4), (x, y + 2.4)], false, Pen::solid(0.4));
}

/// An arrow with a filled head.
pub(super) fn arrow(page: &mut Page, from: (f64, f64), to: (f64, f64)) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypotenuse(dy);
    if length < 0.5 {
        return;
    }
    let (ux, uy) = (dx / length, dy / length);
    let back = 2.2_f64.min(0.6 * length);
    let neck = (to.0 - back * ux, to.1 - back * uy);
    page.line(&[from, neck], false, Pen::solid(0.45));
    let head = [
        to,
        (neck.0 - 0.8 * uy, neck.1 + 0.8 * ux),
        (neck.0 + 0.8 * uy, neck.1 - 0.8 * ux),
    ];
    page.fill(&head, 0.0, None);
}

fn ends(page: &mut Page, sight: &Sight, paper: &OnPaper) {
    let xs = sight.outline.iter().map(|point| point[0]);
    let (aft, fore) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let middle = |x: f64| paper.at([x, 0.0]);
    let (bow, stern) = (middle(fore), middle(aft));
    page.text((bow.0 + 1.5, bow.1 + 1.0), LIST_PT, Align::Left, "bow");
    page.text(
        (stern.0 - 1.5, stern.1 + 1.0),
        LIST_PT,
        Align::Right,
        "stern",
    );
}

/// Room for what is drawn before a word of the legend, in millimetres.
const SIGN_MM: f64 = 8.0;

/// The words of the legend, and how wide each is, in millimetres.
const LEGEND: [(&str, f64); 3] = [
    ("as planned; lashing open or left off", 45.0),
    ("to where it was found", 28.0),
    ("otherwise than planned", 28.0),
];

/// How wide the legend is, in millimetres.
fn legend_mm(mm_per_m: f64) -> f64 {
    let words: f64 = LEGEND.iter().map(|(_, wide)| SIGN_MM + wide).sum();
    ENDS_MM + mm_per_m + SIGN_MM + words
}

/// The scale bar, and how ghosts, arrows and open lashings are drawn.
fn legend(page: &mut Page, paper: &OnPaper, high: f64) {
    let y = high - 4.0;
    let mm = paper.mm_per_m;
    let x = ENDS_MM;
    page.line(
        &[(x, y - 1.0), (x, y), (x + mm, y), (x + mm, y - 1.0)],
        false,
        Pen::solid(0.3),
    );
    page.text((x + mm + 1.0, y), SMALL_PT, Align::Left, "1 m");
    let mut x = x + mm + SIGN_MM;
    for (number, (words, wide)) in LEGEND.into_iter().enumerate() {
        match number {
            0 => page.line(
                &[(x, y - 0.8), (x + 6.5, y - 0.8)],
                false,
                Pen::dashed(0.35),
            ),
            1 => arrow(page, (x, y - 0.8), (x + 6.5, y - 0.8)),
            _ => page.rectangle((x + 1.0, y - 2.2), (5.0, 2.6), 0.72, Some(Pen::solid(0.5))),
        }
        page.text((x + SIGN_MM, y), SMALL_PT, Align::Left, words);
        x += SIGN_MM + wide;
    }
}
