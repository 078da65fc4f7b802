//! The list of all options with a record.
use crate::object::{Options, OptionsRecord};

pub use crate::stock::CuttingOptions;

/// The options of every function that has a record of them, in the order of the reference.
pub const fn options() -> &'static [&'static OptionsRecord] {
    OPTIONS
}

const OPTIONS: &[&OptionsRecord] = &[CuttingOptions::RECORD];
