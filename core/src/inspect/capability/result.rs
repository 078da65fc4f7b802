//! What a capability comes to.
use super::kinds::{CapabilityLaw, SigmaRule};
use crate::quantity::Units;
use std::fmt;
use tenths_macros::Object;

/// A confidence interval.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(tuple, restore)]
pub struct CapabilityInterval {
    /// The lower end; absent where the interval has none.
    #[pure]
    pub lower: Option<f64>,
    /// The upper end; absent where the interval has none.
    #[pure]
    pub upper: Option<f64>,
}

/// The capability of one characteristic, in the unit of its readings.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct Capability {
    /// The unit system of the readings: inches or millimetres.
    pub units: Units,
    /// The name of the characteristic; absent where it has none.
    pub name: Option<String>,
    /// The number of readings.
    pub count: usize,
    /// The number of subgroups; absent without.
    pub subgroups: Option<usize>,
    /// The lower limit; absent where there is none.
    pub lower_limit: Option<f64>,
    /// The upper limit; absent where there is none.
    pub upper_limit: Option<f64>,
    /// The target, which is the middle of the limits where none was given; absent with one limit and no target.
    pub target: Option<f64>,
    /// The mean.
    pub mean: f64,
    /// The standard deviation within subgroups, by `sigma_rule`: for Cp and Cpk.
    pub sigma_within: f64,
    /// The standard deviation of all readings: for Pp and Ppk.
    pub sigma_overall: f64,
    /// How `sigma_within` was estimated.
    pub sigma_rule: SigmaRule,
    /// The degrees of freedom of `sigma_within`: of ranges and mean deviations those of the chi-square law with the same
    /// relative variance.
    #[pure]
    pub degrees_of_freedom: f64,
    /// The law by which Pp, Ppk and the expected ppm are calculated.
    pub law: CapabilityLaw,
    /// Cp: the tolerance over six `sigma_within`; absent with one limit.
    #[pure]
    pub cp: Option<f64>,
    /// The distance of the mean from the lower limit over three `sigma_within`; absent without that limit.
    #[pure]
    pub cpl: Option<f64>,
    /// The distance of the mean from the upper limit over three `sigma_within`; absent without that limit.
    #[pure]
    pub cpu: Option<f64>,
    /// Cpk: the smaller of the two. Negative where the mean is beyond a limit.
    #[pure]
    pub cpk: f64,
    /// Pp: the tolerance over six `sigma_overall`, or over the width of the law from 0.135 to 99.865 percent; absent with
    /// one limit.
    #[pure]
    pub pp: Option<f64>,
    /// Ppk: the distance to the nearer limit over three `sigma_overall`; by a law other than the normal the distance from
    /// its median over that of its 0.135 or 99.865 percent point.
    #[pure]
    pub ppk: f64,
    /// Cpm: the tolerance over six root mean squares about the target; absent with one limit.
    #[pure]
    pub cpm: Option<f64>,
    /// The confidence of the intervals.
    #[pure]
    pub confidence: f64,
    /// Interval of Cp by the chi-square law; absent with one limit.
    pub cp_interval: Option<CapabilityInterval>,
    /// Interval of Cpk. With two limits Bissell's, by the normal law. With one limit by the noncentral t law: exact with
    /// `sigma_rule` `overall`, otherwise with the degrees of freedom of `sigma_within`.
    pub cpk_interval: CapabilityInterval,
    /// Parts in a million below the lower limit, by the law and the overall standard deviation.
    #[pure]
    pub ppm_below: f64,
    /// Parts in a million above the upper limit, by the law and the overall standard deviation.
    #[pure]
    pub ppm_above: f64,
    /// Parts in a million outside the limits, by the law and the overall standard deviation.
    #[pure]
    pub ppm_expected: f64,
    /// The most parts in a million that can be outside under any law with this mean and overall standard deviation.
    #[pure]
    pub ppm_bound: f64,
    /// Readings outside the limits, in a million.
    #[pure]
    pub ppm_observed: f64,
    /// Anderson and Darling's A² for a normal law; absent for fewer than eight readings.
    #[pure]
    pub normality_statistic: Option<f64>,
    /// The probability of such a statistic or a larger one for normal readings; absent for fewer than eight readings.
    #[pure]
    pub normality_p: Option<f64>,
    /// What to mind before the figures are quoted; empty if nothing.
    pub advice: &'static str,
}

impl fmt::Display for Capability {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(name) = &self.name {
            write!(f, "{name}: ")?;
        }
        write!(f, "Cpk {:.3}, Ppk {:.3} from {} readings", self.cpk, self.ppk, self.count)
    }
}
