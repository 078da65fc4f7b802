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
    if [before, after] == [0, 0] {
        let [up, down] = [numerator, denominator].map(i128::unsigned_abs);
        let [over, under] = [factor.numerator, factor.denominator].map(i128::unsigned_abs);
        let magnitude = match (up.checked_mul(over), down.checked_mul(under)) {
            (Some(up), Some(down)) if (up | down) >> 127 == 0 => quotient(up, down),
            _ => wide_quotient(product(up, over), product(down, under))?,
        };
        return Some(if numerator < 0 { -magnitude } else { magnitude });
    }
    let shifted = numerator.checked_add(before.checked_mul(denominator)?)?;
    let down = denominator.checked_mul(factor.denominator)?;
    let up = shifted.checked_mul(factor.numerator)?.checked_add(after.checked_mul(down)?)?;
    let magnitude = quotient(up.unsigned_abs(), down.unsigned_abs());
    Some(if up < 0 { -magnitude } else { magnitude })
}

/// A number of 256 bits, the high half first, which orders them.
type Wide = [u128; 2];

fn product(a: u128, b: u128) -> Wide {
    const HALF: u32 = 64;
    let halves = |x: u128| (x >> HALF, x & u128::from(u64::MAX));
    let ((a_high, a_low), (b_high, b_low)) = (halves(a), halves(b));
    let (low, across, other) = (a_low * b_low, a_high * b_low, a_low * b_high);
    let middle = (low >> HALF) + halves(across).1 + halves(other).1;
    let high = a_high * b_high + (across >> HALF) + (other >> HALF) + (middle >> HALF);
    [high, (middle << HALF) | halves(low).1]
}

/// The float nearest to a ratio, whose denominator is above zero and below 2^254; `None` where its whole part has more
/// than 127 bits.
fn wide_quotient(numerator: Wide, denominator: Wide) -> Option<f64> {
    const BITS: u32 = 256;
    const ENOUGH: u128 = 1 << 64;
    let bit = |at: u32| numerator[usize::from(at < 128)] >> (at % 128) & 1;
    let (mut quotient, mut rest, mut scale) = (0u128, [0u128, 0], 1.0);
    // The digits of the numerator, then as many noughts as it takes.
    let mut at = BITS;
    while at > 0 || (rest != [0, 0] && quotient < ENOUGH) {
        let next = if at > 0 { bit(at - 1) } else { 0 };
        scale *= if at > 0 { 1.0 } else { 0.5 };
        at = at.saturating_sub(1);
        rest = [rest[0] << 1 | rest[1] >> 127, rest[1] << 1 | next];
        let goes = rest >= denominator;
        if goes {
            let (low, borrow) = rest[1].overflowing_sub(denominator[1]);
            rest = [rest[0] - denominator[0] - u128::from(borrow), low];
        }
        if quotient >> 127 != 0 {
            return None;
        }
        quotient = quotient << 1 | u128::from(goes);
    }
    Some((quotient | u128::from(rest != [0, 0])) as f64 * scale)
}

/// The float nearest to a ratio, whose denominator is above zero and below 2^127.
fn quotient(numerator: u128, denominator: u128) -> f64 {
    const ENOUGH: u128 = 1 << 64;
    const EXACT: u128 = 1 << 53;
    if numerator <= EXACT && denominator <= EXACT {
        return numerator as f64 / denominator as f64;
    }
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
    use crate::quantity::{Quantity, Torque, Units};
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
        assert_eq!(converted([i128::MAX, 1], Factor::of(&[2]), [0, 1]), None);
        assert_eq!(converted([1, i128::MAX], Factor::of(&[1, 2]), [1, 0]), None);
    }

    // The quotients by fractions of whole numbers in Python.
    #[test]
    fn what_takes_more_than_128_bits_is_rounded_once() {
        let read = |text: &str| Torque::KIND.read(text, Units::Metric).unwrap();
        for (text, nearest) in [
            ("2.9574963966907064e-07 lbf·ft", 4.0098266967587033e-07),
            ("967.00437850315449850314 lbf·ft", 1311.081892489628),
            ("2.2121921098988924e-06 ozf·in", 1.5621509207073064e-08),
            ("1 1/3 N·m", 4.0 / 3.0),
            ("25 58/3 N·m", 133.0 / 3.0),
        ] {
            assert_eq!(read(text), nearest, "{text}");
        }
        let inch = |text: &str| Torque::KIND.read(text, Units::Inch).unwrap();
        assert_eq!(inch("459.863445175789593122 kN·m"), 339177.8709979033);
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
