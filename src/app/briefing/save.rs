//! What of the brief is saved in files, made beside the window.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use super::super::Editor;
use super::super::files::has_ending;
use super::super::writing::Made;
use super::{cards, words};
use crate::brief::{Brief, LoadingSettings, Table};
use crate::layout::{Id, Plan};
use crate::sheet::{self, Page, Paper, Picture, crew};
use crate::store::{self, Watch};

/// Something to save.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Output {
    /// The sheet.
    Sheet,
    /// The pages in large letters.
    LargeType,
    /// The six lines for a slate.
    Slate,
    /// The plan alone.
    Plan,
    /// The load list.
    LoadList,
    /// The lashing list.
    LashingList,
}

impl Output {
    /// All of them.
    pub(crate) const ALL: [Self; 6] = [
        Self::Sheet,
        Self::LargeType,
        Self::Slate,
        Self::Plan,
        Self::LoadList,
        Self::LashingList,
    ];

    /// How the names of its files end, the usual one first.
    pub(crate) fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Sheet | Self::LargeType | Self::Slate => &["pdf", "svg"],
            Self::Plan => &["png", "svg", "pdf"],
            Self::LoadList | Self::LashingList => &["csv"],
        }
    }
}

/// What a file of the brief is made from: everything as it is when it is asked for.
#[derive(Debug)]
struct Job {
    plan: Arc<Plan>,
    trip: Id,
    /// The brief of the plan; `None` while what is shown is that of a plan before it.
    brief: Option<Arc<Brief>>,
    paper: Paper,
    output: Output,
}

impl Job {
    fn brief(&self) -> Result<Arc<Brief>, String> {
        let trip = self.plan.trip(&self.trip);
        let trip = trip.ok_or_else(|| words::NO_BRIEF.to_owned())?;
        let brief = Brief::of(&self.plan, trip, None, &LoadingSettings::of(trip));
        brief.map(Arc::new).map_err(|error| error.to_string())
    }

    /// What is in the file, in the format that its name says.
    fn bytes(&self, path: &Path, watch: &Watch) -> Result<Vec<u8>, String> {
        let told = |error: &dyn std::fmt::Display| error.to_string();
        let brief = match &self.brief {
            Some(brief) => Arc::clone(brief),
            None => self.brief()?,
        };
        let table = match self.output {
            Output::LoadList => Some(Table::load_list(&brief)),
            Output::LashingList => Some(Table::lashing_list(&brief)),
            Output::Sheet | Output::LargeType | Output::Slate | Output::Plan => None,
        };
        if let Some(table) = table {
            let text = table.to_csv().map_err(|error| told(&error))?;
            return Ok(text.into_bytes());
        }
        let with_cards;
        let brief = if self.output == Output::Sheet {
            with_cards = cards::with_cards(&brief, &self.plan, watch);
            &with_cards
        } else {
            brief.as_ref()
        };
        watch.set(0.7);
        let options = crew::Options {
            paper: self.paper,
            facing: None,
            version: store::version_of(&self.plan),
        };
        // Printed, the plan stands on sheets of paper; as a picture it is one piece.
        let on_sheets = self.output == Output::Plan && has_ending(path, &["pdf"]);
        let pages = if on_sheets {
            crew::plan_pages(&self.plan, brief, &options)
        } else {
            pages_of(self.output, &self.plan, brief, &options)
        };
        watch.set(0.85);
        if has_ending(path, &["svg"]) {
            return Ok(sheet::svg(&pages).into_bytes());
        }
        match pages.as_slice() {
            [page] if has_ending(path, &["png"]) => {
                let picture = Picture::of(page, crew::PIXELS_PER_MM);
                picture.png().map_err(|error| told(&error))
            }
            _ => sheet::pdf(&pages, &crew::title(brief)).map_err(|error| told(&error)),
        }
    }
}

/// The pages of an output.
pub(super) fn pages_of(
    output: Output,
    plan: &Plan,
    brief: &Brief,
    options: &crew::Options,
) -> Vec<Page> {
    match output {
        Output::LargeType => crew::large_type(brief, options),
        Output::Slate => crew::slate_page(brief, options),
        Output::Plan => vec![crew::plan_alone(plan, brief, options)],
        Output::Sheet | Output::LoadList | Output::LashingList => crew::pages(plan, brief, options),
    }
}

impl Editor {
    /// Writes it beside the window; what was there was told in the question.
    pub(in super::super) fn write_briefing(&mut self, ctx: &Context, path: &Path, output: Output) {
        let briefing = self.briefing.as_ref();
        let job = briefing.map(|briefing| {
            let plan = self.history.plan();
            let made = briefing.made.as_ref();
            Job {
                plan: Arc::clone(plan),
                trip: self.trip.clone(),
                brief: made
                    .filter(|_| briefing.is_of(plan, &self.trip))
                    .map(|made| Arc::clone(&made.brief)),
                paper: briefing.paper,
                output,
            }
        });
        let to = path.to_owned();
        self.write_beside(ctx, path, words::NOT_WRITTEN, move |watch| {
            let job = job.ok_or_else(|| words::NO_BRIEF.to_owned())?;
            Ok(Made {
                bytes: job.bytes(&to, watch)?,
                told: words::written(&to.display().to_string()),
            })
        });
    }
}
