//! How far the force of the cut bends a round workpiece or a boring bar.
//!
//! Straight beams of one diameter, elastic, with rigid supports. Chuck, centres, holder and machine give way
//! too, so that the true figure is greater, and a bar in jaws is never quite built in.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// How far a workpiece bends away from the tool, and what that does to its diameter.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BarDeflection {
    /// Deflection at the tool.
    pub deflection: Length,
    /// How much too large the diameter comes out there: twice the deflection. Where the tool is at a rigid
    /// support it is nothing, and the difference along the cut is the taper or the barrel that the bar gets.
    pub diameter_error: Length,
}

/// Deflection of a boring bar, and what that does to the bore.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BoringBarDeflection {
    /// Deflection at the tool.
    pub deflection: Length,
    /// How much too small the bore comes out, if the force is the passive force: twice the deflection.
    pub diameter_error: Length,
    /// Overhang over the diameter of the bar. Common limits are 4 for a steel bar, 6 for carbide or heavy
    /// metal, and 10 and more for damped bars.
    pub overhang_ratio: Ratio,
}

/// force · length³ / (E I) of a round bar, of which every case of load and support takes a part.
#[inline(always)]
fn bend(force: f64, length: f64, diameter: f64, bore: f64, modulus: f64) -> f64 {
    // Ratios first, so that powers of lengths neither overflow nor vanish.
    let (slender, hollow) = (length / diameter, bore / diameter);
    let (slender, hollow) = (slender * slender * slender, hollow * hollow);
    64.0 / PI * (force / diameter / modulus) * slender / ((1.0 - hollow) * (1.0 + hollow))
}

#[inline(always)]
fn bar(deflection: f64) -> BareBarDeflection {
    BareBarDeflection { deflection, diameter_error: 2.0 * deflection }
}

/// Deflection of a workpiece held in a chuck alone: force · overhang³ / (3 E I).
///
/// With I = π/64 · (D⁴ - d⁴), at the tool, which stands at the overhang from the jaws; what sticks out
/// further does not matter. Bar cut at its free end comes out with a taper of `diameter_error` between there
/// and the jaws.
#[formula(
    source = "Cantilever with a force at its end, elementary beam theory",
    caution(slender_work),
    rule(bore < workpiece_diameter, "bore must be less than workpiece_diameter")
)]
pub fn bar_deflection_chuck(
    #[term(passive_force)]
    #[increasing(deflection, diameter_error)]
    force: Force,
    /// Distance of the tool from the jaws.
    #[non_negative]
    #[increasing(deflection, diameter_error)]
    overhang: Length,
    #[decreasing(deflection, diameter_error)] workpiece_diameter: Length,
    #[term(workpiece_modulus)]
    #[decreasing(deflection, diameter_error)]
    modulus: Modulus,
    #[term(workpiece_bore)]
    #[increasing(deflection, diameter_error)]
    bore: Length,
) -> BarDeflection {
    bar(bend(force, overhang, workpiece_diameter, bore, modulus) / 3.0)
}

/// Deflection of a workpiece between centres: force · a² (L - a)² / (3 E I L).
///
/// With a the distance of the tool from one centre and L that between the centres: greatest in the middle,
/// force · L³ / (48 E I), which makes a barrel.
#[formula(
    source = "Beam on two supports with a force at a distance, elementary beam theory",
    caution(slender_work),
    rule(distance <= length, "distance must be at most length"),
    rule(bore < workpiece_diameter, "bore must be less than workpiece_diameter")
)]
pub fn bar_deflection_centres(
    #[term(passive_force)]
    #[increasing(deflection, diameter_error)]
    force: Force,
    /// Distance between the centres.
    #[positive]
    #[increasing(deflection, diameter_error)]
    length: Length,
    /// Distance of the tool from one centre.
    #[non_negative]
    distance: Length,
    #[decreasing(deflection, diameter_error)] workpiece_diameter: Length,
    #[term(workpiece_modulus)]
    #[decreasing(deflection, diameter_error)]
    modulus: Modulus,
    #[term(workpiece_bore)]
    #[increasing(deflection, diameter_error)]
    bore: Length,
) -> BarDeflection {
    let place = distance / length;
    let shape = place * (1.0 - place);
    bar(bend(force, length, workpiece_diameter, bore, modulus) * (shape * shape) / 3.0)
}

