//! Cutting: speeds, feeds and times.
pub mod deflection;
pub mod facing;
pub mod finish;
pub mod force;
pub mod milling;
pub mod sawing;
pub mod speed;
pub mod threading_infeed;
pub mod time;
pub mod turning;
pub mod turning_cut;
pub mod turning_force;
