//! Control charts. Readings, counts and sizes come in as arrays.
use crate::guard::{guard, place, text};
use crate::handle::array;
use crate::object::write;
use crate::objects::tenths_control_chart;
use crate::option::options;
use crate::options::tenths_chart_options;
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::control_chart::{ChartKind, ChartOptions, average_run_length, control_chart};

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
                    self::options(options)?,
                )
            };
            let kind = ChartKind::parse(kind)?;
            Ok(control_chart(kind, data, sizes, &ChartOptions { phases, ..options })?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(chart, "chart", Units::Metric, made) }
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
        let (kind, options) = unsafe { (text(kind, "kind")?, self::options(options)?) };
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
