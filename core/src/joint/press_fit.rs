//! Pressed joints at one interference: pressure, stresses and grip.
use super::cylinder::Cylinders;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Pressure, stresses and grip of a plain pressed joint. Tension is positive, compression negative.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PressFit {
    /// Pressure between hub and shaft.
    pub pressure: Stress,
    /// Hoop stress at the bore of the hub, the greatest tension of the joint.
    pub hub_hoop_stress: Stress,
    /// Equivalent stress after von Mises at the bore of the hub, without axial stress: compare it with yield.
    pub hub_equivalent_stress: Stress,
    /// Hoop stress at the surface of the shaft.
    pub shaft_hoop_stress: Stress,
    /// Hoop stress at the bore of a hollow shaft; of a solid one, the stress at its axis, which is minus the
    /// pressure as everywhere in it.
    pub shaft_bore_hoop_stress: Stress,
    /// Axial force at which the joint slips.
    pub axial_force: Force,
    /// Torque at which the joint slips.
    pub torque: Torque,
}

/// Pressure, stresses, holding force and torque of a plain pressed joint, after Lamé.
///
/// Hub and shaft are thick cylinders with open ends (plane stress), elastic, of the same length, and smooth
/// and round before assembly. With d the diameter of the joint and the ratios
/// c_hub = (D² + d²) / (D² - d²) and c_shaft = (d² + b²) / (d² - b²) for the outside D of the hub and the
/// bore b of the shaft:
///
/// - pressure = (interference / d) / ((c_hub + ν_hub) / E_hub + (c_shaft - ν_shaft) / E_shaft)
/// - hoop stress is c_hub · pressure at the hub's bore, -c_shaft · pressure at the shaft's surface, and
///   -2 d² / (d² - b²) · pressure at its bore
/// - axial force = friction · pressure · π · d · length, and torque = axial force · d / 2
///
/// However small, a hole through a shaft doubles the stress at its edge: the figure at the bore therefore
/// leaps from once to twice the pressure where the bore begins. A shaft that sticks out of the hub, a change of
/// section, and rough surfaces whose peaks flatten all make a difference that is not in here; nor are speed
/// and heat.
#[formula(
    source = "Lamé's thick cylinders, as in R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering \
              Design, 9th ed., section 3-16 (clause from memory); slip by Coulomb's friction",
    caution(joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn press_fit(
    /// Interference on the diameter: what the shaft measures more than the bore of the hub, before assembly.
    #[non_negative]
    #[increasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    interference: Length,
    #[term(joint_diameter)] diameter: Length,
    #[increasing(pressure, axial_force, torque)]
    #[decreasing(hub_hoop_stress, shaft_hoop_stress, shaft_bore_hoop_stress)]
    hub_outer_diameter: Length,
    #[term(contact_length)]
    #[increasing(axial_force, torque)]
    length: Length,
    #[increasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    hub_modulus: Modulus,
    #[decreasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)]
    #[increasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    hub_poisson: Ratio,
    #[increasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    shaft_modulus: Modulus,
    #[increasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    shaft_poisson: Ratio,
    #[increasing(axial_force, torque)] friction: Ratio,
    #[decreasing(pressure, hub_hoop_stress, hub_equivalent_stress, axial_force, torque)] shaft_bore: Length,
) -> PressFit {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    let give = cylinders.give(hub_modulus, hub_poisson, shaft_modulus, shaft_poisson);
    let pressure = interference / diameter / give;
    let axial_force = friction * pressure * (PI * diameter * length);
    BarePressFit {
        pressure,
        hub_hoop_stress: cylinders.hub * pressure,
        hub_equivalent_stress: cylinders.hub_equivalent() * pressure,
        shaft_hoop_stress: -cylinders.shaft * pressure,
        shaft_bore_hoop_stress: -cylinders.bore * pressure,
        axial_force,
        torque: axial_force * (0.5 * diameter),
    }
}

/// Pressures, stresses and grip of a pressed joint whose hub has two outside diameters.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct SteppedPressFit {
    /// Pressure under the first part of the hub.
    pub pressure: Stress,
    /// Pressure under the second part.
    pub second_pressure: Stress,
    /// Equivalent stress after von Mises at the bore of the first part, without axial stress.
    pub hub_equivalent_stress: Stress,
    /// The same at the bore of the second part.
    pub second_equivalent_stress: Stress,
    /// Axial force at which the whole joint slips.
    pub axial_force: Force,
    /// Torque at which the whole joint slips.
    pub torque: Torque,
}

