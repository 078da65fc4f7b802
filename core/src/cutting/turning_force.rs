//! Forces and torque of turning.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Main cutting force of turning: specific cutting force · depth · feed per revolution.
///
/// Depth times feed is the area of the chip, at any entering angle; that angle acts through the chip
/// thickness, and so through the specific cutting force.
#[formula(
    source = "Kienzle, specific cutting force times area of the chip (VDI 3206, from memory)",
    inverse(depth = turning_force / (specific_cutting_force * feed_per_revolution)),
    inverse(feed_per_revolution = turning_force / (specific_cutting_force * depth)),
    inverse(specific_cutting_force = turning_force / (depth * feed_per_revolution))
)]
pub fn turning_force(
    #[term(depth_on_radius)]
    #[increasing]
    depth: Length,
    #[increasing] feed_per_revolution: Length,
    #[increasing] specific_cutting_force: Stress,
) -> Force {
    specific_cutting_force * (depth * feed_per_revolution)
}

/// Components of the force of a turning cut.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TurningForces {
    /// Force along the feed, which the slide pushes against.
    pub feed_force: Force,
    /// Force along the radius, which bends the workpiece or the boring bar.
    pub passive_force: Force,
    /// The whole force.
    pub resultant_force: Force,
}

/// Feed force, passive force and resultant of a turning cut, as shares of the main force.
///
/// The shares depend on material, rake, entering angle and wear: at an entering angle near 90° most of the
/// force across the main one goes into the feed, at 45° half of it into the radius, and wear raises both.
#[formula(
    source = "Common practice, no source: textbooks give main, feed and passive force as about 4 : 2 : 1"
)]
pub fn turning_force_components(
    #[increasing(feed_force, passive_force, resultant_force)] cutting_force: Force,
    /// Feed force over main force, commonly 0.25 to 0.6.
    #[non_negative]
    #[range(0.25, 0.6)]
    #[increasing(feed_force, resultant_force)]
    feed_force_ratio: Ratio,
    /// Passive force over main force, commonly 0.2 to 0.5.
    #[non_negative]
    #[range(0.2, 0.5)]
    #[increasing(passive_force, resultant_force)]
    passive_force_ratio: Ratio,
) -> TurningForces {
    let across = feed_force_ratio * feed_force_ratio + passive_force_ratio * passive_force_ratio;
    BareTurningForces {
        feed_force: feed_force_ratio * cutting_force,
        passive_force: passive_force_ratio * cutting_force,
        resultant_force: (1.0 + across).sqrt() * cutting_force,
    }
}

/// Torque that a turning cut asks of the spindle: cutting force · diameter / 2.
#[formula(
    source = "Mechanics; force times lever",
    inverse(cutting_force = 2.0 * turning_torque / workpiece_diameter),
    inverse(workpiece_diameter = 2.0 * turning_torque / cutting_force)
)]
pub fn turning_torque(
    #[increasing] cutting_force: Force,
    /// Diameter at which it acts.
    #[positive]
    #[increasing]
    workpiece_diameter: Length,
) -> Torque {
    0.5 * workpiece_diameter * cutting_force
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&TURNING_FORCE, &TURNING_FORCE_COMPONENTS, &TURNING_TORQUE];
