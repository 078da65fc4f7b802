//! The convex part of a choice: a sum of exponentials of straight functions, under straight limits.
//!
//! In the logarithms of speed, feed and depth, what is a power of them is straight, and a cost that is a sum of powers
//! is convex. So one descent finds the least of all, and the prices of the limits prove that nothing lies lower.
use crate::math::{exp, ln};

/// Unknowns at most, with the one that the search for a first point adds.
pub(super) const MAX_UNKNOWNS: usize = 7;
/// A number for each unknown.
pub(super) type Vector = [f64; MAX_UNKNOWNS];
/// By how much the logarithm of the result may be above the least, as a sum over the limits.
const GAP: f64 = 1e-10;
/// How far apart, in logarithms, two limits that just meet may be taken to be.
const TOUCH: f64 = 1e-9;
/// Steps of Newton's method in all, a bound that no sound problem comes near.
const MAX_STEPS: usize = 600;

/// The sum that is kept low: of `exp(level + slopes · u)`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Term {
    pub level: f64,
    pub slopes: Vector,
}

/// A limit: `slopes · u` is at most `bound`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub slopes: Vector,
    pub bound: f64,
    /// The place of the limit that it stands for; nothing for one that the search made.
    pub limit: Option<usize>,
}

/// What to keep low, and under which limits.
#[derive(Clone, Debug, Default)]
pub(super) struct Program {
    pub unknowns: usize,
    pub terms: Vec<Term>,
    pub rows: Vec<Row>,
    /// The ranges of the unknowns, which rows state too.
    pub ranges: Vec<(f64, f64)>,
}

/// The least, and what proves it.
#[derive(Clone, Debug)]
pub(super) struct Least {
    pub at: Vector,
    /// The logarithm of the sum there.
    pub value: f64,
    /// No point within the limits has a lower one.
    pub bound: f64,
    /// What each row is worth: the fall of the logarithm of the sum by that of the limit.
    pub prices: Vec<f64>,
}

/// The limits do not meet.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Apart;

pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Program {
    /// The least of all, where the limits meet.
    pub fn least(&self) -> Result<Least, Apart> {
        let excess = |at: &Vector| {
            self.rows.iter().map(|row| dot(&row.slopes, at) - row.bound).fold(f64::NEG_INFINITY, f64::max)
        };
        let mut middle = [0.0; MAX_UNKNOWNS];
        for (to, (low, high)) in middle.iter_mut().zip(&self.ranges) {
            *to = 0.5 * (low + high);
        }
        if excess(&middle) < -1e-3 {
            return Ok(self.descend(middle));
        }
        let (start, left) = self.widest(middle, excess(&middle), |_| true);
        match left {
            left if left < -1e-11 => Ok(self.descend(start)),
            left if left <= TOUCH => {
                let mut touching = self.clone();
                touching.rows.iter_mut().for_each(|row| row.bound += left.max(0.0) + 0.1 * TOUCH);
                Ok(touching.descend(start))
            }
            _ => Err(Apart),
        }
    }

    /// The point at which the worst of the rows that `give` is best, and what that is: below zero, all others hold too.
    ///
    /// The rows that do not give must hold at the start.
    pub fn widest(&self, start: Vector, excess: f64, give: impl Fn(&Row) -> bool) -> (Vector, f64) {
        let z = self.unknowns;
        let mut wide = Program { unknowns: z + 1, ..Program::default() };
        let mut slopes = [0.0; MAX_UNKNOWNS];
        slopes[z] = 1.0;
        wide.terms = vec![Term { level: 0.0, slopes }];
        wide.rows = self.rows.clone();
        for row in wide.rows.iter_mut().filter(|row| give(row)) {
            row.slopes[z] = -1.0;
        }
        // Wider than a thousandth is wide enough to start from, and keeps the search bounded.
        wide.rows.push(Row {
            slopes: {
                let mut down = [0.0; MAX_UNKNOWNS];
                down[z] = -1.0;
                down
            },
            bound: 1.0,
            limit: None,
        });
        wide.ranges = self.ranges.clone();
        wide.ranges.push((-1.0, excess.max(0.0) + 1.0));
        let mut at = start;
        at[z] = excess.max(0.0) + 1.0;
        let least = wide.descend_until(at, |at| at[z] < -1e-3);
        let left = least.at[z];
        let mut at = least.at;
        at[z] = 0.0;
        (at, left)
    }

    fn descend(&self, start: Vector) -> Least {
        self.descend_until(start, |_| false)
    }

    /// The least by interior points, from a point within every limit.
    fn descend_until(&self, start: Vector, done: impl Fn(&Vector) -> bool) -> Least {
        let count = self.rows.len().max(1) as f64;
        let (mut at, mut weight, mut steps) = (start, 2.0 * count, 0);
        loop {
            let mut last = f64::INFINITY;
            while steps < MAX_STEPS {
                steps += 1;
                let Some(decrement) = self.step(&mut at, weight) else { break };
                // Nearer than this, rounding is all that moves.
                if done(&at) || decrement < 1e-14 || (decrement < 1e-6 && decrement > 0.25 * last) {
                    break;
                }
                last = decrement;
            }
            if done(&at) || count / weight < GAP || steps >= MAX_STEPS {
                return self.judged(at, weight);
            }
            weight = (weight * 40.0).min(1.01 * count / GAP);
        }
    }

    /// One step of Newton's method on `weight · ln sum - Σ ln slack`; nothing where none leads lower.
    fn step(&self, at: &mut Vector, weight: f64) -> Option<f64> {
        let n = self.unknowns;
        let (value, mut gradient, mut hessian) = self.sum(at, true);
        gradient.iter_mut().chain(hessian.iter_mut().flatten()).for_each(|by| *by *= weight);
        for row in &self.rows {
            let inverse = 1.0 / (row.bound - dot(&row.slopes, at));
            gradient.iter_mut().zip(&row.slopes).for_each(|(by, slope)| *by += slope * inverse);
            add_square(&mut hessian, inverse * inverse, &row.slopes, n);
        }
        let direction = newton(&mut hessian, &gradient, n)?;
        let decrement = -dot(&gradient, &direction);
        if !(decrement > 0.0 && decrement.is_finite()) {
            return None;
        }
        // As far as the nearest limit lets it, and no farther than it still leads lower.
        let mut length = 1.0f64;
        for row in &self.rows {
            let closing = dot(&row.slopes, &direction);
            if closing > 0.0 {
                length = length.min(0.95 * (row.bound - dot(&row.slopes, at)) / closing);
            }
        }
        let moved = |length: f64| {
            let mut next = *at;
            next.iter_mut().zip(&direction).for_each(|(to, by)| *to += length * by);
            next
        };
        // So near, the whole step is right, and its gain is lost in the rounding of the sum.
        if decrement < 1e-2 {
            *at = moved(length);
            return Some(decrement);
        }
        for _ in 0..40 {
            let next = moved(length);
            let shares = self
                .rows
                .iter()
                .map(|row| (row.bound - dot(&row.slopes, &next)) / (row.bound - dot(&row.slopes, at)));
            let product: f64 = shares.product();
            let change = weight * (self.sum(&next, false).0 - value) - ln(product.max(f64::MIN_POSITIVE));
            if product > 0.0 && change <= -0.1 * length * decrement {
                *at = next;
                return Some(decrement);
            }
            length *= 0.5;
        }
        None
    }

    /// The logarithm of the sum, its gradient and its curvature.
    fn sum(&self, at: &Vector, with_slopes: bool) -> (f64, Vector, [Vector; MAX_UNKNOWNS]) {
        let (n, mut gradient, mut hessian) =
            (self.unknowns, [0.0; MAX_UNKNOWNS], [[0.0; MAX_UNKNOWNS]; MAX_UNKNOWNS]);
        if let [term] = self.terms[..] {
            return (term.level + dot(&term.slopes, at), term.slopes, hessian);
        }
        let level = |term: &Term| term.level + dot(&term.slopes, at);
        let most = self.terms.iter().map(level).fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = self.terms.iter().map(|term| exp(level(term) - most)).sum();
        if with_slopes {
            for term in &self.terms {
                let share = exp(level(term) - most) / total;
                gradient.iter_mut().zip(&term.slopes).for_each(|(by, slope)| *by += share * slope);
                add_square(&mut hessian, share, &term.slopes, n);
            }
            add_square(&mut hessian, -1.0, &gradient, n);
        }
        (most + ln(total), gradient, hessian)
    }

    /// The point with the bound that its prices prove.
    ///
    /// A convex sum lies above its tangent, and the tangent above what the slacks, each times its price, leave of it,
    /// but for what the prices do not balance, over the whole ranges.
    fn judged(&self, at: Vector, weight: f64) -> Least {
        let n = self.unknowns;
        let (value, gradient, _) = self.sum(&at, true);
        let slacks: Vec<f64> = self.rows.iter().map(|row| row.bound - dot(&row.slopes, &at)).collect();
        let mut prices: Vec<f64> = slacks.iter().map(|slack| 1.0 / (weight * slack)).collect();
        let unbalanced = |prices: &[f64]| {
            let mut left = gradient;
            for (row, price) in self.rows.iter().zip(prices) {
                left.iter_mut().zip(&row.slopes).for_each(|(left, slope)| *left += price * slope);
            }
            left
        };
        // Slacks are small differences, and so their prices rough: the least change by shares balances them.
        for _ in 0..2 {
            let left = unbalanced(&prices);
            let mut shares = [[0.0; MAX_UNKNOWNS]; MAX_UNKNOWNS];
            for (row, price) in self.rows.iter().zip(&prices) {
                add_square(&mut shares, price * price, &row.slopes, n);
            }
            let Some(by) = newton(&mut shares, &left, n) else { break };
            let balanced: Vec<f64> = self
                .rows
                .iter()
                .zip(&prices)
                .map(|(row, price)| price + price * price * dot(&row.slopes, &by))
                .collect();
            if balanced.iter().any(|price| !(0.0..f64::INFINITY).contains(price)) {
                break;
            }
            prices = balanced;
        }
        let mut bound = value - prices.iter().zip(&slacks).map(|(price, slack)| price * slack).sum::<f64>();
        let left = unbalanced(&prices);
        for (k, (low, high)) in self.ranges.iter().enumerate() {
            bound -= left[k].abs() * (high - at[k]).max(at[k] - low).max(0.0);
        }
        Least { at, value, bound, prices }
    }
}

