//! How far the force of the cut bends a tool in steps: an end mill with a neck, a boring head on an arbor.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// How far a stepped tool bends, and what it bears.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct SteppedToolDeflection {
    /// Deflection at the tip.
    pub deflection: Length,
    /// Bending stress where the thin part begins.
    pub neck_stress: Stress,
    /// Bending stress at the holder.
    pub shank_stress: Stress,
}

/// Deflection of a tool of two diameters: force / (3 E) · (neck³ / I_neck + (overhang³ - neck³) / I_shank).
///
/// With I = π/64 · d⁴. The holder, the spindle and the seat of the shank give way too, so the true figure is greater. Of a fluted
/// end mill take about 0.8 of its diameter for the neck.
#[formula(
    source = "Cantilever in two steps with a force at its end, elementary beam theory; 0.8 of the diameter for flutes is common \
              practice",
    rule(neck_length <= overhang, "neck_length must be at most overhang")
)]
pub fn stepped_tool_deflection(
    /// Force across the tool, at its tip.
    #[non_negative]
    #[increasing(deflection, neck_stress, shank_stress)]
    force: Force,
    /// Overhang of the whole tool, from the holder to the tip.
    #[positive]
    #[increasing(deflection, shank_stress)]
    overhang: Length,
    /// Length of the thin part, from the tip.
    #[non_negative]
    #[increasing(neck_stress)]
    neck_length: Length,
    /// Diameter of the thin part.
    #[positive]
    #[decreasing(deflection, neck_stress)]
    neck_diameter: Length,
    #[decreasing(deflection, shank_stress)] shank_diameter: Length,
    /// Modulus of elasticity of the tool: about 210 GPa for high-speed steel, 550 to 650 GPa for carbide.
    #[positive]
    #[decreasing(deflection)]
    modulus: Modulus,
) -> SteppedToolDeflection {
    // Ratios first, so that powers of lengths neither overflow nor vanish.
    let (neck, base, tip) =
        (neck_length / neck_diameter, overhang / shank_diameter, neck_length / shank_diameter);
    let bent = |diameter: f64, cubes: f64| 64.0 / (3.0 * PI) * (force / diameter / modulus) * cubes;
    let stress = |diameter: f64, slender: f64| 32.0 / PI * (force / diameter) / diameter * slender;
    BareSteppedToolDeflection {
        deflection: bent(neck_diameter, neck * neck * neck)
            + bent(shank_diameter, (base - tip) * (base * base + base * tip + tip * tip)),
        neck_stress: stress(neck_diameter, neck),
        shank_stress: stress(shank_diameter, base),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&STEPPED_TOOL_DEFLECTION];
