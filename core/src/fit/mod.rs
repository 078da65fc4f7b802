//! Fits: pressed joints.
pub mod press;
