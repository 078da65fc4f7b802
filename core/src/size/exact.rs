//! A length as a whole number of picometres.
use super::unit::LengthUnit;
use crate::quantity::{Kind, Length, Quantity, Units};
use std::fmt;

/// A signed length as a whole number of picometres, within ±9223 km.
///
/// There are no operators, since they could overflow: sums and differences are checked.
///
/// ```
/// use tenths::Size;
/// let upper = Size::parse("1.420 in")?.checked_add(Size::parse(".005 in")?);
/// assert_eq!(upper, Some(Size::parse("1.425 in")?));
/// # Ok::<(), tenths::SizeError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Size(i64);

/// Why something is no size.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SizeError {
    /// The text is not a number with a unit.
    #[error(
        "`{text}` is not a valid size; expected a number and a unit, e.g. `1.425 in`, `1 7/16 in` or `12 mm`"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// A number without a unit, where no unit is understood.
    #[error("`{text}` needs a unit: in or mm")]
    MissingUnit {
        /// The text as given.
        text: String,
    },
    /// A unit that is not one of length.
    #[error("`{unit}` is not a known unit of length; expected {}", Length::KIND.labels())]
    UnknownUnit {
        /// The unit as given.
        unit: String,
    },
    /// A size that is not a whole number of picometres.
    #[error("`{text}` is not a whole number of picometres: write it as a decimal, to 1e-8 in or 1e-9 mm")]
    OffGrid {
        /// The text as given.
        text: String,
    },
    /// A size beyond what is counted.
    #[error("`{text}` is out of range: a size lies within ±9223 km")]
    OutOfRange {
        /// The text or number as given.
        text: String,
    },
    /// NaN or an infinity.
    #[error("`{text}` is not a size: it must be finite")]
    NotFinite {
        /// The number as given.
        text: String,
    },
    /// A step to round to that is zero or negative.
    #[error("a rounding step must be greater than 0, not {step}")]
    Step {
        /// The step as given.
        step: Size,
    },
}

/// An inch is 2^9 · 5^8 times this many picometres, so that a count has an end in inches where this divides it.
const PICOMETRES_AT_ODDS: i64 = 127;

/// The side for sizes that are told together: inches where each is a finite decimal of them, or zero; millimetres
/// otherwise. See [`Size::natural_units`].
pub fn natural_units(sizes: &[Size]) -> Units {
    let suits = |size: &Size| *size == Size::ZERO || size.natural_units() == Units::Inch;
    let is_inch = sizes.iter().all(suits) && sizes.iter().any(|size| *size != Size::ZERO);
    if is_inch { Units::Inch } else { Units::Metric }
}

/// Sizes of one message, all in the same unit.
pub(crate) fn alike<const N: usize>(sizes: [Size; N]) -> [String; N] {
    let units = natural_units(&sizes);
    sizes.map(|size| size.format(units))
}

/// Bytes that the text of two limits and their unit seldom needs more of.
const ROOM: usize = 32;

impl Units {
    /// An inch or a millimetre in picometres.
    pub(crate) const fn picometres(self) -> i64 {
        match self {
            Units::Inch => 25_400_000_000,
            Units::Metric => 1_000_000_000,
        }
    }

    pub(crate) const fn length_label(self) -> &'static str {
        Length::KIND.unit(self).label
    }
}

impl Size {
    /// No length.
    pub const ZERO: Size = Size(0);

    /// From a count of picometres. An inch is 25 400 000 000 of them.
    pub const fn from_picometres(picometres: i64) -> Size {
        Size(picometres)
    }

    /// The count of picometres.
    pub const fn picometres(self) -> i64 {
        self.0
    }

