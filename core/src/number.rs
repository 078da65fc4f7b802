//! Reads numbers out of text, exactly: decimals, fractions and signs.

/// More digits than any size on the grid can have, few enough that a product with a unit fits in 128 bits.
const DIGITS: u32 = 26;

/// A number as written, without its sign: `numerator / denominator`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Number {
    pub numerator: u128,
    pub denominator: u128,
    /// Digits beyond those that can count were left out.
    pub truncated: bool,
    /// Too large for any size.
    pub huge: bool,
    /// Written with a slash.
    pub slash: bool,
}

impl Number {
    pub(crate) const ZERO: Number =
        Number { numerator: 0, denominator: 1, truncated: false, huge: false, slash: false };
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
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Sign {
    Unsigned,
    Plus,
    Minus,
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

    /// A number behind its sign, which must touch it.
    pub(crate) fn signed(&mut self) -> Option<(Sign, Number)> {
        let mut ahead = *self;
        let sign = ahead.sign();
        if sign != Sign::Unsigned && ahead.at_space() {
            return None;
        }
        let number = ahead.number()?;
        *self = ahead;
        Some((sign, number))
    }

    /// A word of letters, or an inch mark.
    pub(crate) fn word(&mut self) -> Option<&'a str> {
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
    let (sign, number) = scanner.signed().filter(|_| scanner.at_end())?;
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
