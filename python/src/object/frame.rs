//! Objects as a DataFrame of pandas'.
use super::Shown;
use super::value::{element, write};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::object::{FieldKind, Told, Value};
use tenths::{Limits, Size};

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

/// A line for each row of an object.
pub(super) fn frame<'py>(py: Python<'py>, told: &Told, shown: Shown) -> PyResult<Bound<'py, PyAny>> {
    of_rows(py, rows(told), shown)
}

/// A line for each of the rows; `attrs["units"]` has the unit of each column of numbers.
pub(super) fn of_rows<'a, 'py>(
    py: Python<'py>,
    rows: impl IntoIterator<Item = &'a Told>,
    shown: Shown,
) -> PyResult<Bound<'py, PyAny>> {
    let (mut lines, units) = (vec![], PyDict::new(py));
    for row in rows {
        let line = PyDict::new(py);
        cells(&line, &units, "", row, shown.within(row))?;
        lines.push(line);
    }
    let frame = PyModule::import(py, "pandas")?.getattr("DataFrame")?.call1((lines,))?;
    frame.getattr("attrs")?.set_item("units", units)?;
    Ok(frame)
}

/// The fields of a row, those of an object in it behind its name.
fn cells(
    line: &Bound<'_, PyDict>,
    units: &Bound<'_, PyDict>,
    before: &str,
    told: &Told,
    shown: Shown,
) -> PyResult<()> {
    for (field, value) in told.record.fields().zip(&told.values) {
        let (name, kind) = (format!("{before}{}", field.name), field.kind.present());
        if let Value::Object(told) = value {
            cells(line, units, &format!("{name}_"), told, shown.within(told))?;
            continue;
        }
        if let Value::ByName(pairs) = value {
            for (key, value) in pairs {
                line.set_item(
                    format!("{name}_{key}"),
                    write(line.py(), element(kind), value, shown.quantities)?,
                )?;
                units.set_item(format!("{name}_{key}"), shown.label(kind))?;
            }
            continue;
        }
        if let FieldKind::Limits = kind {
            for (end, of) in [("lower", Limits::lower as fn(&Limits) -> Size), ("upper", Limits::upper)] {
                let size = match value {
                    Value::Limits(limits) => Some(of(limits).to_float(shown.sizes)),
                    _ => None,
                };
                line.set_item(format!("{name}_{end}"), size)?;
                units.set_item(format!("{name}_{end}"), shown.label(kind))?;
            }
            continue;
        }
        match value {
            Value::Size(size) => line.set_item(&name, size.to_float(shown.sizes))?,
            value => line.set_item(&name, write(line.py(), kind, value, shown.quantities)?)?,
        }
        if is_numeric(kind) {
            units.set_item(name, shown.label(kind))?;
        }
    }
    Ok(())
}

fn is_numeric(kind: &FieldKind) -> bool {
    use FieldKind::{Number, Pure, Quantity, Size, Whole};
    matches!(kind, Size | Quantity(_) | Number | Pure | Whole)
}
