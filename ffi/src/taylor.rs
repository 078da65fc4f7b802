//! Taylor's constants from trials.
use crate::guard::{guard, side, tenths_units};
use crate::object::write;
use crate::objects::tenths_taylor_fit;
use crate::status::{Failure, tenths_status};
use tenths::cutting::taylor_fit::TaylorFit;
use tenths::quantity::{SurfaceSpeed, Time};
use tenths::{Quantity, Units};

/// Fits Taylor's V · T^n = C to `count` trials by least squares, of ln life by ln surface speed.
///
/// The status is `TENTHS_NO_FIT` if there are fewer than three trials, all speeds are equal, or life does not fall with
/// speed, and `TENTHS_ARGUMENT` if a number is not positive.
///
/// # Safety
/// `speeds` and `lives` are null or valid for `count` numbers; `out->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_fit_taylor(
    units: tenths_units,
    speeds: *const f64,
    lives: *const f64,
    count: usize,
    out: *mut tenths_taylor_fit,
) -> tenths_status {
    let none = std::ptr::null();
    // SAFETY: the caller's promise.
    unsafe { tenths_fit_taylor_extended(units, speeds, lives, none, none, count, out) }
}

/// Fits V · T^n · f^a · d^b = C to `count` trials, otherwise as `tenths_fit_taylor`.
///
/// `feeds` or `depths` may be null, where they are not fitted.
///
/// # Safety
/// As `tenths_fit_taylor`; `feeds` and `depths` are null or valid for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_fit_taylor_extended(
    units: tenths_units,
    speeds: *const f64,
    lives: *const f64,
    feeds: *const f64,
    depths: *const f64,
    count: usize,
    out: *mut tenths_taylor_fit,
) -> tenths_status {
    let units = side(units);
    let shown = units.as_ref().copied().unwrap_or(Units::Metric);
    let made = || {
        let units = units?;
        // SAFETY: the caller's promises.
        let (speeds, lives) =
            unsafe { (column::<SurfaceSpeed>(speeds, count, units)?, column::<Time>(lives, count, units)?) };
        // SAFETY: the caller's promises.
        let (feeds, depths) = unsafe { (column(feeds, count, units)?, column(depths, count, units)?) };
        let (speeds, lives) = (speeds.ok_or(Failure::Null("speeds"))?, lives.ok_or(Failure::Null("lives"))?);
        Ok(TaylorFit::from_columns(&speeds, &lives, feeds.as_deref(), depths.as_deref())?)
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(out, "tenths_taylor_fit", shown, made) })
}

/// Readings of a column; a null pointer is an empty one.
///
/// # Safety
/// `numbers` is null or valid for `count` numbers.
unsafe fn column<Q: Quantity>(
    numbers: *const f64,
    count: usize,
    units: Units,
) -> Result<Option<Vec<Q>>, Failure> {
    if numbers.is_null() {
        return Ok(None);
    }
    if count > isize::MAX as usize / size_of::<f64>() {
        return Err(Failure::Length(count));
    }
    // SAFETY: the caller's promise, and `count` is one that a slice can have.
    let numbers = unsafe { std::slice::from_raw_parts(numbers, count) };
    Ok(Some(numbers.iter().map(|&number| Q::new_in(number, units)).collect()))
}
