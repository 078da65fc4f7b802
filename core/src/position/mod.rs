//! Tolerances of position: zones and errors, boundaries and bonus, fasteners, and whether a measured position is within
//! its zone.
pub mod check;
pub mod condition;
pub mod fastener;
pub mod zone;
