use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::actions::{Facts, Offers};
use super::audit::{AuditJob, AuditPlace};
use super::briefing::Briefing;
use super::canvas::PlanView;
use super::cures::Cures;
use super::curve::Curve;
use super::day::Day;
use super::file_dialogs::Choosing;
use super::files::{Dialog, FileState};
use super::here::Here;
use super::keeping::Keeping;
use super::live::Live;
use super::motion::{MotionPlace, Stopwatch};
use super::panels;
use super::reading::Reading;
use super::replay::ReplayPlace;
use super::selection::Selection;
use super::settings::Settings;
use super::theme::Theme;
use super::tools::{PlaceTool, Tool};
use super::underlay::Underlays;
use super::writing::Writing;
use super::{moving, things};
use crate::checks::{Finding, Signal};
use crate::layout::{History, Id, Plan, Thing, ThingKind, Trip};

/// The window's state: the plan with its history, what follows from it, and what is only of the window.
#[derive(Debug)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each says something of its own about the window"
)]
pub struct Editor {
    pub(super) history: History,
    pub(super) live: Live,
    pub(super) cures: Cures,

    /// What the strip of the day shows.
    pub(super) day: Day,

    pub(super) file: FileState,

    /// Are cures of all lines tried, or only of the chosen one?
    pub(super) cures_ahead: bool,

    /// The trip, part of the day and deck shown.
    pub(super) trip: Id,
    pub(super) part: usize,
    pub(super) deck: Id,

    pub(super) plan_view: PlanView,
    pub(super) selection: Selection,
    pub(super) tool: Tool,
    pub(super) settings: Settings,
    pub(super) stores: panels::StoresState,

    /// The line of what must be put right that is chosen, by its place in the list.
    pub(super) chosen: Option<usize>,
    pub(super) sum_shown: bool,
    pub(super) lean_deg: f64,

    /// How limits and margins follow the motion, as last asked for.
    pub(super) curve: Curve,

    /// Is the boat shown rolling?
    pub(super) rolling: bool,

    /// What of it is listed.
    pub(super) sought: Sought,

    pub(super) keeping: Keeping,

    /// The place where the crew is briefed, while it is open.
    pub(super) briefing: Option<Box<Briefing>>,

    /// The place where motion, balance and limits are looked at, while it is open.
    pub(super) motion: Option<Box<MotionPlace>>,

    /// The place where a motion is replayed, while it is open.
    pub(super) replay: Option<Box<ReplayPlace>>,
    pub(super) stopwatch: Stopwatch,
    /// The record that is looked at after an incident, while it is.
    pub(super) audit: Option<Box<AuditPlace>>,

    /// A record that is wanted, and one that is being worked on.
    pub(super) record_wanted: Option<PathBuf>,
    pub(super) audit_job: Option<AuditJob>,

    /// Where the report of the record is to be written.
    pub(super) report_wanted: Option<PathBuf>,
    /// A drawing that is being read beside the window.
    pub(super) reading: Option<Reading>,

    /// Files that are being made beside the window.
    pub(super) writings: Vec<Writing>,

    /// What is still to be told of files that came to nothing.
    pub(super) not_written: Vec<Dialog>,

    /// Does the window close when the files that are being made are there?
    pub(super) close_when_written: bool,

    /// Who is asked for files.
    pub(super) choosing: Choosing,

    /// Did the window fill the screen before the walk made it do so?
    pub(super) before_walk: Option<bool>,

    /// The photo beneath the deck shown.
    pub(super) underlays: Underlays,

    /// Told in one line until the next command.
    pub(super) notice: Option<String>,
    pub(super) dialog: Option<Dialog>,
    pub(super) under_cursor: Option<String>,

    /// The field of the card whose changes are being gathered into one step.
    pub(super) altering: Option<String>,

    /// Things that were copied.
    pub(super) copied: Vec<Thing>,

    /// The kind of the last cylinder placed, to fill racks with.
    pub(super) last_kind: String,

