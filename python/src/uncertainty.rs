//! Uncertainty of measurement: estimates of inputs, and budgets.
use crate::array::numbers_of;
use crate::error::value_error;
use crate::formula::PyFormula;
use crate::given::{Named, Threads, plain, whole};
use crate::input::PyInput;
use crate::model::{Model, fault};
use crate::number::Wanted;
use crate::object::{PyObject, held, object};
use crate::propagate::{_propagate, PyPropagation};
use crate::size::units_of;
use crate::vector_loop::PyVectorLoop;
use crate::watch::watched;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::Units;
use tenths::inspect::uncertainty::{BudgetOptions, Estimate, UncertaintyBudget, UncertaintyError};
use tenths::quantity::{Quantity, Ratio};
use tenths::stack::Sampling;

/// A value with its standard uncertainty, for `uncertainty_budget`: `Estimate(10.002, 0.0006, 5)`.
///
/// `degrees_of_freedom` is infinite where the uncertainty is taken as exactly known.
#[pyclass(frozen, extends = PyObject, name = "Estimate", module = "tenths")]
pub struct PyEstimate(pub Estimate);

#[pymethods]
impl PyEstimate {
    #[new]
    #[pyo3(signature = (value, standard_uncertainty, degrees_of_freedom=None))]
    // Python has no literal for infinity: 1e999 is shown as inf.
    #[pyo3(text_signature = "(value, standard_uncertainty, degrees_of_freedom=1e999)")]
    fn new(
        value: &Bound<'_, PyAny>,
        standard_uncertainty: &Bound<'_, PyAny>,
        degrees_of_freedom: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<PyClassInitializer<Self>> {
        let freedom = degrees_of_freedom.map_or(Ok(f64::INFINITY), |n| plain("degrees_of_freedom", n))?;
        let (value, spread) = (plain("value", value)?, plain("standard_uncertainty", standard_uncertainty)?);
        Estimate::new(value, spread, freedom).map(held).map_err(value_error)
    }

    /// The mean of repeated readings, with their standard deviation over the root of their count (type A). A reading that
    /// is NaN or masked is refused, not left out.
    #[staticmethod]
    fn of_readings<'py>(readings: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let py = readings.py();
        let read = PyModule::import(py, "tenths._readings")?.getattr("readings")?;
        let array = read.call1(("readings", readings))?;
        if array.getattr("ndim")?.extract::<usize>()? != 1 {
            return Err(PyTypeError::new_err("readings must be one row of numbers"));
        }
        object(py, &Estimate::of_readings(&numbers_of(&array)?).map_err(value_error)?)
    }

    /// What a certificate says: a value, its expanded uncertainty and the coverage factor (type B).
    #[staticmethod]
    #[pyo3(signature = (value, expanded, coverage_factor=None))]
    #[pyo3(text_signature = "(value, expanded, coverage_factor=2.0)")]
    fn of_certificate<'py>(
        value: &Bound<'py, PyAny>,
        expanded: &Bound<'py, PyAny>,
        coverage_factor: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let factor = coverage_factor.map_or(Ok(2.0), |factor| plain("coverage_factor", factor))?;
        let estimate = Estimate::of_certificate(plain("value", value)?, plain("expanded", expanded)?, factor);
        object(value.py(), &estimate.map_err(value_error)?)
    }
}

