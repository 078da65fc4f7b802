//! Milling: removal rate, travel, forces on a tooth and the bending of the tool.
use crate::formula::Formula;
use crate::math::sin_degrees;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Metal removal rate of a milling cutter, in volume per unit of time: axial depth · radial width · feed rate.
///
/// For a cut of full section. Entry, exit and returns in air lower the mean over a pass.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(axial_depth = milling_removal_rate / (radial_width * feed_rate)),
    inverse(radial_width = milling_removal_rate / (axial_depth * feed_rate)),
    inverse(feed_rate = milling_removal_rate / (axial_depth * radial_width))
)]
pub fn milling_removal_rate(
    #[increasing] axial_depth: Length,
    #[increasing] radial_width: Length,
    #[increasing] feed_rate: FeedRate,
) -> RemovalRate {
    axial_depth * radial_width * feed_rate
}

/// Approach of a centred face mill, from first touch to its full width of cut: (D - √(D² - w²)) / 2.
///
/// D is the cutter's diameter and w the width of cut.
/// A pass that must leave no marks runs on until the cutter is clear: its travel is length + cutter diameter.
#[formula(
    source = "Plane geometry; P. C. Sharma, A Textbook of Production Engineering, 11th ed., example 4.18, p. 228",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter")
)]
pub fn face_approach(
    #[decreasing] cutter_diameter: Length,
    #[term(centred_width)]
    #[increasing]
    radial_width: Length,
) -> Length {
    let width = radial_width / cutter_diameter;
    0.5 * radial_width * width / (1.0 + ((1.0 - width) * (1.0 + width)).sqrt())
}

/// Approach of a slab mill to its full depth, or of a side cut to its full width: √(d (D - d)).
///
/// D is the cutter's diameter, and d the depth of a slab cut or the width of a cut with the cutter's rim on one edge.
/// From half of the cutter up it is the radius.
#[formula(
    source = "Plane geometry; P. C. Sharma, A Textbook of Production Engineering, 11th ed., example 15.2, p. 603",
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter")
)]
pub fn side_approach(
    #[increasing] cutter_diameter: Length,
    /// Depth of cut of a slab mill, width of cut of a side or offset face cut.
    #[non_negative]
    #[increasing]
    radial_width: Length,
) -> Length {
    let width = (radial_width / cutter_diameter).min(0.5);
    cutter_diameter * (width * (1.0 - width)).sqrt()
}

/// Time of a milling pass at a steady feed rate: (length + approach + overtravel) / feed rate.
///
/// Rapid moves, acceleration, tool changes and handling come on top.
#[formula(
    source = "Common practice; time is path over speed",
    inverse(length = milling_time * feed_rate - approach - overtravel),
    inverse(feed_rate = (length + approach + overtravel) / milling_time)
)]
pub fn milling_time(
    /// Length of the surface along the feed.
    #[positive]
    #[increasing]
    length: Length,
    #[positive]
    #[decreasing]
    feed_rate: FeedRate,
    /// Travel from first touch to the full cut (`face_approach`, `side_approach`), with clearance.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    approach: Length,
    /// Travel past the end; a face mill that clears the work takes its diameter less the approach.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    overtravel: Length,
) -> Time {
    (length + approach + overtravel) / feed_rate
}

/// Cutting force on one tooth: specific cutting force · axial depth / sin(entering angle) · chip thickness.
///
/// It acts along the path of the tooth. With the largest chip thickness, and the specific force that belongs to it, it
/// is the peak. As many teeth as are engaged share the cut.
#[formula(
    source = "Specific force times area of chip, after O. Kienzle, 1952 (from memory)",
    inverse(axial_depth = tooth_force * sin_degrees(entering_angle) / (specific_cutting_force * chip_thickness)),
    inverse(chip_thickness = tooth_force * sin_degrees(entering_angle) / (specific_cutting_force * axial_depth))
)]
pub fn tooth_force(
    #[increasing] axial_depth: Length,
    /// Thickness of the chip.
    #[non_negative]
    #[increasing]
    chip_thickness: Length,
    /// Specific cutting force at that thickness.
    #[positive]
    #[increasing]
    specific_cutting_force: Stress,
    #[decreasing] entering_angle: Angle,
) -> Force {
    specific_cutting_force * (axial_depth * chip_thickness / sin_degrees(entering_angle))
}

/// Deflection at the tip of a milling tool with a stepped shank, under a force at the tip.
///
/// It is F / (3 E) · (a³ / I of flutes + (overhang³ - a³) / I of shank), with the length a of the flutes. The second
/// moment I of a round section is π d⁴ / 64. Flutes weaken their section: the equivalent diameter is 0.8 of the cutting
/// diameter or so. Holder, collet and spindle give way on top, often by as much again.
#[formula(
    source = "Elastic bending of a stepped cantilever (Castigliano); 0.8 by common practice, no source",
    rule(flute_length <= overhang, "flute_length must be at most overhang"),
    inverse(force = tool_deflection / stepped_give(flute_diameter, flute_length, shank_diameter, overhang, modulus))
)]
pub fn tool_deflection(
    /// Force at the tip, square to the axis.
    #[non_negative]
    #[increasing]
    force: Force,
    /// Equivalent diameter of the fluted part.
    #[positive]
    #[decreasing]
    flute_diameter: Length,
    /// Length of the fluted part.
    #[non_negative]
    flute_length: Length,
    #[decreasing] shank_diameter: Length,
    /// Length from holder to tip.
    #[positive]
    #[increasing]
    overhang: Length,
    /// Modulus of elasticity of the tool: 600 GPa or so for cemented carbide, 210 GPa for high-speed steel.
    #[positive]
    #[decreasing]
    modulus: Modulus,
) -> Length {
    force * stepped_give(flute_diameter, flute_length, shank_diameter, overhang, modulus)
}

/// Deflection for each unit of force.
#[inline(always)]
fn stepped_give(flute: f64, flute_length: f64, shank: f64, overhang: f64, modulus: f64) -> f64 {
    let share = flute_length / overhang;
    let cube = share * share * share;
    // Each part by itself, so that a shank beyond all bounds gives way by nothing, and not by what rounding leaves.
    let part = |diameter: f64| {
        let slender = overhang / diameter;
        slender * slender * slender / diameter
    };
    64.0 / (3.0 * PI) / modulus * (part(flute) * cube + part(shank) * (1.0 - cube))
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&MILLING_REMOVAL_RATE, &FACE_APPROACH, &SIDE_APPROACH, &MILLING_TIME, &TOOTH_FORCE, &TOOL_DEFLECTION];
