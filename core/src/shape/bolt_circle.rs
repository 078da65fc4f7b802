//! Holes on a bolt circle: where they lie, and how they are measured.
use crate::formula::Formula;
use crate::math::{cos_degrees, sin_degrees};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Coordinates of a hole.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BoltHolePosition {
    /// Coordinate along the x axis.
    pub x: Length,
    /// Coordinate along the y axis.
    pub y: Length,
}

/// Coordinates of a hole on a bolt circle, by its number.
///
/// x = centre x + radius · cos(angle) and y = centre y + radius · sin(angle), where the angle is
/// start angle + (hole - 1) · 360° / holes. Hole 1 lies at the start angle, which counts from the x axis; the
/// holes follow counter-clockwise, as angles do, seen with x to the right and y up.
#[formula(source = "Geometry of the circle", rule(hole <= holes, "hole must be at most holes"))]
pub fn bolt_circle_hole(
    bolt_circle_diameter: Length,
    holes: Count,
    /// Number of the hole, from 1.
    #[positive]
    #[whole]
    hole: Count,
    /// Angle of hole 1 from the x axis, counter-clockwise.
    #[within(-360.0, 360.0)]
    #[default(0.0)]
    start_angle: Angle,
    /// Coordinate x of the centre of the circle.
    #[default(0.0)]
    centre_x: Length,
    /// Coordinate y of the centre of the circle.
    #[default(0.0)]
    centre_y: Length,
) -> BoltHolePosition {
    let (radius, angle) = (0.5 * bolt_circle_diameter, start_angle + 360.0 * ((hole - 1.0) / holes));
    BareBoltHolePosition {
        x: centre_x + radius * cos_degrees(angle),
        y: centre_y + radius * sin_degrees(angle),
    }
}

/// Straight distance between two holes of a bolt circle: diameter · sin(steps · 180° / holes).
///
/// From centre to centre; one step between neighbours.
#[formula(
    source = "Geometry of the circle",
    rule(steps < holes, "steps must be less than holes"),
    inverse(bolt_circle_diameter = bolt_circle_chord / sin_degrees(180.0 * (steps / holes)))
)]
pub fn bolt_circle_chord(
    #[increasing] bolt_circle_diameter: Length,
    holes: Count,
    /// How many holes further on the circle the second one lies.
    #[whole]
    #[positive]
    #[default(1.0)]
    steps: Count,
) -> Length {
    bolt_circle_diameter * sin_degrees(180.0 * (steps / holes))
}

/// Greatest measurement over pins in the holes of a bolt circle.
///
/// Diameter + pin diameter over opposite pins of an even number of holes, and diameter · cos(90° / holes) + pin
/// diameter over the pair farthest apart of an odd number. The pins fit their holes without play.
#[formula(
    source = "Geometry of the circle",
    inverse(bolt_circle_diameter = (bolt_circle_over_pins - pin_diameter) / farthest(holes)),
    inverse(pin_diameter = bolt_circle_over_pins - bolt_circle_diameter * farthest(holes))
)]
pub fn bolt_circle_over_pins(
    #[increasing] bolt_circle_diameter: Length,
    #[within(2.0, 1e6)] holes: Count,
    #[increasing] pin_diameter: Length,
) -> Length {
    bolt_circle_diameter * farthest(holes) + pin_diameter
}

/// Distance between the two holes farthest apart, over the diameter of the circle.
fn farthest(holes: f64) -> f64 {
    let odd = holes - 2.0 * (0.5 * holes).trunc();
    cos_degrees(90.0 * odd / holes)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&BOLT_CIRCLE_HOLE, &BOLT_CIRCLE_CHORD, &BOLT_CIRCLE_OVER_PINS];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_hole_is_one_of_the_holes() {
        let error = BOLT_CIRCLE_HOLE.call(Units::Metric, &[100.0, 6.0, 7.0, 0.0, 0.0, 0.0], &mut [0.0; 2]);
        let text = "bolt_circle_hole: hole must be at most holes (holes = 6, hole = 7)";
        assert_eq!(error.unwrap_err().to_string(), text);
    }

    // Four holes lie on the axes, to the bit.
    #[test]
    fn holes_on_the_axes_are_exact() {
        for (hole, place) in (1..).zip([[5.0, 0.0], [0.0, 5.0], [-5.0, 0.0], [0.0, -5.0]]) {
            let mut y = [0.0; 2];
            BOLT_CIRCLE_HOLE.call(Units::Inch, &[10.0, 4.0, f64::from(hole), 0.0, 0.0, 0.0], &mut y).unwrap();
            assert_eq!(y, place);
        }
    }
}
