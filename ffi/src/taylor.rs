//! Taylor's constants from trials.
use crate::guard::{guard, side, tenths_units};
use crate::status::{Failure, tenths_status};
use tenths::cutting::taylor_fit::TaylorFit;
use tenths::quantity::{SurfaceSpeed, Time};
use tenths::{Quantity, Units};

/// Taylor's constants from trials, with standard errors. Set `struct_size` before the call.
///
/// Constants that were not fitted are NaN; on an error all numbers are.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_taylor_fit {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_taylor_fit)`.
    pub struct_size: usize,
    /// Number of trials; 0 on an error.
    pub trials: usize,
    /// Taylor's exponent n.
    pub taylor_n: f64,
    /// Its standard error.
    pub taylor_n_error: f64,
    /// Taylor's C, the surface speed at one minute of life, and at a feed and a depth of 1 mm where those are fitted.
    pub taylor_c: f64,
    /// Standard error of ln C, which is the relative one of C.
    pub ln_c_error: f64,
    /// Covariance of n and ln C.
    pub covariance: f64,
    /// Exponent of the feed.
    pub feed_exponent: f64,
    /// Its standard error.
    pub feed_exponent_error: f64,
    /// Exponent of the depth.
    pub depth_exponent: f64,
    /// Its standard error.
    pub depth_exponent_error: f64,
    /// Standard deviation of ln life about the line.
    pub residual_deviation: f64,
    /// Share of the variance of ln life that the line explains.
    pub r_squared: f64,
}

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
    guard(|| {
        if out.is_null() {
            return Err(Failure::Null("the place for the fit"));
        }
        // SAFETY: the caller's promise: the size stands first in every version of the struct.
        let struct_size = unsafe { out.cast::<usize>().read() };
        let least = size_of::<tenths_taylor_fit>();
        if struct_size < least {
            return Err(Failure::StructSize { what: "tenths_taylor_fit", least, got: struct_size });
        }
        let fitted = || {
            let units = side(units)?;
            // SAFETY: the caller's promise.
            let speeds = unsafe { column::<SurfaceSpeed>(speeds, count, units) }?;
            // SAFETY: the caller's promise.
            let lives = unsafe { column::<Time>(lives, count, units) }?;
            // SAFETY: the caller's promise.
            let (feeds, depths) = unsafe { (column(feeds, count, units)?, column(depths, count, units)?) };
            let (speeds, lives) =
                (speeds.ok_or(Failure::Null("speeds"))?, lives.ok_or(Failure::Null("lives"))?);
            let fit = TaylorFit::from_columns(&speeds, &lives, feeds.as_deref(), depths.as_deref())?;
            Ok(told(&fit, units, struct_size))
        };
        let fit = fitted();
        // SAFETY: the struct is at least as large as ours.
        unsafe { out.write(*fit.as_ref().unwrap_or(&nothing(struct_size))) };
        fit.map(drop)
    })
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

fn told(fit: &TaylorFit, units: Units, struct_size: usize) -> tenths_taylor_fit {
    tenths_taylor_fit {
        struct_size,
        trials: fit.trials,
        taylor_n: fit.taylor_n,
        taylor_n_error: fit.taylor_n_error,
        taylor_c: fit.taylor_c.in_units(units),
        ln_c_error: fit.ln_c_error,
        covariance: fit.covariance[0][1],
        feed_exponent: fit.feed_exponent.unwrap_or(f64::NAN),
        feed_exponent_error: fit.feed_exponent_error.unwrap_or(f64::NAN),
        depth_exponent: fit.depth_exponent.unwrap_or(f64::NAN),
        depth_exponent_error: fit.depth_exponent_error.unwrap_or(f64::NAN),
        residual_deviation: fit.residual_deviation,
        r_squared: fit.r_squared,
    }
}

fn nothing(struct_size: usize) -> tenths_taylor_fit {
    let nan = f64::NAN;
    tenths_taylor_fit {
        struct_size,
        trials: 0,
        taylor_n: nan,
        taylor_n_error: nan,
        taylor_c: nan,
        ln_c_error: nan,
        covariance: nan,
        feed_exponent: nan,
        feed_exponent_error: nan,
        depth_exponent: nan,
        depth_exponent_error: nan,
        residual_deviation: nan,
        r_squared: nan,
    }
}
