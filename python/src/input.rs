//! Numbers that vary, and what is taken for one.
use crate::distribution::{PyDistribution, distribution_of};
use crate::error::{advise_of_law, advise_of_signs, value_error};
use crate::fit::PyFit;
use crate::number::Wanted;
use crate::sample::stack_error;
use crate::size::units_of;
use crate::size::{PyLimits, PySize};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString, PyTuple};
use tenths::Units;
use tenths::stack::{Distribution, Input};

/// A number that varies, in a unit of one namespace: what its `varying` makes.
#[pyclass(frozen, eq, name = "Input", module = "tenths")]
#[derive(Clone, PartialEq)]
pub struct PyInput {
    pub input: Input,
    pub units: Units,
}

impl PyInput {
    fn of(units: Units, input: Input) -> PyResult<Self> {
        let Input { nominal, lower, upper, .. } = input;
        if !(lower <= upper && (upper - lower).is_finite() && nominal.is_finite()) {
            return Err(value_error(format!(
                "{lower} to {upper} are not valid limits: the lower one comes first, and both are finite"
            )));
        }
        Ok(Self { input, units })
    }
}

#[pymethods]
impl PyInput {
    #[new]
    fn new(
        units: &str,
        nominal: f64,
        lower: f64,
        upper: f64,
        distribution: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let distribution = distribution_of(distribution)?;
        Self::of(units_of(units)?, Input { name: String::new(), nominal, lower, upper, distribution })
    }

    /// `inch` or `metric`: the side that its numbers belong to.
    #[getter]
    fn units(&self) -> &'static str {
        self.units.name()
    }

    /// Its nominal value.
    #[getter]
    fn nominal(&self) -> f64 {
        self.input.nominal
    }

    /// Its lower limit.
    #[getter]
    fn lower(&self) -> f64 {
        self.input.lower
    }

    /// Its upper limit.
    #[getter]
    fn upper(&self) -> f64 {
        self.input.upper
    }

    /// How it spreads.
    #[getter]
    fn distribution(&self) -> PyDistribution {
        PyDistribution(self.input.distribution.clone())
    }

    /// Everything as plain data.
    pub fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("units", self.units.name())?;
        dict.set_item("nominal", self.input.nominal)?;
        dict.set_item("lower", self.input.lower)?;
        dict.set_item("upper", self.input.upper)?;
        dict.set_item("distribution", self.distribution().to_dict(py)?)?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let Input { nominal, lower, upper, distribution, .. } = &self.input;
        format!("<{nominal} from {lower} to {upper}, {}>", distribution.name())
    }

    fn __reduce__<'py>(
        &self,
        py: Python<'py>,
    ) -> (Bound<'py, PyAny>, (&'static str, f64, f64, f64, PyDistribution)) {
        let Input { nominal, lower, upper, .. } = self.input;
        let arguments = (self.units.name(), nominal, lower, upper, self.distribution());
        (py.get_type::<Self>().into_any(), arguments)
    }
}

/// What makes an input in a namespace.
#[pyfunction]
pub fn _varying(
    units: &str,
    nominal: &Bound<'_, PyAny>,
    plus: Option<&Bound<'_, PyAny>>,
    minus: Option<&Bound<'_, PyAny>>,
    distribution: Option<&Bound<'_, PyAny>>,
) -> PyResult<PyInput> {
    let units = units_of(units)?;
    let (plus, minus) = match (plus, minus) {
        (Some(plus), Some(minus)) => (plus, minus),
        (None, None) => {
            let input = input_of("varying", nominal, units, None)?;
            let law = distribution.map(distribution_of).transpose()?;
            let distribution = law.unwrap_or(input.distribution.clone());
            let input = Input { name: String::new(), distribution, ..input };
            advise_of_law(nominal.py(), "varying", &input, 2)?;
            return Ok(PyInput { input, units });
        }
        _ => return Err(PyTypeError::new_err("varying: plus and minus go together")),
    };
    let wanted = |argument| Wanted::length("varying", argument, units);
    let ends = [wanted("nominal").one(nominal)?, wanted("plus").one(plus)?, wanted("minus").one(minus)?];
    advise_of_signs(nominal.py(), "varying", ends[1], ends[2], 2)?;
    let input = Input::new("", ends[0], ends[1], ends[2]);
    let law = distribution.map_or(Ok(Distribution::NORMAL), distribution_of)?;
    let input = Input { name: String::new(), ..input.distribution(law) };
    advise_of_law(nominal.py(), "varying", &input, 2)?;
    PyInput::of(units, input)
}

