//! Ball and bull-nose cutters: their effective diameter, and the scallops that they leave.
use crate::formula::Formula;
use crate::math::{arc_versine_degrees, cos_degrees, sin_degrees};
use crate::quantity::*;
use tenths_macros::formula;

/// Effective diameter of a ball cutter: 2 √(axial depth · (diameter - axial depth)).
///
/// It is the greatest at which the cutter cuts, the whole diameter from half of it down.
/// Surface speed is that of the effective diameter, not of the shank. The very tip stands still.
#[formula(
    source = "Plane geometry, as in Dapra, ball nose technical data",
    rule(axial_depth <= ball_diameter, "axial_depth must be at most ball_diameter")
)]
pub fn ball_effective_diameter(
    #[increasing] ball_diameter: Length,
    #[positive]
    #[increasing]
    axial_depth: Length,
) -> Length {
    let depth = (axial_depth / ball_diameter).min(0.5);
    2.0 * ball_diameter * (depth * (1.0 - depth)).sqrt()
}

/// Effective diameter of a tilted ball cutter: diameter · sin(tilt + acos(1 - 2 · axial depth / diameter)).
///
/// It is the whole diameter where that angle passes 90°.
/// Tilted in its feed or across it, the tip, which stands still, keeps out of the cut.
#[formula(
    source = "Plane geometry; a relation that tool makers give, from memory",
    rule(axial_depth <= ball_diameter, "axial_depth must be at most ball_diameter")
)]
pub fn tilted_ball_effective_diameter(
    #[increasing] ball_diameter: Length,
    /// Depth of cut, square to the surface.
    #[positive]
    #[increasing]
    axial_depth: Length,
    /// Angle between the axis of the cutter and the normal of the surface.
    #[within(0.0, 90.0)]
    #[increasing]
    tilt: Angle,
) -> Length {
    ball_diameter * sin_degrees((tilt + arc_versine_degrees(2.0 * (axial_depth / ball_diameter))).min(90.0))
}

/// Effective diameter of a bull-nose cutter: cutter diameter - 2 r + 2 √(a (2 r - a)).
///
/// Here r is the corner radius and a the axial depth, which counts as the radius from there up.
#[formula(
    source = "Plane geometry",
    rule(2.0 * corner_radius <= cutter_diameter, "corner_radius must be at most half of cutter_diameter")
)]
pub fn bull_nose_effective_diameter(
    /// Diameter of the cutter above its corners.
    #[positive]
    #[increasing]
    cutter_diameter: Length,
    /// Radius of the corners.
    #[positive]
    #[decreasing]
    corner_radius: Length,
    #[positive]
    #[increasing]
    axial_depth: Length,
) -> Length {
    let depth = (axial_depth / corner_radius).min(1.0);
    // What the corner takes off the diameter, in a form that vanishes at its end.
    let short = (1.0 - depth) * (1.0 - depth) / (1.0 + (depth * (2.0 - depth)).sqrt());
    cutter_diameter - 2.0 * corner_radius * short
}

/// Height of the scallops that a ball cutter leaves on a plane: R - √(R² - (stepover / 2)²).
///
/// R is the radius of the ball. On an inclined plane the stepover counts along the surface (`surface_stepover`).
#[formula(
    source = "Plane geometry; common practice",
    rule(stepover <= ball_diameter, "stepover must be at most ball_diameter"),
    inverse(stepover = 2.0 * (scallop_height * (ball_diameter - scallop_height)).sqrt())
)]
pub fn scallop_height(
    #[decreasing] ball_diameter: Length,
    /// Distance from one path of the cutter to the next.
    #[non_negative]
    #[increasing]
    stepover: Length,
) -> Length {
    // The form that does not subtract two near numbers.
    let step = stepover / ball_diameter;
    0.5 * stepover * step / (1.0 + ((1.0 - step) * (1.0 + step)).sqrt())
}

/// Stepover of a ball cutter for a given scallop height on a plane: 2 √(h (diameter - h)).
#[formula(
    source = "Plane geometry; common practice",
    rule(2.0 * scallop_height <= ball_diameter, "scallop_height must be at most half of ball_diameter"),
    inverse(scallop_height = {
        let step = stepover_for_scallop / ball_diameter;
        0.5 * stepover_for_scallop * step / (1.0 + ((1.0 - step) * (1.0 + step)).sqrt())
    })
)]
pub fn stepover_for_scallop(
    #[increasing] ball_diameter: Length,
    /// Height of scallop allowed.
    #[non_negative]
    #[increasing]
    scallop_height: Length,
) -> Length {
    let height = scallop_height / ball_diameter;
    2.0 * ball_diameter * (height * (1.0 - height)).sqrt()
}

/// Stepover along an inclined plane, from that in its projection: stepover / cos(slope).
#[formula(source = "Plane geometry", inverse(stepover = surface_stepover * cos_degrees(slope)))]
pub fn surface_stepover(
    /// Distance from one path of the cutter to the next, seen along the axis of the cutter.
    #[non_negative]
    #[increasing]
    stepover: Length,
    /// Angle of the plane to the one that is square to the cutter's axis, across the paths.
    #[within(0.0, 85.0)]
    #[increasing]
    slope: Angle,
) -> Length {
    stepover / cos_degrees(slope)
}

/// Height of the marks that the teeth of a slab mill leave along the feed: chip load² / (4 · cutter diameter).
///
/// Of a true-running cutter. Run-out soon leaves but one mark a turn; feed per revolution then stands for chip load.
#[formula(
    source = "A. Ghosh and A. K. Mallik, Manufacturing Science (East-West Press), example 4.25, p. 262",
    inverse(cutter_diameter = chip_load * (chip_load / (4.0 * feed_mark_height)))
)]
pub fn feed_mark_height(#[increasing] chip_load: Length, #[decreasing] cutter_diameter: Length) -> Length {
    0.25 * chip_load * (chip_load / cutter_diameter)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &BALL_EFFECTIVE_DIAMETER,
    &TILTED_BALL_EFFECTIVE_DIAMETER,
    &BULL_NOSE_EFFECTIVE_DIAMETER,
    &SCALLOP_HEIGHT,
    &STEPOVER_FOR_SCALLOP,
    &SURFACE_STEPOVER,
    &FEED_MARK_HEIGHT,
];
