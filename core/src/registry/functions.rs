//! The list of all functions with a record.
use crate::object::FunctionRecord;

pub use crate::inspect::sampling::{
    SAMPLING_PERFORMANCE, SAMPLING_PLAN, SAMPLING_WORST_OUTGOING, TWO_POINT_PLAN, VARIABLES_ACCEPTANCE,
    VARIABLES_PLAN,
};

/// Every function that has a record, in the order of the reference.
pub const fn functions() -> &'static [&'static FunctionRecord] {
    FUNCTIONS
}

const FUNCTIONS: &[&FunctionRecord] = &[
    &SAMPLING_PLAN.record,
    &TWO_POINT_PLAN.record,
    &SAMPLING_PERFORMANCE.record,
    &SAMPLING_WORST_OUTGOING.record,
    &VARIABLES_PLAN.record,
    &VARIABLES_ACCEPTANCE.record,
];
