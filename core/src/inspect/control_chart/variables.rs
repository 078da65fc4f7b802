//! Charts of readings: means with ranges or standard deviations, and single readings with moving ranges.
use super::constants::{ChartConstants, ConstantSource};
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::ChartOptions;
use super::phase::{Charted, Phase};
use super::series::ControlSeries;
use crate::statistics::{self, SubgroupSpread, mean, range};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// A subgroup of readings and their mean.
pub(super) struct Subgroup<'a> {
    readings: &'a [f64],
    pub mean: f64,
}

impl<'a> Subgroup<'a> {
    fn new(readings: &'a [f64]) -> Self {
        Subgroup { readings, mean: mean(readings) }
    }

    pub fn size(&self) -> usize {
        self.readings.len()
    }
}

/// The readings in their subgroups, each of `least` or more.
pub(super) fn split<'a>(
    data: &'a [f64],
    sizes: &[f64],
    least: usize,
) -> Result<Vec<Subgroup<'a>>, ControlChartError> {
    let need = if least > 1 { "a whole number, 2 or more" } else { "a whole number, 1 or more" };
    for (place, &value) in sizes.iter().enumerate() {
        // NaN fails this too.
        let whole = value >= least as f64 && value <= 1e9 && value == (value as u64) as f64;
        if !whole {
            return Err(ControlChartError::Size { place: place + 1, need, value });
        }
    }
    let wrong = |expected: String| ControlChartError::Count { what: "readings", got: data.len(), expected };
    if let [size] = sizes {
        let size = *size as usize;
        if !data.len().is_multiple_of(size) {
            return Err(wrong(format!("a multiple of the subgroup size, {size}")));
        }
        return Ok(data.chunks_exact(size).map(Subgroup::new).collect());
    }
    let sum = sizes.iter().map(|size| *size as usize).sum::<usize>();
    if sum != data.len() {
        return Err(wrong(format!("{sum}, the sum of the subgroup sizes")));
    }
    let mut rest = data;
    let cut = |size: &f64| {
        let (group, after) = rest.split_at(*size as usize);
        rest = after;
        Subgroup::new(group)
    };
    Ok(sizes.iter().map(cut).collect())
}

/// The constants for each size that occurs, each computed once.
pub(super) struct Constants {
    source: ConstantSource,
    known: BTreeMap<usize, ChartConstants>,
}

impl Constants {
    pub fn new(source: ConstantSource) -> Self {
        Constants { source, known: BTreeMap::new() }
    }

    pub fn of(&mut self, n: usize) -> Result<ChartConstants, ControlChartError> {
        Ok(match self.known.entry(n) {
            Entry::Occupied(known) => *known.get(),
            Entry::Vacant(place) => *place.insert(ChartConstants::new(n, self.source)?),
        })
    }
}

/// The standard deviation of the process from the spread within subgroups.
pub(super) fn within(
    groups: &[Subgroup<'_>],
    spread: SubgroupSpread,
    constants: &mut Constants,
) -> Result<f64, ControlChartError> {
    let estimate = |group: &Subgroup<'_>| {
        let known = constants.of(group.size())?;
        let law = match spread {
            SubgroupSpread::Range => [known.d2, known.d3 * known.d3],
            SubgroupSpread::Deviation => [known.c4, 1.0 - known.c4 * known.c4],
        };
        Ok((spread.measured(group.readings), law))
    };
    let estimates = groups.iter().filter(|group| group.size() > 1).map(estimate);
    Ok(statistics::within(estimates.collect::<Result<Vec<_>, ControlChartError>>()?).sigma)
}

