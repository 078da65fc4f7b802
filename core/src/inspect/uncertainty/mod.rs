//! Uncertainty of measurement: the uncertainties of the inputs combined into that of the result.
//!
//! Source: JCGM 100:2008 (GUM), and for samples its supplement JCGM 101:2008; both from memory.
//! [`UncertaintyBudget`] combines to the first order, with sensitivities, correlations and effective degrees of freedom;
//! [`MonteCarlo`] samples the same model and says whether both agree. What a decision rule takes is
//! [`UncertaintyBudget::for_decision`].
mod budget;
mod error;
mod estimate;
mod freedom;
mod monte_carlo;
mod result;

pub use budget::BudgetOptions;
pub use error::UncertaintyError;
pub use estimate::{ESTIMATE_OF_READINGS, Estimate, estimate_of_readings};
pub use result::{MonteCarlo, UncertaintyBudget, UncertaintyRow};
