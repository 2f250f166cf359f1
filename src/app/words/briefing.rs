//! Briefing the crew.

use super::super::briefing::{Look, Output};
use super::super::settings::TickBy;
use crate::units::{Quantity, System};

pub(crate) const TITLE: &str = "Brief the crew";
pub(crate) const LEAVE: &str = "Back to the deck plan";
pub(crate) const PAPER: &str = "Paper";
pub(crate) const A4: &str = "A4";
pub(crate) const LETTER: &str = "US Letter";
pub(crate) const SAVE: &str = "Save as a file…";
pub(crate) const HAND_OVER: &str = "Handed aboard at";
pub(crate) const SET_DOWN: &str = "Set-down spot";
pub(crate) const NONE_IN_PLAN: &str = "none in the plan";
pub(crate) const AS_COMPUTED: &str = "as the plan has it";
pub(crate) const LESS_HEEL: &str = "Less heel";
pub(crate) const MORE_HEEL: &str = "More heel";
pub(crate) const STEP_HEEL: &str = "Heel while loading";
pub(crate) const LESS_GAP: &str = "Less gap";
pub(crate) const MORE_GAP: &str = "More gap";
pub(crate) const STEP_GAP: &str = "Gap to the quay";
pub(crate) const STEP_ORDER: &str = "Loading order";
pub(crate) const STEP_TAKE_BACK: &str = "Take the last tick back";
pub(crate) const PAGE_BEFORE: &str = "Page before";
pub(crate) const NEXT_PAGE: &str = "Next page";
pub(crate) const PAGES_MADE: &str = "The pages are being made…";
pub(crate) const BRIEF_MADE: &str = "The brief is being made…";
pub(crate) const NO_BRIEF: &str = "There is nothing to brief yet.";
pub(crate) const NOT_WRITTEN: &str = "It was not saved";
pub(crate) const COMPUTED_ORDER: &str = "Back to the computed order";
pub(crate) const DRAG_HELP: &str = "Drag up or down; the heel and the rules follow";
pub(crate) const EARLIER: &str = "Earlier";
pub(crate) const LATER: &str = "Later";
pub(crate) const LEAVE_WALK: &str = "Leave the walk";
pub(crate) const WHO_TICKS: &str = "Who ticks";
pub(crate) const ONLY_MINE: &str = "only my cylinders";
pub(crate) const HOLD: &str = "aboard, secured, pushed: hold here";
pub(crate) const TICK_BY: &str = "Tick by";
pub(crate) const FILL_SCREEN: &str = "fill the screen";
pub(crate) const IN_THE_SUN: &str = "in the sun";
pub(crate) const ZONE_SECURED: &str = "1  aboard, secured";
pub(crate) const ZONE_PUSHED: &str = "2  pushed: tick";
pub(crate) const ZONES: &str = "first left, then right";
pub(crate) const NAME_FIRST_SHORT: &str = "Write above who ticks first.";
pub(crate) const NAME_FIRST: &str = "Write above who ticks first: a tick without a name is none.";
pub(crate) const COPY_SLATE: &str = "Copy the six lines";
pub(crate) const SKIP: &str = "Skip it…";
pub(crate) const SKIP_IT: &str = "Skip for this";
pub(crate) const NOT_SKIPPED: &str = "Do not skip";
pub(crate) const WHY_SKIP: &str = "Why is it skipped?";
pub(crate) const OTHER_REASON: &str = "Another reason";

/// Reasons to skip a cylinder that come up most.
pub(crate) const REASONS: [&str; 3] = ["not filled", "damaged", "left ashore"];

/// What can be looked at.
pub(crate) fn look(look: Look) -> &'static str {
    match look {
        Look::Sheet => "The crew's sheet",
        Look::LargeType => "In large letters",
        Look::Slate => "For a slate",
        Look::Plan => "The plan alone",
        Look::Order => "Loading order",
        Look::Say => "To say on the quay",
        Look::Walk => "Walk through it",
    }
}

