//! Locating: which motions locators take from a part, which stay free, and how their errors move it.
//!
//! Each locator touches at a point and stops motion along its normal. Six of them, well placed, stop the three slides
//! and three turns of a part; a line contact counts as two, a plane contact as three.
mod contact;
mod error;
mod freedom;
mod matrix;
mod part;
mod programme;
mod seating;
mod shift;
#[cfg(test)]
mod tests;

pub use contact::{Clamp, Locator};
pub use error::{LocatingError, MAX_CLAMPED, MAX_LOCATORS};
pub use freedom::{FreeMotion, MotionKind};
pub use part::Locating;
