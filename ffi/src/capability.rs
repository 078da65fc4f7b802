//! Capability of processes. Readings come in as an array, in the unit of the side.
use crate::describe::fill;
use crate::guard::{guard, side, tenths_units, text};
use crate::handle::{array, given};
use crate::object::write;
use crate::objects::tenths_capability;
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::capability::{
    CapabilityLaw, CapabilityLimits, CapabilityOptions, SigmaRule, capability,
};

/// The limits of a characteristic, and how its capability is worked out: set by `tenths_capability_options_init`, then changed.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_capability_options {
    /// `sizeof(tenths_capability_options)`.
    pub struct_size: usize,
    /// The lower limit, NaN where there is none.
    pub lower_limit: f64,
    /// The upper limit, NaN where there is none.
    pub upper_limit: f64,
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

/// Sets the usual options of a capability, without limits.
///
/// Set `struct_size` before the call.
///
/// # Safety
/// `options->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_capability_options_init(
    options: *mut tenths_capability_options,
) -> tenths_status {
    let made = tenths_capability_options {
        struct_size: size_of::<tenths_capability_options>(),
        lower_limit: f64::NAN,
        upper_limit: f64::NAN,
        subgroup: 0,
        target: f64::NAN,
        sigma: std::ptr::null(),
        law: std::ptr::null(),
        confidence: CapabilityOptions::new(Units::Metric).confidence,
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { fill(options, "tenths_capability_options", made) })
}

/// The capability of one characteristic: `tenths_make_capability(TENTHS_METRIC, readings, 125, &options, &capability)`.
///
/// Readings, limits and target are in inches or millimetres. `options` has one limit or both.
///
/// # Safety
/// `readings` has `count` elements; `options->struct_size` and `capability->struct_size` tell the sizes of the structs.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_capability(
    units: tenths_units,
    readings: *const f64,
    count: usize,
    options: *const tenths_capability_options,
    capability: *mut tenths_capability,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (readings, given) = unsafe {
                (array(readings, count, "readings")?, given(options, "tenths_capability_options")?)
            };
            let limits =
                CapabilityLimits { lower: known(given.lower_limit), upper: known(given.upper_limit) };
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
    let read = |pointer: *const c_char, name| match pointer.is_null() {
        true => Ok(None),
        // SAFETY: the caller's promise.
        false => unsafe { text(pointer, name) }.map(Some),
    };
    Ok(CapabilityOptions {
        subgroups: (given.subgroup > 0).then(|| vec![given.subgroup; count.div_ceil(given.subgroup)]),
        target: known(given.target),
        sigma: read(given.sigma, "sigma")?.map(SigmaRule::parse).transpose()?,
        law: read(given.law, "law")?.map_or(Ok(usual.law), CapabilityLaw::parse)?,
        confidence: given.confidence,
        ..usual
    })
}
