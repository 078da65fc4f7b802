//! Rules for sigma, laws, limits and options of a capability, and why one cannot be given.
use crate::error::{WithUnit, rounded, to_digits};
use crate::object::UnknownName;
use crate::quantity::Units;
use std::borrow::Cow;
use tenths_macros::{Choice, Options};

/// How the standard deviation within subgroups, `sigma_within`, is estimated.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum SigmaRule {
    /// The mean difference of one reading from the next over d2 of two readings: 1.128. The rule without subgroups.
    #[name = "moving range"]
    MovingRange,
    /// The mean of each subgroup's range over its d2. The rule with subgroups.
    #[name = "mean range"]
    MeanRange,
    /// The mean of each subgroup's standard deviation over its c4.
    #[name = "mean deviation"]
    MeanDeviation,
    /// The root of the mean square within subgroups.
    Pooled,
    /// The standard deviation of all readings: Cp is then Pp.
    Overall,
}

/// The law by which Pp, Ppk and the expected ppm are calculated.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum CapabilityLaw {
    /// The normal law.
    #[default]
    Normal,
    /// The logarithms of the readings are normal, as of runout or flatness that are never below zero.
    Lognormal,
    /// Weibull's law of two parameters from zero, by greatest likelihood.
    Weibull,
    /// Pearson's law of type III: a gamma law that is moved, with the mean, deviation and skewness of the readings.
    #[name = "Pearson III"]
    Pearson,
}

/// The limits of a characteristic, in the unit of the readings; either may be left out.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct CapabilityLimits {
    /// The lower limit.
    pub lower: Option<f64>,
    /// The upper limit.
    pub upper: Option<f64>,
}

impl CapabilityLimits {
    /// Those of two numbers. A lower one of minus infinity or an upper one of infinity stands for no limit.
    pub fn of_ends(lower: f64, upper: f64) -> Self {
        CapabilityLimits {
            lower: (lower != f64::NEG_INFINITY).then_some(lower),
            upper: (upper != f64::INFINITY).then_some(upper),
        }
    }

    /// Whether readings of this mean and standard deviation lie so far off that readings and limits are hardly of one part
    /// in one unit.
    pub(in crate::inspect) fn are_far_from(self, mean: f64, deviation: f64) -> bool {
        match (self.lower, self.upper) {
            (Some(lower), Some(upper)) => {
                let reach = MOST_TOLERANCES * (upper - lower);
                mean < lower - reach || mean > upper + reach
            }
            (Some(limit), None) | (None, Some(limit)) => is_far_from_one(limit, mean, deviation),
            (None, None) => false,
        }
    }

    /// Whether readings can be judged by them.
    pub(in crate::inspect) fn check(self) -> Result<(), CapabilityError> {
        let CapabilityLimits { lower, upper } = self;
        if lower.is_none() && upper.is_none() {
            return Err(CapabilityError::NoLimits);
        }
        if let Some(value) = lower.into_iter().chain(upper).find(|limit| !limit.is_finite()) {
            return Err(CapabilityError::Limit { value });
        }
        match lower.zip(upper) {
            Some((lower, upper)) if lower >= upper => Err(CapabilityError::Reversed { lower, upper }),
            _ => Ok(()),
        }
    }
}

/// How many tolerances beyond a limit readings of the same part may lie.
const MOST_TOLERANCES: f64 = 10.0;
/// A Cpk that no process has.
const NO_CPK: f64 = 30.0;

/// Whether a mean is far from the only limit: by a Cpk that no process has, or by a factor that is that of the inch.
fn is_far_from_one(limit: f64, mean: f64, deviation: f64) -> bool {
    let distance = (mean - limit).abs();
    let is_near = |mean: f64| (mean - limit).abs() <= 0.1 * limit.abs();
    let in_other_unit = is_near(mean * 25.4) || is_near(mean / 25.4);
    // A mean without spread has no Cpk; one that is 5 deviations off is not there by chance.
    in_other_unit && distance > 5.0 * deviation || deviation > 0.0 && distance > 3.0 * NO_CPK * deviation
}

/// What is said of readings that lie so far off.
pub(in crate::inspect) const FAR_OFF: &str = "The readings lie too far from the limits to belong to them: check that both are of the same part, and in the \
                       same unit.";

/// How a capability is wanted.
#[derive(Clone, PartialEq, Debug, Options)]
pub struct CapabilityOptions {
    /// The unit system of readings and limits.
    #[apart]
    pub units: Units,
    /// The sizes of the subgroups, in the order of the readings, where they are not all `subgroup`.
    #[apart]
    pub subgroups: Option<Vec<usize>>,
    /// The number of readings in each subgroup, if there are subgroups.
    pub subgroup: Option<usize>,
    /// The target; the middle of the limits by default.
    pub target: Option<f64>,
    /// How `sigma_within` is estimated; by default from moving ranges without subgroups, from mean ranges with them.
    pub sigma: Option<SigmaRule>,
    /// The law of Pp, Ppk and the expected ppm.
    pub law: CapabilityLaw,
    /// The confidence of the intervals.
    #[pure]
    pub confidence: f64,
}

impl CapabilityOptions {
    /// The defaults for readings in these units.
    pub fn new(units: Units) -> Self {
        Self {
            units,
            subgroups: None,
            subgroup: None,
            target: None,
            sigma: None,
            law: CapabilityLaw::Normal,
            confidence: 0.95,
        }
    }
}

impl Default for CapabilityOptions {
    /// Those for readings in millimetres.
    fn default() -> Self {
        Self::new(Units::Metric)
    }
}

