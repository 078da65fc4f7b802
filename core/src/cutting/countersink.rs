//! Cones at the mouth of a hole: countersinks, chamfers, spot and centre drilling.
use super::drilling::cone_slenderness;
use crate::formula::Formula;
use crate::math::atan_degrees;
use crate::quantity::*;
use tenths_macros::formula;

/// Depth of a countersink below the surface: (diameter - hole diameter) / (2 · tan(included angle / 2)).
///
/// It is also what a countersink travels from its first touch on the edge of the hole. Without a hole, or
/// from the tip of a pointed tool, it is the depth of the tip.
#[formula(
    source = "Plane geometry of the cone; common practice",
    rule(hole_diameter <= diameter, "hole_diameter must be at most diameter"),
    inverse(diameter = countersink_depth / cone_slenderness(included_angle) + hole_diameter),
    inverse(hole_diameter = diameter - countersink_depth / cone_slenderness(included_angle)),
    inverse(included_angle = 2.0 * atan_degrees(0.5 * (diameter - hole_diameter) / countersink_depth))
)]
pub fn countersink_depth(
    #[term(countersink_diameter)]
    #[increasing]
    diameter: Length,
    /// Included angle of the countersink: 90° for metric countersunk screws, 82° for inch ones, 60° for
    /// centres.
    #[above(0.0)]
    #[below(180.0)]
    #[decreasing]
    included_angle: Angle,
    #[term(countersunk_hole_diameter)]
    #[decreasing]
    hole_diameter: Length,
) -> Length {
    (diameter - hole_diameter) * cone_slenderness(included_angle)
}

/// Diameter of a countersink at the surface: hole diameter + 2 · depth · tan(included angle / 2).
#[formula(
    source = "Plane geometry of the cone; common practice",
    inverse(depth = (countersink_diameter - hole_diameter) * cone_slenderness(included_angle)),
    inverse(hole_diameter = countersink_diameter - depth / cone_slenderness(included_angle))
)]
pub fn countersink_diameter(
    /// Depth of the countersink below the surface.
    #[non_negative]
    #[increasing]
    depth: Length,
    /// Included angle of the countersink.
    #[above(0.0)]
    #[below(180.0)]
    #[increasing]
    included_angle: Angle,
    #[term(countersunk_hole_diameter)]
    #[increasing]
    hole_diameter: Length,
) -> Length {
    hole_diameter + depth / cone_slenderness(included_angle)
}

/// Depth of a chamfer along the axis: width on the radius / tan(included angle / 2).
///
/// A chamfer of 45°, made by a tool of 90° included angle, is as deep as it is wide.
#[formula(
    source = "Plane geometry of the cone; common practice",
    inverse(width = chamfer_depth / (2.0 * cone_slenderness(included_angle))),
    inverse(included_angle = 2.0 * atan_degrees(width / chamfer_depth))
)]
pub fn chamfer_depth(
    /// Width of the chamfer across the axis, on the radius.
    #[positive]
    #[increasing]
    width: Length,
    #[term(cone_angle)]
    #[default(90.0)]
    #[decreasing]
    included_angle: Angle,
) -> Length {
    2.0 * width * cone_slenderness(included_angle)
}

/// Depth of a spot drill's tip for a chamfer on the hole that is drilled next.
///
/// It is (hole diameter + 2 · chamfer width - tip diameter) / (2 · tan(point angle / 2)). The spot drill
/// must be larger than the chamfer.
#[formula(
    source = "Plane geometry of the cone; common practice",
    rule(
        tip_diameter <= hole_diameter + 2.0 * chamfer_width,
        "tip_diameter must be at most hole_diameter plus twice chamfer_width"
    ),
    inverse(chamfer_width = 0.5
        * (spot_drill_depth / cone_slenderness(point_angle) + tip_diameter - hole_diameter))
)]
pub fn spot_drill_depth(
    #[increasing] hole_diameter: Length,
    /// Width of the chamfer across the axis, on the radius; zero for a spot as large as the hole.
    #[non_negative]
    #[increasing]
    chamfer_width: Length,
    /// Included angle of the spot drill's point.
    #[above(0.0)]
    #[below(180.0)]
    #[default(90.0)]
    #[decreasing]
    point_angle: Angle,
    /// Diameter of the flat or chisel at the tip; zero for a sharp point.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    tip_diameter: Length,
) -> Length {
    (hole_diameter + 2.0 * chamfer_width - tip_diameter) * cone_slenderness(point_angle)
}

/// Depth of a centre drill's tip for a countersink: pilot length + (diameter - pilot) / (2 · tan(angle / 2)).
#[formula(
    source = "Plane geometry of the cone; the forms of ISO 866 (from memory)",
    rule(pilot_diameter < diameter, "pilot_diameter must be less than diameter"),
    inverse(diameter = pilot_diameter
        + (centre_drill_depth - pilot_length) / cone_slenderness(included_angle)),
    inverse(pilot_length = centre_drill_depth
        - (diameter - pilot_diameter) * cone_slenderness(included_angle))
)]
pub fn centre_drill_depth(
    #[term(countersink_diameter)]
    #[increasing]
    diameter: Length,
    /// Diameter of the pilot.
    #[positive]
    #[decreasing]
    pilot_diameter: Length,
    /// Length of the pilot, from its tip to the cone.
    #[non_negative]
    #[increasing]
    pilot_length: Length,
    #[term(cone_angle)]
    #[default(60.0)]
    #[decreasing]
    included_angle: Angle,
) -> Length {
    pilot_length + (diameter - pilot_diameter) * cone_slenderness(included_angle)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&COUNTERSINK_DEPTH, &COUNTERSINK_DIAMETER, &CHAMFER_DEPTH, &SPOT_DRILL_DEPTH, &CENTRE_DRILL_DEPTH];
