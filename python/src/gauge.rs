//! Go and no-go gauges.
use crate::error::value_error;
use crate::size::{PyLimits, PySize, limits_of, size_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::size::natural_units;
use tenths::{GagemakerClass, Gauge, GaugeForm, GaugeOptions, GaugeScheme, Limits, Size, Units};

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

    /// The limits of a master to set or check it with, for rings and snap gauges; None for the others.
    #[getter]
    fn master(&self) -> Option<PyLimits> {
        self.member.master.map(PyLimits)
    }

    fn __repr__(&self) -> String {
        format!("<gauge member {}>", self.member.limits)
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("lower", self.member.limits.lower().format(Units::Metric))?;
        dict.set_item("upper", self.member.limits.upper().format(Units::Metric))?;
        dict.set_item("proves", self.member.proves)?;
        dict.set_item("master", self.master().map(|master| master.to_dict(py)).transpose()?)?;
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
    options: GaugeOptions,
}

impl PyGauge {
    /// The side in which the part, both members and the wear limit are exact.
    fn natural_units(&self) -> Units {
        let Gauge { part, go, no_go, wear_limit, .. } = self.gauge;
        let ends = [part, go.limits, no_go.limits].map(|limits| [limits.lower(), limits.upper()]);
        natural_units(&[ends.as_flattened(), &[wear_limit]].concat())
    }
}

#[pymethods]
impl PyGauge {
    /// `plug`, `ring`, `length`, `snap` or `flush_pin`.
    #[getter]
    fn form(&self) -> &'static str {
        self.gauge.form.name()
    }

    /// The scheme: `B89.1.5`, `10 percent` or `ISO 1938-1`.
    #[getter]
    fn scheme(&self) -> &'static str {
        self.gauge.scheme.name()
    }

    /// The limits of the part.
    #[getter]
    fn part(&self) -> PyLimits {
        PyLimits(self.gauge.part)
    }

    /// The gagemaker class, `XXX` to `ZZ`; None in the other schemes.
    #[getter]
    fn gagemaker_class(&self) -> Option<&'static str> {
        self.gauge.class.map(GagemakerClass::name)
    }

    /// The tolerance grade for which the ISO scheme was read, such as 7; None in the other schemes.
    #[getter]
    fn grade(&self) -> Option<u8> {
        self.gauge.grade
    }

    /// The standard whose figures were taken, with its edition.
    #[getter]
    fn standard(&self) -> &'static str {
        self.gauge.standard
    }

    /// `published`, `memory`, or `common practice` where the figures are those of another form of gauge.
    #[getter]
    fn basis(&self) -> &'static str {
        self.gauge.basis.name()
    }

    /// The member that goes into or over a good part; of a flush pin the land for the upper limit.
    #[getter]
    fn go(&self) -> PyGaugeMember {
        PyGaugeMember { member: self.gauge.go, gauge: self.clone(), name: "go" }
    }

    /// The member that does not; of a flush pin the land for the lower limit.
    #[getter]
    fn no_go(&self) -> PyGaugeMember {
        PyGaugeMember { member: self.gauge.no_go, gauge: self.clone(), name: "no_go" }
    }

    /// The size at which a worn GO is scrap.
    #[getter]
    fn wear_limit(&self) -> PySize {
        PySize(self.gauge.wear_limit)
    }

    /// The limits of a master for the worn GO, where the scheme has one.
    #[getter]
    fn wear_master(&self) -> Option<PyLimits> {
        self.gauge.wear_master.map(PyLimits)
    }

    /// By how much a GO at its wear limit lets a part pass beyond the limit of most material.
    #[getter]
    fn worn_go_passes(&self) -> PySize {
        PySize(self.gauge.worn_go_passes)
    }

    /// By how much a new NO-GO may let a part pass beyond the limit of least material.
    #[getter]
    fn no_go_passes(&self) -> PySize {
        PySize(self.gauge.no_go_passes)
    }

    /// The step between the lands of a flush pin; None for the others.
    #[getter]
    fn step(&self) -> Option<PyLimits> {
        self.gauge.step.map(PyLimits)
    }

    /// When a drawing asks for the envelope that a full-form GO proves.
    #[getter]
    fn envelope(&self) -> &'static str {
        tenths::gauge::ENVELOPE
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        let limits = |limits: Option<PyLimits>| limits.map(|limits| limits.to_dict(py)).transpose();
        dict.set_item("form", self.form())?;
        dict.set_item("scheme", self.scheme())?;
        dict.set_item("part", self.part().to_dict(py)?)?;
        dict.set_item("class", self.gagemaker_class())?;
        dict.set_item("grade", self.grade())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("basis", self.basis())?;
        dict.set_item("go", self.go().to_dict(py)?)?;
        dict.set_item("no_go", self.no_go().to_dict(py)?)?;
        dict.set_item("wear_limit", self.gauge.wear_limit.format(Units::Metric))?;
        dict.set_item("wear_master", limits(self.wear_master())?)?;
        dict.set_item("worn_go_passes", self.gauge.worn_go_passes.format(Units::Metric))?;
        dict.set_item("no_go_passes", self.gauge.no_go_passes.format(Units::Metric))?;
        dict.set_item("step", limits(self.step())?)?;
        dict.set_item("envelope", self.envelope())?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let Gauge { go, no_go, .. } = self.gauge;
        let fineness = match (self.gagemaker_class(), self.grade()) {
            (Some(class), _) => format!("class {class}"),
            (_, Some(grade)) => format!("{} for IT{grade}", self.scheme()),
            _ => self.scheme().into(),
        };
        let [go, no_go] = [go, no_go].map(|member| member.limits.format(self.natural_units()));
        format!("<{} gauge, {fineness}: GO {go}, NO-GO {no_go}>", self.form())
    }

    fn _repr_html_(&self) -> String {
        let units = self.natural_units();
        let row = |name: &str, member: &tenths::GaugeMember| {
            format!(
                "<tr><th>{name}</th><td>{}</td><td>{}</td></tr>",
                member.limits.format(units),
                member.proves
            )
        };
        format!(
            "<table><caption>{} gauge for {} ({})</caption>\
             <tr><th></th><th>made to</th><th>proves</th></tr>{}{}\
             <tr><th>GO is scrap at</th><td>{}</td><td></td></tr></table>",
            self.form().replace('_', " "),
            self.gauge.part.format(units),
            self.standard(),
            row("GO", &self.gauge.go),
            row("NO-GO", &self.gauge.no_go),
            self.gauge.wear_limit.format(units),
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Reduced)> {
        let maker = PyModule::import(py, "tenths._tenths")?.getattr("_gauge")?;
        let options = &self.options;
        let arguments = (
            self.form(),
            PyLimits(self.gauge.part),
            self.scheme(),
            PySize(options.wear),
            options.resolution.map(PySize),
        );
        Ok((maker, arguments))
    }
}

