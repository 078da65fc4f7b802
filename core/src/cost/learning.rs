//! Learning: what the time of a piece comes to when the quantity doubles.
//!
//! Two models share the exponent b = ln(rate) / ln 2. By units, piece n takes the time of the first times n^b; by the
//! cumulative average, the mean of the first n pieces does. They differ by a third or so: name the one that a rate is from.
use crate::formula::Formula;
use crate::math::{ln, powf};
use crate::quantity::*;
use std::f64::consts::LN_2;
use tenths_macros::{Outcome, formula};

/// The exponent of a rate of learning.
fn exponent(rate: f64) -> f64 {
    ln(rate) / LN_2
}

/// How many powers are added one by one, before the rest is taken from their integral.
const ADDED: u32 = 24;

/// The sum of k^b for whole k from 1 to n, by Euler and Maclaurin beyond the first.
fn sum_of_powers(n: f64, b: f64) -> f64 {
    let few = f64::from(ADDED);
    let mut sum = 0.0;
    for k in 1..=ADDED {
        let k = f64::from(k);
        sum += if k <= n { powf(k, b) } else { 0.0 };
    }
    let (low, high) = (few, n.max(few));
    // The derivatives of x^b of order 1, 3 and 5 at both ends.
    let first = b * (powf(high, b - 1.0) - powf(low, b - 1.0));
    let third = b * (b - 1.0) * (b - 2.0) * (powf(high, b - 3.0) - powf(low, b - 3.0));
    let fifth =
        b * (b - 1.0) * (b - 2.0) * (b - 3.0) * (b - 4.0) * (powf(high, b - 5.0) - powf(low, b - 5.0));
    let ends = 0.5 * (powf(high, b) - powf(low, b));
    let rest = integral(low, high, b) + ends + first / 12.0 - third / 720.0 + fifth / 30_240.0;
    if n > few { sum + rest } else { sum }
}

/// The integral of x^b from low to high.
fn integral(low: f64, high: f64, b: f64) -> f64 {
    let power = b + 1.0;
    let closed = (powf(high, power) - powf(low, power)) / power;
    // At a rate of one half the integral is a logarithm, and near it the closed form would lose digits.
    let (of_high, of_low) = (ln(high), ln(low));
    let near = of_high - of_low + 0.5 * power * (of_high * of_high - of_low * of_low);
    if power.abs() < 1e-6 { near } else { closed }
}

/// Time of a piece by the unit model of learning: first time · unit^b, b = ln rate / ln 2.
#[formula(
    source = "J. R. Crawford's unit model, as operations textbooks give it",
    inverse(first_time = learning_unit_time / powf(unit, exponent(learning_rate)))
)]
pub fn learning_unit_time(
    #[increasing] first_time: Time,
    #[increasing] learning_rate: Ratio,
    #[decreasing] unit: Count,
) -> Time {
    first_time * powf(unit, exponent(learning_rate))
}

/// Time of a lot by the unit model of learning: the sum of first time · n^b over its pieces.
#[formula(
    source = "J. R. Crawford's unit model, as operations textbooks give it",
    rule(last_unit >= first_unit, "last_unit must be at least first_unit")
)]
pub fn learning_lot_time(
    #[increasing] first_time: Time,
    learning_rate: Ratio,
    last_unit: Count,
    #[default(1.0)] first_unit: Count,
) -> Time {
    let b = exponent(learning_rate);
    first_time * (sum_of_powers(last_unit, b) - sum_of_powers(first_unit - 1.0, b))
}

/// Mean time of the first pieces by the cumulative average model of learning: first time · unit^b, b = ln rate / ln 2.
#[formula(
    source = "T. P. Wright's cumulative average model (1936), as cost accounting textbooks give it",
    inverse(first_time = learning_cumulative_average_time / powf(unit, exponent(learning_rate)))
)]
pub fn learning_cumulative_average_time(
    #[increasing] first_time: Time,
    #[increasing] learning_rate: Ratio,
    #[decreasing] unit: Count,
) -> Time {
    first_time * powf(unit, exponent(learning_rate))
}

