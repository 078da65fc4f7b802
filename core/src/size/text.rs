//! Sizes out of text, exactly: numbers and their units.

use super::exact::{Size, SizeError};
use super::unit::LengthUnit;
use crate::error::excerpt;
use crate::number::{Number, Scanner, Sign};
use crate::quantity::Units;
use std::str::FromStr;

impl LengthUnit {
    /// The unit that text such as `in`, `mm`, `ft`, `thou`, `um` or `m` names.
    ///
    /// # Errors
    /// [`SizeError::UnknownUnit`].
    pub fn parse(text: &str) -> Result<&'static LengthUnit, SizeError> {
        LengthUnit::find(text).ok_or_else(|| SizeError::UnknownUnit { unit: excerpt(text) })
    }
}

/// A count of picometres between two whole numbers.
pub(crate) struct Picometres {
    pub whole: i128,
    /// Twice the rest compared with one: below, at or above the half.
    pub half: std::cmp::Ordering,
    pub exact: bool,
}

impl Number {
    /// The magnitude in picometres, or `None` where it is far out of range.
    pub(crate) fn picometres(self, unit: &LengthUnit) -> Option<Picometres> {
        let product = self.numerator.checked_mul(unit.picometres()).filter(|_| !self.huge)?;
        let whole = product / self.denominator;
        let rest = product - whole * self.denominator;
        Some(Picometres {
            whole: i128::try_from(whole).ok()?,
            half: rest.cmp(&(self.denominator - rest)),
            exact: rest == 0 && !self.truncated,
        })
    }
}

/// One number of a text, with its sign and the unit that stands behind it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Term {
    pub sign: Sign,
    pub number: Number,
    pub unit: Option<&'static LengthUnit>,
}

impl Term {
    pub(crate) const ZERO: Term = Term { sign: Sign::Unsigned, number: Number::ZERO, unit: None };

    pub(crate) fn is_zero(&self) -> bool {
        self.number.numerator == 0
    }

    /// Whether it is written with a slash: `7/16`.
    pub(crate) fn is_fraction(&self) -> bool {
        self.number.slash
    }

    pub(crate) fn is_unsigned(&self) -> bool {
        self.sign == Sign::Unsigned
    }

    pub(crate) fn with_sign(self, sign: Sign) -> Term {
        Term { sign, ..self }
    }

    /// The exact size, or why the whole `text` is none.
    pub(crate) fn size(self, unit: &LengthUnit, text: &str) -> Result<Size, SizeError> {
        let out_of_range = || SizeError::OutOfRange { text: excerpt(text) };
        let picometres = self.number.picometres(unit).ok_or_else(out_of_range)?;
        let signed = if self.sign == Sign::Minus { -picometres.whole } else { picometres.whole };
        let size = Size::from_picometres(i64::try_from(signed).map_err(|_| out_of_range())?);
        if picometres.exact { Ok(size) } else { Err(SizeError::OffGrid { text: excerpt(text) }) }
    }
}

impl Scanner<'_> {
    /// A unit of length. An unknown word is an error, save those in `others`, which stay where they are.
    pub(crate) fn unit(&mut self, others: &[&str]) -> Result<Option<&'static LengthUnit>, SizeError> {
        let mut ahead = *self;
        let Some(word) = ahead.word().filter(|word| !others.iter().any(|o| word.eq_ignore_ascii_case(o)))
        else {
            return Ok(None);
        };
        *self = ahead;
        LengthUnit::parse(word).map(Some)
    }

    /// A number with the unit behind it, if any. The sign must touch the number.
    pub(crate) fn term(&mut self, others: &[&str]) -> Result<Option<Term>, SizeError> {
        let mut ahead = *self;
        let Some((sign, number)) = ahead.signed() else { return Ok(None) };
        let unit = ahead.unit(others)?;
        *self = ahead;
        Ok(Some(Term { sign, number, unit }))
    }
}

impl Size {
    /// Reads text with a unit: `1.425 in`, `12 mm`, `7/16 in`, `1 7/16 in`, `1-7/16 in`, `.4375"`, `12 ft`, `3 m`, `5 µm`.
    ///
    /// # Errors
    /// Any [`SizeError`]; text that falls between two picometres, such as `1/3 in`, is never rounded.
    pub fn parse(text: &str) -> Result<Size, SizeError> {
        Size::parse_in(text, None)
    }

    /// Reads text as [`Size::parse`] does, a bare number being in inches or millimetres as `default` says.
    ///
    /// # Errors
    /// As [`Size::parse`].
    pub fn parse_in(text: &str, default: Option<Units>) -> Result<Size, SizeError> {
        Size::parse_with(text, default.map(Into::into))
    }

    /// Reads text as [`Size::parse`] does, a bare number being in the unit of `default`.
    ///
    /// # Errors
    /// As [`Size::parse`].
    pub fn parse_with(text: &str, default: Option<&LengthUnit>) -> Result<Size, SizeError> {
        let mut scanner = Scanner::new(text);
        let term = scanner.term(&[])?.filter(|_| scanner.at_end());
        let term: Term = term.ok_or_else(|| SizeError::Syntax { text: excerpt(text) })?;
        let unit: Option<&LengthUnit> = term.unit.or(default);
        term.size(unit.ok_or_else(|| SizeError::MissingUnit { text: excerpt(text) })?, text)
    }

    /// As [`Size::from_float`], in any unit of length.
    ///
    /// # Errors
    /// As there.
    pub fn from_float_in(value: f64, unit: &LengthUnit) -> Result<Size, SizeError> {
        Size::from_shortest_decimal(value, unit)
    }

    #[cold]
    pub(super) fn from_shortest_decimal(value: f64, unit: &LengthUnit) -> Result<Size, SizeError> {
        let text = format!("{value:e}");
        if !value.is_finite() {
            return Err(SizeError::NotFinite { text });
        }
        let nearest = Scanner::new(&text).term(&[]).ok().flatten().and_then(|term| {
            let count = term.number.picometres(unit)?;
            let up = count.half.is_gt() || (count.half.is_eq() && count.whole % 2 != 0);
            let whole = count.whole + i128::from(up);
            i64::try_from(if term.sign == Sign::Minus { -whole } else { whole }).ok()
        });
        nearest.map(Size::from_picometres).ok_or(SizeError::OutOfRange { text })
    }
}

impl FromStr for Size {
    type Err = SizeError;

    /// As [`Size::parse`].
    fn from_str(text: &str) -> Result<Size, SizeError> {
        Size::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn takes_leave_the_place_where_nothing_fits() {
        let mut scanner = Scanner::new("1.415..1.425 in");
        assert!(!scanner.take(&["±", "+/-"]) && !scanner.take_word("max"));
        assert!(scanner.term(&[]).unwrap().is_some() && scanner.take(&[".."]));
        assert!(scanner.term(&[]).unwrap().is_some_and(|term| term.unit == Some(Units::Inch.into())));
        assert!(scanner.at_end());
    }
}
