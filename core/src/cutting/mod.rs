//! Cutting: speeds, feeds and times.
pub mod milling;
pub mod path;
pub mod sawing;
pub mod speed;
pub mod time;
