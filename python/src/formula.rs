//! The callable of a formula on one side. Not a line here names a formula.
use crate::error::raise;
use crate::exact_size::PySize;
use crate::memory::KeptMemory;
use crate::number::{self, Wanted};
use crate::size::units_of;
use crate::ufunc::{self, Threads};
use pyo3::exceptions::{PyAttributeError, PyTypeError, PyValueError};
use pyo3::ffi::{self, PyObject};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyString, PyTuple};
use std::ptr;
use tenths::Units;
use tenths::formula::{Formula, MAX_INPUTS, MAX_OUTPUTS};
use tenths::registry::find_or_nearest;

/// A formula in one system of units.
///
/// Floats give a checked float; arrays, and anything else that numpy dispatches, go to `.ufunc`.
#[pyclass(frozen, subclass, name = "Formula", module = "tenths")]
pub struct PyFormula {
    pub record: &'static Formula,
    pub units: Units,
    // What is made when it is first asked for: an import makes hundreds of formulas, of which few are called.
    ufunc: PyOnceLock<Py<PyAny>>,
    judge: PyOnceLock<Py<PyAny>>,
    names: PyOnceLock<Vec<Py<PyString>>>,
    results: PyOnceLock<Results>,
}

/// The class of several results, and their names.
pub struct Results {
    class: Py<PyAny>,
    names: Vec<Py<PyString>>,
}

impl Results {
    fn make(py: Python<'_>, record: &Formula, units: Units) -> PyResult<Self> {
        let fields: Vec<_> =
            record.outputs.iter().map(|o| (o.name, o.kind.unit(units).label, o.doc)).collect();
        let module = PyModule::import(py, "tenths._results")?;
        let class = module.call_method1("results", (units.name(), record.name, fields))?.unbind();
        let names = record.outputs.iter().map(|o| PyString::intern(py, o.name).unbind()).collect();
        Ok(Self { class, names })
    }

    /// Results that are single numbers.
    fn of_numbers<'py>(&self, py: Python<'py>, numbers: &[f64]) -> PyResult<Bound<'py, PyAny>> {
        let made = self.class.bind(py).call0()?.cast_into::<PyDict>()?;
        for (name, number) in self.names.iter().zip(numbers) {
            made.set_item(name, number)?;
        }
        Ok(made.into_any())
    }

    /// Results from a value for each.
    pub fn of_values<'py>(
        &self,
        py: Python<'py>,
        values: impl IntoPyObject<'py>,
    ) -> PyResult<Bound<'py, PyAny>> {
        self.class.bind(py).call_method1(intern!(py, "_make"), (values,))
    }
}

/// What a call may be given beside the arguments of a formula, by name.
pub const OPTIONS: [&str; 2] = ["on_error", "threads"];

/// Where the value of a keyword goes.
enum Place {
    Argument(usize),
    /// By its place in [`OPTIONS`].
    Option(usize),
}

/// What a call does if there is no answer.
#[derive(Clone, Copy, PartialEq)]
enum OnError {
    Nan,
    Raise,
}

impl OnError {
    fn name(self) -> &'static str {
        match self {
            OnError::Nan => "nan",
            OnError::Raise => "raise",
        }
    }

    fn read(py: Python<'_>, object: *mut PyObject) -> PyResult<OnError> {
        // SAFETY: an argument of a call, which lives while it lasts.
        let object = unsafe { Bound::from_borrowed_ptr(py, object) };
        match object.extract::<String>().as_deref() {
            Ok("nan") => Ok(OnError::Nan),
            Ok("raise") => Ok(OnError::Raise),
            _ => Err(PyValueError::new_err(format!(
                "on_error must be 'nan' or 'raise', not {}",
                object.repr()?
            ))),
        }
    }
}

