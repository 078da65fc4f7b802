//! The steps of a geared head.
use crate::error::raise;
use crate::number::Wanted;
use crate::size::units_of;
use pyo3::prelude::*;
use tenths::quantity::SpindleSpeed;
use tenths::{Quantity, cutting};

/// The speed wanted, and the steps, that the choice among steps asks for.
#[pyfunction]
pub fn _wanted_speeds(units: &str) -> PyResult<(Wanted, Wanted)> {
    let units = units_of(units)?;
    let of = |argument| Wanted::new("lower_spindle_step", argument, SpindleSpeed::KIND, units);
    Ok((of("wanted"), of("steps")))
}

/// The nearest step that is not above the speed wanted, in the unit of a side.
#[pyfunction]
pub fn _lower_spindle_step(py: Python<'_>, wanted: f64, steps: Vec<f64>, units: &str) -> PyResult<f64> {
    let units = units_of(units)?;
    let speed = |reading| SpindleSpeed::new_in(reading, units);
    let steps: Vec<SpindleSpeed> = steps.into_iter().map(speed).collect();
    let step = cutting::geared_head::lower_step(speed(wanted), &steps);
    step.map(|step| step.in_units(units)).map_err(|error| raise(py, &error))
}
