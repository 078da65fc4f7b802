//! Cutting plans.
use crate::error::{unless_refused, value_error};
use crate::given::{Threads, whole};
use crate::object::{PyObject, object};
use crate::options::options;
use crate::size::{length_of, units_of};
use crate::watch::watched;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString, PyTuple};
use tenths::Units;
use tenths::stock::{CuttingBar, CuttingError, CuttingOptions, CuttingOrder, CuttingPlan, OrderedPiece};

/// Which bars to take, and what to cut from each: what `cutting_plan` gives.
#[pyclass(frozen, extends = PyObject, name = "CuttingPlan", module = "tenths")]
pub struct PyCuttingPlan(pub CuttingPlan);

#[pymethods]
impl PyCuttingPlan {
    /// The layouts as a picture, SVG: a bar for each, with its pieces to scale and how often it is cut.
    fn to_svg(&self) -> String {
        self.0.to_svg()
    }
}

/// What `cutting_plan` of `_cutting_plan.py` calls.
#[pyfunction]
pub fn _cutting_plan<'py>(
    py: Python<'py>,
    pieces: &Bound<'py, PyAny>,
    bars: &Bound<'py, PyAny>,
    units: Option<&str>,
    threads: Threads,
    progress: Option<&Bound<'py, PyAny>>,
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let (units, options) = asked(pieces, "pieces", bars, units, threads, given)?;
    let pieces = pieces_of(pieces, units)?;
    let bars = bars_of(bars, units)?;
    let plan = watched(py, progress, |watch| tenths::stock::cutting_plan(&pieces, &bars, &options, watch))?;
    object(py, &plan.map_err(|error: CuttingError| value_error(error))?)
}

/// What `shared_cutting_plan` of `_cutting_plan.py` calls.
#[pyfunction]
pub fn _shared_cutting_plan<'py>(
    py: Python<'py>,
    orders: &Bound<'py, PyAny>,
    bars: &Bound<'py, PyAny>,
    units: Option<&str>,
    threads: Threads,
    progress: Option<&Bound<'py, PyAny>>,
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let (units, options) = asked(orders, "orders", bars, units, threads, given)?;
    let items = match orders.cast::<PyDict>() {
        Ok(dict) => dict.items().into_any(),
        Err(_) => orders.clone(),
    };
    let orders = items.try_iter()?.map(|order| order_of(&order?, units)).collect::<PyResult<Vec<_>>>()?;
    let bars = bars_of(bars, units)?;
    let plan =
        watched(py, progress, |watch| tenths::stock::shared_cutting_plan(&orders, &bars, &options, watch))?;
    object(py, &plan.map_err(|error: CuttingError| value_error(error))?)
}

/// The units of bare numbers and the options of a plan of what is wanted. Threads were checked, and change nothing.
fn asked(
    wanted: &Bound<'_, PyAny>,
    what: &str,
    bars: &Bound<'_, PyAny>,
    units: Option<&str>,
    _: Threads,
    given: &Bound<'_, PyDict>,
) -> PyResult<(Option<Units>, CuttingOptions)> {
    refuse_text(wanted, what)?;
    refuse_text(bars, "bars")?;
    let units = units.map(units_of).transpose()?;
    let options: CuttingOptions = options("cutting_plan", given, units)?;
    Ok((units, CuttingOptions { units: units.unwrap_or(Units::Metric), ..options }))
}

/// Text is not taken for a list of its letters.
pub fn refuse_text(given: &Bound<'_, PyAny>, what: &str) -> PyResult<()> {
    match given.is_instance_of::<PyString>() {
        true => Err(PyTypeError::new_err(format!("{what} must be a list, not the text {}", given.repr()?))),
        false => Ok(()),
    }
}

fn order_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<CuttingOrder> {
    let Ok((name, pieces)) = given.extract::<(String, Bound<'_, PyAny>)>() else {
        return Err(PyTypeError::new_err(format!("an order must be (name, pieces), not {}", given.repr()?)));
    };
    refuse_text(&pieces, "pieces")?;
    Ok(CuttingOrder { name, pieces: pieces_of(&pieces, units)? })
}

fn pieces_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<Vec<OrderedPiece>> {
    given.try_iter()?.map(|piece| piece_of(&piece?, units)).collect()
}

fn bars_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<Vec<CuttingBar>> {
    given.try_iter()?.map(|bar| bar_of(&bar?, units)).collect()
}

fn piece_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<OrderedPiece> {
    let Ok((length, count)) = given.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>() else {
        return Err(PyTypeError::new_err(format!("a piece must be (length, count), not {}", given.repr()?)));
    };
    Ok(OrderedPiece {
        length: length_of("cutting_plan", "length", &length, units)?,
        count: whole("a count", &count)?,
    })
}

fn bar_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<CuttingBar> {
    let Ok(parts) = given.cast::<PyTuple>() else {
        return Ok(CuttingBar {
            length: length_of("cutting_plan", "length", given, units)?,
            available: None,
            price: None,
        });
    };
    if parts.is_empty() || parts.len() > 3 {
        return Err(PyTypeError::new_err(format!(
            "a bar must be a length or (length, how many or None, price or None), not {}",
            given.repr()?
        )));
    }
    let part = |place: usize| parts.get_item(place).ok().filter(|part| !part.is_none());
    Ok(CuttingBar {
        length: length_of("cutting_plan", "length", &parts.get_item(0)?, units)?,
        available: part(1).as_ref().map(|count| whole("a count", count)).transpose()?,
        price: part(2).as_ref().map(money_of).transpose()?,
    })
}

/// An amount of money: a number, or a Decimal as money often is.
pub fn money_of(given: &Bound<'_, PyAny>) -> PyResult<f64> {
    match unless_refused(given.py(), given.extract::<f64>())? {
        Some(amount) => Ok(amount),
        None => given.call_method0("__float__").and_then(|amount| amount.extract()),
    }
}
