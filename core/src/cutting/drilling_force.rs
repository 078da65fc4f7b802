//! Torque, thrust and power of drilling, by the formulas of several printed sources.
//!
//! For the same hole they differ by a factor of two in torque and three in thrust, so each stands here by
//! its own name, and [`drilling_force_range`] tells the least and the greatest.
use super::force::specific_cutting_force_base;
use crate::formula::Formula;
use crate::math::{powf, sin_degrees};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Torque and thrust of a drill.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct DrillingForces {
    /// Torque at the drill.
    pub torque: Torque,
    /// Thrust along the axis.
    pub thrust: Force,
}

/// Least and greatest torque and thrust of a drill among several printed formulas.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct DrillingForceRange {
    /// Least torque.
    pub torque_low: Torque,
    /// Greatest torque.
    pub torque_high: Torque,
    /// Least thrust.
    pub thrust_low: Force,
    /// Greatest thrust.
    pub thrust_high: Force,
}

/// Chip thickness of a drill with two lips: feed per revolution / 2 · sin(point angle / 2).
///
/// It is the thickness that the specific cutting force of `drilling_torque` and `drilling_thrust` goes with.
#[formula(
    source = "Plane geometry; common practice",
    inverse(feed_per_revolution = drilling_chip_thickness / (0.5 * sin_degrees(0.5 * point_angle)))
)]
pub fn drilling_chip_thickness(
    #[increasing] feed_per_revolution: Length,
    #[increasing] point_angle: Angle,
) -> Length {
    feed_per_revolution * (0.5 * sin_degrees(0.5 * point_angle))
}

/// Torque of a drill by specific force: that force · feed per revolution · (diameter² - pilot diameter²) / 8.
///
/// It is the torque of the power kc · f · vc · D / 4. Friction of the margins and of chips in a deep hole
/// is not in it, nor a worn edge.
#[formula(
    source = "Torque of the cutting power, common practice; the specific energy of S. Kalpakjian and S. R. Schmid, \
              Manufacturing Engineering and Technology, drilling",
    rule(pilot_diameter < diameter, "pilot_diameter must be less than diameter"),
    inverse(feed_per_revolution = drilling_torque
        / (specific_cutting_force * (0.125 * (diameter - pilot_diameter) * (diameter + pilot_diameter)))),
    inverse(specific_cutting_force = drilling_torque
        / (feed_per_revolution * (0.125 * (diameter - pilot_diameter) * (diameter + pilot_diameter))))
)]
pub fn drilling_torque(
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[increasing] feed_per_revolution: Length,
    #[term(drilling_specific_force)]
    #[increasing]
    specific_cutting_force: Stress,
    #[decreasing] pilot_diameter: Length,
) -> Torque {
    let section = 0.125 * (diameter - pilot_diameter) * (diameter + pilot_diameter);
    specific_cutting_force * feed_per_revolution * section
}

/// Thrust of a drill by the specific cutting force.
///
/// factor · specific cutting force · feed per revolution · diameter / 2 · sin(point angle / 2)
///
/// With the factor 0.5 it is the thrust of the lips of a drill with a well thinned point. A chisel edge
/// pushes rather than cuts and may double it; another printed form has 0.7 and no sine (a point angle of
/// 180° here).
#[formula(
    source = "Common practice, no source; the factor 0.5 from memory",
    inverse(feed_per_revolution = drilling_thrust
        / (thrust_factor * specific_cutting_force * (0.5 * diameter * sin_degrees(0.5 * point_angle)))),
    inverse(diameter = drilling_thrust
        / (thrust_factor * specific_cutting_force
            * (0.5 * feed_per_revolution * sin_degrees(0.5 * point_angle))))
)]
pub fn drilling_thrust(
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[increasing] feed_per_revolution: Length,
    #[term(drilling_specific_force)]
    #[positive]
    #[increasing]
    specific_cutting_force: Stress,
    #[increasing] point_angle: Angle,
    /// Thrust over what the specific cutting force would give alone.
    #[positive]
    #[range(0.5, 0.7)]
    #[default(0.5)]
    #[increasing]
    thrust_factor: Ratio,
) -> Force {
    thrust_factor
        * specific_cutting_force
        * (0.5 * diameter * feed_per_revolution)
        * sin_degrees(0.5 * point_angle)
}

