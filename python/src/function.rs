//! Functions of the core with a record: what every generated binding in `functions.rs` calls.
use crate::error::{named, value_error};
use crate::object::value_of;
use crate::options::{read, unknown};
use crate::size::size_of;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use tenths::object::{FieldKind, FieldValue, Function, FunctionArgument, FunctionRecord, Value};

/// Calls a function with what Python gave.
pub fn call<'py, T: FieldValue, E: std::fmt::Display>(
    function: &'static Function<T, E>,
    given: &Bound<'py, PyTuple>,
    by_name: Option<&Bound<'py, PyDict>>,
) -> PyResult<Bound<'py, PyAny>> {
    let values = values(&function.record, given, by_name)?;
    let made = function.answer(&values).map_err(value_error)?.map_err(value_error)?;
    value_of(given.py(), &function.record.result, &made.value())
}

/// The value of each argument: what was given by position, then by name, else its default.
fn values(
    record: &'static FunctionRecord,
    given: &Bound<'_, PyTuple>,
    by_name: Option<&Bound<'_, PyDict>>,
) -> PyResult<Vec<Value>> {
    let (name, places) = (record.name, record.arguments.iter().filter(|argument| !argument.by_name).count());
    if given.len() > places {
        let count = given.len();
        return Err(PyTypeError::new_err(format!(
            "{name} takes {places} arguments by position, not {count}"
        )));
    }
    let mut found: Vec<Option<Bound<'_, PyAny>>> = given.iter().map(Some).collect();
    found.resize(record.arguments.len(), None);
    for (key, value) in by_name.into_iter().flatten() {
        let key: String = key.extract()?;
        let place = record.arguments.iter().position(|argument| argument.field.name == key);
        let place = place.ok_or_else(|| unknown(name, record.nearest(&key), &key))?;
        if found[place].replace(value).is_some() {
            return Err(PyTypeError::new_err(format!("{name} got '{key}' twice")));
        }
    }
    let lists = PyDict::new(given.py());
    for (argument, value) in record.arguments.iter().zip(&found) {
        if let (FieldKind::List(_), Some(value)) = (argument.field.kind.present(), value) {
            lists.set_item(argument.field.name, value)?;
        }
    }
    if lists.len() > 1 {
        let readings = PyModule::import(given.py(), "tenths._readings")?;
        readings.call_method("check_order", (), Some(&lists))?;
    }
    record.arguments.iter().zip(found).map(|(argument, given)| value(name, argument, given)).collect()
}

fn value(
    function: &'static str,
    argument: &'static FunctionArgument,
    given: Option<Bound<'_, PyAny>>,
) -> PyResult<Value> {
    let name = argument.field.name;
    match (given, argument.default) {
        (Some(given), _) => match argument.field.kind.present() {
            FieldKind::Size if !given.is_none() => {
                Ok(Value::Size(size_of(&given).map_err(|error| named(given.py(), name, error))?))
            }
            _ => read(function, &argument.field, &given, None),
        },
        (None, Some(default)) => Ok(default()),
        (None, None) => Err(PyTypeError::new_err(format!("{function} needs '{name}'"))),
    }
}
