//! What a pressed joint loses in service: to heat and to speed.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Interference that a joint loses as hub and shaft warm up: what the bore grows less what the shaft grows.
///
/// Diameter · (hub's coefficient · its rise - shaft's coefficient · its rise), to first order. Negative where the joint
/// tightens: then look at the hub's stress. Rises count from the temperature at which the parts were measured.
#[formula(
    source = "Linear expansion: common practice",
    caution(joint),
    inverse(hub_rise = (interference_lost_to_heat / diameter + shaft_expansion * shaft_rise) / hub_expansion),
    inverse(shaft_rise = (hub_expansion * hub_rise - interference_lost_to_heat / diameter) / shaft_expansion)
)]
pub fn interference_lost_to_heat(
    #[term(joint_diameter)] diameter: Length,
    hub_expansion: ExpansionCoefficient,
    /// How much warmer the hub is than when it was measured; negative where it is colder.
    #[within(TemperatureDifference::kelvin(-300.0), TemperatureDifference::kelvin(3000.0))]
    #[increasing]
    hub_rise: TemperatureDifference,
    shaft_expansion: ExpansionCoefficient,
    /// How much warmer the shaft is than when it was measured; negative where it is colder.
    #[within(TemperatureDifference::kelvin(-300.0), TemperatureDifference::kelvin(3000.0))]
    #[decreasing]
    shaft_rise: TemperatureDifference,
) -> Length {
    diameter * (hub_expansion * hub_rise - shaft_expansion * shaft_rise)
}

/// Temperature rise of hub and shaft at which a joint comes loose: interference / (d · (α_hub - α_shaft)).
///
/// To first order, for a hub and a shaft that are equally warm. A hub that expands less than its shaft never comes
/// loose when both warm, and is refused; it does when both grow cold.
#[formula(
    source = "Linear expansion: common practice",
    caution(joint),
    rule(hub_expansion > shaft_expansion, "hub_expansion must be greater than shaft_expansion: otherwise heat does not loosen the joint"),
    inverse(interference = loosening_rise * (diameter * (hub_expansion - shaft_expansion))),
    inverse(diameter = interference / (loosening_rise * (hub_expansion - shaft_expansion)))
)]
pub fn loosening_rise(
    /// Interference on the diameter, less what roughness takes off.
    #[non_negative]
    #[increasing]
    interference: Length,
    #[term(joint_diameter)]
    #[decreasing]
    diameter: Length,
    #[decreasing] hub_expansion: ExpansionCoefficient,
    #[increasing] shaft_expansion: ExpansionCoefficient,
) -> TemperatureDifference {
    interference / (diameter * (hub_expansion - shaft_expansion))
}

/// A rotating part as the loss of interference sees it.
struct Disc {
    /// Density over modulus, as a reciprocal of the square of a speed.
    weight: f64,
    poisson: f64,
}

impl Disc {
    /// How much the bore or the surface of a ring grows, of its own diameter, by its rotation.
    ///
    /// `there` is the speed of that bore or surface, `far` the speed of the ring's other one.
    #[inline(always)]
    fn growth(&self, there: f64, far: f64) -> f64 {
        self.weight * 0.25 * ((1.0 - self.poisson) * (there * there) + (3.0 + self.poisson) * (far * far))
    }
}

