//! Exact factors between units.

/// An exact ratio of whole numbers in lowest terms, above zero.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Factor {
    numerator: i128,
    denominator: i128,
}

impl Factor {
    /// One.
    pub(crate) const ONE: Factor = Factor { numerator: 1, denominator: 1 };

    /// A whole number, or one over another.
    pub(crate) const fn of(parts: &[i128]) -> Factor {
        let (numerator, denominator) = match parts {
            [whole] => (*whole, 1),
            [numerator, denominator] => (*numerator, *denominator),
            _ => return Factor::ONE,
        };
        let (mut divisor, mut rest) = (numerator, denominator);
        while rest != 0 {
            (divisor, rest) = (rest, divisor % rest);
        }
        Factor { numerator: numerator / divisor, denominator: denominator / divisor }
    }

    pub(crate) const fn inverse(self) -> Factor {
        Factor { numerator: self.denominator, denominator: self.numerator }
    }

    pub(crate) const fn times(self, other: Factor) -> Factor {
        // What cancels goes first, which keeps the products small.
        let one = Factor::of(&[self.numerator, other.denominator]);
        let two = Factor::of(&[other.numerator, self.denominator]);
        Factor { numerator: one.numerator * two.numerator, denominator: one.denominator * two.denominator }
    }

    /// Numerator and denominator.
    pub const fn parts(self) -> [i128; 2] {
        [self.numerator, self.denominator]
    }

    /// The factor as a float, the nearest one where both parts are floats.
    pub(crate) const fn nearest(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }
}

/// `(number + before) · factor + after`, rounded once, or `None` where the exact arithmetic needs too many digits.
pub(crate) fn converted(number: [i128; 2], factor: Factor, [before, after]: [i128; 2]) -> Option<f64> {
    let [numerator, denominator] = number;
    let shifted = numerator.checked_add(before.checked_mul(denominator)?)?;
    let down = denominator.checked_mul(factor.denominator)?;
    let up = shifted.checked_mul(factor.numerator)?.checked_add(after.checked_mul(down)?)?;
    let magnitude = quotient(up.unsigned_abs(), down.unsigned_abs());
    Some(if up < 0 { -magnitude } else { magnitude })
}

/// The float nearest to a ratio, whose denominator is above zero and below 2^127.
fn quotient(numerator: u128, denominator: u128) -> f64 {
    const ENOUGH: u128 = 1 << 64;
    let (mut quotient, mut rest) = (numerator / denominator, numerator % denominator);
    let mut scale = 1.0;
    // Long division goes on until the digits that count are there; a last one stands for all that follow.
    while quotient < ENOUGH && rest > 0 {
        rest <<= 1;
        quotient = quotient << 1 | u128::from(rest >= denominator);
        rest -= if rest >= denominator { denominator } else { 0 };
        scale *= 0.5;
    }
    (quotient | u128::from(rest > 0)) as f64 * scale
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    // By hand.
    #[test]
    fn factors_are_in_lowest_terms() {
        assert_eq!(Factor::of(&[254, 10]).parts(), [127, 5]);
        assert_eq!(Factor::of(&[254, 10]).times(Factor::of(&[5, 254])).parts(), [1, 2]);
        assert_eq!(Factor::of(&[12]).inverse().parts(), [1, 12]);
    }

    #[test]
    fn what_has_too_many_digits_is_left() {
        assert_eq!(converted([i128::MAX, 1], Factor::of(&[2]), [0, 0]), None);
        assert_eq!(converted([1, i128::MAX], Factor::of(&[1, 2]), [0, 0]), None);
    }

    proptest! {
        // The standard library rounds decimals once.
        #[test]
        fn a_decimal_is_rounded_once(digits in any::<i64>(), places in 0u32..18) {
            let exact: f64 = format!("{digits}e-{places}").parse().unwrap();
            let number = [i128::from(digits), 10i128.pow(places)];
            prop_assert_eq!(converted(number, Factor::ONE, [0, 0]), Some(exact));
            let thirds = [i128::from(digits), 3];
            prop_assert_eq!(converted(thirds, Factor::of(&[3]), [0, 0]), Some(digits as f64));
        }
    }
}
