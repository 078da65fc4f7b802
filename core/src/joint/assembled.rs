//! One pressed joint of a known interference: for a pair that was measured, and for sampling over a fit.
//!
//! [`press_joint`](super::press_joint::press_joint) tells the worst of all pairs. Here the interference is that of one pair,
//! so that the formula may be sampled: what share of the joints slips under a load, and what share yields, is what
//! falls below zero of `holding_reserve`, `hub_yield_reserve` and `shaft_yield_reserve`.
//!
//! ```
//! use tenths::joint::assembled::ASSEMBLED_JOINT;
//! use tenths::stack::{Distribution, Input, Sampling};
//! use tenths::{Fit, Units};
//! let fit = Fit::parse("50 H7/s6")?;
//! let friction = Input::new("holding_friction", 0.15, 0.03, -0.03);
//! let joints = ASSEMBLED_JOINT.propagate(Units::Metric, Some("holding_reserve"), vec![
//!     Input::interference("interference", &fit, Units::Metric),
//!     Input { distribution: Distribution::Uniform, ..friction },
//!     Input::fixed("pressing_friction", 0.2),
//!     Input::fixed("diameter", 50.0),
//!     Input::fixed("hub_outer_diameter", 90.0),
//!     Input::fixed("length", 50.0),
//!     Input::fixed("hub_modulus", 206.0),
//!     Input::fixed("hub_poisson", 0.3),
//!     Input::fixed("shaft_modulus", 206.0),
//!     Input::fixed("shaft_poisson", 0.3),
//!     Input::fixed("hub_yield", 300.0),
//!     Input::fixed("shaft_yield", 600.0),
//!     Input::fixed("torque_load", 1000.0),
//! ])?;
//! let sample = joints.sample(&Sampling::new(400_000, 1).within(0.0, f64::INFINITY))?;
//! // Of a thousand joints six slip under 1000 N·m: the normal law of the interference, integrated over the friction.
//! assert_eq!(format!("{:.3}", sample.fraction_below().value), "0.006");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
use super::cylinder::Cylinders;
use super::press_joint::{resultant, roughness_loss_base};
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// What a joint of a known interference holds and bears.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct AssembledJoint {
    /// Interference that roughness leaves; a clearance is negative.
    pub effective_interference: Length,
    /// Pressure between hub and shaft; none in a loose joint.
    pub pressure: Stress,
    /// Axial force that the joint holds.
    pub axial_force: Force,
    /// Torque that it holds.
    pub torque: Torque,
    /// Force that it holds in its surface, less what torque and axial load ask of it together: negative where it slips.
    pub holding_reserve: Force,
    /// Force to press it together, at the end of the stroke.
    pub press_force: Force,
    /// Equivalent stress after von Mises at the bore of the hub.
    pub hub_equivalent_stress: Stress,
    /// Yield strength of the hub less its equivalent stress: negative where the hub yields.
    pub hub_yield_reserve: Stress,
    /// Greatest equivalent stress of the shaft: at the bore of a hollow one, everywhere in a solid one.
    pub shaft_equivalent_stress: Stress,
    /// Yield strength of the shaft less that stress: negative where the shaft yields.
    pub shaft_yield_reserve: Stress,
}

