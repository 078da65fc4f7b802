//! Values of fields in Python and back.
use super::{PyObject, instance, not_its_values, row};
use crate::error::value_error;
use crate::size::{PyLimits, PySize};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use tenths::Units;
use tenths::money::Amount;
use tenths::object::{FieldKind, Told, Value};
use tenths::quantity::Kind;

/// A quantity in metric base units, as a reading in the shop unit of a side.
pub(super) fn reading(kind: &Kind, metric: f64, units: Units) -> f64 {
    kind.unit(units).from_base(kind.base_in(metric, units))
}

/// Quantities of an object of no namespace are metric.
pub(super) fn side(units: Option<Units>) -> Units {
    units.unwrap_or(Units::Metric)
}

/// The name of a choice.
pub(super) fn choice_name(kind: &FieldKind, place: usize) -> &'static str {
    match kind {
        FieldKind::Choice(names) => names.get(place).copied().unwrap_or_default(),
        _ => "",
    }
}

/// The kind of the elements of a list.
pub(super) fn element(kind: &FieldKind) -> &FieldKind {
    match kind {
        FieldKind::List(element) | FieldKind::ByName(element) => element,
        other => other,
    }
}

/// An amount of money as a decimal of Python's, with its decimals.
pub fn decimal(py: Python<'_>, amount: Amount) -> PyResult<Bound<'_, PyAny>> {
    PyModule::import(py, "decimal")?.getattr("Decimal")?.call1((amount.to_string(),))
}

/// An amount of money from a decimal of Python's.
fn amount(object: &Bound<'_, PyAny>) -> PyResult<Amount> {
    let text: String = object.call_method1("__format__", ("f",))?.extract()?;
    Amount::parse(&text).map_err(value_error)
}

/// A value of a field as an object of Python's.
pub(super) fn write<'py>(
    py: Python<'py>,
    kind: &FieldKind,
    value: &Value,
    units: Option<Units>,
) -> PyResult<Bound<'py, PyAny>> {
    let kind = kind.present();
    Ok(match value {
        Value::Absent => py.None().into_bound(py),
        Value::Size(size) => Bound::new(py, PySize(*size))?.into_any(),
        Value::Limits(limits) => Bound::new(py, PyLimits(*limits))?.into_any(),
        Value::Number(number) => match kind {
            FieldKind::Quantity(kind) => reading(kind, *number, side(units)).into_pyobject(py)?.into_any(),
            _ => number.into_pyobject(py)?.into_any(),
        },
        Value::Whole(count) => count.into_pyobject(py)?.into_any(),
        Value::Flag(flag) => flag.into_pyobject(py)?.to_owned().into_any(),
        Value::Amount(amount) => decimal(py, *amount)?,
        Value::Choice(place) => choice_name(kind, *place).into_pyobject(py)?.into_any(),
        Value::Text(text) => text.as_ref().into_pyobject(py)?.into_any(),
        Value::Object(told) => instance(py, told.clone(), units)?,
        Value::List(values) => {
            let list = values.iter().map(|value| write(py, element(kind), value, units));
            let list = list.collect::<PyResult<Vec<_>>>()?;
            match element(kind) {
                FieldKind::Object(_) => row::rows(py, list)?,
                _ => PyTuple::new(py, list)?.into_any(),
            }
        }
        Value::ByName(pairs) => {
            let dict = PyDict::new(py);
            for (name, value) in pairs {
                dict.set_item(name.as_ref(), write(py, element(kind), value, units)?)?;
            }
            dict.into_any()
        }
    })
}

/// The value of a field from what [`write`] gave.
pub(super) fn read(kind: &FieldKind, object: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<Value> {
    Ok(match kind {
        FieldKind::Optional(_) if object.is_none() => Value::Absent,
        FieldKind::Optional(kind) => read(kind, object, units)?,
        FieldKind::Size => Value::Size(object.cast::<PySize>()?.get().0),
        FieldKind::Limits => Value::Limits(object.cast::<PyLimits>()?.get().0),
        FieldKind::Quantity(kind) => {
            let units = side(units);
            Value::Number(kind.metric_of(kind.unit(units).to_base(object.extract()?), units))
        }
        FieldKind::Number | FieldKind::Pure | FieldKind::Seconds => Value::Number(object.extract()?),
        FieldKind::Whole => Value::Whole(object.extract()?),
        FieldKind::Amount => Value::Amount(amount(object)?),
        FieldKind::Flag => Value::Flag(object.extract()?),
        FieldKind::Choice(names) => {
            let name: String = object.extract()?;
            let place = names.iter().position(|known| *known == name);
            Value::Choice(place.ok_or_else(not_its_values)?)
        }
        FieldKind::Text => Value::Text(object.extract::<String>()?.into()),
        FieldKind::Object(record) => {
            let told = &object.cast::<PyObject>()?.get().told;
            if told.record.name != record.name {
                return Err(not_its_values());
            }
            Value::Object(Told::clone(told))
        }
        FieldKind::ByName(kind) => {
            let dict = object.cast::<PyDict>()?.iter();
            let pair = |(name, value): (Bound<'_, PyAny>, Bound<'_, PyAny>)| -> PyResult<_> {
                Ok((name.extract::<String>()?.into(), read(kind, &value, units)?))
            };
            Value::ByName(dict.map(pair).collect::<PyResult<_>>()?)
        }
        FieldKind::List(kind) => {
            let list: Vec<Bound<'_, PyAny>> = object.extract()?;
            Value::List(list.iter().map(|one| read(kind, one, units)).collect::<PyResult<_>>()?)
        }
    })
}

/// The fields of an object as plain data.
pub(super) fn to_dict<'py>(
    py: Python<'py>,
    told: &Told,
    units: Option<Units>,
) -> PyResult<Bound<'py, PyDict>> {
    let dict = PyDict::new(py);
    for (field, value) in told.record.fields().zip(&told.values) {
        dict.set_item(field.name, plain(py, &field.kind, value, units)?)?;
    }
    Ok(dict)
}

/// A value as plain data.
fn plain<'py>(
    py: Python<'py>,
    kind: &FieldKind,
    value: &Value,
    units: Option<Units>,
) -> PyResult<Bound<'py, PyAny>> {
    Ok(match value {
        Value::Size(size) => size.format(Units::Metric).into_pyobject(py)?.into_any(),
        Value::Limits(limits) => PyLimits(*limits).to_dict(py)?.into_any(),
        Value::Amount(amount) => amount.to_string().into_pyobject(py)?.into_any(),
        Value::Object(told) => to_dict(py, told, units)?.into_any(),
        Value::List(values) => {
            let kind = element(kind.present());
            let list = values.iter().map(|value| plain(py, kind, value, units));
            list.collect::<PyResult<Vec<_>>>()?.into_pyobject(py)?.into_any()
        }
        other => write(py, kind, other, units)?,
    })
}