/// Time of a lot by the cumulative average model of learning: the time to its last piece less that before its first.
///
/// A lot of one piece is that piece.
#[formula(
    source = "T. P. Wright's cumulative average model (1936), as cost accounting textbooks give it",
    rule(last_unit >= first_unit, "last_unit must be at least first_unit")
)]
pub fn learning_cumulative_average_lot_time(
    #[increasing] first_time: Time,
    learning_rate: Ratio,
    last_unit: Count,
    #[default(1.0)] first_unit: Count,
) -> Time {
    let power = exponent(learning_rate) + 1.0;
    let before = first_unit - 1.0;
    let total_before = if before > 0.0 { powf(before, power) } else { 0.0 };
    first_time * (powf(last_unit, power) - total_before)
}

/// Pieces until the time of a piece falls to a target.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct UnitsToTarget {
    /// Where the curve meets the target, seldom a whole number.
    pub exact: Count,
    /// The first whole piece that takes no more than the target.
    pub unit: Count,
}

/// A part of a count that is rounding of the power, not a piece.
const ROUNDING: f64 = 1e-12;

/// Piece at which the unit model of learning meets a target: (target / first time)^(1/b), rounded up.
#[formula(
    source = "J. R. Crawford's unit model, as operations textbooks give it",
    rule(target_time <= first_time, "target_time must be at most first_time"),
    rule(learning_rate < 1.0, "learning_rate must be less than 1: without learning no target is reached")
)]
pub fn learning_units_to_target(
    first_time: Time,
    learning_rate: Ratio,
    /// Time of a piece that is to be reached.
    #[positive]
    target_time: Time,
) -> UnitsToTarget {
    let exact = powf(target_time / first_time, 1.0 / exponent(learning_rate));
    BareUnitsToTarget { exact, unit: (exact * (1.0 - ROUNDING)).ceil() }
}

/// The middle of a lot on the curve of learning by units, in three ways.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct LotMidpoint {
    /// The mean time of the lot over that of the first piece.
    pub average_factor: Ratio,
    /// The place on the curve with exactly the mean time of the lot.
    pub exact: Count,
    /// The place by the rule (F + L + 2 √(F L)) / 4, which needs no rate.
    pub algebraic: Count,
    /// The place by the integral from F - 1/2 to L + 1/2.
    pub integral: Count,
}

/// Midpoint of a lot on the curve of learning by units: (sum of n^b / N)^(1/b), with two short cuts to it.
#[formula(
    source = "Learning curves by units, as cost estimating handbooks give it",
    rule(last_unit >= first_unit, "last_unit must be at least first_unit"),
    rule(learning_rate < 1.0, "learning_rate must be less than 1: without learning every piece is the middle")
)]
pub fn learning_lot_midpoint(
    learning_rate: Ratio,
    last_unit: Count,
    #[default(1.0)] first_unit: Count,
) -> LotMidpoint {
    let b = exponent(learning_rate);
    let count = last_unit - first_unit + 1.0;
    let average_factor = (sum_of_powers(last_unit, b) - sum_of_powers(first_unit - 1.0, b)) / count;
    BareLotMidpoint {
        average_factor,
        exact: powf(average_factor, 1.0 / b),
        algebraic: 0.25 * (first_unit + last_unit + 2.0 * (first_unit * last_unit).sqrt()),
        integral: powf(integral(first_unit - 0.5, last_unit + 0.5, b) / count, 1.0 / b),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &LEARNING_UNIT_TIME,
    &LEARNING_LOT_TIME,
    &LEARNING_CUMULATIVE_AVERAGE_TIME,
    &LEARNING_CUMULATIVE_AVERAGE_LOT_TIME,
    &LEARNING_UNITS_TO_TARGET,
    &LEARNING_LOT_MIDPOINT,
];

#[cfg(test)]
mod tests {
    use super::*;

    // By adding up, one power after the other.
    #[test]
    fn the_sum_of_powers_is_the_sum() {
        for rate in [0.5, 0.500_000_1, 0.7, 0.8, 0.95, 1.0] {
            let b = exponent(rate);
            let mut sum = 0.0;
            for n in 1..3000 {
                sum += powf(f64::from(n), b);
                let error = (sum_of_powers(f64::from(n), b) / sum - 1.0).abs();
                assert!(error < 1e-12, "{rate} {n}: {error}");
            }
        }
    }
}
