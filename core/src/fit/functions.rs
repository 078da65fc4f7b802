//! Fits by the names of what is wanted, as C asks for them.
use super::{Fit, FitError};
use crate::size::Size;
use tenths_macros::function;

/// A fit of ASME B4.1 by its name. The figures of LC are from memory.
///
/// # Errors
/// As [`Fit::inch`].
#[function(gives = "fit", only_c, example("FN2", "1.5 in"))]
pub fn inch_fit(
    /// The name: RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3 or FN1 to FN5.
    name: &str,
    /// The nominal size.
    nominal: Size,
) -> Result<Fit, FitError> {
    Fit::inch(name, nominal)
}
