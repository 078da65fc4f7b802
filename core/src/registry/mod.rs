//! The lists of all formulas, all functions, all objects and all options, by which the faces find them.
mod formulas;
pub mod functions;
mod objects;
pub mod options;

#[doc(hidden)]
pub use formulas::MODULES;
pub use formulas::{UnknownFormula, find, find_or_nearest, formulas};
pub use functions::functions;
pub use objects::objects;
pub use options::options;
