//! Objects that unpack as tuples of their own fields, and rows of objects.
use super::{PyObject, frame, html, value};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyIterator, PyTuple, PyType};
use tenths::object::{Field, FieldKind, ObjectRecord};

/// An object that is also a sequence of its own fields: it unpacks, and equals a tuple of them.
///
/// What follows from its fields, such as `upper` of a band, is an attribute alone.
#[pyclass(frozen, subclass, extends = PyObject, name = "Row", module = "tenths")]
pub struct PyRow;

/// The fields that a record of this kind unpacks as.
fn own(record: &ObjectRecord) -> &'static [Field] {
    record.fields[0]
}

/// What the class of a record has as a named tuple has it.
pub(super) fn prepare(class: &Bound<'_, PyAny>, record: &ObjectRecord) -> PyResult<()> {
    let names = own(record).iter().map(|field| field.name);
    class.setattr("_fields", PyTuple::new(class.py(), names)?)
}

/// Lets the library of sequences, and pandas with it, know the class.
pub(super) fn register(class: &Bound<'_, PyType>) -> PyResult<()> {
    let sequence = PyModule::import(class.py(), "collections.abc")?.getattr("Sequence")?;
    sequence.call_method1("register", (class,)).map(|_| ())
}

/// The fields of an object of this class as a tuple.
fn tuple<'py>(slf: &Bound<'py, PyRow>) -> PyResult<Bound<'py, PyTuple>> {
    let (py, object) = (slf.py(), slf.as_super().get());
    let pairs = own(object.told.record).iter().zip(&object.told.values);
    let values = pairs.map(|(field, told)| value::write(py, &field.kind, told, object.units));
    PyTuple::new(py, values.collect::<PyResult<Vec<_>>>()?)
}

#[pymethods]
impl PyRow {
    #[new]
    #[pyo3(signature = (*arguments, **_named))]
    fn new(
        arguments: &Bound<'_, PyTuple>,
        _named: Option<&Bound<'_, PyDict>>,
    ) -> PyResult<PyClassInitializer<Self>> {
        Ok(PyClassInitializer::from(PyObject::new(arguments, None)?).add_subclass(PyRow))
    }

    /// The fields that it unpacks as, by name.
    fn _asdict<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(slf.py());
        for (field, value) in own(slf.as_super().get().told.record).iter().zip(tuple(slf)?) {
            dict.set_item(field.name, value)?;
        }
        Ok(dict)
    }

    fn __len__(slf: &Bound<'_, Self>) -> usize {
        own(slf.as_super().get().told.record).len()
    }

    fn __getitem__<'py>(slf: &Bound<'py, Self>, place: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        tuple(slf)?.into_any().get_item(place)
    }

    fn __iter__<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyIterator>> {
        tuple(slf)?.into_any().try_iter()
    }

    /// Its `value`, of one that has such a field.
    fn __float__(slf: &Bound<'_, Self>) -> PyResult<f64> {
        let told = &slf.as_super().get().told;
        let value = told.get("value");
        value.ok_or_else(|| PyTypeError::new_err(format!("{} is not a single number", told.record.name)))
    }

    fn __eq__<'py>(slf: &Bound<'py, Self>, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        match other.cast::<PyTuple>() {
            Ok(other) => Ok(tuple(slf)?.eq(other)?.into_pyobject(slf.py())?.to_owned().into_any()),
            Err(_) => Ok(slf.as_super().get().__eq__(other)?.into_bound(slf.py())),
        }
    }

    /// That of the tuple it equals; values by name are dicts, and no tuple with such has a hash.
    fn __hash__(slf: &Bound<'_, Self>) -> PyResult<isize> {
        let object = slf.as_super().get();
        let has_names = object.told.record.fields().any(|field| matches!(field.kind, FieldKind::ByName(_)));
        if has_names { Ok(object.__hash__() as isize) } else { tuple(slf)?.hash() }
    }
}

/// The names of the columns of rows, and a line of text for each row: what shows as a table.
#[pyfunction]
pub fn _cells(rows: Vec<PyRef<'_, PyObject>>) -> PyResult<(Vec<&'static str>, Vec<Vec<String>>)> {
    let heads = rows.first().map(|row| row.told.record.fields().map(|field| field.name).collect());
    let line = |row: &PyRef<'_, PyObject>| {
        let (shown, pairs) = (row.shown(None)?, row.told.record.fields().zip(&row.told.values));
        Ok(pairs.map(|(field, value)| html::text(&field.kind, value, shown)).collect())
    };
    Ok((heads.unwrap_or_default(), rows.iter().map(line).collect::<PyResult<_>>()?))
}

/// Rows as a DataFrame of pandas'.
#[pyfunction]
pub fn _frame<'py>(
    py: Python<'py>,
    rows: Vec<PyRef<'py, PyObject>>,
    unit: Option<&str>,
) -> PyResult<Bound<'py, PyAny>> {
    match rows.first() {
        Some(first) => frame::of_rows(py, rows.iter().map(|row| &*row.told), first.shown(unit)?),
        None => PyModule::import(py, "pandas")?.getattr("DataFrame")?.call0(),
    }
}

/// Objects of Python's in a tuple that shows itself as a table.
pub fn rows<'py>(py: Python<'py>, list: Vec<Bound<'py, PyAny>>) -> PyResult<Bound<'py, PyAny>> {
    PyModule::import(py, "tenths._rows")?.getattr("Rows")?.call1((list,))
}
