//! Cutting: speeds, feeds, chips, forces and times.
pub mod ball;
pub mod chip;
pub mod engagement;
pub mod milling;
pub mod path;
pub mod sawing;
pub mod speed;
pub mod thread;
pub mod time;
