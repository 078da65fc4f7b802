//! Thin rings in the jaws of a chuck.
use crate::formula::Formula;
use crate::math::{cos_degrees, sin_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// How jaws deform a ring.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RingInJaws {
    /// How far the ring goes in under each jaw.
    pub inward: Length,
    /// How far it comes out between the jaws.
    pub outward: Length,
    /// Deviation from roundness of a bore that is cut round in the jaws, after they let go: the sum of the two, on the radius.
    pub roundness_error: Length,
    /// Greatest bending stress, under the jaws.
    pub bending_stress: Stress,
}

/// How the jaws of a chuck deform a thin ring, and how far from round a bore comes out that is cut in it.
///
/// With θ half of the angle between jaws, in radians, and P the force of one jaw: under a jaw
/// P R³ / (2 E I) · ((θ + sin θ cos θ) / (2 sin² θ) - 1 / θ), between jaws P R³ / (4 E I) · (2 / θ - 1 / sin θ - θ cos θ / sin² θ),
/// and the moment under a jaw P R / 2 · (1 / θ - cot θ). For a wall up to about a tenth of the mean radius; a thicker ring gives
/// way by shear as well, a ring with a flange or a bottom much less. Pie jaws, a mandrel or a face clamp bend it less.
#[formula(
    source = "Ring under equal radial forces evenly spaced, as in W. C. Young and R. G. Budynas, Roark's Formulas for Stress and \
              Strain, 7th ed., table 9.2, case 7 (from memory)",
    caution(thin_wall),
    rule(wall < mean_diameter, "wall must be less than mean_diameter")
)]
pub fn ring_in_jaws(
    /// Force of one jaw.
    #[non_negative]
    #[increasing(inward, outward, roundness_error, bending_stress)]
    jaw_force: Force,
    /// Mean diameter of the ring: outside diameter less the wall.
    #[positive]
    #[increasing(inward, outward, roundness_error)]
    mean_diameter: Length,
    /// Thickness of the ring.
    #[positive]
    #[decreasing(inward, outward, roundness_error, bending_stress)]
    wall: Length,
    /// Length of the ring, along the axis.
    #[positive]
    #[decreasing(inward, outward, roundness_error, bending_stress)]
    length: Length,
    #[decreasing(inward, outward, roundness_error)] modulus: Modulus,
    /// Number of jaws.
    #[whole]
    #[within(2.0, 24.0)]
    #[default(3.0)]
    jaws: Count,
) -> RingInJaws {
    let (theta, angle) = (PI / jaws, 180.0 / jaws);
    let (sin, cos) = (sin_degrees(angle), cos_degrees(angle));
    let slender = 0.5 * mean_diameter / wall;
    // P R³ / (E I), with I = length · wall³ / 12.
    let bend = 12.0 * (jaw_force / length / modulus) * (slender * slender * slender);
    let inward = 0.5 * bend * ((theta + sin * cos) / (2.0 * sin * sin) - 1.0 / theta);
    let outward = 0.25 * bend * (2.0 / theta - 1.0 / sin - theta * cos / (sin * sin));
    BareRingInJaws {
        inward,
        outward,
        roundness_error: inward + outward,
        bending_stress: 6.0 * (0.5 * (jaw_force / length / wall) * slender) * (1.0 / theta - cos / sin),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&RING_IN_JAWS];
