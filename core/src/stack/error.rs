//! Why a stack has no answer.
use crate::error::excerpt;
use crate::size::SizeError;
use crate::{Error, LimitsError, Stopped};

/// Why a stack has no answer.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StackError {
    /// Nothing was added.
    #[error("the stack has no contributors: add at least one")]
    NoContributors,
    /// A sensitivity that is not counted.
    #[error("{}: a sensitivity must be 0, or from 1e-9 to 1e9 either way, not {sensitivity}", excerpt(name))]
    Sensitivity {
        /// The contributor.
        name: String,
        /// The sensitivity as given.
        sensitivity: f64,
    },
    /// A count of zero.
    #[error("{}: a contributor must occur 1 to 1 000 000 times, not {count}", excerpt(name))]
    Count {
        /// The contributor.
        name: String,
        /// The count as given.
        count: u64,
    },
    /// Limits that are none.
    #[error("{}: {error}", excerpt(name))]
    Limits {
        /// The contributor or input.
        name: String,
        /// What is wrong with them.
        error: LimitsError,
    },
    /// Limits of a number that are reversed, or not finite.
    #[error(
        "{}: {low} to {high} are not valid limits: both must be finite, the lower one first",
        excerpt(name)
    )]
    Band {
        /// The input.
        name: String,
        /// The lower limit as given.
        low: f64,
        /// The upper limit as given.
        high: f64,
    },
    /// A number of a distribution outside its range.
    #[error("{}: {distribution}: {fault}", excerpt(name))]
    Distribution {
        /// The contributor or input.
        name: String,
        /// The distribution.
        distribution: &'static str,
        /// What is wrong.
        fault: String,
    },
    /// A figure that no spread has.
    #[error("{figure} must be {need}, not {got}")]
    Spread {
        /// `mean`, `shift` or `sigma`.
        figure: &'static str,
        /// The figure as given.
        got: f64,
        /// What it must be.
        need: &'static str,
    },
    /// Limits before which no spread can stand.
    #[error("the lower limit comes first, not {lower} to {upper}")]
    SpreadLimits {
        /// The lower limit as given.
        lower: f64,
        /// The upper limit as given.
        upper: f64,
    },
    /// No law has this name.
    #[error(
        "`{name}` is not a distribution; expected normal, truncated_normal, uniform, triangular, trapezoid or half_ellipse"
    )]
    UnknownDistribution {
        /// The name as given.
        name: String,
    },
    /// A name that no contributor or input has.
    #[error("`{}` is unknown; expected one of {known}", excerpt(name))]
    UnknownName {
        /// The name as given.
        name: String,
        /// The names that there are.
        known: String,
    },
    /// A name that several have.
    #[error("{count} are named `{}`: give the number of the one you mean", excerpt(name))]
    AmbiguousName {
        /// The name as given.
        name: String,
        /// How many have it.
        count: usize,
    },
    /// A correlation with a law that is not a whole normal one.
    #[error("{}: only normal dimensions that occur once can be correlated", excerpt(name))]
    NotCorrelatable {
        /// The contributor or input.
        name: String,
    },
    /// A covariance that no set of dimensions could have.
    #[error("the {what} is not positive: {reason}")]
    NotPositive {
        /// `covariance` or `correlation`.
        what: &'static str,
        /// Why not.
        reason: String,
    },
    /// Beyond what is counted.
    #[error("the sum is out of range: a size lies within ±9223 km")]
    OutOfRange,
    /// A count of samples, a number of blocks or a limit that is not one.
    #[error("{0}")]
    Sampling(String),
    /// Bytes that are not blocks of a sample.
    #[error("these bytes are not blocks of a sample: {0}")]
    Bytes(String),
    /// The function has no value inside the box of its inputs.
    #[error("the function is not defined at {at}{}", because(reason))]
    Undefined {
        /// The inputs where it is not.
        at: String,
        /// Why not, where that is known.
        reason: Option<String>,
    },
    /// The function did not converge, or was given too many inputs.
    #[error("{0}")]
    Function(String),
    /// A formula refused its arguments.
    #[error(transparent)]
    Formula(#[from] Error),
    /// The work was stopped.
    #[error(transparent)]
    Stopped(#[from] Stopped),
    /// A size is at fault.
    #[error(transparent)]
    Size(#[from] SizeError),
}

fn because(reason: &Option<String>) -> String {
    reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default()
}
