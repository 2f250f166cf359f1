//! The crew's sheet: what was planned, on paper, for ten minutes on the quay.
//!
//! First the deck as the reader sees it, with the places as painted; then what to say; then the lists with
//! boxes to tick; then what is still open, how far it is good, and who signs. Black on white, so that any
//! printer will do; tables in 8.5 points, texts in 10.

mod actions;
pub(super) mod labels;
mod large;
mod lists;
mod plan;

pub use self::actions::picture as action_picture;
pub use self::large::{large_type, slate};
pub use self::plan::{Facing, deck_picture};

use super::flow::{Flow, MARGIN_MM};
use super::texts::Texts;
use super::{Align, Page, Paper};
use crate::brief::{Brief, CAUTION, HandAction, OpenPoint};
use crate::layout::{Id, Plan};

/// How the sheet is printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Options {
    /// On what.
    pub paper: Paper,

    /// Which way the reader faces; taken from the hand-over place unless given.
    pub facing: Option<Facing>,

    /// What tells this state of the plan from any other: a short hash of the file.
    pub version: String,
}

/// Pixels per millimetre of a plan that is sent as a picture: 203 to the inch, clear on any phone.
pub const PIXELS_PER_MM: f64 = 8.0;

const TITLE_PT: f64 = 15.0;
const HEADING_PT: f64 = 11.0;
const TEXT_PT: f64 = 10.0;
const LIST_PT: f64 = 8.5;

/// The greatest height of a plan that lies across the page, so that the rest has room, in millimetres.
const ACROSS_MM: f64 = 105.0;

/// The greatest height of a plan that stands along the page, in millimetres.
const ALONG_MM: f64 = 175.0;

/// A plan alone is as wide as this at most, in millimetres: what a phone shows without turning pages.
const ALONE_MM: f64 = 200.0;

/// The title of the document.
pub fn title(brief: &Brief) -> String {
    format!("Crew's sheet – {}, {}", brief.boat, brief.trip)
}

/// The pages of the sheet.
pub fn pages(plan: &Plan, brief: &Brief, options: &Options) -> Vec<Page> {
    let mut flow = Flow::new(options.paper);
    head(&mut flow, brief, options);
    let mut texts = Texts::new(flow.half());
    words(&mut texts, brief);
    still_open(&mut texts, brief);
    let from = plans(&mut flow, plan, brief, options, &texts);
    flow.columns(&texts, from, 2);
    actions::strip(&mut flow);
    lists::lashing_list(&mut flow, brief);
    lists::load_list(&mut flow, brief);
    lists::signatures(&mut flow);
    flow.finish(&foot(brief, options))
}

/// The plan alone, on a piece of its own size, with what it is of.
pub fn plan_alone(plan: &Plan, brief: &Brief, options: &Options) -> Page {
    let facing = options.facing.unwrap_or_else(|| plan::facing(plan, brief));
    let decks = plan::decks_to_draw(brief);
    let pieces: Vec<(String, Page)> = decks
        .iter()
        .map(|deck| {
            let piece = plan::piece(plan, brief, deck, facing, (ALONE_MM, ALONE_MM), None);
            (plan::caption(deck, &piece, facing), piece.page)
        })
        .collect();
    let wide = pieces.iter().map(|(_, piece)| piece.paper.width_mm());
    let wide = wide.fold(120.0, f64::max) + 2.0 * MARGIN_MM;
    let high: f64 = pieces
        .iter()
        .map(|(_, piece)| piece.paper.height_mm() + 6.0)
        .sum();
    let mut page = Page::new(Paper::Cut {
        wide: whole(wide),
        high: whole(high + 32.0),
    });
    page.bold((MARGIN_MM, 12.0), TITLE_PT, Align::Left, &brief.boat);
    page.text(
        (MARGIN_MM, 17.5),
        TEXT_PT,
        Align::Left,
        &subtitle(brief, options),
    );
    let mut y = 20.0;
    for (caption, piece) in &pieces {
        page.text((MARGIN_MM, y + 3.5), LIST_PT, Align::Left, caption);
        page.put(piece, (MARGIN_MM, y + 5.0));
        y += piece.paper.height_mm() + 6.0;
    }
    for line in super::wrap(CAUTION, LIST_PT, wide - 2.0 * MARGIN_MM) {
        y += 4.0;
        page.text((MARGIN_MM, y), LIST_PT, Align::Left, &line);
    }
    page
}

