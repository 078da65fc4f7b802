//! The noncentral t law: that of (z + δ) / s for a normal z and a deviation s, each independent of the other.
use super::gamma::{MAX_SHAPE, stirling_error};
use super::integral::integral_of_peak;
use super::root::root;
use super::small::exp_less_line;
use super::tails::{ABOVE, BELOW};
use crate::math::{exp, ln, normal_cdf, normal_density};
use std::f64::consts::TAU;

/// The density of ln s, where s is the deviation of a sample over that of the law, with so many degrees of freedom.
pub(super) fn deviation_density(ln_s: f64, degrees_of_freedom: f64, scale: f64) -> f64 {
    scale * exp(-0.5 * degrees_of_freedom * exp_less_line(2.0 * ln_s))
}

/// The factor of [`deviation_density`].
pub(super) fn deviation_scale(degrees_of_freedom: f64) -> f64 {
    let shape = 0.5 * degrees_of_freedom;
    2.0 * exp(-stirling_error(shape)) * (shape / TAU).sqrt()
}

/// The probability that t · s - δ exceeds z, which is that of at most t.
fn below(t: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    if t == 0.0 {
        return normal_cdf(-delta);
    }
    let scale = deviation_scale(degrees_of_freedom);
    let start = peak(t, degrees_of_freedom, delta);
    // Far above zero the normal law no longer bends.
    let at_start = t * exp(start);
    let bend = if at_start - delta < 8.0 { at_start * at_start } else { 0.0 };
    let width = 1.0 / (2.0 * degrees_of_freedom + bend).sqrt();
    let integral = integral_of_peak(start, width, |ln_s| {
        normal_cdf(t * exp(ln_s) - delta) * deviation_density(ln_s, degrees_of_freedom, scale)
    });
    if integral > 1.0 { 1.0 } else { integral }
}

/// Where the integrand is the largest. Its logarithm is concave in s, so that the slope falls.
fn peak(t: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    let slope = |ln_s: f64| {
        let s = exp(ln_s);
        let z = t * s - delta;
        let hazard = if z < -37.0 { -z } else { normal_density(z) / normal_cdf(z) };
        t * s * hazard + degrees_of_freedom * (1.0 - s * s)
    };
    // Without t, at one; t of either sign moves it, to no further than where z no longer matters.
    let reach = 5.0 + ln(1.0 + t.abs()) + ln(1.0 + delta.abs());
    let (mut low, mut high) = (-reach, reach);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if slope(middle) > 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// One tail; that above is the mirror image of one below.
fn tail(t: f64, degrees_of_freedom: f64, delta: f64, side: usize) -> f64 {
    let in_domain = (1.0..=2.0 * MAX_SHAPE).contains(&degrees_of_freedom) && delta.abs() <= MAX_DELTA;
    if !in_domain || t.is_nan() {
        return f64::NAN;
    }
    // Beyond, the products overflow.
    if t.abs() > 1e150 {
        return if (t > 0.0) == (side == BELOW) { 1.0 } else { 0.0 };
    }
    if side == BELOW { below(t, degrees_of_freedom, delta) } else { below(-t, degrees_of_freedom, -delta) }
}

/// The largest noncentrality of either sign.
const MAX_DELTA: f64 = 1e4;

/// The noncentral t law with noncentrality `delta` at most `t`.
///
/// Within 1e-14 for degrees of freedom from 1 to 1000 and noncentralities to 67 of either sign; these may reach 10 000.
pub fn noncentral_t_cdf(t: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    tail(t, degrees_of_freedom, delta, BELOW)
}

/// The noncentral t law above `t`, within the bounds of [`noncentral_t_cdf`].
pub fn noncentral_t_above(t: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    tail(t, degrees_of_freedom, delta, ABOVE)
}

/// The point below which the noncentral t law has the probability `p`.
pub fn noncentral_t_quantile(p: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    let at_zero = tail(0.0, degrees_of_freedom, delta, BELOW);
    let start = if delta.abs() > 1.0 { delta.abs() } else { 1.0 };
    if p >= at_zero {
        root(p, BELOW, start, |t, side| tail(t, degrees_of_freedom, delta, side))
    } else {
        -root(p, ABOVE, start, |t, side| tail(t, degrees_of_freedom, -delta, side))
    }
}

/// The point above which the noncentral t law has the probability `q`.
pub fn noncentral_t_quantile_above(q: f64, degrees_of_freedom: f64, delta: f64) -> f64 {
    -noncentral_t_quantile(q, degrees_of_freedom, -delta)
}
