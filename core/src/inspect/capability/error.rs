//! Why there is no capability.
use super::{CapabilityLaw, SigmaRule};

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
        "all {count} readings are {value}: without spread there is no capability. Fix: read with a finer resolution"
    )]
    NoSpread {
        /// How many there are.
        count: usize,
        /// Their value.
        value: f64,
    },
    /// No spread within subgroups or from one reading to the next.
    #[error("by the rule '{}' the readings have no spread within. Fix: use another rule, e.g. sigma='overall'", rule.name())]
    NoSpreadWithin {
        /// The rule.
        rule: SigmaRule,
    },
    /// No limits.
    #[error("a capability needs a lower limit, an upper limit or both")]
    NoLimits,
    /// A limit that is no finite number.
    #[error("a limit must be a finite number, not {value}. Fix: leave out a limit that there is not")]
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
    /// A target that is no finite number.
    #[error("the target must be a finite number, not {value}")]
    Target {
        /// The target.
        value: f64,
    },
    /// A confidence that is none.
    #[error("the confidence must be above 0 and below 1, e.g. 0.95, not {value}")]
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
    /// No subgroup with two readings.
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
    /// Readings that the law cannot have.
    #[error("the {} law has positive readings only, and the least is {least}. Fix: use another law", law.name())]
    NotPositive {
        /// The law.
        law: CapabilityLaw,
        /// The least reading.
        least: f64,
    },
    /// A name of no rule.
    #[error(
        "'{text}' is no rule for sigma; expected moving range, mean range, mean deviation, pooled or overall"
    )]
    UnknownRule {
        /// The text as given.
        text: String,
    },
    /// A name of no law.
    #[error("'{text}' is no law of a capability; expected normal, lognormal, weibull or Pearson III")]
    UnknownLaw {
        /// The text as given.
        text: String,
    },
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
