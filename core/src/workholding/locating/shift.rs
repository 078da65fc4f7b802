//! How errors of locators move a feature, to the first order.
use super::error::LocatingError;
use super::freedom::FreeMotion;
use super::matrix::{Matrix, Row, TOLERANCE, product};
use crate::math::vector::{Vector, along, cross, dot};

/// What part of the error of each locator shows in the movement that `wanted` reads: the error of a locator pushes the
/// part along its normal, and all others stay.
pub(super) fn sensitivities(
    matrix: &Matrix,
    wanted: &Row,
    open: impl Fn() -> LocatingError,
) -> Result<Vec<f64>, LocatingError> {
    let held = matrix.stopped().count();
    if held < matrix.rows.len() {
        return Err(LocatingError::Redundant { locators: matrix.rows.len(), held });
    }
    // The pseudo-inverse: for rows that are independent it is the only answer.
    let mut rest = *wanted;
    let mut motion = [0.0; 6];
    for (direction, value) in matrix.stopped() {
        let part = product(wanted, direction);
        rest.iter_mut().zip(direction).for_each(|(rest, one)| *rest -= part * one);
        motion.iter_mut().zip(direction).for_each(|(motion, one)| *motion += part / (value * value) * one);
    }
    if product(&rest, &rest).sqrt() > TOLERANCE * product(wanted, wanted).sqrt() {
        return Err(open());
    }
    Ok(matrix.rows.iter().map(|row| product(row, &motion)).collect())
}

/// The free motion that moves a point most along a direction, in words.
pub(super) fn opening(free: &[FreeMotion], at: &Vector, direction: &Vector) -> LocatingError {
    let moves = |motion: &FreeMotion| {
        dot(direction, &along(&motion.translation, &cross(&motion.rotation, at), 1.0)).abs()
    };
    let most = free.iter().fold(None, |most: Option<&FreeMotion>, one| match most {
        Some(most) if moves(most) >= moves(one) => Some(most),
        _ => Some(one),
    });
    LocatingError::Open { motion: most.map_or(String::new(), |one| one.words.clone()) }
}
