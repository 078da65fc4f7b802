//! Material conditions: virtual and resultant condition of a feature of size, and bonus tolerance.
//!
//! The maximum material condition (MMC) of a hole is its lower limit of size and that of a shaft its upper one; the
//! least material condition (LMC) is the other limit. At MMC or LMC the tolerance grows by what the feature departs
//! from that size. The size that counts is that of the unrelated actual mating envelope at MMC, and of the unrelated
//! actual minimum material envelope at LMC. These are figures of the axis. Where form or orientation make axis and
//! surface disagree, the standard lets the surface decide, which must stay beyond the virtual condition (from
//! memory).
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// The worst boundaries of a feature of size whose position tolerance applies at a material condition.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PositionBoundaries {
    /// Diameter of the virtual condition, the boundary on the side of the material condition: it stays constant.
    pub virtual_condition: Length,
    /// Diameter of the resultant condition, the boundary on the other side, with the whole bonus used.
    pub resultant_condition: Length,
}

/// The boundary inside which `least` leaves off, and the one that `greatest` and the whole bonus reach.
#[inline(always)]
fn inner_virtual(least: f64, greatest: f64, tolerance: f64) -> BarePositionBoundaries {
    BarePositionBoundaries {
        virtual_condition: least - tolerance,
        resultant_condition: greatest + tolerance + (greatest - least),
    }
}

/// The boundary that `greatest` reaches, and the one inside which `least` leaves off with the whole bonus.
#[inline(always)]
fn outer_virtual(least: f64, greatest: f64, tolerance: f64) -> BarePositionBoundaries {
    BarePositionBoundaries {
        virtual_condition: greatest + tolerance,
        resultant_condition: least - tolerance - (greatest - least),
    }
}

/// Virtual and resultant condition of a hole whose position tolerance applies at MMC.
///
/// Virtual condition = smallest hole - tolerance: the shaft of a functional gauge. Resultant condition = largest hole +
/// tolerance + size tolerance, the outer boundary.
#[formula(
    source = "ASME Y14.5-2018, virtual and resultant condition of an internal feature at MMC (clauses from memory)",
    rule(largest_hole >= smallest_hole, "largest_hole must be at least smallest_hole")
)]
pub fn hole_boundaries_at_mmc(
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    smallest_hole: Length,
    #[increasing(resultant_condition)] largest_hole: Length,
    #[term(tolerance_at_mmc)]
    #[decreasing(virtual_condition)]
    #[increasing(resultant_condition)]
    tolerance: Length,
) -> PositionBoundaries {
    inner_virtual(smallest_hole, largest_hole, tolerance)
}

/// Virtual and resultant condition of a hole whose position tolerance applies at LMC.
///
/// Virtual condition = largest hole + tolerance, the outer boundary, which guards the wall beside it. Resultant
/// condition = smallest hole - tolerance - size tolerance, the inner boundary.
#[formula(
    source = "ASME Y14.5-2018, virtual and resultant condition of an internal feature at LMC (clauses from memory)",
    rule(largest_hole >= smallest_hole, "largest_hole must be at least smallest_hole")
)]
pub fn hole_boundaries_at_lmc(
    #[increasing(resultant_condition)] smallest_hole: Length,
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    largest_hole: Length,
    #[term(tolerance_at_lmc)]
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    tolerance: Length,
) -> PositionBoundaries {
    outer_virtual(smallest_hole, largest_hole, tolerance)
}

/// Virtual and resultant condition of a shaft whose position tolerance applies at MMC.
///
/// Virtual condition = largest shaft + tolerance: the hole of a functional gauge. Resultant condition = smallest shaft -
/// tolerance - size tolerance, the inner boundary.
#[formula(
    source = "ASME Y14.5-2018, virtual and resultant condition of an external feature at MMC (clauses from memory)",
    rule(largest_shaft >= smallest_shaft, "largest_shaft must be at least smallest_shaft")
)]
pub fn shaft_boundaries_at_mmc(
    #[increasing(resultant_condition)] smallest_shaft: Length,
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    largest_shaft: Length,
    #[term(tolerance_at_mmc)]
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    tolerance: Length,
) -> PositionBoundaries {
    outer_virtual(smallest_shaft, largest_shaft, tolerance)
}

