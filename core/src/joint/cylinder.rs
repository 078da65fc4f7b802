//! Thick cylinders after Lamé: what pressure between hub and shaft does to each.
//!
//! Ends are open (plane stress), all is elastic. Tension is positive, compression negative.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// The stresses of hub and shaft for each unit of pressure between them, compression of the shaft as positive.
#[derive(Clone, Copy)]
pub(super) struct Cylinders {
    /// Hoop stress at the bore of the hub.
    pub hub: f64,
    /// Hoop stress at the outside of the hub.
    pub hub_outside: f64,
    /// Hoop stress at the surface of the shaft.
    pub shaft: f64,
    /// Hoop stress at the bore of the shaft; of a solid one, its stress everywhere.
    pub bore: f64,
}

impl Cylinders {
    #[inline(always)]
    pub fn of(diameter: f64, hub_outer_diameter: f64, shaft_bore: f64) -> Self {
        // Ratios first, so that squares of lengths neither overflow nor vanish.
        let (hub_ratio, bore_ratio) = (diameter / hub_outer_diameter, shaft_bore / diameter);
        let (hub_square, bore_square) = (hub_ratio * hub_ratio, bore_ratio * bore_ratio);
        Cylinders {
            hub: (1.0 + hub_square) / (1.0 - hub_square),
            hub_outside: 2.0 * hub_square / (1.0 - hub_square),
            shaft: (1.0 + bore_square) / (1.0 - bore_square),
            bore: if shaft_bore > 0.0 { 2.0 / (1.0 - bore_square) } else { 1.0 },
        }
    }

    /// Interference over diameter that a unit of pressure takes up.
    #[inline(always)]
    pub fn give(self, hub_modulus: f64, hub_poisson: f64, shaft_modulus: f64, shaft_poisson: f64) -> f64 {
        (self.hub + hub_poisson) / hub_modulus + (self.shaft - shaft_poisson) / shaft_modulus
    }

    /// Equivalent stress after von Mises at the bore of the hub.
    #[inline(always)]
    pub fn hub_equivalent(self) -> f64 {
        (self.hub * self.hub + self.hub + 1.0).sqrt()
    }

    /// Equivalent stress after Tresca at the bore of the hub.
    #[inline(always)]
    pub fn hub_tresca(self) -> f64 {
        self.hub + 1.0
    }

    /// Equivalent stress after von Mises at the surface of the shaft.
    #[inline(always)]
    pub fn shaft_surface_equivalent(self) -> f64 {
        (self.shaft * self.shaft - self.shaft + 1.0).sqrt()
    }
}

/// Stresses of hub and shaft under the pressure of their joint.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PressStresses {
    /// Hoop stress at the bore of the hub, the greatest tension of the joint.
    pub hub_hoop_stress: Stress,
    /// Hoop stress at the outside of the hub.
    pub hub_outside_hoop_stress: Stress,
    /// Equivalent stress after von Mises at the bore of the hub, where the hub bears most.
    pub hub_equivalent_stress: Stress,
    /// Equivalent stress after Tresca at the bore of the hub, hoop stress plus pressure.
    pub hub_tresca_stress: Stress,
    /// Hoop stress at the surface of the shaft.
    pub shaft_hoop_stress: Stress,
    /// Equivalent stress after von Mises at the surface of the shaft.
    pub shaft_surface_equivalent_stress: Stress,
    /// Hoop stress at the bore of a hollow shaft; of a solid one, minus the pressure.
    pub shaft_bore_hoop_stress: Stress,
    /// Greatest equivalent stress of the shaft, after von Mises and Tresca alike: at the bore of a hollow one,
    /// everywhere in a solid one.
    pub shaft_equivalent_stress: Stress,
}

/// Stresses of hub and shaft where they are greatest, for a pressure between them.
///
/// The hub bears most at its bore, where radial stress is minus the pressure; a hollow shaft at its own bore, where
/// there is no radial stress; a solid shaft everywhere alike. Which of the two yields first depends on their yield
/// strengths: `yielding_interference` tells. Ends are open, so there is no axial stress.
#[formula(
    source = "Lamé's thick cylinders, as in R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering \
              Design, 9th ed., section 3-16 (clause from memory)",
    caution(joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn press_stresses(
    #[term(joint_pressure)]
    #[increasing(
        hub_hoop_stress,
        hub_outside_hoop_stress,
        hub_equivalent_stress,
        hub_tresca_stress,
        shaft_surface_equivalent_stress,
        shaft_equivalent_stress
    )]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    pressure: Stress,
    #[term(joint_diameter)] diameter: Length,
    #[decreasing(hub_hoop_stress, hub_outside_hoop_stress, hub_equivalent_stress, hub_tresca_stress)]
    hub_outer_diameter: Length,
    #[increasing(shaft_surface_equivalent_stress, shaft_equivalent_stress)]
    #[decreasing(shaft_hoop_stress, shaft_bore_hoop_stress)]
    shaft_bore: Length,
) -> PressStresses {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    BarePressStresses {
        hub_hoop_stress: cylinders.hub * pressure,
        hub_outside_hoop_stress: cylinders.hub_outside * pressure,
        hub_equivalent_stress: cylinders.hub_equivalent() * pressure,
        hub_tresca_stress: cylinders.hub_tresca() * pressure,
        shaft_hoop_stress: -cylinders.shaft * pressure,
        shaft_surface_equivalent_stress: cylinders.shaft_surface_equivalent() * pressure,
        shaft_bore_hoop_stress: -cylinders.bore * pressure,
        shaft_equivalent_stress: cylinders.bore * pressure,
    }
}

