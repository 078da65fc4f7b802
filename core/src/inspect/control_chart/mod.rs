//! Control charts: whether a process that made parts to print still runs as it did.
//!
//! Limits are worked out from the readings themselves, or from a known centre and standard deviation. Each point
//! lists the rules that it broke.
//!
//! Source: ISO 7870-2 for the charts with limits at three standard deviations; ISO 7870-6 for EWMA; ISO 7870-4 for
//! CUSUM. The factors come from the distribution of the range and of the standard deviation of normal readings.

mod attributes;
mod chart;
mod constants;
mod error;
mod kind;
mod names;
mod options;
mod phase;
mod printed;
mod rules;
mod run_length;
mod series;
mod variables;
mod weighted;

pub use chart::{ControlChart, control_chart};
pub use constants::{CHART_CONSTANTS, ChartConstants, ConstantSource, chart_constants};
pub use error::ControlChartError;
pub use kind::ChartKind;
pub use options::ChartOptions;
pub use phase::ChartPhase;
pub use rules::RuleSet;
pub use run_length::average_run_length;
pub use series::{BrokenRule, ControlPoint, ControlSeries};

#[cfg(test)]
mod tests;
