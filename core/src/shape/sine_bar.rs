//! The sine bar: gauge blocks under one roll set an angle, or tell of one.
use super::on_branch;
use crate::formula::Formula;
use crate::math::{asin_degrees, cos_degrees, sin_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Height of the gauge blocks under a sine bar: length · sin(angle).
///
/// Both rolls stand on the same plate, one of them on the blocks. Past 45° the angle grows fast with an error of
/// the stack (`sine_bar_angle_error`): set the complement from a square instead.
#[formula(
    source = "Common practice, as in TC 9-524, Fundamentals of Machine Tools (US Army), appendix C",
    inverse(sine_bar_length = sine_bar_stack / sin_degrees(angle)),
    inverse(angle = asin_degrees(sine_bar_stack / sine_bar_length))
)]
pub fn sine_bar_stack(
    #[increasing] sine_bar_length: Length,
    #[term(sine_bar_angle)]
    #[increasing]
    angle: Angle,
) -> Length {
    sine_bar_length * sin_degrees(angle)
}

/// Angle of a sine bar on a stack of gauge blocks: asin(stack / length).
#[formula(
    source = "Common practice; trigonometry",
    rule(block_stack <= sine_bar_length, "block_stack must be at most sine_bar_length"),
    inverse(sine_bar_length = on_branch(sine_bar_angle <= 90.0, block_stack / sin_degrees(sine_bar_angle))),
    inverse(block_stack = on_branch(sine_bar_angle <= 90.0, sine_bar_length * sin_degrees(sine_bar_angle)))
)]
pub fn sine_bar_angle(
    #[decreasing] sine_bar_length: Length,
    /// Height of the gauge blocks under one roll.
    #[non_negative]
    #[increasing]
    block_stack: Length,
) -> Angle {
    asin_degrees(block_stack / sine_bar_length)
}

/// Error of the angle from a small error of the stack: stack error / (length · cos(angle)), in degrees.
///
/// Of the first order: right while the error is small beside the length.
#[formula(
    source = "Trigonometry; the derivative of length · sin(angle)",
    inverse(sine_bar_length = stack_error / (sine_bar_angle_error * (PI / 180.0) * cos_degrees(angle))),
    inverse(stack_error = sine_bar_angle_error * (PI / 180.0) * (sine_bar_length * cos_degrees(angle)))
)]
pub fn sine_bar_angle_error(
    #[decreasing] sine_bar_length: Length,
    #[term(sine_bar_angle)]
    #[below(90.0)]
    #[increasing]
    angle: Angle,
    /// By how much the stack is off.
    #[non_negative]
    #[increasing]
    stack_error: Length,
) -> Angle {
    stack_error / (sine_bar_length * cos_degrees(angle)) * (180.0 / PI)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SINE_BAR_STACK, &SINE_BAR_ANGLE, &SINE_BAR_ANGLE_ERROR];