/// Deflection of a workpiece held in a chuck and by the tailstock.
///
/// force · a³ (L - a)² (4 L - a) / (12 E I L³), with a the distance of the tool from the jaws and L that of
/// the centre: built in at the jaws, carried at the centre. In the middle it is 7/768 of force · L³ / (E I),
/// less than half of that between centres.
#[formula(
    source = "Beam built in at one end and carried at the other with a force at a distance, elementary beam \
              theory",
    caution(slender_work),
    rule(distance <= length, "distance must be at most length"),
    rule(bore < workpiece_diameter, "bore must be less than workpiece_diameter")
)]
pub fn bar_deflection_tailstock(
    #[term(passive_force)]
    #[increasing(deflection, diameter_error)]
    force: Force,
    /// Distance from the jaws to the centre of the tailstock.
    #[positive]
    #[increasing(deflection, diameter_error)]
    length: Length,
    /// Distance of the tool from the jaws.
    #[non_negative]
    distance: Length,
    #[decreasing(deflection, diameter_error)] workpiece_diameter: Length,
    #[term(workpiece_modulus)]
    #[decreasing(deflection, diameter_error)]
    modulus: Modulus,
    #[term(workpiece_bore)]
    #[increasing(deflection, diameter_error)]
    bore: Length,
) -> BarDeflection {
    let place = distance / length;
    let shape = place * (1.0 - place);
    bar(bend(force, length, workpiece_diameter, bore, modulus) * (shape * shape) * (place * (4.0 - place))
        / 12.0)
}

/// Deflection of a boring bar: force · overhang³ / (3 E I).
///
/// With I = π/64 · (D⁴ - d⁴). The passive force bends it away from the wall, and the bore comes out small;
/// the main force bends it down, which moves the edge along the wall. Bars of two materials and damped bars
/// are not in here.
#[formula(
    source = "Cantilever with a force at its end, as in E. Isakov, Boring: Calculating deflection, Cutting \
              Tool Engineering, July 2019; the limits of overhang are common practice",
    rule(bar_bore < bar_diameter, "bar_bore must be less than bar_diameter")
)]
pub fn boring_bar_deflection(
    /// Force across the bar: the passive force for the diameter of the bore.
    #[non_negative]
    #[increasing(deflection, diameter_error)]
    force: Force,
    /// Overhang of the bar, from its holder to the edge.
    #[non_negative]
    #[increasing(deflection, diameter_error, overhang_ratio)]
    overhang: Length,
    #[decreasing(deflection, diameter_error, overhang_ratio)] bar_diameter: Length,
    /// Modulus of elasticity of the bar: about 200 GPa for steel, 550 to 650 GPa for carbide.
    #[positive]
    #[decreasing(deflection, diameter_error)]
    modulus: Modulus,
    /// Bore along the bar, for coolant; zero for a solid one.
    #[non_negative]
    #[default(0.0)]
    #[increasing(deflection, diameter_error)]
    bar_bore: Length,
) -> BoringBarDeflection {
    let deflection = bend(force, overhang, bar_diameter, bar_bore, modulus) / 3.0;
    BareBoringBarDeflection {
        deflection,
        diameter_error: 2.0 * deflection,
        overhang_ratio: overhang / bar_diameter,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&BAR_DEFLECTION_CHUCK, &BAR_DEFLECTION_CENTRES, &BAR_DEFLECTION_TAILSTOCK, &BORING_BAR_DEFLECTION];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    // A solid shaft minus what its bore would have been: stiffness adds up, by the integral of the section.
    #[test]
    fn a_bore_takes_away_the_stiffness_of_what_was_in_it() {
        let y = |diameter: f64, bore: f64| {
            let mut y = [0.0; 2];
            BAR_DEFLECTION_CHUCK.call(Units::Metric, &[100.0, 150.0, diameter, 207.0, bore], &mut y).unwrap();
            y[0]
        };
        let left = 1.0 / y(20.0, 0.0) - 1.0 / y(12.0, 0.0);
        assert!((left * y(20.0, 12.0) - 1.0).abs() < 1e-12);
    }
}
