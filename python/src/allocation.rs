//! The cheapest tolerances of a stack, and what tolerances cost.
use crate::error::value_error;
use crate::given::Named;
use crate::number::Wanted;
use crate::object::{PyObject, restored, rows};
use crate::sample::stack_error;
use crate::stack::{PyStack, Which, length};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use tenths::Units;
use tenths::stack::{Allocation, CostCurve, FreeTolerance, Stack, StackError, Target};

/// What a piece costs by the half band of a dimension, the ± of its drawing, in the unit of the stack.
///
/// `least` is the least half band that the process holds, `greatest` the greatest that the function allows.
#[pyclass(frozen, eq, name = "CostCurve", module = "tenths")]
#[derive(Clone, PartialEq)]
pub struct PyCostCurve(FreeTolerance);

impl PyCostCurve {
    fn checked(cost: CostCurve, least: f64, greatest: Option<f64>) -> PyResult<Self> {
        let greatest = greatest.unwrap_or(f64::INFINITY);
        let name = Self::name_of(&cost);
        match cost.fault() {
            Some(fault) => Err(value_error(format!("{name}: {fault}"))),
            None if 0.0 <= least && least <= greatest => Ok(Self(FreeTolerance { cost, least, greatest })),
            None => {
                Err(value_error(format!("{name}: half bands from {least} to {greatest} leave no choice")))
            }
        }
    }

    fn name_of(cost: &CostCurve) -> &'static str {
        match cost {
            CostCurve::Reciprocal { .. } => "reciprocal",
            CostCurve::Exponential { .. } => "exponential",
            CostCurve::Points(_) => "points",
        }
    }

    fn numbers(&self) -> Vec<(&'static str, f64)> {
        match &self.0.cost {
            CostCurve::Reciprocal { fixed, scale, power } => {
                vec![("scale", *scale), ("power", *power), ("fixed", *fixed)]
            }
            CostCurve::Exponential { fixed, scale, rate } => {
                vec![("scale", *scale), ("rate", *rate), ("fixed", *fixed)]
            }
            CostCurve::Points(_) => vec![],
        }
    }

    fn greatest_told(&self) -> Option<f64> {
        self.0.greatest.is_finite().then_some(self.0.greatest)
    }
}

#[pymethods]
impl PyCostCurve {
    /// `fixed + scale / half band ** power`: the reciprocal power model, whose power is mostly from 0.5 to 2.
    #[staticmethod]
    #[pyo3(signature = (scale, power=1.0, *, least, greatest=None, fixed=0.0))]
    fn reciprocal(scale: f64, power: f64, least: f64, greatest: Option<f64>, fixed: f64) -> PyResult<Self> {
        Self::checked(CostCurve::Reciprocal { fixed, scale, power }, least, greatest)
    }

    /// `fixed + scale * exp(-rate * half band)`.
    #[staticmethod]
    #[pyo3(signature = (scale, rate, *, least, greatest=None, fixed=0.0))]
    fn exponential(scale: f64, rate: f64, least: f64, greatest: Option<f64>, fixed: f64) -> PyResult<Self> {
        Self::checked(CostCurve::Exponential { fixed, scale, rate }, least, greatest)
    }

    /// Pairs of half bands and costs, straight between them: each wider one must cost less, and save less than the one
    /// before. The ends bound the tolerance.
    #[staticmethod]
    #[pyo3(signature = (points, *, least=0.0, greatest=None))]
    fn points(points: Vec<[f64; 2]>, least: f64, greatest: Option<f64>) -> PyResult<Self> {
        let points = points.into_iter().map(|[half_band, cost]| (half_band, cost)).collect();
        Self::checked(CostCurve::Points(points), least, greatest)
    }

