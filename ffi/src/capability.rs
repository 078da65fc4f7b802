//! Capability of processes. Readings come in as an array, in the unit of the side.
use tenths::Units;
use tenths::inspect::capability::{
    Capability, CapabilityError, CapabilityLimits, CapabilityOptions, capability,
};
use tenths_macros::export;

/// The capability of one characteristic:
/// `tenths_make_capability(TENTHS_METRIC, readings, 125, 9.95, 10.05, NULL, &capability)`.
///
/// Readings, limits and target are in inches or millimetres. `lower_limit` may be infinite where there is no lower limit,
/// and `upper_limit` may be infinite where there is no upper one; one of them is needed. `options` may be null for the
/// usual ones.
#[export(capability)]
pub(crate) fn make_capability(
    units: Units,
    readings: &[f64],
    lower_limit: f64,
    upper_limit: f64,
    options: CapabilityOptions,
) -> Result<Capability, CapabilityError> {
    let limits = CapabilityLimits::of_ends(lower_limit, upper_limit);
    capability(readings, limits, &CapabilityOptions { units, ..options })
}
