//! The budget: each input's part of the uncertainty of the result, and their combination.
use super::error::UncertaintyError;
use super::freedom::{freedom_in_range, rounded_down, student};
use super::result::{MonteCarlo, UncertaintyBudget, UncertaintyRow};
use crate::math::normal_quantile;
use crate::stack::{Distribution, Function, Propagation, Sampling};
use crate::watch::Watch;

/// How a budget is made.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BudgetOptions<'a> {
    /// The probability of the interval, between 0 and 1.
    pub coverage: f64,
    /// The degrees of freedom of each input in order, infinite for those that are exactly known; empty for all of them
    /// infinite.
    pub freedoms: &'a [f64],
    /// How the model is sampled too, if at all.
    pub sampling: Option<Sampling>,
}

impl Default for BudgetOptions<'_> {
    fn default() -> Self {
        BudgetOptions { coverage: 0.95, freedoms: &[], sampling: None }
    }
}

impl UncertaintyBudget {
    /// The budget of a model whose inputs vary.
    ///
    /// Correlated inputs count as one in the effective degrees of freedom, so they must have the same number, as those
    /// measured together in one series have.
    ///
    /// ```
    /// use tenths::inspect::uncertainty::{BudgetOptions, Estimate, UncertaintyBudget};
    /// use tenths::stack::{Propagation, by_row};
    /// let inputs = vec![Estimate::new(50.0, 0.003, 9.0)?.input("length"), Estimate::new(0.0, 0.004, f64::INFINITY)?.input("zero")];
    /// let model = Propagation::new(by_row(|[length, zero]| length - zero), inputs)?;
    /// let options = BudgetOptions { freedoms: &[9.0, f64::INFINITY], ..Default::default() };
    /// let budget = UncertaintyBudget::new(&model, &options)?;
    /// assert_eq!(format!("{:.4} {:.1}", budget.combined, budget.effective_freedom), "0.0050 69.4");
    /// # Ok::<(), tenths::inspect::uncertainty::UncertaintyError>(())
    /// ```
    ///
    /// # Errors
    /// [`UncertaintyError`] for a coverage or degrees of freedom out of range, and the errors of the model.
    pub fn new<F: Function>(
        model: &Propagation<F>,
        options: &BudgetOptions<'_>,
    ) -> Result<UncertaintyBudget, UncertaintyError> {
        UncertaintyBudget::new_watched(model, options, &Watch::new())
    }

    /// [`UncertaintyBudget::new`] whose sampling is under a watch.
    ///
    /// # Errors
    /// As [`UncertaintyBudget::new`], and where the work was stopped.
    pub fn new_watched<F: Function>(
        model: &Propagation<F>,
        options: &BudgetOptions<'_>,
        watch: &Watch,
    ) -> Result<UncertaintyBudget, UncertaintyError> {
        let coverage = options.coverage;
        if !(0.0 < coverage && coverage < 1.0) {
            let need = "greater than 0 and less than 1, e.g. 0.95";
            return Err(UncertaintyError::Number { what: "the coverage".into(), need, value: coverage });
        }
        let inputs = model.inputs();
        let freedoms = match options.freedoms {
            [] => vec![f64::INFINITY; inputs.len()],
            given if given.len() == inputs.len() => given.to_vec(),
            given => return Err(UncertaintyError::Count { inputs: inputs.len(), given: given.len() }),
        };
        for (input, freedom) in inputs.iter().zip(&freedoms) {
            freedom_in_range(&format!("degrees of freedom of `{}`", input.name), *freedom)?;
        }
        let moments = model.moments()?;
        // Only inputs that spread have them, in the order of the inputs.
        let (mut derivatives, mut shares) = (moments.derivatives.values(), moments.contributions.values());
        let rows: Vec<UncertaintyRow> = inputs
            .iter()
            .zip(&freedoms)
            .map(|(input, freedom)| {
                let law = input.distribution.cumulants(input.middle(), input.half());
                let uncertainty = law.variance.sqrt();
                let spreads = law.variance > 0.0;
                let sensitivity = if spreads { derivatives.next().copied() } else { None };
                let share = if spreads { shares.next().copied() } else { None };
                UncertaintyRow {
                    name: input.name.clone(),
                    value: law.mean,
                    standard_uncertainty: uncertainty,
                    distribution: law_name(&input.distribution).into(),
                    degrees_of_freedom: *freedom,
                    sensitivity,
                    contribution: sensitivity.map_or(0.0, |sensitivity| (sensitivity * uncertainty).abs()),
                    share: share.unwrap_or(0.0),
                }
            })
            .collect();
        let combined = moments.first_order_sigma;
        let effective_freedom = effective_freedom(&rows, &model.correlations(), combined)?;
        let freedom = rounded_down(effective_freedom);
        if freedom < 1.0 {
            return Err(UncertaintyError::Freedom { effective: effective_freedom });
        }
        // By the tail, which keeps its digits for a coverage near 1.
        let coverage_factor = student(-normal_quantile(0.5 * (1.0 - coverage)), freedom);
        let mut budget = UncertaintyBudget {
            output: None,
            unit: None,
            value: moments.first_order_mean,
            combined,
            second_order: moments.sigma,
            effective_freedom,
            coverage,
            coverage_factor,
            expanded: coverage_factor * combined,
            rows,
            monte_carlo: None,
        };
        if let Some(sampling) = &options.sampling {
            budget.monte_carlo = Some(MonteCarlo::of(model, &freedoms, sampling, &budget, watch)?);
        }
        Ok(budget)
    }
}

