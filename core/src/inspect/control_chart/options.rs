//! How a chart is worked out.
use super::constants::ConstantSource;
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::rules::RuleSet;
use tenths_macros::Options;

/// How a chart is worked out.
#[derive(Clone, Copy, PartialEq, Debug, Options)]
pub struct ChartOptions<'a> {
    /// Where the constants come from.
    pub constants: ConstantSource,
    /// The rules that points are judged by.
    pub rules: RuleSet,
    /// The phase of each point, numbered from 0 in the order of the points; empty for a single phase. Each phase has limits
    /// of its own. The chart counts its phases from 1: phase 0 here is phase 1 there.
    #[apart]
    pub phases: &'a [usize],
    /// The known centre, or the target of EWMA and CUSUM; otherwise the mean of the readings.
    #[pure]
    pub centre: Option<f64>,
    /// The known standard deviation of the process; otherwise it is estimated from the readings.
    #[pure]
    pub sigma: Option<f64>,
    /// How many standard deviations the limits lie from the centre.
    #[pure]
    pub sigmas: f64,
    /// How many readings in a row a moving range spans.
    pub span: usize,
    /// The weight of the last reading in an EWMA.
    #[pure]
    pub weight: f64,
    /// The slack of a CUSUM, in standard deviations of a point: half of the shift to find.
    #[pure]
    pub slack: f64,
    /// The decision limit of a CUSUM, in standard deviations of a point.
    #[pure]
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

/// An option that was given to a chart that has no use for it.
fn not_taken(kind: ChartKind, options: &ChartOptions<'_>) -> Option<&'static str> {
    let usual = ChartOptions::default();
    let (ewma, cusum) = (kind == ChartKind::Ewma, kind == ChartKind::Cusum);
    let moves = ewma || cusum || kind == ChartKind::IMr;
    let given = [
        (options.span != usual.span && !moves, "span: it has no moving range"),
        (options.weight != usual.weight && !ewma, "weight: an ewma chart has one"),
        (options.slack != usual.slack && !cusum, "slack: a cusum chart has one"),
        (options.decision != usual.decision && !cusum, "decision: a cusum chart has one"),
        (options.sigmas != usual.sigmas && cusum, "sigmas: its limit is decision"),
    ];
    given.into_iter().find_map(|(given, what)| given.then_some(what))
}

/// Whether each option is in range and goes with the kind.
pub(super) fn check_options(kind: ChartKind, options: &ChartOptions<'_>) -> Result<(), ControlChartError> {
    let must = |name, need, value: f64, holds: bool| match holds {
        true => Ok(()),
        false => Err(ControlChartError::Option { name, need, value }),
    };
    let positive = |value: f64| value > 0.0 && value.is_finite();
    if let Some(what) = not_taken(kind, options) {
        return Err(ControlChartError::NotTaken { kind, what });
    }
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
