//! Minimum zone: the feature with the least distance from its outermost to its innermost point.
//!
//! Distances are taken as linear in small moves, which makes the best move a linear programme; steps are kept short enough
//! for that to hold. Its dual has no more rows than a feature has moves, and a column for each point and side, so that it is
//! solved by pivots in a small matrix. The search begins at the least-squares feature, and ends at the zone next to it.
use super::linear::eliminate;
use super::shape::{MAX_MOTIONS, Shape, Vector};

/// The moves, and the two borders of the zone.
const ROWS: usize = MAX_MOTIONS + 2;

/// Distances of the points and how moves change them.
struct Distances {
    values: Vec<f64>,
    slopes: Vec<[f64; MAX_MOTIONS]>,
}

impl Distances {
    fn of(shape: &Shape, points: &[Vector]) -> Distances {
        let frame = shape.frame();
        let mut slopes = vec![[0.0; MAX_MOTIONS]; points.len()];
        let values =
            points.iter().zip(&mut slopes).map(|(point, slopes)| shape.distance(point, &frame, slopes));
        let values = values.collect();
        Distances { values, slopes }
    }

    /// The places of the greatest and the least.
    fn extremes(&self) -> (usize, usize) {
        let (mut most, mut least) = (0, 0);
        for (k, value) in self.values.iter().enumerate() {
            most = if *value > self.values[most] { k } else { most };
            least = if *value < self.values[least] { k } else { least };
        }
        (most, least)
    }

    fn width(&self, two_sided: bool) -> f64 {
        let (most, least) = self.extremes();
        self.values[most] - if two_sided { self.values[least] } else { 0.0 }
    }
}

/// A constraint on the moves and borders: `row · x >= bound`.
#[derive(Clone, Copy)]
struct Constraint {
    row: [f64; ROWS],
    bound: f64,
}

/// The linear programme of one step.
struct Programme<'d> {
    distances: &'d Distances,
    moves: usize,
    two_sided: bool,
    reach: f64,
}

impl Programme<'_> {
    fn rows(&self) -> usize {
        self.moves + 1 + usize::from(self.two_sided)
    }

    /// That a point lies below the upper border, or above the lower one.
    fn point(&self, place: usize, upper: bool) -> Constraint {
        let (mut row, sign) = ([0.0; ROWS], if upper { 1.0 } else { -1.0 });
        for (one, slope) in row.iter_mut().zip(&self.distances.slopes[place][..self.moves]) {
            *one = -sign * slope;
        }
        row[self.moves + usize::from(!upper)] = sign;
        Constraint { row, bound: sign * self.distances.values[place] }
    }

    /// That a move is no farther than the reach.
    fn reach(&self, place: usize, positive: bool) -> Constraint {
        let mut row = [0.0; ROWS];
        row[place] = if positive { 1.0 } else { -1.0 };
        Constraint { row, bound: -self.reach }
    }

    /// The constraint that a solution breaks most.
    fn worst(&self, x: &[f64; ROWS]) -> (f64, Constraint) {
        let linear = |place: usize| {
            let slopes = &self.distances.slopes[place][..self.moves];
            self.distances.values[place] + slopes.iter().zip(x).map(|(slope, by)| slope * by).sum::<f64>()
        };
        let (mut most, mut least) = ((f64::NEG_INFINITY, 0), (f64::INFINITY, 0));
        for place in 0..self.distances.values.len() {
            let value = linear(place);
            most = if value > most.0 { (value, place) } else { most };
            least = if value < least.0 { (value, place) } else { least };
        }
        let mut worst = (most.0 - x[self.moves], self.point(most.1, true));
        let under = x[self.moves + 1] - least.0;
        if self.two_sided && under > worst.0 {
            worst = (under, self.point(least.1, false));
        }
        for (place, by) in x.iter().enumerate().take(self.moves) {
            let over = by.abs() - self.reach;
            if over > worst.0 {
                worst = (over, self.reach(place, *by < 0.0));
            }
        }
        worst
    }

    /// The best moves, by the simplex method on the dual.
    fn solve(&self) -> Option<[f64; ROWS]> {
        let size = self.rows();
        let (most, least) = self.distances.extremes();
        // The borders through the extremes, and a reach for each move, are a basis to begin with.
        let mut basis: Vec<Constraint> = vec![self.point(most, true)];
        if self.two_sided {
            basis.push(self.point(least, false));
        }
        for place in 0..self.moves {
            let sum: f64 = basis.iter().take(1 + usize::from(self.two_sided)).map(|one| one.row[place]).sum();
            basis.push(self.reach(place, sum < 0.0));
        }
        let mut wanted = [0.0; ROWS];
        wanted[self.moves] = 1.0;
        if self.two_sided {
            wanted[self.moves + 1] = -1.0;
        }
        for _ in 0..200 {
            let across = |k: usize, j: usize| basis[j].row[k];
            let columns: [[f64; ROWS]; ROWS] = matrix(size, across);
            let rows: [[f64; ROWS]; ROWS] = matrix(size, |k, j| across(j, k));
            let mut bounds = [0.0; ROWS];
            for (bound, column) in bounds.iter_mut().zip(&basis) {
                *bound = column.bound;
            }
            let x = eliminate(rows, bounds, size)?;
            let (broken, entering) = self.worst(&x);
            if broken <= 1e-15 {
                return Some(x);
            }
            let weights = eliminate(columns, wanted, size)?;
            let change = eliminate(columns, entering.row, size)?;
            let mut leaving: Option<(usize, f64)> = None;
            for k in (0..size).filter(|k| change[*k] > 1e-12) {
                let ratio = weights[k].max(0.0) / change[k];
                if leaving.is_none_or(|(_, least)| ratio < least) {
                    leaving = Some((k, ratio));
                }
            }
            basis[leaving?.0] = entering;
        }
        None
    }
}

