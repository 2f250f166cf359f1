//! For wet hands and poor light: a large-type page, and a form of six lines for a slate.

use super::{Brief, CAUTION, Options, foot};
use crate::brief::runs;
use crate::sheet::flow::{Flow, LEADING, MARGIN_MM};
use crate::sheet::font::POINT_MM;
use crate::sheet::texts::Texts;
use crate::sheet::{Align, Page, Pen, wrap};

const TITLE_PT: f64 = 26.0;
const LARGE_PT: f64 = 18.0;
const SMALL_PT: f64 = 10.0;

/// What to say and in which order to load, large enough for arm's length.
pub fn large_type(brief: &Brief, options: &Options) -> Vec<Page> {
    let mut flow = Flow::new(options.paper);
    flow.title(TITLE_PT, &brief.boat);
    let mut texts = Texts::new(flow.width());
    texts.paragraph(SMALL_PT, CAUTION);
    texts.gap(2.0);
    for (index, point) in brief.talk_points.iter().enumerate() {
        texts.point(LARGE_PT, &format!("{}", index + 1), &point.say);
        texts.gap(1.5);
    }
    texts.heading(TITLE_PT, "Loading order");
    texts.gap(2.0);
    let last = brief.loading.steps.len().to_string();
    for (index, step) in brief.loading.steps.iter().enumerate() {
        let number = format!("{}", index + 1);
        texts.point_among(LARGE_PT, &number, &last, &step.sentence);
        texts.gap(1.0);
    }
    flow.texts(&texts);
    flow.finish(&foot(brief, options))
}

/// Six lines to copy on to a slate: boat, how many, hand-over, order by name, what is open, who pushed.
pub fn slate(brief: &Brief) -> [String; 6] {
    let names: Vec<&str> = brief
        .loading
        .steps
        .iter()
        .map(|step| step.cylinder.as_str())
        .collect();
    let open = brief.still_open.len();
    let shut: Vec<&str> = brief
        .front_list
        .iter()
        .filter(|front| front.shut)
        .map(|front| front.front.as_str())
        .chain(brief.lashing_list.iter().map(|row| row.lashing.as_str()))
        .collect();
    let named = |name: &Option<String>| name.clone().unwrap_or_else(|| "–".to_owned());
    [
        format!(
            "{} {} {}",
            brief.boat,
            brief.trip,
            brief.date.as_deref().unwrap_or("")
        ),
        format!(
            "{} bottles, over {}, set down at {}",
            names.len(),
            named(&brief.loading.hand_over),
            named(&brief.loading.set_down)
        ),
        format!("order {}", runs(&names).join(" ")),
        format!(
            "shut {}",
            if shut.is_empty() {
                "–".to_owned()
            } else {
                shut.join(", ")
            }
        ),
        format!("open points {open}: {}", first_codes(brief)),
        "pushed by ________ at ____ / 15 min ____ / after dive ____".to_owned(),
    ]
}

/// The form on a page, to copy from or to write on: six fields one below the other, as large as they fit.
pub fn slate_page(brief: &Brief, options: &Options) -> Vec<Page> {
    let mut flow = Flow::new(options.paper);
    flow.title(TITLE_PT, "For a slate");
    let mut texts = Texts::new(flow.width());
    texts.paragraph(SMALL_PT, CAUTION);
    texts.gap(4.0);
    flow.texts(&texts);
    let (left, wide) = (MARGIN_MM, flow.width());
    for line in slate(brief) {
        let lines = wrap(line.trim_end(), LARGE_PT, wide - 4.0);
        let step = LARGE_PT * POINT_MM * LEADING;
        let mut lines = lines.as_slice();
        // A field that is higher than the page goes on overleaf.
        while !lines.is_empty() {
            flow.room(step + 6.0);
            let left_mm = flow.bottom() - flow.y - 6.0;
            let fit = (0..lines.len()).take_while(|count| *count as f64 * step + step <= left_mm);
            let (now, later) = lines.split_at(fit.count().max(1));
            let top = flow.y;
            for (index, text) in now.iter().enumerate() {
                let foot = top + 3.0 + index as f64 * step + 0.8 * LARGE_PT * POINT_MM;
                flow.page()
                    .text((left + 2.0, foot), LARGE_PT, Align::Left, text);
            }
            let high = now.len() as f64 * step + 6.0;
            let corners = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
            let corners = corners.map(|(x, y)| (left + x, top + y));
            flow.page().line(&corners, true, Pen::solid(0.4));
            flow.gap(high);
            lines = later;
        }
    }
    flow.finish(&foot(brief, options))
}

/// The codes of what is open, each once.
fn first_codes(brief: &Brief) -> String {
    let mut codes: Vec<&str> = Vec::new();
    for line in &brief.still_open {
        let code = line.split([' ', ':']).nth(1).unwrap_or_default();
        if !codes.contains(&code) {
            codes.push(code);
        }
    }
    if codes.is_empty() {
        "none".to_owned()
    } else {
        codes.join(" ")
    }
}
