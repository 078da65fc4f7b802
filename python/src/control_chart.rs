//! Control charts.
use crate::array::floats;
use crate::error::value_error;
use crate::given::small;
use crate::object::object;
use crate::options::options;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::inspect::control_chart::{ChartKind, ChartOptions, average_run_length, control_chart};

/// Whether a kind of chart is of readings in subgroups.
#[pyfunction]
pub fn _takes_subgroups(kind: &str) -> PyResult<bool> {
    let kind = ChartKind::parse(kind).map_err(value_error)?;
    Ok(matches!(kind, ChartKind::XbarR | ChartKind::XbarS | ChartKind::Ewma | ChartKind::Cusum))
}

/// What `control_chart` of `_charts.py` calls.
#[pyfunction]
pub fn _control_chart<'py>(
    py: Python<'py>,
    kind: &str,
    data: &[u8],
    sizes: &[u8],
    phases: Vec<usize>,
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let options = ChartOptions { phases: &phases, ..options("control_chart", given, None)? };
    let kind = ChartKind::parse(kind).map_err(value_error)?;
    let (data, sizes) = (floats(data), floats(sizes));
    let chart = py.detach(|| control_chart(kind, &data, &sizes, &options)).map_err(value_error)?;
    object(py, &chart)
}

/// What `average_run_length` of `_charts.py` calls for each shift.
#[pyfunction]
pub fn _average_run_length(
    kind: &str,
    shift: f64,
    size: &Bound<'_, PyAny>,
    given: &Bound<'_, PyDict>,
) -> PyResult<f64> {
    let size = small("size", size)? as usize;
    let kind = ChartKind::parse(kind).map_err(value_error)?;
    let options = options("average_run_length", given, None)?;
    average_run_length(kind, shift, size, &options).map_err(value_error)
}
