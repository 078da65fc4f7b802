//! Contact pressure of bars and balls on flat faces, and the force that marks the work (Hertz).
//!
//! Smooth, elastic, without friction, and contacts small beside the bodies.
use crate::formula::Formula;
use crate::math::cbrt;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// A line of contact under load.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BarContact {
    /// Greatest pressure, in the middle of the contact.
    pub pressure: Stress,
    /// Half of the width of the contact.
    pub half_width: Length,
    /// Greatest shear stress, below the surface at 0.79 of the half width.
    pub shear_stress: Stress,
}

/// A spot of contact under load.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BallContact {
    /// Greatest pressure, in the middle of the contact.
    pub pressure: Stress,
    /// Radius of the contact.
    pub contact_radius: Length,
    /// How far the bodies come together.
    pub approach: Length,
}

/// What both bodies together give way: (1 - ν²) / E of each.
#[inline(always)]
fn give(modulus: f64, poisson: f64, other_modulus: f64, other_poisson: f64) -> f64 {
    (1.0 - poisson) * (1.0 + poisson) / modulus
        + (1.0 - other_poisson) * (1.0 + other_poisson) / other_modulus
}

/// Contact of a round bar on a flat face: p = √(force / length / (π R c)), with c the sum of (1 - ν²) / E of both.
///
/// A flank of a V-block, a parallel, or a flat jaw on round work. The ends of a line bear more.
#[formula(
    source = "Hertz, as in R. J. Roark and W. C. Young, Formulas for Stress and Strain, 6th ed., table 33, case 2a \
              (from memory)"
)]
pub fn bar_contact(
    #[term(contact_force)]
    #[increasing(pressure, half_width, shear_stress)]
    force: Force,
    #[term(contact_line)]
    #[decreasing(pressure, half_width, shear_stress)]
    length: Length,
    #[term(bar_diameter)]
    #[decreasing(pressure, shear_stress)]
    #[increasing(half_width)]
    diameter: Length,
    #[term(contact_modulus)]
    #[increasing(pressure, shear_stress)]
    #[decreasing(half_width)]
    modulus: Modulus,
    #[term(contact_poisson)]
    #[increasing(pressure, shear_stress)]
    #[decreasing(half_width)]
    poisson: Ratio,
    #[increasing(pressure, shear_stress)]
    #[decreasing(half_width)]
    other_modulus: Modulus,
    #[increasing(pressure, shear_stress)]
    #[decreasing(half_width)]
    other_poisson: Ratio,
) -> BarContact {
    let give = give(modulus, poisson, other_modulus, other_poisson);
    let radius = 0.5 * diameter;
    let pressure = (force / (PI * length * radius * give)).sqrt();
    BareBarContact { pressure, half_width: 2.0 * radius * give * pressure, shear_stress: 0.300_28 * pressure }
}

/// Contact of a ball or a domed locator on a flat face.
///
/// The contact radius is ∛(3/4 · force · R · c), with c the sum of (1 - ν²) / E of both, and the pressure
/// 1.5 · force / (π · contact radius²).
#[formula(
    source = "Hertz, as in R. J. Roark and W. C. Young, Formulas for Stress and Strain, 6th ed., table 33, case 1a \
              (from memory)"
)]
pub fn ball_contact(
    #[term(contact_force)]
    #[positive]
    #[increasing(pressure, contact_radius, approach)]
    force: Force,
    #[term(dome_diameter)]
    #[decreasing(pressure, approach)]
    #[increasing(contact_radius)]
    diameter: Length,
    #[term(contact_modulus)]
    #[increasing(pressure)]
    #[decreasing(contact_radius, approach)]
    modulus: Modulus,
    #[term(contact_poisson)]
    #[increasing(pressure)]
    #[decreasing(contact_radius, approach)]
    poisson: Ratio,
    #[increasing(pressure)]
    #[decreasing(contact_radius, approach)]
    other_modulus: Modulus,
    #[increasing(pressure)]
    #[decreasing(contact_radius, approach)]
    other_poisson: Ratio,
) -> BallContact {
    let give = give(modulus, poisson, other_modulus, other_poisson);
    let radius = 0.5 * diameter;
    // The share of the radius first, so that powers neither overflow nor vanish.
    let share = cbrt(0.75 * (force / (radius * radius)) * give);
    let contact_radius = share * radius;
    BareBallContact {
        pressure: 1.5 * force / (PI * (contact_radius * contact_radius)),
        contact_radius,
        approach: share * contact_radius,
    }
}

/// Greatest force that a round bar on a flat face bears unmarked: π · length · R · c · (1.67 · yield strength)².
///
/// The softer body begins to yield below its surface; a mark that the eye sees needs more. Clamp through soft or wide pads where
/// the work must not be marked.
#[formula(
    source = "K. L. Johnson, Contact Mechanics (Cambridge 1985), section 6.2, first yield of a line of contact after Tresca \
              at 1.67 times the yield strength (from memory)",
    inverse(length = bar_marking_force
        / (PI * (0.5 * diameter) * give(modulus, poisson, other_modulus, other_poisson)
            * (1.67 * yield_strength * (1.67 * yield_strength))))
)]
pub fn bar_marking_force(
    #[term(softer_yield_strength)]
    #[increasing]
    yield_strength: Stress,
    #[term(contact_line)]
    #[increasing]
    length: Length,
    #[term(bar_diameter)]
    #[increasing]
    diameter: Length,
    #[term(contact_modulus)]
    #[decreasing]
    modulus: Modulus,
    #[term(contact_poisson)]
    #[decreasing]
    poisson: Ratio,
    #[decreasing] other_modulus: Modulus,
    #[decreasing] other_poisson: Ratio,
) -> Force {
    let give = give(modulus, poisson, other_modulus, other_poisson);
    let pressure = 1.67 * yield_strength;
    PI * length * (0.5 * diameter) * give * (pressure * pressure)
}

/// Greatest force that a ball or a domed locator on a flat face bears unmarked: π³ R² c² / 6 · (1.6 · yield strength)³.
///
/// The softer body begins to yield below its surface; a mark that the eye sees needs more.
#[formula(
    source = "K. L. Johnson, Contact Mechanics (Cambridge 1985), section 6.2, first yield of a spot of contact at 1.60 times the \
              yield strength (from memory)"
)]
pub fn ball_marking_force(
    #[term(softer_yield_strength)]
    #[increasing]
    yield_strength: Stress,
    #[term(dome_diameter)]
    #[increasing]
    diameter: Length,
    #[term(contact_modulus)]
    #[decreasing]
    modulus: Modulus,
    #[term(contact_poisson)]
    #[decreasing]
    poisson: Ratio,
    #[decreasing] other_modulus: Modulus,
    #[decreasing] other_poisson: Ratio,
) -> Force {
    let give = give(modulus, poisson, other_modulus, other_poisson);
    let pressure = 1.6 * yield_strength;
    let strain = pressure * give;
    PI * PI * PI / 6.0 * (0.25 * (diameter * diameter)) * (strain * strain) * pressure
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&BAR_CONTACT, &BALL_CONTACT, &BAR_MARKING_FORCE, &BALL_MARKING_FORCE];
