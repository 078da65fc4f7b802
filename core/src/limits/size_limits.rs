//! Two limits and the nominal size, and how they are written.
use super::error::LimitsError;
use crate::quantity::Units;
use crate::size::{Size, natural_units};
use std::fmt;

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

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    pub(in crate::limits) fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    pub(in crate::limits) fn limits(text: &str) -> Limits {
        Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
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
}