/// The mean of all readings of some subgroups.
pub(super) fn grand_mean(groups: &[Subgroup<'_>]) -> f64 {
    let first = groups.first().map_or(f64::NAN, |group| group.mean);
    let sum: f64 = groups.iter().map(|group| group.size() as f64 * (group.mean - first)).sum();
    first + sum / groups.iter().map(|group| group.size() as f64).sum::<f64>()
}

/// Fails where there is no spread to make limits of, or one that is not a number any more.
pub(super) fn check_sigma(sigma: f64, phase: usize) -> Result<(), ControlChartError> {
    match sigma {
        sigma if sigma > 0.0 && sigma.is_finite() => Ok(()),
        f64::INFINITY => Err(ControlChartError::TooLarge { phase }),
        _ => Err(ControlChartError::NoVariation { phase }),
    }
}

/// How many points a phase needs.
pub(super) fn least_points(options: &ChartOptions<'_>) -> usize {
    if options.centre.is_some() && options.sigma.is_some() { 1 } else { 2 }
}

/// Means of subgroups with their ranges or standard deviations.
pub(super) fn subgroups(
    kind: ChartKind,
    data: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
) -> Result<Charted, ControlChartError> {
    let spread = if kind == ChartKind::XbarR { SubgroupSpread::Range } else { SubgroupSpread::Deviation };
    if sizes.is_empty() {
        return Err(ControlChartError::NoSizes { kind });
    }
    let groups = split(data, sizes, 2)?;
    let mut constants = Constants::new(options.constants);
    let (mut means, mut spreads, mut sigmas, mut phases) = (vec![], vec![], vec![], vec![]);
    for phase in Phase::of(groups.len(), least_points(options), options)? {
        let own = &groups[phase.points.clone()];
        let centre = options.centre.unwrap_or_else(|| grand_mean(own));
        let sigma = options.sigma.map_or_else(|| within(own, spread, &mut constants), Ok)?;
        check_sigma(sigma, phase.number)?;
        for (group, number) in own.iter().zip(phase.points.start + 1..) {
            let known = constants.of(group.size())?;
            // A printed A2 or A3 is rounded after the division by d2 or c4.
            let (mean_spread, upper, from_spread) = match spread {
                SubgroupSpread::Range => (known.d2, known.d4_limit, known.a2 * known.d2),
                SubgroupSpread::Deviation => (known.c4, known.b4, known.a3 * known.c4),
            };
            let three = if options.sigma.is_some() { known.a } else { from_spread };
            let size = group.size() as f64;
            sigmas.push(three * sigma / 3.0);
            means.push(
                phase.point(number, size, group.mean).about(centre, options.sigmas * three * sigma / 3.0),
            );
            let line = mean_spread * sigma;
            let half = options.sigmas / 3.0 * (upper - 1.0) * line;
            spreads.push(
                phase.point(number, size, spread.measured(group.readings)).about(line, half).not_below_zero(),
            );
        }
        phases.push(phase.told(centre, sigma));
    }
    let dispersion = ControlSeries::judged(spreads, options.rules, None);
    Ok((ControlSeries::judged(means, options.rules, Some(&sigmas)), Some(dispersion), phases))
}

/// The standard deviation of single readings from their moving ranges: the mean range over d2.
pub(super) fn from_moving_ranges(
    readings: &[f64],
    span: usize,
    constants: &mut Constants,
) -> Result<f64, ControlChartError> {
    let ranges: Vec<_> = readings.windows(span).map(range).collect();
    Ok(ranges.iter().sum::<f64>() / ranges.len() as f64 / constants.of(span)?.d2)
}

/// Single readings and their moving ranges, which do not reach from one phase into the next.
pub(super) fn individuals(
    data: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
) -> Result<Charted, ControlChartError> {
    if !sizes.is_empty() {
        return Err(ControlChartError::NotTaken { kind: ChartKind::IMr, what: "sizes" });
    }
    let mut constants = Constants::new(options.constants);
    let known = constants.of(options.span)?;
    let (mut singles, mut moving, mut sigmas, mut phases) = (vec![], vec![], vec![], vec![]);
    for phase in Phase::of(data.len(), least_points(options).max(options.span), options)? {
        let own = &data[phase.points.clone()];
        let centre = options.centre.unwrap_or_else(|| mean(own));
        let sigma =
            options.sigma.map_or_else(|| from_moving_ranges(own, options.span, &mut constants), Ok)?;
        check_sigma(sigma, phase.number)?;
        for (&reading, number) in own.iter().zip(phase.points.start + 1..) {
            sigmas.push(sigma);
            singles.push(phase.point(number, 1.0, reading).about(centre, options.sigmas * sigma));
        }
        let line = known.d2 * sigma;
        let half = options.sigmas / 3.0 * (known.d4_limit - 1.0) * line;
        for (window, number) in own.windows(options.span).zip(phase.points.start + options.span..) {
            let point = phase.point(number, options.span as f64, range(window));
            moving.push(point.about(line, half).not_below_zero());
        }
        phases.push(phase.told(centre, sigma));
    }
    let dispersion = ControlSeries::judged(moving, options.rules, None);
    Ok((ControlSeries::judged(singles, options.rules, Some(&sigmas)), Some(dispersion), phases))
}