/// Torque and thrust of a twist drill by a work factor of the material, Kd, in its metric form.
///
/// With d and f in millimetres: torque = 0.000 025 · Kd · f^0.8 · d^1.8 · A · W in N·m, and thrust = (0.05
/// · Kd · f^0.8 · d^0.8 · B + 0.007 · Kd · d² · J) · W in newtons. Kd is the same number in the inch form,
/// which gives 0.58 % more torque, and of the thrust 0.58 % more in the first term and 1.50 % less in the second. The
/// powers of f and d reproduce the tables Ff, FT and FM of the source to their last digit.
#[formula(
    source = "Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 1152, metric formulas; the \
              powers from the tables on p. 1153; the default chisel factors are those of a chisel edge of 0.18 \
              of the diameter (from memory)",
    constant(unit_length: Length = Length::millimetres(1.0)),
    constant(unit_force: Force = Force::newtons(1.0))
)]
pub fn drilling_forces_by_work_factor(
    #[term(drill_diameter)]
    #[increasing(torque, thrust)]
    diameter: Length,
    #[positive]
    #[increasing(torque, thrust)]
    feed_per_revolution: Length,
    /// Work factor Kd of the material: 24 000 for plain steel of 200 HB (from memory).
    #[positive]
    #[increasing(torque, thrust)]
    work_factor: Ratio,
    /// Factor A, of the chisel edge in torque.
    #[positive]
    #[default(1.085)]
    #[increasing(torque)]
    chisel_torque_factor: Ratio,
    /// Factor B, of the chisel edge in thrust.
    #[positive]
    #[default(1.355)]
    #[increasing(thrust)]
    chisel_thrust_factor: Ratio,
    /// Factor J, of the thrust that the chisel edge takes without feed.
    #[non_negative]
    #[default(0.03)]
    #[increasing(thrust)]
    chisel_indent_factor: Ratio,
    /// Factor W, of the worn tool over the sharp one.
    #[positive]
    #[range(1.0, 2.0)]
    #[default(1.0)]
    #[increasing(torque, thrust)]
    wear_factor: Ratio,
) -> DrillingForces {
    let (d, f) = (diameter / unit_length, feed_per_revolution / unit_length);
    let scale = unit_force * (work_factor * wear_factor);
    let lips = powf(f * d, 0.8);
    BareDrillingForces {
        torque: scale * unit_length * (0.025 * lips * d * chisel_torque_factor),
        thrust: scale * (0.05 * lips * chisel_thrust_factor + 0.007 * d * d * chisel_indent_factor),
    }
}

/// Torque and thrust of a twist drill by a material constant, K.
///
/// With d and f in millimetres: torque = K · d² · (0.630 + 16.84 · f) / 100 in N·m, and
/// thrust = 570 · K · d · f^0.85 in newtons.
#[formula(
    source = "Tungaloy, general catalogue 2020-2021, p. L068",
    constant(unit_length: Length = Length::millimetres(1.0)),
    constant(unit_force: Force = Force::newtons(1.0))
)]
pub fn drilling_forces_by_material_constant(
    #[term(drill_diameter)]
    #[increasing(torque, thrust)]
    diameter: Length,
    #[positive]
    #[increasing(torque, thrust)]
    feed_per_revolution: Length,
    #[increasing(torque, thrust)] material_constant: Ratio,
) -> DrillingForces {
    let (d, f) = (diameter / unit_length, feed_per_revolution / unit_length);
    BareDrillingForces {
        torque: unit_force * unit_length * (10.0 * material_constant * d * d * (0.63 + 16.84 * f)),
        thrust: unit_force * (570.0 * material_constant * d * powf(f, 0.85)),
    }
}

/// Power at a twist drill by a material constant, K.
///
/// With d and f in millimetres and n in rev/min: K · d² · n · (0.647 + 17.29 · f) · 10⁻⁶ in kW. It lies 2 %
/// below the power of the torque that the same source gives.
#[formula(
    source = "Tungaloy, general catalogue 2020-2021, p. L068",
    constant(unit_length: Length = Length::millimetres(1.0)),
    constant(unit_force: Force = Force::newtons(1.0)),
    inverse(spindle_speed = drilling_power_by_material_constant
        / material_energy(diameter, feed_per_revolution, material_constant, unit_length, unit_force))
)]
pub fn drilling_power_by_material_constant(
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[positive]
    #[increasing]
    feed_per_revolution: Length,
    #[increasing] spindle_speed: SpindleSpeed,
    #[increasing] material_constant: Ratio,
) -> Power {
    spindle_speed * material_energy(diameter, feed_per_revolution, material_constant, unit_length, unit_force)
}

