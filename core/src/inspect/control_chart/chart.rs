//! A control chart of any kind.
use super::constants::ConstantSource;
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::{ChartOptions, check_options};
use super::phase::ChartPhase;
use super::rules::RuleSet;
use super::series::ControlSeries;
use super::{attributes, variables, weighted};
use std::fmt;
use tenths_macros::Object;

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
