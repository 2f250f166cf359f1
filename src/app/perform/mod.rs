//! Doing what was asked for during a frame.

mod bow;
mod deck;
mod decks;
mod files;
mod findings;
mod selected;
mod two_tapes;

pub(crate) use self::files::FileCommand;

use super::actions::Action;
use super::by_two_tapes::TwoTapes;
use super::command::Command;
use super::day::{DayDialog, first_pattern};
use super::files::Dialog;
use super::motion::Look;
use super::selection::Selection;
use super::stores::StoreItem;
use super::theme::{TEXT_SCALE_MAX, TEXT_SCALE_MIN, TEXT_SCALE_STEP, Theme};
use super::together::together;
use super::tools::{LashTool, LineTool, LineWhat, PlaceTool, ShapeTool, TapeTool, Tool};
use super::{Editor, words};
use crate::day::Purpose;
use crate::layout::{Edit, ThingKind};
use crate::units::System;

/// One step of showing the plan larger.
const ZOOM: f64 = 1.25;
/// The greatest lean of the slider, in degrees.
pub(super) const LEAN_MAX_DEG: f64 = 45.0;

impl Editor {
    /// Does one thing that was asked for.
    pub(super) fn run(&mut self, ui: &egui::Ui, command: Command) {
        if !matches!(command, Command::Alter { .. }) && self.altering.take().is_some() {
            self.history.commit();
        }
        if !matches!(command, Command::Commit) {
            self.notice = None;
        }
        match command {
            Command::Begin(label) => self.history.begin(label),
            Command::Drag(edits) => {
                self.history.rewind();
                let edits = self.kept_together(edits);
                self.apply_all(&edits);
            }
            Command::Commit => self.history.commit(),
            Command::Abort => self.history.abort(),
            Command::Run {
                label,
                edits,
                select,
            } => {
                let edits = self.kept_together(edits);
                self.step(label, &edits, select);
            }
            Command::Alter {
                field,
                label,
                edits,
            } => {
                let edits = self.kept_together(edits);
                self.alter(field, label, &edits);
            }
            Command::Select(selection) => self.selection = selection,
            Command::Use(tool) => self.take(tool),
            Command::Do(action) => self.act(ui, action),
            Command::Tell(text) => self.notice = Some(text),
            Command::GiveWritingUp(index) => self.give_writing_up(index),
            Command::ShowTrip(trip) => {
                self.trip = trip;
                self.part = 0;
                self.chosen = None;
            }
            Command::ShowPart(part) => {
                self.part = part;
                self.chosen = None;
            }
            Command::ShowDeck(deck) => {
                self.deck = deck;
                self.plan_view.fit();
            }
            Command::AddDeck(asked) => self.add_deck(&asked),
            Command::RemoveDeck => self.remove_deck(),
            Command::GoTo { what, add } => self.go_to(what, add),
            Command::ChooseFinding(index) => self.choose(index),
            Command::Cure { line, which } => self.cure(line, which),
            Command::RaiseLimit(count) => self.raise_limit(count),
            Command::ShowSum(shown) => self.sum_shown = shown,
            Command::SetTheme(theme) => self.settings.theme = theme,
            Command::SetUnits(units) => self.settings.units = units,
            Command::Lean(deg) => self.lean_deg = deg.clamp(0.0, LEAN_MAX_DEG),
            Command::Copy(text) => {
                ui.copy_text(text);
                self.notice = Some(words::COPIED.to_owned());
            }
            Command::File(command) => self.file_command(ui, command),
            Command::Audit(command) => self.audit_command(command),
            Command::Brief(command) => self.brief_command(command),
            Command::Motion(command) => self.motion_command(ui.ctx(), command),
            Command::Replay(command) => self.replay_command(command),
            Command::CopiesInGrid(grid) => self.copies_in_grid(grid),
            Command::BuildByTapes(typed) => self.build_by_tapes(&typed),
            Command::LayUnder(underlay) => self.lay_under(underlay.map(|it| *it)),
            Command::DeckOutline(points) => self.deck_outline(points),
            Command::TakeOn {
                finding,
                by,
                reason,
            } => self.take_on(finding, by, reason),
            Command::FollowCurve => self.follow_curve(ui.ctx()),
            Command::ShowCurve(along) => self.curve.shown = along,
            Command::GoToStep(done) => self.history.go_to(done),
            Command::Seek(sought) => self.sought = sought,
            Command::Toured => self.settings.toured = true,
        }
        self.settle();
    }

