//! Doing what was asked for during a frame.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::actions::{Action, Stride, Way};
use super::canvas::{hit, marks};
use super::command::Command;
use super::files::{Dialog, FileList, NewBoat, Next, Purpose};
use super::moving::Grabbed;
use super::selection::Selection;
use super::stores::StoreItem;
use super::theme::{TEXT_SCALE_MAX, TEXT_SCALE_MIN, TEXT_SCALE_STEP, Theme};
use super::tools::{LashTool, PlaceTool, TapeTool, Tool};
use super::{Editor, rows, words};
use crate::geometry::{Bounds, vec2};
use crate::layout::{Edit, Plan, ThingKind, ThingRef};
use crate::units::System;

/// One step of turning, in degrees.
const TURN_DEG: f64 = 15.0;
/// One step of showing the plan larger.
const ZOOM: f64 = 1.25;
/// The greatest lean of the slider, in degrees.
pub(super) const LEAN_MAX_DEG: f64 = 45.0;

impl Editor {
    /// Does one thing that was asked for.
    pub(super) fn run(&mut self, ui: &egui::Ui, command: Command) {
        if !matches!(command, Command::Alter { .. }) {
            self.altering = None;
        }
        if !matches!(command, Command::Commit) {
            self.notice = None;
        }
        match command {
            Command::Begin(label) => self.history.begin(label),
            Command::Drag(edits) => {
                self.history.rewind();
                self.apply_all(&edits);
            }
            Command::Commit => self.history.commit(),
            Command::Abort => self.history.abort(),
            Command::Run {
                label,
                edits,
                select,
            } => self.step(label, &edits, select),
            Command::Alter {
                field,
                label,
                edits,
            } => self.alter(field, label, &edits),
            Command::Select(selection) => self.selection = selection,
            Command::Use(tool) => self.take(tool),
            Command::Do(action) => self.act(ui, action),
            Command::Tell(text) => self.notice = Some(text),
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
            Command::ChooseFinding(index) => self.choose(index),
            Command::Cure { line, which } => self.cure(line, which),
            Command::ShowSum(shown) => self.sum_shown = shown,
            Command::SetTheme(theme) => self.settings.theme = theme,
            Command::SetUnits(units) => self.settings.units = units,
            Command::Lean(deg) => self.lean_deg = deg.clamp(0.0, LEAN_MAX_DEG),
            Command::Copy(text) => {
                ui.copy_text(text);
                self.notice = Some(words::COPIED.to_owned());
            }
            Command::File(command) => self.file_command(ui, command),
        }
        self.settle();
    }

    fn apply_all(&mut self, edits: &[Edit]) {
        for edit in edits {
            if let Err(err) = self.history.apply(edit) {
                self.notice = Some(err.to_string());
            }
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
            Action::New | Action::Open | Action::Save | Action::SaveAs | Action::Quit => {
                self.file_action(ui, action);
            }
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
            | Action::TurnToPort
            | Action::TurnToStarboard
            | Action::OtherSide
            | Action::LayOrStand
            | Action::FillRack
            | Action::Nudge(..)
            | Action::FrameSelected => self.act_on_selected(ui, action),
            Action::TakeSelect => self.take(Tool::default()),
            Action::TakeLash => self.take_lash(),
            Action::TakeTape => self.take(Tool::Tape(TapeTool::default())),
            Action::PutDown => self.put_down(ui),
            Action::Cancel => self.cancel(ui),
            Action::SearchStores => self.stores.focus_search(),
            Action::ZoomIn => self.plan_view.zoom(ZOOM),
            Action::ZoomOut => self.plan_view.zoom(1.0 / ZOOM),
            Action::Fit => self.plan_view.fit(),
            Action::NextPart => self.show_part(1),
            Action::PreviousPart => self.show_part(-1),
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
            Action::Shortcuts => self.dialog = Some(Dialog::Shortcuts),
        }
    }

