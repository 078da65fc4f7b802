//! The list of all functions with a record.
use crate::object::FunctionRecord;

pub use crate::cutting::reaming::REAMER_LIMITS;
pub use crate::fit::{FIT_SELECTION, INCH_FIT, ISO_LIMITS, ISO_LIMITS_ROUNDED_JS};
pub use crate::gauge::{CHECK_MASTER, GAUGE};
pub use crate::general_tolerance::GENERAL_TOLERANCE;
pub use crate::inspect::control_chart::CHART_CONSTANTS;
pub use crate::inspect::decision::DECISION;
pub use crate::inspect::gauge_study::{ATTRIBUTE_ZONE, GAUGE_BIAS, GAUGE_LINEARITY, REGRESSION};
pub use crate::inspect::sampling::{
    SAMPLING_PERFORMANCE, SAMPLING_PLAN, SAMPLING_WORST_OUTGOING, STAGED_PLAN, SWITCHING, TWO_POINT_PLAN,
    VARIABLES_ACCEPTANCE, VARIABLES_PLAN,
};
pub use crate::inspect::uncertainty::ESTIMATE_OF_READINGS;

/// Every function that has a record, in the order of the reference.
pub const fn functions() -> &'static [&'static FunctionRecord] {
    FUNCTIONS
}

const FUNCTIONS: &[&FunctionRecord] = &[
    &REAMER_LIMITS.record,
    &ISO_LIMITS.record,
    &ISO_LIMITS_ROUNDED_JS.record,
    &INCH_FIT.record,
    &FIT_SELECTION.record,
    &GENERAL_TOLERANCE.record,
    &GAUGE.record,
    &CHECK_MASTER.record,
    &DECISION.record,
    &SAMPLING_PLAN.record,
    &STAGED_PLAN.record,
    &TWO_POINT_PLAN.record,
    &SAMPLING_PERFORMANCE.record,
    &SAMPLING_WORST_OUTGOING.record,
    &SWITCHING.record,
    &VARIABLES_PLAN.record,
    &VARIABLES_ACCEPTANCE.record,
    &CHART_CONSTANTS.record,
    &ATTRIBUTE_ZONE.record,
    &GAUGE_BIAS.record,
    &GAUGE_LINEARITY.record,
    &REGRESSION.record,
    &ESTIMATE_OF_READINGS.record,
];
