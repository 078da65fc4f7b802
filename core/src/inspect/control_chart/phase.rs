//! The phases of a chart: stretches of points with limits of their own.
use super::error::ControlChartError;
use super::options::ChartOptions;
use super::series::{ControlPoint, ControlSeries};
use std::ops::Range;
use tenths_macros::Object;

/// What one phase of a control chart comes to.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct ChartPhase {
    /// Its number, from 1.
    pub phase: usize,
    /// Its first point, from 1.
    pub first: usize,
    /// Its last point.
    pub last: usize,
    /// The centre line, or the target.
    pub centre: f64,
    /// The standard deviation of single readings within subgroups; of charts of counts, that of a point of mean size.
    pub sigma: f64,
}

/// The charts of a kind, and their phases.
pub(super) type Charted = (ControlSeries, Option<ControlSeries>, Vec<ChartPhase>);

/// A stretch of points.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Phase {
    /// Its number, from 1.
    pub number: usize,
    /// Its points, from 0.
    pub points: Range<usize>,
}

impl Phase {
    /// The phases of a chart, each with as many points as its limits need.
    pub fn of(
        points: usize,
        least: usize,
        options: &ChartOptions<'_>,
    ) -> Result<Vec<Phase>, ControlChartError> {
        let labels = options.phases;
        if !labels.is_empty() && labels.len() != points {
            let expected = format!("one for each of {points} points");
            return Err(ControlChartError::Count { what: "phases", got: labels.len(), expected });
        }
        let mut phases = vec![Phase { number: 1, points: 0..points }];
        if let Some(first) = labels.first()
            && *first != 0
        {
            return Err(ControlChartError::FirstPhase { got: *first });
        }
        for (place, pair) in labels.windows(2).enumerate() {
            if pair[1] == pair[0] + 1 {
                if let Some(last) = phases.last_mut() {
                    last.points.end = place + 1;
                }
                phases.push(Phase { number: phases.len() + 1, points: place + 1..points });
            } else if pair[1] != pair[0] {
                return Err(ControlChartError::Phases { place: place + 2, before: pair[0], got: pair[1] });
            }
        }
        match phases.iter().find(|phase| phase.points.len() < least) {
            Some(phase) => {
                let got = phase.points.len();
                Err(ControlChartError::TooFew { phase: phase.number, got, least })
            }
            None => Ok(phases),
        }
    }

    /// What the phase comes to.
    pub fn told(&self, centre: f64, sigma: f64) -> ChartPhase {
        ChartPhase { phase: self.number, first: self.points.start + 1, last: self.points.end, centre, sigma }
    }

    /// A point of the phase, without limits yet.
    pub fn point(&self, number: usize, size: f64, value: f64) -> ControlPoint {
        ControlPoint {
            number,
            phase: self.number,
            size,
            value,
            lower_sum: None,
            centre: f64::NAN,
            lower: f64::NAN,
            upper: f64::NAN,
            broken: vec![],
        }
    }
}
