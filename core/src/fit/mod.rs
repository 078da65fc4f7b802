//! Fits: pressed and shrunk joints.
pub mod cylinder;
pub mod joint;
pub mod press;
pub mod service;
pub mod shrink;
