use super::linear::Cholesky;
use super::{Covariance, Judgement, Located};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// A standardised residual beyond this is rarer than once in a thousand (two-sided) if only the stated
/// errors are at work.
///
/// # References
///
/// W. Baarda (1968), A testing procedure for use in geodetic networks, Netherlands Geodetic Commission,
/// Publications on Geodesy 2(5): α₀ = 0.001, critical value 3.29.
pub const SUSPECT_FROM: f64 = 3.291;

/// What a reading measures.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum ReadingKind {
    /// The distance between two points.
    Distance {
        /// The one.
        from: usize,
        /// The other.
        to: usize,
    },
    /// The distance forward of the transom, `x`.
    Along {
        /// Of which point.
        point: usize,
    },
    /// The distance to port of the centreline, `y`; below zero to starboard.
    Across {
        /// Of which point.
        point: usize,
    },
}

/// One reading.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Reading {
    /// What it measures; points are counted from 0.
    pub kind: ReadingKind,
    /// What was read, in metres.
    pub value_m: f64,
    /// Its standard error, in metres, more than 0.
    pub standard_error_m: f64,
}

/// Points and the readings between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Network {
    /// About where each point is; `true` where that is exact and must not move.
    pub points: Vec<(Vec2, bool)>,
    /// The readings.
    pub readings: Vec<Reading>,
}

/// What the adjustment says of one reading.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Adjustment {
    /// The reading less what the adjusted points say, in metres.
    pub residual_m: f64,
    /// The share of an error in this reading that shows in its residual, from 0 (nothing checks it) to 1
    /// (it could be left out).
    pub redundancy: f64,
    /// The residual in its own standard errors; `None` where nothing checks the reading.
    pub standardised: Option<f64>,
}

impl Adjustment {
    /// What the residual says; `None` where nothing checks the reading.
    pub fn judgement(&self) -> Option<Judgement> {
        self.standardised.map(Judgement::of)
    }
}

/// The adjusted network.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// The points with their uncertainty, as the stated errors of the readings give it.
    pub points: Vec<Located>,
    /// What it says of each reading, in their order.
    pub adjustments: Vec<Adjustment>,
    /// By how many the readings outnumber the unknowns.
    pub redundancy: usize,
    /// The weighted sum of squares over the redundancy: near 1 if the stated errors fit; `None` without
    /// redundancy.
    pub variance_factor: Option<f64>,
    /// The readings that are most likely wrong, the likeliest first: none unless one is beyond
    /// [`SUSPECT_FROM`], several where the readings do not tell them apart.
    pub suspects: Vec<usize>,
}

/// Why a network cannot be adjusted.
#[derive(Copy, Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NetworkError {
    /// A reading that is no number, has no standard error, or joins a point to itself or to none.
    #[error("reading {} is no reading between two points", .0 + 1)]
    BadReading(usize),

    /// A point that the readings leave free to move.
    #[error("the readings do not fix point {}: it needs another one", .0 + 1)]
    NotFixed(usize),

    /// The readings contradict each other so much that no shape comes near them all.
    #[error("the readings contradict each other too much: no shape comes near them all")]
    NoShape,
}

