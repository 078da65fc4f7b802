//! A feature through measured points.
use super::cloud::Cloud;
use super::kinds::{FormCriterion, FormError, FormFeature};
use super::shape::{MAX_MOTIONS, Shape, Vector, along, dot};
use super::uncertainty::{Uncertainty, uncertainty};
use super::{least_squares, minimum_zone};
use crate::math::atan2_degrees;
use crate::quantity::{Angle, Quantity, Units};
use std::fmt;
use tenths_macros::Object;

/// A feature through measured points, and how far they deviate from it.
///
/// ```
/// use tenths::inspect::form::{FormCriterion, FormFeature, FormFit};
/// use tenths::Units;
/// let points = [10.01, 0.0, 0.0, 10.0, -10.01, 0.0, 0.0, -10.0];
/// let circle = FormFit::new(FormFeature::Circle, FormCriterion::MinimumZone, &points, 2, Units::Metric)?;
/// assert!((circle.deviation - 0.01).abs() < 1e-12);
/// # Ok::<(), tenths::inspect::form::FormError>(())
/// ```
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct FormFit {
    /// The feature.
    pub feature: FormFeature,
    /// What makes it the best one.
    pub criterion: FormCriterion,
    /// The units of the points.
    pub units: Units,
    /// How many points there are.
    pub count: usize,
    /// A point of the feature: the centre of a circle or sphere, and otherwise the point of the line, plane or axis that is
    /// nearest to the middle of the points. Two numbers for points in a plane, three for points in space.
    pub centre: Vec<f64>,
    /// The direction of a line or axis, the normal of a plane, of length 1; of a cone toward its wide end. Absent of a circle
    /// and a sphere, as an empty list.
    pub direction: Vec<f64>,
    /// The radius of a circle, sphere or cylinder; of a cone that of its section through the centre.
    pub radius: Option<f64>,
    /// Half of the included angle of a cone.
    pub half_angle: Option<Angle>,
    /// The deviation of form: the width of the zone from the innermost to the outermost point about this feature; of a line
    /// in space the diameter of the cylinder that holds all points.
    pub deviation: f64,
    /// The place of the outermost point among the points, from 0; of a plane or a line in a plane the one farthest along its
    /// normal.
    pub highest: usize,
    /// The place of the innermost point, from 0.
    pub lowest: usize,
    /// The distance of each point from the feature, positive outward; of a line in space never negative.
    pub deviations: Vec<f64>,
    /// The root mean square of the distances.
    pub root_mean_square: f64,
    /// The standard deviation of a point, from the distances of a least-squares fit and their degrees of freedom; absent where
    /// there are none to spare, and of a minimum zone.
    pub point_uncertainty: Option<f64>,
    /// The standard uncertainty of the centre in its worst direction. It takes the distances of points as independent of each
    /// other, which deviations of form seldom are.
    pub centre_uncertainty: Option<f64>,
    /// The standard uncertainty of the radius.
    pub radius_uncertainty: Option<f64>,
    /// The standard uncertainty of the direction in its worst turn.
    pub direction_uncertainty: Option<Angle>,
}

impl FormFit {
    /// The feature through points in rows of `columns` coordinates: two for a circle or a line in a plane, three for the
    /// others. With [`FormCriterion::MinimumZone`] the zone is the narrowest one next to the least-squares feature.
    ///
    /// # Errors
    /// [`FormError`], in particular [`FormError::Open`] where the points do not fix the feature.
    pub fn new(
        feature: FormFeature,
        criterion: FormCriterion,
        points: &[f64],
        columns: usize,
        units: Units,
    ) -> Result<FormFit, FormError> {
        let wanted = match feature {
            FormFeature::Line => "2 or 3",
            FormFeature::Circle => "2",
            _ => "3",
        };
        let flat = columns == 2 || feature == FormFeature::Circle;
        if !points.is_empty() && !wanted.split(" or ").any(|count| count == columns.to_string()) {
            return Err(FormError::Columns { feature, wanted, columns });
        }
        let (least, count) = (
            Shape::new(feature, flat).unknowns().min(if flat { 3 } else { 6 }),
            points.len() / columns.max(1),
        );
        let least = if feature == FormFeature::Line { 2 } else { least };
        if count < least {
            return Err(FormError::TooFew { what: feature.words(), least, count });
        }
        let cloud = Cloud::new(points, columns)?;
        let open = || FormError::Open { what: feature.words() };
        let fitted = least_squares::fit(feature, flat, &cloud.points).ok_or_else(open)?;
        let uncertainty = uncertainty(&fitted, &cloud.points).ok_or_else(open)?;
        let (shape, uncertainty) = match criterion {
            FormCriterion::LeastSquares => (fitted, uncertainty),
            FormCriterion::MinimumZone => (minimum_zone::fit(fitted, &cloud.points), Uncertainty::default()),
        };
        Ok(FormFit::told(centred(shape), criterion, units, &cloud, &uncertainty))
    }