    /// The edits of several things without one undoing another's change of the part of the day.
    pub(super) fn kept_together(&self, edits: Vec<Edit>) -> Vec<Edit> {
        match self.trip() {
            Some(trip) => together(trip, edits),
            None => edits,
        }
    }

    fn apply_all(&mut self, edits: &[Edit]) {
        if let Err(err) = self.history.apply_all(edits) {
            self.notice = Some(err.to_string());
        }
    }

    fn step(&mut self, label: String, edits: &[Edit], select: Option<Selection>) {
        match self.history.run(label, edits) {
            Ok(()) => {
                if let Some(selection) = select {
                    self.remember_kind(&selection);
                    self.selection = selection;
                }
            }
            Err(err) => self.notice = Some(err.to_string()),
        }
    }

    /// Racks are filled with the kind of the last cylinder placed.
    fn remember_kind(&mut self, selection: &Selection) {
        let placed = selection
            .primary()
            .filter(|what| what.kind == ThingKind::Cylinder);
        let cylinder = placed.and_then(|what| self.trip()?.cylinder(&what.id));
        if let Some(kind) = cylinder.map(|cylinder| cylinder.kind.clone()) {
            self.last_kind = kind;
        }
    }

    fn alter(&mut self, field: String, label: String, edits: &[Edit]) {
        if self.altering.as_ref() != Some(&field) || !self.history.is_open() {
            self.history.begin(label);
            self.altering = Some(field);
        }
        self.apply_all(edits);
    }

    fn take(&mut self, tool: Tool) {
        if let Tool::Line(line) = &tool
            && line.what == LineWhat::Walkway
        {
            let selected = self
                .here()
                .and_then(|here| LineTool::between_selected(&here, &self.selection));
            if let Some((edits, what)) = selected {
                let label = words::step_place(&what.id);
                self.step(label, &edits, Some(Selection::one(what)));
                return;
            }
        }
        let mut given_up = Vec::new();
        self.tool.cancel(&mut given_up);
        if given_up.contains(&Command::Abort) {
            self.history.abort();
        }
        if let Tool::Lash(_) = tool
            && self.history.plan().boat.lashing_points.is_empty()
        {
            self.notice = Some(words::NO_LASHING_POINTS.to_owned());
        }
        self.tool = tool;
    }

