//! Briefing the crew: the sheet looked at and saved, the loading order arranged, the walk through it.
//!
//! While it is open it takes the whole window. What was settled and ticked off is in the plan; which page is
//! looked at and who ticks is only of the window.

mod cards;
mod clock;
mod command;
mod confirm;
mod order;
mod place;
mod save;
mod walk;

pub(crate) use self::command::BriefCommand;
pub(crate) use self::place::briefing_ui;
pub(crate) use self::save::Output;

use std::sync::Arc;

use egui::{Context, TextureHandle};

use super::Editor;
use super::page_pictures::PagePictures;
use super::words::briefing as words;
use crate::brief::{Assessed, Brief, LoadingSettings, LoadingStep};
use crate::layout::{Id, Plan};
use crate::sheet::{Page, Paper, crew};
use crate::store;
use crate::units::System;

/// What is looked at.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Look {
    /// The pages of the sheet.
    #[default]
    Sheet,
    /// The pages in large letters.
    LargeType,
    /// The six lines for a slate.
    Slate,
    /// The plan alone.
    Plan,
    /// The loading order.
    Order,
    /// What to say on the quay.
    Say,
    /// The walk through the order.
    Walk,
}

impl Look {
    /// All of them.
    pub(crate) const ALL: [Self; 7] = [
        Self::Sheet,
        Self::LargeType,
        Self::Slate,
        Self::Plan,
        Self::Order,
        Self::Say,
        Self::Walk,
    ];
}

/// The place where the crew is briefed.
#[derive(Debug)]
pub(crate) struct Briefing {
    pub(super) look: Look,
    /// Which page, counted from 0.
    pub(super) page: usize,
    pub(super) paper: Paper,
    /// A step that is being dragged: from which place to which.
    pub(super) dragged: Option<(usize, usize)>,
    /// Who ticks.
    pub(super) by: String,
    /// Are only the cylinders of whoever ticks walked through?
    pub(super) mine: bool,
    /// Why the step is skipped, as typed; `None` while nobody skips.
    pub(super) skipping: Option<String>,
    /// What follows from the plan as it is.
    pub(super) made: Option<Made>,
    /// The limit cards of the sheet.
    cards: Option<cards::CardsJob>,
}

/// What follows from a plan.
#[derive(Debug)]
pub(super) struct Made {
    of: (Arc<Plan>, Id),
    pub(super) brief: Arc<Brief>,
    version: String,
    /// Pages that were made, by what they are of.
    pages: Vec<(Output, Arc<Vec<Page>>)>,
    /// Pages that were drawn, by what they are and how many pixels wide.
    pub(super) drawn: PagePictures,
}

impl Briefing {
    /// As it opens: the sheet, on the paper of whoever measures so.
    pub(super) fn new(units: System) -> Self {
        Self {
            look: Look::default(),
            page: 0,
            paper: match units {
                System::Metric => Paper::A4,
                System::Us => Paper::Letter,
            },
            dragged: None,
            by: String::new(),
            mine: false,
            skipping: None,
            made: None,
            cards: None,
        }
    }

    fn options(&self, version: &str) -> crew::Options {
        crew::Options {
            paper: self.paper,
            facing: None,
            version: version.to_owned(),
        }
    }

    /// The pages of an output.
    fn pages(&self, output: Output) -> Vec<Page> {
        let Some(made) = &self.made else {
            return Vec::new();
        };
        let options = self.options(&made.version);
        save::pages_of(output, &made.of.0, &made.brief, &options)
    }

    /// Is something being worked out for it beside the window?
    pub(super) fn is_busy(&self) -> bool {
        self.cards_share().is_some()
    }

    /// How far the limit cards of the sheet are, from 0 to 1; `None` where they are there or not asked for.
    pub(super) fn cards_share(&self) -> Option<f64> {
        self.cards.as_ref().and_then(cards::CardsJob::share)
    }

    /// Has the limit cards of the sheet worked out while it is looked at, and puts them on it.
    fn look_after_cards(&mut self, ctx: &Context) {
        let Some(made) = &mut self.made else {
            self.cards = None;
            return;
        };
        let (plan, trip) = &made.of;
        let is_of_it = self.cards.as_ref().is_some_and(|job| job.is_of(plan, trip));
        if !is_of_it {
            self.cards = None;
            if self.look == Look::Sheet {
                self.cards = Some(cards::CardsJob::begin(ctx, plan, trip));
            }
        }
        let Some(job) = &mut self.cards else { return };
        job.collect();
        let Some(cards) = job.cards() else { return };
        if made.brief.cards.len() != cards.len() {
            Arc::make_mut(&mut made.brief).cards.clone_from(cards);
            made.pages.clear();
            made.drawn = PagePictures::default();
        }
    }

