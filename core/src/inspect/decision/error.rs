//! Why there is no decision.
use super::rule::DecisionRule;
use crate::limits::{Limits, LimitsError};
use crate::size::{Size, SizeError, alike};

/// Why there is no decision rule.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum DecisionError {
    /// The uncertainty is negative, or missing where the rule needs one.
    #[error("the expanded uncertainty for {} must be {}, not {uncertainty}. Fix: give the uncertainty of the measurement", rule.name(), rule.need())]
    Uncertainty {
        /// The uncertainty as given.
        uncertainty: Size,
        /// The rule.
        rule: DecisionRule,
    },
    /// A multiplier or ratio that is not positive or beyond what is counted.
    #[error("the number for {} must be greater than 0 and at most 1 000 000, not {value}", rule.name())]
    Number {
        /// The number as given.
        value: f64,
        /// The rule.
        rule: DecisionRule,
    },
    /// The measurement is too uncertain for the rule.
    #[error(
        "the tolerance of {} is {ratio:.2} times twice the uncertainty of {}, and the rule needs {wanted}:1. Fix: measure with less uncertainty",
        alike([*tolerance, *uncertainty])[0], alike([*tolerance, *uncertainty])[1]
    )]
    Ratio {
        /// The tolerance of the part.
        tolerance: Size,
        /// The expanded uncertainty.
        uncertainty: Size,
        /// The ratio that there is.
        ratio: f64,
        /// The ratio that the rule asks for.
        wanted: f64,
    },
    /// The resolution is coarser than the zone.
    #[error("no step of {resolution} lies within {zone}. Fix: use a finer resolution")]
    Resolution {
        /// The resolution.
        resolution: Size,
        /// The acceptance zone before it is rounded.
        zone: Limits,
    },
    /// The guard bands leave no acceptance zone.
    #[error(
        "guard bands of {} use up the tolerance of {}. Fix: measure with less uncertainty",
        alike([*guard_band, *tolerance])[0], alike([*guard_band, *tolerance])[1]
    )]
    NoZone {
        /// The guard band at each limit.
        guard_band: Size,
        /// The tolerance of the part.
        tolerance: Size,
    },
    /// A text that names no rule.
    #[error(
        "`{text}` is not a decision rule; expected simple, 4:1, ISO 14253-1, ISO 14253-1:1998, stringent or relaxed"
    )]
    UnknownRule {
        /// The text as given.
        text: String,
    },
    /// The limits of a zone could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}

impl From<SizeError> for DecisionError {
    fn from(error: SizeError) -> Self {
        DecisionError::Limits(error.into())
    }
}