    /// What the window's style was last set to.
    pub(super) styled: Option<(Theme, u32, bool)>,
    pub(super) closing: bool,
}

impl Editor {
    /// Shows a plan that is in no file yet.
    pub fn new(plan: Plan) -> Self {
        Self::with_file(plan, None)
    }

    /// Shows the demonstration boat.
    pub fn demonstration() -> Self {
        let mut editor = Self::new(super::demo::plan());
        editor.settle();
        editor.part = editor.gravest_part();
        editor
    }

    /// The first part of the day with the gravest signal word, by its place in the day.
    fn gravest_part(&self) -> usize {
        let worst = self
            .live
            .findings()
            .iter()
            .filter(|finding| finding.taken_on.is_none())
            .map(|finding| finding.signal)
            .max();
        let parts = self.trip().map_or(&[][..], |trip| &trip.parts);
        let is_worst = |part: &crate::layout::Part| {
            let mut findings = self.live.findings().iter();
            findings.any(|finding| finding.part == part.id && Some(finding.signal) == worst)
        };
        parts.iter().position(is_worst).unwrap_or(0)
    }

    /// Opens a file.
    ///
    /// # Errors
    ///
    /// What is wrong with it, line by line.
    pub fn open(path: &Path) -> Result<Self, crate::store::ReadError> {
        let plan = crate::store::read(path)?;
        Ok(Self::with_file(plan, Some(path.to_owned())))
    }

    fn with_file(plan: Plan, path: Option<PathBuf>) -> Self {
        let plan = with_a_trip(plan);
        let trip = plan.trips[0].id.clone();
        let deck = plan.boat.decks.first().map(|deck| deck.id.clone());
        let last_kind = plan.trips[0]
            .cylinders
            .first()
            .map_or("al-80cf", |cylinder| cylinder.kind.as_str())
            .to_owned();
        let history = History::new(plan);
        let file = FileState::new(path, Arc::clone(history.plan()));
        Self {
            history,
            live: Live::default(),
            cures: Cures::default(),
            day: Day::default(),
            cures_ahead: false,
            file,
            trip,
            part: 0,
            deck: deck.unwrap_or_default(),
            plan_view: PlanView::default(),
            selection: Selection::none(),
            tool: Tool::default(),
            settings: Settings::default(),
            stores: panels::StoresState::default(),
            chosen: None,
            sum_shown: false,
            lean_deg: 0.0,
            curve: Curve::default(),
            rolling: false,
            sought: Sought::default(),
            keeping: Keeping::default(),
            briefing: None,
            motion: None,
            replay: None,
            stopwatch: Stopwatch::default(),
            audit: None,
            record_wanted: None,
            audit_job: None,
            report_wanted: None,
            reading: None,
            writings: Vec::new(),
            not_written: Vec::new(),
            close_when_written: false,
            choosing: Choosing::default(),
            before_walk: None,
            underlays: Underlays::default(),
            notice: None,
            dialog: None,
            under_cursor: None,
            altering: None,
            copied: Vec::new(),
            last_kind,
            styled: None,
            closing: false,
        }
    }

    /// The plan as it is now.
    pub fn plan(&self) -> &Plan {
        self.history.plan()
    }

    /// The names of the selected things.
    pub fn selected(&self) -> Vec<&str> {
        let things = self.selection.things().iter();
        things.map(|thing| thing.id.as_str()).collect()
    }

    /// What must be put right, in all parts of the day.
    pub fn findings(&self) -> &[Finding] {
        self.live.findings().as_slice()
    }

    /// How often what must be put right was computed.
    pub fn check_runs(&self) -> usize {
        self.live.runs()
    }

    /// Are there changes that are in no file?
    pub fn has_unsaved_changes(&self) -> bool {
        self.file.is_changed(self.history.plan())
    }

    /// The file that the plan is in.
    pub fn path(&self) -> Option<&Path> {
        self.file.path()
    }

    /// What is told at the moment, in one line.
    pub fn told(&self) -> Option<&str> {
        self.notice.as_deref()
    }

