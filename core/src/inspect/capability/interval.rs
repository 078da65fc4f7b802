//! Confidence intervals of capability indices, and how many readings show one.
use super::result::CapabilityInterval;
use crate::statistics::{noncentral_t_above, noncentral_t_cdf};

/// Bissell's interval of Cpk, by a normal law of the estimate; `deviations` hold the confidence on both sides.
///
/// Source: A. F. Bissell, Applied Statistics 39 (1990) 331 (formula as in the NIST/SEMATECH e-Handbook, 6.1.6; from memory).
pub(super) fn bissell(cpk: f64, count: f64, degrees_of_freedom: f64, deviations: f64) -> CapabilityInterval {
    let half = deviations * (1.0 / (9.0 * count) + cpk * cpk / (2.0 * degrees_of_freedom)).sqrt();
    CapabilityInterval { lower: Some(cpk - half), upper: Some(cpk + half) }
}

/// The interval of a one-sided index: 3 √n times the estimate is noncentral t, with 3 √n times the index. It is exact for the
/// standard deviation of all readings; one within subgroups has degrees of freedom that match it only nearly.
///
/// An end is absent where the noncentrality is beyond what is computed.
pub(super) fn one_sided(
    cpk: f64,
    count: f64,
    degrees_of_freedom: f64,
    confidence: f64,
) -> CapabilityInterval {
    let tail = 0.5 * (1.0 - confidence);
    let scale = 3.0 * count.sqrt();
    let end = |above: bool| {
        let delta = noncentrality(scale * cpk, degrees_of_freedom, tail, above);
        delta.map(|delta| delta / scale)
    };
    CapabilityInterval { lower: end(true), upper: end(false) }
}

/// The noncentrality with which t is exceeded, or not reached, with a probability.
pub(super) fn noncentrality(t: f64, degrees_of_freedom: f64, probability: f64, above: bool) -> Option<f64> {
    // The probability of more than t rises with the noncentrality, and that of less falls.
    let off = |delta: f64| {
        if above {
            noncentral_t_above(t, degrees_of_freedom, delta) - probability
        } else {
            probability - noncentral_t_cdf(t, degrees_of_freedom, delta)
        }
    };
    let reach = 8.0 + 8.0 * t.abs() / (2.0 * degrees_of_freedom).sqrt();
    let (mut low, mut high) = (t - reach, t + reach);
    if !(off(low) <= 0.0 && off(high) >= 0.0) {
        return None;
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if off(middle) < 0.0 { low = middle } else { high = middle }
    }
    Some(0.5 * (low + high))
}
