//! Limits of size: the two sizes between which a good part lies, both included.

use std::{fmt, str::FromStr};

use crate::error::excerpt;
use crate::fit::{Fit, FitError, Member, ToleranceClass, inch, iso};
use crate::quantity::Units;
use crate::size::text::{LengthUnit, Scanner, Sign, Term};
use crate::size::{Size, SizeError, alike, natural_units, nearest_ratio};

/// A lower and an upper limit of size, and the nominal size that a drawing counts deviations from.
///
/// The lower limit is never above the upper one. The nominal size may lie outside them, as that of a shaft
/// `25 -0.007/-0.020 mm` does.
///
/// ```
/// use tenths::{Limits, Size};
/// let limits = Limits::parse("1.420 ±.005 in")?;
/// assert!(limits.accepts(Size::parse("1.425 in")?));
/// assert!(!limits.accepts(Size::parse("1.4251 in")?));
/// # Ok::<(), tenths::LimitsError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Limits {
    nominal: Size,
    lower: Size,
    upper: Size,
}

/// Why something is no pair of limits.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LimitsError {
    /// One of the sizes is at fault.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// A designation of ISO 286 that gives none.
    #[error(transparent)]
    Designation(Box<FitError>),
    /// The text is not in a notation that is known.
    #[error(
        "`{text}` gives no limits: write `1.420 ±.005 in`, `12 +0/-0.011 mm`, `1.415..1.425 in`, \
         `1.425/1.415 in`, `12 max mm`, a class of ISO 286 such as `25 H7`, or a member of a fit of ASME B4.1 such \
         as `0.5 in FN2 hole`"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// A size alone.
    #[error("`{text}` has no tolerance: add one, such as `±.005`, `+0/-0.011` or a second limit")]
    NoTolerance {
        /// The text as given.
        text: String,
    },
    /// One deviation alone.
    #[error("`{text}` has one deviation: give the upper and the lower one, such as `+0/-0.011`")]
    OneDeviation {
        /// The text as given.
        text: String,
    },
    /// A minimum alone.
    #[error("`{text}` has no upper limit: give both limits, such as `12..12.5 mm`")]
    NoUpperLimit {
        /// The text as given.
        text: String,
    },
    /// Two units in the text, and a number without one.
    #[error("`{text}` mixes units: write a unit at each number")]
    MixedUnits {
        /// The text as given.
        text: String,
    },
    /// The lower limit is above the upper one.
    #[error("the lower limit, {}, is above the upper limit, {}", alike([*lower, *upper])[0], alike([*lower, *upper])[1])]
    Reversed {
        /// The lower limit as given.
        lower: Size,
        /// The upper limit as given.
        upper: Size,
    },
    /// The lower deviation is above the upper one.
    #[error(
        "the lower deviation, {}, is above the upper deviation, {}: write the upper one first",
        alike([*lower, *upper])[0], alike([*lower, *upper])[1]
    )]
    ReversedDeviations {
        /// The lower deviation as given.
        lower: Size,
        /// The upper deviation as given.
        upper: Size,
    },
    /// A limit or the tolerance is beyond what is counted.
    #[error("limits at {nominal} are out of range: a size lies within ±9223 km")]
    OutOfRange {
        /// The nominal size or the lower limit.
        nominal: Size,
    },
    /// A tolerance too small for what is to be made within it.
    #[error("a tolerance of {tolerance} leaves no room: the limits would leave those of the hole")]
    NoRoom {
        /// The tolerance as given.
        tolerance: Size,
    },
    /// A resolution of readings that is zero or negative.
    #[error("a resolution of {} is not one: it must be positive", resolution.format(*units))]
    Resolution {
        /// The resolution as given.
        resolution: Size,
        /// The side of the readings, in whose unit the message tells it.
        units: Units,
    },
}

impl Limits {
    /// From two limits. The nominal size is the middle, rounded down to a picometre.
    ///
    /// # Errors
    /// [`LimitsError::Reversed`], and [`LimitsError::OutOfRange`] where the tolerance is.
    pub fn between(lower: Size, upper: Size) -> Result<Limits, LimitsError> {
        if lower > upper {
            return Err(LimitsError::Reversed { lower, upper });
        }
        upper.checked_sub(lower).ok_or(LimitsError::OutOfRange { nominal: lower })?;
        Ok(Limits { nominal: lower.midpoint_down(upper), lower, upper })
    }

