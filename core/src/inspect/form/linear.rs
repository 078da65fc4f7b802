//! Small systems of linear equations, and the axes of a cloud of points.
#![allow(clippy::needless_range_loop, reason = "rows and columns of a matrix are taken together")]
use super::shape::Vector;

/// Solves a symmetric positive system by Cholesky; nothing where a pivot is no more than its share of the diagonal.
pub(super) fn solve<const N: usize>(
    matrix: &[[f64; N]; N],
    right: &[f64; N],
    size: usize,
    least: f64,
) -> Option<[f64; N]> {
    let mut lower = [[0.0; N]; N];
    for row in 0..size {
        for column in 0..=row {
            let done: f64 = (0..column).map(|k| lower[row][k] * lower[column][k]).sum();
            let rest = matrix[row][column] - done;
            lower[row][column] = match row == column {
                true if rest > least * matrix[row][row] && rest > 0.0 => rest.sqrt(),
                true => return None,
                false => rest / lower[column][column],
            };
        }
    }
    let mut found = *right;
    for row in 0..size {
        let done: f64 = (0..row).map(|k| lower[row][k] * found[k]).sum();
        found[row] = (found[row] - done) / lower[row][row];
    }
    for row in (0..size).rev() {
        let done: f64 = (row + 1..size).map(|k| lower[k][row] * found[k]).sum();
        found[row] = (found[row] - done) / lower[row][row];
    }
    Some(found)
}

/// Solves any square system, by elimination with row pivots.
pub(super) fn eliminate<const N: usize>(
    mut matrix: [[f64; N]; N],
    mut right: [f64; N],
    size: usize,
) -> Option<[f64; N]> {
    for column in 0..size {
        let pivot = (column..size).fold(column, |best, row| {
            if matrix[row][column].abs() > matrix[best][column].abs() { row } else { best }
        });
        if matrix[pivot][column].abs() < 1e-14 {
            return None;
        }
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        for row in column + 1..size {
            let factor = matrix[row][column] / matrix[column][column];
            for k in column..size {
                matrix[row][k] -= factor * matrix[column][k];
            }
            right[row] -= factor * right[column];
        }
    }
    for row in (0..size).rev() {
        let done: f64 = (row + 1..size).map(|k| matrix[row][k] * right[k]).sum();
        right[row] = (right[row] - done) / matrix[row][row];
    }
    Some(right)
}

/// The axes of a cloud about the origin, the longest first: eigenvectors of its second moments.
pub(super) fn axes(points: &[Vector]) -> ([Vector; 3], [f64; 3]) {
    let mut matrix = [[0.0; 3]; 3];
    for point in points {
        for (row, one) in point.iter().enumerate() {
            for (column, other) in point.iter().enumerate() {
                matrix[row][column] += one * other;
            }
        }
    }
    eigen(matrix)
}

/// Eigenvectors and eigenvalues of a symmetric matrix, the largest first, by Jacobi's rotations.
pub(super) fn eigen(mut matrix: [Vector; 3]) -> ([Vector; 3], [f64; 3]) {
    let mut vectors = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    for _ in 0..60 {
        for (p, q) in [(0, 1), (0, 2), (1, 2)] {
            if matrix[p][q].abs() <= f64::MIN_POSITIVE {
                continue;
            }
            let theta = (matrix[q][q] - matrix[p][p]) / (2.0 * matrix[p][q]);
            let tangent = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
            let cosine = 1.0 / (tangent * tangent + 1.0).sqrt();
            let sine = tangent * cosine;
            for k in 0..3 {
                let (a, b) = (matrix[k][p], matrix[k][q]);
                (matrix[k][p], matrix[k][q]) = (cosine * a - sine * b, sine * a + cosine * b);
            }
            for k in 0..3 {
                let (a, b) = (matrix[p][k], matrix[q][k]);
                (matrix[p][k], matrix[q][k]) = (cosine * a - sine * b, sine * a + cosine * b);
            }
            for vector in &mut vectors {
                let (a, b) = (vector[p], vector[q]);
                (vector[p], vector[q]) = (cosine * a - sine * b, sine * a + cosine * b);
            }
        }
    }
    let mut order = [0, 1, 2];
    order.sort_by(|a, b| matrix[*b][*b].total_cmp(&matrix[*a][*a]));
    (order.map(|k| vectors.map(|row| row[k])), order.map(|k| matrix[k][k]))
}
