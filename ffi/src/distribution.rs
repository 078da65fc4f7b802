//! How a dimension spreads.
use crate::describe::fill;
use crate::guard::guard;
use crate::handle::{array, given};
use crate::status::{Failure, tenths_status};
use tenths::stack::Distribution;

/// Normal: `first` is the capability Cp, `second` the mean less the middle of the limits, in half bands.
pub const TENTHS_NORMAL: i32 = 0;
/// Normal, cut off at the limits by inspection: `first` and `second` as for `TENTHS_NORMAL`, before inspection.
pub const TENTHS_TRUNCATED_NORMAL: i32 = 1;
/// Any size between the limits, with equal probability.
pub const TENTHS_UNIFORM: i32 = 2;
/// Triangular, from the limits to the most frequent size: `first` is that size less the middle, in half bands.
pub const TENTHS_TRIANGULAR: i32 = 3;
/// Trapezoidal: level about the middle, straight lines to the limits. `first` is the width of the level part over the tolerance.
pub const TENTHS_TRAPEZOID: i32 = 4;
/// The beta law from limit to limit: `first` and `second` are its shapes alpha and beta. Two of 1.5 make a half
/// ellipse.
pub const TENTHS_BETA: i32 = 5;
/// Normal, as a process was measured, independent of the limits: `first` is the mean, `second` the standard deviation.
pub const TENTHS_PROCESS: i32 = 6;
/// Measured sizes, each drawn as often as the others: `count` of them at `values`.
pub const TENTHS_MEASURED: i32 = 7;

/// How a dimension spreads. Set it with `tenths_distribution_init`, then change what you need.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_distribution {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_distribution)`.
    pub struct_size: usize,
    /// The first number of the law; not read if it has none.
    pub first: f64,
    /// The second number of the law; not read if it has none.
    pub second: f64,
    /// Measured sizes, of `TENTHS_MEASURED` alone. They are copied when the struct is used.
    pub values: *const f64,
    /// How many there are.
    pub count: usize,
    /// The law, from `TENTHS_NORMAL` to `TENTHS_MEASURED`.
    pub law: i32,
}

/// Sets a law with its usual numbers: Cp = 1 and centred, symmetrical, level over a half, a half ellipse.
///
/// Set `struct_size` before the call. A process gets NaN for its mean and standard deviation, and measured sizes none:
/// these have to be given.
///
/// # Safety
/// `distribution->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_distribution_init(
    law: i32,
    distribution: *mut tenths_distribution,
) -> tenths_status {
    guard(|| {
        let numbers = match law {
            TENTHS_NORMAL | TENTHS_TRUNCATED_NORMAL => Ok((1.0, 0.0)),
            TENTHS_UNIFORM | TENTHS_TRIANGULAR | TENTHS_MEASURED => Ok((0.0, 0.0)),
            TENTHS_TRAPEZOID => Ok((0.5, 0.0)),
            TENTHS_BETA => Ok((1.5, 1.5)),
            TENTHS_PROCESS => Ok((f64::NAN, f64::NAN)),
            other => Err(Failure::Law(other)),
        };
        let (first, second) = *numbers.as_ref().unwrap_or(&(f64::NAN, f64::NAN));
        let made = tenths_distribution {
            struct_size: size_of::<tenths_distribution>(),
            first,
            second,
            values: std::ptr::null(),
            count: 0,
            law,
        };
        // SAFETY: the caller's promise.
        unsafe { fill(distribution, "tenths_distribution", made) }?;
        numbers.map(drop)
    })
}

/// The distribution of a struct, and the usual one where there is none.
///
/// # Safety
/// `pointer` is null or leads to a struct that begins with its size, whose values are valid for their count.
pub(crate) unsafe fn distribution(pointer: *const tenths_distribution) -> Result<Distribution, Failure> {
    if pointer.is_null() {
        return Ok(Distribution::NORMAL);
    }
    // SAFETY: the caller's promise.
    let given = unsafe { given(pointer, "tenths_distribution") }?;
    let (first, second) = (given.first, given.second);
    Ok(match given.law {
        TENTHS_NORMAL => Distribution::Normal { cp: first, shift: second },
        TENTHS_TRUNCATED_NORMAL => Distribution::TruncatedNormal { cp: first, shift: second },
        TENTHS_UNIFORM => Distribution::Uniform,
        TENTHS_TRIANGULAR => Distribution::Triangular { mode: first },
        TENTHS_TRAPEZOID => Distribution::Trapezoid { top: first },
        TENTHS_BETA => Distribution::Beta { alpha: first, beta: second },
        TENTHS_PROCESS => Distribution::Process { mean: first, sigma: second },
        TENTHS_MEASURED => {
            // SAFETY: the caller's promise.
            Distribution::Measured(unsafe { array(given.values, given.count, "values") }?.into())
        }
        other => return Err(Failure::Law(other)),
    })
}
