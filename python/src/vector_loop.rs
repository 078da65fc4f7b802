//! Vector loops in the plane.
use crate::error::value_error;
use crate::given::Named;
use crate::number::Wanted;
use crate::propagate::of_loop;
use crate::sample::{helpers, stack_error};
use crate::size::units_of;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use std::sync::{Mutex, PoisonError};
use tenths::quantity::Angle;
use tenths::stack::{StackError, VectorLoop};
use tenths::{Quantity, Units};

/// Vectors head to tail that close, with two unknowns.
///
/// `tenths.inch.VectorLoop()` and `tenths.metric.VectorLoop()` fix the unit of bare lengths; angles are in degrees from
/// the direction of the first axis toward the second. It is built by `unknown` and `link`, which chain.
#[pyclass(frozen, name = "VectorLoop", module = "tenths")]
pub struct PyVectorLoop {
    units: Units,
    vectors: Mutex<VectorLoop>,
}

impl PyVectorLoop {
    /// As it stands now.
    pub fn now(&self) -> VectorLoop {
        self.vectors.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    pub fn side(&self) -> Units {
        self.units
    }

    /// One that later changes leave alone.
    pub fn copied(&self) -> Self {
        Self { units: self.units, vectors: Mutex::new(self.now()) }
    }

    /// What is asked for under a name: a length or an angle.
    pub fn wanted(&self, vectors: &VectorLoop, name: &str, argument: &'static str) -> Wanted {
        wanted(self.units, vectors.is_angle(name), argument)
    }

    fn change<T>(
        &self,
        py: Python<'_>,
        change: impl FnOnce(&mut VectorLoop) -> Result<T, StackError>,
    ) -> PyResult<()> {
        let mut vectors = self.vectors.lock().unwrap_or_else(PoisonError::into_inner);
        change(&mut vectors).map(|_| ()).map_err(|error| stack_error(py, &error))
    }
}

fn wanted(units: Units, is_angle: bool, argument: &'static str) -> Wanted {
    match is_angle {
        true => Wanted::new("VectorLoop", argument, Angle::KIND, units),
        false => Wanted::length("VectorLoop", argument, units),
    }
}

/// A number as text; text that is no quantity with a unit as it is.
fn part(object: &Bound<'_, PyAny>, wanted: &Wanted) -> PyResult<String> {
    match (wanted.one(object), object.cast::<PyString>()) {
        (Ok(number), _) if number.is_finite() => Ok(number.to_string()),
        (Ok(number), _) => Err(value_error(format!("a length or an angle must be finite, not {number}"))),
        (Err(_), Ok(text)) => Ok(text.to_str()?.into()),
        (Err(error), Err(_)) => Err(error),
    }
}

#[pymethods]
impl PyVectorLoop {
    #[new]
    fn new(units: &str) -> PyResult<Self> {
        Ok(Self { units: units_of(units)?, vectors: Mutex::new(VectorLoop::new()) })
    }

    /// `inch` or `metric`: the side of every bare length.
    #[getter]
    fn units(&self) -> &'static str {
        self.units.name()
    }

