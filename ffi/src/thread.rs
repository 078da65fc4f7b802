//! Limits of threads. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Thread;

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
    /// The greatest one.
    pub minor_upper: i64,
    /// 1 for an internal thread, as of a nut, and 0 for an external one, as of a screw.
    pub internal: i32,
    /// 1 for a left-hand thread.
    pub left_hand: i32,
}

/// Limits of a thread: `tenths_thread_limits("M10x1.5-6g", &thread)`, `tenths_thread_limits("1/4-20 UNC-2B", &thread)`.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and held
/// against reprinted tables: check a thread that matters against the standard.
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
        let read = Thread::parse(unsafe { text(designation, "designation") }?)?;
        let pitch_diameter = read.pitch_diameter();
        let made = tenths_thread {
            struct_size,
            nominal: read.nominal().picometres(),
            thread_pitch: read.thread_pitch().picometres(),
            major_lower: read.major_least().picometres(),
            major_upper: read.major().map_or(i64::MAX, |limits| limits.upper().picometres()),
            pitch_diameter_lower: pitch_diameter.lower().picometres(),
            pitch_diameter_upper: pitch_diameter.upper().picometres(),
            minor_lower: read.minor().map_or(0, |limits| limits.lower().picometres()),
            minor_upper: read.minor_greatest().picometres(),
            internal: read.is_internal().into(),
            left_hand: read.is_left_hand().into(),
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { thread.write(made) };
        Ok(())
    })
}
