//! The plan document and the process sheet: one part from its drawing to the work at the machines.
mod bar;
mod caution;
mod characteristic;
mod checked;
mod document;
mod drawing;
mod evaluate;
mod evaluation;
mod figures;
mod held;
mod holding;
mod hub;
mod joint;
mod joint_names;
mod joints;
mod judge;
mod knurled;
mod linear_stack;
mod metal;
mod operation;
mod operations;
mod output;
mod pages;
mod plain_joint;
mod propagate;
mod propose;
pub mod quote;
mod rates;
mod rates_check;
mod routed;
mod routing;
mod schema;
mod seat;
mod service;
mod settings;
mod sheet;
mod stacks;
mod tool_use;
mod variation;
mod workpiece;
mod written;

pub use bar::*;
pub use characteristic::*;
pub use document::*;
pub use evaluation::MAX_FINDINGS;
pub use holding::{HoldingKind, LocatorPoint, Workholding};
pub use hub::*;
pub use linear_stack::{
    Law, LinearStack, MAX_CONTRIBUTORS, MAX_DRAWS, MAX_STACK_SAMPLES, Side, StackContributor, StackDimension,
    StackSample,
};
pub use metal::{Metal, MetalDesignation};
pub use operation::*;
pub use pages::{SheetError, SheetKind};
pub use propagate::{
    FaultShare, FindingShare, OutputSpread, OutputStatistics, PropagateError, Propagated, SampledShare,
};
pub(crate) use propose::proposed_bar;
pub use propose::{Assumption, Proposed, proposed_fields};
pub use rates::{
    LearningModel, LearningRate, MachineRate, MaterialRate, MoveRate, OperationRate, OutsideRate,
    PriceGoverns, Rates, StartsRounded, TieRounding, ToolRate,
};
pub use routing::{MAX_ROUTINGS, RoutedOperations, Routing};
pub use schema::{schema, sheet_schema};
pub use seat::{Screw, Seat};
pub use sheet::*;
pub use variation::{MAX_OUTPUTS, MAX_PLAN_SAMPLES, MAX_SAMPLED_BYTES, Variation, Varying};
pub use workpiece::End;

pub use checked::{Plan, Routed};
pub use written::{MAX_SHEET_BYTES, changes_to_json};
