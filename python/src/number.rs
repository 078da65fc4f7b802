//! What is taken for a number: floats and ints, text with a unit, sizes, quantities of pint.
use crate::array::to_array;
use crate::error::reading;
use crate::exact_size::PySize;
use pyo3::exceptions::{PyOverflowError, PyTypeError};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyInt, PyString, PyTuple, PyType};
use tenths::quantity::{Kind, Length, ReadingError};
use tenths::{Quantity, Size, Units};

/// The number that a call asks for, and the unit that a bare one is in.
#[pyclass(frozen, name = "_Wanted", module = "tenths._tenths")]
pub struct Wanted {
    /// The formula that asks.
    #[pyo3(get)]
    formula: &'static str,
    /// Its argument.
    #[pyo3(get)]
    argument: &'static str,
    kind: &'static Kind,
    units: Units,
    /// Whether a Size is read from it: floats that are narrower than Python's are then their own shortest decimal.
    #[pyo3(get)]
    exact: bool,
}

impl Wanted {
    pub const fn new(
        formula: &'static str,
        argument: &'static str,
        kind: &'static Kind,
        units: Units,
    ) -> Self {
        Self { formula, argument, kind, units, exact: false }
    }

    /// A length that something other than a formula asks for, to read a Size from.
    pub const fn length(asked_by: &'static str, argument: &'static str, units: Units) -> Self {
        Self::new(asked_by, argument, Length::KIND, units).exactly(true)
    }

    /// Whether a Size is read from it.
    pub const fn exactly(self, exact: bool) -> Self {
        Self { exact, ..self }
    }

    /// The same, asked again.
    pub const fn copied(&self) -> Self {
        let Self { formula, argument, kind, units, exact } = *self;
        Self { formula, argument, kind, units, exact }
    }

    pub const fn kind(&self) -> &'static Kind {
        self.kind
    }

    pub const fn units(&self) -> Units {
        self.units
    }

    pub fn is_length(&self) -> bool {
        // As a rule there is one record of each kind, and comparing addresses is quicker than comparing records.
        std::ptr::eq(self.kind, Length::KIND) || self.kind == Length::KIND
    }

    /// A single number in the unit wanted, where an array will not do.
    pub fn one(&self, object: &Bound<'_, PyAny>) -> PyResult<f64> {
        let class = || object.get_type().name().map_or_else(|_| "that".into(), |name| name.to_string());
        self.number(object)?.ok_or_else(|| self.refuse(&format!("must be one number, not {}", class())))
    }

    fn refuse(&self, what: &str) -> PyErr {
        PyTypeError::new_err(format!("{}: '{}' {what}", self.formula, self.argument))
    }

    fn text(&self, py: Python<'_>, text: &str) -> PyResult<f64> {
        let size = |error: ReadingError| match self.is_length() {
            // Fractions, feet and whatever else is a size.
            true => Size::parse(text).map(|size| size.to_float(self.units)).map_err(|_| error),
            false => Err(error),
        };
        let number = self.kind.read(text, self.units).or_else(size);
        number.map_err(|error| reading(py, self.formula, self.argument, &error))
    }

    /// The magnitude of a quantity of pint's in the unit wanted, a number or an array.
    fn magnitude<'py>(&self, object: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let asked = (object, self.formula, self.argument, self.kind.name, self.unit());
        helpers(object.py())?.call_method1("magnitude", asked)
    }

    /// What `float` makes of an object.
    fn float(object: &Bound<'_, PyAny>) -> PyResult<f64> {
        object.extract().or_else(|error: PyErr| match error.is_instance_of::<PyOverflowError>(object.py()) {
            true => infinite(object),
            false => Err(error),
        })
    }
}

