//! The finish that a turning tool leaves, from geometry alone.
//!
//! Wear, built-up edge, chatter and the material make the surface rougher than this, seldom smoother.
use crate::formula::Formula;
use crate::math;
use crate::quantity::*;
use tenths_macros::formula;

/// Theoretical roughness Ra of a turned surface: feed² / (32 · nose radius).
///
/// A quarter of the peak-to-valley height Rt = feed² / (8 · nose radius) of a shallow arc: the usual figure
/// of the shop. The arithmetic mean of that arc, which `roughness_ra_mean` gives, is 2.6 % greater. The
/// nose alone makes the profile, and feed is small beside its radius.
#[formula(
    source = "Common practice, as in M. P. Groover, Fundamentals of Modern Manufacturing (from memory)",
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    ),
    inverse(feed_per_revolution = nose_radius * (32.0 * (roughness_ra / nose_radius)).sqrt()),
    inverse(nose_radius = feed_per_revolution * (feed_per_revolution / (32.0 * roughness_ra)))
)]
pub fn roughness_ra(
    #[increasing] feed_per_revolution: Length,
    #[decreasing] nose_radius: Length,
) -> RoughnessRa {
    feed_per_revolution * (feed_per_revolution / (32.0 * nose_radius))
}

/// Theoretical roughness Ra as the arithmetic mean of the turned arc: feed² / (18 √3 · nose radius).
///
/// The mean distance of a parabola from its mean line, which is the definition of Ra. It is 2.6 % greater
/// than the quarter of Rt of `roughness_ra`.
#[formula(
    source = "Geometry; the definition of Ra of ISO 4287:1997 on the parabola through the arc",
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    ),
    inverse(feed_per_revolution = nose_radius
        * (18.0 * 3f64.sqrt() * (roughness_ra_mean / nose_radius)).sqrt()),
    inverse(nose_radius = feed_per_revolution
        * (feed_per_revolution / (18.0 * 3f64.sqrt() * roughness_ra_mean)))
)]
pub fn roughness_ra_mean(
    #[increasing] feed_per_revolution: Length,
    #[decreasing] nose_radius: Length,
) -> RoughnessRa {
    feed_per_revolution * (feed_per_revolution / (18.0 * 3f64.sqrt() * nose_radius))
}

/// Theoretical peak-to-valley height Rt of a turned surface: feed² / (8 · nose radius).
///
/// The height of a parabola in the place of the arc. A profile that repeats from turn to turn has one height
/// everywhere, so that Rz is the same.
#[formula(
    source = "Common practice, as in the turning formulas of the Mitsubishi Materials technical data",
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    ),
    inverse(feed_per_revolution = nose_radius * (8.0 * (roughness_rt / nose_radius)).sqrt()),
    inverse(nose_radius = feed_per_revolution * (feed_per_revolution / (8.0 * roughness_rt)))
)]
pub fn roughness_rt(
    #[increasing] feed_per_revolution: Length,
    #[decreasing] nose_radius: Length,
) -> RoughnessRz {
    feed_per_revolution * (feed_per_revolution / (8.0 * nose_radius))
}

/// Peak-to-valley height Rt of a turned surface by the exact arc: r - sqrt(r² - feed² / 4).
///
/// More than the parabola of `roughness_rt`, by a hundredth where the feed is 0.4 of the nose radius.
#[formula(
    source = "Geometry; the height of a segment of a circle",
    rule(
        feed_per_revolution <= 2.0 * nose_radius,
        "feed_per_revolution must be at most twice the nose_radius"
    ),
    inverse(feed_per_revolution = 2.0 * (roughness_rt_arc * (2.0 * nose_radius - roughness_rt_arc)).sqrt())
)]
pub fn roughness_rt_arc(
    #[increasing] feed_per_revolution: Length,
    #[decreasing] nose_radius: Length,
) -> RoughnessRz {
    // r (1 - sqrt(1 - x²)), without the difference of two numbers that are nearly the same.
    let half = 0.5 * (feed_per_revolution / nose_radius);
    nose_radius * (half * half / (1.0 + (1.0 - half * half).sqrt()))
}

/// Peak-to-valley height Rt of a surface turned with a sharp point.
///
/// feed / (cot(entering angle) + cot(end cutting edge angle)), for a tool without a nose radius, whose two
/// straight edges make the profile. The entering angle is 90° less the side cutting edge angle.
#[formula(
    source = "A. Ghosh and A. K. Mallik, Manufacturing Science (East-West Press)",
    rule(
        entering_angle + end_cutting_edge_angle < 180.0,
        "entering_angle and end_cutting_edge_angle together must be less than 180°"
    ),
    inverse(feed_per_revolution = roughness_rt_sharp
        * math::sin_degrees(entering_angle + end_cutting_edge_angle)
        / (math::sin_degrees(entering_angle) * math::sin_degrees(end_cutting_edge_angle)))
)]
pub fn roughness_rt_sharp(
    #[increasing] feed_per_revolution: Length,
    /// Entering angle, from the finished surface to the edge ahead.
    #[above(0.0)]
    #[below(180.0)]
    entering_angle: Angle,
    /// Angle between the finished surface and the edge behind.
    #[above(0.0)]
    #[below(90.0)]
    end_cutting_edge_angle: Angle,
) -> RoughnessRz {
    let [ahead, behind] = [entering_angle, end_cutting_edge_angle].map(math::sin_degrees);
    feed_per_revolution * (ahead * behind / math::sin_degrees(entering_angle + end_cutting_edge_angle))
}