/// What a value means for an input: one of a callable, or of a formula that asks for a quantity.
pub fn input_of(
    name: &str,
    value: &Bound<'_, PyAny>,
    units: Units,
    asked: Option<Wanted>,
) -> PyResult<Input> {
    let py = value.py();
    let (is_formula, asked_again) = (asked.is_some(), asked.as_ref().map(Wanted::copied));
    let wanted = asked.unwrap_or(Wanted::length("propagate", "inputs", units));
    let length = || match wanted.is_length() {
        true => Ok(()),
        false => Err(PyTypeError::new_err(format!(
            "{name}: it is not a length: give numbers, or text with a unit"
        ))),
    };
    if let Ok(input) = value.cast::<PyInput>() {
        let PyInput { input, units: of } = input.get();
        if *of != units {
            return Err(value_error(format!(
                "{name}: an input of tenths.{} in tenths.{}",
                of.name(),
                units.name()
            )));
        }
        return Ok(Input { name: name.into(), ..input.clone() });
    }
    if let Ok(limits) = value.cast::<PyLimits>() {
        length()?;
        return Ok(Input::sized(name, &limits.get().0, units));
    }
    if let Ok(size) = value.cast::<PySize>() {
        length()?;
        return Ok(Input::fixed(name, size.get().0.to_float(units)));
    }
    if let Ok(fit) = value.cast::<PyFit>() {
        length()?;
        let fit = fit.get().fit();
        return Ok(match name {
            "interference" => Input::interference(name, fit, units),
            _ => Input::clearance(name, fit, units),
        });
    }
    if let Ok(text) = value.cast::<PyString>() {
        let text = text.to_str()?;
        let input = match is_formula {
            true => Input::read(name, text, wanted.kind(), units),
            false => Input::read_any(name, text, units),
        };
        return input.map_err(|error| stack_error(py, &error));
    }
    if let Ok(band) = value.cast::<PyTuple>() {
        let has_law = |law: &Bound<'_, PyAny>| {
            law.is_instance_of::<PyString>() || law.is_instance_of::<PyDistribution>()
        };
        return match band.len() == 2 && has_law(&band.get_item(1)?) {
            true => {
                let input = input_of(name, &band.get_item(0)?, units, asked_again)?;
                let input = input.distribution(distribution_of(&band.get_item(1)?)?);
                advise_of_law(py, name, &input, 1)?;
                Ok(input)
            }
            false => {
                let input = band_of(name, band, &wanted)?;
                advise_of_law(py, name, &input, 1)?;
                Ok(input)
            }
        };
    }
    match wanted.number(value)? {
        Some(number) => Ok(Input::fixed(name, number)),
        None => Err(PyTypeError::new_err(format!(
            "{name}: expected a number, a tuple (nominal, plus, minus), text such as '25 ±0.1 mm', Limits, a Fit, or what \
             varying gives, or limits with a distribution such as ('25 H7', 'uniform')"
        ))),
    }
}

fn band_of(name: &str, band: &Bound<'_, PyTuple>, wanted: &Wanted) -> PyResult<Input> {
    if !(3..=4).contains(&band.len()) {
        return Err(PyTypeError::new_err(format!(
            "{name}: a tuple is (nominal, plus, minus), with a distribution as well if you like, or limits and a distribution \
             such as ('25 H7', 'uniform')"
        )));
    }
    let number = |place: usize| wanted.one(&band.get_item(place)?);
    // A difference of temperatures has another zero than a temperature.
    if wanted.kind().origin != 0.0
        && !(1..3).all(|k| band.get_item(k).is_ok_and(|end| end.extract::<f64>().is_ok()))
    {
        return Err(PyTypeError::new_err(format!("{name}: deviations of a temperature are bare numbers")));
    }
    let distribution = match band.len() {
        4 => distribution_of(&band.get_item(3)?)?,
        _ => Distribution::NORMAL,
    };
    Ok(Input::new(name, number(0)?, number(1)?, number(2)?).distribution(distribution))
}
