//! Limits of threads. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Size, Thread};

/// A thread and its limits, in picometres: an inch is 25 400 000 000 of them. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_thread {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_thread)`.
    pub struct_size: usize,
    /// The basic major diameter.
    pub nominal: i64,
    /// The pitch, to the nearest picometre.
    pub thread_pitch: i64,
    /// The least major diameter.
    pub major_lower: i64,
    /// The greatest one; `INT64_MAX` for an internal thread, for which the standard sets none.
    pub major_upper: i64,
    /// The least pitch diameter.
    pub pitch_diameter_lower: i64,
    /// The greatest one.
    pub pitch_diameter_upper: i64,
    /// The least minor diameter; 0 for an external thread, for which the standard sets none.
    pub minor_lower: i64,
    /// The greatest one. Of a UNR thread it is a reference: the greatest major diameter - 1.190785 · pitch, rounded to
    /// 0.0001 in.
    pub minor_upper: i64,
    /// 1 for an internal thread, as of a nut, and 0 for an external one, as of a screw.
    pub internal: i32,
    /// 1 for a left-hand thread.
    pub left_hand: i32,
}

/// Limits of a thread: `tenths_thread_limits("M10x1.5-6g", &thread)`, `tenths_thread_limits("1/4-20 UNC-2B", &thread)`.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and held
/// against reprinted tables: check a thread that matters against the standard. A designation without a tolerance class has
/// no limits: see `tenths_thread_basic`.
///
/// # Safety
/// `designation` ends with a NUL; `thread->struct_size` tells the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_thread_limits(
    designation: *const c_char,
    thread: *mut tenths_thread,
) -> tenths_status {
    guard(|| {
        if thread.is_null() {
            return Err(Failure::Null("thread"));
        }
        // SAFETY: the caller's promise: the size stands first in every version of the struct.
        let struct_size = unsafe { thread.cast::<usize>().read() };
        let least = size_of::<tenths_thread>();
        if struct_size < least {
            return Err(Failure::StructSize { what: "tenths_thread", least, got: struct_size });
        }
        // SAFETY: the caller's promise.
        let read = Thread::parse_with_class(unsafe { text(designation, "designation") }?)?;
        let pitch_diameter = read.pitch_diameter();
        let lower = |size: Option<Size>| size.map_or(0, Size::picometres);
        let upper = |size: Option<Size>| size.map_or(i64::MAX, Size::picometres);
        let made = tenths_thread {
            struct_size,
            nominal: read.nominal().picometres(),
            thread_pitch: read.thread_pitch().picometres(),
            major_lower: lower(read.major_least()),
            major_upper: upper(read.major().map(|limits| limits.upper())),
            pitch_diameter_lower: lower(pitch_diameter.map(|limits| limits.lower())),
            pitch_diameter_upper: upper(pitch_diameter.map(|limits| limits.upper())),
            minor_lower: lower(read.minor().map(|limits| limits.lower())),
            minor_upper: upper(read.minor_greatest()),
            internal: (read.is_internal() == Some(true)).into(),
            left_hand: read.is_left_hand().into(),
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { thread.write(made) };
        Ok(())
    })
}

/// The basic diameters of a thread with or without a tolerance class, in picometres:
/// `tenths_thread_basic("1/4-20 UNC", &major, &pitch_diameter, &minor)`.
///
/// # Safety
/// `designation` ends with a NUL; the three pointers are valid for writing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_thread_basic(
    designation: *const c_char,
    major: *mut i64,
    pitch_diameter: *mut i64,
    minor: *mut i64,
) -> tenths_status {
    guard(|| {
        for (pointer, name) in [(major, "major"), (pitch_diameter, "pitch_diameter"), (minor, "minor")] {
            if pointer.is_null() {
                return Err(Failure::Null(name));
            }
        }
        // SAFETY: the caller's promise.
        let thread = Thread::parse(unsafe { text(designation, "designation") }?)?;
        // SAFETY: the caller's promise.
        unsafe {
            major.write(thread.nominal().picometres());
            pitch_diameter.write(thread.basic_pitch_diameter().picometres());
            minor.write(thread.basic_minor().picometres());
        }
        Ok(())
    })
}
