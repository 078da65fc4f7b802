//! Floats to and from arrays of numpy's.
use pyo3::exceptions::PyTypeError;
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{PyByteArray, PyBytes};
use std::borrow::Cow;

fn numpy(py: Python<'_>) -> PyResult<Bound<'_, PyModule>> {
    PyModule::import(py, intern!(py, "numpy"))
}

/// Numbers as an array of its own, which may be written to.
pub fn to_array<'py>(py: Python<'py>, numbers: &[f64]) -> PyResult<Bound<'py, PyAny>> {
    let bytes = PyByteArray::new_with(py, size_of_val(numbers), |bytes| {
        let (words, _) = bytes.as_chunks_mut::<8>();
        words.iter_mut().zip(numbers).for_each(|(word, number)| *word = number.to_ne_bytes());
        Ok(())
    })?;
    numpy(py)?.call_method1(intern!(py, "frombuffer"), (bytes,))
}

/// What numpy takes for an array of floats.
pub fn as_array<'py>(object: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
    numpy(object.py())?.call_method1(intern!(object.py(), "asarray"), (object, "f8"))
}

/// The numbers of an array, row by row.
pub fn numbers_of(array: &Bound<'_, PyAny>) -> PyResult<Vec<f64>> {
    let bytes = array.call_method0(intern!(array.py(), "tobytes"))?.cast_into::<PyBytes>()?;
    Ok(floats(bytes.as_bytes()).into_owned())
}

/// The numbers of an array of floats that lies in one piece, in place.
///
/// Nobody may write to them meanwhile: hold the interpreter, or let nobody else know the array.
pub fn floats_of<'a>(array: &'a Bound<'_, PyAny>) -> PyResult<&'a [f64]> {
    let py = array.py();
    let interface = array.getattr(intern!(py, "__array_interface__"))?;
    let typestr: String = interface.get_item(intern!(py, "typestr"))?.extract()?;
    let native = if cfg!(target_endian = "little") { "<f8" } else { ">f8" };
    let (address, _): (usize, bool) = interface.get_item(intern!(py, "data"))?.extract()?;
    let in_one_piece = interface.get_item(intern!(py, "strides"))?.is_none();
    if typestr != native || !in_one_piece || !address.is_multiple_of(align_of::<f64>()) {
        return Err(PyTypeError::new_err("the array must be of floats, in one piece"));
    }
    let count: usize = array.getattr(intern!(py, "size"))?.extract()?;
    if count == 0 {
        return Ok(&[]);
    }
    // SAFETY: so says numpy, and `array` keeps the memory.
    Ok(unsafe { std::slice::from_raw_parts(std::ptr::with_exposed_provenance(address), count) })
}

/// Floats from their bytes, as `numpy.ndarray.tobytes` gives them: in place where they lie as floats do.
pub fn floats(bytes: &[u8]) -> Cow<'_, [f64]> {
    // SAFETY: any eight bytes are a float.
    match unsafe { bytes.align_to() } {
        ([], floats, []) => Cow::Borrowed(floats),
        _ => bytes.as_chunks().0.iter().map(|word| f64::from_ne_bytes(*word)).collect(),
    }
}