    /// The pages of an output, made once.
    pub(super) fn pages_once(&mut self, output: Output) -> Arc<Vec<Page>> {
        let made = self.made.iter().flat_map(|made| &made.pages);
        if let Some((_, pages)) = made.clone().find(|(of, _)| *of == output) {
            return Arc::clone(pages);
        }
        let pages = Arc::new(self.pages(output));
        if let Some(made) = &mut self.made {
            made.pages.push((output, Arc::clone(&pages)));
        }
        pages
    }

    /// The step that is next in the walk, and its place in it; then how many there are.
    pub(super) fn next_step(&self) -> (Option<(usize, &LoadingStep)>, usize) {
        let Some(made) = &self.made else {
            return (None, 0);
        };
        let steps: Vec<&LoadingStep> = made
            .brief
            .loading
            .steps
            .iter()
            .filter(|step| self.is_walked(&made.brief, &step.cylinder))
            .collect();
        let next = steps
            .iter()
            .position(|step| made.brief.tick(&step.cylinder).is_none());
        (next.map(|index| (index, steps[index])), steps.len())
    }

    fn is_walked(&self, brief: &Brief, cylinder: &str) -> bool {
        let diver = brief.row(cylinder).map_or("", |row| row.diver.as_str());
        !self.mine || diver.trim().to_lowercase() == self.by.trim().to_lowercase()
    }
}

impl Made {
    /// The deck with a cylinder lit, drawn once.
    pub(super) fn lit(&mut self, ctx: &Context, cylinder: &Id) -> TextureHandle {
        let (plan, brief) = (&self.of.0, &self.brief);
        let page = || crew::deck_picture(plan, brief, Some(cylinder));
        self.drawn.of(ctx, &format!("lit {cylinder}"), 1200, page)
    }

    /// The order as it would be after a drag, told from the numbers that are there.
    pub(super) fn order_if(
        &self,
        editor: &Editor,
        order: Vec<Id>,
    ) -> Option<crate::brief::LoadingOrder> {
        let plan = &self.of.0;
        let trip = plan.trip(&self.of.1)?;
        let (index, _) = trip.part(&self.brief.part)?;
        let assessor = editor.live.assessor();
        let numbers = assessor.assessment().parts.get(index)?;
        let day = assessor.days().get(index)?;
        let settings = LoadingSettings {
            order,
            ..LoadingSettings::of(trip)
        };
        Some(crate::brief::loading_order(
            plan, trip, day, numbers, &settings,
        ))
    }
}

impl Editor {
    /// Makes the brief again if the plan is another one.
    pub(super) fn look_after_briefing(&mut self, ctx: &Context) {
        self.make_brief();
        if let Some(briefing) = &mut self.briefing {
            briefing.look_after_cards(ctx);
        }
    }

    fn make_brief(&mut self) {
        let Some(briefing) = &mut self.briefing else {
            return;
        };
        let plan = self.history.plan();
        let is_of = |made: &Made| Arc::ptr_eq(&made.of.0, plan) && made.of.1 == self.trip;
        if briefing.made.as_ref().is_some_and(is_of) {
            return;
        }
        let Some(trip) = plan.trip(&self.trip) else {
            briefing.made = None;
            return;
        };
        let assessed = Assessed {
            assessor: self.live.assessor(),
            findings: self.live.findings(),
        };
        let settings = LoadingSettings::of(trip);
        let brief = Brief::assessed(plan, trip, None, &settings, assessed);
        briefing.made = brief.ok().map(|brief| Made {
            of: (Arc::clone(plan), self.trip.clone()),
            brief: Arc::new(brief),
            version: store::version_of(plan),
            pages: Vec::new(),
            drawn: PagePictures::default(),
        });
    }

    /// The window fills the screen while the walk does, if that is wanted, and is as it was afterwards.
    pub(super) fn look_after_full_screen(&mut self, ui: &egui::Ui) {
        let walks = self
            .briefing
            .as_ref()
            .is_some_and(|it| it.look == Look::Walk);
        let wanted = walks && self.settings.walk_fills_screen;
        match (wanted, self.before_walk) {
            (true, None) => {
                let is_full = ui.input(|input| input.viewport().fullscreen);
                self.before_walk = Some(is_full.unwrap_or(false));
                ui.send_viewport_cmd(egui::ViewportCommand::Fullscreen(true));
            }
            (false, Some(was_full)) => {
                self.before_walk = None;
                ui.send_viewport_cmd(egui::ViewportCommand::Fullscreen(was_full));
            }
            _ => {}
        }
    }

    /// The step that is next in the walk, by its cylinder.
    pub fn next_to_load(&self) -> Option<&str> {
        let (next, _) = self.briefing.as_ref()?.next_step();
        next.map(|(_, step)| step.cylinder.as_str())
    }
}