    /// The shortest decimal that reads back as `value`, in inches or millimetres, to the nearest picometre
    /// (an even count where two are as near).
    ///
    /// So 1.42 + 0.005, which floating point makes 1.4249999999999998, is 1.425.
    ///
    /// # Errors
    /// [`SizeError::NotFinite`] and [`SizeError::OutOfRange`].
    #[inline]
    pub fn from_float(value: f64, units: Units) -> Result<Size, SizeError> {
        // The product is off by at most 2^-53 of itself, and the shortest decimal lies within half a unit in
        // the last place of `value`, another 2^-53: together below 0.0079 for a count under 2^45 (35 m). A count
        // within 0.49 of a whole number therefore has that one as its nearest.
        const FAST: f64 = (1u64 << 45) as f64;
        // Adding and taking away 3 · 2^51 rounds to a whole number.
        const ROUNDER: f64 = (3u64 << 51) as f64;
        let count = value * units.picometres() as f64;
        let nearest = (count + ROUNDER) - ROUNDER;
        if count.abs() < FAST && (count - nearest).abs() < 0.49 {
            return Ok(Size(nearest as i64));
        }
        Size::from_shortest_decimal(value, units.into())
    }

    /// The step of an instrument as [`Size::from_float`] reads it, and at least a picometre where it is above zero: a
    /// finer one reads what is printed.
    ///
    /// # Errors
    /// As [`Size::from_float`].
    pub fn step_from_float(step: f64, units: Units) -> Result<Size, SizeError> {
        let size = Size::from_float(step, units)?;
        Ok(if step > 0.0 { size.max(Size(1)) } else { size })
    }

    /// The nearest number to this size in inches or millimetres.
    pub fn to_float(self, units: Units) -> f64 {
        nearest_ratio(i128::from(self.0), units.picometres())
    }

    /// The nearest number to this size in any unit of length.
    pub fn to_float_in(self, unit: &LengthUnit) -> f64 {
        nearest_ratio(i128::from(self.0), unit.picometres() as i64)
    }

    /// The exact decimal with its unit, in any unit of length; one that does not end is given to eight places behind
    /// the sign `≈`.
    pub fn format_in(self, unit: &LengthUnit) -> String {
        let (count, one) = (i128::from(self.0).abs(), unit.picometres() as i128);
        // A decimal that ends does so within as many places as the unit has powers of two or five: metres have twelve.
        const MAX_PLACES: u32 = 12;
        let ends = count * 10_i128.pow(MAX_PLACES) % one == 0;
        let places = if ends { MAX_PLACES } else { 8 };
        let scaled = count * 10_i128.pow(places);
        let scaled = if ends { scaled / one } else { (2 * scaled + one) / (2 * one) };
        let (whole, rest) = (scaled / 10_i128.pow(places), scaled % 10_i128.pow(places));
        let decimal = format!("{whole}.{rest:0places$}", places = places as usize);
        let (about, sign) = (if ends { "" } else { "≈" }, if self.0 < 0 { "-" } else { "" });
        format!("{about}{sign}{} {}", decimal.trim_end_matches('0').trim_end_matches('.'), unit.label())
    }

    /// The side in whose unit the decimal of this size is exact and has the fewer digits: inches where it is a finite
    /// decimal of them, millimetres otherwise, and for zero.
    ///
    /// `1.42 in` is 36.068 mm and goes in inches, `12 mm` has no end in inches. A size does not remember what it was
    /// written in: `25.4 mm` goes in inches too.
    pub const fn natural_units(self) -> Units {
        if self.0 != 0 && self.0 % PICOMETRES_AT_ODDS == 0 { Units::Inch } else { Units::Metric }
    }

    /// The exact decimal with its unit, such as `1.425 in`. A size that is no finite decimal in inches is given
    /// to eight places behind the sign `≈`.
    pub fn format(self, units: Units) -> String {
        let mut text = String::with_capacity(ROOM);
        self.push(units, &mut text);
        text
    }

    /// Puts [`Size::format`] behind a text.
    pub(crate) fn push(self, units: Units, text: &mut String) {
        self.push_decimal(units, text);
        text.push(' ');
        text.push_str(units.length_label());
    }

    /// As [`Size::format`], without the unit.
    pub fn decimal(self, units: Units) -> String {
        let mut text = String::with_capacity(ROOM);
        self.push_decimal(units, &mut text);
        text
    }

