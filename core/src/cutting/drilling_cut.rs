//! Everything about a drilling cut in one call.
use super::drilling::{drilling_removal_rate_base, drilling_time_base, drilling_travel_base};
use super::drilling_force::{drilling_chip_thickness_base, drilling_thrust_base, drilling_torque_base};
use super::force::{
    THICKEST_CHIP, THINNEST_CHIP, cutting_power_base, motor_power_base, specific_cutting_force_base,
};
use super::speed;
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// All figures of a drilling cut from its surface speed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct DrillingCutForTarget {
    /// Spindle speed to program.
    pub spindle_speed: SpindleSpeed,
    /// Feed rate to program.
    pub feed_rate: FeedRate,
    /// Thickness of the chip.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness: Length,
    /// Specific cutting force at that thickness, of the worn tool.
    pub specific_cutting_force: Stress,
    /// Volume of metal removed in unit time.
    pub removal_rate: RemovalRate,
    /// Torque at the drill.
    pub torque: Torque,
    /// Thrust along the axis.
    pub thrust: Force,
    /// Power at the drill.
    pub cutting_power: Power,
    /// Power that the motor gives.
    pub motor_power: Power,
    /// Travel at the feed, with approach, point and breakthrough.
    pub travel: Length,
    /// Time of that travel.
    pub time: Time,
}

/// All figures of a drilling cut from its spindle speed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct DrillingCut {
    /// Surface speed at the rim of the drill.
    pub surface_speed: SurfaceSpeed,
    /// Feed rate to program.
    pub feed_rate: FeedRate,
    /// Thickness of the chip.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness: Length,
    /// Specific cutting force at that thickness, of the worn tool.
    pub specific_cutting_force: Stress,
    /// Volume of metal removed in unit time.
    pub removal_rate: RemovalRate,
    /// Torque at the drill.
    pub torque: Torque,
    /// Thrust along the axis.
    pub thrust: Force,
    /// Power at the drill.
    pub cutting_power: Power,
    /// Power that the motor gives.
    pub motor_power: Power,
    /// Travel at the feed, with approach, point and breakthrough.
    pub travel: Length,
    /// Time of that travel.
    pub time: Time,
}

/// Everything about a drilling cut from the surface speed wanted, for a drill with two lips in solid metal.
///
/// What to program, and what it asks of the machine, by the formulas `spindle_speed`, `feed_rate`,
/// `drilling_chip_thickness`, `specific_cutting_force`, `drilling_removal_rate`, `drilling_torque`,
/// `drilling_thrust`, `cutting_power`, `motor_power`, `drilling_travel` and `drilling_time`, one after the
/// other. The time is that of one stroke; `peck_drilling_time` adds pecks.
///
/// Printed formulas for the same hole differ by a factor of two in torque and three in thrust, and these
/// are the low ones: see `drilling_force_range` before choosing machine and clamps. Clamp the work against
/// turning.
#[formula(
    source = "Common practice; the sources of the formulas that it gathers",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0))
)]
pub fn drilling_cut_for_target(
    /// Surface speed wanted at the rim of the drill.
    #[positive]
    #[increasing(spindle_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[decreasing(time)]
    #[power_law]
    surface_speed: SurfaceSpeed,
    #[term(drill_diameter)]
    #[increasing(removal_rate, torque, thrust, cutting_power, motor_power, travel, time)]
    #[decreasing(spindle_speed, feed_rate)]
    diameter: Length,
    #[positive]
    #[increasing(feed_rate, chip_thickness, removal_rate, torque, thrust, cutting_power, motor_power)]
    #[decreasing(specific_cutting_force, time)]
    #[power_law]
    feed_per_revolution: Length,
    #[term(hole_depth)]
    #[increasing(travel, time)]
    depth: Length,
    #[increasing(specific_cutting_force, torque, thrust, cutting_power, motor_power)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    #[increasing(chip_thickness)]
    #[decreasing(specific_cutting_force, torque, cutting_power, motor_power, travel, time)]
    point_angle: Angle,
    #[increasing(travel, time)] approach: Length,
    #[increasing(travel, time)] breakthrough: Length,
    #[increasing(thrust)] thrust_factor: Ratio,
    #[increasing(specific_cutting_force, torque, thrust, cutting_power, motor_power)] wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> DrillingCutForTarget {
    let spindle_speed = speed::spindle_speed_base(surface_speed, diameter);
    let cut = drilling_cut_base(
        spindle_speed,
        diameter,
        feed_per_revolution,
        depth,
        kc11,
        mc,
        point_angle,
        approach,
        breakthrough,
        thrust_factor,
        wear_factor,
        efficiency,
        unit_chip,
    );
    BareDrillingCutForTarget {
        spindle_speed,
        feed_rate: cut.feed_rate,
        chip_thickness: cut.chip_thickness,
        specific_cutting_force: cut.specific_cutting_force,
        removal_rate: cut.removal_rate,
        torque: cut.torque,
        thrust: cut.thrust,
        cutting_power: cut.cutting_power,
        motor_power: cut.motor_power,
        travel: cut.travel,
        time: cut.time,
    }
}