/// Pressures at which a joint begins to yield, and the interference that brings them about.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct YieldingInterference {
    /// Pressure at which the bore of the hub yields after von Mises.
    pub hub_pressure: Stress,
    /// Pressure at which it yields after Tresca.
    pub hub_pressure_tresca: Stress,
    /// Pressure at which it yields after the modified shear stress of DIN 7190, yield · (1 - (d/D)²) / √3.
    pub hub_pressure_modified_shear: Stress,
    /// Pressure at which the shaft yields, a hollow one at its bore.
    pub shaft_pressure: Stress,
    /// Interference at which hub or shaft begins to yield, the hub after von Mises.
    pub interference: Length,
    /// The same with the hub after Tresca.
    pub interference_tresca: Length,
}

/// The interference at which hub or shaft begins to yield, and the pressures at which each does.
///
/// The first fibre yields there; the joint holds on beyond, as a plastic one that is not computed here. What
/// roughness takes off the interference comes on top.
#[formula(
    source = "First yield of Lamé's cylinders without axial stress; modified shear stress after DIN 7190 (from memory)",
    caution(joint),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn yielding_interference(
    #[term(joint_diameter)] diameter: Length,
    #[increasing(hub_pressure, hub_pressure_tresca, hub_pressure_modified_shear)] hub_outer_diameter: Length,
    #[decreasing(interference, interference_tresca)] hub_modulus: Modulus,
    hub_poisson: Ratio,
    #[increasing(
        hub_pressure,
        hub_pressure_tresca,
        hub_pressure_modified_shear,
        interference,
        interference_tresca
    )]
    hub_yield: Stress,
    #[decreasing(interference, interference_tresca)] shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    #[increasing(shaft_pressure, interference, interference_tresca)] shaft_yield: Stress,
    #[decreasing(shaft_pressure)] shaft_bore: Length,
) -> YieldingInterference {
    let cylinders = Cylinders::of(diameter, hub_outer_diameter, shaft_bore);
    let give = cylinders.give(hub_modulus, hub_poisson, shaft_modulus, shaft_poisson);
    let hub_ratio = diameter / hub_outer_diameter;
    let shaft_pressure = shaft_yield / cylinders.bore;
    let hub_pressure = hub_yield / cylinders.hub_equivalent();
    let hub_pressure_tresca = hub_yield / cylinders.hub_tresca();
    BareYieldingInterference {
        hub_pressure,
        hub_pressure_tresca,
        hub_pressure_modified_shear: hub_yield * (1.0 - hub_ratio * hub_ratio) / 3f64.sqrt(),
        shaft_pressure,
        interference: hub_pressure.min(shaft_pressure) * give * diameter,
        interference_tresca: hub_pressure_tresca.min(shaft_pressure) * give * diameter,
    }
}

/// Hoop stresses of a shrunk tube under pressure inside.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct CompoundTube {
    /// Hoop stress at the bore of the inner tube.
    pub bore_hoop_stress: Stress,
    /// Hoop stress at the outside of the inner tube.
    pub inner_outside_hoop_stress: Stress,
    /// Hoop stress at the bore of the jacket.
    pub jacket_bore_hoop_stress: Stress,
    /// Hoop stress at the outside of the jacket.
    pub jacket_outside_hoop_stress: Stress,
}

/// Hoop stresses of a jacket shrunk on a tube, under pressure inside the tube.
///
/// The stresses of shrinking and those that the pressure makes in a tube of one piece add up, so both parts are of
/// one material, and stay elastic. Shrinking puts the bore in compression, which is what the jacket is for.
#[formula(
    source = "Lamé's thick cylinders, superposed: E. J. Hearn, Mechanics of Materials 1, ch. 10 (from memory)",
    caution(pressure_vessel),
    rule(jacket_outer_diameter > diameter, "jacket_outer_diameter must be greater than diameter"),
    rule(bore < diameter, "bore must be less than diameter")
)]
pub fn compound_tube(
    /// Pressure of the joint from shrinking, with none inside.
    #[non_negative]
    #[increasing(jacket_bore_hoop_stress, jacket_outside_hoop_stress)]
    #[decreasing(bore_hoop_stress, inner_outside_hoop_stress)]
    joint_pressure: Stress,
    /// Pressure inside the tube.
    #[non_negative]
    #[increasing(
        bore_hoop_stress,
        inner_outside_hoop_stress,
        jacket_bore_hoop_stress,
        jacket_outside_hoop_stress
    )]
    inside_pressure: Stress,
    /// Bore of the tube.
    #[positive]
    bore: Length,
    #[term(joint_diameter)] diameter: Length,
    /// Outside diameter of the jacket.
    #[positive]
    jacket_outer_diameter: Length,
) -> CompoundTube {
    let cylinders = Cylinders::of(diameter, jacket_outer_diameter, bore);
    // The tube of one piece: hoop stress inside it is even + even · (outside / diameter)².
    let ratio = bore / jacket_outer_diameter;
    let even = inside_pressure * (ratio * ratio) / (1.0 - ratio * ratio);
    let one_piece = |over: f64| even + even * (over * over);
    BareCompoundTube {
        bore_hoop_stress: one_piece(jacket_outer_diameter / bore) - cylinders.bore * joint_pressure,
        inner_outside_hoop_stress: one_piece(jacket_outer_diameter / diameter)
            - cylinders.shaft * joint_pressure,
        jacket_bore_hoop_stress: one_piece(jacket_outer_diameter / diameter) + cylinders.hub * joint_pressure,
        jacket_outside_hoop_stress: one_piece(1.0) + cylinders.hub_outside * joint_pressure,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PRESS_STRESSES, &YIELDING_INTERFERENCE, &COMPOUND_TUBE];
