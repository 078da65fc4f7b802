//! Bar stock: how many parts a bar gives, and how to cut what is wanted from the fewest or the cheapest bars.
pub mod bar;
pub mod cutting_plan;

pub use bar::*;
pub use cutting_plan::{
    CutLength, CuttingBar, CuttingError, CuttingLayout, CuttingObjective, CuttingOptions, CuttingPlan,
    OrderedPiece, cutting_plan,
};