/// Work of one turn, by the material constant: a millionth of a kilowatt is 60 N·mm/min.
#[inline(always)]
fn material_energy(
    diameter: f64,
    feed: f64,
    material_constant: f64,
    unit_length: f64,
    unit_force: f64,
) -> f64 {
    let (d, f) = (diameter / unit_length, feed / unit_length);
    unit_force * unit_length * (60.0 * material_constant * d * d * (0.647 + 17.29 * f))
}

/// Least and greatest torque and thrust of a twist drill among the printed formulas.
///
/// Torque by `drilling_torque`, `drilling_forces_by_work_factor` and
/// `drilling_forces_by_material_constant`; thrust by the latter two and by `drilling_thrust` with the
/// factor 0.5 and the angle of the point, and with 0.7 and no sine. The specific cutting force is that of
/// Kienzle at the drill's chip thickness. Sharp drills: wear adds half as much and more. Choose drive,
/// thrust of the machine and clamping by the greatest.
#[formula(
    source = "The formulas that it names, with their sources",
    constant(unit_length: Length = Length::millimetres(1.0)),
    constant(unit_force: Force = Force::newtons(1.0))
)]
pub fn drilling_force_range(
    #[term(drill_diameter)]
    #[increasing(torque_low, torque_high, thrust_low, thrust_high)]
    diameter: Length,
    #[positive]
    #[increasing(torque_low, torque_high, thrust_low, thrust_high)]
    feed_per_revolution: Length,
    kc11: Stress,
    mc: Ratio,
    /// Work factor Kd of the material, as in `drilling_forces_by_work_factor`.
    #[positive]
    work_factor: Ratio,
    /// Constant K of the material, as in `drilling_forces_by_material_constant`.
    #[positive]
    material_constant: Ratio,
    point_angle: Angle,
) -> DrillingForceRange {
    let (d, f) = (diameter, feed_per_revolution);
    let chip_thickness = drilling_chip_thickness_base(f, point_angle);
    let kc = specific_cutting_force_base(kc11, chip_thickness, mc, unit_length);
    let torque = drilling_torque_base(d, f, kc, 0.0);
    let (lips, chisel) =
        (drilling_thrust_base(d, f, kc, point_angle, 0.5), drilling_thrust_base(d, f, kc, 180.0, 0.7));
    let work = drilling_forces_by_work_factor_base(
        d,
        f,
        work_factor,
        1.085,
        1.355,
        0.03,
        1.0,
        unit_length,
        unit_force,
    );
    let material =
        drilling_forces_by_material_constant_base(d, f, material_constant, unit_length, unit_force);
    BareDrillingForceRange {
        torque_low: torque.min(work.torque).min(material.torque),
        torque_high: torque.max(work.torque).max(material.torque),
        thrust_low: lips.min(chisel).min(work.thrust).min(material.thrust),
        thrust_high: lips.max(chisel).max(work.thrust).max(material.thrust),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &DRILLING_CHIP_THICKNESS,
    &DRILLING_TORQUE,
    &DRILLING_THRUST,
    &DRILLING_FORCES_BY_WORK_FACTOR,
    &DRILLING_FORCES_BY_MATERIAL_CONSTANT,
    &DRILLING_POWER_BY_MATERIAL_CONSTANT,
    &DRILLING_FORCE_RANGE,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    // The inch form of the handbook: Kd · f^0.8 · d^1.8 · A in lbf·in, and 2 · Kd · f^0.8 · d^0.8 · B + Kd · d² · J in
    // lbf.
    #[test]
    fn the_inch_form_differs_by_what_is_said() {
        let metric = |indent: f64| {
            let mut y = [0.0; 2];
            let x = [12.7, 0.254, 24_000.0, 1.0, 1.0, indent, 1.0];
            DRILLING_FORCES_BY_WORK_FACTOR.call(Units::Metric, &x, &mut y).unwrap();
            y
        };
        let (d, f, kd, lbf) = (0.5, 0.01, 24_000.0, 4.448_221_615_260_5);
        let lips = kd * powf(f * d, 0.8);
        let more = |inch: f64, metric: f64| 100.0 * (inch / metric - 1.0);
        let [torque, lips_thrust] = metric(0.0);
        let chisel_thrust = metric(1.0)[1] - lips_thrust;
        assert!((more(lips * d * lbf * 0.0254, torque) - 0.58).abs() < 0.005);
        assert!((more(2.0 * lips * lbf, lips_thrust) - 0.58).abs() < 0.005);
        assert!((more(kd * d * d * lbf, chisel_thrust) + 1.50).abs() < 0.005);
        let doc = DRILLING_FORCES_BY_WORK_FACTOR.doc;
        assert!(doc.contains("0.58 % more torque") && doc.contains("1.50 % less in the second"), "{doc}");
    }
}
