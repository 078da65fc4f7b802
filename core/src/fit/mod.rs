//! Fits: limits by their designations, and fits of a hole and a shaft.
mod drawing;
mod functions;
pub mod inch;
pub mod iso;
mod pair;
mod select;
mod selection;
mod stated;
pub mod statistics;

pub use crate::limits::FitError;
pub use drawing::Zone;
pub use functions::{INCH_FIT, inch_fit};
pub use iso::{
    ISO_LIMITS, ISO_LIMITS_ROUNDED_JS, Member, ToleranceClass, iso_classes, iso_limits, iso_limits_rounded_js,
};
pub use pair::{Fit, FitBasis, FitKind};
pub use select::{FitChoice, Preference, select_fits};
pub use selection::{FIT_SELECTION, FitSelection, fit_selection};
pub use stated::Designation;
pub use statistics::FitStatistics;
