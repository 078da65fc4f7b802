//! Thickness of the chip in milling, and the chip load that gives a wanted one.
//!
//! The chip that a tooth lifts at an angle φ from the direction of the feed is chip load · sin(entering angle) ·
//! cos φ thick, and its mean is the exact one over the arc of engagement. The entering angle is measured from the
//! machined surface to the edge: 90° is a square shoulder, and the lead angle is its complement.
use super::engagement::Edges;
use crate::formula::Formula;
use crate::math::{arc_versine, asin, asin_degrees, atan, cos_degrees, sin_degrees};
use crate::quantity::*;
use tenths_macros::formula;

/// Largest thickness over chip load of a side cut, for a square shoulder: 2 √(x (1 - x)) up to half the cutter.
#[inline(always)]
pub(super) fn largest_of_side_cut(width_ratio: f64) -> f64 {
    let x = width_ratio.min(0.5);
    2.0 * (x * (1.0 - x)).sqrt()
}

/// Mean thickness over chip load of a side cut, for a square shoulder.
#[inline(always)]
fn mean_of_side_cut(width_ratio: f64) -> f64 {
    2.0 * width_ratio / arc_of_side_cut(width_ratio)
}

/// Angle of engagement of a side cut in radians.
#[inline(always)]
pub(super) fn arc_of_side_cut(width_ratio: f64) -> f64 {
    arc_versine(2.0 * width_ratio)
}

/// Largest chip thickness of a side cut: chip load · sin(entering angle) · 2 √(x (1 - x)).
///
/// Here x is radial width over cutter diameter; from half the cutter up it counts as a half, and the chip is as thick
/// as chip load and entering angle let it be.
///
/// A narrow cut thins the chip: it may then rub where it should cut, unless the chip load is raised
/// (`chip_load_for_chip_thickness`).
#[formula(
    source = "Plane geometry, from the path of the teeth as circles; common practice",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(chip_load = chip_thickness_max
        / (sin_degrees(entering_angle) * largest_of_side_cut(radial_width / cutter_diameter)))
)]
pub fn chip_thickness_max(
    #[increasing] chip_load: Length,
    #[decreasing] cutter_diameter: Length,
    #[positive]
    #[increasing]
    radial_width: Length,
    #[increasing] entering_angle: Angle,
) -> Length {
    chip_load * (sin_degrees(entering_angle) * largest_of_side_cut(radial_width / cutter_diameter))
}

/// Mean chip thickness of a side cut over its arc: chip load · sin(entering angle) · 2 x / φ.
///
/// Here x is radial width over cutter diameter and φ the engagement angle in radians.
#[formula(
    source = "Plane geometry: the mean of the chip over the arc; the centred form is in Dijet, general catalogue \
              2018, p. F007",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(chip_load = chip_thickness_mean
        / (sin_degrees(entering_angle) * mean_of_side_cut(radial_width / cutter_diameter)))
)]
pub fn chip_thickness_mean(
    #[increasing] chip_load: Length,
    cutter_diameter: Length,
    #[positive] radial_width: Length,
    #[increasing] entering_angle: Angle,
) -> Length {
    chip_load * (sin_degrees(entering_angle) * mean_of_side_cut(radial_width / cutter_diameter))
}

/// Chip load that gives a largest chip thickness in a side cut, against radial and axial thinning.
///
/// It is chip thickness / (sin(entering angle) · 2 √(x (1 - x))), where x is radial width over cutter diameter, from
/// half the cutter up a half.
///
/// What a narrow cut allows by its chip alone may be more than tooth, finish or machine stand.
#[formula(
    source = "Plane geometry, from the path of the teeth as circles; common practice",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(chip_thickness = chip_load_for_chip_thickness
        * (sin_degrees(entering_angle) * largest_of_side_cut(radial_width / cutter_diameter)))
)]
pub fn chip_load_for_chip_thickness(
    #[term(wanted_chip_thickness)]
    #[increasing]
    chip_thickness: Length,
    #[increasing] cutter_diameter: Length,
    #[positive]
    #[decreasing]
    radial_width: Length,
    #[decreasing] entering_angle: Angle,
) -> Length {
    chip_thickness / (sin_degrees(entering_angle) * largest_of_side_cut(radial_width / cutter_diameter))
}

/// Mean chip thickness of a centred cut over its arc: chip load · sin(entering angle) · x / asin(x).
///
/// Here x is radial width over cutter diameter. The largest, in its middle, is chip load · sin(entering angle).
#[formula(
    source = "Dijet, general catalogue 2018, p. F007",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter"),
    inverse(chip_load = centred_chip_thickness_mean / sin_degrees(entering_angle)
        * (asin(radial_width / cutter_diameter) / (radial_width / cutter_diameter)))
)]
pub fn centred_chip_thickness_mean(
    #[increasing] chip_load: Length,
    #[increasing] cutter_diameter: Length,
    #[term(centred_width)]
    #[positive]
    #[decreasing]
    radial_width: Length,
    #[increasing] entering_angle: Angle,
) -> Length {
    let width_ratio = radial_width / cutter_diameter;
    chip_load * sin_degrees(entering_angle) * (width_ratio / asin(width_ratio))
}

