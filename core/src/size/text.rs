//! Reads lengths out of text, exactly: numbers, fractions, signs and units.

use super::{Size, SizeError};
use crate::error::excerpt;
use crate::quantity::{Length, Quantity, Units};

/// A unit of length and its spellings.
#[derive(PartialEq, Eq, Debug)]
pub(crate) struct LengthUnit {
    label: &'static str,
    spellings: &'static [&'static str],
    picometres: u128,
}

const COUNT: usize = 2 + Length::KIND.others.len();

/// The units of the table of quantities, the shop units first.
static UNITS: [LengthUnit; COUNT] = {
    const NONE: LengthUnit = LengthUnit { label: "", spellings: &[], picometres: 0 };
    let mut units = [NONE; COUNT];
    let mut k = 0;
    while k < COUNT {
        units[k] = if k < 2 {
            let (unit, side) = (&Length::KIND.units[k], Units::ALL[k]);
            LengthUnit { label: unit.label, spellings: unit.spellings, picometres: side.picometres() as u128 }
        } else {
            let unit = &Length::KIND.others[k - 2];
            let [numerator, denominator] = unit.to[Units::Metric as usize].parts();
            let picometres = Units::Metric.picometres() as i128 * numerator;
            assert!(picometres % denominator == 0, "a unit of length that is no whole number of picometres");
            LengthUnit {
                label: unit.label,
                spellings: unit.spellings,
                picometres: (picometres / denominator) as u128,
            }
        };
        k += 1;
    }
    units
};

impl From<Units> for &'static LengthUnit {
    fn from(units: Units) -> Self {
        &UNITS[units as usize]
    }
}

/// More digits than any size on the grid can have, few enough that a product with a unit fits in 128 bits.
const DIGITS: u32 = 26;

/// A number as written, without its sign: `numerator / denominator`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Number {
    numerator: u128,
    denominator: u128,
    /// Digits beyond those that can count were left out.
    truncated: bool,
    /// Too large for any size.
    huge: bool,
    /// Written with a slash.
    slash: bool,
}

/// A count of picometres between two whole numbers.
pub(crate) struct Picometres {
    pub whole: i128,
    /// Twice the rest compared with one: below, at or above the half.
    pub half: std::cmp::Ordering,
    pub exact: bool,
}

impl Number {
    const ZERO: Number = Number { numerator: 0, denominator: 1, truncated: false, huge: false, slash: false };
    const HUGE: Number = Number { numerator: 1, denominator: 1, truncated: false, huge: true, slash: false };

    fn scaled(digits: u128, exponent: i64, truncated: bool) -> Number {
        const MOST: i64 = 38;
        let power = |exponent: i64| 10u128.pow(exponent.clamp(0, MOST) as u32);
        if digits == 0 {
            return Number::ZERO;
        }
        if exponent < -MOST {
            return Number {
                numerator: digits,
                denominator: power(MOST),
                truncated: true,
                huge: false,
                slash: false,
            };
        }
        match digits.checked_mul(power(exponent)) {
            Some(numerator) if exponent <= MOST => {
                Number { numerator, denominator: power(-exponent), truncated, huge: false, slash: false }
            }
            _ => Number::HUGE,
        }
    }

    fn fraction(whole: u128, numerator: u128, denominator: u128) -> Number {
        let total = whole.checked_mul(denominator).and_then(|product| product.checked_add(numerator));
        match total {
            Some(numerator) => Number { numerator, denominator, truncated: false, huge: false, slash: true },
            None => Number { slash: true, ..Number::HUGE },
        }
    }

