//! Tolerance stacks: whether parts will go together, how often they will not, and which dimension to tighten.

pub mod operations;
