//! A whole milling cut in one call: all that is known of it, from what is programmed or from what is wanted.
use super::chip::{arc_of_side_cut, largest_of_side_cut, of_offset_cut};
use super::force::{
    THICKEST_CHIP, THINNEST_CHIP, specific_cutting_force_base, specific_cutting_force_corrected_base,
};
use crate::formula::Formula;
use crate::math::{share_powf, sin_acute_degrees};
use crate::quantity::*;
use std::f64::consts::{FRAC_1_PI, PI};
use tenths_macros::{Outcome, formula};

/// All about a milling cut, from what is programmed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct MillingCut {
    /// Surface speed at the cutter's diameter.
    pub surface_speed: SurfaceSpeed,
    /// Feed rate.
    pub feed_rate: FeedRate,
    /// Engagement angle.
    pub engagement_angle: Angle,
    /// Mean number of teeth in the cut, straight ones.
    pub teeth_engaged: Ratio,
    /// Largest chip thickness.
    pub chip_thickness_max: Length,
    /// Mean chip thickness.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness_mean: Length,
    /// Removal rate.
    pub removal_rate: RemovalRate,
    /// Greatest force on one tooth, along its path.
    pub tooth_force: Force,
    /// Specific cutting force at the mean chip thickness, corrected for rake and wear.
    pub specific_cutting_force: Stress,
    /// Mean power at the cutter.
    pub cutting_power: Power,
    /// Mean power that the motor gives.
    pub motor_power: Power,
    /// Mean torque at the spindle.
    pub torque: Torque,
}

/// All about a milling cut, from what is wanted.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct MillingCutForTarget {
    /// Spindle speed to program.
    pub spindle_speed: SpindleSpeed,
    /// Feed rate to program.
    pub feed_rate: FeedRate,
    /// Chip load.
    pub chip_load: Length,
    /// Engagement angle.
    pub engagement_angle: Angle,
    /// Mean number of teeth in the cut, straight ones.
    pub teeth_engaged: Ratio,
    /// Mean chip thickness.
    #[range(THINNEST_CHIP, THICKEST_CHIP)]
    pub chip_thickness_mean: Length,
    /// Removal rate.
    pub removal_rate: RemovalRate,
    /// Greatest force on one tooth, along its path.
    pub tooth_force: Force,
    /// Specific cutting force at the mean chip thickness, corrected for rake and wear.
    pub specific_cutting_force: Stress,
    /// Mean power at the cutter.
    pub cutting_power: Power,
    /// Mean power that the motor gives.
    pub motor_power: Power,
    /// Mean torque at the spindle.
    pub torque: Torque,
}

/// Cutter and section of a cut, and how its chip thins.
#[derive(Clone, Copy)]
struct Section {
    cutter_diameter: f64,
    teeth: f64,
    radial_width: f64,
    axial_depth: f64,
    entering_sine: f64,
    /// Largest thickness of the chip over chip load, for a square shoulder.
    largest: f64,
    /// Radial width over cutter diameter.
    width_ratio: f64,
    /// Angle of engagement, in radians.
    arc: f64,
}

impl Section {
    #[inline(always)]
    fn of_side_cut(
        cutter_diameter: f64,
        teeth: f64,
        radial_width: f64,
        axial_depth: f64,
        entering_angle: f64,
    ) -> Self {
        let width_ratio = radial_width / cutter_diameter;
        Section {
            cutter_diameter,
            teeth,
            radial_width,
            axial_depth,
            entering_sine: sin_acute_degrees(entering_angle),
            largest: largest_of_side_cut(width_ratio),
            width_ratio,
            arc: arc_of_side_cut(width_ratio),
        }
    }
}

/// What metal and drive make of it.
#[derive(Clone, Copy)]
struct Resistance {
    kc11: f64,
    mc: f64,
    /// Of rake and wear together.
    factor: f64,
    efficiency: f64,
    unit_chip: f64,
}

