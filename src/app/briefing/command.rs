//! What was asked for where the crew is briefed.

use super::super::Editor;
use super::super::files::{FileList, Purpose};
use super::super::selection::Selection;
use super::super::settings::TickBy;
use super::{Briefing, Look, Output, clock, words};
use crate::layout::{Briefing as Settled, Edit, LoadingTick};
use crate::sheet::Paper;

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BriefCommand {
    /// Leave it.
    Leave,
    /// Look at something else.
    Show(Look),
    /// Look at another page.
    Page(usize),
    /// Print on this.
    Paper(Paper),
    /// A step is dragged, or let go.
    Drag(Option<(usize, usize)>),
    /// Settle something for loading.
    Settle(&'static str, Box<Settled>),
    /// The step is done, or skipped with a reason.
    Tick(Option<String>),
    /// The last tick was wrong.
    TakeBack,
    /// Who ticks.
    By(String),
    /// Only their cylinders?
    Mine(bool),
    /// How a step is ticked.
    TickBy(TickBy),
    /// Does the walk fill the screen?
    FillScreen(bool),
    /// Why the step is skipped, as typed.
    Skipping(Option<String>),
    /// Ask where to save this.
    Save(Output),
    /// Show on the plan what a thing to say is about, by its place.
    Go(usize),
}

impl Editor {
    /// Opens the place where the crew is briefed, or leaves it.
    pub(in super::super) fn brief_crew(&mut self) {
        self.briefing = match self.briefing.take() {
            None => {
                self.motion = None;
                Some(Box::new(Briefing::new(self.settings.units)))
            }
            Some(_) => None,
        };
    }

    pub(in super::super) fn brief_command(&mut self, command: BriefCommand) {
        if command == BriefCommand::Leave {
            self.briefing = None;
            return;
        }
        let Some(briefing) = &mut self.briefing else {
            return;
        };
        match command {
            BriefCommand::Leave => {}
            BriefCommand::Show(look) => {
                briefing.look = look;
                briefing.page = 0;
                briefing.skipping = None;
            }
            BriefCommand::Page(page) => briefing.page = page,
            BriefCommand::Paper(paper) => briefing.paper = paper,
            BriefCommand::Drag(dragged) => briefing.dragged = dragged,
            BriefCommand::By(by) => briefing.by = by,
            BriefCommand::Mine(mine) => briefing.mine = mine,
            BriefCommand::Skipping(why) => briefing.skipping = why,
            BriefCommand::TickBy(way) => self.settings.tick_by = way,
            BriefCommand::FillScreen(fill) => self.settings.walk_fills_screen = fill,
            BriefCommand::Settle(label, settled) => self.settle_loading(label, *settled),
            BriefCommand::Tick(skipped) => self.tick(skipped),
            BriefCommand::TakeBack => {
                let mut settled = self.settled();
                if settled.ticks.pop().is_some() {
                    self.settle_loading(words::STEP_TAKE_BACK, settled);
                }
            }
            BriefCommand::Save(output) => {
                let list = FileList::of(
                    Purpose::Brief(output),
                    &self.folder(),
                    words::file_name(output),
                    None,
                );
                self.ask_for_file(list);
            }
            BriefCommand::Go(index) => self.go_to_talk_point(index),
        }
    }

    /// What was settled and ticked off so far.
    pub(super) fn settled(&self) -> Settled {
        let trip = self.trip();
        trip.and_then(|trip| trip.briefing.clone())
            .unwrap_or_default()
    }

    fn settle_loading(&mut self, label: &str, briefing: Settled) {
        let edit = Edit::SetBriefing {
            trip: self.trip.clone(),
            briefing: Box::new(briefing),
        };
        if let Err(err) = self.history.run(label.to_owned(), &[edit]) {
            self.notice = Some(err.to_string());
        }
    }

    /// Ticks the next step off, done or skipped, with name and time.
    fn tick(&mut self, skipped: Option<String>) {
        let Some(briefing) = &mut self.briefing else {
            return;
        };
        briefing.skipping = None;
        let by = briefing.by.trim().to_owned();
        let (Some((_, step)), false) = (briefing.next_step().0, by.is_empty()) else {
            return;
        };
        let tick = LoadingTick {
            cylinder: step.cylinder.clone(),
            by,
            when: clock::now(),
            skipped,
        };
        let label = words::step_tick(&tick.cylinder, tick.skipped.is_some());
        let mut settled = self.settled();
        settled.ticks.push(tick);
        self.settle_loading(&label, settled);
    }

    /// Leaves the place and shows on the plan what is talked about.
    fn go_to_talk_point(&mut self, index: usize) {
        let briefing = self.briefing.as_ref();
        let briefing = briefing.filter(|it| it.is_of(self.history.plan(), &self.trip));
        let point = briefing
            .and_then(|it| it.made.as_ref()?.brief.talk_points.get(index))
            .cloned();
        let Some(point) = point else { return };
        self.briefing = None;
        if point.finding.is_some() {
            self.choose(point.finding);
        } else {
            self.selection = Selection::of(point.things);
        }
    }
}
