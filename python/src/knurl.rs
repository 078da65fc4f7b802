//! Knurls of the standards.
use crate::error::value_error;
use crate::size::{PyLimits, PySize, size_of};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::{Knurl, Units};

/// A knurl of DIN 82 or of ASME B94.6 by its designation.
///
/// `Knurl("RAA 0.8")` by profile and pitch in millimetres; `Knurl("96 DP")`, `Knurl("96 DP diagonal")`,
/// `Knurl("96 DP class II")` by diametral pitch, pattern and tolerance class.
///
/// Growth is an estimate, which leaves out rounded teeth and the metal: roll a trial piece. Of the figures only some
/// were read in print: check a knurl that matters against the standard.
#[pyclass(frozen, eq, hash, name = "Knurl", module = "tenths")]
#[derive(PartialEq, Hash)]
pub struct PyKnurl(Knurl);

#[pymethods]
impl PyKnurl {
    #[new]
    fn new(designation: &str) -> PyResult<Self> {
        Knurl::parse(designation).map(Self).map_err(value_error)
    }

    /// `straight`, `diagonal`, `raised` or `indented`.
    #[getter]
    fn pattern(&self) -> &'static str {
        self.0.pattern().name()
    }

    /// The pitch; of an inch knurl to the nearest picometre.
    #[getter]
    fn pitch(&self) -> PySize {
        PySize(self.0.pitch())
    }

    /// The standard with its edition.
    #[getter]
    fn standard(&self) -> &'static str {
        self.0.standard()
    }

    /// What the diameter grows by; None where the standard does not tell.
    #[getter]
    fn growth(&self) -> Option<PySize> {
        self.0.growth().ok().map(PySize)
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

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("designation", self.0.to_string())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("pattern", self.pattern())?;
        dict.set_item("pitch", self.0.pitch().format(Units::Metric))?;
        dict.set_item("growth", self.0.growth().ok().map(|growth| growth.format(Units::Metric)))?;
        Ok(dict)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("Knurl('{}')", self.0)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().into_any(), (self.0.to_string(),)))
    }
}
