//! Tolerance classes of ISO 286, such as H7 and g6, and the limits that they give.
mod class;
mod designation;
mod tables;

pub use class::*;
pub(super) use designation::read_fit;
pub use designation::{ISO_LIMITS, ISO_LIMITS_ROUNDED_JS, iso_limits, iso_limits_rounded_js};
