//! The average and range method, which needs no more than a pencil.
use super::error::GaugeStudyError;
use super::options::StudyOptions;
use super::readings::StudyData;
use super::result::GaugeStudy;
use super::sums::SquareSums;
use crate::statistics::{d2, d3};

/// The most readings that a range is taken of: beyond it ranges say little.
const MAX_IN_RANGE: usize = 100;

/// The mean range of `count` values on average, in standard deviations, where `groups` such ranges are averaged and
/// squared: √(d2² + d3²/groups).
///
/// Source: A. J. Duncan, Quality Control and Industrial Statistics, table D3.
fn mean_range(count: usize, groups: usize) -> f64 {
    let (mean, deviation) = (d2(count as u32), d3(count as u32));
    (mean * mean + deviation * deviation / groups as f64).sqrt()
}

fn range(values: impl IntoIterator<Item = f64>) -> f64 {
    let ends = values
        .into_iter()
        .fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], value| [least.min(value), most.max(value)]);
    ends[1] - ends[0]
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The study from ranges: repeatability from the mean range of trials over d2, appraisers from the range of their
/// means, parts from the range of theirs.
pub(super) fn study(
    data: &StudyData<'_>,
    sums: &SquareSums<1>,
    options: &StudyOptions,
) -> Result<GaugeStudy, GaugeStudyError> {
    let &StudyData { readings, parts, appraisers, trials } = data;
    for (what, count) in [("parts", parts), ("appraisers", appraisers), ("trials", trials)] {
        if count > MAX_IN_RANGE {
            return Err(GaugeStudyError::Ranges { what, most: MAX_IN_RANGE, got: count });
        }
    }
    let cells: Vec<_> = readings.chunks_exact(trials).collect();
    let ranges: Vec<_> = cells.iter().map(|cell| range(cell.iter().copied())).collect();
    // With more than 15 ranges the factor of their mean is d2 itself, as in common forms.
    let groups = cells.len();
    let factor = if groups > 15 { d2(trials as u32) } else { mean_range(trials, groups) };
    let repeatability = mean(&ranges) / factor;
    let means: Vec<_> = cells.iter().map(|cell| mean(cell)).collect();
    let of_part = |part: usize| mean(&means[part * appraisers..][..appraisers]);
    let of_appraiser = |appraiser: usize| {
        mean(&means.iter().skip(appraiser).step_by(appraisers).copied().collect::<Vec<_>>())
    };
    let part = range((0..parts).map(of_part)) / mean_range(parts, 1);
    let variance = repeatability * repeatability;
    let appraiser = match appraisers {
        1 => 0.0,
        _ => {
            let spread = range((0..appraisers).map(of_appraiser)) / mean_range(appraisers, 1);
            (spread * spread - variance / (parts * trials) as f64).max(0.0)
        }
    };
    let gauge = variance + appraiser;
    let part = part * part;
    let components = [variance, appraiser, 0.0, appraiser, gauge, part, gauge + part].map(|x| (x, vec![]));
    Ok(GaugeStudy::of(data, options, sums.mean[0], vec![], components))
}
