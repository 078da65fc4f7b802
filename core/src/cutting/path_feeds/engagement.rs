//! How far a cutter is in the work on a curved path.
use crate::formula::Formula;
use crate::math::arc_versine_degrees;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// How far a cutter is in the work on a curved path.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct ArcEngagement {
    /// From where a tooth enters to where it leaves.
    pub engagement_angle: Angle,
    /// The radial width of a straight cut with the same engagement.
    pub straight_width: Length,
}

/// Engagement of a side cut on an arc: acos(1 - 2 · straight width / cutter diameter).
///
/// The straight width is radial width · (1 + path curvature · (cutter diameter - radial width) / 2), at most the cutter's diameter.
/// Inside an arc the cutter is further in the work than on a straight line, outside less.
#[formula(
    source = "Plane geometry: where the circle of the cutter meets that of the wall before the cut",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    rule(
        1.0 + 0.5 * path_curvature * cutter_diameter >= 0.0,
        "path_curvature must be at least -2 / cutter_diameter: outside an arc the centre runs no closer than the cutter's radius"
    )
)]
pub fn arc_engagement(
    cutter_diameter: Length,
    #[positive] radial_width: Length,
    /// Curvature of the path of the cutter's centre: positive inside an arc, negative outside, 0 on a straight line.
    #[increasing(engagement_angle, straight_width)]
    path_curvature: Curvature,
) -> ArcEngagement {
    let ratio = width_ratio(radial_width / cutter_diameter, path_curvature * cutter_diameter);
    BareArcEngagement {
        engagement_angle: arc_versine_degrees(2.0 * ratio),
        straight_width: ratio * cutter_diameter,
    }
}

/// Radial width of a straight cut of the same engagement, over the cutter's diameter; the curvature is that of the path times
/// the diameter.
#[inline(always)]
pub(super) fn width_ratio(width: f64, curvature: f64) -> f64 {
    (width * (1.0 + 0.5 * curvature * (1.0 - width))).min(1.0)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&ARC_ENGAGEMENT];
