//! Clamping screws.
use crate::formula::Formula;
use crate::math::cos_degrees;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Preload of a screw tightened to a torque: torque / (nut factor · screw diameter).
///
/// The nut factor gathers all friction of thread and head, which varies from screw to screw: expect the
/// tension within about ±30 % of this figure when a plain torque wrench is used, and look at both ends. It
/// is the tension in the screw, not yet the force on the part, which the clamp's leverage decides.
#[formula(
    source = "Torque factor form T = K F d, as in R. G. Budynas and J. K. Nisbett, Shigley's Mechanical \
              Engineering Design, 9th ed., section 8-8 (clause from memory); the scatter and the range of the \
              nut factor are common practice",
    caution(screw),
    inverse(torque = screw_preload * (nut_factor * screw_diameter)),
    inverse(screw_diameter = torque / (nut_factor * screw_preload)),
    inverse(nut_factor = torque / (screw_diameter * screw_preload))
)]
pub fn screw_preload(
    #[term(tightening_torque)]
    #[increasing]
    torque: Torque,
    /// Nominal diameter of the screw.
    #[positive]
    #[decreasing]
    screw_diameter: Length,
    /// Nut factor: about 0.2 for steel as received, 0.15 oiled, down to 0.1 with the best lubricants and up to
    /// 0.3 dry and rough.
    #[positive]
    #[range(0.1, 0.3)]
    #[default(0.2)]
    #[decreasing]
    nut_factor: Ratio,
) -> Force {
    torque / (nut_factor * screw_diameter)
}

/// Clamping force of a screw from the friction in its thread and under its collar.
///
/// torque / (d/2 · (µ π d + L cos α) / (π d cos α - µ L) + µ_c · d_c / 2), with the mean diameter d, the lead L and the
/// angle α of the flank from the plane square to the axis. Where both frictions are known it takes the place of the nut
/// factor of `screw_preload`.
#[formula(
    source = "Torque to raise a load by a screw, as in R. C. Juvinall and K. M. Marshek, Fundamentals of Machine \
              Component Design, section 10.3 (clause from memory)",
    caution(screw, clamping),
    rule(
        friction * lead < PI * mean_diameter * cos_degrees(flank_angle),
        "friction and lead must leave the thread able to turn: friction · lead must be less than π · mean_diameter · cos(flank_angle)"
    )
)]
pub fn thread_clamp_force(
    #[term(tightening_torque)]
    #[increasing]
    torque: Torque,
    /// Mean diameter of the thread, its pitch diameter.
    #[positive]
    mean_diameter: Length,
    /// Lead of the thread: its pitch, or starts times pitch.
    #[positive]
    #[decreasing]
    lead: Length,
    /// Coefficient of friction in the thread.
    #[non_negative]
    #[at_most(2.0)]
    #[decreasing]
    friction: Ratio,
    /// Mean diameter on which the collar, head or nut rubs; zero for a free tip.
    #[non_negative]
    #[decreasing]
    collar_diameter: Length,
    /// Coefficient of friction of the collar.
    #[non_negative]
    #[at_most(2.0)]
    #[default(0.15)]
    #[decreasing]
    collar_friction: Ratio,
    /// Angle of the flank, half of the angle of the thread: 30° for metric and unified threads, 14.5° for Acme, 15° for
    /// trapezoidal ones.
    #[non_negative]
    #[below(90.0)]
    #[default(30.0)]
    #[decreasing]
    flank_angle: Angle,
) -> Force {
    let (around, cos) = (PI * mean_diameter, cos_degrees(flank_angle));
    let thread = 0.5 * mean_diameter * ((friction * around + lead * cos) / (around * cos - friction * lead));
    torque / (thread + 0.5 * collar_friction * collar_diameter)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SCREW_PRELOAD, &THREAD_CLAMP_FORCE];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn an_unlikely_nut_factor_is_advice() {
        let advice = SCREW_PRELOAD.check(Units::Metric, &[60.0, 12.0, 0.5]).unwrap();
        assert_eq!(advice[0].to_string(), "nut_factor is 0.5, but the source covers 0.1 to 0.3");
        let error = SCREW_PRELOAD.check(Units::Metric, &[60.0, 12.0, 0.0]).unwrap_err();
        assert_eq!(error.to_string(), "screw_preload: nut_factor must be greater than 0, not 0");
    }
}
