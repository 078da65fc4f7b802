//! What a fit comes to when both parts are made by processes in statistical control.
use crate::formula::Formula;
use crate::math::normal_cdf;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Spread of the clearance of a fit, and how often it is an interference.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct FitStatistics {
    /// Standard deviation of the clearance.
    pub clearance_deviation: Length,
    /// Probability that a hole and a shaft taken at random interfere; one less it is that of a clearance.
    pub interference_probability: Ratio,
}

/// Spread of the clearance and probability of interference, where hole and shaft are normal in process.
///
/// Each process is centred in its tolerance and has the capability Cp: its standard deviation is
/// tolerance / (6 Cp). Hole and shaft are taken at random, so that
/// clearance deviation = √(hole deviation² + shaft deviation²), and the probability of interference is the normal
/// distribution at -mean clearance / clearance deviation.
///
/// A process off its centre moves the mean clearance: give the one that it has. Sorting, tool wear within a batch and
/// gauging that cuts off the tails are left out; the tails are as far as the normal law holds.
#[formula(source = "Common practice: sum of independent normal variables; Cp = tolerance / (6 σ)")]
pub fn fit_statistics(
    /// Middle size of the hole less that of the shaft; negative for an interference.
    #[decreasing(interference_probability)]
    mean_clearance: Length,
    /// Tolerance of the hole.
    #[positive]
    #[increasing(clearance_deviation)]
    hole_tolerance: Length,
    /// Tolerance of the shaft.
    #[positive]
    #[increasing(clearance_deviation)]
    shaft_tolerance: Length,
    /// Capability of the process that makes the hole.
    #[positive]
    #[default(1.0)]
    #[decreasing(clearance_deviation)]
    hole_cp: Ratio,
    /// Capability of the process that makes the shaft.
    #[positive]
    #[default(1.0)]
    #[decreasing(clearance_deviation)]
    shaft_cp: Ratio,
) -> FitStatistics {
    let (hole, shaft) = (hole_tolerance / hole_cp, shaft_tolerance / shaft_cp);
    let (greater, less) = (hole.max(shaft), hole.min(shaft));
    let ratio = less / greater;
    let clearance_deviation = greater * (1.0 + ratio * ratio).sqrt() / 6.0;
    BareFitStatistics {
        clearance_deviation,
        interference_probability: normal_cdf(-mean_clearance / clearance_deviation),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&FIT_STATISTICS];
