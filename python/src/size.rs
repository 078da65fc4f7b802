//! Exact sizes and limits.
use crate::error::{unless_refused, value_error};
pub use crate::exact_size::PySize;
use crate::number::{self, Wanted, is_flag, is_quantity};
use pyo3::basic::CompareOp;
use pyo3::exceptions::{PyOverflowError, PyTypeError};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyInt, PyString};
use std::hash::{BuildHasher, BuildHasherDefault, DefaultHasher};
use tenths::{LengthUnit, Limits, Size, Units};

/// A system of units: `inch` or `in`, `metric` or `mm`.
pub fn units_of(name: &str) -> PyResult<Units> {
    Units::parse(name).map_err(value_error)
}

/// A unit of length, such as `mm`, `in` or `um`.
fn length_unit(name: &str) -> PyResult<&'static LengthUnit> {
    LengthUnit::parse(name).map_err(value_error)
}

/// A Size, or text with a unit.
pub fn size_of(object: &Bound<'_, PyAny>) -> PyResult<Size> {
    if let Ok(size) = object.cast::<PySize>() {
        return Ok(size.get().0);
    }
    match object.extract::<String>() {
        Ok(text) => Size::parse(&text).map_err(value_error),
        Err(_) => Err(PyTypeError::new_err("expected a Size or text with a unit, such as '1.425 in'")),
    }
}

/// A length as text, a Size, or a number in the units that were named; zero needs none.
pub fn length_of(
    function: &'static str,
    argument: &'static str,
    given: &Bound<'_, PyAny>,
    units: Option<Units>,
) -> PyResult<Size> {
    let is_number = !is_flag(given) && given.get_type().hasattr(intern!(given.py(), "__float__"))?;
    // A quantity of pint's has a unit of its own.
    let units = units.or(is_quantity(given)?.then_some(Units::Metric));
    match units {
        Some(units) if is_number => {
            let number = Wanted::length(function, argument, units).one(given)?;
            Size::from_float(number, units).map_err(value_error)
        }
        None if is_number => match given.extract::<f64>()? {
            0.0 => Ok(Size::ZERO),
            number => Err(PyTypeError::new_err(format!(
                "a length of {number} needs a unit: give text such as '{number} mm', or units='mm' or 'in'"
            ))),
        },
        _ => size_of(given),
    }
}

#[pymethods]
impl PySize {
    #[new]
    #[pyo3(signature = (value, unit=None))]
    fn new(value: &Bound<'_, PyAny>, unit: Option<&str>) -> PyResult<Self> {
        let Some(unit) = unit else {
            return match unless_refused(value.py(), value.extract::<f64>())? {
                Some(_) => Err(PyTypeError::new_err("a bare number needs its unit: Size(1.425, 'in')")),
                None => size_of(value).map(Self),
            };
        };
        let unit = length_unit(unit)?;
        let size = match value.cast::<PyString>() {
            Ok(text) => Size::parse_with(text.to_str()?, Some(unit)),
            Err(_) => Size::from_float_in(Wanted::length("Size", "value", Units::Metric).one(value)?, unit),
        };
        size.map(Self).map_err(value_error)
    }

    /// The size of a count of picometres. An inch is 25 400 000 000 of them.
    #[staticmethod]
    fn from_picometres(count: i64) -> Self {
        Self(Size::from_picometres(count))
    }

    /// The count of picometres.
    #[getter]
    fn picometres(&self) -> i64 {
        self.0.picometres()
    }

    /// The nearest float in a unit of length: 'in', 'mm', 'um', 'thou', 'm' and whatever else text may be in.
    fn to_float(&self, unit: &str) -> PyResult<f64> {
        Ok(self.0.to_float_in(length_unit(unit)?))
    }

    /// The exact decimal with its unit, as for `to_float`; one that does not end has eight places behind the sign ≈.
    fn to_text(&self, unit: &str) -> PyResult<String> {
        Ok(self.0.format_in(length_unit(unit)?))
    }

