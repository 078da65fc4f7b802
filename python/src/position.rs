//! Measured positions against their tolerances.
use crate::error::value_error;
use crate::object::{PyObject, held};
use crate::size::{limits_of, size_of};
use pyo3::prelude::*;
use tenths::{MaterialCondition, MeasuredFeature, Member, PositionCheck, PositionError, Size};

/// A measured position against its tolerance, judged on exact sizes: `PositionCheck("0.03 mm", "0.04 mm", "0.1 mm")`.
///
/// `x`, `y` and, for a sphere in its spherical zone, `z` are the offsets from the true position; the tolerance is a
/// diameter. At a material condition the tolerance has a bonus: `member` is 'hole' or 'shaft', `condition` 'MMC' or
/// 'LMC', `limits` those of size, and `actual` the size of the unrelated actual mating envelope, or at LMC of the
/// unrelated actual minimum material envelope. Without these four the tolerance applies regardless of feature size.
#[pyclass(frozen, extends = PyObject, name = "PositionCheck", module = "tenths")]
pub struct PyPositionCheck;

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
    ) -> PyResult<PyClassInitializer<Self>> {
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
        let check = PositionCheck::new(offsets, size_of(tolerance)?, feature.as_ref());
        Ok(held(check.map_err(value_error)?))
    }
}
