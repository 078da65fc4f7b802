//! Locators of a part: what they hold, and how their errors move it. Coordinates are in the units of the call.
use crate::status::Failure;
use tenths::Units;
use tenths::workholding::{Clamp, Locating, LocatingError, Locator, MAX_CLAMPED, MAX_LOCATORS};
use tenths_macros::export;

type Vector = [f64; 3];

fn locators_of(positions: &[Vector], normals: &[Vector]) -> Result<Vec<Locator>, LocatingError> {
    if positions.len() > MAX_LOCATORS {
        return Err(LocatingError::TooMany { count: positions.len() });
    }
    let pairs = positions.iter().zip(normals);
    Ok(pairs.map(|(&position, &normal)| Locator { position, normal }).collect())
}

/// What locators hold of a part, which motions they leave, and whether clamps press it on every locator.
///
/// `positions` and `normals` have three numbers for each of `count` locators; a normal points from the locator into the part,
/// and its length does not matter. `clamp_positions` and `clamp_normals`, the directions in which they push, are the same of
/// `clamps` clamps; `clamp_positions` may be null, and `clamp_normals` may be null, where there are no clamps. `clamp_forces`
/// may be null for clamps that press alike. `friction` is that at all contacts, 0 for none.
#[export(locating, clamp_positions = clamps, clamp_normals = clamps, clamp_forces = clamps)]
pub(crate) fn make_locating(
    units: Units,
    positions: &[[f64; 3]],
    normals: &[[f64; 3]],
    clamp_positions: Option<&[[f64; 3]]>,
    clamp_normals: Option<&[[f64; 3]]>,
    clamp_forces: Option<&[f64]>,
    clamps: usize,
    friction: f64,
) -> Result<Locating, Failure> {
    let locators = locators_of(positions, normals)?;
    let clamps = clamps_of(locators.len(), clamp_positions, clamp_normals, clamp_forces, clamps)?;
    Ok(Locating::new(&locators, &clamps, Some(friction), units)?)
}

/// Clamps beside so many locators; they press alike without forces.
fn clamps_of(
    locators: usize,
    positions: Option<&[Vector]>,
    normals: Option<&[Vector]>,
    forces: Option<&[f64]>,
    clamps: usize,
) -> Result<Vec<Clamp>, Failure> {
    if clamps > MAX_CLAMPED {
        return Err(LocatingError::TooManyClamped { locators, clamps }.into());
    }
    if clamps == 0 {
        return Ok(vec![]);
    }
    let positions = positions.ok_or(Failure::Null("clamp_positions"))?;
    let normals = normals.ok_or(Failure::Null("clamp_normals"))?;
    let clamp = |k: usize| Clamp {
        position: positions[k],
        normal: normals[k],
        force: forces.map_or(1.0, |forces| forces[k]),
    };
    Ok((0..clamps).map(clamp).collect())
}

/// How a point of the part moves in x, y and z when each of `count` locators is off by its error along its normal, to the
/// first order: `shift` gets three numbers.
///
/// It is an error where a motion that the locators leave moves the point, or where there are more locators than they stop
/// motions.
#[export(shift[3])]
pub(crate) fn locating_shift(
    positions: &[[f64; 3]],
    normals: &[[f64; 3]],
    errors: &[f64],
    at: [f64; 3],
) -> Result<Vec<f64>, LocatingError> {
    let made = Locating::new(&locators_of(positions, normals)?, &[], None, Units::Metric)?;
    Ok(made.shift(errors, at)?.to_vec())
}

/// How far a point of the part moves along a direction for each unit of error of each of `count` locators: `sensitivities`
/// gets `count` numbers, the sensitivities of the locators as contributors to a stack.
#[export(sensitivities[count])]
pub(crate) fn locating_sensitivities(
    positions: &[[f64; 3]],
    normals: &[[f64; 3]],
    at: [f64; 3],
    along: [f64; 3],
) -> Result<Vec<f64>, LocatingError> {
    Locating::new(&locators_of(positions, normals)?, &[], None, Units::Metric)?.sensitivities(at, along)
}

/// Locators as positions and normals.
fn columns(locators: &[Locator]) -> [Vec<f64>; 2] {
    [|one: &Locator| one.position, |one: &Locator| one.normal]
        .map(|part| locators.iter().flat_map(part).collect())
}

/// A line contact, such as a rail: two locators, at its ends.
#[export(positions[6], normals[6])]
pub(crate) fn line_contact(
    start: [f64; 3],
    end: [f64; 3],
    normal: [f64; 3],
) -> Result<[Vec<f64>; 2], LocatingError> {
    Ok(columns(&Locator::line(start, end, normal)?))
}

/// A plane contact, such as three rest buttons: three locators, whose normal points to the side from which the points run
/// counter-clockwise.
#[export(positions[9], normals[9])]
pub(crate) fn plane_contact(points: [f64; 9]) -> Result<[Vec<f64>; 2], LocatingError> {
    Ok(columns(&Locator::plane(std::array::from_fn(|k| std::array::from_fn(|axis| points[3 * k + axis])))?))
}

/// A round and a relieved pin in two holes: three locators, two at the round pin. `axis` is the direction of the pins.
#[export(positions[9], normals[9])]
pub(crate) fn two_pins(
    round: [f64; 3],
    relieved: [f64; 3],
    axis: [f64; 3],
) -> Result<[Vec<f64>; 2], LocatingError> {
    Ok(columns(&Locator::pins(round, relieved, axis)?))
}

/// A V-block under a round bar: four locators, on both flanks at both ends. `start` and `end` are points of the bar's axis at
/// the ends of the block, `up` is where the V opens, `vee_angle` its included angle in degrees.
#[export(positions[12], normals[12])]
pub(crate) fn vee_block(
    start: [f64; 3],
    end: [f64; 3],
    up: [f64; 3],
    diameter: f64,
    vee_angle: f64,
) -> Result<[Vec<f64>; 2], LocatingError> {
    Ok(columns(&Locator::vee_block(start, end, up, diameter, vee_angle)?))
}