/// The Python module that holds what is better written in Python.
fn helpers(py: Python<'_>) -> PyResult<Bound<'_, PyModule>> {
    PyModule::import(py, "tenths._formula")
}

impl PyFormula {
    pub fn make(record: &'static Formula, units: Units) -> Self {
        let [ufunc, judge] = [PyOnceLock::new(), PyOnceLock::new()];
        Self { record, units, ufunc, judge, names: PyOnceLock::new(), results: PyOnceLock::new() }
    }

    /// The numpy ufunc.
    fn ufunc(&self, py: Python<'_>) -> PyResult<&Py<PyAny>> {
        self.ufunc.get_or_try_init(py, || {
            let made = ufunc::computing(py, self.record, self.units)?;
            // Where a pickle finds it by its name: older versions of numpy look through all modules that are there.
            let home = PyModule::import(py, format!("tenths._{}_ufuncs", self.units.name()))?;
            match made.setattr(py, "__module__", home.name()?) {
                Err(error) if !error.is_instance_of::<PyAttributeError>(py) => Err(error),
                _ => Ok(made),
            }
        })
    }

    /// The names of the arguments.
    fn names(&self, py: Python<'_>) -> &[Py<PyString>] {
        let names = || self.record.arguments.iter().map(|a| PyString::intern(py, a.name).unbind()).collect();
        self.names.get_or_init(py, names)
    }

    /// The class of the results, of a formula that has several.
    pub fn results(&self, py: Python<'_>) -> PyResult<Option<&Results>> {
        match self.record.outputs {
            [_] => Ok(None),
            _ => self.results.get_or_try_init(py, || Results::make(py, self.record, self.units)).map(Some),
        }
    }

    /// One call, by whatever road it came: positional arguments, then those that `names` names.
    #[inline(never)]
    pub fn invoke(
        &self,
        py: Python<'_>,
        args: &[*mut PyObject],
        names: &[*mut PyObject],
    ) -> PyResult<*mut PyObject> {
        let mut slots = [ptr::null_mut::<PyObject>(); MAX_INPUTS];
        let [on_error, threads] = self.place(py, args, names, &mut slots)?;
        let on_error = if on_error.is_null() { None } else { Some(OnError::read(py, on_error)?) };
        let _asked = if threads.is_null() { None } else { Some(Threads::read(py, threads)?) };
        let slots = &slots[..self.record.arguments.len()];
        let mut x = [0.0; MAX_INPUTS];
        for (k, (x, &object)) in x.iter_mut().zip(slots).enumerate() {
            // SAFETY: the objects of a call are alive while it lasts.
            *x = unsafe {
                if object.is_null() {
                    self.default(k)?
                } else if ffi::PyFloat_Check(object) != 0 {
                    ffi::PyFloat_AsDouble(object)
                } else if ffi::PyLong_Check(object) != 0 && ffi::PyBool_Check(object) == 0 {
                    let number = ffi::PyLong_AsDouble(object);
                    match number == -1.0 && PyErr::take(py).is_some() {
                        true => number::infinite(&Bound::from_borrowed_ptr(py, object))?,
                        false => number,
                    }
                } else if let Some(number) = self.written(k, &Bound::from_borrowed_ptr(py, object))? {
                    number
                } else if number::is_quantity(&Bound::from_borrowed_ptr(py, object))? {
                    return self.quantities(py, slots, on_error);
                } else if let Some(number) = self.number(k, &Bound::from_borrowed_ptr(py, object))? {
                    number
                } else {
                    return self.array(py, slots, on_error);
                }
            };
        }
        let mut y = [0.0; MAX_OUTPUTS];
        let y = &mut y[..self.record.outputs.len()];
        match self.record.call(self.units, &x[..slots.len()], y) {
            Err(_) if on_error == Some(OnError::Nan) => y.fill(f64::NAN),
            done => _ = done.map_err(|error| raise(py, &error))?,
        }
        match self.results(py)? {
            // SAFETY: makes a new object.
            None => Ok(unsafe { ffi::PyFloat_FromDouble(y[0]) }),
            Some(results) => Ok(results.of_numbers(py, y)?.into_ptr()),
        }
    }

    /// Puts the arguments of a call in their places; gives what `on_error=` and `threads=` were, or null.
    #[inline]
    fn place(
        &self,
        py: Python<'_>,
        args: &[*mut PyObject],
        names: &[*mut PyObject],
        slots: &mut [*mut PyObject; MAX_INPUTS],
    ) -> PyResult<[*mut PyObject; 2]> {
        let (arguments, positional) = (self.record.arguments, args.len() - names.len());
        let mut options = [ptr::null_mut(); 2];
        let by_place = |k: usize| arguments.get(k).is_some_and(|a| a.side(self.units).default.is_none());
        if positional > 0 && !by_place(positional - 1) {
            return Err(self.too_many(positional));
        }
        slots[..positional].copy_from_slice(&args[..positional]);
        for (&name, &value) in names.iter().zip(&args[positional..]) {
            let slot = match self.names(py).iter().position(|n| n.as_ptr() == name) {
                Some(k) => &mut slots[k],
                None => match self.find(py, name)? {
                    Place::Argument(k) => &mut slots[k],
                    Place::Option(k) => &mut options[k],
                },
            };
            if !slot.is_null() {
                // SAFETY: a keyword of this call.
                let name = unsafe { Bound::from_borrowed_ptr(py, name) };
                return Err(PyTypeError::new_err(format!(
                    "{}() got multiple values for argument '{name}'",
                    self.record.name
                )));
            }
            *slot = value;
        }
        Ok(options)
    }

    /// The place of an argument whose name is another string of the same letters, or of an option. A formula may have an
    /// argument of an option's name, which then is the argument.
    #[cold]
    fn find(&self, py: Python<'_>, name: *mut PyObject) -> PyResult<Place> {
        // SAFETY: a keyword of this call.
        let name = unsafe { Bound::from_borrowed_ptr(py, name) }.extract::<String>()?;
        match self.record.arguments.iter().position(|a| a.name == name) {
            Some(k) => Ok(Place::Argument(k)),
            None => match OPTIONS.iter().position(|option| *option == name) {
                Some(k) => Ok(Place::Option(k)),
                None => Err(PyTypeError::new_err(format!(
                    "{}() got an unexpected keyword argument '{name}'",
                    self.record.name
                ))),
            },
        }
    }

    #[cold]
    fn too_many(&self, given: usize) -> PyErr {
        let by_place = self.record.arguments.iter().filter(|a| a.default(self.units).is_none()).count();
        let arguments = if by_place == 1 { "argument" } else { "arguments" };
        PyTypeError::new_err(format!(
            "{}() takes {by_place} positional {arguments} but {given} were given (those with a default go by name)",
            self.record.name
        ))
    }

    fn default(&self, k: usize) -> PyResult<f64> {
        let argument = &self.record.arguments[k];
        argument.default(self.units).ok_or_else(|| {
            let message = format!("{}() missing required argument: '{}'", self.record.name, argument.name);
            PyTypeError::new_err(message)
        })
    }

    /// What is asked of argument `k`.
    pub fn wanted(&self, k: usize) -> Wanted {
        let argument = &self.record.arguments[k];
        Wanted::new(self.record.name, argument.name, argument.kind, self.units).exactly(argument.exact)
    }

    /// The number of text with a unit or of a Size, which carry nothing else to be looked for.
    fn written(&self, k: usize, object: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
        match object.is_instance_of::<PyString>() || object.is_instance_of::<PySize>() {
            true => self.number(k, object),
            false => Ok(None),
        }
    }

    /// A single number that is not a float: an int, a numpy scalar, text with a unit, a Size; `None` for arrays.
    fn number(&self, k: usize, object: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
        self.wanted(k).number(object)
    }

    /// A call with quantities of pint's, which gives such quantities.
    #[cold]
    fn quantities(
        &self,
        py: Python<'_>,
        slots: &[*mut PyObject],
        on_error: Option<OnError>,
    ) -> PyResult<*mut PyObject> {
        let given = PyDict::new(py);
        for (argument, &object) in
            self.record.arguments.iter().zip(slots).filter(|(_, object)| !object.is_null())
        {
            // SAFETY: the objects of a call are alive while it lasts.
            given.set_item(argument.name, unsafe { Bound::from_borrowed_ptr(py, object) })?;
        }
        let on_error = on_error.map(OnError::name);
        let call = (self.find_self(py)?, given, on_error);
        Ok(number::helpers(py)?.call_method1("call_with_quantities", call)?.into_ptr())
    }

    /// Anything that numpy dispatches.
    #[cold]
    fn array(
        &self,
        py: Python<'_>,
        slots: &[*mut PyObject],
        on_error: Option<OnError>,
    ) -> PyResult<*mut PyObject> {
        let _memory = KeptMemory::for_call(py, slots)?;
        let mut args = Vec::with_capacity(slots.len());
        let mut plain = true;
        for (k, &object) in slots.iter().enumerate() {
            if object.is_null() {
                args.push(self.default(k)?.into_pyobject(py)?.into_any());
                continue;
            }
            // SAFETY: the objects of a call are alive while it lasts.
            let object = unsafe { Bound::from_borrowed_ptr(py, object) };
            if number::is_quantity(&object)? {
                return self.quantities(py, slots, on_error);
            }
            match self.number(k, &object)? {
                Some(number) => args.push(number.into_pyobject(py)?.into_any()),
                None if number::is_array(&object)?
                    && number::is_numeric(&object)?
                    && !self.record.arguments[k].exact =>
                {
                    args.push(object);
                }
                None => {
                    plain = false;
                    args.push(number::helpers(py)?.call_method1("column", (self.wanted(k), object))?);
                }
            }
        }
        let args = PyTuple::new(py, args)?;
        let result = match on_error {
            Some(OnError::Raise) => {
                helpers(py)?.call_method1("raise_for_rows", (self.find_self(py)?, args))?
            }
            _ => helpers(py)?.call_method1(
                "compute",
                (self.ufunc(py)?, args, plain, self.units.name(), self.record.name),
            )?,
        };
        match self.results(py)? {
            Some(results) => Ok(results.of_values(py, result)?.into_ptr()),
            None => Ok(result.into_ptr()),
        }
    }

    fn find_self<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        helpers(py)?.call_method1("find", (self.units.name(), self.record.name))
    }
}

