//! One frame of the window.

use std::sync::Arc;

use super::Editor;
use super::actions::{self, Facts};
use super::audit::{audit_ui, audit_working_ui};
use super::briefing::briefing_ui;
use super::canvas::{self, Shown};
use super::command::Command;
use super::cures::Wanted;
use super::day::day_ui;
use super::files::{Dialog, Next, is_list};
use super::keeping::EVERY_S;
use super::lines::Line;
use super::motion::{Look, MotionCommand, motion_ui};
use super::outcome::Outcome;
use super::panels;
use super::perform::FileCommand;
use super::replay::{ReplayCommand, Source, replay_ui};
use super::settings::Settings;
use super::theme;
use super::tools::{Preview, Tool};
use crate::layout::{Plan, ThingKind};

impl Editor {
    /// One frame: draws everything, then does what was asked for.
    pub fn ui(&mut self, ui: &mut egui::Ui) {
        self.style(ui.ctx());
        self.settle();
        self.try_cures(ui.ctx());
        self.look_after_photo(ui.ctx());
        self.look_after_day();
        self.curve.collect();
        self.look_after_reading();
        self.look_after_writings(ui);
        let mut commands = Vec::new();
        let facts = self.facts();
        self.look_after_briefing(ui.ctx());
        if let Some(list) = self.answered_file() {
            commands.push(Command::File(FileCommand::Chosen(list)));
        }
        self.look_after_replay(ui.ctx());
        self.look_after_audit(ui.ctx());
        if self.audit_job.is_some() {
            audit_working_ui(ui, self, &mut commands);
        } else if self.audit.is_some() {
            audit_ui(ui, self, &facts, &mut commands);
        } else if self.replay.is_some() {
            replay_ui(ui, self, &facts, &mut commands);
        } else if self.briefing.is_some() {
            briefing_ui(ui, self, &facts, &mut commands);
        } else if self.motion.is_some() {
            motion_ui(ui, self, &facts, &mut commands);
        } else {
            self.desk_ui(ui, &facts, &mut commands);
        }
        self.writings_ui(ui, &mut commands);
        panels::dialogs_ui(ui, self, &mut commands);
        self.files_dropped(ui, &mut commands);
        if came_back(ui) {
            self.look_at_disk();
        }
        self.close_requested(ui);
        let asked = !commands.is_empty();
        for command in commands {
            self.run(ui, command);
        }
        self.ask_wanted_file(ui.ctx());
        self.look_after_full_screen(ui);
        self.end_altering(ui, asked);
        self.keep(ui);
        if asked {
            ui.request_repaint();
        }
    }

    /// The plan with everything round it.
    fn desk_ui(&mut self, ui: &mut egui::Ui, facts: &Facts, commands: &mut Vec<Command>) {
        // With a menu or a list open the keys are its own: Escape closes it, arrows go through it.
        if self.dialog.is_none() && !egui::Popup::is_any_open(ui.ctx()) {
            let pressed = actions::pressed(ui.ctx(), facts, canvas::plan_id());
            commands.extend(pressed.into_iter().map(Command::Do));
        }
        panels::top_ui(ui, self, facts, commands);
        day_ui(ui, self, facts, commands);
        panels::bottom_ui(ui, self, commands);
        panels::stores_ui(ui, self, commands);
        panels::right_ui(ui, self, facts, commands);
        self.sought.focus = false;
        egui::CentralPanel::no_frame().show(ui, |ui| self.plan_ui(ui, commands));
        panels::tour_ui(ui, self, commands);
    }

    fn style(&mut self, ctx: &egui::Context) {
        let Settings {
            theme,
            text_scale,
            large_targets,
            ..
        } = self.settings;
        let wanted = (theme, text_scale.to_bits(), large_targets);
        if self.styled != Some(wanted) {
            theme::apply(ctx, theme, text_scale, large_targets);
            self.styled = Some(wanted);
        }
    }

    /// Has the photo beneath the deck straightened, unless the deck is being drawn anew by a drag.
    fn look_after_photo(&mut self, ctx: &egui::Context) {
        if let Some(opened) = self.underlays.opened() {
            self.photo_opened(opened);
        }
        if self.history.is_open() {
            return;
        }
        let deck = self.history.plan().boat.deck(&self.deck);
        if let Some(told) = self.underlays.look_after(ctx, self.file.path(), deck) {
            self.notice = Some(told);
        }
    }

    /// Has cures tried beside the window, unless something is being dragged.
    fn try_cures(&mut self, ctx: &egui::Context) {
        self.cures.collect();
        if self.history.is_open() {
            self.cures.stop();
            return;
        }
        let part = self.trip().and_then(|trip| trip.parts.get(self.part));
        let Some(part) = part.map(|part| part.id.clone()) else {
            return;
        };
        let chosen = self.chosen;
        let is_chosen = |line: &Line| chosen.is_some_and(|index| line.findings.contains(&index));
        let lines = self.lines();
        let wanted = lines
            .iter()
            .filter(|line| self.cures_ahead || is_chosen(line));
        let lines: Vec<Line> = wanted.cloned().collect();
        if lines.is_empty() {
            return;
        }
        let wanted = Wanted {
            plan: self.history.plan(),
            trip: &self.trip,
            part: &part,
            findings: self.live.findings(),
        };
        self.cures.ask(ctx, &wanted, lines);
    }

