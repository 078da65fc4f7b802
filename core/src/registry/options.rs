//! The list of all options with a record.
use crate::object::{Options, OptionsRecord};

pub use crate::inspect::capability::CapabilityOptions;
pub use crate::inspect::gauge_study::StudyOptions;
pub use crate::stock::CuttingOptions;

/// The options of a chart, without phases.
pub type ChartOptions = crate::inspect::control_chart::ChartOptions<'static>;

/// The options of every function that has a record of them, in the order of the reference.
pub const fn options() -> &'static [&'static OptionsRecord] {
    OPTIONS
}

const OPTIONS: &[&OptionsRecord] =
    &[CapabilityOptions::RECORD, ChartOptions::RECORD, StudyOptions::RECORD, CuttingOptions::RECORD];
