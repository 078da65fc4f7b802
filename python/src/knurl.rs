//! Knurls of the standards.
use crate::error::value_error;
use crate::object::{PyObject, held};
use crate::size::{PyLimits, PySize, size_of};
use pyo3::prelude::*;
use tenths::Knurl;

/// A knurl of DIN 82 or of ASME B94.6 by its designation.
///
/// `Knurl("RAA 0.8")` by profile and pitch in millimetres; `Knurl("96 DP")`, `Knurl("96 DP diagonal")`,
/// `Knurl("96 DP class II")` by diametral pitch, pattern and tolerance class.
///
/// Growth is an estimate, which leaves out rounded teeth and the metal: roll a trial piece. Of the figures only some
/// were read in print: check a knurl that matters against the standard.
///
///     >>> tenths.Knurl("RKV 1.0").blank("20 mm")
///     Size('19.67 mm')
#[pyclass(frozen, extends = PyObject, name = "Knurl", module = "tenths")]
pub struct PyKnurl(pub Knurl);

#[pymethods]
impl PyKnurl {
    #[new]
    fn new(designation: &str) -> PyResult<PyClassInitializer<Self>> {
        Knurl::parse(designation).map(held).map_err(value_error)
    }

    /// The blank for a diameter over the crests, a Size or text.
    fn blank(&self, crests: &Bound<'_, PyAny>) -> PyResult<PySize> {
        self.0.blank(size_of(crests)?).map(PySize).map_err(value_error)
    }

    /// Limits over the crests of an inch knurl, from the nominal diameter, a Size or text.
    fn crest_limits(&self, nominal: &Bound<'_, PyAny>) -> PyResult<PyLimits> {
        self.0.crest_limits(size_of(nominal)?).map(PyLimits).map_err(value_error)
    }

    /// Limits of the blank of an inch knurl, from its nominal diameter, a Size or text.
    fn blank_limits(&self, nominal: &Bound<'_, PyAny>) -> PyResult<PyLimits> {
        self.0.blank_limits(size_of(nominal)?).map(PyLimits).map_err(value_error)
    }
}
