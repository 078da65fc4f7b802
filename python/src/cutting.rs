//! Fits of tool life, and cuts fitted to a machine.
use crate::error::{document_error, raise, value_error};
use crate::formula::PyFormula;
use crate::number::Wanted;
use crate::object::{PyObject, object_in, rows};
use crate::size::units_of;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::cutting::limit_to_machine::{LimitError, limit_to_machine};
use tenths::cutting::machine::Machine;
use tenths::cutting::taylor_fit::TaylorFit;
use tenths::quantity::{
    Acceleration, FeedRate, Force, HourlyRate, Kind, Length, Money, Power, SpindleSpeed, SurfaceSpeed, Time,
    Torque, Volume,
};
use tenths::{Quantity, Units};

/// What asks for numbers here, by what name, and of which quantity.
const ROLES: [(&str, &str, &Kind); 27] = [
    ("fit_taylor", "speeds", SurfaceSpeed::KIND),
    ("fit_taylor", "lives", Time::KIND),
    ("fit_taylor", "feeds", Length::KIND),
    ("fit_taylor", "depths", Length::KIND),
    ("limit_to_machine", "least_feed", Length::KIND),
    ("best_cut", "time", Time::KIND),
    ("best_cut", "tool_life", Time::KIND),
    ("best_cut", "taylor_c", SurfaceSpeed::KIND),
    ("best_cut", "reference_feed", Length::KIND),
    ("best_cut", "reference_depth", Length::KIND),
    ("best_cut", "hourly_rate", HourlyRate::KIND),
    ("best_cut", "edge_cost", Money::KIND),
    ("best_cut", "tool_change_time", Time::KIND),
    ("best_cut", "handling_time", Time::KIND),
    ("best_cut", "path_length", Length::KIND),
    ("best_cut", "volume", Volume::KIND),
    ("best_passes", "depth", Length::KIND),
    ("best_passes", "pass_time", Time::KIND),
    ("Machine", "least_spindle_speed", SpindleSpeed::KIND),
    ("Machine", "greatest_spindle_speed", SpindleSpeed::KIND),
    ("Machine", "spindle_speed", SpindleSpeed::KIND),
    ("Machine", "power", Power::KIND),
    ("Machine", "torque", Torque::KIND),
    ("Machine", "least_feed_rate", FeedRate::KIND),
    ("Machine", "greatest_feed_rate", FeedRate::KIND),
    ("Machine", "greatest_axis_force", Force::KIND),
    ("Machine", "greatest_acceleration", Acceleration::KIND),
];

/// What is asked of every number of this module, by name.
#[pyfunction]
pub fn _wanted_by_name<'py>(py: Python<'py>, units: &str) -> PyResult<Bound<'py, PyDict>> {
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

/// Taylor's constants as trials tell them: V · T^n · f^a · d^b = C, with standard errors.
///
/// The line is fitted by least squares to ln life by ln speed, with feed and depth where they are given, which refer to
/// 1 mm. For an interval, multiply an error by Student's t.
#[pyclass(frozen, extends = PyObject, name = "TaylorFit", module = "tenths")]
pub struct PyTaylorFit {
    fit: TaylorFit,
    units: Units,
    trials: Trials,
}

#[pymethods]
impl PyTaylorFit {
    /// `inch` or `metric`.
    #[getter]
    fn units(&self) -> &'static str {
        self.units.name()
    }

    /// The life at a speed, and at a feed and a depth where those were fitted.
    #[pyo3(signature = (speed, feed=None, depth=None))]
    fn predict<'py>(
        &self,
        speed: &Bound<'py, PyAny>,
        feed: Option<&Bound<'py, PyAny>>,
        depth: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let py = speed.py();
        let wanted = |name, kind| Wanted::new("predict", name, kind, self.units);
        let length = |name, object: Option<&_>| {
            let number = object.map(|object| wanted(name, Length::KIND).one(object)).transpose();
            number.map(|number| number.map(|number| Length::new_in(number, self.units)))
        };
        let speed = SurfaceSpeed::new_in(wanted("speed", SurfaceSpeed::KIND).one(speed)?, self.units);
        let life = self.fit.predict(speed, length("feed", feed)?, length("depth", depth)?);
        object_in(py, &life.map_err(value_error)?, self.units)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (&'static str, Trials))> {
        let fit = PyModule::import(py, "tenths._tenths")?.getattr("_fit_taylor")?;
        Ok((fit, (self.units.name(), self.trials.clone())))
    }
}

/// The fit of trials in columns.
#[pyfunction]
pub fn _fit_taylor<'py>(py: Python<'py>, units: &str, trials: Trials) -> PyResult<Bound<'py, PyTaylorFit>> {
    let units = units_of(units)?;
    let fit = fit(units, &trials)?;
    let object = PyClassInitializer::from(PyObject::of(&fit, Some(units)));
    Bound::new(py, object.add_subclass(PyTaylorFit { fit, units, trials }))
}

/// The limits of a machine: its spindle, its power and torque, its feeds.
///
/// `Machine.from_json(text)` reads a document, which names its own units; `tenths.inch.Machine(...)` and
/// `tenths.metric.Machine(...)` take numbers.
#[pyclass(frozen, eq, name = "Machine", module = "tenths")]
#[derive(PartialEq)]
pub struct PyMachine(pub Machine);

#[pymethods]
impl PyMachine {
    /// The machine of a JSON document.
    #[staticmethod]
    fn from_json(py: Python<'_>, text: &str) -> PyResult<Self> {
        Machine::from_json(text).map(Self).map_err(|error| document_error(py, &error))
    }

    /// The machine as JSON.
    fn to_json(&self) -> String {
        self.0.to_json()
    }

    /// The machine as plain data.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        PyModule::import(py, "json")?.call_method1("loads", (self.0.to_json(),))
    }

    fn __repr__(&self) -> String {
        format!("<machine {}>", self.0.to_json())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().getattr("from_json")?, (self.0.to_json(),)))
    }
}

/// The limited arguments, the bounds, what is still exceeded, and what could not be judged.
type Limited<'py> = (Vec<f64>, Bound<'py, PyAny>, Bound<'py, PyAny>, Vec<&'static str>);

/// The nearest cut that a machine can make.
#[pyfunction]
pub fn _limit_to_machine<'py>(
    py: Python<'py>,
    formula: &Bound<'py, PyFormula>,
    machine: &Bound<'py, PyMachine>,
    least_feed: Option<f64>,
    row: Vec<f64>,
) -> PyResult<Limited<'py>> {
    let PyFormula { record, units, .. } = formula.get();
    let cut = limit_to_machine(record, *units, &row, &machine.get().0, least_feed);
    let cut = cut.map_err(|error| match error {
        LimitError::Formula(error) => raise(py, &error),
        other => value_error(other),
    })?;
    Ok((cut.arguments, rows(py, &cut.bounds)?, rows(py, &cut.exceeded)?, cut.unchecked))
}