/// A pressed joint of one hub and one shaft, by the interference between the two: what it holds and what it bears.
///
/// For a pair that has been measured, and for sampling: give the interference of a fit as an input that varies, and
/// what falls below zero of a reserve is the share of joints that slip or yield. `press_joint` tells the worst of all
/// pairs. A pair with clearance is accepted, but such a joint holds nothing.
///
/// Pressure and stresses are those of `press_fit`, where its limits are told: hub and shaft are elastic, of the same
/// length, and at rest; where a part yields, the figures are beyond the truth. Torque and axial load act in one
/// surface, so they slip together when √(force around² + axial load²) exceeds what friction holds.
#[formula(
    source = "Lamé's thick cylinders, roughness after DIN 7190:2001 (from memory), Coulomb's friction",
    caution(pressing, joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn assembled_joint(
    /// Interference on the diameter, before assembly; a clearance is negative.
    #[range(0.0, ..)]
    #[increasing(
        pressure,
        axial_force,
        torque,
        holding_reserve,
        press_force,
        hub_equivalent_stress,
        shaft_equivalent_stress
    )]
    #[decreasing(hub_yield_reserve, shaft_yield_reserve)]
    interference: Length,
    #[term(joint_diameter)] diameter: Length,
    #[increasing(pressure, axial_force, torque, holding_reserve, press_force)] hub_outer_diameter: Length,
    #[term(contact_length)]
    #[increasing(axial_force, torque, holding_reserve, press_force)]
    length: Length,
    hub_modulus: Modulus,
    hub_poisson: Ratio,
    shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    /// Coefficient of friction for what the joint holds.
    #[non_negative]
    #[range(.., 1.0)]
    #[increasing(axial_force, torque, holding_reserve)]
    holding_friction: Ratio,
    /// Coefficient of friction for what pressing it takes.
    #[non_negative]
    #[range(.., 1.0)]
    #[increasing(press_force)]
    pressing_friction: Ratio,
    #[increasing(hub_yield_reserve)] hub_yield: Stress,
    #[increasing(shaft_yield_reserve)] shaft_yield: Stress,
    #[decreasing(pressure, axial_force, torque, holding_reserve, press_force)] shaft_bore: Length,
    hub_roughness: RoughnessRz,
    shaft_roughness: RoughnessRz,
    roughness_coefficient: Ratio,
    /// Torque that the joint is to hold.
    #[non_negative]
    #[default(0.0)]
    #[decreasing(holding_reserve)]
    torque_load: Torque,
    /// Axial load that it is to hold at the same time.
    #[non_negative]
    #[default(0.0)]
    #[decreasing(holding_reserve)]
    axial_load: Force,
) -> AssembledJoint {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    let give = cylinders.give(hub_modulus, hub_poisson, shaft_modulus, shaft_poisson);
    let effective_interference =
        interference - roughness_loss_base(hub_roughness, shaft_roughness, roughness_coefficient);
    let pressure = effective_interference.max(0.0) / diameter / give;
    let contact = PI * diameter * length;
    let axial_force = holding_friction * pressure * contact;
    let hub_equivalent_stress = cylinders.hub_equivalent() * pressure;
    let shaft_equivalent_stress = cylinders.bore * pressure;
    BareAssembledJoint {
        effective_interference,
        pressure,
        axial_force,
        torque: axial_force * (0.5 * diameter),
        holding_reserve: axial_force - resultant(torque_load / (0.5 * diameter), axial_load),
        press_force: pressing_friction * pressure * contact,
        hub_equivalent_stress,
        hub_yield_reserve: hub_yield - hub_equivalent_stress,
        shaft_equivalent_stress,
        shaft_yield_reserve: shaft_yield - shaft_equivalent_stress,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&ASSEMBLED_JOINT];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::normal_cdf;
    use crate::stack::{Distribution, Input, Sample, Sampling};
    use crate::{Fit, Units};

    /// Joints of 50 H7/s6 in hubs of 90 mm, all else fixed but what `varied` gives.
    fn sample(output: &str, varied: Vec<Input>, sampling: Sampling) -> Sample {
        let fit = Fit::parse("50 H7/s6").unwrap();
        let mut inputs = varied;
        inputs.push(Input::interference("interference", &fit, Units::Metric));
        for (name, value) in [
            ("diameter", 50.0),
            ("hub_outer_diameter", 90.0),
            ("length", 50.0),
            ("hub_modulus", 206.0),
            ("hub_poisson", 0.3),
            ("shaft_modulus", 206.0),
            ("shaft_poisson", 0.3),
            ("holding_friction", 0.12),
            ("pressing_friction", 0.2),
            ("hub_yield", 180.0),
            ("shaft_yield", 600.0),
        ] {
            if inputs.iter().all(|input| input.name != name) {
                inputs.push(Input::fixed(name, value));
            }
        }
        let joints = ASSEMBLED_JOINT.propagate(Units::Metric, Some(output), inputs).unwrap();
        joints.sample(&sampling).unwrap()
    }

    const COUNT: u64 = 200_000;

    /// Interference of 50 H7/s6 in millimetres. ISO 286: H7 +25/0 µm, s6 +59/+43 µm, so that it is 38.5 µm in the
    /// middle; each part spreads over six sigma, and the variances add.
    const MEAN: f64 = 0.0385;
    fn sigma() -> f64 {
        let [hole, shaft]: [f64; 2] = [0.025 / 6.0, 0.016 / 6.0];
        (hole * hole + shaft * shaft).sqrt()
    }

    /// MPa a millimetre of interference, hub and shaft of one material and the shaft solid:
    /// E / (2 d) · (1 - (d / D)²), as in books on machine elements.
    const STIFFNESS: f64 = 206_000.0 / 100.0 * (1.0 - (5.0 / 9.0) * (5.0 / 9.0));

    fn is_near(found: f64, exact: f64, standard_error: f64) {
        assert!((found - exact).abs() < 5.0 * standard_error, "{found} is not {exact} ± {standard_error}");
    }

    // Pressure is linear in a normal interference, and so it is normal, with mean and sigma in proportion.
    #[test]
    fn pressure_over_a_fit_is_the_exact_normal() {
        let pressure = sample("pressure", vec![], Sampling::new(COUNT, 7));
        let exact = sigma() * STIFFNESS;
        is_near(pressure.mean(), MEAN * STIFFNESS, exact / (COUNT as f64).sqrt());
        is_near(pressure.sigma(), exact, exact / (2.0 * COUNT as f64).sqrt());
    }

    // A joint slips where its interference is less than that which holds the load, and a hub yields where it is more
    // than that which its strength bears: shares of the normal law.
    #[test]
    fn shares_that_slip_and_yield_are_those_of_the_normal_law() {
        let within = Sampling::new(COUNT, 8).within(0.0, f64::INFINITY);
        let is_share = |sample: Sample, exact: f64| {
            assert!((0.01..0.99).contains(&exact), "{exact} shows little");
            is_near(sample.fraction_below().value, exact, (exact * (1.0 - exact) / COUNT as f64).sqrt());
        };
        // 900 N·m at 25 mm are 36 000 N around, and 15 000 N along: 39 000 N together.
        let loads = vec![Input::fixed("torque_load", 900.0), Input::fixed("axial_load", 15_000.0)];
        let held_by_a_millimetre = 0.12 * STIFFNESS * PI * 50.0 * 50.0;
        let needed = 39_000.0 / held_by_a_millimetre;
        is_share(sample("holding_reserve", loads, within), normal_cdf((needed - MEAN) / sigma()));
        // Von Mises at the bore of a hub: p · √(3 D⁴ + d⁴) / (D² - d²).
        let (outer, bore): (f64, f64) = (90.0 * 90.0, 50.0 * 50.0);
        let concentration = (3.0 * outer * outer + bore * bore).sqrt() / (outer - bore);
        let borne = 180.0 / (concentration * STIFFNESS);
        is_share(sample("hub_yield_reserve", vec![], within), normal_cdf((MEAN - borne) / sigma()));
    }

    // The force held is the product of two independent factors: E(xy) = E(x) E(y), and
    // var(xy) = var x var y + var x E(y)² + var y E(x)². A uniform friction of ±h has a variance of h² / 3.
    #[test]
    fn friction_that_varies_too_adds_its_share() {
        let friction = Input::new("holding_friction", 0.12, 0.03, -0.03);
        let friction = Input { distribution: Distribution::Uniform, ..friction };
        let force = sample("axial_force", vec![friction], Sampling::new(COUNT, 9));
        let scale = STIFFNESS * PI * 50.0 * 50.0;
        let (x, y, var_x, var_y) = (MEAN, 0.12, sigma() * sigma(), 0.03 * 0.03 / 3.0);
        let exact = scale * (var_x * var_y + var_x * y * y + var_y * x * x).sqrt();
        is_near(force.mean(), scale * x * y, exact / (COUNT as f64).sqrt());
        is_near(force.sigma(), exact, exact / (COUNT as f64).sqrt());
    }

    #[test]
    fn a_loose_joint_holds_nothing_and_is_short_of_the_whole_load() {
        let x =
            [-0.01, 50., 90., 50., 206., 0.3, 206., 0.3, 0.12, 0.2, 300., 600., 0., 0., 0., 0.8, 30., 500.];
        let mut y = [f64::NAN; 10];
        ASSEMBLED_JOINT.call(Units::Metric, &x, &mut y).unwrap();
        // 30 N·m at 25 mm are 1200 N around; with 500 N along, 1300 N.
        assert_eq!((y[1], y[2], y[3], y[4]), (0.0, 0.0, 0.0, -1300.0));
        assert_eq!((y[7], y[9]), (300.0, 600.0));
    }
}
