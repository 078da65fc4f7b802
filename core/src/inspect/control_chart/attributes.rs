//! Charts of counts: defective pieces after the binomial law, defects after that of Poisson.
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::ChartOptions;
use super::phase::{Charted, Phase};
use super::series::ControlSeries;

/// Share or count of defective pieces, defects, or defects for each unit.
pub(super) fn counts(
    kind: ChartKind,
    data: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
) -> Result<Charted, ControlChartError> {
    let pieces = matches!(kind, ChartKind::P | ChartKind::Np);
    let sizes = sizes_of(kind, data, sizes)?;
    check_counts(pieces, data, &sizes)?;
    let (mut points, mut sigmas, mut phases) = (vec![], vec![], vec![]);
    let least = if options.centre.is_some() { 1 } else { 2 };
    for phase in Phase::of(data.len(), least, options)? {
        let (own, own_sizes) = (&data[phase.points.clone()], &sizes[phase.points.clone()]);
        let mean_size = own_sizes.iter().sum::<f64>() / own_sizes.len() as f64;
        // Of pieces the share that is defective, of defects the number for each unit.
        let rate = match (options.centre, kind) {
            (Some(centre), ChartKind::Np) => centre / mean_size,
            (Some(centre), _) => centre,
            (None, _) => own.iter().sum::<f64>() / own_sizes.iter().sum::<f64>(),
        };
        let most = if pieces { 1.0 } else { f64::INFINITY };
        if options.centre.is_some() && !(rate > 0.0 && rate < most) {
            let need = match kind {
                ChartKind::P => "between 0 and 1",
                ChartKind::Np => "between 0 and the mean sample size",
                _ => "above zero",
            };
            return Err(ControlChartError::Option {
                name: "centre",
                need,
                value: options.centre.unwrap_or(rate),
            });
        }
        if rate == 0.0 || rate == most {
            return Err(ControlChartError::NoVariation { phase: phase.number });
        }
        let variance = if pieces { rate * (1.0 - rate) } else { rate };
        let line = |size: f64| match kind {
            ChartKind::Np => (size * rate, (size * variance).sqrt(), size),
            _ => (rate, (variance / size).sqrt(), most),
        };
        for ((&count, &size), number) in own.iter().zip(own_sizes).zip(phase.points.start + 1..) {
            let (centre, sigma, most) = line(size);
            if !(centre + options.sigmas * sigma).is_finite() {
                return Err(ControlChartError::CountsTooLarge { place: number });
            }
            let value = if kind == ChartKind::Np { count } else { count / size };
            let mut point =
                phase.point(number, size, value).about(centre, options.sigmas * sigma).not_below_zero();
            point.upper = point.upper.min(most);
            sigmas.push(sigma);
            points.push(point);
        }
        let (centre, sigma, _) = line(mean_size);
        phases.push(phase.told(centre, sigma));
    }
    Ok((ControlSeries::judged(points, options.rules, Some(&sigmas)), None, phases))
}

/// What was inspected for each count.
fn sizes_of(kind: ChartKind, data: &[f64], sizes: &[f64]) -> Result<Vec<f64>, ControlChartError> {
    match (kind, sizes) {
        (ChartKind::C, []) => Ok(vec![1.0; data.len()]),
        (ChartKind::C, _) => Err(ControlChartError::NotTaken { kind, what: "sizes: use a u chart" }),
        (_, []) => Err(ControlChartError::NoSizes { kind }),
        (_, [size]) => Ok(vec![*size; data.len()]),
        (_, sizes) if sizes.len() == data.len() => Ok(sizes.to_vec()),
        (_, sizes) => {
            let expected = format!("one for all, or one for each of {} counts", data.len());
            Err(ControlChartError::Count { what: "sizes", got: sizes.len(), expected })
        }
    }
}

fn check_counts(pieces: bool, data: &[f64], sizes: &[f64]) -> Result<(), ControlChartError> {
    let whole = |x: f64| (0.0..=9e15).contains(&x) && x == (x as u64) as f64;
    for (k, (&count, &size)) in data.iter().zip(sizes).enumerate() {
        let place = k + 1;
        if !whole(count) {
            return Err(ControlChartError::Reading {
                place,
                need: "a whole number, zero or more",
                value: count,
            });
        }
        let (sound, need) = match pieces {
            true => (whole(size) && size > 0.0, "a whole number, 1 or more"),
            false => (size > 0.0 && size.is_finite(), "a finite number above zero"),
        };
        if !sound {
            return Err(ControlChartError::Size { place, need, value: size });
        }
        if pieces && count > size {
            return Err(ControlChartError::MoreThanInspected { place, count, size });
        }
    }
    Ok(())
}