    /// `reciprocal`, `exponential` or `points`.
    #[getter]
    fn name(&self) -> &'static str {
        Self::name_of(&self.0.cost)
    }

    /// The least half band that the process holds.
    #[getter]
    fn least(&self) -> f64 {
        self.0.least
    }

    /// The greatest half band that the function allows; infinite where the stack alone bounds it.
    #[getter]
    fn greatest(&self) -> f64 {
        self.0.greatest
    }

    /// What a piece costs at a half band.
    fn at(&self, half_band: f64) -> PyResult<f64> {
        match half_band > 0.0 && half_band.is_finite() {
            true => Ok(self.0.cost.at(half_band)),
            false => Err(value_error(format!("a half band must be positive, not {half_band}"))),
        }
    }

    /// Its name and its numbers as plain data; None where nothing but the stack bounds it.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("name", self.name())?;
        for (name, value) in self.numbers() {
            dict.set_item(name, value)?;
        }
        if let CostCurve::Points(points) = &self.0.cost {
            let points: Vec<_> = points.iter().map(|(half_band, cost)| [*half_band, *cost]).collect();
            dict.set_item("points", points)?;
        }
        dict.set_item("least", self.0.least)?;
        dict.set_item("greatest", self.greatest_told())?;
        Ok(dict)
    }

    /// The curve that `to_dict` describes.
    #[staticmethod]
    fn from_dict<'py>(py: Python<'py>, data: Named<'py>) -> PyResult<Bound<'py, PyAny>> {
        let numbers = data.copy()?;
        let name: Option<String> = numbers.get_item("name")?.map(|name| name.extract()).transpose()?;
        let known = ["reciprocal", "exponential", "points"];
        let name = name.filter(|name| known.contains(&name.as_str()));
        let name = name.ok_or_else(|| {
            value_error("the 'name' of a cost curve is one of reciprocal, exponential, points")
        })?;
        numbers.del_item("name")?;
        py.get_type::<Self>().getattr(name)?.call((), Some(&numbers))
    }

    fn __repr__(&self) -> String {
        let mut told: Vec<_> =
            self.numbers().into_iter().map(|(name, value)| format!("{name}={value:?}")).collect();
        if let CostCurve::Points(points) = &self.0.cost {
            told.push(format!("{points:?}"));
        }
        told.push(format!("least={:?}", self.0.least));
        told.extend(self.greatest_told().map(|greatest| format!("greatest={greatest:?}")));
        format!("CostCurve.{}({})", self.name(), told.join(", "))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        Ok((py.get_type::<Self>().getattr("from_dict")?, (self.to_dict(py)?,)))
    }
}

/// What a call asks the closing dimension to keep; exactly one of the three.
pub struct Asked<'a, 'py> {
    pub worst_case: Option<&'a Bound<'py, PyAny>>,
    pub rss: Option<&'a Bound<'py, PyAny>>,
    pub half_band: Option<&'a Bound<'py, PyAny>>,
    pub rate: Option<f64>,
}

impl Asked<'_, '_> {
    pub fn target(&self, units: Units) -> PyResult<Target> {
        let number = |argument, object| Wanted::length("Stack", argument, units).one(object);
        match (self.worst_case, self.rss, self.half_band, self.rate) {
            (Some(half), None, None, None) => Ok(Target::WorstCase(number("worst_case", half)?)),
            (None, Some(half), None, None) => Ok(Target::Rss(number("rss", half)?)),
            (None, None, Some(half), Some(rate)) => {
                Ok(Target::Defects { half_band: number("half_band", half)?, rate })
            }
            _ => Err(PyTypeError::new_err(
                "give one target: worst_case, rss, or half_band with the rate of pieces outside it",
            )),
        }
    }
}