    fn act_on_selected(&mut self, ui: &egui::Ui, action: Action) {
        let Some(here) = self.here() else { return };
        let names = self.selected_names();
        let (label, edits, select) = match action {
            Action::Remove => {
                let edits = rows::removed(&here, self.selection.things());
                (words::step_remove(&names), edits, Some(Selection::none()))
            }
            Action::Nudge(way, stride) => {
                (words::step_move(&names), self.nudged(way, stride), None)
            }
            Action::TurnToPort | Action::TurnToStarboard => {
                let deg = if action == Action::TurnToPort {
                    TURN_DEG
                } else {
                    -TURN_DEG
                };
                if let Tool::Place(place) = &mut self.tool {
                    place.turn_deg = super::here::whole_turn(place.turn_deg + deg);
                    return;
                }
                (words::step_turn(&names), self.turned(deg), None)
            }
            Action::OtherSide => {
                let held = self.held();
                let edits = held.iter().flat_map(|item| item.mirrored(&here)).collect();
                (words::step_mirror(&names), edits, None)
            }
            Action::LayOrStand => {
                let (edits, laid) = rows::laid_or_stood(&here, self.selection.things());
                let label = if laid {
                    words::step_lay_down(&names)
                } else {
                    words::step_stand_up(&names)
                };
                (label, edits, None)
            }
            Action::FillRack => {
                let kind = self.kind_in_hand();
                let racks = self.selection.things().iter();
                let racks = racks.filter(|what| what.kind == ThingKind::Rack);
                let edits = rows::filled(&here, racks.map(|what| what.id.as_str()), &kind);
                if edits.is_empty() {
                    self.notice = Some(words::RACK_IS_FULL.to_owned());
                    return;
                }
                (words::step_fill(&names.join(", ")), edits, None)
            }
            Action::Copy => {
                let things = self.selection.things().iter();
                self.copied = things.filter_map(|what| self.thing_now(what)).collect();
                ui.copy_text(names.join(", "));
                self.notice = Some(words::copied(&names));
                return;
            }
            Action::Paste => {
                let (edits, new) = rows::copies(&here, &self.copied);
                (
                    words::step_paste(new.len()),
                    edits,
                    Some(Selection::of(new)),
                )
            }
            Action::Duplicate => {
                let things = self.selection.things().iter();
                let things: Vec<_> = things.filter_map(|what| self.thing_now(what)).collect();
                let (edits, new) = rows::copies(&here, &things);
                (
                    words::step_duplicate(&names),
                    edits,
                    Some(Selection::of(new)),
                )
            }
            Action::SelectAll => {
                let everywhere = Bounds::of([vec2(-1e6, -1e6), vec2(1e6, 1e6)]);
                self.selection = Selection::of(hit::inside(&here, &everywhere));
                return;
            }
            Action::NextThing | Action::PreviousThing => {
                let step = if action == Action::NextThing { 1 } else { -1 };
                self.select_beside(step);
                return;
            }
            Action::FrameSelected => {
                let things = self.selection.things().iter();
                let all = things.filter_map(|what| hit::bounds(&here, what));
                let all = all.fold(Bounds::EMPTY, |all, one| all.union(&one));
                self.plan_view.frame(all);
                return;
            }
            _ => return,
        };
        self.step(label, &edits, select);
    }

    /// What is selected and can be moved.
    fn held(&self) -> Vec<Grabbed> {
        let Some(here) = self.here() else {
            return Vec::new();
        };
        let things = self.selection.things().iter();
        things
            .filter_map(|what| Grabbed::take(&here, what))
            .collect()
    }

    fn nudged(&self, way: Way, stride: Stride) -> Vec<Edit> {
        let step = match stride {
            Stride::Short => 0.01,
            Stride::Long => 0.1,
        };
        let by = match way {
            Way::Forward => vec2(step, 0.0),
            Way::Aft => vec2(-step, 0.0),
            Way::Port => vec2(0.0, step),
            Way::Starboard => vec2(0.0, -step),
        };
        let held = self.held();
        let Some(here) = self.here() else {
            return Vec::new();
        };
        held.iter().flat_map(|item| item.moved(&here, by)).collect()
    }

