//! The steps of a geared head.
use crate::status::Failure;
use tenths::quantity::SpindleSpeed;
use tenths::{Quantity, Units, cutting};
use tenths_macros::export;

/// Finds the nearest of `count` steps of a geared head that is not above the spindle speed `wanted`.
///
/// The steps may stand in any order. Speeds are in rev/min in both unit systems. `step` is NaN on an error:
/// `TENTHS_ARGUMENT` if every step is above `wanted` (the message names the lowest) or a speed is not valid,
/// `TENTHS_BAD_COUNT` if there are no steps.
#[export(step)]
pub(crate) fn lower_spindle_step(
    units: Units,
    wanted: f64,
    steps: Option<&[f64]>,
    count: usize,
) -> Result<f64, Failure> {
    if steps.is_none() && count > 0 {
        return Err(Failure::Null("steps"));
    }
    let speed = |reading| SpindleSpeed::new_in(reading, units);
    let steps: Vec<SpindleSpeed> = steps.unwrap_or_default().iter().map(|&step| speed(step)).collect();
    Ok(cutting::geared_head::lower_step(speed(wanted), &steps)?.in_units(units))
}
