//! Drift of a process from readings in order.
use tenths::Units;
use tenths::inspect::capability::CapabilityLimits;
use tenths::inspect::process::drift::{DriftError, DriftOptions, ToolDrift, tool_drift};
use tenths_macros::export;

/// The drift of a characteristic from part to part, and what the limits leave it:
/// `tenths_make_tool_drift(TENTHS_METRIC, readings, 12, NULL, 9.95, 10.05, 1.33, 0.95, &drift)`.
///
/// Readings and limits are in inches or millimetres. `parts` has the rising number of the part of each reading; `parts` may be
/// null where every part was measured. `lower_limit` may be infinite where there is no lower limit, and `upper_limit` may be
/// infinite where there is no upper one; one of them is needed. `required_capability` is the Cpk to keep, `confidence`
/// that of the interval of the drift.
#[export(drift)]
pub(crate) fn make_tool_drift(
    units: Units,
    readings: &[f64],
    _count: usize,
    parts: Option<&[f64]>,
    lower_limit: f64,
    upper_limit: f64,
    required_capability: f64,
    confidence: f64,
) -> Result<ToolDrift, DriftError> {
    let limits = CapabilityLimits::of_ends(lower_limit, upper_limit);
    tool_drift(parts, readings, limits, &DriftOptions { units, required_capability, confidence })
}
