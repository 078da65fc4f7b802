//! Limits of size: the two sizes between which a good part lies, both included.
//!
//! [`Limits::parse`] stands with the fits, since limits may be stated by a class or a fit.
mod error;
pub(crate) mod notation;
mod readings;
mod size_limits;

pub use error::{FitError, LimitsError};
pub use readings::Readings;
pub use size_limits::Limits;