impl Network {
    /// Moves the points so that the weighted squares of the residuals are least.
    ///
    /// ```text
    /// minimise Σ ((l − f(x)) / σ)²  by Gauss-Newton:  N δ = Aᵀ P (l − f(x)),  N = Aᵀ P A
    /// covariance of the unknowns  C = N⁻¹
    /// redundancy of a reading     r = 1 − a C aᵀ / σ²
    /// standardised residual       w = v / (σ √r)
    /// ```
    ///
    /// | symbol | meaning |
    /// |---|---|
    /// | l, σ, P | readings, their standard errors, weights 1/σ² |
    /// | f, A, a | readings from the points, its derivatives, one row of it |
    /// | v | residual, reading less computed |
    ///
    /// A step that would raise the sum is halved. Of several wrong readings only the worst is named: take
    /// it again or leave it out, then adjust again. One check alone cannot tell a wrong reading from those
    /// that it depends on: then all of them are named.
    ///
    /// # Assumptions
    ///
    /// Readings are independent and normal; the first places are near enough for Gauss-Newton to find
    /// the right shape (on the right side of every line between two marks).
    ///
    /// # Accuracy
    ///
    /// Ends when no coordinate moves by more than 1e-10 m.
    ///
    /// # References
    ///
    /// C. D. Ghilani (2017), Adjustment Computations, 6th edition, Wiley, chapters 14 (trilateration) and
    /// 21 (blunder detection); Baarda (1968), see [`SUSPECT_FROM`].
    pub fn adjust(&self) -> Result<Adjusted, NetworkError> {
        self.check()?;
        let unknowns = Unknowns::of(&self.points);
        let mut at: Vec<Vec2> = self.points.iter().map(|(at, _)| *at).collect();
        let mut cost = self.cost(&at);
        // Gauss-Newton on a deck takes five to ten steps; a hundred is far beyond any that will end.
        for _ in 0..100 {
            let (normal, right) = self.normal_equations(&at, &unknowns);
            let factor = Cholesky::new(&normal)
                .map_err(|unknown| NetworkError::NotFixed(unknowns.points[unknown / 2]))?;
            let step = factor.solve(&right);
            let mut share = 1.0;
            let (next, next_cost) = loop {
                let next = unknowns.moved(&at, &step, share);
                let next_cost = self.cost(&next);
                if next_cost <= cost * (1.0 + 1e-12) + 1e-18 {
                    break (next, next_cost);
                }
                share *= 0.5;
                if share < 1e-9 {
                    break (at.clone(), cost);
                }
            };
            let most = at.iter().zip(&next).map(|(a, b)| a.distance(*b));
            let most = most.fold(0.0, f64::max);
            at = next;
            cost = next_cost;
            if !cost.is_finite() {
                return Err(NetworkError::NoShape);
            }
            if most < 1e-10 {
                return self.finish(&at, &unknowns, cost);
            }
        }
        Err(NetworkError::NoShape)
    }

    fn check(&self) -> Result<(), NetworkError> {
        let n = self.points.len();
        for (i, reading) in self.readings.iter().enumerate() {
            let joins = match reading.kind {
                ReadingKind::Distance { from, to } => from < n && to < n && from != to,
                ReadingKind::Along { point } | ReadingKind::Across { point } => point < n,
            };
            let is_number = reading.value_m.is_finite()
                && reading.standard_error_m > 0.0
                && reading.standard_error_m.is_finite();
            if !joins || !is_number {
                return Err(NetworkError::BadReading(i));
            }
        }
        match self.points.iter().position(|(at, _)| !at.is_finite()) {
            Some(point) => Err(NetworkError::NotFixed(point)),
            None => Ok(()),
        }
    }

    fn cost(&self, at: &[Vec2]) -> f64 {
        let squares = self.readings.iter().map(|reading| {
            let off = (reading.value_m - computed(reading.kind, at)) / reading.standard_error_m;
            off * off
        });
        squares.sum()
    }

    fn normal_equations(&self, at: &[Vec2], unknowns: &Unknowns) -> (Vec<Vec<f64>>, Vec<f64>) {
        let n = 2 * unknowns.points.len();
        let mut normal = vec![vec![0.0; n]; n];
        let mut right = vec![0.0; n];
        for reading in &self.readings {
            let weight = reading.standard_error_m.whole_power(-2);
            let off = reading.value_m - computed(reading.kind, at);
            let row = unknowns.row(reading.kind, at);
            for (i, a) in &row {
                right[*i] += a * weight * off;
                for (j, b) in &row {
                    normal[*i][*j] += a * weight * b;
                }
            }
        }
        (normal, right)
    }

