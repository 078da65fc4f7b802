//! The class `Size`; its methods are in `size.rs`.
use pyo3::prelude::*;
use tenths::Size;

/// An exact length, a whole number of picometres.
///
/// `Size("1.425 in")`, `Size("7/16 in")`, or a number with its unit apart: `Size(1.425, "in")`, which is read
/// as its shortest decimal, in its own precision: `Size(numpy.float32(1.425), "in")` is 1.425 in too.
///
///     >>> tenths.Size("1.420 in") + ".005 in"
///     Size('1.425 in')
///     >>> tenths.Size("7/16 in").to_float("mm")
///     11.1125
#[pyclass(frozen, name = "Size", module = "tenths")]
pub struct PySize(pub Size);
