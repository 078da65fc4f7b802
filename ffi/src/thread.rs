//! Threads and their limits. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::object::write;
use crate::objects::tenths_thread;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::{Thread, Units};

/// A thread by its designation: `tenths_make_thread("M10x1.5-6g", &thread)`, `tenths_make_thread("1/4-20 UNC", &thread)`.
///
/// A designation without a tolerance class gives basic sizes alone: then `has_pitch_diameter` is 0.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and compared
/// with reprinted tables: check a thread that matters against the standard.
///
/// # Safety
/// `designation` ends with a NUL; `thread->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_thread(
    designation: *const c_char,
    thread: *mut tenths_thread,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        unsafe {
            write(thread, "thread", Units::Metric, || Ok(Thread::parse(text(designation, "designation")?)?))
        }
    })
}
