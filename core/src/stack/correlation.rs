//! Normal dimensions that move together.
use super::StackError;

/// Correlations of some normal dimensions.
#[derive(Clone, Debug, PartialEq, Default)]
pub(crate) struct Correlation {
    /// Places of the dimensions.
    members: Vec<usize>,
    /// Correlation coefficients, row by row.
    coefficients: Vec<f64>,
}

/// What makes correlated values of independent ones.
#[derive(Clone, Debug, PartialEq, Default)]
pub(crate) struct Mixing {
    /// Places of the dimensions.
    pub members: Vec<usize>,
    /// Lower triangle whose product with its transpose the correlations are.
    root: Vec<f64>,
}

impl Correlation {
    /// Sets the coefficient of a pair.
    ///
    /// # Errors
    /// [`StackError::NotPositive`] for a dimension paired with itself, or a coefficient beyond 1.
    pub(crate) fn set(&mut self, one: usize, other: usize, coefficient: f64) -> Result<(), StackError> {
        let refuse = |reason| Err(StackError::NotPositive { what: "correlation", reason });
        if one == other {
            return refuse("a dimension was paired with itself".into());
        }
        if !(-1.0..=1.0).contains(&coefficient) {
            return refuse(format!("a coefficient must be from -1 to 1, not {coefficient}"));
        }
        let (row, column) = (self.place(one), self.place(other));
        let size = self.members.len();
        self.coefficients[row * size + column] = coefficient;
        self.coefficients[column * size + row] = coefficient;
        Ok(())
    }

    /// What makes correlated values.
    ///
    /// # Errors
    /// [`StackError::NotPositive`] where the coefficients contradict one another.
    pub(crate) fn mixing(&self) -> Result<Mixing, StackError> {
        let root = root(&self.coefficients, self.members.len()).ok_or_else(|| StackError::NotPositive {
            what: "correlation",
            reason:
                "its coefficients contradict one another: some sum of these dimensions would have a negative \
                     variance"
                    .into(),
        })?;
        Ok(Mixing { members: self.members.clone(), root })
    }

    /// Every pair of members once, with its coefficient.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = (usize, usize, f64)> {
        let size = self.members.len();
        (0..size).flat_map(move |row| {
            (0..row).map(move |column| {
                (self.members[row], self.members[column], self.coefficients[row * size + column])
            })
        })
    }

    /// Every pair of members once, the one that was named earlier first, so that to set them again gives them the same
    /// rows.
    pub(crate) fn in_order(&self) -> Vec<(usize, usize, f64)> {
        self.pairs().map(|(later, earlier, coefficient)| (earlier, later, coefficient)).collect()
    }

    /// The row of a dimension, a new one where it has none.
    fn place(&mut self, member: usize) -> usize {
        if let Some(row) = self.members.iter().position(|known| *known == member) {
            return row;
        }
        let (old, new) = (self.members.len(), self.members.len() + 1);
        let mut wider = vec![0.0; new * new];
        for row in 0..old {
            wider[row * new..][..old].copy_from_slice(&self.coefficients[row * old..][..old]);
        }
        wider[new * new - 1] = 1.0;
        self.coefficients = wider;
        self.members.push(member);
        old
    }
}

impl Mixing {
    /// Turns independent standard normal values of a row, one a member, into correlated ones.
    pub(crate) fn correlate(&self, values: &mut [f64]) {
        let size = self.members.len();
        for row in (0..size).rev() {
            let factors = &self.root[row * size..][..=row];
            values[row] = factors.iter().zip(values.iter()).map(|(factor, value)| factor * value).sum();
        }
    }
}

/// Cholesky's triangle of a matrix with ones on its diagonal; none where it is not positive semidefinite.
fn root(matrix: &[f64], size: usize) -> Option<Vec<f64>> {
    // What rounding leaves of a zero.
    const ZERO: f64 = 1e-12;
    let mut root = vec![0.0; size * size];
    for row in 0..size {
        for column in 0..=row {
            let dot: f64 = (0..column).map(|k| root[row * size + k] * root[column * size + k]).sum();
            let left = matrix[row * size + column] - dot;
            let pivot = root[column * size + column];
            root[row * size + column] = match () {
                () if row == column && left > ZERO => left.sqrt(),
                () if row == column && left >= -ZERO => 0.0,
                () if row == column => return None,
                () if pivot > 0.0 => left / pivot,
                () if left.abs() <= ZERO.sqrt() => 0.0,
                () => return None,
            };
        }
    }
    Some(root)
}

/// The standard deviations of a covariance matrix of so many rows.
///
/// # Errors
/// [`StackError::NotPositive`] unless it is of that count, finite, symmetric, and without a negative variance.
pub(crate) fn sigmas(matrix: &[f64], size: usize) -> Result<Vec<f64>, StackError> {
    let refuse = |reason| Err(StackError::NotPositive { what: "covariance", reason });
    if matrix.len() != size * size {
        return refuse(format!("{size} dimensions need {} numbers, not {}", size * size, matrix.len()));
    }
    if let Some(value) = matrix.iter().find(|value| !value.is_finite()) {
        return refuse(format!("it has {value} in it"));
    }
    let mut sigmas = Vec::with_capacity(size);
    for row in 0..size {
        let variance = matrix[row * size + row];
        if variance < 0.0 {
            return refuse(format!("the variance in row {row} is {variance}"));
        }
        sigmas.push(variance.sqrt());
    }
    for row in 0..size {
        for column in 0..row {
            let (one, other) = (matrix[row * size + column], matrix[column * size + row]);
            let most = sigmas[row] * sigmas[column];
            // What rounding leaves.
            let slack = 1e-9 * most;
            if (one - other).abs() > slack {
                return refuse(format!(
                    "{one} in row {row}, column {column} is {other} in column {row}, row {column}"
                ));
            }
            if one.abs() > most + slack {
                return refuse(format!(
                    "{one} in row {row}, column {column} is more than the two variances allow"
                ));
            }
        }
    }
    Ok(sigmas)
}
