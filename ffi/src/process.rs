//! Drift of a process from readings in order.
use crate::guard::{guard, side, tenths_units};
use crate::handle::array;
use crate::object::write;
use crate::objects::tenths_tool_drift;
use crate::status::tenths_status;
use tenths::Units;
use tenths::inspect::capability::CapabilityLimits;
use tenths::inspect::process::drift::{DriftOptions, tool_drift};

/// The drift of a characteristic from part to part, and what the limits leave it:
/// `tenths_make_tool_drift(TENTHS_METRIC, readings, 12, NULL, 9.95, 10.05, 1.33, 0.95, &drift)`.
///
/// Readings and limits are in inches or millimetres. `parts` has the rising number of the part of each reading; `parts` may be
/// null where every part was measured. `lower_limit` may be infinite where there is no lower limit, and `upper_limit` may be
/// infinite where there is no upper one; one of them is needed. `required_capability` is the Cpk to keep, `confidence`
/// that of the interval of the drift.
///
/// # Safety
/// `readings`, and `parts` if it is not null, have `count` elements; `drift->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
#[allow(clippy::too_many_arguments, reason = "numbers of one call, as in the other interfaces")]
pub unsafe extern "C" fn tenths_make_tool_drift(
    units: tenths_units,
    readings: *const f64,
    count: usize,
    parts: *const f64,
    lower_limit: f64,
    upper_limit: f64,
    required_capability: f64,
    confidence: f64,
    drift: *mut tenths_tool_drift,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let readings = unsafe { array(readings, count, "readings") }?;
            let parts = match parts.is_null() {
                true => None,
                // SAFETY: the caller's promise.
                false => Some(unsafe { array(parts, count, "parts") }?),
            };
            let limits = CapabilityLimits::of_ends(lower_limit, upper_limit);
            let options = DriftOptions { units: side(units)?, required_capability, confidence };
            Ok(tool_drift(parts, readings, limits, &options)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(drift, "drift", Units::Metric, made) }
    })
}