    /// From a nominal size and signed deviations.
    ///
    /// # Errors
    /// [`LimitsError::ReversedDeviations`], and [`LimitsError::OutOfRange`] where a limit or the tolerance is.
    pub fn with_deviations(
        nominal: Size,
        upper_deviation: Size,
        lower_deviation: Size,
    ) -> Result<Limits, LimitsError> {
        if lower_deviation > upper_deviation {
            return Err(LimitsError::ReversedDeviations { lower: lower_deviation, upper: upper_deviation });
        }
        let limit = |deviation| nominal.checked_add(deviation).ok_or(LimitsError::OutOfRange { nominal });
        let limits = Limits::between(limit(lower_deviation)?, limit(upper_deviation)?)?;
        Ok(Limits { nominal, ..limits })
    }

    /// Reads drawing notation with its unit.
    ///
    /// - A tolerance: `1.420 ±.005 in`, `1.420 +/-.005 in`, `7/16 ±1/64 in`.
    /// - Deviations, the upper one first: `12 +0/-0.011 mm`, `12 +0 -0.011 mm`, `25 -0.007/-0.020 mm`. Each
    ///   has its sign, which touches the number; zero may go without.
    /// - Two limits, the lower one first: `1.415..1.425 in`, `1.415 - 1.425 in` (with spaces). In either order:
    ///   `1.425/1.415 in`. Two whole numbers around a slash are a fraction instead: `7/16`.
    /// - A maximum: `12 max mm`, `max 12 mm`, `12 mm max`. Its lower limit is zero and its nominal size the
    ///   maximum.
    /// - `25 H7`, `20h9`: a class of ISO 286, always in millimetres.
    /// - `1/2 in FN2 hole`, `0.75 in RC4 shaft`: one member of a fit of ASME B4.1.
    ///
    /// The unit stands at one number, and serves all, or at each. With two different units it stands at each.
    ///
    /// # Errors
    /// Any [`LimitsError`]. A size without a tolerance and a minimum without a maximum are no limits.
    pub fn parse(text: &str) -> Result<Limits, LimitsError> {
        Limits::parse_in(text, None)
    }

    /// Reads text as [`Limits::parse`] does; without any unit, numbers are in inches or millimetres as
    /// `default` says.
    ///
    /// # Errors
    /// As [`Limits::parse`].
    pub fn parse_in(text: &str, default: Option<Units>) -> Result<Limits, LimitsError> {
        Limits::parse_notation(text, default)
            .or_else(|error| Class::read(text, default, error).map(|(limits, _)| limits))
    }

    /// Reads text as [`Limits::parse_in`] does, and tells the designation, if the limits are stated by one.
    ///
    /// # Errors
    /// As [`Limits::parse`].
    pub fn parse_stated(
        text: &str,
        default: Option<Units>,
    ) -> Result<(Limits, Option<Designation>), LimitsError> {
        match Limits::parse_notation(text, default) {
            Ok(limits) => Ok((limits, None)),
            Err(error) => {
                Class::read(text, default, error).map(|(limits, class)| (limits, Some(class.tell())))
            }
        }
    }

    fn parse_notation(text: &str, default: Option<Units>) -> Result<Limits, LimitsError> {
        match Notation::read(text)? {
            Notation::Deviations(terms) => {
                let [nominal, upper, lower] = sizes(terms, default, text)?;
                Limits::with_deviations(nominal, upper, lower)
            }
            Notation::Between(terms) => {
                let [lower, upper] = sizes(terms, default, text)?;
                Limits::between(lower, upper)
            }
            Notation::Either(terms) => {
                let [one, other] = sizes(terms, default, text)?;
                Limits::between(one.min(other), one.max(other))
            }
        }
    }

    /// The lower limit of size.
    pub const fn lower(&self) -> Size {
        self.lower
    }

    /// The upper limit of size.
    pub const fn upper(&self) -> Size {
        self.upper
    }

    /// The size that deviations are counted from: as stated, or the middle of two stated limits.
    pub const fn nominal(&self) -> Size {
        self.nominal
    }

    /// Half way between the limits, rounded down to a picometre.
    pub const fn middle(&self) -> Size {
        self.lower.midpoint_down(self.upper)
    }

    /// The upper limit less the lower one, never negative.
    pub const fn tolerance(&self) -> Size {
        difference(self.upper, self.lower)
    }

    /// The upper limit less the nominal size.
    pub const fn upper_deviation(&self) -> Size {
        difference(self.upper, self.nominal)
    }

    /// The lower limit less the nominal size.
    pub const fn lower_deviation(&self) -> Size {
        difference(self.lower, self.nominal)
    }

    /// Whether a part of this size is good. Both limits are.
    pub fn accepts(&self, size: Size) -> bool {
        self.lower <= size && size <= self.upper
    }

