//! Decision rules.
use crate::error::value_error;
use crate::object::{PyObject, held};
use crate::size::{PySize, limits_of, size_of, step_of, units_of};
use pyo3::prelude::*;
use pyo3::types::PyString;
use tenths::{Decision, DecisionRule, Size};

/// The zones of a decision rule: `Decision("10..10.1 mm", "0.02 mm")`, `Decision("10..10.1 mm", "0.01 mm", "4:1")`.
///
/// `uncertainty` is the expanded one, of coverage factor 2, or a budget of `uncertainty_budget`. Rules: `simple`, `4:1` or another ratio, `ISO 14253-1` (95
/// percent at one limit), `ISO 14253-1:1998` (the whole uncertainty), `stringent 0.5` and `relaxed 0.5` (so many
/// uncertainties in or out, after ASME B89.7.3.1). `resolution` rounds the acceptance zone into itself.
///
///     >>> decision = tenths.Decision("10..10.1 mm", "0.02 mm", "ISO 14253-1:1998")
///     >>> decision.judge("10.08 mm"), decision.judge("10.09 mm")
///     ('conforming', 'indeterminate')
#[pyclass(frozen, extends = PyObject, name = "Decision", module = "tenths")]
pub struct PyDecision(pub Decision);

/// An expanded uncertainty: a size, or what a budget of lengths comes to.
fn uncertainty_of(given: &Bound<'_, PyAny>) -> PyResult<Size> {
    match given.cast::<PyObject>().is_ok() && given.hasattr("for_decision")? {
        false => size_of(given),
        true => match given.getattr("for_decision")? {
            none if none.is_none() => {
                let advice: String = given.getattr("advice")?.extract()?;
                let why = match advice.as_str() {
                    "" => "the result of this budget is not in mm or in. Fix: give the uncertainty as a size"
                        .into(),
                    advice => format!("{advice} Fix: give half of it as the uncertainty, as a size"),
                };
                Err(value_error(why))
            }
            size => size_of(&size),
        },
    }
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
    ) -> PyResult<PyClassInitializer<Self>> {
        let rule = DecisionRule::parse(rule).map_err(value_error)?;
        let resolution = resolution.map(size_of).transpose()?;
        let decision = Decision::new(&limits_of(limits)?, uncertainty_of(uncertainty)?, rule, resolution);
        Ok(held(decision.map_err(value_error)?))
    }

    /// What a measured size says of the part: `conforming`, `not conforming` or `indeterminate`.
    ///
    /// Of a list, an array or a series of sizes with their units it is as many, with the same index; a gap gets None.
    /// `judge` of `tenths.inch` and `tenths.metric` takes plain numbers.
    fn judge<'py>(slf: &Bound<'py, Self>, measured: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let py = slf.py();
        match measured.is_instance_of::<PySize>() || measured.is_instance_of::<PyString>() {
            true => Ok(PyString::intern(py, slf.get().0.judge(size_of(measured)?).name()).into_any()),
            false => PyModule::import(py, "tenths._judging")?.getattr("sized")?.call1((slf, measured)),
        }
    }
}

/// The least and the greatest reading that a decision accepts, and those that it does not reject, in the unit of a side.
#[pyfunction]
pub fn _decision_edges(
    decision: &Bound<'_, PyDecision>,
    units: &str,
    resolution: Option<&Bound<'_, PyAny>>,
) -> PyResult<[(f64, f64); 2]> {
    let units = units_of(units)?;
    let step = step_of("judge", resolution, units)?;
    Ok(decision.get().0.readings(units, step).map_err(value_error)?.ends())
}
