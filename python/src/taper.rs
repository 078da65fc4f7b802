//! Standard tapers.
use crate::error::value_error;
use crate::object::{PyObject, held, objects};
use pyo3::basic::CompareOp;
use pyo3::prelude::*;
use std::hash::{BuildHasher, BuildHasherDefault, DefaultHasher};
use tenths::StandardTaper;

/// A standard taper by its designation: `StandardTaper("MT3")`, `StandardTaper("7:24 No. 40")`.
///
/// Families: `Morse 3` or `MT3`, `metric 80`, `7:24 No. 40` (also `ISO 40`, `SK 40`, `BT 40`, whose holders differ),
/// `Jarno 7`, `Brown & Sharpe 9`. Of the figures only some were read in print, see `source`: check a taper that matters
/// against the standard.
///
///     >>> tenths.StandardTaper("MT3").large_diameter
///     Size('0.938 in')
#[pyclass(frozen, extends = PyObject, name = "StandardTaper", module = "tenths")]
pub struct PyStandardTaper(pub StandardTaper);

#[pymethods]
impl PyStandardTaper {
    #[new]
    fn new(designation: &str) -> PyResult<PyClassInitializer<Self>> {
        StandardTaper::parse(designation).map(held).map_err(value_error)
    }

    /// Every taper that is known, by family and size.
    #[staticmethod]
    fn all(py: Python<'_>) -> PyResult<Vec<Bound<'_, PyAny>>> {
        objects(py, &StandardTaper::all().collect::<Vec<_>>())
    }

    /// By family and size, as the list of all stands.
    fn __richcmp__(&self, other: &Self, op: CompareOp) -> bool {
        op.matches(self.0.cmp(&other.0))
    }

    fn __hash__(&self) -> u64 {
        BuildHasherDefault::<DefaultHasher>::default().hash_one(self.0)
    }
}
