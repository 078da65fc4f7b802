//! Locators of a part.
use crate::error::{unless_refused, value_error};
use crate::number::Wanted;
use crate::object::{PyObject, object};
use crate::size::units_of;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyString};
use tenths::Units;
use tenths::workholding::{Clamp, Locating, LocatingError, Locator, MAX_LOCATORS};

type Vector = [f64; 3];

/// What locators hold of a part, what they leave, and whether clamps seat it: what `locating` gives.
#[pyclass(frozen, extends = PyObject, name = "Locating", module = "tenths")]
pub struct PyLocating(pub Locating);

#[pymethods]
impl PyLocating {
    /// How a point of the part moves, as (x, y, z), when each locator is off by its error along its normal: positive where it
    /// stands farther into the part. To the first order.
    fn shift(&self, errors: &Bound<'_, PyAny>, at: &Bound<'_, PyAny>) -> PyResult<(f64, f64, f64)> {
        let (units, wanted) = (self.0.units, length("errors", self.0.units));
        let errors = elements(errors, "errors", "one for each locator")?;
        let errors = errors.iter().map(|error| wanted.one(error)).collect::<PyResult<Vec<_>>>()?;
        let [x, y, z] = self.0.shift(&errors, point(at, "at", units)?).map_err(refused)?;
        Ok((x, y, z))
    }

    /// How far a point moves along a direction ('x', 'y', 'z' or three numbers) for each unit of error of each locator: the
    /// sensitivities of the locators as contributors to a stack.
    fn sensitivities(&self, at: &Bound<'_, PyAny>, along: &Bound<'_, PyAny>) -> PyResult<Vec<f64>> {
        let (at, along) = (point(at, "at", self.0.units)?, direction(along, "along")?);
        self.0.sensitivities(at, along).map_err(refused)
    }
}

fn refused(error: LocatingError) -> PyErr {
    value_error(error)
}

fn length(argument: &'static str, units: Units) -> Wanted {
    Wanted::length("locating", argument, units)
}

/// The elements of a list; text is none.
fn elements<'py>(given: &Bound<'py, PyAny>, what: &str, each: &str) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let listed = match given.is_instance_of::<PyString>() {
        true => None,
        false => unless_refused(given.py(), given.try_iter())?,
    };
    let Some(listed) = listed else {
        return Err(PyTypeError::new_err(format!("'{what}' must be a list, {each}, not {}", given.repr()?)));
    };
    let mut made = vec![];
    for one in listed {
        made.push(one?);
        if made.len() > MAX_LOCATORS {
            return Err(refused(LocatingError::TooMany { count: made.len() }));
        }
    }
    Ok(made)
}

fn three<'py>(given: &Bound<'py, PyAny>, what: &str) -> PyResult<[Bound<'py, PyAny>; 3]> {
    let parts = elements(given, what, "x, y and z")?;
    let count = parts.len();
    parts
        .try_into()
        .map_err(|_| PyTypeError::new_err(format!("'{what}' must be x, y and z, not {count} numbers")))
}

/// A place: lengths in the units of the call, sizes, or text with a unit.
fn point(given: &Bound<'_, PyAny>, what: &'static str, units: Units) -> PyResult<Vector> {
    let [x, y, z] = three(given, what)?;
    let wanted = length(what, units);
    Ok([wanted.one(&x)?, wanted.one(&y)?, wanted.one(&z)?])
}

/// A direction: bare numbers, or the name of an axis.
fn direction(given: &Bound<'_, PyAny>, what: &str) -> PyResult<Vector> {
    if let Ok(name) = given.cast::<PyString>() {
        return match name.to_str()? {
            "x" => Ok([1.0, 0.0, 0.0]),
            "y" => Ok([0.0, 1.0, 0.0]),
            "z" => Ok([0.0, 0.0, 1.0]),
            "-x" => Ok([-1.0, 0.0, 0.0]),
            "-y" => Ok([0.0, -1.0, 0.0]),
            "-z" => Ok([0.0, 0.0, -1.0]),
            other => Err(value_error(format!(
                "'{what}' must be 'x', 'y', 'z', with a minus or not, or three numbers, not '{other}'"
            ))),
        };
    }
    let number = |one: &Bound<'_, PyAny>| match one.extract::<f64>() {
        Ok(number) if !one.is_instance_of::<PyBool>() => Ok(number),
        _ => Err(PyTypeError::new_err(format!("'{what}' must be three numbers, not {}", one.repr()?))),
    };
    let [x, y, z] = three(given, what)?;
    Ok([number(&x)?, number(&y)?, number(&z)?])
}

fn locator(given: &Bound<'_, PyAny>, units: Units) -> PyResult<Locator> {
    let parts = elements(given, "locators", "(position, normal) each")?;
    let [position, normal] = &parts[..] else {
        return Err(PyTypeError::new_err(format!(
            "a locator must be (position, normal), not {}",
            given.repr()?
        )));
    };
    Ok(Locator { position: point(position, "locators", units)?, normal: direction(normal, "normal")? })
}

