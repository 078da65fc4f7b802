//! Uncertainty of measurement: estimates of inputs, and budgets.
use crate::guard::guard;
use crate::handle::{array, handle};
use crate::object::write;
use crate::objects::tenths_uncertainty_budget;
use crate::propagate::{asked, tenths_propagation};
use crate::sample::tenths_sampling;
use crate::status::{Failure, tenths_status};
use tenths::inspect::uncertainty::{BudgetOptions, UncertaintyBudget};
use tenths::{Units, Watch};

/// The uncertainty of a propagation by what is known of each input: combined, with effective degrees of freedom, and expanded
/// for a coverage such as 0.95.
///
/// `freedoms` has the degrees of freedom of the `count` inputs in their order, infinite where the uncertainty is taken as
/// exactly known; `freedoms` may be null for all of them infinite. An estimate enters as an input with the distribution
/// `TENTHS_PROCESS`. With a `sampling` the model is sampled too, after supplement 1 to the GUM; `sampling` may be null.
///
/// # Safety
/// `propagation` came from this library; `freedoms` is null or valid for `count` numbers; `sampling` is null or tells its
/// size; `budget->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_budget(
    propagation: *const tenths_propagation,
    freedoms: *const f64,
    count: usize,
    coverage: f64,
    sampling: *const tenths_sampling,
    budget: *mut tenths_uncertainty_budget,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let inputs = unsafe { handle(propagation, "propagation") }?.model().inputs().len();
            let freedoms = match freedoms.is_null() {
                true if count == 0 || count == inputs => &[],
                true => return Err(Failure::Elements { what: "inputs", expected: inputs, got: count }),
                // SAFETY: the caller's promise.
                false => unsafe { array(freedoms, count, "freedoms") }?,
            };
            let (model, sampling, watch) = match sampling.is_null() {
                // SAFETY: the caller's promise.
                true => (unsafe { handle(propagation, "propagation") }?.model(), None, Watch::new()),
                false => {
                    // SAFETY: the caller's promises.
                    let (model, sampling, watch) = unsafe { asked(propagation, sampling) }?;
                    (model, Some(sampling), watch)
                }
            };
            let options = BudgetOptions { coverage, freedoms, sampling };
            Ok(UncertaintyBudget::new_watched(model, &options, &watch)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(budget, "budget", Units::Metric, made) }
    })
}
