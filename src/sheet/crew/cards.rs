//! The limit cards on the sheet: how far the stowage is good, part by part, each with its margin drawn small where
//! an estimate from a sea exists.

use super::labels::Area;
use super::{LIST_PT, centred};
use crate::brief::Brief;
use crate::checks::{LimitCard, MarginAt};
use crate::sheet::flow::LEADING;
use crate::sheet::font::POINT_MM;
use crate::sheet::texts::Texts;
use crate::sheet::{Align, Page, Paper, Pen, width_mm, wrap};

/// What a card is called, before the parts of the day that it is of.
const CARD: &str = "Limit card: the stowage, not the boat ·";

/// What every sentence of a card begins with; on the sheet its name says it.
const PREFIX: &str = "The stowage, not the boat: ";

/// Size of the drawing with its axes, in millimetres.
const PLOT_MM: (f64, f64) = (38.0, 20.0);

/// Letters in the drawing, in points.
const PLOT_PT: f64 = 7.0;

/// Shares above it are drawn at it.
const MOST_SHARE: f64 = 2.0;

/// Said at the line at 1.
const BELOW_ONE: &str = "goes below 1";

/// Within a card, between its edge and what stands in it, in millimetres.
const PAD_MM: f64 = 1.2;

/// One or more parts of the day with the same card.
struct Told<'a> {
    parts: Vec<&'a str>,
    texts: Vec<String>,
    cards: Vec<&'a LimitCard>,
}

/// The cards, each as one piece; parts of the day with the same one are told together.
pub(super) fn cards(texts: &mut Texts, brief: &Brief) {
    let mut all: Vec<Told<'_>> = Vec::new();
    for card in &brief.cards {
        let said = said_of(card);
        match all.iter_mut().find(|told| told.texts == said) {
            Some(told) => {
                told.parts.push(&card.name);
                told.cards.push(card);
            }
            None => all.push(Told {
                parts: vec![&card.name],
                texts: said,
                cards: vec![card],
            }),
        }
    }
    if all.is_empty() {
        return;
    }
    texts.gap(2.4);
    let wide = texts.width_mm();
    for told in &all {
        let lines = lines(told, wide);
        let text = lines.len() as f64 * leading() + 2.0 * PAD_MM;
        let high = text.max(if has_plot(told) { PLOT_MM.1 } else { 0.0 });
        texts.drawing(piece(told, &lines, (wide, high)), high + 1.2);
    }
}

/// What a card says, without the parts that it is of.
fn said_of(card: &LimitCard) -> Vec<String> {
    let mut texts = vec![said("In its own motion: ", &card.roll_sentence)];
    if !card.sea_sentence.is_empty() {
        texts.push(said("In a sea: ", &card.sea_sentence));
    }
    if let Some(cured) = &card.with_cures {
        let counted = card.cures.iter().take(cured.cures_counted);
        let labels = counted.map(|best| best.cure.label.to_string());
        let labels: Vec<String> = labels
            .map(|it| it.trim_end_matches('.').to_owned())
            .collect();
        let (with, reach) = cured
            .sentence
            .split_once(": ")
            .unwrap_or(("", &cured.sentence));
        texts.push(format!("{with} ({}): {reach}", labels.join("; ")));
    }
    texts
}

/// A sentence behind what it is of, without what stands in the heading.
fn said(of: &str, sentence: &str) -> String {
    format!("{of}{}", sentence.strip_prefix(PREFIX).unwrap_or(sentence))
}

fn has_plot(told: &Told<'_>) -> bool {
    // A curve along the top of the drawing says nothing.
    told.cards.iter().any(|card| {
        let curves = card.with_cures.iter().map(|cured| &cured.margins);
        let mut margins = curves.chain([&card.margins]).flatten();
        card.margins.len() > 1 && margins.any(|at| at.share.is_some_and(|share| share < MOST_SHARE))
    })
}

/// A line of a card.
struct CardLine {
    bold: bool,
    text: String,
}

/// The lines of a card, the names first: beside the drawing narrow, below it as wide as the card.
fn lines(told: &Told<'_>, wide: f64) -> Vec<CardLine> {
    let room = wide - 2.0 * PAD_MM;
    let beside = if has_plot(told) {
        room - PLOT_MM.0
    } else {
        room
    };
    let mut lines: Vec<CardLine> = Vec::new();
    // Each says what it is, also where it stands overleaf.
    let names = format!("{CARD} {}", told.parts.join("; "));
    let all = std::iter::once((true, &names)).chain(told.texts.iter().map(|text| (false, text)));
    for (bold, text) in all {
        let mut left = text.trim().to_owned();
        while !left.is_empty() {
            let below = lines.len() as f64 * leading() + PAD_MM >= PLOT_MM.1;
            let room = if below { room } else { beside };
            // Bold letters are a little wider than the plain ones that are measured.
            let room = if bold { 0.97 * room } else { room };
            let Some(line) = wrap(&left, LIST_PT, room).into_iter().next() else {
                break;
            };
            let rest = left.strip_prefix(line.as_str()).map_or("", str::trim_start);
            left = rest.to_owned();
            lines.push(CardLine { bold, text: line });
        }
    }
    lines
}

