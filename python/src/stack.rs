//! Linear tolerance stacks.
use crate::allocation::{self, PyAllocation};
use crate::array::{as_array, numbers_of};
use crate::distribution::{PyDistribution, distribution_of};
use crate::error::{advise_of_law, advise_of_signs, value_error};
use crate::given::{Named, Threads, whole};
use crate::number::Wanted;
use crate::object::{object, rows};
use crate::sample::{Asked, PyBlocks, PySample, helpers, stack_error};
use crate::size::units_of;
use crate::size::{PyLimits, PySize, limits_of};
use crate::watch::watched;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use std::sync::{Mutex, PoisonError};
use tenths::stack::{Closure, Contributor, ContributorKey, Input, MeanShift, Stack, StackError};
use tenths::{Limits, Size, Units};

/// A chain of dimensions, which its closing dimension is the sum of, each times its sensitivity.
///
/// `tenths.inch.Stack()` and `tenths.metric.Stack()` fix the unit of bare numbers. It is built by `add`, which chains.
///
///     >>> gap = tenths.inch.Stack().add("housing", "2.000 ±.005 in").add("shaft", "1.990 ±.003 in", sensitivity=-1)
///     >>> gap.worst_case().to_text("in")
///     '0.002..0.018 in'
#[pyclass(frozen, name = "Stack", module = "tenths")]
pub struct PyStack(Mutex<Stack>);

impl From<Stack> for PyStack {
    fn from(stack: Stack) -> Self {
        Self(Mutex::new(stack))
    }
}

impl PyStack {
    /// As it stands now.
    pub fn now(&self) -> Stack {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    fn change<T>(
        &self,
        py: Python<'_>,
        change: impl FnOnce(&mut Stack) -> Result<T, StackError>,
    ) -> PyResult<()> {
        let mut stack = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        change(&mut stack).map(|_| ()).map_err(|error| stack_error(py, &error))
    }

    fn ask<T>(&self, py: Python<'_>, ask: impl FnOnce(&Stack) -> Result<T, StackError>) -> PyResult<T> {
        ask(&self.now()).map_err(|error| stack_error(py, &error))
    }
}

/// A length in the unit of a namespace, a Size or text, exactly: a float as its shortest decimal.
pub fn length(object: &Bound<'_, PyAny>, argument: &'static str, units: Units) -> PyResult<Size> {
    let named = |error| value_error(format!("{argument}: {error}"));
    if let Ok(size) = object.cast::<PySize>() {
        return Ok(size.get().0);
    }
    if let Ok(text) = object.cast::<PyString>() {
        return Size::parse(text.to_str()?).map_err(named);
    }
    let number = Wanted::length("Stack", argument, units).one(object)?;
    Size::from_float(number, units).map_err(named)
}

/// An error about a contributor, by its name, of the class that it was.
fn of_contributor(py: Python<'_>, name: &str, error: &PyErr) -> PyErr {
    PyErr::from_type(error.get_type(py), format!("{name}: {}", error.value(py)))
}

/// Limits, text, or a pair of lengths.
fn closing(limits: &Bound<'_, PyAny>, units: Units) -> PyResult<Limits> {
    if limits.is_instance_of::<PyString>() || limits.is_instance_of::<PyLimits>() {
        return limits_of(limits);
    }
    let pair: Option<(Bound<'_, PyAny>, Bound<'_, PyAny>)> = limits.extract().ok();
    let (lower, upper) =
        pair.ok_or_else(|| PyTypeError::new_err("limits are Limits, text or a pair of lengths"))?;
    Limits::between(length(&lower, "limits", units)?, length(&upper, "limits", units)?).map_err(value_error)
}

/// The name of a contributor, or its place.
pub enum Which {
    Name(String),
    Number(usize),
}

impl Which {
    pub fn read(object: &Bound<'_, PyAny>) -> PyResult<Which> {
        match object.cast::<PyString>() {
            Ok(name) => Ok(Which::Name(name.to_str()?.into())),
            Err(_) => Ok(Which::Number(usize::try_from(whole("the place", object)?).unwrap_or(usize::MAX))),
        }
    }