/// Virtual and resultant condition of a shaft whose position tolerance applies at LMC.
///
/// Virtual condition = smallest shaft - tolerance, the inner boundary. Resultant condition = largest shaft + tolerance +
/// size tolerance, the outer boundary.
#[formula(
    source = "ASME Y14.5-2018, virtual and resultant condition of an external feature at LMC (clauses from memory)",
    rule(largest_shaft >= smallest_shaft, "largest_shaft must be at least smallest_shaft")
)]
pub fn shaft_boundaries_at_lmc(
    #[increasing(virtual_condition)]
    #[decreasing(resultant_condition)]
    smallest_shaft: Length,
    #[increasing(resultant_condition)] largest_shaft: Length,
    #[term(tolerance_at_lmc)]
    #[decreasing(virtual_condition)]
    #[increasing(resultant_condition)]
    tolerance: Length,
) -> PositionBoundaries {
    inner_virtual(smallest_shaft, largest_shaft, tolerance)
}

/// The worst boundaries of a feature of size whose position tolerance applies regardless of feature size.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct FeatureBoundaries {
    /// Diameter of the inner boundary.
    pub inner_boundary: Length,
    /// Diameter of the outer boundary.
    pub outer_boundary: Length,
}

/// Inner and outer boundary of a hole or shaft whose position tolerance applies regardless of feature size.
///
/// Inner boundary = smallest size - tolerance; outer boundary = largest size + tolerance.
#[formula(
    source = "ASME Y14.5-2018, inner and outer boundary regardless of feature size (clauses from memory)",
    rule(largest_size >= smallest_size, "largest_size must be at least smallest_size")
)]
pub fn boundaries_regardless_of_size(
    /// Lower limit of size.
    #[positive]
    #[increasing(inner_boundary)]
    smallest_size: Length,
    /// Upper limit of size.
    #[positive]
    #[increasing(outer_boundary)]
    largest_size: Length,
    #[term(position_tolerance)]
    #[decreasing(inner_boundary)]
    #[increasing(outer_boundary)]
    tolerance: Length,
) -> FeatureBoundaries {
    BareFeatureBoundaries {
        inner_boundary: smallest_size - tolerance,
        outer_boundary: largest_size + tolerance,
    }
}

/// The bonus of a position tolerance that applies at a material condition.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BonusTolerance {
    /// What the feature departs from the material condition.
    pub bonus: Length,
    /// Position tolerance with the bonus, a diameter.
    pub total: Length,
    /// Position tolerance with the whole size tolerance as bonus, the most that it can be.
    pub greatest_total: Length,
}

#[inline(always)]
fn with_bonus(bonus: f64, size_tolerance: f64, tolerance: f64) -> BareBonusTolerance {
    BareBonusTolerance { bonus, total: tolerance + bonus, greatest_total: tolerance + size_tolerance }
}

/// Bonus and total position tolerance of a hole at MMC: the bonus is actual size - smallest hole.
///
/// A measured hole is judged on exact sizes by the position check.
#[formula(
    source = "ASME Y14.5-2018, position tolerance at MMC (clause from memory)",
    rule(actual_size >= smallest_hole, "actual_size must be at least smallest_hole"),
    rule(actual_size <= largest_hole, "actual_size must be at most largest_hole")
)]
pub fn hole_bonus_at_mmc(
    #[decreasing(bonus, total, greatest_total)] smallest_hole: Length,
    #[increasing(greatest_total)] largest_hole: Length,
    /// Actual size: of the unrelated actual mating envelope, the largest cylinder that goes into it.
    #[positive]
    #[increasing(bonus, total)]
    actual_size: Length,
    #[term(tolerance_at_mmc)]
    #[increasing(total, greatest_total)]
    tolerance: Length,
) -> BonusTolerance {
    with_bonus(actual_size - smallest_hole, largest_hole - smallest_hole, tolerance)
}

/// Bonus and total position tolerance of a hole at LMC: the bonus is largest hole - actual size.
///
/// A measured hole is judged on exact sizes by the position check.
#[formula(
    source = "ASME Y14.5-2018, position tolerance at LMC (clause from memory)",
    rule(actual_size >= smallest_hole, "actual_size must be at least smallest_hole"),
    rule(actual_size <= largest_hole, "actual_size must be at most largest_hole")
)]
pub fn hole_bonus_at_lmc(
    #[decreasing(greatest_total)] smallest_hole: Length,
    #[increasing(bonus, total, greatest_total)] largest_hole: Length,
    /// Actual size: of the unrelated actual minimum material envelope, the smallest cylinder that takes in its whole
    /// surface.
    #[positive]
    #[decreasing(bonus, total)]
    actual_size: Length,
    #[term(tolerance_at_lmc)]
    #[increasing(total, greatest_total)]
    tolerance: Length,
) -> BonusTolerance {
    with_bonus(largest_hole - actual_size, largest_hole - smallest_hole, tolerance)
}