    /// Turned about the middle of all that is selected.
    fn turned(&self, deg: f64) -> Vec<Edit> {
        let held = self.held();
        let Some(here) = self.here() else {
            return Vec::new();
        };
        let middle = match held.as_slice() {
            [one] if one.what().kind != ThingKind::Fixture => one.anchor(here.plan),
            more => {
                let all = more
                    .iter()
                    .filter_map(|item| hit::bounds(&here, &item.what()));
                Some(all.fold(Bounds::EMPTY, |all, one| all.union(&one)).center())
            }
        };
        let Some(middle) = middle.filter(|middle| middle.is_finite()) else {
            return Vec::new();
        };
        held.iter()
            .flat_map(|item| item.turned(&here, middle, deg))
            .collect()
    }

    fn select_beside(&mut self, step: isize) {
        let Some(here) = self.here() else { return };
        let everywhere = Bounds::of([vec2(-1e6, -1e6), vec2(1e6, 1e6)]);
        let all = hit::inside(&here, &everywhere);
        let Some(next) = beside(&all, self.selection.primary(), step) else {
            return;
        };
        let bounds = hit::bounds(&here, &next);
        self.selection = Selection::one(next);
        if let (Some(bounds), Some(view)) = (bounds, self.plan_view.view())
            && !view.visible().contains(bounds.center())
        {
            self.plan_view.frame(bounds);
        }
    }