/// The step `-H⁻¹ g` by Cholesky's factors; a vanishing pivot is lifted, which bends the step downhill.
fn newton(hessian: &mut [Vector; MAX_UNKNOWNS], gradient: &Vector, n: usize) -> Option<Vector> {
    let scale = (0..n).map(|j| hessian[j][j]).fold(0.0, f64::max);
    for j in 0..n {
        for k in 0..j {
            hessian[j][j] -= hessian[j][k] * hessian[j][k];
        }
        if hessian[j][j].is_nan() || hessian[j][j] <= 1e-300 {
            hessian[j][j] = (1e-16 * scale).max(1e-30);
        }
        hessian[j][j] = hessian[j][j].sqrt();
        for i in j + 1..n {
            for k in 0..j {
                hessian[i][j] -= hessian[i][k] * hessian[j][k];
            }
            hessian[i][j] /= hessian[j][j];
        }
    }
    let mut step = [0.0; MAX_UNKNOWNS];
    for j in 0..n {
        step[j] = -gradient[j];
        for k in 0..j {
            step[j] -= hessian[j][k] * step[k];
        }
        step[j] /= hessian[j][j];
    }
    for j in (0..n).rev() {
        for k in j + 1..n {
            step[j] -= hessian[k][j] * step[k];
        }
        step[j] /= hessian[j][j];
    }
    step[..n].iter().all(|by| by.is_finite()).then_some(step)
}

