//! The best cut, the best passes, and many at once.
use crate::chatter::PyStability;
use crate::cutting::PyMachine;
use crate::error::{raise, value_error};
use crate::formula::PyFormula;
use crate::given::whole;
use crate::object::{PyObject, object};
use crate::watch::watched;
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::cutting::best_cut::{
    BestCut, BestCutError, BestPasses, CutChoice, CutLaw, CutLife, CutLimit, CutObjective, CutProblem,
    CutRates, CutSteps, DiameterChange, PassProblem, best_cut, best_cut_by, best_cut_spread, best_cuts,
    best_passes,
};

/// The best cut of a formula within limits: what `best_cut` gives.
#[pyclass(frozen, extends = PyObject, name = "BestCut", module = "tenths")]
pub struct PyBestCut(pub BestCut);

#[pymethods]
impl PyBestCut {
    /// The results of the formula for the chosen cut, as a call of the formula gives them.
    #[getter]
    fn cut<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let module = PyModule::import(py, format!("tenths.{}", self.0.system.name()))?;
        let arguments = PyDict::new(py);
        for (name, value) in self.0.arguments.iter() {
            arguments.set_item(name, value)?;
        }
        module.getattr(self.0.formula.as_str())?.call((), Some(&arguments))
    }
}

/// A name with two ends, either of which may be left out.
type Ends = (String, Option<f64>, Option<f64>);
/// A law: its name, its factor, and its exponents by name.
type Law = (String, f64, Vec<(String, f64)>);

/// A problem as Python tells it, in plain numbers.
#[derive(FromPyObject)]
#[pyo3(from_item_all)]
struct Told {
    row: Vec<f64>,
    choose: Vec<(String, f64, f64)>,
    choose_from: Vec<(String, Vec<f64>)>,
    unknowns: Vec<(String, f64, f64)>,
    limits: Vec<Ends>,
    laws: Vec<Law>,
    objective: (String, Vec<(String, f64)>),
    rates: Option<(f64, f64, f64, f64)>,
    tool_life: Option<(f64, f64, f64, f64, f64, f64)>,
    machine: Option<Py<PyMachine>>,
    stability: Option<Py<PyStability>>,
    path_length: Option<f64>,
    volume: Option<f64>,
    steps: Vec<(String, Vec<f64>)>,
}

impl Told {
    fn problem(self, formula: &PyFormula) -> PyResult<CutProblem> {
        let between = |ends: Vec<(String, f64, f64)>| -> Vec<CutChoice> {
            ends.into_iter().map(|(name, least, greatest)| CutChoice { name, least, greatest }).collect()
        };
        let listed = |lists: Vec<(String, Vec<f64>)>| -> Vec<CutSteps> {
            lists.into_iter().map(|(name, values)| CutSteps { name, values }).collect()
        };
        let limits = self.limits.into_iter();
        let laws = self.laws.into_iter();
        Ok(CutProblem {
            formula: formula.record,
            units: formula.units,
            arguments: self.row,
            choose: between(self.choose),
            choose_from: listed(self.choose_from),
            unknowns: between(self.unknowns),
            limits: limits.map(|(name, least, greatest)| CutLimit { name, least, greatest }).collect(),
            laws: laws.map(|(name, factor, exponents)| CutLaw { name, factor, exponents }).collect(),
            objective: objective(self.objective)?,
            rates: self.rates.map(|(hourly_rate, edge_cost, tool_change_time, handling_time)| CutRates {
                hourly_rate,
                edge_cost,
                tool_change_time,
                handling_time,
            }),
            tool_life: self.tool_life.map(|(taylor_c, taylor_n, feed, depth, at_feed, at_depth)| CutLife {
                taylor_c,
                taylor_n,
                feed_exponent: feed,
                depth_exponent: depth,
                reference_feed: at_feed,
                reference_depth: at_depth,
            }),
            machine: self.machine.map(|machine| machine.get().0.clone()),
            stability: self.stability.map(|stability| stability.get().0.clone()),
            path_length: self.path_length,
            volume: self.volume,
            steps: listed(self.steps),
        })
    }
}

/// The objective of a word, and of the names that go with it.
fn objective((word, parts): (String, Vec<(String, f64)>)) -> PyResult<CutObjective> {
    let first = || parts.first().map(|(name, _)| name.clone()).unwrap_or_default();
    Ok(match word.as_str() {
        "cost" => CutObjective::Cost,
        "time" => CutObjective::Time,
        "edge_use" => CutObjective::EdgeUse,
        "least" => CutObjective::Least(first()),
        "most" => CutObjective::Most(first()),
        "sum" => CutObjective::Sum(parts),
        "own" => CutObjective::Own,
        other => return Err(PyValueError::new_err(format!("no such objective: {other}"))),
    })
}

