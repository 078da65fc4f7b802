//! Control charts. Readings, counts and sizes come in as arrays.
use crate::describe::fill;
use crate::guard::{guard, text};
use crate::handle::{array, given};
use crate::object::write;
use crate::objects::{tenths_chart_constants, tenths_control_chart};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::control_chart::{
    ChartConstants, ChartKind, ChartOptions, ConstantSource, RuleSet, control_chart,
};

/// How a control chart is worked out: set by `tenths_chart_options_init`, then changed.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_options {
    /// `sizeof(tenths_chart_options)`.
    pub struct_size: usize,
    /// Where the constants come from: `exact` or `printed`. Null for exact.
    pub constants: *const c_char,
    /// The rules that points are judged by: `limits`, `western_electric` or `nelson`. Null for `western_electric`.
    pub rules: *const c_char,
    /// The known centre or target, NaN for the mean of the readings.
    pub centre: f64,
    /// The known standard deviation of the process, NaN for an estimate from the readings.
    pub sigma: f64,
    /// How many standard deviations the limits lie from the centre: 3.
    pub sigmas: f64,
    /// How many readings in a row a moving range spans: 2.
    pub span: usize,
    /// The weight of the last reading in an EWMA: 0.2.
    pub weight: f64,
    /// The slack of a CUSUM, in standard deviations of a point: 0.5.
    pub slack: f64,
    /// The decision limit of a CUSUM, in standard deviations of a point: 5.
    pub decision: f64,
}

/// Sets the usual options of a control chart.
///
/// Set `struct_size` before the call.
///
/// # Safety
/// `options->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chart_options_init(options: *mut tenths_chart_options) -> tenths_status {
    let usual = ChartOptions::default();
    let made = tenths_chart_options {
        struct_size: size_of::<tenths_chart_options>(),
        constants: std::ptr::null(),
        rules: std::ptr::null(),
        centre: f64::NAN,
        sigma: f64::NAN,
        sigmas: usual.sigmas,
        span: usual.span,
        weight: usual.weight,
        slack: usual.slack,
        decision: usual.decision,
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { fill(options, "tenths_chart_options", made) })
}

/// A control chart: `tenths_make_control_chart("i_mr", readings, 20, NULL, 0, NULL, 0, NULL, &chart)`.
///
/// Kinds: `xbar_r`, `xbar_s`, `i_mr`, `p`, `np`, `c`, `u`, `ewma`, `cusum`. `sizes` are the readings of each subgroup, or
/// the pieces or units inspected in each sample; one size holds for all, and `sizes` may be null for single readings and
/// defects. `phases` numbers the phase of each point from 0, and `phases` may be null for one phase. `options` may be null
/// for the usual ones.
///
/// # Safety
/// `kind` ends with a NUL; each array has as many elements as its count; `chart->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_control_chart(
    kind: *const c_char,
    data: *const f64,
    count: usize,
    sizes: *const f64,
    size_count: usize,
    phases: *const usize,
    phase_count: usize,
    options: *const tenths_chart_options,
    chart: *mut tenths_control_chart,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (kind, data, sizes, phases, options) = unsafe {
                (
                    text(kind, "kind")?,
                    array(data, count, "data")?,
                    optional(sizes, size_count, "sizes")?,
                    optional(phases, phase_count, "phases")?,
                    options_of(options)?,
                )
            };
            let kind = ChartKind::parse(kind)?;
            Ok(control_chart(kind, data, sizes, &ChartOptions { phases, ..options })?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(chart, "chart", Units::Metric, made) }
    })
}

/// The constants of control charts for subgroups of `n` readings: `tenths_make_chart_constants(5, "exact", &constants)`.
///
/// Sources: `exact`, computed for 2 to 10 000 readings, or `printed`, as in the usual table for 2 to 25.
///
/// # Safety
/// `source` ends with a NUL; `constants->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_chart_constants(
    n: usize,
    source: *const c_char,
    constants: *mut tenths_chart_constants,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let made = || Ok(ChartConstants::new(n, ConstantSource::parse(unsafe { text(source, "source") }?)?)?);
        // SAFETY: the caller's promise.
        unsafe { write(constants, "constants", Units::Metric, made) }
    })
}

/// An array that may be null, and is then empty.
///
/// # Safety
/// As [`array`].
unsafe fn optional<'a, T>(pointer: *const T, count: usize, name: &'static str) -> Result<&'a [T], Failure> {
    match pointer.is_null() {
        true => Ok(&[]),
        // SAFETY: the caller's promise.
        false => unsafe { array(pointer, count, name) },
    }
}

/// The options of a chart; the usual ones for a null pointer.
///
/// # Safety
/// `options` is null or tells its size, and its texts are null or end with a NUL.
unsafe fn options_of<'a>(options: *const tenths_chart_options) -> Result<ChartOptions<'a>, Failure> {
    let usual = ChartOptions::default();
    if options.is_null() {
        return Ok(usual);
    }
    // SAFETY: the caller's promise.
    let given = unsafe { given(options, "tenths_chart_options") }?;
    let known = |number: f64| (!number.is_nan()).then_some(number);
    let read = |pointer: *const c_char, name| match pointer.is_null() {
        true => Ok(None),
        // SAFETY: the caller's promise.
        false => unsafe { text(pointer, name) }.map(Some),
    };
    Ok(ChartOptions {
        constants: read(given.constants, "constants")?.map_or(Ok(usual.constants), ConstantSource::parse)?,
        rules: read(given.rules, "rules")?.map_or(Ok(usual.rules), RuleSet::parse)?,
        phases: &[],
        centre: known(given.centre),
        sigma: known(given.sigma),
        sigmas: given.sigmas,
        span: given.span,
        weight: given.weight,
        slack: given.slack,
        decision: given.decision,
    })
}
