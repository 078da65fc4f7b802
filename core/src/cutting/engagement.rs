//! How far a milling cutter is in the work: engagement angles and teeth in the cut.
use crate::formula::Formula;
use crate::math::{arc_versine_degrees, asin_degrees, atan_degrees, sin_degrees, tan_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Engagement angle of a side cut: acos(1 - 2 · radial width / cutter diameter).
///
/// It spans from where a tooth enters to where it leaves. A side cut has the cutter's rim on one edge of the cut. A
/// slot, as wide as the cutter, engages 180°.
#[formula(
    source = "Plane geometry: the angle whose versine is radial width over cutter radius",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(radial_width = {
        let sine = sin_degrees(0.5 * engagement_angle);
        cutter_diameter * sine * sine
    })
)]
pub fn engagement_angle(
    #[decreasing] cutter_diameter: Length,
    #[positive]
    #[increasing]
    radial_width: Length,
) -> Angle {
    arc_versine_degrees(2.0 * (radial_width / cutter_diameter))
}

/// Engagement angle of a centred cut: 2 · asin(radial width / cutter diameter).
///
/// The cutter's axis is over the middle of the width.
#[formula(
    source = "Plane geometry: the chord is the radial width",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(radial_width = cutter_diameter * sin_degrees(0.5 * centred_engagement_angle))
)]
pub fn centred_engagement_angle(
    #[decreasing] cutter_diameter: Length,
    #[term(centred_width)]
    #[positive]
    #[increasing]
    radial_width: Length,
) -> Angle {
    2.0 * asin_degrees(radial_width / cutter_diameter)
}

/// Where a tooth enters and leaves an offset cut.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct OffsetEngagement {
    /// From where a tooth enters to where it leaves.
    pub engagement_angle: Angle,
    /// Where a tooth meets one edge of the cut, from the direction of the feed: negative on the one side of the
    /// axis, positive on the other.
    pub entry_angle: Angle,
    /// Where it meets the other edge.
    pub exit_angle: Angle,
}

/// Engagement of a cut whose middle lies beside the cutter's axis.
///
/// Its edges lie at asin((2 · offset ± radial width) / cutter diameter) from the direction of the feed.
/// Without offset it is a centred cut, and with half of cutter diameter less radial width a side cut.
#[formula(
    source = "Plane geometry",
    rule(
        2.0 * offset.abs() + radial_width <= cutter_diameter,
        "the cut must lie within the cutter: twice the offset and radial_width together at most cutter_diameter"
    )
)]
pub fn offset_engagement(
    cutter_diameter: Length,
    #[positive]
    #[increasing(engagement_angle, exit_angle)]
    #[decreasing(entry_angle)]
    radial_width: Length,
    #[increasing(entry_angle, exit_angle)] offset: Length,
) -> OffsetEngagement {
    let edges = Edges::new(cutter_diameter, radial_width, offset);
    BareOffsetEngagement {
        engagement_angle: 2.0 * atan_degrees(edges.half_angle_tangent),
        entry_angle: asin_degrees(edges.entry_sine),
        exit_angle: asin_degrees(edges.exit_sine),
    }
}

/// The edges of an offset cut on the circle of the cutter.
pub(super) struct Edges {
    /// Sine of the angle from the direction of the feed to the edge that is further to the negative side.
    pub entry_sine: f64,
    /// The same of the other edge.
    pub exit_sine: f64,
    /// Tangent of half the engagement angle.
    pub half_angle_tangent: f64,
}

impl Edges {
    #[inline(always)]
    pub fn new(cutter_diameter: f64, radial_width: f64, offset: f64) -> Edges {
        let entry_sine = (2.0 * offset - radial_width) / cutter_diameter;
        let exit_sine = (2.0 * offset + radial_width) / cutter_diameter;
        let cosine = |sine: f64| ((1.0 - sine) * (1.0 + sine)).max(0.0).sqrt();
        // Of angles a and b: (sin b - sin a) / (cos a + cos b) = tan((b - a) / 2), however near they are.
        let half_angle_tangent =
            2.0 * (radial_width / cutter_diameter) / (cosine(entry_sine) + cosine(exit_sine));
        Edges { entry_sine, exit_sine, half_angle_tangent }
    }
}

/// Axial contact ratio of a helical cutter: axial depth · tan(helix angle) · teeth / (π · cutter diameter).
///
/// It tells how many teeth cross a line along the axis over the depth of cut.
/// At a whole number the cut runs smoothest, as one tooth leaves it where another enters.
#[formula(
    source = "Plane geometry: depth over axial pitch",
    inverse(axial_depth = axial_contact_ratio * (PI * cutter_diameter) / (tan_degrees(helix_angle) * teeth))
)]
pub fn axial_contact_ratio(
    #[decreasing] cutter_diameter: Length,
    #[increasing] teeth: Count,
    #[positive]
    #[increasing]
    axial_depth: Length,
    /// Helix angle of the teeth; zero for straight ones.
    #[within(0.0, 85.0)]
    #[increasing]
    helix_angle: Angle,
) -> Ratio {
    axial_depth * tan_degrees(helix_angle) / cutter_diameter * (teeth / PI)
}

/// Teeth that are in a cut at once.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TeethEngaged {
    /// Their mean number over a turn.
    pub mean: Ratio,
    /// The greatest number at any time.
    pub greatest: Count,
}

/// Teeth in the cut at once: teeth · engagement angle / 360° + axial contact ratio, and the next whole number.
///
/// A helical tooth counts while any part of it cuts. Below one on average, the cutter leaves the work between
/// teeth and hammers. Teeth are equally spaced.
#[formula(source = "Plane geometry")]
pub fn teeth_engaged(
    #[increasing(mean, greatest)] teeth: Count,
    /// Engagement angle of the cut.
    #[positive]
    #[at_most(360.0)]
    #[increasing(mean, greatest)]
    engagement_angle: Angle,
    /// Axial contact ratio of a helical cutter; zero for straight teeth.
    #[non_negative]
    #[default(0.0)]
    #[increasing(mean, greatest)]
    axial_contact_ratio: Ratio,
) -> TeethEngaged {
    let mean = teeth * engagement_angle / 360.0 + axial_contact_ratio;
    BareTeethEngaged { mean, greatest: mean.ceil() }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&ENGAGEMENT_ANGLE, &CENTRED_ENGAGEMENT_ANGLE, &OFFSET_ENGAGEMENT, &AXIAL_CONTACT_RATIO, &TEETH_ENGAGED];
