//! Charts of readings: means with ranges or standard deviations, and single readings with moving ranges.
use super::constants::{ChartConstants, ConstantSource};
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::ChartOptions;
use super::phase::{Charted, Phase};
use super::series::ControlSeries;

/// What is asked of a subgroup.
pub(super) struct Subgroup<'a> {
    readings: &'a [f64],
    pub mean: f64,
}

impl<'a> Subgroup<'a> {
    fn new(readings: &'a [f64]) -> Self {
        // From the first reading on, so that large readings keep the digits in which they differ.
        let first = readings.first().copied().unwrap_or(f64::NAN);
        let sum: f64 = readings.iter().map(|reading| reading - first).sum();
        Subgroup { readings, mean: first + sum / readings.len() as f64 }
    }

    pub fn size(&self) -> usize {
        self.readings.len()
    }

    fn range(&self) -> f64 {
        let most = self.readings.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        most - self.readings.iter().copied().fold(f64::INFINITY, f64::min)
    }

    fn deviation(&self) -> f64 {
        let squares: f64 = self.readings.iter().map(|x| (x - self.mean) * (x - self.mean)).sum();
        (squares / (self.size() as f64 - 1.0)).sqrt()
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
    known: Vec<ChartConstants>,
}

impl Constants {
    pub fn new(source: ConstantSource) -> Self {
        Constants { source, known: vec![] }
    }

    pub fn of(&mut self, n: usize) -> Result<ChartConstants, ControlChartError> {
        if let Some(known) = self.known.iter().find(|known| known.n == n) {
            return Ok(*known);
        }
        let made = ChartConstants::new(n, self.source)?;
        self.known.push(made);
        Ok(made)
    }
}

/// The standard deviation of the process from the spread within subgroups.
///
/// Each subgroup gives an estimate, range / d2 or standard deviation / c4, which counts by the inverse of its variance;
/// for subgroups of one size that is the mean range over d2, or the mean standard deviation over c4.
pub(super) fn within(
    groups: &[Subgroup<'_>],
    by_range: bool,
    constants: &mut Constants,
) -> Result<f64, ControlChartError> {
    let (mut sum, mut weights) = (0.0, 0.0);
    for group in groups.iter().filter(|group| group.size() > 1) {
        let known = constants.of(group.size())?;
        let (spread, mean, variance) = match by_range {
            true => (group.range(), known.d2, known.d3 * known.d3),
            false => (group.deviation(), known.c4, 1.0 - known.c4 * known.c4),
        };
        sum += spread * mean / variance;
        weights += mean * mean / variance;
    }
    Ok(sum / weights)
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
    let by_range = kind == ChartKind::XbarR;
    if sizes.is_empty() {
        return Err(ControlChartError::NoSizes { kind });
    }
    let groups = split(data, sizes, 2)?;
    let mut constants = Constants::new(options.constants);
    let (mut means, mut spreads, mut sigmas, mut phases) = (vec![], vec![], vec![], vec![]);
    for phase in Phase::of(groups.len(), least_points(options), options)? {
        let own = &groups[phase.points.clone()];
        let centre = options.centre.unwrap_or_else(|| grand_mean(own));
        let sigma = options.sigma.map_or_else(|| within(own, by_range, &mut constants), Ok)?;
        check_sigma(sigma, phase.number)?;
        for (group, number) in own.iter().zip(phase.points.start + 1..) {
            let known = constants.of(group.size())?;
            let (mean_spread, value, upper) = match by_range {
                true => (known.d2, group.range(), known.d4_limit),
                false => (known.c4, group.deviation(), known.b4),
            };
            // A printed A2 or A3 is rounded after the division by d2 or c4.
            let three = match (options.sigma, by_range) {
                (Some(_), _) => known.a,
                (None, true) => known.a2 * mean_spread,
                (None, false) => known.a3 * mean_spread,
            };
            let size = group.size() as f64;
            sigmas.push(three * sigma / 3.0);
            means.push(
                phase.point(number, size, group.mean).about(centre, options.sigmas * three * sigma / 3.0),
            );
            let line = mean_spread * sigma;
            let half = options.sigmas / 3.0 * (upper - 1.0) * line;
            spreads.push(phase.point(number, size, value).about(line, half).not_below_zero());
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
    let ranges: Vec<_> = readings.windows(span).map(|window| Subgroup::new(window).range()).collect();
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
        let centre = options.centre.unwrap_or_else(|| Subgroup::new(own).mean);
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
            let range = Subgroup::new(window).range();
            let point = phase.point(number, options.span as f64, range);
            moving.push(point.about(line, half).not_below_zero());
        }
        phases.push(phase.told(centre, sigma));
    }
    let dispersion = ControlSeries::judged(moving, options.rules, None);
    Ok((ControlSeries::judged(singles, options.rules, Some(&sigmas)), Some(dispersion), phases))
}
