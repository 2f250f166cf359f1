//! What was asked for where a motion is replayed.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use super::super::Editor;
use super::super::files::{Dialog, FileList, Purpose};
use super::job::{ReplayJob, Wanted};
use super::{ReplayPlace, SPEEDS, Source};
use crate::audit::replay::Mounting;
use crate::layout::Id;

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
    /// Let time run, or stop it.
    PlayOrPause,
    /// Put the cursor there, s.
    Cursor(f64),
    /// Move the cursor by so many buckets.
    Step(i8),
    /// Run so fast, by its place among the speeds.
    Speed(usize),
    /// Draw this cylinder strongly.
    Pick(Option<Id>),
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
                place.playing = None;
            }
            ReplayCommand::ChooseLog => {
                let list = FileList::of(Purpose::MotionLog, &folder, "", None);
                self.dialog = Some(Dialog::Files(list));
            }
            ReplayCommand::Seed(seed) => place.seed = seed,
            ReplayCommand::Mounted(mounting) => place.mounting = mounting,
            ReplayCommand::PlayOrPause => play_or_pause(place, now_s),
            ReplayCommand::Cursor(at_s) => place.put_cursor(at_s, now_s),
            ReplayCommand::Step(by) => {
                place.playing = None;
                let width_s = (place.found())
                    .and_then(|found| match found.tracks.time_s.as_slice() {
                        [first, second, ..] => Some(second - first),
                        _ => None,
                    })
                    .unwrap_or(1.0);
                place.put_cursor(place.cursor_s + f64::from(by) * width_s, now_s);
            }
            ReplayCommand::Speed(speed) => {
                place.speed = speed.min(SPEEDS.len() - 1);
                let at_s = place.cursor_s;
                place.put_cursor(at_s, now_s);
            }
            ReplayCommand::Pick(picked) => place.picked = picked,
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
        };
        if place.job.as_ref().is_none_or(|job| !job.is_of(&wanted)) {
            place.playing = None;
            place.job = Some(ReplayJob::start(ctx, wanted));
        }
        let came = place.job.as_mut().is_some_and(ReplayJob::collect);
        if came {
            let [start_s, _] = place.span_s();
            place.cursor_s = start_s;
        }
        if place.follow(self.stopwatch.now_s()) || place.is_busy() {
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

fn play_or_pause(place: &mut ReplayPlace, now_s: f64) {
    if place.playing.take().is_some() || place.found().is_none() {
        return;
    }
    let [start_s, end_s] = place.span_s();
    if place.cursor_s >= end_s {
        place.cursor_s = start_s;
    }
    place.playing = Some((now_s, place.cursor_s));
}
