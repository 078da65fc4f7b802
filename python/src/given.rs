//! What calls take for a dict, a count and plain data: any mapping, whole numbers of any type, decimals and sizes.
use crate::error::{DomainError, unless_refused, value_error};
use crate::number::is_flag;
use pyo3::exceptions::PyTypeError;
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{IntoPyDict, PyBool, PyDict, PyInt, PyMapping, PyString};
use std::ops::Deref;

/// Values by name: a dict, or any other mapping as one.
pub struct Named<'py>(Bound<'py, PyDict>);

impl<'py> Named<'py> {
    /// The values of a dict.
    pub const fn of(dict: Bound<'py, PyDict>) -> Self {
        Named(dict)
    }
}

impl<'py> Deref for Named<'py> {
    type Target = Bound<'py, PyDict>;

    fn deref(&self) -> &Bound<'py, PyDict> {
        &self.0
    }
}

impl<'py> FromPyObject<'_, 'py> for Named<'py> {
    type Error = PyErr;

    fn extract(given: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(dict) = given.cast::<PyDict>() {
            return Ok(Named(dict.to_owned()));
        }
        let mapping = given.cast::<PyMapping>().map_err(|_| {
            let class = given.get_type().name().map_or_else(|_| "that".into(), |name| name.to_string());
            PyTypeError::new_err(format!("expected a dict or another mapping, not {class}"))
        })?;
        let dict = PyDict::new(given.py());
        dict.update(&mapping)?;
        Ok(Named(dict))
    }
}

/// A count: a whole number that is not negative, of any type of whole numbers, or a decimal without a fraction.
pub fn whole(name: &str, given: &Bound<'_, PyAny>) -> PyResult<u64> {
    let refused = || {
        let shown = given.repr().map_or_else(|_| "that".into(), |shown| format!("{shown:.40}"));
        format!("{name} must be a whole number, zero or more, not {shown}")
    };
    if given.is_instance_of::<PyBool>() {
        return Err(PyTypeError::new_err(refused()));
    }
    let Some(number) = integer(given)? else { return Err(PyTypeError::new_err(refused())) };
    number.extract().map_err(|_| match number.lt(0) {
        Ok(false) => value_error(format!("{name} must be at most {}, not {number}", u64::MAX)),
        _ => value_error(refused()),
    })
}

/// A number without a unit, which neither text nor True is; a refusal names its argument.
pub fn plain(name: &str, given: &Bound<'_, PyAny>) -> PyResult<f64> {
    let refused = || {
        let shown = given.repr().map_or_else(|_| "that".into(), |shown| format!("{shown:.60}"));
        PyTypeError::new_err(format!("{name} must be a number, not {shown}"))
    };
    match is_flag(given) {
        true => Err(refused()),
        false => unless_refused(given.py(), given.extract())?.ok_or_else(refused),
    }
}

/// The same for what is written in Python.
#[pyfunction]
pub fn _whole(name: &str, given: &Bound<'_, PyAny>) -> PyResult<u64> {
    whole(name, given)
}

/// A count that a smaller type holds.
pub fn small(name: &str, given: &Bound<'_, PyAny>) -> PyResult<u32> {
    let count = whole(name, given)?;
    u32::try_from(count).map_err(|_| value_error(format!("{name} must be at most {}, not {count}", u32::MAX)))
}

/// Counts that know the name of their argument, so that a refusal tells it.
macro_rules! counts {
    ($($(#[$doc:meta])* $count:ident = $name:literal;)*) => {
        $($(#[$doc])*
        #[derive(Clone, Copy)]
        pub struct $count(pub u64);

        impl<'py> FromPyObject<'_, 'py> for $count {
            type Error = PyErr;

            fn extract(given: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
                whole($name, &given).map($count)
            }
        })*
    };
}

counts! {
    /// Pieces of a lot.
    Quantity = "quantity";
    /// The greatest quantity of a comparison.
    UpTo = "up_to";
    /// Pieces of a year.
    AnnualDemand = "annual_demand";
    /// Samples.
    Samples = "n";
    /// What numbers are drawn from.
    Seed = "seed";
    /// Good pieces.
    Good = "good";
    /// Decimals of an amount of money.
    Decimals = "decimals";
}

/// Threads: one or more, or None for as many as the machine runs at once, which the core knows as 0.
#[derive(Clone, Copy)]
pub struct Threads(pub usize);

impl<'py> FromPyObject<'_, 'py> for Threads {
    type Error = PyErr;

    fn extract(given: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        if given.is_none() {
            return Ok(Threads(0));
        }
        let refused = |given: &Bound<'_, PyAny>| {
            value_error(format!(
                "threads must be 1 or more, or None for as many as the machine runs at once, not {given}"
            ))
        };
        match whole("threads", &given) {
            Ok(0) => Err(refused(&given)),
            Err(error) if error.is_instance_of::<DomainError>(given.py()) => Err(refused(&given)),
            Err(error) => Err(error),
            Ok(threads) => Ok(Threads(usize::try_from(threads).unwrap_or(usize::MAX))),
        }
    }
}

/// The integer of Python's that an object stands for.
fn integer<'py>(given: &Bound<'py, PyAny>) -> PyResult<Option<Bound<'py, PyAny>>> {
    let py = given.py();
    if given.is_instance_of::<PyInt>() {
        return Ok(Some(given.clone()));
    }
    if given.hasattr(intern!(py, "__index__"))? {
        return unless_refused(py, given.call_method0(intern!(py, "__index__")));
    }
    if given.get_type().name()? != "Decimal" {
        return Ok(None);
    }
    // An infinite one and NaN have no integer.
    let whole = unless_refused(py, given.call_method0(intern!(py, "__int__")))?;
    Ok(match whole {
        Some(whole) if whole.eq(given)? => Some(whole),
        _ => None,
    })
}

/// JSON text, given as text or as plain data, in which there may be any mapping, numbers of numpy's, decimals and sizes.
pub fn json_text(given: &Bound<'_, PyAny>) -> PyResult<String> {
    match given.is_instance_of::<PyString>() {
        true => given.extract(),
        false => as_json(given, "plain"),
    }
}

/// Plain data as JSON text; `default` is the function of `tenths._plain` for what JSON has no form for.
pub fn as_json(given: &Bound<'_, PyAny>, default: &str) -> PyResult<String> {
    let py = given.py();
    let options = [("allow_nan", false)].into_py_dict(py)?;
    options.set_item("default", PyModule::import(py, "tenths._plain")?.getattr(default)?)?;
    PyModule::import(py, "json")?.call_method("dumps", (given,), Some(&options))?.extract()
}
