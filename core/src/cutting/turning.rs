//! Turning and boring: passes and depths, times, removal rates and the shape of the chip.
use crate::Size;
use crate::formula::Formula;
use crate::math;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Number of equal passes from one diameter to another, each at most the greatest depth of cut.
///
/// Half the difference of the diameters over the depth, rounded up, on exact sizes: a diameter that the last
/// pass reaches to the last digit takes no pass more. Turning begins at the larger diameter, boring at the
/// smaller. A finishing pass comes on top: give the diameter that it begins at as `finish_diameter`.
#[formula(
    source = "Common practice, as in the cutting-time formulas of the Kyocera catalogue 2021-2022",
    rule(depth > Size::ZERO, "depth must be at least a picometre")
)]
pub fn turning_passes(
    start_diameter: Size,
    finish_diameter: Size,
    /// Greatest depth of cut of a pass, on the radius.
    #[positive]
    #[decreasing]
    depth: Size,
) -> Count {
    let stock = (i128::from(start_diameter.picometres()) - i128::from(finish_diameter.picometres())).abs();
    let each = 2 * i128::from(depth.picometres());
    // Rounded up; no depth, no passes to count.
    (stock + each - 1).checked_div(each).map_or(f64::NAN, |passes| passes as f64)
}

/// Depth of cut, on the radius, of each of several equal passes from one diameter to another.
///
/// Half the difference of the diameters over the number of passes.
#[formula(source = "Common practice; half the difference of two diameters")]
pub fn depth_per_pass(
    start_diameter: Length,
    finish_diameter: Length,
    #[positive]
    #[default(1.0)]
    #[decreasing]
    passes: Count,
) -> Length {
    0.5 * (start_diameter - finish_diameter).abs() / passes
}

/// Metal removal rate of a turning tool, in volume per unit of time: surface speed · feed per revolution · depth.
///
/// Exact for the surface speed at the middle of the depth of cut. With the speed at the outer diameter, the
/// usual calculation, it is too high by the depth's share of that diameter.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(surface_speed = turning_removal_rate / (feed_per_revolution * depth)),
    inverse(feed_per_revolution = turning_removal_rate / (surface_speed * depth)),
    inverse(depth = turning_removal_rate / (surface_speed * feed_per_revolution))
)]
pub fn turning_removal_rate(
    #[increasing] surface_speed: SurfaceSpeed,
    #[increasing] feed_per_revolution: Length,
    #[term(depth_on_radius)]
    #[increasing]
    depth: Length,
) -> RemovalRate {
    surface_speed * feed_per_revolution * depth
}

/// Metal removal rate of turning or boring from one diameter to another, in volume per unit of time.
///
/// The area of the ring between the diameters, π/4 · |D² - d²|, times the feed rate: exact for any
/// depth.
#[formula(
    source = "Geometry: a ring swept at the feed rate",
    inverse(feed_rate = ring_removal_rate
        / (0.25 * PI * ((start_diameter - finish_diameter).abs() * (start_diameter + finish_diameter))))
)]
pub fn ring_removal_rate(
    /// Diameter before the cut.
    #[non_negative]
    start_diameter: Length,
    /// Diameter after the cut.
    #[non_negative]
    finish_diameter: Length,
    /// Feed rate along the axis.
    #[non_negative]
    #[increasing]
    feed_rate: FeedRate,
) -> RemovalRate {
    0.25 * PI * ((start_diameter - finish_diameter).abs() * (start_diameter + finish_diameter)) * feed_rate
}

/// Time of straight turning or boring: passes · travel / (feed per revolution · spindle speed).
///
/// The time at the feed rate. Returns, tool changes and handling come on top.
#[formula(
    source = "Common practice, as in the cutting-time formulas of the Kyocera catalogue 2021-2022",
    caution(spindle_speed),
    inverse(travel = turning_time * (feed_per_revolution * spindle_speed) / passes),
    inverse(feed_per_revolution = passes * travel / (spindle_speed * turning_time)),
    inverse(spindle_speed = passes * travel / (feed_per_revolution * turning_time))
)]
pub fn turning_time(
    #[increasing] travel: Length,
    #[positive]
    #[decreasing]
    feed_per_revolution: Length,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
    #[default(1.0)]
    #[increasing]
    passes: Count,
) -> Time {
    passes * travel / (feed_per_revolution * spindle_speed)
}

