//! Tapping and single-point threading: hole, feed, time and torque.
use super::profile::TO_MINOR;
use crate::formula::Formula;
use crate::math;
use crate::quantity::*;
use tenths_macros::formula;

/// What a full thread takes off the major diameter, for unit pitch: twice 3H/4.
const FULL: f64 = 1.5 * super::profile::SHARP;
/// What forming a full thread needs between the hole and the major diameter, for unit pitch.
const FORMED: f64 = 0.68;

/// Drill diameter for a tapped hole: major diameter - 1.299038 · pitch · percent of thread / 100.
///
/// A full thread of 100 percent is 3H/4 high on each side. The basic internal thread, 5H/8 high, is 83 1/3
/// percent of it: a smaller hole than that is below the least minor diameter. Most taps cut larger than
/// the drill by a little, and a drill cuts larger than itself.
#[formula(
    source = "Percent of thread on 3H/4, as in the tables of Machinery's Handbook, 31st edition, page 2155",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    rule(
        major_diameter > FULL * thread_pitch * (0.01 * percent_thread),
        "percent_thread and thread_pitch must leave a hole smaller than major_diameter"
    ),
    inverse(major_diameter = tap_drill + FULL * thread_pitch * (0.01 * percent_thread)),
    inverse(thread_pitch = (major_diameter - tap_drill) / (FULL * (0.01 * percent_thread))),
    inverse(percent_thread = 100.0 * ((major_diameter - tap_drill) / (FULL * thread_pitch)))
)]
pub fn tap_drill(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
    /// Height of thread wanted, in percent of 3H/4.
    #[above(0.0)]
    #[below(100.0)]
    #[range(.., Ratio::new(250.0 / 3.0))]
    #[default(75.0)]
    #[decreasing]
    percent_thread: Ratio,
) -> Length {
    major_diameter - FULL * thread_pitch * (0.01 * percent_thread)
}

/// Percent of thread that a hole leaves: 100 · (major diameter - hole) / (1.299038 · pitch).
///
/// In percent of 3H/4 on each side, as `tap_drill` has it.
#[formula(
    source = "Percent of thread on 3H/4, as in the tables of Machinery's Handbook, 31st edition, page 2155",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    rule(hole_diameter <= major_diameter, "hole_diameter must be at most major_diameter"),
    inverse(hole_diameter = major_diameter - FULL * thread_pitch * (0.01 * percent_thread)),
    inverse(major_diameter = hole_diameter + FULL * thread_pitch * (0.01 * percent_thread))
)]
pub fn percent_thread(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
    #[term(tapping_hole_diameter)]
    #[decreasing]
    hole_diameter: Length,
) -> Ratio {
    100.0 * ((major_diameter - hole_diameter) / (FULL * thread_pitch))
}

/// Drill diameter for a tapped hole, on the height 5H/8: major diameter - 1.082532 · pitch · percent of thread / 100.
///
/// Here 100 percent is the basic internal thread. Do not mix the two: 75 percent here is 62.5 percent there.
#[formula(
    source = "Percent of thread on 5H/8, as in a text formula of Machinery's Handbook, from memory",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(major_diameter = tap_drill_five_eighths + TO_MINOR * thread_pitch * (0.01 * percent_thread)),
    inverse(thread_pitch = (major_diameter - tap_drill_five_eighths) / (TO_MINOR * (0.01 * percent_thread))),
    inverse(percent_thread = 100.0 * ((major_diameter - tap_drill_five_eighths) / (TO_MINOR * thread_pitch)))
)]
pub fn tap_drill_five_eighths(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
    /// Height of thread wanted, in percent of 5H/8.
    #[above(0.0)]
    #[below(100.0)]
    #[default(75.0)]
    #[decreasing]
    percent_thread: Ratio,
) -> Length {
    major_diameter - TO_MINOR * thread_pitch * (0.01 * percent_thread)
}

/// Hole diameter for a forming tap, which presses the thread: major diameter - 0.68 · pitch · percent of thread / 100.
///
/// The metal that is pressed out of the grooves makes the crests, so that the hole is larger than for a
/// cutting tap. Makers' tables come first: the right hole varies with the material.
#[formula(
    source = "Hole for formed threads, 0.0068 · percent / threads per inch, as in Machinery's Handbook, from memory",
    rule(major_diameter > TO_MINOR * thread_pitch, "thread_pitch must be small enough to leave a minor diameter below major_diameter"),
    inverse(major_diameter = forming_tap_drill + FORMED * thread_pitch * (0.01 * percent_thread)),
    inverse(thread_pitch = (major_diameter - forming_tap_drill) / (FORMED * (0.01 * percent_thread))),
    inverse(percent_thread = 100.0 * ((major_diameter - forming_tap_drill) / (FORMED * thread_pitch)))
)]
pub fn forming_tap_drill(
    #[increasing] major_diameter: Length,
    #[decreasing] thread_pitch: Length,
    /// Height of thread wanted, in percent of a full one.
    #[above(0.0)]
    #[below(100.0)]
    #[default(65.0)]
    #[decreasing]
    percent_thread: Ratio,
) -> Length {
    major_diameter - FORMED * thread_pitch * (0.01 * percent_thread)
}

