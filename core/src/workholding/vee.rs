//! Round bars in V-blocks.
use crate::formula::Formula;
use crate::math::{cos_degrees, sin_degrees};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Where a bar lies in a V-block.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct VeeSeat {
    /// Height of the axis above the bottom of the V, where its flanks would meet.
    pub axis_height: Length,
    /// Height of the top of the bar above the bottom of the V.
    pub top_height: Length,
    /// Height at which the bar touches the flanks: the V must be deeper.
    pub contact_height: Length,
    /// Distance of each line of contact from the middle of the V.
    pub contact_half_width: Length,
}

/// How the tolerance of a bar shifts it in a V-block.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct VeeShift {
    /// Shift of the axis, from the smallest bar to the largest.
    pub axis_shift: Length,
    /// Shift of the top of the bar.
    pub top_shift: Length,
}

/// What a clamped bar bears and holds in a V-block.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct VeeGrip {
    /// Force of each flank, square to it.
    pub flank_force: Force,
    /// Torque about the axis at which the bar slips, with a clamp that rubs on top.
    pub slip_torque: Torque,
    /// Force along the axis at which the bar slips.
    pub axial_slip_force: Force,
}

/// Where a bar lies in a V-block: its axis diameter / (2 sin(V/2)) above the bottom of the V.
#[formula(source = "Geometry of a circle between two lines, common practice")]
pub fn vee_seat(
    #[increasing(axis_height, top_height, contact_height, contact_half_width)] bar_diameter: Length,
    #[term(vee_block_angle)]
    #[decreasing(axis_height, top_height, contact_half_width)]
    vee_angle: Angle,
) -> VeeSeat {
    let (sin, cos) = (sin_degrees(0.5 * vee_angle), cos_degrees(0.5 * vee_angle));
    let radius = 0.5 * bar_diameter;
    BareVeeSeat {
        axis_height: radius / sin,
        top_height: radius / sin + radius,
        contact_height: radius * (cos * cos) / sin,
        contact_half_width: radius * cos,
    }
}

/// How the tolerance of a bar shifts its axis and its top in a V-block.
///
/// The axis shifts by tolerance / (2 sin(V/2)), the top by half of the tolerance more.
///
/// A feature that is dimensioned from the axis shifts along the V's middle plane as the axis does; across that plane it does
/// not shift at all.
#[formula(source = "Geometry of a circle between two lines, common practice")]
pub fn vee_shift(
    /// Tolerance of the bar's diameter, from the smallest to the largest.
    #[non_negative]
    #[increasing(axis_shift, top_shift)]
    diameter_tolerance: Length,
    #[term(vee_block_angle)]
    #[decreasing(axis_shift, top_shift)]
    vee_angle: Angle,
) -> VeeShift {
    let axis_shift = 0.5 * diameter_tolerance / sin_degrees(0.5 * vee_angle);
    BareVeeShift { axis_shift, top_shift: axis_shift + 0.5 * diameter_tolerance }
}

/// What a bar that a clamp presses into a V-block bears and holds.
///
/// Each flank presses with force / (2 sin(V/2)). Friction at both flanks and at the clamp holds a torque of
/// µ · force · radius · (1 + 1 / sin(V/2)), or along the axis µ · force · (1 + 1 / sin(V/2)), not both at once.
#[formula(source = "Statics with Coulomb's friction, common practice of fixture design", caution(clamping))]
pub fn vee_grip(
    #[increasing(flank_force, slip_torque, axial_slip_force)] clamp_force: Force,
    #[increasing(slip_torque)] bar_diameter: Length,
    #[term(holding_friction)]
    #[increasing(slip_torque, axial_slip_force)]
    friction: Ratio,
    #[term(vee_block_angle)]
    #[decreasing(flank_force, slip_torque, axial_slip_force)]
    vee_angle: Angle,
) -> VeeGrip {
    let sin = sin_degrees(0.5 * vee_angle);
    let axial_slip_force = friction * clamp_force * (1.0 + 1.0 / sin);
    BareVeeGrip {
        flank_force: 0.5 * clamp_force / sin,
        slip_torque: axial_slip_force * (0.5 * bar_diameter),
        axial_slip_force,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&VEE_SEAT, &VEE_SHIFT, &VEE_GRIP];
