//! Uncertainty of measurement: estimates of inputs, and budgets.
use crate::propagate::tenths_propagation;
use crate::sample::Drawn;
use crate::status::Failure;
use tenths::Watch;
use tenths::inspect::uncertainty::{BudgetOptions, UncertaintyBudget};
use tenths_macros::export;

/// The uncertainty of a propagation by what is known of each input: combined, with effective degrees of freedom, and expanded
/// for a coverage such as 0.95: `tenths_propagation_budget(propagation, NULL, 0, 0.95, NULL, &budget)`.
///
/// `freedoms` has the degrees of freedom of the `count` inputs in their order, infinite where the uncertainty is taken as
/// exactly known; `freedoms` may be null for all of them infinite. An estimate enters as an input with the distribution
/// `TENTHS_PROCESS`. With a `sampling` the model is sampled too, after supplement 1 to the GUM; `sampling` may be null.
#[export(budget)]
pub(crate) fn propagation_budget(
    propagation: &tenths_propagation,
    freedoms: Option<&[f64]>,
    count: usize,
    coverage: f64,
    sampling: Option<Drawn>,
) -> Result<UncertaintyBudget, Failure> {
    let inputs = propagation.model().inputs().len();
    let freedoms = match freedoms {
        None if count == 0 || count == inputs => &[],
        None => return Err(Failure::Elements { what: "inputs", expected: inputs, got: count }),
        Some(freedoms) => freedoms,
    };
    let (sampling, watch) = match sampling {
        None => (None, Watch::new()),
        Some((sampling, watch)) => (Some(propagation.on_threads(sampling)), watch),
    };
    let options = BudgetOptions { coverage, freedoms, sampling };
    Ok(UncertaintyBudget::new_watched(propagation.model(), &options, &watch)?)
}
