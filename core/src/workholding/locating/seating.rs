//! Whether clamps press the part on every locator: the balance of their forces, with friction.
//!
//! A contact pushes along its normal, and across it up to friction times as much, by a pyramid of eight edges within the
//! cone of friction. Clamps push with their forces; what the locators bear follows from the balance.
use super::contact::{Clamp, Locator};
use super::error::LocatingError;
use super::matrix::{Matrix, Row};
use super::programme::{Balance, Programme};
use crate::math::vector::{Vector, along, cross};
use crate::math::{cos_degrees, sin_degrees};

/// How clamps seat a part.
pub(super) struct Seating {
    /// Whether there is a balance that presses on every locator.
    pub(super) seats: bool,
    /// What each locator bears where the least pressed one bears the most; empty where there is no balance at all.
    pub(super) forces: Vec<f64>,
    /// The locators that friction may keep the part off, from 0.
    pub(super) loose: Vec<usize>,
}

/// A locator that bears less than this share of the clamps' forces is not pressed.
const PRESSED: f64 = 1e-7;
/// Directions of the pyramid of friction.
const EDGES: usize = 8;

/// The pushes of a contact with a unit of normal force: straight, or along the edges of its pyramid.
fn edges(normal: &Vector, friction: f64) -> Vec<Vector> {
    if friction == 0.0 {
        return vec![*normal];
    }
    let least = (0..3).fold(0, |least, k| if normal[k].abs() < normal[least].abs() { k } else { least });
    let mut other = [0.0; 3];
    other[least] = 1.0;
    let side = crate::math::vector::unit(&cross(&other, normal)).unwrap_or(other);
    let up = cross(normal, &side);
    let edge = |k: usize| {
        let turn = 360.0 / EDGES as f64 * k as f64;
        let across = along(&side.map(|one| one * cos_degrees(turn)), &up, sin_degrees(turn));
        along(normal, &across, friction)
    };
    (0..EDGES).map(edge).collect()
}

pub(super) fn seating(
    matrix: &Matrix,
    locators: &[Locator],
    clamps: &[Clamp],
    friction: f64,
) -> Result<Seating, LocatingError> {
    let total: f64 = clamps.iter().map(|clamp| clamp.force).sum();
    let mut columns: Vec<Row> = vec![];
    // The columns of each contact, the locators first.
    let mut own = vec![];
    let contacts = locators.iter().map(|one| (one.position, one.normal, 1.0));
    for (position, normal, force) in
        contacts.chain(clamps.iter().map(|one| (one.position, one.normal, one.force / total)))
    {
        let from = columns.len();
        let pushes = edges(&normal, friction).into_iter().map(|push| matrix.row(&position, &push));
        columns.extend(pushes.map(|row| row.map(|one| one * force)));
        own.push(from..columns.len());
    }
    let balance = equations(&columns, &own, locators.len(), clamps.len());
    let (least, variables) = (columns.len(), columns.len() + locators.len() + 2);
    let mut goal = vec![0.0; variables];
    goal[least] = 1.0;
    let mut programme = match balance {
        Balance::Found(programme) => programme,
        Balance::Impossible => {
            return Ok(Seating { seats: false, forces: vec![], loose: (0..locators.len()).collect() });
        }
        Balance::Unknown => return Err(LocatingError::NoBalance),
    };
    let any = programme.clone();
    let pressed = programme.maximise(&goal).ok_or(LocatingError::NoBalance)?;
    let values = programme.values();
    let borne = |place: usize| values[own[place].clone()].iter().sum::<f64>();
    let mut loose = vec![];
    for (place, columns) in own[..locators.len()].iter().enumerate() {
        let mut goal = vec![0.0; variables];
        columns.clone().for_each(|column| goal[column] = -1.0);
        let lightest = -any.clone().maximise(&goal).ok_or(LocatingError::NoBalance)?;
        if lightest <= PRESSED {
            loose.push(place);
        }
    }
    Ok(Seating {
        seats: pressed > PRESSED,
        forces: (0..locators.len()).map(|place| borne(place) * total).collect(),
        loose,
    })
}

/// The balance of forces and moments; each clamp pushes as hard as it does; each locator bears the least force and some
/// more; and the least is at most what all clamps push together, since locators that face each other bear any force.
fn equations(columns: &[Row], own: &[std::ops::Range<usize>], locators: usize, clamps: usize) -> Balance {
    let least = columns.len();
    let variables = least + locators + 2;
    let mut rows = vec![];
    let mut right = vec![];
    for part in 0..6 {
        let mut row = vec![0.0; variables];
        columns.iter().enumerate().for_each(|(k, column)| row[k] = column[part]);
        rows.push(row);
        right.push(0.0);
    }
    for clamp in &own[locators..locators + clamps] {
        let mut row = vec![0.0; variables];
        clamp.clone().for_each(|k| row[k] = 1.0);
        rows.push(row);
        right.push(1.0);
    }
    for (place, locator) in own[..locators].iter().enumerate() {
        let mut row = vec![0.0; variables];
        locator.clone().for_each(|k| row[k] = 1.0);
        (row[least], row[least + 1 + place]) = (-1.0, -1.0);
        rows.push(row);
        right.push(0.0);
    }
    let mut row = vec![0.0; variables];
    (row[least], row[variables - 1]) = (1.0, 1.0);
    rows.push(row);
    right.push(1.0);
    Programme::balance(rows, &right)
}
