//! Why there are no starting values.
use crate::material::MaterialError;
use crate::object::UnknownName;

/// Why there are no starting values.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum StartingValueError {
    /// The text names no material and no family.
    #[error("{0}; a family such as `medium_carbon_steel` is accepted too")]
    Material(MaterialError),
    /// The text names no operation or no tool material.
    #[error(transparent)]
    Name(#[from] UnknownName),
    /// The diameter is not possible.
    #[error("diameter must be greater than 0 mm, not {0} mm")]
    Diameter(f64),
    /// No source was read for it.
    #[error("the table has no starting values for {0}. Fix: take the data of the tool's maker")]
    NoValues(String),
}
