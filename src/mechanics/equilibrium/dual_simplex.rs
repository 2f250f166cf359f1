//! A small dense linear program that grows: maximise over a box, add a row, continue.
//!
//! The method is the dual simplex method on a dictionary with bounded variables. It suits cutting
//! planes: the start (every variable at the bound that its objective likes) is dual feasible without
//! any search, and a new row needs only a few pivots from where the last solution stood. A variable
//! that is held at its upper bound is replaced by its distance from that bound, so that everything
//! that is not basic is zero.
//!
//! # Assumptions
//!
//! Every variable with a positive objective has a finite upper bound. Rows are scaled by the caller
//! so that their terms are of the order of one.
//!
//! # References
//!
//! Chvátal (1983), *Linear Programming*, chapters 3, 8 and 10 (dictionaries, upper bounds, dual
//! simplex method). Bland (1977), New finite pivoting rules for the simplex method, Mathematics of
//! Operations Research 2, 103-107.

/// By how much a bound may be missed, in the caller's scaled units: far above the rounding of a few
/// dozen pivots on numbers of the order of one to a thousand, far below any force that matters.
const FEASIBLE: f64 = 1e-10;

/// A coefficient that is smaller than this cannot be told from rounding and is no pivot.
const PIVOT: f64 = 1e-10;

/// Two ratios that are closer than this count as equal, so that the larger pivot is taken.
const TIE: f64 = 1e-13;

/// After so many pivots in one run the smallest index is taken, which cannot cycle.
const PIVOTS_BEFORE_BLAND: usize = 60;

/// No program of this size takes as many; the run is then given up and counts as not solved.
const MOST_PIVOTS: usize = 2000;

/// Why there is no optimum.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) enum Failure {
    /// No point satisfies all rows and bounds.
    Infeasible,

    /// Rounding kept it from an end.
    Stalled,
}

#[derive(Copy, Clone, Debug)]
enum Place {
    /// Zero, in this column.
    Column(usize),
    /// Expressed by the columns, in this row.
    Row(usize),
}

/// Maximise `objective · x` over `0 <= x <= upper` and the rows added so far.
#[derive(Clone, Debug)]
pub(super) struct DualSimplex {
    columns: usize,
    /// Row by row: the constant, then one coefficient for each column.
    table: Vec<f64>,
    /// The objective in the same form; no coefficient is positive.
    objective: Vec<f64>,
    in_row: Vec<usize>,
    in_column: Vec<usize>,
    place: Vec<Place>,
    upper: Vec<f64>,
    /// The variable is counted downwards from its upper bound.
    flipped: Vec<bool>,
}

impl DualSimplex {
    /// A program without rows; `bounds` gives the upper bound and the objective of each variable.
    pub(super) fn new(bounds: impl Iterator<Item = (f64, f64)>, columns: usize) -> Self {
        let mut program = Self {
            columns,
            table: Vec::with_capacity((columns + 1) * 16),
            objective: Vec::with_capacity(columns + 1),
            in_row: Vec::with_capacity(16),
            in_column: Vec::with_capacity(columns),
            place: Vec::with_capacity(columns + 16),
            upper: Vec::with_capacity(columns + 16),
            flipped: Vec::with_capacity(columns + 16),
        };
        program.objective.push(0.0);
        for (column, (upper, objective)) in bounds.enumerate() {
            let flip = objective > 0.0;
            debug_assert!(!flip || upper.is_finite(), "nothing bounds the objective");
            if flip {
                program.objective[0] += objective * upper;
            }
            program.objective.push(-objective.abs());
            program.in_column.push(column);
            program.place.push(Place::Column(column));
            program.upper.push(upper);
            program.flipped.push(flip);
        }
        debug_assert_eq!(program.in_column.len(), columns, "one column a variable");
        program
    }

    /// Goes back to a program of the same variables, and keeps its own memory.
    pub(super) fn restart(&mut self, from: &Self) {
        self.columns = from.columns;
        self.table.clone_from(&from.table);
        self.objective.clone_from(&from.objective);
        self.in_row.clone_from(&from.in_row);
        self.in_column.clone_from(&from.in_column);
        self.place.clone_from(&from.place);
        self.upper.clone_from(&from.upper);
        self.flipped.clone_from(&from.flipped);
    }

