//! Decision rules, as they are written, and why there is no decision.
use crate::error::excerpt;
use crate::limits::{Limits, LimitsError};
use crate::object::{FieldKind, FieldValue, Readable, Value};
use crate::quantity::Units;
use crate::size::{Size, SizeError, alike};

/// A decision rule.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum DecisionRule {
    /// Simple acceptance: a part that measures within the limits is accepted.
    Simple,
    /// Simple acceptance where the tolerance is at least N times twice the expanded uncertainty, N:1.
    Ratio(f64),
    /// ISO 14253-1:2017 with its default of 95 percent at one limit: a guard band of 1.65 standard uncertainties.
    Iso14253,
    /// ISO 14253-1:1998: a guard band of the whole expanded uncertainty.
    Iso14253Whole,
    /// ASME B89.7.3.1, stringent acceptance: limits moved in by this multiple of the expanded uncertainty; every other
    /// reading is rejected.
    Stringent(f64),
    /// ASME B89.7.3.1, relaxed acceptance: limits moved out by this multiple of the expanded uncertainty; every other
    /// reading is rejected.
    Relaxed(f64),
}

/// Multipliers are counted in billionths, as the shortest decimal of the float.
pub(super) const BILLION: i128 = 1_000_000_000;

impl DecisionRule {
    /// Reads `simple`, `4:1` or another ratio to 1, `ISO 14253-1`, `ISO 14253-1:1998`, `stringent`, `relaxed`; the last two
    /// may be followed by their multiplier, as in `stringent 0.5`, and mean 1 without.
    ///
    /// # Errors
    /// [`DecisionError::UnknownRule`].
    pub fn parse(text: &str) -> Result<DecisionRule, DecisionError> {
        let unknown = || DecisionError::UnknownRule { text: excerpt(text) };
        let number = |text: &str| text.trim().parse::<f64>().map_err(|_| unknown());
        let multiplier = |rest: &str| if rest.is_empty() { Ok(1.0) } else { number(rest) };
        match text.trim() {
            "simple" => Ok(DecisionRule::Simple),
            "ISO 14253-1" | "ISO 14253-1:2017" => Ok(DecisionRule::Iso14253),
            "ISO 14253-1:1998" => Ok(DecisionRule::Iso14253Whole),
            text => {
                if let Some((ratio, "1")) = text.split_once(':').map(|(ratio, one)| (ratio, one.trim())) {
                    Ok(DecisionRule::Ratio(number(ratio)?))
                } else if let Some(rest) = text.strip_prefix("stringent") {
                    Ok(DecisionRule::Stringent(multiplier(rest)?))
                } else if let Some(rest) = text.strip_prefix("relaxed") {
                    Ok(DecisionRule::Relaxed(multiplier(rest)?))
                } else {
                    Err(unknown())
                }
            }
        }
    }

    /// The rule as [`DecisionRule::parse`] reads it.
    pub fn name(&self) -> String {
        match self {
            DecisionRule::Simple => "simple".into(),
            DecisionRule::Ratio(ratio) => format!("{ratio}:1"),
            DecisionRule::Iso14253 => "ISO 14253-1".into(),
            DecisionRule::Iso14253Whole => "ISO 14253-1:1998".into(),
            DecisionRule::Stringent(multiplier) => format!("stringent {multiplier}"),
            DecisionRule::Relaxed(multiplier) => format!("relaxed {multiplier}"),
        }
    }

    /// The standard that the rule is after, with its edition. The standards themselves were not seen.
    pub const fn standard(&self) -> &'static str {
        match self {
            DecisionRule::Iso14253 => "ISO 14253-1:2017",
            DecisionRule::Iso14253Whole => "ISO 14253-1:1998",
            _ => "ASME B89.7.3.1-2001",
        }
    }

    pub(super) fn need(&self) -> &'static str {
        if *self == DecisionRule::Simple { "zero or more" } else { "positive" }
    }

    /// The guard band as billionths of the expanded uncertainty: inward, and whether it is outward instead.
    pub(super) fn guard(&self) -> Result<(i128, bool), DecisionError> {
        match self {
            DecisionRule::Simple => Ok((0, false)),
            // Checked, and without a guard band.
            DecisionRule::Ratio(ratio) => self.billionths(*ratio).map(|_| (0, false)),
            // 1.65 standard uncertainties, each half of the expanded one.
            DecisionRule::Iso14253 => Ok((825_000_000, false)),
            DecisionRule::Iso14253Whole => Ok((BILLION, false)),
            DecisionRule::Stringent(multiplier) => Ok((self.billionths(*multiplier)?, false)),
            DecisionRule::Relaxed(multiplier) => Ok((self.billionths(*multiplier)?, true)),
        }
    }

    pub(super) fn billionths(&self, value: f64) -> Result<i128, DecisionError> {
        let refused = DecisionError::Number { value, rule: *self };
        match 0.0 < value && value <= 1e6 {
            // The shortest decimal, to nine places: 1 mm is 1e9 pm, so a Size counts billionths.
            true => match Size::from_float(value, Units::Metric) {
                Ok(count) if count.is_positive() => Ok(i128::from(count.picometres())),
                _ => Err(refused),
            },
            false => Err(refused),
        }
    }
}

/// A rule has the value of its name.
impl FieldValue for DecisionRule {
    const FIELD: FieldKind = FieldKind::Text;

    fn value(&self) -> Value {
        Value::Text(self.name().into())
    }
}

impl Readable for DecisionRule {
    fn read(value: &Value) -> Option<DecisionRule> {
        match value {
            Value::Text(text) => DecisionRule::parse(text).ok(),
            _ => None,
        }
    }
}

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
