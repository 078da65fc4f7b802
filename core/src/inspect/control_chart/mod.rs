//! Control charts: whether a process that made parts to print still runs as it did.
//!
//! Limits are worked out from the readings themselves, or from a known centre and standard deviation. Each point
//! tells the rules that it broke.
//!
//! Source: ISO 7870-2 for the charts with limits at three standard deviations; ISO 7870-6 for EWMA; ISO 7870-4 for
//! CUSUM. The factors come from the distribution of the range and of the standard deviation of normal readings.

mod attributes;
mod constants;
mod phase;
mod printed;
mod rules;
mod run_length;
mod series;
mod variables;
mod weighted;

pub use constants::{ChartConstants, ConstantSource};
pub use rules::RuleSet;
pub use run_length::average_run_length;
pub use series::{BrokenRule, ControlPoint, ControlSeries};

use std::fmt;
use tenths_macros::{Choice, Object};

/// What a control chart plots.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ChartKind {
    /// Means and ranges of subgroups.
    XbarR,
    /// Means and standard deviations of subgroups.
    XbarS,
    /// Single readings and their moving ranges.
    IMr,
    /// Share of defective pieces in samples.
    P,
    /// Count of defective pieces in samples.
    Np,
    /// Count of defects in units of one size.
    C,
    /// Defects for each unit.
    U,
    /// Means that weigh the last readings most, against small lasting shifts.
    Ewma,
    /// Sums of what readings lie off the target, against small lasting shifts.
    Cusum,
}

/// How a chart is worked out.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ChartOptions<'a> {
    /// Where the constants come from.
    pub constants: ConstantSource,
    /// The rules that points are judged by.
    pub rules: RuleSet,
    /// The phase of each point, numbered from zero; none for a single phase. Each phase has limits of its own.
    pub phases: &'a [usize],
    /// The known centre, or the target of EWMA and CUSUM; otherwise the mean of the readings.
    pub centre: Option<f64>,
    /// The known standard deviation of the process; otherwise it is estimated from the readings.
    pub sigma: Option<f64>,
    /// How many standard deviations the limits lie from the centre: 3.
    pub sigmas: f64,
    /// How many readings in a row a moving range spans: 2.
    pub span: usize,
    /// The weight of the last reading in an EWMA: 0.2.
    pub weight: f64,
    /// The slack of a CUSUM, in standard deviations of a point: 0.5, half of the shift to find.
    pub slack: f64,
    /// The decision limit of a CUSUM, in standard deviations of a point: 5.
    pub decision: f64,
}

impl Default for ChartOptions<'_> {
    fn default() -> Self {
        ChartOptions {
            constants: ConstantSource::Exact,
            rules: RuleSet::WesternElectric,
            phases: &[],
            centre: None,
            sigma: None,
            sigmas: 3.0,
            span: 2,
            weight: 0.2,
            slack: 0.5,
            decision: 5.0,
        }
    }
}

/// A control chart: points, limits, and what rules the points broke.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct ControlChart {
    /// What is plotted.
    pub kind: ChartKind,
    /// Where the constants come from.
    pub constants: ConstantSource,
    /// The rules that points are judged by.
    pub rules: RuleSet,
    /// The means, readings, shares or counts.
    pub location: ControlSeries,
    /// The ranges, standard deviations or moving ranges, of the kinds that have them.
    pub dispersion: Option<ControlSeries>,
    /// What each phase comes to.
    pub phases: Vec<ChartPhase>,
}

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

/// Why there is no chart.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ControlChartError {
    /// A text that names no kind of chart.
    #[error(
        "`{text}` is not a kind of control chart; expected xbar_r, xbar_s, i_mr, p, np, c, u, ewma or cusum"
    )]
    UnknownKind {
        /// The text as given.
        text: String,
    },
    /// A text that names no set of rules.
    #[error("`{text}` is not a set of rules; expected limits, western_electric or nelson")]
    UnknownRules {
        /// The text as given.
        text: String,
    },
    /// A text that names no source of constants.
    #[error("`{text}` is not a source of constants; expected exact or printed")]
    UnknownConstants {
        /// The text as given.
        text: String,
    },
    /// A reading that cannot be plotted.
    #[error("reading {place} must be {need}, not {value}. Fix: leave the reading out, or enter it again")]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// A size of a subgroup or a sample that cannot be.
    #[error("size {place} must be {need}, not {value}")]
    Size {
        /// Its place, from 1.
        place: usize,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// More found than inspected.
    #[error("sample {place} has {count} defective pieces, but only {size} were inspected")]
    MoreThanInspected {
        /// Its place, from 1.
        place: usize,
        /// Defective pieces.
        count: f64,
        /// Inspected pieces.
        size: f64,
    },
    /// Sizes that do not go with the readings.
    #[error("{got} {what} were given; expected {expected}")]
    Count {
        /// What there is too much or too little of.
        what: &'static str,
        /// How many there are.
        got: usize,
        /// How many there must be.
        expected: String,
    },
    /// A kind of chart that needs sizes.
    #[error("{} needs the readings in each subgroup, or the number inspected in each sample: give sizes", kind.name())]
    NoSizes {
        /// The kind.
        kind: ChartKind,
    },
    /// A kind of chart that has no use for what was given.
    #[error("{} takes no {what}", kind.name())]
    NotTaken {
        /// The kind.
        kind: ChartKind,
        /// What was given.
        what: &'static str,
    },
    /// An option out of range.
    #[error("{name} must be {need}, not {value}")]
    Option {
        /// Its name.
        name: &'static str,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// Too few points to tell limits from.
    #[error(
        "phase {phase} has too few points, {got}; its limits need {least} or more. Fix: wait for more, or give centre and \
         sigma"
    )]
    TooFew {
        /// The phase, from 1.
        phase: usize,
        /// Its points.
        got: usize,
        /// How many are needed.
        least: usize,
    },
    /// Readings that show no variation.
    #[error(
        "phase {phase} shows no variation, so there are no limits. Fix: read to a finer resolution, collect more, \
         or give centre and sigma where the chart takes them"
    )]
    NoVariation {
        /// The phase, from 1.
        phase: usize,
    },
    /// Readings whose sums are beyond what a float holds.
    #[error("the readings of phase {phase} are too large to work with. Fix: give them in a larger unit")]
    TooLarge {
        /// The phase, from 1.
        phase: usize,
    },
    /// Phases that come back.
    #[error(
        "phases must be numbered 0, 1, 2 … in the order of the points, not {got} after {before} at point {place}"
    )]
    Phases {
        /// The point, from 1.
        place: usize,
        /// The phase before it.
        before: usize,
        /// Its phase.
        got: usize,
    },
    /// A size of subgroup without constants.
    #[error("there are no constants for subgroups of {n}; expected {least} to {most}")]
    Constants {
        /// The size.
        n: usize,
        /// The smallest there is.
        least: usize,
        /// The largest there is.
        most: usize,
    },
}

