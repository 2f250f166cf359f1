//! Lines with a bend that lead to names: where no straight one does without running through something.

use super::clear::Others;
use super::{AWAY_MM, Area, Labels, Segment};
use crate::geometry::Elementary as _;
use crate::sheet::{Page, Pen};

/// Ways in which a line leaves what it leads from, and goes on behind its bend: a turn in so many steps.
const WAYS: u32 = 24;

/// What a bend costs, in millimetres farther away.
const BEND: f64 = 4.0;

impl Labels {
    /// Writes a name level, in several lines if it has them, with a line to it that is bent once; clear of all that a
    /// straight one is clear of. Tells whether there was room within so many millimetres of the bend.
    pub(in super::super) fn bent(
        &mut self,
        page: &mut Page,
        name: (&str, f64),
        (points, radius): (&[(f64, f64)], f64),
        most_mm: f64,
    ) -> bool {
        let half = super::write::half_of(name);
        let others = self.others(points);
        let mut best: Option<(f64, Area, [Segment; 2])> = None;
        for at in points {
            for (start, bend, out) in self.ways_out((*at, radius), most_mm, &others) {
                let least = best.as_ref().map_or(f64::INFINITY, |(cost, ..)| *cost);
                if out + BEND >= least {
                    continue;
                }
                for away in AWAY_MM.into_iter().filter(|away| *away <= most_mm) {
                    for (cos, sin) in ways() {
                        let middle = (
                            bend.0 + cos * (away + half.0),
                            bend.1 + sin * (away + half.1),
                        );
                        let area = Area::about(middle, half);
                        if !self.is_free(area.grown(super::AROUND_MM)) {
                            continue;
                        }
                        let Some((leads, on)) = self.led_on((bend, 0.0), area, &others) else {
                            continue;
                        };
                        let first = (start, bend);
                        if area.is_crossed(first) {
                            continue;
                        }
                        let cost = BEND + out + away + leads + self.lines_through(area);
                        let least = best.as_ref().map_or(f64::INFINITY, |(cost, ..)| *cost);
                        if cost < least - 1e-9 {
                            best = Some((cost, area, [first, on]));
                        }
                    }
                }
            }
        }
        let Some((_, area, lines)) = best else {
            return false;
        };
        let [(start, bend), (_, end)] = lines;
        page.line(&[start, bend, end], false, Pen::solid(0.12));
        for line in lines {
            self.take_leader(line);
        }
        self.write_level(page, area, name);
        true
    }

    /// Where a line from something round may go before it bends: its start, its bend and what it costs.
    fn ways_out(
        &self,
        (at, radius): ((f64, f64), f64),
        most_mm: f64,
        others: &Others,
    ) -> Vec<((f64, f64), (f64, f64), f64)> {
        let mut out = Vec::new();
        for (cos, sin) in ways() {
            let on = |mm: f64| (at.0 + cos * mm, at.1 + sin * mm);
            let start = on(radius);
            for away in AWAY_MM.into_iter().filter(|away| *away <= most_mm) {
                let bend = on(radius + away);
                let nowhere = Area::about(bend, (0.0, 0.0));
                match self.leading((start, bend), nowhere, others) {
                    Some(cost) => out.push((start, bend, away + cost)),
                    // Farther on it runs through the same.
                    None => break,
                }
            }
        }
        out
    }
}

/// All ways, as cosine and sine.
fn ways() -> impl Iterator<Item = (f64, f64)> {
    (0..WAYS).map(|step| {
        let turn = f64::from(step) * std::f64::consts::TAU / f64::from(WAYS);
        let (sin, cos) = turn.sine_cosine();
        (cos, sin)
    })
}
