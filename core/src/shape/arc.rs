//! Arcs, their chords and their heights.
use super::on_branch;
use crate::formula::Formula;
use crate::math::{arc_versine, asin, asin_degrees, atan, sin_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Height of an arc over its chord: radius - √(radius² - chord² / 4).
///
/// The sagitta of the arc that is at most half a circle. It is also the depth of a flat as wide as the chord.
#[formula(
    source = "Geometry of the circle",
    rule(chord <= 2.0 * radius, "chord must be at most twice the radius"),
    inverse(chord = on_branch(sagitta <= radius, 2.0 * (sagitta * (2.0 * radius - sagitta)).sqrt())),
    inverse(radius = on_branch(2.0 * sagitta <= chord, arc_radius_base(chord, sagitta)))
)]
pub fn sagitta(#[decreasing] radius: Length, #[increasing] chord: Length) -> Length {
    // r (1 - √(1 - x²)), without the difference of two numbers that are nearly the same.
    let half = 0.5 * (chord / radius);
    radius * (half * half / (1.0 + ((1.0 - half) * (1.0 + half)).sqrt()))
}

/// Radius of an arc from its chord and its height: chord² / (8 · sagitta) + sagitta / 2.
///
/// Holds for an arc of more than half a circle too. Over a short chord the height is small, and an error in it
/// goes into the radius many times over.
#[formula(
    source = "Geometry of the circle",
    inverse(chord = 2.0 * (sagitta * (2.0 * arc_radius - sagitta)).sqrt())
)]
pub fn arc_radius(
    #[positive]
    #[increasing]
    chord: Length,
    #[positive] sagitta: Length,
) -> Length {
    0.5 * sagitta + 0.125 * chord * (chord / sagitta)
}

/// Angle of an arc at its centre, from its chord: 2 asin(chord / (2 · radius)).
///
/// Of the arc that is at most half a circle.
#[formula(
    source = "Geometry of the circle",
    rule(chord <= 2.0 * radius, "chord must be at most twice the radius"),
    inverse(radius = on_branch(arc_angle <= 180.0, 0.5 * chord / sin_degrees(0.5 * arc_angle))),
    inverse(chord = on_branch(arc_angle <= 180.0, chord_base(radius, arc_angle)))
)]
pub fn arc_angle(#[decreasing] radius: Length, #[increasing] chord: Length) -> Angle {
    2.0 * asin_degrees(0.5 * (chord / radius))
}

/// Chord of an arc from its angle at the centre: 2 · radius · sin(arc angle / 2).
#[formula(
    source = "Geometry of the circle",
    inverse(radius = 0.5 * chord / sin_degrees(0.5 * arc_angle))
)]
pub fn chord(#[increasing] radius: Length, arc_angle: Angle) -> Length {
    2.0 * radius * sin_degrees(0.5 * arc_angle)
}

/// Length along an arc from its angle at the centre: π · radius · arc angle / 180°.
#[formula(
    source = "Geometry of the circle",
    inverse(radius = arc_length / (arc_angle * (PI / 180.0))),
    inverse(arc_angle = arc_length / (radius * (PI / 180.0)))
)]
pub fn arc_length(#[increasing] radius: Length, #[increasing] arc_angle: Angle) -> Length {
    radius * (arc_angle * (PI / 180.0))
}

/// Length along an arc from its chord: 2 · radius · asin(chord / (2 · radius)), the angle in radians.
///
/// Of the arc that is at most half a circle.
#[formula(
    source = "Geometry of the circle",
    rule(chord <= 2.0 * radius, "chord must be at most twice the radius"),
    inverse(chord = {
 let angle = arc_length_from_chord / radius * (180.0 / PI);
 on_branch(angle <= 180.0, chord_base(radius, angle))
 })
)]
pub fn arc_length_from_chord(#[decreasing] radius: Length, #[increasing] chord: Length) -> Length {
    2.0 * radius * asin(0.5 * (chord / radius))
}

/// Length along an arc from its chord and its height: 4 · radius · atan(2 · sagitta / chord), in radians.
///
/// The radius is that of `arc_radius`. Holds for an arc of more than half a circle too.
#[formula(source = "Geometry of the circle")]
pub fn arc_length_from_sagitta(
    #[positive] chord: Length,
    #[positive]
    #[increasing]
    sagitta: Length,
) -> Length {
    arc_radius_base(chord, sagitta) * (4.0 * atan(2.0 * (sagitta / chord)))
}

/// Area between an arc and its chord: radius² · (angle - sin(angle)) / 2, the angle in radians.
///
/// What a flat takes off the section of a round bar, where the sagitta is the depth of the flat. The angle
/// at the centre is 2 acos(1 - sagitta / radius).
#[formula(
    source = "Geometry of the circle",
    rule(sagitta <= 2.0 * radius, "sagitta must be at most twice the radius")
)]
pub fn segment_area(#[increasing] radius: Length, #[increasing] sagitta: Length) -> Area {
    let height = sagitta / radius;
    let angle = 2.0 * arc_versine(height);
    let sine = 2.0 * (height * (2.0 - height)).sqrt() * (1.0 - height);
    // Of a small angle the difference keeps no digits, of a large one the series needs too many terms.
    let excess = if angle < 1.0 { arc_less_sine(angle) } else { angle - sine };
    0.5 * radius * radius * excess
}

/// x - sin x by Taylor's series, for x up to 1, where the first term left out is below 1e-18 of the sum.
fn arc_less_sine(x: f64) -> f64 {
    let square = x * x;
    let factors = [342.0, 272.0, 210.0, 156.0, 110.0, 72.0, 42.0, 20.0];
    let sum = factors.into_iter().fold(1.0, |sum, factor| 1.0 - square / factor * sum);
    x * square * (1.0 / 6.0) * sum
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &SAGITTA,
    &ARC_RADIUS,
    &ARC_ANGLE,
    &CHORD,
    &ARC_LENGTH,
    &ARC_LENGTH_FROM_CHORD,
    &ARC_LENGTH_FROM_SAGITTA,
    &SEGMENT_AREA,
];

#[cfg(test)]
mod tests {
    use super::*;

    // The area of a shallow segment tends to 2/3 · chord · height, and its height to chord² / (8 radius).
    #[test]
    fn shallow_arcs_keep_their_digits() {
        let (radius, chord) = (1000.0, 1e-4);
        let height = sagitta_base(radius, chord);
        let parabola = chord * chord / (8.0 * radius);
        assert!((height / parabola - 1.0).abs() < 1e-14);
        let area = segment_area_base(radius, height);
        assert!((area / (2.0 / 3.0 * chord * parabola) - 1.0).abs() < 1e-13);
    }

    #[test]
    fn series_and_difference_meet() {
        let below = segment_area_base(1.0, 0.122_417_438_109_62);
        let above = segment_area_base(1.0, 0.122_417_438_109_64);
        assert!((above / below - 1.0).abs() < 1e-12);
        assert!((segment_area_base(1.0, 2.0) - PI).abs() < 1e-15);
    }
}