    /// The plan in the middle of the window.
    fn plan_ui(&mut self, ui: &mut egui::Ui, commands: &mut Vec<Command>) {
        let plan = Arc::clone(self.history.plan());
        let Some(here) = self.live.here(&plan, &self.trip, self.part, &self.deck) else {
            return;
        };
        let (tool, selection) = (&mut self.tool, &self.selection);
        let before = commands.len();
        let response = self
            .plan_view
            .interact(ui, &here, tool, selection, commands);
        if ui.input(|input| input.pointer.primary_released())
            && let Tool::Place(place) = tool
            && place.dragged_out
        {
            // Let go, over the plan or beside it: it is in hand no longer.
            commands.push(Command::Use(Tool::default()));
        }
        let preview = self
            .plan_view
            .pointer()
            .filter(|_| commands.len() == before)
            .and_then(|at| self.tool.preview(at, &here));
        let leaning = self.leaning(&plan);
        let outcome = self.outcome(&plan, preview.as_ref());
        self.under_cursor = outcome.as_ref().map(|outcome| outcome.text.clone());
        let (Some(here), findings) = (self.here(), self.findings_here()) else {
            return;
        };
        let thought = preview.as_ref().filter(|preview| !preview.edits.is_empty());
        let thought = thought.and_then(|_| {
            self.live
                .thought_here(&plan, &self.trip, self.part, &self.deck)
        });
        let shown = Shown {
            selection: &self.selection,
            findings: &findings,
            chosen: self.chosen,
            leaning: &leaning,
            preview: preview.as_ref(),
            outcome: outcome.as_ref(),
            thought: thought.as_ref(),
            settings: &self.settings,
            lying: self.underlays.lying(),
        };
        self.plan_view.paint(ui, &here, &self.tool, &shown);
        panels::plan_menu(&response, self, commands);
    }

    /// The cylinders that go at the lean shown.
    pub(super) fn leaning(&mut self, plan: &Arc<Plan>) -> Vec<String> {
        if self.lean_deg <= 0.0 {
            return Vec::new();
        }
        let limits = self.live.lean(plan, &self.trip, self.part, false);
        let going = limits.iter().filter(|(_, deg)| **deg <= self.lean_deg);
        going.map(|(id, _)| id.clone()).collect()
    }

    /// What is told under the cursor: the outcome of what is in hand, or of what is being dragged.
    fn outcome(&mut self, plan: &Arc<Plan>, preview: Option<&Preview>) -> Option<Outcome> {
        if let Some(preview) = preview {
            if preview.edits.is_empty() {
                return None;
            }
            self.live.think(plan, &self.trip, self.part, preview);
            return self.live.thought().cloned();
        }
        let dragged = self
            .selection
            .primary()
            .filter(|_| self.tool.is_dragging())?;
        let is_cylinder = dragged.kind == ThingKind::Cylinder;
        is_cylinder.then(|| self.live.outcome_of(self.part, &dragged.id))?
    }

    /// Closes the step of a field when it is let go.
    fn end_altering(&mut self, ui: &egui::Ui, asked: bool) {
        let held = ui.input(|input| input.pointer.any_down()) || ui.text_edit_focused();
        if self.altering.is_some() && !held && !asked {
            self.history.commit();
            self.altering = None;
        }
    }

    fn files_dropped(&self, ui: &egui::Ui, commands: &mut Vec<Command>) {
        let dropped = ui.input(|input| {
            let file = input.raw.dropped_files.first();
            file.map(|file| file.path().to_owned())
        });
        let is_replay = self.replay.is_some();
        let takes_logs = (self.motion.as_ref()).is_some_and(|place| place.look == Look::Log);
        let command = |path: std::path::PathBuf| {
            if is_replay && is_list(&path) {
                return Command::Replay(ReplayCommand::From(Source::Log(path)));
            }
            if takes_logs && is_list(&path) {
                return Command::Motion(MotionCommand::ReadLog(path));
            }
            Command::File(if is_list(&path) {
                FileCommand::ReadList(path)
            } else {
                FileCommand::Open(path)
            })
        };
        commands.extend(dropped.map(command));
    }

    fn close_requested(&mut self, ui: &egui::Ui) {
        let asked = ui.input(|input| input.viewport().close_requested());
        if asked && !self.closing && self.has_unsaved_changes() {
            ui.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.dialog = Some(Dialog::unsaved(Next::Close));
        } else if asked && self.is_writing() {
            // What was asked for is written first.
            ui.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.close_when_written = true;
        }
    }

    /// Keeps the settings, and unsaved work every few seconds.
    fn keep(&mut self, ui: &egui::Ui) {
        self.keeping.keep_settings(&self.settings);
        if self.history.is_open() {
            return;
        }
        if !self.has_unsaved_changes() {
            self.keeping.drop_stale(self.file.path());
            return;
        }
        let now_s = ui.input(|input| input.time);
        let plan = Arc::clone(self.history.plan());
        self.keeping.keep_work(self.file.path(), &plan, now_s);
        ui.request_repaint_after(std::time::Duration::from_secs_f64(EVERY_S));
    }
}

/// Did the window get the keyboard again? Then other programs may have been at the file.
fn came_back(ui: &egui::Ui) -> bool {
    let is_that = |event: &egui::Event| matches!(event, egui::Event::WindowFocused(true));
    ui.input(|input| input.events.iter().any(is_that))
}