/// Largest and mean thickness over chip load of an offset cut, for a square shoulder, and the angle of engagement in
/// radians.
#[inline(always)]
pub(super) fn of_offset_cut(cutter_diameter: f64, radial_width: f64, offset: f64) -> (f64, f64, f64) {
    let edges = Edges::new(cutter_diameter, radial_width, offset);
    // The chip is thickest straight ahead, if the cut reaches there, or else at its nearer edge.
    let nearest = edges.entry_sine.max(-edges.exit_sine).max(0.0);
    let largest = ((1.0 - nearest) * (1.0 + nearest)).sqrt();
    let half_angle = atan(edges.half_angle_tangent);
    (largest, radial_width / cutter_diameter / half_angle, 2.0 * half_angle)
}

/// Largest chip thickness of a cut that is off the cutter's centreline.
///
/// Where the cut reaches across the axis it is chip load · sin(entering angle), and beside it √(1 - s²) of that with
/// s = (2 · offset - radial width) / cutter diameter.
#[formula(
    source = "Plane geometry, from the path of the teeth as circles",
    rule(
        2.0 * offset.abs() + radial_width <= cutter_diameter,
        "the cut must lie within the cutter: twice the offset and radial_width together at most cutter_diameter"
    ),
    inverse(chip_load = offset_chip_thickness_max
        / (sin_degrees(entering_angle) * of_offset_cut(cutter_diameter, radial_width, offset).0))
)]
pub fn offset_chip_thickness_max(
    #[increasing] chip_load: Length,
    cutter_diameter: Length,
    #[positive]
    #[increasing]
    radial_width: Length,
    offset: Length,
    #[increasing] entering_angle: Angle,
) -> Length {
    chip_load * (sin_degrees(entering_angle) * of_offset_cut(cutter_diameter, radial_width, offset).0)
}

/// Mean chip thickness over the arc of a cut that is off the cutter's centreline.
///
/// It is chip load · sin(entering angle) · 2 x / φ, where x is radial width over cutter diameter and φ the engagement
/// angle in radians.
#[formula(
    source = "Plane geometry: the mean of the chip over the arc",
    rule(
        2.0 * offset.abs() + radial_width <= cutter_diameter,
        "the cut must lie within the cutter: twice the offset and radial_width together at most cutter_diameter"
    ),
    inverse(chip_load = offset_chip_thickness_mean
        / (sin_degrees(entering_angle) * of_offset_cut(cutter_diameter, radial_width, offset).1))
)]
pub fn offset_chip_thickness_mean(
    #[increasing] chip_load: Length,
    cutter_diameter: Length,
    #[positive] radial_width: Length,
    offset: Length,
    #[increasing] entering_angle: Angle,
) -> Length {
    chip_load * (sin_degrees(entering_angle) * of_offset_cut(cutter_diameter, radial_width, offset).1)
}

/// Mean entering angle of an edge with a rounded corner.
///
/// Its sine is axial depth over the length of edge in the cut, so that area and mean thickness of the chip are right.
/// Within the corner the arc alone cuts, and above it the straight edge at its own entering angle. A round insert
/// has a corner radius of half its diameter.
#[formula(source = "Plane geometry: axial depth over length of engaged edge")]
pub fn mean_entering_angle(
    #[positive]
    #[increasing]
    axial_depth: Length,
    /// Radius of the corner; zero for a sharp one.
    #[non_negative]
    #[decreasing]
    corner_radius: Length,
    /// Entering angle of the straight edge above the corner.
    #[positive]
    #[at_most(90.0)]
    #[default(90.0)]
    entering_angle: Angle,
) -> Angle {
    // Heights over the depth, so that a sharp corner divides nothing by its radius.
    let versine = 1.0 - cos_degrees(entering_angle);
    let radius = corner_radius / axial_depth;
    let straight = (1.0 - radius * versine).max(0.0) / sin_degrees(entering_angle);
    let arc = arc_versine((1.0 / radius).min(versine));
    asin_degrees((1.0 / (radius * arc + straight)).min(1.0))
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &CHIP_THICKNESS_MAX,
    &CHIP_THICKNESS_MEAN,
    &CHIP_LOAD_FOR_CHIP_THICKNESS,
    &CENTRED_CHIP_THICKNESS_MEAN,
    &OFFSET_CHIP_THICKNESS_MAX,
    &OFFSET_CHIP_THICKNESS_MEAN,
    &MEAN_ENTERING_ANGLE,
];
