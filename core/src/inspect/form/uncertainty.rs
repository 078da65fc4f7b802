//! How well points fix a least-squares feature.
use super::kinds::FormFeature;
use super::least_squares::UNKNOWNS;
use super::shape::{MAX_MOTIONS, Shape, Vector, dot};
use super::{least_squares, linear};

/// Standard uncertainties in the scale of the cloud: of a point, the centre, the radius and the direction in radians.
#[derive(Default)]
pub(super) struct Uncertainty {
    pub(super) point: Option<f64>,
    pub(super) centre: Option<f64>,
    pub(super) radius: Option<f64>,
    pub(super) direction: Option<f64>,
}

/// The uncertainties of a least-squares feature, from the inverse of its normal matrix; nothing where the points leave it open.
pub(super) fn uncertainty(shape: &Shape, points: &[Vector]) -> Option<Uncertainty> {
    let (size, moves) = (shape.unknowns(), shape.moves());
    let (frame, mut slopes) = (shape.frame(), [0.0; MAX_MOTIONS]);
    let squares: f64 =
        points.iter().map(|p| shape.distance(p, &frame, &mut slopes) - shape.offset).map(|d| d * d).sum();
    if !shape.has_offset() {
        return line_in_space(shape, points, squares);
    }
    let matrix = least_squares::normal(shape, points).matrix;
    let mut inverse = [[0.0; UNKNOWNS]; UNKNOWNS];
    for k in 0..size {
        let mut one = [0.0; UNKNOWNS];
        one[k] = 1.0;
        inverse[k] = linear::solve(&matrix, &one, size, 1e-11)?;
    }
    if points.len() <= size {
        return Some(Uncertainty::default());
    }
    let point = (squares / (points.len() - size) as f64).sqrt();
    // The largest variance in any direction, which need not be that of a coordinate.
    let worst = |from: usize, to: usize| {
        let mut block = [[0.0; 3]; 3];
        for (row, own) in block.iter_mut().zip(&inverse[from..to]) {
            row[..to - from].copy_from_slice(&own[from..to]);
        }
        let [largest, ..] = linear::eigen(block).1;
        Some(point * largest.max(0.0).sqrt())
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
    let spread: f64 = points.iter().map(|point| dot(point, &shape.axis)).map(|z| z * z).sum();
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
