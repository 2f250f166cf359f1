//! The recorded roll over time with the events on it, and the margins of those in question below it on the same axis.

use super::SMALL_PT;
use crate::audit::replay::curves::{least_of, runs};
use crate::audit::replay::{ReplayReport, Tracks};
use crate::layout::Id;
use crate::record::TimedEvent;
use crate::sheet::{Align, Page, Paper, Pen};

/// Room for numbers left of a plot, for names right of it, and above and below it, in millimetres.
const LEFT_MM: f64 = 12.0;
const RIGHT_MM: f64 = 16.0;
const TOP_MM: f64 = 7.0;
const BELOW_MM: f64 = 9.0;

/// Height of a plot, in millimetres.
const HIGH_MM: f64 = 52.0;

/// Margins are drawn down to this, in percent: there it goes anyway.
const LEAST_PERCENT: f64 = -25.0;

/// Lines of margins that can be told apart on paper.
const MOST_LINES: usize = 6;

/// Stretches in which margins are drawn, each with its least: wider than a swing, so that a quiet line is left.
const STRETCHES: usize = 110;

/// Between the names of two lines, in millimetres.
const NAME_MM: f64 = 3.0;

/// A plot over time: what is where on the piece.
struct Frame {
    from_s: f64,
    to_s: f64,
    low: f64,
    high: f64,
    width_mm: f64,
    height_mm: f64,
}

impl Frame {
    fn at(&self, seconds: f64, value: f64) -> (f64, f64) {
        let right = (seconds - self.from_s) / (self.to_s - self.from_s);
        let down = (self.high - value) / (self.high - self.low);
        (
            LEFT_MM + self.width_mm * right,
            TOP_MM + self.height_mm * down,
        )
    }

    /// The piece with its lines every so much, the times and what it is.
    fn page(&self, wide_mm: f64, step: f64, unit: &str, told: &str) -> Page {
        let mut page = Page::new(Paper::Cut {
            wide: super::setting::whole(wide_mm),
            high: super::setting::whole(HIGH_MM),
        });
        let mut value = (self.low / step).ceil() * step;
        while value <= self.high + 1e-9 {
            let (left, right) = (self.at(self.from_s, value), self.at(self.to_s, value));
            page.line(&[left, right], false, Pen::grey(0.15));
            // No minus before a zero.
            let words = format!("{:.0}{unit}", value + 0.0);
            page.text((left.0 - 1.0, left.1 + 0.9), SMALL_PT, Align::Right, &words);
            value += step;
        }
        let y = HIGH_MM - 4.4;
        let ends = [
            (0.0, Align::Left, format!("{:.0} s", self.from_s)),
            (0.5, Align::Middle, told.to_owned()),
            (1.0, Align::Right, format!("{:.0} s", self.to_s)),
        ];
        for (share, align, words) in ends {
            let x = LEFT_MM + share * self.width_mm;
            page.text((x, y), SMALL_PT, align, &words);
        }
        page
    }
}

/// From when to when something was recorded; `None` where that is no time at all.
fn span(tracks: &Tracks) -> Option<[f64; 2]> {
    match tracks.time_s.as_slice() {
        [first, .., last] if last > first => Some([*first, *last]),
        _ => None,
    }
}

/// The roll over time on a piece so wide, in millimetres, over all of it or over the stretch of its own tracks; `None`
/// without any.
pub fn plot(
    replay: &ReplayReport,
    tracks: &Tracks,
    events: &[TimedEvent],
    wide_mm: f64,
) -> Option<Page> {
    let [from_s, to_s] = span(tracks)?;
    let most = replay.largest_roll_deg.into_iter().fold(1.0, f64::max);
    let step = [2.0, 5.0, 10.0, 20.0]
        .into_iter()
        .find(|step| most / step <= 3.0)
        .unwrap_or(30.0);
    let end = (most / step).ceil() * step;
    let frame = Frame {
        from_s,
        to_s,
        low: -end,
        high: end,
        width_mm: wide_mm - LEFT_MM - RIGHT_MM,
        height_mm: HIGH_MM - TOP_MM - BELOW_MM,
    };
    let told = "roll, starboard down upwards; seconds from the start of the log; numbers are those of the events";
    let mut page = frame.page(wide_mm, step, "°", told);
    for run in runs(&tracks.time_s, &tracks.roll_deg) {
        let line: Vec<(f64, f64)> = run.iter().map(|[s, deg]| frame.at(*s, *deg)).collect();
        page.line(&line, false, Pen::solid(0.3));
    }
    let mut last_x = f64::NEG_INFINITY;
    for (index, event) in events.iter().enumerate() {
        // Half a second before the first bucket's middle is still the beginning.
        let inside = from_s - 0.5..=to_s + 0.5;
        let Some(seconds) = event.at_s.filter(|s| inside.contains(s)) else {
            continue;
        };
        let (top, foot) = (frame.at(seconds, end), frame.at(seconds, -end));
        page.line(&[(top.0, top.1 - 2.0), foot], false, Pen::dashed(0.3));
        // Numbers of events that are close in time stand beside each other.
        let x = top.0.max(last_x + 2.6);
        last_x = x;
        let number = format!("{}", index + 1);
        page.bold((x, top.1 - 2.8), SMALL_PT, Align::Middle, &number);
    }
    Some(page)
}

