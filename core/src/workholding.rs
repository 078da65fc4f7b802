//! Workholding: seats and clamping screws.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// How far a step seat reaches past the axis of a round bar that lies in it: seat depth - diameter / 2.
///
/// The wall of the seat touches the bar at the height of its axis. At zero or less the wall ends below that
/// height and cannot hold the bar. Judge it at the largest bar that the stock's limits allow.
#[formula(
    source = "Common practice; geometry of a step seat",
    caution(seat),
    inverse(diameter = 2.0 * (seat_depth - seat_margin)),
    inverse(seat_depth = seat_margin + 0.5 * diameter)
)]
pub fn seat_margin(
    /// Diameter of the bar; the largest one for a judgement.
    #[positive]
    #[decreasing]
    diameter: Length,
    /// Height of the seat's wall above its floor.
    #[non_negative]
    #[increasing]
    seat_depth: Length,
) -> Length {
    seat_depth - 0.5 * diameter
}

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
    /// Tightening torque.
    #[non_negative]
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

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SEAT_MARGIN, &SCREW_PRELOAD];

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
