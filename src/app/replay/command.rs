//! What was asked for where a motion is replayed.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use super::super::Editor;
use super::super::files::{FileList, Purpose};
use super::Source;
use super::job::{ReplayJob, Wanted, closely};
use crate::app::over_time::{Closely, TimeCommand};
use crate::audit::replay::Mounting;
use crate::store::Watch;
use crate::store::motion_log::LogUnits;

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ReplayCommand {
    /// Leave it.
    Leave,
    /// Replay this.
    From(Source),
    /// Ask which log.
    ChooseLog,
    /// Draw the sea with this seed.
    Seed(u64),
    /// The sensor was mounted so.
    Mounted(Mounting),
    /// The log's columns have these units where their headings do not say it.
    Units(LogUnits),
    /// Something over time.
    Time(TimeCommand),
}

impl Editor {
    /// Opens the place where a motion is replayed, or leaves it.
    pub(in super::super) fn replay_motion(&mut self) {
        self.replay = match self.replay.take() {
            None => {
                self.briefing = None;
                self.motion = None;
                Some(Box::default())
            }
            Some(_) => None,
        };
    }

    pub(in super::super) fn replay_command(&mut self, command: ReplayCommand) {
        if command == ReplayCommand::Leave {
            self.replay = None;
            return;
        }
        let now_s = self.stopwatch.now_s();
        let folder = self.folder();
        let Some(place) = &mut self.replay else {
            return;
        };
        match command {
            ReplayCommand::Leave => {}
            ReplayCommand::From(source) => {
                place.source = source;
                place.units = LogUnits::default();
                place.view.playing = None;
            }
            ReplayCommand::ChooseLog => {
                let list = FileList::of(Purpose::MotionLog, &folder, "", None);
                self.ask_for_file(list);
            }
            ReplayCommand::Seed(seed) => place.seed = seed,
            ReplayCommand::Mounted(mounting) => place.mounting = mounting,
            ReplayCommand::Units(units) => place.units = units,
            ReplayCommand::Time(asked) => {
                let mut view = std::mem::take(&mut place.view);
                if let Some(looked) = place.looked() {
                    view.run(asked, &looked, now_s);
                }
                place.view = view;
            }
        }
    }

    /// Replays a log.
    pub(in super::super) fn replay_log(&mut self, path: &Path) {
        self.dialog = None;
        self.replay_command(ReplayCommand::From(Source::Log(path.to_owned())));
    }

    /// Has the replay worked out that is wanted, and takes in what came of it.
    pub(in super::super) fn look_after_replay(&mut self, ctx: &Context) {
        let part = self.trip().and_then(|trip| trip.parts.get(self.part));
        let part = part.map(|part| part.id.clone());
        let (Some(place), Some(part)) = (&mut self.replay, part) else {
            return;
        };
        let wanted = Wanted {
            plan: Arc::clone(self.history.plan()),
            trip: self.trip.clone(),
            part,
            source: place.source.clone(),
            seed: place.seed,
            mounting: place.mounting,
            units: place.units,
        };
        if place.job.as_ref().is_none_or(|job| !job.is_of(&wanted)) {
            place.view.playing = None;
            place.job = Some(ReplayJob::start(ctx, wanted));
        }
        let came = place.job.as_mut().is_some_and(ReplayJob::collect);
        if came || place.found().is_none() {
            place.close = Closely::default();
        }
        let mut view = std::mem::take(&mut place.view);
        let runs = place.found().is_some_and(|found| {
            if came {
                view.restart(found);
            }
            view.follow(found, self.stopwatch.now_s())
        });
        place.view = view;
        if let Some(job) = &place.job
            && let Some(Ok(found)) = job.found()
        {
            let of = (0, &place.view, found);
            place.close.look_after(ctx, of, |stretch_s| {
                let wanted = job.wanted.clone();
                move |watch: &Watch| closely(&wanted, watch, stretch_s)
            });
        }
        if runs || place.is_busy() {
            ctx.request_repaint_after(std::time::Duration::from_millis(33));
        }
    }

    /// Opens the place on a log.
    pub fn replay_the_log(&mut self, path: &Path) {
        if self.replay.is_none() {
            self.replay_motion();
        }
        self.replay_log(path);
    }
}