/// The uncertainty of a result by what is known of each input: combined, with effective degrees of freedom, and expanded.
///
/// `model` is a formula of `tenths.inch` or `tenths.metric`, a function over arrays or a vector loop, and `inputs` a dict as
/// `propagate` takes it, in which an `Estimate` may stand as well. A function gets each input by the name of its parameter
/// where every input is named after one, else all by position in the order of the dict. `freedom` is a dict with the degrees of freedom of other
/// inputs, infinite by default; `correlations` one such as {("a", "b"): 0.5} of normal inputs; `output` names one of several
/// results. Of a function, `unit` says what its result is in, and `units` whose bare numbers its inputs are: 'metric' or
/// 'inch'; the latter too where `unit` is 'in'. With `samples`, the model is sampled too, after supplement 1 to the GUM; `progress` is
/// True for a bar, or a function of the fraction that is done.
#[pyfunction]
#[pyo3(signature = (
    model, inputs, coverage=None, *, freedom=None, correlations=None, output=None, units=None, unit=None, samples=None,
    seed=None, threads=Threads(0), progress=None
))]
#[pyo3(
    text_signature = "(model, inputs, coverage=0.95, *, freedom=None, correlations=None, output=None, units=None, unit=None, samples=None, seed=None, threads=None, progress=None)"
)]
#[expect(clippy::too_many_arguments, reason = "they go by name")]
pub fn uncertainty_budget<'py>(
    model: &Bound<'py, PyAny>,
    inputs: Named<'py>,
    coverage: Option<&Bound<'py, PyAny>>,
    freedom: Option<Named<'py>>,
    correlations: Option<&Bound<'py, PyAny>>,
    output: Option<&str>,
    units: Option<&str>,
    unit: Option<&str>,
    samples: Option<&Bound<'py, PyAny>>,
    seed: Option<&Bound<'py, PyAny>>,
    threads: Threads,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let py = model.py();
    let units = match units {
        Some(units) => units_of(units)?,
        None => side_of(model, unit),
    };
    let (plain, freedoms) = (PyDict::new(py), PyDict::new(py));
    for (name, value) in inputs.iter() {
        match value.cast::<PyEstimate>() {
            Ok(estimate) => {
                let estimate = estimate.get().0;
                plain.set_item(&name, PyInput { input: estimate.input(""), units })?;
                freedoms.set_item(&name, estimate.degrees_of_freedom)?;
            }
            Err(_) => plain.set_item(&name, &value)?,
        }
    }
    for (name, number) in freedom.iter().flat_map(|freedom| freedom.iter()) {
        if !inputs.contains(&name)? {
            return Err(value_error(format!("freedom names `{name}`, which is not an input")));
        }
        let known: Option<f64> = freedoms.get_item(&name)?.map(|known| known.extract()).transpose()?;
        if known.is_some_and(f64::is_finite) {
            return Err(value_error(format!(
                "freedom names `{name}`, which is an Estimate that has its own"
            )));
        }
        freedoms.set_item(name, number)?;
    }
    let made = _propagate(units.name(), model, Named::of(plain), output, correlations)?;
    let Ok(made) = made.cast::<PyPropagation>() else {
        return Err(PyTypeError::new_err("the formula has several results: name one by output"));
    };
    let (model, output, own_unit) = made.get().told();
    let mut ordered = vec![];
    for input in model.inputs() {
        let freedom = freedoms.get_item(&input.name)?.map(|freedom| freedom.extract()).transpose()?;
        ordered.push(freedom.unwrap_or(f64::INFINITY));
    }
    let sampling = match samples {
        None => None,
        Some(samples) => Some(Sampling {
            threads: threads.0,
            ..Sampling::new(whole("samples", samples)?, seed.map_or(Ok(1), |seed| whole("seed", seed))?)
        }),
    };
    let wanted = Wanted::new("uncertainty_budget", "coverage", Ratio::KIND, Units::Metric);
    let coverage = coverage.map_or(Ok(0.95), |coverage| wanted.one(coverage))?;
    let options = BudgetOptions { coverage, freedoms: &ordered, sampling };
    let budget = budget_of(py, model, &options, progress)?;
    object(py, &budget.named(output, own_unit.or(unit)))
}

/// The side that a model is of; a function is metric, unless its result is in inches.
fn side_of(model: &Bound<'_, PyAny>, unit: Option<&str>) -> Units {
    match (model.cast::<PyFormula>(), model.cast::<PyVectorLoop>()) {
        (Ok(formula), _) => formula.get().units,
        (_, Ok(around)) => around.get().side(),
        _ if unit == Some("in") => Units::Inch,
        _ => Units::Metric,
    }
}

fn budget_of(
    py: Python<'_>,
    model: &Model,
    options: &BudgetOptions<'_>,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<UncertaintyBudget> {
    let made = watched(py, progress, |watch| match model {
        // What a Python function raises stays on its thread.
        Model::Callable(callable) => {
            let sampling = options.sampling.map(|sampling| Sampling { threads: 1, ..sampling });
            UncertaintyBudget::new_watched(callable, &BudgetOptions { sampling, ..*options }, watch)
        }
        Model::Formula(formula) => UncertaintyBudget::new_watched(formula, options, watch),
        Model::Loop { propagation, .. } => UncertaintyBudget::new_watched(propagation, options, watch),
    })?;
    made.map_err(|error| match &error {
        UncertaintyError::Model(stack) => fault(py, stack),
        other => value_error(other),
    })
}
