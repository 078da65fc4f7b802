//! Knurls of the standards. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::object::write;
use crate::objects::tenths_knurl;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::{Knurl, Units};

/// A knurl by its designation: `tenths_make_knurl("RAA 0.8", &knurl)`, `tenths_make_knurl("96 DP class II", &knurl)`.
///
/// After DIN 82:1973 or ASME B94.6-1984. The growth is an estimate, which leaves out rounded teeth and the metal: roll
/// a trial piece. Of the figures only some were read in print: check a knurl that matters against the standard.
///
/// # Safety
/// `designation` ends with a NUL; `knurl->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_knurl(
    designation: *const c_char,
    knurl: *mut tenths_knurl,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        unsafe {
            write(knurl, "knurl", Units::Metric, || Ok(Knurl::parse(text(designation, "designation")?)?))
        }
    })
}
