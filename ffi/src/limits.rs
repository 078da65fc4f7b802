//! Limits of size and go and no-go gauges. Drawing notation comes in as text; sizes go out in picometres.
use crate::guard::{guard, side, tenths_units, text};
use crate::handle::array;
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use std::ops::Range;
use tenths::limits::accept_rows;
use tenths::{Gauge, GaugeError, Limits, Readings, Size, Units};
use tenths_macros::export;

/// Whether a part of a size is good: `tenths_limits_accept("1.420 ±.005 in", "1.425 in", &good)`.
///
/// Both limits are good. `accepted` becomes 1 or 0, and 0 on an error.
#[export(accepted)]
pub(crate) fn limits_accept(limits: Limits, size: Size) -> i32 {
    i32::from(limits.accepts(size))
}

/// Judges `count` readings in inches or millimetres: each of `accepted` becomes 1 or 0. NaN is never good.
///
/// With a `resolution` of zero a reading is its shortest decimal; otherwise it is the step of the instrument, and a
/// reading within a millionth of a step of a whole number of steps is taken as that number of steps.
///
/// # Safety
/// `limits` ends with a NUL; `readings` and `accepted` are valid for `count` elements.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_limits_accept_readings(
    units: tenths_units,
    limits: *const c_char,
    resolution: f64,
    readings: *const f64,
    count: usize,
    accepted: *mut u8,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let limits = Limits::parse(unsafe { text(limits, "limits") }?)?;
        let judge = judge(limits, side(units)?, resolution)?;
        if count == 0 {
            return Ok(());
        }
        // SAFETY: the caller's promise.
        let readings = unsafe { array(readings, count, "readings") }?;
        // SAFETY: as above.
        unsafe {
            in_pieces(accepted, count, |rows, verdicts| {
                judge.accept_all(&readings[rows], verdicts);
                Ok(())
            })
        }
    })
}

/// The least and the greatest reading that limits accept, between which every reading is good and outside which none is:
/// two comparisons then judge a reading in a loop of your own.
///
/// Readings are in inches or millimetres; `resolution` is as for `tenths_limits_accept_readings`.
#[export(least, greatest)]
pub(crate) fn limits_ends(limits: Limits, units: Units, resolution: f64) -> Result<[f64; 2], Failure> {
    let (least, greatest) = judge(limits, units, resolution)?.ends();
    Ok([least, greatest])
}

/// Judges each of `count` readings by limits of its own, in inches or millimetres: `accepted` becomes 1 where the reading is
/// good and 0 elsewhere.
///
/// A limit is its shortest decimal, as a reading is; `resolution` is as for `tenths_limits_accept_readings`. Minus infinity
/// in `lower` and infinity in `upper` are no limit, so both may be infinite. A row with a NaN is never good. `accepted` must
/// not overlap the other arrays; on an error its verdicts are 0, and the message names the row at fault.
///
/// # Safety
/// The arrays are valid for `count` elements.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_readings_accept(
    units: tenths_units,
    lower: *const f64,
    upper: *const f64,
    resolution: f64,
    readings: *const f64,
    count: usize,
    accepted: *mut u8,
) -> tenths_status {
    guard(|| {
        let (units, step) = (side(units)?, step(resolution, side(units)?)?);
        if count == 0 {
            return Ok(());
        }
        // SAFETY: the caller's promise.
        let columns = unsafe {
            [
                array(readings, count, "readings")?,
                array(lower, count, "lower")?,
                array(upper, count, "upper")?,
            ]
        };
        // SAFETY: the caller's promise.
        unsafe {
            in_pieces(accepted, count, |rows, verdicts| {
                let [readings, lower, upper] = columns.map(|column| &column[rows.clone()]);
                let judged = accept_rows(readings, lower, upper, units, step, verdicts);
                judged.map_err(|error| Failure::RowLimits(error.from_row(rows.start)))
            })
        }
    })
}

fn step(resolution: f64, units: Units) -> Result<Option<Size>, Failure> {
    match resolution == 0.0 {
        true => Ok(None),
        false => Ok(Some(Size::step_from_float(resolution, units)?)),
    }
}

fn judge(limits: Limits, units: Units, resolution: f64) -> Result<Readings, Failure> {
    Ok(limits.readings(units, step(resolution, units)?)?)
}

/// Verdicts made piece by piece, as bytes.
///
/// # Safety
/// `accepted` is null or writable for `count` elements.
unsafe fn in_pieces(
    accepted: *mut u8,
    count: usize,
    judge: impl Fn(Range<usize>, &mut [bool]) -> Result<(), Failure>,
) -> Result<(), Failure> {
    if accepted.is_null() {
        return Err(Failure::Null("accepted"));
    }
    let mut verdicts = [false; 4096];
    for start in (0..count).step_by(verdicts.len()) {
        let verdicts = &mut verdicts[..(count - start).min(4096)];
        let judged = judge(start..start + verdicts.len(), verdicts);
        if judged.is_err() {
            // SAFETY: the caller's promise.
            unsafe { accepted.write_bytes(0, count) };
            return judged;
        }
        // SAFETY: the caller's promise; a verdict is a byte, 1 or 0.
        unsafe { accepted.add(start).copy_from_nonoverlapping(verdicts.as_ptr().cast(), verdicts.len()) };
    }
    Ok(())
}

/// A plug gauge for a hole by the ten percent rule: `tenths_plug_gauge("12 +0.018/0 mm", &gauge)`.
#[export(gauge)]
pub(crate) fn plug_gauge(hole: Limits) -> Result<Gauge, GaugeError> {
    tenths::plug_gauge(&hole)
}

/// A ring gauge for a shaft, by the figures for plugs, which is common practice.
#[export(gauge)]
pub(crate) fn ring_gauge(shaft: Limits) -> Result<Gauge, GaugeError> {
    tenths::ring_gauge(&shaft)
}

/// A gap gauge for an outside length, by the figures for plugs, which is common practice.
#[export(gauge)]
pub(crate) fn length_gauge(length: Limits) -> Result<Gauge, GaugeError> {
    tenths::length_gauge(&length)
}
