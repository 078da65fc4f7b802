//! The time that a cut takes.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Time of one pass at a steady feed rate: travel / feed rate.
///
/// The travel is the whole path at that feed rate, approach and overrun included. Rapid moves, acceleration,
/// tool changes and handling come on top.
#[formula(
    source = "Common practice; time is path over speed",
    inverse(travel = cutting_time * feed_rate),
    inverse(feed_rate = travel / cutting_time)
)]
pub fn cutting_time(
    /// Length of the path at the feed rate, with approach and overrun.
    #[non_negative]
    #[increasing]
    travel: Length,
    /// Feed rate.
    #[positive]
    #[decreasing]
    feed_rate: FeedRate,
) -> Time {
    travel / feed_rate
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&CUTTING_TIME];
