//! Acceptance sampling: how many pieces of a lot to inspect, and how many nonconforming ones reject it.
//!
//! A plan is one of a standard, of its samples and numbers, of no acceptance of a nonconforming piece, or of two points of
//! its operating characteristic. [`SamplingPlan::performance`] says what it does to lots of a quality,
//! [`Switching`] when inspection becomes tightened or reduced.
//!
//! A sampling plan lets through lots with nonconforming pieces, by design. Where one such piece can hurt somebody, every
//! piece is to be inspected.
mod counts;
mod design;
mod error;
mod functions;
mod kinds;
mod names;
mod performance;
mod plan;
mod stage;
mod switching;
mod table;
mod variables;

pub use design::{Quality, TWO_POINT_PLAN, two_point_plan, zero_acceptance_plan};
pub use error::SamplingError;
pub use functions::{
    SAMPLING_PERFORMANCE, SAMPLING_PLAN, SAMPLING_WORST_OUTGOING, STAGED_PLAN, SWITCHING,
    VARIABLES_ACCEPTANCE, VARIABLES_PLAN, sampling_performance, sampling_plan, sampling_worst_outgoing,
    staged_plan, switching, variables_acceptance, variables_plan,
};
pub use kinds::{InspectionLevel, InspectionSeverity, LotModel, LotVerdict, PlanKind, SigmaKnowledge};
pub use performance::PlanPerformance;
pub use plan::{PlanRequest, SamplingPlan};
pub use stage::SamplingStage;
pub use switching::Switching;
pub use variables::VariablesPlan;

#[cfg(test)]
mod tests;