/// Feed rate of a tap or of a threading tool: starts · pitch · spindle speed, one lead in each turn.
#[formula(
    source = "Definition of the lead",
    inverse(spindle_speed = threading_feed_rate / (starts * thread_pitch)),
    inverse(thread_pitch = threading_feed_rate / (starts * spindle_speed))
)]
pub fn threading_feed_rate(
    #[increasing] spindle_speed: SpindleSpeed,
    #[increasing] thread_pitch: Length,
    #[increasing] starts: Count,
) -> FeedRate {
    starts * thread_pitch * spindle_speed
}

/// Time to tap a hole, in and out: travel / (pitch · spindle speed) · (1 + 1 / reverse ratio).
///
/// The time in which the spindle stops and reverses, and dwells, come on top.
#[formula(
    source = "Common practice; a tap advances one lead in each turn",
    inverse(travel = tapping_time * (thread_pitch * spindle_speed) * (reverse_ratio / (1.0 + reverse_ratio))),
    inverse(spindle_speed = travel / thread_pitch * (1.0 + 1.0 / reverse_ratio) / tapping_time)
)]
pub fn tapping_time(
    /// Path of the tap in one direction, from the start above the hole to the depth.
    #[non_negative]
    #[increasing]
    travel: Length,
    #[decreasing] thread_pitch: Length,
    /// Spindle speed on the way in.
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
    /// Spindle speed on the way out, as a multiple of that on the way in.
    #[positive]
    #[default(1.0)]
    #[decreasing]
    reverse_ratio: Ratio,
) -> Time {
    travel / (thread_pitch * spindle_speed) * (1.0 + 1.0 / reverse_ratio)
}

/// Time in the cut to turn a thread with a single point: passes · travel / (pitch · spindle speed).
///
/// Passes are counted on each start. A thread of several starts takes as long as one of a single start with the
/// same pitch, since each pass is as many times faster as there are more starts. Returns come on top.
#[formula(
    source = "Common practice; the tool advances one lead in each turn",
    inverse(travel = threading_time * (thread_pitch * spindle_speed) / passes),
    inverse(spindle_speed = passes * travel / (thread_pitch * threading_time))
)]
pub fn threading_time(
    #[increasing] travel: Length,
    #[decreasing] thread_pitch: Length,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
    /// Number of passes on each start.
    #[positive]
    #[whole]
    #[increasing]
    passes: Count,
) -> Time {
    passes * travel / (thread_pitch * spindle_speed)
}

/// Torque of a cutting tap from the metal that it cuts.
///
/// tan(flank angle) · specific cutting force · factor · (D - d)² · (D + 2 d) / 24 for the major diameter D and the
/// hole d, with every edge cutting. A worn tap, packed chips or a hole too small multiply it; a tap that breaks throws
/// splinters, so choose machine and holder with a margin.
#[formula(
    source = "Yamawa catalogue 2021, page 640",
    rule(hole_diameter < major_diameter, "hole_diameter must be less than major_diameter"),
    inverse(
        specific_cutting_force = 24.0 * tap_torque / (math::tan_degrees(flank_angle) * torque_factor
            * ((major_diameter - hole_diameter) * (major_diameter - hole_diameter))
            * (major_diameter + 2.0 * hole_diameter))
    )
)]
pub fn tap_torque(
    #[increasing] major_diameter: Length,
    #[term(tapping_hole_diameter)]
    #[decreasing]
    hole_diameter: Length,
    /// Specific cutting force of the material in tapping.
    #[positive]
    #[increasing]
    specific_cutting_force: Stress,
    /// Factor on the whole, for what the figure of the material leaves out.
    #[positive]
    #[default(1.0)]
    #[increasing]
    torque_factor: Ratio,
    /// Angle between a flank and a plane across the axis: 30° for ISO and Unified threads.
    #[above(0.0)]
    #[below(90.0)]
    #[default(30.0)]
    #[increasing]
    flank_angle: Angle,
) -> Torque {
    let height = major_diameter - hole_diameter;
    let tangent = math::tan_degrees(flank_angle);
    tangent
        * specific_cutting_force
        * torque_factor
        * (height * height)
        * (major_diameter + 2.0 * hole_diameter)
        / 24.0
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &TAP_DRILL,
    &PERCENT_THREAD,
    &TAP_DRILL_FIVE_EIGHTHS,
    &FORMING_TAP_DRILL,
    &THREADING_FEED_RATE,
    &TAPPING_TIME,
    &THREADING_TIME,
    &TAP_TORQUE,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn more_than_the_basic_thread_is_advice() {
        let remarks = TAP_DRILL.check(Units::Metric, &[10.0, 1.5, 90.0]).unwrap();
        assert_eq!(remarks[0].to_string(), "percent_thread is 90, but the source covers at most 83.333");
    }

    #[test]
    fn a_hole_that_vanishes_is_refused() {
        let mut y = [0.0];
        let error = TAP_DRILL.call(Units::Metric, &[1.1, 1.0, 90.0], &mut y).unwrap_err();
        assert!(error.to_string().contains("must leave a hole"), "{error}");
        let error = PERCENT_THREAD.call(Units::Metric, &[10.0, 1.5, 10.1], &mut y).unwrap_err();
        assert!(error.to_string().contains("hole_diameter must be at most major_diameter"), "{error}");
    }
}