    /// The nearest number as a quantity of pint's, in a unit as for `to_float`; of the application's registry, where none is
    /// given.
    #[pyo3(signature = (unit, registry=None))]
    fn to_pint<'py>(
        &self,
        py: Python<'py>,
        unit: &str,
        registry: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        number::helpers(py)?.call_method1("quantity_of", (self.to_float(unit)?, unit, registry))
    }

    fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.checked_add(size_of(other)?).map(Self).ok_or_else(out_of_range)
    }

    /// `sum` starts from 0, the one number that is a length without a unit.
    fn __radd__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        match other.is_instance_of::<PyInt>() && other.extract::<i64>().is_ok_and(|start| start == 0) {
            true => Ok(Self(self.0)),
            false => self.__add__(other),
        }
    }

    fn __sub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.checked_sub(size_of(other)?).map(Self).ok_or_else(out_of_range)
    }

    fn __rsub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Self> {
        size_of(other)?.checked_sub(self.0).map(Self).ok_or_else(out_of_range)
    }

    fn __neg__(&self) -> PyResult<Self> {
        self.0.checked_neg().map(Self).ok_or_else(out_of_range)
    }

    fn __abs__(&self) -> PyResult<Self> {
        self.0.checked_abs().map(Self).ok_or_else(out_of_range)
    }

    fn __mul__(&self, count: &Bound<'_, PyAny>) -> PyResult<Self> {
        let count = count.extract().map_err(|error: PyErr| {
            match error.is_instance_of::<PyOverflowError>(count.py()) {
                true => out_of_range(),
                false => error,
            }
        })?;
        self.0.checked_mul(count).map(Self).ok_or_else(out_of_range)
    }

    fn __rmul__(&self, count: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.__mul__(count)
    }

    fn __richcmp__(&self, other: &Bound<'_, PyAny>, op: CompareOp) -> PyResult<Py<PyAny>> {
        let py = other.py();
        match (size_of(other), op) {
            (Ok(other), _) => {
                Ok(op.matches(self.0.cmp(&other)).into_pyobject(py)?.to_owned().into_any().unbind())
            }
            // What is no size equals none, and is neither above nor below one.
            (Err(_), CompareOp::Eq | CompareOp::Ne) => Ok(py.NotImplemented()),
            (Err(error), _) => Err(error),
        }
    }

    fn __hash__(&self) -> u64 {
        BuildHasherDefault::<DefaultHasher>::default().hash_one(self.0)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    /// Padded as text is: `f"{size:>16}"`.
    fn __format__<'py>(&self, py: Python<'py>, form: &str) -> PyResult<Bound<'py, PyAny>> {
        PyString::new(py, &self.__str__()).call_method1(intern!(py, "__format__"), (form,))
    }

    fn __repr__(&self) -> String {
        format!("Size('{}')", self.0)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (i64,))> {
        Ok((py.get_type::<Self>().getattr("from_picometres")?, (self.0.picometres(),)))
    }
}

fn out_of_range() -> PyErr {
    value_error("out of range: a size lies within ±9223 km")
}

/// A lower and an upper limit of size, both good, and the nominal size.
///
/// Drawing notation with its unit: `Limits("1.420 ±.005 in")`, `Limits("12 +0/-0.011 mm")`,
/// `Limits("1.415..1.425 in")`.
///
///     >>> shaft = tenths.Limits("1.420 ±.005 in")
///     >>> shaft.accepts("1.425 in"), shaft.accepts("1.4251 in")
///     (True, False)
#[pyclass(frozen, eq, name = "Limits", module = "tenths")]
#[derive(PartialEq)]
pub struct PyLimits(pub Limits);

/// Limits, or drawing notation.
pub fn limits_of(object: &Bound<'_, PyAny>) -> PyResult<Limits> {
    if let Ok(limits) = object.cast::<PyLimits>() {
        return Ok(limits.get().0);
    }
    match object.extract::<String>() {
        Ok(text) => Limits::parse(&text).map_err(value_error),
        Err(_) => Err(PyTypeError::new_err("expected Limits or text such as '1.420 ±.005 in'")),
    }
}

#[pymethods]
impl PyLimits {
    #[new]
    fn new(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        limits_of(text).map(Self)
    }

