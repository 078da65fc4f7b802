//! Capability of processes.
use crate::array::floats_of;
use crate::error::value_error;
use crate::object::many_objects;
use crate::options::options;
use crate::size::units_of;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::inspect::capability::{
    CapabilityError, CapabilityLimits, CapabilityOptions, capabilities, capability,
};

/// The names of the columns of a table.
#[derive(FromPyObject)]
pub enum Names {
    /// Their numbers from zero, of so many columns.
    Numbers(usize),
    Given(Vec<String>),
}

/// What `capability` of `_capability.py` calls: of the columns of a table, one after the other, of `count` readings each,
/// in an array that only the caller knows; without names of one characteristic. One pair of limits holds for all.
#[pyfunction]
#[allow(clippy::too_many_arguments, reason = "called from one place, by position")]
pub fn _capability<'py>(
    py: Python<'py>,
    units: &str,
    columns: &Bound<'py, PyAny>,
    count: usize,
    names: Option<Names>,
    limits: Vec<(Option<f64>, Option<f64>)>,
    subgroups: Option<Vec<usize>>,
    given: &Bound<'py, PyDict>,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    let options = options("capability", given, Some(units))?;
    let options = CapabilityOptions { units, subgroups, ..options };
    let limits: Vec<_> = limits.into_iter().map(|(lower, upper)| CapabilityLimits { lower, upper }).collect();
    let readings = floats_of(columns)?;
    let made = || match (names, limits.as_slice()) {
        (None, [limits]) => capability(readings, *limits, &options).map(|one| vec![one]),
        (names, limits) => {
            let names = match names {
                Some(Names::Given(names)) => names,
                Some(Names::Numbers(count)) => (0..count).map(|number| number.to_string()).collect(),
                None => vec![],
            };
            // Not by chunks, of which columns without readings have none.
            let column = |place: usize| readings.get(place * count..(place + 1) * count).unwrap_or_default();
            let columns: Vec<_> =
                names.into_iter().enumerate().map(|(place, name)| (name, column(place))).collect();
            match limits {
                [one] => capabilities(&columns, &vec![*one; columns.len()], &options),
                each => capabilities(&columns, each, &options),
            }
        }
    };
    let made: Result<_, CapabilityError> = py.detach(made);
    many_objects(py, made.map_err(value_error)?)
}
