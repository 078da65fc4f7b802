//! Degrees of freedom: on how much knowledge an uncertainty rests.
use super::error::UncertaintyError;
use super::result::UncertaintyRow;
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

/// Welch and Satterthwaite over groups of inputs that are correlated with one another.
pub(super) fn effective_freedom(
    rows: &[UncertaintyRow],
    correlations: &[(usize, usize, f64)],
    combined: f64,
) -> Result<f64, UncertaintyError> {
    // Signed, since correlated parts may cancel.
    let part = |place: usize| rows[place].sensitivity.unwrap_or(0.0) * rows[place].standard_uncertainty;
    let mut group: Vec<usize> = (0..rows.len()).collect();
    let mut variance: Vec<f64> = (0..rows.len()).map(|place| part(place) * part(place)).collect();
    for (one, other, coefficient) in correlations {
        let (one, other) = (*one, *other);
        let covariance = 2.0 * coefficient * part(one) * part(other);
        if covariance == 0.0 {
            continue;
        }
        let freedoms = [one, other].map(|place| rows[place].degrees_of_freedom);
        if freedoms[0] != freedoms[1] {
            return Err(UncertaintyError::Correlated {
                one: rows[one].name.clone(),
                other: rows[other].name.clone(),
                freedoms: format!("{} and {}", freedoms[0], freedoms[1]),
            });
        }
        let (kept, gone) = (group[one], group[other]);
        if kept != gone {
            variance[kept] += std::mem::take(&mut variance[gone]);
            group.iter_mut().filter(|member| **member == gone).for_each(|member| *member = kept);
        }
        variance[kept] += covariance;
    }
    let mut sum = 0.0;
    if combined > 0.0 {
        for (place, variance) in variance.iter().enumerate() {
            // As shares, so that small uncertainties do not vanish in their fourth powers.
            let share = variance / combined / combined;
            sum += share * share / rows[place].degrees_of_freedom;
        }
    }
    Ok(1.0 / sum)
}