    /// Adds `coefficients · x <= limit`; returns the number of the row, counted from 0.
    pub(super) fn add_row(&mut self, coefficients: impl Iterator<Item = f64>, limit: f64) -> usize {
        let stride = self.columns + 1;
        let start = self.table.len();
        self.table.resize(start + stride, 0.0);
        let (rows, row) = self.table.split_at_mut(start);
        row[0] = limit;
        for (variable, coefficient) in coefficients.enumerate() {
            let mut coefficient = coefficient;
            if self.flipped[variable] {
                row[0] -= coefficient * self.upper[variable];
                coefficient = -coefficient;
            }
            match self.place[variable] {
                Place::Column(column) => row[column + 1] -= coefficient,
                Place::Row(other) => {
                    let other = &rows[other * stride..(other + 1) * stride];
                    for (entry, term) in row.iter_mut().zip(other) {
                        *entry -= coefficient * term;
                    }
                }
            }
        }
        let variable = self.place.len();
        self.place.push(Place::Row(self.in_row.len()));
        self.in_row.push(variable);
        self.upper.push(f64::INFINITY);
        self.flipped.push(false);
        variable - self.columns
    }

    /// Goes on to the optimum from where it stands.
    pub(super) fn solve(&mut self) -> Result<(), Failure> {
        for pivots in 0..MOST_PIVOTS {
            let bland = pivots >= PIVOTS_BEFORE_BLAND;
            let Some(row) = self.leaving_row(bland) else {
                return Ok(());
            };
            let column = self
                .entering_column(row, bland)
                .ok_or(Failure::Infeasible)?;
            self.pivot(row, column);
        }
        Err(Failure::Stalled)
    }

    /// The row that misses a bound by most, turned so that it is the lower one.
    fn leaving_row(&mut self, bland: bool) -> Option<usize> {
        let stride = self.columns + 1;
        let mut chosen: Option<(usize, f64)> = None;
        for (row, &variable) in self.in_row.iter().enumerate() {
            let value = self.table[row * stride];
            let above = value - self.upper[variable];
            let missed = if -value > above { -value } else { above };
            if missed <= FEASIBLE {
                continue;
            }
            let better = chosen.is_none_or(|(best, most)| {
                if bland {
                    variable < self.in_row[best]
                } else {
                    missed > most
                }
            });
            if better {
                chosen = Some((row, missed));
            }
        }
        let (row, _) = chosen?;
        let variable = self.in_row[row];
        let entries = &mut self.table[row * stride..(row + 1) * stride];
        if entries[0] > 0.0 {
            for entry in entries.iter_mut() {
                *entry = -*entry;
            }
            entries[0] += self.upper[variable];
            self.flipped[variable] = !self.flipped[variable];
        }
        Some(row)
    }

    /// The column that raises the row at the least loss of the objective.
    fn entering_column(&self, row: usize, bland: bool) -> Option<usize> {
        let stride = self.columns + 1;
        let entries = &self.table[row * stride + 1..(row + 1) * stride];
        let mut chosen: Option<(usize, f64)> = None;
        for (column, (&entry, &loss)) in entries.iter().zip(&self.objective[1..]).enumerate() {
            if entry <= PIVOT {
                continue;
            }
            let ratio = -loss / entry;
            let better = chosen.is_none_or(|(best, least)| {
                if (ratio - least).abs() > TIE {
                    ratio < least
                } else if bland {
                    self.in_column[column] < self.in_column[best]
                } else {
                    entry > entries[best]
                }
            });
            if better {
                chosen = Some((column, ratio));
            }
        }
        chosen.map(|(column, _)| column)
    }