#[pymethods]
impl Wanted {
    #[getter]
    fn quantity(&self) -> &'static str {
        self.kind.name
    }

    #[getter]
    fn unit(&self) -> &'static str {
        self.kind.unit(self.units).label
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyTuple>)> {
        let found = PyModule::import(py, "tenths._formula")?.getattr("wanted")?;
        Ok((found, PyTuple::new(py, [self.units.name(), self.formula, self.argument])?))
    }

    /// A single number in the unit wanted; None for arrays, for True and False, and for anything that is not a number.
    pub fn number(&self, object: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
        let py = object.py();
        if object.is_instance_of::<PyFloat>() {
            return Self::float(object).map(Some);
        }
        if object.is_instance_of::<PyInt>() {
            return if object.is_instance_of::<PyBool>() { Ok(None) } else { Self::float(object).map(Some) };
        }
        if let Ok(text) = object.cast::<PyString>() {
            return self.text(py, &text.to_string_lossy()).map(Some);
        }
        if let Ok(size) = object.cast::<PySize>() {
            if !self.is_length() {
                return Err(PyTypeError::new_err(format!(
                    "{}: {} is not a length",
                    self.formula, self.argument
                )));
            }
            return Ok(Some(size.get().0.to_float(self.units)));
        }
        if is_array(object)? {
            if object.getattr(intern!(py, "ndim"))?.extract::<usize>()? > 0 {
                return Ok(None);
            }
            let item = object.get_item(PyTuple::empty(py))?;
            // An array of objects might hold itself.
            return if is_array(&item)? { Ok(None) } else { self.number(&item) };
        }
        if is_quantity(object)? {
            return self.number(&self.magnitude(object)?);
        }
        // Asked of the type, since a table of numbers may have a column of any name.
        let class = object.get_type();
        let sized = class.hasattr(intern!(py, "__len__"))?;
        if !sized && class.hasattr(intern!(py, "dtype"))? {
            // A complex number of numpy's would turn into its real part, and a duration lose its unit.
            let kind: String = object.getattr("dtype")?.getattr("kind")?.extract()?;
            return match kind.as_str() {
                "f" if self.exact => own_decimal(object).map(Some),
                "i" | "u" | "f" => Self::float(object).map(Some),
                _ => Ok(None),
            };
        }
        if carries_unit(object)? {
            let unit = self.unit();
            return Err(self.refuse(&format!(
                "carries a unit of its own, which is never stripped: convert it to {unit} and pass its \
                 magnitude, or pass text such as '12 {unit}'"
            )));
        }
        if sized || class.hasattr("__array_ufunc__")? || !class.hasattr("__float__")? {
            return Ok(None);
        }
        Self::float(object).map(Some)
    }
}

/// The float of the shortest decimal that gives a number of numpy's back in its own precision.
fn own_decimal(object: &Bound<'_, PyAny>) -> PyResult<f64> {
    Ok(object.str()?.to_str()?.parse()?)
}

/// [`own_decimal`] of many numbers of single precision.
#[pyfunction]
pub fn _own_decimals<'py>(py: Python<'py>, singles: &[u8]) -> PyResult<Bound<'py, PyAny>> {
    let (words, _) = singles.as_chunks::<4>();
    let own = |word: &[u8; 4]| {
        let single = f32::from_ne_bytes(*word);
        single.to_string().parse().unwrap_or(f64::from(single))
    };
    to_array(py, &words.iter().map(own).collect::<Vec<f64>>())
}

/// The Python module that reads arrays of texts and talks to other libraries.
pub fn helpers(py: Python<'_>) -> PyResult<Bound<'_, PyModule>> {
    PyModule::import(py, "tenths._numbers")
}

/// An int too large for a float: as good as infinite, which lies in no domain.
#[cold]
pub fn infinite(object: &Bound<'_, PyAny>) -> PyResult<f64> {
    Ok(if object.lt(0)? { f64::NEG_INFINITY } else { f64::INFINITY })
}

/// Whether an object is true or false, of Python or numpy, which is never meant for a number.
pub fn is_flag(object: &Bound<'_, PyAny>) -> bool {
    object.extract::<bool>().is_ok()
}

/// Whether an object is a plain array of numpy's, and no subclass.
pub fn is_array(object: &Bound<'_, PyAny>) -> PyResult<bool> {
    static ARRAY: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    let class = ARRAY.import(object.py(), "numpy", "ndarray")?;
    Ok(object.get_type().is(class))
}

/// Whether a plain array of numpy's holds real numbers.
pub fn is_numeric(array: &Bound<'_, PyAny>) -> PyResult<bool> {
    let kind = array.getattr(intern!(array.py(), "dtype"))?.getattr(intern!(array.py(), "kind"))?;
    Ok("iuf".contains(&kind.extract::<String>()?))
}

/// Whether an object is a quantity of pint's, which can be converted.
pub fn is_quantity(object: &Bound<'_, PyAny>) -> PyResult<bool> {
    // Looking in vain for an attribute takes longer than all the rest.
    if object.is_instance_of::<PyFloat>()
        || object.is_instance_of::<PyInt>()
        || object.is_instance_of::<PyString>()
        || is_array(object)?
    {
        return Ok(false);
    }
    let (py, class) = (object.py(), object.get_type());
    Ok(class.hasattr(intern!(py, "_REGISTRY"))? && class.hasattr(intern!(py, "magnitude"))?)
}

/// Whether an object is a number or an array with a unit attached, as the usual libraries for units make them.
fn carries_unit(object: &Bound<'_, PyAny>) -> PyResult<bool> {
    let class = object.get_type();
    Ok(class.hasattr("dimensionality")? || class.hasattr("unit")?)
}
