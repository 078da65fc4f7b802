//! Degrees of freedom: on how much knowledge an uncertainty rests.
use super::error::UncertaintyError;
use crate::math::normal_cdf;
use crate::statistics::t_quantile_above;

/// Degrees of freedom are 1 or more, and may be infinite.
pub(super) fn freedom_in_range(what: &str, freedom: f64) -> Result<(), UncertaintyError> {
    match freedom >= 1.0 {
        true => Ok(()),
        false => {
            let need = "1 or more, or infinite where the uncertainty is taken as exactly known";
            Err(UncertaintyError::Number { what: what.into(), need, value: freedom })
        }
    }
}

/// Effective degrees of freedom rounded down to a whole number. What rounding errors leave of a whole number counts as it.
pub(super) fn rounded_down(freedom: f64) -> f64 {
    (freedom * (1.0 + 1e-9)).floor()
}

/// The value of Student's t with the same upper tail as `normal`.
pub(super) fn student(normal: f64, freedom: f64) -> f64 {
    // Beyond this, Student's law is the normal one to every digit that matters.
    if freedom > 1e7 { normal } else { t_quantile_above(normal_cdf(-normal), freedom) }
}
