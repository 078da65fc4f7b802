//! Threads and their limits. The designation comes in as text; sizes go out in picometres.
use tenths::{Thread, ThreadError};
use tenths_macros::export;

/// A thread by its designation: `tenths_make_thread("M10x1.5-6g", &thread)`, `tenths_make_thread("1/4-20 UNC", &thread)`.
///
/// A designation without a tolerance class gives basic sizes alone: then `has_pitch_diameter` is 0.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and compared
/// with reprinted tables: check a thread that matters against the standard.
#[export(thread)]
pub(crate) fn make_thread(designation: &str) -> Result<Thread, ThreadError> {
    Thread::parse(designation)
}
