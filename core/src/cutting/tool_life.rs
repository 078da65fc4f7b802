//! Tool life after Taylor.
use crate::formula::Formula;
use crate::math::{ln, powf};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Taylor's constants for one tool, one metal and one kind of cut.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TaylorConstants {
    /// Taylor's exponent.
    pub taylor_n: Ratio,
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    pub taylor_c: SurfaceSpeed,
}

/// Life of a cutting edge after Taylor: 1 min · (C / surface speed)^(1/n).
///
/// C and n hold for one tool, one metal, one feed and depth, one coolant, and one measure of wear, within the
/// speeds of the trials. At low speed a built-up edge shortens life against the formula. A small error of speed or
/// of n is a large one of life: with n = 0.2, a tenth more speed costs nearly two fifths of it.
#[formula(
    source = "F. W. Taylor, On the Art of Cutting Metals, 1907; ISO 3685:1993 for the trials (both from memory)",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(surface_speed = speed_for_tool_life_base(tool_life, taylor_c, taylor_n, unit_life)),
    inverse(taylor_c = surface_speed * powf(tool_life / unit_life, taylor_n))
)]
pub fn tool_life(
    #[positive]
    #[decreasing]
    surface_speed: SurfaceSpeed,
    #[increasing] taylor_c: SurfaceSpeed,
    taylor_n: Ratio,
) -> Time {
    unit_life * powf(taylor_c / surface_speed, 1.0 / taylor_n)
}

/// Surface speed at which an edge lasts a wanted life, after Taylor: C / (life / 1 min)^n.
///
/// What holds for `tool_life` holds for it.
#[formula(
    source = "F. W. Taylor, On the Art of Cutting Metals, 1907 (from memory)",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(tool_life = tool_life_base(speed_for_tool_life, taylor_c, taylor_n, unit_life)),
    inverse(taylor_c = speed_for_tool_life * powf(tool_life / unit_life, taylor_n))
)]
pub fn speed_for_tool_life(
    #[term(wanted_tool_life)]
    #[decreasing]
    tool_life: Time,
    #[increasing] taylor_c: SurfaceSpeed,
    taylor_n: Ratio,
) -> SurfaceSpeed {
    taylor_c * powf(tool_life / unit_life, -taylor_n)
}

/// Taylor's constants from two trials: n = ln(V₁ / V₂) / ln(T₂ / T₁), C = V₁ · (T₁ / 1 min)^n.
///
/// Two trials tell nothing of their own scatter. Fit several where the figures must bear weight, and take speeds
/// well apart.
#[formula(
    source = "The line through two points of Taylor's law on logarithmic paper; common practice",
    constant(unit_life: Time = Time::minutes(1.0)),
    rule(
        (first_surface_speed - second_surface_speed) * (second_life - first_life) > 0.0,
        "first_life and second_life must be in the reverse order of first_surface_speed and second_surface_speed"
    )
)]
pub fn taylor_from_trials(
    /// Surface speed of the first trial.
    #[positive]
    first_surface_speed: SurfaceSpeed,
    /// Life of the edge in the first trial.
    #[positive]
    first_life: Time,
    /// Surface speed of the second trial.
    #[positive]
    second_surface_speed: SurfaceSpeed,
    /// Life of the edge in the second trial.
    #[positive]
    second_life: Time,
) -> TaylorConstants {
    let taylor_n = ln(first_surface_speed / second_surface_speed) / ln(second_life / first_life);
    BareTaylorConstants { taylor_n, taylor_c: first_surface_speed * powf(first_life / unit_life, taylor_n) }
}

/// Life of an edge by speed, feed and depth: 1 min · (C / (V · (f / f₀)^a · (d / d₀)^b))^(1/n).
///
/// Taylor's law extended, V · T^n · f^a · d^b = C, with feed and depth over references f₀ and d₀, at which C holds.
/// Books print C for f and d in mm, which is a reference of 1 mm; those that print it for inches have a reference
/// of 1 in.
#[formula(
    source = "Taylor's law extended by feed and depth, as in P. C. Sharma, A Textbook of Production Engineering, \
              11th ed., example 14.4, p. 566",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(surface_speed = extended_speed_for_tool_life_base(
        tool_life_extended, feed_per_revolution, depth, taylor_c, taylor_n, feed_exponent, depth_exponent,
        reference_feed, reference_depth, unit_life
    )),
    inverse(taylor_c = surface_speed
        * powf(tool_life_extended / unit_life, taylor_n)
        * section_factor(feed_per_revolution / reference_feed, feed_exponent, depth / reference_depth, depth_exponent))
)]
pub fn tool_life_extended(
    #[positive]
    #[decreasing]
    surface_speed: SurfaceSpeed,
    #[term(feed)]
    #[decreasing]
    feed_per_revolution: Length,
    #[term(depth_of_cut)]
    #[decreasing]
    depth: Length,
    #[term(extended_taylor_c)]
    #[increasing]
    taylor_c: SurfaceSpeed,
    taylor_n: Ratio,
    feed_exponent: Ratio,
    depth_exponent: Ratio,
    #[increasing] reference_feed: Length,
    #[increasing] reference_depth: Length,
) -> Time {
    let feed = feed_per_revolution / reference_feed;
    let factor = section_factor(feed, feed_exponent, depth / reference_depth, depth_exponent);
    unit_life * powf(taylor_c / surface_speed / factor, 1.0 / taylor_n)
}

/// Surface speed for a wanted life by feed and depth: C / ((T / 1 min)^n · (f / f₀)^a · (d / d₀)^b).
///
/// What holds for `tool_life_extended` holds for it.
#[formula(
    source = "Taylor's law extended by feed and depth, as in P. C. Sharma, A Textbook of Production Engineering, \
              11th ed., example 14.4, p. 566",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(tool_life = tool_life_extended_base(
        extended_speed_for_tool_life, feed_per_revolution, depth, taylor_c, taylor_n, feed_exponent, depth_exponent,
        reference_feed, reference_depth, unit_life
    ))
)]
pub fn extended_speed_for_tool_life(
    #[term(wanted_tool_life)]
    #[decreasing]
    tool_life: Time,
    #[term(feed)]
    #[decreasing]
    feed_per_revolution: Length,
    #[term(depth_of_cut)]
    #[decreasing]
    depth: Length,
    #[term(extended_taylor_c)]
    #[increasing]
    taylor_c: SurfaceSpeed,
    taylor_n: Ratio,
    feed_exponent: Ratio,
    depth_exponent: Ratio,
    #[increasing] reference_feed: Length,
    #[increasing] reference_depth: Length,
) -> SurfaceSpeed {
    let feed = feed_per_revolution / reference_feed;
    let factor = section_factor(feed, feed_exponent, depth / reference_depth, depth_exponent);
    taylor_c * powf(tool_life / unit_life, -taylor_n) / factor
}

/// By what feed and depth divide the speed of Taylor's law.
#[inline(always)]
fn section_factor(feed: f64, feed_exponent: f64, depth: f64, depth_exponent: f64) -> f64 {
    powf(feed, feed_exponent) * powf(depth, depth_exponent)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &TOOL_LIFE,
    &SPEED_FOR_TOOL_LIFE,
    &TAYLOR_FROM_TRIALS,
    &TOOL_LIFE_EXTENDED,
    &EXTENDED_SPEED_FOR_TOOL_LIFE,
];
