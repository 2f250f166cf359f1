//! The crew's sheet: what was planned, on paper, for ten minutes on the quay.
//!
//! First the deck as the reader sees it, with the places as painted; then what to say; then the lists with
//! boxes to tick; then what is still open, how far it is good, and who signs. Black on white, so that any
//! printer will do; tables in 8.5 points, texts in 10.

mod actions;
mod cards;
pub(super) mod labels;
mod large;
mod lists;
mod plan;
mod still_open;
mod work;

pub use self::actions::picture as action_picture;
pub use self::large::{large_type, slate, slate_page};
pub use self::plan::{Facing, deck_picture};

use super::flow::{FOOT_PT, Flow, MARGIN_MM, NUMBER_MM};
use super::texts::Texts;
use super::{Align, Page, Paper};
use crate::brief::{Brief, CAUTION, HandAction, PUSH_AGAIN, Table, WALKWAYS};
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
/// From line to line of a title that takes several, in millimetres.
const TITLE_LINE_MM: f64 = 7.0;

const HEADING_PT: f64 = 11.0;
const TEXT_PT: f64 = 10.0;
const LIST_PT: f64 = 8.5;

/// The greatest height of a plan that lies across the page, so that the rest has room, in millimetres.
const ACROSS_MM: f64 = 105.0;

/// The greatest height of a plan that stands along the page, in millimetres.
const ALONG_MM: f64 = 175.0;

/// The greatest height of a part of a deck that is drawn larger, in millimetres: two of them stand on a page.
const PART_MM: f64 = 112.0;

/// The same of one that lies across the page, where the beam takes the height.
const PART_ACROSS_MM: f64 = 160.0;

/// Room for what stands above a plan that has a page to itself, in millimetres.
const CAPTION_MM: f64 = 16.0;

/// A plan alone is as wide as this at most, in millimetres: what a phone shows without turning pages.
const ALONE_MM: f64 = 200.0;

/// The title of the document.
pub fn title(brief: &Brief) -> String {
    format!("Crew's sheet – {}, {}", brief.boat, brief.trip_name)
}

/// How close the sheet is set.
#[derive(Copy, Clone, Debug)]
struct Setting {
    /// Letters of what is still open, in points.
    open_pt: f64,
    /// Between the words of a list and the lines round them, in millimetres.
    pad_mm: f64,
}

/// As it reads best.
const ROOMY: Setting = Setting {
    open_pt: TEXT_PT,
    pad_mm: 0.8,
};

/// Where that saves a page: what is open in letters as large as those of the lists.
const CLOSE: Setting = Setting {
    open_pt: LIST_PT,
    pad_mm: 0.4,
};

/// A last page of which less than this share is filled is rather saved.
const SPARSE: f64 = 0.4;

/// The pages of the sheet; set closer if otherwise the last of several would be all but empty.
pub fn pages(plan: &Plan, brief: &Brief, options: &Options) -> Vec<Page> {
    let rooms = plan_rooms(options.paper, facing_of(plan, brief, options));
    let drawn = drawn(plan, brief, options, rooms);
    set_best(brief, options, &drawn).finish(&foot(brief, options))
}

/// The sheet as it reads best, or closer where that saves a page of which little would be filled.
fn set_best(brief: &Brief, options: &Options, drawn: &DrawnDecks) -> Flow {
    let roomy = set(brief, options, drawn, ROOMY);
    let is_sparse = roomy.page_count() > 1 && roomy.y < SPARSE * roomy.bottom();
    let close = is_sparse.then(|| set(brief, options, drawn, CLOSE));
    match close {
        Some(close) if close.page_count() < roomy.page_count() => close,
        _ => roomy,
    }
}

/// The sheet, set so close.
fn set(brief: &Brief, options: &Options, drawn: &DrawnDecks, setting: Setting) -> Flow {
    let mut flow = Flow::new(options.paper);
    head(&mut flow, brief, options);
    let mut texts = Texts::new(flow.half());
    words(&mut texts, brief);
    work::deck_work(&mut texts, brief);
    plans(&mut flow, drawn, &texts);
    actions::strip(&mut flow, brief);
    parts_of_decks(&mut flow, &drawn.parts);
    lists::lashing_list(&mut flow, brief, setting);
    lists::load_list(&mut flow, brief, setting);
    // What hands need comes first; what the master accepts stands above the signatures.
    let mut last = Texts::new(flow.half());
    still_open::still_open(&mut last, brief, setting);
    cards::cards(&mut last, brief);
    flow.gap(1.5);
    flow.columns(&last, 0, 2);
    lists::signatures(&mut flow);
    flow
}