fn clamp(given: &Bound<'_, PyAny>, units: Units) -> PyResult<Clamp> {
    let parts = elements(given, "clamps", "(position, normal) or (position, normal, force) each")?;
    let (position, normal, force) = match &parts[..] {
        [position, normal] => (position, normal, 1.0),
        [position, normal, force] => (position, normal, force.extract()?),
        _ => {
            return Err(PyTypeError::new_err(format!(
                "a clamp must be (position, normal) or (position, normal, force), not {}",
                given.repr()?
            )));
        }
    };
    Ok(Clamp { position: point(position, "clamps", units)?, normal: direction(normal, "normal")?, force })
}

/// What locators hold of a part, which motions they leave, and whether clamps press it on every locator.
///
/// `locators` are pairs `(position, normal)`: where each touches, and the direction in which it pushes the part, from the
/// locator into the part, as three numbers or 'x', '-z' and so on. `clamps` are `(position, normal)`, with the direction in
/// which they push, or `(position, normal, force)`; without forces they press alike. Positions are numbers in `units`, 'mm' or
/// 'in', about any origin; `friction` is that at all contacts, None for none.
///
/// Caution: geometry alone holds no part. Locators that stop every motion do not replace clamping force: see `clamp_safety`,
/// and follow the data of the makers of machine and workholding.
///
///     >>> rests = tenths.plane_contact((0, 0, 0), (100, 0, 0), (50, 80, 0))
///     >>> side = tenths.line_contact((20, 0, 10), (80, 0, 10), "y")
///     >>> part = tenths.locating(rests + side)
///     >>> part.held, part.free[0].words
///     (5, 'slides along x')
#[pyfunction]
#[pyo3(signature = (locators, clamps=None, units="mm", friction=None))]
pub fn locating<'py>(
    py: Python<'py>,
    locators: &Bound<'py, PyAny>,
    clamps: Option<&Bound<'py, PyAny>>,
    units: &str,
    friction: Option<f64>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let locators = elements(locators, "locators", "(position, normal) each")?;
    let locators = locators.iter().map(|one| locator(one, units)).collect::<PyResult<Vec<_>>>()?;
    let clamps = match clamps {
        Some(clamps) => elements(clamps, "clamps", "(position, normal) each")?,
        None => vec![],
    };
    let clamps = clamps.iter().map(|one| clamp(one, units)).collect::<PyResult<Vec<_>>>()?;
    let made = py.detach(|| Locating::new(&locators, &clamps, friction, units));
    object(py, &made.map_err(refused)?)
}

fn listed<'py>(
    py: Python<'py>,
    made: Result<Vec<Locator>, LocatingError>,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    made.map_err(refused)?.iter().map(|one| object(py, one)).collect()
}

/// A line contact, such as a rail, as two locators at its ends. `normal` points into the part.
#[pyfunction]
#[pyo3(signature = (start, end, normal, units="mm"))]
pub fn line_contact<'py>(
    py: Python<'py>,
    start: &Bound<'py, PyAny>,
    end: &Bound<'py, PyAny>,
    normal: &Bound<'py, PyAny>,
    units: &str,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    let [start, end] = [point(start, "start", units)?, point(end, "end", units)?];
    listed(py, Locator::line(start, end, direction(normal, "normal")?))
}

/// A plane contact, such as three rest buttons, as three locators. Their normal points to the side from which the points run
/// counter-clockwise.
#[pyfunction]
#[pyo3(signature = (first, second, third, units="mm"))]
pub fn plane_contact<'py>(
    py: Python<'py>,
    first: &Bound<'py, PyAny>,
    second: &Bound<'py, PyAny>,
    third: &Bound<'py, PyAny>,
    units: &str,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    let points =
        [point(first, "first", units)?, point(second, "second", units)?, point(third, "third", units)?];
    listed(py, Locator::plane(points))
}

/// A round and a relieved pin in two holes, as three locators: two at the round pin, one at the relieved one. `axis` is the
/// direction of the pins. What the part lies on is extra.
#[pyfunction]
#[pyo3(signature = (round, relieved, axis=None, units="mm"), text_signature = "(round, relieved, axis='z', units='mm')")]
pub fn two_pins<'py>(
    py: Python<'py>,
    round: &Bound<'py, PyAny>,
    relieved: &Bound<'py, PyAny>,
    axis: Option<&Bound<'py, PyAny>>,
    units: &str,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    let [round, relieved] = [point(round, "round", units)?, point(relieved, "relieved", units)?];
    let axis = axis.map_or(Ok([0.0, 0.0, 1.0]), |axis| direction(axis, "axis"))?;
    listed(py, Locator::pins(round, relieved, axis))
}

/// A V-block under a round bar, as four locators: both flanks at both ends. They leave the bar free to slide along its axis and
/// to turn about it.
///
/// `start` and `end` are points of the bar's axis at the ends of the block, `up` is where the V opens, and `vee_angle` is its
/// included angle in degrees.
#[pyfunction]
#[pyo3(signature = (start, end, up, diameter, vee_angle=90.0, units="mm"))]
pub fn vee_block<'py>(
    py: Python<'py>,
    start: &Bound<'py, PyAny>,
    end: &Bound<'py, PyAny>,
    up: &Bound<'py, PyAny>,
    diameter: &Bound<'py, PyAny>,
    vee_angle: f64,
    units: &str,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    let [start, end] = [point(start, "start", units)?, point(end, "end", units)?];
    let diameter = length("diameter", units).one(diameter)?;
    listed(py, Locator::vee_block(start, end, direction(up, "up")?, diameter, vee_angle))
}
