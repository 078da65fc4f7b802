//! The position of a hole from measured points, in a frame of three datum planes.
use super::cloud::Cloud;
use super::fit::FormFit;
use super::kinds::{FormCriterion, FormError, FormFeature};
use super::shape::{Vector, along, cross, dot, unit};
use crate::fit::Member;
use crate::position::check::{MeasuredFeature, PositionCheck};
use crate::quantity::Units;
use crate::size::Size;
use std::fmt;
use tenths_macros::Object;

/// Where a measured hole or pin lies in its datum frame, and the check of its position.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct HolePosition {
    /// The units of the points.
    pub units: Units,
    /// Distance of the axis from the secondary datum plane, as measured.
    pub x: f64,
    /// Distance of the axis from the tertiary datum plane, as measured.
    pub y: f64,
    /// Diameter of the least-squares circle.
    pub diameter: f64,
    /// Diameter of the circle about the same centre that the points leave free: inside of a hole, outside of a pin. It is never
    /// more favourable than the mating envelope, and stands for it where the position has a bonus at MMC.
    pub mating_diameter: f64,
    /// The check of the position.
    pub check: PositionCheck,
    /// The circle through the points, in the datum frame.
    pub circle: FormFit,
}

/// A datum frame of three planes, square to each other.
struct Frame {
    axes: [Vector; 3],
    /// The distances of the secondary and the tertiary plane from the origin, along their axes.
    offsets: [f64; 2],
}

impl Frame {
    /// That of the coordinates.
    const COORDINATES: Frame =
        Frame { axes: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]], offsets: [0.0, 0.0] };

    /// The primary plane is the least-squares plane through its points; the secondary one is square to it, and the tertiary
    /// one to both. All are least-squares planes.
    fn new(datums: [&[f64]; 3]) -> Result<Frame, FormError> {
        const NAMES: [&str; 3] =
            ["the primary datum plane", "the secondary datum plane", "the tertiary datum plane"];
        for ((points, what), least) in datums.iter().zip(NAMES).zip([3, 2, 1]) {
            let count = points.len() / 3;
            if count < least {
                return Err(FormError::TooFew { what, least, count });
            }
        }
        let open = |what| {
            move |error| if let FormError::Open { .. } = error { FormError::Open { what } } else { error }
        };
        let plane =
            FormFit::new(FormFeature::Plane, FormCriterion::LeastSquares, datums[0], 3, Units::Metric);
        let direction = plane.map_err(open(NAMES[0]))?.direction;
        let z: Vector = std::array::from_fn(|k| direction.get(k).copied().unwrap_or_default());
        let [u, v] = super::shape::square_to(&z);
        let line = FormFit::new(
            FormFeature::Line,
            FormCriterion::LeastSquares,
            &seen(datums[1], &u, &v),
            2,
            Units::Metric,
        );
        let line = line.map_err(open(NAMES[1]))?;
        let (along_u, along_v) = (line.direction[0], line.direction[1]);
        let y = unit(&along(&u.map(|one| one * along_u), &v, along_v));
        let x = cross(&y, &z);
        let offset = |points: &[f64], axis: &Vector| {
            let rows = points.chunks_exact(3);
            let count = rows.len() as f64;
            rows.map(|row| dot(&[row[0], row[1], row[2]], axis) / count).sum()
        };
        let offsets = [offset(datums[1], &x), offset(datums[2], &y)];
        if let Some(place) = datums[2].iter().position(|one| !one.is_finite()) {
            return Err(FormError::NotFinite {
                point: place / 3,
                coordinate: place % 3,
                value: datums[2][place],
            });
        }
        Ok(Frame { axes: [x, y, z], offsets })
    }

    /// Turned so that the points lie on the positive side of each plane where the nominal distance is positive.
    fn facing(mut self, points: &[f64], nominal: [Size; 2]) -> Frame {
        for (k, nominal) in nominal.iter().enumerate() {
            let rows = points.chunks_exact(3);
            let side: f64 =
                rows.map(|row| dot(&[row[0], row[1], row[2]], &self.axes[k]) - self.offsets[k]).sum();
            if (side < 0.0) != nominal.is_negative() {
                self.axes[k] = self.axes[k].map(|one| -one);
                self.offsets[k] = -self.offsets[k];
            }
        }
        self
    }
}

/// Points as two directions see them.
fn seen(points: &[f64], u: &Vector, v: &Vector) -> Vec<f64> {
    let rows = points.chunks_exact(3).map(|row| [row[0], row[1], row[2]]);
    rows.flat_map(|row| [dot(&row, u), dot(&row, v)]).collect()
}

/// The position of a hole or pin whose axis is square to the primary datum, from points in rows of x, y and z.
///
/// `datums` are the points of the primary, secondary and tertiary plane: at least three, two and one; without them the points
/// are measured in the datum frame. `nominal` are the true
/// distances of the axis from the secondary and the tertiary plane, `tolerance` is a diameter. At a material condition the
/// `feature` gives the bonus, and its actual size is taken from the points.
///
/// # Errors
/// [`FormError`]; [`FormError::Position`] where the size is outside its limits.
pub fn hole_position(
    points: &[f64],
    datums: Option<[&[f64]; 3]>,
    nominal: [Size; 2],
    tolerance: Size,
    feature: Option<&MeasuredFeature>,
    member: Member,
    units: Units,
) -> Result<HolePosition, FormError> {
    // Faults of the points are reported in their own coordinates.
    Cloud::new(points, 3)?;
    let frame = match datums {
        Some(datums) => Frame::new(datums)?.facing(points, nominal),
        None => Frame::COORDINATES,
    };
    let flat: Vec<f64> = seen(points, &frame.axes[0], &frame.axes[1])
        .chunks_exact(2)
        .flat_map(|row| [row[0] - frame.offsets[0], row[1] - frame.offsets[1]])
        .collect();
    let circle = FormFit::new(FormFeature::Circle, FormCriterion::LeastSquares, &flat, 2, units)?;
    let (x, y, radius) = (circle.centre[0], circle.centre[1], circle.radius.unwrap_or_default());
    let [inner, outer] =
        [circle.lowest, circle.highest].map(|place| 2.0 * (radius + circle.deviations[place]));
    let [mating, opposite] = if member == Member::Hole { [inner, outer] } else { [outer, inner] };
    let measured = feature.map(|feature| {
        let actual = match feature.condition {
            crate::MaterialCondition::Maximum => mating,
            crate::MaterialCondition::Least => opposite,
        };
        Ok::<_, FormError>(MeasuredFeature { member, actual: Size::from_float(actual, units)?, ..*feature })
    });
    let measured = measured.transpose()?;
    let off = |measured: f64, nominal: Size| -> Result<Size, FormError> {
        let away = Size::from_float(measured, units)?.checked_sub(nominal);
        away.ok_or(FormError::Position(crate::PositionError::OutOfRange))
    };
    let offsets = [off(x, nominal[0])?, off(y, nominal[1])?, Size::ZERO];
    let check = PositionCheck::new(offsets, tolerance, measured.as_ref())?;
    Ok(HolePosition { units, x, y, diameter: 2.0 * radius, mating_diameter: mating, check, circle })
}

impl fmt::Display for HolePosition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let short = |value: f64| crate::error::to_digits(value, 6);
        let (x, y, unit) = (short(self.x), short(self.y), self.units.length_label());
        write!(f, "axis at {x}, {y} {unit}, diameter {} {unit}: {}", short(self.diameter), self.check)
    }
}
