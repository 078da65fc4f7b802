//! Fitting a cut to a machine.
use crate::formula::named;
use crate::guard::{document, guard, side, tenths_units};
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::cutting::limit_to_machine::{LimitedCut, limit_to_machine};
use tenths::cutting::machine::Machine;
use tenths::formula::MAX_INPUTS;

/// Fits the cut of the formula called `name` to a machine: lowers spindle speed and feed alone.
///
/// `arguments` holds `count` numbers: all arguments of the formula, in order. `limited` is set to as many, with spindle
/// speed and feed lowered where needed, and may be the same array; its numbers are NaN on an error. `machine` is a
/// JSON document of `length` bytes: {"units": "metric", "least_spindle_speed": 60, "greatest_spindle_speed": 4000};
/// the Rust crate documents its other fields under `MachineData`. `least_feed` is the least chip load or feed per
/// revolution that the tool may have, or 0 for any.
///
/// `fits` is set to 1 if the machine can make the limited cut, else to 0. `bounds` (which may be null) is set to text: a
/// line for each limit that bound the cut, then a line `exceeded: ...` for each limit that the cut still exceeds, and
/// `not checked: ...` for each limit that the formula has no result for. It is empty if nothing was changed, and null
/// on an error. Free it with `tenths_text_free`.
///
/// The status is `TENTHS_NO_CUT` if the formula has no spindle speed or feed, or the spindle speed is below the
/// range. The message names the formula to use instead: `turning_cut`, not `turning_cut_for_target`.
///
/// # Safety
/// Each pointer is null or valid; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_limit_to_machine(
    units: tenths_units,
    name: *const c_char,
    arguments: *const f64,
    count: usize,
    machine: *const c_char,
    length: usize,
    least_feed: f64,
    limited: *mut f64,
    fits: *mut i32,
    bounds: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        if !bounds.is_null() {
            // SAFETY: the caller's promise.
            unsafe { bounds.write(std::ptr::null_mut()) };
        }
        if limited.is_null() {
            return Err(Failure::Null("limited"));
        }
        // No formula takes more, and a wrong count must not make a slice that memory cannot hold.
        let count = count.min(MAX_INPUTS + 1);
        let mut given = [f64::NAN; MAX_INPUTS + 1];
        if !arguments.is_null() {
            // SAFETY: the caller's promise. All is read before anything is written.
            unsafe { std::ptr::copy_nonoverlapping(arguments, given.as_mut_ptr(), count) };
        }
        // SAFETY: the caller's promise.
        let limited = unsafe { std::slice::from_raw_parts_mut(limited, count) };
        limited.fill(f64::NAN);
        if fits.is_null() {
            return Err(Failure::Null("fits"));
        }
        // SAFETY: the caller's promise.
        unsafe { fits.write(0) };
        // SAFETY: the caller's promise.
        let (formula, document) = unsafe { (named(name)?, document(machine, length, "machine")?) };
        if arguments.is_null() {
            return Err(Failure::Null("arguments"));
        }
        let machine = Machine::from_json(document).map_err(Failure::Machine)?;
        let least_feed = (least_feed != 0.0).then_some(least_feed);
        let cut = limit_to_machine(formula, side(units)?, &given[..count], &machine, least_feed)?;
        limited.copy_from_slice(&cut.arguments);
        // SAFETY: the caller's promise.
        unsafe { fits.write(i32::from(cut.fits())) };
        if !bounds.is_null() {
            // SAFETY: the caller's promise.
            unsafe { bounds.write(give(lines(&cut))) };
        }
        Ok(())
    })
}

/// Every line with its end.
fn lines(cut: &LimitedCut) -> String {
    cut.to_string().lines().map(|line| format!("{line}\n")).collect()
}
