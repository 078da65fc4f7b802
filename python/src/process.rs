//! Drift of a process from readings in order.
use crate::array::floats;
use crate::error::value_error;
use crate::object::object;
use crate::size::units_of;
use pyo3::prelude::*;
use tenths::inspect::capability::CapabilityLimits;
use tenths::inspect::process::drift::{DriftOptions, tool_drift};

/// What `tool_drift` of `_process.py` calls.
#[pyfunction]
pub fn _tool_drift<'py>(
    py: Python<'py>,
    units: &str,
    readings: &[u8],
    parts: Option<&[u8]>,
    limits: (Option<f64>, Option<f64>),
    capability: f64,
    confidence: f64,
) -> PyResult<Bound<'py, PyAny>> {
    let options = DriftOptions { units: units_of(units)?, required_capability: capability, confidence };
    let limits = CapabilityLimits { lower: limits.0, upper: limits.1 };
    let made = tool_drift(parts.map(floats).as_deref(), &floats(readings), limits, &options);
    object(py, &made.map_err(value_error)?)
}