    fn push_decimal(self, units: Units, text: &mut String) {
        // The decimal of inches, where it ends, has nine places.
        match units {
            Units::Metric => push_decimal::<9>(self.0, text),
            Units::Inch if self.0 % PICOMETRES_AT_ODDS == 0 => {
                push_decimal::<9>(self.0 / PICOMETRES_AT_ODDS * 5, text);
            }
            Units::Inch => {
                text.push('≈');
                push_decimal::<8>((self.0 / PICOMETRES_AT_ODDS + self.0.signum()) / 2, text);
            }
        }
    }

    /// The sum, or `None` out of range.
    pub const fn checked_add(self, other: Size) -> Option<Size> {
        Size::some(self.0.checked_add(other.0))
    }

    /// The difference, or `None` out of range.
    pub const fn checked_sub(self, other: Size) -> Option<Size> {
        Size::some(self.0.checked_sub(other.0))
    }

    /// The size with the other sign, or `None` out of range.
    pub const fn checked_neg(self) -> Option<Size> {
        Size::some(self.0.checked_neg())
    }

    /// The magnitude, or `None` out of range.
    pub const fn checked_abs(self) -> Option<Size> {
        Size::some(self.0.checked_abs())
    }

    /// `count` times the size, or `None` out of range.
    pub const fn checked_mul(self, count: i64) -> Option<Size> {
        Size::some(self.0.checked_mul(count))
    }

    const fn some(picometres: Option<i64>) -> Option<Size> {
        match picometres {
            Some(picometres) => Some(Size(picometres)),
            None => None,
        }
    }

    /// Whether the size is below zero.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// Whether the size is above zero.
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// The greatest multiple of `step` that is not above the size.
    ///
    /// # Errors
    /// [`SizeError::Step`] for a step that is not positive, [`SizeError::OutOfRange`].
    pub fn round_down(self, step: Size) -> Result<Size, SizeError> {
        if !step.is_positive() {
            return Err(SizeError::Step { step });
        }
        let rounded = self.0.checked_sub(self.0.rem_euclid(step.0));
        rounded.map(Size).ok_or_else(|| SizeError::OutOfRange { text: self.to_string() })
    }

    /// The least multiple of `step` that is not below the size.
    ///
    /// # Errors
    /// As [`Size::round_down`].
    pub fn round_up(self, step: Size) -> Result<Size, SizeError> {
        let down = self.round_down(step)?;
        if down == self {
            return Ok(self);
        }
        down.checked_add(step).ok_or_else(|| SizeError::OutOfRange { text: self.to_string() })
    }

    /// Half way to `other`; where that is half a picometre, the lower of the two sizes beside it.
    pub const fn midpoint_down(self, other: Size) -> Size {
        // The bits that both share, and half of those that one has.
        Size((self.0 & other.0) + ((self.0 ^ other.0) >> 1))
    }

    fn saturating_from_float(value: f64, units: Units) -> Size {
        Size::from_float(value, units).unwrap_or_else(|_| {
            let end = if value > 0.0 { i64::MAX } else { i64::MIN };
            if value.is_nan() { Size::ZERO } else { Size(end) }
        })
    }
}

/// `numerator / denominator`, rounded once, for numerators of at most 66 bits and denominators of at most 40.
pub(crate) fn nearest_ratio(numerator: i128, denominator: i64) -> f64 {
    const EXACT: u128 = 1 << 53;
    const SHIFT: u32 = 60;
    let (magnitude, divisor) = (numerator.unsigned_abs(), u128::from(denominator.unsigned_abs()));
    let ratio = if magnitude <= EXACT {
        magnitude as f64 / divisor as f64
    } else {
        // A quotient of more than 70 bits, whose last one is set where there is a rest.
        let shifted = magnitude << SHIFT;
        let quotient = (shifted / divisor) | u128::from(!shifted.is_multiple_of(divisor));
        quotient as f64 / (1u64 << SHIFT) as f64
    };
    if (numerator < 0) != (denominator < 0) && numerator != 0 { -ratio } else { ratio }
}