/// What can be saved.
pub(crate) fn save(output: Output) -> &'static str {
    match output {
        Output::Sheet => "Save the sheet…",
        Output::LargeType => "Save the large letters…",
        Output::Slate => "Save the slate's lines…",
        Output::Plan => "Save the plan alone…",
        Output::LoadList => "Save the load list…",
        Output::LashingList => "Save the lashing list…",
    }
}

/// How its file is called first.
pub(crate) fn file_name(output: Output) -> &'static str {
    match output {
        Output::Sheet => "crew-sheet.pdf",
        Output::LargeType => "crew-large.pdf",
        Output::Slate => "slate.pdf",
        Output::Plan => "plan.png",
        Output::LoadList => "load-list.csv",
        Output::LashingList => "lashing-list.csv",
    }
}

pub(crate) fn written(path: &str) -> String {
    format!("{path} written")
}

pub(crate) fn heel_limit(deg: f64) -> String {
    format!("Heel not to pass while loading: {deg:.1}°")
}

pub(crate) fn gap(gap_m: Option<f64>, system: System) -> String {
    gap_m.map_or_else(
        || "Gap to the quay: not known".to_owned(),
        |gap_m| format!("Gap to the quay: {}", Quantity::Length.show(gap_m, system)),
    )
}

pub(crate) fn page_of(page: usize, count: usize) -> String {
    format!("page {page} of {count}")
}

/// The sheet is shown without its limit cards until they are there.
pub(crate) fn cards_share(share: f64) -> String {
    format!(
        "limit cards are being worked out: {:.0} %",
        100.0 * share.clamp(0.0, 1.0)
    )
}

pub(crate) fn show_point(number: usize) -> String {
    format!("Show point {number} on the plan")
}

/// The greatest lean on the way.
pub(crate) fn greatest(heel_deg: Option<f64>, moment_kg_m: f64) -> String {
    heel_deg.map_or_else(
        || format!("greatest sideways moment {moment_kg_m:.0} kg·m"),
        |deg| format!("greatest heel {deg:.1}°"),
    )
}

pub(crate) fn rules_broken(count: usize) -> String {
    match count {
        0 => "breaks no rule of loading".to_owned(),
        1 => "breaks one rule of loading".to_owned(),
        count => format!("breaks {count} rules of loading"),
    }
}

pub(crate) fn move_step(cylinder: &str, way: &str) -> String {
    format!("{cylinder} {}", way.to_lowercase())
}

pub(crate) fn step_tick(cylinder: &str, skipped: bool) -> String {
    if skipped {
        format!("Skip {cylinder}")
    } else {
        format!("Tick {cylinder} off")
    }
}

pub(crate) fn step_of(step: usize, count: usize) -> String {
    format!("{step} of {count}")
}

pub(crate) fn lit(cylinder: &str) -> String {
    format!("Where {cylinder} goes")
}

pub(crate) fn hold(cylinder: &str) -> String {
    format!("Hold to tick {cylinder} off")
}

/// The ways to tick a step.
pub(crate) fn tick_by(way: TickBy) -> &'static str {
    match way {
        TickBy::Hold => "holding a field",
        TickBy::TwoZones => "two fields",
    }
}

pub(crate) fn zone_secured(cylinder: &str) -> String {
    format!("{cylinder} is secured")
}

pub(crate) fn zone_pushed(cylinder: &str) -> String {
    format!("{cylinder} was pushed: tick it off")
}

pub(crate) fn take_back(cylinder: &str) -> String {
    format!("Take {cylinder} back")
}

pub(crate) fn ticked(cylinder: &str, by: &str, when: &str) -> String {
    format!("{cylinder}: {by}, {when}")
}

pub(crate) fn all_done(count: usize) -> String {
    match count {
        0 => "Nothing to load here.".to_owned(),
        1 => "The one cylinder is done.".to_owned(),
        count => format!("All {count} are done."),
    }
}

pub(crate) fn was_skipped(cylinder: &str, why: &str, by: &str) -> String {
    format!("{cylinder} was skipped: {why} ({by})")
}