/// The margins over time of those in question, and of those that went, on a piece so wide; `None` where there is
/// nothing to draw. Tells how many were left out.
pub fn margins_plot(
    replay: &ReplayReport,
    tracks: &Tracks,
    in_question: &[Id],
    wide_mm: f64,
) -> Option<(Page, usize)> {
    let [from_s, to_s] = span(tracks)?;
    let mut wanted: Vec<usize> = (0..replay.cylinders.len())
        .filter(|number| {
            let cylinder = &replay.cylinders[*number];
            cylinder.went_s.is_some() || in_question.contains(&cylinder.cylinder)
        })
        .collect();
    // Those in question first, then those that went first.
    wanted.sort_by(|a, b| {
        let rank = |number: usize| {
            let it = &replay.cylinders[number];
            let left = it.least_margin.unwrap_or(f64::INFINITY);
            let went = it.went_s.unwrap_or(f64::INFINITY);
            (!in_question.contains(&it.cylinder), went, left)
        };
        let ((x, s, l), (y, t, m)) = (rank(*a), rank(*b));
        x.cmp(&y).then(s.total_cmp(&t)).then(l.total_cmp(&m))
    });
    if wanted.is_empty() {
        return None;
    }
    let left_out = wanted.len().saturating_sub(MOST_LINES);
    wanted.truncate(MOST_LINES);
    let frame = Frame {
        from_s,
        to_s,
        low: LEAST_PERCENT,
        high: 100.0,
        width_mm: wide_mm - LEFT_MM - RIGHT_MM,
        height_mm: HIGH_MM - TOP_MM - BELOW_MM,
    };
    let told = "what is left of what it takes; at 0 % it goes; a line ends with a cross where the cylinder went";
    let mut page = frame.page(wide_mm, 25.0, " %", told);
    let zero = [frame.at(from_s, 0.0), frame.at(to_s, 0.0)];
    page.line(&zero, false, Pen::solid(0.35));
    let mut names: Vec<((f64, f64), &str)> = Vec::new();
    for (place, number) in wanted.iter().enumerate() {
        let cylinder = &replay.cylinders[*number];
        let pen = [Pen::solid(0.3), Pen::dashed(0.3), Pen::grey(0.3)][place % 3];
        let margins = tracks.margins.get(*number).map_or(&[][..], Vec::as_slice);
        let (times, least) = least_of(&tracks.time_s, margins, STRETCHES, LEAST_PERCENT);
        let mut end = None;
        for run in runs(&times, &least) {
            let line: Vec<(f64, f64)> = run.iter().map(|[s, left]| frame.at(*s, *left)).collect();
            end = line.last().copied().or(end);
            page.line(&line, false, pen);
        }
        // Half a second off the edge is still the edge.
        let inside = from_s - 0.5..=to_s + 0.5;
        if let Some(went_s) = cylinder.went_s.filter(|s| inside.contains(s)) {
            let (x, y) = frame.at(went_s.clamp(from_s, to_s), 0.0);
            for side in [-1.1, 1.1] {
                let stroke = [(x - 1.1, y - side), (x + 1.1, y + side)];
                page.line(&stroke, false, Pen::solid(0.4));
            }
            // Its name stands below the line of nothing left.
            end = Some((x, y + 2.2));
        }
        // One that was gone before has no line and no name here.
        let Some((x, y)) = end else { continue };
        names.push(((x + 1.4, y), cylinder.cylinder.as_str()));
    }
    for ((x, y), name) in apart(names) {
        page.bold((x, y + 0.9), SMALL_PT, Align::Left, &name);
    }
    Some((page, left_out))
}

/// Those that end in the same place under one name; names that would stand on each other, one below the other.
fn apart(mut names: Vec<((f64, f64), &str)>) -> Vec<((f64, f64), String)> {
    names.sort_by(|a, b| a.0.1.total_cmp(&b.0.1).then_with(|| a.1.cmp(b.1)));
    let mut placed: Vec<((f64, f64), String)> = Vec::new();
    for ((x, mut y), name) in names {
        let same = |at: &(f64, f64)| (at.0 - x).abs() < 0.5 && (at.1 - y).abs() < 0.5;
        if let Some((_, others)) = placed.iter_mut().find(|(at, _)| same(at)) {
            others.push_str(", ");
            others.push_str(name);
            continue;
        }
        while placed
            .iter()
            .any(|((other, at), _)| (other - x).abs() < 12.0 && (at - y).abs() < NAME_MM - 1e-9)
        {
            y += 0.5;
        }
        placed.push(((x, y), name.to_owned()));
    }
    placed
}
