//! Facing and parting: the tool feeds across the axis, and the diameter falls as it goes.
use crate::Size;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Times of a cut across the axis at constant surface speed, under the limit of the spindle.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct FacingTime {
    /// Time of the whole cut.
    pub time: Time,
    /// The part of it at constant surface speed.
    pub constant_speed_time: Time,
    /// The part of it at the limit of the spindle, where the surface speed falls.
    pub limited_time: Time,
    /// Diameter at which the spindle reaches its limit; it may lie outside the cut.
    pub limit_diameter: Length,
}

/// Time from one diameter in to another: at constant surface speed down to the limit diameter, then at the
/// limit of the spindle.
#[inline(always)]
fn across(outer: f64, inner: f64, feed: f64, surface_speed: f64, spindle_limit: f64) -> BareFacingTime {
    let limit_diameter = surface_speed / (PI * spindle_limit);
    let change = limit_diameter.max(inner).min(outer);
    let constant_speed_time = 0.25 * PI * ((outer - change) / feed) * ((outer + change) / surface_speed);
    let limited_time = 0.5 * ((change - inner) / feed) / spindle_limit;
    BareFacingTime {
        time: constant_speed_time + limited_time,
        constant_speed_time,
        limited_time,
        limit_diameter,
    }
}

/// Time of facing at constant surface speed under a spindle limit, from the outer diameter in.
///
/// Down to the limit diameter, surface speed / (π · spindle limit), the spindle speeds up as the diameter
/// falls: π (D² - d²) / (4 · feed per revolution · surface speed). From there on it stays at its limit:
/// (D - d) / (2 · feed per revolution · spindle limit). A spindle that needs time to speed up takes longer.
#[formula(
    source = "Cutting-time formulas of the Kyocera catalogue 2021-2022; the integral of circumference over \
              speed",
    caution(spindle_speed),
    rule(inner_diameter < outer_diameter, "inner_diameter must be less than outer_diameter")
)]
pub fn facing_time(
    #[increasing(time, constant_speed_time, limited_time)] outer_diameter: Length,
    #[term(facing_feed)]
    #[decreasing(time, constant_speed_time, limited_time)]
    feed_per_revolution: Length,
    #[term(wanted_surface_speed)]
    #[decreasing(time, constant_speed_time)]
    #[increasing(limited_time, limit_diameter)]
    surface_speed: SurfaceSpeed,
    #[decreasing(time, limited_time, limit_diameter)]
    #[increasing(constant_speed_time)]
    spindle_limit: SpindleSpeed,
    #[decreasing(time, constant_speed_time, limited_time)] inner_diameter: Length,
) -> FacingTime {
    across(outer_diameter, inner_diameter, feed_per_revolution, surface_speed, spindle_limit)
}

/// Time of facing at a constant spindle speed, from the outer diameter in.
///
/// Half the difference of the diameters over feed per revolution · spindle speed.
#[formula(
    source = "Common practice; time is path over speed",
    caution(spindle_speed),
    rule(inner_diameter < outer_diameter, "inner_diameter must be less than outer_diameter"),
    inverse(outer_diameter = inner_diameter
        + 2.0 * facing_time_constant_spindle * (feed_per_revolution * spindle_speed)),
    inverse(feed_per_revolution = 0.5 * (outer_diameter - inner_diameter)
        / (spindle_speed * facing_time_constant_spindle)),
    inverse(spindle_speed = 0.5 * (outer_diameter - inner_diameter)
        / (feed_per_revolution * facing_time_constant_spindle))
)]
pub fn facing_time_constant_spindle(
    #[increasing] outer_diameter: Length,
    #[term(facing_feed)]
    #[decreasing]
    feed_per_revolution: Length,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
    #[decreasing] inner_diameter: Length,
) -> Time {
    0.5 * (outer_diameter - inner_diameter) / (feed_per_revolution * spindle_speed)
}

/// Number of equal facing passes for an allowance, each at most the greatest depth of cut.
///
/// The allowance over the depth, rounded up, on exact sizes.
#[formula(
    source = "Common practice; a whole number of passes",
    rule(depth > Size::ZERO, "depth must be at least a picometre")
)]
pub fn facing_passes(
    /// What comes off the face, along the axis.
    #[non_negative]
    #[increasing]
    facing_allowance: Size,
    /// Greatest depth of cut of a pass, along the axis.
    #[positive]
    #[decreasing]
    depth: Size,
) -> Count {
    let (stock, each) = (i128::from(facing_allowance.picometres()), i128::from(depth.picometres()));
    (stock + each - 1).checked_div(each).map_or(f64::NAN, |passes| passes as f64)
}