/// Adds `weight · a aᵀ` to the first `n` rows and columns of a matrix.
fn add_square(matrix: &mut [Vector; MAX_UNKNOWNS], weight: f64, a: &Vector, n: usize) {
    for (to, by) in matrix.iter_mut().zip(a).take(n) {
        for (to, other) in to.iter_mut().zip(a).take(n) {
            *to += weight * by * other;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn vector(numbers: &[f64]) -> Vector {
        let mut vector = [0.0; MAX_UNKNOWNS];
        vector[..numbers.len()].copy_from_slice(numbers);
        vector
    }

    fn program(terms: &[(f64, &[f64])], rows: &[(&[f64], f64)], ranges: &[(f64, f64)]) -> Program {
        let mut all: Vec<Row> = rows
            .iter()
            .enumerate()
            .map(|(k, (slopes, bound))| Row { slopes: vector(slopes), bound: *bound, limit: Some(k) })
            .collect();
        for (k, &(low, high)) in ranges.iter().enumerate() {
            let mut up = [0.0; MAX_UNKNOWNS];
            up[k] = 1.0;
            all.push(Row { slopes: up, bound: high, limit: None });
            up[k] = -1.0;
            all.push(Row { slopes: up, bound: -low, limit: None });
        }
        let terms =
            terms.iter().map(|(level, slopes)| Term { level: *level, slopes: vector(slopes) }).collect();
        Program { unknowns: ranges.len(), terms, rows: all, ranges: ranges.to_vec() }
    }

    // By hand: exp(-u) + exp(2 u) is least where exp(3 u) = 1/2, at u = -ln 2 / 3.
    #[test]
    fn a_sum_without_limits_in_its_way_is_least_where_its_slope_is_zero() {
        let least = program(&[(0.0, &[-1.0]), (0.0, &[2.0])], &[], &[(-3.0, 5.0)]).least().unwrap();
        let u = -std::f64::consts::LN_2 / 3.0;
        assert!((least.at[0] - u).abs() < 1e-5);
        let value = ln(exp(-u) + exp(2.0 * u));
        assert!((least.value - value).abs() < 1e-9 && least.bound <= value && value - least.bound < 1e-9);
    }

    // By hand: -u - v under u + 2 v ≤ 2 and 2 u + v ≤ 2 is least at u = v = 2/3, each limit worth a third.
    #[test]
    fn a_corner_has_its_prices() {
        let rows: [(&[f64], f64); 2] = [(&[1.0, 2.0], 2.0), (&[2.0, 1.0], 2.0)];
        let least = program(&[(0.0, &[-1.0, -1.0])], &rows, &[(0.0, 5.0), (0.0, 5.0)]).least().unwrap();
        assert!((least.at[0] - 2.0 / 3.0).abs() < 1e-8 && (least.at[1] - 2.0 / 3.0).abs() < 1e-8);
        assert!((least.prices[0] - 1.0 / 3.0).abs() < 1e-5 && (least.prices[1] - 1.0 / 3.0).abs() < 1e-5);
        assert!((least.value + 4.0 / 3.0).abs() < 1e-9 && (least.bound + 4.0 / 3.0).abs() < 1e-9);
    }

    // By hand: u ≤ 1 and u ≥ 3 are each 1 from meeting at 2.
    #[test]
    fn limits_that_do_not_meet_are_seen_to_be_apart() {
        let rows: [(&[f64], f64); 2] = [(&[1.0], 1.0), (&[-1.0], -3.0)];
        let apart = program(&[(0.0, &[1.0])], &rows, &[(0.0, 5.0)]);
        assert_eq!(apart.least().unwrap_err(), Apart);
        let (at, excess) = apart.widest(vector(&[2.5]), 1.5, |_| true);
        assert!((excess - 1.0).abs() < 1e-8 && (at[0] - 2.0).abs() < 1e-8, "{at:?} {excess}");
        let touching: [(&[f64], f64); 2] = [(&[1.0], 1.0), (&[-1.0], -1.0)];
        let least = program(&[(0.0, &[1.0])], &touching, &[(0.0, 5.0)]).least().unwrap();
        assert!((least.at[0] - 1.0).abs() < 1e-8);
    }
}
