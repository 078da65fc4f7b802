//! The standard deviation within subgroups, by each rule.
use super::kinds::{CapabilityError, SigmaRule};
use crate::statistics::{self, SubgroupSpread, mean as mean_of, mean_step};
use std::collections::BTreeMap;

pub(super) use crate::statistics::Within;

/// The mean and the variance of the spread of each size of subgroup that was met, for a standard deviation of 1.
#[derive(Default)]
pub(super) struct Constants(BTreeMap<(SubgroupSpread, usize), [f64; 2]>);

impl Constants {
    fn of(&mut self, spread: SubgroupSpread, size: usize) -> [f64; 2] {
        let law = || spread.law(u32::try_from(size).unwrap_or(u32::MAX));
        *self.0.entry((spread, size)).or_insert_with(law)
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
    let mut spread_of = |spread: SubgroupSpread| {
        let one = |group: &[f64]| (spread.measured(group), constants.of(spread, group.len()));
        statistics::within(subgroups(readings, groups).map(one))
    };
    let within = match rule {
        SigmaRule::MovingRange => moving(readings),
        SigmaRule::MeanRange => spread_of(SubgroupSpread::Range),
        SigmaRule::MeanDeviation => spread_of(SubgroupSpread::Deviation),
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

/// The subgroups, each of two readings or more.
fn subgroups<'a>(readings: &'a [f64], groups: &'a [usize]) -> impl Iterator<Item = &'a [f64]> {
    let mut rest = readings;
    groups.iter().map_while(move |size| {
        let (group, after) = rest.split_at_checked(*size)?;
        rest = after;
        Some(group)
    })
}

fn pooled(readings: &[f64], groups: &[usize]) -> Within {
    let (mut degrees, mut sum) = (0.0, 0.0);
    for group in subgroups(readings, groups) {
        degrees += group.len() as f64 - 1.0;
        sum += square_sum(group);
    }
    Within { sigma: (sum / degrees).sqrt(), degrees_of_freedom: degrees }
}

/// The sum of squares about the mean.
fn square_sum(group: &[f64]) -> f64 {
    let mean = mean_of(group);
    group.iter().map(|x| (x - mean) * (x - mean)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    // The mean of range / d2 or deviation / c4, each weighted by the inverse of its variance, and the degrees of freedom of
    // a standard deviation of that variance, with scipy's integrals for d2 and d3.
    #[test]
    fn unequal_subgroups_count_by_the_inverse_of_their_variance() {
        let readings = [1.0, 2.0, 1.0, 3.0, 2.0, 2.0, 1.5];
        for (rule, sigma, degrees) in [
            (SigmaRule::MeanRange, 0.865_003_159_03, 4.498_841_565_7),
            (SigmaRule::MeanDeviation, 0.807_210_363_976, 4.670_503_246_58),
        ] {
            let got = within(rule, &readings, &[2, 5], f64::NAN, &mut Constants::default());
            let Within { sigma: got, degrees_of_freedom } = got.unwrap_or_else(|error| panic!("{error}"));
            assert!((got / sigma - 1.0).abs() < 1e-9, "{rule:?}: {got}");
            assert!((degrees_of_freedom / degrees - 1.0).abs() < 1e-9, "{rule:?}: {degrees_of_freedom}");
        }
    }
}
