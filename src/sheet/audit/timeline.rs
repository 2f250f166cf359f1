//! The recorded roll over time, with the events on it.

use super::SMALL_PT;
use crate::record::TimedEvent;
use crate::sheet::{Align, Page, Paper, Pen};

/// Room for numbers left of the plot and above and below it, in millimetres.
const LEFT_MM: f64 = 12.0;
const TOP_MM: f64 = 7.0;
const BELOW_MM: f64 = 9.0;

/// The roll over time on a piece so wide, in millimetres; `None` without a log.
pub fn plot(roll: &[[f64; 2]], events: &[TimedEvent], wide_mm: f64) -> Option<Page> {
    let (first, last) = (roll.first()?, roll.last()?);
    let (from_s, to_s) = (first[0], last[0]);
    if to_s <= from_s {
        return None;
    }
    let most = roll.iter().map(|[_, deg]| deg.abs()).fold(1.0, f64::max);
    let step = [2.0, 5.0, 10.0, 20.0]
        .into_iter()
        .find(|step| most / step <= 3.0)
        .unwrap_or(30.0);
    let end = (most / step).ceil() * step;
    let high_mm = 52.0;
    let mut page = Page::new(Paper::Cut {
        wide: super::setting::whole(wide_mm),
        high: 52,
    });
    let (width, height) = (wide_mm - LEFT_MM - 2.0, high_mm - TOP_MM - BELOW_MM);
    let at = |seconds: f64, deg: f64| {
        (
            LEFT_MM + width * (seconds - from_s) / (to_s - from_s),
            TOP_MM + 0.5 * height * (1.0 - deg / end),
        )
    };
    let mut deg = -end;
    while deg <= end + 1e-9 {
        let (left, right) = (at(from_s, deg), at(to_s, deg));
        page.line(&[left, right], false, Pen::grey(0.15));
        let words = format!("{deg:.0}°");
        page.text((left.0 - 1.0, left.1 + 0.9), SMALL_PT, Align::Right, &words);
        deg += step;
    }
    let line: Vec<(f64, f64)> = roll.iter().map(|[s, deg]| at(*s, *deg)).collect();
    page.line(&line, false, Pen::solid(0.3));
    for (index, event) in events.iter().enumerate() {
        let Some(seconds) = event.at_s.filter(|s| (from_s..=to_s).contains(s)) else {
            continue;
        };
        let (top, foot) = (at(seconds, end), at(seconds, -end));
        page.line(&[(top.0, top.1 - 2.0), foot], false, Pen::dashed(0.3));
        let number = format!("{}", index + 1);
        page.bold((top.0, top.1 - 2.8), SMALL_PT, Align::Middle, &number);
    }
    let y = high_mm - 4.4;
    page.text(
        (LEFT_MM, y),
        SMALL_PT,
        Align::Left,
        &format!("{from_s:.0} s"),
    );
    page.text(
        (LEFT_MM + width, y),
        SMALL_PT,
        Align::Right,
        &format!("{to_s:.0} s"),
    );
    page.text(
        (LEFT_MM + 0.5 * width, y),
        SMALL_PT,
        Align::Middle,
        "roll, starboard down upwards; numbers are those of the events",
    );
    Some(page)
}
