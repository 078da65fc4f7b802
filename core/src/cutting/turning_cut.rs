//! Everything about a turning cut in one call.
use super::force::{
    THICKEST_CHIP, THINNEST_CHIP, specific_cutting_force_base, specific_cutting_force_corrected_base,
};
use super::force::{cutting_power_base, motor_power_base};
use super::turning::{turning_chip_thickness_base, turning_removal_rate_base, turning_time_base};
use super::turning_force::{turning_force_base, turning_torque_base};
use super::{finish, speed};
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// All figures of a turning cut from its surface speed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TurningCutForTarget {
    /// Spindle speed to program.
    pub spindle_speed: SpindleSpeed,
    /// Feed rate along the cut.
    pub feed_rate: FeedRate,
    /// Volume of metal removed in unit time, at the given diameter.
    pub removal_rate: RemovalRate,
    /// Thickness of the chip.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness: Length,
    /// Specific cutting force, corrected for rake and wear.
    pub specific_cutting_force: Stress,
    /// Main cutting force, along the motion of the edge.
    pub cutting_force: Force,
    /// Power at the cut.
    pub cutting_power: Power,
    /// Power that the motor gives.
    pub motor_power: Power,
    /// Torque at the spindle.
    pub torque: Torque,
    /// Time of one pass.
    pub time: Time,
    /// Theoretical roughness Ra, as a quarter of Rt.
    pub roughness_ra: RoughnessRa,
    /// Theoretical peak-to-valley height Rt.
    pub roughness_rt: RoughnessRz,
}

/// All figures of a turning cut from its spindle speed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TurningCut {
    /// Surface speed at the given diameter.
    pub surface_speed: SurfaceSpeed,
    /// Feed rate along the cut.
    pub feed_rate: FeedRate,
    /// Volume of metal removed in unit time, at the given diameter.
    pub removal_rate: RemovalRate,
    /// Thickness of the chip.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness: Length,
    /// Specific cutting force, corrected for rake and wear.
    pub specific_cutting_force: Stress,
    /// Main cutting force, along the motion of the edge.
    pub cutting_force: Force,
    /// Power at the cut.
    pub cutting_power: Power,
    /// Power that the motor gives.
    pub motor_power: Power,
    /// Torque at the spindle.
    pub torque: Torque,
    /// Time of one pass.
    pub time: Time,
    /// Theoretical roughness Ra, as a quarter of Rt.
    pub roughness_ra: RoughnessRa,
    /// Theoretical peak-to-valley height Rt.
    pub roughness_rt: RoughnessRz,
}

/// Everything about a turning cut from the surface speed wanted.
///
/// What to program, and what it asks of the machine, by the formulas `spindle_speed`, `feed_rate`,
/// `turning_removal_rate`, `turning_chip_thickness`, `specific_cutting_force` and its correction,
/// `turning_force`, `cutting_power`, `motor_power`, `turning_torque`, `turning_time`, `roughness_ra` and
/// `roughness_rt`, one after the other. The diameter is that before the cut in turning and that after it in
/// boring: the larger one, at which speed, power and torque are calculated.
///
/// Forces come out within about a fifth at best.
#[formula(
    source = "Common practice; the sources of the formulas that it gathers",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0)),
    rule(2.0 * depth <= workpiece_diameter, "depth must be at most half the workpiece_diameter"),
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    )
)]
pub fn turning_cut_for_target(
    #[term(wanted_surface_speed)]
    #[increasing(spindle_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[decreasing(time)]
    #[power_law]
    surface_speed: SurfaceSpeed,
    #[term(cut_diameter)]
    #[increasing(torque, time)]
    #[decreasing(spindle_speed, feed_rate)]
    #[power_law]
    workpiece_diameter: Length,
    #[positive]
    #[increasing(feed_rate, removal_rate, chip_thickness, cutting_force, cutting_power, motor_power, torque)]
    #[increasing(roughness_ra, roughness_rt)]
    #[decreasing(specific_cutting_force, time)]
    #[power_law]
    feed_per_revolution: Length,
    #[term(depth_on_radius)]
    #[positive]
    #[increasing(removal_rate, cutting_force, cutting_power, motor_power, torque)]
    #[power_law]
    depth: Length,
    #[increasing(time)]
    #[power_law]
    travel: Length,
    #[decreasing(roughness_ra, roughness_rt)]
    #[power_law]
    nose_radius: Length,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    #[term(turning_entering_angle)] entering_angle: Angle,
    #[decreasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    rake_angle: Angle,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> TurningCutForTarget {
    let spindle_speed = speed::spindle_speed_base(surface_speed, workpiece_diameter);
    let removal_rate = turning_removal_rate_base(surface_speed, feed_per_revolution, depth);
    let chip_thickness = turning_chip_thickness_base(feed_per_revolution, entering_angle);
    let sharp = specific_cutting_force_base(kc11, chip_thickness, mc, unit_chip);
    let specific_cutting_force = specific_cutting_force_corrected_base(
        sharp,
        rake_angle,
        reference_rake,
        change_per_degree,
        wear_factor,
    );
    let cutting_force = turning_force_base(depth, feed_per_revolution, specific_cutting_force);
    let cutting_power = cutting_power_base(removal_rate, specific_cutting_force);
    BareTurningCutForTarget {
        spindle_speed,
        feed_rate: speed::feed_rate_base(feed_per_revolution, 1.0, spindle_speed),
        removal_rate,
        chip_thickness,
        specific_cutting_force,
        cutting_force,
        cutting_power,
        motor_power: motor_power_base(cutting_power, efficiency),
        torque: turning_torque_base(cutting_force, workpiece_diameter),
        time: turning_time_base(travel, feed_per_revolution, spindle_speed, 1.0),
        roughness_ra: finish::roughness_ra_base(feed_per_revolution, nose_radius),
        roughness_rt: finish::roughness_rt_base(feed_per_revolution, nose_radius),
    }
}

