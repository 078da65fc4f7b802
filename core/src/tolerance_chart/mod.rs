//! Tolerance charts: whether a sequence of cuts makes the dimensions of a drawing, and leaves each cut its stock.
//!
//! The faces of a part are planes along one axis. A cut puts a face at a working dimension from another one, and so
//! makes a new state of it. Stock and cuts join all states in a tree, in which every distance, be it a dimension of
//! the drawing or the stock that a cut removes, is a chain of working dimensions with one sign each. Everything is
//! exact and in the worst case. The method of the chart is common practice.

mod chains;
mod chart;
mod derive;
mod error;
mod evaluate;
mod result;
#[cfg(test)]
mod tests;

pub use chart::*;
pub use error::{ChartError, MAX_ENTRIES};
pub use result::{ChartResult, ChartRow, ChartRowKind};
