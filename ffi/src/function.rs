//! Functions of the core with a record: what every generated export in `functions.rs` calls.
use crate::fit::tenths_limits_out;
use crate::guard::{place, sized};
use crate::option::{Word, value};
use crate::status::Failure;
use tenths::object::{FieldValue, Function};
use tenths::{Limits, Size};

/// What a function gives for the arguments of a call, in their order.
///
/// # Safety
/// A text is null or ends with a NUL.
pub(crate) unsafe fn called<T: FieldValue, E>(function: &Function<T, E>, given: &[Word]) -> Result<T, Failure>
where
    Failure: From<E>,
{
    let pairs = function.record.arguments.iter().zip(given);
    // SAFETY: the caller's promise.
    let values = pairs.map(|(argument, given)| unsafe { value(&argument.field, *given) });
    Ok(function.answer(&values.collect::<Result<Vec<_>, _>>()?)??)
}

/// Writes the struct of limits; on an error it stays as it was.
///
/// # Safety
/// `out` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn write_limits_out(
    out: *mut tenths_limits_out,
    made: impl FnOnce() -> Result<Limits, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let struct_size = unsafe { sized(out, "limits", "tenths_limits_out") }?;
    let made = made()?;
    let [nominal, lower, upper] = [made.nominal(), made.lower(), made.upper()].map(Size::picometres);
    // SAFETY: the struct is at least as large as ours.
    unsafe { out.write(tenths_limits_out { struct_size, nominal, lower, upper }) };
    Ok(())
}

/// Writes limits, in picometres; on an error the places stay as they were.
///
/// # Safety
/// The places are null or writable.
pub(crate) unsafe fn write_limits(
    lower: *mut i64,
    upper: *mut i64,
    made: impl FnOnce() -> Result<Limits, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let (lower, upper) = unsafe { (place(lower, "lower")?, place(upper, "upper")?) };
    let made = made()?;
    (*lower, *upper) = (made.lower().picometres(), made.upper().picometres());
    Ok(())
}

/// Writes a number; NaN on an error.
///
/// # Safety
/// `out` is null or writable.
pub(crate) unsafe fn write_number(
    out: *mut f64,
    name: &'static str,
    made: impl FnOnce() -> Result<f64, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let out = unsafe { place(out, name) }?;
    *out = f64::NAN;
    *out = made()?;
    Ok(())
}
