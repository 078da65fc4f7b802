//! Why there is no uncertainty.
use crate::stack::StackError;

/// Why there is no uncertainty.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum UncertaintyError {
    /// A number out of range.
    #[error("{what} must be {need}, not {}", crate::error::WithUnit(*value, ""))]
    Number {
        /// What the number is.
        what: String,
        /// What it must be.
        need: &'static str,
        /// The number as given.
        value: f64,
    },
    /// Too few readings for a standard deviation.
    #[error("{count} reading{} no spread: give at least 2", if *count == 1 { " shows" } else { "s show" })]
    TooFew {
        /// How many there are.
        count: usize,
    },
    /// Degrees of freedom that go with no input.
    #[error("there are {inputs} inputs, and {given} degrees of freedom")]
    Count {
        /// How many inputs the model has.
        inputs: usize,
        /// How many were given.
        given: usize,
    },
    /// Correlated inputs with different degrees of freedom.
    #[error(
        "`{one}` and `{other}` are correlated, but have different degrees of freedom, {freedoms}: the effective degrees of \
         freedom cannot be calculated. Fix: give both the same number, or leave the numbers out"
    )]
    Correlated {
        /// One of them.
        one: String,
        /// The other one.
        other: String,
        /// Their degrees of freedom.
        freedoms: String,
    },
    /// Fewer effective degrees of freedom than one.
    #[error(
        "the result has {effective:.2} effective degrees of freedom: fewer than 1 leave it without a coverage factor. Fix: take more readings of the inputs with the largest shares"
    )]
    Freedom {
        /// The effective degrees of freedom.
        effective: f64,
    },
    /// A sample of which not every value is kept, or of which some have no value.
    #[error("{reason}")]
    Sample {
        /// What is wrong.
        reason: String,
    },
    /// The model, or an input of it.
    #[error(transparent)]
    Model(#[from] StackError),
}
