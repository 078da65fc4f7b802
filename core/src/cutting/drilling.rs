//! Drilling: point, travel, pecks, removal rate and time.
use crate::Size;
use crate::formula::Formula;
use crate::math::{atan_degrees, cos_degrees, sin_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Height of a cone over its diameter; a flat one, of 180°, has none.
#[inline(always)]
pub(super) fn cone_slenderness(angle: f64) -> f64 {
    0.5 * cos_degrees(0.5 * angle) / sin_degrees(0.5 * angle)
}

/// Length of a drill's point, from its tip to its full diameter: diameter / (2 · tan(point angle / 2)).
///
/// The point is taken as a sharp cone: a thinned or rounded one is a little shorter. Rules of thumb give 0.29
/// or 0.3 of the diameter for 118°.
#[formula(
    source = "Plane geometry of the cone; common practice",
    inverse(diameter = drill_point_length / cone_slenderness(point_angle)),
    inverse(point_angle = 2.0 * atan_degrees(0.5 * diameter / drill_point_length))
)]
pub fn drill_point_length(
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[decreasing] point_angle: Angle,
) -> Length {
    diameter * cone_slenderness(point_angle)
}

/// Travel of a drill at its feed: approach + depth + length of its point + breakthrough.
///
/// For a blind hole leave the breakthrough at zero: the depth then is that of the full diameter, and the tip
/// goes deeper by the point. Several printed examples leave out the point, or put 0.29 or 0.3 of the diameter
/// in its place; a point angle of 180° and an approach of that length give theirs.
#[formula(
    source = "Common practice; plane geometry of the point",
    inverse(depth = drilling_travel - approach - breakthrough - diameter * cone_slenderness(point_angle)),
    inverse(breakthrough = drilling_travel - approach - depth - diameter * cone_slenderness(point_angle))
)]
pub fn drilling_travel(
    #[term(hole_depth)]
    #[increasing]
    depth: Length,
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[decreasing] point_angle: Angle,
    #[increasing] approach: Length,
    #[increasing] breakthrough: Length,
) -> Length {
    approach + depth + drill_point_length_base(diameter, point_angle) + breakthrough
}

/// Metal removal rate of a drill, in volume per unit of time: π / 4 · (diameter² - pilot diameter²) · feed rate.
///
/// For the full diameter in the cut; the point entering and leaving removes less.
#[formula(
    source = "Common practice, as in S. Kalpakjian and S. R. Schmid, Manufacturing Engineering and \
              Technology, drilling; also written diameter · feed per revolution · surface speed / 4",
    rule(pilot_diameter < diameter, "pilot_diameter must be less than diameter"),
    inverse(feed_rate = drilling_removal_rate
        / (0.25 * PI * (diameter - pilot_diameter) * (diameter + pilot_diameter)))
)]
pub fn drilling_removal_rate(
    #[term(drill_diameter)]
    #[increasing]
    diameter: Length,
    #[term(drill_feed_rate)]
    #[increasing]
    feed_rate: FeedRate,
    #[decreasing] pilot_diameter: Length,
) -> RemovalRate {
    0.25 * PI * (diameter - pilot_diameter) * (diameter + pilot_diameter) * feed_rate
}

/// Time of drilling or reaming a hole in one stroke: travel / (feed per revolution · spindle speed).
///
/// Rapid moves, dwell and handling come on top.
#[formula(
    source = "Common practice; time is path over speed",
    inverse(travel = drilling_time * (feed_per_revolution * spindle_speed)),
    inverse(feed_per_revolution = travel / (drilling_time * spindle_speed)),
    inverse(spindle_speed = travel / (drilling_time * feed_per_revolution))
)]
pub fn drilling_time(
    /// Travel at the feed, with approach, point and breakthrough: `drilling_travel`.
    #[non_negative]
    #[increasing]
    travel: Length,
    #[positive]
    #[decreasing]
    feed_per_revolution: Length,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
) -> Time {
    travel / (feed_per_revolution * spindle_speed)
}

