//! A stretch of time looked at closely: its points worked out anew beside the window, finer than those of all of it.

use egui::Context;

use super::{TimeView, span_s, width_s};
use crate::app::beside::{Beside, Came};
use crate::audit::replay::{ReplayReport, Tracks};
use crate::store::Watch;

/// Points that are no further apart than this show single swings, s.
const FINE_S: f64 = 0.2;

/// What is worked out reaches beyond what is shown by this share of it to either side, so that going along shows it at
/// once.
const BEYOND: f64 = 0.5;

/// What was worked out is fine enough until what is shown is so many times shorter.
const CLOSER: f64 = 8.0;

/// A stretch of time of one replay.
#[derive(Copy, Clone, Debug, PartialEq)]
struct Stretch {
    /// Which of several replays.
    of: usize,
    from_s: f64,
    to_s: f64,
}

impl Stretch {
    fn covers(&self, of: usize, [from_s, to_s]: [f64; 2]) -> bool {
        self.of == of && self.from_s <= from_s && to_s <= self.to_s
    }

    /// Does it show this as closely as it can be?
    fn is_near(&self, of: usize, shown_s: [f64; 2]) -> bool {
        let wide_s = shown_s[1] - shown_s[0];
        self.covers(of, shown_s) && self.to_s - self.from_s <= CLOSER * wide_s
    }
}

/// The stretch that is looked at closely, made or being made; never more than one of each.
#[derive(Debug, Default)]
pub(crate) struct Closely {
    wanted: Option<(Stretch, Beside<Result<Tracks, String>>)>,
    made: Option<(Stretch, Result<Tracks, String>)>,
}

impl Closely {
    /// Has the points worked out that what is shown asks for, and takes in what came of it. `work` makes them from the
    /// stretch; it is asked only where they are wanted.
    pub(crate) fn look_after<W>(
        &mut self,
        ctx: &Context,
        (of, view, found): (usize, &TimeView, &ReplayReport),
        work: impl FnOnce([f64; 2]) -> W,
    ) where
        W: FnOnce(&Watch) -> Result<Tracks, String> + Send + 'static,
    {
        self.collect();
        let asked = view.shown_s.filter(|_| width_s(found) > FINE_S);
        let Some([from_s, to_s]) = asked else {
            self.wanted = None;
            return;
        };
        let near = |stretch: &Stretch| stretch.is_near(of, [from_s, to_s]);
        let is_made = self.made.as_ref().is_some_and(|(it, _)| near(it));
        let is_wanted = self.wanted.as_ref().is_some_and(|(it, _)| near(it));
        if is_made || is_wanted {
            return;
        }
        let beyond_s = BEYOND * (to_s - from_s);
        let [start_s, end_s] = span_s(found);
        let stretch = Stretch {
            of,
            from_s: (from_s - beyond_s).max(start_s),
            to_s: (to_s + beyond_s).min(end_s),
        };
        let work = work([stretch.from_s, stretch.to_s]);
        match Beside::begin(ctx, "closely", work) {
            Ok(beside) => self.wanted = Some((stretch, beside)),
            Err(error) => {
                self.wanted = None;
                self.made = Some((stretch, Err(error.to_string())));
            }
        }
    }

    fn collect(&mut self) {
        let Some((stretch, beside)) = &self.wanted else {
            return;
        };
        let came = match beside.collect() {
            Came::NotYet => return,
            Came::Here(came) => came,
            Came::Nothing => Err(String::new()),
        };
        self.made = Some((*stretch, came));
        self.wanted = None;
    }

    /// Are points being worked out?
    pub(crate) fn is_busy(&self) -> bool {
        self.wanted.is_some()
    }

    /// How far that is, 0 to 1; nothing while none are.
    pub(super) fn share(&self) -> Option<f32> {
        self.wanted.as_ref().map(|(_, beside)| beside.share())
    }

    /// The points of a stretch that covers what is shown, where they are made.
    pub(super) fn tracks(&self, of: usize, shown_s: [f64; 2]) -> Option<&Tracks> {
        let (stretch, made) = self.made.as_ref()?;
        let made = made.as_ref().ok()?;
        (stretch.covers(of, shown_s) && made.time_s.len() > 1).then_some(made)
    }

