//! Limits of rotation: the rating of a chuck, its grip at speed, and the whipping of bar.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Spindle speed as a share of the chuck's rated speed; a speed above the rating is refused.
///
/// Take the lowest rating of chuck, jaws, cylinder and spindle; one for balanced work of normal weight is
/// less for other work. A chuck within its rating may still let go of the work: see
/// `gripping_force_at_speed`.
#[formula(
    source = "Common practice; the rating is marked on the chuck, EN 1550 (from memory)",
    caution(chuck),
    rule(
        spindle_speed <= rated_speed,
        "spindle_speed must be at most rated_speed: a chuck above its rating loses its grip or breaks"
    )
)]
pub fn chuck_speed_share(
    #[increasing] spindle_speed: SpindleSpeed,
    /// Greatest speed marked on the chuck.
    #[positive]
    #[decreasing]
    rated_speed: SpindleSpeed,
) -> Ratio {
    spindle_speed / rated_speed
}

/// Centrifugal force of the jaws of a chuck, all together: jaws · jaw mass · radius · (2 π · spindle speed)².
///
/// It lessens the grip on the outside of the work by as much, and adds to the grip in a bore. Base jaw and
/// top jaw are summed, each at its own radius. Counterweights and the friction of the chuck are not in it.
#[formula(
    source = "VDI 3106 (from memory), as in Schunk, ROTA-S plus 2.0, operating manual, p. 26",
    caution(chuck),
    constant(newton: Force = Force::newtons(1.0)),
    constant(kilogram: Mass = Mass::kilograms(1.0)),
    constant(metre: Length = Length::millimetres(1000.0)),
    constant(second: Time = Time::minutes(1.0 / 60.0)),
    inverse(jaw_mass = kilogram * (jaw_centrifugal_force / newton)
        / (jaws * (jaw_radius / metre) * square(2.0 * PI * spindle_speed * second)))
)]
pub fn jaw_centrifugal_force(
    #[increasing] jaw_mass: Mass,
    #[increasing] jaw_radius: Length,
    #[increasing] jaws: Count,
    #[increasing] spindle_speed: SpindleSpeed,
) -> Force {
    let turned = 2.0 * PI * spindle_speed * second;
    newton * (jaws * (jaw_mass / kilogram) * (jaw_radius / metre) * (turned * turned))
}

#[inline(always)]
fn square(x: f64) -> f64 {
    x * x
}

/// Grip of a chuck on the outside of the work at speed: grip at rest less the centrifugal force of its jaws.
///
/// All jaws together. The work is thrown where nothing is left, and a third of the grip at rest is what
/// makers commonly ask to remain: measure the grip, since wear and want of grease can halve it.
#[formula(
    source = "VDI 3106 (from memory), as in Schunk, ROTA-S plus 2.0, operating manual, p. 26; the third is that of EN \
              1550 (from memory)",
    caution(chuck),
    constant(newton: Force = Force::newtons(1.0)),
    constant(kilogram: Mass = Mass::kilograms(1.0)),
    constant(metre: Length = Length::millimetres(1000.0)),
    constant(second: Time = Time::minutes(1.0 / 60.0)),
    rule(
        jaw_centrifugal_force_base(jaw_mass, jaw_radius, jaws, spindle_speed, newton, kilogram, metre, second)
            < gripping_force,
        "gripping_force must be greater than the centrifugal force of jaw_mass, jaw_radius, jaws and \
         spindle_speed: the work would be thrown"
    ),
    inverse(gripping_force = gripping_force_at_speed
        + jaw_centrifugal_force_base(
            jaw_mass, jaw_radius, jaws, spindle_speed, newton, kilogram, metre, second
        ))
)]
pub fn gripping_force_at_speed(
    #[increasing] gripping_force: Force,
    #[decreasing] jaw_mass: Mass,
    #[decreasing] jaw_radius: Length,
    #[decreasing] jaws: Count,
    #[decreasing] spindle_speed: SpindleSpeed,
) -> Force {
    gripping_force
        - jaw_centrifugal_force_base(
            jaw_mass,
            jaw_radius,
            jaws,
            spindle_speed,
            newton,
            kilogram,
            metre,
            second,
        )
}

