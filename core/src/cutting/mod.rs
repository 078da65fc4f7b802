//! Cutting: speeds, feeds, chips, forces and times.
pub mod ball;
pub mod chip;
pub mod countersink;
pub mod drilling;
pub mod engagement;
pub mod entry;
pub mod grinding;
pub mod milling;
pub mod path;
pub mod rotation;
pub mod sawing;
pub mod speed;
pub mod time;
