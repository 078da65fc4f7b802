//! The gamma function and the incomplete gamma functions.
//!
//! Densities are taken by the deviance from the point of balance rather than by logarithms of gamma functions, whose
//! large parts would cancel: C. Loader, Fast and Accurate Computation of Binomial Probabilities (2000).
use super::root::root;
use super::small::atanh_ratio;
use super::tails::{ABOVE, BELOW, Tails};
use crate::math::{exp, ln};
use std::f64::consts::TAU;

/// Shapes up to this size: beyond, the sums grow too long.
pub(super) const MAX_SHAPE: f64 = 1e8;
/// Shapes from this size.
const MIN_SHAPE: f64 = 1e-3;

pub(super) fn shape_in_domain(shape: f64) -> bool {
    (MIN_SHAPE..=MAX_SHAPE).contains(&shape)
}

/// So many terms of a sum or fraction are enough for [`MAX_SHAPE`].
pub(super) const TERMS: usize = 200_000;

/// Natural logarithm of the gamma function of a positive number, within 2e-15 of it or of 1, whichever is larger.
pub fn ln_gamma(x: f64) -> f64 {
    if x.is_nan() || x <= 0.0 {
        return f64::NAN;
    }
    if x < 0.5 {
        return ln_gamma(x + 1.0) - ln(x);
    }
    (x - 0.5) * ln(x) - x + 0.5 * ln(TAU) + stirling_error(x)
}

/// ln Γ(x + 1) less Stirling's (x + ½) ln x - x + ½ ln 2π.
pub(super) fn stirling_error(x: f64) -> f64 {
    // From x to x + 1 it falls by atanh(z) / z - 1 with z = 1 / (2x + 1), all terms of which are positive.
    let (mut at, mut sum) = (x, 0.0);
    while at < 16.0 {
        let z = 1.0 / (2.0 * at + 1.0);
        sum += if z < 0.5 { atanh_ratio(z * z) } else { (at + 0.5) * ln((at + 1.0) / at) - 1.0 };
        at += 1.0;
    }
    let square = 1.0 / (at * at);
    let series = STIRLING.iter().fold(0.0, |sum, coefficient| sum * square + coefficient);
    sum + series / at
}

/// Stirling's series in 1 / x², from the last term used to the first.
const STIRLING: [f64; 8] = [
    -3617.0 / 122_400.0,
    1.0 / 156.0,
    -691.0 / 360_360.0,
    1.0 / 1188.0,
    -1.0 / 1680.0,
    1.0 / 1260.0,
    -1.0 / 360.0,
    1.0 / 12.0,
];

/// The deviance of a count from its mean, count · ln(count / mean) + mean - count.
pub(super) fn deviance(count: f64, mean: f64) -> f64 {
    let off = count - mean;
    let v = off / (count + mean);
    if v.abs() < 0.45 {
        off * v + 2.0 * count * v * atanh_ratio(v * v)
    } else {
        count * ln(count / mean) - off
    }
}

/// x^a exp(-x) / Γ(a + 1).
fn balance(a: f64, x: f64) -> f64 {
    exp(-stirling_error(a) - deviance(a, x)) / (TAU * a).sqrt()
}

/// Both regularised incomplete gamma functions.
pub(super) fn gamma_tails(a: f64, x: f64) -> Tails {
    if !(shape_in_domain(a) && x >= 0.0) {
        return [f64::NAN; 2];
    }
    if x == 0.0 {
        return [0.0, 1.0];
    }
    if x == f64::INFINITY {
        return [1.0, 0.0];
    }
    let density = balance(a, x);
    if density == 0.0 {
        return if x < a { [0.0, 1.0] } else { [1.0, 0.0] };
    }
    if x < a + 1.0 {
        let below = density * rising_sum(a, x);
        [below, 1.0 - below]
    } else {
        let above = density * a * falling_fraction(a, x);
        [1.0 - above, above]
    }
}

/// 1 + x/(a+1) + x²/((a+1)(a+2)) + …, for x below a + 1.
fn rising_sum(a: f64, x: f64) -> f64 {
    let (mut sum, mut term, mut next) = (1.0, 1.0, a);
    for _ in 0..TERMS {
        next += 1.0;
        term *= x / next;
        sum += term;
        if term < 1e-17 * sum {
            break;
        }
    }
    sum
}

/// exp(x) x^-a Γ(a, x) by its continued fraction, for x above a + 1: Lentz's method.
fn falling_fraction(a: f64, x: f64) -> f64 {
    let mut b = x + 1.0 - a;
    let mut c = f64::INFINITY;
    let mut d = 1.0 / b;
    let mut value = d;
    for k in 1..TERMS {
        let k = k as f64;
        let numerator = -k * (k - a);
        b += 2.0;
        d = 1.0 / (b + numerator * d);
        c = b + numerator / c;
        let factor = c * d;
        value *= factor;
        if (factor - 1.0).abs() < 2e-16 {
            break;
        }
    }
    value
}

/// Regularised lower incomplete gamma function P(a, x): the gamma law of shape `a` at most `x`.
///
/// Within 2e-13 for shapes from 1/2 to 1e6, in tails down to 1e-290 too. Shapes are from 0.001 to 1e8.
pub fn gamma_below(a: f64, x: f64) -> f64 {
    gamma_tails(a, x)[BELOW]
}

/// Regularised upper incomplete gamma function Q(a, x): the gamma law of shape `a` above `x`.
///
/// Within the bounds of [`gamma_below`] for shapes from 1/2; for smaller ones they are of the absolute error.
pub fn gamma_above(a: f64, x: f64) -> f64 {
    gamma_tails(a, x)[ABOVE]
}

/// The point below which the gamma law of shape `a` has the probability `p`.
pub fn gamma_quantile(a: f64, p: f64) -> f64 {
    if !shape_in_domain(a) {
        return f64::NAN;
    }
    root(p, BELOW, a, |x, side| gamma_tails(a, x)[side])
}

/// The point above which the gamma law of shape `a` has the probability `q`.
pub fn gamma_quantile_above(a: f64, q: f64) -> f64 {
    if !shape_in_domain(a) {
        return f64::NAN;
    }
    root(q, ABOVE, a, |x, side| gamma_tails(a, x)[side])
}
