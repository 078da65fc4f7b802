//! What a tolerance chart comes to.
use super::PyOperationChart;
use crate::object::{Holds, PyObject};
use pyo3::prelude::*;
use tenths::ChartResult;

/// What a tolerance chart comes to, in the worst case.
#[pyclass(frozen, extends = PyObject, name = "ChartResult", module = "tenths")]
pub struct PyChartResult(ChartResult);

impl Holds for PyChartResult {
    type Held = ChartResult;

    fn hold(result: ChartResult) -> Self {
        Self(result)
    }
}

#[pymethods]
impl PyChartResult {
    /// A copy of the chart, in which every working dimension has limits.
    #[getter]
    fn chart(&self) -> PyOperationChart {
        PyOperationChart(self.0.chart())
    }
}
