//! Standard tapers. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::object::write;
use crate::objects::tenths_standard_taper;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::{StandardTaper, Units};

/// A standard taper by its designation: `tenths_make_standard_taper("MT3", &taper)`, `"Morse 4 1/2"`, `"metric 80"`,
/// `"7:24 No. 40"`, `"Jarno 7"`, `"Brown & Sharpe 9"`.
///
/// Of the figures only some were read in print: check a taper that matters against the standard.
///
/// # Safety
/// `designation` ends with a NUL; `taper->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_standard_taper(
    designation: *const c_char,
    taper: *mut tenths_standard_taper,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            Ok(StandardTaper::parse(unsafe { text(designation, "designation") }?)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(taper, "taper", Units::Metric, made) }
    })
}
