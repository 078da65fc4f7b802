//! The steps of a geared head.
use crate::error::{raise, value_error};
use crate::formula::units_of;
use pyo3::prelude::*;
use tenths::quantity::SpindleSpeed;
use tenths::{Quantity, Units, cutting};

/// A spindle speed, a number or text with a unit.
fn speed_of(speed: &Bound<'_, PyAny>, units: Units) -> PyResult<SpindleSpeed> {
    let reading = match speed.extract::<String>() {
        Ok(text) => SpindleSpeed::KIND.read(&text, units).map_err(value_error)?,
        Err(_) => speed.extract()?,
    };
    Ok(SpindleSpeed::new_in(reading, units))
}

/// The nearest step that is not above the speed wanted, for readings in the units of a side.
#[pyfunction]
pub fn _lower_spindle_step(
    py: Python<'_>,
    wanted: &Bound<'_, PyAny>,
    steps: Vec<Bound<'_, PyAny>>,
    units: &str,
) -> PyResult<f64> {
    let units = units_of(units)?;
    let steps = steps.iter().map(|step| speed_of(step, units)).collect::<PyResult<Vec<_>>>()?;
    let step = cutting::geared_head::lower_step(speed_of(wanted, units)?, &steps);
    step.map(|step| step.in_units(units)).map_err(|error| raise(py, &error))
}