fn leading() -> f64 {
    LIST_PT * POINT_MM * LEADING
}

/// A card on a piece of its own.
fn piece(told: &Told<'_>, lines: &[CardLine], (wide, high): (f64, f64)) -> Page {
    let mut page = Page::new(Paper::Cut {
        wide: super::whole(wide),
        high: super::whole(high),
    });
    page.line(
        &[(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)],
        true,
        Pen::solid(0.2),
    );
    let mut y = PAD_MM;
    for CardLine { bold, text } in lines {
        let at = (PAD_MM, y + 0.8 * LIST_PT * POINT_MM);
        if *bold {
            page.bold(at, LIST_PT, Align::Left, text);
        } else {
            page.text(at, LIST_PT, Align::Left, text);
        }
        y += leading();
    }
    if has_plot(told) {
        plot(&mut page, &told.cards, (wide - PLOT_MM.0, 0.0));
    }
    page
}

/// The margin against wave height, a curve for each part: solid as stowed, in dashes with the cures; below the line at
/// 1 something goes.
fn plot(page: &mut Page, cards: &[&LimitCard], (left, top): (f64, f64)) {
    let as_stowed: Vec<&[MarginAt]> = cards.iter().map(|card| card.margins.as_slice()).collect();
    let cured = cards.iter().filter_map(|card| card.with_cures.as_ref());
    let cured: Vec<&[MarginAt]> = cured.map(|cured| cured.margins.as_slice()).collect();
    let all = as_stowed.iter().chain(&cured).copied().flatten();
    let most_m = all.map(|at| at.wave_height_m).fold(0.0, f64::max);
    if most_m <= 0.0 {
        return;
    }
    let (x0, x1) = (left + 6.0, left + PLOT_MM.0 - 3.0);
    let (y0, y1) = (top + PLOT_MM.1 - 6.2, top + 4.4);
    let at = |margin: &MarginAt| {
        let share = margin.share.unwrap_or(MOST_SHARE).clamp(0.0, MOST_SHARE);
        (
            x0 + (x1 - x0) * margin.wave_height_m / most_m,
            y0 + (y1 - y0) * share / MOST_SHARE,
        )
    };
    page.line(&[(x0, y1), (x0, y0), (x1, y0)], false, Pen::solid(0.2));
    let one = 0.5 * (y0 + y1);
    page.line(&[(x0, one), (x1, one)], false, Pen::grey(0.2));
    page.text((x0 - 0.8, one + 0.8), PLOT_PT, Align::Right, "1");
    page.text((x0 - 0.8, y0 + 0.8), PLOT_PT, Align::Right, "0");
    page.text(
        (x0, y1 - 1.2),
        PLOT_PT,
        Align::Left,
        "margin against wave height",
    );
    // Beside the line, where no curve runs through its words if that can be.
    let half = (0.5 * width_mm(BELOW_ONE, PLOT_PT) + 0.2, 1.1);
    let curves: Vec<Vec<(f64, f64)>> = as_stowed
        .iter()
        .chain(&cured)
        .map(|it| it.iter().map(at).collect())
        .collect();
    let spots = [one - 1.4, one + 1.9].into_iter().flat_map(|y| {
        let across = [x1 - half.0, 0.5 * (x0 + x1), x0 + half.0 + 0.4];
        across.map(|x| (x, y))
    });
    let through = |spot: &(f64, f64)| {
        let area = Area::about(*spot, half);
        let pairs = curves.iter().flat_map(|curve| curve.windows(2));
        pairs
            .filter(|pair| area.is_crossed((pair[0], pair[1])))
            .count()
    };
    let spot = spots.min_by_key(through).unwrap_or((x1, one));
    centred(page, spot, PLOT_PT, BELOW_ONE);
    let line = |margins: &[MarginAt]| margins.iter().map(at).collect::<Vec<_>>();
    for margins in &as_stowed {
        page.line(&line(margins), false, Pen::solid(0.5));
    }
    let in_dashes = Pen {
        grey: 0.0,
        ..Pen::dashed(0.4)
    };
    for margins in &cured {
        page.line(&line(margins), false, in_dashes);
    }
    // A mark for each half metre, or each metre where those would stand too close.
    let step = if most_m > 2.0 { 1.0 } else { 0.5 };
    let mut mark_m = step;
    while mark_m <= most_m + 1e-9 {
        let x = x0 + (x1 - x0) * mark_m / most_m;
        page.line(&[(x, y0), (x, y0 + 0.8)], false, Pen::solid(0.2));
        let words = format!("{mark_m} m");
        let half = 0.5 * width_mm(&words, PLOT_PT);
        centred(
            page,
            (x.min(left + PLOT_MM.0 - half - PAD_MM), y0 + 2.4),
            PLOT_PT,
            &words,
        );
        mark_m += step;
    }
    let words = if cured.is_empty() {
        ""
    } else {
        "solid as stowed, dashes with cures"
    };
    centred(
        page,
        (0.5 * (left + left + PLOT_MM.0), y0 + 4.8),
        PLOT_PT,
        words,
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::LoadingSettings;
    use crate::checks::fixture;
    use crate::sheet::page::Mark;

    /// A boat with a bottle that stands free, straps aboard, and three parts of the day.
    fn brief() -> Brief {
        let text = "deck 6x3; point E1 2.8,0 h=0.03 strength=4; point E2 3.2,0 h=0.03 strength=4; \
                    aboard S strap 2; stand P1 3,0; drifting out roll=15/4; drifting back roll=15/4; fast home roll=1/4";
        let plan = fixture::plan(text).unwrap();
        let trip = &plan.trips[0];
        Brief::for_paper(&plan, trip, None, &LoadingSettings::default()).unwrap()
    }

    fn page_of(brief: &Brief) -> Page {
        let mut texts = Texts::new(92.0);
        cards(&mut texts, brief);
        let mut page = Page::new(Paper::A4);
        texts.draw(&mut page, 0..texts.len(), (10.0, 10.0));
        page
    }

    #[test]
    fn parts_with_the_same_card_are_told_once_with_what_they_are_good_to() {
        let brief = brief();
        let page = page_of(&brief);
        let words: Vec<&str> = page.texts().collect();
        // Nothing of a card stands beyond its edges.
        for (area, text) in super::super::tests::texts(&page) {
            assert!(area[0] >= 10.0 && area[2] <= 102.2, "{text:?} at {area:?}");
        }
        assert!(!words.contains(&PREFIX), "{words:?}");
        assert!(
            words.join(" ").contains(&format!("{CARD} out; back"))
                && words.contains(&format!("{CARD} home").as_str()),
            "{words:?}"
        );
        let all = words.join(" ");
        for wanted in [
            "good to",
            "of coastal sea",
            "of roll; then P1",
            "With th",
            "In its own motion",
        ] {
            assert!(all.contains(wanted), "{wanted} in {all}");
        }
        // The part that is made fast has neither a sea nor a drawing.
        assert_eq!(
            all.matches("margin against wave height").count(),
            1,
            "{all}"
        );
        assert_eq!(all.matches("In a sea:").count(), 1, "{all}");
    }

    #[test]
    fn the_curve_crosses_one_at_the_height_that_the_card_says() {
        let mut brief = brief();
        brief.cards.truncate(1);
        brief.cards[0].with_cures = None;
        let good = brief.cards[0].good_to_wave_height_m.unwrap();
        let most = brief.cards[0].margins.last().unwrap().wave_height_m;
        let page = page_of(&brief);
        let line_of = |width: f64| {
            let mut paths = page.marks().iter().filter_map(|mark| match mark {
                Mark::Path(path) if path.pen == Some(Pen::solid(width)) => {
                    Some(path.points.clone())
                }
                _ => None,
            });
            paths.next().unwrap()
        };
        let curve = line_of(0.5);
        let grey = page.marks().iter().find_map(|mark| match mark {
            Mark::Path(path) if path.pen == Some(Pen::grey(0.2)) => Some(path.points.clone()),
            _ => None,
        });
        let one = grey.unwrap();
        let (x0, x1, y) = (one[0].0, one[1].0, one[0].1);
        let cross = curve
            .windows(2)
            .find(|pair| pair[0].1 <= y && pair[1].1 > y);
        let [a, b] = cross.unwrap() else {
            panic!("a pair")
        };
        // Between the last height that holds and the first that does not, a centimetre apart.
        let x = a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0);
        let height_m = (x - x0) / (x1 - x0) * most;
        assert!((height_m - good).abs() < 0.02, "{height_m} for {good}");
    }

    #[test]
    fn without_cards_there_is_nothing() {
        let mut brief = brief();
        brief.cards.clear();
        assert_eq!(page_of(&brief).texts().count(), 0);
    }
}