    /// What is told under the cursor, of what is in hand or being dragged.
    pub fn told_under_cursor(&self) -> Option<&str> {
        self.under_cursor.as_deref()
    }

    /// Keeps settings and unsaved work in a folder, and asks about work that was left behind.
    pub fn keep_in(&mut self, folder: PathBuf) {
        self.keeping = Keeping::in_folder(folder);
        self.settings = self.keeping.read_settings();
        if let Some(path) = self.file.path().map(Path::to_owned) {
            self.settings.remember(&path);
        }
        self.look_for_work_left_behind();
    }

    /// Has cures of all lines tried beside the window, not only of the chosen one.
    pub fn try_cures_ahead(&mut self) {
        self.cures_ahead = true;
    }

    /// Is something being tried beside the window?
    pub fn is_busy(&self) -> bool {
        let place = self.motion.as_ref();
        let reads = self.underlays.is_busy() || self.reading.is_some();
        let writes = self.is_writing();
        let briefs = self.briefing.as_ref().is_some_and(|it| it.is_busy());
        let tries = self.cures.is_busy() || self.curve.is_busy();
        let replays = self.replay.as_ref().is_some_and(|place| place.is_busy());
        let audits = self.record_wanted.is_some() || self.audit_job.is_some();
        let reports = self.audit.as_ref().is_some_and(|place| place.is_busy());
        let reports = reports || self.report_wanted.is_some();
        let files = reads || writes || briefs || reports;
        tries || files || replays || audits || place.is_some_and(|place| place.is_busy())
    }

    /// How it looks.
    pub fn theme(&self) -> Theme {
        self.settings.theme
    }

    /// Looks like this from now on.
    pub fn set_theme(&mut self, theme: Theme) {
        self.settings.theme = theme;
    }

    /// Shows another plan, in place of the one shown; the looks stay.
    pub(super) fn replace(&mut self, plan: Plan, path: Option<PathBuf>) {
        let mut next = Self::with_file(plan, path);
        next.settings = self.settings.clone();
        next.stores = std::mem::take(&mut self.stores);
        next.cures_ahead = self.cures_ahead;
        next.stopwatch = std::mem::take(&mut self.stopwatch);
        next.keeping = std::mem::take(&mut self.keeping);
        next.choosing = std::mem::take(&mut self.choosing);
        next.writings = std::mem::take(&mut self.writings);
        next.not_written = std::mem::take(&mut self.not_written);
        *self = next;
    }

    /// Where a point of the plan is on the screen, for tests that drive the window.
    pub fn on_screen(&self, point: [f64; 2]) -> Option<egui::Pos2> {
        let view = self.plan_view.view()?;
        Some(view.screen_from_world(super::here::at(point)))
    }

    /// Drops what is gone from the plan, and computes again what follows from it.
    pub(super) fn settle(&mut self) {
        let plan = Arc::clone(self.history.plan());
        if plan.trip(&self.trip).is_none() {
            self.trip = plan
                .trips
                .first()
                .map(|trip| trip.id.clone())
                .unwrap_or_default();
        }
        if let Some(trip) = plan.trip(&self.trip) {
            self.part = self.part.min(trip.parts.len().saturating_sub(1));
            self.selection.keep_existing(&plan, trip);
        }
        if plan.boat.deck(&self.deck).is_none() {
            let first = plan.boat.decks.first();
            self.deck = first.map(|deck| deck.id.clone()).unwrap_or_default();
        }
        self.live.refresh(&plan, &self.trip);
        let count = self.live.findings().len();
        self.chosen = self.chosen.filter(|index| *index < count);
    }

    /// The line that is unfolded, by its first finding.
    pub(super) fn chosen_line(&self) -> Option<usize> {
        let chosen = self.chosen?;
        let lines = self.lines();
        let mut chosen = lines.iter().filter(|line| line.findings.contains(&chosen));
        chosen.next()?.findings.first().copied()
    }

    /// The trip shown.
    pub(super) fn trip(&self) -> Option<&Trip> {
        self.history.plan().trip(&self.trip)
    }

