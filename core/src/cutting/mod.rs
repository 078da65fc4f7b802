//! Cutting: speeds, feeds and times.
pub mod speed;