    pub fn place(&self) -> ContributorKey<'_> {
        match self {
            Which::Name(name) => ContributorKey::Name(name),
            Which::Number(number) => ContributorKey::Number(*number),
        }
    }
}

#[pymethods]
impl PyStack {
    #[new]
    fn new(units: &str) -> PyResult<Self> {
        Ok(Stack::new(units_of(units)?).into())
    }

    /// `inch` or `metric`: the side of every bare number.
    #[getter]
    fn units(&self) -> &'static str {
        self.now().units().name()
    }

    /// Adds a dimension, and gives the stack back so that calls chain.
    ///
    /// `plus` and `minus` are signed deviations from `nominal`, so that minus is usually negative: numbers in the unit
    /// of the stack, Sizes or text. Without them `nominal` is Limits or text such as '1.420 ±.005 in' or '25 H7'.
    /// `sensitivity` is what a unit more of it adds to the closing dimension, and `count` how many pieces like it, each
    /// of its own size, stand in the chain. The standard deviation of a normal one is a third of the half band.
    #[pyo3(signature = (name, nominal, plus=None, minus=None, sensitivity=1.0, distribution=None, count=None))]
    #[pyo3(
        text_signature = "($self, name, nominal, plus=None, minus=None, sensitivity=1, distribution='normal', count=1)"
    )]
    #[expect(clippy::too_many_arguments, reason = "a dimension has as many parts, and they go by name")]
    fn add<'py>(
        slf: &Bound<'py, Self>,
        name: String,
        nominal: &Bound<'py, PyAny>,
        plus: Option<&Bound<'py, PyAny>>,
        minus: Option<&Bound<'py, PyAny>>,
        sensitivity: f64,
        distribution: Option<&Bound<'py, PyAny>>,
        count: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, Self>> {
        let (py, units) = (slf.py(), slf.get().now().units());
        let limits = match (plus, minus) {
            (Some(plus), Some(minus)) => {
                let sizes = || {
                    PyResult::Ok([
                        length(nominal, "nominal", units)?,
                        length(plus, "plus", units)?,
                        length(minus, "minus", units)?,
                    ])
                };
                let [nominal, plus, minus] = sizes().map_err(|error| of_contributor(py, &name, &error))?;
                advise_of_signs(py, &name, plus.to_float(units), minus.to_float(units), 1)?;
                Limits::with_deviations(nominal, plus, minus)
                    .map_err(|error| value_error(format!("{name}: {error}")))?
            }
            (None, None) => {
                limits_of(nominal).map_err(|error| match error.is_instance_of::<PyTypeError>(py) {
                    true => PyTypeError::new_err(format!(
                        "{name}: give nominal, plus and minus, or Limits or text such as '1.420 ±.005 in'"
                    )),
                    false => of_contributor(py, &name, &error),
                })?
            }
            _ => return Err(PyTypeError::new_err(format!("{name}: plus and minus go together"))),
        };
        let count = count.map_or(Ok(1), |count| whole("count", count))?;
        let contributor = Contributor::new(name, limits)
            .sensitivity(sensitivity)
            // Beyond what a stack takes anyway.
            .count(u32::try_from(count).unwrap_or(u32::MAX));
        let contributor = match distribution {
            None => contributor,
            Some(distribution) => {
                let law = distribution_of(distribution)?;
                advise_of_law(
                    py,
                    &contributor.name,
                    &Input::sized("", &limits, units).distribution(law.clone()),
                    1,
                )?;
                contributor.distribution(law)
            }
        };
        slf.get().change(slf.py(), |stack| stack.add(contributor).map(|_| ()))?;
        Ok(slf.clone())
    }

    /// Correlates two normal dimensions that occur once each, by name or place, from -1 to 1.
    fn correlate<'py>(
        slf: &Bound<'py, Self>,
        a: &Bound<'py, PyAny>,
        b: &Bound<'py, PyAny>,
        coefficient: f64,
    ) -> PyResult<Bound<'py, Self>> {
        let (a, b) = (Which::read(a)?, Which::read(b)?);
        slf.get().change(slf.py(), |stack| stack.correlate(a.place(), b.place(), coefficient).map(|_| ()))?;
        Ok(slf.clone())
    }

    /// Sets standard deviations and correlations of some dimensions by their covariance matrix, in squares of the unit
    /// of the stack. They become normal, with the means that they had.
    fn covariance<'py>(
        slf: &Bound<'py, Self>,
        names: Vec<Bound<'py, PyAny>>,
        matrix: &Bound<'py, PyAny>,
    ) -> PyResult<Bound<'py, Self>> {
        let which: Vec<Which> = names.iter().map(Which::read).collect::<PyResult<_>>()?;
        let places: Vec<ContributorKey<'_>> = which.iter().map(Which::place).collect();
        let matrix = as_array(matrix)?;
        if matrix.getattr("shape")?.extract::<(usize, usize)>().ok() != Some((places.len(), places.len())) {
            return Err(value_error(format!("the covariance of {0} has {0} rows of {0}", places.len())));
        }
        let numbers = numbers_of(&matrix)?;
        slf.get().change(slf.py(), |stack| stack.covariance(&places, &numbers).map(|_| ()))?;
        Ok(slf.clone())
    }

    /// The limits of the closing dimension for any parts within theirs, exact and rounded outward to the picometre.
    fn worst_case(&self, py: Python<'_>) -> PyResult<PyLimits> {
        self.ask(py, Stack::worst_case).map(PyLimits)
    }

    /// The root of the sum of the squared tolerances about the sum of the middles of all limits.
    fn rss<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.ask(py, Stack::rss)?)
    }

    /// `rss` times a factor for processes that spread more than in theory; 1.5 is Bender's (from memory).
    #[pyo3(signature = (factor=1.5))]
    fn inflated_rss<'py>(&self, py: Python<'py>, factor: f64) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.ask(py, |stack| stack.inflated_rss(factor))?)
    }

    /// The mean of worst case and root of the sum of squares, after Spotts (from memory).
    fn spotts<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.ask(py, Stack::spotts)?)
    }

    /// Shares of the tolerances that means may be off by add up, and the rest is the root of the sum of squares.
    ///
    /// `shares` has a number from 0 to 1 for each dimension, or is one for all: 0 gives `rss`, 1 the worst case.
    fn estimated_mean_shift<'py>(&self, shares: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let py = shares.py();
        let shares: Vec<f64> = match shares.extract::<f64>() {
            Ok(share) => vec![share; self.now().contributors().len()],
            Err(_) => shares.extract()?,
        };
        object(py, &self.ask(py, |stack| stack.estimated_mean_shift(&shares))?)
    }

    /// Exact moments of the closing dimension by the distributions.
    fn statistics<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.ask(py, Stack::statistics)?)
    }

    /// Mean, shift of the mean and standard deviation, where processes off their middles are taken as 'centred',
    /// 'dynamic' (they wander, which widens the spread) or 'static' (they stay, all to the same side).
    fn spread<'py>(&self, py: Python<'py>, shift: &str) -> PyResult<Bound<'py, PyAny>> {
        let shift = match shift {
            "centred" => MeanShift::Centred,
            "dynamic" => MeanShift::Dynamic,
            "static" => MeanShift::Static,
            _ => {
                return Err(value_error(format!(
                    "a shift is 'centred', 'dynamic' or 'static', not '{shift}'"
                )));
            }
        };
        object(py, &self.ask(py, |stack| stack.spread(shift))?)
    }

    /// What each dimension has of the whole in percent: a table.
    fn contributions<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        rows(py, &self.ask(py, Stack::contributions)?)
    }

    /// The greatest tolerance that a dimension could have about its middle, with which the closing dimension keeps
    /// within limits; None where none will do. `closure` is 'worst case' or 'rss'.
    ///
    /// Its limits go in or out by as much at either end, so that in picometres it is even or odd as the tolerance that
    /// it has; it is never more than what closes.
    #[pyo3(signature = (name, limits, closure="worst case"))]
    fn greatest_tolerance(
        &self,
        name: &Bound<'_, PyAny>,
        limits: &Bound<'_, PyAny>,
        closure: &str,
    ) -> PyResult<Option<PySize>> {
        let closure = match closure {
            "worst case" => Closure::WorstCase,
            "rss" => Closure::Rss,
            _ => return Err(value_error(format!("a closure is 'worst case' or 'rss', not '{closure}'"))),
        };
        let (which, limits) = (Which::read(name)?, closing(limits, self.now().units())?);
        let found = self.ask(name.py(), |stack| stack.greatest_tolerance(which.place(), &limits, closure));
        Ok(found?.map(PySize))
    }

    /// The cheapest tolerances with which the closing dimension keeps a target: half a band about its middle.
    ///
    /// `choices` is a dict of names or places and `CostCurve`s; the other dimensions keep their tolerances. The target
    /// is `worst_case` for any parts within their limits, `rss` for the root of the sum of squares, or `half_band` for
    /// all but a share `rate` of the pieces, both sides together, where the closing dimension is normal and centred.
    #[pyo3(signature = (choices, *, worst_case=None, rss=None, half_band=None, rate=None))]
    fn allocate<'py>(
        &self,
        choices: Named<'py>,
        worst_case: Option<&Bound<'py, PyAny>>,
        rss: Option<&Bound<'py, PyAny>>,
        half_band: Option<&Bound<'py, PyAny>>,
        rate: Option<f64>,
    ) -> PyResult<Bound<'py, PyAllocation>> {
        let asked = allocation::Asked { worst_case, rss, half_band, rate };
        allocation::allocate(self.now(), &choices, &asked)
    }

    /// The factor by which all tolerances but those of `fixed` names or places can be widened, or must be narrowed, to
    /// keep half a band as a worst case or as a root of the sum of squares: proportional scaling.
    #[pyo3(signature = (fixed=vec![], *, worst_case=None, rss=None))]
    #[pyo3(text_signature = "($self, fixed=(), *, worst_case=None, rss=None)")]
    fn proportional_factor(
        &self,
        py: Python<'_>,
        fixed: Vec<Bound<'_, PyAny>>,
        worst_case: Option<&Bound<'_, PyAny>>,
        rss: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<f64> {
        if worst_case.is_some() == rss.is_some() {
            return Err(PyTypeError::new_err("give one target: worst_case or rss"));
        }
        let asked = allocation::Asked { worst_case, rss, half_band: None, rate: None };
        allocation::proportional_factor(py, &self.now(), &fixed, &asked)
    }

    /// Samples the closing dimension: the same seed gives the same bits with any number of `threads` (None: as many
    /// as the machine runs).
    ///
    /// `limits` are a pair of lengths, either of which may be None, or Limits; values beyond count as out. `progress` is
    /// True for a bar, or a function of the fraction that is done.
    #[pyo3(signature = (n, seed, limits=None, threads=Threads(0), *, progress=None))]
    #[pyo3(text_signature = "($self, n, seed, limits=None, threads=None, *, progress=None)")]
    fn sample(
        &self,
        py: Python<'_>,
        n: &Bound<'_, PyAny>,
        seed: &Bound<'_, PyAny>,
        limits: Option<&Bound<'_, PyAny>>,
        threads: Threads,
        progress: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<PySample> {
        let stack = self.now();
        let sampling = Asked { n, seed, limits, threads }.sampling(&wanted(stack.units()), stack.units())?;
        let sample = watched(py, progress, |watch| stack.sample_watched(&sampling, watch))?;
        sample.map(PySample).map_err(|error| stack_error(py, &error))
    }

    /// `count` of the blocks of a sample from number `first`, of 16 384 samples each, for `tenths.fold_blocks`.
    ///
    /// `n` is the count of all samples; every portion takes the same `n`, `seed` and `limits`.
    #[pyo3(signature = (first, count, *, n, seed, limits=None, threads=Threads(1), progress=None))]
    #[pyo3(text_signature = "($self, first, count, *, n, seed, limits=None, threads=1, progress=None)")]
    #[expect(clippy::too_many_arguments, reason = "they go by name")]
    fn sample_blocks(
        &self,
        py: Python<'_>,
        first: &Bound<'_, PyAny>,
        count: &Bound<'_, PyAny>,
        n: &Bound<'_, PyAny>,
        seed: &Bound<'_, PyAny>,
        limits: Option<&Bound<'_, PyAny>>,
        threads: Threads,
        progress: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<PyBlocks> {
        let stack = self.now();
        let sampling = Asked { n, seed, limits, threads }.sampling(&wanted(stack.units()), stack.units())?;
        let (first, count) = (whole("first", first)?, whole("count", count)?);
        let blocks =
            watched(py, progress, |watch| stack.sample_blocks_watched(&sampling, first, count, watch))?;
        blocks.map(PyBlocks).map_err(|error| stack_error(py, &error))
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (stack, dict) = (self.now(), PyDict::new(py));
        dict.set_item("units", stack.units().name())?;
        let contributor = |one: &Contributor| {
            let row = PyDict::new(py);
            row.set_item("name", &one.name)?;
            row.set_item("nominal", one.limits.nominal().to_string())?;
            row.set_item("plus", one.limits.upper_deviation().to_string())?;
            row.set_item("minus", one.limits.lower_deviation().to_string())?;
            row.set_item("sensitivity", one.sensitivity)?;
            row.set_item("distribution", PyDistribution(one.distribution.clone()).to_dict(py)?)?;
            row.set_item("count", one.count)?;
            Ok(row)
        };
        let rows: Vec<_> = stack.contributors().iter().map(contributor).collect::<PyResult<_>>()?;
        dict.set_item("contributors", rows)?;
        let correlation = |(a, b, coefficient): (usize, usize, f64)| {
            let row = PyDict::new(py);
            row.set_item("a", a)?;
            row.set_item("b", b)?;
            row.set_item("coefficient", coefficient)?;
            Ok(row)
        };
        let rows: Vec<_> = stack.correlations().into_iter().map(correlation).collect::<PyResult<_>>()?;
        dict.set_item("correlations", rows)?;
        Ok(dict)
    }

    /// The stack that `to_dict` describes.
    #[staticmethod]
    fn from_dict<'py>(py: Python<'py>, data: Named<'py>) -> PyResult<Bound<'py, PyAny>> {
        helpers(py)?.call_method1("stack_from_dict", (&*data,))
    }

    fn __len__(&self) -> usize {
        self.now().contributors().len()
    }

    fn __eq__(&self, other: &Bound<'_, Self>) -> bool {
        self.now() == other.get().now()
    }

    fn __repr__(&self) -> String {
        let stack = self.now();
        let names: Vec<_> = stack.contributors().iter().map(|one| one.name.as_str()).collect();
        format!(
            "<{} stack of {}>",
            stack.units().name(),
            if names.is_empty() { "nothing".into() } else { names.join(", ") }
        )
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("stack_html", (slf,))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        Ok((py.get_type::<Self>().getattr("from_dict")?, (self.to_dict(py)?,)))
    }
}

fn wanted(units: Units) -> Wanted {
    Wanted::length("Stack", "limits", units)
}
