//! How a dimension spreads about its limits.
use std::sync::Arc;

use super::StackError;
use super::moments::Cumulants;
use crate::math::{normal_cdf, normal_density};

/// How a dimension spreads.
///
/// Most laws are set by the limits of the dimension, and then their numbers are shares of its half band: half the
/// tolerance. [`Distribution::Process`] and [`Distribution::Measured`] stand on their own.
#[derive(Clone, PartialEq, Debug)]
pub enum Distribution {
    /// Normal, with a standard deviation of half band / (3 cp). It reaches beyond the limits, as a process does.
    Normal {
        /// Capability Cp of the process.
        cp: f64,
        /// Mean less the middle of the limits, in half bands: its size is 1 - Cpk / Cp.
        shift: f64,
    },
    /// Normal, cut off at the limits by inspection.
    TruncatedNormal {
        /// Capability Cp of the process before inspection.
        cp: f64,
        /// Mean of the process less the middle of the limits, in half bands.
        shift: f64,
    },
    /// Any size between the limits, with equal probability.
    Uniform,
    /// Triangular: from the limits to the most frequent size.
    Triangular {
        /// The most frequent size less the middle, in half bands: -1 to 1.
        mode: f64,
    },
    /// Trapezoidal: level about the middle, straight lines to the limits.
    Trapezoid {
        /// Width of the level part over the tolerance: 0 is a triangle, 1 uniform.
        top: f64,
    },
    /// The beta law from limit to limit, skewed where its two shapes differ. Two shapes of 1.5 make a half ellipse.
    Beta {
        /// The shape that draws sizes from the lower limit toward the upper.
        alpha: f64,
        /// The shape that draws sizes from the upper limit toward the lower.
        beta: f64,
    },
    /// Normal, as a process was measured, independent of the limits.
    Process {
        /// Mean size, in the unit of the stack.
        mean: f64,
        /// Standard deviation, in the unit of the stack.
        sigma: f64,
    },
    /// Measured sizes, in the unit of the stack, each drawn as often as the others.
    Measured(Arc<[f64]>),
}

/// Least and greatest shape of a beta law.
const SHAPES: [f64; 2] = [0.1, 10_000.0];

impl Default for Distribution {
    fn default() -> Self {
        Distribution::NORMAL
    }
}

impl Distribution {
    /// Normal and centred, with a standard deviation of a third of the half band: Cp = Cpk = 1.
    pub const NORMAL: Distribution = Distribution::Normal { cp: 1.0, shift: 0.0 };

    /// Normal with a capability Cp, and Cpk that is less by a mean above the middle.
    ///
    /// The mean lies `1 - cpk / cp` half bands above the middle; for one below it, negate the shift. A Cpk above Cp
    /// gives an error in use.
    pub fn capable(cp: f64, cpk: f64) -> Distribution {
        let shift = 1.0 - cpk / cp;
        Distribution::Normal { cp, shift: if shift >= 0.0 { shift } else { f64::NAN } }
    }

    /// The law of a name: `normal`, `truncated_normal`, `uniform`, `triangular`, `trapezoid` (level over a half) or
    /// `half_ellipse`.
    ///
    /// # Errors
    /// [`StackError::UnknownDistribution`].
    pub fn parse(name: &str) -> Result<Distribution, StackError> {
        match name.trim() {
            "normal" => Ok(Distribution::NORMAL),
            "truncated_normal" => Ok(Distribution::TruncatedNormal { cp: 1.0, shift: 0.0 }),
            "uniform" => Ok(Distribution::Uniform),
            "triangular" => Ok(Distribution::Triangular { mode: 0.0 }),
            "trapezoid" => Ok(Distribution::Trapezoid { top: 0.5 }),
            "half_ellipse" => Ok(Distribution::Beta { alpha: 1.5, beta: 1.5 }),
            _ => Err(StackError::UnknownDistribution { name: crate::error::excerpt(name) }),
        }
    }

