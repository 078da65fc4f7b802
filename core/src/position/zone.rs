//! Position: errors and zones, the wall beside a hole, and what a tolerance of position brings into a stack.
//!
//! Zones are round, and position error and tolerance are their diameters.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::{FRAC_1_SQRT_2, PI};
use tenths_macros::{Outcome, formula};

/// Position error of a feature from the offsets of its axis or centre: 2 · √(x² + y² + z²).
///
/// The diameter of the zone, round the true position, on whose edge the axis lies. A verdict at the very limit needs
/// exact sizes: leave it to the position check.
#[formula(
    source = "ASME Y14.5-2018, position: a zone round the true position, its tolerance a diameter; common practice"
)]
pub fn position_error(
    /// Offset from the true position along one axis, of either sign.
    x_offset: Length,
    /// Offset along the other.
    y_offset: Length,
    /// Offset along the third, for the centre of a sphere in a spherical zone.
    #[default(0.0)]
    z_offset: Length,
) -> Length {
    2.0 * (x_offset * x_offset + y_offset * y_offset + z_offset * z_offset).sqrt()
}

/// A round zone about a rectangular one.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RoundZone {
    /// Diameter of the round zone.
    pub diameter: Length,
    /// What its area is more than that of the rectangle, as a share: 0.57 for a square.
    pub area_gain: Ratio,
}

/// Round zone through the corners of a zone of plus and minus tolerances: 2 · √(x² + y²).
///
/// Equivalent in its worst case: what serves in the corners of the rectangle serves as far out anywhere.
#[formula(source = "Geometry: the circle about a rectangle; its use for position is common practice")]
pub fn round_zone(
    /// Tolerance along one axis, the number after ±.
    #[positive]
    #[increasing(diameter)]
    x_tolerance: Length,
    /// Tolerance along the other, the number after ±.
    #[positive]
    #[increasing(diameter)]
    y_tolerance: Length,
) -> RoundZone {
    let square = x_tolerance * x_tolerance + y_tolerance * y_tolerance;
    BareRoundZone {
        diameter: 2.0 * square.sqrt(),
        area_gain: 0.25 * PI * (x_tolerance / y_tolerance + y_tolerance / x_tolerance) - 1.0,
    }
}

/// Plus and minus tolerance of the square zone that fits into a round position zone: tolerance / (2 · √2).
#[formula(
    source = "Geometry: the square within a circle; its use for position is common practice",
    inverse(tolerance = square_zone / (0.5 * FRAC_1_SQRT_2))
)]
pub fn square_zone(
    #[term(position_tolerance)]
    #[increasing]
    tolerance: Length,
) -> Length {
    0.5 * FRAC_1_SQRT_2 * tolerance
}

/// Least wall beside a hole whose position tolerance applies at LMC: edge distance - (largest hole + tolerance) / 2.
///
/// Half the virtual condition at LMC reaches towards the edge, for any size of the hole. Negative where the hole
/// breaks out. Take the least edge distance where the edge has a tolerance of its own.
#[formula(
    source = "ASME Y14.5-2018, position tolerance at LMC (clause from memory); common practice",
    inverse(edge_distance = minimum_wall_at_lmc + 0.5 * (largest_hole + tolerance)),
    inverse(largest_hole = 2.0 * (edge_distance - minimum_wall_at_lmc) - tolerance),
    inverse(tolerance = 2.0 * (edge_distance - minimum_wall_at_lmc) - largest_hole)
)]
pub fn minimum_wall_at_lmc(
    /// Distance from the true position of the hole to the edge.
    #[positive]
    #[increasing]
    edge_distance: Length,
    #[decreasing] largest_hole: Length,
    /// Position tolerance at LMC, a diameter.
    #[non_negative]
    #[decreasing]
    tolerance: Length,
) -> Length {
    edge_distance - 0.5 * (largest_hole + tolerance)
}

/// Contribution of a position tolerance to a linear stack, as 0 ± this: (tolerance + size tolerance + datum shift) / 2.
///
/// For a stack that goes through the axis of the feature. Regardless of feature size the tolerance alone counts; at
/// MMC or LMC the whole size tolerance may be added to it as a bonus. A stack that goes through the surface of the
/// feature takes `boundary_contribution` instead, which holds size and position together.
#[formula(
    source = "Common practice of tolerance stacks: half the diameter of the zone to either side",
    inverse(tolerance = 2.0 * position_contribution - size_tolerance - datum_shift),
    inverse(size_tolerance = 2.0 * position_contribution - tolerance - datum_shift),
    inverse(datum_shift = 2.0 * position_contribution - tolerance - size_tolerance)
)]
pub fn position_contribution(
    #[term(position_tolerance)]
    #[increasing]
    tolerance: Length,
    /// Upper less lower limit of size of the feature where the tolerance applies at MMC or LMC; otherwise zero.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    size_tolerance: Length,
    /// Greatest clearance of a datum feature that is referenced at its material boundary, a diameter; otherwise zero.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    datum_shift: Length,
) -> Length {
    0.5 * (tolerance + size_tolerance + datum_shift)
}

/// A surface of a feature of size in a stack.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BoundaryContribution {
    /// Distance of the surface from the true position, in the middle of its zone.
    pub radius: Length,
    /// What the surface may be off to either side.
    pub plus_minus: Length,
}

/// What the surface of a hole or shaft brings into a linear stack, from its inner and outer boundary.
///
/// Radius (outer + inner) / 4, plus and minus (outer - inner) / 4. The boundaries hold size, position and bonus
/// together: the virtual and the resultant condition at MMC or LMC, the inner and the outer boundary regardless of
/// feature size.
#[formula(
    source = "Common practice of tolerance stacks: boundaries as equal plus and minus on the radius",
    rule(outer_boundary >= inner_boundary, "outer_boundary must be at least inner_boundary")
)]
pub fn boundary_contribution(
    /// Diameter of the inner boundary.
    #[non_negative]
    #[increasing(radius)]
    #[decreasing(plus_minus)]
    inner_boundary: Length,
    /// Diameter of the outer boundary.
    #[positive]
    #[increasing(radius, plus_minus)]
    outer_boundary: Length,
) -> BoundaryContribution {
    BareBoundaryContribution {
        radius: 0.25 * (outer_boundary + inner_boundary),
        plus_minus: 0.25 * (outer_boundary - inner_boundary),
    }
}

/// Contribution of a circular runout to a linear stack, as 0 ± this: half the full indicator movement.
#[formula(
    source = "P. J. Drake, Dimensioning and Tolerancing Handbook (McGraw-Hill 1999), chapter 9, figure 9-17",
    inverse(runout = 2.0 * runout_contribution)
)]
pub fn runout_contribution(
    /// Circular runout, the full indicator movement.
    #[non_negative]
    #[increasing]
    runout: Length,
) -> Length {
    0.5 * runout
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &POSITION_ERROR,
    &ROUND_ZONE,
    &SQUARE_ZONE,
    &MINIMUM_WALL_AT_LMC,
    &POSITION_CONTRIBUTION,
    &BOUNDARY_CONTRIBUTION,
    &RUNOUT_CONTRIBUTION,
];
