//! Cutting plans.
use crate::error::value_error;
use crate::object::{PyObject, object};
use crate::options::options;
use crate::size::{length_of, units_of};
use crate::watch::watched;
use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyString, PyTuple};
use tenths::Units;
use tenths::stock::{CuttingBar, CuttingError, CuttingOptions, CuttingPlan, OrderedPiece};

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
    threads: i64,
    progress: Option<&Bound<'py, PyAny>>,
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    if threads < 1 {
        return Err(PyValueError::new_err(format!("threads must be at least 1, not {threads}")));
    }
    for (given, what) in [(pieces, "pieces"), (bars, "bars")] {
        if given.is_instance_of::<PyString>() {
            return Err(PyTypeError::new_err(format!(
                "{what} must be a list, not the text {}",
                given.repr()?
            )));
        }
    }
    let units = units.map(units_of).transpose()?;
    let options: CuttingOptions = options("cutting_plan", given, units)?;
    let options = CuttingOptions { units: units.unwrap_or(Units::Metric), ..options };
    let pieces = pieces.try_iter()?.map(|piece| piece_of(&piece?, units)).collect::<PyResult<Vec<_>>>()?;
    let bars = bars.try_iter()?.map(|bar| bar_of(&bar?, units)).collect::<PyResult<Vec<_>>>()?;
    let plan = watched(py, progress, |watch| tenths::stock::cutting_plan(&pieces, &bars, &options, watch))?;
    object(py, &plan.map_err(|error: CuttingError| value_error(error))?)
}

fn piece_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<OrderedPiece> {
    let Ok((length, count)) = given.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>() else {
        return Err(PyTypeError::new_err(format!("a piece must be (length, count), not {}", given.repr()?)));
    };
    Ok(OrderedPiece {
        length: length_of("cutting_plan", "length", &length, units)?,
        count: count_of(&count)?,
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
    let price = |price: Bound<'_, PyAny>| match price.extract::<f64>() {
        Ok(price) => Ok(price),
        // A Decimal, as money often is.
        Err(_) => price.call_method0("__float__").and_then(|price| price.extract()),
    };
    Ok(CuttingBar {
        length: length_of("cutting_plan", "length", &parts.get_item(0)?, units)?,
        available: part(1).as_ref().map(count_of).transpose()?,
        price: part(2).map(price).transpose()?,
    })
}

fn count_of(given: &Bound<'_, PyAny>) -> PyResult<u64> {
    let refused = || -> PyResult<PyErr> {
        Ok(PyTypeError::new_err(format!(
            "a count must be a whole number, zero or more, not {}",
            given.repr()?
        )))
    };
    if given.is_instance_of::<PyBool>() {
        return Err(refused()?);
    }
    match given.call_method0("__index__").and_then(|count| count.extract::<u64>()) {
        Ok(count) => Ok(count),
        Err(_) => Err(refused()?),
    }
}
