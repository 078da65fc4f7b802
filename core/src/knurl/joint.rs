//! Knurled joints: a knurl pressed into a softer bore. All of it is an estimate to be proven by a trial.
use super::knurl_growth_base;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Shear strength over yield strength after von Mises: 1 / √3.
const SHEAR_OF_YIELD: f64 = 0.577_350_269_189_625_8;

/// Share of a knurl's grooves that the metal of the bore fills, from 0 to 1: (x / (h - x))².
///
/// Sharp teeth of height h go half the overlap deep, x; what they displace rises between them, without axial flow. The
/// grooves are full where the overlap is as great as the tooth is high: more only spreads the hub. No overlap, or a
/// clearance, fills nothing.
#[formula(source = "Volume conservation for sharp teeth in a softer bore, own derivation", caution(trial))]
pub fn groove_fill(
    /// Overlap on the diameter: what the crests measure more than the bore; a clearance is negative.
    #[range(0.0, ..)]
    #[increasing]
    overlap: Length,
    #[decreasing] pitch: Length,
    #[increasing] profile_angle: Angle,
) -> Ratio {
    fill(overlap / knurl_growth_base(pitch, profile_angle))
}

/// The fill of the grooves for an overlap in heights of the tooth.
#[inline(always)]
fn fill(overlap: f64) -> f64 {
    let depth = 0.5 * overlap.clamp(0.0, 1.0);
    let share = depth / (1.0 - depth);
    share * share
}

/// Upper bound on the torque of a knurled joint, where the weaker metal shears all round the bore: not what it holds.
///
/// Yield strength / √3 on the whole of the bore: π/2 · diameter² · length. Half of the surface, at best, are teeth, and
/// they give way by riding up and by ploughing long before.
#[formula(
    source = "Shear of a cylinder, yield after von Mises: common practice as a bound",
    caution(trial, joint),
    inverse(length = knurled_torque_bound / (SHEAR_OF_YIELD * yield_strength * (0.5 * PI * diameter * diameter))),
    inverse(yield_strength = knurled_torque_bound / (SHEAR_OF_YIELD * (0.5 * PI * diameter * diameter * length)))
)]
pub fn knurled_torque_bound(
    #[term(bore_diameter)]
    #[increasing]
    diameter: Length,
    #[term(contact_length)]
    #[increasing]
    length: Length,
    /// Yield strength of the weaker of hub and shaft.
    #[positive]
    #[increasing]
    yield_strength: Stress,
) -> Torque {
    SHEAR_OF_YIELD * yield_strength * (PI * diameter * length) * (0.5 * diameter)
}

/// A knurled joint at its loosest and at its tightest.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct KnurledJoint {
    /// Height of the sharp tooth; at this overlap the grooves are full.
    pub tooth_height: Length,
    /// Fill of the grooves at the least overlap, from 0 to 1; none where the joint may be loose.
    pub fill_at_loosest: Ratio,
    /// Fill of the grooves at the greatest overlap, from 0 to 1: at 1 the hub is only spread.
    pub fill_at_tightest: Ratio,
    /// Torque that shears the weaker metal all round: a bound, not what the joint holds.
    pub torque_bound: Torque,
    /// Axial force that does so: a bound, not what the joint holds.
    pub axial_force_bound: Force,
}

/// A knurled shaft in a plain bore: fill of the grooves over the tolerances, and upper bounds of torque and force.
///
/// The overlap is what the crests measure more than the bore: least crest less greatest bore to greatest crest less
/// least bore. The knurl is straight or diagonal, and the bore is of the softer metal. Fill is that of `groove_fill`
/// and the bound that of `knurled_torque_bound`. The force to press it in is not computed.
#[formula(
    source = "Volume conservation for sharp teeth in a softer bore, own derivation; shear after von Mises as a bound",
    caution(trial, pressing, joint),
    rule(greatest_overlap >= least_overlap, "greatest_overlap must be at least least_overlap")
)]
pub fn knurled_joint(
    /// Least overlap on the diameter; a clearance is negative.
    #[range(0.0, ..)]
    #[increasing(fill_at_loosest)]
    least_overlap: Length,
    /// Greatest overlap on the diameter.
    #[range(0.0, ..)]
    #[increasing(fill_at_tightest)]
    greatest_overlap: Length,
    #[increasing(tooth_height)]
    #[decreasing(fill_at_loosest, fill_at_tightest)]
    pitch: Length,
    #[term(bore_diameter)]
    #[increasing(torque_bound, axial_force_bound)]
    diameter: Length,
    #[term(contact_length)]
    #[increasing(torque_bound, axial_force_bound)]
    length: Length,
    #[increasing(torque_bound, axial_force_bound)] hub_yield: Stress,
    #[increasing(torque_bound, axial_force_bound)] shaft_yield: Stress,
    #[decreasing(tooth_height)]
    #[increasing(fill_at_loosest, fill_at_tightest)]
    profile_angle: Angle,
) -> KnurledJoint {
    let tooth_height = knurl_growth_base(pitch, profile_angle);
    let weaker = hub_yield.min(shaft_yield);
    BareKnurledJoint {
        tooth_height,
        fill_at_loosest: fill(least_overlap / tooth_height),
        fill_at_tightest: fill(greatest_overlap / tooth_height),
        torque_bound: knurled_torque_bound_base(diameter, length, weaker),
        axial_force_bound: SHEAR_OF_YIELD * weaker * (PI * diameter * length),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&GROOVE_FILL, &KNURLED_TORQUE_BOUND, &KNURLED_JOINT];
