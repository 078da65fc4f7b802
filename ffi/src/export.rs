//! How an export reads what C gives and writes what C gets: what every generated one in `exports.rs` calls.
pub(crate) use crate::distribution::distribution;
pub(crate) use crate::fit::member;
pub(crate) use crate::formula::named;
pub(crate) use crate::function::{write_limits_out, write_number};
pub(crate) use crate::guard::{
    document, guard, optional_size, optional_text, place, side, tenths_units, text,
};
pub(crate) use crate::handle::{array, free, given, hand_over, handle};
use crate::handle::{copy, results};
pub(crate) use crate::object::write;
pub(crate) use crate::option::{options, watched_options};
pub(crate) use crate::propagate::inputs;
pub(crate) use crate::sample::sampling;
pub(crate) use crate::status::tenths_status;
pub(crate) use crate::watch::watch;

use crate::describe::fill;
use crate::sample::{Drawn, tenths_sampling};
use crate::status::Failure;
use crate::text::give;
use std::ffi::c_char;
use tenths::{Limits, Size, Units};

/// Text of a length, as a parameter of a function under `#[export]`; its export takes the length beside it.
pub(crate) type Document<'a> = &'a str;

/// The side that results are shown in, where the call may not even have a valid one.
pub(crate) fn shown(units: tenths_units) -> Units {
    side(units).unwrap_or(Units::Metric)
}

/// The size that a text gives.
///
/// # Safety
/// As [`text`].
pub(crate) unsafe fn size(pointer: *const c_char, name: &'static str) -> Result<Size, Failure> {
    // SAFETY: the caller's promise.
    Ok(Size::parse(unsafe { text(pointer, name) }?)?)
}

/// The limits that a text gives.
///
/// # Safety
/// As [`text`].
pub(crate) unsafe fn limits(pointer: *const c_char, name: &'static str) -> Result<Limits, Failure> {
    // SAFETY: the caller's promise.
    Ok(Limits::parse(unsafe { text(pointer, name) }?)?)
}

/// The limits that a text gives; none if it is null.
///
/// # Safety
/// As [`text`].
pub(crate) unsafe fn optional_limits(
    pointer: *const c_char,
    name: &'static str,
) -> Result<Option<Limits>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || limits(pointer, name)) }
}

/// A document that may be null.
///
/// # Safety
/// As [`document`].
pub(crate) unsafe fn optional_document<'a>(
    pointer: *const c_char,
    length: usize,
    name: &'static str,
) -> Result<Option<&'a str>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || document(pointer, length, name)) }
}

/// An array that may be null.
///
/// # Safety
/// As [`array`].
pub(crate) unsafe fn optional_array<'a, T>(
    pointer: *const T,
    count: usize,
    name: &'static str,
) -> Result<Option<&'a [T]>, Failure> {
    if count > isize::MAX as usize / size_of::<T>().max(1) {
        return Err(Failure::Length(count));
    }
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || array(pointer, count, name)) }
}

/// A struct that may be null.
///
/// # Safety
/// As [`given`].
pub(crate) unsafe fn optional_given<T: Copy>(
    pointer: *const T,
    name: &'static str,
) -> Result<Option<T>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || given(pointer, name)) }
}

/// [`sampling`] that may be null.
///
/// # Safety
/// As [`sampling`].
pub(crate) unsafe fn optional_sampling(pointer: *const tenths_sampling) -> Result<Option<Drawn>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || sampling(pointer)) }
}

/// [`vectors`] that may be null.
///
/// # Safety
/// As [`vectors`].
pub(crate) unsafe fn optional_vectors<'a>(
    rows: *const f64,
    count: usize,
    name: &'static str,
) -> Result<Option<&'a [[f64; 3]]>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(rows, || vectors(rows, count, name)) }
}

/// A handle that may be null.
///
/// # Safety
/// As [`handle`].
pub(crate) unsafe fn optional_handle<'a, T>(
    pointer: *const T,
    name: &'static str,
) -> Result<Option<&'a T>, Failure> {
    // SAFETY: the caller's promise.
    unsafe { optional(pointer, || handle(pointer, name)) }
}

