//! The border between C and Rust: nothing unwinds, arithmetic has its usual mode, and every failure leaves a status
//! and a message.
use crate::arithmetic::CallersModes;
use crate::status::{Failure, TENTHS_INTERNAL, TENTHS_OK, refusal_status, tenths_status};
use std::cell::RefCell;
use std::ffi::{CStr, c_char};
use std::panic::{AssertUnwindSafe, catch_unwind};
use tenths::formula::Refusal;
use tenths::{Formula, Size, Units};

/// The unit system of every bare number of a call: `TENTHS_INCH` or `TENTHS_METRIC`.
pub type tenths_units = i32;

/// Inches, feet per minute, pounds-force, horsepower, degrees Fahrenheit.
pub const TENTHS_INCH: tenths_units = 0;
/// Millimetres, metres per minute, newtons, kilowatts, degrees Celsius.
pub const TENTHS_METRIC: tenths_units = 1;

/// The last failure of a thread. Its message is made when somebody asks for it: most callers go by the status.
enum Last {
    Nothing,
    Failure(Failure),
    Fault,
}

thread_local!(static LAST: RefCell<Last> = const { RefCell::new(Last::Nothing) });

/// Runs the body of an export.
#[inline(always)]
pub(crate) fn guard(body: impl FnOnce() -> Result<(), Failure>) -> tenths_status {
    // The failure is kept inside, so that no more than a number passes through the catch.
    guarded(|| match body() {
        Ok(()) => TENTHS_OK,
        Err(failure) => report(failure),
    })
}

/// Runs the body of an export that reports its failures itself.
#[inline(always)]
pub(crate) fn guarded(body: impl FnOnce() -> tenths_status) -> tenths_status {
    shield(body).unwrap_or_else(|| {
        remember(Last::Fault);
        TENTHS_INTERNAL
    })
}

/// What the work gives, unless it panics.
#[inline(always)]
fn shield<T>(work: impl FnOnce() -> T) -> Option<T> {
    let modes = CallersModes::set_aside();
    let done = catch_unwind(AssertUnwindSafe(work));
    modes.put_back();
    // A payload may panic once more as it is dropped.
    done.map_err(std::mem::forget).ok()
}

#[cold]
#[inline(never)]
pub(crate) fn report(failure: Failure) -> tenths_status {
    let status = failure.status();
    remember(Last::Failure(failure));
    status
}

/// Reports that a formula refuses as many numbers as it has arguments. Where the last failure was a refusal too, its place is
/// filled anew, which takes less than moving a failure there.
#[cold]
#[inline(never)]
pub(crate) fn report_refusal(
    formula: &'static Formula,
    units: Units,
    refusal: Refusal,
    given: &[f64],
) -> tenths_status {
    let fill = |kept: &RefCell<Last>| match kept.try_borrow_mut().as_deref_mut() {
        Ok(Last::Failure(Failure::Refused { formula: of, units: side, refusal: why, arguments })) => {
            (*of, *side, *why) = (formula, units, refusal);
            arguments.iter_mut().zip(given).for_each(|(to, from)| *to = *from);
            true
        }
        _ => false,
    };
    match LAST.try_with(fill) {
        Ok(true) => refusal_status(refusal),
        _ => report(Failure::refused(formula, units, refusal, given)),
    }
}

fn remember(last: Last) {
    // A thread that is ending has no message any more, and needs none.
    let _ = LAST.try_with(|kept| kept.try_borrow_mut().map(|mut kept| *kept = last));
}

/// Copies the message of this thread's last failure into `buffer`, ended by a NUL and cut to `capacity` bytes
/// at a character of UTF-8.
///
/// Returns the length of the whole message without its NUL; a null `buffer` only asks for it.
/// A successful call leaves the message as it was.
///
/// # Safety
/// `buffer` is null or writable for `capacity` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_error_message(buffer: *mut c_char, capacity: usize) -> usize {
    let copy = |last: &RefCell<Last>| {
        let message = match last.try_borrow().as_deref() {
            Ok(Last::Failure(failure)) => failure.to_string(),
            Ok(Last::Fault) => "a fault of the library".into(),
            Ok(Last::Nothing) | Err(_) => String::new(),
        };
        if !buffer.is_null() && capacity > 0 {
            let mut length = message.len().min(capacity - 1);
            while !message.is_char_boundary(length) {
                length -= 1;
            }
            // SAFETY: `length < capacity`, for which the caller vouches.
            unsafe {
                std::ptr::copy_nonoverlapping(message.as_ptr(), buffer.cast(), length);
                buffer.add(length).write(0);
            }
        }
        message.len()
    };
    shield(|| LAST.try_with(copy).unwrap_or(0)).unwrap_or(0)
}

/// The side of a call.
#[inline(always)]
pub(crate) fn side(units: tenths_units) -> Result<Units, Failure> {
    match units {
        TENTHS_INCH => Ok(Units::Inch),
        TENTHS_METRIC => Ok(Units::Metric),
        other => Err(Failure::Units(other)),
    }
}

/// A number that an input can hold; what it must be beyond that is judged where it is used.
pub(crate) fn finite(number: f64) -> Result<f64, Failure> {
    if number.is_finite() { Ok(number) } else { Err(Failure::Finite(number)) }
}