/// The parts of a record as Python sees them.
#[pymethods]
impl PyFormula {
    #[new]
    fn new(name: &str, units: &str) -> PyResult<Self> {
        let record = find_or_nearest(name).map_err(|unknown| PyValueError::new_err(unknown.to_string()))?;
        Ok(Self::make(record, units_of(units)?))
    }

    #[pyo3(signature = (*args, **kwargs))]
    fn __call__(&self, args: &Bound<'_, PyTuple>, kwargs: Option<&Bound<'_, PyDict>>) -> PyResult<Py<PyAny>> {
        let py = args.py();
        let named: Vec<_> = kwargs.map_or_else(Vec::new, |kwargs| kwargs.iter().collect());
        let mut all: Vec<_> = args.iter().collect();
        all.extend(named.iter().map(|(_, value)| value.clone()));
        let all: Vec<_> = all.iter().map(Bound::as_ptr).collect();
        let names: Vec<_> = named.iter().map(|(name, _)| name.as_ptr()).collect();
        let result = self.invoke(py, &all, &names)?;
        // SAFETY: `invoke` gives a new reference.
        Ok(unsafe { Bound::from_owned_ptr(py, result) }.unbind())
    }

    /// The numpy ufunc: unchecked NaN in bad rows, `out=`, `where=`.
    ///
    /// It takes floats at their exact value, of a formula of Sizes too: numpy.float32(1.425) is 1.42499995 there.
    #[getter(ufunc)]
    fn own_ufunc(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Ok(self.ufunc(py)?.clone_ref(py))
    }

