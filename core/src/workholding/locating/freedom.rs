//! The motions that locators leave, as data and in words.
use super::matrix::{Matrix, Row};
use crate::Units;
use crate::error::to_digits;
use crate::math::vector::{Vector, along, cross, dot, unit};
use std::f64::consts::PI;
use std::fmt;
use tenths_macros::{Choice, Object};

/// The kind of a free motion.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum MotionKind {
    /// Along a direction.
    Slide,
    /// About an axis.
    Turn,
    /// About an axis and along it at once, as on a thread.
    Screw,
}

/// A motion that locators leave to the part.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct FreeMotion {
    /// Its kind.
    pub kind: MotionKind,
    /// How the point at the origin moves: of a slide its direction, of length 1; of a turn the path for a turn of 1 radian.
    pub translation: [f64; 3],
    /// The direction of the axis, of length 1; zeros of a slide.
    pub rotation: [f64; 3],
    /// The point of the axis that is nearest to the origin; absent of a slide, and where any parallel axis serves.
    pub through: Option<[f64; 3]>,
    /// How far a screw advances in a whole turn; zero of the others.
    pub lead: f64,
    /// What it does, in words: `slides along y`.
    pub words: String,
    /// The units of the positions.
    pub units: Units,
}

impl fmt::Display for FreeMotion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.words)
    }
}

/// A number of this size or less, next to 1, is rounding.
const ROUNDING: f64 = 1e-9;
/// What a vector of length 1 must have along a coordinate to be told by it.
const PIVOT: f64 = 1e-5;

/// The motions that a matrix leaves free: slides first, then turns, along the coordinates where that is possible.
pub(super) fn free_motions(matrix: &Matrix, units: Units) -> Vec<FreeMotion> {
    let mut motions = matrix.free();
    let turning = reduce(&mut motions);
    let (turns, slides) = motions.split_at(turning);
    let slides: Vec<Vector> = slides.iter().filter_map(|one| unit(&[one[0], one[1], one[2]])).collect();
    let square = square(&slides);
    let told = slides.iter().map(|direction| slide(direction, units));
    told.chain(turns.iter().filter_map(|one| turn(one, &square, matrix, units))).collect()
}

/// Elimination: the rows that turn come first, each with a coordinate of its axis to itself, then those that only slide.
/// Gives how many turn.
fn reduce(rows: &mut [Row]) -> usize {
    let mut done = 0;
    let mut turning = 0;
    for column in [3, 4, 5, 0, 1, 2] {
        let best = (done..rows.len()).fold(None, |best: Option<usize>, row| match best {
            Some(best) if rows[best][column].abs() >= rows[row][column].abs() => Some(best),
            _ => Some(row),
        });
        let Some(best) = best.filter(|&best| rows[best][column].abs() > PIVOT) else { continue };
        rows.swap(done, best);
        let pivot = rows[done].map(|one| one / rows[done][column]);
        rows[done] = pivot;
        for (row, other) in rows.iter_mut().enumerate() {
            if row != done {
                let factor = other[column];
                other.iter_mut().zip(&pivot).for_each(|(one, pivot)| *one -= factor * pivot);
            }
        }
        done += 1;
        turning += usize::from(column >= 3);
    }
    turning
}

/// Directions square to each other, of the same span.
fn square(directions: &[Vector]) -> Vec<Vector> {
    let mut made: Vec<Vector> = vec![];
    for direction in directions {
        let rest = made.iter().fold(*direction, |rest, one| along(&rest, one, -dot(&rest, one)));
        made.extend(unit(&rest));
    }
    made
}

/// Without rounding, and with its largest coordinate positive.
fn clean(v: Vector, size: f64) -> Vector {
    v.map(|one| if one.abs() <= ROUNDING * size { 0.0 } else { one })
}

/// 1 or -1, which makes the largest coordinate positive.
fn sign(v: &Vector) -> f64 {
    let most = v
        .iter()
        .fold(0.0_f64, |most, one| if one.abs() > most.abs() * (1.0 + ROUNDING) { *one } else { most });
    if most < 0.0 { -1.0 } else { 1.0 }
}

fn slide(direction: &Vector, units: Units) -> FreeMotion {
    let direction = clean(direction.map(|one| one * sign(direction)), 1.0);
    FreeMotion {
        kind: MotionKind::Slide,
        translation: direction,
        rotation: [0.0; 3],
        through: None,
        lead: 0.0,
        words: format!("slides along {}", axis_words(&direction)),
        units,
    }
}

fn turn(motion: &Row, slides: &[Vector], matrix: &Matrix, units: Units) -> Option<FreeMotion> {
    let about = [motion[3], motion[4], motion[5]];
    let length = dot(&about, &about).sqrt();
    let axis = unit(&about)?;
    let turned = sign(&axis);
    let axis = clean(axis.map(|one| one * turned), 1.0);
    // The path of the middle for a turn of one radian, and that of the origin; what slides can undo is taken off, which
    // brings the axis as near to the origin as they allow.
    let path = [motion[0], motion[1], motion[2]].map(|one| one * turned * matrix.scale / length);
    let path = along(&path, &cross(&axis, &matrix.middle), -1.0);
    let path = slides.iter().fold(path, |path, one| along(&path, one, -dot(&path, one)));
    let size = matrix.scale.max(matrix.middle.iter().fold(0.0, |most: f64, one| most.max(one.abs())));
    let at_origin = clean(path, size);
    let advance = dot(&path, &axis);
    let screw = advance.abs() > ROUNDING * size;
    let through = clean(cross(&axis, &at_origin), size);
    let across: f64 =
        slides.iter().map(|one| along(one, &axis, -dot(one, &axis))).map(|one| dot(&one, &one)).sum();
    // With both slides across the axis free, an axis anywhere else is as good.
    let any = across > 2.0 - PIVOT;
    let (kind, lead) = if screw { (MotionKind::Screw, 2.0 * PI * advance) } else { (MotionKind::Turn, 0.0) };
    let verb = if screw { "screws" } else { "turns" };
    let mut words = match any {
        true => format!("{verb} about any axis along {}", axis_words(&axis)),
        false => format!(
            "{verb} about the axis through {} {} along {}",
            point_words(&through),
            units.length_label(),
            axis_words(&axis)
        ),
    };
    if screw {
        words += &format!(", advancing {} {} a turn", to_digits(lead, 5), units.length_label());
    }
    let through = (!any).then_some(through);
    Some(FreeMotion { kind, translation: at_origin, rotation: axis, through, lead, words, units })
}

/// `x`, or `(0.6, 0.8, 0)`.
fn axis_words(direction: &Vector) -> String {
    let along: Vec<usize> = (0..3).filter(|&k| direction[k] != 0.0).collect();
    match along[..] {
        [only] => ["x", "y", "z"][only].to_string(),
        _ => point_words(direction),
    }
}

fn point_words(point: &Vector) -> String {
    let [x, y, z] = point.map(|one| to_digits(one, 5));
    format!("({x}, {y}, {z})")
}
