//! The nearest cut that a machine can make.
use crate::formula::named;
use crate::guard::{document, guard, side, tenths_units};
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::cutting::limit_to_machine::{LimitedCut, limit_to_machine};
use tenths::cutting::machine::Machine;
use tenths::formula::MAX_INPUTS;

/// Brings the cut of the formula called `name` within what a machine gives, by spindle speed and feed alone.
///
/// `arguments` holds `count` numbers, all that the formula takes, in their order, and as many go to `limited`, which
/// may be the same array: those that had to give are changed. On an error they are NaN. `machine` is a JSON document of
/// `length` bytes, whose form is told in the Rust crate under `MachineData`. `least_feed` is the least chip load or
/// feed per revolution that the tool may have, or 0 for any.
///
/// `fits` becomes 1 where the machine can make the cut as it is now, else 0. `bounds` (which may be null) becomes text
/// of one line for each thing that bound the cut, after that a line `exceeded: ...` for each that is still too much,
/// and `unchecked: ...` for each limit on which the formula has no result. It is empty where nothing was changed, and
/// freed by `tenths_text_free`; null on an error.
///
/// `TENTHS_NO_CUT` tells of a formula without spindle speed or feed, and of a spindle speed below the range. The message
/// names the formula to limit instead, `turning_cut` for `turning_cut_for_target`.
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
        let machine = Machine::from_json(document)?;
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
