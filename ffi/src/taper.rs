//! Standard tapers. The designation comes in as text; sizes go out in picometres.
use crate::guard::{guard, sized, text};
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::{Quantity, Size, StandardTaper};

/// A standard taper; sizes in picometres: an inch is 25 400 000 000 of them. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_standard_taper {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_standard_taper)`.
    pub struct_size: usize,
    /// Change of the diameter over the length, a plain number; times 12 the taper per foot in inches.
    pub taper: f64,
    /// Angle from side to side in degrees.
    pub included_angle: f64,
    /// Angle from axis to side in degrees, to which a compound slide is set.
    pub half_angle: f64,
    /// Diameter at the large end, or of a steep taper at its gauge line.
    pub large_diameter: i64,
    /// Diameter at the small end, 0 where the table has none.
    pub small_diameter: i64,
    /// Length between the two, 0 where the table has none. Shanks and sockets of other lengths are in use.
    pub length: i64,
    /// 0 Morse, 1 metric, 2 steep (7:24), 3 Jarno, 4 Brown & Sharpe.
    pub family: i32,
    /// 1 where figures of this taper are from memory, 0 where they were seen in print.
    pub from_memory: i32,
}

/// A standard taper by its designation: `tenths_standard_taper_of("MT3", &taper)`, `"Morse 4 1/2"`, `"metric 80"`,
/// `"7:24 No. 40"`, `"Jarno 7"`, `"Brown & Sharpe 9"`.
///
/// Of the figures only some were read in print: check a taper that matters against the standard.
///
/// # Safety
/// `designation` ends with a NUL; `taper->struct_size` tells the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_standard_taper_of(
    designation: *const c_char,
    taper: *mut tenths_standard_taper,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (struct_size, designation) =
            unsafe { (sized(taper, "taper", "tenths_standard_taper")?, text(designation, "designation")?) };
        let read = StandardTaper::parse(designation)?;
        let made = tenths_standard_taper {
            struct_size,
            taper: read.taper().metric(),
            included_angle: read.included_angle().metric(),
            half_angle: read.half_angle().metric(),
            large_diameter: read.large_diameter().picometres(),
            small_diameter: read.small_diameter().map_or(0, Size::picometres),
            length: read.length().map_or(0, Size::picometres),
            family: read.family() as i32,
            from_memory: read.is_from_memory().into(),
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { taper.write(made) };
        Ok(())
    })
}
