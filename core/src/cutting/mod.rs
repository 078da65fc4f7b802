//! Cutting: speeds, feeds, chips, forces and times.
pub mod ball;
pub mod chip;
pub mod deflection;
pub mod engagement;
pub mod facing;
pub mod finish;
pub mod force;
pub mod milling;
pub mod milling_cut;
pub mod path;
pub mod sawing;
pub mod speed;
pub mod threading_infeed;
pub mod time;
pub mod turning;
pub mod turning_cut;
pub mod turning_force;
