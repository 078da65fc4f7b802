//! Quotes of a plan.
use crate::error::{document_error, unless_refused};
use crate::given::{as_json, whole};
use crate::object::{PyObject, object, objects};
use pyo3::exceptions::{PyIndexError, PyTypeError};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{PyIterator, PyList, PyString};
use tenths::plan::Rates;
use tenths::plan::quote::{MAX_QUANTITIES, PriceList};
use tenths::{Plan, Units};

/// The quotes of a plan for some quantities: a sequence of them, in the order asked for.
#[pyclass(frozen, sequence, extends = PyObject, name = "PriceList", module = "tenths")]
pub struct PyPriceList(pub PriceList);

#[pymethods]
impl PyPriceList {
    fn __len__(&self) -> usize {
        self.0.quotes.len()
    }

    fn __iter__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyIterator>> {
        PyList::new(py, objects(py, &self.0.quotes)?)?.try_iter()
    }

    fn __getitem__<'py>(&self, py: Python<'py>, place: isize) -> PyResult<Bound<'py, PyAny>> {
        let count = self.0.quotes.len();
        let at = if place < 0 { place.checked_add_unsigned(count) } else { Some(place) };
        let quote = at.and_then(|at| self.0.quotes.get(usize::try_from(at).ok()?));
        let quote = quote.ok_or_else(|| {
            PyIndexError::new_err(format!("there are {count} quotes; expected a place from 0, not {place}"))
        })?;
        object(py, quote)
    }

    /// The price list as Markdown that reads well in a terminal too: each quote line by line.
    fn to_markdown(&self) -> String {
        self.0.to_markdown()
    }

    /// The price list as one HTML file that needs nothing else, and prints on A4 and Letter.
    fn to_html(&self) -> String {
        self.0.to_html()
    }
}

/// The quotes of a plan: see `Plan.quote`.
pub fn quote<'py>(
    plan: &Plan,
    quantities: &Bound<'py, PyAny>,
    rates: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let py = quantities.py();
    let quantities = counts(quantities)?;
    let rates = rates.map(|rates| read(rates, plan.document().units)).transpose()?;
    let list = py.detach(|| plan.quote(&quantities, rates.as_ref()));
    object(py, &list.map_err(|error| document_error(py, &error))?)
}

/// Two routings side by side: see `Plan.break_even`.
pub fn break_even<'py>(
    py: Python<'py>,
    plan: &Plan,
    other: &Plan,
    up_to: u64,
    rates: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let rates = rates.map(|rates| read(rates, plan.document().units)).transpose()?;
    let made = py.detach(|| plan.break_even(other, up_to, rates.as_ref()));
    object(py, &made.map_err(|error| document_error(py, &error))?)
}

/// The routings side by side: see `Plan.compare_routings`.
pub fn compare_routings<'py>(
    py: Python<'py>,
    plan: &Plan,
    quantity: Option<u64>,
    up_to: u64,
    rates: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let rates = rates.map(|rates| read(rates, plan.document().units)).transpose()?;
    let made = py.detach(|| plan.compare_routings(quantity, up_to, rates.as_ref()));
    object(py, &made.map_err(|error| document_error(py, &error))?)
}

/// What moves the price most: see `Plan.price_drivers`.
pub fn price_drivers<'py>(
    py: Python<'py>,
    plan: &Plan,
    quantity: u64,
    change: f64,
    rates: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let rates = rates.map(|rates| read(rates, plan.document().units)).transpose()?;
    let made = py.detach(|| plan.price_drivers(quantity, change, rates.as_ref()));
    object(py, &made.map_err(|error| document_error(py, &error))?)
}

/// The economic lot: see `Plan.economic_lot`.
pub fn economic_lot<'py>(
    py: Python<'py>,
    plan: &Plan,
    annual_demand: u64,
    holding_share: f64,
    rates: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let rates = rates.map(|rates| read(rates, plan.document().units)).transpose()?;
    let made = py.detach(|| plan.economic_lot(annual_demand, holding_share, rates.as_ref()));
    object(py, &made.map_err(|error| document_error(py, &error))?)
}

/// One quantity, or several.
fn counts(given: &Bound<'_, PyAny>) -> PyResult<Vec<u64>> {
    let is_one =
        given.hasattr(intern!(given.py(), "__index__"))? || given.hasattr(intern!(given.py(), "as_tuple"))?;
    if is_one && !given.hasattr(intern!(given.py(), "__len__"))? {
        return Ok(vec![whole("quantity", given)?]);
    }
    let listed = match given.is_instance_of::<PyString>() {
        true => None,
        false => unless_refused(given.py(), given.try_iter())?,
    };
    let Some(listed) = listed else {
        let got = given.repr()?;
        return Err(PyTypeError::new_err(format!(
            "quantities must be whole numbers, e.g. [1, 25, 500], not {got}"
        )));
    };
    let mut counts = vec![];
    for one in listed.take(MAX_QUANTITIES + 1) {
        counts.push(whole("quantity", &one?)?);
    }
    Ok(counts)
}

/// Rates as a dict, or as JSON text. Decimals of Python's go as text, so that they stay exact.
fn read(given: &Bound<'_, PyAny>, units: Units) -> PyResult<Rates> {
    let text: String = match given.cast::<PyString>() {
        Ok(text) => text.extract()?,
        Err(_) => as_json(given, "money")?,
    };
    Rates::from_json(&text, units).map_err(|error| document_error(given.py(), &error))
}
