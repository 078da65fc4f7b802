//! Elementary functions whose bits are the same everywhere.
//!
//! Those of std call the platform's mathematics library, so their last digits vary with it, and they keep a
//! loop from being vectorised. These use `+ - * /`, square root and selections alone, without a branch, a table
//! or a fused multiply-add, so a loop of scalar, SSE2, AVX2 or AVX-512 instructions gives the same answer.
//!
//! Angles are in degrees, since 90 is exact and π/2 is not; the inverse functions give radians too.
//!
//! The error bounds hold against `tests/published/elementary.csv`, which `elementary.py` beside it makes
//! with mpmath. One ulp is the distance from the result to the next larger number. Angles closer to zero than
//! 1e-290 may be off by a few of the smallest steps of all.
//!
//! Largest errors found against mpmath in at least 60 000 random arguments (20 000 for quantiles), most of them where
//! the error is large:
//!
//! | function | ulp |
//! | --- | --- |
//! | sine, cosine of degrees | 0.75 |
//! | tangent of degrees | 2.02 |
//! | inverse sine, cosine, tangent in degrees | 0.81, 0.65, 0.70 |
//! | inverse sine, cosine, tangent in radians | 0.61, 0.58, 0.65 |
//! | inverse versine in degrees, radians | 0.64, 1.11 |
//! | exponential, logarithm | 0.87, 0.77 |
//! | power, cube root | 0.88, 0.50 |
//! | normal distribution, its density, its quantiles | 6.36, 1.94, 4.54 |
//! | complement of the error function | 5.92 |
//!
//! The polynomials come from `tools/polynomials.py`.

mod angle;
mod arc;
mod normal;
mod polynomial;
mod power;
pub(crate) mod vector;

