//! General tolerances of ISO 2768.
use crate::error::value_error;
use crate::object::object;
use crate::size::size_of;
use pyo3::prelude::*;
use tenths::{GeneralClass, GeneralFeature, GeneralTolerance};

/// What a general tolerance of ISO 2768 allows a feature of a nominal size: `general_tolerance("120 mm", "mK")`.
///
/// `feature` is `length`, `edge` (a broken one), `angle` (by its shorter side), `straightness`, `flatness`,
/// `perpendicularity`, `symmetry`, `run_out` or `roundness`. The classes f, m, c and v are for the first three, H, K and L
/// for the others; `"ISO 2768-mK"` names one of each. As limits, `Limits("120 mm ISO 2768-m")` and
/// `Limits("2 mm edge ISO 2768-m")` say the same.
#[pyfunction]
#[pyo3(signature = (size, general_class, feature="length"))]
pub fn general_tolerance<'py>(
    size: &Bound<'py, PyAny>,
    general_class: &str,
    feature: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let class = GeneralClass::parse(general_class).map_err(value_error)?;
    let feature = GeneralFeature::parse(feature).map_err(value_error)?;
    let made = GeneralTolerance::new(class, feature, size_of(size)?).map_err(value_error)?;
    object(size.py(), &made)
}