    fn act(&mut self, ui: &egui::Ui, action: Action) {
        if !action.is_enabled(&self.facts()) {
            return;
        }
        match action {
            Action::New
            | Action::Open
            | Action::Save
            | Action::SaveAs
            | Action::Versions
            | Action::CylinderList
            | Action::Quit => self.file_action(ui, action),
            Action::Steps => self.dialog = Some(Dialog::Steps),
            Action::BriefCrew => self.brief_crew(),
            Action::Motion => self.look_at_motion(Look::RollPeriod),
            Action::Balance => self.look_at_motion(Look::Balance),
            Action::LimitCard => self.look_at_motion(Look::LimitCard),
            Action::AuditIncident => self.audit_incident(),
            Action::Replay => self.replay_motion(),
            Action::Undo => {
                self.history.undo();
            }
            Action::Redo => {
                self.history.redo();
            }
            Action::Copy
            | Action::Paste
            | Action::Duplicate
            | Action::Remove
            | Action::SelectAll
            | Action::NextThing
            | Action::PreviousThing
            | Action::AddNextThing
            | Action::TurnToPort
            | Action::TurnToStarboard
            | Action::OtherSide
            | Action::LayOrStand
            | Action::FillRack
            | Action::Lock
            | Action::ToNextDeck
            | Action::CopiesInRow
            | Action::LineUpForeAndAft
            | Action::LineUpAthwart
            | Action::SpreadEvenly
            | Action::Nudge(..)
            | Action::FrameSelected => self.act_on_selected(ui, action),
            Action::SetPoint => self.set_point(),
            Action::TakeSelect => self.take(Tool::default()),
            Action::TakeLash => self.take_lash(),
            Action::TakeTape => self.take(Tool::Tape(TapeTool::default())),
            Action::TakeShape => self.take_shape(),
            Action::OneSide => {
                self.settings.one_side ^= true;
                self.notice = Some(words::one_side(self.settings.one_side).to_owned());
                self.take_shape();
            }
            Action::RoundBow => self.round_bow(),
            Action::DeckByTape => self.ask_for_stations(),
            Action::DeckFromDrawing => self.ask_for_drawing(),
            Action::MeasuringSheet => self.ask_for_sheet(),
            Action::AnotherDeck => self.ask_for_deck(),
            Action::FindThing => self.dialog = Some(Dialog::Find(String::new())),
            Action::ByTwoTapes => {
                let typed = TwoTapes::new(self.settings.units);
                self.dialog = Some(Dialog::ByTwoTapes(Box::new(typed)));
            }
            Action::PhotoBeneath => self.ask_for_photo(),
            Action::NoPhoto => self.lay_under(None),
            Action::Margins => self.settings.margins ^= true,
            Action::Roll => self.rolling ^= true,
            Action::TakeOn => self.ask_who_takes_on(),
            Action::SearchFindings => self.sought.focus = true,
            Action::PutDown => self.put_down(ui),
            Action::Cancel => self.cancel(ui),
            Action::SearchStores => self.stores.focus_search(),
            Action::ZoomIn => self.plan_view.zoom(ZOOM),
            Action::ZoomOut => self.plan_view.zoom(1.0 / ZOOM),
            Action::Fit => self.plan_view.fit(),
            Action::NextPart => self.show_part(1),
            Action::PreviousPart => self.show_part(-1),
            Action::DeckWork => self.ask_about_day(DayDialog::Work { whole_day: false }),
            Action::LayOutDay => self.ask_about_day(first_pattern()),
            Action::SecureForNight => self.ask_about_day(DayDialog::Ready(Purpose::Night)),
            Action::OpenForDiving => self.ask_about_day(DayDialog::Ready(Purpose::Diving)),
            Action::LowStrip => self.settings.low_strip ^= true,
            Action::NextDeck => self.next_deck(),
            Action::OtherDecks => self.settings.other_decks ^= true,
            Action::Names => self.settings.names ^= true,
            Action::Walkways => self.settings.walkways ^= true,
            Action::LeanMore => self.lean_deg = (self.lean_deg + 1.0).min(LEAN_MAX_DEG),
            Action::LeanLess => self.lean_deg = (self.lean_deg - 1.0).max(0.0),
            Action::NextFinding => self.choose_beside(1),
            Action::PreviousFinding => self.choose_beside(-1),
            Action::Cure => {
                if let Some(line) = self.chosen_line() {
                    self.cure(line, 0);
                }
            }
            Action::Sum => self.sum_shown ^= true,
            Action::NextTheme => self.settings.theme = next_in(&Theme::ALL, self.settings.theme),
            Action::OtherUnits => {
                self.settings.units = match self.settings.units {
                    System::Metric => System::Us,
                    System::Us => System::Metric,
                };
            }
            Action::TextLarger | Action::TextSmaller => {
                let step = if action == Action::TextLarger {
                    TEXT_SCALE_STEP
                } else {
                    -TEXT_SCALE_STEP
                };
                let scale = self.settings.text_scale + step;
                self.settings.text_scale = scale.clamp(TEXT_SCALE_MIN, TEXT_SCALE_MAX);
            }
            Action::LargeTargets => self.settings.large_targets ^= true,
            Action::BuiltInDialogs => self.built_in_dialogs(),
            Action::Shortcuts => self.dialog = Some(Dialog::Shortcuts),
        }
    }