#[inline(always)]
fn cut(section: Section, spindle_speed: f64, chip_load: f64, resistance: Resistance) -> BareMillingCut {
    let Section {
        cutter_diameter,
        teeth,
        radial_width,
        axial_depth,
        entering_sine,
        largest,
        width_ratio,
        arc,
    } = section;
    let Resistance { kc11, mc, factor, efficiency, unit_chip } = resistance;
    // The chip where it is as thick as chip load and entering angle let it be. Divisions take longer than all other
    // arithmetic, so there is none where a product of other figures tells the quotient, and none by the unit chip but
    // one for all rows.
    let chip = chip_load * entering_sine;
    let unit_chips = chip * (1.0 / unit_chip);
    // First what does not wait for the arc, so that both are under way at one time.
    let resistance_at_largest = factor * specific_cutting_force_base(kc11, unit_chips * largest, mc, 1.0);
    // The chip is as thick as the sine of an angle, which is concave: on a mean at least half as thick as at most.
    let specific_cutting_force = resistance_at_largest * share_powf(2.0 * width_ratio, arc * largest, -mc);
    let section_of_cut = axial_depth * radial_width;
    let feed = chip_load * teeth;
    let work_of_turn = section_of_cut * feed * specific_cutting_force;
    let cutting_power = work_of_turn * spindle_speed;
    BareMillingCut {
        surface_speed: PI * cutter_diameter * spindle_speed,
        feed_rate: feed * spindle_speed,
        engagement_angle: arc * (180.0 / PI),
        teeth_engaged: teeth * (arc * (0.5 * FRAC_1_PI)),
        chip_thickness_max: chip * largest,
        chip_thickness_mean: chip * (2.0 * width_ratio / arc),
        removal_rate: section_of_cut * (feed * spindle_speed),
        tooth_force: resistance_at_largest * (axial_depth * chip_load * largest),
        specific_cutting_force,
        cutting_power,
        motor_power: cutting_power / efficiency,
        torque: work_of_turn * (0.5 * FRAC_1_PI),
    }
}

/// Everything about a side cut in milling from what is programmed: speeds, chip, forces and power.
///
/// The cutter's rim is on one edge of the cut; `face_milling_cut` is for other places. Forces are Kienzle's: power
/// and torque from the mean chip over the arc, the force on one tooth from the largest chip. Torque and power are
/// means over a turn; with few teeth in the cut the peaks are higher. Expect forces within about a fifth at best.
///
/// A starting point: the maker's data for tool, machine and workholding come first.
#[formula(
    source = "Kinematics and plane geometry; specific force after O. Kienzle, 1952 (from memory)",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0)),
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter")
)]
pub fn milling_cut(
    cutter_diameter: Length,
    #[increasing(feed_rate, removal_rate, teeth_engaged, cutting_power, motor_power, torque)] teeth: Count,
    #[positive]
    #[increasing(surface_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[power_law]
    spindle_speed: SpindleSpeed,
    #[positive]
    #[increasing(feed_rate, removal_rate, chip_thickness_max, chip_thickness_mean)]
    #[power_law]
    chip_load: Length,
    #[positive]
    #[increasing(removal_rate, teeth_engaged, chip_thickness_max, cutting_power, motor_power, torque)]
    radial_width: Length,
    #[positive]
    #[increasing(removal_rate, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    axial_depth: Length,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    entering_angle: Angle,
    #[decreasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] rake_angle: Angle,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> MillingCut {
    let section = Section::of_side_cut(cutter_diameter, teeth, radial_width, axial_depth, entering_angle);
    let factor = specific_cutting_force_corrected_base(
        1.0,
        rake_angle,
        reference_rake,
        change_per_degree,
        wear_factor,
    );
    cut(section, spindle_speed, chip_load, Resistance { kc11, mc, factor, efficiency, unit_chip })
}

