//! Sawing.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Time of one saw cut: area of the cross-section / sawing rate.
///
/// The sawing rate is a figure of the saw and blade maker for the material and the section; clamping,
/// approach and return of the blade come on top.
#[formula(
    source = "Common practice; area over area in unit time",
    inverse(area = sawing_time * sawing_rate),
    inverse(sawing_rate = area / sawing_time)
)]
pub fn sawing_time(
    /// Area of the cross-section that the blade cuts through.
    #[non_negative]
    #[increasing]
    area: Area,
    /// Area sawn in unit time.
    #[positive]
    #[decreasing]
    sawing_rate: SawingRate,
) -> Time {
    area / sawing_rate
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SAWING_TIME];