/// The cheapest tolerances of a stack, from a dict of names or places and cost curves.
pub fn allocate<'py>(
    stack: Stack,
    choices: &Bound<'py, PyDict>,
    asked: &Asked<'_, 'py>,
) -> PyResult<Bound<'py, PyAllocation>> {
    let py = choices.py();
    let mut chosen: Vec<Option<FreeTolerance>> = vec![None; stack.contributors().len()];
    for (which, curve) in choices.iter() {
        let place = stack.place(Which::read(&which)?.place()).map_err(|error| stack_error(py, &error))?;
        let curve = curve
            .cast::<PyCostCurve>()
            .map_err(|_| PyTypeError::new_err("choices are a dict of names or places and CostCurves"))?;
        if chosen[place].replace(curve.get().0.clone()).is_some() {
            let name = stack.contributors()[place].name.clone();
            return Err(stack_error(py, &StackError::AmbiguousName { name, count: 2 }));
        }
    }
    let target = asked.target(stack.units())?;
    let found = stack.allocate(&chosen, target).map_err(|error| stack_error(py, &error))?;
    PyAllocation::make(py, stack, found)
}

/// The factor for all but the dimensions of some names or places.
pub fn proportional_factor(
    py: Python<'_>,
    stack: &Stack,
    fixed: &[Bound<'_, PyAny>],
    asked: &Asked<'_, '_>,
) -> PyResult<f64> {
    let mut marks = vec![false; stack.contributors().len()];
    for which in fixed {
        let place = stack.place(Which::read(which)?.place()).map_err(|error| stack_error(py, &error))?;
        marks[place] = true;
    }
    let factor = stack.proportional_factor(&marks, asked.target(stack.units())?);
    factor.map_err(|error| stack_error(py, &error))
}

/// The cheapest tolerances of a stack: what `Stack.allocate` found. Of its table, one that was not to be chosen has no
/// cost.
#[pyclass(frozen, extends = PyObject, name = "Allocation", module = "tenths")]
pub struct PyAllocation {
    stack: Stack,
    found: Allocation,
}

impl PyAllocation {
    fn make(py: Python<'_>, stack: Stack, found: Allocation) -> PyResult<Bound<'_, Self>> {
        Bound::new(
            py,
            PyClassInitializer::from(PyObject::of(&found, None)).add_subclass(Self { stack, found }),
        )
    }
}

#[pymethods]
impl PyAllocation {
    /// The stack as it was, with its own tolerances.
    #[getter]
    fn stack(&self) -> PyStack {
        self.stack.clone().into()
    }

    /// A new stack with these tolerances about the middles that it has, the half bands rounded down to whole steps: a
    /// length such as '0.001 mm', or a number in the unit of the stack.
    fn apply(&self, step: &Bound<'_, PyAny>) -> PyResult<PyStack> {
        let applied = self.found.apply(&self.stack, length(step, "step", self.stack.units())?);
        applied.map(PyStack::from).map_err(|error| stack_error(step.py(), &error))
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| {
            let other = other.get();
            self.found == other.found && self.stack == other.stack
        })
    }

    fn __hash__(slf: &Bound<'_, Self>) -> u64 {
        slf.as_super().get().__hash__()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyTuple>)> {
        let py = slf.py();
        let maker = PyModule::import(py, "tenths._tenths")?.getattr("_allocation")?;
        let PyAllocation { stack, found } = slf.get();
        let given = (PyStack::from(stack.clone()), rows(py, &found.tolerances)?, found.cost, found.saving);
        Ok((maker, given.into_pyobject(py)?))
    }
}

/// An allocation as it was pickled.
#[pyfunction]
pub fn _allocation<'py>(
    stack: &Bound<'py, PyStack>,
    rows: Vec<Bound<'py, PyObject>>,
    cost: f64,
    saving: f64,
) -> PyResult<Bound<'py, PyAllocation>> {
    let (py, stack) = (stack.py(), stack.get().now());
    if rows.len() != stack.contributors().len() {
        return Err(value_error("an allocation has a row for each dimension of its stack"));
    }
    let found = Allocation { units: stack.units(), tolerances: restored(&rows)?, cost, saving };
    PyAllocation::make(py, stack, found)
}
