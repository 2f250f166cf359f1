//! Roll period, GM and damping of the boat: everything that there is, beside each other.

use super::numbers::{RollPeriodNumbers, TimedRoll};
use crate::layout::{Boat, Hull, RollTestLoading};
use crate::mechanics::rolling::damping::{Damping, DampingBand, quadratic_of_bertin};
use crate::mechanics::rolling::stopwatch::{self, Loading, Run};
use crate::mechanics::rolling::{Dimensions, HullForm};

/// Damping at small rolls where only Bertin's coefficient is given; our judgement.
const SMALL_ROLL_DAMPING: f64 = 0.03;

/// Two figures that differ by more than this share of the smaller are said to disagree: twice what f may be
/// off. Our judgement.
const DISAGREEMENT: f64 = 0.12;

pub(super) fn form(hull: Hull) -> HullForm {
    match hull {
        Hull::Monohull => HullForm::Displacement,
        Hull::TwinHull => HullForm::Twin,
        Hull::Planing => HullForm::Planing,
        Hull::Inflatable => HullForm::Inflatable,
    }
}

fn loading(loading: RollTestLoading) -> Loading {
    match loading {
        RollTestLoading::EmptyOrBallast => Loading::EmptyOrBallast,
        RollTestLoading::LiquidsFifth => Loading::LiquidsFifth,
        RollTestLoading::LiquidsTenth => Loading::LiquidsTenth,
        RollTestLoading::LiquidsTwentieth => Loading::LiquidsTwentieth,
        RollTestLoading::DoubleBoom => Loading::DoubleBoom,
        RollTestLoading::DeepSeaFishing => Loading::DeepSeaFishing,
        RollTestLoading::LiveFishWell => Loading::LiveFishWell,
    }
}

fn dimensions(boat: &Boat) -> Dimensions {
    Dimensions {
        form: boat.hull.map(form),
        length_m: boat.waterline_length_m.unwrap_or(boat.length_overall_m),
        beam_m: boat.beam_m,
        draught_m: boat.draught_m,
        gm_m: boat.gm_m,
    }
}

fn timed(boat: &Boat) -> Option<stopwatch::Timed> {
    let test = boat.roll_test.as_ref()?;
    let runs: Vec<Run> = (test.runs.iter())
        .map(|run| Run {
            swings: run.swings,
            total_s: run.total_s,
        })
        .collect();
    stopwatch::timed(&runs)
}

/// The shortest and longest roll period that count, and how they were come by; `None` in words where
/// they were given.
///
/// Given for the boat; by stopwatch; a range; by the formula of the IS Code for a single displacement hull
/// within its range; else 0.8 s for each metre of beam, between 2 and 6 s (common practice, no source).
pub(super) fn roll_period_s(boat: &Boat) -> ([f64; 2], Option<String>) {
    if let Some(period) = boat.roll_period_s {
        return ([period; 2], None);
    }
    if let Some(timed) = timed(boat) {
        let period = timed.period_s;
        let swings = timed.swings;
        return (
            [period; 2],
            Some(format!(
                "roll period {period:.1} s by stopwatch over {swings} swings"
            )),
        );
    }
    if let Some([short, long]) = boat.roll_period_range_s {
        return (
            [short, long],
            Some(format!(
                "roll period somewhere from {short:.1} to {long:.1} s, the worst counts: time it with a \
                 stopwatch"
            )),
        );
    }
    if let Ok(period) = dimensions(boat).period_s() {
        return (
            [period; 2],
            Some(format!(
                "roll period {period:.1} s from beam, draught and GM (IS Code formula)"
            )),
        );
    }
    let period = (0.8 * boat.beam_m).clamp(2.0, 6.0);
    (
        [period; 2],
        Some(format!(
            "roll period {period:.1} s from the beam alone (common practice, no source): time it with a stopwatch"
        )),
    )
}

/// Roll damping: most, taken, least (so that the roll rises), with where they come from.
pub(super) fn damping(boat: &Boat) -> ([Damping; 3], String) {
    let growth = boat.roll_bertin_n.map_or(0.0, quadratic_of_bertin);
    let all = |ratio: f64| Damping {
        linear: ratio,
        quadratic: growth,
    };
    match (boat.roll_damping_ratio, boat.roll_bertin_n) {
        (Some(ratio), _) => ([all(ratio); 3], "given".to_owned()),
        (None, Some(_)) => (
            [all(SMALL_ROLL_DAMPING); 3],
            format!(
                "Bertin's N given; {SMALL_ROLL_DAMPING} of the critical at small rolls, our judgement"
            ),
        ),
        (None, None) => {
            let band = DampingBand::of(boat.hull.map(form));
            (
                [band.high, band.usual, band.low].map(all),
                band.source.to_owned(),
            )
        }
    }
}

