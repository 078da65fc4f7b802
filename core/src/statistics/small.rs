//! Exponentials and logarithms less what they are near: no digit is lost where the argument is small.
use crate::math::{exp, ln};

/// exp x - 1.
pub(crate) fn exp_less_one(x: f64) -> f64 {
    if x.abs() < 0.4 { x + exponential_series(x, 2) } else { exp(x) - 1.0 }
}

/// exp x - 1 - x, which is never negative.
pub(super) fn exp_less_line(x: f64) -> f64 {
    if x.abs() < 0.4 { exponential_series(x, 2) } else { exp(x) - 1.0 - x }
}

/// The terms of exp x from x^`first` / `first`! on, for small x.
fn exponential_series(x: f64, first: u32) -> f64 {
    let mut sum = 1.0;
    // Horner's rule: the factor of the first term is taken out.
    for k in (first + 1..first + 15).rev() {
        sum = 1.0 + sum * x / f64::from(k);
    }
    (1..=first).fold(sum, |term, k| term * x / f64::from(k))
}

/// ln(1 + x).
pub(super) fn ln_one_plus(x: f64) -> f64 {
    if x.abs() < 0.4 {
        let s = x / (2.0 + x);
        2.0 * s + 2.0 * s * atanh_ratio(s * s)
    } else {
        ln(1.0 + x)
    }
}

/// atanh √z / √z - 1 = z/3 + z²/5 + z³/7 + …, for z up to about 1/4.
pub(super) fn atanh_ratio(z: f64) -> f64 {
    let (mut sum, mut power, mut odd) = (0.0, z, 3.0);
    loop {
        let term = power / odd;
        let next = sum + term;
        if next == sum || !next.is_finite() {
            return next;
        }
        (sum, power, odd) = (next, power * z, odd + 2.0);
    }
}

#[cfg(test)]
#[allow(clippy::disallowed_methods)] // What the platform gives, within its own error.
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn they_agree_with_the_platform(x in -0.99..3.0f64, shift in 0..60) {
            let x = x * f64::from(shift).exp2().recip();
            prop_assert!((exp_less_one(x) - x.exp_m1()).abs() <= 8e-16 * x.exp_m1().abs());
            prop_assert!((ln_one_plus(x) - x.ln_1p()).abs() <= 8e-16 * x.ln_1p().abs());
            let series = x * x * (0.5 + x * (1.0 / 6.0 + x * (1.0 / 24.0 + x / 120.0)));
            if x.abs() < 2e-4 {
                prop_assert!((exp_less_line(x) - series).abs() <= 1e-15 * series);
            } else {
                prop_assert!((exp_less_line(x) - (x.exp_m1() - x)).abs() <= 1e-15 * (1.0 + x.exp()));
            }
        }
    }
}
