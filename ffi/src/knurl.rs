//! Knurls of the standards. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Knurl, Size};

/// A knurl, in picometres: an inch is 25 400 000 000 of them. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_knurl {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_knurl)`.
    pub struct_size: usize,
    /// The pitch, to the nearest picometre.
    pub pitch: i64,
    /// What the diameter grows by: the blank is the diameter over the crests less this. -1 where the standard gives
    /// none.
    pub growth: i64,
    /// Upper deviation of the diameter over the crests; it and the next three are 0 for a metric knurl.
    pub crest_upper: i64,
    /// Lower deviation of it.
    pub crest_lower: i64,
    /// Upper deviation of the blank.
    pub blank_upper: i64,
    /// Lower deviation of it.
    pub blank_lower: i64,
    /// 0 straight, 1 diagonal, 2 points raised, 3 points indented.
    pub pattern: i32,
    /// 1 where the four deviations are those of a tolerance class.
    pub has_tolerance: i32,
}

/// A knurl by its designation: `tenths_knurl_of("RAA 0.8", &knurl)`, `tenths_knurl_of("96 DP class II", &knurl)`.
///
/// After DIN 82:1973 or ASME B94.6-1984. The growth is an estimate, which leaves out rounded teeth and the metal: roll
/// a trial piece. Of the figures only some were read in print: check a knurl that matters against the standard.
///
/// # Safety
/// `designation` ends with a NUL; `knurl->struct_size` tells the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_knurl_of(
    designation: *const c_char,
    knurl: *mut tenths_knurl,
) -> tenths_status {
    guard(|| {
        if knurl.is_null() {
            return Err(Failure::Null("knurl"));
        }
        // SAFETY: the caller's promise: the size stands first in every version of the struct.
        let struct_size = unsafe { knurl.cast::<usize>().read() };
        let least = size_of::<tenths_knurl>();
        if struct_size < least {
            return Err(Failure::StructSize { what: "tenths_knurl", least, got: struct_size });
        }
        // SAFETY: the caller's promise.
        let read = Knurl::parse(unsafe { text(designation, "designation") }?)?;
        let tolerance = read.tolerance();
        let deviation = |k: usize| tolerance.map_or(0, |tolerance| tolerance[k].picometres());
        let made = tenths_knurl {
            struct_size,
            pitch: read.pitch().picometres(),
            growth: read.growth().map_or(-1, Size::picometres),
            crest_upper: deviation(0),
            crest_lower: deviation(1),
            blank_upper: deviation(2),
            blank_lower: deviation(3),
            pattern: read.pattern() as i32,
            has_tolerance: tolerance.is_some().into(),
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { knurl.write(made) };
        Ok(())
    })
}