impl CapabilityOptions {
    /// The sizes of the subgroups of this number of readings, if there are subgroups.
    pub(super) fn groups(&self, count: usize) -> Option<Cow<'_, [usize]>> {
        match (&self.subgroups, self.subgroup) {
            (Some(sizes), _) => Some(Cow::Borrowed(sizes)),
            (None, Some(size)) => Some(vec![size; count.div_ceil(size.max(1))].into()),
            (None, None) => None,
        }
    }
}

/// Why there is no capability.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CapabilityError {
    /// No readings, or one.
    #[error("a capability needs 2 or more readings, not {count}")]
    TooFew {
        /// How many there are.
        count: usize,
    },
    /// A reading that is missing or infinite.
    #[error("reading {place} must be a finite number, not {value}. Fix: leave it out")]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// The reading.
        value: f64,
    },
    /// Readings without spread.
    #[error(
        "all {count} readings are {}: without spread there is no capability. Fix: read with a finer resolution",
        rounded(*value)
    )]
    NoSpread {
        /// How many there are.
        count: usize,
        /// Their value.
        value: f64,
    },
    /// Readings whose squares are beyond what a float holds.
    #[error("the readings are too large to work with. Fix: give them in a larger unit")]
    TooLarge,
    /// No spread within subgroups or from one reading to the next.
    #[error("the rule '{}' finds no spread. Fix: use another rule, e.g. sigma='overall'", rule.name())]
    NoSpreadWithin {
        /// The rule.
        rule: SigmaRule,
    },
    /// No limits.
    #[error("a capability needs a lower limit, an upper limit or both")]
    NoLimits,
    /// A limit that is not a finite number.
    #[error("a limit must be a finite number, not {value}. Fix: give None for a side that has no limit")]
    Limit {
        /// The limit.
        value: f64,
    },
    /// Limits in the wrong order, or equal.
    #[error("the lower limit {lower} must be below the upper limit {upper}")]
    Reversed {
        /// The lower limit as given.
        lower: f64,
        /// The upper limit as given.
        upper: f64,
    },
    /// A target that is not a finite number, or is outside the limits.
    #[error("the target must be within the limits, not {}", WithUnit(*value, ""))]
    Target {
        /// The target.
        value: f64,
    },
    /// A confidence that is not valid.
    #[error("the confidence must be between 0 and 1, e.g. 0.95, not {value}")]
    Confidence {
        /// The confidence.
        value: f64,
    },
    /// Subgroups that do not add up.
    #[error(
        "the subgroups hold {grouped} readings, and there are {count}. Fix: give the size of each subgroup, or fill the last one"
    )]
    Subgroups {
        /// How many readings the subgroups hold.
        grouped: usize,
        /// How many there are.
        count: usize,
    },
    /// A subgroup of fewer than two readings.
    #[error(
        "subgroup {place} has {}, and the rule '{}' needs subgroups of 2 or more readings. Fix: leave it out, or use \
         sigma='overall'",
        if *size == 1 { "one reading" } else { "no readings" }, rule.name()
    )]
    SmallSubgroup {
        /// Its place, from 1.
        place: usize,
        /// How many readings it has.
        size: usize,
        /// The rule.
        rule: SigmaRule,
    },
    /// No subgroups.
    #[error("the rule '{}' needs subgroups of 2 or more readings", rule.name())]
    NeedsSubgroups {
        /// The rule.
        rule: SigmaRule,
    },
    /// Moving ranges across subgroups.
    #[error(
        "moving ranges go from one reading to the next. Fix: leave out the subgroups, or use another rule"
    )]
    MovingInSubgroups,
    /// Too few readings for a skewness.
    #[error("the {} law needs 3 or more readings, not {count}", CapabilityLaw::Pearson.name())]
    NoSkewness {
        /// How many there are.
        count: usize,
    },
    /// Readings that are too skewed for a law to be worked out.
    #[error(
        "a skewness of {} is too strong for the {} law. Fix: look for single readings far out, or use another law",
        to_digits(*skewness, 4), CapabilityLaw::Pearson.name()
    )]
    TooSkewed {
        /// The skewness of the readings.
        skewness: f64,
    },
    /// Readings that the law cannot have.
    #[error("the {} law takes positive readings only, and the least is {}. Fix: use another law", law.name(), rounded(*least))]
    NotPositive {
        /// The law.
        law: CapabilityLaw,
        /// The least reading.
        least: f64,
    },
    /// A text that names no rule or law.
    #[error(transparent)]
    Name(#[from] UnknownName),
    /// Lists of different lengths.
    #[error("there are {limits} pairs of limits for {columns} columns")]
    Columns {
        /// How many pairs of limits.
        limits: usize,
        /// How many columns.
        columns: usize,
    },
    /// A fault in a column of a table.
    #[error("column {name}: {fault}")]
    Column {
        /// Its name, or its number from 0.
        name: String,
        /// What is wrong.
        fault: Box<CapabilityError>,
    },
}

impl SigmaRule {
    /// The rule of that name.
    ///
    /// # Errors
    /// [`CapabilityError::Name`].
    pub fn parse(text: &str) -> Result<SigmaRule, CapabilityError> {
        Ok(UnknownName::or_named("a rule for sigma", text)?)
    }
}

impl CapabilityLaw {
    /// The law of that name.
    ///
    /// # Errors
    /// [`CapabilityError::Name`].
    pub fn parse(text: &str) -> Result<CapabilityLaw, CapabilityError> {
        Ok(UnknownName::or_named("a law of a capability", text)?)
    }
}
