//! A line of points with its limits.
use super::rules::{RuleSet, broken};
use tenths_macros::Object;

/// A line of points of a control chart, with its limits.
#[derive(Clone, PartialEq, Debug, Object)]
pub struct ControlSeries {
    /// The centre line, where it is the same for every point.
    pub centre: Option<f64>,
    /// The lower control limit, where it is the same for every point; of an EWMA the one that it settles at.
    pub lower: Option<f64>,
    /// The upper control limit, where it is the same for every point; of an EWMA the one that it settles at.
    pub upper: Option<f64>,
    /// Each point with its own limits, and the rules that it broke.
    pub points: Vec<ControlPoint>,
    /// Each rule that was broken, with the point that completed the pattern.
    pub broken: Vec<BrokenRule>,
}

/// A point of a control chart.
#[derive(Clone, PartialEq, Debug, Object)]
pub struct ControlPoint {
    /// Its number, from 1: of a moving range that of its last reading.
    pub number: usize,
    /// Its phase, from 1.
    pub phase: usize,
    /// Readings in the subgroup, or pieces or units inspected.
    pub size: f64,
    /// What is plotted; of a CUSUM the sum upward.
    pub value: f64,
    /// The sum downward of a CUSUM, zero or less.
    pub lower_sum: Option<f64>,
    /// The centre line.
    pub centre: f64,
    /// The lower control limit.
    pub lower: f64,
    /// The upper control limit.
    pub upper: f64,
    /// The numbers of the rules that it broke.
    pub broken: Vec<usize>,
}

/// A rule that a point broke.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct BrokenRule {
    /// The number of the point that completed the pattern, from 1.
    pub point: usize,
    /// The number of the rule in its set; 1 is a point beyond the limits.
    pub rule: usize,
    /// What is plotted there; of a CUSUM the sum that is beyond its limit.
    pub value: f64,
}

impl ControlPoint {
    /// The point with limits at `half` to either side of its centre line.
    pub(super) fn about(self, centre: f64, half: f64) -> Self {
        ControlPoint { centre, lower: centre - half, upper: centre + half, ..self }
    }

    /// The point of something that cannot be below zero.
    pub(super) fn not_below_zero(self) -> Self {
        ControlPoint { lower: self.lower.max(0.0), ..self }
    }
}

impl ControlSeries {
    /// A series whose points are judged by rules. `sigmas` gives the standard deviation of each point; where it gives
    /// none, only the limits judge.
    pub(super) fn judged(
        mut points: Vec<ControlPoint>,
        rules: RuleSet,
        sigmas: Option<&[f64]>,
    ) -> ControlSeries {
        let mut start = 0;
        while start < points.len() {
            let phase = points[start].phase;
            let end =
                points[start..].iter().position(|p| p.phase != phase).map_or(points.len(), |n| start + n);
            let distances = sigmas.map(|sigmas| {
                let distance = |(point, sigma): (&ControlPoint, &f64)| (point.value - point.centre) / sigma;
                points[start..end].iter().zip(&sigmas[start..end]).map(distance).collect::<Vec<_>>()
            });
            let set = if distances.is_some() { rules } else { RuleSet::Limits };
            for (k, point) in points[start..end].iter_mut().enumerate() {
                let down = point.lower_sum.unwrap_or(point.value);
                let beyond = point.value > point.upper || down < point.lower;
                let patterns = distances.as_deref().map_or(vec![], |d| broken(set, d, k));
                point.broken = beyond.then_some(1).into_iter().chain(patterns).collect();
            }
            start = end;
        }
        let broken = points.iter().flat_map(|point| {
            // Only one sum of a CUSUM may be beyond its limit.
            let down = point.lower_sum.filter(|sum| *sum < point.lower && point.value <= point.upper);
            let (number, value) = (point.number, down.unwrap_or(point.value));
            point.broken.iter().map(move |&rule| BrokenRule { point: number, rule, value })
        });
        let broken = broken.collect();
        let same = |line: fn(&ControlPoint) -> f64| {
            let first = points.first().map(line)?;
            points.iter().all(|point| line(point) == first).then_some(first)
        };
        let [centre, lower, upper] = [same(|p| p.centre), same(|p| p.lower), same(|p| p.upper)];
        ControlSeries { centre, lower, upper, points, broken }
    }
}
