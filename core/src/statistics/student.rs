//! Student's t law.
use super::beta::beta_tails;
use super::gamma::shape_in_domain;
use super::root::root;
use super::tails::{ABOVE, BELOW, Tails};

/// Student's law on both sides of `t` from zero upward.
fn tails_of_positive(t: f64, degrees_of_freedom: f64) -> Tails {
    let ratio = t * (t / degrees_of_freedom);
    let (near, far) =
        if ratio == f64::INFINITY { (0.0, 1.0) } else { (1.0 / (1.0 + ratio), ratio / (1.0 + ratio)) };
    let [outside, inside] = beta_tails(0.5 * degrees_of_freedom, 0.5, near, far);
    [0.5 + 0.5 * inside, 0.5 * outside]
}

/// Student's t law at most `t`, within 2e-13 for degrees of freedom from 1 to 2e5.
pub fn t_cdf(t: f64, degrees_of_freedom: f64) -> f64 {
    t_above(-t, degrees_of_freedom)
}

/// Student's t law above `t`, within the bounds of [`t_cdf`].
pub fn t_above(t: f64, degrees_of_freedom: f64) -> f64 {
    let tails = tails_of_positive(t.abs(), degrees_of_freedom);
    if t < 0.0 { tails[BELOW] } else { tails[ABOVE] }
}

/// The point below which Student's t law has the probability `p`.
pub fn t_quantile(p: f64, degrees_of_freedom: f64) -> f64 {
    -t_quantile_above(p, degrees_of_freedom)
}

/// The point above which Student's t law has the probability `q`.
pub fn t_quantile_above(q: f64, degrees_of_freedom: f64) -> f64 {
    if !shape_in_domain(0.5 * degrees_of_freedom) {
        return f64::NAN;
    }
    if q == 0.5 {
        return 0.0;
    }
    let tail = |t: f64, side: usize| tails_of_positive(t, degrees_of_freedom)[side];
    if q < 0.5 { root(q, ABOVE, 1.0, tail) } else { -root(1.0 - q, ABOVE, 1.0, tail) }
}