/// Puts `count / 10^PLACES` behind a text, without zeros at the end.
fn push_decimal<const PLACES: u32>(count: i64, text: &mut String) {
    // Divisors that the compiler knows need no division.
    let one = const { 10u64.pow(PLACES) };
    if count < 0 {
        text.push('-');
    }
    push_whole(count.unsigned_abs() / one, text);
    let mut rest = count.unsigned_abs() % one;
    if rest > 0 {
        text.push('.');
    }
    while rest > 0 {
        rest *= 10;
        text.push(digit(rest / one));
        rest %= one;
    }
}

fn push_whole(number: u64, text: &mut String) {
    if number > 9 {
        push_whole(number / 10, text);
    }
    text.push(digit(number % 10));
}

fn digit(number: u64) -> char {
    char::from(b'0' + number as u8)
}

impl fmt::Display for Size {
    /// Writes the exact size in the unit of [`Size::natural_units`].
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.format(self.natural_units()))
    }
}

impl fmt::Debug for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Size({self})")
    }
}

/// The exact size of a formula that counts or compares. A number out of range goes to the end of the range, and
/// NaN to zero: callers judge the domain on the number itself, beforehand.
impl Quantity for Size {
    const KIND: &'static Kind = Length::KIND;
    type Bare = Size;
    const EXACT: bool = true;

