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
    #[error("no dimensions can have this {what}: {reason}")]
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
    /// What a function of the caller's own says.
    #[error("{0}")]
    Function(String),
    /// Another count of inputs, vectors or the like than there has to be.
    #[error("{need} {what}, not {got}")]
    HowMany {
        /// What is counted: `inputs`.
        what: &'static str,
        /// Who has how many: `the loop has 2`.
        need: String,
        /// How many were given.
        got: usize,
    },
    /// An input that has no default was not given.
    #[error("the input {name} is missing")]
    Missing {
        /// The input.
        name: String,
    },
    /// A formula with several results, of which none was named.
    #[error("{formula} has several results: name one of {outputs}")]
    SeveralResults {
        /// The formula.
        formula: &'static str,
        /// The names of its results.
        outputs: String,
    },
    /// Text that does not give limits or a number.
    #[error("{}: {fault}", excerpt(name))]
    Reading {
        /// The input.
        name: String,
        /// What is wrong.
        fault: String,
    },
    /// Text that is not a length or an angle of a vector loop.
    #[error(
        "`{}` is not a length or an angle of a loop; expected a number, a name or a sum of the two, e.g. `180 - phi`",
        excerpt(text)
    )]
    LoopPart {
        /// The text as given.
        text: String,
    },
    /// An unknown that a vector loop cannot have.
    #[error("{}", fault.about(excerpt(name)))]
    Unknown {
        /// The unknown.
        name: String,
        /// What is wrong with it.
        fault: UnknownFault,
    },
    /// What tolerances are to be allocated to.
    #[error("the {what} must be {need}, not {got}")]
    Target {
        /// `target, a half band,` or `rate of defects`.
        what: &'static str,
        /// What it must be.
        need: String,
        /// As given.
        got: f64,
    },
    /// No choice of tolerances keeps the target.
    #[error(
        "the target of {target} cannot be kept: with every tolerance as narrow as its process holds it is {least}"
    )]
    OutOfReach {
        /// The target.
        target: f64,
        /// The least that can be kept.
        least: f64,
    },
    /// A tolerance that cannot be chosen.
    #[error("{name}: {fault}")]
    FreeTolerance {
        /// The contributor.
        name: String,
        /// Why not.
        fault: String,
    },
    /// Tolerances that cannot be scaled.
    #[error("{0}")]
    Scale(&'static str),
    /// An allocation is for another stack.
    #[error("this allocation is for another stack")]
    OtherStack,
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

impl StackError {
    /// The contributor or input that is at fault, where it is one.
    pub fn argument(&self) -> Option<&str> {
        match self {
            StackError::Sensitivity { name, .. }
            | StackError::Count { name, .. }
            | StackError::Limits { name, .. }
            | StackError::Band { name, .. }
            | StackError::Distribution { name, .. }
            | StackError::UnknownName { name, .. }
            | StackError::AmbiguousName { name, .. }
            | StackError::NotCorrelatable { name }
            | StackError::Missing { name }
            | StackError::Reading { name, .. }
            | StackError::Unknown { name, .. }
            | StackError::FreeTolerance { name, .. } => Some(name),
            _ => None,
        }
    }
}

/// What is wrong with an unknown of a vector loop.
#[derive(Clone, Copy, PartialEq, Debug)]
#[non_exhaustive]
pub enum UnknownFault {
    /// There are two already.
    Third,
    /// It is not a name.
    NotAName,
    /// It is an unknown already.
    GivenTwice,
    /// Its guess is not finite.
    Guess(f64),
    /// No vector has it.
    Unused,
}

impl UnknownFault {
    fn about(self, name: impl std::fmt::Display) -> String {
        match self {
            UnknownFault::Third => {
                format!("a loop in the plane has two unknowns, but `{name}` would be a third")
            }
            UnknownFault::NotAName => {
                format!("`{name}` is not a valid name; use letters, digits and underscores")
            }
            UnknownFault::GivenTwice => format!("`{name}` is an unknown already"),
            UnknownFault::Guess(guess) => format!("the guess for `{name}` must be finite, not {guess}"),
            UnknownFault::Unused => format!("no vector uses the unknown `{name}`"),
        }
    }
}

fn because(reason: &Option<String>) -> String {
    reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default()
}
