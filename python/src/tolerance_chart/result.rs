//! What a tolerance chart comes to.
use super::PyOperationChart;
use crate::object::PyObject;
use pyo3::prelude::*;
use tenths::ChartResult;

/// The result of a tolerance chart, in the worst case.
#[pyclass(frozen, extends = PyObject, name = "ChartResult", module = "tenths")]
pub struct PyChartResult(pub ChartResult);

#[pymethods]
impl PyChartResult {
    /// A copy of the chart, in which every working dimension has limits.
    #[getter]
    fn chart(&self) -> PyOperationChart {
        PyOperationChart(self.0.chart())
    }
}
