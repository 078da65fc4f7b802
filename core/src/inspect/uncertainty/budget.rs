//! The budget: each input's part of the uncertainty of the result, and what they come to.
use super::error::UncertaintyError;
use super::estimate::freedom_in_range;
use super::result::{MonteCarlo, UncertaintyBudget, UncertaintyRow};
use crate::math::normal_quantile;
use crate::stack::{Function, Propagation, Sampling};
use crate::statistics::t_quantile_above;
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
                    distribution: input.distribution.name().into(),
                    degrees_of_freedom: *freedom,
                    sensitivity,
                    contribution: sensitivity.map_or(0.0, |sensitivity| (sensitivity * uncertainty).abs()),
                    share: share.unwrap_or(0.0),
                }
            })
            .collect();
        let combined = moments.first_order_sigma;
        let effective_freedom = effective_freedom(&rows, &model.correlations(), combined)?;
        let coverage_factor = match effective_freedom {
            freedom if freedom < 1.0 => return Err(UncertaintyError::Freedom { effective: freedom }),
            // Beyond, Student's law is the normal one to every digit that matters.
            freedom if freedom > 1e7 => normal_quantile(0.5 + 0.5 * coverage),
            // What rounding leaves of a whole number is one.
            freedom => t_quantile_above(0.5 - 0.5 * coverage, (freedom * (1.0 + 1e-9)).floor()),
        };
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