/// Bonus and total position tolerance of a shaft at MMC: the bonus is largest shaft - actual size.
///
/// A measured shaft is judged on exact sizes by the position check.
#[formula(
    source = "ASME Y14.5-2018, position tolerance at MMC (clause from memory)",
    rule(actual_size >= smallest_shaft, "actual_size must be at least smallest_shaft"),
    rule(actual_size <= largest_shaft, "actual_size must be at most largest_shaft")
)]
pub fn shaft_bonus_at_mmc(
    #[decreasing(greatest_total)] smallest_shaft: Length,
    #[increasing(bonus, total, greatest_total)] largest_shaft: Length,
    /// Actual size: of the unrelated actual mating envelope, the smallest cylinder that goes over it.
    #[positive]
    #[decreasing(bonus, total)]
    actual_size: Length,
    #[term(tolerance_at_mmc)]
    #[increasing(total, greatest_total)]
    tolerance: Length,
) -> BonusTolerance {
    with_bonus(largest_shaft - actual_size, largest_shaft - smallest_shaft, tolerance)
}

/// Bonus and total position tolerance of a shaft at LMC: the bonus is actual size - smallest shaft.
///
/// A measured shaft is judged on exact sizes by the position check.
#[formula(
    source = "ASME Y14.5-2018, position tolerance at LMC (clause from memory)",
    rule(actual_size >= smallest_shaft, "actual_size must be at least smallest_shaft"),
    rule(actual_size <= largest_shaft, "actual_size must be at most largest_shaft")
)]
pub fn shaft_bonus_at_lmc(
    #[decreasing(bonus, total, greatest_total)] smallest_shaft: Length,
    #[increasing(greatest_total)] largest_shaft: Length,
    /// Actual size: of the unrelated actual minimum material envelope, the largest cylinder that lies within its
    /// material.
    #[positive]
    #[increasing(bonus, total)]
    actual_size: Length,
    #[term(tolerance_at_lmc)]
    #[increasing(total, greatest_total)]
    tolerance: Length,
) -> BonusTolerance {
    with_bonus(actual_size - smallest_shaft, largest_shaft - smallest_shaft, tolerance)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &HOLE_BOUNDARIES_AT_MMC,
    &HOLE_BOUNDARIES_AT_LMC,
    &SHAFT_BOUNDARIES_AT_MMC,
    &SHAFT_BOUNDARIES_AT_LMC,
    &BOUNDARIES_REGARDLESS_OF_SIZE,
    &HOLE_BONUS_AT_MMC,
    &HOLE_BONUS_AT_LMC,
    &SHAFT_BONUS_AT_MMC,
    &SHAFT_BONUS_AT_LMC,
];

#[cfg(test)]
mod tests {
    use super::*;

    // By the definition of the limits of size: both are good, and nothing beyond them.
    #[test]
    fn a_size_outside_its_limits_has_no_bonus() {
        let bonus = |actual| {
            let [least, greatest, actual, tolerance] = [12.0, 12.15, actual, 0.2].map(Length::millimetres);
            hole_bonus_at_mmc(least, greatest, actual, tolerance).map_err(|error| error.to_string())
        };
        assert!(bonus(11.999).unwrap_err().contains("actual_size must be at least smallest_hole"));
        assert!(bonus(12.151).unwrap_err().contains("actual_size must be at most largest_hole"));
        assert_eq!(bonus(12.0).map(|with| with.total.metric()), Ok(0.2));
        assert!(bonus(12.15).is_ok());
    }

    // By the meaning of the words.
    #[test]
    fn limits_the_wrong_way_round_are_refused() {
        let [least, greatest, tolerance] = [9.7, 9.9, 0.05].map(Length::millimetres);
        let refused = shaft_boundaries_at_mmc(greatest, least, tolerance).unwrap_err().to_string();
        assert!(refused.contains("largest_shaft must be at least smallest_shaft"), "{refused}");
    }
}
