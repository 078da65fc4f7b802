//! Why a tolerance chart cannot be evaluated.
use crate::size::Size;

/// The most faces, stock dimensions, cuts and drawing dimensions of a chart, each by itself.
pub const MAX_ENTRIES: usize = 200;

/// Why a tolerance chart cannot be evaluated.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ChartError {
    /// A text that says no way to look.
    #[error("a face must face left or right, not `{text}`")]
    Facing {
        /// The text as given.
        text: String,
    },
    /// Two faces of one name.
    #[error("two faces are named `{face}`: give each its own name")]
    DuplicateFace {
        /// The name.
        face: String,
    },
    /// A name that no face has.
    #[error("{what}: there is no face `{face}`")]
    UnknownFace {
        /// Which part of the chart names it.
        what: String,
        /// The name as given.
        face: String,
    },
    /// A dimension from a face to itself.
    #[error("{what}: a dimension needs two faces, but this one is from `{face}` to itself")]
    Itself {
        /// Which part of the chart.
        what: String,
        /// The face.
        face: String,
    },
    /// A cut that locates from a face which no stock and no earlier cut has made, or a drawing that asks for one.
    #[error(
        "{what}: the face `{face}` does not exist yet: name it in the stock, as a datum or in an earlier cut"
    )]
    NotThere {
        /// Which part of the chart.
        what: String,
        /// The face.
        face: String,
    },
    /// A chain that breaks off.
    #[error(
        "{what}: no chain of working dimensions joins its two ends: add the stock dimension that is missing"
    )]
    Unjoined {
        /// Which part of the chart.
        what: String,
    },
    /// A dimension between faces whose distance follows from others.
    #[error("{what}: the distance follows from other dimensions already: leave one of them out")]
    OverDetermined {
        /// Which part of the chart.
        what: String,
    },
    /// A working dimension that nothing gives a mean.
    #[error(
        "{what}: no drawing dimension and no stock removal gives its mean: add the dimension that is missing"
    )]
    Undetermined {
        /// Which part of the chart.
        what: String,
    },
    /// A working dimension without limits, where they are needed.
    #[error("{what}: there are no limits: give them, or derive them")]
    NoLimits {
        /// Which part of the chart.
        what: String,
    },
    /// A tolerance that no process holds.
    #[error("{what}: a process cannot hold a tolerance of {holds}: it must be positive")]
    Holds {
        /// Which part of the chart.
        what: String,
        /// The tolerance as given.
        holds: Size,
    },
    /// A least removal below zero.
    #[error("{what}: the least removal must be zero or more, not {least_removal}")]
    LeastRemoval {
        /// Which part of the chart.
        what: String,
        /// The least removal as given.
        least_removal: Size,
    },
    /// A least removal of a cut on a face that was not there.
    #[error("{what}: the cut makes a new face, so a least removal has no old face to count from")]
    NewFace {
        /// Which part of the chart.
        what: String,
    },
    /// A resolution that is zero or negative.
    #[error("the resolution must be greater than 0, not {resolution}")]
    Resolution {
        /// The resolution as given.
        resolution: Size,
    },
    /// A chart too large.
    #[error("a chart takes at most {MAX_ENTRIES} {what}, not {count}")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many there are.
        count: usize,
    },
    /// A size that is too large for a chart.
    #[error("{what}: out of range: the sizes of a chart lie within ±9 km")]
    OutOfRange {
        /// Which part of the chart.
        what: String,
    },
}