fn whole(mm: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a size on paper, clamped"
    )]
    let whole = mm.ceil().clamp(1.0, 5000.0) as u32;
    whole
}

fn foot(brief: &Brief, options: &Options) -> String {
    format!(
        "{}, trip {}, {} · version {} · planning aid, no approval",
        brief.boat,
        brief.trip,
        brief.date.as_deref().unwrap_or("no date"),
        options.version
    )
}

fn subtitle(brief: &Brief, options: &Options) -> String {
    let date = brief.date.as_deref().unwrap_or("date ____________");
    let count = brief.load_list.len();
    let noun = if count == 1 { "cylinder" } else { "cylinders" };
    format!(
        "Trip {} · {date} · loaded in the part {} · {count} {noun} · version {}",
        brief.trip, brief.part, options.version
    )
}

fn head(flow: &mut Flow, brief: &Brief, options: &Options) {
    flow.title(TITLE_PT, &brief.boat);
    flow.line(TEXT_PT, &subtitle(brief, options));
    let mut texts = Texts::new(flow.width());
    texts.paragraph(LIST_PT, CAUTION);
    flow.texts(&texts);
    flow.gap(1.0);
}

/// The plans of all decks; what is to be said stands beside a plan that stands along the page. Tells how many of
/// its lines do.
fn plans(flow: &mut Flow, plan: &Plan, brief: &Brief, options: &Options, texts: &Texts) -> usize {
    let facing = options.facing.unwrap_or_else(|| plan::facing(plan, brief));
    let mut set = 0;
    for deck in plan::decks_to_draw(brief) {
        let room = if facing.is_along() {
            (flow.half(), ALONG_MM)
        } else {
            (flow.width(), ACROSS_MM)
        };
        let piece = plan::piece(plan, brief, deck, facing, room, None);
        let (wide, high) = (piece.page.paper.width_mm(), piece.page.paper.height_mm());
        flow.room(high + 6.0);
        flow.line(LIST_PT, &plan::caption(deck, &piece, facing));
        let y = flow.y;
        let left = MARGIN_MM + 0.5 * (room.0 - wide).max(0.0);
        flow.page().put(&piece.page, (left, y));
        if facing.is_along() && set == 0 {
            set = flow.beside(texts, high);
        }
        flow.gap(high + 0.5);
    }
    set
}

/// What to say, what to keep clear, how to push.
fn words(texts: &mut Texts, brief: &Brief) {
    texts.heading(HEADING_PT, "To say on the quay");
    for (index, point) in brief.talk_points.iter().enumerate() {
        let text = format!("{} [{}]", point.say, point.from);
        texts.point(TEXT_PT, &format!("{}", index + 1), &text);
    }
    texts.heading(HEADING_PT, "Keep clear");
    if brief.walkways.is_empty() {
        texts.paragraph(
            TEXT_PT,
            "No walkway is drawn in this plan: agree which ways stay clear.",
        );
    } else {
        texts.paragraph(TEXT_PT, &format!("{}.", brief.walkways.join(", ")));
    }
    texts.heading(HEADING_PT, "Push test");
    texts.paragraph(
        TEXT_PT,
        "One hand at the valve, about 15 kg, towards every side. It may move as far as the lashing list says \
         and no further.",
    );
    texts.paragraph(
        TEXT_PT,
        "Push again after 15 min of running, after each dive and before the night (common practice, no \
         source).",
    );
}