    /// Exchanges the variable of a row with that of a column.
    fn pivot(&mut self, row: usize, column: usize) {
        let stride = self.columns + 1;
        let start = row * stride;
        let inverse = 1.0 / self.table[start + column + 1];
        for entry in &mut self.table[start..start + stride] {
            *entry *= -inverse;
        }
        self.table[start + column + 1] = inverse;

        let (before, rest) = self.table.split_at_mut(start);
        let (pivot_row, after) = rest.split_at_mut(stride);
        let others = before
            .chunks_exact_mut(stride)
            .chain(after.chunks_exact_mut(stride));
        for other in others.chain(std::iter::once(self.objective.as_mut_slice())) {
            let factor = std::mem::replace(&mut other[column + 1], 0.0);
            if factor.abs() > 0.0 {
                for (entry, term) in other.iter_mut().zip(pivot_row.iter()) {
                    *entry += factor * term;
                }
            }
        }
        // A rounding error of the wrong sign would let the objective rise for ever.
        for loss in &mut self.objective[1..] {
            *loss = loss.min(0.0);
        }

        let leaving = self.in_row[row];
        let entering = self.in_column[column];
        self.in_row[row] = entering;
        self.in_column[column] = leaving;
        self.place[entering] = Place::Row(row);
        self.place[leaving] = Place::Column(column);
    }

    /// The value of a variable at the present point.
    pub(super) fn value(&self, variable: usize) -> f64 {
        let counted = match self.place[variable] {
            Place::Column(_) => 0.0,
            Place::Row(row) => self.table[row * (self.columns + 1)],
        };
        if self.flipped[variable] {
            self.upper[variable] - counted
        } else {
            counted
        }
    }

    /// What the objective would gain by relaxing a row by one: zero unless the row is tight.
    pub(super) fn multiplier(&self, row: usize) -> f64 {
        match self.place[self.columns + row] {
            Place::Column(column) => -self.objective[column + 1],
            Place::Row(_) => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn program(
        bounds: &[(f64, f64)],
        rows: &[(&[f64], f64)],
    ) -> (DualSimplex, Result<(), Failure>) {
        let mut program = DualSimplex::new(bounds.iter().copied(), bounds.len());
        let mut end = program.solve();
        for (coefficients, limit) in rows {
            program.add_row(coefficients.iter().copied(), *limit);
            end = program.solve();
        }
        (program, end)
    }

    #[test]
    fn without_rows_the_box_decides() {
        let (program, end) = program(&[(3.0, 1.0), (2.0, 0.0)], &[]);
        assert_eq!(end, Ok(()));
        assert!((program.value(0) - 3.0).abs() < 1e-12);
    }

    /// Chvátal (1983), page 13: maximise 5x + 4y + 3z; the optimum is 13 at (2, 0, 1).
    #[test]
    fn textbook_example() {
        let (program, end) = program(
            &[(1e3, 5.0), (1e3, 4.0), (1e3, 3.0)],
            &[
                (&[2.0, 3.0, 1.0], 5.0),
                (&[4.0, 1.0, 2.0], 11.0),
                (&[3.0, 4.0, 2.0], 8.0),
            ],
        );
        assert_eq!(end, Ok(()));
        let x: Vec<f64> = (0..3).map(|i| program.value(i)).collect();
        for (value, expected) in x.iter().zip([2.0, 0.0, 1.0]) {
            assert!((value - expected).abs() < 1e-9, "{x:?}");
        }
        // By duality the prices of the rows make up the optimum: 5 y1 + 11 y2 + 8 y3 = 13.
        let bound = 5.0 * program.multiplier(0)
            + 11.0 * program.multiplier(1)
            + 8.0 * program.multiplier(2);
        assert!((bound - 13.0).abs() < 1e-9, "{bound}");
    }

    #[test]
    fn contradicting_rows_are_told() {
        let (_, end) = program(&[(10.0, 1.0)], &[(&[-1.0], -3.0), (&[1.0], 2.0)]);
        assert_eq!(end, Err(Failure::Infeasible));
    }

    #[test]
    fn upper_bounds_are_kept() {
        let (program, end) = program(&[(100.0, 1.0), (4.0, 0.0)], &[(&[1.0, -2.0], 1.0)]);
        assert_eq!(end, Ok(()));
        assert!((program.value(0) - 9.0).abs() < 1e-9);
        assert!((program.value(1) - 4.0).abs() < 1e-9);
    }
}
