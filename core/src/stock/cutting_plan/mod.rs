//! Cutting plans: which bars to take, and what to cut from each, so that all pieces are made from the fewest bars, or
//! the cheapest.
//!
//! The search prices patterns by a linear programme and branches where that is not whole. Lengths are exact, and the
//! bound by which a plan is proven is computed in whole numbers. A search that is ended by its limits gives the best plan
//! found, the bound, and `proven = false`.
mod effort;
mod error;
mod greedy;
mod knapsack;
mod master;
mod order;
mod plan;
mod planning;
mod problem;
mod relax;
mod search;
mod svg;
#[cfg(test)]
mod tests;

pub use error::CuttingError;
pub use order::{CuttingBar, CuttingOptions, OrderedPiece};
pub use plan::{CutLength, CuttingLayout, CuttingObjective, CuttingPlan};
pub use planning::cutting_plan;
