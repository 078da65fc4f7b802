//! Tolerance stacks: whether parts will go together, how often they will not, and which dimension to tighten.
pub mod condition;
pub mod fastener;
pub mod position;
pub mod position_check;
