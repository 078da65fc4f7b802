//! Milling.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Volume of metal that a milling cutter removes in unit time: axial depth · radial width · feed rate.
///
/// For a cut of full section. Entry, exit and returns in air lower the mean over a pass.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(axial_depth = milling_removal_rate / (radial_width * feed_rate)),
    inverse(radial_width = milling_removal_rate / (axial_depth * feed_rate)),
    inverse(feed_rate = milling_removal_rate / (axial_depth * radial_width))
)]
pub fn milling_removal_rate(
    /// Depth of cut along the axis of the cutter.
    #[non_negative]
    #[increasing]
    axial_depth: Length,
    /// Width of cut across the axis and the feed.
    #[non_negative]
    #[increasing]
    radial_width: Length,
    /// Feed rate of the table or tool.
    #[non_negative]
    #[increasing]
    feed_rate: FeedRate,
) -> RemovalRate {
    axial_depth * radial_width * feed_rate
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&MILLING_REMOVAL_RATE];
