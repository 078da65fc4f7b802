//! Form from points: lines, planes, circles, spheres, cylinders and cones through measured points, and how far the points
//! deviate from them.
//!
//! Least squares and minimum zone are the reference features of ISO 12180 (cylindricity), ISO 12181 (roundness), ISO 12780
//! (straightness) and ISO 12781 (flatness); ISO 1101 judges form by the minimum zone. The standards were not seen themselves.
mod datum;
mod least_squares;
mod linear;
mod minimum_zone;
mod shape;

pub use datum::{HolePosition, hole_position};

use crate::error::excerpt;
use crate::math::atan2_degrees;
use crate::quantity::{Angle, Quantity, Units};
use shape::{MOST, Shape, Vector};
use std::fmt;
use tenths_macros::{Choice, Object};

/// A geometrical feature.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FormFeature {
    /// A straight line: of points in a plane between two parallel lines, of points in space within a cylinder.
    Line,
    /// A plane.
    Plane,
    /// A circle, of points in its plane.
    Circle,
    /// A sphere.
    Sphere,
    /// A cylinder.
    Cylinder,
    /// A cone.
    Cone,
}

/// What makes a feature the best one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FormCriterion {
    /// The least sum of squared distances.
    #[name = "least squares"]
    LeastSquares,
    /// The narrowest zone that holds all points. It is the one next to the least-squares feature.
    #[name = "minimum zone"]
    MinimumZone,
}

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

/// Why no feature goes through the points.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FormError {
    /// A text that names no feature.
    #[error("`{text}` is not a feature; expected line, plane, circle, sphere, cylinder or cone")]
    Feature {
        /// The text as given.
        text: String,
    },
    /// A text that names no criterion.
    #[error("`{text}` is not a criterion; expected `least squares` or `minimum zone`")]
    Criterion {
        /// The text as given.
        text: String,
    },
    /// Points of another count of coordinates.
    #[error("a {} needs points of {wanted} coordinates, not {columns}", feature.name())]
    Columns {
        /// The feature.
        feature: FormFeature,
        /// The counts that it takes.
        wanted: &'static str,
        /// The count as given.
        columns: usize,
    },
    /// Too few points.
    #[error("{what} needs at least {least} points, not {count}")]
    TooFew {
        /// The feature or datum.
        what: &'static str,
        /// How many it needs.
        least: usize,
        /// How many there are.
        count: usize,
    },
    /// More points than are fitted.
    #[error("{count} points are more than {MOST_POINTS}, the most that a fit takes")]
    TooMany {
        /// How many there are.
        count: usize,
    },
    /// A coordinate that is no number.
    #[error("coordinate {} of point {point} must be finite, not {value}", ["x", "y", "z"][*coordinate % 3])]
    NotFinite {
        /// The place of the point, from 0.
        point: usize,
        /// The place of the coordinate, from 0.
        coordinate: usize,
        /// The number as given.
        value: f64,
    },
    /// Points that leave the feature open.
    #[error(
        "the points do not fix {what}: {} Fix: measure more of the feature",
        "they are alike, on one line or on too short a piece of it."
    )]
    Open {
        /// The feature or datum.
        what: &'static str,
    },
    /// The position that follows cannot be judged.
    #[error(transparent)]
    Position(#[from] crate::position::check::PositionError),
    /// A size that follows cannot be counted.
    #[error(transparent)]
    Size(#[from] crate::size::SizeError),
}

/// The most points of a fit.
pub const MOST_POINTS: usize = 1_000_000;

impl FormFeature {
    /// Reads a name, as [`FormFeature::name`] gives it.
    ///
    /// # Errors
    /// [`FormError::Feature`].
    pub fn parse(text: &str) -> Result<FormFeature, FormError> {
        let known = FormFeature::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| FormError::Feature { text: excerpt(text) })
    }

    /// With its article, for a message.
    const fn words(self) -> &'static str {
        match self {
            FormFeature::Line => "a line",
            FormFeature::Plane => "a plane",
            FormFeature::Circle => "a circle",
            FormFeature::Sphere => "a sphere",
            FormFeature::Cylinder => "a cylinder",
            FormFeature::Cone => "a cone",
        }
    }
}

impl FormCriterion {
    /// Reads a name, as [`FormCriterion::name`] gives it.
    ///
    /// # Errors
    /// [`FormError::Criterion`].
    pub fn parse(text: &str) -> Result<FormCriterion, FormError> {
        let known = FormCriterion::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| FormError::Criterion { text: excerpt(text) })
    }
}

/// Points about their middle, none farther from it than 1.
struct Cloud {
    points: Vec<Vector>,
    middle: Vector,
    scale: f64,
}

