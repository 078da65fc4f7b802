//! The steps of a geared head.
use crate::guard::{guard, place, side, tenths_units};
use crate::status::{Failure, tenths_status};
use tenths::quantity::SpindleSpeed;
use tenths::{Quantity, cutting};

/// Finds the nearest of `count` steps of a geared head that is not above the spindle speed `wanted`.
///
/// The steps may stand in any order. Speeds are in rev/min in both unit systems. `step` is NaN on an error:
/// `TENTHS_ARGUMENT` if every step is above `wanted` (the message names the lowest) or a speed is not valid,
/// `TENTHS_BAD_COUNT` if there are no steps.
///
/// # Safety
/// `steps` is valid for `count` elements; `step` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_lower_spindle_step(
    units: tenths_units,
    wanted: f64,
    steps: *const f64,
    count: usize,
    step: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let step = unsafe { place(step, "step") }?;
        *step = f64::NAN;
        let units = side(units)?;
        if count > isize::MAX as usize / size_of::<f64>() {
            return Err(Failure::Length(count));
        }
        if count > 0 && steps.is_null() {
            return Err(Failure::Null("steps"));
        }
        let speed = |reading| SpindleSpeed::new_in(reading, units);
        // SAFETY: the caller's promise.
        let steps: Vec<SpindleSpeed> = (0..count).map(|k| speed(unsafe { steps.add(k).read() })).collect();
        *step = cutting::geared_head::lower_step(speed(wanted), &steps)?.in_units(units);
        Ok(())
    })
}