    /// The magnitude in picometres, or `None` where it is far out of range.
    pub(crate) fn picometres(self, unit: &LengthUnit) -> Option<Picometres> {
        let product = self.numerator.checked_mul(unit.picometres).filter(|_| !self.huge)?;
        let whole = product / self.denominator;
        let rest = product - whole * self.denominator;
        Some(Picometres {
            whole: i128::try_from(whole).ok()?,
            half: rest.cmp(&(self.denominator - rest)),
            exact: rest == 0 && !self.truncated,
        })
    }
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Sign {
    Unsigned,
    Plus,
    Minus,
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

/// A place in a text. Each method takes what it names, after any spaces, or leaves the place as it was.
#[derive(Clone, Copy)]
pub(crate) struct Scanner<'a>(&'a str);

impl<'a> Scanner<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        Scanner(text.trim())
    }

    /// What follows any spaces, which are mostly those of ASCII.
    fn here(&self) -> &'a str {
        let here = self.0.trim_ascii_start();
        if here.starts_with(|c: char| c.is_ascii_graphic()) { here } else { here.trim_start() }
    }

    pub(crate) fn at_end(&self) -> bool {
        self.here().is_empty()
    }

    /// Whether one of `tokens` stood here.
    pub(crate) fn take(&mut self, tokens: &[&str]) -> bool {
        let here = self.here();
        let rest = tokens.iter().find_map(|token| here.strip_prefix(token));
        self.0 = rest.unwrap_or(self.0);
        rest.is_some()
    }

    /// Whether `token` stood here with no space before it.
    pub(crate) fn take_touching(&mut self, token: &str) -> bool {
        let rest = self.0.strip_prefix(token);
        self.0 = rest.unwrap_or(self.0);
        rest.is_some()
    }

    /// Whether a space stands here.
    pub(crate) fn at_space(&self) -> bool {
        self.0.starts_with(char::is_whitespace)
    }

    /// Whether `token` stood here with a space on either side.
    pub(crate) fn take_spaced(&mut self, tokens: &[&str]) -> bool {
        let mut ahead = *self;
        let spaced = self.at_space() && ahead.take(tokens) && ahead.at_space();
        if spaced {
            *self = ahead;
        }
        spaced
    }

    fn sign(&mut self) -> Sign {
        let mut letters = self.here().chars();
        let sign = match letters.next() {
            Some('-' | '−') => Sign::Minus,
            Some('+') => Sign::Plus,
            _ => return Sign::Unsigned,
        };
        self.0 = letters.as_str();
        sign
    }

    /// A word of letters, or an inch mark.
    fn word(&mut self) -> Option<&'a str> {
        let here = self.here();
        let end = here.find(|c| !is_of_word(c)).unwrap_or(here.len());
        let (word, rest) = here.split_at(end);
        (end > 0).then(|| {
            self.0 = rest;
            word
        })
    }

    /// Whether the word `wanted` stood here, in capitals or not.
    pub(crate) fn take_word(&mut self, wanted: &str) -> bool {
        let Some((word, rest)) = self.here().split_at_checked(wanted.len()) else { return false };
        let found = word.eq_ignore_ascii_case(wanted) && !rest.starts_with(is_of_word);
        if found {
            self.0 = rest;
        }
        found
    }

    /// A unit of length. An unknown word is an error, save those in `others`, which stay where they are.
    pub(crate) fn unit(&mut self, others: &[&str]) -> Result<Option<&'static LengthUnit>, SizeError> {
        let mut ahead = *self;
        let Some(word) = ahead.word().filter(|word| !others.iter().any(|o| word.eq_ignore_ascii_case(o)))
        else {
            return Ok(None);
        };
        *self = ahead;
        match UNITS.iter().find(|unit| unit.label == word || unit.spellings.contains(&word)) {
            Some(unit) => Ok(Some(unit)),
            None => Err(SizeError::UnknownUnit { unit: excerpt(word) }),
        }
    }

    /// A number with the unit behind it, if any. The sign must touch the number.
    pub(crate) fn term(&mut self, others: &[&str]) -> Result<Option<Term>, SizeError> {
        let mut ahead = *self;
        let sign = ahead.sign();
        if sign != Sign::Unsigned && ahead.0.starts_with(char::is_whitespace) {
            return Ok(None);
        }
        let Some(number) = ahead.number() else { return Ok(None) };
        let unit = ahead.unit(others)?;
        *self = ahead;
        Ok(Some(Term { sign, number, unit }))
    }

    /// A decimal, a fraction, or a whole number with a fraction. Only whole numbers make a fraction, so that
    /// `1.425/1.415` stays two numbers.
    fn number(&mut self) -> Option<Number> {
        self.0 = self.here();
        // Most texts have no slash.
        let fraction = if self.0.contains('/') { self.fraction() } else { None };
        fraction.or_else(|| self.decimal())
    }

    fn fraction(&mut self) -> Option<Number> {
        let mut ahead = *self;
        let first = ahead.integer()?;
        let number = match ahead.denominator() {
            Some(denominator) => Number::fraction(0, first, denominator),
            None => {
                let touching =
                    ahead.0.strip_prefix('-').filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
                let spaced = || ahead.0.starts_with(char::is_whitespace).then(|| ahead.0.trim_start());
                ahead.0 = touching.or_else(spaced)?;
                let numerator = ahead.integer()?;
                Number::fraction(first, numerator, ahead.denominator()?)
            }
        };
        *self = ahead;
        Some(number)
    }

    /// A whole number above zero behind a slash.
    fn denominator(&mut self) -> Option<u128> {
        let mut ahead = *self;
        if !ahead.take(&["/"]) {
            return None;
        }
        ahead.0 = ahead.here();
        let denominator = ahead.integer().filter(|&denominator| denominator > 0)?;
        *self = ahead;
        Some(denominator)
    }

    /// Digits that no decimal point or exponent follows.
    fn integer(&mut self) -> Option<u128> {
        let end = self.0.bytes().take_while(u8::is_ascii_digit).count();
        let (digits, rest) = self.0.split_at(end);
        if rest.starts_with('.') && !rest.starts_with("..") || exponent(rest).is_some() {
            return None;
        }
        let value = digits.parse().ok()?;
        self.0 = rest;
        Some(value)
    }

    fn decimal(&mut self) -> Option<Number> {
        let (mut digits, mut count, mut places) = (0u128, 0u32, 0i64);
        let (mut seen, mut point, mut truncated) = (false, false, false);
        let mut end = 0;
        for (place, byte) in self.0.bytes().enumerate() {
            match byte {
                b'0'..=b'9' if count < DIGITS => {
                    digits = digits * 10 + u128::from(byte - b'0');
                    count += u32::from(digits > 0);
                    places += i64::from(point);
                    seen = true;
                }
                b'0'..=b'9' => {
                    truncated |= byte != b'0';
                    places -= i64::from(!point);
                }
                b'.' if !point && !self.0[place..].starts_with("..") => point = true,
                _ => break,
            }
            end = place + 1;
        }
        if !seen {
            return None;
        }
        let (power, rest) = exponent(&self.0[end..]).unwrap_or((0, &self.0[end..]));
        self.0 = rest;
        Some(Number::scaled(digits, power.saturating_sub(places), truncated))
    }
}

