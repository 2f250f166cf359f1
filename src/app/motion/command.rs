//! What was asked for where motion, balance and limits are looked at.

use std::path::{Path, PathBuf};

use egui::Context;

use super::super::Editor;
use super::super::files::{FileList, Purpose};
use super::super::words::motion as words;
use super::log_job::LogJob;
use super::{Look, MotionPlace, Stopwatch};
use crate::engine::{recorded_motion, watched};
use crate::layout::{Edit, RollTest, RollTestRun, Thing};

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum MotionCommand {
    /// Leave it.
    Leave,
    /// Look at something else.
    Show(Look),
    /// She is back at the same side.
    Tap,
    /// The last tap was wrong.
    TakeTapBack,
    /// Begin the run again.
    ClearTaps,
    /// Put the run of the taps, or one from another watch, into the plan.
    AddRun(Option<RollTestRun>),
    /// Ask which log.
    ChooseLog,
    /// Read this log.
    ReadLog(PathBuf),
    /// Read the same log again, with other units.
    ReadLogAgain,
    /// Stop reading, and drop it.
    DropLog,
    /// What the log measured is the motion of the part.
    StandIn,
}

impl Editor {
    /// Opens the place at what is asked for; leaves it where that is looked at already.
    pub(in super::super) fn look_at_motion(&mut self, look: Look) {
        match &mut self.motion {
            Some(place) if place.look == look => self.motion = None,
            Some(place) => place.look = look,
            None => {
                self.briefing = None;
                self.motion = Some(Box::new(MotionPlace {
                    look,
                    ..MotionPlace::default()
                }));
            }
        }
    }

    pub(in super::super) fn motion_command(&mut self, ctx: &Context, command: MotionCommand) {
        if command == MotionCommand::Leave {
            self.motion = None;
            return;
        }
        let now_s = self.stopwatch.now_s();
        let Some(place) = &mut self.motion else {
            return;
        };
        match command {
            MotionCommand::Leave => {}
            MotionCommand::Show(look) => place.look = look,
            MotionCommand::Tap => place.taps.tap(now_s),
            MotionCommand::TakeTapBack => place.taps.take_back(),
            MotionCommand::ClearTaps => place.taps = super::Taps::default(),
            MotionCommand::ChooseLog => {
                let list = FileList::of(Purpose::MotionLog, &self.folder(), "", None);
                self.ask_for_file(list);
            }
            MotionCommand::ReadLog(path) => self.read_log(ctx, &path),
            MotionCommand::ReadLogAgain => {
                let path = place.log.job.as_ref().map(|job| job.path.clone());
                if let Some(path) = path {
                    self.read_log(ctx, &path);
                }
            }
            MotionCommand::DropLog => place.log.job = None,
            MotionCommand::StandIn => self.let_log_stand_in(),
            MotionCommand::AddRun(Some(run)) => self.add_run(run),
            MotionCommand::AddRun(None) => {
                if let Some(run) = std::mem::take(&mut place.taps).run() {
                    self.add_run(run);
                }
            }
        }
    }

    /// Reads a log beside the window.
    pub(in super::super) fn read_log(&mut self, ctx: &Context, path: &Path) {
        self.dialog = None;
        let numbers = self.live.assessor().assessment().parts.get(self.part);
        let boat = &self.history.plan().boat;
        let bodies = numbers.map_or_else(Vec::new, |numbers| watched(boat, numbers));
        if let Some(place) = &mut self.motion {
            place.log.job = Some(LogJob::start(ctx, path, place.log.units, bodies));
        }
    }

    /// Puts what the log measured into the plan, as the motion of the part of the day shown.
    fn let_log_stand_in(&mut self) {
        let job = self
            .motion
            .as_ref()
            .and_then(|place| place.log.job.as_ref());
        let Some((job, Some(Ok(found)))) = job.map(|job| (job, job.found())) else {
            return;
        };
        let part = self.trip().and_then(|trip| trip.parts.get(self.part));
        let Some(mut part) = part.cloned() else {
            return;
        };
        let name = job.path.file_name().map(|name| name.to_string_lossy());
        let name = name.unwrap_or_default();
        part.motion = Some(recorded_motion(
            &name,
            &found.measures,
            part.motion.as_ref(),
        ));
        let edit = Edit::Put {
            trip: Some(self.trip.clone()),
            thing: Box::new(Thing::Part(part)),
        };
        if let Err(err) = self.history.run(words::STEP_LOG.to_owned(), &[edit]) {
            self.notice = Some(err.to_string());
        }
    }

    fn add_run(&mut self, run: RollTestRun) {
        let mut boat = self.history.plan().boat.clone();
        let label = words::step_run(run.swings);
        match &mut boat.roll_test {
            Some(test) => test.runs.push(run),
            None => {
                boat.roll_test = Some(RollTest {
                    runs: vec![run],
                    loading: None,
                });
            }
        }
        let edit = Edit::SetBoat(Box::new(boat));
        if let Err(err) = self.history.run(label, &[edit]) {
            self.notice = Some(err.to_string());
        }
    }

    /// Has the stopwatch read another clock, for tests that drive the window.
    pub fn set_stopwatch(&mut self, now_s: impl Fn() -> f64 + 'static) {
        self.stopwatch = Stopwatch::read_by(now_s);
    }
}
