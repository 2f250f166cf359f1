//! Small dense systems of equations.

/// Solves `a x = b` by elimination with row pivoting; `None` where the matrix is singular to rounding.
pub(super) fn solve<const N: usize>(mut a: [[f64; N]; N], mut b: [f64; N]) -> Option<[f64; N]> {
    let scale = a
        .iter()
        .flatten()
        .fold(0.0_f64, |most, v| most.max(v.abs()));
    for column in 0..N {
        let pivot =
            (column..N).max_by(|i, j| a[*i][column].abs().total_cmp(&a[*j][column].abs()))?;
        // A pivot this small against the largest entry is rounding: elimination leaves a few units in
        // the last place, 1e-16 of the scale, times the size of the matrix.
        let is_sound = a[pivot][column].abs() > 1e-13 * scale;
        if !is_sound {
            return None;
        }
        a.swap(column, pivot);
        b.swap(column, pivot);
        let pivot_row = a[column];
        for row in column + 1..N {
            let factor = a[row][column] / pivot_row[column];
            for (entry, above) in a[row].iter_mut().zip(pivot_row) {
                *entry -= factor * above;
            }
            b[row] -= factor * b[column];
        }
    }
    let mut x = [0.0; N];
    for row in (0..N).rev() {
        let known: f64 = (row + 1..N).map(|k| a[row][k] * x[k]).sum();
        x[row] = (b[row] - known) / a[row][row];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}

/// A symmetric positive definite matrix as its Cholesky factor: the lower triangle `L` with
/// `L Lᵀ = A`.
#[derive(Debug)]
pub(super) struct Cholesky {
    lower: Vec<Vec<f64>>,
}

impl Cholesky {
    /// Which unknown, counted from 0, is not determined, if one is not.
    pub(super) fn new(a: &[Vec<f64>]) -> Result<Self, usize> {
        let n = a.len();
        let mut lower = vec![vec![0.0; n]; n];
        for i in 0..n {
            for j in 0..=i {
                let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
                let rest = a[i][j] - known;
                if i == j {
                    // What is left of a diagonal after the other unknowns are taken out is the share
                    // that determines this one. A billionth of it is an angle of 3e-5 between tapes.
                    if !(rest > 1e-9 * a[i][i] && rest.is_finite()) {
                        return Err(i);
                    }
                    lower[i][i] = rest.sqrt();
                } else {
                    lower[i][j] = rest / lower[j][j];
                }
            }
        }
        Ok(Self { lower })
    }

    /// Solves `A x = b`.
    pub(super) fn solve(&self, b: &[f64]) -> Vec<f64> {
        let n = self.lower.len();
        let mut x = b.to_vec();
        for i in 0..n {
            let known: f64 = (0..i).map(|k| self.lower[i][k] * x[k]).sum();
            x[i] = (x[i] - known) / self.lower[i][i];
        }
        for i in (0..n).rev() {
            let known: f64 = (i + 1..n).map(|k| self.lower[k][i] * x[k]).sum();
            x[i] = (x[i] - known) / self.lower[i][i];
        }
        x
    }

    /// The inverse of `A`.
    pub(super) fn inverse(&self) -> Vec<Vec<f64>> {
        let n = self.lower.len();
        (0..n)
            .map(|i| {
                let mut unit = vec![0.0; n];
                unit[i] = 1.0;
                self.solve(&unit)
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_system_is_solved_whatever_the_order_of_its_rows() {
        // x + 2y = 5, 3x + 4y = 11.
        assert_eq!(
            solve([[0.0, 1.0], [2.0, 0.0]], [3.0, 4.0]),
            Some([2.0, 3.0])
        );
        let [x, y] = solve([[1.0, 2.0], [3.0, 4.0]], [5.0, 11.0]).unwrap();
        assert!((x - 1.0).abs() < 1e-12 && (y - 2.0).abs() < 1e-12);
        assert_eq!(solve([[1.0, 2.0], [2.0, 4.0]], [1.0, 2.0]), None);
        assert_eq!(solve([[f64::NAN]], [1.0]), None);
    }

    #[test]
    fn the_inverse_gives_back_the_unit_matrix() {
        let a = vec![
            vec![4.0, 2.0, 0.6],
            vec![2.0, 5.0, 1.0],
            vec![0.6, 1.0, 3.0],
        ];
        let inverse = Cholesky::new(&a).unwrap().inverse();
        for (i, row) in a.iter().enumerate() {
            // The inverse of a symmetric matrix is symmetric: its rows are its columns.
            for (j, column) in inverse.iter().enumerate() {
                let product: f64 = row.iter().zip(column).map(|(a, b)| a * b).sum();
                let unit = if i == j { 1.0 } else { 0.0 };
                assert!((product - unit).abs() < 1e-12, "{i} {j}: {product}");
            }
        }
    }

    #[test]
    fn an_unknown_that_nothing_determines_is_named() {
        let a = vec![vec![1.0, 1.0], vec![1.0, 1.0]];
        assert_eq!(Cholesky::new(&a).unwrap_err(), 1);
    }
}
