//! The standard deviation within subgroups, by each rule.
use super::kinds::{CapabilityError, SigmaRule};
use crate::statistics::{c4, d2, d3, mean as mean_of, mean_step};

/// A standard deviation and its degrees of freedom.
pub(super) struct Within {
    pub sigma: f64,
    pub degrees_of_freedom: f64,
}

/// The constants of each size of subgroup that was met.
#[derive(Default)]
pub(super) struct Constants(Vec<(usize, f64, f64)>);

impl Constants {
    /// d2 and the relative deviation of a range, or c4 and that of a standard deviation.
    fn of(&mut self, rule: SigmaRule, size: usize) -> (f64, f64) {
        if let Some((_, centre, relative)) = self.0.iter().find(|(known, ..)| *known == size) {
            return (*centre, *relative);
        }
        let count = u32::try_from(size).unwrap_or(u32::MAX);
        let (centre, relative) = if rule == SigmaRule::MeanRange {
            (d2(count), d3(count) / d2(count))
        } else {
            (c4(count), (1.0 - c4(count) * c4(count)).sqrt() / c4(count))
        };
        self.0.push((size, centre, relative));
        (centre, relative)
    }
}

/// The standard deviation by a rule; `groups` are the sizes of the subgroups in order.
pub(super) fn within(
    rule: SigmaRule,
    readings: &[f64],
    groups: &[usize],
    overall: f64,
    constants: &mut Constants,
) -> Result<Within, CapabilityError> {
    let within = match rule {
        SigmaRule::MovingRange => moving(readings),
        SigmaRule::MeanRange => mean(rule, readings, groups, constants, range),
        SigmaRule::MeanDeviation => mean(rule, readings, groups, constants, |group| {
            (square_sum(group) / (group.len() as f64 - 1.0)).sqrt()
        }),
        SigmaRule::Pooled => pooled(readings, groups),
        SigmaRule::Overall => Within { sigma: overall, degrees_of_freedom: readings.len() as f64 - 1.0 },
    };
    if within.degrees_of_freedom.is_nan() || within.degrees_of_freedom <= 0.0 {
        Err(CapabilityError::NeedsSubgroups { rule })
    } else if within.sigma > 0.0 {
        Ok(within)
    } else {
        Err(CapabilityError::NoSpreadWithin { rule })
    }
}

/// The variance of a moving range, and its covariance with the next, for a deviation of 1: (4 / π) (π / 2 - 1) and
/// (4 / π) (√3 / 2 + π / 12 - 1).
const MOVING: [f64; 2] = [0.726_760_455_264_837_1, 0.162_751_579_446_228_8];
/// d2 of two readings, 2 / √π.
const D2_OF_TWO: f64 = std::f64::consts::FRAC_2_SQRT_PI;

fn moving(readings: &[f64]) -> Within {
    let count = readings.len() as f64 - 1.0;
    let variance = (MOVING[0] + 2.0 * MOVING[1] * (count - 1.0) / count) / count;
    Within {
        sigma: mean_step(readings) / D2_OF_TWO,
        degrees_of_freedom: D2_OF_TWO * D2_OF_TWO / (2.0 * variance),
    }
}

/// The subgroups with two readings or more.
fn subgroups<'a>(readings: &'a [f64], groups: &'a [usize]) -> impl Iterator<Item = &'a [f64]> {
    let mut rest = readings;
    groups.iter().filter_map(move |size| {
        let (group, after) = rest.split_at_checked(*size)?;
        rest = after;
        (*size > 1).then_some(group)
    })
}

fn mean(
    rule: SigmaRule,
    readings: &[f64],
    groups: &[usize],
    constants: &mut Constants,
    figure: impl Fn(&[f64]) -> f64,
) -> Within {
    let (mut count, mut sum, mut variance) = (0.0, 0.0, 0.0);
    for group in subgroups(readings, groups) {
        let (centre, relative) = constants.of(rule, group.len());
        sum += figure(group) / centre;
        variance += relative * relative;
        count += 1.0;
    }
    Within { sigma: sum / count, degrees_of_freedom: count * count / (2.0 * variance) }
}

fn pooled(readings: &[f64], groups: &[usize]) -> Within {
    let (mut degrees, mut sum) = (0.0, 0.0);
    for group in subgroups(readings, groups) {
        degrees += group.len() as f64 - 1.0;
        sum += square_sum(group);
    }
    Within { sigma: (sum / degrees).sqrt(), degrees_of_freedom: degrees }
}

fn range(group: &[f64]) -> f64 {
    let ends =
        group.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| [x.min(low), x.max(high)]);
    ends[1] - ends[0]
}

/// The sum of squares about the mean.
fn square_sum(group: &[f64]) -> f64 {
    let mean = mean_of(group);
    group.iter().map(|x| (x - mean) * (x - mean)).sum()
}