/// What is open, what was taken on, what nobody knows, and how far it is good.
fn still_open(texts: &mut Texts, brief: &Brief) {
    texts.heading(HEADING_PT, "Still open");
    if brief.still_open.is_empty() {
        texts.paragraph(TEXT_PT, "Nothing is left to put right.");
    }
    for line in folded(&brief.open_points) {
        texts.point(TEXT_PT, "–", &line);
    }
    if !brief.taken_on.is_empty() {
        texts.heading(HEADING_PT, "Taken on");
        for line in &brief.taken_on {
            texts.point(TEXT_PT, "–", line);
        }
    }
    if !brief.not_known.is_empty() {
        texts.heading(HEADING_PT, "Not known");
        let names = brief.not_known.join(", ");
        texts.paragraph(
            TEXT_PT,
            &format!("Nobody knows how strong these are: {names}."),
        );
    }
    texts.heading(HEADING_PT, "How far the stowage is good");
    for (parts, sentence) in limits(brief) {
        texts.point(TEXT_PT, "–", &format!("{parts}: {sentence}"));
    }
}

/// More points of one rule than this are told as one, with the names of all that they are about.
const MOST_ALIKE: usize = 3;

/// What is open, many points of one rule together: the first of them in full, then the names of the others.
fn folded(points: &[OpenPoint]) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for point in points {
        if seen.contains(&point.word.as_str()) {
            continue;
        }
        let alike: Vec<&OpenPoint> = points.iter().filter(|it| it.word == point.word).collect();
        if alike.len() <= MOST_ALIKE {
            told.push(format!("{}: {}", point.word, point.sentence));
            continue;
        }
        seen.push(&point.word);
        let mut others: Vec<&str> = Vec::new();
        for name in alike[1..].iter().flat_map(|it| &it.about) {
            if !others.contains(&name.as_str()) && !point.about.contains(name) {
                others.push(name);
            }
        }
        let sentence = point.sentence.trim_end_matches('.');
        told.push(format!(
            "{}: {sentence}. Of the same rule, {} points more, about: {}.",
            point.word,
            alike.len() - 1,
            others.join(", ")
        ));
    }
    told
}

/// Limits by their sentence: parts of the day with the same one are told together.
fn limits(brief: &Brief) -> Vec<(String, &str)> {
    let mut told: Vec<(String, &str)> = Vec::new();
    for line in &brief.limits {
        let (part, sentence) = line.split_once(": ").unwrap_or((line, ""));
        match told.iter_mut().find(|(_, old)| *old == sentence) {
            Some((parts, _)) => {
                parts.push_str("; ");
                parts.push_str(part);
            }
            None => told.push((part.to_owned(), sentence)),
        }
    }
    told
}

/// A text that is cut to a width, with dots where it was.
fn cut(text: &str, size_pt: f64, most_mm: f64) -> String {
    if super::width_mm(text, size_pt) <= most_mm {
        return text.to_owned();
    }
    let mut kept = String::new();
    for c in text.chars() {
        let longer = format!("{kept}{c}…");
        if super::width_mm(&longer, size_pt) > most_mm {
            break;
        }
        kept.push(c);
    }
    kept.push('…');
    kept
}

/// A text in the middle of a point.
fn centred(page: &mut Page, at: (f64, f64), size_pt: f64, text: &str) {
    let drop = 0.35 * size_pt * 25.4 / 72.0;
    page.text((at.0, at.1 + drop), size_pt, Align::Middle, text);
}

/// What a step of the walk shows: the deck with the cylinder lit, and a picture of each thing to do.
pub fn step_pictures(
    plan: &Plan,
    brief: &Brief,
    cylinder: &Id,
    actions: &[HandAction],
) -> (Page, Vec<Page>) {
    let deck = deck_picture(plan, brief, Some(cylinder));
    (
        deck,
        actions
            .iter()
            .map(|action| action_picture(*action))
            .collect(),
    )
}

#[cfg(test)]
mod tests;
