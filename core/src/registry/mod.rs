//! The lists of all formulas and all objects, by which the faces find them.
mod formulas;
mod objects;

#[doc(hidden)]
pub use formulas::MODULES;
pub use formulas::{find, formulas};
pub use objects::objects;
