//! Tolerance stacks: whether parts will go together, how often they will not, and which dimension to tighten.
//!
//! A [`Stack`] is a linear chain on exact sizes.
mod bytes;
mod chain;
mod correlation;
mod decimal;
mod differences;
mod distribution;
mod draw;
mod error;
mod extremes;
mod formula;
mod function;
mod linear;
mod moments;
mod propagation;
mod random;
mod reading;
mod sample;
mod select;
mod sketch;
mod statistics;
mod summary;

pub use differences::Moments;
pub use distribution::Distribution;
pub use error::StackError;
pub use extremes::Extremes;
pub use formula::FormulaOutput;
pub use function::{ByRow, Function, Input, by_row};
pub use linear::{Band, Contributor, Place, Stack};
pub use propagation::{MOST_INPUTS, Propagation};
pub use sample::{BLOCK, Blocks, EXACT_COUNT, GREATEST_COUNT, Sampling};
pub use statistics::{Closure, Contribution, MeanShift, Spread, Statistics};
pub use summary::{Fraction, Percentile, Sample};
