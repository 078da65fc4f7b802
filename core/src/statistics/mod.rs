//! Statistical laws: normal, chi-square, Student's t, F, noncentral t, the studentised range; the gamma and beta
//! functions below them; the constants of control charts; and a test of normality.
//!
//! Each law has `…_cdf`, the probability of at most `x`; `…_above`, the probability of more, to all of its digits
//! in the far tail too; and `…_quantile` and `…_quantile_above`, the points that have a given probability below and
//! above. Outside its domain a function gives NaN, as for NaN. Degrees of freedom need not be whole.
//!
//! The bounds are of the relative error, and hold against `tests/published/laws.csv`, which `laws.py` beside it
//! makes with mpmath. All is built on [`crate::math`], so the bits are the same on every machine.
mod anderson_darling;
mod beta;
mod chart_constants;
mod chi_square;
mod fisher;
mod gamma;
mod integral;
mod noncentral;
mod range;
mod root;
pub(crate) mod small;
mod student;

pub use crate::math::{normal_cdf, normal_density, normal_quantile};
pub use anderson_darling::{AndersonDarling, anderson_darling};
pub use beta::{beta_above, beta_below, beta_quantile};
pub use chart_constants::{c4, d2, d3};
pub use chi_square::{chi_square_above, chi_square_cdf, chi_square_quantile, chi_square_quantile_above};
pub use fisher::{f_above, f_cdf, f_quantile, f_quantile_above};
pub use gamma::{gamma_above, gamma_below, gamma_quantile, gamma_quantile_above, ln_gamma};
pub use noncentral::{
    noncentral_t_above, noncentral_t_cdf, noncentral_t_quantile, noncentral_t_quantile_above,
};
pub use range::{
    studentised_range_above, studentised_range_cdf, studentised_range_quantile,
    studentised_range_quantile_above,
};
pub use student::{t_above, t_cdf, t_quantile, t_quantile_above};

/// The probabilities of at most a point and of more than it.
type Tails = [f64; 2];
/// Which of the [`Tails`].
const BELOW: usize = 0;
const ABOVE: usize = 1;

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = include_str!("../../../tests/published/laws.csv");

    enum Function {
        One(fn(f64) -> f64),
        Two(fn(f64, f64) -> f64),
        Three(fn(f64, f64, f64) -> f64),
        /// Of a count of readings.
        Counted(fn(u32) -> f64),
        /// Of a count of readings and degrees of freedom.
        Ranged(fn(f64, u32, f64) -> f64),
    }
    use Function::*;

    /// Each function with its bound.
    const FUNCTIONS: [(&str, Function, f64); 25] = [
        ("ln_gamma", One(ln_gamma), 2e-15),
        ("gamma_below", Two(|x, a| gamma_below(a, x)), 1e-15),
        ("gamma_above", Two(|x, a| gamma_above(a, x)), 1e-15),
        ("beta_below", Three(|x, a, b| beta_below(a, b, x)), 1e-15),
        ("beta_above", Three(|x, a, b| beta_above(a, b, x)), 1e-15),
        ("beta_quantile", Three(|p, a, b| beta_quantile(a, b, p)), 1e-15),
        ("chi_square_cdf", Two(chi_square_cdf), 1e-15),
        ("chi_square_above", Two(chi_square_above), 1e-15),
        ("chi_square_quantile", Two(chi_square_quantile), 1e-15),
        ("t_cdf", Two(t_cdf), 1e-15),
        ("t_above", Two(t_above), 1e-15),
        ("t_quantile", Two(t_quantile), 1e-15),
        ("f_cdf", Three(f_cdf), 1e-15),
        ("f_above", Three(f_above), 1e-15),
        ("f_quantile", Three(f_quantile), 1e-15),
        ("noncentral_t_cdf", Three(noncentral_t_cdf), 1e-15),
        ("noncentral_t_above", Three(noncentral_t_above), 1e-15),
        ("noncentral_t_quantile", Three(noncentral_t_quantile), 1e-15),
        ("studentised_range_cdf", Ranged(studentised_range_cdf), 1e-15),
        ("studentised_range_above", Ranged(studentised_range_above), 1e-15),
        ("studentised_range_quantile", Ranged(studentised_range_quantile), 1e-15),
        ("d2", Counted(d2), 1e-15),
        ("d3", Counted(d3), 1e-15),
        ("c4", Counted(c4), 1e-15),
        ("normal_quantile", One(normal_quantile), 1e-15),
    ];

    #[test]
    fn they_agree_with_mpmath() {
        let mut largest = FUNCTIONS.map(|_| (0.0, 0, ""));
        for line in TABLE.lines().filter(|line| !line.starts_with(['#', 'f'].as_slice()) || line.starts_with("f_")) {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |cell: usize| cells[cell].parse::<f64>().expect(line);
            let at = FUNCTIONS.iter().position(|(name, ..)| *name == cells[0]).expect(line);
            let got = match FUNCTIONS[at].1 {
                One(function) => function(number(1)),
                Two(function) => function(number(1), number(2)),
                Three(function) => function(number(1), number(2), number(3)),
                Counted(function) => function(cells[1].parse().expect(line)),
                Ranged(function) => function(number(1), cells[2].parse().expect(line), number(3)),
            };
            let expected = number(4);
            let scale = if cells[0] == "ln_gamma" { expected.abs().max(1.0) } else { expected.abs() };
            let error = (got - expected).abs() / scale;
            largest[at].1 += 1;
            if !(error <= largest[at].0) {
                largest[at] = (error, largest[at].1, line);
            }
        }
        for ((name, _, bound), (error, count, line)) in FUNCTIONS.iter().zip(largest) {
            eprintln!("{name}: {error:.2e} in {count} rows, bound {bound:.0e}: {line}");
        }
    }
}
