//! Fits: limits by their designations, fits of a hole and a shaft, pressed and shrunk joints.
pub mod assembled;
pub mod cylinder;
mod drawing;
mod error;
pub mod inch;
pub mod iso;
pub mod joint;
mod pair;
pub mod press;
mod select;
pub mod service;
pub mod shrink;
pub mod statistics;

pub use drawing::Zone;
pub use error::FitError;
pub use iso::{Member, ToleranceClass, iso_classes, iso_limits, iso_limits_rounded_js};
pub use pair::{Fit, FitKind};
pub use select::{FitBasis, FitChoice, Preference, select_fits};
pub use statistics::FitStatistics;
