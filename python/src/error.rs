//! Errors of the core as exceptions.
use pyo3::exceptions::{PyException, PyTypeError, PyUserWarning, PyValueError};
use pyo3::prelude::*;
use pyo3::types::PyType;
use std::ffi::CString;
use tenths::quantity::ReadingError;
use tenths::stack::Input;
use tenths::{DocumentError, Error};

pyo3::create_exception!(tenths, DomainError, PyValueError, "A number or text for which there is no answer.");

/// Makes the attributes readable on every such error: None where they do not apply.
pub fn prepare(py: Python<'_>) -> PyResult<Bound<'_, PyType>> {
    let class = py.get_type::<DomainError>();
    for name in ["formula", "argument", "value", "must_be", "rule", "output", "faults"] {
        class.setattr(name, py.None())?;
    }
    Ok(class)
}

/// A domain error with what the core knows as attributes.
#[cold]
pub fn raise(py: Python<'_>, error: &Error) -> PyErr {
    let raised = DomainError::new_err(error.to_string());
    let value = raised.value(py);
    let set = match error {
        Error::Argument { formula, argument, value: number, need, .. } => value
            .setattr("formula", *formula)
            .and_then(|()| value.setattr("argument", *argument))
            .and_then(|()| value.setattr("value", *number))
            .and_then(|()| value.setattr("must_be", need)),
        Error::Rule { formula, rule, .. } => {
            value.setattr("formula", *formula).and_then(|()| value.setattr("rule", *rule))
        }
        Error::NoAnswer { formula, output } => {
            value.setattr("formula", *formula).and_then(|()| value.setattr("output", *output))
        }
        _ => Ok(()),
    };
    set.err().unwrap_or(raised)
}

/// Text that cannot be read as an argument.
#[cold]
pub fn reading(py: Python<'_>, formula: &str, argument: &str, error: &ReadingError) -> PyErr {
    let raised = DomainError::new_err(format!("{formula}: {argument}: {error}"));
    let value = raised.value(py);
    let set = value.setattr("formula", formula).and_then(|()| value.setattr("argument", argument));
    set.err().unwrap_or(raised)
}

/// An error with the name of what it is about before it.
pub fn named(py: Python<'_>, name: impl std::fmt::Display, error: PyErr) -> PyErr {
    let text = format!("{name}: {}", error.value(py));
    match error.is_instance_of::<PyTypeError>(py) {
        true => PyTypeError::new_err(text),
        false => value_error(text),
    }
}

/// The faults of a document as an exception; `faults` lists their places and messages.
#[cold]
pub fn document_error(py: Python<'_>, error: &DocumentError) -> PyErr {
    let raised = DomainError::new_err(error.to_string());
    let faults: Vec<_> = error.faults().iter().map(|f| (f.place.clone(), f.message.clone())).collect();
    raised.value(py).setattr("faults", faults).err().unwrap_or(raised)
}

/// Any other error of the core.
pub fn value_error(error: impl std::fmt::Display) -> PyErr {
    DomainError::new_err(error.to_string())
}

/// Warns where both deviations of a size lie above it, as they do if somebody leaves out the sign of the lower one. The
/// warning points at the line so many frames of Python away.
pub fn advise_of_signs(py: Python<'_>, name: &str, plus: f64, minus: f64, frames: i32) -> PyResult<()> {
    if !(plus > 0.0 && minus > 0.0) {
        return Ok(());
    }
    let text = format!(
        "{name}: plus {plus} and minus {minus} both lie above the nominal size. Fix: minus is a signed deviation and usually \
         negative; for +{plus}/-{minus} give minus=-{minus}"
    );
    warn(py, text, frames)
}

/// Warns where measured sizes do not go with the limits of an input.
pub fn advise_of_law(py: Python<'_>, name: &str, input: &Input, frames: i32) -> PyResult<()> {
    let advice = input.distribution.advice(input.lower, input.upper);
    advice.map_or(Ok(()), |advice| warn(py, format!("{name}: {advice}"), frames))
}

fn warn(py: Python<'_>, text: String, frames: i32) -> PyResult<()> {
    PyErr::warn(py, &py.get_type::<PyUserWarning>(), &CString::new(text)?, frames)
}

/// What came of a question to an object; None where the object refused. An interrupt on the way is no refusal: it goes on.
pub fn unless_refused<T>(py: Python<'_>, answer: PyResult<T>) -> PyResult<Option<T>> {
    match answer {
        Ok(answer) => Ok(Some(answer)),
        Err(error) if error.is_instance_of::<PyException>(py) => Ok(None),
        Err(error) => Err(error),
    }
}
