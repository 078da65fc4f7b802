//! Options of the core from keyword arguments.
use crate::array::numbers_of;
use crate::error::{named, value_error};
use crate::given::whole;
use crate::number::{Wanted, is_flag};
use crate::object::value_of;
use crate::size::{length_of, limits_of};
use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use tenths::object::{Field, FieldKind, OptionError, Options, Value};
use tenths::quantity::{Quantity, Ratio};
use tenths::registry::options as records;
use tenths::{Size, Units};

/// The options that keyword arguments of a function give. Bare numbers of lengths are in the units of a side, where there
/// is one.
pub fn options<O: Options>(
    function: &'static str,
    given: &Bound<'_, PyDict>,
    units: Option<Units>,
) -> PyResult<O> {
    let mut values = (O::RECORD.defaults)();
    for (name, value) in given {
        let name: String = name.extract()?;
        let place = O::RECORD.fields.iter().position(|field| field.name == name);
        let place = place.ok_or_else(|| unknown(function, O::RECORD.nearest(&name), &name))?;
        values[place] = read(function, &O::RECORD.fields[place], &value, units)?;
    }
    O::of_values(&values).map_err(value_error)
}

/// The error for a name that no argument has; `nearest` is the one that is most like it.
pub fn unknown(function: &str, nearest: Option<&str>, name: &str) -> PyErr {
    let meant = nearest.map_or(String::new(), |meant| format!(": is it '{meant}'?"));
    PyTypeError::new_err(format!("{function} has no argument '{name}'{meant}"))
}

/// The value of an option or an argument.
pub fn read(
    function: &'static str,
    field: &'static Field,
    given: &Bound<'_, PyAny>,
    units: Option<Units>,
) -> PyResult<Value> {
    let refused = || -> PyResult<OptionError> { Ok(field.refuse(given.repr()?.to_string())) };
    let wrong_type = || -> PyResult<PyErr> { Ok(PyTypeError::new_err(refused()?.to_string())) };
    if given.is_none() {
        return match field.kind {
            FieldKind::Optional(_) => Ok(Value::Absent),
            _ => Err(wrong_type()?),
        };
    }
    let kind = field.kind.present();
    if is_flag(given) && !matches!(kind, FieldKind::Flag) {
        return Err(wrong_type()?);
    }
    Ok(match kind {
        FieldKind::Size => {
            let size = length_of(function, field.name, given, units);
            Value::Size(size.map_err(|error| named(given.py(), field.name, error))?)
        }
        FieldKind::Number | FieldKind::Pure | FieldKind::Seconds => {
            let wanted = match (kind, units) {
                (FieldKind::Number, Some(units)) => Wanted::length(function, field.name, units),
                _ => Wanted::new(function, field.name, Ratio::KIND, Units::Metric),
            };
            Value::Number(match percentage(field.name, given) {
                Some(number) => wanted.one(&number)?,
                None => wanted.one(given)?,
            })
        }
        FieldKind::Whole => match whole(field.name, given)? {
            count if count <= i64::MAX as u64 => Value::Whole(count as i64),
            _ => return Err(value_error(refused()?)),
        },
        FieldKind::Flag => Value::Flag(given.extract().or_else(|_| Err(wrong_type()?))?),
        FieldKind::Choice(names) => {
            let name: String = given.extract().or_else(|_| Err(wrong_type()?))?;
            let place = names.iter().position(|known| *known == name.trim());
            Value::Choice(place.map_or_else(|| Err(value_error(refused()?)), Ok)?)
        }
        FieldKind::Limits => {
            Value::Limits(limits_of(given).map_err(|error| named(given.py(), field.name, error))?)
        }
        FieldKind::List(FieldKind::Number | FieldKind::Pure) => {
            let read = PyModule::import(given.py(), "tenths._readings")?.getattr("row")?;
            let numbers = numbers_of(&read.call1((field.name, given))?)?;
            Value::List(numbers.into_iter().map(Value::Number).collect())
        }
        FieldKind::Text => Value::Text(given.extract::<String>().or_else(|_| Err(wrong_type()?))?.into()),
        other => unreachable!("no option of {other:?} is read in Python yet"),
    })
}

/// Numbers that are percentages themselves: 1 and '1 %' are the same, where a share would be a hundredth of it.
const PERCENTAGES: [&str; 2] = ["aql", "ltpd"];

/// The number before the sign of a percentage that is given as text.
fn percentage<'py>(name: &str, given: &Bound<'py, PyAny>) -> Option<Bound<'py, PyAny>> {
    let text: String = PERCENTAGES.contains(&name).then(|| given.extract().ok()).flatten()?;
    let number = text.trim().strip_suffix('%')?.trim_end();
    Some(PyString::new(given.py(), number).into_any())
}

/// An option as the signature of its function and its documentation show it: name, default, meaning, the names that it is
/// chosen from.
type Shown<'py> = (&'static str, Bound<'py, PyAny>, &'static str, Vec<&'static str>);

/// The options of a record by its name.
#[pyfunction]
pub fn _options<'py>(py: Python<'py>, record: &str) -> PyResult<Vec<Shown<'py>>> {
    let found = records().iter().find(|known| known.name == record);
    let record =
        found.ok_or_else(|| PyValueError::new_err(format!("'{record}' has no record of options")))?;
    let defaults = (record.defaults)();
    let shown = record.fields.iter().zip(&defaults).map(|(field, default)| {
        let default = match default {
            Value::Size(Size::ZERO) => 0_i64.into_pyobject(py)?.into_any(),
            default => value_of(py, &field.kind, default)?,
        };
        let choices = match field.kind.present() {
            FieldKind::Choice(names) => names.to_vec(),
            _ => vec![],
        };
        Ok((field.name, default, field.doc, choices))
    });
    shown.collect()
}