    fn finish(
        &self,
        at: &[Vec2],
        unknowns: &Unknowns,
        cost: f64,
    ) -> Result<Adjusted, NetworkError> {
        let (normal, _) = self.normal_equations(at, unknowns);
        let covariance = Cholesky::new(&normal)
            .map_err(|unknown| NetworkError::NotFixed(unknowns.points[unknown / 2]))?
            .inverse();
        let adjustments: Vec<_> = self
            .readings
            .iter()
            .map(|reading| {
                let row = unknowns.row(reading.kind, at);
                let pairs = row.iter().flat_map(|i| row.iter().map(move |j| (i, j)));
                let variance: f64 = pairs
                    .map(|((i, a), (j, b))| a * covariance[*i][*j] * b)
                    .sum();
                let sigma = reading.standard_error_m;
                let redundancy = (1.0 - variance / (sigma * sigma)).clamp(0.0, 1.0);
                let residual_m = reading.value_m - computed(reading.kind, at);
                // Where less than a thousandth of an error would show, the rest is rounding.
                let standardised =
                    (redundancy > 1e-3).then(|| residual_m / (sigma * redundancy.sqrt()));
                Adjustment {
                    residual_m,
                    redundancy,
                    standardised,
                }
            })
            .collect();
        let redundancy = self
            .readings
            .len()
            .saturating_sub(2 * unknowns.points.len());
        let points = at.iter().enumerate().map(|(i, at)| Located {
            at: *at,
            covariance: match unknowns.index[i] {
                Some(k) => Covariance {
                    xx: covariance[2 * k][2 * k],
                    xy: covariance[2 * k][2 * k + 1],
                    yy: covariance[2 * k + 1][2 * k + 1],
                },
                None => Covariance::default(),
            },
        });
        Ok(Adjusted {
            points: points.collect(),
            suspects: suspects(&adjustments),
            adjustments,
            redundancy,
            variance_factor: (redundancy > 0).then(|| cost / redundancy as f64),
        })
    }
}

/// Readings whose standardised residuals are nearer to the greatest than this are not told apart: with one
/// check too few they are equal but for rounding.
const SAME_SHARE: f64 = 0.98;

fn suspects(adjustments: &[Adjustment]) -> Vec<usize> {
    let off = |i: &usize| adjustments[*i].standardised.map_or(0.0, f64::abs);
    let mut all: Vec<usize> = (0..adjustments.len()).collect();
    all.sort_by(|a, b| off(b).total_cmp(&off(a)));
    let worst = all.first().map_or(0.0, off);
    all.retain(|i| worst > SUSPECT_FROM && off(i) >= SAME_SHARE * worst);
    all
}

/// Which points move, and where their coordinates stand among the unknowns.
struct Unknowns {
    points: Vec<usize>,
    index: Vec<Option<usize>>,
}

impl Unknowns {
    fn of(points: &[(Vec2, bool)]) -> Self {
        let mut found = Self {
            points: Vec::new(),
            index: Vec::new(),
        };
        for (i, (_, is_known)) in points.iter().enumerate() {
            found.index.push((!is_known).then_some(found.points.len()));
            if !is_known {
                found.points.push(i);
            }
        }
        found
    }

    fn moved(&self, at: &[Vec2], step: &[f64], share: f64) -> Vec<Vec2> {
        let mut moved = at.to_vec();
        for (k, point) in self.points.iter().enumerate() {
            moved[*point].x += share * step[2 * k];
            moved[*point].y += share * step[2 * k + 1];
        }
        moved
    }

    /// The derivatives of a reading by the unknowns, those that are not zero.
    fn row(&self, kind: ReadingKind, at: &[Vec2]) -> Vec<(usize, f64)> {
        let mut row = Vec::with_capacity(4);
        let mut add = |point: usize, direction: Vec2| {
            if let Some(k) = self.index[point] {
                row.extend([(2 * k, direction.x), (2 * k + 1, direction.y)]);
            }
        };
        match kind {
            ReadingKind::Distance { from, to } => {
                let direction = (at[to] - at[from]).normalized().unwrap_or(Vec2::ZERO);
                add(to, direction);
                add(from, -direction);
            }
            ReadingKind::Along { point } => add(point, Vec2 { x: 1.0, y: 0.0 }),
            ReadingKind::Across { point } => add(point, Vec2 { x: 0.0, y: 1.0 }),
        }
        row
    }
}