/// First whipping speed of bar that sticks out unsupported, as behind the spindle.
///
/// The bar is held as if built in at one end and free at the other: 1.875104² / (2 π) · √(E I / (ρ A)) /
/// overhang², with the first root of cos x · cosh x = -1 in full precision.
///
/// Cut a bar that cannot be supported to the length of the spindle.
#[formula(
    source = "Bending of a uniform beam after Euler and Bernoulli, built in at one end, first root \
              1.875104²; Machinery's Handbook, critical speeds of shafts (from memory)",
    caution(whipping_bar),
    constant(newton: Force = Force::newtons(1.0)),
    constant(kilogram: Mass = Mass::kilograms(1.0)),
    constant(metre: Length = Length::millimetres(1000.0)),
    constant(second: Time = Time::minutes(1.0 / 60.0)),
    rule(bore < diameter, "bore must be less than diameter"),
    inverse(overhang = (BUILT_IN_AND_FREE
        * whipping(diameter, bore, modulus, density, newton, kilogram, metre, second)
        / whipping_speed)
        .sqrt())
)]
pub fn whipping_speed(
    #[term(bar_outer_diameter)]
    #[increasing]
    diameter: Length,
    /// Length that sticks out unsupported.
    #[positive]
    #[decreasing]
    overhang: Length,
    #[increasing] modulus: Modulus,
    #[decreasing] density: Density,
    #[increasing] bore: Length,
) -> SpindleSpeed {
    BUILT_IN_AND_FREE * whipping(diameter, bore, modulus, density, newton, kilogram, metre, second)
        / (overhang * overhang)
}

/// First whipping speed of bar between two supports that let it tilt: π / 2 · √(E I / (ρ A)) / length².
///
/// Between a chuck or collet and a centre or bush the bar is somewhat stiffer than this.
#[formula(
    source = "Bending of a uniform beam after Euler and Bernoulli, simply supported, first root π²; \
              Machinery's Handbook, critical speeds of shafts (from memory)",
    caution(whipping_bar),
    constant(newton: Force = Force::newtons(1.0)),
    constant(kilogram: Mass = Mass::kilograms(1.0)),
    constant(metre: Length = Length::millimetres(1000.0)),
    constant(second: Time = Time::minutes(1.0 / 60.0)),
    rule(bore < diameter, "bore must be less than diameter"),
    inverse(length = (SUPPORTED * whipping(diameter, bore, modulus, density, newton, kilogram, metre, second)
        / supported_whipping_speed).sqrt())
)]
pub fn supported_whipping_speed(
    #[term(bar_outer_diameter)]
    #[increasing]
    diameter: Length,
    /// Length between the supports.
    #[positive]
    #[decreasing]
    length: Length,
    #[increasing] modulus: Modulus,
    #[decreasing] density: Density,
    #[increasing] bore: Length,
) -> SpindleSpeed {
    SUPPORTED * whipping(diameter, bore, modulus, density, newton, kilogram, metre, second)
        / (length * length)
}

/// The first root of cos x · cosh x = -1, squared, in turns.
const BUILT_IN_AND_FREE: f64 = 3.516_015_268_500_15 / (2.0 * PI);
/// The first root of sin x = 0, squared, in turns.
const SUPPORTED: f64 = 0.5 * PI;

/// √(E I / (ρ A)): radius of gyration times the speed of sound along the bar.
#[inline(always)]
#[allow(clippy::too_many_arguments)]
fn whipping(
    diameter: f64,
    bore: f64,
    modulus: f64,
    density: f64,
    newton: f64,
    kilogram: f64,
    metre: f64,
    second: f64,
) -> f64 {
    let share = bore / diameter;
    let gyration = 0.25 * diameter * (1.0 + share * share).sqrt();
    let stiffness = modulus * (metre * metre) / newton;
    let weight = density * (metre * metre * metre) / kilogram;
    gyration * (stiffness / weight).sqrt() * (metre / second)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &CHUCK_SPEED_SHARE,
    &JAW_CENTRIFUGAL_FORCE,
    &GRIPPING_FORCE_AT_SPEED,
    &WHIPPING_SPEED,
    &SUPPORTED_WHIPPING_SPEED,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use crate::math::{cos_degrees, exp};

    #[test]
    fn a_chuck_above_its_rating_is_an_error() {
        let share = |speed| CHUCK_SPEED_SHARE.call(Units::Metric, &[speed, 4000.0], &mut [0.0]);
        assert!(share(4000.0).is_ok());
        assert!(share(4000.1).unwrap_err().to_string().contains("must be at most rated_speed"));
    }

    // The constant against the equation of a beam built in at one end.
    #[test]
    fn the_root_of_a_cantilever() {
        let x = (BUILT_IN_AND_FREE * 2.0 * PI).sqrt();
        let (cos, cosh) = (cos_degrees(x.to_degrees()), 0.5 * (exp(x) + exp(-x)));
        assert!((1.0 + cos * cosh).abs() < 1e-12);
    }

    #[test]
    fn the_root_that_is_told_is_the_one_that_is_used() {
        assert!(WHIPPING_SPEED.doc.contains("1.875104² / (2 π)"), "{}", WHIPPING_SPEED.doc);
        assert!(((BUILT_IN_AND_FREE * 2.0 * PI).sqrt() - 1.875_104).abs() < 5e-7);
    }
}