    /// The name of the law: `normal`, `truncated_normal`, `uniform`, `triangular`, `trapezoid`, `beta`, `process` or
    /// `measured`.
    pub fn name(&self) -> &'static str {
        match self {
            Distribution::Normal { .. } => "normal",
            Distribution::TruncatedNormal { .. } => "truncated_normal",
            Distribution::Uniform => "uniform",
            Distribution::Triangular { .. } => "triangular",
            Distribution::Trapezoid { .. } => "trapezoid",
            Distribution::Beta { .. } => "beta",
            Distribution::Process { .. } => "process",
            Distribution::Measured(_) => "measured",
        }
    }

    /// Whether it is a whole normal law, which alone may be correlated with another.
    pub fn is_normal(&self) -> bool {
        matches!(self, Distribution::Normal { .. } | Distribution::Process { .. })
    }

    /// What is wrong with its numbers, where anything is.
    pub fn fault(&self) -> Option<String> {
        let within = |name: &str, value: f64, low: f64, high: f64| {
            let is_within = low <= value && value <= high;
            (!is_within).then(|| format!("{name} must be from {low} to {high}, not {value}"))
        };
        match self {
            Distribution::Normal { cp, shift } | Distribution::TruncatedNormal { cp, shift } => {
                within("cp", *cp, 0.01, 1000.0).or_else(|| within("shift", *shift, -1.0, 1.0))
            }
            Distribution::Uniform => None,
            Distribution::Triangular { mode } => within("mode", *mode, -1.0, 1.0),
            Distribution::Trapezoid { top } => within("top", *top, 0.0, 1.0),
            Distribution::Beta { alpha, beta } => {
                let [low, high] = SHAPES;
                within("alpha", *alpha, low, high).or_else(|| within("beta", *beta, low, high))
            }
            Distribution::Process { mean, sigma } => {
                within("mean", *mean, -1e15, 1e15).or_else(|| within("sigma", *sigma, 0.0, 1e15))
            }
            Distribution::Measured(values) => {
                match values.iter().find(|value| !(-1e15..=1e15).contains(*value)) {
                    Some(value) => Some(format!("measured sizes must be finite, not {value}")),
                    None => values.is_empty().then(|| "there are no measured sizes".into()),
                }
            }
        }
    }

    /// Exact mean and cumulants for limits about `middle` with a half band of `half`.
    pub(crate) fn cumulants(&self, middle: f64, half: f64) -> Cumulants {
        match self {
            Distribution::Normal { cp, shift } => Cumulants::normal(middle + shift * half, half / (3.0 * cp)),
            Distribution::TruncatedNormal { cp, shift } => {
                let sigma = half / (3.0 * cp);
                truncated([-3.0 * cp * (1.0 + shift), 3.0 * cp * (1.0 - shift)])
                    .placed(middle + shift * half, sigma)
            }
            Distribution::Uniform => uniforms([1.0, 0.0]).placed(middle, half),
            Distribution::Triangular { mode } => triangle(*mode).placed(middle, half),
            Distribution::Trapezoid { top } => uniforms(trapezoid_halves(*top)).placed(middle, half),
            Distribution::Beta { alpha, beta } => beta_law(*alpha, *beta).placed(middle, half),
            Distribution::Process { mean, sigma } => Cumulants::normal(*mean, *sigma),
            Distribution::Measured(values) => Cumulants::of(values),
        }
    }
}

/// A symmetric trapezoid over -1 to 1 is the sum of two uniform laws of these half widths.
pub(crate) fn trapezoid_halves(top: f64) -> [f64; 2] {
    [0.5 * (1.0 + top), 0.5 * (1.0 - top)]
}

/// The sum of two uniform laws about zero with these half widths.
fn uniforms(halves: [f64; 2]) -> Cumulants {
    let [a, b] = halves.map(|half| half * half);
    Cumulants { mean: 0.0, variance: (a + b) / 3.0, third: 0.0, fourth: -2.0 / 15.0 * (a * a + b * b) }
}

/// The triangular law over -1 to 1.
fn triangle(mode: f64) -> Cumulants {
    let variance = (3.0 + mode * mode) / 18.0;
    let third = -mode * (9.0 - mode * mode) / 135.0;
    Cumulants { mean: mode / 3.0, variance, third, fourth: -0.6 * variance * variance }
}

/// The beta law over -1 to 1.
fn beta_law(alpha: f64, beta: f64) -> Cumulants {
    let sum = alpha + beta;
    let product = alpha * beta;
    let variance = 4.0 * product / (sum * sum * (sum + 1.0));
    let third = 16.0 * product * (beta - alpha) / (sum * sum * sum * (sum + 1.0) * (sum + 2.0));
    let difference = alpha - beta;
    let excess = 6.0 * (difference * difference * (sum + 1.0) - product * (sum + 2.0))
        / (product * (sum + 2.0) * (sum + 3.0));
    Cumulants { mean: difference / sum, variance, third, fourth: excess * variance * variance }
}

/// The standard normal law between two ends, from the recursion of its moments about zero.
fn truncated([low, high]: [f64; 2]) -> Cumulants {
    let share = normal_cdf(high) - normal_cdf(low);
    let edge = |power: i32| {
        let at = |end: f64| (0..power).fold(normal_density(end), |value, _| value * end);
        (at(high) - at(low)) / share
    };
    let first = -edge(0);
    let second = 1.0 - edge(1);
    let third = 2.0 * first - edge(2);
    let fourth = 3.0 * second - edge(3);
    Cumulants::from_raw_moments([first, second, third, fourth])
}
