//! What was asked for where motion, balance and limits are looked at.

use super::super::Editor;
use super::super::words::motion as words;
use super::{Look, MotionPlace, Stopwatch};
use crate::layout::{Edit, RollTest, RollTestRun};

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

    pub(in super::super) fn motion_command(&mut self, command: MotionCommand) {
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
            MotionCommand::AddRun(Some(run)) => self.add_run(run),
            MotionCommand::AddRun(None) => {
                if let Some(run) = std::mem::take(&mut place.taps).run() {
                    self.add_run(run);
                }
            }
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