    /// What is on the plan, in the part of the day and on the deck shown.
    pub(super) fn here(&self) -> Option<Here<'_>> {
        let plan = self.history.plan();
        self.live.here(plan, &self.trip, self.part, &self.deck)
    }

    /// What must be put right in the part of the day shown, with its place in the list of all.
    pub(super) fn findings_here(&self) -> Vec<(usize, &Finding)> {
        let part = self.trip().and_then(|trip| trip.parts.get(self.part));
        let Some(part) = part else { return Vec::new() };
        let all = self.live.findings().iter().enumerate();
        all.filter(|(_, finding)| finding.part == part.id).collect()
    }

    /// What is listed of what must be put right: of the part of the day shown, or of the whole day.
    pub(super) fn findings_listed(&self) -> Vec<(usize, &Finding)> {
        if self.sought.whole_day {
            self.live.findings().iter().enumerate().collect()
        } else {
            self.findings_here()
        }
    }

    /// What decides which actions can be done.
    pub(super) fn facts(&self) -> Facts {
        let things = self.selection.things();
        let count = |kind: ThingKind| things.iter().filter(|item| item.kind == kind).count();
        let chosen = self
            .chosen
            .and_then(|index| self.live.findings().get(index));
        let trip = self.trip();
        Facts {
            undo: self.history.undo_label().map(str::to_owned),
            redo: self.history.redo_label().map(str::to_owned),
            selected: things.len(),
            racks: count(ThingKind::Rack),
            cylinders: count(ThingKind::Cylinder),
            copied: self.copied.len(),
            chosen: chosen.is_some(),
            findings: self.findings_listed().len(),
            offers: Offers {
                cure: self
                    .chosen_line()
                    .and_then(|line| self.cures.of(line))
                    .is_some_and(|cures| !cures.is_empty()),
                sum: chosen.is_some_and(|finding| !finding.sum.is_empty()) || !things.is_empty(),
            },
            decks: self.history.plan().boat.decks.len(),
            parts: trip.map_or(0, |trip| trip.parts.len()),
            things: self
                .here()
                .and_then(|here| here.deck_scene().map(|deck| deck.things.len()))
                .unwrap_or(0),
            underlay: (self.history.plan().boat.deck(&self.deck))
                .is_some_and(|deck| deck.underlay.is_some()),
            tool: !self.tool.is_select(),
            line: matches!(self.tool, Tool::Line(_)),
        }
    }

    /// The kind of which a rack is filled: the one in hand, or the last one used.
    pub(super) fn kind_in_hand(&self) -> String {
        match &self.tool {
            Tool::Place(PlaceTool {
                item: super::stores::StoreItem::Cylinder(kind),
                ..
            }) => kind.clone(),
            _ => self.last_kind.clone(),
        }
    }

    /// What the selected things are called.
    pub(super) fn selected_names(&self) -> Vec<String> {
        let things = self.selection.things().iter();
        things.map(|what| what.id.clone()).collect()
    }

    /// A copy of the thing, with a cylinder where it is in the part of the day shown.
    pub(super) fn thing_now(&self, what: &crate::layout::ThingRef) -> Option<Thing> {
        let here = self.here()?;
        moving::Grabbed::as_it_is(&here, what)
            .map(|grabbed| grabbed.thing().clone())
            .or_else(|| things::get(here.plan, here.trip, what))
    }
}

/// What is listed of what must be put right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Sought {
    /// Only what has these words in it.
    pub(super) text: String,

    /// Only this signal word.
    pub(super) only: Option<Signal>,

    /// That of all parts of the day.
    pub(super) whole_day: bool,

    /// The keyboard goes to the search in the next frame.
    pub(super) focus: bool,
}

/// The plan with one trip at least, since the window always shows one.
pub(super) fn with_a_trip(mut plan: Plan) -> Plan {
    if plan.trips.is_empty() {
        plan.trips.push(Trip::new("trip-1"));
    }
    plan
}
