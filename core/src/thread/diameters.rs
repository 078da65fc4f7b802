//! The diameters of a thread, and why a designation has none.
use crate::size::SizeError;
use crate::{Limits, LimitsError, Size};

/// The basic diameters, which limits are counted from. That of the crest is the nominal one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct Basic {
    pub pitch_diameter: Size,
    pub minor: Size,
}

/// Limits of the three diameters.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct Diameters {
    pub major: Option<Limits>,
    pub major_least: Size,
    pub pitch_diameter: Limits,
    pub minor: Option<Limits>,
    pub minor_greatest: Size,
}

/// Why a thread designation has no limits.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ThreadError {
    /// The text is not in a form that is known.
    #[error(
        "`{text}` is not a valid thread designation; expected e.g. `M10x1.5-6g`, `M10-6H`, `1/4-20 UNC-2A` or `#10-24 UNC-2B`"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// There is no tolerance class, so that there are no limits.
    #[error("`{text}` needs a tolerance class: {need}")]
    NoClass {
        /// The text as given.
        text: String,
        /// What would be right.
        need: &'static str,
    },
    /// The tolerance class is not one.
    #[error("`{class}` is not a tolerance class of this thread: {need}")]
    Class {
        /// The class as given.
        class: String,
        /// What would be right.
        need: &'static str,
    },
    /// No pitch is given, and the coarse series does not have the diameter.
    #[error("`{text}` needs a pitch: the coarse series does not have this diameter")]
    NoPitch {
        /// The text as given.
        text: String,
    },
    /// The series does not have the thread.
    #[error("`{text}` is not in its series: {instead}; write UNS for a special thread")]
    Series {
        /// The text as given.
        text: String,
        /// What the series has.
        instead: String,
    },
    /// The standard gives no figure for this.
    #[error("`{text}`: {standard} has no {what}")]
    NotInStandard {
        /// The text as given.
        text: String,
        /// What it has not.
        what: String,
        /// The standard, with its edition.
        standard: &'static str,
    },
    /// The pitch is so coarse that nothing is left below the threads.
    #[error("`{text}`: the pitch leaves no minor diameter")]
    NoMinorDiameter {
        /// The text as given.
        text: String,
    },
    /// One of the sizes is at fault.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// The limits could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}
