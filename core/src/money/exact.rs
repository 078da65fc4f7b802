//! Exact numbers for sums of money: fractions of whole numbers, rounded once at the end.
use super::rounding::Rounding;
use crate::decimals;
use crate::number;
use std::cmp::Ordering;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A fraction in lowest terms. One that grew beyond what is kept is lost, and stays so, as NaN does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Exact {
    numerator: i128,
    /// Above zero; zero where the number is lost.
    denominator: i128,
}

impl Exact {
    pub(crate) const ZERO: Exact = Exact { numerator: 0, denominator: 1 };
    pub(crate) const ONE: Exact = Exact { numerator: 1, denominator: 1 };
    const LOST: Exact = Exact { numerator: 0, denominator: 0 };
    /// A float is taken to so many decimals, so that what a program computed lands on what it meant.
    pub(crate) const PLACES: u32 = 9;

    pub(crate) const fn whole(number: i128) -> Exact {
        Exact { numerator: number, denominator: 1 }
    }

    /// The number of so many units of so many decimals: `of_units(1250, 2)` is 12.50.
    pub(crate) fn of_units(units: i128, decimals: u32) -> Exact {
        10_i128.checked_pow(decimals).map_or(Exact::LOST, |unit| Exact::fraction(units, unit))
    }

    /// The decimal nearest to a float, with nine decimals.
    pub(crate) fn of_float(number: f64) -> Exact {
        if let Some(count) = decimals::counted(number, Exact::PLACES as usize) {
            return Exact::of_units(count.into(), Exact::PLACES);
        }
        let text = format!("{number:.*}", Exact::PLACES as usize);
        number::exact(&text)
            .map_or(Exact::LOST, |[numerator, denominator]| Exact::fraction(numerator, denominator))
    }

    /// A decimal or a fraction as written.
    pub(crate) fn parse(text: &str) -> Option<Exact> {
        let [numerator, denominator] = number::exact(text)?;
        Some(Exact::fraction(numerator, denominator))
    }

    fn fraction(numerator: i128, denominator: i128) -> Exact {
        if denominator == 0 {
            return Exact::LOST;
        }
        let common = common_divisor(numerator.unsigned_abs(), denominator.unsigned_abs());
        let Ok(common) = i128::try_from(common) else { return Exact::LOST };
        let (numerator, denominator) = match denominator > 0 {
            true => (Some(numerator), Some(denominator)),
            false => (numerator.checked_neg(), denominator.checked_neg()),
        };
        match (numerator, denominator) {
            (Some(numerator), Some(denominator)) => {
                Exact { numerator: quotient(numerator, common), denominator: quotient(denominator, common) }
            }
            _ => Exact::LOST,
        }
    }

    pub(crate) fn is_lost(self) -> bool {
        self.denominator == 0
    }

    /// Whether it has at most so many decimals.
    pub(crate) fn has_decimals(self, decimals: u32) -> bool {
        10_i128.checked_pow(decimals).is_some_and(|unit| !self.is_lost() && unit % self.denominator == 0)
    }

    pub(crate) fn floor(self) -> Option<i128> {
        match (i64::try_from(self.numerator), i64::try_from(self.denominator)) {
            _ if self.is_lost() => None,
            (Ok(numerator), Ok(denominator)) => Some(numerator.div_euclid(denominator).into()),
            _ => Some(self.numerator.div_euclid(self.denominator)),
        }
    }

    pub(crate) fn ceil(self) -> Option<i128> {
        let floor = self.floor()?;
        Some(floor + i128::from(floor.checked_mul(self.denominator)? != self.numerator))
    }

    /// In units of so many decimals, rounded once.
    pub(crate) fn rounded(self, decimals: u32, rounding: Rounding) -> Option<i128> {
        let unit = 10_i128.checked_pow(decimals)?;
        let scaled = match self.numerator.checked_mul(unit) {
            // In lowest terms or not: the quotient and what is left of it are the same.
            Some(numerator) => Exact { numerator, ..self },
            None => self * Exact::whole(unit),
        };
        let floor = scaled.floor()?;
        // From zero up to the denominator; what the product loses on the way does not matter.
        let rest = scaled.numerator.wrapping_sub(floor.wrapping_mul(scaled.denominator));
        let half = rest.cmp(&(scaled.denominator - rest));
        let up = match (half, rounding) {
            (Ordering::Less, _) => false,
            (Ordering::Greater, _) => true,
            (Ordering::Equal, Rounding::HalfEven) => floor.rem_euclid(2) == 1,
            (Ordering::Equal, Rounding::HalfUp) => scaled.numerator > 0,
        };
        Some(floor + i128::from(up))
    }

