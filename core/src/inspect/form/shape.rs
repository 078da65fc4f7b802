//! Features through points, and the distance of a point from each, with how it changes as the feature moves.
use super::kinds::FormFeature;

pub(super) type Vector = [f64; 3];

pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: &Vector, b: &Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(super) fn along(from: &Vector, direction: &Vector, by: f64) -> Vector {
    std::array::from_fn(|k| from[k] + by * direction[k])
}

pub(super) fn unit(v: &Vector) -> Vector {
    let length = dot(v, v).sqrt();
    v.map(|one| one / length)
}

/// Two directions that are square to a unit vector and to each other.
pub(super) fn square_to(axis: &Vector) -> [Vector; 2] {
    // Beginning with the coordinate axis that is farthest from it.
    let least = (0..3).fold(0, |least, k| if axis[k].abs() < axis[least].abs() { k } else { least });
    let mut other = [0.0; 3];
    other[least] = 1.0;
    let first = unit(&cross(&other, axis));
    [first, cross(axis, &first)]
}

/// The most numbers by which a feature moves, besides its offset.
pub(super) const MAX_MOTIONS: usize = 5;

/// A feature: a point of it, its axis or normal, and the offset of its surface: a radius, or for a cone the distance of the
/// surface from the point.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shape {
    pub(super) feature: FormFeature,
    /// Whether it lies in the plane of x and y.
    pub(super) flat: bool,
    pub(super) centre: Vector,
    /// The axis of a line in space, a cylinder or a cone; the normal of a plane or of a line in a plane.
    pub(super) axis: Vector,
    pub(super) offset: f64,
    /// Cosine and sine of the half angle of a cone.
    pub(super) angle: [f64; 2],
}

impl Shape {
    pub(super) fn new(feature: FormFeature, flat: bool) -> Shape {
        Shape { feature, flat, centre: [0.0; 3], axis: [0.0, 0.0, 1.0], offset: 0.0, angle: [1.0, 0.0] }
    }

    /// The numbers by which it moves, besides the offset.
    pub(super) fn moves(&self) -> usize {
        match self.feature {
            FormFeature::Line if self.flat => 1,
            FormFeature::Plane | FormFeature::Circle => 2,
            FormFeature::Sphere => 3,
            FormFeature::Line | FormFeature::Cylinder => 4,
            FormFeature::Cone => 5,
        }
    }

    /// Whether the zone is on both sides of a surface with an offset; that of a line in space is a cylinder about it.
    pub(super) fn has_offset(&self) -> bool {
        self.flat || self.feature != FormFeature::Line
    }

    /// The numbers that points have to fix.
    pub(super) fn unknowns(&self) -> usize {
        self.moves() + usize::from(self.has_offset())
    }

    /// The directions that moves are counted in.
    pub(super) fn frame(&self) -> [Vector; 2] {
        match self.flat {
            // In the plane: along the line, or the coordinate axes.
            true if self.feature == FormFeature::Line => [[self.axis[1], -self.axis[0], 0.0], [0.0; 3]],
            true => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]],
            false => square_to(&self.axis),
        }
    }

    /// The distance of a point, before the offset is taken off, and what each move adds to it.
    pub(super) fn distance(
        &self,
        point: &Vector,
        frame: &[Vector; 2],
        slopes: &mut [f64; MAX_MOTIONS],
    ) -> f64 {
        let from: Vector = std::array::from_fn(|k| point[k] - self.centre[k]);
        *slopes = [0.0; MAX_MOTIONS];
        let [x, y] = [dot(&from, &frame[0]), dot(&from, &frame[1])];
        match self.feature {
            FormFeature::Line if self.flat => {
                slopes[0] = x;
                dot(&from, &self.axis)
            }
            FormFeature::Plane => {
                (slopes[0], slopes[1]) = (x, y);
                dot(&from, &self.axis)
            }
            FormFeature::Circle | FormFeature::Sphere => {
                let length = dot(&from, &from).sqrt();
                if length > 0.0 {
                    for k in 0..3 {
                        slopes[k] = -from[k] / length;
                    }
                }
                length
            }
            FormFeature::Line | FormFeature::Cylinder | FormFeature::Cone => {
                let (z, radius) = (dot(&from, &self.axis), (x * x + y * y).sqrt());
                let [cos, sin] = self.angle;
                if radius > 0.0 {
                    let [u, v] = [x / radius, y / radius];
                    *slopes = [-u * cos, -v * cos, -z * u * cos - x * sin, -z * v * cos - y * sin, 0.0];
                }
                slopes[4] = -radius * sin - z * cos;
                radius * cos - z * sin
            }
        }
    }

    /// The feature after moves, of which turns are only made to the first order.
    pub(super) fn moved(&self, by: &[f64; MAX_MOTIONS], frame: &[Vector; 2]) -> Shape {
        let mut moved = *self;
        let turned =
            |first: f64, second: f64| unit(&along(&along(&self.axis, &frame[0], first), &frame[1], second));
        match self.feature {
            FormFeature::Line if self.flat => moved.axis = turned(by[0], 0.0),
            FormFeature::Plane => moved.axis = turned(by[0], by[1]),
            FormFeature::Circle | FormFeature::Sphere => {
                moved.centre = std::array::from_fn(|k| self.centre[k] + by[k]);
            }
            FormFeature::Line | FormFeature::Cylinder | FormFeature::Cone => {
                moved.centre = along(&along(&self.centre, &frame[0], by[0]), &frame[1], by[1]);
                moved.axis = turned(by[2], by[3]);
                if self.feature == FormFeature::Cone {
                    let [cos, sin] = self.angle;
                    let (c, s) = (cos - sin * by[4], sin + cos * by[4]);
                    let length = (c * c + s * s).sqrt();
                    moved.angle = [c / length, s / length];
                }
            }
        }
        moved
    }
}
