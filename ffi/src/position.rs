//! Measured positions against their tolerances. Sizes come in as text and go out in picometres.
use tenths::{Limits, MaterialCondition, MeasuredFeature, Member, PositionCheck, PositionError, Size};
use tenths_macros::export;

/// Judges a measured position: `tenths_make_position_check("0.03 mm", "0.04 mm", NULL, "0.1 mm", TENTHS_HOLE, NULL, NULL,
/// NULL, &position)`.
///
/// `x`, `y` and `z` are the offsets from the true position; `z`, for a sphere in its spherical zone, may be null. The
/// tolerance is a diameter. At a material condition the tolerance has a bonus: `member` is then `TENTHS_HOLE` or
/// `TENTHS_SHAFT`, `condition` is `MMC` or `LMC`, `limits` are those of size, such as `12..12.15 mm`, and `actual` is
/// the size of the unrelated actual mating envelope, or at LMC of the unrelated actual minimum material envelope,
/// such as `12.08 mm`. Regardless of feature size `condition` may be null, `limits` may be null and `actual` may be
/// null, all three together.
#[export(position)]
pub(crate) fn make_position_check(
    x: Size,
    y: Size,
    z: Option<Size>,
    tolerance: Size,
    member: Member,
    condition: Option<&str>,
    limits: Option<Limits>,
    actual: Option<Size>,
) -> Result<PositionCheck, PositionError> {
    let feature = feature(member, condition, limits, actual)?;
    PositionCheck::new([x, y, z.unwrap_or(Size::ZERO)], tolerance, feature.as_ref())
}

/// The feature of a check at a material condition, all of which is given or none.
pub(crate) fn feature(
    member: Member,
    condition: Option<&str>,
    limits: Option<Limits>,
    actual: Option<Size>,
) -> Result<Option<MeasuredFeature>, PositionError> {
    match (condition, limits, actual) {
        (None, None, None) => Ok(None),
        (Some(condition), Some(limits), Some(actual)) => {
            let condition = MaterialCondition::parse(condition)?;
            Ok(Some(MeasuredFeature { member, condition, limits, actual }))
        }
        _ => Err(PositionError::Incomplete),
    }
}
