//! Form from points, and positions of holes in a datum frame. Coordinates are in the units of the call.
use crate::fit::{TENTHS_HOLE, TENTHS_SHAFT};
use crate::guard::{guard, optional_text, side, tenths_units, text};
use crate::object::write;
use crate::objects::{tenths_form_fit, tenths_hole_position};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::inspect::form::MAX_POINTS;
use tenths::{
    FormCriterion, FormError, FormFeature, FormFit, Limits, MaterialCondition, MeasuredFeature, Member,
    PositionError, Size, Units, hole_position,
};

/// The feature through `count` measured points, and how far they deviate from it: roundness, straightness, flatness,
/// cylindricity.
///
/// Features: `line`, `plane`, `circle`, `sphere`, `cylinder`, `cone`. Criteria: `least squares` and `minimum zone`. `z` may be
/// null for points in a plane, of which there are circles and lines.
///
/// # Safety
/// The texts end with a NUL; `x`, `y` and `z` are null or valid for `count` numbers; `fit->struct_size` is set to the size of
/// the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_form_fit(
    units: tenths_units,
    feature: *const c_char,
    criterion: *const c_char,
    x: *const f64,
    y: *const f64,
    z: *const f64,
    count: usize,
    fit: *mut tenths_form_fit,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            // SAFETY: the caller's promises.
            let (feature, criterion) = unsafe { (text(feature, "feature")?, text(criterion, "criterion")?) };
            let (feature, criterion) = (FormFeature::parse(feature)?, FormCriterion::parse(criterion)?);
            let named = [(x, "x"), (y, "y"), (z, "z")];
            let columns = if z.is_null() { &named[..2] } else { &named[..] };
            if count > MAX_POINTS {
                return Err(FormError::TooMany { count }.into());
            }
            if let Some((_, name)) = columns.iter().find(|(column, _)| column.is_null()) {
                return Err(Failure::Null(name));
            }
            // SAFETY: the caller's promises.
            let rows = (0..count)
                .flat_map(|row| columns.iter().map(move |(column, _)| unsafe { column.add(row).read() }));
            let points: Vec<f64> = rows.collect();
            Ok(FormFit::new(feature, criterion, &points, columns.len(), units)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(fit, "fit", shown, made) }
    })
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
///
/// # Safety
/// `points` is null or valid for 3 · `count` numbers; the texts end with a NUL; `position->struct_size` is set to the size of
/// the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_hole_position(
    units: tenths_units,
    points: *const f64,
    count: usize,
    primary: u32,
    secondary: u32,
    tertiary: u32,
    nominal_x: *const c_char,
    nominal_y: *const c_char,
    tolerance: *const c_char,
    member: i32,
    condition: *const c_char,
    limits: *const c_char,
    position: *mut tenths_hole_position,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            if points.is_null() {
                return Err(Failure::Null("points"));
            }
            if count > MAX_POINTS {
                return Err(FormError::TooMany { count }.into());
            }
            let size = |pointer, name| -> Result<Size, Failure> {
                // SAFETY: the caller's promise.
                Ok(Size::parse(unsafe { text(pointer, name) }?)?)
            };
            let nominal = [size(nominal_x, "nominal_x")?, size(nominal_y, "nominal_y")?];
            let tolerance = size(tolerance, "tolerance")?;
            let member = match member {
                TENTHS_HOLE => Member::Hole,
                TENTHS_SHAFT => Member::Shaft,
                other => return Err(Failure::Member(other)),
            };
            // SAFETY: the caller's promises.
            let given = unsafe { (optional_text(condition, "condition")?, optional_text(limits, "limits")?) };
            let feature = match given {
                (None, None) => None,
                (Some(condition), Some(limits)) => Some(MeasuredFeature {
                    member,
                    condition: MaterialCondition::parse(condition)?,
                    limits: Limits::parse(limits)?,
                    actual: Size::ZERO,
                }),
                _ => return Err(PositionError::Incomplete.into()),
            };
            // SAFETY: the caller's promise, and `count` is bounded.
            let all = unsafe { std::slice::from_raw_parts(points, 3 * count) };
            let datums = [primary, secondary, tertiary].map(|points| points as usize);
            let few =
                FormError::TooFew { what: "the hole with its datums", least: datums.iter().sum(), count };
            let mut rest = all;
            let mut parts = [all; 3];
            for (part, points) in parts.iter_mut().zip(datums).rev() {
                let at = rest.len().checked_sub(3 * points);
                let Some((before, own)) = at.and_then(|at| rest.split_at_checked(at)) else {
                    return Err(few.into());
                };
                (rest, *part) = (before, own);
            }
            let datums = (datums != [0; 3]).then_some(parts);
            Ok(hole_position(rest, datums, nominal, tolerance, feature.as_ref(), member, units)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(position, "position", shown, made) }
    })
}
