//! Measured positions against their tolerances. Sizes come in as text and go out in picometres.
use crate::fit::{TENTHS_HOLE, TENTHS_SHAFT};
use crate::guard::{guard, optional_size, optional_text, text};
use crate::object::write;
use crate::objects::tenths_position_check;
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Limits, MaterialCondition, MeasuredFeature, Member, PositionCheck, PositionError, Size, Units};

/// Judges a measured position: `tenths_make_position_check("0.03 mm", "0.04 mm", NULL, "0.1 mm", TENTHS_HOLE, NULL, NULL,
/// NULL, &position)`.
///
/// `x`, `y` and `z` are the offsets from the true position; `z`, for a sphere in its spherical zone, may be null. The
/// tolerance is a diameter. At a material condition the tolerance has a bonus: `member` is then `TENTHS_HOLE` or
/// `TENTHS_SHAFT`, `condition` is `MMC` or `LMC`, `limits` are those of size, such as `12..12.15 mm`, and `actual` is
/// the size of the unrelated actual mating envelope, or at LMC of the unrelated actual minimum material envelope,
/// such as `12.08 mm`. Regardless of feature size `condition` may be null, `limits` may be null and `actual` may be
/// null, all three together.
///
/// # Safety
/// The texts end with a NUL; `position->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_position_check(
    x: *const c_char,
    y: *const c_char,
    z: *const c_char,
    tolerance: *const c_char,
    member: i32,
    condition: *const c_char,
    limits: *const c_char,
    actual: *const c_char,
    position: *mut tenths_position_check,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (x, y, z, tolerance, feature) = unsafe {
                (
                    text(x, "x")?,
                    text(y, "y")?,
                    optional_size(z, "z")?,
                    text(tolerance, "tolerance")?,
                    feature(member, condition, limits, actual)?,
                )
            };
            let offsets = [Size::parse(x)?, Size::parse(y)?, z.unwrap_or(Size::ZERO)];
            Ok(PositionCheck::new(offsets, Size::parse(tolerance)?, feature.as_ref())?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(position, "position", Units::Metric, made) }
    })
}

/// The feature whose size gives a bonus, if there is one.
///
/// # Safety
/// The texts are null or end with a NUL.
unsafe fn feature(
    member: i32,
    condition: *const c_char,
    limits: *const c_char,
    actual: *const c_char,
) -> Result<Option<MeasuredFeature>, Failure> {
    let member = match member {
        TENTHS_HOLE => Member::Hole,
        TENTHS_SHAFT => Member::Shaft,
        other => return Err(Failure::Member(other)),
    };
    // SAFETY: the caller's promise.
    let read = |pointer, name| unsafe { optional_text(pointer, name) };
    match (read(condition, "condition")?, read(limits, "limits")?, read(actual, "actual")?) {
        (None, None, None) => Ok(None),
        (Some(condition), Some(limits), Some(actual)) => Ok(Some(MeasuredFeature {
            member,
            condition: MaterialCondition::parse(condition)?,
            limits: Limits::parse(limits)?,
            actual: Size::parse(actual)?,
        })),
        _ => Err(PositionError::Incomplete.into()),
    }
}
