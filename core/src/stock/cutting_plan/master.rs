//! The linear programme over the patterns found so far, by the primal simplex method with a dense inverse.
//!
//! Floating point steers the search only: what is claimed of the optimum is computed in whole numbers from the
//! prices that come out of here.

use super::effort::Effort;

/// A variable: what it costs, and its entries by row.
#[derive(Clone, Debug)]
pub(super) struct PatternColumn {
    pub cost: f64,
    pub entries: Vec<(usize, f64)>,
}

/// Rows `Σ entries = right side`, with a basis that meets them.
pub(super) struct Master {
    right: Vec<f64>,
    pub columns: Vec<PatternColumn>,
    basis: Vec<usize>,
    /// The inverse of the basis, row by row.
    inverse: Vec<f64>,
    /// Values of the variables in the basis.
    values: Vec<f64>,
    in_basis: Vec<bool>,
    /// The price of each row at the present basis.
    prices: Vec<f64>,
    /// Pivots since the inverse was last made anew.
    age: usize,
}

/// Less than this is rounding.
const SMALL: f64 = 1e-9;
/// After this many pivots the inverse is made anew.
const RENEWED_AFTER: usize = 100;

impl Master {
    /// A programme whose first variables, one a row, are the basis: each has the entry 1 in its own row alone.
    /// The right sides are zero or more.
    pub fn new(right: Vec<f64>, costs: &[f64]) -> Self {
        let rows = right.len();
        let columns =
            (0..rows).map(|row| PatternColumn { cost: costs[row], entries: vec![(row, 1.0)] }).collect();
        let mut inverse = vec![0.0; rows * rows];
        for row in 0..rows {
            inverse[row * rows + row] = 1.0;
        }
        Self {
            columns,
            basis: (0..rows).collect(),
            inverse,
            values: right.clone(),
            right,
            in_basis: vec![true; rows],
            prices: costs.to_vec(),
            age: 0,
        }
    }

    /// Adds a variable, at zero.
    pub fn add(&mut self, column: PatternColumn) {
        self.columns.push(column);
        self.in_basis.push(false);
    }

    /// The price of each row at the present basis.
    pub fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// What a variable costs beyond the price of its entries.
    fn reduced_cost(&self, column: &PatternColumn) -> f64 {
        column.cost - column.entries.iter().map(|&(row, entry)| self.prices[row] * entry).sum::<f64>()
    }

    /// Value of each variable.
    pub fn solution(&self) -> Vec<f64> {
        let mut solution = vec![0.0; self.columns.len()];
        for (&column, &value) in self.basis.iter().zip(&self.values) {
            solution[column] = value.max(0.0);
        }
        solution
    }

    /// Brings the cost down as far as the variables at hand allow. False if that takes more than `most` pivots, or
    /// more effort than there is.
    pub fn optimise(&mut self, most: usize, effort: &Effort) -> bool {
        let rows = self.right.len() as u64;
        for pivots in 0..most {
            // After many pivots without an end, the first that helps is taken: that cannot go in circles.
            let mut entering = None;
            let mut least = -SMALL;
            for (index, column) in self.columns.iter().enumerate() {
                if !self.in_basis[index] {
                    let cost = self.reduced_cost(column);
                    if cost < least {
                        entering = Some(index);
                        least = cost;
                        if pivots > most / 2 {
                            break;
                        }
                    }
                }
            }
            let Some(entering) = entering else { return true };
            let steps = rows * rows + 8 * self.columns.len() as u64;
            if !self.pivot(entering, least) || !effort.spend(steps) {
                return false;
            }
        }
        false
    }

    /// Takes a variable of that reduced cost into the basis. False where it could grow without bound.
    fn pivot(&mut self, entering: usize, reduced_cost: f64) -> bool {
        let rows = self.right.len();
        let mut direction = vec![0.0; rows];
        for &(row, entry) in &self.columns[entering].entries {
            for (at, value) in direction.iter_mut().enumerate() {
                *value += entry * self.inverse[at * rows + row];
            }
        }
        let mut leaving = None;
        let (mut least, mut largest) = (f64::INFINITY, 0.0);
        for (at, &step) in direction.iter().enumerate() {
            if step > SMALL {
                let ratio = self.values[at].max(0.0) / step;
                if ratio < least - SMALL || (ratio < least + SMALL && step > largest) {
                    (leaving, least, largest) = (Some(at), ratio.min(least), step);
                }
            }
        }
        let Some(leaving) = leaving else { return false };
        self.in_basis[self.basis[leaving]] = false;
        self.in_basis[entering] = true;
        self.basis[leaving] = entering;
        self.age += 1;
        if self.age >= RENEWED_AFTER && self.renew() {
            return true;
        }
        let (before, rest) = self.inverse.split_at_mut(leaving * rows);
        let (pivot_row, after) = rest.split_at_mut(rows);
        let scale = 1.0 / direction[leaving];
        pivot_row.iter_mut().for_each(|entry| *entry *= scale);
        self.prices.iter_mut().zip(&*pivot_row).for_each(|(price, entry)| *price += reduced_cost * entry);
        let step = self.values[leaving] * scale;
        self.values[leaving] = step;
        let others = before.chunks_exact_mut(rows).chain(after.chunks_exact_mut(rows));
        let places = (0..leaving).chain(leaving + 1..rows);
        for (row, at) in others.zip(places) {
            let factor = direction[at];
            if factor != 0.0 {
                row.iter_mut().zip(&*pivot_row).for_each(|(entry, pivot)| *entry -= factor * pivot);
                self.values[at] -= factor * step;
            }
        }
        true
    }

    /// Makes the inverse anew from the columns of the basis, by Gauss and Jordan. False where they are too
    /// close to dependent.
    fn renew(&mut self) -> bool {
        let rows = self.right.len();
        let mut matrix = vec![0.0; rows * rows];
        for (at, &column) in self.basis.iter().enumerate() {
            for &(row, entry) in &self.columns[column].entries {
                matrix[row * rows + at] = entry;
            }
        }
        let mut inverse = vec![0.0; rows * rows];
        for row in 0..rows {
            inverse[row * rows + row] = 1.0;
        }
        for at in 0..rows {
            let size = |row: usize| matrix[row * rows + at].abs();
            let Some(pivot) = (at..rows).max_by(|&a, &b| size(a).total_cmp(&size(b))) else { return false };
            if size(pivot) < SMALL {
                return false;
            }
            for table in [&mut matrix, &mut inverse] {
                for column in 0..rows {
                    table.swap(at * rows + column, pivot * rows + column);
                }
            }
            let scale = 1.0 / matrix[at * rows + at];
            for table in [&mut matrix, &mut inverse] {
                table[at * rows..(at + 1) * rows].iter_mut().for_each(|entry| *entry *= scale);
            }
            for row in 0..rows {
                let factor = matrix[row * rows + at];
                if row != at && factor != 0.0 {
                    for table in [&mut matrix, &mut inverse] {
                        for column in 0..rows {
                            table[row * rows + column] -= factor * table[at * rows + column];
                        }
                    }
                }
            }
        }
        for at in 0..rows {
            let row = &inverse[at * rows..(at + 1) * rows];
            self.values[at] = row.iter().zip(&self.right).map(|(entry, right)| entry * right).sum();
        }
        self.inverse = inverse;
        self.prices = vec![0.0; rows];
        for (at, &column) in self.basis.iter().enumerate() {
            let cost = self.columns[column].cost;
            let row = &self.inverse[at * rows..(at + 1) * rows];
            self.prices.iter_mut().zip(row).for_each(|(price, entry)| *price += cost * entry);
        }
        self.age = 0;
        true
    }
}
