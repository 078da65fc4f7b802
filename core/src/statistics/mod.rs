//! Statistical functions, the same to the bit on every machine.
pub mod normal_range;
