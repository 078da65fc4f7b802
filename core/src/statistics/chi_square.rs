//! The chi-square law.
use super::gamma::{gamma_above, gamma_below, gamma_quantile, gamma_quantile_above};

/// The chi-square law at most `x`, within 2e-13 for degrees of freedom from 1 to 2e6.
pub fn chi_square_cdf(x: f64, degrees_of_freedom: f64) -> f64 {
    gamma_below(0.5 * degrees_of_freedom, 0.5 * x)
}

/// The chi-square law above `x`, within the bounds of [`chi_square_cdf`].
pub fn chi_square_above(x: f64, degrees_of_freedom: f64) -> f64 {
    gamma_above(0.5 * degrees_of_freedom, 0.5 * x)
}

/// The point below which the chi-square law has the probability `p`.
pub fn chi_square_quantile(p: f64, degrees_of_freedom: f64) -> f64 {
    2.0 * gamma_quantile(0.5 * degrees_of_freedom, p)
}

/// The point above which the chi-square law has the probability `q`.
pub fn chi_square_quantile_above(q: f64, degrees_of_freedom: f64) -> f64 {
    2.0 * gamma_quantile_above(0.5 * degrees_of_freedom, q)
}
