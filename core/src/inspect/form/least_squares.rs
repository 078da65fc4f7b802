//! Least squares: the feature with the least sum of squared distances, by damped Gauss-Newton steps.
use super::kinds::FormFeature;
use super::linear::{axes, eliminate, solve};
use super::shape::{MAX_MOTIONS, Shape, Vector, dot, square_to};

/// The unknowns, the offset last.
pub(super) const UNKNOWNS: usize = MAX_MOTIONS + 1;

/// Normal equations at a shape: matrix, right side, sum of squares.
pub(super) struct Normal {
    pub(super) matrix: [[f64; UNKNOWNS]; UNKNOWNS],
    right: [f64; UNKNOWNS],
    sum: f64,
}

pub(super) fn normal(shape: &Shape, points: &[Vector]) -> Normal {
    let (frame, moves, size) = (shape.frame(), shape.moves(), shape.unknowns());
    let mut normal = Normal { matrix: [[0.0; UNKNOWNS]; UNKNOWNS], right: [0.0; UNKNOWNS], sum: 0.0 };
    let mut slopes = [0.0; MAX_MOTIONS];
    for point in points {
        let distance = shape.distance(point, &frame, &mut slopes) - shape.offset;
        let mut row = [0.0; UNKNOWNS];
        row[..moves].copy_from_slice(&slopes[..moves]);
        if size > moves {
            row[moves] = -1.0;
        }
        for k in 0..size {
            for j in 0..=k {
                normal.matrix[k][j] += row[k] * row[j];
            }
            normal.right[k] -= row[k] * distance;
        }
        normal.sum += distance * distance;
    }
    for k in 0..size {
        for j in k + 1..size {
            normal.matrix[k][j] = normal.matrix[j][k];
        }
    }
    normal
}

fn sum_of_squares(shape: &Shape, points: &[Vector]) -> f64 {
    let (frame, mut slopes) = (shape.frame(), [0.0; MAX_MOTIONS]);
    let distances = points.iter().map(|point| shape.distance(point, &frame, &mut slopes) - shape.offset);
    distances.map(|distance| distance * distance).sum()
}

/// Improves a shape until nothing is gained.
fn improved(mut shape: Shape, points: &[Vector]) -> (Shape, f64) {
    let (mut damping, size, moves) = (1e-3, shape.unknowns(), shape.moves());
    let mut sum = sum_of_squares(&shape, points);
    for _ in 0..300 {
        let Normal { mut matrix, right, .. } = normal(&shape, points);
        for (k, row) in matrix.iter_mut().enumerate() {
            row[k] *= 1.0 + damping;
        }
        let Some(step) = solve(&matrix, &right, size, 0.0) else { break };
        let mut by = [0.0; MAX_MOTIONS];
        by[..moves].copy_from_slice(&step[..moves]);
        let mut next = shape.moved(&by, &shape.frame());
        next.offset += if size > moves { step[moves] } else { 0.0 };
        let next_sum = sum_of_squares(&next, points);
        if next_sum.is_nan() || next_sum > sum {
            damping *= 10.0;
            if damping > 1e12 {
                break;
            }
            continue;
        }
        let length = step[..size].iter().fold(0.0_f64, |most, one| most.max(one.abs()));
        (shape, sum, damping) = (next, next_sum, (damping * 0.1).max(1e-15));
        if length < 1e-15 {
            break;
        }
    }
    (shape, sum)
}