/// What a pointer leads to; nothing if it is null.
unsafe fn optional<P, T>(
    pointer: *const P,
    read: impl FnOnce() -> Result<T, Failure>,
) -> Result<Option<T>, Failure> {
    if pointer.is_null() { Ok(None) } else { read().map(Some) }
}

/// A struct without a size of its own.
///
/// # Safety
/// As [`handle`].
pub(crate) unsafe fn copied<T: Copy>(pointer: *const T, name: &'static str) -> Result<T, Failure> {
    // SAFETY: the caller's promise.
    unsafe { handle(pointer, name) }.copied()
}

/// So many numbers.
///
/// # Safety
/// `pointer` is null or valid for as many numbers.
pub(crate) unsafe fn fixed<const N: usize>(
    pointer: *const f64,
    name: &'static str,
) -> Result<[f64; N], Failure> {
    // SAFETY: the caller's promise.
    let numbers = unsafe { array(pointer, N, name) }?;
    Ok(std::array::from_fn(|k| numbers[k]))
}

/// Three numbers for each of `count` points.
///
/// # Safety
/// `rows` is null or valid for 3 · `count` numbers.
pub(crate) unsafe fn vectors<'a>(
    rows: *const f64,
    count: usize,
    name: &'static str,
) -> Result<&'a [[f64; 3]], Failure> {
    // SAFETY: the caller's promise.
    let numbers = unsafe { array(rows, count.saturating_mul(3), name) }?;
    Ok(numbers.as_chunks().0)
}

/// Writes a whole number; 0 on an error.
///
/// # Safety
/// `out` is null or writable.
pub(crate) unsafe fn write_whole<T: Default>(
    out: *mut T,
    name: &'static str,
    made: impl FnOnce() -> Result<T, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let out = unsafe { place(out, name) }?;
    *out = T::default();
    *out = made()?;
    Ok(())
}

/// A place for a number, its name, and whether it must be there.
type Place = (*mut f64, &'static str, bool);

/// Writes numbers, each to its place; NaN on an error.
///
/// # Safety
/// The places are null or writable.
pub(crate) unsafe fn write_numbers<const N: usize>(
    outs: [Place; N],
    made: impl FnOnce() -> Result<[f64; N], Failure>,
) -> Result<(), Failure> {
    let outs = outs.map(|(out, name, required)| (out, name, 1, required));
    // SAFETY: the caller's promise.
    unsafe { write_arrays(outs, || Ok(made()?.map(|number| [number]))) }
}

/// Writes arrays of numbers, each with the place for it, its name, its length, and whether it must be there; NaN on an error.
///
/// # Safety
/// The places are null or writable for as many numbers.
pub(crate) unsafe fn write_arrays<const N: usize, A: IntoIterator<Item = f64>>(
    outs: [(*mut f64, &'static str, usize, bool); N],
    made: impl FnOnce() -> Result<[A; N], Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let rooms = outs.map(|(out, _, length, _)| unsafe { results(out, length) });
    if let Some((_, name, ..)) = outs.iter().find(|(out, _, _, required)| *required && out.is_null()) {
        return Err(Failure::Null(name));
    }
    let mut places = vec![];
    for room in rooms {
        places.push(room?);
    }
    places.into_iter().zip(made()?).for_each(|(place, numbers)| copy(numbers, place));
    Ok(())
}

/// Writes a struct that a caller sets to its start; on an error it stays as it was.
///
/// # Safety
/// `out` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn write_struct<T>(
    out: *mut T,
    name: &'static str,
    made: impl FnOnce() -> Result<T, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    unsafe { fill(out, name, made()?) }
}

/// Hands a text over; null on an error.
///
/// # Safety
/// `out` is null or writable.
pub(crate) unsafe fn write_text(
    out: *mut *mut c_char,
    name: &'static str,
    made: impl FnOnce() -> Result<String, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let out = unsafe { place(out, name) }?;
    *out = std::ptr::null_mut();
    *out = give(made()?);
    Ok(())
}
