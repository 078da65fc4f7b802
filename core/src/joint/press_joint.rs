//! The whole pressed joint over the interference that its tolerances allow, and the interference that a load needs.
use super::cylinder::Cylinders;
use crate::error::beside;
use crate::finding::{Finding, FindingCode};
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Interference that pressing flattens: coefficient · (Rz of the hub + Rz of the shaft).
///
/// Interference is measured over the peaks of both surfaces, and what flattens of them holds nothing. The default
/// coefficient, 0.8, is that of the older edition of DIN 7190; other works take from 0.4 to 1.2, and a hub that is
/// heated loses less than one that is pressed on.
#[formula(
    source = "DIN 7190:2001 (from memory)",
    caution(joint),
    inverse(hub_roughness = roughness_loss / roughness_coefficient - shaft_roughness),
    inverse(shaft_roughness = roughness_loss / roughness_coefficient - hub_roughness)
)]
pub fn roughness_loss(
    /// Mean peak-to-valley roughness of the bore.
    #[non_negative]
    #[increasing]
    hub_roughness: RoughnessRz,
    /// Mean peak-to-valley roughness of the shaft.
    #[non_negative]
    #[increasing]
    shaft_roughness: RoughnessRz,
    #[increasing] roughness_coefficient: Ratio,
) -> Length {
    roughness_coefficient * (hub_roughness + shaft_roughness)
}

/// A pressed joint at its loosest and at its tightest.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PressJoint {
    /// Interference that is left at the loosest; a clearance is negative.
    pub interference_at_loosest: Length,
    /// Interference that is left at the tightest.
    pub interference_at_tightest: Length,
    /// Pressure at the loosest; none where the joint may be loose.
    pub pressure_at_loosest: Stress,
    /// Pressure at the tightest.
    pub pressure_at_tightest: Stress,
    /// Axial force that the joint holds at its loosest with the holding friction.
    pub axial_force: Force,
    /// Torque that it holds then.
    pub torque: Torque,
    /// Force to press it together at its tightest with the pressing friction, at the end of the stroke.
    pub press_force: Force,
    /// Equivalent stress after von Mises at the bore of the hub, at the tightest.
    pub hub_equivalent_stress: Stress,
    /// Equivalent stress after Tresca there.
    pub hub_tresca_stress: Stress,
    /// Yield strength of the hub over its equivalent stress after von Mises: below 1 the hub yields.
    pub hub_yield_margin: Ratio,
    /// Greatest equivalent stress of the shaft at the tightest: at the bore of a hollow one, everywhere in a solid
    /// one.
    pub shaft_equivalent_stress: Stress,
    /// Yield strength of the shaft over that stress: below 1 the shaft yields.
    pub shaft_yield_margin: Ratio,
}

impl PressJoint {
    /// From its outputs in their order, in the shop units of a side.
    pub fn from_outputs(units: Units, outputs: &[f64; 12]) -> PressJoint {
        let [
            loosest,
            tightest,
            low,
            high,
            axial,
            torque,
            press,
            hub,
            tresca,
            hub_margin,
            shaft,
            shaft_margin,
        ] = *outputs;
        let stress = |value| Stress::new_in(value, units);
        PressJoint {
            interference_at_loosest: Length::new_in(loosest, units),
            interference_at_tightest: Length::new_in(tightest, units),
            pressure_at_loosest: stress(low),
            pressure_at_tightest: stress(high),
            axial_force: Force::new_in(axial, units),
            torque: Torque::new_in(torque, units),
            press_force: Force::new_in(press, units),
            hub_equivalent_stress: stress(hub),
            hub_tresca_stress: stress(tresca),
            hub_yield_margin: Ratio::new(hub_margin),
            shaft_equivalent_stress: stress(shaft),
            shaft_yield_margin: Ratio::new(shaft_margin),
        }
    }

