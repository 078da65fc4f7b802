//! Taylor's constants from trials.
use tenths::cutting::taylor_fit::{TaylorFit, TaylorFitError};
use tenths::{Quantity, Units};
use tenths_macros::export;

/// Fits Taylor's V · T^n = C to `count` trials by least squares, of ln life by ln surface speed.
///
/// The status is `TENTHS_NO_FIT` if there are fewer than three trials, all speeds are equal, or life does not fall with
/// speed, and `TENTHS_ARGUMENT` if a number is not positive.
#[export(out)]
pub(crate) fn fit_taylor(units: Units, speeds: &[f64], lives: &[f64]) -> Result<TaylorFit, TaylorFitError> {
    fit_taylor_extended(units, speeds, lives, None, None)
}

/// Fits V · T^n · f^a · d^b = C to `count` trials, otherwise as `tenths_fit_taylor`.
///
/// `feeds` or `depths` may be null, where they are not fitted.
#[export(out)]
pub(crate) fn fit_taylor_extended(
    units: Units,
    speeds: &[f64],
    lives: &[f64],
    feeds: Option<&[f64]>,
    depths: Option<&[f64]>,
) -> Result<TaylorFit, TaylorFitError> {
    fn column<Q: Quantity>(numbers: &[f64], units: Units) -> Vec<Q> {
        numbers.iter().map(|&number| Q::new_in(number, units)).collect()
    }
    let (speeds, lives) = (column(speeds, units), column(lives, units));
    let [feeds, depths] = [feeds, depths].map(|numbers| numbers.map(|numbers| column(numbers, units)));
    TaylorFit::from_columns(&speeds, &lives, feeds.as_deref(), depths.as_deref())
}
