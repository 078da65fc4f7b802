//! Tapers: their rate, their angle, their diameters, and how a lathe is set for them.
//!
//! The taper is the change of the diameter over the length, a plain number: 1:12 is 0.083333.
use super::on_branch;
use crate::formula::Formula;
use crate::math::{atan_degrees, tan_degrees};
use crate::quantity::*;
use tenths_macros::formula;

/// Taper from two diameters: (large diameter - small diameter) / length.
#[formula(
    source = "Geometry; the definition of ISO 3040",
    rule(small_diameter <= large_diameter, "small_diameter must be at most large_diameter"),
    inverse(large_diameter = small_diameter + taper * length),
    inverse(small_diameter = large_diameter - taper * length),
    inverse(length = (large_diameter - small_diameter) / taper)
)]
pub fn taper(
    #[increasing] large_diameter: Length,
    #[decreasing] small_diameter: Length,
    /// Distance between the two, along the axis.
    #[positive]
    #[decreasing]
    length: Length,
) -> Ratio {
    (large_diameter - small_diameter) / length
}

/// Diameter at the large end of a taper: small diameter + taper · length.
#[formula(
    source = "Geometry; the definition of ISO 3040",
    inverse(small_diameter = taper_large_diameter - taper * length),
    inverse(taper = (taper_large_diameter - small_diameter) / length),
    inverse(length = (taper_large_diameter - small_diameter) / taper)
)]
pub fn taper_large_diameter(
    #[increasing] small_diameter: Length,
    #[increasing] taper: Ratio,
    #[term(taper_length)]
    #[increasing]
    length: Length,
) -> Length {
    small_diameter + taper * length
}

/// Diameter at the small end of a taper: large diameter - taper · length.
#[formula(
    source = "Geometry; the definition of ISO 3040",
    rule(taper * length <= large_diameter, "taper times length must be at most large_diameter"),
    inverse(large_diameter = taper_small_diameter + taper * length),
    inverse(taper = (large_diameter - taper_small_diameter) / length),
    inverse(length = (large_diameter - taper_small_diameter) / taper)
)]
pub fn taper_small_diameter(
    #[increasing] large_diameter: Length,
    #[decreasing] taper: Ratio,
    #[term(taper_length)]
    #[decreasing]
    length: Length,
) -> Length {
    large_diameter - taper * length
}

/// Length of a taper between two diameters: (large diameter - small diameter) / taper.
///
/// Also how far a tapered gauge goes in for a change of the diameter.
#[formula(
    source = "Geometry; the definition of ISO 3040",
    rule(small_diameter <= large_diameter, "small_diameter must be at most large_diameter"),
    inverse(large_diameter = small_diameter + taper * taper_length),
    inverse(small_diameter = large_diameter - taper * taper_length),
    inverse(taper = (large_diameter - small_diameter) / taper_length)
)]
pub fn taper_length(
    #[increasing] large_diameter: Length,
    #[decreasing] small_diameter: Length,
    #[decreasing] taper: Ratio,
) -> Length {
    (large_diameter - small_diameter) / taper
}

/// Taper per foot, in inches: 12 · taper.
#[formula(source = "A foot is 12 in", inverse(taper = taper_per_foot / 12.0))]
pub fn taper_per_foot(#[increasing] taper: Ratio) -> Ratio {
    12.0 * taper
}

/// Taper from the taper per foot: taper per foot / 12.
#[formula(source = "A foot is 12 in", inverse(taper_per_foot = 12.0 * taper_from_per_foot))]
pub fn taper_from_per_foot(
    /// Change of the diameter in inches over one foot of length.
    #[positive]
    #[increasing]
    taper_per_foot: Ratio,
) -> Ratio {
    taper_per_foot / 12.0
}

/// Length over which the diameter changes by one unit: 1 / taper, the x of a taper of 1 : x.
#[formula(source = "The definition of ISO 3040", inverse(taper = 1.0 / taper_ratio))]
pub fn taper_ratio(#[decreasing] taper: Ratio) -> Ratio {
    1.0 / taper
}

/// Included angle of a taper, from side to side: 2 atan(taper / 2).
#[formula(
    source = "Geometry of the cone",
    inverse(taper = on_branch(taper_included_angle < 180.0, 2.0 * tan_degrees(0.5 * taper_included_angle)))
)]
pub fn taper_included_angle(#[increasing] taper: Ratio) -> Angle {
    2.0 * atan_degrees(0.5 * taper)
}

/// Half angle of a taper, from axis to side: atan(taper / 2).
///
/// The angle to which a compound slide is set.
#[formula(
    source = "Geometry of the cone",
    inverse(taper = on_branch(taper_half_angle < 90.0, 2.0 * tan_degrees(taper_half_angle)))
)]
pub fn taper_half_angle(#[increasing] taper: Ratio) -> Angle {
    atan_degrees(0.5 * taper)
}

/// Taper from its included angle, from side to side: 2 tan(included angle / 2).
#[formula(
    source = "Geometry of the cone",
    inverse(included_angle = 2.0 * atan_degrees(0.5 * taper_from_included_angle))
)]
pub fn taper_from_included_angle(
    /// Angle from side to side.
    #[above(0.0)]
    #[below(180.0)]
    #[increasing]
    included_angle: Angle,
) -> Ratio {
    2.0 * tan_degrees(0.5 * included_angle)
}

/// Taper from its half angle, from axis to side: 2 tan(half angle).
#[formula(source = "Geometry of the cone", inverse(half_angle = atan_degrees(0.5 * taper_from_half_angle)))]
pub fn taper_from_half_angle(
    /// Angle from axis to side.
    #[above(0.0)]
    #[below(90.0)]
    #[increasing]
    half_angle: Angle,
) -> Ratio {
    2.0 * tan_degrees(half_angle)
}

/// Setover of the tailstock for a taper between centres: taper · length of the work / 2.
///
/// The whole length of the work counts, wherever the taper lies on it. The usual figure of the shop, that of
/// a slender taper: the exact one is smaller by the cosine of the half angle, at 1:10 by an eighth of a percent.
/// How deep the centres sit in their holes matters more: turn a trial cut, and measure.
#[formula(
    source = "Joshua Rose, Modern Machine-Shop Practice, on turning tapers",
    inverse(taper = 2.0 * tailstock_setover / work_length),
    inverse(work_length = 2.0 * tailstock_setover / taper)
)]
pub fn tailstock_setover(
    #[increasing] taper: Ratio,
    /// Length of the work between the centres.
    #[positive]
    #[increasing]
    work_length: Length,
) -> Length {
    0.5 * taper * work_length
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &TAPER,
    &TAPER_LARGE_DIAMETER,
    &TAPER_SMALL_DIAMETER,
    &TAPER_LENGTH,
    &TAPER_PER_FOOT,
    &TAPER_FROM_PER_FOOT,
    &TAPER_RATIO,
    &TAPER_INCLUDED_ANGLE,
    &TAPER_HALF_ANGLE,
    &TAPER_FROM_INCLUDED_ANGLE,
    &TAPER_FROM_HALF_ANGLE,
    &TAILSTOCK_SETOVER,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_taper_does_not_pass_its_point() {
        let (large, length) = (Length::millimetres(10.0), Length::millimetres(60.0));
        let error = taper_small_diameter(large, Ratio::new(0.2), length).unwrap_err();
        let text = "taper_small_diameter: taper times length must be at most large_diameter \
                    (large_diameter = 10 mm, taper = 0.2, length = 60 mm)";
        assert_eq!(error.to_string(), text);
    }
}
