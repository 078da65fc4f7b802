//! Functions, formulas and vector loops whose inputs vary.
use crate::error::value_error;
use crate::formula::PyFormula;
use crate::given::{Named, Threads, whole};
use crate::input::{PyInput, input_of};
use crate::model::{Callable, Model, fault};
use crate::number::Wanted;
use crate::object::object;
use crate::sample::{Asked, PyBlocks, PySample, helpers, stack_error};
use crate::size::units_of;
use crate::vector_loop::PyVectorLoop;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyTuple};
use tenths::Units;
use tenths::stack::{Input, Propagation};

/// A function, a formula or a vector loop whose inputs vary: its nominal value, extremes, moments and samples.
#[pyclass(frozen, name = "Propagation", module = "tenths")]
pub struct PyPropagation {
    model: Model,
    function: Py<PyAny>,
    units: Units,
    /// What limits of a sample are.
    wanted: Wanted,
    extremes: PyOnceLock<Py<PyAny>>,
    moments: PyOnceLock<Py<PyAny>>,
}

/// Every input by its name.
fn read_inputs(
    given: &Bound<'_, PyDict>,
    units: Units,
    asked: impl Fn(&str) -> PyResult<Option<Wanted>>,
) -> PyResult<Vec<Input>> {
    let read = |(name, value): (Bound<'_, PyAny>, Bound<'_, PyAny>)| {
        let name: String = name.extract()?;
        input_of(&name, &value, units, asked(&name)?)
    };
    given.iter().map(read).collect()
}

impl PyPropagation {
    fn make(
        py: Python<'_>,
        mut model: Model,
        function: Py<PyAny>,
        units: Units,
        wanted: Wanted,
        correlations: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Self> {
        if let Some(correlations) = correlations {
            let correlations = correlations
                .extract::<Named<'_>>()
                .map_err(|_| PyTypeError::new_err("correlations are a dict such as {('a', 'b'): 0.5}"))?;
            for (pair, coefficient) in correlations.iter() {
                let (a, b): (String, String) = pair
                    .extract()
                    .map_err(|_| PyTypeError::new_err("correlations are a dict such as {('a', 'b'): 0.5}"))?;
                if a != b && correlations.contains((&b, &a))? {
                    return Err(value_error(format!("correlations give `{a}` and `{b}` twice")));
                }
                model.correlate(&a, &b, coefficient.extract()?).map_err(|error| stack_error(py, &error))?;
            }
        }
        Ok(Self { model, function, units, wanted, extremes: PyOnceLock::new(), moments: PyOnceLock::new() })
    }

    /// What it is of, and the name and the unit of its result where it has them.
    pub fn told(&self) -> (&Model, Option<&str>, Option<&'static str>) {
        (&self.model, self.output_name(), self.unit_label())
    }

    fn unit_label(&self) -> Option<&'static str> {
        match &self.model {
            Model::Callable(_) => None,
            Model::Formula(formula) => Some(formula.function().unit()),
            Model::Loop { .. } => Some(self.wanted.kind().unit(self.units).label),
        }
    }

    fn output_name(&self) -> Option<&str> {
        match &self.model {
            Model::Callable(_) => None,
            Model::Formula(formula) => Some(formula.function().name()),
            Model::Loop { unknown, .. } => Some(unknown),
        }
    }
}

/// A formula with varying arguments, or each of its results.
pub fn of_formula<'py>(
    formula: &Bound<'py, PyFormula>,
    given: &Bound<'py, PyDict>,
    output: Option<&str>,
    correlations: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, PyFormula { record, units, .. }) = (formula.py(), formula.get());
    let asked = |name: &str| {
        let place = record.arguments.iter().position(|argument| argument.name == name);
        // The core names the arguments that there are.
        Ok(place.map(|place| formula.get().wanted(place)))
    };
    let inputs = read_inputs(given, *units, asked)?;
    let one = |output: &str| -> PyResult<Bound<'py, PyAny>> {
        let model = record.propagate(*units, Some(output), inputs.clone());
        let model = model.map_err(|error| stack_error(py, &error))?;
        let place = (0..record.outputs.len()).find(|&k| record.output_name(k) == output).unwrap_or_default();
        let wanted = Wanted::new(record.name, "limits", record.outputs[place].kind, *units);
        let function = formula.clone().into_any().unbind();
        let made = PyPropagation::make(py, Model::Formula(model), function, *units, wanted, correlations)?;
        Ok(Bound::new(py, made)?.into_any())
    };
    match (output, formula.get().results(py)?) {
        (Some(output), _) => one(output),
        (None, None) => one(record.output_name(0)),
        (None, Some(results)) => {
            let all = (0..record.outputs.len()).map(|k| one(record.output_name(k)));
            let all: Vec<_> = all.collect::<PyResult<_>>()?;
            results.of_values(py, all)
        }
    }
}

