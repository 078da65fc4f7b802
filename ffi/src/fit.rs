//! Limits and fits of ISO 286 and ASME B4.1. Designations come in as text; sizes go out in picometres.
use crate::guard::{guard, place, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Fit, FitBasis, FitError, Limits, Member, Preference, Size, iso_classes, select_fits};
use tenths_macros::export;

/// Kind of a fit: a shaft may be smaller than its hole only.
#[allow(dead_code, reason = "for callers")]
pub const TENTHS_CLEARANCE_FIT: i32 = 0;
/// It may be smaller or larger.
#[allow(dead_code, reason = "for callers")]
pub const TENTHS_TRANSITION_FIT: i32 = 1;
/// It may be larger only.
#[allow(dead_code, reason = "for callers")]
pub const TENTHS_INTERFERENCE_FIT: i32 = 2;

/// A hole, and fits of hole basis.
pub const TENTHS_HOLE: i32 = 0;
/// A shaft, and fits of shaft basis.
pub const TENTHS_SHAFT: i32 = 1;

/// Limits of size, in picometres: an inch is 25 400 000 000 of them. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_limits_out {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_limits_out)`.
    pub struct_size: usize,
    /// The nominal size.
    pub nominal: i64,
    /// The lower limit.
    pub lower: i64,
    /// The upper limit.
    pub upper: i64,
}

/// A fit by its designation: `tenths_make_fit("25 H7/p6", &fit)` in millimetres, or `tenths_make_fit("1.5 in FN2", &fit)`.
#[export(fit)]
pub(crate) fn make_fit(designation: &str) -> Result<Fit, FitError> {
    Fit::parse(designation)
}

/// Fits of ISO 286 whose clearance stays between two sizes, the best first: a designation a line for `tenths_make_fit`.
///
/// Interference is negative: `tenths_select_fits("25 mm", "-0.04 mm", "0 mm", TENTHS_HOLE, buffer, sizeof buffer,
/// &length, &preferred)`. The text is ended by a NUL and cut to `capacity` bytes; `length` becomes that of all of it
/// without its NUL, and `preferred` the count of lines at its beginning that ASME B4.2 prefers. A null `buffer` only
/// asks for these counts; `length` may be null. Also, `preferred` may be null. No fit at all is an empty text.
///
/// # Safety
/// The texts end with a NUL; `buffer` is null or writable for `capacity` bytes; `length` and `preferred` are null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_select_fits(
    nominal: *const c_char,
    least: *const c_char,
    greatest: *const c_char,
    basis: i32,
    buffer: *mut c_char,
    capacity: usize,
    length: *mut usize,
    preferred: *mut usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let size = |pointer, name| Ok::<_, Failure>(Size::parse(unsafe { text(pointer, name) }?)?);
        let (nominal, least) = (size(nominal, "nominal")?, size(least, "least")?);
        let basis = match member(basis)? {
            Member::Hole => FitBasis::Hole,
            Member::Shaft => FitBasis::Shaft,
        };
        let choices = select_fits(nominal, least, size(greatest, "greatest")?, basis)?;
        let lines: Vec<String> = choices.iter().map(|choice| choice.fit.to_string()).collect();
        // SAFETY: the caller's promise.
        unsafe {
            write_text(&lines.join("\n"), buffer, capacity, length)?;
            if let Some(preferred) = preferred.as_mut() {
                *preferred =
                    choices.iter().filter(|choice| choice.preference == Preference::Preferred).count();
            }
        }
        Ok(())
    })
}

/// The classes of ISO 286 that every part within limits satisfies, the closest first, with spaces between:
/// `tenths_iso_classes("12 +0/-0.011 mm", TENTHS_SHAFT, buffer, sizeof buffer, &length)`.
///
/// The text is ended by a NUL and cut to `capacity` bytes; `length` becomes that of all of it without its NUL, and
/// may be null. A null `buffer` only asks for it.
///
/// # Safety
/// `limits` ends with a NUL; `buffer` is null or writable for `capacity` bytes; `length` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_iso_classes(
    limits: *const c_char,
    member: i32,
    buffer: *mut c_char,
    capacity: usize,
    length: *mut usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let limits = Limits::parse(unsafe { text(limits, "limits") }?)?;
        let classes: Vec<String> =
            iso_classes(&limits, self::member(member)?).iter().map(ToString::to_string).collect();
        // SAFETY: the caller's promise.
        unsafe { write_text(&classes.join(" "), buffer, capacity, length) }
    })
}

/// A hole or a shaft.
pub(crate) fn member(member: i32) -> Result<Member, Failure> {
    match member {
        TENTHS_HOLE => Ok(Member::Hole),
        TENTHS_SHAFT => Ok(Member::Shaft),
        other => Err(Failure::Member(other)),
    }
}

/// Copies text of ASCII, as much as there is room for.
///
/// # Safety
/// `buffer` is null or writable for `capacity` bytes; `length` is null or writable.
unsafe fn write_text(
    whole: &str,
    buffer: *mut c_char,
    capacity: usize,
    length: *mut usize,
) -> Result<(), Failure> {
    if capacity > isize::MAX as usize {
        return Err(Failure::Length(capacity));
    }
    if !buffer.is_null() && capacity > 0 {
        let written = whole.len().min(capacity - 1);
        // SAFETY: `written < capacity`, for which the caller vouches.
        unsafe {
            std::ptr::copy_nonoverlapping(whole.as_ptr(), buffer.cast(), written);
            buffer.add(written).write(0);
        }
    }
    if !length.is_null() {
        // SAFETY: the caller's promise.
        *unsafe { place(length, "length") }? = whole.len();
    }
    Ok(())
}