fn computed(kind: ReadingKind, at: &[Vec2]) -> f64 {
    match kind {
        ReadingKind::Distance { from, to } => at[from].distance(at[to]),
        ReadingKind::Along { point } => at[point].x,
        ReadingKind::Across { point } => at[point].y,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::test_support::cases;
    use crate::geometry::vec2;
    use proptest::prelude::*;

    fn distance(from: usize, to: usize, value_m: f64) -> Reading {
        Reading {
            kind: ReadingKind::Distance { from, to },
            value_m,
            standard_error_m: 0.0025,
        }
    }

    fn known(x: f64, y: f64) -> (Vec2, bool) {
        (vec2(x, y), true)
    }

    #[test]
    fn a_point_with_one_tape_is_not_fixed() {
        let network = Network {
            points: vec![known(0.0, 0.0), (vec2(1.0, 1.0), false)],
            readings: vec![distance(0, 1, 1.4)],
        };
        assert_eq!(network.adjust(), Err(NetworkError::NotFixed(1)));
        let mut nowhere = network;
        nowhere.readings[0].value_m = f64::NAN;
        assert_eq!(nowhere.adjust(), Err(NetworkError::BadReading(0)));
    }

    #[test]
    fn without_a_check_no_reading_is_judged() {
        let network = Network {
            points: vec![known(0.0, 0.0), known(5.0, 0.0), (vec2(2.0, 2.0), false)],
            readings: vec![distance(0, 2, 3.0), distance(1, 2, 4.0)],
        };
        let adjusted = network.adjust().unwrap();
        assert!(adjusted.points[2].at.distance(vec2(1.8, 2.4)) < 1e-9);
        assert_eq!(adjusted.redundancy, 0);
        assert!(adjusted.adjustments.iter().all(|a| a.judgement().is_none()));
        assert!(adjusted.suspects.is_empty(), "{:?}", adjusted.suspects);
        let ellipse = adjusted.points[2].covariance.ellipse();
        assert!((ellipse.major_m - 0.0025).abs() < 1e-9, "as with two tapes");
    }

    proptest! {
        #![proptest_config(cases(60))]

        /// A box of four corners, all six distances and the stations: of a slip of 6 cm in any one
        /// distance that one is named, and no other.
        #[test]
        fn the_wrong_reading_is_found(
            length in 2.0_f64..6.0, width in 1.0_f64..3.0,
            noise in prop::collection::vec(-1.0_f64..1.0, 14),
            wrong in 8_usize..14, slip in prop_oneof![Just(-0.06), Just(0.06)],
        ) {
            let half = 0.5 * width;
            let corners = [vec2(0.0, half), vec2(0.0, -half), vec2(length, -half), vec2(length, half)];
            let mut readings = Vec::new();
            for (i, c) in corners.iter().enumerate() {
                for (kind, value_m) in [
                    (ReadingKind::Along { point: i }, c.x),
                    (ReadingKind::Across { point: i }, c.y),
                ] {
                    readings.push(Reading { kind, value_m, standard_error_m: 0.0025 });
                }
            }
            for (i, j) in [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)] {
                readings.push(distance(i, j, corners[i].distance(corners[j])));
            }
            for (reading, noise) in readings.iter_mut().zip(noise) {
                reading.value_m += 0.002 * noise;
            }
            let mut network = Network {
                points: corners.iter().map(|c| (*c + vec2(0.1, -0.05), false)).collect(),
                readings,
            };
            let clean = network.adjust().unwrap();
            prop_assert!(clean.suspects.is_empty(), "{:?}", clean.adjustments);
            network.readings[wrong].value_m += slip;
            let found = network.adjust().unwrap();
            prop_assert_eq!(found.suspects.first(), Some(&wrong));
            let shares: f64 = found.adjustments.iter().map(|a| a.redundancy).sum();
            prop_assert!((shares - 6.0).abs() < 1e-6, "the redundancies add up: {shares}");
        }
    }
}