    /// Why there are none for what is shown.
    pub(super) fn trouble(&self, of: usize, shown_s: [f64; 2]) -> Option<&str> {
        let (stretch, made) = self.made.as_ref()?;
        let trouble = made.as_ref().err()?;
        stretch.covers(of, shown_s).then_some(trouble)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A thousand seconds, a point each.
    fn found() -> ReplayReport {
        ReplayReport {
            tracks: Tracks {
                time_s: (0..=1000).map(f64::from).collect(),
                ..Tracks::default()
            },
            ..ReplayReport::default()
        }
    }

    fn shown(from_s: f64, to_s: f64) -> TimeView {
        TimeView {
            shown_s: Some([from_s, to_s]),
            ..TimeView::default()
        }
    }

    /// Asks once and waits for what comes; tells which stretch was asked for.
    fn ask(closely: &mut Closely, of: usize, view: &TimeView) -> Option<[f64; 2]> {
        let (ctx, found) = (Context::default(), found());
        let mut asked = None;
        closely.look_after(&ctx, (of, view, &found), |stretch| {
            asked = Some(stretch);
            move |_: &Watch| {
                Ok(Tracks {
                    time_s: stretch.to_vec(),
                    ..Tracks::default()
                })
            }
        });
        while closely.is_busy() {
            closely.collect();
            std::thread::yield_now();
        }
        asked
    }

    #[test]
    fn all_of_it_and_what_is_fine_enough_ask_for_nothing() {
        let mut closely = Closely::default();
        assert_eq!(ask(&mut closely, 0, &TimeView::default()), None);
        let mut fine = found();
        fine.tracks.time_s = (0..=1000).map(|i| f64::from(i) * 0.1).collect();
        let view = shown(10.0, 20.0);
        closely.look_after(&Context::default(), (0, &view, &fine), |_| {
            |_: &Watch| Ok(Tracks::default())
        });
        assert!(!closely.is_busy());
    }

    #[test]
    fn what_is_made_serves_until_it_is_left_or_gone_closer() {
        let mut closely = Closely::default();
        assert_eq!(
            ask(&mut closely, 0, &shown(100.0, 200.0)),
            Some([50.0, 250.0])
        );
        assert_eq!(
            closely.tracks(0, [100.0, 200.0]).unwrap().time_s,
            [50.0, 250.0]
        );
        // Along, within what was made; a little closer.
        assert_eq!(ask(&mut closely, 0, &shown(140.0, 240.0)), None);
        assert_eq!(ask(&mut closely, 0, &shown(150.0, 175.0)), None);
        // Much closer, or beyond it, or of another account.
        assert_eq!(
            ask(&mut closely, 0, &shown(150.0, 160.0)),
            Some([145.0, 165.0])
        );
        assert_eq!(
            ask(&mut closely, 0, &shown(900.0, 1000.0)),
            Some([850.0, 1000.0])
        );
        assert_eq!(
            ask(&mut closely, 1, &shown(900.0, 1000.0)),
            Some([850.0, 1000.0])
        );
        assert!(
            closely.tracks(0, [900.0, 1000.0]).is_none(),
            "that of the other"
        );
        assert!(closely.tracks(1, [800.0, 900.0]).is_none(), "not all of it");
    }

    #[test]
    fn trouble_is_told_where_it_belongs_and_not_asked_for_again_and_again() {
        let (mut closely, found) = (Closely::default(), found());
        let view = shown(100.0, 200.0);
        for _ in 0..2 {
            closely.look_after(&Context::default(), (0, &view, &found), |_| {
                |_: &Watch| Err("gone".to_owned())
            });
            while closely.is_busy() {
                closely.collect();
                std::thread::yield_now();
            }
        }
        assert_eq!(closely.trouble(0, [100.0, 200.0]), Some("gone"));
        assert_eq!(closely.trouble(0, [700.0, 800.0]), None);
        assert!(closely.tracks(0, [100.0, 200.0]).is_none());
    }
}