/// Everything about a side cut in milling from the surface speed and the largest chip thickness wanted.
///
/// It gives what to program. Chip load is raised against radial and axial thinning. Otherwise as `milling_cut`. What a
/// narrow cut allows by its chip alone may be more than tooth, finish or machine stand: limit it to them.
#[formula(
    source = "Kinematics and plane geometry; specific force after O. Kienzle, 1952 (from memory)",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0)),
    rule(radial_width <= cutter_diameter, "radial_width must be at most cutter_diameter")
)]
pub fn milling_cut_for_target(
    cutter_diameter: Length,
    #[increasing(feed_rate, removal_rate, teeth_engaged, cutting_power, motor_power, torque)] teeth: Count,
    #[term(wanted_surface_speed)]
    #[increasing(spindle_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[power_law]
    surface_speed: SurfaceSpeed,
    #[term(wanted_chip_thickness)]
    #[positive]
    #[increasing(feed_rate, chip_load, removal_rate, chip_thickness_mean)]
    #[power_law]
    chip_thickness: Length,
    #[positive]
    #[increasing(teeth_engaged)]
    radial_width: Length,
    #[positive]
    #[increasing(removal_rate, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    axial_depth: Length,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    entering_angle: Angle,
    #[decreasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] rake_angle: Angle,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> MillingCutForTarget {
    let section = Section::of_side_cut(cutter_diameter, teeth, radial_width, axial_depth, entering_angle);
    let chip_load = chip_thickness / (section.entering_sine * section.largest);
    let spindle_speed = surface_speed / (PI * cutter_diameter);
    let factor = specific_cutting_force_corrected_base(
        1.0,
        rake_angle,
        reference_rake,
        change_per_degree,
        wear_factor,
    );
    let cut = cut(section, spindle_speed, chip_load, Resistance { kc11, mc, factor, efficiency, unit_chip });
    BareMillingCutForTarget {
        spindle_speed,
        feed_rate: cut.feed_rate,
        chip_load,
        engagement_angle: cut.engagement_angle,
        teeth_engaged: cut.teeth_engaged,
        chip_thickness_mean: cut.chip_thickness_mean,
        removal_rate: cut.removal_rate,
        tooth_force: cut.tooth_force,
        specific_cutting_force: cut.specific_cutting_force,
        cutting_power: cut.cutting_power,
        motor_power: cut.motor_power,
        torque: cut.torque,
    }
}

/// Everything about a face cut in milling from what is programmed.
///
/// The work lies centred under the cutter, or with its middle beside the axis. Otherwise as `milling_cut`.
#[formula(
    source = "Kinematics and plane geometry; specific force after O. Kienzle, 1952 (from memory)",
    caution(spindle_speed),
    constant(unit_chip: Length = Length::millimetres(1.0)),
    rule(
        2.0 * offset.abs() + radial_width <= cutter_diameter,
        "the cut must lie within the cutter: twice the offset and radial_width together at most cutter_diameter"
    )
)]
pub fn face_milling_cut(
    cutter_diameter: Length,
    #[increasing(feed_rate, removal_rate, teeth_engaged, cutting_power, motor_power, torque)] teeth: Count,
    #[positive]
    #[increasing(surface_speed, feed_rate, removal_rate, cutting_power, motor_power)]
    #[power_law]
    spindle_speed: SpindleSpeed,
    #[positive]
    #[increasing(feed_rate, removal_rate, chip_thickness_max, chip_thickness_mean)]
    #[power_law]
    chip_load: Length,
    #[positive]
    #[increasing(removal_rate, teeth_engaged, cutting_power, motor_power, torque)]
    radial_width: Length,
    #[positive]
    #[increasing(removal_rate, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    axial_depth: Length,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    #[power_law]
    kc11: Stress,
    mc: Ratio,
    #[default(0.0)] offset: Length,
    entering_angle: Angle,
    #[decreasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] rake_angle: Angle,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)]
    reference_rake: Angle,
    change_per_degree: Ratio,
    #[increasing(specific_cutting_force, tooth_force, torque, cutting_power, motor_power)] wear_factor: Ratio,
    #[default(0.8)]
    #[decreasing(motor_power)]
    efficiency: Ratio,
) -> MillingCut {
    let (largest, _, arc) = of_offset_cut(cutter_diameter, radial_width, offset);
    let section = Section {
        cutter_diameter,
        teeth,
        radial_width,
        axial_depth,
        entering_sine: sin_acute_degrees(entering_angle),
        largest,
        width_ratio: radial_width / cutter_diameter,
        arc,
    };
    let factor = specific_cutting_force_corrected_base(
        1.0,
        rake_angle,
        reference_rake,
        change_per_degree,
        wear_factor,
    );
    cut(section, spindle_speed, chip_load, Resistance { kc11, mc, factor, efficiency, unit_chip })
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&MILLING_CUT, &MILLING_CUT_FOR_TARGET, &FACE_MILLING_CUT];
