//! Amounts of money: whole numbers of the smallest unit of a currency, never binary floats.
use super::exact::Exact;
use super::rounding::Rounding;
use crate::error::excerpt;
use std::cmp::Ordering;

/// The most decimals that an amount may have.
pub const MAX_DECIMALS: u8 = 9;

/// An amount of money in the smallest unit of a currency: 12.30 is 1230 cents.
///
/// ```
/// use tenths::money::{Amount, Rounding};
/// let amount = Amount::round("32.065", 2, Rounding::HalfEven)?;
/// assert_eq!((amount.to_string(), amount.minor()), ("32.06".into(), 3206));
/// # Ok::<(), tenths::money::AmountError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Amount {
    minor: i64,
    decimals: u8,
}

/// What is wrong with an amount of money.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum AmountError {
    /// Text that is not a decimal.
    #[error("`{text}` is not an amount; expected a decimal, e.g. `12.50`")]
    Unreadable {
        /// The text.
        text: String,
    },
    /// More than an amount can hold.
    #[error("an amount must be less than about 9 000 000 000 000 000 000 of its smallest unit")]
    TooLarge,
    /// Too many decimals.
    #[error("an amount must have 0 to {MAX_DECIMALS} decimals, not {decimals}")]
    Decimals {
        /// How many.
        decimals: u32,
    },
    /// Weights by which nothing can be split.
    #[error("weights must be zero or more, and one of them above zero: {got}")]
    Weights {
        /// The weights as given.
        got: String,
    },
}

impl Amount {
    /// So many of the smallest unit, of which 10 to the power of `decimals` make one.
    ///
    /// # Errors
    /// [`AmountError`] where there are more decimals than [`MAX_DECIMALS`].
    pub fn new(minor: i64, decimals: u8) -> Result<Amount, AmountError> {
        match decimals <= MAX_DECIMALS {
            true => Ok(Amount { minor, decimals }),
            false => Err(AmountError::Decimals { decimals: decimals.into() }),
        }
    }

    /// Reads a decimal with the decimals that it is written with: `12.50` has two.
    ///
    /// # Errors
    /// [`AmountError`].
    pub fn parse(text: &str) -> Result<Amount, AmountError> {
        let decimals = text.trim().split_once('.').map_or(0, |(_, digits)| digits.len());
        match u8::try_from(decimals) {
            Ok(decimals) => Amount::round(text, decimals, Rounding::HalfEven),
            Err(_) => Err(AmountError::Decimals { decimals: decimals.try_into().unwrap_or(u32::MAX) }),
        }
    }

    /// Reads a decimal and rounds it once.
    ///
    /// # Errors
    /// [`AmountError`].
    pub fn round(text: &str, decimals: u8, rounding: Rounding) -> Result<Amount, AmountError> {
        let exact = Exact::parse(text).ok_or_else(|| AmountError::Unreadable { text: excerpt(text) })?;
        Amount::new(0, decimals)?;
        Amount::of(exact, decimals, rounding)
    }

    pub(crate) fn of(exact: Exact, decimals: u8, rounding: Rounding) -> Result<Amount, AmountError> {
        let minor = exact.rounded(decimals.into(), rounding).and_then(|minor| i64::try_from(minor).ok());
        Ok(Amount { minor: minor.ok_or(AmountError::TooLarge)?, decimals })
    }

    /// How many of the smallest unit.
    pub const fn minor(self) -> i64 {
        self.minor
    }

    /// How many decimals it has.
    pub const fn decimals(self) -> u8 {
        self.decimals
    }

    /// The amount as a float, for a chart: never compute money with it.
    pub fn to_f64(self) -> f64 {
        self.exact().to_f64()
    }

    pub(crate) fn exact(self) -> Exact {
        Exact::of_units(self.minor.into(), self.decimals.into())
    }
}

impl std::fmt::Display for Amount {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.minor < 0 { "-" } else { "" };
        let (unit, minor) = (10_u64.pow(self.decimals.into()), self.minor.unsigned_abs());
        match self.decimals {
            0 => write!(f, "{sign}{minor}"),
            decimals => {
                write!(f, "{sign}{}.{:0>width$}", minor / unit, minor % unit, width = usize::from(decimals))
            }
        }
    }
}

/// Splits an amount by weights: each part to the last unit below its share, then one unit more for the largest
/// remainders, the earlier first among equals. The parts add up to the amount.
///
/// ```
/// use tenths::money::{Amount, split_amount};
/// let parts = split_amount(Amount::parse("100.00")?, &[1.0, 1.0, 1.0])?;
/// let texts: Vec<_> = parts.iter().map(Amount::to_string).collect();
/// assert_eq!(texts, ["33.34", "33.33", "33.33"]);
/// # Ok::<(), tenths::money::AmountError>(())
/// ```
///
/// # Errors
/// [`AmountError`] where a weight is below zero or is not a number, or all are zero. Weights are read to nine decimals.
pub fn split_amount(amount: Amount, weights: &[f64]) -> Result<Vec<Amount>, AmountError> {
    let bad = || AmountError::Weights { got: excerpt(&format!("{weights:?}")) };
    let read = |weight: &f64| Some(Exact::of_float(*weight)).filter(|weight| *weight >= Exact::ZERO);
    let weighed = weights.iter().map(read).collect::<Option<Vec<Exact>>>().ok_or_else(bad)?;
    let sum = weighed.iter().fold(Exact::ZERO, |sum, weight| sum + *weight);
    // A sum that is too large to be kept is not above zero either.
    if sum.partial_cmp(&Exact::ZERO) != Some(Ordering::Greater) {
        return Err(bad());
    }
    let whole = Exact::whole(amount.minor.into());
    let mut parts = vec![];
    for weight in weighed {
        let share = whole * weight / sum;
        let floor = share.floor().ok_or(AmountError::TooLarge)?;
        parts.push((floor, share - Exact::whole(floor)));
    }
    let given: i128 = parts.iter().map(|part| part.0).sum();
    let mut by_remainder: Vec<usize> = (0..parts.len()).collect();
    by_remainder.sort_by(|&a, &b| parts[b].1.partial_cmp(&parts[a].1).unwrap_or(Ordering::Equal));
    let left = usize::try_from(i128::from(amount.minor) - given).unwrap_or(0);
    for &part in by_remainder.iter().take(left) {
        parts[part].0 += 1;
    }
    let made = |(minor, _): (i128, Exact)| {
        Ok(Amount { minor: i64::try_from(minor).map_err(|_| AmountError::TooLarge)?, ..amount })
    };
    parts.into_iter().map(made).collect()
}
