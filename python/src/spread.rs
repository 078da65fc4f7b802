//! Mean and standard deviation of a closing dimension.
use crate::object::{PyObject, held, object};
use crate::sample::stack_error;
use pyo3::prelude::*;
use tenths::stack::Spread;

/// Mean and standard deviation of a closing dimension, in the unit of its stack, and the shares beyond limits.
#[pyclass(frozen, extends = PyObject, name = "Spread", module = "tenths")]
pub struct PySpread(pub Spread);

#[pymethods]
impl PySpread {
    #[new]
    fn new(py: Python<'_>, mean: f64, shift: f64, sigma: f64) -> PyResult<PyClassInitializer<Self>> {
        Spread::new(mean, shift, sigma).map(held).map_err(|error| stack_error(py, &error))
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

    /// All of these for a pair of limits, either of which may be infinite.
    fn within<'py>(&self, py: Python<'py>, lower: f64, upper: f64) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.0.within(lower, upper).map_err(|error| stack_error(py, &error))?)
    }
}