/// A control chart.
///
/// `sizes` are the readings of each subgroup of `xbar_r`, `xbar_s`, `ewma` and `cusum`, or the pieces or units
/// inspected in each sample of `p`, `np` and `u`. A single size holds for all. EWMA and CUSUM without sizes are of
/// single readings.
///
/// # Errors
/// [`ControlChartError`].
pub fn control_chart(
    kind: ChartKind,
    data: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
) -> Result<ControlChart, ControlChartError> {
    check_options(kind, options)?;
    if let Some((place, value)) = data.iter().enumerate().find(|(_, value)| !value.is_finite()) {
        return Err(ControlChartError::Reading { place: place + 1, need: "a finite number", value: *value });
    }
    let (location, dispersion, phases) = match kind {
        ChartKind::XbarR | ChartKind::XbarS => variables::subgroups(kind, data, sizes, options)?,
        ChartKind::IMr => variables::individuals(data, sizes, options)?,
        ChartKind::P | ChartKind::Np | ChartKind::C | ChartKind::U => {
            attributes::counts(kind, data, sizes, options)?
        }
        ChartKind::Ewma | ChartKind::Cusum => weighted::chart(kind, data, sizes, options)?,
    };
    Ok(ControlChart {
        kind,
        constants: options.constants,
        rules: options.rules,
        location,
        dispersion,
        phases,
    })
}

/// The charts of a kind, and their phases.
type Charted = (ControlSeries, Option<ControlSeries>, Vec<ChartPhase>);

fn check_options(kind: ChartKind, options: &ChartOptions<'_>) -> Result<(), ControlChartError> {
    let must = |name, need, value: f64, holds: bool| match holds {
        true => Ok(()),
        false => Err(ControlChartError::Option { name, need, value }),
    };
    let positive = |value: f64| value > 0.0 && value.is_finite();
    must("sigmas", "a finite number above zero", options.sigmas, positive(options.sigmas))?;
    must("span", "from 2 to 100", options.span as f64, (2..=100).contains(&options.span))?;
    must("weight", "above 0, up to 1", options.weight, options.weight > 0.0 && options.weight <= 1.0)?;
    must("slack", "zero or more", options.slack, options.slack >= 0.0 && options.slack.is_finite())?;
    must("decision", "a finite number above zero", options.decision, positive(options.decision))?;
    if let Some(centre) = options.centre {
        must("centre", "a finite number", centre, centre.is_finite())?;
    }
    if let Some(sigma) = options.sigma {
        must("sigma", "a finite number above zero", sigma, positive(sigma))?;
        if kind.counts() {
            return Err(ControlChartError::NotTaken { kind, what: "sigma: it follows from the centre" });
        }
    }
    Ok(())
}

impl ChartKind {
    /// The kind of that name.
    ///
    /// # Errors
    /// [`ControlChartError::UnknownKind`].
    pub fn parse(text: &str) -> Result<ChartKind, ControlChartError> {
        let named = ChartKind::ALL.into_iter().find(|kind| kind.name() == text);
        named.ok_or_else(|| ControlChartError::UnknownKind { text: crate::error::excerpt(text) })
    }

    /// Whether it is of counts.
    const fn counts(self) -> bool {
        matches!(self, ChartKind::P | ChartKind::Np | ChartKind::C | ChartKind::U)
    }
}

impl ConstantSource {
    /// The source of that name.
    ///
    /// # Errors
    /// [`ControlChartError::UnknownConstants`].
    pub fn parse(text: &str) -> Result<ConstantSource, ControlChartError> {
        let named = ConstantSource::ALL.into_iter().find(|source| source.name() == text);
        named.ok_or_else(|| ControlChartError::UnknownConstants { text: crate::error::excerpt(text) })
    }
}

impl fmt::Display for ControlChart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let broken = |series: &ControlSeries| series.points.iter().filter(|p| !p.broken.is_empty()).count();
        let count = broken(&self.location) + self.dispersion.as_ref().map_or(0, broken);
        write!(f, "{} chart of {} points", self.kind.name(), self.location.points.len())?;
        match count {
            0 => write!(f, ": none broke a rule"),
            1 => write!(f, ": 1 broke a rule"),
            _ => write!(f, ": {count} broke a rule"),
        }
    }
}

#[cfg(test)]
mod tests;