/// A place to write to, if there is one.
///
/// # Safety
/// `pointer` is null or valid for reads and writes for as long as the call lasts.
#[inline(always)]
pub(crate) unsafe fn place<'a, T>(pointer: *mut T, name: &'static str) -> Result<&'a mut T, Failure> {
    // SAFETY: the caller's promise.
    unsafe { pointer.as_mut() }.ok_or(Failure::Null(name))
}

/// Text that ends with a NUL.
///
/// # Safety
/// `pointer` is null or leads to text that ends with a NUL and stays for as long as the call lasts.
pub(crate) unsafe fn text<'a>(pointer: *const c_char, name: &'static str) -> Result<&'a str, Failure> {
    if pointer.is_null() {
        return Err(Failure::Null(name));
    }
    // SAFETY: the caller's promise.
    unsafe { CStr::from_ptr(pointer) }.to_str().map_err(|_| Failure::Text(name))
}

/// The size of the caller's struct, if it is no less than that of ours.
///
/// # Safety
/// `out` is null or leads to a struct that begins with its size.
pub(crate) unsafe fn sized<T>(out: *mut T, name: &'static str, what: &'static str) -> Result<usize, Failure> {
    // SAFETY: the caller's promise.
    unsafe { sized_from(out, name, what, size_of::<T>()) }
}

/// [`sized`] of a struct that has got more fields: in its first version it had `least` bytes.
///
/// # Safety
/// As for [`sized`].
pub(crate) unsafe fn sized_from<T>(
    out: *mut T,
    name: &'static str,
    what: &'static str,
    least: usize,
) -> Result<usize, Failure> {
    if out.is_null() {
        return Err(Failure::Null(name));
    }
    // SAFETY: the caller's promise: the size stands first in every version of the struct.
    let struct_size = unsafe { out.cast::<usize>().read() };
    if struct_size < least {
        return Err(Failure::StructSize { what, least, got: struct_size });
    }
    Ok(struct_size)
}

/// Text that may be null.
///
/// # Safety
/// As [`text`].
pub(crate) unsafe fn optional_text<'a>(
    pointer: *const c_char,
    name: &'static str,
) -> Result<Option<&'a str>, Failure> {
    match pointer.is_null() {
        true => Ok(None),
        // SAFETY: the caller's promise.
        false => unsafe { text(pointer, name) }.map(Some),
    }
}

/// The size that a text gives; none if it is null.
///
/// # Safety
/// As [`text`].
pub(crate) unsafe fn optional_size(
    pointer: *const c_char,
    name: &'static str,
) -> Result<Option<Size>, Failure> {
    // SAFETY: the caller's promise.
    Ok(unsafe { optional_text(pointer, name) }?.map(Size::parse).transpose()?)
}

/// A document of `length` bytes.
///
/// # Safety
/// `pointer` is null or readable for `length` bytes for as long as the call lasts.
pub(crate) unsafe fn document<'a>(
    pointer: *const c_char,
    length: usize,
    name: &'static str,
) -> Result<&'a str, Failure> {
    if pointer.is_null() {
        return Err(Failure::Null(name));
    }
    if length > isize::MAX as usize {
        return Err(Failure::Length(length));
    }
    // SAFETY: the caller's promise, and `length` is one that a slice can have.
    let bytes = unsafe { std::slice::from_raw_parts(pointer.cast::<u8>(), length) };
    std::str::from_utf8(bytes).map_err(|_| Failure::Text(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The message of this thread.
    fn message() -> String {
        let mut buffer = [1_u8; 100];
        // SAFETY: the buffer is as long as is said.
        let length = unsafe { tenths_error_message(buffer.as_mut_ptr().cast(), buffer.len()) };
        String::from_utf8_lossy(&buffer[..length]).into_owned()
    }

    #[test]
    fn a_panic_is_a_status_and_a_message() {
        assert_eq!(guard(|| panic!("a fault on purpose")), TENTHS_INTERNAL);
        assert_eq!(message(), "a fault of the library");
        assert_eq!(guard(|| Err(Failure::Null("buffer"))), crate::status::TENTHS_NULL_POINTER);
        assert_eq!(message(), "buffer is null");
        assert_eq!(guard(|| Ok(())), TENTHS_OK);
        assert_eq!(message(), "buffer is null");
    }

    #[test]
    fn a_payload_that_panics_as_it_is_dropped_does_not_end_the_process() {
        struct Mine;
        impl Drop for Mine {
            fn drop(&mut self) {
                panic!("a second fault on purpose");
            }
        }
        assert_eq!(guard(|| std::panic::panic_any(Mine)), TENTHS_INTERNAL);
        assert_eq!(message(), "a fault of the library");
    }

    #[test]
    fn a_message_belongs_to_its_thread() {
        guard(|| Err(Failure::Null("here")));
        let other = std::thread::spawn(|| {
            let before = message();
            guard(|| Err(Failure::Null("there")));
            (before, message())
        });
        assert_eq!(other.join().ok(), Some((String::new(), "there is null".into())));
        assert_eq!(message(), "here is null");
    }

    #[test]
    fn a_call_within_the_reading_of_a_message_is_let_pass() {
        guard(|| Err(Failure::Null("first")));
        let inner = LAST.with(|held| {
            let _reader = held.borrow();
            guard(|| Err(Failure::Null("second")))
        });
        assert_eq!(inner, crate::status::TENTHS_NULL_POINTER);
        assert_eq!(message(), "first is null");
    }
}