    /// What is computable and yet wrong for the job: a joint that may be loose, and a part that yields. The messages
    /// are in the shop units of a side; the place of each is the output that it speaks of.
    pub fn findings(&self, units: Units) -> Vec<Finding> {
        let mut findings = vec![];
        findings.extend(may_be_loose(self.interference_at_loosest.in_units(units), units));
        let members = [
            ("hub", self.hub_equivalent_stress, self.hub_yield_margin, "/hub_yield_margin"),
            ("shaft", self.shaft_equivalent_stress, self.shaft_yield_margin, "/shaft_yield_margin"),
        ];
        for (member, stress, margin, place) in members {
            let margin = margin.metric();
            if margin.is_nan() || margin < 1.0 {
                let message = format!(
                    "at its tightest the {member} yields: its stress is {} {}, and its yield strength is only {} of that",
                    beside(stress.in_units(units), 0.0),
                    Stress::KIND.unit(units).label,
                    beside(margin, 1.0)
                );
                let remedy = "lower the greatest interference, or use a stronger or thicker part";
                findings.push(FindingCode::JointYields.found(place.into(), message, remedy));
            }
        }
        findings
    }
}

/// A joint of which no interference may be left; `left` is what its loosest pair has, in the shop unit of a side.
pub(crate) fn may_be_loose(left: f64, units: Units) -> Option<Finding> {
    // A joint whose figure is NaN is not good either.
    if left > 0.0 {
        return None;
    }
    let message = format!(
        "the joint may be loose: at its loosest {} {} of interference is left",
        beside(left, 0.0),
        Length::KIND.unit(units).label
    );
    let remedy = "move the limits of shaft or bore until the least interference holds the load";
    let place = "/interference_at_loosest".into();
    Some(FindingCode::JointMayBeLoose.found(place, message, remedy))
}

/// A pressed joint over its tolerances: what it holds at its loosest, and what it bears at its tightest.
///
/// Least and greatest interference come from the limits of shaft and bore: the least is the least shaft less the
/// greatest bore, and negative where the joint may be loose. Such a joint then holds nothing; see the sign of
/// `interference_at_loosest`, and advised of. Roughness takes off its share at both ends (`roughness_loss`). What heat
/// and speed take off in service (`interference_lost_to_heat`, `interference_lost_to_speed`) is for the caller to
/// subtract from the least interference beforehand, and what they add, to add to the greatest.
///
/// Pressure and stresses are those of `press_fit`, where its limits are told: hub and shaft are elastic, of the same
/// length, and at rest. A margin below 1 means that a part yields and the figures at the tightest are beyond the
/// truth. Holding is judged by the friction that is least likely to be less, pressing by the greatest.
#[formula(
    source = "Lamé's thick cylinders over the extremes of the interference, roughness after DIN 7190:2001 (from \
              memory), Coulomb's friction",
    caution(pressing, joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter"),
    rule(
        greatest_interference >= least_interference,
        "greatest_interference must be at least least_interference"
    ),
    rule(
        greatest_interference > roughness_coefficient * (hub_roughness + shaft_roughness),
        "greatest_interference must be more than roughness_coefficient times hub_roughness and shaft_roughness \
         together, or there is no interference left to press"
    )
)]
pub fn press_joint(
    /// Least interference on the diameter, before assembly; a clearance is negative.
    #[range(0.0, ..)]
    #[increasing(interference_at_loosest, pressure_at_loosest, axial_force, torque)]
    least_interference: Length,
    /// Greatest interference on the diameter, before assembly.
    #[range(0.0, ..)]
    #[increasing(
        interference_at_tightest,
        pressure_at_tightest,
        press_force,
        hub_equivalent_stress,
        hub_tresca_stress,
        shaft_equivalent_stress
    )]
    #[decreasing(hub_yield_margin, shaft_yield_margin)]
    greatest_interference: Length,
    #[term(joint_diameter)] diameter: Length,
    #[increasing(pressure_at_loosest, pressure_at_tightest, axial_force, torque, press_force)]
    hub_outer_diameter: Length,
    #[term(contact_length)]
    #[increasing(axial_force, torque, press_force)]
    length: Length,
    hub_modulus: Modulus,
    hub_poisson: Ratio,
    shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    /// Least coefficient of friction that is likely, for what the joint holds.
    #[non_negative]
    #[range(.., 1.0)]
    #[increasing(axial_force, torque)]
    holding_friction: Ratio,
    /// Greatest coefficient of friction that is likely, for what pressing it takes.
    #[non_negative]
    #[range(.., 1.0)]
    #[increasing(press_force)]
    pressing_friction: Ratio,
    #[increasing(hub_yield_margin)] hub_yield: Stress,
    #[increasing(shaft_yield_margin)] shaft_yield: Stress,
    #[decreasing(pressure_at_loosest, pressure_at_tightest, axial_force, torque, press_force)]
    shaft_bore: Length,
    hub_roughness: RoughnessRz,
    shaft_roughness: RoughnessRz,
    roughness_coefficient: Ratio,
) -> PressJoint {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    let give = cylinders.give(hub_modulus, hub_poisson, shaft_modulus, shaft_poisson);
    let flattened = roughness_loss_base(hub_roughness, shaft_roughness, roughness_coefficient);
    let interference_at_loosest = least_interference - flattened;
    let interference_at_tightest = greatest_interference - flattened;
    let pressure_at_loosest = interference_at_loosest.max(0.0) / diameter / give;
    let pressure_at_tightest = interference_at_tightest / diameter / give;
    let contact = PI * diameter * length;
    let axial_force = holding_friction * pressure_at_loosest * contact;
    let hub_equivalent_stress = cylinders.hub_equivalent() * pressure_at_tightest;
    let shaft_equivalent_stress = cylinders.bore * pressure_at_tightest;
    BarePressJoint {
        interference_at_loosest,
        interference_at_tightest,
        pressure_at_loosest,
        pressure_at_tightest,
        axial_force,
        torque: axial_force * (0.5 * diameter),
        press_force: pressing_friction * pressure_at_tightest * contact,
        hub_equivalent_stress,
        hub_tresca_stress: cylinders.hub_tresca() * pressure_at_tightest,
        hub_yield_margin: hub_yield / hub_equivalent_stress,
        shaft_equivalent_stress,
        shaft_yield_margin: shaft_yield / shaft_equivalent_stress,
    }
}

