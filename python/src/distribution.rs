//! Laws by which dimensions spread.
use crate::error::value_error;
use crate::given::Named;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use tenths::stack::Distribution;

/// How a dimension spreads: `Distribution("uniform")`, `Distribution.normal(cp=1.33, cpk=1)`.
///
/// Most laws are set by the limits of the dimension, and their numbers are shares of its half band: half the tolerance.
/// `process` and `measured` do not depend on the limits; they are in the unit of the stack or the input.
#[pyclass(frozen, eq, name = "Distribution", module = "tenths")]
#[derive(Clone, PartialEq)]
pub struct PyDistribution(pub Distribution);

/// A Distribution, or the name of one.
pub fn distribution_of(object: &Bound<'_, PyAny>) -> PyResult<Distribution> {
    if let Ok(distribution) = object.cast::<PyDistribution>() {
        return Ok(distribution.get().0.clone());
    }
    match object.cast::<PyString>() {
        Ok(name) => Distribution::parse(name.to_str()?).map_err(value_error),
        Err(_) => Err(PyTypeError::new_err("expected a Distribution or the name of one, such as 'uniform'")),
    }
}

fn checked(distribution: Distribution) -> PyResult<PyDistribution> {
    match distribution.fault() {
        None => Ok(PyDistribution(distribution)),
        Some(fault) => Err(value_error(format!("{}: {fault}", distribution.name()))),
    }
}

/// Cp, and the shift that is given or that a Cpk makes; a Cpk alone is that of a centred process.
fn centring(name: &str, cp: Option<f64>, cpk: Option<f64>, shift: Option<f64>) -> PyResult<(f64, f64)> {
    let known = cp.or(cpk).unwrap_or(1.0);
    match (cpk, shift) {
        (Some(_), Some(_)) => Err(PyTypeError::new_err(format!("{name} takes cpk or shift, not both"))),
        (Some(cpk), _) if cpk <= known => Ok((known, 1.0 - cpk / known)),
        (Some(cpk), _) => Err(value_error(format!("{name}: cpk must be at most cp, {known}, not {cpk}"))),
        (None, shift) => Ok((known, shift.unwrap_or(0.0))),
    }
}

#[pymethods]
impl PyDistribution {
    #[new]
    fn new(name: &str) -> PyResult<Self> {
        Distribution::parse(name).map(Self).map_err(value_error)
    }

    /// Normal, with a standard deviation of half band / (3 cp), so that it reaches beyond the limits.
    ///
    /// `shift` is the mean less the middle of the limits, in half bands; a `cpk` sets it to 1 - cpk / cp, above the
    /// middle. Without `cp` it is as large as `cpk`, in the middle; without both, 1.
    #[staticmethod]
    #[pyo3(signature = (cp=None, *, cpk=None, shift=None))]
    fn normal(cp: Option<f64>, cpk: Option<f64>, shift: Option<f64>) -> PyResult<Self> {
        let (cp, shift) = centring("normal", cp, cpk, shift)?;
        checked(Distribution::Normal { cp, shift })
    }

    /// Normal, cut off at the limits by inspection; `cp`, `cpk` and `shift` are those of the process before it.
    #[staticmethod]
    #[pyo3(signature = (cp=None, *, cpk=None, shift=None))]
    fn truncated_normal(cp: Option<f64>, cpk: Option<f64>, shift: Option<f64>) -> PyResult<Self> {
        let (cp, shift) = centring("truncated_normal", cp, cpk, shift)?;
        checked(Distribution::TruncatedNormal { cp, shift })
    }

    /// Any size between the limits, with equal probability.
    #[staticmethod]
    fn uniform() -> Self {
        Self(Distribution::Uniform)
    }

    /// Triangular: from the limits to the most frequent size, `mode` half bands above the middle, -1 to 1.
    #[staticmethod]
    #[pyo3(signature = (mode=0.0))]
    fn triangular(mode: f64) -> PyResult<Self> {
        checked(Distribution::Triangular { mode })
    }

    /// Trapezoidal: level about the middle over a share `top` of the tolerance, straight lines to the limits.
    #[staticmethod]
    #[pyo3(signature = (top=0.5))]
    fn trapezoid(top: f64) -> PyResult<Self> {
        checked(Distribution::Trapezoid { top })
    }

    /// The beta law from limit to limit. Two shapes of 1.5 make a half ellipse.
    #[staticmethod]
    fn beta(alpha: f64, beta: f64) -> PyResult<Self> {
        checked(Distribution::Beta { alpha, beta })
    }

    /// Normal as a process was measured, independent of the limits, in the unit of the stack or the input.
    #[staticmethod]
    fn process(mean: f64, sigma: f64) -> PyResult<Self> {
        checked(Distribution::Process { mean, sigma })
    }

    /// Measured values, each drawn as often as the others, in the unit of the stack or the input.
    #[staticmethod]
    fn measured(values: Vec<f64>) -> PyResult<Self> {
        checked(Distribution::Measured(values.into()))
    }

    /// The name of the law.
    #[getter]
    fn name(&self) -> &'static str {
        self.0.name()
    }

    /// Its name and its numbers as plain data.
    pub fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("name", self.name())?;
        for (name, value) in self.numbers() {
            dict.set_item(name, value)?;
        }
        if let Distribution::Measured(values) = &self.0 {
            dict.set_item("values", values.to_vec())?;
        }
        Ok(dict)
    }

    /// The distribution that `to_dict` describes.
    #[staticmethod]
    pub fn from_dict<'py>(py: Python<'py>, data: Named<'py>) -> PyResult<Bound<'py, PyAny>> {
        let numbers = data.copy()?;
        let name: Option<String> = numbers.get_item("name")?.map(|name| name.extract()).transpose()?;
        let name = name.ok_or_else(|| value_error("a distribution needs its 'name'"))?;
        let known = [
            "normal",
            "truncated_normal",
            "uniform",
            "triangular",
            "trapezoid",
            "beta",
            "process",
            "measured",
        ];
        if !known.contains(&name.as_str()) {
            return Err(value_error(format!(
                "'{name}' is not a distribution; expected {}",
                known.join(", ")
            )));
        }
        numbers.del_item("name")?;
        let class = py.get_type::<Self>();
        class.getattr(name.replace(' ', "_"))?.call((), Some(&numbers))
    }

    fn __repr__(&self) -> String {
        let numbers: Vec<_> =
            self.numbers().into_iter().map(|(name, value)| format!("{name}={value:?}")).collect();
        let inside = match &self.0 {
            Distribution::Measured(values) => format!("<{} values>", values.len()),
            _ => numbers.join(", "),
        };
        format!("Distribution.{}({inside})", self.name().replace(' ', "_"))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        Ok((py.get_type::<Self>().getattr("from_dict")?, (self.to_dict(py)?,)))
    }
}

impl PyDistribution {
    fn numbers(&self) -> Vec<(&'static str, f64)> {
        match &self.0 {
            Distribution::Normal { cp, shift } | Distribution::TruncatedNormal { cp, shift } => {
                vec![("cp", *cp), ("shift", *shift)]
            }
            Distribution::Triangular { mode } => vec![("mode", *mode)],
            Distribution::Trapezoid { top } => vec![("top", *top)],
            Distribution::Beta { alpha, beta } => vec![("alpha", *alpha), ("beta", *beta)],
            Distribution::Process { mean, sigma } => vec![("mean", *mean), ("sigma", *sigma)],
            Distribution::Uniform | Distribution::Measured(_) => vec![],
        }
    }
}
