//! The rolling-period test: swings counted, time taken, and what GM that means.
//!
//! The boat is set rolling in smooth water and left to itself; full swings (out, over and back) are
//! counted. `GM = (f B / T)^2` with `f` by the kind and loading of the boat.
//!
//! # References
//!
//! IMO resolution A.749(18), annex 3 (small ships up to 70 m): the table of `f`, at least five full
//! swings, repeated at least twice; values of `f` were seen within 0.05 of the table. A tap on a stopwatch is
//! off by up to 0.2 s at each end: common practice, no source.

use super::{Dimensions, Refusal};
use crate::geometry::Elementary as _;

/// The kind and loading of a boat in the table of `f`.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Loading {
    /// Empty, or in ballast.
    EmptyOrBallast,
    /// Full load, liquids a fifth of the load.
    LiquidsFifth,
    /// Full load, liquids a tenth of the load.
    LiquidsTenth,
    /// Full load, liquids a twentieth of the load.
    LiquidsTwentieth,
    /// A shrimp boat with two booms.
    DoubleBoom,
    /// A deep-sea fishing boat.
    DeepSeaFishing,
    /// A boat with a live fish well.
    LiveFishWell,
}

impl Loading {
    /// All rows of the table.
    pub const ALL: [Self; 7] = [
        Self::EmptyOrBallast,
        Self::LiquidsFifth,
        Self::LiquidsTenth,
        Self::LiquidsTwentieth,
        Self::DoubleBoom,
        Self::DeepSeaFishing,
        Self::LiveFishWell,
    ];

    /// `f` of the table.
    pub fn factor(self) -> f64 {
        match self {
            Self::EmptyOrBallast => 0.88,
            Self::LiquidsFifth => 0.78,
            Self::LiquidsTenth => 0.75,
            Self::LiquidsTwentieth => 0.73,
            Self::DoubleBoom => 0.95,
            Self::DeepSeaFishing => 0.80,
            Self::LiveFishWell => 0.60,
        }
    }
}

/// How far `f` may be off.
pub const FACTOR_SPREAD: f64 = 0.05;

/// How far a stopwatch may be off over one run, seconds.
pub const STOPWATCH_ERROR_S: f64 = 0.4;

/// Fewest swings in a run of the published test.
pub const LEAST_SWINGS: u32 = 5;

/// Fewest runs of the published test.
pub const LEAST_RUNS: usize = 3;

/// One run: so many full swings in so much time.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Run {
    /// Full swings counted.
    pub swings: u32,
    /// Time from the first to the last, seconds.
    pub total_s: f64,
}

impl Run {
    /// Seconds for one swing.
    pub fn period_s(self) -> f64 {
        self.total_s / f64::from(self.swings)
    }
}

/// What the runs say together.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Timed {
    /// Mean period over all swings, seconds.
    pub period_s: f64,

    /// Shortest and longest mean period of a run, seconds.
    pub spread_s: [f64; 2],

    /// The period with the error of the stopwatch and the spread of the runs, seconds.
    pub band_s: [f64; 2],

    /// Swings counted in all.
    pub swings: u32,

    /// Is it as the published test wants it: enough swings in each run, enough runs?
    pub by_the_code: bool,
}

/// Takes the runs together; `None` without a swing.
pub fn timed(runs: &[Run]) -> Option<Timed> {
    let counted = || {
        runs.iter()
            .filter(|run| run.swings > 0 && run.total_s > 0.0)
    };
    let swings: u32 = counted().map(|run| run.swings).sum();
    if swings == 0 {
        return None;
    }
    let total_s: f64 = counted().map(|run| run.total_s).sum();
    let mut spread_s = [f64::INFINITY, 0.0_f64];
    let mut band_s = spread_s;
    for run in counted() {
        let period_s = run.period_s();
        let error_s = STOPWATCH_ERROR_S / f64::from(run.swings);
        spread_s = [spread_s[0].min(period_s), spread_s[1].max(period_s)];
        // A run cannot be off by more than it lasted.
        let least_s = (period_s - error_s).max(0.1 * period_s);
        band_s = [band_s[0].min(least_s), band_s[1].max(period_s + error_s)];
    }
    Some(Timed {
        period_s: total_s / f64::from(swings),
        spread_s,
        band_s,
        swings,
        by_the_code: counted().count() >= LEAST_RUNS
            && counted().all(|run| run.swings >= LEAST_SWINGS),
    })
}

/// GM in metres with what it may be at least and at most.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TestedGm {
    /// With the mean period and the table's `f`.
    pub gm_m: f64,
    /// With `f` 0.05 less or more, and the band of the period.
    pub band_m: [f64; 2],
}

/// GM from a rolling-period test, or why there is none.
pub fn tested_gm(boat: &Dimensions, timed: &Timed, loading: Loading) -> Result<TestedGm, Refusal> {
    if let Some(refusal) = boat.refused_form() {
        return Err(refusal);
    }
    let gm = |f: f64, period_s: f64| gm_m(f, boat.beam_m, period_s);
    let f = loading.factor();
    Ok(TestedGm {
        gm_m: gm(f, timed.period_s),
        band_m: [
            gm(f - FACTOR_SPREAD, timed.band_s[1]),
            gm(f + FACTOR_SPREAD, timed.band_s[0]),
        ],
    })
}

/// `GM = (f B / T)^2`, metres.
pub fn gm_m(factor: f64, beam_m: f64, period_s: f64) -> f64 {
    (factor * beam_m / period_s).whole_power(2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;
    use crate::mechanics::rolling::HullForm;

    fn run(swings: u32, total_s: f64) -> Run {
        Run { swings, total_s }
    }

    #[test]
    fn runs_are_taken_together_by_their_swings() {
        let timed = timed(&[run(5, 20.0), run(10, 42.0), run(5, 19.0)]).unwrap();
        assert_close(timed.period_s, 81.0 / 20.0, 1e-12);
        assert_close(timed.spread_s[0], 3.8, 1e-12);
        assert_close(timed.spread_s[1], 4.2, 1e-12);
        assert_close(timed.band_s[0], 3.72, 1e-12);
        assert_close(timed.band_s[1], 4.24, 1e-12);
        assert!(timed.by_the_code);
    }

    #[test]
    fn few_swings_count_with_a_wide_band() {
        let timed = timed(&[run(2, 5.2)]).unwrap();
        assert_close(timed.period_s, 2.6, 1e-12);
        assert_close(timed.band_s[1] - timed.band_s[0], 0.4, 1e-12);
        assert!(!timed.by_the_code);
        assert_eq!(super::timed(&[run(0, 5.0)]), None);
    }

    #[test]
    fn a_twin_hull_gets_no_gm_from_a_stopwatch() {
        let mut boat = Dimensions {
            form: Some(HullForm::Twin),
            length_m: 12.0,
            beam_m: 5.0,
            draught_m: None,
            gm_m: None,
        };
        let timed = timed(&[run(5, 20.0)]).unwrap();
        let gm = |boat: &Dimensions| tested_gm(boat, &timed, Loading::EmptyOrBallast);
        assert_eq!(gm(&boat), Err(Refusal::Twin));
        boat.form = Some(HullForm::Displacement);
        let gm = gm(&boat).unwrap();
        assert_close(gm.gm_m, 1.21, 1e-12);
        assert!(gm.band_m[0] < gm.gm_m && gm.gm_m < gm.band_m[1]);
    }
}
