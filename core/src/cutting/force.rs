//! Specific cutting force, power and torque, for any process with a defined edge.
use crate::formula::Formula;
use crate::math;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// The chips that the common tables of Kienzle's constants hold for; from memory.
pub(super) const THINNEST_CHIP: Length = Length::millimetres(0.05);
pub(super) const THICKEST_CHIP: Length = Length::millimetres(2.5);

/// Specific cutting force after Kienzle: kc11 · (chip thickness / 1 mm)^-mc.
///
/// The force on each unit of chip area. A thin chip costs more force for its area than a thick one. The two
/// constants are figures of the material for a sharp tool of a rake angle that their table names;
/// `specific_cutting_force_corrected` leads to other rakes and to worn tools. Expect the true figure within
/// about a fifth.
#[formula(
    source = "O. Kienzle, VDI-Z 94 (1952), and VDI 3206 (from memory); the range of the chip is that of \
              the common tables of constants (from memory)",
    constant(unit_chip: Length = Length::millimetres(1.0)),
    inverse(kc11 = specific_cutting_force / math::powf(chip_thickness / unit_chip, -mc)),
    inverse(chip_thickness = unit_chip * math::powf(kc11 / specific_cutting_force, 1.0 / mc))
)]
pub fn specific_cutting_force(
    #[increasing] kc11: Stress,
    /// Thickness of the chip: the mean one in milling.
    #[positive]
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    #[decreasing]
    chip_thickness: Length,
    mc: Ratio,
) -> Stress {
    kc11 * math::powf_quick(chip_thickness / unit_chip, -mc)
}

/// Specific cutting force for another rake angle and for a worn tool.
///
/// specific cutting force · (1 - change a degree · (rake angle - reference rake)) · wear factor.
#[formula(
    source = "Rake: Sandvik Coromant, specific cutting force, 1 % a degree from a neutral rake (the figure \
              from memory); VDI 3206 has 1.5 % from +6° for steel and +2° for cast iron (from memory). \
              Wear: the factors of Machinery's Handbook (from memory)",
    inverse(specific_cutting_force = specific_cutting_force_corrected
        / ((1.0 - change_per_degree * (rake_angle - reference_rake)) * wear_factor)),
    inverse(wear_factor = specific_cutting_force_corrected
        / (specific_cutting_force * (1.0 - change_per_degree * (rake_angle - reference_rake))))
)]
pub fn specific_cutting_force_corrected(
    /// Specific cutting force of a sharp tool at the reference rake.
    #[non_negative]
    #[increasing]
    specific_cutting_force: Stress,
    #[decreasing] rake_angle: Angle,
    #[increasing] reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing] wear_factor: Ratio,
) -> Stress {
    specific_cutting_force * ((1.0 - change_per_degree * (rake_angle - reference_rake)) * wear_factor)
}

/// Power at the cutter: removal rate · specific cutting force.
#[formula(
    source = "Common practice, as in the cutting-power formulas of the Mitsubishi Materials technical data",
    inverse(removal_rate = cutting_power / specific_cutting_force),
    inverse(specific_cutting_force = cutting_power / removal_rate)
)]
pub fn cutting_power(
    #[increasing] removal_rate: RemovalRate,
    #[increasing] specific_cutting_force: Stress,
) -> Power {
    removal_rate * specific_cutting_force
}

/// Power at the cutter by the unit-power method: removal rate · unit power · feed factor · wear factor.
///
/// The unit power is a figure of the material for a sharp tool at a common feed; the feed factor corrects it
/// for another feed, as the chip thickness does in `specific_cutting_force`.
#[formula(
    source = "Machinery's Handbook, 31st ed. (Industrial Press 2020), machining power, pp. 1145-1150; the \
              ranges of the factors from memory",
    inverse(removal_rate = cutting_power_from_unit_power / (unit_power * (feed_factor * wear_factor))),
    inverse(unit_power = cutting_power_from_unit_power / (removal_rate * (feed_factor * wear_factor)))
)]
pub fn cutting_power_from_unit_power(
    #[increasing] removal_rate: RemovalRate,
    #[increasing] unit_power: UnitPower,
    /// Correction for the feed: above 1 for thin chips, below it for thick ones.
    #[positive]
    #[range(0.6, 1.7)]
    #[default(1.0)]
    #[increasing]
    feed_factor: Ratio,
    /// Power of the worn tool over that of a sharp one.
    #[positive]
    #[range(1.0, 2.0)]
    #[default(1.0)]
    #[increasing]
    wear_factor: Ratio,
) -> Power {
    removal_rate * unit_power * (feed_factor * wear_factor)
}

