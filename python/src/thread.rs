//! Threads and their limits.
use crate::error::value_error;
use crate::size::{PyLimits, PySize};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::{Size, Thread, Units};

/// A thread by its designation: its basic sizes, and with a tolerance class its limits of size.
///
/// `Thread("M10x1.5-6g")`, `Thread("M10-6H")` in the coarse pitch, `Thread("1/4-20 UNC-2A")`,
/// `Thread("#10-24 UNC-2B")`; `-LH` at the end makes it left-handed. `Thread("1/4-20 UNC")` has basic sizes alone: what
/// a class would tell is None. A fraction of an inch is rounded to 0.0001 in, so that `Thread("19/64-36 UNS-2A")` has a
/// basic major diameter of 0.2969 in.
///
/// After ISO 965-1:1998 for metric threads and ASME B1.1-2003 for Unified ones, their figures from memory and held
/// against reprinted tables: check a thread that matters against the standard.
#[pyclass(frozen, eq, hash, name = "Thread", module = "tenths")]
#[derive(PartialEq, Hash)]
pub struct PyThread(Thread);

#[pymethods]
impl PyThread {
    #[new]
    fn new(designation: &str) -> PyResult<Self> {
        Thread::parse(designation).map(Self).map_err(value_error)
    }

    /// Whether the thread is internal, as of a nut, rather than external, as of a screw; None without a class.
    #[getter]
    fn is_internal(&self) -> Option<bool> {
        self.0.is_internal()
    }

    /// Whether it is a left-hand thread.
    #[getter]
    fn is_left_hand(&self) -> bool {
        self.0.is_left_hand()
    }

    /// The basic major diameter.
    #[getter]
    fn nominal(&self) -> PySize {
        PySize(self.0.nominal())
    }

    /// The pitch, to the nearest picometre.
    #[getter]
    fn thread_pitch(&self) -> PySize {
        PySize(self.0.thread_pitch())
    }

    /// The basic pitch diameter: nominal - 0.649519 · pitch, to 0.001 mm or 0.0001 in.
    #[getter]
    fn basic_pitch_diameter(&self) -> PySize {
        PySize(self.0.basic_pitch_diameter())
    }

    /// The basic minor diameter: nominal - 1.082532 · pitch, to 0.001 mm or 0.0001 in.
    #[getter]
    fn basic_minor(&self) -> PySize {
        PySize(self.0.basic_minor())
    }

    /// The tolerance class, such as `6g` or `2B`, or None.
    #[getter]
    fn tolerance_class(&self) -> Option<String> {
        self.0.tolerance_class()
    }

    /// The standard of the limits, with its edition.
    #[getter]
    fn standard(&self) -> &'static str {
        self.0.standard()
    }

    /// Limits of the major diameter of an external thread; None for an internal one, which has only a least size.
    #[getter]
    fn major(&self) -> Option<PyLimits> {
        self.0.major().map(PyLimits)
    }

    /// The least major diameter; None without a class.
    #[getter]
    fn major_least(&self) -> Option<PySize> {
        self.0.major_least().map(PySize)
    }

    /// Limits of the pitch diameter; None without a class.
    #[getter]
    fn pitch_diameter(&self) -> Option<PyLimits> {
        self.0.pitch_diameter().map(PyLimits)
    }

    /// Limits of the minor diameter of an internal thread; None for an external one, which has only a greatest size.
    #[getter]
    fn minor(&self) -> Option<PyLimits> {
        self.0.minor().map(PyLimits)
    }

    /// The greatest minor diameter; None without a class. Of a UNR thread it is a reference: the greatest major
    /// diameter - 1.190785 · pitch, rounded to 0.0001 in.
    #[getter]
    fn minor_greatest(&self) -> Option<PySize> {
        self.0.minor_greatest().map(PySize)
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("designation", self.0.to_string())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("tolerance_class", self.tolerance_class())?;
        dict.set_item("is_internal", self.is_internal())?;
        dict.set_item("is_left_hand", self.is_left_hand())?;
        dict.set_item("nominal", self.0.nominal().format(Units::Metric))?;
        dict.set_item("thread_pitch", self.0.thread_pitch().format(Units::Metric))?;
        dict.set_item("basic_pitch_diameter", self.0.basic_pitch_diameter().format(Units::Metric))?;
        dict.set_item("basic_minor", self.0.basic_minor().format(Units::Metric))?;
        let size = |size: Option<Size>| size.map(|size| size.format(Units::Metric));
        let limits = |limits: Option<PyLimits>| limits.map(|limits| limits.to_dict(py)).transpose();
        dict.set_item("major", limits(self.major())?)?;
        dict.set_item("major_least", size(self.0.major_least()))?;
        dict.set_item("pitch_diameter", limits(self.pitch_diameter())?)?;
        dict.set_item("minor", limits(self.minor())?)?;
        dict.set_item("minor_greatest", size(self.0.minor_greatest()))?;
        Ok(dict)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("Thread('{}')", self.0)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().into_any(), (self.0.to_string(),)))
    }
}
