//! Entry of a milling cutter into solid metal, along a ramp or a helix.
use crate::formula::Formula;
use crate::math::{atan_degrees, cos_degrees, sin_degrees, tan_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Angle of a straight ramp below the surface: atan(depth / length).
///
/// The cutter's maker states the steepest that it bears.
#[formula(
    source = "Plane geometry; common practice",
    inverse(depth = length * tan_degrees(ramp_angle)),
    inverse(length = depth / tan_degrees(ramp_angle))
)]
pub fn ramp_angle(
    #[term(ramp_depth)]
    #[increasing]
    depth: Length,
    /// Length of the ramp along the surface.
    #[positive]
    #[decreasing]
    length: Length,
) -> Angle {
    atan_degrees(depth / length)
}

/// Length of a straight ramp along the surface: depth / tan(ramp angle).
#[formula(
    source = "Plane geometry; common practice",
    inverse(depth = ramp_length * tan_degrees(ramp_angle)),
    inverse(ramp_angle = atan_degrees(depth / ramp_length))
)]
pub fn ramp_length(
    #[term(ramp_depth)]
    #[increasing]
    depth: Length,
    /// Angle of the ramp below the surface.
    #[above(0.0)]
    #[below(90.0)]
    #[decreasing]
    ramp_angle: Angle,
) -> Length {
    depth * (cos_degrees(ramp_angle) / sin_degrees(ramp_angle))
}

/// Path of the cutter's centre down a ramp or a helix: depth / sin(entry angle).
///
/// With the feed rate along the path it gives the time of the entry (`cutting_time`).
#[formula(
    source = "Plane geometry; a helix is a ramp round a cylinder",
    inverse(depth = entry_travel * sin_degrees(entry_angle))
)]
pub fn entry_travel(
    /// Depth gained along the path.
    #[positive]
    #[increasing]
    depth: Length,
    /// Angle of the path below the surface.
    #[positive]
    #[at_most(90.0)]
    #[decreasing]
    entry_angle: Angle,
) -> Length {
    depth / sin_degrees(entry_angle)
}

/// Angle of a helical entry, on the path of the cutter's centre: atan(pitch / (π · (hole - cutter))).
///
/// A cutter that does not cut at its centre leaves a pillar in a hole larger than twice its diameter, and
/// in a hole not much larger than itself its middle rubs; its maker states the holes and angles that it
/// bears.
#[formula(
    source = "Plane geometry of the helix; common practice",
    rule(hole_diameter > cutter_diameter, "hole_diameter must be greater than cutter_diameter"),
    inverse(helix_pitch = PI * (hole_diameter - cutter_diameter) * tan_degrees(helix_entry_angle)),
    inverse(hole_diameter = cutter_diameter + helix_pitch / (PI * tan_degrees(helix_entry_angle)))
)]
pub fn helix_entry_angle(
    /// Depth gained in one turn of the helix.
    #[positive]
    #[increasing]
    helix_pitch: Length,
    #[decreasing] hole_diameter: Length,
    #[increasing] cutter_diameter: Length,
) -> Angle {
    atan_degrees(helix_pitch / (PI * (hole_diameter - cutter_diameter)))
}

/// Pitch of a helical entry for a given angle: π · (hole diameter - cutter diameter) · tan(entry angle).
#[formula(
    source = "Plane geometry of the helix; common practice",
    rule(hole_diameter > cutter_diameter, "hole_diameter must be greater than cutter_diameter"),
    inverse(hole_diameter = cutter_diameter + helix_entry_pitch / (PI * tan_degrees(entry_angle))),
    inverse(cutter_diameter = hole_diameter - helix_entry_pitch / (PI * tan_degrees(entry_angle)))
)]
pub fn helix_entry_pitch(
    /// Angle of the path of the cutter's centre below the surface.
    #[above(0.0)]
    #[below(90.0)]
    #[increasing]
    entry_angle: Angle,
    #[increasing] hole_diameter: Length,
    #[decreasing] cutter_diameter: Length,
) -> Length {
    PI * (hole_diameter - cutter_diameter) * tan_degrees(entry_angle)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&RAMP_ANGLE, &RAMP_LENGTH, &ENTRY_TRAVEL, &HELIX_ENTRY_ANGLE, &HELIX_ENTRY_PITCH];