/// Interference that a rotating joint loses: what the hub's bore grows less what the shaft grows.
///
/// Hub and shaft are taken as discs in plane stress. With the speeds V of the hub's rim, v of the joint and b of the
/// shaft's bore, and diameter d, the loss is d/4 · (ρ_hub/E_hub · ((3 + ν_hub) V² + (1 - ν_hub) v²) - ρ_shaft/E_shaft ·
/// ((1 - ν_shaft) v² + (3 + ν_shaft) b²)). It rises with the square of the speed; negative, the joint tightens. The
/// rotation also adds tension at the bore of the hub, which is not in here.
#[formula(
    source = "Rotating discs, as in S. Timoshenko, Strength of Materials, part II, and E. J. Hearn, Mechanics of \
              Materials 2 (chapters from memory)",
    caution(rotating_joint),
    // A newton speeds up a kilogram by 60 m/s, that is 3600 m/min, in a minute.
    constant(unit_force: Force = Force::newtons(1.0)),
    constant(unit_mass: Mass = Mass::kilograms(1.0)),
    constant(unit_time: Time = Time::minutes(1.0)),
    constant(unit_gain: SurfaceSpeed = SurfaceSpeed::metres_per_minute(3600.0)),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn interference_lost_to_speed(
    /// Speed of rotation.
    #[non_negative]
    rotational_speed: SpindleSpeed,
    #[term(joint_diameter)] diameter: Length,
    #[increasing] hub_outer_diameter: Length,
    hub_density: Density,
    #[decreasing] hub_modulus: Modulus,
    hub_poisson: Ratio,
    shaft_density: Density,
    #[increasing] shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    #[decreasing] shaft_bore: Length,
) -> Length {
    let inertia = unit_force * unit_time / (unit_mass * unit_gain);
    let hub = Disc { weight: hub_density * inertia / hub_modulus, poisson: hub_poisson };
    let shaft = Disc { weight: shaft_density * inertia / shaft_modulus, poisson: shaft_poisson };
    let speed = |diameter: f64| PI * diameter * rotational_speed;
    let (rim, joint, bore) = (speed(hub_outer_diameter), speed(diameter), speed(shaft_bore));
    diameter * (hub.growth(joint, rim) - shaft.growth(joint, bore))
}

/// Speed of rotation at which a joint comes loose, where its interference is lost to speed.
///
/// The loss of `interference_lost_to_speed` rises with the square of the speed, so that the pressure at a lower speed n
/// is that at rest times 1 - (n / release speed)². Where rotation tightens the joint there is no answer.
#[formula(
    source = "Rotating discs, as in S. Timoshenko, Strength of Materials, part II, and E. J. Hearn, Mechanics of \
              Materials 2 (chapters from memory)",
    caution(rotating_joint),
    constant(unit_force: Force = Force::newtons(1.0)),
    constant(unit_mass: Mass = Mass::kilograms(1.0)),
    constant(unit_time: Time = Time::minutes(1.0)),
    constant(unit_gain: SurfaceSpeed = SurfaceSpeed::metres_per_minute(3600.0)),
    rule(hub_outer_diameter > diameter, "hub_outer_diameter must be greater than diameter"),
    rule(shaft_bore < diameter, "shaft_bore must be less than diameter")
)]
pub fn release_speed(
    /// Interference on the diameter at rest, less what roughness takes off.
    #[positive]
    #[increasing]
    interference: Length,
    #[term(joint_diameter)] diameter: Length,
    #[decreasing] hub_outer_diameter: Length,
    #[decreasing] hub_density: Density,
    #[increasing] hub_modulus: Modulus,
    hub_poisson: Ratio,
    #[increasing] shaft_density: Density,
    #[decreasing] shaft_modulus: Modulus,
    shaft_poisson: Ratio,
    #[increasing] shaft_bore: Length,
) -> SpindleSpeed {
    let inertia = unit_force * unit_time / (unit_mass * unit_gain);
    let hub = Disc { weight: hub_density * inertia / hub_modulus, poisson: hub_poisson };
    let shaft = Disc { weight: shaft_density * inertia / shaft_modulus, poisson: shaft_poisson };
    // In place of speeds their diameters: the growth is then for each square of π and the speed of rotation.
    let loss = hub.growth(diameter, hub_outer_diameter) - shaft.growth(diameter, shaft_bore);
    (interference / diameter / loss).sqrt() / PI
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&INTERFERENCE_LOST_TO_HEAT, &LOOSENING_RISE, &INTERFERENCE_LOST_TO_SPEED, &RELEASE_SPEED];