/// Time of a hole drilled in equal pecks, with a full retract after each one.
///
/// From the retract height the drill feeds through the approach and the first peck. After each peck it goes
/// at rapid to the retract height, and, but for the last, back to a clearance above the bottom, from which
/// it feeds again. So it feeds through approach + depth + (pecks - 1) · clearance, and goes at rapid
/// through pecks · (2 · approach + depth) - approach - (pecks - 1) · clearance. Accelerations are left out:
/// short pecks take longer than this.
#[formula(
    source = "Common practice; sums of the moves",
    rule(pecks * clearance <= depth, "clearance must be at most one peck, depth / pecks"),
    rule(rapid_rate >= feed_rate, "rapid_rate must be at least feed_rate")
)]
pub fn peck_drilling_time(
    /// Depth of the tip below the surface at the end: depth at full diameter, point and breakthrough.
    #[positive]
    #[increasing]
    depth: Length,
    /// Number of pecks; 1 is a single stroke and its retract.
    #[within(1.0, 1e6)]
    #[whole]
    #[increasing]
    pecks: Count,
    #[term(drill_feed_rate)]
    #[positive]
    #[decreasing]
    feed_rate: FeedRate,
    /// Rate of the rapid moves.
    #[positive]
    #[decreasing]
    rapid_rate: FeedRate,
    /// Distance of the retract height from the surface.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    approach: Length,
    /// Distance above the bottom at which the feed begins again.
    #[non_negative]
    #[default(0.0)]
    clearance: Length,
    /// Dwell at the bottom of each peck.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    dwell: Time,
) -> Time {
    let again = (pecks - 1.0) * clearance;
    let at_feed = approach + depth + again;
    let at_rapid = pecks * (2.0 * approach + depth) - approach - again;
    at_feed / feed_rate + at_rapid / rapid_rate + pecks * dwell
}

/// Depth of each peck when a hole is drilled in equal pecks: depth / pecks.
#[formula(source = "Common practice", inverse(depth = even_peck_depth * pecks))]
pub fn even_peck_depth(
    #[term(tip_depth)]
    #[increasing]
    depth: Length,
    /// Number of pecks: `peck_count`.
    #[positive]
    #[whole]
    #[decreasing]
    pecks: Count,
) -> Length {
    depth / pecks
}

/// Number of pecks for a depth: depth / deepest peck, rounded up.
///
/// Sizes are exact: a depth that is a whole number of pecks to the last digit takes no peck more.
#[formula(
    source = "Common practice",
    rule(peck_depth > Size::ZERO, "peck_depth must be at least a picometre")
)]
pub fn peck_count(
    #[term(tip_depth)]
    #[increasing]
    depth: Size,
    /// Greatest depth of a peck.
    #[positive]
    #[decreasing]
    peck_depth: Size,
) -> Count {
    whole_steps(depth, peck_depth)
}

/// How many steps of at most one size make up another, exactly; `step` is above zero.
#[inline(always)]
pub(super) fn whole_steps(whole: Size, step: Size) -> f64 {
    let (whole, step) = (whole.picometres(), step.picometres());
    match whole.checked_rem(step) {
        Some(rest) => (whole / step + i64::from(rest > 0)) as f64,
        None => f64::NAN,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &DRILL_POINT_LENGTH,
    &DRILLING_TRAVEL,
    &DRILLING_REMOVAL_RATE,
    &DRILLING_TIME,
    &PECK_DRILLING_TIME,
    &EVEN_PECK_DEPTH,
    &PECK_COUNT,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    // In floating point 0.3 / 0.1 is 2.999…96 and 0.7 / 0.1 is 6.999…9, but 2.1 / 0.7 is 3.000…04.
    #[test]
    fn a_whole_number_of_pecks_takes_no_peck_more() {
        for (depth, peck, want) in [(0.3, 0.1, 3.0), (2.1, 0.7, 3.0), (2.1000001, 0.7, 4.0), (0.0, 1.0, 0.0)]
        {
            let mut y = [0.0];
            PECK_COUNT.call(Units::Inch, &[depth, peck], &mut y).unwrap();
            assert_eq!(y, [want], "{depth} in pecks of {peck}");
        }
    }

    // The moves of each peck, one after the other: drilling in floats, move by move.
    #[test]
    fn peck_time_is_the_sum_of_its_moves() {
        let (depth, pecks, feed, rapid, approach, clearance, dwell) = (40.0, 5, 80.0, 5000.0, 3.0, 0.5, 0.01);
        let (mut time, mut from) = (0.0, -approach);
        for peck in 1..=pecks {
            let bottom = depth * f64::from(peck) / f64::from(pecks);
            time += (bottom - from) / feed + dwell + (bottom + approach) / rapid;
            if peck < pecks {
                from = bottom - clearance;
                time += (from + approach) / rapid;
            }
        }
        let mut y = [0.0];
        let x = [depth, f64::from(pecks), feed, rapid, approach, clearance, dwell];
        PECK_DRILLING_TIME.call(Units::Metric, &x, &mut y).unwrap();
        assert!((y[0] - time).abs() < 1e-12, "{} {time}", y[0]);
    }

    #[test]
    fn a_drill_smaller_than_its_pilot_is_refused() {
        let error = DRILLING_REMOVAL_RATE.call(Units::Metric, &[10.0, 100.0, 10.0], &mut [0.0]).unwrap_err();
        let text = "pilot_diameter must be less than diameter (diameter = 10 mm, pilot_diameter = 10 mm)";
        assert_eq!(error.to_string(), format!("drilling_removal_rate: {text}"));
    }
}