    fn take_lash(&mut self) {
        let material = match &self.tool {
            Tool::Lash(lash) => lash.material.clone(),
            _ => super::stores::usual_material(),
        };
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

    /// Unfolds a line of what must be put right, selects what it is about and frames it.
    fn choose(&mut self, index: Option<usize>) {
        self.chosen = index;
        self.sum_shown = false;
        let Some(finding) = index.and_then(|index| self.live.findings().get(index)) else {
            return;
        };
        let about: Vec<ThingRef> = finding
            .about
            .iter()
            .map(|subject| ThingRef {
                kind: subject.kind,
                id: subject.id.clone(),
            })
            .collect();
        let Some(here) = self.here() else { return };
        let deck = finding.deck.clone();
        let deck = deck.or_else(|| hit::deck_of(&here, about.first()?));
        let bounds = marks::bounds(&here, finding);
        if let Some(deck) = deck {
            self.deck = deck;
        }
        // The first one is the one to put right: its card is shown.
        let mut about = about;
        about.reverse();
        self.selection = Selection::of(about);
        if let Some(bounds) = bounds {
            self.plan_view.frame(bounds);
        }
    }

    fn choose_beside(&mut self, step: isize) {
        let lines: Vec<usize> = self.lines().iter().map(|line| line.findings[0]).collect();
        let next = beside(&lines, self.chosen.as_ref(), step);
        self.choose(next);
    }

    /// Applies a cure as one step.
    fn cure(&mut self, line: usize, which: usize) {
        let cure = self.cures.of(line).and_then(|cures| cures.get(which));
        let Some(cure) = cure else { return };
        let (label, edits) = (cure.label.clone(), cure.edits.clone());
        self.chosen = None;
        self.step(label, &edits, None);
    }

    fn file_action(&mut self, ui: &egui::Ui, action: Action) {
        match action {
            Action::New => self.ask_then(ui, Next::NewBoat),
            Action::Open => self.ask_then(ui, Next::ChooseFile),
            Action::Save => self.save(ui, None),
            Action::SaveAs => self.ask_where_to_save(None),
            Action::Quit => self.ask_then(ui, Next::Close),
            _ => {}
        }
    }

    /// Goes on at once, or after the question for unsaved changes.
    fn ask_then(&mut self, ui: &egui::Ui, next: Next) {
        if self.has_unsaved_changes() {
            self.dialog = Some(Dialog::unsaved(next));
        } else {
            self.go_on(ui, next);
        }
    }

    fn go_on(&mut self, ui: &egui::Ui, next: Next) {
        self.dialog = None;
        match next {
            Next::Close => {
                self.closing = true;
                ui.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            Next::ChooseFile => {
                let folder = self.folder();
                self.dialog = Some(Dialog::Files(FileList::of(
                    Purpose::Open,
                    &folder,
                    "",
                    None,
                )));
            }
            Next::Open(path) => self.open_file(&path),
            Next::NewBoat => self.dialog = Some(Dialog::NewBoat(NewBoat::default())),
        }
    }

    fn folder(&self) -> PathBuf {
        let of_file = self.file.path().and_then(Path::parent);
        let of_file = of_file.filter(|folder| !folder.as_os_str().is_empty());
        of_file.map_or_else(
            || std::env::current_dir().unwrap_or_default(),
            Path::to_owned,
        )
    }

    fn open_file(&mut self, path: &Path) {
        match crate::store::read(path) {
            Ok(plan) => {
                self.replace(plan, Some(path.to_owned()));
                self.notice = Some(words::opened(&path.display().to_string()));
            }
            Err(err) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::NOT_OPENED.to_owned(),
                    lines: err.to_string().lines().map(str::to_owned).collect(),
                });
            }
        }
    }

    fn ask_where_to_save(&mut self, then: Option<Next>) {
        let name = self.file.name().unwrap_or_else(|| {
            let boat = self.history.plan().boat.name.trim().to_lowercase();
            let name: String = boat
                .chars()
                .map(|c| if c.is_alphanumeric() { c } else { '-' })
                .collect();
            format!("{name}.json")
        });
        let list = FileList::of(Purpose::Save, &self.folder(), &name, then);
        self.dialog = Some(Dialog::Files(list));
    }

    /// Saves in the plan's file, or asks where.
    fn save(&mut self, ui: &egui::Ui, then: Option<Next>) {
        match self.file.path().map(Path::to_owned) {
            Some(path) => self.save_to(ui, path, then),
            None => self.ask_where_to_save(then),
        }
    }

    fn save_to(&mut self, ui: &egui::Ui, path: PathBuf, then: Option<Next>) {
        self.history.commit();
        let plan = Arc::clone(self.history.plan());
        match crate::store::save(&plan, &path) {
            Ok(()) => {
                self.notice = Some(words::saved(&path.display().to_string()));
                self.file.saved(path, plan);
                self.dialog = None;
                if let Some(next) = then {
                    self.go_on(ui, next);
                }
            }
            Err(err) => {
                self.dialog = Some(Dialog::Trouble {
                    title: words::NOT_SAVED.to_owned(),
                    lines: err.to_string().lines().map(str::to_owned).collect(),
                });
            }
        }
    }

    fn file_command(&mut self, ui: &egui::Ui, command: FileCommand) {
        match command {
            FileCommand::Open(path) => self.ask_then(ui, Next::Open(path)),
            FileCommand::Chosen(list) => {
                let Some(path) = list.chosen() else { return };
                match list.purpose {
                    Purpose::Open => self.go_on(ui, Next::Open(path)),
                    Purpose::Save => self.save_to(ui, path, list.then),
                }
            }
            FileCommand::SaveFirst(next) => {
                self.dialog = None;
                self.save(ui, Some(next));
            }
            FileCommand::DropChanges(next) => self.go_on(ui, next),
            FileCommand::NewBoat {
                name,
                length_m,
                beam_m,
            } => {
                self.replace(Plan::new(&name, length_m, beam_m), None);
                self.notice = Some(words::NEW_BOAT_DONE.to_owned());
            }
            FileCommand::Dialog(dialog) => self.dialog = dialog,
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

/// What was asked for about files.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum FileCommand {
    /// Open this file.
    Open(PathBuf),
    /// A file was chosen.
    Chosen(FileList),
    /// Save, then go on.
    SaveFirst(Next),
    /// Go on without saving.
    DropChanges(Next),
    /// Begin a new boat.
    NewBoat {
        /// Its name.
        name: String,
        /// Length overall in metres.
        length_m: f64,
        /// Greatest beam in metres.
        beam_m: f64,
    },
    /// Ask this instead, or nothing more.
    Dialog(Option<Dialog>),
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
