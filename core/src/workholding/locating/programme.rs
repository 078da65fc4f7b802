//! A small linear programme: the greatest of a weighted sum of variables, none of them negative, under equations.
#![allow(clippy::needless_range_loop, reason = "rows and columns of a tableau are taken together")]

/// A number of this size or less is rounding, next to equations of size 1.
const ROUNDING: f64 = 1e-9;
/// No programme of so few contacts needs nearly as many steps.
const MAX_STEPS: usize = 20_000;

/// Equations with a solution that has no negative variable: a tableau of rows solved for their basic variables, the
/// right side last.
#[derive(Clone)]
pub(super) struct Programme {
    rows: Vec<Vec<f64>>,
    basic: Vec<usize>,
    variables: usize,
}

/// What equations come to.
pub(super) enum Balance {
    /// A solution.
    Found(Programme),
    /// None.
    Impossible,
    /// Not told within the steps.
    Unknown,
}

impl Programme {
    /// Looks for a solution of `rows · variables = right`, by the simplex method with a helper variable for each row.
    pub(super) fn balance(mut rows: Vec<Vec<f64>>, right: &[f64]) -> Balance {
        let (count, variables) = (rows.len(), rows.first().map_or(0, Vec::len));
        for (place, (row, &right)) in rows.iter_mut().zip(right).enumerate() {
            if right < 0.0 {
                row.iter_mut().for_each(|one| *one = -*one);
            }
            row.extend((0..count).map(|helper| f64::from(u8::from(helper == place))));
            row.push(right.abs());
        }
        let basic = (variables..variables + count).collect();
        let mut made = Programme { rows, basic, variables: variables + count };
        let goal: Vec<f64> = (0..variables + count).map(|k| if k < variables { 0.0 } else { -1.0 }).collect();
        match made.maximise(&goal) {
            None => return Balance::Unknown,
            Some(missing) if missing < -ROUNDING * (1.0 + right.iter().map(|one| one.abs()).sum::<f64>()) => {
                return Balance::Impossible;
            }
            Some(_) => {}
        }
        made.drop_helpers(variables);
        Balance::Found(made)
    }

    /// Takes the helpers out; a row that only a helper can solve says nothing that the others do not.
    fn drop_helpers(&mut self, variables: usize) {
        let mut place = 0;
        while place < self.rows.len() {
            if self.basic[place] >= variables {
                let row = &self.rows[place];
                let column =
                    (0..variables).fold(0, |best, k| if row[k].abs() > row[best].abs() { k } else { best });
                if variables == 0 || row[column].abs() <= ROUNDING {
                    self.rows.remove(place);
                    self.basic.remove(place);
                    continue;
                }
                self.pivot(place, column);
            }
            place += 1;
        }
        for row in &mut self.rows {
            let right = row.pop().unwrap_or(0.0);
            row.truncate(variables);
            row.push(right);
        }
        self.variables = variables;
    }

    /// The greatest value of the goal; nothing where it was not found or has no end. The variables are left at it.
    pub(super) fn maximise(&mut self, goal: &[f64]) -> Option<f64> {
        let last = self.variables;
        for step in 0..MAX_STEPS {
            // What each variable adds to the goal, less what it takes from the basic ones.
            let gain = |column: usize| {
                let taken: f64 =
                    self.rows.iter().zip(&self.basic).map(|(row, &k)| goal[k] * row[column]).sum();
                goal[column] - taken
            };
            // The best gain is quick; the first one, after Bland, never goes in circles.
            let gains = (0..last).map(|column| (column, gain(column))).filter(|(_, gain)| *gain > ROUNDING);
            let entering = match step < 200 {
                true => gains.fold(None, |best: Option<(usize, f64)>, one| match best {
                    Some(best) if best.1 >= one.1 => Some(best),
                    _ => Some(one),
                }),
                false => gains.min_by_key(|(column, _)| *column),
            };
            let Some((column, _)) = entering else {
                return Some(self.rows.iter().zip(&self.basic).map(|(row, &k)| goal[k] * row[last]).sum());
            };
            let mut leaving: Option<(usize, f64)> = None;
            for (place, row) in self.rows.iter().enumerate().filter(|(_, row)| row[column] > ROUNDING) {
                let ratio = row[last] / row[column];
                let better = leaving.is_none_or(|(best, least)| {
                    ratio < least || (ratio == least && self.basic[place] < self.basic[best])
                });
                if better {
                    leaving = Some((place, ratio));
                }
            }
            self.pivot(leaving?.0, column);
        }
        None
    }

    fn pivot(&mut self, place: usize, column: usize) {
        let by = self.rows[place][column];
        self.rows[place].iter_mut().for_each(|one| *one /= by);
        let pivot = std::mem::take(&mut self.rows[place]);
        for row in self.rows.iter_mut().filter(|row| !row.is_empty()) {
            let factor = row[column];
            if factor != 0.0 {
                row.iter_mut().zip(&pivot).for_each(|(one, pivot)| *one -= factor * pivot);
                row[column] = 0.0;
            }
        }
        self.rows[place] = pivot;
        // Rounding must not leave a basic variable below zero.
        for row in &mut self.rows {
            if let Some(right) = row.last_mut().filter(|right| **right < 0.0 && **right > -ROUNDING) {
                *right = 0.0;
            }
        }
        self.basic[place] = column;
    }

    /// The value of each variable.
    pub(super) fn values(&self) -> Vec<f64> {
        let mut values = vec![0.0; self.variables];
        for (row, &basic) in self.rows.iter().zip(&self.basic) {
            values[basic] = row[self.variables];
        }
        values
    }
}
