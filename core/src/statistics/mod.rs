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
mod moments;
mod noncentral;
mod range;
mod root;
mod small;
mod sorting;
mod student;
mod subgroups;
mod tails;

pub use crate::math::{normal_cdf, normal_density, normal_quantile};
pub(crate) use anderson_darling::NormalityTests;
pub use anderson_darling::{AndersonDarling, anderson_darling};
pub use beta::{beta_above, beta_below, beta_quantile};
pub use chart_constants::{c4, d2, d3};
pub use chi_square::{chi_square_above, chi_square_cdf, chi_square_quantile, chi_square_quantile_above};
pub use fisher::{f_above, f_cdf, f_quantile, f_quantile_above};
pub use gamma::{gamma_above, gamma_below, gamma_quantile, gamma_quantile_above, ln_gamma};
pub use moments::{autocorrelation, mean, mean_and_deviation, standard_deviation};
pub(crate) use moments::{mean_step, range};
pub use noncentral::{
    noncentral_t_above, noncentral_t_cdf, noncentral_t_quantile, noncentral_t_quantile_above,
};
pub use range::{
    studentised_range_above, studentised_range_cdf, studentised_range_quantile,
    studentised_range_quantile_above,
};
pub(crate) use small::exp_less_one;
pub use student::{t_above, t_cdf, t_quantile, t_quantile_above};
pub(crate) use subgroups::{SubgroupSpread, Within, within};

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
    const FUNCTIONS: [(&str, Function, f64); 23] = [
        ("ln_gamma", One(ln_gamma), 2e-15),
        ("gamma_below", Two(|x, a| gamma_below(a, x)), 2e-13),
        ("gamma_above", Two(|x, a| gamma_above(a, x)), 2e-13),
        ("beta_below", Three(|x, a, b| beta_below(a, b, x)), 2e-13),
        ("beta_above", Three(|x, a, b| beta_above(a, b, x)), 2e-13),
        ("beta_quantile", Three(|p, a, b| beta_quantile(a, b, p)), 5e-14),
        ("chi_square_cdf", Two(chi_square_cdf), 2e-13),
        ("chi_square_above", Two(chi_square_above), 2e-13),
        ("chi_square_quantile", Two(chi_square_quantile), 5e-14),
        ("t_cdf", Two(t_cdf), 2e-13),
        ("t_above", Two(t_above), 2e-13),
        ("t_quantile", Two(t_quantile), 5e-14),
        ("f_cdf", Three(f_cdf), 2e-13),
        ("f_above", Three(f_above), 2e-13),
        ("f_quantile", Three(f_quantile), 5e-14),
        ("noncentral_t_cdf", Three(noncentral_t_cdf), 1e-14),
        ("noncentral_t_above", Three(noncentral_t_above), 1e-14),
        ("noncentral_t_quantile", Three(noncentral_t_quantile), 1e-14),
        ("studentised_range_cdf", Ranged(studentised_range_cdf), 1e-14),
        ("studentised_range_above", Ranged(studentised_range_above), 1e-13),
        ("d2", Counted(d2), 2e-15),
        ("d3", Counted(d3), 1e-14),
        ("c4", Counted(c4), 1e-15),
    ];

    #[test]
    fn they_agree_with_mpmath() {
        let mut rows = FUNCTIONS.map(|_| 0);
        for line in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |cell: usize| cells[cell].parse::<f64>().expect(line);
            let at = FUNCTIONS.iter().position(|(name, ..)| *name == cells[0]).expect(line);
            let (_, function, bound) = &FUNCTIONS[at];
            let got = match function {
                One(function) => function(number(1)),
                Two(function) => function(number(1), number(2)),
                Three(function) => function(number(1), number(2), number(3)),
                Counted(function) => function(cells[1].parse().expect(line)),
                Ranged(function) => function(number(1), cells[2].parse().expect(line), number(3)),
            };
            let expected = number(4);
            let scale = if cells[0] == "ln_gamma" { expected.abs().max(1.0) } else { expected.abs() };
            assert!((got - expected).abs() <= bound * scale, "{line}: {got:e}");
            rows[at] += 1;
        }
        for ((name, ..), rows) in FUNCTIONS.iter().zip(rows) {
            assert!(rows >= 6, "{name} has {rows} rows");
        }
    }

    #[test]
    fn outside_the_domain_there_is_no_number() {
        let nan = f64::NAN;
        for got in [
            chi_square_cdf(-1.0, 3.0),
            chi_square_cdf(1.0, 0.0),
            chi_square_quantile(1.5, 3.0),
            t_cdf(1.0, -2.0),
            t_quantile(nan, 4.0),
            f_above(nan, 2.0, 3.0),
            f_quantile(0.5, 0.0, 3.0),
            noncentral_t_cdf(1.0, 0.5, 1.0),
            noncentral_t_quantile(0.5, 4.0, nan),
            studentised_range_cdf(3.0, 1, 10.0),
            studentised_range_quantile(-0.1, 3, 10.0),
            beta_quantile(0.0, 1.0, 0.5),
            ln_gamma(0.0),
        ] {
            assert!(got.is_nan(), "{got}");
        }
    }

    #[test]
    fn quantiles_undo_the_laws() {
        for p in [1e-9, 0.01, 0.5, 0.8, 0.999] {
            let close = |got: f64| assert!((got / p - 1.0).abs() < 1e-12, "{p}: {got}");
            close(gamma_below(3.7, gamma_quantile(3.7, p)));
            close(gamma_above(3.7, gamma_quantile_above(3.7, p)));
            close(chi_square_above(chi_square_quantile_above(p, 9.0), 9.0));
            close(t_above(t_quantile_above(p, 5.0), 5.0));
            close(f_above(f_quantile_above(p, 3.0, 17.0), 3.0, 17.0));
            close(noncentral_t_above(noncentral_t_quantile_above(p, 9.0, 6.0), 9.0, 6.0));
        }
        for p in [0.01, 0.95] {
            let close = |got: f64| assert!((got / p - 1.0).abs() < 1e-11, "{p}: {got}");
            close(studentised_range_cdf(studentised_range_quantile(p, 4, f64::INFINITY), 4, f64::INFINITY));
            let point = studentised_range_quantile_above(p, 4, f64::INFINITY);
            close(studentised_range_above(point, 4, f64::INFINITY));
        }
    }

    #[test]
    fn the_ends_have_probabilities_of_zero_and_one() {
        assert_eq!([chi_square_quantile(0.0, 3.0), chi_square_quantile(1.0, 3.0)], [0.0, f64::INFINITY]);
        assert_eq!(
            [t_quantile(0.0, 3.0), t_quantile(0.5, 3.0), t_quantile(1.0, 3.0)],
            [f64::NEG_INFINITY, 0.0, f64::INFINITY]
        );
        assert_eq!(
            [t_cdf(f64::NEG_INFINITY, 3.0), t_cdf(0.0, 3.0), t_cdf(f64::INFINITY, 3.0)],
            [0.0, 0.5, 1.0]
        );
        assert_eq!([beta_below(2.0, 3.0, 0.0), beta_below(2.0, 3.0, 1.0)], [0.0, 1.0]);
        assert_eq!([noncentral_t_cdf(-1e300, 3.0, 2.0), noncentral_t_cdf(1e300, 3.0, 2.0)], [0.0, 1.0]);
        assert_eq!([f_cdf(0.0, 2.0, 3.0), f_cdf(f64::INFINITY, 2.0, 3.0)], [0.0, 1.0]);
    }
}
