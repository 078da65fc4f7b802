//! The locator matrix: a row of six numbers for each locator, and what it stops.
#![allow(clippy::needless_range_loop, reason = "rows and columns of a matrix are taken together")]
use super::contact::Locator;
use crate::math::vector::{Vector, along, cross, dot};

/// Three numbers of a slide and three of a turn: velocity at the middle, and angular velocity times the scale.
pub(super) type Row = [f64; 6];

/// Motions whose resistance is less than this share of the greatest are free.
pub(super) const TOLERANCE: f64 = 1e-6;

/// Rows `(normal, lever × normal)` about the middle of the locators, with levers in parts of the farthest one, so that
/// neither the unit of length nor the origin matters.
pub(super) struct Matrix {
    pub(super) middle: Vector,
    pub(super) scale: f64,
    pub(super) rows: Vec<Row>,
    /// Motions square to each other, and how firmly each is stopped: singular vectors and values of the rows.
    pub(super) motions: [Row; 6],
    pub(super) values: [f64; 6],
}

impl Matrix {
    pub(super) fn new(locators: &[Locator]) -> Matrix {
        let first = locators.first().map_or([0.0; 3], |one| one.position);
        let middle = locators.iter().fold(first, |middle, one| {
            let from = along(&one.position, &first, -1.0);
            along(&middle, &from, 1.0 / locators.len() as f64)
        });
        let lever = |one: &Locator| along(&one.position, &middle, -1.0);
        let farthest = locators.iter().map(lever).fold(0.0, |most: f64, lever| most.max(dot(&lever, &lever)));
        // Locators in one point have no levers.
        let scale = if farthest > 0.0 { farthest.sqrt() } else { 1.0 };
        let mut matrix = Matrix { middle, scale, rows: vec![], motions: [[0.0; 6]; 6], values: [0.0; 6] };
        matrix.rows = locators.iter().map(|one| matrix.row(&one.position, &one.normal)).collect();
        (matrix.motions, matrix.values) = singular(&matrix.rows);
        matrix
    }

    /// What a motion does at a point, along a direction.
    pub(super) fn row(&self, point: &Vector, direction: &Vector) -> Row {
        let lever = along(point, &self.middle, -1.0).map(|one| one / self.scale);
        let turn = cross(&lever, direction);
        [direction[0], direction[1], direction[2], turn[0], turn[1], turn[2]]
    }

    /// The motions that are stopped, with how firmly.
    pub(super) fn stopped(&self) -> impl Iterator<Item = (&Row, f64)> {
        let least = TOLERANCE * self.values.iter().fold(0.0_f64, |most, one| most.max(*one));
        self.motions.iter().zip(self.values).filter(move |(_, value)| *value > least)
    }

    /// The motions that are free.
    pub(super) fn free(&self) -> Vec<Row> {
        let least = TOLERANCE * self.values.iter().fold(0.0_f64, |most, one| most.max(*one));
        self.motions
            .iter()
            .zip(self.values)
            .filter(|(_, value)| *value <= least)
            .map(|(one, _)| *one)
            .collect()
    }

    /// How firmly the least stopped motion is stopped, as a share of the firmest.
    pub(super) fn firmness(&self) -> f64 {
        let most = self.values.iter().fold(0.0_f64, |most, one| most.max(*one));
        let least = self.stopped().map(|(_, value)| value).fold(most, f64::min);
        if most > 0.0 { least / most } else { 0.0 }
    }
}

pub(super) fn product(a: &Row, b: &Row) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Singular vectors and values of rows, by turning pairs of columns until all are square to each other (Jacobi's
/// one-sided turns, which keep small values accurate).
fn singular(rows: &[Row]) -> ([Row; 6], [f64; 6]) {
    let mut columns: [Vec<f64>; 6] = std::array::from_fn(|k| rows.iter().map(|row| row[k]).collect());
    let mut motions = [[0.0; 6]; 6];
    (0..6).for_each(|k| motions[k][k] = 1.0);
    let inner = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    for _ in 0..60 {
        let mut turned = false;
        for p in 0..5 {
            for q in p + 1..6 {
                let (a, b) = (inner(&columns[p], &columns[p]), inner(&columns[q], &columns[q]));
                let c = inner(&columns[p], &columns[q]);
                if c.abs() <= 1e-16 * (a * b).sqrt() || c.abs() < 1e-40 {
                    continue;
                }
                turned = true;
                let zeta = (b - a) / (2.0 * c);
                let tangent = zeta.signum() / (zeta.abs() + (1.0 + zeta * zeta).sqrt());
                let cosine = 1.0 / (1.0 + tangent * tangent).sqrt();
                turn(&mut columns, p, q, cosine, cosine * tangent);
                let (left, right) = motions.split_at_mut(q);
                pair(&mut left[p], &mut right[0], cosine, cosine * tangent);
            }
        }
        if !turned {
            break;
        }
    }
    let values = std::array::from_fn(|k| inner(&columns[k], &columns[k]).sqrt());
    (motions, values)
}

fn turn(columns: &mut [Vec<f64>; 6], p: usize, q: usize, cosine: f64, sine: f64) {
    let (left, right) = columns.split_at_mut(q);
    pair(&mut left[p], &mut right[0], cosine, sine);
}

fn pair(one: &mut [f64], other: &mut [f64], cosine: f64, sine: f64) {
    for (a, b) in one.iter_mut().zip(other) {
        (*a, *b) = (cosine * *a - sine * *b, sine * *a + cosine * *b);
    }
}