/// The plan alone on sheets of paper, with what it is of.
pub fn plan_pages(plan: &Plan, brief: &Brief, options: &Options) -> Vec<Page> {
    let mut flow = Flow::new(options.paper);
    head(&mut flow, brief, options);
    let nothing = Texts::new(flow.half());
    // Nothing else stands on the page.
    let facing = facing_of(plan, brief, options);
    let [_, part_room] = plan_rooms(options.paper, facing);
    let is_alone = plan::decks_to_draw(brief).len() == 1;
    let wide = if is_alone || !facing.is_along() {
        flow.width()
    } else {
        flow.half()
    };
    let room = (wide, flow.bottom() - flow.y - CAPTION_MM);
    let drawn = drawn(plan, brief, options, [room, part_room]);
    plans(&mut flow, &drawn, &nothing);
    parts_of_decks(&mut flow, &drawn.parts);
    flow.finish(&foot(brief, options))
}

/// The plan alone, on a piece of its own size, with what it is of: for a message to the crew.
pub fn plan_alone(plan: &Plan, brief: &Brief, options: &Options) -> Page {
    let of = plan::Of {
        plan,
        brief,
        facing: facing_of(plan, brief, options),
    };
    let mut pieces: Vec<(String, Page)> = Vec::new();
    for deck in plan::decks_to_draw(brief) {
        let drawn = plan::deck_and_parts(of, deck, [(ALONE_MM, ALONE_MM); 2], 0.0);
        pieces.extend(drawn.into_iter().map(|it| (it.caption, it.page)));
    }
    let wide = pieces.iter().map(|(_, piece)| piece.paper.width_mm());
    let wide = wide.fold(120.0, f64::max) + 2.0 * MARGIN_MM;
    let room = wide - 2.0 * MARGIN_MM;
    let set = |size_pt: f64, text: &str| {
        let mut texts = Texts::new(room);
        texts.paragraph(size_pt, text);
        (texts.depth_mm(), texts)
    };
    let title = super::wrap(&brief.boat, TITLE_PT, 0.97 * room);
    let title_mm = title.len() as f64 * TITLE_LINE_MM;
    let subtitle = set(TEXT_PT, &subtitle(brief, options));
    let caution = if lacks_letters(brief) {
        set(LIST_PT, &format!("{CAUTION} {NO_LETTERS}"))
    } else {
        set(LIST_PT, CAUTION)
    };
    let pieces = pieces
        .iter()
        .map(|(caption, piece)| (set(LIST_PT, caption), piece));
    let pieces: Vec<_> = pieces.collect();
    let of_pieces = pieces
        .iter()
        .map(|((depth, _), piece)| depth + piece.paper.height_mm() + 3.0);
    let high = 7.0 + title_mm + subtitle.0 + of_pieces.sum::<f64>() + caution.0 + MARGIN_MM;
    let mut page = Page::new(Paper::Cut {
        wide: whole(wide),
        high: whole(high),
    });
    for (index, line) in title.iter().enumerate() {
        let y = 12.0 + index as f64 * TITLE_LINE_MM;
        page.bold((MARGIN_MM, y), TITLE_PT, Align::Left, line);
    }
    let mut y = 7.0 + title_mm;
    let put =
        |page: &mut Page, texts: &Texts, y: f64| texts.draw(page, 0..texts.len(), (MARGIN_MM, y));
    y += put(&mut page, &subtitle.1, y) + 1.0;
    for ((_, caption), piece) in &pieces {
        y += put(&mut page, caption, y);
        page.put(piece, (MARGIN_MM, y));
        y += piece.paper.height_mm() + 2.0;
    }
    put(&mut page, &caution.1, y);
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

/// What stands at the foot of each page; long names are cut, so that all of it stands beside the number of the page.
fn foot(brief: &Brief, options: &Options) -> String {
    let told = |names: [&str; 3]| {
        format!(
            "{}, {} · version {} · planning aid, no approval",
            names.join(", "),
            brief.date.as_deref().unwrap_or("no date"),
            options.version
        )
    };
    let room = options.paper.width_mm() - 2.0 * MARGIN_MM - NUMBER_MM;
    let names = [&*brief.boat, &*brief.trip_name, &*brief.part_name];
    let whole = told(names);
    if super::width_mm(&whole, FOOT_PT) <= room {
        return whole;
    }
    let of_each = (room - super::width_mm(&told([""; 3]), FOOT_PT)) / 3.0;
    let short = names.map(|name| cut(name, FOOT_PT, of_each.max(0.0)));
    told([&*short[0], &*short[1], &*short[2]])
}

/// Said where names have letters that the font of the pages does not have.
const NO_LETTERS: &str = "Names have letters that cannot be printed here: a question mark stands for each. Write them in by hand.";

/// Does anything that the brief tells, or that stands on the plan, have such letters?
fn lacks_letters(brief: &Brief) -> bool {
    let lists = [Table::load_list(brief), Table::lashing_list(brief)];
    let cells = lists.iter().flat_map(|list| &list.rows).flatten();
    let steps = brief.loading.steps.iter().map(|step| &step.sentence);
    let things = brief.scene.decks.iter().flat_map(|deck| &deck.things);
    let names = [&brief.boat, &brief.trip_name, &brief.part_name];
    let places = brief
        .loading
        .hand_over
        .iter()
        .chain(&brief.loading.set_down);
    let mut all = (names.into_iter().chain(places))
        .chain(cells)
        .chain(steps)
        .chain(things.map(|thing| &thing.name))
        .chain(&brief.walkways)
        .chain(&brief.taken_on);
    all.any(|text| super::font::lacks(text))
}

fn subtitle(brief: &Brief, options: &Options) -> String {
    let date = brief.date.as_deref().unwrap_or("date ____________");
    let count = brief.load_list.len();
    let noun = if count == 1 { "cylinder" } else { "cylinders" };
    format!(
        "{} · {date} · loaded at: {} · {count} {noun} · version {}",
        brief.trip_name, brief.part_name, options.version
    )
}

fn head(flow: &mut Flow, brief: &Brief, options: &Options) {
    flow.title(TITLE_PT, &brief.boat);
    let mut texts = Texts::new(flow.width());
    texts.paragraph(TEXT_PT, &subtitle(brief, options));
    texts.paragraph(LIST_PT, CAUTION);
    if lacks_letters(brief) {
        texts.paragraph(LIST_PT, NO_LETTERS);
    }
    flow.texts(&texts);
    flow.gap(0.4);
}

fn facing_of(plan: &Plan, brief: &Brief, options: &Options) -> Facing {
    options.facing.unwrap_or_else(|| plan::facing(plan, brief))
}

/// The room that a deck has on the sheet, and that of a part of one.
fn plan_rooms(paper: Paper, facing: Facing) -> [(f64, f64); 2] {
    let flow = Flow::new(paper);
    if facing.is_along() {
        [(flow.half(), ALONG_MM), (flow.width(), PART_MM)]
    } else {
        [(flow.width(), ACROSS_MM), (flow.width(), PART_ACROSS_MM)]
    }
}

/// The plans of all decks, and of the parts of them for the names that found no room.
struct DrawnDecks {
    decks: Vec<plan::Drawn>,
    parts: Vec<plan::Drawn>,
    /// Do they stand along the page?
    is_along: bool,
    /// How wide the room of a deck is.
    wide_mm: f64,
}

fn drawn(
    plan: &Plan,
    brief: &Brief,
    options: &Options,
    [room, part_room]: [(f64, f64); 2],
) -> DrawnDecks {
    let facing = facing_of(plan, brief, options);
    let of = plan::Of {
        plan,
        brief,
        facing,
    };
    let mut decks: Vec<plan::Drawn> = Vec::new();
    let mut parts = Vec::new();
    for deck in plan::decks_to_draw(brief) {
        // Across the page no other deck is drawn larger than the first.
        let first = decks.first().filter(|_| !facing.is_along());
        let least_scale = first.map_or(0.0, |first| first.scale);
        let drawn = plan::deck_and_parts(of, deck, [room, part_room], least_scale);
        let mut drawn = drawn.into_iter();
        decks.extend(drawn.next());
        parts.extend(drawn);
    }
    DrawnDecks {
        decks,
        parts,
        is_along: facing.is_along(),
        wide_mm: room.0,
    }
}

/// The plans of all decks, and what is to be said: beside the first plan if that stands along the page, else below
/// all of them.
fn plans(flow: &mut Flow, drawn: &DrawnDecks, texts: &Texts) {
    let rows = rows_of(&drawn.decks, flow.half());
    let mut set = 0;
    for (index, row) in rows.iter().enumerate() {
        if index > 0 {
            flow.gap(1.5);
        }
        let is_narrow = row.iter().all(|it| it.page.paper.width_mm() <= flow.half());
        let wide = if is_narrow {
            flow.half()
        } else {
            drawn.wide_mm
        };
        let top = beside_each_other(flow, row, wide);
        // The texts begin beside the first plan that leaves room for them.
        if set == 0 && is_narrow && row.len() == 1 {
            let below = flow.y;
            flow.y = top;
            set = flow.beside(texts, below - top);
            flow.y = below + 1.5;
        }
        if index == 0 && drawn.is_along {
            flow.columns(texts, set, 2);
            set = texts.len();
        }
    }
    flow.columns(texts, set, 2);
}

/// Plans that stand beside each other: the first alone, the others by pairs where two find room.
fn rows_of(decks: &[plan::Drawn], half_mm: f64) -> Vec<&[plan::Drawn]> {
    let mut rows = Vec::new();
    let mut left = decks;
    while let [first, others @ ..] = left {
        let fits = |it: &plan::Drawn| it.page.paper.width_mm() <= half_mm;
        let pairs = (!rows.is_empty() || decks.len() == 2)
            && others.first().is_some_and(|it| fits(it) && fits(first));
        let count = if pairs { 2 } else { 1 };
        let (row, rest) = left.split_at(count);
        rows.push(row);
        left = rest;
    }
    rows
}

/// One or two plans beside each other, each in a room of this width with its caption above it; tells where they begin.
fn beside_each_other(flow: &mut Flow, drawn: &[plan::Drawn], wide: f64) -> f64 {
    let captions: Vec<Vec<String>> = drawn
        .iter()
        .map(|it| super::wrap(&it.caption, LIST_PT, wide))
        .collect();
    let lines = captions.iter().map(Vec::len).max().unwrap_or(0) as f64;
    let line_mm = LIST_PT * super::font::POINT_MM * super::flow::LEADING;
    let high = drawn.iter().map(|it| it.page.paper.height_mm());
    let high = high.fold(0.0, f64::max);
    flow.room(high + lines * line_mm + 1.0);
    let top = flow.y;
    let mut left = MARGIN_MM;
    for (it, caption) in drawn.iter().zip(&captions) {
        for (index, line) in caption.iter().enumerate() {
            let y = top + (index as f64 + 0.8) * line_mm;
            flow.page().text((left, y), LIST_PT, Align::Left, line);
        }
        let across = left + 0.5 * (wide - it.page.paper.width_mm()).max(0.0);
        flow.page().put(&it.page, (across, top + lines * line_mm));
        left += wide + super::flow::GUTTER_MM;
    }
    flow.gap(lines * line_mm + high + 0.5);
    top
}

/// Parts of decks at a larger scale.
fn parts_of_decks(flow: &mut Flow, details: &[plan::Drawn]) {
    if details.is_empty() {
        return;
    }
    let first = details.first().map_or(0.0, |it| it.page.paper.height_mm());
    flow.room(first + 16.0);
    flow.heading(HEADING_PT, "Parts of the deck, larger");
    for part in details {
        beside_each_other(flow, std::slice::from_ref(part), flow.width());
        flow.gap(1.0);
    }
}

/// What to say, what to keep clear, how to push.
fn words(texts: &mut Texts, brief: &Brief) {
    texts.heading(HEADING_PT, "To say on the quay");
    for (index, point) in brief.talk_points.iter().enumerate() {
        texts.point(TEXT_PT, &format!("{}", index + 1), &point.say);
    }
    if brief.walkways.is_empty() {
        texts.heading(HEADING_PT, "Keep clear");
        texts.paragraph(
            TEXT_PT,
            "No walkway is drawn in this plan: agree which ways stay clear.",
        );
    } else if brief.talk_points.iter().all(|point| point.from != WALKWAYS) {
        texts.heading(HEADING_PT, "Keep clear");
        texts.paragraph(TEXT_PT, &format!("{}.", brief.walkways.join(", ")));
    }
    texts.heading(HEADING_PT, "Push test");
    let again = if brief
        .talk_points
        .iter()
        .any(|point| point.from == PUSH_AGAIN)
    {
        ""
    } else {
        " Again after 15 min of running, after each dive and before the night."
    };
    texts.paragraph(
        TEXT_PT,
        &format!(
            "One hand at the valve, about 15 kg, towards every side. It may move as far as the lashing list says \
             and no further.{again}"
        ),
    );
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
