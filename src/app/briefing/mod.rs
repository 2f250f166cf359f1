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

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{ColorImage, Context, TextureHandle, TextureOptions};

use super::Editor;
use super::page_pictures::PagePictures;
use super::renewed::Renewed;
use super::words::briefing as words;
use crate::brief::{Brief, LoadingSettings, LoadingStep};
use crate::layout::{Id, Plan};
use crate::sheet::{Page, Paper, Picture, crew};
use crate::store::{self, Watch};
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
    /// What follows from the plan; from the plan before it while the new is made.
    pub(super) made: Option<Made>,
    /// The same being made beside the window: an order in which the boat leans little may be long looked for.
    making: Renewed<Of, Option<MadeNow>>,
    /// How often what follows from the plan was made anew.
    edition: u64,
    /// The pages of each output, made beside the window.
    pages: BTreeMap<Output, Renewed<(u64, Paper), Arc<Vec<Page>>>>,
    /// Pages as pictures.
    pub(super) drawn: PagePictures,
    /// The deck with the cylinder of a step lit.
    lit: Renewed<(u64, Id), TextureHandle>,
    /// The limit cards of the sheet.
    cards: Option<cards::CardsJob>,
}

/// How wide the deck with a lit cylinder is drawn, in pixels.
const LIT_WIDE: u32 = 1200;

/// Which trip of which plan something is made of.
#[derive(Clone, Debug)]
struct Of {
    plan: Arc<Plan>,
    trip: Id,
}

/// A plan that was changed is another one.
impl PartialEq for Of {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan) && self.trip == other.trip
    }
}

/// What follows from a plan.
#[derive(Debug)]
pub(super) struct Made {
    of: Of,
    pub(super) brief: Arc<Brief>,
    version: String,
}

/// The same as it comes from beside the window: the brief and the version of the plan.
type MadeNow = (Arc<Brief>, String);

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
            making: Renewed::default(),
            edition: 0,
            pages: BTreeMap::new(),
            drawn: PagePictures::default(),
            lit: Renewed::default(),
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

    /// Is something being worked out for it beside the window?
    pub(super) fn is_busy(&self) -> bool {
        let makes = self.pages.values().any(Renewed::is_busy);
        let makes = makes || self.making.is_busy();
        makes || self.lit.is_busy() || self.drawn.is_busy() || self.cards_share().is_some()
    }

    /// Shows the brief that was made last, if it is another one.
    fn take_made(&mut self) {
        let Some((of, made)) = self.making.shown() else {
            return;
        };
        if self.made.as_ref().is_some_and(|old| old.of == *of) {
            return;
        }
        self.made = made.as_ref().map(|(brief, version)| Made {
            of: of.clone(),
            brief: Arc::clone(brief),
            version: version.clone(),
        });
        self.edition += 1;
    }

    /// Is the brief that is shown that of this trip of this plan?
    pub(super) fn is_of(&self, plan: &Arc<Plan>, trip: &str) -> bool {
        (self.made.as_ref())
            .is_some_and(|made| Arc::ptr_eq(&made.of.plan, plan) && made.of.trip == trip)
    }

    /// What stands where no brief is.
    pub(super) fn without_brief(&self) -> &'static str {
        if self.making.is_busy() {
            words::BRIEF_MADE
        } else {
            words::NO_BRIEF
        }
    }

    /// Takes in what was made beside the window since.
    fn collect(&mut self) {
        self.pages.values_mut().for_each(Renewed::collect);
        self.lit.collect();
        self.drawn.collect();
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
        let Of { plan, trip } = &made.of;
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
            self.edition += 1;
        }
    }

    /// The pages of an output and which edition they are; nothing while they are made for the first time.
    pub(super) fn pages(&mut self, ctx: &Context, output: Output) -> Option<(u64, Arc<Vec<Page>>)> {
        let made = self.made.as_ref()?;
        let options = self.options(&made.version);
        let pages = self.pages.entry(output).or_default();
        pages.want(
            ctx,
            "pages of the brief",
            &(self.edition, self.paper),
            || {
                let (plan, brief) = (Arc::clone(&made.of.plan), Arc::clone(&made.brief));
                move |_: &Watch| Arc::new(save::pages_of(output, &plan, &brief, &options))
            },
        );
        let ((edition, _), pages) = pages.shown()?;
        Some((*edition, Arc::clone(pages)))
    }

    /// The deck with a cylinder lit; nothing while it is drawn, as another cylinder must not be lit instead.
    pub(super) fn lit(&mut self, ctx: &Context, cylinder: &Id) -> Option<TextureHandle> {
        let made = self.made.as_ref()?;
        let of = (self.edition, cylinder.clone());
        self.lit.want(ctx, "deck of a step", &of, || {
            let (plan, brief) = (Arc::clone(&made.of.plan), Arc::clone(&made.brief));
            let (ctx, cylinder) = (ctx.clone(), cylinder.clone());
            move |_: &Watch| {
                let page = crew::deck_picture(&plan, &brief, Some(&cylinder));
                let per_mm = f64::from(LIT_WIDE) / page.paper.width_mm();
                let picture = Picture::of(&page, per_mm);
                let image = ColorImage::from_gray([picture.width, picture.height], &picture.grey);
                ctx.load_texture("deck of a step", image, TextureOptions::LINEAR)
            }
        });
        let shown = self.lit.shown();
        shown.and_then(|((_, lit), drawn)| (lit == cylinder).then(|| drawn.clone()))
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
    /// The order as it would be after a drag, told from the numbers that are there.
    pub(super) fn order_if(
        &self,
        editor: &Editor,
        order: Vec<Id>,
    ) -> Option<crate::brief::LoadingOrder> {
        // Numbers and plan as they are now: this brief may be of the plan before it.
        let plan = editor.plan();
        let trip = plan.trip(&self.of.trip)?;
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
        self.make_brief(ctx);
        if let Some(briefing) = &mut self.briefing {
            briefing.collect();
            briefing.look_after_cards(ctx);
        }
    }

    fn make_brief(&mut self, ctx: &Context) {
        let Some(briefing) = &mut self.briefing else {
            return;
        };
        let plan = self.history.plan();
        let Some(trip) = plan.trip(&self.trip) else {
            briefing.made = None;
            return;
        };
        let of = Of {
            plan: Arc::clone(plan),
            trip: self.trip.clone(),
        };
        briefing.making.want(ctx, "brief", &of, || {
            let of = of.clone();
            move |_: &Watch| {
                let trip = of.plan.trip(&of.trip)?;
                let settings = LoadingSettings::of(trip);
                let brief = Brief::of(&of.plan, trip, None, &settings).ok()?;
                Some((Arc::new(brief), store::version_of(&of.plan)))
            }
        });
        briefing.take_made();
        // What was ticked off stands at once.
        let ticks = trip.briefing.as_ref().map_or(&[][..], |it| &it.ticks);
        if let Some(made) = &mut briefing.made
            && made.of.trip == self.trip
            && made.brief.ticks != ticks
        {
            Arc::make_mut(&mut made.brief).ticks = ticks.to_vec();
        }
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