    /// Whether every size that `other` accepts is accepted here.
    pub fn contains(&self, other: &Limits) -> bool {
        self.accepts(other.lower) && self.accepts(other.upper)
    }

    /// A judge of readings that are floats, in inches or millimetres.
    ///
    /// Without a resolution, a reading is its shortest decimal, to the nearest picometre. With one, the step of
    /// the instrument, such as 0.0001 in, a reading within a millionth of a step of a whole number of steps is
    /// that number of steps, and any other is judged as without.
    ///
    /// # Errors
    /// [`LimitsError::Resolution`] for a resolution that is not positive.
    pub fn readings(&self, units: Units, resolution: Option<Size>) -> Result<Readings, LimitsError> {
        let step = match resolution {
            Some(resolution) if !resolution.is_positive() => {
                return Err(LimitsError::Resolution { resolution, units });
            }
            Some(resolution) => i128::from(resolution.picometres()),
            None => 1,
        };
        let (lower, upper) = (i128::from(self.lower.picometres()), i128::from(self.upper.picometres()));
        // Reading is symmetric about zero.
        Ok(Readings {
            least: least_float(least_accepted(lower, step), units),
            greatest: -least_float(least_accepted(-upper, step), units),
        })
    }

    /// The side in whose unit the limits and the nominal size are written: inches where each is a finite decimal of
    /// them, millimetres otherwise; see [`Size::natural_units`].
    pub fn natural_units(&self) -> Units {
        natural_units(&[self.nominal, self.lower, self.upper])
    }

    /// The limits as `1.415..1.425 in`.
    pub fn format(&self, units: Units) -> String {
        let mut text = self.lower.decimal(units);
        text.push_str("..");
        self.upper.push(units, &mut text);
        text
    }

    /// The limits about the nominal size, as a drawing has them: `1.42 ±0.005 in`, `12 +0/-0.011 mm`.
    pub fn format_deviations(&self, units: Units) -> String {
        let (upper, lower) = (self.upper_deviation(), self.lower_deviation());
        let nominal = self.nominal.decimal(units);
        if lower.checked_neg() == Some(upper) {
            return format!("{nominal} ±{}", upper.format(units));
        }
        let plus = if upper.is_negative() { "" } else { "+" };
        let sign = match lower {
            Size::ZERO => "-",
            lower if lower.is_negative() => "",
            _ => "+",
        };
        format!("{nominal} {plus}{}/{sign}{}", upper.decimal(units), lower.format(units))
    }
}

/// What limits are stated by: a class of ISO 286, or a member of a fit of ASME B4.1.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Designation {
    /// Text that reads back as the same limits: `25 H7`, `0.5 in FN2 hole`.
    pub text: String,
    /// The standard with its edition.
    pub standard: &'static str,
}

/// A designation as it was read.
enum Class {
    Iso(Size, ToleranceClass),
    Inch(Fit, Member),
}

impl Class {
    /// Reads a designation, or gives what is wrong: with the text as a designation if it was meant for one, with
    /// `error` if not.
    fn read(text: &str, default: Option<Units>, error: LimitsError) -> Result<(Limits, Class), LimitsError> {
        let meant = |fault: FitError| LimitsError::Designation(Box::new(fault));
        if let Some((fit, member)) = inch::split_member(text) {
            let (size, name) = fit.rsplit_once(char::is_whitespace).unwrap_or(("", fit));
            let size = Size::parse_in(size, default).map_err(|fault| meant(fault.into()))?;
            let fit = Fit::inch(name, size).map_err(meant)?;
            let limits = if member == Member::Hole { fit.hole() } else { fit.shaft() };
            return Ok((limits, Class::Inch(fit, member)));
        }
        let read = || {
            let (nominal, class) = ToleranceClass::read(text)?;
            Ok((class.limits(nominal)?, Class::Iso(nominal, class)))
        };
        read().map_err(|fault| match fault {
            FitError::Syntax { .. } | FitError::NoSize { .. } => error,
            // It was meant for one if it ends in a grade.
            fault if text.trim_end().ends_with(|end: char| end.is_ascii_digit()) => meant(fault),
            _ => error,
        })
    }

    fn tell(&self) -> Designation {
        match self {
            Class::Iso(nominal, class) => {
                let mut text = nominal.decimal(Units::Metric);
                text.extend([" ", class.position(), class.grade()]);
                Designation { text, standard: iso::STANDARD }
            }
            Class::Inch(fit, member) => {
                Designation { text: format!("{fit} {}", member.name()), standard: inch::STANDARD }
            }
        }
    }
}