/// Feed per revolution that gives a theoretical Ra: sqrt(32 · nose radius · Ra).
///
/// With Ra as a quarter of Rt. Aim at less than the drawing asks for: real surfaces come out rougher.
#[formula(
    source = "Inverse of Ra = feed² / (32 · nose radius)",
    rule(roughness <= nose_radius * 0.125, "roughness must be at most an eighth of the nose_radius"),
    inverse(roughness = feed_for_roughness_ra * (feed_for_roughness_ra / (32.0 * nose_radius)))
)]
pub fn feed_for_roughness_ra(
    /// Roughness Ra wanted.
    #[non_negative]
    #[increasing]
    roughness: RoughnessRa,
    #[increasing] nose_radius: Length,
) -> Length {
    nose_radius * (32.0 * (roughness / nose_radius)).sqrt()
}

/// Feed per revolution that gives a theoretical peak-to-valley height: sqrt(8 · nose radius · Rt).
#[formula(
    source = "Inverse of Rt = feed² / (8 · nose radius)",
    rule(roughness <= nose_radius * 0.5, "roughness must be at most half the nose_radius"),
    inverse(roughness = feed_for_roughness_rt * (feed_for_roughness_rt / (8.0 * nose_radius)))
)]
pub fn feed_for_roughness_rt(
    /// Height Rt wanted.
    #[non_negative]
    #[increasing]
    roughness: RoughnessRz,
    #[increasing] nose_radius: Length,
) -> Length {
    nose_radius * (8.0 * (roughness / nose_radius)).sqrt()
}

/// Greatest feed per revolution for a nose radius, as a share of that radius: share · nose radius.
///
/// Above it the point is overloaded and breaks. Half the radius is a common limit in roughing; inserts with
/// strong points bear up to two thirds.
#[formula(
    source = "Common practice of insert makers: half the nose radius, up to two thirds (from memory)",
    inverse(nose_radius = nose_feed_limit / share),
    inverse(share = nose_feed_limit / nose_radius)
)]
pub fn nose_feed_limit(
    #[increasing] nose_radius: Length,
    /// Greatest feed over the nose radius.
    #[positive]
    #[range(0.3, 0.7)]
    #[default(0.5)]
    #[increasing]
    share: Ratio,
) -> Length {
    share * nose_radius
}

/// Greatest feed per revolution at which the nose alone makes the profile.
///
/// 2 · nose radius · sin(end cutting edge angle). Beyond it the straight edge behind the nose cuts peaks of
/// its own, and the roughness is no longer that of the arc.
#[formula(
    source = "Geometry; the chord of the arc that ends where the edge touches it",
    inverse(nose_radius = nose_profile_feed / (2.0 * math::sin_degrees(end_cutting_edge_angle)))
)]
pub fn nose_profile_feed(
    #[increasing] nose_radius: Length,
    /// Angle between the finished surface and the edge behind the nose.
    #[positive]
    #[at_most(90.0)]
    #[increasing]
    end_cutting_edge_angle: Angle,
) -> Length {
    2.0 * nose_radius * math::sin_degrees(end_cutting_edge_angle)
}

/// Depth of cut at and above which the whole nose cuts: nose radius · (1 - cos(entering angle)).
///
/// Below it the chip is thinner than the entering angle tells, and the tool is pushed off the work rather
/// than along it.
#[formula(
    source = "Geometry; the height of the arc up to where the edge touches it",
    inverse(nose_radius = 0.5 * nose_depth
        / (math::sin_degrees(0.5 * entering_angle) * math::sin_degrees(0.5 * entering_angle)))
)]
pub fn nose_depth(
    #[increasing] nose_radius: Length,
    #[term(turning_entering_angle)]
    #[increasing]
    entering_angle: Angle,
) -> Length {
    let half = math::sin_degrees(0.5 * entering_angle);
    2.0 * nose_radius * (half * half)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &ROUGHNESS_RA,
    &ROUGHNESS_RA_MEAN,
    &ROUGHNESS_RT,
    &ROUGHNESS_RT_ARC,
    &ROUGHNESS_RT_SHARP,
    &FEED_FOR_ROUGHNESS_RA,
    &FEED_FOR_ROUGHNESS_RT,
    &NOSE_FEED_LIMIT,
    &NOSE_PROFILE_FEED,
    &NOSE_DEPTH,
];