    fn follow_curve(&mut self, ctx: &egui::Context) {
        let part = self.live.assessor().assessment().parts.get(self.part);
        if let Some(motion) = part.map(|part| &part.motion) {
            let plan = self.history.plan();
            self.curve.ask(ctx, plan, &self.trip, self.part, motion);
        }
    }

    fn take_shape(&mut self) {
        let tool = ShapeTool::new(self.settings.one_side);
        self.take(Tool::Shape(tool));
    }

    fn take_lash(&mut self) {
        let material = match &self.tool {
            Tool::Lash(lash) => lash.material.clone(),
            _ => super::stores::usual_material(),
        };
        let selected = self
            .here()
            .and_then(|here| LashTool::of_selected(&material, &here, &self.selection));
        if let Some((label, edit, what)) = selected {
            self.step(label, &[edit], Some(Selection::one(what)));
            return;
        }
        self.take(Tool::Lash(LashTool::new(material)));
    }

    /// Puts what is in hand where the pointer is, or in the middle of the plan.
    fn put_down(&mut self, ui: &egui::Ui) {
        let mut commands = Vec::new();
        let at = self
            .plan_view
            .pointer()
            .unwrap_or_else(|| self.plan_view.middle());
        let mut tool = std::mem::take(&mut self.tool);
        if let Some(here) = self.here() {
            match &mut tool {
                Tool::Place(place) => place.put_down(at, &here, &mut commands),
                other => other.finish(&here, &mut commands),
            }
        }
        self.tool = tool;
        for command in commands {
            self.run(ui, command);
        }
    }

    fn cancel(&mut self, ui: &egui::Ui) {
        let mut commands = Vec::new();
        let was_under_way = self.tool.cancel(&mut commands);
        for command in commands {
            self.run(ui, command);
        }
        if was_under_way {
            return;
        }
        if !self.tool.is_select() {
            self.tool = Tool::default();
        } else if self.chosen.is_some() {
            self.chosen = None;
        } else {
            self.selection = Selection::none();
        }
    }

    fn show_part(&mut self, step: isize) {
        let count = self.trip().map_or(0, |trip| trip.parts.len());
        if count > 0 {
            self.part = self.part.saturating_add_signed(step).min(count - 1);
            self.chosen = None;
        }
    }

    fn next_deck(&mut self) {
        let decks = &self.history.plan().boat.decks;
        let index = decks
            .iter()
            .position(|deck| deck.id == self.deck)
            .unwrap_or(0);
        if let Some(deck) = decks.get((index + 1) % decks.len().max(1)) {
            self.deck = deck.id.clone();
            self.plan_view.fit();
        }
    }

    /// Takes something from the stores in hand.
    pub(super) fn tool_for(item: StoreItem, dragged_out: bool) -> Tool {
        if let StoreItem::Lashing(material) = item {
            return Tool::Lash(LashTool::new(material));
        }
        match item.line() {
            Some(what) => Tool::Line(super::tools::LineTool::new(what)),
            None => Tool::Place(PlaceTool::new(item, dragged_out)),
        }
    }
}

/// The one after or before, round and round.
fn beside<T: Clone + PartialEq>(all: &[T], current: Option<&T>, step: isize) -> Option<T> {
    let count = isize::try_from(all.len()).ok().filter(|count| *count > 0)?;
    let index = current.and_then(|one| all.iter().position(|item| item == one));
    let index = match index {
        Some(index) => isize::try_from(index).ok()? + step,
        None if step > 0 => 0,
        None => -1,
    };
    all.get(usize::try_from(index.rem_euclid(count)).ok()?)
        .cloned()
}

fn next_in<T: Copy + PartialEq>(all: &[T], current: T) -> T {
    beside(all, Some(&current), 1).unwrap_or(current)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn going_on_from_the_last_comes_to_the_first() {
        let all = ["a", "b", "c"];
        assert_eq!(beside(&all, Some(&"c"), 1), Some("a"));
        assert_eq!(beside(&all, Some(&"a"), -1), Some("c"));
        assert_eq!(beside(&all, None, 1), Some("a"));
        assert_eq!(beside(&all, None, -1), Some("c"));
        assert_eq!(beside::<&str>(&[], None, 1), None);
    }
}
