//! A motion over time, looked at: one cursor for the plots, the deck and what went, at the speed of the sea or another,
//! and the stretch of time that the plots show.
//!
//! Shared by the place where a motion is replayed and by the audit of a record. Nothing here computes: it looks at a
//! [`ReplayReport`], and closer at a stretch of it that was worked out anew beside the window ([`Closely`]).

mod closely;
mod plan;
mod plots;
mod read_log;
mod ui;

pub(crate) use self::closely::Closely;
pub(crate) use self::plan::{Stand, plan_ui};
pub(crate) use self::read_log::read_log;
pub(crate) use self::ui::{keys_ui, plots_ui, transport_ui, went_ui};

use crate::audit::replay::{ReplayReport, Tracks};
use crate::layout::Id;

/// How fast time runs in the window, against the sea.
pub(super) const SPEEDS: [f64; 6] = [0.25, 1.0, 4.0, 16.0, 60.0, 300.0];

/// The one that it begins with.
const AT_FIRST: usize = 1;

/// How much closer or wider one step is.
const CLOSER: f64 = 2.0;

/// Closer than this nothing more is to be seen of a roll, s.
const LEAST_S: f64 = 5.0;

/// What is looked at: a replay, and the stretch of it that is looked at closely.
#[derive(Copy, Clone, Debug)]
pub(crate) struct Looked<'a> {
    pub(crate) found: &'a ReplayReport,
    /// Which of several replays it is.
    of: usize,
    close: &'a Closely,
}

impl<'a> Looked<'a> {
    pub(crate) fn new(found: &'a ReplayReport, of: usize, close: &'a Closely) -> Self {
        Self { found, of, close }
    }

    /// The points of what is shown: the fine ones where they are there.
    pub(super) fn tracks(&self, view: &TimeView) -> &'a Tracks {
        let close = view
            .shown_s
            .and_then(|shown_s| self.close.tracks(self.of, shown_s));
        close.unwrap_or(&self.found.tracks)
    }
}

/// What is asked for over time.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TimeCommand {
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
    /// Show so much less time, about this moment, or about the cursor; below 1 more.
    Closer(f64, Option<f64>),
    /// Show what is earlier or later, by this share of what is shown.
    Along(f64),
    /// Show all of it.
    All,
}

/// How a replay is looked at.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct TimeView {
    /// Where the cursor is, s of the replay.
    pub(crate) cursor_s: f64,
    pub(super) speed: usize,
    /// While time runs: the stopwatch and the cursor when it began.
    pub(super) playing: Option<(f64, f64)>,
    /// The cylinder whose margin is drawn strongly.
    pub(super) picked: Option<Id>,
    /// What the plots show, s; all of it unless closer.
    pub(super) shown_s: Option<[f64; 2]>,
}

impl Default for TimeView {
    fn default() -> Self {
        Self {
            cursor_s: 0.0,
            speed: AT_FIRST,
            playing: None,
            picked: None,
            shown_s: None,
        }
    }
}

/// When a replay begins and ends, s.
pub(crate) fn span_s(found: &ReplayReport) -> [f64; 2] {
    match found.tracks.time_s.as_slice() {
        [first, .., last] => [*first, *last],
        [only] => [*only, *only],
        [] => [0.0, 0.0],
    }
}

/// How long one of its points stands for, s.
fn width_s(found: &ReplayReport) -> f64 {
    point_s(&found.tracks)
}

/// How long one of these points stands for, s.
fn point_s(tracks: &Tracks) -> f64 {
    match tracks.time_s.as_slice() {
        [first, second, ..] => second - first,
        _ => 1.0,
    }
}

impl TimeView {
    /// What the plots show, s.
    pub(super) fn shown_s(&self, found: &ReplayReport) -> [f64; 2] {
        self.shown_s.unwrap_or_else(|| span_s(found))
    }

    /// Another replay is looked at: from its beginning, all of it.
    pub(crate) fn restart(&mut self, found: &ReplayReport) {
        let [start_s, _] = span_s(found);
        self.cursor_s = start_s;
        self.playing = None;
        self.shown_s = None;
    }

