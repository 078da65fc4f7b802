//! Moves of an axis and of a path: their time, and the feed that a corner or a curve allows.
use crate::formula::Formula;
use crate::math::sin_acute_degrees;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// A straight move from one feed rate to another.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct StraightMove {
    /// The highest feed rate that the move reaches.
    pub peak_feed_rate: FeedRate,
    /// Time of the move.
    pub move_time: Time,
    /// Time at the highest feed rate; 0 where it slows down at once.
    pub cruise_time: Time,
}

/// Time of a straight move at constant acceleration and deceleration: it speeds up to a feed rate, holds it, and slows down.
///
/// Where the move is too short for its feed rate it reaches √((2·a·d·L + d·v₀² + a·v₁²) / (a + d)). Without a limit of jerk, so
/// that a real machine takes somewhat longer.
#[formula(
    source = "Elementary kinematics",
    rule(start_feed_rate <= feed_rate, "start_feed_rate must be at most feed_rate"),
    rule(end_feed_rate <= feed_rate, "end_feed_rate must be at most feed_rate"),
    rule(
        end_feed_rate * end_feed_rate <= start_feed_rate * start_feed_rate + 2.0 * acceleration * travel,
        "end_feed_rate must be one that acceleration reaches from start_feed_rate within travel"
    ),
    rule(
        start_feed_rate * start_feed_rate <= end_feed_rate * end_feed_rate + 2.0 * deceleration * travel,
        "start_feed_rate must be one from which deceleration reaches end_feed_rate within travel"
    )
)]
pub fn straight_move(
    /// Length of the move.
    #[positive]
    travel: Length,
    /// The feed rate that the move may reach.
    #[positive]
    feed_rate: FeedRate,
    /// Acceleration.
    #[positive]
    acceleration: Acceleration,
    /// Deceleration.
    #[positive]
    deceleration: Acceleration,
    /// Feed rate at the start.
    #[non_negative]
    #[default(FeedRate::millimetres_per_minute(0.0))]
    start_feed_rate: FeedRate,
    /// Feed rate at the end.
    #[non_negative]
    #[default(FeedRate::millimetres_per_minute(0.0))]
    end_feed_rate: FeedRate,
) -> StraightMove {
    let (a, d, v0, v1) = (acceleration, deceleration, start_feed_rate, end_feed_rate);
    // Differences of squares as products, so that a short change of speed keeps its digits.
    let apart = (v1 - v0) * (v1 + v0);
    let rise = (a * (2.0 * d * travel + apart) / (a + d)).max(0.0);
    let fall = (d * (2.0 * a * travel - apart) / (a + d)).max(0.0);
    let free = (v0 * v0 + rise).sqrt();
    let (up, down) = (feed_rate - v0, feed_rate - v1);
    let ramps = up * (feed_rate + v0) / (2.0 * a) + down * (feed_rate + v1) / (2.0 * d);
    if free <= feed_rate {
        let move_time = rise / (a * (free + v0)) + fall / (d * (free + v1));
        BareStraightMove { peak_feed_rate: free, move_time, cruise_time: 0.0 }
    } else {
        let cruise_time = (travel - ramps).max(0.0) / feed_rate;
        let move_time = up / a + down / d + cruise_time;
        BareStraightMove { peak_feed_rate: feed_rate, move_time, cruise_time }
    }
}

/// Time of a smooth move from rest to rest: travel / feed rate + feed rate / acceleration + build-up time.
///
/// The acceleration rises and falls at constant jerk and reaches its highest, and the move its feed rate.
#[formula(
    source = "Elementary kinematics",
    result = "Time of a smooth move from rest to rest.",
    rule(
        feed_rate >= acceleration * build_up_time,
        "build_up_time must be at most feed_rate / acceleration: the acceleration must reach its highest"
    ),
    rule(
        travel >= feed_rate * (feed_rate / acceleration + build_up_time),
        "travel must be at least feed_rate · (feed_rate / acceleration + build_up_time)"
    )
)]
pub fn smooth_move_time(
    /// Length of the move, from rest to rest.
    #[positive]
    travel: Length,
    /// The feed rate that the move reaches.
    #[positive]
    feed_rate: FeedRate,
    /// Highest acceleration.
    #[positive]
    acceleration: Acceleration,
    /// Time in which the acceleration rises from 0 to its highest: acceleration over jerk.
    #[non_negative]
    #[increasing]
    build_up_time: Time,
) -> Time {
    travel / feed_rate + feed_rate / acceleration + build_up_time
}

