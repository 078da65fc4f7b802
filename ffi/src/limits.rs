//! Limits of size and go and no-go gauges. Drawing notation comes in as text; sizes go out in picometres.
use crate::guard::{guard, side, tenths_units, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Gauge, GaugeError, Limits, Size};
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
        let units = side(units)?;
        // SAFETY: the caller's promise.
        let limits = Limits::parse(unsafe { text(limits, "limits") }?)?;
        let step = match resolution == 0.0 {
            true => None,
            false => Some(Size::step_from_float(resolution, units)?),
        };
        let judge = limits.readings(units, step)?;
        if count > isize::MAX as usize / size_of::<f64>() {
            return Err(Failure::Length(count));
        }
        if count > 0 && (readings.is_null() || accepted.is_null()) {
            return Err(Failure::Null("readings or accepted"));
        }
        for k in 0..count {
            // SAFETY: the caller's promise.
            unsafe { accepted.add(k).write(u8::from(judge.accepts(readings.add(k).read()))) };
        }
        Ok(())
    })
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
