//! Measuring the pitch diameter of a 60° screw over three wires.
use super::profile::SHARP;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Best wire for a pitch, where it touches the flanks at the pitch line; 1/√3, which is 1/(2 cos 30°).
const BEST: f64 = 2.0 / 3.0 * SHARP;

/// Wires that can be used on a basic thread.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct WireRange {
    /// The least, flush with the crests: 7H/12 = 0.505181 · pitch.
    pub least: Length,
    /// The greatest, which touches the flanks at their outer ends: 7H/6 = 1.010363 · pitch.
    pub greatest: Length,
}

/// Best wire diameter to measure a 60° thread: pitch / (2 cos 30°) = 0.577350 · pitch.
///
/// It touches the flanks at the pitch line, so that a slightly wrong flank angle does not show.
#[formula(source = "Geometry of the 60° thread", inverse(thread_pitch = best_wire / BEST))]
pub fn best_wire(#[increasing] thread_pitch: Length) -> Length {
    BEST * thread_pitch
}

/// Least and greatest wire for a 60° thread: 0.505181 and 1.010363 times the pitch.
///
/// For the basic profile, whose crest is cut short by H/8. A smaller wire does not stand out of the groove, and
/// a larger one rides on the edges of the crests. Keep a margin at both ends for the tolerance of the major
/// diameter.
#[formula(source = "Geometry of the basic profile of ISO 68-1 and ASME B1.1")]
pub fn wire_range(#[increasing(least, greatest)] thread_pitch: Length) -> WireRange {
    BareWireRange { least: 7.0 / 12.0 * SHARP * thread_pitch, greatest: 7.0 / 6.0 * SHARP * thread_pitch }
}

/// Measurement over three wires of a 60° screw: pitch diameter + 3 · wire diameter - 0.866025 · pitch.
///
/// Without the correction for the lead angle, which `over_wires_with_lead` has, and for the measuring force,
/// which presses wires into soft parts.
#[formula(
    source = "Three-wire relation, common practice",
    rule(
        pitch_diameter > 0.5 * SHARP * thread_pitch,
        "thread_pitch must be small enough to leave a minor diameter below pitch_diameter"
    ),
    inverse(pitch_diameter = over_wires - 3.0 * wire_diameter + SHARP * thread_pitch),
    inverse(wire_diameter = (over_wires - pitch_diameter + SHARP * thread_pitch) / 3.0)
)]
pub fn over_wires(
    #[increasing] pitch_diameter: Length,
    #[decreasing] thread_pitch: Length,
    #[increasing] wire_diameter: Length,
) -> Length {
    pitch_diameter + 3.0 * wire_diameter - SHARP * thread_pitch
}

/// Pitch diameter of a 60° screw from the measurement over three wires.
///
/// Measurement - 3 · wire diameter + 0.866025 · pitch, without the correction for the lead angle, and for the measuring
/// force.
#[formula(
    source = "Three-wire relation, common practice",
    rule(
        over_wires - 3.0 * wire_diameter + 0.5 * SHARP * thread_pitch > 0.0,
        "over_wires, wire_diameter and thread_pitch must leave a minor diameter"
    ),
    inverse(over_wires = pitch_diameter_from_wires + 3.0 * wire_diameter - SHARP * thread_pitch),
    inverse(wire_diameter = (over_wires - pitch_diameter_from_wires + SHARP * thread_pitch) / 3.0)
)]
pub fn pitch_diameter_from_wires(
    /// Measurement over the wires.
    #[positive]
    #[increasing]
    over_wires: Length,
    #[increasing] thread_pitch: Length,
    #[decreasing] wire_diameter: Length,
) -> Length {
    over_wires - 3.0 * wire_diameter + SHARP * thread_pitch
}

/// Measurement over three wires of a 60° screw, with the correction for the lead angle.
///
/// Pitch diameter + wire diameter · (1 + √(4 + 3 tan² λ)) - 0.866025 · pitch, with tan λ = starts · pitch / (π · pitch
/// diameter). The wires lie askew in the groove and stand higher than on grooves without a lead. On coarse standard
/// threads the difference is a few hundred-thousandths of an inch, on threads of several starts it counts.
#[formula(
    source = "Three-wire formula with lead angle of FED-STD-H28, 1 + √(cosec² α + cot² α tan² λ) for the \
              half angle α of 30°, from memory",
    rule(
        pitch_diameter > 0.5 * SHARP * thread_pitch,
        "thread_pitch must be small enough to leave a minor diameter below pitch_diameter"
    ),
    inverse(
        wire_diameter = (over_wires_with_lead - pitch_diameter + SHARP * thread_pitch)
            / wire_rise(starts * thread_pitch / (PI * pitch_diameter))
    )
)]
pub fn over_wires_with_lead(
    pitch_diameter: Length,
    thread_pitch: Length,
    #[increasing] wire_diameter: Length,
    #[increasing] starts: Count,
) -> Length {
    let lead_tangent = starts * thread_pitch / (PI * pitch_diameter);
    pitch_diameter + wire_diameter * wire_rise(lead_tangent) - SHARP * thread_pitch
}

/// By how much the measurement grows with the wire.
fn wire_rise(lead_tangent: f64) -> f64 {
    1.0 + (4.0 + 3.0 * (lead_tangent * lead_tangent)).sqrt()
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&BEST_WIRE, &WIRE_RANGE, &OVER_WIRES, &PITCH_DIAMETER_FROM_WIRES, &OVER_WIRES_WITH_LEAD];
