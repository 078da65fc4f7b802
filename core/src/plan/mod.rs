//! The plan document and the process sheet: one part from its drawing to the work at the machines.
mod caution;
mod checked;
mod document;
mod drawing;
mod evaluate;
mod figures;
mod holding;
mod joint;
mod judge;
mod knurled;
mod linear_stack;
mod metal;
mod operations;
mod output;
mod pages;
mod plain_joint;
mod propagate;
mod schema;
mod service;
mod settings;
mod sheet;
mod stacks;
mod tools;
mod turning_and_holes;
mod variation;
mod written;

pub use document::*;
pub use evaluate::MAX_FINDINGS;
pub use linear_stack::{
    Dimension, Law, LinearStack, MAX_CONTRIBUTORS, MAX_DRAWS, MAX_STACK_SAMPLES, Side, StackContributor,
    StackSample,
};
pub use pages::{SheetError, SheetKind};
pub use propagate::{
    FaultShare, FindingShare, OutputSpread, OutputStatistics, PropagateError, Propagated, SampledShare,
};
pub use schema::{schema, sheet_schema};
pub use sheet::*;
pub use variation::{MAX_OUTPUTS, MAX_PLAN_SAMPLES, MAX_SAMPLED_BYTES, Variation, Varying};

pub use checked::Plan;
pub use written::{MAX_SHEET_BYTES, changes_to_json};