    /// Names an unknown, of which a loop has two, with a guess near its value, and gives the loop back so that calls
    /// chain. Of several solutions the one near the guesses is found.
    ///
    /// The guess is a number in the unit of the namespace, of an angle in degrees.
    fn unknown<'py>(slf: &Bound<'py, Self>, name: &str, guess: f64) -> PyResult<Bound<'py, Self>> {
        slf.get().change(slf.py(), |vectors| vectors.unknown(name, guess).map(|_| ()))?;
        Ok(slf.clone())
    }

    /// Adds a vector by its length and the angle of its direction, and gives the loop back.
    ///
    /// Each is a number, a quantity with a unit, the name of an input or an unknown, or a sum of number and name as
    /// text, such as '270 - phi' or '0.5 d'. Several vectors may use a name.
    fn link<'py>(
        slf: &Bound<'py, Self>,
        length: &Bound<'py, PyAny>,
        angle: &Bound<'py, PyAny>,
    ) -> PyResult<Bound<'py, Self>> {
        let this = slf.get();
        let length = part(length, &wanted(this.units, false, "length"))?;
        let angle = part(angle, &wanted(this.units, true, "angle"))?;
        this.change(slf.py(), |vectors| vectors.link(&length, &angle).map(|_| ()))?;
        Ok(slf.clone())
    }

    /// The names of the two unknowns and their guesses.
    #[getter]
    fn unknowns<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        for (name, guess) in self.now().unknowns() {
            dict.set_item(name, guess)?;
        }
        Ok(dict)
    }

    /// The names that are not unknowns, in the order in which they first stand.
    #[getter]
    fn inputs(&self) -> Vec<String> {
        self.now().inputs().into_iter().map(String::from).collect()
    }

    /// Length and angle of each vector as text.
    #[getter]
    fn links(&self) -> Vec<(String, String)> {
        self.now().links().into_iter().map(|[length, angle]| (length, angle)).collect()
    }

    /// Both unknowns by name, for a dict of numbers by the names of the inputs.
    #[pyo3(signature = (inputs=None))]
    fn solve<'py>(&self, py: Python<'py>, inputs: Option<Named<'py>>) -> PyResult<Bound<'py, PyDict>> {
        let (vectors, nothing) = (self.now(), PyDict::new(py));
        let (names, given) = (vectors.inputs(), inputs.as_deref().unwrap_or(&nothing));
        for name in given.keys() {
            let name: String = name.extract()?;
            if !names.contains(&name.as_str()) {
                let known = names.join(", ");
                return Err(stack_error(py, &StackError::UnknownName { name, known }));
            }
        }
        let value = |name: &&str| match given.get_item(name)? {
            Some(value) => self.wanted(&vectors, name, "inputs").one(&value),
            None => Err(value_error(format!("the input {name} is missing"))),
        };
        let values = names.iter().map(value).collect::<PyResult<Vec<_>>>()?;
        let found = vectors.solve(&values).map_err(|error| stack_error(py, &error))?;
        let dict = PyDict::new(py);
        for ((name, _), value) in vectors.unknowns().iter().zip(found) {
            dict.set_item(name, value)?;
        }
        Ok(dict)
    }

    /// An unknown whose inputs vary: a `Propagation`, of a dict of inputs such as `propagate` of the namespace takes.
    ///
    /// Inputs that are angles are in degrees. `correlations` is a dict such as {('a', 'c'): 0.5} of normal inputs.
    #[pyo3(signature = (unknown, inputs, *, correlations=None))]
    fn propagate<'py>(
        slf: &Bound<'py, Self>,
        unknown: &str,
        inputs: Named<'py>,
        correlations: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        of_loop(slf, unknown, &inputs, correlations)
    }

    /// Everything as plain data.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("units", self.units.name())?;
        dict.set_item("unknowns", self.unknowns(py)?)?;
        dict.set_item(
            "links",
            self.links().into_iter().map(|(length, angle)| [length, angle]).collect::<Vec<_>>(),
        )?;
        Ok(dict)
    }

    /// The loop that `to_dict` describes.
    #[staticmethod]
    fn from_dict<'py>(py: Python<'py>, data: Named<'py>) -> PyResult<Bound<'py, PyAny>> {
        helpers(py)?.call_method1("vector_loop_from_dict", (&*data,))
    }

    fn __len__(&self) -> usize {
        self.now().links().len()
    }

    fn __eq__(&self, other: &Bound<'_, Self>) -> bool {
        self.units == other.get().units && self.now() == other.get().now()
    }

    fn __repr__(&self) -> String {
        let vectors = self.now();
        let unknowns: Vec<_> = vectors.unknowns().iter().map(|(name, _)| name.as_str()).collect();
        let unknowns = if unknowns.is_empty() { "nothing".into() } else { unknowns.join(" and ") };
        let inputs = match vectors.inputs().is_empty() {
            true => String::new(),
            false => format!(" by {}", vectors.inputs().join(", ")),
        };
        format!("<{} loop of {} vectors for {unknowns}{inputs}>", self.units.name(), vectors.links().len())
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("vector_loop_html", (slf,))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        Ok((py.get_type::<Self>().getattr("from_dict")?, (self.to_dict(py)?,)))
    }
}