/// An unknown of a vector loop with varying inputs.
pub fn of_loop<'py>(
    around: &Bound<'py, PyVectorLoop>,
    unknown: &str,
    given: &Bound<'py, PyDict>,
    correlations: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, this) = (around.py(), around.get());
    let (units, vectors) = (this.side(), this.now());
    let known = vectors.inputs();
    // The core names the inputs that there are.
    let asked = |name: &str| Ok(known.contains(&name).then(|| this.wanted(&vectors, name, "inputs")));
    let inputs = read_inputs(given, units, asked)?;
    let propagation = vectors.propagate(unknown, inputs).map_err(|error| stack_error(py, &error))?;
    let wanted = this.wanted(&vectors, unknown, "limits");
    let model = Model::Loop { propagation, unknown: unknown.into() };
    // The loop may be changed later.
    let function = Bound::new(py, this.copied())?.into_any().unbind();
    let made = PyPropagation::make(py, model, function, units, wanted, correlations)?;
    Ok(Bound::new(py, made)?.into_any())
}

/// What makes a propagation in a namespace, and what a pickle calls.
#[pyfunction]
#[pyo3(signature = (units, function, inputs, output=None, correlations=None))]
pub fn _propagate<'py>(
    units: &str,
    function: &Bound<'py, PyAny>,
    inputs: Named<'py>,
    output: Option<&str>,
    correlations: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, units) = (function.py(), units_of(units)?);
    if let Ok(formula) = function.cast::<PyFormula>() {
        if formula.get().units != units {
            let theirs = formula.get().units.name();
            return Err(value_error(format!("a formula of tenths.{theirs} in tenths.{}", units.name())));
        }
        return of_formula(formula, &inputs, output, correlations);
    }
    if let Ok(around) = function.cast::<PyVectorLoop>() {
        if around.get().side() != units {
            let theirs = around.get().side().name();
            return Err(value_error(format!("a vector loop of tenths.{theirs} in tenths.{}", units.name())));
        }
        let unknown =
            output.ok_or_else(|| PyTypeError::new_err("output names the unknown of a vector loop"))?;
        return of_loop(around, unknown, &inputs, correlations);
    }
    if !function.is_callable() {
        return Err(PyTypeError::new_err(
            "propagate takes a callable over arrays, a formula or a vector loop",
        ));
    }
    if output.is_some() {
        return Err(PyTypeError::new_err("only a formula or a vector loop has an output to name"));
    }
    let called = helpers(py)?.call_method1("by_name", (function, inputs.keys()))?;
    let inputs = read_inputs(&inputs, units, |_| Ok(None))?;
    let model = Propagation::new(Callable(called.unbind()), inputs);
    let model = Model::Callable(model.map_err(|error| stack_error(py, &error))?);
    let wanted = Wanted::length("propagate", "limits", units);
    let made = PyPropagation::make(py, model, function.clone().unbind(), units, wanted, correlations)?;
    Ok(Bound::new(py, made)?.into_any())
}

#[pymethods]
impl PyPropagation {
    /// The function, the formula or the vector loop as it was.
    #[getter]
    fn function(&self, py: Python<'_>) -> Py<PyAny> {
        self.function.clone_ref(py)
    }

