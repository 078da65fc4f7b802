//! Why there is no chart.
use super::kind::ChartKind;
use crate::error::WithUnit;
use crate::object::UnknownName;

/// Why there is no chart.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ControlChartError {
    /// A text that names no kind of chart, set of rules or source of constants.
    #[error(transparent)]
    Name(#[from] UnknownName),
    /// A reading that cannot be plotted.
    #[error("reading {place} must be {need}, not {}. Fix: leave the reading out, or enter it again", WithUnit(*value, ""))]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// An impossible size of a subgroup or a sample.
    #[error("size {place} must be {need}, not {}", WithUnit(*value, ""))]
    Size {
        /// Its place, from 1.
        place: usize,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// More found than inspected.
    #[error("sample {place} has {count} defective pieces, but only {size} were inspected")]
    MoreThanInspected {
        /// Its place, from 1.
        place: usize,
        /// Defective pieces.
        count: f64,
        /// Inspected pieces.
        size: f64,
    },
    /// Sizes that do not go with the readings.
    #[error("{got} {what} were given; expected {expected}")]
    Count {
        /// What was given in the wrong number.
        what: &'static str,
        /// How many there are.
        got: usize,
        /// How many there must be.
        expected: String,
    },
    /// A kind of chart that needs sizes.
    #[error("{} needs the readings in each subgroup, or the number inspected in each sample: give sizes", kind.name())]
    NoSizes {
        /// The kind.
        kind: ChartKind,
    },
    /// Something given that the kind of chart does not use.
    #[error("{} takes no {what}", kind.name())]
    NotTaken {
        /// The kind.
        kind: ChartKind,
        /// What was given.
        what: &'static str,
    },
    /// A kind of chart whose run length is not calculated.
    #[error("a run length is given for xbar_r, xbar_s, i_mr, ewma and cusum, not for {}", kind.name())]
    NoRunLength {
        /// The kind.
        kind: ChartKind,
    },
    /// A run too long to compute.
    #[error("the average run is longer than 1e12 points. Fix: lower {options}")]
    LongRun {
        /// The options that make it so long.
        options: &'static str,
    },
    /// An option out of range.
    #[error("{name} must be {need}, not {}", WithUnit(*value, ""))]
    Option {
        /// Its name.
        name: &'static str,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// Too few points for limits.
    #[error(
        "phase {phase} has too few points, {got}; its limits need {least} or more. Fix: wait for more, or give centre and \
         sigma"
    )]
    TooFew {
        /// The phase, from 1.
        phase: usize,
        /// Its points.
        got: usize,
        /// How many are needed.
        least: usize,
    },
    /// Readings that show no variation.
    #[error(
        "phase {phase} shows no variation, so there are no limits. Fix: read to a finer resolution, collect more, \
         or give centre and sigma where the chart takes them"
    )]
    NoVariation {
        /// The phase, from 1.
        phase: usize,
    },
    /// Readings whose sums are beyond what a float holds.
    #[error("the readings of phase {phase} are too large to work with. Fix: give them in a larger unit")]
    TooLarge {
        /// The phase, from 1.
        phase: usize,
    },
    /// Counts for each unit that are beyond what a float holds.
    #[error(
        "the counts for each unit of sample {place} are too large to work with. Fix: give sizes in a smaller unit"
    )]
    CountsTooLarge {
        /// The sample, from 1.
        place: usize,
    },
    /// Phases that do not start at 0.
    #[error("the first point must be in phase 0, not {got}")]
    FirstPhase {
        /// Its phase.
        got: usize,
    },
    /// Phases that come back.
    #[error(
        "phases must be numbered 0, 1, 2 … in the order of the points, not {got} after {before} at point {place}"
    )]
    Phases {
        /// The point, from 1.
        place: usize,
        /// The phase before it.
        before: usize,
        /// Its phase.
        got: usize,
    },
    /// A size of subgroup without constants.
    #[error("there are no constants for subgroups of {n}; expected {least} to {most}")]
    Constants {
        /// The size.
        n: usize,
        /// The smallest there is.
        least: usize,
        /// The largest there is.
        most: usize,
    },
}
