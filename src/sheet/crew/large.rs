//! For wet hands and poor light: a large-type page, and a form of six lines for a slate.

use super::{Brief, CAUTION, Options, foot};
use crate::sheet::Page;
use crate::sheet::flow::Flow;
use crate::sheet::texts::Texts;

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
        format!("order {}", names.join(" ")),
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