    /// `inch` or `metric`.
    #[getter]
    fn units(&self) -> &'static str {
        self.units.name()
    }

    /// The name of the result of a formula or the unknown of a vector loop; None of a function.
    #[getter]
    fn output(&self) -> Option<&str> {
        self.output_name()
    }

    /// The unit of the result; None of a function.
    #[getter]
    fn unit(&self) -> Option<&'static str> {
        self.unit_label()
    }

    /// The inputs by name, in their order.
    #[getter]
    fn inputs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        for input in self.model.inputs() {
            let unnamed = Input { name: String::new(), ..input.clone() };
            dict.set_item(&input.name, PyInput { input: unnamed, units: self.units })?;
        }
        Ok(dict)
    }

    /// The coefficients of correlated inputs by pairs of names.
    #[getter]
    fn correlations<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (inputs, dict) = (self.model.inputs(), PyDict::new(py));
        for (a, b, coefficient) in self.model.correlations() {
            dict.set_item((&inputs[a].name, &inputs[b].name), coefficient)?;
        }
        Ok(dict)
    }

    /// The value at the nominal inputs.
    #[getter]
    fn nominal(&self, py: Python<'_>) -> PyResult<f64> {
        self.model.nominal().map_err(|error| fault(py, &error))
    }

    /// The least and the greatest value for any inputs within their limits, where they lie, and whether the function
    /// only rises or only falls with each input; where it does not for all, the extremes were searched for. Only inputs
    /// with two limits are listed.
    #[getter]
    fn extremes(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let make =
            || object(py, &self.model.extremes().map_err(|error| fault(py, &error))?).map(Bound::unbind);
        Ok(self.extremes.get_or_try_init(py, make)?.clone_ref(py))
    }

    /// Mean and standard deviation by first and second derivatives, and what each input that spreads contributes.
    #[getter]
    fn moments(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let make =
            || object(py, &self.model.moments().map_err(|error| fault(py, &error))?).map(Bound::unbind);
        Ok(self.moments.get_or_try_init(py, make)?.clone_ref(py))
    }

    /// Samples it: the same seed gives the same bits with any number of `threads`. A Python function is called on
    /// this thread alone.
    ///
    /// `limits` are a pair, either of which may be None; values beyond, and samples without a value, count as out.
    /// `progress` is True for a bar, or a function of the fraction that is done.
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
        let sampling = Asked { n, seed, limits, threads }.sampling(&self.wanted, self.units)?;
        let sample = self.model.sample(py, &sampling, progress)?;
        sample.map(PySample).map_err(|error| fault(py, &error))
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
        let sampling = Asked { n, seed, limits, threads }.sampling(&self.wanted, self.units)?;
        let (first, count) = (whole("first", first)?, whole("count", count)?);
        let blocks = self.model.sample_blocks(py, &sampling, first, count, progress)?;
        blocks.map(PyBlocks).map_err(|error| fault(py, &error))
    }

    /// Inputs, nominal value, extremes and moments as plain data.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("propagation_dict", (slf,))
    }

    fn __eq__(&self, other: &Bound<'_, Self>) -> PyResult<bool> {
        let (py, other) = (other.py(), other.get());
        Ok(self.function.bind(py).eq(&other.function)?
            && self.units == other.units
            && self.output_name() == other.output_name()
            && self.model.inputs() == other.model.inputs()
            && self.model.correlations() == other.model.correlations())
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        // A formula has many arguments, of which few vary as a rule.
        let inputs = self.model.inputs();
        let mut told: Vec<_> = inputs.iter().filter(|input| input.lower < input.upper).collect();
        if told.is_empty() {
            told = inputs.iter().collect();
        }
        let names: Vec<_> = told.iter().map(|input| input.name.as_str()).collect();
        let function = self.function.bind(py);
        let name = match function.getattr("__name__") {
            _ if matches!(self.model, Model::Loop { .. }) => "vector loop".into(),
            Ok(name) => name.to_string(),
            Err(_) => function.repr()?.to_string(),
        };
        let output = self.output_name().filter(|output| *output != name).map(|output| format!(".{output}"));
        Ok(format!("<propagation of {name}{} by {}>", output.unwrap_or_default(), names.join(", ")))
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("propagation_html", (slf,))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyTuple>)> {
        let make = PyModule::import(py, "tenths._tenths")?.getattr("_propagate")?;
        let arguments =
            (self.units.name(), &self.function, self.inputs(py)?, self.output_name(), self.correlations(py)?);
        Ok((make, arguments.into_pyobject(py)?))
    }
}