    #[inline]
    fn from_metric(metric: f64) -> Size {
        Size::saturating_from_float(metric, Units::Metric)
    }
    fn metric(self) -> f64 {
        self.to_float(Units::Metric)
    }
    #[inline]
    fn bare(self) -> Size {
        self
    }
    #[inline]
    fn bare_of(base: f64, units: Units) -> Size {
        Size::saturating_from_float(base, units)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn float(value: f64, units: Units) -> Size {
        Size::from_float(value, units).unwrap_or_else(|error| panic!("{error}"))
    }

    // 1 in = 25.4 mm exactly (international inch); the rest is arithmetic by hand.
    // By hand: 25.4 mm are an inch, a foot twelve; a thou is a thousandth of an inch and 25.4 µm.
    #[test]
    fn sizes_are_written_in_any_unit_of_length() {
        let inch = Size::from_picometres(25_400_000_000);
        let told = |size: Size, name: &str| size.format_in(LengthUnit::parse(name).unwrap());
        assert_eq!(
            ["um", "cm", "m", "thou", "uin"].map(|name| told(inch, name)),
            ["25400 µm", "2.54 cm", "0.0254 m", "1000 thou", "1000000 µin"]
        );
        assert_eq!(told(inch, "ft"), "≈0.08333333 ft");
        assert_eq!(told(Size::from_picometres(-304_800_000_000), "ft"), "-1 ft");
        assert_eq!(told(Size::ZERO, "m"), "0 m");
        assert_eq!(inch.to_float_in(LengthUnit::parse("um").unwrap()), 25_400.0);
        assert_eq!(Size::from_float_in(1.5, LengthUnit::parse("thou").unwrap()), Size::parse("0.0015 in"));
        assert!(LengthUnit::parse("yd").is_err() && LengthUnit::parse("").is_err());
    }

    #[test]
    fn text_is_exact() {
        for (text, picometres) in [
            ("1.425 in", 36_195_000_000),
            ("12 mm", 12_000_000_000),
            ("7/16 in", 11_112_500_000),
            ("1-7/16 in", 36_512_500_000),
            ("1 7/16 in", 36_512_500_000),
            ("-1 7/16in", -36_512_500_000),
            ("0.4375\"", 11_112_500_000),
            (".4375″", 11_112_500_000),
            ("5. mm", 5_000_000_000),
            ("+1/64 inch", 396_875_000),
            ("1/512 in", 49_609_375),
            ("3 / 8 in", 9_525_000_000),
            ("5 µm", 5_000_000),
            ("5 um", 5_000_000),
            ("50 µin", 1_270_000),
            ("0.000000005 in", 127),
            ("1.5e-3 in", 38_100_000),
            ("1.5 m", 1_500_000_000_000),
            ("0.000000000001 m", 1),
            ("2.54 cm", 25_400_000_000),
            ("1 thou", 25_400_000),
            ("1/2 feet", 152_400_000_000),
            ("9223372.036854775807 m", i64::MAX),
            ("−0.007 mm", -7_000_000),
            ("0.000000001 mm", 1),
            ("  0 mm  ", 0),
            ("9223372036.854775807 mm", i64::MAX),
            ("-9223372036.854775808 mm", i64::MIN),
            ("1.00000000000000000000000000000000000000000000000 mm", 1_000_000_000),
            ("0.000000000000000000000000000000000000000000000e99 mm", 0),
        ] {
            assert_eq!(Size::parse(text), Ok(Size(picometres)), "{text}");
        }
    }

    // 127 mm are 5 in and 12.7 mm half an inch; 12 mm is no finite decimal of inches, since 127 is a prime.
    #[test]
    fn text_is_in_the_unit_of_the_shorter_exact_decimal() {
        for (given, told) in [
            ("1.420 in", "1.42 in"),
            (".0005 in", "0.0005 in"),
            ("-7/16 in", "-0.4375 in"),
            ("1/512 in", "0.001953125 in"),
            ("12.7 mm", "0.5 in"),
            ("12 mm", "12 mm"),
            ("-0.007 mm", "-0.007 mm"),
            ("0 in", "0 mm"),
        ] {
            assert_eq!(size(given).to_string(), told);
        }
        let told = |a, b| alike([size(a), size(b)]);
        assert_eq!(told(".5 in", "0 mm"), ["0.5 in", "0 in"]);
        assert_eq!(told(".5 in", "12 mm"), ["12.7 mm", "12 mm"]);
        assert_eq!(told("0 in", "0 in"), ["0 mm", "0 mm"]);
    }

    #[test]
    fn errors_say_what_is_wrong() {
        let kind = |text: &str| match Size::parse(text) {
            Ok(size) => panic!("{text} is {size}"),
            Err(SizeError::Syntax { .. }) => "syntax",
            Err(SizeError::MissingUnit { .. }) => "no unit",
            Err(SizeError::UnknownUnit { .. }) => "unit",
            Err(SizeError::OffGrid { .. }) => "grid",
            Err(SizeError::OutOfRange { .. }) => "range",
            Err(other) => panic!("{text}: {other}"),
        };
        for (expected, texts) in [
            (
                "syntax",
                &[
                    "", " ", "in", ".", "-", "- 5 mm", "1/0 in", "1.5/2 in", "1..2 mm", "5 mm 6", "1-2 mm",
                    "NaN",
                ][..],
            ),
            ("no unit", &["1.425", "7/16", "0"]),
            ("unit", &["5 furlong", "5 MM", "12 mmm", "1.5e in", "5 yd"]),
            ("grid", &["1/3 in", "1/3 mm", "0.000000001 in", "1e-10 mm", "1e-99999999999 mm", "1e-400 in"]),
            ("grid", &["1.00000000000000000000000000000000000000000000001 mm"]),
            ("range", &["1e10 mm", "1e99 mm", "1e99999999999999 mm", "9223372036.854775808 mm", "-1e10 in"]),
            (
                "range",
                &["340282366920938463463374607431768211455 1/2 in", "99999999999999999999999999999999999 in"],
            ),
        ] {
            for text in texts {
                assert_eq!(kind(text), expected, "{text}");
            }
        }
        assert_eq!(Size::parse("1.425").unwrap_err().to_string(), "`1.425` needs a unit: in or mm");
        assert_eq!(size("12 ft"), size("144 in"));
        assert_eq!(
            Size::parse("5 yd").unwrap_err().to_string(),
            "`yd` is not a known unit of length; expected in, mm, ft, thou, µin, m, cm or µm"
        );
        // Digits that would not fit beside the longest unit.
        assert_eq!(kind("99999999999999999999999999.99999999999999 m"), "range");
        assert_eq!(kind("0.00000000000000000000000000099999999999999999999999999999 m"), "grid");
        assert_eq!(Size::parse_in("1.425", Some(Units::Inch)), Ok(size("1.425 in")));
        assert_eq!(Size::parse_in("12 mm", Some(Units::Inch)), Ok(size("12 mm")));
    }

    #[test]
    fn floats_are_read_as_their_shortest_decimal() {
        assert_ne!(1.42 + 0.005, 1.425);
        assert_eq!(float(1.42 + 0.005, Units::Inch), size("1.425 in"));
        assert_eq!(float(0.1 + 0.2, Units::Metric), size("0.3 mm"));
        assert_eq!(float(-0.0, Units::Metric), Size::ZERO);
        assert_eq!(float(5e-324, Units::Inch), Size::ZERO);
        // Ties go to the even count.
        assert_eq!(float(0.5e-9, Units::Metric), Size(0));
        assert_eq!(float(1.5e-9, Units::Metric), Size(2));
        assert_eq!(float(-2.5e-9, Units::Metric), Size(-2));
        // The shortest decimal is a tie, the binary value lies above it: 0.1000000005 mm = 100 000 000.5 pm.
        assert_eq!(float(0.1000000005, Units::Metric), Size(100_000_000));
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(matches!(Size::from_float(bad, Units::Inch), Err(SizeError::NotFinite { .. })));
        }
        for bad in [1e10, -1e10, 1e300, f64::MAX] {
            assert!(matches!(Size::from_float(bad, Units::Metric), Err(SizeError::OutOfRange { .. })));
        }
    }

