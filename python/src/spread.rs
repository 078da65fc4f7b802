//! Mean and standard deviation of a closing dimension.
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::stack::Spread;

use crate::sample::stack_error;

/// Mean and standard deviation of a closing dimension, in the unit of its stack, and what they leave beyond limits.
#[pyclass(frozen, eq, name = "Spread", module = "tenths")]
#[derive(PartialEq)]
pub struct PySpread(pub Spread);

#[pymethods]
impl PySpread {
    #[new]
    fn new(py: Python<'_>, mean: f64, shift: f64, sigma: f64) -> PyResult<Self> {
        Spread::new(mean, shift, sigma).map(Self).map_err(|error| stack_error(py, &error))
    }

    /// Mean where every process is centred.
    #[getter]
    fn mean(&self) -> f64 {
        self.0.mean
    }

    /// By how much the mean may lie off to either side.
    #[getter]
    fn shift(&self) -> f64 {
        self.0.shift
    }

    /// Standard deviation.
    #[getter]
    fn sigma(&self) -> f64 {
        self.0.sigma
    }

    /// Distance from a lower limit, in standard deviations, of the mean nearest to it; infinite where nothing spreads.
    fn z_lower(&self, lower: f64) -> f64 {
        self.0.z_lower(lower)
    }

    /// Distance from an upper limit, in standard deviations, of the mean nearest to it; infinite where nothing spreads.
    fn z_upper(&self, upper: f64) -> f64 {
        self.0.z_upper(upper)
    }

    /// Share of the pieces below a limit, for a normal closing dimension with the mean nearest to it.
    fn fraction_below(&self, lower: f64) -> f64 {
        self.0.fraction_below(lower)
    }

    /// Share of the pieces above a limit, for a normal closing dimension with the mean nearest to it.
    fn fraction_above(&self, upper: f64) -> f64 {
        self.0.fraction_above(upper)
    }

    /// The figures as plain data.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("mean", self.0.mean)?;
        dict.set_item("shift", self.0.shift)?;
        dict.set_item("sigma", self.0.sigma)?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let Spread { mean, shift, sigma } = self.0;
        format!("Spread(mean={mean:?}, shift={shift:?}, sigma={sigma:?})")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> (Bound<'py, PyAny>, (f64, f64, f64)) {
        (py.get_type::<Self>().into_any(), (self.0.mean, self.0.shift, self.0.sigma))
    }
}
