//! Capability of processes. Readings come in as an array, in the unit of the side.
use crate::describe::fill;
use crate::guard::{guard, optional_text, side, tenths_units};
use crate::handle::{array, given};
use crate::object::write;
use crate::objects::tenths_capability;
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::capability::{
    CapabilityLaw, CapabilityLimits, CapabilityOptions, SigmaRule, capability,
};

/// How the capability of a characteristic is worked out: set by `tenths_capability_options_init`, then changed.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_capability_options {
    /// `sizeof(tenths_capability_options)`.
    pub struct_size: usize,
    /// The number of readings in each subgroup, 0 without subgroups.
    pub subgroup: usize,
    /// The target, NaN for the middle of the limits.
    pub target: f64,
    /// How the standard deviation within is estimated: `moving range`, `mean range`, `mean deviation`, `pooled` or
    /// `overall`. Null for moving ranges without subgroups and mean ranges with them.
    pub sigma: *const c_char,
    /// The law of Pp, Ppk and the expected ppm: `normal`, `lognormal`, `weibull` or `Pearson III`. Null for normal.
    pub law: *const c_char,
    /// The confidence of the intervals: 0.95.
    pub confidence: f64,
}

/// Sets the usual options of a capability.
///
/// Set `struct_size` before the call.
///
/// # Safety
/// `options->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_capability_options_init(
    options: *mut tenths_capability_options,
) -> tenths_status {
    // SAFETY: the caller's promise.
    guard(|| unsafe { fill(options, "tenths_capability_options", usual()) })
}

fn usual() -> tenths_capability_options {
    tenths_capability_options {
        struct_size: size_of::<tenths_capability_options>(),
        subgroup: 0,
        target: f64::NAN,
        sigma: std::ptr::null(),
        law: std::ptr::null(),
        confidence: CapabilityOptions::new(Units::Metric).confidence,
    }
}

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
            let (readings, given) = unsafe {
                let given = match options.is_null() {
                    true => usual(),
                    false => given(options, "tenths_capability_options")?,
                };
                (array(readings, count, "readings")?, given)
            };
            let limits = CapabilityLimits::of_ends(lower_limit, upper_limit);
            // SAFETY: the caller's promise.
            let options = unsafe { options_of(&given, side(units)?, count) }?;
            Ok(self::capability(readings, limits, &options)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(capability, "capability", Units::Metric, made) }
    })
}

fn known(number: f64) -> Option<f64> {
    (!number.is_nan()).then_some(number)
}

/// The options of a capability of so many readings.
///
/// # Safety
/// Its texts are null or end with a NUL.
unsafe fn options_of(
    given: &tenths_capability_options,
    units: Units,
    count: usize,
) -> Result<CapabilityOptions, Failure> {
    let usual = CapabilityOptions::new(units);
    // SAFETY: the caller's promise.
    let read = |pointer, name| unsafe { optional_text(pointer, name) };
    Ok(CapabilityOptions {
        subgroups: (given.subgroup > 0).then(|| vec![given.subgroup; count.div_ceil(given.subgroup)]),
        target: known(given.target),
        sigma: read(given.sigma, "sigma")?.map(SigmaRule::parse).transpose()?,
        law: read(given.law, "law")?.map_or(Ok(usual.law), CapabilityLaw::parse)?,
        confidence: given.confidence,
        ..usual
    })
}
