//! Form from points, and positions of holes in a datum frame.
use crate::array::{as_array, numbers_of};
use crate::error::value_error;
use crate::number::Wanted;
use crate::object::object;
use crate::size::units_of;
use crate::size::{PySize, limits_of, size_of};
use pyo3::prelude::*;
use pyo3::types::PyString;
use tenths::{
    FormCriterion, FormFeature, FormFit, MaterialCondition, MeasuredFeature, Member, PositionError, Size,
    Units,
};

/// What `fit_form` of `_form.py` calls with an array of two or three columns.
#[pyfunction]
pub fn _fit_form<'py>(
    units: &str,
    feature: &str,
    points: &Bound<'py, PyAny>,
    columns: usize,
    criterion: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, units) = (points.py(), units_of(units)?);
    let feature = FormFeature::parse(feature).map_err(value_error)?;
    let criterion = FormCriterion::parse(criterion).map_err(value_error)?;
    let numbers = numbers_of(&as_array(points)?)?;
    let fit = py.detach(|| FormFit::new(feature, criterion, &numbers, columns, units));
    object(py, &fit.map_err(value_error)?)
}

/// A Size, text with its unit, or a number in the units of the namespace.
fn size_in(value: &Bound<'_, PyAny>, argument: &'static str, units: Units) -> PyResult<Size> {
    if value.is_instance_of::<PySize>() || value.is_instance_of::<PyString>() {
        return size_of(value);
    }
    let number = Wanted::length("hole_position", argument, units).one(value)?;
    Size::from_float(number, units).map_err(value_error)
}

/// What `hole_position` of `_form.py` calls with arrays of three columns.
#[pyfunction]
#[allow(clippy::too_many_arguments)]
pub fn _hole_position<'py>(
    units: &str,
    points: &Bound<'py, PyAny>,
    datums: Option<[Bound<'py, PyAny>; 3]>,
    nominal: (Bound<'py, PyAny>, Bound<'py, PyAny>),
    tolerance: &Bound<'py, PyAny>,
    member: &str,
    condition: Option<&str>,
    limits: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let member = Member::ALL.into_iter().find(|known| known.name() == member);
    let member = member.ok_or_else(|| value_error("member must be 'hole' or 'shaft'"))?;
    let feature = match (condition, limits) {
        (None, None) => None,
        (Some(condition), Some(limits)) => Some(MeasuredFeature {
            member,
            condition: MaterialCondition::parse(condition).map_err(value_error)?,
            limits: limits_of(limits)?,
            actual: Size::ZERO,
        }),
        _ => return Err(value_error(PositionError::Incomplete)),
    };
    let flat = |array: &Bound<'py, PyAny>| numbers_of(&as_array(array)?);
    let datums = match datums {
        Some([primary, secondary, tertiary]) => Some([flat(&primary)?, flat(&secondary)?, flat(&tertiary)?]),
        None => None,
    };
    let made = tenths::hole_position(
        &flat(points)?,
        datums.as_ref().map(|datums| datums.each_ref().map(Vec::as_slice)),
        [size_in(&nominal.0, "nominal", units)?, size_in(&nominal.1, "nominal", units)?],
        size_in(tolerance, "tolerance", units)?,
        feature.as_ref(),
        member,
        units,
    );
    object(points.py(), &made.map_err(value_error)?)
}
