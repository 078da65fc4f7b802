//! Cutting plans.
use crate::error::value_error;
use crate::number::Wanted;
use crate::object::{PyObject, object};
use crate::size::{side, size_of};
use crate::watch::watched;
use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyFloat, PyInt, PyString, PyTuple};
use std::time::Duration;
use tenths::stock::{CuttingBar, CuttingError, CuttingOptions, CuttingPlan, OrderedPiece};
use tenths::{Size, Units};

/// What asks for lengths here.
const ASKS: &str = "cutting_plan";

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

/// Plans how to cut pieces from bars, and proves that no plan is better.
///
/// `pieces` are pairs `(length, count)`; `bars` are lengths or `(length, how many or None, price or None)`. A length is
/// text or a Size, or with `units` ('mm' or 'in') a number. Pieces fit where their lengths, with one kerf between
/// neighbours, fit in the bar less its `end_trim`, as `parts_per_bar` counts. `remnant` is the end that the vice holds
/// and that cannot be used, `facing_allowance` what facing takes off each piece, `keep_from` the least leftover worth
/// keeping.
///
/// The plan costs least where all bars have a price; without prices it takes the fewest bars of one length, or the
/// least total length of several. It ends after `time_limit` seconds (None: never) or `work_limit` steps, which gives the
/// same plan on every machine, with the best plan found: `proven` then is False, and `gap` says how far it may be from
/// the best. `threads` is the most threads that it may use, which changes nothing in the result; today one does the work.
/// `progress` is True for a bar, or a function of the fraction of the limits that is used.
///
///     >>> plan = tenths.cutting_plan([("2100 mm", 7), ("1500 mm", 7), ("1150 mm", 7)], ["6 m"], kerf="3 mm")
///     >>> plan.bars, plan.proven
///     (6, True)
#[pyfunction]
#[pyo3(signature = (
    pieces, bars, kerf=None, end_trim=None, *, remnant=None, facing_allowance=None, keep_from=None, units=None,
    time_limit=Some(10.0), work_limit=None, threads=1, progress=None
))]
#[pyo3(
    text_signature = "(pieces, bars, kerf=0, end_trim=0, *, remnant=0, facing_allowance=0, keep_from=None, \
                         units=None, time_limit=10.0, work_limit=None, threads=1, progress=None)"
)]
#[expect(clippy::too_many_arguments, reason = "they go by name")]
pub fn cutting_plan<'py>(
    py: Python<'py>,
    pieces: &Bound<'py, PyAny>,
    bars: &Bound<'py, PyAny>,
    kerf: Option<&Bound<'py, PyAny>>,
    end_trim: Option<&Bound<'py, PyAny>>,
    remnant: Option<&Bound<'py, PyAny>>,
    facing_allowance: Option<&Bound<'py, PyAny>>,
    keep_from: Option<&Bound<'py, PyAny>>,
    units: Option<&str>,
    time_limit: Option<f64>,
    work_limit: Option<u64>,
    threads: i64,
    progress: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let given = Given {
        kerf,
        end_trim,
        remnant,
        facing_allowance,
        keep_from,
        units,
        time_limit,
        work_limit,
        threads,
    };
    let (units, options) = given.options()?;
    for (given, what) in [(pieces, "pieces"), (bars, "bars")] {
        refuse_text(given, what)?;
    }
    let pieces = pieces.try_iter()?.map(|piece| piece_of(&piece?, units)).collect::<PyResult<Vec<_>>>()?;
    let bars = bars_of(bars, units)?;
    let plan = watched(py, progress, |watch| tenths::stock::cutting_plan(&pieces, &bars, &options, watch))?;
    object(py, &plan.map_err(|error: CuttingError| value_error(error))?)
}

/// How bars are cut, and how long the search may take, as a caller gives it.
pub struct Given<'a, 'py> {
    pub kerf: Option<&'a Bound<'py, PyAny>>,
    pub end_trim: Option<&'a Bound<'py, PyAny>>,
    pub remnant: Option<&'a Bound<'py, PyAny>>,
    pub facing_allowance: Option<&'a Bound<'py, PyAny>>,
    pub keep_from: Option<&'a Bound<'py, PyAny>>,
    pub units: Option<&'a str>,
    pub time_limit: Option<f64>,
    pub work_limit: Option<u64>,
    pub threads: i64,
}