/// Everything about a turning cut from the spindle speed that is programmed.
///
/// As `turning_cut_for_target`, with the surface speed that the spindle speed gives at the diameter.
#[formula(
    source = "Common practice; the sources of the formulas that it gathers",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0)),
    rule(2.0 * depth <= workpiece_diameter, "depth must be at most half the workpiece_diameter"),
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    )
)]
pub fn turning_cut(
    #[positive]
    #[increasing(surface_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[decreasing(time)]
    #[power_law]
    spindle_speed: SpindleSpeed,
    #[term(cut_diameter)]
    #[increasing(surface_speed, removal_rate, cutting_power, motor_power, torque)]
    #[power_law]
    workpiece_diameter: Length,
    #[positive]
    #[increasing(feed_rate, removal_rate, chip_thickness, cutting_force, cutting_power, motor_power, torque)]
    #[increasing(roughness_ra, roughness_rt)]
    #[decreasing(specific_cutting_force, time)]
    #[power_law]
    feed_per_revolution: Length,
    #[term(depth_on_radius)]
    #[positive]
    #[increasing(removal_rate, cutting_force, cutting_power, motor_power, torque)]
    #[power_law]
    depth: Length,
    #[increasing(time)]
    #[power_law]
    travel: Length,
    #[decreasing(roughness_ra, roughness_rt)]
    #[power_law]
    nose_radius: Length,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    #[term(turning_entering_angle)] entering_angle: Angle,
    #[decreasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    rake_angle: Angle,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing(specific_cutting_force, cutting_force, cutting_power, motor_power, torque)]
    wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> TurningCut {
    let surface_speed = speed::surface_speed_base(workpiece_diameter, spindle_speed);
    let cut = turning_cut_for_target_base(
        surface_speed,
        workpiece_diameter,
        feed_per_revolution,
        depth,
        travel,
        nose_radius,
        kc11,
        mc,
        entering_angle,
        rake_angle,
        reference_rake,
        change_per_degree,
        wear_factor,
        efficiency,
        unit_chip,
    );
    BareTurningCut {
        surface_speed,
        feed_rate: speed::feed_rate_base(feed_per_revolution, 1.0, spindle_speed),
        removal_rate: cut.removal_rate,
        chip_thickness: cut.chip_thickness,
        specific_cutting_force: cut.specific_cutting_force,
        cutting_force: cut.cutting_force,
        cutting_power: cut.cutting_power,
        motor_power: cut.motor_power,
        torque: cut.torque,
        time: turning_time_base(travel, feed_per_revolution, spindle_speed, 1.0),
        roughness_ra: cut.roughness_ra,
        roughness_rt: cut.roughness_rt,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&TURNING_CUT_FOR_TARGET, &TURNING_CUT];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_cut_deeper_than_its_workpiece_is_refused() {
        let x = [180.0, 10.0, 0.3, 5.1, 100.0, 0.8, 1500.0, 0.22, 90.0, 0.0, 0.0, 0.01, 1.0, 0.8];
        let error = TURNING_CUT_FOR_TARGET.call(Units::Metric, &x, &mut [0.0; 12]).unwrap_err();
        let need =
            "depth must be at most half the workpiece_diameter (workpiece_diameter = 10 mm, depth = 5.1 mm)";
        assert_eq!(error.to_string(), format!("turning_cut_for_target: {need}"));
    }
}
