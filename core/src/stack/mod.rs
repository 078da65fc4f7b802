//! Tolerance stacks: whether parts will go together, how often they will not, and which dimension to tighten.
//!
//! A [`Stack`] is a linear chain on exact sizes, with its worst case, statistics, samples and the cheapest tolerances
//! that a target allows. [`Propagation`] is any function of varying inputs, a formula of the library among them, and
//! [`VectorLoop`] gives one from lengths and angles that close. [`tolerance_chart`](crate::tolerance_chart) has the
//! chains of a sequence of cuts, and [`position`](crate::position) what tolerances of position bring into a chain.
//!
//! Samples are drawn in numbered blocks, each with random words of its own, so that their bits depend on neither
//! threads nor machines.

mod advice;
mod allocation;
mod bytes;
mod chain;
mod correlation;
mod decimal;
mod differences;
mod distribution;
mod error;
mod extremes;
mod formula;
mod function;
mod linear;
mod loop_part;
mod moments;
mod propagation;
pub(crate) mod random;
pub(crate) mod reading;
mod sample;
mod select;
mod sketch;
#[cfg(test)]
mod sketched;
mod slope;
mod statistics;
mod summary;
mod variates;
mod vector_loop;

pub(crate) use summary::wilson;
pub(crate) use variates::{Draw, ROWS, RandomSource, VariateBlock};

pub use allocation::{AllocatedTolerance, Allocation, CostCurve, FreeTolerance, Target};
pub use differences::Moments;
pub use distribution::Distribution;
pub use error::{StackError, UnknownFault};
pub use extremes::Extremes;
pub use formula::FormulaOutput;
pub use function::{ByRow, Function, Input, RowFunction, by_row};
pub use linear::{Band, Contributor, ContributorKey, Stack};
pub use propagation::{MAX_INPUTS, Propagation};
pub use sample::{BLOCK, Blocks, EXACT_COUNT, MAX_COUNT, Sampling};
pub use statistics::{Closure, Contribution, MeanShift, Spread, SpreadWithin, Statistics};
pub use summary::{Fraction, Percentile, Sample};
pub use vector_loop::{LoopUnknown, VectorLoop};