pub use angle::{MAX_ANGLE, cos_degrees, sin_acute_degrees, sin_degrees, tan_degrees};
pub use arc::{
    acos, acos_degrees, arc_versine, arc_versine_degrees, asin, asin_degrees, atan, atan_degrees,
    atan2_degrees,
};
pub(crate) use normal::normal_tails;
pub use normal::{erfc, normal_cdf, normal_density, normal_quantile};
pub use power::{cbrt, exp, ln, powf, powf_quick};
pub(crate) use power::{share_powf, split_normal};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TABLE: &str = include_str!("../../tests/published/elementary.csv");

    #[derive(Clone, Copy)]
    enum Function {
        One(fn(f64) -> f64),
        Two(fn(f64, f64) -> f64),
    }
    use Function::{One, Two};

    /// Each function with its bound, in ulp.
    const FUNCTIONS: [(&str, Function, f64); 20] = [
        ("sin_degrees", One(sin_degrees), 1.0),
        ("cos_degrees", One(cos_degrees), 1.0),
        ("tan_degrees", One(tan_degrees), 2.5),
        ("asin_degrees", One(asin_degrees), 1.0),
        ("acos_degrees", One(acos_degrees), 1.0),
        ("atan_degrees", One(atan_degrees), 1.0),
        ("atan2_degrees", Two(atan2_degrees), 1.0),
        ("arc_versine", One(arc_versine), 1.5),
        ("arc_versine_degrees", One(arc_versine_degrees), 1.0),
        ("asin", One(asin), 1.0),
        ("acos", One(acos), 1.0),
        ("atan", One(atan), 1.0),
        ("exp", One(exp), 1.0),
        ("ln", One(ln), 1.0),
        ("powf", Two(powf), 1.0),
        ("cbrt", One(cbrt), 1.0),
        ("normal_cdf", One(normal_cdf), 7.0),
        ("erfc", One(erfc), 7.0),
        ("normal_density", One(normal_density), 2.0),
        ("normal_quantile", One(normal_quantile), 5.0),
    ];

    /// The function and its arguments, the nearest number to its value, and the rest in ulp.
    struct Row {
        name: &'static str,
        x: f64,
        y: Option<f64>,
        value: f64,
        rest: f64,
    }

    fn rows() -> Vec<Row> {
        let lines = TABLE.lines().filter(|line| !line.starts_with('#')).skip(1);
        let row = |line: &'static str| {
            let [name, x, y, value, rest] = line.split(',').collect::<Vec<_>>().try_into().unwrap();
            let number = |text: &str| text.parse().unwrap();
            let y = (!y.is_empty()).then(|| number(y));
            Row { name, x: number(x), y, value: number(value), rest: number(rest) }
        };
        lines.map(row).collect()
    }

    fn ulp(x: f64) -> f64 {
        f64::from_bits(x.abs().to_bits() + 1) - x.abs()
    }

    /// Error of `got`, in ulp, where the true value is `value + rest · ulp(value)`.
    fn error(got: f64, value: f64, rest: f64) -> f64 {
        if got == value { rest.abs() } else { ((got - value) / ulp(value) - rest).abs() }
    }

    #[test]
    fn errors_stay_within_the_stated_bounds() {
        let rows = rows();
        for (name, function, bound) in FUNCTIONS {
            let mut count = 0;
            for Row { x, y, value, rest, .. } in rows.iter().filter(|row| row.name == name) {
                let got = match (function, y) {
                    (One(function), None) => function(*x),
                    (Two(function), Some(y)) => function(*x, *y),
                    _ => panic!("{name} has another count of arguments"),
                };
                let error = error(got, *value, *rest);
                assert!(error <= bound, "{name} {x:?} {y:?}: {got:?} for {value:?}, {error:.3} ulp");
                count += 1;
            }
            assert!(count >= 250, "{name}: {count} rows");
        }
    }

    #[test]
    fn a_quick_power_is_as_near_as_it_says() {
        let mut count = 0;
        for Row { x, y, value, rest, .. } in rows().iter().filter(|row| row.name == "powf") {
            let (got, y) = (powf_quick(*x, y.unwrap()), y.unwrap());
            let size = (y * ln(*x)).abs();
            if *x >= f64::MIN_POSITIVE && *x < f64::INFINITY && size <= 708.0 {
                let error = error(got, *value, *rest);
                assert!(error <= 1.0 + 3.0 * size, "{x:?} {y:?}: {got:?} for {value:?}, {error:.3} ulp");
                count += 1;
            } else {
                assert!(got.is_nan(), "{x:?} {y:?}: {got:?}");
            }
        }
        assert!(count >= 250, "{count} rows");
        assert_eq!([powf_quick(1.0, -0.3), powf_quick(7.0, 0.0), powf_quick(1.0, 1e9)], [1.0; 3]);
        let subnormal = f64::MIN_POSITIVE.next_down();
        for (x, y) in [
            (0.0, 1.0),
            (subnormal, 1.0),
            (-2.0, 2.0),
            (f64::INFINITY, 0.0),
            (1.0, f64::NAN),
            (f64::NAN, 0.0),
            (f64::from_bits(f64::NAN.to_bits() + 1), 1.0),
        ] {
            assert!(powf_quick(x, y).is_nan(), "{x} {y}");
        }
    }

    #[test]
    fn every_row_of_the_table_has_its_function() {
        for row in rows() {
            assert!(FUNCTIONS.iter().any(|(name, ..)| *name == row.name), "{}", row.name);
        }
    }

    #[test]
    fn nan_goes_through() {
        for (name, function, _) in FUNCTIONS {
            match function {
                One(function) => assert!(function(f64::NAN).is_nan(), "{name}"),
                Two(function) => {
                    for other in [f64::NAN, -f64::INFINITY, -1.0, 0.0, 1.0, f64::INFINITY] {
                        assert!(function(f64::NAN, other).is_nan(), "{name} NaN {other}");
                        assert!(function(other, f64::NAN).is_nan(), "{name} {other} NaN");
                    }
                }
            }
        }
    }

    /// Whether `got` is within so many ulp of what the platform's library gives, itself within 1.
    fn agrees(got: f64, platform: f64, bound: f64) -> bool {
        got == platform || (got.is_nan() && platform.is_nan()) || error(got, platform, 0.0) <= bound + 1.0
    }

    // The platform's functions have errors of their own, yet they reach where the table does not.
    #[allow(clippy::disallowed_methods)]
    mod against_the_platform {
        use super::*;

        proptest! {
            #![proptest_config(ProptestConfig::with_cases(4000))]

            #[test]
            fn any_number_at_all(x in any::<f64>()) {
                prop_assert!(agrees(exp(x), x.exp(), 1.0));
                prop_assert!(agrees(ln(x), x.ln(), 1.0));
                prop_assert!(agrees(cbrt(x), x.cbrt(), 1.0));
                prop_assert!(agrees(atan(x), x.atan(), 1.0));
            }

            #[test]
            fn exponential_and_logarithm(x in -746.0..710.0f64, near_one in 0.5..2.0f64) {
                prop_assert!(agrees(exp(x), x.exp(), 1.0));
                prop_assert!(agrees(ln(near_one), near_one.ln(), 1.0));
            }

            #[test]
            fn powers(base in 0.0..2.0f64, any_base in any::<f64>(), exponent in -1100.0..1100.0f64) {
                prop_assert!(agrees(powf(base, exponent), base.powf(exponent), 1.0));
                let base = any_base.abs();
                for exponent in [exponent, 0.001 * exponent] {
                    prop_assert!(agrees(powf(base, exponent), base.powf(exponent), 1.0));
                }
            }

            #[test]
            fn arcs(x in -1.0..1.0f64, slope in -3.0..3.0f64) {
                prop_assert!(agrees(asin(x), x.asin(), 1.0));
                prop_assert!(agrees(acos(x), x.acos(), 1.0));
                prop_assert!(agrees(atan(slope), slope.atan(), 1.0));
            }

            // The platform's radians times a rounded 180/π are within 4 ulp.
            #[test]
            fn arcs_in_degrees(x in -1.0..1.0f64, y in -1e3..1e3f64, along in -1e3..1e3f64) {
                prop_assert!(agrees(asin_degrees(x), x.asin().to_degrees(), 4.0));
                prop_assert!(agrees(acos_degrees(x), x.acos().to_degrees(), 4.0));
                prop_assert!(agrees(atan_degrees(y), y.atan().to_degrees(), 4.0));
                prop_assert!(agrees(atan2_degrees(y, along), y.atan2(along).to_degrees(), 4.0));
            }
        }
    }
}