    #[test]
    fn formats_are_exact() {
        for (size, inch, metric) in [
            (Size(36_195_000_000), "1.425 in", "36.195 mm"),
            (Size(127), "0.000000005 in", "0.000000127 mm"),
            (Size(-7_000_000), "≈-0.00027559 in", "-0.007 mm"),
            (Size(12_000_000_000), "≈0.47244094 in", "12 mm"),
            (Size::ZERO, "0 in", "0 mm"),
            (Size(i64::MIN), "≈-363124883.34073921 in", "-9223372036.854775808 mm"),
        ] {
            assert_eq!((size.format(Units::Inch), size.format(Units::Metric)), (inch.into(), metric.into()));
        }
        assert_eq!(format!("{:>10}|{:?}", size("5 mm"), size("5 mm")), "      5 mm|Size(5 mm)");
    }

    #[test]
    fn rounding_goes_the_way_it_is_named() {
        let step = Size(100);
        for (size, down, up) in [(250, 200, 300), (300, 300, 300), (-250, -300, -200), (0, 0, 0)] {
            assert_eq!(Size(size).round_down(step), Ok(Size(down)));
            assert_eq!(Size(size).round_up(step), Ok(Size(up)));
        }
        assert_eq!(Size(5).round_down(Size::ZERO), Err(SizeError::Step { step: Size::ZERO }));
        assert!(Size(i64::MIN).round_down(step).is_err() && Size(i64::MAX).round_up(step).is_err());
        assert_eq!(Size(1).midpoint_down(Size(4)), Size(2));
        assert_eq!(Size(-1).midpoint_down(Size(-4)), Size(-3));
        assert_eq!(Size(i64::MIN).midpoint_down(Size(i64::MAX)), Size(-1));
    }

    #[test]
    fn a_quantity_saturates() {
        assert_eq!(Size::bare_of(1.425, Units::Inch), size("1.425 in"));
        assert_eq!(Size::from_metric(f64::NAN), Size::ZERO);
        assert_eq!(Size::from_metric(f64::INFINITY), Size(i64::MAX));
        assert_eq!(Size::from_metric(-1e300), Size(i64::MIN));
        assert_eq!(size("1.425 in").in_units(Units::Inch), 1.425);
    }

    fn any_float() -> impl Strategy<Value = f64> {
        let near_half = (-40_000_000_000_000i64..40_000_000_000_000, 0.47..0.53, 0usize..2)
            .prop_map(|(whole, part, side)| (whole as f64 + part) / Units::ALL[side].picometres() as f64);
        let decimal = (-4_000_000_000_000i64..4_000_000_000_000, 0i32..14)
            .prop_map(|(digits, places)| digits as f64 / 10u64.pow(places as u32) as f64);
        prop_oneof![near_half, decimal, -1e4..1e4, any::<f64>()]
    }

