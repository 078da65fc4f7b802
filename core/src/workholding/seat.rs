//! Step seats.
use crate::formula::Formula;
use crate::math::atan2_degrees;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// How far a step seat reaches past the axis of a round bar that lies in it: seat depth - diameter / 2.
///
/// The wall of the seat touches the bar at the height of its axis. At zero or less the wall ends below that
/// height and cannot hold the bar. Judge it at the largest bar that the stock's limits allow.
#[formula(
    source = "Common practice; geometry of a step seat",
    caution(seat),
    inverse(diameter = 2.0 * (seat_depth - seat_margin)),
    inverse(seat_depth = seat_margin + 0.5 * diameter)
)]
pub fn seat_margin(
    /// Diameter of the bar; the largest one for a judgement.
    #[positive]
    #[decreasing]
    diameter: Length,
    #[increasing] seat_depth: Length,
) -> Length {
    seat_depth - 0.5 * diameter
}

/// How a bar lies in a step seat that may be too shallow for it.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct StepSeat {
    /// Angle below the level of the axis at which the edge of a shallow wall bears; zero where the wall reaches the axis.
    pub contact_angle: Angle,
    /// Force that lifts the bar out along the wall, for the force with which it is pressed against the wall.
    pub lifting_force: Force,
    /// Distance of the axis from the wall.
    pub wall_distance: Length,
}

/// What lifts a bar out of a step seat whose wall ends below its axis: pressing force · tan(θ), sin θ = (R - depth) / R.
///
/// Where the wall reaches past the axis nothing lifts the bar. Judge it at the largest bar that the stock's limits allow.
#[formula(source = "Geometry and statics of a step seat without friction; common practice", caution(seat))]
pub fn step_seat(
    #[term(bar_diameter)]
    #[increasing(contact_angle, lifting_force, wall_distance)]
    diameter: Length,
    #[positive]
    #[decreasing(contact_angle, lifting_force)]
    #[increasing(wall_distance)]
    seat_depth: Length,
    /// Force that presses the bar against the wall.
    #[non_negative]
    #[increasing(lifting_force)]
    pressing_force: Force,
) -> StepSeat {
    let radius = 0.5 * diameter;
    let (short, depth) = if seat_depth < radius { (radius - seat_depth, seat_depth) } else { (0.0, radius) };
    let wall_distance = (depth * (diameter - depth)).sqrt();
    BareStepSeat {
        contact_angle: atan2_degrees(short, wall_distance),
        lifting_force: pressing_force * (short / wall_distance),
        wall_distance,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SEAT_MARGIN, &STEP_SEAT];
