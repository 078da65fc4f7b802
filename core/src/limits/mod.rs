//! Limits of size: the two sizes between which a good part lies, both included.
//!
//! [`Limits::parse`] stands with the fits, since limits may be stated by a class or a fit.
mod error;
mod general;
pub(crate) mod notation;
mod readings;
mod rows;
mod size_limits;

pub use error::{FitError, GeneralToleranceError, LimitsError, RowLimitsError};
pub use general::{GeneralClass, GeneralFeature};
pub use readings::Readings;
pub use rows::accept_rows;
pub use size_limits::Limits;
