//! The arithmetic between a part drawing and a good part.
// The record that `#[formula]` writes names this crate by its public path.
extern crate self as tenths;

pub mod quantity;

pub use quantity::{Quantity, Units};
