//! The lists of all formulas, all objects and all options, by which the faces find them.
mod formulas;
mod objects;
pub mod options;

#[doc(hidden)]
pub use formulas::MODULES;
pub use formulas::{find, formulas};
pub use objects::objects;
pub use options::options;