    #[getter]
    fn __name__(&self) -> &'static str {
        self.record.name
    }

    #[getter]
    fn __qualname__(&self) -> &'static str {
        self.record.name
    }

    #[getter]
    fn __signature__<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("signature", (slf,))
    }

    /// A caution if the result concerns safety; otherwise None.
    #[getter]
    fn caution(&self) -> Option<&'static str> {
        self.record.caution
    }

    /// Where the formula comes from.
    #[getter]
    fn source(&self) -> &'static str {
        self.record.source
    }

    /// `inch` or `metric`.
    #[getter]
    fn system(&self) -> &'static str {
        self.units.name()
    }

    /// The unit of every argument and result, by name.
    #[getter]
    fn units<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let units = PyDict::new(py);
        for argument in self.record.arguments {
            units.set_item(argument.name, argument.unit(self.units).label)?;
        }
        for (k, output) in self.record.outputs.iter().enumerate() {
            units.set_item(self.record.output_name(k), output.kind.unit(self.units).label)?;
        }
        Ok(units)
    }

    /// The description of every argument, by name: meaning, unit, default, what it must be, stated range.
    #[getter]
    fn arguments<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let arguments = PyDict::new(py);
        for argument in self.record.arguments {
            let entry = PyDict::new(py);
            entry.set_item("meaning", argument.doc)?;
            entry.set_item("quantity", argument.kind.name)?;
            entry.set_item("unit", argument.unit(self.units).label)?;
            entry.set_item("default", argument.default(self.units))?;
            entry.set_item("must_be", argument.need(self.units))?;
            let side = argument.side(self.units);
            entry.set_item("stated_range", side.range.text(argument.kind, self.units))?;
            entry.set_item("usual_range", side.usual.text(argument.kind, self.units))?;
            arguments.set_item(argument.name, entry)?;
        }
        Ok(arguments)
    }

    /// The names of the results.
    #[getter]
    fn outputs(&self) -> Vec<&'static str> {
        (0..self.record.outputs.len()).map(|k| self.record.output_name(k)).collect()
    }

    /// The rules between arguments.
    #[getter]
    fn rules(&self) -> Vec<&'static str> {
        self.record.rules.iter().map(|rule| rule.text).collect()
    }

    /// Remarks on a call, row by row: errors, and advice on arguments and results outside the
    /// range that the source states.
    #[pyo3(signature = (*args, **kwargs))]
    fn check<'py>(
        slf: &Bound<'py, Self>,
        args: &Bound<'py, PyTuple>,
        kwargs: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("check", (slf, args, kwargs))
    }

    /// What `check` finds, as text.
    #[pyo3(signature = (*args, **kwargs))]
    fn explain<'py>(
        slf: &Bound<'py, Self>,
        args: &Bound<'py, PyTuple>,
        kwargs: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("explain", (slf, args, kwargs))
    }

    /// The results for a table: a DataFrame with a row for each row of `frame`, with its index.
    ///
    /// Columns are found by the names of the arguments; `columns` names those that are called otherwise
    /// (`columns={"chip_load": "feed"}`), and constants go by keyword. `join=True` gives the table with the results beside
    /// its columns. A row without an answer is NaN; with `remarks="why"` a column of that name says why, and holds advice
    /// on other rows. `on_error="raise"` raises DomainError instead. So many `threads` share the rows of a large table; None
    /// is as many as the machine runs at once.
    /// Units stand in ``.attrs["units"]``.
    #[pyo3(signature = (frame, *, columns=None, join=false, remarks=None, on_error=None, **constants))]
    #[pyo3(
        text_signature = "($self, frame, *, columns=None, join=False, remarks=None, on_error=None, threads=1, **constants)"
    )]
    #[allow(clippy::too_many_arguments, reason = "the names of Python's keywords")]
    fn on<'py>(
        slf: &Bound<'py, Self>,
        frame: &Bound<'py, PyAny>,
        columns: Option<&Bound<'py, PyAny>>,
        join: bool,
        remarks: Option<&str>,
        on_error: Option<&str>,
        constants: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let constants = constants.cloned().unwrap_or_else(|| PyDict::new(slf.py()));
        let asked = (slf, frame, columns, join, remarks, on_error, constants);
        helpers(slf.py())?.call_method1("on", asked)
    }

    /// The value of an argument that gives a wanted result, from the other arguments by name.
    ///
    /// Numbers, text with a unit and arrays are taken as in a call; `output` names the result of a formula that has
    /// several. Where there is no solution a single number raises `DomainError`, and a row of an array becomes NaN,
    /// unless `on_error` is 'raise' or 'nan'. A count, and an argument with which the result is not known to move one
    /// way, are refused.
    #[pyo3(signature = (argument, wanted, *, output=None, on_error=None, **given))]
    fn solve_for<'py>(
        slf: &Bound<'py, Self>,
        argument: &str,
        wanted: &Bound<'py, PyAny>,
        output: Option<&str>,
        on_error: Option<&Bound<'py, PyAny>>,
        given: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let module = PyModule::import(slf.py(), "tenths._solve")?;
        module.call_method1("solve_for", (slf, argument, wanted, output, on_error, given))
    }

    /// This formula with arguments that vary: nominal value, extremes, moments and samples of a result.
    ///
    /// An argument is a number, text with a tolerance such as '25 ±0.1 mm' or '25 H7', Limits, a Size, a Fit (its
    /// clearance, or for an argument named interference that), a tuple (nominal, plus, minus), or what `varying` of the
    /// namespace makes. `output` names the result of a formula that has several; without it each has its propagation,
    /// in the results of a call. `correlations` is a dict such as {("a", "b"): 0.5}.
    #[pyo3(signature = (*, output=None, correlations=None, **given))]
    fn propagate<'py>(
        slf: &Bound<'py, Self>,
        output: Option<&str>,
        correlations: Option<&Bound<'py, PyAny>>,
        given: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let py = slf.py();
        let given = given.cloned().unwrap_or_else(|| PyDict::new(py));
        crate::propagate::of_formula(slf, &given, output, correlations)
    }

    /// A table of its arguments and results, as a notebook shows it.
    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        let module = PyModule::import(slf.py(), "tenths._describe")?;
        module.getattr("Description")?.call1((slf.get().record.name,))?.call_method0("_repr_html_")
    }

    /// Results as quantities of pint's, each in its unit of this namespace; of the application's registry, where
    /// none is given.
    #[pyo3(signature = (result, registry=None))]
    fn to_pint<'py>(
        slf: &Bound<'py, Self>,
        result: &Bound<'py, PyAny>,
        registry: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        number::helpers(slf.py())?.call_method1("to_pint", (slf, result, registry))
    }

    /// What is asked of an argument.
    fn _wanted(&self, name: &str) -> PyResult<Wanted> {
        let place = self.record.arguments.iter().position(|a| a.name == name);
        let place = place.ok_or_else(|| PyTypeError::new_err(format!("'{name}' is not an argument")))?;
        Ok(self.wanted(place))
    }

    /// The class of the results, of a formula that has several.
    #[getter]
    fn _results(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        Ok(self.results(py)?.map(|results| results.class.clone_ref(py)))
    }

    /// The quantities of the results.
    fn _output_quantities(&self) -> Vec<&'static str> {
        self.record.outputs.iter().map(|output| output.kind.name).collect()
    }

    /// What advice may concern, with the bit that stands for it.
    fn _concerns(&self) -> Vec<(usize, &'static str)> {
        let arguments = self.record.arguments.iter().map(|argument| argument.name).enumerate();
        let outputs = (0..self.record.outputs.len()).map(|k| (MAX_INPUTS + k, self.record.output_name(k)));
        arguments.chain(outputs).collect()
    }

    /// The ufunc that gives for each row whether it is refused, and by bit what advice concerns.
    fn _judge(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let make = || ufunc::judging(py, self.record, self.units);
        Ok(self.judge.get_or_try_init(py, make)?.clone_ref(py))
    }

    /// The remarks on one row of numbers: kind, what it concerns, value, message.
    fn _remarks(&self, x: Vec<f64>) -> Vec<(&'static str, Option<&'static str>, Option<f64>, String)> {
        use tenths::Error;
        match self.record.check(self.units, &x) {
            Ok(remarks) => {
                remarks.iter().map(|r| ("advice", Some(r.concerns), Some(r.value), r.to_string())).collect()
            }
            Err(error) => match error {
                Error::Argument { argument, value, .. } => {
                    vec![("error", Some(argument), Some(value), error.to_string())]
                }
                _ => vec![("error", None, None, error.to_string())],
            },
        }
    }

    fn __repr__(&self) -> String {
        let names: Vec<_> = self.record.arguments.iter().map(|a| a.name).collect();
        format!("<formula tenths.{}.{}({})>", self.units.name(), self.record.name, names.join(", "))
    }

    /// Pickles by name, so that the very same object comes back.
    fn __reduce__<'py>(
        &self,
        py: Python<'py>,
    ) -> PyResult<(Bound<'py, PyAny>, (&'static str, &'static str))> {
        Ok((helpers(py)?.getattr("find")?, (self.units.name(), self.record.name)))
    }
}