fn failed(py: Python<'_>, error: &BestCutError) -> PyErr {
    match error {
        BestCutError::Formula(error) => raise(py, error),
        other => value_error(other),
    }
}

/// The best cut of a problem.
#[pyfunction]
pub fn _best_cut<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    told: Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let problem = told.extract::<Told>()?.problem(formula.get())?;
    object(py, &best_cut(&problem).map_err(|error| failed(py, &error))?)
}

/// Why a search by a function ended: the core refused, or the function raised.
enum Ended {
    Core(BestCutError),
    Raised(PyErr),
}

impl From<BestCutError> for Ended {
    fn from(error: BestCutError) -> Self {
        Ended::Core(error)
    }
}

/// The best cut by a function of a dict of all figures.
#[pyfunction]
pub fn _best_cut_by<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    told: Bound<'py, PyDict>,
    function: Bound<'py, PyAny>,
    sign: f64,
) -> PyResult<Bound<'py, PyAny>> {
    let problem = told.extract::<Told>()?.problem(formula.get())?;
    let mut calls = 0u32;
    let best = best_cut_by::<Ended>(&problem, &mut |figures| {
        calls += 1;
        let ask = || {
            if calls.is_multiple_of(1024) {
                py.check_signals()?;
            }
            let named = PyDict::new(py);
            for (name, value) in figures {
                named.set_item(name, value)?;
            }
            function.call1((named,))?.extract::<f64>()
        };
        ask().map(|value| sign * value).map_err(Ended::Raised)
    });
    let mut best = best.map_err(|ended| match ended {
        Ended::Core(error) => failed(py, &error),
        Ended::Raised(error) => error,
    })?;
    best.objective *= sign;
    object(py, &best)
}

/// A best cut, or the text of why there is none.
type CutOrReason<'py> = (Option<Bound<'py, PyAny>>, Option<String>);

/// The best cut of each problem, or the text of why there is none.
#[pyfunction]
pub fn _best_cuts<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    told: Vec<Bound<'py, PyDict>>,
    threads: usize,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Vec<CutOrReason<'py>>> {
    let problem = |told: &Bound<'py, PyDict>| told.extract::<Told>()?.problem(formula.get());
    let problems = told.iter().map(problem).collect::<PyResult<Vec<_>>>()?;
    let solved = watched(py, progress, |watch| best_cuts(&problems, threads, watch))?;
    let one = |best: Result<BestCut, BestCutError>| match best {
        Ok(best) => Ok((Some(object(py, &best)?), None)),
        Err(error) => Ok((None, Some(error.to_string()))),
    };
    solved.map_err(value_error)?.into_iter().map(one).collect()
}

/// The spread of the best cut with the covariance of a fit of tool life.
#[pyfunction]
#[expect(clippy::too_many_arguments, reason = "they come from one place")]
pub fn _best_cut_spread<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    told: Bound<'py, PyDict>,
    covariance: Vec<Vec<f64>>,
    samples: &Bound<'py, PyAny>,
    seed: &Bound<'py, PyAny>,
    threads: usize,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let problem = told.extract::<Told>()?.problem(formula.get())?;
    let samples = usize::try_from(whole("samples", samples)?).unwrap_or(usize::MAX);
    let seed = whole("seed", seed)?;
    let spread =
        watched(py, progress, |watch| best_cut_spread(&problem, &covariance, samples, seed, threads, watch))?;
    object(py, &spread.map_err(|error| failed(py, &error))?)
}

/// What a call of `best_passes` states beside its cuts.
#[derive(FromPyObject)]
#[pyo3(from_item_all)]
struct ToldPasses {
    depth: String,
    stock: f64,
    rough_depths: (f64, f64),
    finish_depths: (f64, f64),
    step: f64,
    pass_time: f64,
    diameter: String,
    equal: bool,
    threads: usize,
}

/// The best passes.
#[pyfunction]
pub fn _best_passes<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    rough: Bound<'py, PyDict>,
    finish: Option<Bound<'py, PyDict>>,
    passes: Bound<'py, PyDict>,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let ToldPasses { depth, stock, rough_depths, finish_depths, step, pass_time, diameter, equal, threads } =
        passes.extract()?;
    let diameter = <DiameterChange as tenths::object::Choice>::of_name(&diameter);
    let problem = PassProblem {
        rough: rough.extract::<Told>()?.problem(formula.get())?,
        finish: finish.map(|finish| finish.extract::<Told>()?.problem(formula.get())).transpose()?,
        depth,
        stock,
        rough_depths,
        finish_depths,
        step,
        pass_time,
        diameter: diameter
            .ok_or_else(|| PyValueError::new_err("diameter must be 'falls', 'rises' or 'stays'"))?,
        equal,
        threads,
    };
    let best: Result<BestPasses, BestCutError> = watched(py, progress, |watch| best_passes(&problem, watch))?;
    object(py, &best.map_err(|error| failed(py, &error))?)
}