/// Specific cutting force equal to a unit power: the same quantity in other units.
///
/// It holds for the feed and the sharpness that the unit power is told for, and is not the `kc11` of a chip
/// of 1 mm.
#[formula(
    source = "Definition: power over removal rate is force over area",
    inverse(unit_power = specific_cutting_force_from_unit_power)
)]
pub fn specific_cutting_force_from_unit_power(#[increasing] unit_power: UnitPower) -> Stress {
    unit_power
}

/// Power that the motor gives: power at the cutter / efficiency of the drive.
///
/// What idling takes is in the efficiency. A motor bears more than its rating only for a short time.
#[formula(
    source = "Common practice, as in the cutting-power formulas of the Mitsubishi Materials technical \
              data; the range of the efficiency is common practice",
    inverse(cutting_power = motor_power * efficiency),
    inverse(efficiency = cutting_power / motor_power)
)]
pub fn motor_power(#[increasing] cutting_power: Power, #[decreasing] efficiency: Ratio) -> Power {
    cutting_power / efficiency
}

/// Power of a force along its motion: cutting force · surface speed.
#[formula(
    source = "Mechanics; power is force times speed",
    inverse(cutting_force = cutting_power_from_force / surface_speed),
    inverse(surface_speed = cutting_power_from_force / cutting_force)
)]
pub fn cutting_power_from_force(
    #[increasing] cutting_force: Force,
    #[increasing] surface_speed: SurfaceSpeed,
) -> Power {
    cutting_force * surface_speed
}

/// Mean cutting force at a given power: power at the cutter / surface speed.
///
/// In an interrupted cut the force of a tooth is greater than this mean.
#[formula(
    source = "Mechanics; power is force times speed",
    inverse(cutting_power = cutting_force_from_power * surface_speed),
    inverse(surface_speed = cutting_power / cutting_force_from_power)
)]
pub fn cutting_force_from_power(
    #[increasing] cutting_power: Power,
    #[positive]
    #[decreasing]
    surface_speed: SurfaceSpeed,
) -> Force {
    cutting_power / surface_speed
}

/// Torque at a spindle: power / (2 π · spindle speed).
#[formula(
    source = "Mechanics; power is torque times angular speed",
    inverse(power = spindle_torque * (2.0 * PI * spindle_speed)),
    inverse(spindle_speed = power / (2.0 * PI * spindle_torque))
)]
pub fn spindle_torque(
    /// Power at the spindle.
    #[non_negative]
    #[increasing]
    power: Power,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
) -> Torque {
    power / (2.0 * PI * spindle_speed)
}

/// Power at a spindle: torque · 2 π · spindle speed.
#[formula(
    source = "Mechanics; power is torque times angular speed",
    inverse(torque = spindle_power / (2.0 * PI * spindle_speed)),
    inverse(spindle_speed = spindle_power / (2.0 * PI * torque))
)]
pub fn spindle_power(
    /// Torque at the spindle.
    #[non_negative]
    #[increasing]
    torque: Torque,
    #[increasing] spindle_speed: SpindleSpeed,
) -> Power {
    torque * (2.0 * PI * spindle_speed)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &SPECIFIC_CUTTING_FORCE,
    &SPECIFIC_CUTTING_FORCE_CORRECTED,
    &CUTTING_POWER,
    &CUTTING_POWER_FROM_UNIT_POWER,
    &SPECIFIC_CUTTING_FORCE_FROM_UNIT_POWER,
    &MOTOR_POWER,
    &CUTTING_POWER_FROM_FORCE,
    &CUTTING_FORCE_FROM_POWER,
    &SPINDLE_TORQUE,
    &SPINDLE_POWER,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_chip_thinner_than_the_tables_is_advice() {
        let remarks = SPECIFIC_CUTTING_FORCE.check(Units::Metric, &[1500.0, 0.01, 0.22]).unwrap();
        let texts: Vec<String> = remarks.iter().map(ToString::to_string).collect();
        assert_eq!(texts, ["chip_thickness is 0.01 mm, but the source covers 0.05 mm to 2.5 mm"]);
    }
}
