//! The mode of a tool from its geometry, where nothing was measured.
use super::error::StabilityError;
use super::structure::VibrationMode;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// The first mode of a tool as a beam that is built in at its holder.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct CantileverMode {
    /// Its natural frequency.
    pub frequency: Frequency,
    /// Its stiffness at the tip: force over deflection of this mode alone.
    pub stiffness: Stiffness,
}

/// Estimate of a tool's first mode: a round beam, built in at its holder and free at its tip.
///
/// Frequency is 1.875104² / (2 π) · √(E I / (ρ A)) / overhang², and stiffness 1.875104⁴ / 4 · E I / overhang³, 3 % above that
/// of a force that rests at the tip. Holder, spindle and the flutes of a cutter give way too, so that the true tool is softer
/// and slower, often by half: measure it where it matters. For an end mill take 0.8 of its diameter, common practice.
#[formula(
    source = "Bending of a uniform beam after Euler and Bernoulli, built in at one end, first root 1.875104; its modal mass at \
              the tip is a quarter of the beam's (S. S. Rao, Mechanical Vibrations, from memory)",
    constant(newton: Force = Force::newtons(1.0)),
    constant(kilogram: Mass = Mass::kilograms(1.0)),
    constant(metre: Length = Length::millimetres(1000.0)),
    constant(second: Time = Time::minutes(1.0 / 60.0)),
    rule(bore < diameter, "bore must be less than diameter")
)]
pub fn cantilever_mode(
    /// Diameter of the bar, shank or cutter.
    #[positive]
    #[increasing(frequency, stiffness)]
    diameter: Length,
    /// Length that sticks out of the holder.
    #[positive]
    #[decreasing(frequency, stiffness)]
    overhang: Length,
    /// Modulus of elasticity of the tool: about 200 GPa for steel, 550 to 650 GPa for carbide.
    #[positive]
    #[increasing(frequency, stiffness)]
    modulus: Modulus,
    /// Density of the tool: 7.85 g/cm³ for steel, 14 to 15 g/cm³ for carbide.
    #[positive]
    #[decreasing(frequency)]
    density: Density,
    /// Bore along the tool; zero for a solid one.
    #[non_negative]
    #[default(0.0)]
    bore: Length,
) -> CantileverMode {
    let (slender, hollow) = (diameter / overhang, bore / diameter);
    let hollow = hollow * hollow;
    // The speed of sound along the bar, for which mass meets force.
    let sound = (modulus / newton * (metre * metre) / (density / kilogram * (metre * metre * metre))).sqrt()
        * (metre / second);
    BareCantileverMode {
        frequency: ROOT * ROOT / (2.0 * PI) * (0.25 * (1.0 + hollow).sqrt()) * slender * (sound / overhang),
        stiffness: ROOT * ROOT * ROOT * ROOT / 4.0
            * (PI / 64.0 * ((1.0 - hollow) * (1.0 + hollow)))
            * (modulus * diameter)
            * (slender * slender * slender),
    }
}

/// The first root of cos x · cosh x = -1.
const ROOT: f64 = 1.875_104_068_711_961;

impl VibrationMode {
    /// The first mode of a tool from its geometry, as [`cantilever_mode`] gives it, marked as an estimate.
    ///
    /// # Errors
    /// As [`cantilever_mode`], and [`StabilityError::Number`] for a damping ratio that is not between 0 and 1.
    pub fn of_tool(
        diameter: Length,
        overhang: Length,
        modulus: Modulus,
        density: Density,
        bore: Length,
        damping_ratio: f64,
    ) -> Result<VibrationMode, StabilityError> {
        if !(damping_ratio > 0.0 && damping_ratio < 1.0) {
            let value = damping_ratio.to_string();
            return Err(StabilityError::Number { what: "damping_ratio", must: "between 0 and 1", value });
        }
        let CantileverMode { frequency, stiffness } =
            cantilever_mode(diameter, overhang, modulus, density, bore)?;
        Ok(VibrationMode { frequency, stiffness, damping_ratio, direction: None, estimated: true })
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&CANTILEVER_MODE];