impl Cloud {
    /// From rows of coordinates, of which a missing third one is zero.
    fn new(points: &[f64], columns: usize) -> Result<Cloud, FormError> {
        let count = points.len() / columns.max(1);
        if count > MOST_POINTS {
            return Err(FormError::TooMany { count });
        }
        let mut own: Vec<Vector> = Vec::with_capacity(count);
        for (place, row) in points.chunks_exact(columns.max(1)).enumerate() {
            if let Some(coordinate) = row.iter().position(|one| !one.is_finite()) {
                return Err(FormError::NotFinite { point: place, coordinate, value: row[coordinate] });
            }
            own.push(std::array::from_fn(|k| row.get(k).copied().unwrap_or(0.0)));
        }
        let middle: Vector = std::array::from_fn(|k| {
            let first = own.first().map_or(0.0, |point| point[k]);
            first + own.iter().map(|point| (point[k] - first) / count as f64).sum::<f64>()
        });
        let mut scale = 0.0_f64;
        for point in &mut own {
            *point = std::array::from_fn(|k| point[k] - middle[k]);
            scale = point.iter().fold(scale, |most, one| most.max(one.abs()));
        }
        if !(scale > 0.0 && scale.is_finite()) {
            return Err(FormError::Open { what: "the feature" });
        }
        own.iter_mut().for_each(|point| *point = point.map(|one| one / scale));
        Ok(Cloud { points: own, middle, scale })
    }
}

/// Standard uncertainties in the scale of the cloud: of a point, the centre, the radius and the direction in radians.
#[derive(Default)]
struct Uncertainty {
    point: Option<f64>,
    centre: Option<f64>,
    radius: Option<f64>,
    direction: Option<f64>,
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
        if !wanted.split(" or ").any(|count| count == columns.to_string()) {
            return Err(FormError::Columns { feature, wanted, columns });
        }
        let flat = columns == 2;
        let (least, count) =
            (Shape::new(feature, flat).unknowns().min(if flat { 3 } else { 6 }), points.len() / columns);
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
        let (frame, mut slopes) = (shape.frame(), [0.0; MOST]);
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
            let off = shape.offset + shape::dot(&shape.centre, &shape.axis);
            (shape.centre, shape.offset) = (shape.axis.map(|one| one * off), 0.0);
        }
        FormFeature::Line if shape.flat => {
            let off = shape.offset + shape::dot(&shape.centre, &shape.axis);
            (shape.centre, shape.offset) = (shape.axis.map(|one| one * off), 0.0);
        }
        FormFeature::Line | FormFeature::Cylinder => {
            let by = -shape::dot(&shape.centre, &shape.axis);
            shape.centre = shape::along(&shape.centre, &shape.axis, by);
        }
        FormFeature::Cone => {
            if shape.angle[1] < 0.0 {
                (shape.axis, shape.angle[1]) = (shape.axis.map(|one| -one), -shape.angle[1]);
            }
            let by = -shape::dot(&shape.centre, &shape.axis);
            shape.centre = shape::along(&shape.centre, &shape.axis, by);
            shape.offset += by * shape.angle[1];
        }
        FormFeature::Circle | FormFeature::Sphere => {}
    }
    shape
}

/// The uncertainties of a least-squares feature, from the inverse of its normal matrix; nothing where the points leave it open.
fn uncertainty(shape: &Shape, points: &[Vector]) -> Option<Uncertainty> {
    let (size, moves) = (shape.unknowns(), shape.moves());
    let (frame, mut slopes) = (shape.frame(), [0.0; MOST]);
    let squares: f64 =
        points.iter().map(|p| shape.distance(p, &frame, &mut slopes) - shape.offset).map(|d| d * d).sum();
    if !shape.has_offset() {
        return line_in_space(shape, points, squares);
    }
    let matrix = least_squares::normal(shape, points).matrix;
    let mut variance = [0.0; MOST + 1];
    for k in 0..size {
        let mut one = [0.0; MOST + 1];
        one[k] = 1.0;
        variance[k] = linear::solve(&matrix, &one, size, 1e-11)?[k];
    }
    if points.len() <= size {
        return Some(Uncertainty::default());
    }
    let point = (squares / (points.len() - size) as f64).sqrt();
    let worst = |from: usize, to: usize| {
        Some(point * variance[from..to].iter().fold(0.0_f64, |most, one| most.max(*one)).max(0.0).sqrt())
    };
    let mut told = Uncertainty { point: Some(point), ..Uncertainty::default() };
    match shape.feature {
        FormFeature::Line | FormFeature::Plane => {
            (told.centre, told.direction) = (worst(moves, moves + 1), worst(0, moves));
        }
        FormFeature::Circle | FormFeature::Sphere => {
            (told.centre, told.radius) = (worst(0, moves), worst(moves, moves + 1));
        }
        FormFeature::Cylinder | FormFeature::Cone => {
            (told.centre, told.direction) = (worst(0, 2), worst(2, 4));
            told.radius = worst(moves, moves + 1).map(|radius| radius / shape.angle[0]);
        }
    }
    Some(told)
}

/// A line in space has two distances of each point, in x and y of its frame, and passes through the middle.
fn line_in_space(shape: &Shape, points: &[Vector], squares: f64) -> Option<Uncertainty> {
    let spread: f64 = points.iter().map(|point| shape::dot(point, &shape.axis)).map(|z| z * z).sum();
    if spread <= 1e-11 * points.len() as f64 || squares > 0.999 * spread {
        return None;
    }
    let freedom = 2 * points.len() - 4;
    if freedom == 0 {
        return Some(Uncertainty::default());
    }
    let point = (squares / freedom as f64).sqrt();
    Some(Uncertainty {
        point: Some(point),
        centre: Some(point / (points.len() as f64).sqrt()),
        radius: None,
        direction: Some(point / spread.sqrt()),
    })
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

#[cfg(test)]
mod tests;