impl PyFormula {
    /// The text of `help`.
    pub fn doc(&self) -> String {
        let (record, units) = (self.record, self.units);
        let caution = record.caution.map_or(String::new(), |caution| format!("\n\nCaution: {caution}"));
        let mut doc = format!("{}{caution}\n\nArguments:\n", record.doc);
        for argument in record.arguments {
            let unit = match argument.unit(units).label {
                "" => String::new(),
                label => format!(" ({label})"),
            };
            doc += &format!("    {}{unit}: {}", argument.name, argument.doc.replace('\n', " "));
            doc += &format!(" Must be {}.", argument.need(units));
            if let Some(range) = argument.side(units).range.text(argument.kind, units) {
                doc += &format!(" The source covers {range}.");
            }
            if let Some(range) = argument.side(units).usual.text(argument.kind, units) {
                doc += &format!(" Usual is {range}.");
            }
            if let Some(default) = argument.default(units) {
                doc += &format!(" Default {default}.");
            }
            doc += "\n";
        }
        doc += "\nReturns:\n";
        for (k, output) in record.outputs.iter().enumerate() {
            let label = output.kind.unit(units).label;
            let unit = if label.is_empty() { String::new() } else { format!(" ({label})") };
            doc += &format!("    {}{unit}: {}", record.output_name(k), output.doc.replace('\n', " "));
            if let Some(range) = output.range(units).text(output.kind, units) {
                doc += &format!(" The source covers {range}.");
            }
            doc += "\n";
        }
        doc += "\nRaises:\n    tenths.DomainError: a number outside its domain";
        for rule in record.rules {
            doc += &format!("; {}", rule.text);
        }
        doc += ".\n";
        let arguments = record.arguments.iter().enumerate().filter(|&(at, _)| record.is_solvable(at));
        let names: Vec<_> = arguments.map(|(_, argument)| argument.name).collect();
        if !names.is_empty() {
            doc += &format!("\nCan be solved for, by `solve_for`: {}.\n", names.join(", "));
        }
        doc + "\nSource: " + record.source + "\n"
    }
}
