//! Control charts. Readings, counts and sizes come in as arrays.
use crate::describe::fill;
use crate::guard::{guard, place, text};
use crate::handle::{array, given};
use crate::object::write;
use crate::objects::{tenths_chart_constants, tenths_control_chart};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::control_chart::{
    ChartConstants, ChartKind, ChartOptions, ConstantSource, RuleSet, average_run_length, control_chart,
};

/// Constants computed to all digits.
pub const TENTHS_EXACT_CONSTANTS: i32 = 0;
/// Constants as tables print them.
pub const TENTHS_PRINTED_CONSTANTS: i32 = 1;
/// A point beyond the limits alone breaks a rule.
pub const TENTHS_LIMITS_ONLY: i32 = 0;
/// The four rules of Western Electric.
pub const TENTHS_WESTERN_ELECTRIC: i32 = 1;
/// The eight rules of Nelson.
pub const TENTHS_NELSON: i32 = 2;

/// How a control chart is worked out: set by `tenths_chart_options_init`, then changed.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_options {
    /// `sizeof(tenths_chart_options)`.
    pub struct_size: usize,
    /// Where the constants come from: `TENTHS_EXACT_CONSTANTS` (0) or `TENTHS_PRINTED_CONSTANTS` (1).
    pub constants: i32,
    /// The rules that points are judged by: `TENTHS_LIMITS_ONLY` (0), `TENTHS_WESTERN_ELECTRIC` (1) or `TENTHS_NELSON` (2).
    pub rules: i32,
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
        constants: TENTHS_EXACT_CONSTANTS,
        rules: TENTHS_WESTERN_ELECTRIC,
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

/// The average number of points until one lies beyond the limits, from the start of a lasting shift:
/// `tenths_average_run_length("cusum", 1.0, 1, NULL, &run_length)`.
///
/// `kind` is `xbar_r`, `xbar_s`, `i_mr`, `ewma` or `cusum`; `shift` is in standard deviations of single readings, of which
/// each point is the mean of `size`. `options` may be null for the usual ones.
///
/// # Safety
/// `kind` ends with a NUL; `run_length` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_average_run_length(
    kind: *const c_char,
    shift: f64,
    size: u32,
    options: *const tenths_chart_options,
    run_length: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let to = unsafe { place(run_length, "run_length") }?;
        *to = f64::NAN;
        // SAFETY: the caller's promises.
        let (kind, options) = unsafe { (text(kind, "kind")?, options_of(options)?) };
        *to = average_run_length(ChartKind::parse(kind)?, shift, size as usize, &options)?;
        Ok(())
    })
}

/// An array that may be null, and is then empty.
///
/// # Safety
/// As [`array`].
pub(crate) unsafe fn optional<'a, T>(
    pointer: *const T,
    count: usize,
    name: &'static str,
) -> Result<&'a [T], Failure> {
    match pointer.is_null() {
        true if count > isize::MAX as usize / size_of::<T>().max(1) => Err(Failure::Length(count)),
        true => Ok(&[]),
        // SAFETY: the caller's promise.
        false => unsafe { array(pointer, count, name) },
    }
}

/// The options of a chart; the usual ones for a null pointer.
///
/// # Safety
/// `options` is null or tells its size.
pub(crate) unsafe fn options_of<'a>(
    options: *const tenths_chart_options,
) -> Result<ChartOptions<'a>, Failure> {
    let usual = ChartOptions::default();
    if options.is_null() {
        return Ok(usual);
    }
    // SAFETY: the caller's promise.
    let given = unsafe { given(options, "tenths_chart_options") }?;
    let known = |number: f64| (!number.is_nan()).then_some(number);
    let constants = match given.constants {
        TENTHS_EXACT_CONSTANTS => ConstantSource::Exact,
        TENTHS_PRINTED_CONSTANTS => ConstantSource::Printed,
        got => return Err(Failure::Choice { what: "constants", last: TENTHS_PRINTED_CONSTANTS, got }),
    };
    let rules = match given.rules {
        TENTHS_LIMITS_ONLY => RuleSet::Limits,
        TENTHS_WESTERN_ELECTRIC => RuleSet::WesternElectric,
        TENTHS_NELSON => RuleSet::Nelson,
        got => return Err(Failure::Choice { what: "rules", last: TENTHS_NELSON, got }),
    };
    Ok(ChartOptions {
        constants,
        rules,
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