    /// From two limits, each a Size or text.
    #[staticmethod]
    fn between(lower: &Bound<'_, PyAny>, upper: &Bound<'_, PyAny>) -> PyResult<Self> {
        Limits::between(size_of(lower)?, size_of(upper)?).map(Self).map_err(value_error)
    }

    /// From a nominal size and signed deviations, each a Size or text.
    #[staticmethod]
    fn with_deviations(
        nominal: &Bound<'_, PyAny>,
        upper: &Bound<'_, PyAny>,
        lower: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        Limits::with_deviations(size_of(nominal)?, size_of(upper)?, size_of(lower)?)
            .map(Self)
            .map_err(value_error)
    }

    /// The lower limit.
    #[getter]
    fn lower(&self) -> PySize {
        PySize(self.0.lower())
    }

    /// The upper limit.
    #[getter]
    fn upper(&self) -> PySize {
        PySize(self.0.upper())
    }

    /// The size that deviations are counted from: as stated, or the middle of two stated limits.
    #[getter]
    fn nominal(&self) -> PySize {
        PySize(self.0.nominal())
    }

    /// The upper limit less the lower one.
    #[getter]
    fn tolerance(&self) -> PySize {
        PySize(self.0.tolerance())
    }

    /// Whether a part of this size, a Size or text with a unit, is good.
    fn accepts(&self, size: &Bound<'_, PyAny>) -> PyResult<bool> {
        Ok(self.0.accepts(size_of(size)?))
    }

    /// Whether every size that the other limits accept is accepted here.
    fn contains(&self, other: &Bound<'_, PyAny>) -> PyResult<bool> {
        Ok(self.0.contains(&limits_of(other)?))
    }

    /// The limits as '1.415..1.425 in', in 'in' or 'mm'.
    fn to_text(&self, unit: &str) -> PyResult<String> {
        Ok(self.0.format(units_of(unit)?))
    }

    fn __hash__(&self) -> u64 {
        BuildHasherDefault::<DefaultHasher>::default().hash_one(self.0)
    }

    /// Both limits and the nominal size as text in millimetres.
    pub fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("nominal", self.0.nominal().format(Units::Metric))?;
        dict.set_item("lower", self.0.lower().format(Units::Metric))?;
        dict.set_item("upper", self.0.upper().format(Units::Metric))?;
        Ok(dict)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    /// Padded as text is: `f"{limits:>16}"`.
    fn __format__<'py>(&self, py: Python<'py>, form: &str) -> PyResult<Bound<'py, PyAny>> {
        PyString::new(py, &self.__str__()).call_method1(intern!(py, "__format__"), (form,))
    }

    fn __repr__(&self) -> String {
        format!("Limits('{}')", self.0.format_deviations(self.0.natural_units()))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (PySize, PySize, PySize))> {
        let deviations = (self.nominal(), PySize(self.0.upper_deviation()), PySize(self.0.lower_deviation()));
        Ok((py.get_type::<Self>().getattr("with_deviations")?, deviations))
    }
}

/// The step of an instrument in the unit of a side, where one is given.
pub fn step_of(
    function: &'static str,
    resolution: Option<&Bound<'_, PyAny>>,
    units: Units,
) -> PyResult<Option<Size>> {
    let Some(step) = resolution else { return Ok(None) };
    if step.is_instance_of::<PySize>() || step.is_instance_of::<PyString>() {
        return size_of(step).map(Some);
    }
    match Wanted::length(function, "resolution", units).number(step)? {
        Some(step) => Size::step_from_float(step, units).map(Some).map_err(value_error),
        None => Err(PyTypeError::new_err("the resolution is one number, a Size or text with a unit")),
    }
}

/// A length that a function of a namespace asks for.
#[pyfunction]
#[pyo3(signature = (units, function="accepts", argument="readings"))]
pub fn _wanted_length(units: &str, function: &str, argument: &str) -> PyResult<Wanted> {
    let function = match function {
        "capability" => "capability",
        "judge" => "judge",
        _ => "accepts",
    };
    let argument = if argument == "limits" { "limits" } else { "readings" };
    Ok(Wanted::length(function, argument, units_of(units)?))
}
