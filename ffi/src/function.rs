//! Functions of the core with a record: what every generated export in `functions.rs` calls.
use crate::guard::place;
use crate::option::{Word, value};
use crate::status::Failure;
use tenths::Limits;
use tenths::object::{FieldValue, Function};

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
