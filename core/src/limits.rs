//! Limits of size: the two sizes between which a good part lies, both included.

mod notation;
mod readings;

pub use notation::Designation;
pub use readings::Readings;

use std::fmt;

use crate::fit::FitError;
use crate::inspect::general_tolerance::GeneralToleranceError;
use crate::quantity::Units;
use crate::size::{Size, SizeError, alike, natural_units};

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
    /// A general tolerance that gives none.
    #[error(transparent)]
    General(#[from] Box<GeneralToleranceError>),
    /// The text is not in a notation that is known.
    #[error(
        "`{text}` is not a valid form of limits; expected e.g. `1.420 ±.005 in`, `12 +0/-0.011 mm`, `1.415..1.425 in`, \
         `1.425/1.415 in`, `12 max mm`, a class of ISO 286 such as `25 H7`, a member of a fit of ASME B4.1 such \
         as `0.5 in FN2 hole`, or a general tolerance such as `120 mm ISO 2768-m`"
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
    #[error("`{text}` has only one deviation: give the upper and the lower one, e.g. `+0/-0.011`")]
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
    /// Three dots, of which the last could be a decimal point.
    #[error("`{text}` could mean {whole} or {fraction}: write one of these, with two dots")]
    ThreeDots {
        /// The text as given.
        text: String,
        /// The limits with all three dots between them.
        whole: String,
        /// The limits with the last dot as a decimal point.
        fraction: String,
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
    #[error("a tolerance of {tolerance} is too wide: the limits would pass those of the hole")]
    NoRoom {
        /// The tolerance as given.
        tolerance: Size,
    },
    /// A resolution of readings that is zero or negative.
    #[error("a resolution must be greater than 0, not {}", resolution.format(*units))]
    Resolution {
        /// The resolution as given.
        resolution: Size,
        /// The side of the readings, in whose unit the message tells it.
        units: Units,
    },
}

impl From<GeneralToleranceError> for LimitsError {
    fn from(error: GeneralToleranceError) -> LimitsError {
        LimitsError::General(Box::new(error))
    }
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
mod tests {
    use super::*;

    pub(super) fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    pub(super) fn limits(text: &str) -> Limits {
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