    /// Lets the cursor follow the stopwatch; tells whether time runs.
    pub(crate) fn follow(&mut self, found: &ReplayReport, now_s: f64) -> bool {
        let Some((began_s, from_s)) = self.playing else {
            return false;
        };
        let [_, end_s] = span_s(found);
        self.cursor_s = from_s + (now_s - began_s) * SPEEDS[self.speed.min(SPEEDS.len() - 1)];
        if self.cursor_s >= end_s {
            self.cursor_s = end_s;
            self.playing = None;
        }
        self.keep_in_sight(found);
        self.playing.is_some()
    }

    /// Time stands still.
    pub(crate) fn stop(&mut self) {
        self.playing = None;
    }

    /// Does what was asked for.
    pub(crate) fn run(&mut self, command: TimeCommand, looked: &Looked<'_>, now_s: f64) {
        let found = looked.found;
        match command {
            TimeCommand::PlayOrPause => self.play_or_pause(found, now_s),
            TimeCommand::Cursor(at_s) => self.put_cursor(at_s, found, now_s),
            TimeCommand::Step(by) => {
                self.playing = None;
                let at_s = self.cursor_s + f64::from(by) * point_s(looked.tracks(self));
                self.put_cursor(at_s, found, now_s);
            }
            TimeCommand::Speed(speed) => {
                self.speed = speed.min(SPEEDS.len() - 1);
                self.put_cursor(self.cursor_s, found, now_s);
            }
            TimeCommand::Pick(picked) => self.picked = picked,
            TimeCommand::Closer(by, about_s) => self.closer(by, about_s, found),
            TimeCommand::Along(share) => {
                let [from_s, to_s] = self.shown_s(found);
                let by_s = share * (to_s - from_s);
                self.show([from_s + by_s, to_s + by_s], found);
            }
            TimeCommand::All => self.shown_s = None,
        }
    }

    fn play_or_pause(&mut self, found: &ReplayReport, now_s: f64) {
        if self.playing.take().is_some() {
            return;
        }
        let [start_s, end_s] = span_s(found);
        if self.cursor_s >= end_s {
            self.cursor_s = start_s;
        }
        self.playing = Some((now_s, self.cursor_s));
        self.keep_in_sight(found);
    }

    /// Puts the cursor somewhere; time goes on from there if it runs.
    fn put_cursor(&mut self, at_s: f64, found: &ReplayReport, now_s: f64) {
        let [start_s, end_s] = span_s(found);
        self.cursor_s = at_s.clamp(start_s, end_s.max(start_s));
        if let Some((began_s, from_s)) = &mut self.playing {
            (*began_s, *from_s) = (now_s, self.cursor_s);
        }
        self.keep_in_sight(found);
    }

    /// Moves what is shown along where the cursor has left it.
    fn keep_in_sight(&mut self, found: &ReplayReport) {
        let Some([from_s, to_s]) = self.shown_s else {
            return;
        };
        let wide_s = to_s - from_s;
        if !(from_s..=to_s).contains(&self.cursor_s) {
            let from_s = self.cursor_s - 0.1 * wide_s;
            self.show([from_s, from_s + wide_s], found);
        }
    }

    fn closer(&mut self, by: f64, about_s: Option<f64>, found: &ReplayReport) {
        let [from_s, to_s] = self.shown_s(found);
        let about_s = about_s.unwrap_or(self.cursor_s).clamp(from_s, to_s);
        let at = |edge_s: f64| about_s + (edge_s - about_s) / by.clamp(0.01, 100.0);
        self.show([at(from_s), at(to_s)], found);
    }

    /// Shows this stretch, pushed into the replay; never less than ten of its points, or than a roll.
    fn show(&mut self, [from_s, to_s]: [f64; 2], found: &ReplayReport) {
        let [start_s, end_s] = span_s(found);
        let least_s = (10.0 * width_s(found)).min(LEAST_S).min(end_s - start_s);
        let wide_s = (to_s - from_s).max(least_s);
        if wide_s >= end_s - start_s {
            self.shown_s = None;
            return;
        }
        let middle_s = 0.5 * (from_s + to_s);
        let from_s = (middle_s - 0.5 * wide_s).clamp(start_s, end_s - wide_s);
        self.shown_s = Some([from_s, from_s + wide_s]);
    }