/// Welch and Satterthwaite over groups of inputs that are correlated with one another.
fn effective_freedom(
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

/// The law of an input as a budget names it: a normal one, however it was given, is normal.
fn law_name(distribution: &Distribution) -> &'static str {
    if distribution.is_normal() { "normal" } else { distribution.name() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inspect::uncertainty::Estimate;
    use crate::stack::by_row;

    fn budget_of(estimate: Estimate, coverage: f64) -> Result<UncertaintyBudget, UncertaintyError> {
        let model = Propagation::new(by_row(|[length]: [f64; 1]| length), vec![estimate.input("length")])?;
        let freedoms = [estimate.degrees_of_freedom];
        UncertaintyBudget::new(&model, &BudgetOptions { coverage, freedoms: &freedoms, sampling: None })
    }

    // By hand: the second order of x² about 0, with u = 1, is √2 u², and the first order is nothing. x² about 10 bends by
    // √2 / 20 of its first order.
    #[test]
    fn a_model_that_bends_much_gives_no_uncertainty_to_decide_by() {
        let budget_at = |value: f64| {
            let estimate = Estimate { value, standard_uncertainty: 1.0, degrees_of_freedom: f64::INFINITY };
            let square = by_row(|[x]: [f64; 1]| x * x);
            let model =
                Propagation::new(square, vec![estimate.input("x")]).unwrap_or_else(|error| panic!("{error}"));
            let budget = UncertaintyBudget::new(&model, &BudgetOptions::default());
            budget.unwrap_or_else(|error| panic!("{error}")).named(None, Some("mm"))
        };
        let (bent, straight) = (budget_at(0.0), budget_at(10.0));
        assert!(bent.for_decision().is_none() && bent.to_string().ends_with(bent.advice()), "{bent}");
        assert!(bent.advice().starts_with("The model bends"), "{}", bent.advice());
        assert!(straight.for_decision().is_some() && straight.advice().is_empty(), "{straight}");
    }

    // The factor is the 97.5 percent point of Student's law of one degree of freedom, by scipy.
    #[test]
    fn two_readings_are_enough_whatever_they_are() {
        for place in 0..300_u32 {
            let other = 50.0 + 1e-4 * f64::from(place * 7919 % 1009);
            let estimate = Estimate::of_readings(&[49.985, other]).unwrap_or_else(|error| panic!("{error}"));
            let budget = budget_of(estimate, 0.95).unwrap_or_else(|error| panic!("{other}: {error}"));
            assert!((budget.coverage_factor / 12.706_204_736_174_7 - 1.0).abs() < 1e-12, "{other}");
        }
    }

    // The point that a normal number exceeds with a probability of 2^-54, by scipy.
    #[test]
    fn a_coverage_near_one_has_a_factor() {
        let exact = Estimate { value: 1.0, standard_uncertainty: 0.1, degrees_of_freedom: f64::INFINITY };
        let factor = budget_of(exact, 1.0 - f64::EPSILON / 2.0).map(|budget| budget.coverage_factor);
        assert!(
            factor.as_ref().is_ok_and(|factor| (factor / 8.292_361_075_813_597 - 1.0).abs() < 1e-12),
            "{factor:?}"
        );
    }

    // Coverage factors for 95.45 percent as GUM, table G.2, and EA-4/02 print them (from memory).
    #[test]
    fn a_decision_is_told_more_of_few_readings() {
        for (freedom, factor) in [(1.0, 13.97), (2.0, 4.53), (4.0, 2.87), (10.0, 2.28), (50.0, 2.05)] {
            let estimate = Estimate { value: 10.0, standard_uncertainty: 0.001, degrees_of_freedom: freedom };
            let budget = budget_of(estimate, 0.95).unwrap_or_else(|error| panic!("{error}"));
            let size = budget.named(None, Some("mm")).for_decision().map_or(0, |size| size.picometres());
            assert!((size as f64 / 1e6 - factor).abs() < 0.005, "{freedom}: {size}");
        }
        let exact = Estimate { value: 10.0, standard_uncertainty: 0.001, degrees_of_freedom: f64::INFINITY };
        let budget = budget_of(exact, 0.95).unwrap_or_else(|error| panic!("{error}"));
        let size = budget.named(None, Some("mm")).for_decision().map_or(0, |size| size.picometres());
        // The derivative of the model costs the last digits, and the size is rounded up.
        assert!((2_000_000..=2_000_001).contains(&size), "{size}");
    }
}
