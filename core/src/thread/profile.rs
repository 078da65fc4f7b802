//! The 60° profile of ISO and Unified threads: heights, basic diameters, stress area.
use crate::formula::Formula;
use crate::math;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Height of the sharp V, H, for unit pitch: √3 / 2.
pub(super) const SHARP: f64 = 0.866_025_403_784_438_6;
/// From the major to the pitch diameter, for unit pitch: 3H/4.
pub(super) const TO_PITCH: f64 = 0.75 * SHARP;
/// From the major to the basic minor diameter, for unit pitch: 5H/4.
pub(super) const TO_MINOR: f64 = 1.25 * SHARP;
/// From the major diameter to a root that is cut short by 3H/16, for unit pitch: 11H/8.
pub(super) const TO_ROOT: f64 = 1.375 * SHARP;
/// From the major diameter to a root that is cut short by H/6, for unit pitch: 17H/12.
const TO_ROOT_SIXTH: f64 = 17.0 / 12.0 * SHARP;
/// From the major diameter to the one of the stress area of ISO 898-1, for unit pitch: 13H/12.
const TO_STRESS: f64 = 13.0 / 12.0 * SHARP;
/// From the major diameter to the one of the stress area of ASME B1.1, for unit pitch: 9H/8.
const TO_STRESS_UNIFIED: f64 = 1.125 * SHARP;

/// Heights of the 60° profile, measured along the radius.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct ThreadHeights {
    /// Height H, of the sharp V.
    pub sharp: Length,
    /// Height 5H/8, of the basic profile and of an internal thread.
    pub internal: Length,
    /// Height 17H/24, of an external thread whose root is truncated by H/6.
    pub external: Length,
    /// Height 3H/4, from crest to root where both are truncated by H/8: what 100 percent of thread means.
    pub full: Length,
}

/// Heights of the 60° thread profile: H = √3/2 · pitch, and 5/8, 17/24 and 3/4 of it.
#[formula(source = "Profile of ISO 68-1 and ASME B1.1, from memory; the rest is geometry")]
pub fn thread_heights(#[increasing(sharp, internal, external, full)] thread_pitch: Length) -> ThreadHeights {
    let sharp = SHARP * thread_pitch;
    BareThreadHeights { sharp, internal: 0.625 * sharp, external: 17.0 / 24.0 * sharp, full: 0.75 * sharp }
}

/// Pitch of a thread counted over a length: length / threads. Without a length, the count is threads per inch.
#[formula(
    source = "Definition of the pitch",
    inverse(threads = length / thread_pitch),
    inverse(length = thread_pitch * threads)
)]
pub fn thread_pitch(
    /// Number of threads in the length; for a Unified thread, threads per inch. It need not be whole.
    #[positive]
    #[decreasing]
    threads: Count,
    /// Length over which they were counted; default one inch.
    #[positive]
    #[default(Length::inches(1.0))]
    #[increasing]
    length: Length,
) -> Length {
    length / threads
}

/// Number of threads in a length: length / pitch. Without a length, threads per inch.
#[formula(
    source = "Definition of the pitch",
    inverse(thread_pitch = length / thread_count),
    inverse(length = thread_count * thread_pitch)
)]
pub fn thread_count(
    #[decreasing] thread_pitch: Length,
    /// Length over which they are counted; default one inch.
    #[positive]
    #[default(Length::inches(1.0))]
    #[increasing]
    length: Length,
) -> Count {
    length / thread_pitch
}

/// Basic pitch diameter of a 60° thread: major diameter - 3H/4 = major diameter - 0.649519 · pitch.
///
/// The diameter at which thread and groove are equally wide. Allowance and tolerance are counted from it.
#[formula(
    source = "Profile of ISO 68-1 and ISO 724, and of ASME B1.1, from memory",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(major_diameter = pitch_diameter + TO_PITCH * thread_pitch),
    inverse(thread_pitch = (major_diameter - pitch_diameter) / TO_PITCH)
)]
pub fn pitch_diameter(#[increasing] major_diameter: Length, #[decreasing] thread_pitch: Length) -> Length {
    major_diameter - TO_PITCH * thread_pitch
}

/// Basic minor diameter of a 60° thread: major diameter - 5H/4 = major diameter - 1.082532 · pitch.
///
/// The least minor diameter of an internal thread without allowance. The root of a screw lies deeper: see
/// `root_diameter`.
#[formula(
    source = "Profile of ISO 68-1 and ISO 724, and of ASME B1.1, from memory",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(major_diameter = minor_diameter + TO_MINOR * thread_pitch),
    inverse(thread_pitch = (major_diameter - minor_diameter) / TO_MINOR)
)]
pub fn minor_diameter(#[increasing] major_diameter: Length, #[decreasing] thread_pitch: Length) -> Length {
    major_diameter - TO_MINOR * thread_pitch
}