/// Pressures, holding force and torque of a pressed joint with a stepped hub: the sum over its two lengths.
///
/// Each part of the hub is taken as a thick cylinder of its own, as in `press_fit`, which neglects how a thick part
/// stiffens the thin one beside it. For a hub of more steps add the parts one by one.
#[formula(
    source = "Lamé's thick cylinders, part by part: common practice",
    caution(joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(second_outer_diameter > diameter, "second_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn stepped_press_fit(
    /// Interference on the diameter, before assembly.
    #[non_negative]
    #[increasing(
        pressure,
        second_pressure,
        hub_equivalent_stress,
        second_equivalent_stress,
        axial_force,
        torque
    )]
    interference: Length,
    #[term(joint_diameter)] diameter: Length,
    /// Outside diameter of the first part of the hub.
    #[positive]
    #[increasing(pressure, axial_force, torque)]
    hub_outer_diameter: Length,
    /// Length of contact of the first part.
    #[positive]
    #[increasing(axial_force, torque)]
    length: Length,
    /// Outside diameter of the second part of the hub.
    #[positive]
    #[increasing(second_pressure, axial_force, torque)]
    second_outer_diameter: Length,
    /// Length of contact of the second part.
    #[positive]
    #[increasing(axial_force, torque)]
    second_length: Length,
    hub_modulus: Modulus,
    hub_poisson: Ratio,
    shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    #[increasing(axial_force, torque)] friction: Ratio,
    shaft_bore: Length,
) -> SteppedPressFit {
    let part = |outer_diameter: f64, length: f64| {
        press_fit_base(
            interference,
            diameter,
            outer_diameter,
            length,
            hub_modulus,
            hub_poisson,
            shaft_modulus,
            shaft_poisson,
            friction,
            shaft_bore,
        )
    };
    let (first, second) = (part(hub_outer_diameter, length), part(second_outer_diameter, second_length));
    BareSteppedPressFit {
        pressure: first.pressure,
        second_pressure: second.pressure,
        hub_equivalent_stress: first.hub_equivalent_stress,
        second_equivalent_stress: second.hub_equivalent_stress,
        axial_force: first.axial_force + second.axial_force,
        torque: first.torque + second.torque,
    }
}

/// Force to press a shaft in, at one place of the stroke: friction · pressure · π · diameter · stroke.
///
/// It rises evenly from nothing to its greatest at the end of the stroke, where the contact is complete; there the
/// work of the press is half the greatest force times the length. For the press, take the pressure at the greatest
/// interference and the greatest friction that is likely. A chamfer, misalignment or galling can ask for more.
#[formula(
    source = "Coulomb's friction on the length in contact: common practice",
    caution(pressing, joint),
    rule(stroke <= length, "stroke must be at most length"),
    inverse(stroke = press_force_at / (friction * pressure * (PI * diameter))),
    inverse(pressure = press_force_at / (friction * (PI * diameter * stroke)))
)]
pub fn press_force_at(
    /// How far the shaft is in.
    #[non_negative]
    #[increasing]
    stroke: Length,
    /// Length of contact of the finished joint.
    #[positive]
    length: Length,
    #[term(joint_diameter)]
    #[increasing]
    diameter: Length,
    #[term(joint_pressure)]
    #[increasing]
    pressure: Stress,
    /// Coefficient of friction in pressing: the greatest that is likely.
    #[non_negative]
    #[range(.., 1.0)]
    #[increasing]
    friction: Ratio,
) -> Force {
    // The finished length only bounds the stroke.
    let _ = length;
    friction * pressure * (PI * diameter * stroke)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PRESS_FIT, &STEPPED_PRESS_FIT, &PRESS_FORCE_AT];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    /// A steel joint of 30 mm with 0.03 mm of interference.
    fn joint(hub_outer_diameter: f64, shaft_bore: f64) -> Result<PressFit, crate::Error> {
        press_fit(
            Length::millimetres(0.03),
            Length::millimetres(30.0),
            Length::millimetres(hub_outer_diameter),
            Length::millimetres(40.0),
            Modulus::gigapascals(207.0),
            Ratio::new(0.292),
            Modulus::gigapascals(207.0),
            Ratio::new(0.292),
            Ratio::new(0.12),
            Length::millimetres(shaft_bore),
        )
    }

    #[test]
    fn a_hub_is_thicker_than_its_shaft_and_a_shaft_than_its_bore() {
        for (joint, text) in [
            (
                joint(30.0, 0.0),
                "hub_outer_diameter must be greater than diameter (diameter = 30 mm, hub_outer_diameter = 30 mm)",
            ),
            (
                joint(60.0, 30.0),
                "shaft_bore must be less than diameter (diameter = 30 mm, shaft_bore = 30 mm)",
            ),
        ] {
            assert_eq!(joint.unwrap_err().to_string(), format!("press_fit: {text}"));
        }
    }

    // Theory of elasticity: a solid cylinder under pressure from outside has that stress throughout, and a
    // pinhole along its axis doubles the hoop stress at its edge.
    #[test]
    fn a_pinhole_doubles_the_stress_at_the_axis() {
        let (solid, pierced) = (joint(60.0, 0.0).unwrap(), joint(60.0, 1e-6).unwrap());
        let pressure = solid.pressure.in_units(Units::Metric);
        let at_bore = |joint: PressFit| joint.shaft_bore_hoop_stress.in_units(Units::Metric);
        assert_eq!(at_bore(solid), -pressure);
        assert!((at_bore(pierced) + 2.0 * pressure).abs() < 1e-9 * pressure);
    }

    #[test]
    fn a_soft_material_is_advice() {
        let x = [0.1, 10.0, 20.0, 10.0, 0.9, 0.4, 210.0, 0.3, 0.2, 0.0];
        let remarks = PRESS_FIT.check(Units::Metric, &x).unwrap();
        let texts: Vec<String> = remarks.iter().map(ToString::to_string).collect();
        assert_eq!(texts, ["hub_modulus is 0.9 GPa, outside the usual 1 GPa to 750 GPa: check its unit"]);
    }
}
