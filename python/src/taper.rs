//! Standard tapers.
use crate::error::value_error;
use crate::size::PySize;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::{Quantity, StandardTaper, Units};

/// A standard taper by its designation: `StandardTaper("MT3")`, `StandardTaper("7:24 No. 40")`.
///
/// Families: `Morse 3` or `MT3`, `metric 80`, `7:24 No. 40` (also `ISO 40`, `SK 40`, `BT 40`, whose holders differ),
/// `Jarno 7`, `Brown & Sharpe 9`. Of the figures only some were read in print, see `source`: check a taper that matters
/// against the standard.
#[pyclass(frozen, eq, ord, hash, name = "StandardTaper", module = "tenths")]
#[derive(PartialEq, PartialOrd, Hash)]
pub struct PyStandardTaper(StandardTaper);

#[pymethods]
impl PyStandardTaper {
    #[new]
    fn new(designation: &str) -> PyResult<Self> {
        StandardTaper::parse(designation).map(Self).map_err(value_error)
    }

    /// Every taper that is known, by family and size.
    #[staticmethod]
    fn all() -> Vec<Self> {
        StandardTaper::all().map(Self).collect()
    }

    /// `Morse`, `metric`, `7:24 No.`, `Jarno` or `Brown & Sharpe`.
    #[getter]
    fn family(&self) -> &'static str {
        self.0.family().name()
    }

    /// `3`, `4 1/2`.
    #[getter]
    fn number(&self) -> &'static str {
        self.0.number()
    }

    /// Change of the diameter over the length, as the formulas take it; times 12 the taper per foot in inches.
    #[getter]
    fn taper(&self) -> f64 {
        self.0.taper().metric()
    }

    /// Angle from side to side, in degrees.
    #[getter]
    fn included_angle(&self) -> f64 {
        self.0.included_angle().metric()
    }

    /// Angle from axis to side in degrees, to which a compound slide is set.
    #[getter]
    fn half_angle(&self) -> f64 {
        self.0.half_angle().metric()
    }

    /// Diameter at the large end, or of a steep taper at its gauge line.
    #[getter]
    fn large_diameter(&self) -> PySize {
        PySize(self.0.large_diameter())
    }

    /// Diameter at the small end; None where the table has none.
    #[getter]
    fn small_diameter(&self) -> Option<PySize> {
        self.0.small_diameter().map(PySize)
    }

    /// Length between the two; None where the table has none. Shanks and sockets of other lengths are in use.
    #[getter]
    fn length(&self) -> Option<PySize> {
        self.0.length().map(PySize)
    }

    /// The standard, or the rule, that gives the taper.
    #[getter]
    fn standard(&self) -> &'static str {
        self.0.standard()
    }

    /// Where the figures come from.
    #[getter]
    fn source(&self) -> &'static str {
        self.0.source()
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("designation", self.0.to_string())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("source", self.source())?;
        dict.set_item("taper", self.taper())?;
        dict.set_item("included_angle", self.included_angle())?;
        dict.set_item("half_angle", self.half_angle())?;
        dict.set_item("large_diameter", self.0.large_diameter().format(Units::Metric))?;
        dict.set_item("small_diameter", self.0.small_diameter().map(|size| size.format(Units::Metric)))?;
        dict.set_item("length", self.0.length().map(|size| size.format(Units::Metric)))?;
        Ok(dict)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("StandardTaper('{}')", self.0)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().into_any(), (self.0.to_string(),)))
    }
}
