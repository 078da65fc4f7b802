//! Threads and their limits.
use crate::error::value_error;
use crate::object::{PyObject, held};
use pyo3::prelude::*;
use tenths::Thread;

/// A thread by its designation: its basic sizes, and with a tolerance class its limits of size.
///
/// `Thread("M10x1.5-6g")`, `Thread("M10-6H")` in the coarse pitch, `Thread("1/4-20 UNC-2A")`,
/// `Thread("#10-24 UNC-2B")`; `-LH` at the end makes it left-handed. `Thread("1/4-20 UNC")` has basic sizes alone: what
/// a class would tell is None. A fraction of an inch is rounded to 0.0001 in, so that `Thread("19/64-36 UNS-2A")` has a
/// basic major diameter of 0.2969 in.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and held
/// against reprinted tables: check a thread that matters against the standard.
///
///     >>> tenths.Thread("M8-6g").pitch_diameter
///     Limits('7.188 -0.028/-0.146 mm')
#[pyclass(frozen, extends = PyObject, name = "Thread", module = "tenths")]
pub struct PyThread;

#[pymethods]
impl PyThread {
    #[new]
    fn new(designation: &str) -> PyResult<PyClassInitializer<Self>> {
        Thread::parse(designation).map(held).map_err(value_error)
    }
}