/// Diameter at the rounded root of a screw, cut short by 3H/16: major diameter - 1.190785 · pitch.
///
/// A reference diameter, without tolerance. Older tables, and ISO 898-1, cut the root short by H/6 only: see
/// `root_diameter_sixth`.
#[formula(
    source = "UNR root of ASME B1.1-2003, from memory",
    rule(major_diameter > TO_ROOT * thread_pitch, "thread_pitch must be small enough to leave a root diameter below major_diameter"),
    inverse(major_diameter = root_diameter + TO_ROOT * thread_pitch),
    inverse(thread_pitch = (major_diameter - root_diameter) / TO_ROOT)
)]
pub fn root_diameter(#[increasing] major_diameter: Length, #[decreasing] thread_pitch: Length) -> Length {
    major_diameter - TO_ROOT * thread_pitch
}

/// Diameter at the rounded root of a screw, cut short by H/6: major diameter - 1.226869 · pitch.
///
/// The d3 of metric tables and the minor diameter of Unified tables older than 2003.
#[formula(
    source = "d3 of ISO 898-1, and the minor diameter of ASME B1.1 before 2003, from memory",
    rule(major_diameter > TO_ROOT_SIXTH * thread_pitch, "thread_pitch must be small enough to leave a root diameter below major_diameter"),
    inverse(major_diameter = root_diameter_sixth + TO_ROOT_SIXTH * thread_pitch),
    inverse(thread_pitch = (major_diameter - root_diameter_sixth) / TO_ROOT_SIXTH)
)]
pub fn root_diameter_sixth(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
) -> Length {
    major_diameter - TO_ROOT_SIXTH * thread_pitch
}

/// Tensile stress area of a metric screw: π/4 · (major diameter - 0.938194 · pitch)².
///
/// The circle half way between the pitch diameter and the root cut short by H/6.
#[formula(
    source = "Stress area of ISO 898-1, from memory",
    caution(screw),
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(major_diameter = (thread_stress_area / (0.25 * PI)).sqrt() + TO_STRESS * thread_pitch),
    inverse(thread_pitch = (major_diameter - (thread_stress_area / (0.25 * PI)).sqrt()) / TO_STRESS)
)]
pub fn thread_stress_area(#[increasing] major_diameter: Length, #[decreasing] thread_pitch: Length) -> Area {
    let diameter = major_diameter - TO_STRESS * thread_pitch;
    0.25 * PI * (diameter * diameter)
}

/// Tensile stress area of a Unified screw: π/4 · (major diameter - 0.974279 · pitch)².
///
/// The circle of the pitch diameter less 3H/8.
#[formula(
    source = "Stress area of ASME B1.1, from memory",
    caution(screw),
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(
        major_diameter = (thread_stress_area_unified / (0.25 * PI)).sqrt() + TO_STRESS_UNIFIED * thread_pitch
    ),
    inverse(
        thread_pitch = (major_diameter - (thread_stress_area_unified / (0.25 * PI)).sqrt()) / TO_STRESS_UNIFIED
    )
)]
pub fn thread_stress_area_unified(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
) -> Area {
    let diameter = major_diameter - TO_STRESS_UNIFIED * thread_pitch;
    0.25 * PI * (diameter * diameter)
}

/// Lead of a thread, the advance in one turn: starts · pitch.
#[formula(source = "Definition of the lead", inverse(thread_pitch = thread_lead / starts))]
pub fn thread_lead(#[increasing] thread_pitch: Length, #[increasing] starts: Count) -> Length {
    starts * thread_pitch
}

/// Lead angle of a thread at its pitch diameter: atan(starts · pitch / (π · pitch diameter)).
///
/// The angle between the thread and a plane across the axis.
#[formula(
    source = "Geometry of a helix",
    rule(pitch_diameter > 0.5 * SHARP * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below pitch_diameter"),
    inverse(thread_pitch = PI * pitch_diameter * math::tan_degrees(lead_angle) / starts)
)]
pub fn lead_angle(
    /// Pitch diameter.
    #[positive]
    #[decreasing]
    pitch_diameter: Length,
    #[increasing] thread_pitch: Length,
    #[increasing] starts: Count,
) -> Angle {
    math::atan_degrees(starts * thread_pitch / (PI * pitch_diameter))
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &THREAD_PITCH,
    &THREAD_COUNT,
    &THREAD_LEAD,
    &LEAD_ANGLE,
    &THREAD_HEIGHTS,
    &PITCH_DIAMETER,
    &MINOR_DIAMETER,
    &ROOT_DIAMETER,
    &ROOT_DIAMETER_SIXTH,
    &THREAD_STRESS_AREA,
    &THREAD_STRESS_AREA_UNIFIED,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_pitch_that_leaves_no_minor_diameter_is_refused() {
        let error = minor_diameter(Length::millimetres(1.0), Length::millimetres(1.0)).unwrap_err();
        let need = "thread_pitch must be small enough to leave a minor diameter below major_diameter (major_diameter = 1 mm, thread_pitch = 1 mm)";
        assert_eq!(error.to_string(), format!("minor_diameter: {need}"));
        assert!(pitch_diameter(Length::millimetres(1.083), Length::millimetres(1.0)).is_ok());
    }

    #[test]
    fn a_count_without_a_length_is_threads_per_inch() {
        let length = |units| THREAD_PITCH.arguments[1].default(units);
        assert_eq!(Units::ALL.map(length), [Some(1.0), Some(25.4)]);
    }
}
