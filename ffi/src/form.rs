//! Form from points, and positions of holes in a datum frame. Coordinates are in the units of the call.
use crate::position::feature;
use crate::status::Failure;
use tenths::inspect::form::{HolePosition, MAX_POINTS};
use tenths::{FormCriterion, FormError, FormFeature, FormFit, Limits, Member, Size, Units, hole_position};
use tenths_macros::export;

/// The feature through `count` measured points, and how far they deviate from it: roundness, straightness, flatness,
/// cylindricity.
///
/// Features: `line`, `plane`, `circle`, `sphere`, `cylinder`, `cone`. Criteria: `least squares` and `minimum zone`. `z` may be
/// null for points in a plane, of which there are circles and lines.
#[export(fit)]
pub(crate) fn make_form_fit(
    units: Units,
    feature: &str,
    criterion: &str,
    x: &[f64],
    y: &[f64],
    z: Option<&[f64]>,
) -> Result<FormFit, FormError> {
    let (feature, criterion) = (FormFeature::parse(feature)?, FormCriterion::parse(criterion)?);
    if x.len() > MAX_POINTS {
        return Err(FormError::TooMany { count: x.len() });
    }
    let row = |(row, (&x, &y))| [Some(x), Some(y), z.map(|z: &[f64]| z[row])];
    let points: Vec<f64> = x.iter().zip(y).enumerate().flat_map(row).flatten().collect();
    FormFit::new(feature, criterion, &points, if z.is_some() { 3 } else { 2 }, units)
}

/// The position of a hole or pin from measured points, in a frame of three datum planes, with its check.
///
/// `points` are rows of x, y and z, `count` of them: those of the hole first, then `primary` points of the primary datum
/// plane, `secondary` and `tertiary` ones of the others: at least 3, 2 and 1, or 0 of all three where the points are measured in
/// the datum frame. The axis is square to the primary plane. `nominal_x` and `nominal_y` are its true distances from the
/// secondary and the tertiary plane, such as `30 mm`; `tolerance` is a diameter, such as `0.1 mm`.
///
/// `tenths_make_hole_position(TENTHS_METRIC, points, 12, 0, 0, 0, "30 mm", "40 mm", "0.1 mm", TENTHS_HOLE, NULL, NULL,
/// &position)`.
///
/// At a material condition `condition` is `MMC` or `LMC`, and `limits` are those of size, such as `12..12.15 mm`; `condition`
/// may be null, and `limits` may be null, both together. `member` is `TENTHS_HOLE` or `TENTHS_SHAFT`.
#[export(position)]
pub(crate) fn make_hole_position(
    units: Units,
    points: &[[f64; 3]],
    primary: u32,
    secondary: u32,
    tertiary: u32,
    nominal_x: Size,
    nominal_y: Size,
    tolerance: Size,
    member: Member,
    condition: Option<&str>,
    limits: Option<Limits>,
) -> Result<HolePosition, Failure> {
    let count = points.len();
    if count > MAX_POINTS {
        return Err(FormError::TooMany { count }.into());
    }
    let given = condition.is_some() || limits.is_some();
    let feature = feature(member, condition, limits, given.then_some(Size::ZERO))?;
    let datums = [primary, secondary, tertiary].map(|points| points as usize);
    let few = FormError::TooFew { what: "the hole with its datums", least: datums.iter().sum(), count };
    let mut rest = points.as_flattened();
    let mut parts = [rest; 3];
    for (part, points) in parts.iter_mut().zip(datums).rev() {
        let at = rest.len().checked_sub(3 * points);
        let Some((before, own)) = at.and_then(|at| rest.split_at_checked(at)) else {
            return Err(few.into());
        };
        (rest, *part) = (before, own);
    }
    let datums = (datums != [0; 3]).then_some(parts);
    let nominal = [nominal_x, nominal_y];
    Ok(hole_position(rest, datums, nominal, tolerance, feature.as_ref(), member, units)?)
}