    pub(crate) fn to_f64(self) -> f64 {
        match self.is_lost() {
            true => f64::NAN,
            false => self.numerator as f64 / self.denominator as f64,
        }
    }

    /// The greater of two; lost if one is.
    pub(crate) fn max(self, other: Exact) -> Exact {
        match self.partial_cmp(&other) {
            Some(Ordering::Less) => other,
            Some(_) => self,
            None => Exact::LOST,
        }
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Exact) -> Option<Ordering> {
        if other.numerator == 0 && !self.is_lost() && !other.is_lost() {
            return Some(self.numerator.cmp(&0));
        }
        let difference = *self - *other;
        (!difference.is_lost()).then(|| difference.numerator.cmp(&0))
    }
}

impl Add for Exact {
    type Output = Exact;

    fn add(self, other: Exact) -> Exact {
        if self.is_lost() || other.is_lost() { Exact::LOST } else { sum(self, other).unwrap_or(Exact::LOST) }
    }
}

/// The sum over the least denominator in common, where it can be kept.
fn sum(one: Exact, other: Exact) -> Option<Exact> {
    let common = common_divisor(one.denominator.unsigned_abs(), other.denominator.unsigned_abs());
    let common = i128::try_from(common).ok().filter(|&common| common > 0)?;
    let [mine, others] = [other.denominator / common, one.denominator / common];
    let numerator = one.numerator.checked_mul(mine)?.checked_add(other.numerator.checked_mul(others)?)?;
    Some(Exact::fraction(numerator, one.denominator.checked_mul(mine)?))
}

impl Neg for Exact {
    type Output = Exact;

    fn neg(self) -> Exact {
        self.numerator.checked_neg().map_or(Exact::LOST, |numerator| Exact { numerator, ..self })
    }
}

impl Sub for Exact {
    type Output = Exact;

    fn sub(self, other: Exact) -> Exact {
        self + -other
    }
}

impl Mul for Exact {
    type Output = Exact;

    fn mul(self, other: Exact) -> Exact {
        if self.is_lost() || other.is_lost() {
            return Exact::LOST;
        }
        // Crosswise in lowest terms first: the products are then as small as they can be.
        let [a, b] = [
            Exact::fraction(self.numerator, other.denominator),
            Exact::fraction(other.numerator, self.denominator),
        ];
        let numerator = a.numerator.checked_mul(b.numerator);
        let denominator = a.denominator.checked_mul(b.denominator);
        match (numerator, denominator) {
            // No factor is left in common: each part had none with its own other part, nor now with the other's.
            (Some(numerator), Some(denominator)) => Exact { numerator, denominator },
            _ => Exact::LOST,
        }
    }
}

impl Div for Exact {
    type Output = Exact;

    fn div(self, other: Exact) -> Exact {
        self.mul(Exact::fraction(other.denominator, other.numerator))
    }
}

fn common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b > 0 {
        // Numbers of 64 bits, as most are, are divided far sooner.
        if let (Ok(a), Ok(b)) = (u64::try_from(a), u64::try_from(b)) {
            return short_common_divisor(a, b).into();
        }
        (a, b) = (b, a % b);
    }
    a
}

fn short_common_divisor(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// A quotient that leaves no rest, or one of any numbers.
fn quotient(number: i128, divisor: i128) -> i128 {
    match (i64::try_from(number), i64::try_from(divisor)) {
        (Ok(number), Ok(divisor)) if divisor > 0 => (number / divisor).into(),
        _ => number / divisor,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact(text: &str) -> Exact {
        Exact::parse(text).unwrap()
    }

    #[test]
    fn decimals_are_exact() {
        assert_eq!(exact("0.1") + exact("0.2"), exact("0.3"));
        assert_eq!(exact("0.55") * exact("58.30"), exact("32.065"));
        assert_eq!(exact("190") / (Exact::ONE - exact("0.05")), Exact::whole(200));
        assert_eq!(Exact::of_float(0.1 + 0.2), exact("0.3"));
        assert_eq!([exact("-2.5").floor(), exact("-2.5").ceil()], [Some(-3), Some(-2)]);
    }

    #[test]
    fn what_is_too_large_is_lost_and_stays_so() {
        let huge = exact("1e37") * exact("1e37");
        assert!(huge.is_lost() && (huge - huge).is_lost() && (Exact::ONE / Exact::ZERO).is_lost());
        assert_eq!(
            (huge.floor(), huge.rounded(2, Rounding::HalfUp), huge.partial_cmp(&huge)),
            (None, None, None)
        );
        assert!(huge.to_f64().is_nan() && Exact::of_float(f64::NAN).is_lost());
    }
}