    /// The fit in the coordinates of the points.
    fn told(
        shape: Shape,
        criterion: FormCriterion,
        units: Units,
        cloud: &Cloud,
        uncertainty: &Uncertainty,
    ) -> FormFit {
        use FormFeature::*;
        let Shape { feature, flat, .. } = shape;
        let (frame, mut slopes) = (shape.frame(), [0.0; MAX_MOTIONS]);
        let distances =
            cloud.points.iter().map(|point| shape.distance(point, &frame, &mut slopes) - shape.offset);
        let deviations: Vec<f64> = distances.map(|distance| distance * cloud.scale).collect();
        let place = |better: fn(f64, f64) -> bool| {
            (0..deviations.len())
                .fold(0, |best, k| if better(deviations[k], deviations[best]) { k } else { best })
        };
        let (highest, lowest) = (place(|one, best| one > best), place(|one, best| one < best));
        let deviation = match shape.has_offset() {
            true => deviations[highest] - deviations[lowest],
            false => 2.0 * deviations[highest],
        };
        let squares: f64 = deviations.iter().map(|one| one * one).sum();
        let columns = if flat { 2 } else { 3 };
        let shown = |v: Vector| v[..columns].to_vec();
        let centre: Vector = std::array::from_fn(|k| cloud.middle[k] + cloud.scale * shape.centre[k]);
        let direction = match feature {
            Line if flat => shown([shape.axis[1], -shape.axis[0], 0.0]),
            Circle | Sphere => vec![],
            _ => shown(shape.axis),
        };
        let length = |value: Option<f64>| value.map(|value| value * cloud.scale);
        FormFit {
            feature,
            criterion,
            units,
            count: deviations.len(),
            centre: shown(centre),
            direction,
            radius: match feature {
                Line | Plane => None,
                Cone => Some(shape.offset / shape.angle[0] * cloud.scale),
                _ => Some(shape.offset * cloud.scale),
            },
            half_angle: (feature == Cone)
                .then(|| Angle::degrees(atan2_degrees(shape.angle[1], shape.angle[0]))),
            deviation,
            highest,
            lowest,
            root_mean_square: (squares / deviations.len() as f64).sqrt(),
            deviations,
            point_uncertainty: length(uncertainty.point),
            centre_uncertainty: length(uncertainty.centre),
            radius_uncertainty: length(uncertainty.radius),
            direction_uncertainty: uncertainty
                .direction
                .map(|turn| Angle::degrees(turn * 180.0 / std::f64::consts::PI)),
        }
    }
}

/// The same feature told by the point nearest to the middle of the points, and a cone by the axis toward its wide end.
fn centred(mut shape: Shape) -> Shape {
    match shape.feature {
        FormFeature::Plane => {
            let off = shape.offset + dot(&shape.centre, &shape.axis);
            (shape.centre, shape.offset) = (shape.axis.map(|one| one * off), 0.0);
        }
        FormFeature::Line if shape.flat => {
            let off = shape.offset + dot(&shape.centre, &shape.axis);
            (shape.centre, shape.offset) = (shape.axis.map(|one| one * off), 0.0);
        }
        FormFeature::Line | FormFeature::Cylinder => {
            let by = -dot(&shape.centre, &shape.axis);
            shape.centre = along(&shape.centre, &shape.axis, by);
        }
        FormFeature::Cone => {
            if shape.angle[1] < 0.0 {
                (shape.axis, shape.angle[1]) = (shape.axis.map(|one| -one), -shape.angle[1]);
            }
            let by = -dot(&shape.centre, &shape.axis);
            shape.centre = along(&shape.centre, &shape.axis, by);
            shape.offset += by * shape.angle[1];
        }
        FormFeature::Circle | FormFeature::Sphere => {}
    }
    shape
}

impl fmt::Display for FormFit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.units.length_label();
        let (feature, criterion) = (self.feature.name(), self.criterion.name());
        write!(f, "{feature} through {} points by {criterion}: ", self.count)?;
        let short = |value: f64| crate::error::to_digits(value, 6);
        if let Some(radius) = self.radius {
            write!(f, "radius {} {unit}, ", short(radius))?;
        }
        if let Some(angle) = self.half_angle {
            write!(f, "half angle {}°, ", short(angle.metric()))?;
        }
        write!(f, "deviation {} {unit}", short(self.deviation))
    }
}