/// For sizes whose difference the constructors of [`Limits`] have found in range.
const fn difference(size: Size, other: Size) -> Size {
    Size::from_picometres(size.picometres().wrapping_sub(other.picometres()))
}

impl fmt::Display for Limits {
    /// Writes both limits in the unit of [`Limits::natural_units`].
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.format(self.natural_units()))
    }
}

impl FromStr for Limits {
    type Err = LimitsError;

    /// As [`Limits::parse`].
    fn from_str(text: &str) -> Result<Limits, LimitsError> {
        Limits::parse(text)
    }
}

/// Judges readings that are floats; see [`Limits::readings`].
///
/// What is read grows with the float, so that the good readings are those from one float to another.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Readings {
    least: f64,
    greatest: f64,
}

impl Readings {
    /// Whether a part of this reading is good. NaN and the infinities never are.
    #[inline]
    pub fn accepts(&self, reading: f64) -> bool {
        self.least <= reading && reading <= self.greatest
    }

    /// The least and the greatest good reading.
    pub const fn ends(&self) -> (f64, f64) {
        (self.least, self.greatest)
    }
}

/// The least picometre that is read as `lower` or more, where readings snap to whole steps.
fn least_accepted(lower: i128, step: i128) -> i128 {
    let window = step / 1_000_000;
    let above = lower.rem_euclid(step);
    let below = step - above;
    if above == 0 {
        lower - window
    } else if above <= window {
        lower - above + window + 1
    } else if below <= window {
        lower + below - window
    } else {
        lower
    }
}

/// The least float whose shortest decimal is nearest to `picometres` or to more.
fn least_float(picometres: i128, units: Units) -> f64 {
    let picometres = picometres.max(i128::from(i64::MIN));
    let reads_less = |float: f64| match Size::from_float(float, units) {
        Ok(size) => i128::from(size.picometres()) < picometres,
        Err(_) => float < 0.0,
    };
    // A shortest decimal at or beyond the edge, half a picometre below, belongs to the float nearest to that
    // edge or to one beyond.
    let nearest = nearest_ratio(2 * picometres - 1, 2 * units.picometres());
    if reads_less(nearest) { nearest.next_up() } else { nearest }
}

/// The numbers of a text by what they are for.
enum Notation {
    /// The nominal size, the upper and the lower deviation.
    Deviations([Term; 3]),
    /// The lower and the upper limit.
    Between([Term; 2]),
    /// Two limits in either order.
    Either([Term; 2]),
}

impl Notation {
    const WORDS: &[&str] = &["max", "min"];

    fn read(text: &str) -> Result<Notation, LimitsError> {
        let mut scanner = Scanner::new(text);
        let notation = Notation::scan(&mut scanner, text)?;
        if scanner.at_end() { Ok(notation) } else { Err(LimitsError::Syntax { text: excerpt(text) }) }
    }

    fn scan(scanner: &mut Scanner<'_>, text: &str) -> Result<Notation, LimitsError> {
        let syntax = || LimitsError::Syntax { text: excerpt(text) };
        if scanner.take_word("min") {
            return Err(LimitsError::NoUpperLimit { text: excerpt(text) });
        }
        let is_maximum = scanner.take_word("max");
        let mut first = scanner.term(Notation::WORDS)?.ok_or_else(syntax)?;
        if scanner.take_word("min") {
            return Err(LimitsError::NoUpperLimit { text: excerpt(text) });
        }
        if is_maximum || scanner.take_word("max") {
            first.unit = first.unit.or(scanner.unit(Notation::WORDS)?);
            let is_size = first.is_unsigned();
            return is_size.then(|| Notation::maximum(first)).ok_or_else(syntax);
        }
        if scanner.at_end() {
            return Err(LimitsError::NoTolerance { text: excerpt(text) });
        }
        let unsigned = |scanner: &mut Scanner<'_>| -> Result<Term, LimitsError> {
            scanner.term(Notation::WORDS)?.filter(Term::is_unsigned).ok_or_else(syntax)
        };
        if scanner.take(&["±", "+/-", "+/−"]) {
            let tolerance = unsigned(scanner)?;
            return Ok(Notation::Deviations([first, tolerance, tolerance.with_sign(Sign::Minus)]));
        }
        if scanner.take(&[".."]) {
            let upper = scanner.term(Notation::WORDS)?.ok_or_else(syntax)?;
            return Ok(Notation::Between([first, upper]));
        }
        if scanner.take_spaced(&["-", "−", "–"]) {
            return Ok(Notation::Between([first, unsigned(scanner)?]));
        }
        if scanner.take(&["/"]) {
            // `12/0` is neither a fraction nor likely to be meant as limits.
            let other = unsigned(scanner)?;
            return if other.is_zero() { Err(syntax()) } else { Ok(Notation::Either([first, other])) };
        }
        let upper = Notation::deviation(scanner)?.ok_or_else(syntax)?;
        scanner.take(&["/"]);
        let lower = Notation::deviation(scanner)?;
        let lower = lower.ok_or_else(|| LimitsError::OneDeviation { text: excerpt(text) })?;
        Ok(Notation::Deviations([first, upper, lower]))
    }

    fn maximum(maximum: Term) -> Notation {
        Notation::Deviations([maximum, Term::ZERO, maximum.with_sign(Sign::Minus)])
    }

    fn deviation(scanner: &mut Scanner<'_>) -> Result<Option<Term>, SizeError> {
        let term = scanner.term(Notation::WORDS)?;
        Ok(term.filter(|term| !term.is_unsigned() || term.is_zero()))
    }
}