    // 9 007 199 259 872 034 / 25.4e9 lies 6e-19 above half way between two floats: found by solving the
    // congruence, and rounded in rational arithmetic by another program.
    #[test]
    fn a_ratio_just_above_half_goes_up() {
        assert_eq!(Size(9_007_199_259_872_034).to_float(Units::Inch), 354_614.144_089_450_2);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]

        #[test]
        fn fast_and_slow_reading_agree(value in any_float()) {
            for units in Units::ALL {
                prop_assert_eq!(Size::from_float(value, units), Size::from_shortest_decimal(value, units.into()));
            }
        }

        #[test]
        fn a_float_reads_as_its_printed_text(value in -1e6..1e6) {
            for units in Units::ALL {
                let text = format!("{value} {}", units.length_label());
                if let Ok(exact) = Size::parse(&text) {
                    prop_assert_eq!(float(value, units), exact);
                }
                // Off by half a picometre at most, and what the comparison itself rounds.
                let near = float(value, units).to_float(units);
                prop_assert!((near - value).abs() <= 0.51 / units.picometres() as f64 + value.abs() * 1e-15);
            }
        }

        #[test]
        fn any_unit_says_what_the_shop_units_say(count in any::<i64>()) {
            let size = Size(count);
            for units in Units::ALL {
                prop_assert_eq!(size.format_in(units.into()), size.format(units));
                prop_assert_eq!(size.to_float_in(units.into()), size.to_float(units));
            }
            for name in ["um", "cm", "m", "thou", "uin", "ft"] {
                let unit = LengthUnit::parse(name).unwrap();
                let text = size.format_in(unit);
                // What is exact reads back as the same size.
                if !text.starts_with('≈') {
                    prop_assert_eq!(Size::parse(&text), Ok(size));
                }
            }
        }

        #[test]
        fn decimals_come_back(count in -4_000_000_000_000i64..4_000_000_000_000, places in 0usize..9) {
            let push: [fn(i64, &mut String); 9] = [
                push_decimal::<0>,
                push_decimal::<1>,
                push_decimal::<2>,
                push_decimal::<3>,
                push_decimal::<4>,
                push_decimal::<5>,
                push_decimal::<6>,
                push_decimal::<7>,
                push_decimal::<8>,
            ];
            let mut text = String::new();
            push[places](count, &mut text);
            let value: f64 = text.parse().unwrap();
            for units in Units::ALL {
                let exact = Size::parse_in(&text, Some(units));
                if let Ok(exact) = exact {
                    prop_assert_eq!(exact.to_float(units), value);
                    prop_assert_eq!(exact.decimal(units), text.clone());
                    prop_assert_eq!(Size::from_float(value, units), Ok(exact));
                }
            }
        }

        #[test]
        fn formats_read_back(count in any::<i64>()) {
            prop_assert_eq!(Size::parse(&Size(count).to_string()), Ok(Size(count)));
            let inch = Size(count / 127 * 127);
            prop_assert_eq!(Size::parse(&inch.format(Units::Inch)), Ok(inch));
            prop_assert!(!inch.format(Units::Inch).starts_with('≈'));
        }

        #[test]
        fn a_ratio_is_rounded_once(count in any::<i64>()) {
            // The decimal text of the exact value, read by the standard library.
            let exact: f64 = Size(count).decimal(Units::Metric).parse().unwrap();
            prop_assert_eq!(Size(count).to_float(Units::Metric), exact);
            let inch = Size(count / 127 * 127);
            let exact: f64 = inch.decimal(Units::Inch).parse().unwrap();
            prop_assert_eq!(inch.to_float(Units::Inch), exact);
        }

        #[test]
        fn no_text_panics(text in "\\PC*", near in "[-+±./0-9eE ]{0,30}(in|mm|µm|\")?") {
            let _ = Size::parse(&text);
            let _ = Size::parse_in(&near, Some(Units::Inch));
        }
    }
}
