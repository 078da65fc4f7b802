//! The studentised range: that of normal readings over an independent estimate of their standard deviation.
use super::gamma::MAX_SHAPE;
use super::integral::integral_of_peak;
use super::noncentral::{deviation_density, deviation_scale};
use super::root::root;
use super::small::{exp_less_one, ln_one_plus};
use super::tails::{ABOVE, BELOW};
use crate::math::{exp, ln, normal_cdf, normal_density, normal_quantile};

/// The range of `count` normal readings of deviation 1, at most `w`: by the place of the largest of them.
fn range_below(w: f64, count: u32) -> f64 {
    let half = 0.5 * w;
    let start = if half < 2.0 { half } else { 2.0 };
    f64::from(count)
        * integral_of_peak(start, 1.0, |largest| {
            let off = (largest - half).abs();
            let others = normal_cdf(half - off) - normal_cdf(-half - off);
            normal_density(largest) * whole_power(others, count - 1)
        })
}

/// The range of `count` normal readings of deviation 1, more than `w`, to all digits of the tail.
pub(super) fn range_above(w: f64, count: u32) -> f64 {
    // Near the place of the largest of so many readings, or at half the range where that is further out.
    let largest = normal_quantile(1.0 - 1.0 / f64::from(count));
    let start = [1.0, largest, 0.5 * w].into_iter().fold(0.0, |far, x| if x > far { x } else { far });
    let others = f64::from(count - 1);
    f64::from(count)
        * integral_of_peak(start, 1.0, |largest| {
            let (below, out) = (normal_cdf(largest), normal_cdf(largest - w));
            let some_out = -exp_less_one(others * ln_one_plus(-out / below));
            normal_density(largest) * whole_power(below, count - 1) * some_out
        })
}

/// A power by squaring.
pub(super) fn whole_power(base: f64, mut exponent: u32) -> f64 {
    let (mut power, mut square) = (1.0, base);
    while exponent > 0 {
        if exponent % 2 == 1 {
            power *= square;
        }
        square *= square;
        exponent /= 2;
    }
    power
}

fn in_domain(count: u32, degrees_of_freedom: f64) -> bool {
    let finite = (1.0..=2.0 * MAX_SHAPE).contains(&degrees_of_freedom);
    (2..=MAX_COUNT).contains(&count) && (finite || degrees_of_freedom == f64::INFINITY)
}

/// The largest count of readings.
const MAX_COUNT: u32 = 1000;

fn tail(q: f64, count: u32, degrees_of_freedom: f64, side: usize) -> f64 {
    if q.is_nan() || !in_domain(count, degrees_of_freedom) {
        return f64::NAN;
    }
    if q <= 0.0 || q == f64::INFINITY {
        return if (q <= 0.0) == (side == ABOVE) { 1.0 } else { 0.0 };
    }
    let range = |w: f64| if side == ABOVE { range_above(w, count) } else { range_below(w, count) };
    if degrees_of_freedom == f64::INFINITY {
        return at_most_one(range(q));
    }
    let scale = deviation_scale(degrees_of_freedom);
    let integrand = |ln_s: f64| deviation_density(ln_s, degrees_of_freedom, scale) * range(q * exp(ln_s));
    // Beyond this range of 70 deviations the tail above is zero.
    let reach = 5.0 + ln(1.0 + q);
    let far = ln(70.0 / q);
    let high = if side == ABOVE && far < reach { far } else { reach };
    let width = 1.0 / (2.0 * degrees_of_freedom).sqrt();
    let start = top(-reach - 5.0, high, width, &integrand);
    at_most_one(integral_of_peak(start, width, integrand))
}

fn at_most_one(probability: f64) -> f64 {
    if probability > 1.0 { 1.0 } else { probability }
}

/// About where a function with one peak is the largest, by golden sections.
fn top(mut low: f64, mut high: f64, width: f64, function: &impl Fn(f64) -> f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_8;
    // Where it is too small for a float, the peak is on the side of zero.
    let height = |x: f64| {
        let value = function(x);
        if value > 0.0 { ln(value) } else { -1e4 - x.abs() }
    };
    let place = |from: f64, to: f64| from + GOLDEN * (to - from);
    let (mut left, mut right) = (place(high, low), place(low, high));
    let (mut at_left, mut at_right) = (height(left), height(right));
    for _ in 0..60 {
        if high - low < width {
            break;
        }
        if at_left < at_right {
            low = left;
            (left, at_left) = (right, at_right);
            right = place(low, high);
            at_right = height(right);
        } else {
            high = right;
            (right, at_right) = (left, at_left);
            left = place(high, low);
            at_left = height(left);
        }
    }
    if at_left > at_right { left } else { right }
}

/// The studentised range of `count` readings at most `q`, within 1e-14.
///
/// `degrees_of_freedom` are those of the standard deviation, from 1 to 2e8; infinite where it is known, which is the
/// law of the range of normal readings over their standard deviation. From 2 to 1000 readings.
pub fn studentised_range_cdf(q: f64, count: u32, degrees_of_freedom: f64) -> f64 {
    tail(q, count, degrees_of_freedom, BELOW)
}

/// The studentised range of `count` readings above `q`, within 1e-13: the p value of Tukey's comparison.
pub fn studentised_range_above(q: f64, count: u32, degrees_of_freedom: f64) -> f64 {
    tail(q, count, degrees_of_freedom, ABOVE)
}

/// The point below which the studentised range has the probability `p`.
pub fn studentised_range_quantile(p: f64, count: u32, degrees_of_freedom: f64) -> f64 {
    solve(p, BELOW, count, degrees_of_freedom)
}

/// The point above which the studentised range has the probability `q`.
pub fn studentised_range_quantile_above(q: f64, count: u32, degrees_of_freedom: f64) -> f64 {
    solve(q, ABOVE, count, degrees_of_freedom)
}

fn solve(probability: f64, side: usize, count: u32, degrees_of_freedom: f64) -> f64 {
    if !in_domain(count, degrees_of_freedom) {
        return f64::NAN;
    }
    root(probability, side, 3.0, |q, side| tail(q, count, degrees_of_freedom, side))
}
