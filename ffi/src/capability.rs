//! Capability of processes. Readings come in as an array, in the unit of the side.
use crate::guard::{guard, side, tenths_units};
use crate::handle::array;
use crate::object::write;
use crate::objects::tenths_capability;
use crate::option::options;
use crate::options::tenths_capability_options;
use crate::status::tenths_status;
use tenths::Units;
use tenths::inspect::capability::{CapabilityLimits, CapabilityOptions, capability};

/// The capability of one characteristic:
/// `tenths_make_capability(TENTHS_METRIC, readings, 125, 9.95, 10.05, NULL, &capability)`.
///
/// Readings, limits and target are in inches or millimetres. `lower_limit` may be infinite where there is no lower limit,
/// and `upper_limit` may be infinite where there is no upper one; one of them is needed. `options` may be null for the
/// usual ones.
///
/// # Safety
/// `readings` has `count` elements; `options->struct_size` and `capability->struct_size` are set to the sizes of the structs.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_capability(
    units: tenths_units,
    readings: *const f64,
    count: usize,
    lower_limit: f64,
    upper_limit: f64,
    options: *const tenths_capability_options,
    capability: *mut tenths_capability,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (readings, options) =
                unsafe { (array(readings, count, "readings")?, self::options(options)?) };
            let limits = CapabilityLimits::of_ends(lower_limit, upper_limit);
            let options = CapabilityOptions { units: side(units)?, ..options };
            Ok(self::capability(readings, limits, &options)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(capability, "capability", Units::Metric, made) }
    })
}