/// How fast a corner may be taken that is rounded within a deviation.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RoundedCorner {
    /// Radius of the arc that stays within the deviation.
    pub arc_radius: Length,
    /// The feed rate at which its acceleration across the path is the highest.
    pub corner_feed_rate: FeedRate,
}

/// The feed rate of a corner that an arc rounds within a deviation: √(acceleration · arc radius).
///
/// The arc touches both lines, and its middle is the deviation away from the corner: radius = deviation · c / (1 - c), with c the
/// cosine of half the turn.
#[formula(source = "Plane geometry and elementary kinematics")]
pub fn rounded_corner(
    /// By how much the direction changes: 90° in a square corner.
    #[above(Angle::degrees(0.0))]
    #[below(Angle::degrees(180.0))]
    #[decreasing(arc_radius, corner_feed_rate)]
    turn_angle: Angle,
    /// How far the path may leave the corner.
    #[positive]
    #[increasing(arc_radius, corner_feed_rate)]
    corner_deviation: Length,
    /// Highest acceleration across the path.
    #[positive]
    #[increasing(corner_feed_rate)]
    acceleration: Acceleration,
) -> RoundedCorner {
    let quarter = sin_acute_degrees(0.25 * turn_angle);
    let beside = 2.0 * quarter * quarter;
    let arc_radius = corner_deviation * (1.0 - beside) / beside;
    BareRoundedCorner { arc_radius, corner_feed_rate: (acceleration * arc_radius).sqrt() }
}

/// The feed rate of a sharp corner at which the velocity jumps by no more than the axes take: jump / (2 · sin(turn / 2)).
#[formula(source = "Plane geometry", result = "Feed rate of a sharp corner.")]
pub fn sharp_corner_feed_rate(
    /// By how much the direction changes, up to 180° where the path turns back.
    #[above(Angle::degrees(0.0))]
    #[at_most(Angle::degrees(180.0))]
    #[decreasing]
    turn_angle: Angle,
    /// The jump of velocity that the axes take at once.
    #[positive]
    #[increasing]
    velocity_jump: FeedRate,
) -> FeedRate {
    velocity_jump / (2.0 * sin_acute_degrees(0.5 * turn_angle))
}

/// How fast a curve may be followed.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct CurveFeed {
    /// The feed rate at which the chords of the control leave the curve by the chord error.
    pub chord_feed_rate: FeedRate,
    /// The feed rate at which the acceleration across the path is the highest.
    pub across_feed_rate: FeedRate,
    /// The smaller of both.
    pub curve_feed_rate: FeedRate,
}

/// The feed rate of a curve within a chord error and an acceleration: the smaller of 2 · √(2·r·e - e²) / T and √(a · r).
///
/// A control goes from point to point of a curve in straight chords, one in each interpolation time T; r is the radius of the
/// curve and e how far a chord may leave it.
#[formula(
    source = "S.-S. Yeh, P.-L. Hsu, Computer-Aided Design 34 (2002) 229-237 (from memory): feed rate for a confined chord error",
    rule(chord_error <= curve_radius, "chord_error must be at most curve_radius")
)]
pub fn curve_feed(
    /// Radius of the curve.
    #[positive]
    #[increasing(across_feed_rate, chord_feed_rate, curve_feed_rate)]
    curve_radius: Length,
    /// How far a chord may leave the curve.
    #[positive]
    #[increasing(chord_feed_rate, curve_feed_rate)]
    chord_error: Length,
    /// Time from one point of the control to the next.
    #[positive]
    #[decreasing(chord_feed_rate, curve_feed_rate)]
    interpolation_time: Time,
    /// Highest acceleration toward the middle of the curve.
    #[positive]
    #[increasing(across_feed_rate, curve_feed_rate)]
    acceleration: Acceleration,
) -> CurveFeed {
    let half_chord = (chord_error * (2.0 * curve_radius - chord_error)).sqrt();
    let chord_feed_rate = 2.0 * half_chord / interpolation_time;
    let across_feed_rate = (acceleration * curve_radius).sqrt();
    BareCurveFeed {
        chord_feed_rate,
        across_feed_rate,
        curve_feed_rate: chord_feed_rate.min(across_feed_rate),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&STRAIGHT_MOVE, &SMOOTH_MOVE_TIME, &ROUNDED_CORNER, &SHARP_CORNER_FEED_RATE, &CURVE_FEED];