/// A decimal or a fraction as numerator and denominator, if it has no more digits than are kept.
pub(crate) fn exact(text: &str) -> Option<[i128; 2]> {
    let mut scanner = Scanner::new(text);
    let Term { sign, number, .. } = scanner.term(&[]).ok()?.filter(|_| scanner.at_end())?;
    let Number { numerator, denominator, truncated, huge, .. } = number;
    let (numerator, denominator) = (i128::try_from(numerator).ok()?, i128::try_from(denominator).ok()?);
    let signed = if sign == Sign::Minus { -numerator } else { numerator };
    (!truncated && !huge).then_some([signed, denominator])
}

/// Whether words are made of it: letters, and inch marks.
fn is_of_word(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '"' | '″')
}

/// The power of ten of `e-3` at the start of `text`, and what follows it.
fn exponent(text: &str) -> Option<(i64, &str)> {
    let body = text.strip_prefix(['e', 'E'])?;
    let unsigned = body.strip_prefix(['+', '-']).unwrap_or(body);
    let end = unsigned.find(|c: char| !c.is_ascii_digit()).unwrap_or(unsigned.len());
    let (digits, rest) = unsigned.split_at(end);
    if digits.is_empty() {
        return None;
    }
    let power = digits.parse::<u32>().map_or(i64::from(u32::MAX), i64::from);
    Some((if body.starts_with('-') { -power } else { power }, rest))
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