/// The sizes of `terms`, each in its own unit or in the one that stands in the text.
fn sizes<const N: usize>(
    terms: [Term; N],
    default: Option<Units>,
    text: &str,
) -> Result<[Size; N], LimitsError> {
    let mut stated = terms.iter().filter_map(|term| term.unit);
    let unit: Option<&LengthUnit> = stated.next().or(default.map(Into::into));
    let unit = unit.ok_or_else(|| SizeError::MissingUnit { text: excerpt(text) })?;
    let is_mixed = stated.any(|other| other != unit);
    if is_mixed && terms.iter().any(|term| term.unit.is_none() && !term.is_zero()) {
        return Err(LimitsError::MixedUnits { text: excerpt(text) });
    }
    let mut sizes = [Size::ZERO; N];
    for (size, term) in sizes.iter_mut().zip(terms) {
        *size = term.size(term.unit.unwrap_or(unit), text)?;
    }
    Ok(sizes)
}

#[cfg(test)]
mod tests {
    use super::*;

    // ASME B4.1: FN2 from 0.40 to 0.71 in has a hole of +0.7/0 and a shaft of +1.6/+1.2 thousandths; RC4 from 0.71 to
    // 1.19 in a shaft of -0.8/-1.6.
    #[test]
    fn members_of_inch_fits_are_limits() {
        for (text, limits) in [
            ("1/2 in FN2 hole", ".5 +.0007/0 in"),
            ("0.5 in FN2 shaft", ".5 +.0016/+.0012 in"),
            (" .75 in  RC4   shaft ", ".75 -.0008/-.0016 in"),
        ] {
            assert_eq!(Limits::parse(text), Limits::parse(limits), "{text}");
        }
        let bare = Limits::parse_in(".5 FN2 hole", Some(Units::Inch));
        assert_eq!(bare, Limits::parse("0.5 in FN2 hole"));
        for (text, why) in [
            ("0.5 FN2 hole", "needs a unit"),
            ("FN2 hole", "is not a size"),
            ("0.5 in FN9 hole", "FN1 to FN5"),
            ("30 in FN2 hole", "up to 19.69 in"),
            ("0.5 in FN2 bore", "gives no limits"),
            ("0.5 in FN2hole", "gives no limits"),
            ("0.5 in hole", "gives no limits"),
        ] {
            let error = Limits::parse(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }

    // m is a unit and a position of ISO 286 too, whose m6 lies from 8 to 21 µm above sizes of 18 to 30 mm.
    #[test]
    fn metres_are_no_classes() {
        for text in ["25 m6", "25m6"] {
            assert_eq!(Limits::parse(text), Limits::parse("25 +0.021/+0.008 mm"), "{text}");
        }
        assert_eq!(Limits::parse("3 m ±1 mm"), Limits::parse("3000 ±1 mm"));
        assert_eq!(Limits::parse("2.5 ±0.01 cm"), Limits::parse("24.9..25.1 mm"));
        assert_eq!(Limits::parse("1 m max"), Limits::parse("1000 max mm"));
    }

    #[test]
    fn limits_tell_what_they_are_stated_by() {
        for (text, told) in [
            ("25H7", Some(("25 H7", "ISO 286:2010"))),
            ("⌀20 h9", Some(("20 h9", "ISO 286:2010"))),
            ("1/2 in FN2 hole", Some(("0.5 in FN2 hole", "ASME B4.1-1967"))),
            ("12 mm RC4 shaft", Some(("12 mm RC4 shaft", "ASME B4.1-1967"))),
            ("25 +0.021/0 mm", None),
        ] {
            let (limits, by) = Limits::parse_stated(text, None).unwrap();
            assert_eq!(Limits::parse(text), Ok(limits));
            assert_eq!(by.as_ref().map(|by| (&*by.text, by.standard)), told);
            if let Some(by) = by {
                assert_eq!(Limits::parse(&by.text), Ok(limits));
            }
        }
    }

    #[test]
    fn limits_are_written_in_inches_where_all_of_them_end_there() {
        for (text, told) in [
            ("1.420 ±.005 in", "1.415..1.425 in"),
            ("0..0.5 in", "0..0.5 in"),
            ("12.7 +0/-0.011 mm", "12.689..12.7 mm"),
            ("0..0 in", "0..0 mm"),
        ] {
            assert_eq!(Limits::parse(text).unwrap().to_string(), told);
        }
        let reversed = Limits::parse("1.425..1.415 in").unwrap_err().to_string();
        assert_eq!(reversed, "the lower limit, 1.425 in, is above the upper limit, 1.415 in");
    }
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn limits(text: &str) -> Limits {
        Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    // ISO 286-2: 25 H7 is +0.021/0, 20 h9 is 0/-0.052.
    #[test]
    fn classes_of_iso_286_are_limits_in_millimetres() {
        for (class, limits) in [("25 H7", "25 +0.021/0 mm"), (" 20h9", "20 +0/-0.052 mm")] {
            assert_eq!(Limits::parse_in(class, Some(Units::Inch)).unwrap(), Limits::parse(limits).unwrap());
        }
        let told = |text: &str| Limits::parse(text).unwrap_err().to_string();
        assert!(told("25 H19").contains("no grade `19`"), "{}", told("25 H19"));
        assert!(told("25 Q7").contains("no position `Q`"), "{}", told("25 Q7"));
        assert!(told("25 mm").contains("has no tolerance"), "{}", told("25 mm"));
        assert!(told("H7").contains("H7"), "{}", told("H7"));
    }

    #[test]
    fn drawing_notation_is_read() {
        for (text, nominal, lower, upper) in [
            ("1.420 ±.005 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.420 +/-.005 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.420\" ± .005\"", "1.42 in", "1.415 in", "1.425 in"),
            ("12 +0/-0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("12 mm +0/-0.011", "12 mm", "11.989 mm", "12 mm"),
            ("12 +0.018/0 mm", "12 mm", "12 mm", "12.018 mm"),
            ("12 0/-0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("12 +1/0 mm", "12 mm", "12 mm", "13 mm"),
            ("12 +0 -0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("25 -0.007/-0.020 mm", "25 mm", "24.98 mm", "24.993 mm"),
            ("25 +15 µm/+2 µm", "25 µm", "27 µm", "40 µm"),
            ("25 mm +15 µm/+2 µm", "25 mm", "25.002 mm", "25.015 mm"),
            (".4375 ±.0005 in", "7/16 in", "0.437 in", "0.438 in"),
            ("7/16 ±1/64 in", "7/16 in", "27/64 in", "29/64 in"),
            ("1 7/16 +1/64 -0 in", "1-7/16 in", "1-7/16 in", "1-29/64 in"),
            ("1.415..1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.415 - 1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("12 mm – 13 mm", "12.5 mm", "12 mm", "13 mm"),
            ("1.425/1.415 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.415/1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("12 mm/11 mm", "11.5 mm", "11 mm", "12 mm"),
            ("-0.5..0.5 mm", "0 mm", "-0.5 mm", "0.5 mm"),
            ("0.5 in ±0.1 mm", "12.7 mm", "12.6 mm", "12.8 mm"),
            ("0.5 in +0/-0.1 mm", "12.7 mm", "12.6 mm", "12.7 mm"),
            ("12 max mm", "12 mm", "0 mm", "12 mm"),
            ("max 12 mm", "12 mm", "0 mm", "12 mm"),
            ("12 mm MAX", "12 mm", "0 mm", "12 mm"),
        ] {
            let found = limits(text);
            let expected = [nominal, lower, upper].map(size);
            assert_eq!([found.nominal(), found.lower(), found.upper()], expected, "{text}");
        }
        let bare = Limits::parse_in("1.420 ±.005", Some(Units::Inch));
        assert_eq!(bare, Ok(limits("1.420 ±.005 in")));
        assert_eq!(Limits::parse_in("12 ±.5 mm", Some(Units::Inch)), Ok(limits("12 ±.5 mm")));
    }

    #[test]
    fn what_is_no_limits_is_refused() {
        let kind = |text: &str| match Limits::parse(text) {
            Ok(limits) => panic!("{text} is {limits}"),
            Err(LimitsError::Syntax { .. }) => "syntax",
            Err(LimitsError::NoTolerance { .. }) => "no tolerance",
            Err(LimitsError::OneDeviation { .. }) => "one deviation",
            Err(LimitsError::NoUpperLimit { .. }) => "minimum",
            Err(LimitsError::MixedUnits { .. }) => "mixed",
            Err(LimitsError::Reversed { .. } | LimitsError::ReversedDeviations { .. }) => "reversed",
            Err(LimitsError::Size(SizeError::MissingUnit { .. })) => "no unit",
            Err(LimitsError::Size(SizeError::OffGrid { .. })) => "grid",
            Err(LimitsError::Size(SizeError::UnknownUnit { .. })) => "unit",
            Err(LimitsError::OutOfRange { .. } | LimitsError::Size(SizeError::OutOfRange { .. })) => "range",
            Err(other) => panic!("{text}: {other}"),
        };
        for (expected, texts) in [
            ("syntax", &["", "±.005 in", "1.42 ± in", "1.42 ±-.005 in", "1.42 ±.005 in x", "max -5 mm"][..]),
            (
                "syntax",
                &["12/0 mm", "12.5/-0.5 mm", "12 - -13 mm", "12 .. mm", "12 + 0/-1 mm", "12 0.5/0.2 mm"],
            ),
            ("no tolerance", &["7/16 in", "12 mm", "16/8 in", "12"]),
            ("one deviation", &["12 +0.5 mm", "12 -0.5 mm", "12 +1/2 in", "12 +0.5/0.2 mm"]),
            ("minimum", &["12 min mm", "min 12 mm", "12 mm min"]),
            ("mixed", &["0.5 in +1/64 -0.1 mm", "12 +1 in/-1 mm"]),
            ("reversed", &["12 -0.011/+0 mm", "1.425..1.415 in", "1 - 7/16 in", "25 -0.020/-0.007 mm"]),
            ("no unit", &["1.420 ±.005", "12 max"]),
            ("grid", &["1/3 ±.005 in", "12/11 ±1 mm"]),
            ("unit", &["12 H", "12 ±1 parsec"]),
            ("range", &["9e9 ±9e9 mm", "-9e9..9e9 mm"]),
        ] {
            for text in texts {
                assert_eq!(kind(text), expected, "{text}");
            }
        }
        assert_eq!(
            Limits::parse("25 -0.020/-0.007 mm").unwrap_err().to_string(),
            "the lower deviation, -0.007 mm, is above the upper deviation, -0.02 mm: write the upper one first"
        );
    }

    #[test]
    fn sizes_are_told() {
        let shaft = limits("25 -0.007/-0.020 mm");
        assert_eq!(shaft.tolerance(), size("0.013 mm"));
        assert_eq!((shaft.upper_deviation(), shaft.lower_deviation()), (size("-7 µm"), size("-20 µm")));
        assert_eq!(shaft.middle(), size("24.9865 mm"));
        assert!(shaft.contains(&limits("24.98..24.99 mm")) && !shaft.contains(&limits("24.98..24.994 mm")));
        assert_eq!(shaft.to_string(), "24.98..24.993 mm");
        for text in
            ["1.42 ±0.005 in", "12 +0/-0.011 mm", "12 +0.018/-0 mm", "25 -0.007/-0.02 mm", "5 +3/+1 mm"]
        {
            let units = if text.ends_with("in") { Units::Inch } else { Units::Metric };
            assert_eq!(limits(text).format_deviations(units), text);
        }
        assert_eq!(limits("1.420 ±.005 in").format(Units::Inch), "1.415..1.425 in");
    }

    // The verdicts come from whole tenths of thousandths.
    #[test]
    fn every_reading_of_a_grid_of_tenths_is_judged_right() {
        let tenth = size("0.0001 in");
        for (text, lower, upper) in [
            ("1.420 ±.005 in", 14_150, 14_250),
            ("0.1 ±.0003 in", 997, 1_003),
            ("2.0005 +.0007/-.0002 in", 20_003, 20_012),
        ] {
            let limits = limits(text);
            let printed = limits.readings(Units::Inch, None).unwrap();
            let stepped = limits.readings(Units::Inch, Some(tenth)).unwrap();
            for count in 0..=30_000u32 {
                let good = (lower..=upper).contains(&count);
                let text = format!("{}.{:04} in", count / 10_000, count % 10_000);
                assert_eq!(limits.accepts(size(&text)), good, "{text}");
                let divided = f64::from(count) / 10_000.0;
                for reading in [divided, f64::from(count) * 0.0001, divided.next_up(), divided.next_down()] {
                    assert_eq!(limits.accepts(Size::from_float(reading, Units::Inch).unwrap()), good);
                    assert_eq!(printed.accepts(reading), good, "{reading} as printed");
                    assert_eq!(stepped.accepts(reading), good, "{reading} in steps");
                }
                // Six tenths of a millionth of a step: on the grid for an instrument, off it as printed.
                for (reading, is_edge) in
                    [(divided - 6e-11, count == lower), (divided + 6e-11, count == upper)]
                {
                    assert_eq!(printed.accepts(reading), good && !is_edge, "{reading} as printed");
                    assert_eq!(stepped.accepts(reading), good, "{reading} in steps");
                }
                // Two millionths of a step: judged as it stands.
                assert_eq!(stepped.accepts(divided + 2e-10), good && count != upper, "{divided}");
            }
        }
    }

    #[test]
    fn a_reading_is_finite_and_a_resolution_positive() {
        let everything = Limits::between(Size::from_picometres(-i64::MAX), Size::ZERO).unwrap();
        for resolution in [None, Some(size("0.01 mm")), Some(Size::from_picometres(i64::MAX))] {
            let judge = everything.readings(Units::Metric, resolution).unwrap();
            assert!(judge.accepts(-0.0) && judge.accepts(-5e8));
            for reading in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1e300, 1e300, -9.223_38e9] {
                assert!(!judge.accepts(reading), "{reading}");
            }
        }
        for resolution in [Size::ZERO, size("-1 mm")] {
            assert_eq!(
                everything.readings(Units::Inch, Some(resolution)),
                Err(LimitsError::Resolution { resolution, units: Units::Inch })
            );
        }
        let refused = everything.readings(Units::Inch, Some(size("-0.001 in"))).unwrap_err();
        assert_eq!(refused.to_string(), "a resolution of -0.001 in is not one: it must be positive");
    }

    /// A reading taken to a whole number of steps, if it is as near as that.
    fn snapped(picometres: i128, step: i128) -> i128 {
        let below = picometres.div_euclid(step) * step;
        [below, below + step]
            .into_iter()
            .find(|whole| (picometres - whole).abs() * 1_000_000 <= step)
            .unwrap_or(picometres)
    }

    proptest! {
        #[test]
        fn the_least_good_reading_is_the_least(steps in -3i128..3, off in -12i128..12, step in 1i128..8_000_000) {
            let lower = steps * step + off;
            let least = least_accepted(lower, step);
            for picometres in least - 40..least + 40 {
                prop_assert_eq!(snapped(picometres, step) >= lower, picometres >= least);
            }
        }

        #[test]
        fn floats_near_a_limit_are_judged_as_their_sizes(
            lower in prop_oneof![-3_000_000_000_000i64..3_000_000_000_000, any::<i64>()],
            tolerance in 0i64..1_000,
            near in -300i64..300,
            part in -0.5..0.5,
        ) {
            let lower = lower.min(i64::MAX - 2_000);
            let limits = Limits::between(Size::from_picometres(lower), Size::from_picometres(lower + tolerance))?;
            for units in Units::ALL {
                let judge = limits.readings(units, None)?;
                let reading = (lower.saturating_add(near) as f64 + part) / units.picometres() as f64;
                let Readings { least, greatest } = judge;
                for reading in [reading, least, least.next_down(), greatest, greatest.next_up()] {
                    let good = Size::from_float(reading, units).is_ok_and(|size| limits.accepts(size));
                    prop_assert_eq!(judge.accepts(reading), good, "{}", reading);
                }
            }
        }

        #[test]
        fn no_text_panics(text in "\\PC*", near in "[-+±./0-9 ]{0,24}(max|in|mm|µm|\")?[-+±./0-9 ]{0,12}(in)?") {
            let _ = Limits::parse(&text);
            let _ = Limits::parse_in(&near, Some(Units::Inch));
        }

        #[test]
        fn both_forms_read_back(nominal in -99_999i64..99_999, upper in -999i64..999, tolerance in 0i64..999) {
            let deviation = |count: i64| Size::from_picometres(count * 254_000);
            let limits =
                Limits::with_deviations(deviation(nominal), deviation(upper), deviation(upper - tolerance))?;
            for units in Units::ALL {
                prop_assert_eq!(Limits::parse(&limits.format_deviations(units)), Ok(limits));
                let both = Limits::parse(&limits.format(units))?;
                prop_assert_eq!((both.lower(), both.upper()), (limits.lower(), limits.upper()));
            }
        }
    }
}