/// Everything about a drilling cut from the spindle speed that is programmed.
///
/// As `drilling_cut_for_target`, with the surface speed that the spindle speed gives at the diameter. Clamp the work
/// against turning.
#[formula(
    source = "Common practice; the sources of the formulas that it gathers",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0))
)]
pub fn drilling_cut(
    #[positive]
    #[increasing(surface_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[decreasing(time)]
    #[power_law]
    spindle_speed: SpindleSpeed,
    #[term(drill_diameter)]
    #[increasing(surface_speed, removal_rate, torque, thrust, cutting_power, motor_power, travel, time)]
    diameter: Length,
    #[positive]
    #[increasing(feed_rate, chip_thickness, removal_rate, torque, thrust, cutting_power, motor_power)]
    #[decreasing(specific_cutting_force, time)]
    #[power_law]
    feed_per_revolution: Length,
    #[term(hole_depth)]
    #[increasing(travel, time)]
    depth: Length,
    #[increasing(specific_cutting_force, torque, thrust, cutting_power, motor_power)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    #[increasing(chip_thickness)]
    #[decreasing(specific_cutting_force, torque, cutting_power, motor_power, travel, time)]
    point_angle: Angle,
    #[increasing(travel, time)] approach: Length,
    #[increasing(travel, time)] breakthrough: Length,
    #[increasing(thrust)] thrust_factor: Ratio,
    #[increasing(specific_cutting_force, torque, thrust, cutting_power, motor_power)] wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> DrillingCut {
    let feed_rate = speed::feed_rate_base(feed_per_revolution, 1.0, spindle_speed);
    let chip_thickness = drilling_chip_thickness_base(feed_per_revolution, point_angle);
    let specific_cutting_force =
        specific_cutting_force_base(kc11, chip_thickness, mc, unit_chip) * wear_factor;
    let removal_rate = drilling_removal_rate_base(diameter, feed_rate, 0.0);
    let cutting_power = cutting_power_base(removal_rate, specific_cutting_force);
    let travel = drilling_travel_base(depth, diameter, point_angle, approach, breakthrough);
    BareDrillingCut {
        surface_speed: speed::surface_speed_base(diameter, spindle_speed),
        feed_rate,
        chip_thickness,
        specific_cutting_force,
        removal_rate,
        torque: drilling_torque_base(diameter, feed_per_revolution, specific_cutting_force, 0.0),
        thrust: drilling_thrust_base(
            diameter,
            feed_per_revolution,
            specific_cutting_force,
            point_angle,
            thrust_factor,
        ),
        cutting_power,
        motor_power: motor_power_base(cutting_power, efficiency),
        travel,
        time: drilling_time_base(travel, feed_per_revolution, spindle_speed),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&DRILLING_CUT_FOR_TARGET, &DRILLING_CUT];