/// Mean metal removal rate of facing or parting, in volume per unit of time: π/4 · (D² - d²) · depth / time.
///
/// At constant surface speed the rate itself is steady; at constant spindle speed, or at the limit of the
/// spindle, it is greatest at the outer diameter, where it is surface speed · feed per revolution · depth.
#[formula(
    source = "Geometry: the volume of a disc over its time",
    rule(inner_diameter < outer_diameter, "inner_diameter must be less than outer_diameter"),
    inverse(depth = facing_removal_rate * cutting_time
        / (0.25 * PI * ((outer_diameter - inner_diameter) * (outer_diameter + inner_diameter)))),
    inverse(cutting_time = 0.25 * PI * ((outer_diameter - inner_diameter) * (outer_diameter + inner_diameter))
        * depth / facing_removal_rate)
)]
pub fn facing_removal_rate(
    #[increasing] outer_diameter: Length,
    /// Depth of cut along the axis in facing, width of the tool in parting.
    #[non_negative]
    #[increasing]
    depth: Length,
    /// Time of the cut.
    #[positive]
    #[decreasing]
    cutting_time: Time,
    #[decreasing] inner_diameter: Length,
) -> RemovalRate {
    0.25 * PI
        * ((outer_diameter - inner_diameter) * (outer_diameter + inner_diameter))
        * (depth / cutting_time)
}

/// Times of parting at constant surface speed, under the limit of the spindle, with less feed near the end.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PartingTime {
    /// Time of the whole cut.
    pub time: Time,
    /// The part of it at the full feed.
    pub full_feed_time: Time,
    /// The part of it at the lesser feed near the end.
    pub slow_feed_time: Time,
}

/// Time of parting at constant surface speed under a spindle limit, with less feed near the end.
///
/// As `facing_time`, in two stretches: at the full feed down to the slow diameter, and from there on at its
/// slow share. Makers of parting tools commonly ask for some three quarters less feed over the last 2 mm
/// before the centre. To part a tube, the inner diameter is its bore.
#[formula(
    source = "Cutting-time formulas of the Kyocera catalogue 2021-2022 for each stretch; the lesser feed \
              is common practice",
    caution(parting, spindle_speed),
    rule(inner_diameter < outer_diameter, "inner_diameter must be less than outer_diameter")
)]
pub fn parting_time(
    #[term(workpiece_diameter)]
    #[increasing(time, full_feed_time, slow_feed_time)]
    outer_diameter: Length,
    /// Full feed per revolution, across the axis.
    #[positive]
    #[decreasing(time, full_feed_time, slow_feed_time)]
    feed_per_revolution: Length,
    #[term(wanted_surface_speed)]
    #[decreasing(time, full_feed_time, slow_feed_time)]
    surface_speed: SurfaceSpeed,
    #[decreasing(time, full_feed_time, slow_feed_time)] spindle_limit: SpindleSpeed,
    #[decreasing(time, full_feed_time, slow_feed_time)] inner_diameter: Length,
    /// Diameter from which on the feed is less; zero for none.
    #[non_negative]
    #[default(0.0)]
    #[increasing(time, slow_feed_time)]
    #[decreasing(full_feed_time)]
    slow_diameter: Length,
    /// Lesser feed over full feed.
    #[positive]
    #[at_most(1.0)]
    #[range(0.2, 1.0)]
    #[default(1.0)]
    #[decreasing(time, slow_feed_time)]
    slow_share: Ratio,
) -> PartingTime {
    let change = slow_diameter.max(inner_diameter).min(outer_diameter);
    let slow_feed = feed_per_revolution * slow_share;
    let full_feed_time =
        across(outer_diameter, change, feed_per_revolution, surface_speed, spindle_limit).time;
    let slow_feed_time = across(change, inner_diameter, slow_feed, surface_speed, spindle_limit).time;
    BarePartingTime { time: full_feed_time + slow_feed_time, full_feed_time, slow_feed_time }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&FACING_TIME, &FACING_TIME_CONSTANT_SPINDLE, &FACING_PASSES, &FACING_REMOVAL_RATE, &PARTING_TIME];
