//! Objects as a DataFrame of pandas'.
use super::value::{element, write};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::Units;
use tenths::object::{FieldKind, Told, Value};

/// The rows of an object: the objects of its first list of objects and of all lists of such, or itself.
fn rows(told: &Told) -> Vec<&Told> {
    let mut rows: Option<(&str, Vec<&Told>)> = None;
    for (field, value) in told.record.fields().zip(&told.values) {
        if let (FieldKind::Object(record), Value::List(values)) = (element(&field.kind), value) {
            let (name, rows) = rows.get_or_insert((record.name, vec![]));
            if *name == record.name {
                rows.extend(values.iter().filter_map(|value| match value {
                    Value::Object(row) => Some(row),
                    _ => None,
                }));
            }
        }
    }
    rows.map_or_else(|| vec![told], |(_, rows)| rows)
}

pub(super) fn frame<'py>(
    py: Python<'py>,
    told: &Told,
    shown: Units,
    units: Option<Units>,
) -> PyResult<Bound<'py, PyAny>> {
    of_rows(py, rows(told), shown, units)
}

/// A line for each of the rows.
pub(super) fn of_rows<'a, 'py>(
    py: Python<'py>,
    rows: impl IntoIterator<Item = &'a Told>,
    shown: Units,
    units: Option<Units>,
) -> PyResult<Bound<'py, PyAny>> {
    let mut lines = vec![];
    for row in rows {
        let line = PyDict::new(py);
        cells(&line, "", row, shown, units)?;
        lines.push(line);
    }
    PyModule::import(py, "pandas")?.getattr("DataFrame")?.call1((lines,))
}

/// The fields of a row, those of an object in it behind its name.
fn cells(
    line: &Bound<'_, PyDict>,
    before: &str,
    told: &Told,
    shown: Units,
    units: Option<Units>,
) -> PyResult<()> {
    for (field, value) in told.record.fields().zip(&told.values) {
        let name = format!("{before}{}", field.name);
        match (field.kind.present(), value) {
            (_, Value::Size(size)) => line.set_item(name, size.to_float(shown))?,
            (_, Value::Limits(limits)) => {
                line.set_item(format!("{name}_lower"), limits.lower().to_float(shown))?;
                line.set_item(format!("{name}_upper"), limits.upper().to_float(shown))?;
            }
            (FieldKind::Limits, _) => {
                line.set_item(format!("{name}_lower"), line.py().None())?;
                line.set_item(format!("{name}_upper"), line.py().None())?;
            }
            (_, Value::Object(told)) => cells(line, &format!("{name}_"), told, shown, units)?,
            (kind, value) => line.set_item(name, write(line.py(), kind, value, units)?)?,
        }
    }
    Ok(())
}
