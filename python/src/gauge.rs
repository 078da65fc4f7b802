//! Go and no-go gauges.
use crate::error::value_error;
use crate::size::{PyLimits, limits_of};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::{Gauge, GaugeError, Limits};

/// One member of a gauge: the limits it is made to, and what it proves.
#[pyclass(frozen, eq, hash, name = "GaugeMember", module = "tenths")]
#[derive(PartialEq, Hash)]
pub struct PyGaugeMember {
    member: tenths::GaugeMember,
    /// The gauge that it belongs to, and its name there: what a pickle holds.
    gauge: PyGauge,
    name: &'static str,
}

#[pymethods]
impl PyGaugeMember {
    /// The limits to which the member is made.
    #[getter]
    fn limits(&self) -> PyLimits {
        PyLimits(self.member.limits)
    }

    /// What is known of a part that this member judges good.
    #[getter]
    fn proves(&self) -> &'static str {
        self.member.proves
    }

    fn __repr__(&self) -> String {
        format!("<gauge member {}>", self.member.limits)
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("lower", self.member.limits.lower().to_string())?;
        dict.set_item("upper", self.member.limits.upper().to_string())?;
        dict.set_item("proves", self.member.proves)?;
        Ok(dict)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (PyGauge, &'static str))> {
        Ok((PyModule::import(py, "builtins")?.getattr("getattr")?, (self.gauge.clone(), self.name)))
    }
}

/// A pair of go and no-go gauges.
#[pyclass(frozen, eq, hash, name = "Gauge", module = "tenths")]
#[derive(Clone, PartialEq, Hash)]
pub struct PyGauge {
    gauge: Gauge,
    part: Limits,
}

#[pymethods]
impl PyGauge {
    /// `plug`, `ring` or `length`.
    #[getter]
    fn form(&self) -> &'static str {
        self.gauge.form.name()
    }

    /// The gagemaker class, `XXX` to `ZZ`.
    #[getter]
    fn gagemaker_class(&self) -> &'static str {
        self.gauge.class.name()
    }

    /// The standard whose figures were taken, with its edition.
    #[getter]
    fn standard(&self) -> &'static str {
        self.gauge.standard
    }

    /// `published`, or `common practice` where the figures are those of another form of gauge.
    #[getter]
    fn basis(&self) -> &'static str {
        self.gauge.basis.name()
    }

    /// The member that goes into or over a good part.
    #[getter]
    fn go(&self) -> PyGaugeMember {
        PyGaugeMember { member: self.gauge.go, gauge: self.clone(), name: "go" }
    }

    /// The member that does not.
    #[getter]
    fn no_go(&self) -> PyGaugeMember {
        PyGaugeMember { member: self.gauge.no_go, gauge: self.clone(), name: "no_go" }
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("form", self.form())?;
        dict.set_item("class", self.gagemaker_class())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("basis", self.basis())?;
        dict.set_item("go", self.go().to_dict(py)?)?;
        dict.set_item("no_go", self.no_go().to_dict(py)?)?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let Gauge { go, no_go, .. } = self.gauge;
        format!(
            "<{} gauge, class {}: GO {}, NO-GO {}>",
            self.form(),
            self.gagemaker_class(),
            go.limits,
            no_go.limits
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (PyLimits,))> {
        let maker = format!("{}_gauge", self.form());
        Ok((PyModule::import(py, "tenths")?.getattr(maker)?, (PyLimits(self.part),)))
    }
}

fn make(part: &Bound<'_, PyAny>, gauge: fn(&Limits) -> Result<Gauge, GaugeError>) -> PyResult<PyGauge> {
    let part = limits_of(part)?;
    Ok(PyGauge { gauge: gauge(&part).map_err(value_error)?, part })
}

/// A plug gauge for a hole of these limits, Limits or text, by the ten percent rule.
///
/// GO stands at the lower limit and up, NO-GO at the upper limit and down, so that the size of the gauge never
/// passes a bad part. Source: ASME B89.1.5 for the classes; the ten percent rule is common practice.
#[pyfunction]
pub fn plug_gauge(hole: &Bound<'_, PyAny>) -> PyResult<PyGauge> {
    make(hole, tenths::plug_gauge)
}

/// A ring gauge for a shaft of these limits, by the figures for plugs, which is common practice.
#[pyfunction]
pub fn ring_gauge(shaft: &Bound<'_, PyAny>) -> PyResult<PyGauge> {
    make(shaft, tenths::ring_gauge)
}

/// A gap gauge for an outside length of these limits, by the figures for plugs, which is common practice.
#[pyfunction]
pub fn length_gauge(length: &Bound<'_, PyAny>) -> PyResult<PyGauge> {
    make(length, tenths::length_gauge)
}
