//! The roll at which each cylinder goes as a band, and the input that moves it most: never odds of guilt.
//!
//! Each input is put to both ends of its range alone, then all are drawn together with a fixed seed, each evenly over
//! its range. The band runs from the least to the most of all of these. The input that moves a cylinder most is the
//! one whose ends alone are furthest apart; how closely the drawn limits follow it is told as a rank correlation.
//!
//! # References
//!
//! One-at-a-time extremes and Spearman's rank correlation (textbook). Ranges: `engine::varied`, judgement where the
//! catalogue has none, told as such.

mod words;

#[cfg(test)]
mod varied_tests;

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng as _, SeedableRng as _};
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

use super::replay::rounded;
use crate::engine::{AS_GIVEN, Draw, Uncertain, Varied};
use crate::layout::Id;

/// Draws unless asked otherwise.
pub const USUAL_DRAWS: u32 = 64;

/// The seed unless asked otherwise.
pub const USUAL_SEED: u64 = 1;

/// Limits closer than this are the same, in degrees.
const SAME_DEG: f64 = 0.05;

/// An input at one end of its range, and the roll at which the cylinder then goes.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct AtEnd {
    /// The value, in words: `0.14`, `3.2 s`, `70 % of it`.
    pub value: String,

    /// The roll at which it goes, in degrees; `None` where it holds as far as is searched.
    pub limit_deg: Option<f64>,
}

/// What one input does alone.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Moves {
    /// The input, in words.
    pub input: &'static str,

    /// At the worse end of its range.
    pub worse: AtEnd,

    /// At the better end.
    pub better: AtEnd,

    /// How closely the drawn limits follow it: 1 if they rise with it always, 0 if they do not care.
    pub rank_correlation: f64,
}

/// What the band says of the part's own motion.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// It goes, whatever the inputs are within their ranges.
    Goes,
    /// It depends on them.
    Depends,
    /// It holds, whatever they are.
    Holds,
}

/// The limit of one cylinder as a band.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Band {
    /// The cylinder.
    pub cylinder: Id,

    /// The roll at which it goes with everything as given, in degrees; `None` where it holds as far as is searched.
    pub as_given_deg: Option<f64>,

    /// The least that was found.
    pub least_deg: Option<f64>,

    /// The most that was found.
    pub most_deg: Option<f64>,

    /// Does it go in the part's motion?
    pub answer: Answer,

    /// What moves it, most first; inputs that do not are left out.
    pub moved_by: Vec<Moves>,

    /// In a sentence.
    pub sentence: String,
}

/// The bands of a part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Bands {
    /// The roll of the part, least, given and most, in degrees.
    pub roll_deg: [f64; 3],

    /// How many draws.
    pub draws: u32,

    /// The seed of the draws.
    pub seed: u64,

    /// The cylinders, in the order of their names.
    pub cylinders: Vec<Band>,

    /// What was taken for the ranges, in words.
    pub assumptions: Vec<String>,
}

/// The bands of all cylinders of a part.
pub fn bands(varied: &Varied<'_, '_>, draws: u32, seed: u64) -> Bands {
    let drawn = drawn(draws, seed);
    let mut asked: Vec<Draw> = vec![AS_GIVEN];
    for input in 0..Uncertain::ALL.len() {
        for end in [0.0, 1.0] {
            let mut draw = AS_GIVEN;
            draw[input] = end;
            asked.push(draw);
        }
    }
    let ends = asked.len();
    asked.extend(&drawn);
    // In the order of the asking, whatever the threads do.
    let limits: Vec<Vec<f64>> = (asked.par_iter())
        .map(|draw| varied.limits_deg(draw))
        .collect();
    let roll_deg = varied.roll_deg();
    let cylinders = (varied.cylinders().enumerate())
        .map(|(number, id)| {
            let of: Vec<f64> = limits.iter().map(|limits| limits[number]).collect();
            let mut moved_by: Vec<(f64, Moves)> = (Uncertain::ALL.iter().enumerate())
                .filter_map(|(place, input)| {
                    let range = varied.range(number, *input)?;
                    let (worse, better) = (of[1 + 2 * place], of[2 + 2 * place]);
                    let apart = (bounded(better) - bounded(worse)).abs();
                    let inputs: Vec<f64> = drawn.iter().map(|draw| draw[place]).collect();
                    let mut ends_of = [
                        at_end(*input, range, range[0], worse),
                        at_end(*input, range, range[2], better),
                    ];
                    // A rack may hold a higher centre better, nearer to its edge.
                    if bounded(better) < bounded(worse) {
                        ends_of.reverse();
                    }
                    let [worse, better] = ends_of;
                    let moves = Moves {
                        input: words::input(*input),
                        worse,
                        better,
                        rank_correlation: rounded(rank_correlation(&inputs, &of[ends..]), 1e2),
                    };
                    (apart > SAME_DEG).then_some((apart, moves))
                })
                .collect();
            moved_by.sort_by(|a, b| (b.0.total_cmp(&a.0)).then_with(|| a.1.input.cmp(b.1.input)));
            let least = of.iter().copied().fold(f64::INFINITY, f64::min);
            let most = of.iter().copied().fold(0.0, f64::max);
            let answer = if most <= roll_deg[0] {
                Answer::Goes
            } else if least > roll_deg[2] {
                Answer::Holds
            } else {
                Answer::Depends
            };
            let mut band = Band {
                cylinder: id.clone(),
                as_given_deg: told(of[0]),
                least_deg: told(least),
                most_deg: told(most),
                answer,
                moved_by: moved_by.into_iter().map(|(_, moves)| moves).collect(),
                sentence: String::new(),
            };
            band.sentence = words::sentence(&band, roll_deg);
            band
        })
        .collect();
    Bands {
        roll_deg: roll_deg.map(|deg| rounded(deg, 1e2)),
        draws,
        seed,
        cylinders,
        assumptions: words::assumptions(varied.motion().source),
    }
}