impl Given<'_, '_> {
    /// The options, and the units of bare numbers.
    pub fn options(&self) -> PyResult<(Option<Units>, CuttingOptions)> {
        if self.threads < 1 {
            return Err(PyValueError::new_err(format!("threads must be at least 1, not {}", self.threads)));
        }
        let units = self.units.map(side).transpose()?;
        let size = |given: Option<&Bound<'_, PyAny>>| match given {
            Some(size) => length_of(ASKS, size, units),
            None => Ok(Size::ZERO),
        };
        let options = CuttingOptions {
            kerf: size(self.kerf)?,
            end_trim: size(self.end_trim)?,
            remnant: size(self.remnant)?,
            facing_allowance: size(self.facing_allowance)?,
            keep_from: self.keep_from.map(|length| length_of(ASKS, length, units)).transpose()?,
            time_limit: self.time_limit.map(seconds).transpose()?,
            work_limit: self.work_limit,
            units: units.unwrap_or(Units::Metric),
        };
        Ok((units, options))
    }
}

/// Text is not taken for a list of its letters.
pub fn refuse_text(given: &Bound<'_, PyAny>, what: &str) -> PyResult<()> {
    match given.is_instance_of::<PyString>() {
        true => Err(PyTypeError::new_err(format!("{what} must be a list, not the text {}", given.repr()?))),
        false => Ok(()),
    }
}

/// A length as text, a Size, or a number in the units that were named; zero needs none.
pub fn length_of(asks: &'static str, given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<Size> {
    let is_number = !given.is_instance_of::<PyBool>()
        && (given.is_instance_of::<PyFloat>()
            || given.is_instance_of::<PyInt>()
            || given.hasattr("dtype")?);
    match units {
        Some(units) if is_number => {
            let number = Wanted::length(asks, "length", units).one(given)?;
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

pub fn piece_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<OrderedPiece> {
    let Ok((length, count)) = given.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>() else {
        return Err(PyTypeError::new_err(format!("a piece must be (length, count), not {}", given.repr()?)));
    };
    Ok(OrderedPiece { length: length_of(ASKS, &length, units)?, count: count_of(&count)? })
}

pub fn bars_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<Vec<CuttingBar>> {
    given.try_iter()?.map(|bar| bar_of(&bar?, units)).collect()
}

fn bar_of(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<CuttingBar> {
    let Ok(parts) = given.cast::<PyTuple>() else {
        return Ok(CuttingBar { length: length_of(ASKS, given, units)?, available: None, price: None });
    };
    if parts.is_empty() || parts.len() > 3 {
        return Err(PyTypeError::new_err(format!(
            "a bar must be a length or (length, how many or None, price or None), not {}",
            given.repr()?
        )));
    }
    let part = |place: usize| parts.get_item(place).ok().filter(|part| !part.is_none());
    Ok(CuttingBar {
        length: length_of(ASKS, &parts.get_item(0)?, units)?,
        available: part(1).as_ref().map(count_of).transpose()?,
        price: part(2).as_ref().map(money_of).transpose()?,
    })
}

/// An amount of money: a number, or a Decimal as money often is.
pub fn money_of(given: &Bound<'_, PyAny>) -> PyResult<f64> {
    match given.extract::<f64>() {
        Ok(amount) => Ok(amount),
        Err(_) => given.call_method0("__float__").and_then(|amount| amount.extract()),
    }
}

pub fn count_of(given: &Bound<'_, PyAny>) -> PyResult<u64> {
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

fn seconds(limit: f64) -> PyResult<Duration> {
    let refused = || {
        PyValueError::new_err(format!(
            "time_limit must be a number of seconds, zero or more, or None, not {limit}"
        ))
    };
    if limit == f64::INFINITY {
        return Ok(Duration::MAX);
    }
    Duration::try_from_secs_f64(limit).map_err(|_| refused())
}
