//! Clamps: their force by kind, and their safety.
use crate::error::{raise, value_error};
use crate::given::small;
use crate::number::Wanted;
use crate::object::object_in;
use crate::size::units_of;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::quantity::{Angle, Force, Kind, Length, Ratio};
use tenths::workholding::{ClampError, ClampKind, ClampSafety, Clamping, Holding};
use tenths::{Quantity, Units};

/// What `clamp_safety` asks for, by what name, and of which quantity.
const ROLES: [(&str, &Kind); 8] = [
    ("clamp_force", Force::KIND),
    ("cutting_forces", Force::KIND),
    ("friction", Ratio::KIND),
    ("force_diameter", Length::KIND),
    ("grip_diameter", Length::KIND),
    ("vee_angle", Angle::KIND),
    ("grip_lost", Force::KIND),
    ("wanted", Ratio::KIND),
];

fn number(given: &Bound<'_, PyAny>, name: &'static str, units: Units) -> PyResult<f64> {
    let Some((_, kind)) = ROLES.iter().find(|(known, _)| *known == name) else {
        return Err(PyTypeError::new_err(format!("clamp_safety does not take '{name}'")));
    };
    Wanted::new("clamp_safety", name, kind, units).one(given)
}

fn refused(py: Python<'_>, error: ClampError) -> PyErr {
    match error {
        ClampError::Formula(error) => raise(py, &error),
        other => value_error(other),
    }
}

/// The name of the formula of a kind of clamp.
#[pyfunction]
pub fn _clamp_formula(kind: &str) -> PyResult<&'static str> {
    Ok(ClampKind::parse(kind).map_err(value_error)?.formula().name)
}

/// What `clamp_safety` of `_clamping.py` calls with three forces, and what else was given by name.
#[pyfunction]
pub fn _clamp_safety<'py>(
    units: &str,
    holding: &str,
    clamp_force: &Bound<'py, PyAny>,
    cutting_forces: [Bound<'py, PyAny>; 3],
    friction: &Bound<'py, PyAny>,
    faces: Option<&Bound<'py, PyAny>>,
    more: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, units) = (clamp_force.py(), units_of(units)?);
    let holding = Holding::parse(holding).map_err(value_error)?;
    let [first, second, third] = &cutting_forces;
    let force = |given: &Bound<'py, PyAny>| {
        number(given, "cutting_forces", units).map(|number| Force::new_in(number, units))
    };
    let forces = [force(first)?, force(second)?, force(third)?];
    let clamp = Force::new_in(number(clamp_force, "clamp_force", units)?, units);
    let faces = faces.map(|faces| small("faces", faces)).transpose()?;
    let friction = Ratio::new(number(friction, "friction", units)?);
    let mut of = Clamping { faces, ..Clamping::new(holding, clamp, forces, friction) };
    let optional = |name: &'static str| match more.get_item(name)? {
        Some(given) if !given.is_none() => number(&given, name, units).map(Some),
        _ => Ok(None),
    };
    of.diameters = match (optional("force_diameter")?, optional("grip_diameter")?) {
        (None, None) => None,
        (Some(at), Some(grip)) => Some([at, grip].map(|one| Length::new_in(one, units))),
        _ => {
            return Err(value_error(
                "force_diameter and grip_diameter go together. Fix: give both, or neither for a force at the grip",
            ));
        }
    };
    if let Some(angle) = optional("vee_angle")? {
        of.vee_angle = Angle::degrees(angle);
    }
    if let Some(lost) = optional("grip_lost")? {
        of.grip_lost = Force::new_in(lost, units);
    }
    if let Some(wanted) = optional("wanted")? {
        of.wanted = wanted;
    }
    let made = ClampSafety::new(&of).map_err(|error| refused(py, error))?;
    object_in(py, &made, units)
}
