//! For wet hands and poor light: a large-type page, and a form of six lines for a slate.

use super::{Brief, CAUTION, NO_LETTERS, Options, foot, lacks_letters};
use crate::brief::{at_set_down, natural, runs};
use crate::sheet::flow::{Flow, LEADING, MARGIN_MM};
use crate::sheet::font::POINT_MM;
use crate::sheet::texts::Texts;
use crate::sheet::{Align, Page, Pen, wrap};

const TITLE_PT: f64 = 26.0;
const LARGE_PT: f64 = 18.0;
const SMALL_PT: f64 = 10.0;

/// The sizes in which the form for a slate is tried, in points: the largest with which it stands on one page.
const SLATE_PT: [f64; 5] = [30.0, 26.0, 22.0, 20.0, LARGE_PT];

/// What is not in the plan is filled in by hand.
const BLANK: &str = "________";

/// So many rules of what is open stand on a slate.
const MOST_RULES: usize = 4;

/// How close the large-type pages are set: between points, and between steps of the order, in millimetres.
const GAPS_MM: [(f64, f64); 2] = [(1.5, 1.0), (0.8, 0.4)];

/// What to say and in which order to load, large enough for arm's length; set closer where that saves a page.
pub fn large_type(brief: &Brief, options: &Options) -> Vec<Page> {
    let tried = GAPS_MM.map(|gaps| large_in(gaps, brief, options));
    fewest_pages(tried).map_or_else(Vec::new, |flow| flow.finish(&foot(brief, options)))
}

/// The first of those that take the fewest pages.
fn fewest_pages(tried: impl IntoIterator<Item = Flow>) -> Option<Flow> {
    tried.into_iter().reduce(|best, closer| {
        if best.page_count() > closer.page_count() {
            closer
        } else {
            best
        }
    })
}

fn large_in((of_points, of_steps): (f64, f64), brief: &Brief, options: &Options) -> Flow {
    let mut flow = Flow::new(options.paper);
    flow.title(TITLE_PT, &brief.boat);
    let mut texts = Texts::new(flow.width());
    texts.paragraph(SMALL_PT, CAUTION);
    if lacks_letters(brief) {
        texts.paragraph(SMALL_PT, NO_LETTERS);
    }
    texts.gap(2.0);
    texts.paragraph(LARGE_PT, &heading_words(brief));
    texts.gap(of_points);
    for remark in brief.loading.must_be_told() {
        texts.point(LARGE_PT, "–", remark);
        texts.gap(of_points);
    }
    for (index, point) in brief.talk_points.iter().enumerate() {
        texts.point(LARGE_PT, &format!("{}", index + 1), &point.say);
        texts.gap(of_points);
    }
    texts.heading(TITLE_PT, "Loading order");
    texts.gap(2.0);
    let last = brief.loading.steps.len().to_string();
    for (index, step) in brief.loading.steps.iter().enumerate() {
        let number = format!("{}", index + 1);
        texts.point_among(LARGE_PT, &number, &last, &step.sentence);
        texts.gap(of_steps);
    }
    flow.texts(&texts);
    flow
}

/// The trip, its day and where cylinders come aboard.
fn heading_words(brief: &Brief) -> String {
    let loading = &brief.loading;
    let date = brief.date.as_deref().unwrap_or("date ________");
    let over = loading.hand_over.as_deref();
    let over = over.map_or_else(String::new, |place| format!(", over {place}"));
    let set_down = loading.set_down.as_deref().map(at_set_down);
    let set_down = set_down.map_or_else(String::new, |at| {
        format!(" If passing stops, lay them down {at}.")
    });
    let count = loading.steps.len();
    let noun = if count == 1 { "cylinder" } else { "cylinders" };
    let others = brief.load_list.iter().map(|row| row.cylinder.as_str());
    let others = others.filter(|id| loading.steps.iter().all(|step| step.cylinder != *id));
    let others: Vec<&str> = others.collect();
    let worn = if others.is_empty() {
        String::new()
    } else {
        format!(" Not handed over: {}.", runs(&others).join(", "))
    };
    format!(
        "{}, {date}. {}: {count} {noun}{over}.{worn}{set_down}",
        brief.trip_name, brief.part_name
    )
}

/// Six lines to copy on to a slate: boat, how many, hand-over, order by name, what is open, who pushed.
pub fn slate(brief: &Brief) -> [String; 6] {
    let names: Vec<&str> = brief
        .loading
        .steps
        .iter()
        .map(|step| step.cylinder.as_str())
        .collect();
    let shut: Vec<&str> = brief
        .front_list
        .iter()
        .filter(|front| front.shut)
        .map(|front| front.front.as_str())
        .chain(brief.lashing_list.iter().map(|row| row.lashing.as_str()))
        .collect();
    let named = |name: &Option<String>| name.clone().unwrap_or_else(|| BLANK.to_owned());
    [
        format!(
            "{}, {}, {}",
            brief.boat,
            brief.trip_name,
            brief.date.as_deref().unwrap_or(BLANK)
        ),
        format!(
            "{} {}{}, over {}, set down {}",
            names.len(),
            if names.len() == 1 {
                "cylinder"
            } else {
                "cylinders"
            },
            if brief.ashore.is_empty() {
                String::new()
            } else {
                format!(" (ashore: {})", brief.ashore.join(", "))
            },
            named(&brief.loading.hand_over),
            (brief.loading.set_down.as_deref()).map_or_else(|| format!("at {BLANK}"), at_set_down)
        ),
        format!("order {}{}", runs(&names).join(" "), heel_words(brief)),
        format!(
            "shut {}",
            if shut.is_empty() {
                "–".to_owned()
            } else {
                shut.join(", ")
            }
        ),
        open_words(brief),
        "pushed by ______ at ____ / 15 min ____ / dive ____ / night ____".to_owned(),
    ]
}

