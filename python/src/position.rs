//! Measured positions against their tolerances.
use crate::error::value_error;
use crate::size::{PySize, limits_of, size_of};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::size::natural_units;
use tenths::{MaterialCondition, MeasuredFeature, Member, PositionCheck, PositionError, Size, Units};

/// A measured position against its tolerance, judged on exact sizes: `PositionCheck("0.03 mm", "0.04 mm", "0.1 mm")`.
///
/// `x`, `y` and, for a sphere in its spherical zone, `z` are the offsets from the true position; the tolerance is a
/// diameter. At a material condition the tolerance has a bonus: `member` is 'hole' or 'shaft', `condition` 'MMC' or
/// 'LMC', `limits` those of size, and `actual` the size of the unrelated actual mating envelope, or at LMC of the
/// unrelated actual minimum material envelope. Without these four the tolerance applies regardless of feature size.
#[pyclass(frozen, eq, hash, name = "PositionCheck", module = "tenths")]
#[derive(PartialEq, Hash)]
pub struct PyPositionCheck(PositionCheck);

#[pymethods]
impl PyPositionCheck {
    #[new]
    #[pyo3(signature = (x, y, tolerance, *, z=None, member=None, condition=None, limits=None, actual=None))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        x: &Bound<'_, PyAny>,
        y: &Bound<'_, PyAny>,
        tolerance: &Bound<'_, PyAny>,
        z: Option<&Bound<'_, PyAny>>,
        member: Option<&str>,
        condition: Option<&str>,
        limits: Option<&Bound<'_, PyAny>>,
        actual: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Self> {
        let feature = match (member, condition, limits, actual) {
            (None, None, None, None) => None,
            (Some(member), Some(condition), Some(limits), Some(actual)) => {
                let member = Member::ALL.into_iter().find(|known| known.name() == member);
                Some(MeasuredFeature {
                    member: member.ok_or_else(|| value_error("member must be 'hole' or 'shaft'"))?,
                    condition: MaterialCondition::parse(condition).map_err(value_error)?,
                    limits: limits_of(limits)?,
                    actual: size_of(actual)?,
                })
            }
            _ => return Err(value_error(PositionError::Incomplete)),
        };
        let offsets = [size_of(x)?, size_of(y)?, z.map_or(Ok(Size::ZERO), size_of)?];
        PositionCheck::new(offsets, size_of(tolerance)?, feature.as_ref()).map(Self).map_err(value_error)
    }

    /// Position error, a diameter, rounded up to a picometre.
    #[getter]
    fn error(&self) -> PySize {
        PySize(self.0.error)
    }

    /// Bonus tolerance; zero regardless of feature size.
    #[getter]
    fn bonus(&self) -> PySize {
        PySize(self.0.bonus)
    }

    /// Position tolerance with the bonus, a diameter.
    #[getter]
    fn allowed(&self) -> PySize {
        PySize(self.0.allowed)
    }

    /// Whether the error is within what is allowed, whose edge is good.
    #[getter]
    fn accepted(&self) -> bool {
        self.0.accepted()
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("error", self.0.error.format(Units::Metric))?;
        dict.set_item("bonus", self.0.bonus.format(Units::Metric))?;
        dict.set_item("allowed", self.0.allowed.format(Units::Metric))?;
        dict.set_item("accepted", self.accepted())?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let verdict = if self.accepted() { "accepted" } else { "rejected" };
        let PositionCheck { error, allowed, .. } = self.0;
        let units = natural_units(&[error, allowed]);
        format!("<position {verdict}: error {} of {}>", error.format(units), allowed.format(units))
    }

    fn _repr_html_(&self) -> String {
        let PositionCheck { error, bonus, allowed } = self.0;
        let units = natural_units(&[error, bonus, allowed]);
        let [error, bonus, allowed] = [error, bonus, allowed].map(|size| size.format(units));
        let verdict = if self.accepted() { "accepted" } else { "rejected" };
        format!(
            "<table><caption>position {verdict}</caption><tr><th>error</th><td>{error}</td></tr><tr><th>bonus</th>\
             <td>{bonus}</td></tr><tr><th>allowed</th><td>{allowed}</td></tr></table>"
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (PySize, PySize, PySize))> {
        let make = PyModule::import(py, "tenths._tenths")?.getattr("_position_check")?;
        Ok((make, (self.error(), self.bonus(), self.allowed())))
    }
}

/// What a pickle of a position check calls.
#[pyfunction]
pub fn _position_check(
    error: &Bound<'_, PyAny>,
    bonus: &Bound<'_, PyAny>,
    allowed: &Bound<'_, PyAny>,
) -> PyResult<PyPositionCheck> {
    let (error, bonus, allowed) = (size_of(error)?, size_of(bonus)?, size_of(allowed)?);
    Ok(PyPositionCheck(PositionCheck { error, bonus, allowed }))
}
