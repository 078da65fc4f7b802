//! Fits of tool life, and cuts fitted to a machine.
use crate::error::{raise, value_error};
use crate::formula::{PyFormula, units_of};
use crate::number::Wanted;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::cutting::limit_to_machine::{Bound, LimitError, limit_to_machine};
use tenths::cutting::machine::Machine;
use tenths::cutting::taylor_fit::TaylorFit;
use tenths::quantity::{FeedRate, Force, Kind, Length, Power, SpindleSpeed, SurfaceSpeed, Time, Torque};
use tenths::{Quantity, Units};

/// What asks for numbers here, by what name, and of which quantity.
const ROLES: [(&str, &str, &Kind); 13] = [
    ("fit_taylor", "speeds", SurfaceSpeed::KIND),
    ("fit_taylor", "lives", Time::KIND),
    ("fit_taylor", "feeds", Length::KIND),
    ("fit_taylor", "depths", Length::KIND),
    ("limit_to_machine", "least_feed", Length::KIND),
    ("Machine", "least_spindle_speed", SpindleSpeed::KIND),
    ("Machine", "greatest_spindle_speed", SpindleSpeed::KIND),
    ("Machine", "spindle_speed", SpindleSpeed::KIND),
    ("Machine", "power", Power::KIND),
    ("Machine", "torque", Torque::KIND),
    ("Machine", "least_feed_rate", FeedRate::KIND),
    ("Machine", "greatest_feed_rate", FeedRate::KIND),
    ("Machine", "greatest_axis_force", Force::KIND),
];

/// What is asked of every number of this module, by name.
#[pyfunction]
pub fn _wanted_by_name<'py>(py: Python<'py>, units: &str) -> PyResult<pyo3::Bound<'py, PyDict>> {
    let wanted = PyDict::new(py);
    for (asks, name, kind) in ROLES {
        wanted.set_item(name, Py::new(py, Wanted::new(asks, name, kind, units_of(units)?))?)?;
    }
    Ok(wanted)
}

/// Trials in columns: speeds, lives, feeds, depths.
type Trials = (Vec<f64>, Vec<f64>, Option<Vec<f64>>, Option<Vec<f64>>);

fn fit(units: Units, (speeds, lives, feeds, depths): &Trials) -> PyResult<TaylorFit> {
    let (speeds, lives) = (column(speeds, units), column(lives, units));
    let lengths = |numbers: &Option<Vec<f64>>| numbers.as_ref().map(|numbers| column(numbers, units));
    let (feeds, depths) = (lengths(feeds), lengths(depths));
    TaylorFit::from_columns(&speeds, &lives, feeds.as_deref(), depths.as_deref()).map_err(value_error)
}

fn column<Q: Quantity>(numbers: &[f64], units: Units) -> Vec<Q> {
    numbers.iter().map(|&number| Q::new_in(number, units)).collect()
}

/// The figures of a fit, by name.
#[pyfunction]
pub fn _fit_taylor<'py>(py: Python<'py>, units: &str, trials: Trials) -> PyResult<pyo3::Bound<'py, PyDict>> {
    let units = units_of(units)?;
    let fit = fit(units, &trials)?;
    let figures = PyDict::new(py);
    figures.set_item("trials", fit.trials)?;
    figures.set_item("taylor_n", fit.taylor_n)?;
    figures.set_item("taylor_n_error", fit.taylor_n_error)?;
    figures.set_item("taylor_c", fit.taylor_c.in_units(units))?;
    figures.set_item("ln_c_error", fit.ln_c_error)?;
    figures.set_item("feed_exponent", fit.feed_exponent)?;
    figures.set_item("feed_exponent_error", fit.feed_exponent_error)?;
    figures.set_item("depth_exponent", fit.depth_exponent)?;
    figures.set_item("depth_exponent_error", fit.depth_exponent_error)?;
    figures.set_item("residual_deviation", fit.residual_deviation)?;
    figures.set_item("r_squared", fit.r_squared)?;
    figures.set_item("covariance", fit.covariance)?;
    Ok(figures)
}

/// A life predicted from trials: the life, the error of the line, and that of one edge more.
#[pyfunction]
pub fn _predict_life(
    units: &str,
    trials: Trials,
    speed: f64,
    feed: Option<f64>,
    depth: Option<f64>,
) -> PyResult<(f64, f64, f64)> {
    let units = units_of(units)?;
    let length = |number: Option<f64>| number.map(|number| Length::new_in(number, units));
    let predicted =
        fit(units, &trials)?.predict(SurfaceSpeed::new_in(speed, units), length(feed), length(depth));
    let life = predicted.map_err(value_error)?;
    Ok((life.tool_life.in_units(units), life.line_error, life.edge_error))
}

/// The limits of a machine: its spindle, its power and torque, its feeds.
///
/// `Machine.from_json(text)` reads a document, which names its own units; `tenths.inch.Machine(...)` and
/// `tenths.metric.Machine(...)` take numbers.
#[pyclass(frozen, eq, name = "Machine", module = "tenths")]
#[derive(PartialEq)]
pub struct PyMachine(Machine);

#[pymethods]
impl PyMachine {
    /// The machine of a JSON document.
    #[staticmethod]
    fn from_json(text: &str) -> PyResult<Self> {
        Machine::from_json(text).map(Self).map_err(value_error)
    }

    /// The machine as JSON.
    fn to_json(&self) -> String {
        self.0.to_json()
    }

    /// The machine as plain data.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<pyo3::Bound<'py, PyAny>> {
        PyModule::import(py, "json")?.call_method1("loads", (self.0.to_json(),))
    }

    fn __repr__(&self) -> String {
        format!("<machine {}>", self.0.to_json())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(pyo3::Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().getattr("from_json")?, (self.0.to_json(),)))
    }
}

/// A bound as a row: what, wanted, limit, whether it is the least, and the unit.
type BoundRow = (&'static str, f64, f64, bool, &'static str);

/// The limited arguments, the bounds, what is still exceeded, and what could not be judged.
type Limited = (Vec<f64>, Vec<BoundRow>, Vec<BoundRow>, Vec<&'static str>);

/// The nearest cut that a machine can make.
#[pyfunction]
pub fn _limit_to_machine(
    py: Python<'_>,
    formula: &pyo3::Bound<'_, PyFormula>,
    machine: &pyo3::Bound<'_, PyMachine>,
    least_feed: Option<f64>,
    row: Vec<f64>,
) -> PyResult<Limited> {
    let PyFormula { record, units, .. } = formula.get();
    let cut = limit_to_machine(record, *units, &row, &machine.get().0, least_feed);
    let cut = cut.map_err(|error| match error {
        LimitError::Formula(error) => raise(py, &error),
        other => value_error(other),
    })?;
    let row = |bound: &Bound| (bound.what, bound.wanted, bound.limit, bound.least, bound.unit);
    let rows = |bounds: &[Bound]| bounds.iter().map(row).collect();
    Ok((cut.arguments, rows(&cut.bounds), rows(&cut.exceeded), cut.unchecked))
}
