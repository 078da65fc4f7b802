//! Threads with a 60° profile: basic sizes, tapping, measurement over wires.
pub mod profile;
pub mod tapping;
pub mod wires;
