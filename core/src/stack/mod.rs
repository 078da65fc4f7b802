//! Tolerance stacks: whether parts will go together, how often they will not, and which dimension to tighten.
//!
//! A [`Stack`] is a linear chain on exact sizes.
mod chain;
mod correlation;
mod decimal;
mod distribution;
mod draw;
mod error;
mod linear;
mod moments;
mod random;
mod sample;
mod select;
mod sketch;
mod statistics;
mod summary;

pub use distribution::Distribution;
pub use error::StackError;
pub use linear::{Band, Contributor, Place, Stack};
pub use sample::{BLOCK, Blocks, EXACT_COUNT, GREATEST_COUNT, Sampling};
pub use statistics::{Closure, Contribution, MeanShift, Spread, Statistics};
pub use summary::{Fraction, Percentile, Sample};