type Reduced = (&'static str, PyLimits, &'static str, PySize, Option<PySize>);

/// Makes a gauge of any form: what the functions named after them call.
#[pyfunction]
#[pyo3(signature = (form, part, scheme, wear, resolution))]
pub fn _gauge(
    form: &str,
    part: &Bound<'_, PyAny>,
    scheme: &str,
    wear: Option<&Bound<'_, PyAny>>,
    resolution: Option<&Bound<'_, PyAny>>,
) -> PyResult<PyGauge> {
    let form = GaugeForm::parse(form).map_err(value_error)?;
    let part = limits_of(part)?;
    let options = GaugeOptions {
        scheme: GaugeScheme::parse(scheme).map_err(value_error)?,
        wear: wear.map_or(Ok(Size::ZERO), |wear| wear_of(wear, &part))?,
        resolution: resolution.map(size_of).transpose()?,
    };
    Ok(PyGauge { gauge: Gauge::new(form, &part, &options).map_err(value_error)?, options })
}

/// A wear allowance: a size, or a share of the part's tolerance.
fn wear_of(wear: &Bound<'_, PyAny>, part: &Limits) -> PyResult<Size> {
    match wear.extract::<f64>() {
        Ok(share) if (0.0..1.0).contains(&share) => {
            let wear = share * part.tolerance().to_float(Units::Metric);
            Size::from_float(wear, Units::Metric).map_err(value_error)
        }
        Ok(share) => {
            Err(value_error(format!("a wear allowance of {share} is no share: it must be from 0 to 1")))
        }
        Err(_) => size_of(wear).map_err(|error| match error.is_instance_of::<PyTypeError>(wear.py()) {
            true => PyTypeError::new_err("wear is a Size, text such as '2 um', or a share of the tolerance"),
            false => error,
        }),
    }
}

/// The limits of a master disc or plug of a size and a gagemaker class, `XXX` to `ZZ`.
///
/// Half of the class's tolerance stands to either side. Source: ASME B89.1.5-1998.
#[pyfunction]
pub fn check_master(size: &Bound<'_, PyAny>, gagemaker_class: &str) -> PyResult<PyLimits> {
    let size = size_of(size)?;
    let class = GagemakerClass::parse(gagemaker_class).map_err(value_error)?;
    class.master(size).map(PyLimits).map_err(value_error)
}

/// A function for each form of gauge.
macro_rules! makers {
    ($($(#[doc = $doc:literal])* $name:ident($part:ident) = $form:expr;)*) => {$(
        $(#[doc = $doc])*
        ///
        /// `scheme` is `B89.1.5` or `B89.1.6` (gagemaker classes by the ten percent rule; the figures are those for
        /// plugs), `10 percent` (five percent of the part's tolerance to each member) or `ISO 1938-1`. `wear` moves a
        /// new GO in, by a size or by a share of the part's tolerance; `resolution` rounds sizes so that no more parts
        /// pass.
        #[pyfunction]
        #[pyo3(signature = ($part, *, scheme="B89.1.5", wear=None, resolution=None))]
        pub fn $name(
            $part: &Bound<'_, PyAny>,
            scheme: &str,
            wear: Option<&Bound<'_, PyAny>>,
            resolution: Option<&Bound<'_, PyAny>>,
        ) -> PyResult<PyGauge> {
            _gauge($form, $part, scheme, wear, resolution)
        }
    )*};
}

makers! {
    /// A plug gauge for a hole: GO at the lower limit and up, NO-GO at the upper limit and down.
    plug_gauge(hole) = "plug";
    /// A ring gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
    ring_gauge(shaft) = "ring";
    /// A snap gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
    snap_gauge(shaft) = "snap";
    /// A gap gauge for an outside length: GO at the upper limit and down, NO-GO at the lower limit and up.
    length_gauge(length) = "length";
    /// A flush-pin gauge for a depth or a step: a land at each limit, and the step between them.
    flush_pin_gauge(depth) = "flush_pin";
}
