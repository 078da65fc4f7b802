//! Handles, structs and arrays that cross the border.
use crate::describe::fill;
use crate::guard::sized;
use crate::status::Failure;
use std::mem::MaybeUninit;

/// What a handle leads to.
///
/// # Safety
/// `pointer` is null or came from this library and stays for as long as the call lasts.
pub(crate) unsafe fn handle<'a, T>(pointer: *const T, name: &'static str) -> Result<&'a T, Failure> {
    // SAFETY: the caller's promise.
    unsafe { pointer.as_ref() }.ok_or(Failure::Null(name))
}

/// Hands a new handle over to the caller; null on an error.
///
/// # Safety
/// `out` is null or writable.
pub(crate) unsafe fn hand_over<T>(
    out: *mut *mut T,
    name: &'static str,
    made: impl FnOnce() -> Result<T, Failure>,
) -> Result<(), Failure> {
    if out.is_null() {
        return Err(Failure::Null(name));
    }
    // SAFETY: the caller's promise.
    unsafe { out.write(std::ptr::null_mut()) };
    let made = Box::into_raw(Box::new(made()?));
    // SAFETY: the caller's promise.
    unsafe { out.write(made) };
    Ok(())
}

/// Frees what [`hand_over`] made.
///
/// # Safety
/// `pointer` is null or came from `hand_over` and has not been freed.
pub(crate) unsafe fn free<T>(pointer: *mut T) {
    if !pointer.is_null() {
        // SAFETY: the caller's promise.
        let owned = unsafe { Box::from_raw(pointer) };
        let freed = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| drop(owned)));
        if let Err(payload) = freed {
            std::mem::forget(payload);
        }
    }
}

/// A struct that begins with its size, as the caller filled it.
///
/// # Safety
/// `pointer` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn given<T: Copy>(pointer: *const T, what: &'static str) -> Result<T, Failure> {
    // SAFETY: the caller's promise.
    unsafe { sized(pointer.cast_mut(), what, what) }?;
    // SAFETY: the struct is at least as large as ours.
    Ok(unsafe { pointer.read() })
}

/// Writes a struct of results; on an error `none`, whose numbers are NaN, so that no old ones are taken for them.
///
/// # Safety
/// `out` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn answer<T>(
    out: *mut T,
    what: &'static str,
    none: T,
    made: impl FnOnce() -> Result<T, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    unsafe { sized(out, what, what) }?;
    let (written, outcome) = match made() {
        Ok(made) => (made, Ok(())),
        Err(failure) => (none, Err(failure)),
    };
    // SAFETY: the caller's promise.
    unsafe { fill(out, what, written) }?;
    outcome
}

/// The structs of an array, each as long as the first says.
///
/// # Safety
/// `pointer` is null or valid for `count` structs.
pub(crate) unsafe fn elements<T: Copy>(
    pointer: *const T,
    count: usize,
    what: &'static str,
) -> Result<Vec<T>, Failure> {
    let stride = match count {
        0 => 0,
        // SAFETY: the caller's promise.
        _ => unsafe { sized(pointer.cast_mut(), what, what) }?,
    };
    let reach = stride.checked_mul(count).and_then(|reach| isize::try_from(reach).ok());
    if reach.is_none() || !stride.is_multiple_of(align_of::<T>()) {
        return Err(Failure::Column { name: what, stride: stride.cast_signed(), rows: count });
    }
    // SAFETY: the caller's promise.
    (0..count).map(|k| unsafe { given(pointer.byte_add(k * stride), what) }).collect()
}

/// An array of the caller's; a null pointer is an empty one.
///
/// # Safety
/// `pointer` is null or valid for `count` elements for as long as the call lasts.
pub(crate) unsafe fn array<'a, T>(
    pointer: *const T,
    count: usize,
    name: &'static str,
) -> Result<&'a [T], Failure> {
    if pointer.is_null() {
        return Err(Failure::Null(name));
    }
    if count > isize::MAX as usize / size_of::<T>().max(1) {
        return Err(Failure::Length(count));
    }
    // SAFETY: the caller's promise, and `count` is one that a slice can have.
    Ok(unsafe { std::slice::from_raw_parts(pointer, count) })
}

/// An array to write results to, NaN until they are there; null for none.
///
/// # Safety
/// `pointer` is null or writable for `count` numbers for as long as the call lasts.
pub(crate) unsafe fn results<'a>(pointer: *mut f64, count: usize) -> Result<Option<&'a mut [f64]>, Failure> {
    if pointer.is_null() || count == 0 {
        return Ok(None);
    }
    if count > isize::MAX as usize / size_of::<f64>() {
        // SAFETY: there is one number at least.
        unsafe { pointer.write(f64::NAN) };
        return Err(Failure::Length(count));
    }
    // SAFETY: the caller's promise, and `count` is one that a slice can have.
    let results = unsafe { std::slice::from_raw_parts_mut(pointer, count) };
    results.fill(f64::NAN);
    Ok(Some(results))
}

/// Room for whole numbers; null for none.
///
/// # Safety
/// `pointer` is null or writable for `capacity` elements for as long as the call lasts.
pub(crate) unsafe fn room<'a>(
    pointer: *mut u32,
    capacity: usize,
) -> Result<Option<&'a mut [MaybeUninit<u32>]>, Failure> {
    if pointer.is_null() {
        return Ok(None);
    }
    if capacity > isize::MAX as usize / size_of::<u32>() {
        return Err(Failure::Length(capacity));
    }
    // SAFETY: the caller's promise, and `capacity` is one that a slice can have.
    Ok(Some(unsafe { std::slice::from_raw_parts_mut(pointer.cast(), capacity) }))
}

/// Copies numbers into an array that the caller may want.
pub(crate) fn copy(numbers: impl IntoIterator<Item = f64>, to: Option<&mut [f64]>) {
    for (to, number) in to.into_iter().flatten().zip(numbers) {
        *to = number;
    }
}

/// Whether a count is that of what is there.
pub(crate) fn counted(what: &'static str, expected: usize, got: usize) -> Result<(), Failure> {
    if expected == got { Ok(()) } else { Err(Failure::Elements { what, expected, got }) }
}

/// What stands at a place of a list, of the so many `what` that `of` has.
pub(crate) fn at<T>(
    list: impl IntoIterator<Item = T, IntoIter: ExactSizeIterator>,
    index: usize,
    of: &'static str,
    what: &'static str,
) -> Result<T, Failure> {
    let mut list = list.into_iter();
    let count = list.len();
    list.nth(index).ok_or(Failure::Index { formula: of, what, count, index })
}
