//! The standard deviation of a process from the spread within its subgroups.
use super::chart_constants::{c4, d2, d3};
use super::moments::{range, standard_deviation};

/// How the spread of a subgroup is measured.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum SubgroupSpread {
    Range,
    Deviation,
}

impl SubgroupSpread {
    /// The spread of a subgroup.
    pub fn measured(self, readings: &[f64]) -> f64 {
        match self {
            SubgroupSpread::Range => range(readings),
            SubgroupSpread::Deviation => standard_deviation(readings),
        }
    }

    /// The mean and the variance of the spread of `count` normal readings with a standard deviation of 1.
    pub fn law(self, count: u32) -> [f64; 2] {
        match self {
            SubgroupSpread::Range => [d2(count), d3(count) * d3(count)],
            SubgroupSpread::Deviation => [c4(count), 1.0 - c4(count) * c4(count)],
        }
    }
}

/// A standard deviation within subgroups, and its degrees of freedom.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Within {
    pub sigma: f64,
    pub degrees_of_freedom: f64,
}

/// The standard deviation within subgroups from the spread of each, with the mean and the variance that it has for a
/// standard deviation of 1.
///
/// Each subgroup gives an estimate, range / d2 or standard deviation / c4, which counts by the inverse of its variance: of
/// all weights these leave the smallest variance. For subgroups of one size the result is the mean range over d2, or the
/// mean standard deviation over c4. The degrees of freedom are those of the standard deviation of a normal sample that
/// varies as much. NaN without subgroups.
pub(crate) fn within(groups: impl IntoIterator<Item = (f64, [f64; 2])>) -> Within {
    let (mut sum, mut weights) = (0.0, 0.0);
    for (spread, [mean, variance]) in groups {
        sum += spread * mean / variance;
        weights += mean * mean / variance;
    }
    Within { sigma: sum / weights, degrees_of_freedom: 0.5 * weights }
}
