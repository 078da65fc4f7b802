//! The constants of control charts: the mean and the deviation of the range of normal readings, and the bias of their
//! standard deviation.
use super::gamma::stirling_error;
use super::integral::integral_of_peak;
use super::range::{range_above, whole_power};
use super::small::{exp_less_one, ln_one_plus};
use crate::math::{exp, ln, normal_cdf};

/// d2: the mean range of `count` normal readings over their standard deviation, within 2e-15. NaN below two.
///
/// Source: L. H. C. Tippett, Biometrika 17 (1925) 364.
pub fn d2(count: u32) -> f64 {
    if count < 2 {
        return f64::NAN;
    }
    integral_of_peak(0.0, 1.0, |x| {
        let (below, above) = (normal_cdf(x), normal_cdf(-x));
        let (smaller, larger) = if below < above { (below, above) } else { (above, below) };
        // 1 less the power of a number near 1, to all digits.
        -exp_less_one(f64::from(count) * ln_one_plus(-smaller)) - whole_power(1.0 - larger, count)
    })
}

/// d3: the standard deviation of the range of `count` normal readings over theirs, within 1e-14. NaN below two.
pub fn d3(count: u32) -> f64 {
    if count < 2 {
        return f64::NAN;
    }
    let mean = d2(count);
    // The mean square of the range is the integral of 2 w times the probability of more than w; here over ln w.
    let mean_square = integral_of_peak(ln(mean), 0.3, |ln_w| {
        let w = exp(ln_w);
        2.0 * w * w * range_above(w, count)
    });
    (mean_square - mean * mean).sqrt()
}

/// c4: the mean standard deviation of `count` normal readings over that of their law, within 1e-15. NaN below two.
pub fn c4(count: u32) -> f64 {
    if count < 2 {
        return f64::NAN;
    }
    // √(1 / shape) Γ(shape + ½) / Γ(shape), by Stirling's formula for both.
    let shape = 0.5 * (f64::from(count) - 1.0);
    exp(shape * ln_one_plus(0.5 / shape) - 0.5 + stirling_error(shape + 0.5) - stirling_error(shape))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn small_samples_have_constants_in_closed_form() {
        let close = |got: f64, exact: f64| assert!((got / exact - 1.0).abs() < 2e-14, "{got} {exact}");
        close(d2(2), 2.0 / PI.sqrt());
        close(d2(3), 3.0 / PI.sqrt());
        close(d3(2), (2.0 - 4.0 / PI).sqrt());
        close(c4(2), (2.0 / PI).sqrt());
        close(c4(3), 0.5 * PI.sqrt());
        assert!([d2(1), d3(0), c4(1)].iter().all(|x| x.is_nan()));
    }

    // By sums over a grid of the largest reading and of the range, in numpy and scipy.
    #[test]
    fn large_samples_have_constants_too() {
        for (count, deviation) in [(4100, 0.452_673_391), (10_000, 0.430_127_776)] {
            assert!((d3(count) / deviation - 1.0).abs() < 1e-7, "{count}: {}", d3(count));
        }
    }
}
