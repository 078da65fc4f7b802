//! Charts that remember: exponentially weighted means, and cumulative sums.
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::ChartOptions;
use super::phase::{ChartPhase, Charted, Phase};
use super::series::{ControlPoint, ControlSeries};
use super::variables::{
    Constants, Subgroup, check_sigma, from_moving_ranges, grand_mean, least_points, split, within,
};
use crate::statistics::SubgroupSpread;

/// An EWMA or a CUSUM of single readings or of the means of subgroups.
pub(super) fn chart(
    kind: ChartKind,
    data: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
) -> Result<Charted, ControlChartError> {
    let single = sizes.is_empty() || sizes.iter().all(|size| *size == 1.0);
    let groups = split(data, if sizes.is_empty() { &[1.0] } else { sizes }, 1)?;
    if kind == ChartKind::Cusum
        && let Some(other) = groups.iter().position(|group| group.size() != groups[0].size())
    {
        let value = groups[other].size() as f64;
        let need = "the same as the others for a CUSUM";
        return Err(ControlChartError::Size { place: other + 1, need, value });
    }
    let mut constants = Constants::new(options.constants);
    let (mut points, mut phases) = (vec![], vec![]);
    let least = least_points(options).max(if single && options.sigma.is_none() { options.span } else { 1 });
    for phase in Phase::of(groups.len(), least, options)? {
        let own = &groups[phase.points.clone()];
        let centre = options.centre.unwrap_or_else(|| grand_mean(own));
        let sigma = match (options.sigma, single) {
            (Some(sigma), _) => sigma,
            (None, true) => from_moving_ranges(&data[phase.points.clone()], options.span, &mut constants)?,
            (None, false) => within(own, SubgroupSpread::Deviation, &mut constants)?,
        };
        // Nothing but single readings in a phase leaves no spread within subgroups.
        check_sigma(sigma, phase.number)?;
        let plot = if kind == ChartKind::Ewma { weighted_means } else { cumulative_sums };
        points.extend(plot(&phase, own, [centre, sigma], options));
        phases.push(phase.told(centre, sigma));
    }
    let mut series = ControlSeries::judged(points, options.rules, None);
    if kind == ChartKind::Ewma {
        settle(&mut series, &phases, options);
    }
    Ok((series, None, phases))
}

/// z = w x̄ + (1 − w) z, from the centre on, with limits that widen as the first readings fade.
fn weighted_means(
    phase: &Phase,
    groups: &[Subgroup<'_>],
    [centre, sigma]: [f64; 2],
    options: &ChartOptions<'_>,
) -> Vec<ControlPoint> {
    let kept = 1.0 - options.weight;
    let (mut off, mut variance) = (0.0, 0.0);
    let point = |(group, number): (&Subgroup<'_>, usize)| {
        let size = group.size() as f64;
        off = options.weight * (group.mean - centre) + kept * off;
        variance = options.weight * options.weight / size + kept * kept * variance;
        phase.point(number, size, centre + off).about(centre, options.sigmas * sigma * variance.sqrt())
    };
    groups.iter().zip(phase.points.start + 1..).map(point).collect()
}

/// The sums of what the means lie beyond the slack above and below the target, each zero at least.
fn cumulative_sums(
    phase: &Phase,
    groups: &[Subgroup<'_>],
    [centre, sigma]: [f64; 2],
    options: &ChartOptions<'_>,
) -> Vec<ControlPoint> {
    let (mut up, mut down) = (0.0_f64, 0.0_f64);
    let point = |(group, number): (&Subgroup<'_>, usize)| {
        let size = group.size() as f64;
        let unit = sigma / size.sqrt();
        let (off, slack) = (group.mean - centre, options.slack * unit);
        up = (up + off - slack).max(0.0);
        down = (down + off + slack).min(0.0);
        let point = phase.point(number, size, up).about(0.0, options.decision * unit);
        ControlPoint { lower_sum: Some(down), ..point }
    };
    groups.iter().zip(phase.points.start + 1..).map(point).collect()
}

/// The limits that an EWMA of a single phase and size settles at.
fn settle(series: &mut ControlSeries, phases: &[ChartPhase], options: &ChartOptions<'_>) {
    let size = series.points.first().map_or(1.0, |point| point.size);
    let even = series.points.iter().all(|point| point.size == size);
    (series.lower, series.upper) = (None, None);
    if let ([phase], true) = (phases, even) {
        let share = options.weight / (2.0 - options.weight) / size;
        let half = options.sigmas * phase.sigma * share.sqrt();
        (series.lower, series.upper) = (Some(phase.centre - half), Some(phase.centre + half));
    }
}
