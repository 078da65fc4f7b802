//! General tolerances: what ISO 2768 allows a size, an angle or a form that the drawing gives no tolerance of its own.
//!
//! The classes and the error stand with the limits, whose text may name a general tolerance.
mod functions;
mod tables;
mod text;
mod tolerance;

pub use crate::limits::{GeneralClass, GeneralFeature, GeneralToleranceError};
pub use functions::{GENERAL_TOLERANCE, general_tolerance};
pub(crate) use text::split;
pub use tolerance::GeneralTolerance;
pub(crate) use tolerance::SIZES;

#[cfg(test)]
mod tests;