/// Each input evenly over its range, the same on every machine.
fn drawn(draws: u32, seed: u64) -> Vec<Draw> {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let mut uniform = || (random.next_u64() >> 11) as f64 / (1_u64 << 53) as f64;
    (0..draws)
        .map(|_| {
            let mut draw = AS_GIVEN;
            for at in &mut draw {
                *at = uniform();
            }
            draw
        })
        .collect()
}

/// Beyond what is searched all are alike.
fn bounded(limit_deg: f64) -> f64 {
    limit_deg.min(crate::engine::numbers::LimitNumbers::SEARCHED_ROLL_DEG)
}

fn told(limit_deg: f64) -> Option<f64> {
    limit_deg.is_finite().then(|| rounded(limit_deg, 1e2))
}

fn at_end(input: Uncertain, range: [f64; 3], value: f64, limit_deg: f64) -> AtEnd {
    AtEnd {
        value: words::value(input, range, value),
        limit_deg: told(limit_deg),
    }
}

/// Spearman's: the correlation of the ranks, those of equal values shared; 0 where one of them never changes.
fn rank_correlation(one: &[f64], other: &[f64]) -> f64 {
    let (one, other) = (ranks(one), ranks(other));
    let n = one.len() as f64;
    let mean = f64::midpoint(n, 1.0);
    let product = |a: &[f64], b: &[f64]| -> f64 {
        (a.iter().zip(b))
            .map(|(a, b)| (a - mean) * (b - mean))
            .sum()
    };
    let size = (product(&one, &one) * product(&other, &other)).sqrt();
    if size > 0.0 {
        product(&one, &other) / size
    } else {
        0.0
    }
}

fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while from < order.len() {
        let value = values[order[from]];
        let mut to = from + 1;
        while to < order.len() && values[order[to]].total_cmp(&value).is_eq() {
            to += 1;
        }
        let shared = 0.5 * (from + 1 + to) as f64;
        for place in &order[from..to] {
            ranks[*place] = shared;
        }
        from = to;
    }
    ranks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;
    use crate::engine::Stowed;

    fn of(text: &str, seed: u64) -> Bands {
        let plan = fixture::plan(text).unwrap();
        let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
        let varied = Varied::new(&stowed, &plan.trips[0].parts[0]);
        bands(&varied, 24, seed)
    }

    #[test]
    fn what_slides_depends_on_friction() {
        let bands = of("deck 10x4 friction=0.2; running roll=8/4; stand A 5,0", 1);
        let band = &bands.cylinders[0];
        assert_eq!(band.answer, Answer::Depends, "{band:?}");
        assert_eq!(band.moved_by[0].input, "friction underfoot");
        assert_eq!(band.moved_by[0].worse.value, "0.18");
        assert!(band.least_deg < band.as_given_deg && band.as_given_deg < band.most_deg);
        assert!(band.moved_by[0].rank_correlation > 0.3, "{band:?}");
        assert!(
            band.sentence.contains("friction underfoot"),
            "{}",
            band.sentence
        );
    }

    #[test]
    fn what_is_far_from_its_limit_goes_or_holds() {
        let goes = of("deck 10x4 friction=0.2; running roll=40/3; stand A 5,0", 1);
        assert_eq!(goes.cylinders[0].answer, Answer::Goes);
        let holds = of("deck 10x4 friction=0.5; running roll=1/8; stand A 5,0", 1);
        assert_eq!(holds.cylinders[0].answer, Answer::Holds);
    }

    #[test]
    fn the_same_seed_gives_the_same_bytes() {
        let text = "deck 10x4; running roll=10/4; stand A 5,0; stand B 6,1 kit=90";
        let bytes = |seed| serde_json::to_string(&of(text, seed)).unwrap();
        assert_eq!(bytes(3), bytes(3));
        // Not only the number of the seed: what was drawn with it.
        assert_ne!(of(text, 3).cylinders, of(text, 4).cylinders);
    }

    /// All inputs together go further than any alone: the draws widen the band, and never narrow it.
    #[test]
    fn draws_of_all_together_widen_the_band() {
        // Tipping hangs on several inputs, none of which outweighs the others.
        let text = "deck 10x4 friction=0.9; running roll=10/4; stand A 5,0; stand B 6,1 kit=90";
        let plan = fixture::plan(text).unwrap();
        let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
        let varied = Varied::new(&stowed, &plan.trips[0].parts[0]);
        let (alone, together) = (bands(&varied, 0, 1), bands(&varied, 64, 1));
        let mut wider = 0;
        for (alone, together) in alone.cylinders.iter().zip(&together.cylinders) {
            let (before, after) = (alone.least_deg.unwrap(), together.least_deg.unwrap());
            assert!(after <= before, "{after} {before}");
            assert!(together.most_deg >= alone.most_deg);
            wider += u32::from(after < before - 0.05);
        }
        assert!(wider > 0, "{together:?}");
    }

    /// Six pairs with one swap: `1 - 6 sum d^2 / (n (n^2 - 1))` (textbook).
    #[test]
    fn rank_correlation_is_spearmans() {
        let one = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
        let other = [10.0, 20.0, 40.0, 30.0, 50.0, 60.0];
        let expected = 1.0 - 6.0 * 2.0 / (6.0 * 35.0);
        assert!((rank_correlation(&one, &other) - expected).abs() < 1e-12);
        assert!((rank_correlation(&one, &[7.0; 6])).abs() < 1e-12);
        assert_eq!(ranks(&[2.0, 1.0, 2.0]), [2.5, 1.0, 2.5]);
    }
}