/// Where the boat leans further on the way than was wanted.
fn heel_words(brief: &Brief) -> String {
    let loading = &brief.loading;
    match loading.greatest_heel_deg {
        Some(deg) if loading.passes_heel() => format!(
            ", she leans {deg:.1}°, more than {:.1}°",
            loading.most_heel_deg
        ),
        _ => String::new(),
    }
}

/// The form on a page, to copy from or to write on: six fields one below the other, as large as they fit.
pub fn slate_page(brief: &Brief, options: &Options) -> Vec<Page> {
    let lines = slate(brief);
    let tried = SLATE_PT.map(|size_pt| slate_in(size_pt, &lines, lacks_letters(brief), options));
    fewest_pages(tried).map_or_else(Vec::new, |flow| flow.finish(&foot(brief, options)))
}

/// The form in letters of a size.
fn slate_in(size_pt: f64, fields: &[String], lacks_letters: bool, options: &Options) -> Flow {
    let mut flow = Flow::new(options.paper);
    flow.title(TITLE_PT, "For a slate");
    let mut texts = Texts::new(flow.width());
    texts.paragraph(SMALL_PT, CAUTION);
    if lacks_letters {
        texts.paragraph(SMALL_PT, NO_LETTERS);
    }
    flow.texts(&texts);
    flow.gap(3.0);
    let (left, wide) = (MARGIN_MM, flow.width());
    for line in fields {
        // What is filled in stands on the line of its word.
        let line = line.replace(" ____", "\u{a0}____");
        let lines = wrap(line.trim_end(), size_pt, wide - 4.0);
        let step = size_pt * POINT_MM * LEADING;
        let mut lines = lines.as_slice();
        // A field that is higher than the page goes on overleaf.
        while !lines.is_empty() {
            flow.room(step + 6.0);
            let left_mm = flow.bottom() - flow.y - 6.0;
            let fit = (0..lines.len()).take_while(|count| *count as f64 * step + step <= left_mm);
            let (now, later) = lines.split_at(fit.count().max(1));
            let top = flow.y;
            for (index, text) in now.iter().enumerate() {
                let foot = top + 3.0 + index as f64 * step + 0.8 * size_pt * POINT_MM;
                flow.page()
                    .text((left + 2.0, foot), size_pt, Align::Left, text);
            }
            let high = now.len() as f64 * step + 6.0;
            let corners = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
            let corners = corners.map(|(x, y)| (left + x, top + y));
            flow.page().line(&corners, true, Pen::solid(0.4));
            flow.gap(high);
            lines = later;
        }
    }
    flow
}

/// What is open in words, rule by rule, the gravest first and no more than one writes by hand.
fn open_words(brief: &Brief) -> String {
    let mut rules: Vec<(&str, Vec<&str>, usize)> = Vec::new();
    for point in &brief.open_points {
        let about = point.about.iter().map(String::as_str);
        match rules.iter_mut().find(|(rule, ..)| *rule == point.rule) {
            Some((_, names, count)) => {
                names.extend(about);
                *count += 1;
            }
            None => rules.push((&point.rule, about.collect(), 1)),
        }
    }
    let more: usize = rules.iter().skip(MOST_RULES).map(|(.., count)| count).sum();
    rules.truncate(MOST_RULES);
    let told = rules.into_iter().map(|(rule, mut names, _)| {
        names.sort_by_key(|name| natural(name));
        names.dedup();
        format!("{rule}: {}", runs(&names).join(", "))
    });
    let mut told: Vec<String> = told.collect();
    if more > 0 {
        told.push(format!("{more} more on the sheet"));
    }
    if told.is_empty() {
        "nothing open".to_owned()
    } else {
        format!("open: {}", told.join("; "))
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{brief_of, many, options};
    use super::*;
    use crate::sheet::Paper;

    /// For a few steps no page is begun where closer lines have room for them.
    #[test]
    fn large_type_takes_as_few_pages_as_it_can() {
        let mut whole = brief_of(&many(20));
        for step in &mut whole.loading.steps {
            step.sentence = format!("{}: push it home.", step.cylinder);
        }
        let options = options(Paper::A4);
        let mut saved = 0;
        for count in 4..=20 {
            let mut brief = whole.clone();
            brief.loading.steps.truncate(count);
            let counts = GAPS_MM.map(|gaps| large_in(gaps, &brief, &options).page_count());
            let pages = large_type(&brief, &options).len();
            assert_eq!(pages, counts[0].min(counts[1]), "{count}");
            saved += usize::from(pages < counts[0]);
        }
        assert!(saved > 0, "no page was saved");
    }

    /// What hands must know stands on the slate too: who stays ashore, and that she leans further than was wanted.
    #[test]
    fn the_slate_tells_who_stays_ashore_and_a_heel_that_is_passed() {
        let mut brief = brief_of(&many(4));
        let lines = slate(&brief);
        assert!(!lines[1].contains("ashore") && !lines[2].contains("leans"));
        brief.ashore = vec!["C9 (SN-0009)".to_owned()];
        brief.loading.most_heel_deg = 2.0;
        brief.loading.greatest_heel_deg = Some(3.25);
        let lines = slate(&brief);
        assert!(lines[1].contains("(ashore: C9 (SN-0009))"), "{}", lines[1]);
        assert!(
            lines[2].ends_with(", she leans 3.2°, more than 2.0°"),
            "{}",
            lines[2]
        );
    }
}
