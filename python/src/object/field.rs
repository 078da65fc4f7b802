//! The fields of an object as attributes that cannot be set.
use super::{PyObject, value};
use pyo3::exceptions::PyAttributeError;
use pyo3::prelude::*;
use tenths::object::{Field, FieldKind, ObjectRecord};

// The attribute of one field. A comment for documentation here would hide that of the field.
#[pyclass(frozen, name = "_Field", module = "tenths")]
struct PyField {
    place: usize,
    field: &'static Field,
}

/// Gives a class the fields of its record.
pub(super) fn add(class: &Bound<'_, PyAny>, record: &'static ObjectRecord) -> PyResult<()> {
    for (place, field) in record.fields().enumerate() {
        class.setattr(field.name, PyField { place, field })?;
    }
    Ok(())
}

#[pymethods]
impl PyField {
    fn __get__<'py>(
        slf: &Bound<'py, Self>,
        instance: Option<&Bound<'py, PyAny>>,
        _owner: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let Some(instance) = instance else { return Ok(slf.clone().into_any()) };
        let (PyField { place, field }, object) = (slf.get(), instance.cast::<PyObject>()?.get());
        value::write(slf.py(), &field.kind, &object.told.values[*place], object.units)
    }

    fn __set__(&self, _instance: &Bound<'_, PyAny>, _value: &Bound<'_, PyAny>) -> PyResult<()> {
        Err(self.frozen())
    }

    fn __delete__(&self, _instance: &Bound<'_, PyAny>) -> PyResult<()> {
        Err(self.frozen())
    }

    #[getter]
    fn __doc__(&self) -> String {
        match self.field.kind.present() {
            FieldKind::Choice(names) => format!("{}\n\nOne of {}.", self.field.doc, names.join(", ")),
            _ => self.field.doc.to_string(),
        }
    }

    #[getter]
    fn __name__(&self) -> &'static str {
        self.field.name
    }
}

impl PyField {
    fn frozen(&self) -> PyErr {
        PyAttributeError::new_err(format!("{} cannot be changed: the object is frozen", self.field.name))
    }
}