    /// The bucket of the cursor.
    pub(super) fn bucket(&self, tracks: &Tracks) -> Option<usize> {
        let times = &tracks.time_s;
        let after = times.partition_point(|time_s| *time_s < self.cursor_s);
        let nearer = |a: usize, b: usize| {
            let off = |i: usize| (times[i] - self.cursor_s).abs();
            if off(b) < off(a) { b } else { a }
        };
        match (after.checked_sub(1), after < times.len()) {
            (Some(before), true) => Some(nearer(before, after)),
            (Some(before), false) => Some(before),
            (None, true) => Some(after),
            (None, false) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Does what was asked for, with nothing looked at closely.
    fn run(view: &mut TimeView, command: TimeCommand, found: &ReplayReport, now_s: f64) {
        let close = Closely::default();
        view.run(command, &Looked::new(found, 0, &close), now_s);
    }

    /// A hundred seconds, a point each.
    fn found() -> ReplayReport {
        ReplayReport {
            tracks: Tracks {
                time_s: (0..=100).map(f64::from).collect(),
                ..Tracks::default()
            },
            ..ReplayReport::default()
        }
    }

    fn near(a: [f64; 2], b: [f64; 2]) -> bool {
        (a[0] - b[0]).abs() < 1e-9 && (a[1] - b[1]).abs() < 1e-9
    }

    #[test]
    fn an_empty_replay_has_no_moment() {
        let empty = ReplayReport::default();
        let mut view = TimeView::default();
        assert!(!view.follow(&empty, 5.0));
        run(&mut view, TimeCommand::Cursor(7.0), &empty, 5.0);
        assert!(view.cursor_s.abs() < 1e-12 && view.bucket(&empty.tracks).is_none());
        run(&mut view, TimeCommand::Closer(2.0, None), &empty, 5.0);
        assert!(view.shown_s.is_none());
    }

    #[test]
    fn closer_keeps_the_moment_under_the_pointer_where_it_is() {
        let (found, mut view) = (found(), TimeView::default());
        run(&mut view, TimeCommand::Closer(2.0, Some(40.0)), &found, 0.0);
        assert!(near(view.shown_s(&found), [20.0, 70.0]));
        run(&mut view, TimeCommand::Closer(2.0, Some(40.0)), &found, 0.0);
        assert!(near(view.shown_s(&found), [30.0, 55.0]));
        run(&mut view, TimeCommand::Along(1.0), &found, 0.0);
        assert!(near(view.shown_s(&found), [55.0, 80.0]));
        run(&mut view, TimeCommand::Along(2.0), &found, 0.0);
        assert!(near(view.shown_s(&found), [75.0, 100.0]), "pushed in");
        run(&mut view, TimeCommand::Closer(1000.0, None), &found, 0.0);
        let [from_s, to_s] = view.shown_s(&found);
        assert!(
            (to_s - from_s - LEAST_S).abs() < 1e-9,
            "never less than a roll"
        );
        run(&mut view, TimeCommand::Closer(0.01, None), &found, 0.0);
        assert!(view.shown_s.is_none(), "wider than all is all");
    }

    #[test]
    fn what_is_shown_follows_the_cursor() {
        let (found, mut view) = (found(), TimeView::default());
        run(&mut view, TimeCommand::Closer(4.0, Some(0.0)), &found, 0.0);
        assert!(near(view.shown_s(&found), [0.0, 25.0]));
        run(&mut view, TimeCommand::Cursor(24.0), &found, 0.0);
        assert!(near(view.shown_s(&found), [0.0, 25.0]), "still in sight");
        run(&mut view, TimeCommand::Step(2), &found, 0.0);
        assert!(near(view.shown_s(&found), [23.5, 48.5]));
        run(&mut view, TimeCommand::Cursor(3.0), &found, 0.0);
        assert!(near(view.shown_s(&found), [0.5, 25.5]));
        // While time runs too: sixteen seconds each second.
        run(&mut view, TimeCommand::Speed(3), &found, 0.0);
        run(&mut view, TimeCommand::PlayOrPause, &found, 50.0);
        assert!(view.follow(&found, 52.0));
        assert!((view.cursor_s - 35.0).abs() < 1e-9);
        let [from_s, to_s] = view.shown_s(&found);
        assert!(from_s < 35.0 && 35.0 < to_s);
        assert!(!view.follow(&found, 60.0), "it ends at its end");
        assert!((view.cursor_s - 100.0).abs() < 1e-9);
    }
}