fn matrix(size: usize, entry: impl Fn(usize, usize) -> f64) -> [[f64; ROWS]; ROWS] {
    let mut made = [[0.0; ROWS]; ROWS];
    for (k, row) in made.iter_mut().enumerate().take(size) {
        for (j, one) in row.iter_mut().enumerate().take(size) {
            *one = entry(k, j);
        }
    }
    made
}

/// The minimum zone next to a shape, through points about the origin, none farther from it than 1.
pub(super) fn fit(mut shape: Shape, points: &[Vector]) -> Shape {
    let two_sided = shape.has_offset();
    let mut distances = Distances::of(&shape, points);
    let mut width = distances.width(two_sided);
    let mut reach = (2.0 * width).clamp(1e-12, 0.1);
    for _ in 0..500 {
        let moves = shape.moves();
        let programme = Programme { distances: &distances, moves, two_sided, reach };
        let Some(x) = programme.solve() else {
            reach /= 4.0;
            if reach < 1e-16 {
                break;
            }
            continue;
        };
        let foreseen = width - (x[moves] - if two_sided { x[moves + 1] } else { 0.0 });
        let mut by = [0.0; MAX_MOTIONS];
        by[..moves].copy_from_slice(&x[..moves]);
        let next = shape.moved(&by, &shape.frame());
        let next_distances = Distances::of(&next, points);
        let gained = width - next_distances.width(two_sided);
        let step = by.iter().fold(0.0_f64, |most, one| most.max(one.abs()));
        if gained > 0.0 {
            (shape, width, distances) = (next, width - gained, next_distances);
        }
        if foreseen <= 1e-15 || step < 1e-16 {
            break;
        }
        reach = match gained / foreseen {
            share if share < 0.25 => reach.min(step) / 4.0,
            share if share > 0.75 => (2.0 * reach).min(0.1),
            _ => reach,
        };
        if reach < 1e-16 {
            break;
        }
    }
    if two_sided {
        let (most, least) = distances.extremes();
        shape.offset = f64::midpoint(distances.values[most], distances.values[least]);
    }
    shape
}
