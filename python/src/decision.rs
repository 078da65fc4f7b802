//! Decision rules.
use crate::error::value_error;
use crate::size::{PyLimits, PySize, limits_of, size_of};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::size::natural_units;
use tenths::{DecisionRule, Units};

/// The zones of a decision rule: `Decision("10..10.1 mm", "0.02 mm")`, `Decision("10..10.1 mm", "0.01 mm", "4:1")`.
///
/// `uncertainty` is the expanded one, of coverage factor 2. Rules: `simple`, `4:1` or another ratio, `ISO 14253-1` (95
/// percent at one limit), `ISO 14253-1:1998` (the whole uncertainty), `stringent 0.5` and `relaxed 0.5` (so many
/// uncertainties in or out, after ASME B89.7.3.1). `resolution` rounds the acceptance zone into itself.
#[pyclass(frozen, name = "Decision", module = "tenths")]
pub struct PyDecision {
    decision: tenths::Decision,
    resolution: Option<tenths::Size>,
}

#[pymethods]
impl PyDecision {
    #[new]
    #[pyo3(signature = (limits, uncertainty, rule="ISO 14253-1", *, resolution=None))]
    fn new(
        limits: &Bound<'_, PyAny>,
        uncertainty: &Bound<'_, PyAny>,
        rule: &str,
        resolution: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Self> {
        let rule = DecisionRule::parse(rule).map_err(value_error)?;
        let resolution = resolution.map(size_of).transpose()?;
        let decision = tenths::Decision::new(&limits_of(limits)?, size_of(uncertainty)?, rule, resolution);
        Ok(Self { decision: decision.map_err(value_error)?, resolution })
    }

    /// The rule, as it is written.
    #[getter]
    fn rule(&self) -> String {
        self.decision.rule.name()
    }

    /// The standard that the rule is after, with its edition.
    #[getter]
    fn standard(&self) -> &'static str {
        self.decision.rule.standard()
    }

    /// The limits of the part.
    #[getter]
    fn limits(&self) -> PyLimits {
        PyLimits(self.decision.limits)
    }

    /// The expanded uncertainty of measurement.
    #[getter]
    fn uncertainty(&self) -> PySize {
        PySize(self.decision.uncertainty)
    }

    /// By how much the acceptance zone is drawn in at each limit; negative where it is drawn out.
    #[getter]
    fn guard_band(&self) -> PySize {
        PySize(self.decision.guard_band)
    }

    /// The acceptance zone, both ends in it.
    #[getter]
    fn acceptance(&self) -> PyLimits {
        PyLimits(self.decision.acceptance)
    }

    /// A reading below this is rejected.
    #[getter]
    fn reject_below(&self) -> PySize {
        PySize(self.decision.reject_below)
    }

    /// A reading above this is rejected.
    #[getter]
    fn reject_above(&self) -> PySize {
        PySize(self.decision.reject_above)
    }

    /// The tolerance over twice the uncertainty: the N of N:1.
    #[getter]
    fn ratio(&self) -> f64 {
        self.decision.ratio()
    }

    /// What a measured size says of the part: `conforming`, `not conforming` or `indeterminate`.
    fn judge(&self, measured: &Bound<'_, PyAny>) -> PyResult<&'static str> {
        Ok(self.decision.judge(size_of(measured)?).name())
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("rule", self.rule())?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("limits", self.limits().to_dict(py)?)?;
        dict.set_item("uncertainty", self.decision.uncertainty.format(Units::Metric))?;
        dict.set_item("guard_band", self.decision.guard_band.format(Units::Metric))?;
        dict.set_item("acceptance", self.acceptance().to_dict(py)?)?;
        dict.set_item("reject_below", self.decision.reject_below.format(Units::Metric))?;
        dict.set_item("reject_above", self.decision.reject_above.format(Units::Metric))?;
        dict.set_item("ratio", self.ratio())?;
        Ok(dict)
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.decision == other.decision
    }

    fn __hash__(&self) -> u64 {
        use std::hash::{DefaultHasher, Hash, Hasher};
        let mut hasher = DefaultHasher::new();
        let decision = &self.decision;
        (decision.rule.name(), decision.limits, decision.uncertainty, decision.acceptance).hash(&mut hasher);
        hasher.finish()
    }

    fn __repr__(&self) -> String {
        format!("<decision by {}: accepts {}>", self.rule(), self.decision.acceptance)
    }

    fn _repr_html_(&self) -> String {
        let decision = &self.decision;
        let units = natural_units(&[
            decision.limits.lower(),
            decision.limits.upper(),
            decision.uncertainty,
            decision.acceptance.lower(),
            decision.acceptance.upper(),
            decision.reject_below,
            decision.reject_above,
        ]);
        format!(
            "<table><caption>{} for {}, uncertainty {}</caption><tr><th>accept</th><td>{}</td></tr>\
             <tr><th>reject</th><td>below {} and above {}</td></tr></table>",
            self.rule(),
            decision.limits.format(units),
            decision.uncertainty.format(units),
            decision.acceptance.format(units),
            decision.reject_below.format(units),
            decision.reject_above.format(units),
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Reduced)> {
        let arguments = (self.limits(), self.uncertainty(), self.rule(), self.resolution.map(PySize));
        Ok((PyModule::import(py, "tenths._tenths")?.getattr("_decision")?, arguments))
    }
}

type Reduced = (PyLimits, PySize, String, Option<PySize>);

/// What a pickle of a decision calls.
#[pyfunction]
pub fn _decision(
    limits: &Bound<'_, PyAny>,
    uncertainty: &Bound<'_, PyAny>,
    rule: &str,
    resolution: Option<&Bound<'_, PyAny>>,
) -> PyResult<PyDecision> {
    PyDecision::new(limits, uncertainty, rule, resolution)
}