/// The least-squares feature through points about the origin, none farther from it than 1.
pub(super) fn fit(feature: FormFeature, flat: bool, points: &[Vector]) -> Option<Shape> {
    let shape = Shape::new(feature, flat);
    let (cloud, _) = axes(points);
    match feature {
        FormFeature::Line if flat => {
            let along = cloud[0];
            let axis = [-along[1], along[0], 0.0];
            Some(improved(Shape { axis, ..shape }, points).0)
        }
        FormFeature::Line => Some(Shape { axis: cloud[0], ..shape }),
        FormFeature::Plane => Some(improved(Shape { axis: cloud[2], ..shape }, points).0),
        FormFeature::Circle | FormFeature::Sphere => Some(improved(round(shape, points)?, points).0),
        FormFeature::Cylinder | FormFeature::Cone => {
            let few: Vec<Vector> = points.iter().step_by(points.len().div_ceil(400)).copied().collect();
            let mut starts: Vec<(f64, Shape)> = directions(&cloud)
                .filter_map(|axis| turned(Shape { axis, ..shape }, &few))
                .map(|start| (sum_of_squares(&start, &few), start))
                .filter(|(sum, _)| sum.is_finite())
                .collect();
            starts.sort_by(|a, b| a.0.total_cmp(&b.0));
            starts.truncate(6);
            let mut ends: Vec<(Shape, f64)> =
                starts.into_iter().map(|(_, start)| improved(start, &few)).collect();
            ends.sort_by(|a, b| a.1.total_cmp(&b.1));
            Some(improved(ends.first()?.0, points).0)
        }
    }
}

/// Axes to begin with: those of the cloud, and some all over half of a sphere.
fn directions(cloud: &[Vector; 3]) -> impl Iterator<Item = Vector> {
    let all = (0..27).map(|k| [k % 3, k / 3 % 3, k / 9].map(|one| f64::from(one) - 1.0));
    // Of two that are opposite, one.
    let half = all.skip(14).map(|v| super::shape::unit(&v));
    let finer = half.clone().flat_map(move |axis| {
        square_to(&axis).map(|side| super::shape::unit(&super::shape::along(&axis, &side, 0.45)))
    });
    (*cloud).into_iter().chain(half).chain(finer)
}

/// A circle or sphere to begin with: the one with the least sum of squares of squared distances, which is linear.
fn round(shape: Shape, points: &[Vector]) -> Option<Shape> {
    let size = if shape.flat { 3 } else { 4 };
    let (mut matrix, mut right) = ([[0.0; 4]; 4], [0.0; 4]);
    for point in points {
        let mut row = [1.0; 4];
        row[..size - 1].copy_from_slice(&point[..size - 1]);
        add(&mut matrix, &mut right, &row, dot(point, point));
    }
    let found = eliminate(matrix, right, size)?;
    let mut centre = [0.0; 3];
    for k in 0..size - 1 {
        centre[k] = found[k] / 2.0;
    }
    let square = found[size - 1] + dot(&centre, &centre);
    Some(Shape { centre, offset: square.max(0.0).sqrt(), ..shape })
}

fn add<const N: usize>(matrix: &mut [[f64; N]; N], right: &mut [f64; N], row: &[f64; N], value: f64) {
    for k in 0..N {
        for j in 0..N {
            matrix[k][j] += row[k] * row[j];
        }
        right[k] += row[k] * value;
    }
}

/// A cylinder or a cone of a given axis to begin with: x² + y² is linear in x, y, and for a cone in z and z².
fn turned(shape: Shape, points: &[Vector]) -> Option<Shape> {
    let (frame, is_cone) = (square_to(&shape.axis), shape.feature == FormFeature::Cone);
    let (mut matrix, mut right) = ([[0.0; 5]; 5], [0.0; 5]);
    for point in points {
        let [x, y, z] = [dot(point, &frame[0]), dot(point, &frame[1]), dot(point, &shape.axis)];
        add(&mut matrix, &mut right, &[x, y, 1.0, z, z * z], x * x + y * y);
    }
    let found = eliminate(matrix, right, if is_cone { 5 } else { 3 })?;
    let (x, y) = (found[0] / 2.0, found[1] / 2.0);
    let centre = super::shape::along(&super::shape::along(&[0.0; 3], &frame[0], x), &frame[1], y);
    let radius = (found[2] + x * x + y * y).max(1e-12).sqrt();
    let mut start = Shape { centre, offset: radius, ..shape };
    if is_cone {
        // The radius at z is radius + z · tangent.
        let tangent = match found[4] {
            square if square > 1e-6 => square.sqrt() * found[3].signum(),
            _ => found[3] / (2.0 * radius),
        };
        let cosine = 1.0 / (1.0 + tangent * tangent).sqrt();
        (start.angle, start.offset) = ([cosine, tangent * cosine], radius * cosine);
    }
    Some(start)
}
