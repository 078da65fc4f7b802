//! Sensitivities times sizes, exactly.

/// Digits after the point that a sum keeps, which are all that a sensitivity can have.
const PLACES: u32 = 26;
const ONE: i128 = 10i128.pow(PLACES);

/// A sensitivity as the shortest decimal of its float: `digits / 10^places`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Sensitivity {
    digits: i128,
    places: u32,
}

impl Sensitivity {
    /// None unless it is 0, or from 1e-9 to 1e9 in size.
    pub(crate) fn new(value: f64) -> Option<Sensitivity> {
        if value == 0.0 {
            return Some(Sensitivity { digits: 0, places: 0 });
        }
        if !(1e-9..=1e9).contains(&value.abs()) {
            return None;
        }
        let whole = value as i64;
        if whole as f64 == value {
            return Some(Sensitivity { digits: i128::from(whole), places: 0 });
        }
        let text = format!("{value:e}");
        let (mantissa, exponent) = text.split_once('e')?;
        let exponent: i32 = exponent.parse().ok()?;
        let fraction = mantissa.split_once('.').map_or(0, |(_, fraction)| fraction.len());
        let digits: i128 = mantissa.replace('.', "").parse().ok()?;
        let places = i32::try_from(fraction).ok()? - exponent;
        match u32::try_from(places) {
            Ok(places) => Some(Sensitivity { digits, places }),
            Err(_) => Some(Sensitivity { digits: digits * 10i128.pow(places.unsigned_abs()), places: 0 }),
        }
    }
}

/// An exact sum of products of sensitivities and picometres: `whole + rest / 10^26`, the rest never negative.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub(crate) struct Sum {
    whole: i128,
    rest: i128,
}

impl Sum {
    /// Adds `count` times sensitivity times picometres. With counts up to a million and sizes of 64 bits nothing can
    /// overflow.
    pub(crate) fn add(&mut self, count: u32, sensitivity: Sensitivity, picometres: i64) {
        let product = sensitivity.digits * i128::from(picometres);
        let count = i128::from(count);
        // The usual whole sensitivity leaves no rest, and divisions of this width take long.
        if sensitivity.places == 0 {
            self.whole += count * product;
            return;
        }
        let one = 10i128.pow(sensitivity.places);
        self.whole += count * product.div_euclid(one);
        self.rest += count * (product.rem_euclid(one) * (ONE / one));
        self.whole += self.rest.div_euclid(ONE);
        self.rest = self.rest.rem_euclid(ONE);
    }

    /// Rounded down.
    pub(crate) fn floor(self) -> i128 {
        self.whole
    }

    /// Rounded up.
    pub(crate) fn ceil(self) -> i128 {
        self.whole + i128::from(self.rest > 0)
    }

    /// Rounded to the nearest, and down from the middle.
    pub(crate) fn nearest(self) -> i128 {
        self.whole + i128::from(self.rest > ONE / 2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(terms: &[(u32, f64, i64)]) -> Sum {
        let mut sum = Sum::default();
        for (count, sensitivity, picometres) in terms {
            sum.add(*count, Sensitivity::new(*sensitivity).unwrap(), *picometres);
        }
        sum
    }

    // By hand.
    #[test]
    fn products_of_decimals_are_exact() {
        assert_eq!(sum(&[(3, 0.1, 10), (7, 0.1, 10)]).floor(), 10);
        let third = sum(&[(1, 0.1, 1), (1, 0.2, 1)]);
        assert_eq!((third.floor(), third.ceil(), third.nearest()), (0, 1, 0));
        let minus = sum(&[(1, -0.5, 3)]);
        assert_eq!((minus.floor(), minus.ceil()), (-2, -1));
        assert_eq!(sum(&[(1, 0.3, 7), (1, -0.3, 7)]), Sum::default());
        assert_eq!(sum(&[(1, 1e9, i64::MAX), (1, -1e9, i64::MAX)]), Sum::default());
        assert_eq!(sum(&[(1_000_000, 1e-9, 1_000)]).floor(), 1);
        let far = sum(&[(1_000_000, 1e9, i64::MIN), (1_000_000, 1.2345678901234567e-9, i64::MAX)]);
        assert_eq!(far.floor().signum(), -1);
    }

    #[test]
    fn sensitivities_are_read_or_refused() {
        for bad in [f64::NAN, f64::INFINITY, 1e-10, -1.1e9, 5e-324] {
            assert_eq!(Sensitivity::new(bad), None, "{bad}");
        }
        assert_eq!(Sensitivity::new(-2.5), Some(Sensitivity { digits: -25, places: 1 }));
        assert_eq!(Sensitivity::new(400.0), Some(Sensitivity { digits: 400, places: 0 }));
        assert_eq!(Sensitivity::new(-0.0), Some(Sensitivity { digits: 0, places: 0 }));
    }
}
