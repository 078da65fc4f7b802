//! General tolerances of ISO 2768. The class comes in as text; sizes go out in picometres.
use crate::guard::{guard, text};
use crate::object::write;
use crate::objects::tenths_general_tolerance;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::{GeneralClass, GeneralFeature, GeneralTolerance, Size, Units};

/// What a general tolerance allows: `tenths_make_general_tolerance("120 mm", "ISO 2768-mK", "length", &tolerance)`.
///
/// Features: `length`, `edge` (a broken one), `angle` (by its shorter side), `straightness`, `flatness`,
/// `perpendicularity`, `symmetry`, `run_out`, `roundness`. The classes f, m, c and v are for the first three, H, K and L
/// for the others. The class may go without the name of the standard: `mK`.
///
/// # Safety
/// The texts end with a NUL; `tolerance->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_general_tolerance(
    size: *const c_char,
    general_class: *const c_char,
    feature: *const c_char,
    tolerance: *mut tenths_general_tolerance,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (size, class, feature) = unsafe {
                (text(size, "size")?, text(general_class, "general_class")?, text(feature, "feature")?)
            };
            let (class, feature) = (GeneralClass::parse(class)?, GeneralFeature::parse(feature)?);
            Ok(GeneralTolerance::new(class, feature, Size::parse(size)?)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(tolerance, "tolerance", Units::Metric, made) }
    })
}