/// Time of straight turning in equal passes, each at the spindle speed for its own diameter.
///
/// The spindle speed of a pass is set once, so that the surface speed is met at the diameter it begins at:
/// π · travel · (sum of those diameters) / (feed per revolution · surface speed). No limit of the spindle is
/// in here; `facing_time` has one.
#[formula(
    source = "Common practice; time is path over speed, summed over the passes",
    caution(spindle_speed),
    rule(finish_diameter < start_diameter, "finish_diameter must be less than start_diameter")
)]
pub fn turning_time_constant_speed(
    #[positive]
    #[increasing]
    start_diameter: Length,
    #[increasing] finish_diameter: Length,
    #[increasing] travel: Length,
    #[positive]
    #[decreasing]
    feed_per_revolution: Length,
    #[term(wanted_surface_speed)]
    #[decreasing]
    surface_speed: SurfaceSpeed,
    #[positive]
    #[default(1.0)]
    #[increasing]
    passes: Count,
) -> Time {
    // The diameters fall evenly from the first, and each stands for one pass.
    let diameters = 0.5 * ((passes + 1.0) * start_diameter + (passes - 1.0) * finish_diameter);
    PI * (diameters / feed_per_revolution) * (travel / surface_speed)
}

/// Thickness of the chip that a straight edge cuts: feed per revolution · sin(entering angle).
///
/// The entering angle lies between the finished surface and the cutting edge: 90° is a square shoulder, and
/// the lead angle is what it lacks of 90°. Where the depth is not much more than the nose radius, the round
/// of the nose makes the chip thinner than this.
#[formula(
    source = "Geometry of the cut, ISO 3002-3:1984 (symbols from memory)",
    inverse(feed_per_revolution = turning_chip_thickness / math::sin_degrees(entering_angle))
)]
pub fn turning_chip_thickness(
    #[increasing] feed_per_revolution: Length,
    #[term(turning_entering_angle)] entering_angle: Angle,
) -> Length {
    feed_per_revolution * math::sin_degrees(entering_angle)
}

/// Width of the chip that a straight edge cuts: depth / sin(entering angle).
///
/// Thickness times width is feed per revolution times depth, at any entering angle.
#[formula(
    source = "Geometry of the cut, ISO 3002-3:1984 (symbols from memory)",
    inverse(depth = turning_chip_width * math::sin_degrees(entering_angle))
)]
pub fn turning_chip_width(
    #[term(depth_on_radius)]
    #[increasing]
    depth: Length,
    #[term(turning_entering_angle)] entering_angle: Angle,
) -> Length {
    depth / math::sin_degrees(entering_angle)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &TURNING_PASSES,
    &DEPTH_PER_PASS,
    &TURNING_REMOVAL_RATE,
    &RING_REMOVAL_RATE,
    &TURNING_TIME,
    &TURNING_TIME_CONSTANT_SPEED,
    &TURNING_CHIP_THICKNESS,
    &TURNING_CHIP_WIDTH,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    fn passes(start: f64, finish: f64, depth: f64) -> f64 {
        let mut y = [0.0];
        TURNING_PASSES.call(Units::Inch, &[start, finish, depth], &mut y).map_or(f64::NAN, |_| y[0])
    }

    // (1.4 - 1.1) / (2 · 0.05) is 3 on a drawing, and 2.9999999999999982 or 3.0000000000000004 in floats.
    #[test]
    fn the_last_pass_may_end_on_the_diameter() {
        assert_eq!(passes(1.4, 1.1, 0.05), 3.0);
        assert_eq!(passes(1.1, 1.4, 0.05), 3.0);
        assert_eq!(passes(1.4, 1.1, 0.04999), 4.0);
        assert_eq!(passes(1.4, 1.4, 0.05), 0.0);
        assert!(passes(1.4, 1.1, 1e-12).is_nan());
    }
}