/// The roll period and GM of a boat by every way that there is, with where they disagree.
pub fn roll_period(boat: &Boat) -> RollPeriodNumbers {
    let dimensions = dimensions(boat);
    let timed = timed(boat);
    let (taken_s, how) = roll_period_s(boat);
    let formula = dimensions.period_s();
    let tested = timed.as_ref().map(|timed| {
        let loading = boat.roll_test.as_ref().and_then(|test| test.loading);
        let Some(row) = loading else {
            return Err("nobody said how she was loaded, which gives f".to_owned());
        };
        stopwatch::tested_gm(&dimensions, timed, self::loading(row))
            .map_err(|refusal| refusal.to_string())
    });
    let tested_gm = tested.as_ref().and_then(|tested| tested.as_ref().ok());
    let mut disagreements = Vec::new();
    let mut compare = |a: (&str, Option<f64>), b: (&str, Option<f64>), unit: &str| {
        if let (Some(x), Some(y)) = (a.1, b.1)
            && (x - y).abs() > DISAGREEMENT * x.min(y)
        {
            let percent = 100.0 * (x - y).abs() / x.min(y);
            disagreements.push(format!(
                "{} {x:.2} {unit}, {} {y:.2} {unit}: {percent:.0} % apart",
                a.0, b.0
            ));
        }
    };
    let by_watch = (
        "roll period by stopwatch",
        timed.map(|timed| timed.period_s),
    );
    let by_formula = ("roll period by the formula", formula.ok());
    let given = ("roll period given", boat.roll_period_s);
    compare(given, by_watch, "s");
    compare(given, by_formula, "s");
    compare(by_watch, by_formula, "s");
    compare(
        ("GM given", boat.gm_m),
        ("GM by the rolling test", tested_gm.map(|gm| gm.gm_m)),
        "m",
    );
    if let (Some([short, long]), Some(timed)) = (boat.roll_period_range_s, timed)
        && !(short..=long).contains(&timed.period_s)
    {
        disagreements.push(format!(
            "roll period by stopwatch {:.2} s is outside the range {short:.2} to {long:.2} s",
            timed.period_s
        ));
    }
    let (damping, damping_source) = damping(boat);
    RollPeriodNumbers {
        taken_s,
        taken_from: how.unwrap_or_else(|| "given for the boat".to_owned()),
        given_s: boat.roll_period_s,
        timed: timed.map(|timed| TimedRoll {
            period_s: timed.period_s,
            spread_s: timed.spread_s,
            band_s: timed.band_s,
            swings: timed.swings,
            by_the_code: timed.by_the_code,
        }),
        by_formula_s: formula.ok(),
        formula_refused: formula.err().map(|refusal| refusal.to_string()),
        given_gm_m: boat.gm_m,
        tested_gm_m: tested_gm.map(|gm| gm.gm_m),
        tested_gm_band_m: tested_gm.map(|gm| gm.band_m),
        test_refused: tested.and_then(Result::err),
        disagreements,
        damping_ratio: [damping[2].linear, damping[1].linear, damping[0].linear],
        damping_growth: damping[1].quadratic,
        damping_source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Plan, RollTest, RollTestRun};

    fn boat() -> Boat {
        let mut boat = Plan::new("Test", 16.0, 5.0).boat;
        boat.hull = Some(Hull::Monohull);
        boat.draught_m = Some(1.5);
        boat.gm_m = Some(0.9);
        boat
    }

    fn test(swings: u32, total_s: f64) -> RollTest {
        RollTest {
            runs: vec![RollTestRun { swings, total_s }; 3],
            loading: Some(RollTestLoading::EmptyOrBallast),
        }
    }

    /// Worked from the formula that 46 CFR 28.575 prints: B 5.0 m, d 1.5 m, L 16 m, GM 0.90 m give
    /// C 0.44279 and 4.667 s.
    #[test]
    fn the_roll_period_of_the_is_code() {
        let ([period, _], how) = roll_period_s(&boat());
        assert!((period - 4.667).abs() < 5e-4, "{period}");
        assert!(how.is_some(), "it says how it was come by");
    }

    #[test]
    fn a_twin_hull_gets_no_period_from_the_formula() {
        let mut boat = boat();
        boat.hull = Some(Hull::TwinHull);
        let (_, how) = roll_period_s(&boat);
        assert!(how.unwrap().contains("stopwatch"));
        assert!(roll_period(&boat).formula_refused.is_some());
    }

    #[test]
    fn a_stopwatch_stands_beside_the_formula() {
        let mut boat = boat();
        boat.roll_test = Some(test(5, 20.0));
        let numbers = roll_period(&boat);
        assert!((numbers.taken_s[0] - 4.0).abs() < 1e-12);
        assert!((numbers.tested_gm_m.unwrap() - 1.21).abs() < 1e-9);
        let told = numbers.disagreements.join("; ");
        assert!(told.contains("4.67 s") && told.contains("1.21 m"), "{told}");
        boat.hull = Some(Hull::TwinHull);
        let numbers = roll_period(&boat);
        assert_eq!(numbers.tested_gm_m, None);
        assert!(numbers.test_refused.unwrap().contains("two hulls"));
    }

    #[test]
    fn a_range_stays_a_range() {
        let mut boat = boat();
        boat.gm_m = None;
        boat.roll_period_range_s = Some([2.0, 4.0]);
        let numbers = roll_period(&boat);
        assert_eq!(
            numbers.taken_s.map(f64::to_bits),
            [2.0_f64, 4.0].map(f64::to_bits)
        );
        boat.roll_test = Some(test(5, 30.0));
        let numbers = roll_period(&boat);
        assert!(
            numbers.disagreements[0].contains("outside"),
            "a stopwatch comes first"
        );
    }

    #[test]
    fn damping_is_given_or_of_the_form() {
        let mut boat = boat();
        assert!(roll_period(&boat).damping_source.contains("memory"));
        boat.roll_bertin_n = Some(0.0106);
        assert!(roll_period(&boat).damping_growth > 0.4);
        boat.roll_damping_ratio = Some(0.2);
        assert_eq!(roll_period(&boat).damping_source, "given");
    }
}