/// Two forces at right angles as one; the larger outside the root, so that squares neither overflow nor vanish.
#[inline(always)]
pub(crate) fn resultant(around: f64, along: f64) -> f64 {
    let larger = around.max(along);
    let share = if larger > 0.0 { around.min(along) / larger } else { 0.0 };
    larger * (1.0 + share * share).sqrt()
}

/// What a joint needs to hold a load.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RequiredInterference {
    /// Force around the joint that the torque makes: torque over half the diameter.
    pub circumferential_force: Force,
    /// Torque and axial load as one force in the surface, with the safety factor.
    pub resultant_force: Force,
    /// Pressure that holds it.
    pub pressure: Stress,
    /// Interference on the diameter that makes this pressure.
    pub effective_interference: Length,
    /// Interference to measure before assembly, with what roughness takes off.
    pub interference: Length,
}

/// The interference that holds a torque and an axial load together, with a safety factor.
///
/// Both loads act in one surface, so they slip together when √(force around² + axial force²) does. The result is the
/// least interference that the tolerances may allow, with the least likely friction. What heat and speed take off in
/// service comes on top.
#[formula(
    source = "Lamé's thick cylinders and Coulomb's friction; resultant of the two loads as in DIN 7190 (from memory)",
    caution(joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn required_interference(
    /// Torque to hold.
    #[non_negative]
    #[increasing(circumferential_force, resultant_force, pressure, effective_interference, interference)]
    torque: Torque,
    /// Axial load to hold at the same time.
    #[non_negative]
    #[increasing(resultant_force, pressure, effective_interference, interference)]
    axial_force: Force,
    /// Safety against slipping.
    #[positive]
    #[range(1.0, ..)]
    #[increasing(resultant_force, pressure, effective_interference, interference)]
    safety_factor: Ratio,
    #[term(joint_diameter)] diameter: Length,
    #[decreasing(effective_interference, interference)] hub_outer_diameter: Length,
    #[term(contact_length)]
    #[decreasing(pressure, effective_interference, interference)]
    length: Length,
    hub_modulus: Modulus,
    hub_poisson: Ratio,
    shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    /// Least coefficient of friction that is likely.
    #[positive]
    #[range(.., 1.0)]
    #[decreasing(pressure, effective_interference, interference)]
    holding_friction: Ratio,
    #[increasing(effective_interference, interference)] shaft_bore: Length,
    hub_roughness: RoughnessRz,
    shaft_roughness: RoughnessRz,
    roughness_coefficient: Ratio,
) -> RequiredInterference {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    let give = cylinders.give(hub_modulus, hub_poisson, shaft_modulus, shaft_poisson);
    let circumferential_force = torque / (0.5 * diameter);
    let resultant_force = safety_factor * resultant(circumferential_force, axial_force);
    let pressure = resultant_force / (holding_friction * (PI * diameter * length));
    let effective_interference = pressure * give * diameter;
    BareRequiredInterference {
        circumferential_force,
        resultant_force,
        pressure,
        effective_interference,
        interference: effective_interference
            + roughness_loss_base(hub_roughness, shaft_roughness, roughness_coefficient),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PRESS_JOINT, &REQUIRED_INTERFERENCE, &ROUGHNESS_LOSS];

#[cfg(test)]
mod tests {
    use super::*;

    /// A joint of 50 H7 with its shaft's limits in micrometres above nominal, in a hub of 90 mm.
    fn joint(least: f64, greatest: f64, hub_yield: f64) -> Result<PressJoint, crate::Error> {
        let (modulus, poisson) = (Modulus::gigapascals(206.0), Ratio::new(0.3));
        press_joint(
            Length::millimetres(least),
            Length::millimetres(greatest),
            Length::millimetres(50.0),
            Length::millimetres(90.0),
            Length::millimetres(50.0),
            modulus,
            poisson,
            modulus,
            poisson,
            Ratio::new(0.12),
            Ratio::new(0.2),
            Stress::megapascals(hub_yield),
            Stress::megapascals(600.0),
            Length::millimetres(0.0),
            RoughnessRz::micrometres(6.3),
            RoughnessRz::micrometres(4.0),
            Ratio::new(0.8),
        )
    }

    // Roughness takes 8.24 µm, so that 8 µm of interference are a clearance.
    #[test]
    fn a_joint_that_may_be_loose_holds_nothing_and_is_found() {
        let loose = joint(0.008, 0.07, 300.0).unwrap();
        assert_eq!([loose.pressure_at_loosest.metric(), loose.axial_force.metric()], [0.0; 2]);
        assert!(loose.interference_at_loosest.metric() < 0.0);
        assert_eq!(
            loose.findings(Units::Metric).iter().map(|f| f.code).collect::<Vec<_>>(),
            ["joint_may_be_loose"]
        );
        assert_eq!(joint(0.029, 0.07, 300.0).unwrap().findings(Units::Metric), []);
    }

    #[test]
    fn a_hub_that_yields_is_found() {
        let yields = joint(0.029, 0.07, 200.0).unwrap();
        assert!(yields.hub_yield_margin.metric() < 1.0);
        assert_eq!(
            yields.findings(Units::Metric).iter().map(|f| f.code).collect::<Vec<_>>(),
            ["joint_yields"]
        );
    }

    #[test]
    fn findings_are_told_in_the_units_of_a_side() {
        // 0.01016 mm are 0.0004 in, by hand.
        let mut outputs = [1.0; 12];
        outputs[0] = -0.0004;
        let joint = PressJoint::from_outputs(Units::Inch, &outputs);
        assert!((joint.interference_at_loosest.metric() + 0.01016).abs() < 1e-15);
        let findings = joint.findings(Units::Inch);
        let text = "the joint may be loose: at its loosest -0.0004 in of interference is left";
        assert_eq!(findings.iter().map(|f| f.message.as_str()).collect::<Vec<_>>(), [text]);
        // The outputs of a call that failed.
        assert_eq!(PressJoint::from_outputs(Units::Metric, &[f64::NAN; 12]).findings(Units::Metric).len(), 3);
    }

    #[test]
    fn outputs_read_back_in_their_order() {
        let mut outputs = [0.0; 12];
        let joint = joint(0.029, 0.07, 300.0).unwrap();
        let x = [0.029, 0.07, 50., 90., 50., 206., 0.3, 206., 0.3, 0.12, 0.2, 300., 600., 0., 6.3, 4., 0.8];
        PRESS_JOINT.call(Units::Metric, &x, &mut outputs).unwrap();
        assert_eq!(PressJoint::from_outputs(Units::Metric, &outputs), joint);
    }

    #[test]
    fn a_fit_that_is_always_loose_is_no_joint() {
        let text = joint(-0.02, 0.008, 300.0).unwrap_err().to_string();
        assert!(text.contains("or there is no interference left to press"), "{text}");
    }
}
