//! Shapes on a part: flats.
pub mod flat;
