//! Whether a gauge reads right: bias against a reference, over its range, and over time.
use super::error::GaugeStudyError;
use super::readings::{check_confidence, check_finite};
use crate::inspect::control_chart::{
    ChartKind, ChartOptions, ControlChart, ControlChartError, control_chart,
};
use crate::statistics::{t_above, t_quantile_above};
use std::fmt;
use tenths_macros::{Object, function};

/// How far a gauge reads from a reference on average.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct GaugeBias {
    /// The reference value.
    pub reference: f64,
    /// How many readings.
    pub count: usize,
    /// Their mean.
    pub mean: f64,
    /// The mean less the reference.
    pub bias: f64,
    /// The standard deviation of the readings.
    pub sd: f64,
    /// The standard error of the bias.
    pub standard_error: f64,
    /// The bias over its standard error.
    pub t: f64,
    /// Degrees of freedom.
    pub df: f64,
    /// The two-sided p value: how likely a bias this large is from a gauge without any.
    pub p: f64,
    /// The confidence interval of the bias, from and to.
    pub interval: Vec<f64>,
}

/// A straight line through points by least squares.
#[derive(Clone, PartialEq, Debug, Object)]
pub struct Regression {
    /// How many points.
    pub count: usize,
    /// What y grows by for each unit of x.
    pub slope: f64,
    /// y where x is zero.
    pub intercept: f64,
    /// The standard error of the slope.
    pub slope_error: f64,
    /// The standard error of the intercept.
    pub intercept_error: f64,
    /// The slope over its standard error.
    pub slope_t: f64,
    /// The intercept over its standard error.
    pub intercept_t: f64,
    /// The two-sided p value of the slope: how likely one this steep is where there is none.
    pub slope_p: f64,
    /// The two-sided p value of the intercept: how likely one this far from zero is where it is zero.
    pub intercept_p: f64,
    /// The confidence interval of the slope, from and to.
    pub slope_interval: Vec<f64>,
    /// The confidence interval of the intercept, from and to.
    pub intercept_interval: Vec<f64>,
    /// The share of the variance of y that the line explains; NaN where y does not vary.
    pub r_squared: f64,
    /// The standard deviation of the points about the line.
    pub residual_sd: f64,
    /// Degrees of freedom.
    pub df: f64,
}

/// How the bias of a gauge changes over its range.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct GaugeLinearity {
    /// The bias of each reading as a line of the reference.
    pub line: Regression,
    /// The bias at each reference, in rising order.
    pub biases: Vec<GaugeBias>,
}

/// Whether a gauge reads the same from day to day.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct GaugeStability {
    /// The control chart of the readings of one master.
    pub chart: ControlChart,
    /// The means, or readings, as a line of their number.
    pub drift: Regression,
    /// Whether no point broke a rule of the chart and the drift is not significant.
    pub stable: bool,
}

fn least(what: &'static str, got: usize, least: usize) -> Result<(), GaugeStudyError> {
    if got < least { Err(GaugeStudyError::TooFew { what, least, got }) } else { Ok(()) }
}

/// The two-sided p value of t, which is infinite where only the standard error is zero.
fn two_sided(t: f64, df: f64) -> f64 {
    if t.is_infinite() { 0.0 } else { 2.0 * t_above(t.abs(), df) }
}

fn about(centre: f64, error: f64, df: f64, confidence: f64) -> Vec<f64> {
    let half = t_quantile_above(0.5 * (1.0 - confidence), df) * error;
    vec![centre - half, centre + half]
}

/// Mean, and sum of squares about it, from the first value on, so that large values keep the digits in which they differ.
fn mean_and_squares(values: &[f64]) -> (f64, f64) {
    let first = values.first().copied().unwrap_or(f64::NAN);
    let off = values.iter().map(|value| value - first).sum::<f64>() / values.len() as f64;
    let squares = values.iter().map(|value| (value - first) - off).map(|x| x * x).sum();
    (first + off, squares)
}

/// The bias of a gauge from readings of one reference, by the t test of their mean.
///
/// Source: the t test of a mean; AIAG, Measurement Systems Analysis, 4th ed., chapter III, with the standard deviation of
/// the readings.
///
/// # Errors
/// [`GaugeStudyError`].
#[function(gives = "bias", example([5.8, 5.7, 5.9, 5.9, 6.0], 6, 0.95))]
pub fn gauge_bias(
    /// Readings of one reference.
    #[pure]
    data: &[f64],
    /// The reference.
    #[pure]
    reference: f64,
    /// The confidence of the interval.
    #[pure]
    #[default(0.95)]
    #[by_name]
    confidence: f64,
) -> Result<GaugeBias, GaugeStudyError> {
    check_confidence(confidence)?;
    least("readings", data.len(), 2)?;
    check_finite("reading", data)?;
    if !reference.is_finite() {
        return Err(GaugeStudyError::Option { name: "reference", need: "a finite number", value: reference });
    }
    match bias_of(data, reference, confidence) {
        made if !(made.bias.abs() + made.sd).is_finite() => {
            Err(GaugeStudyError::TooLarge { what: "readings" })
        }
        made if made.sd == 0.0 => Err(GaugeStudyError::NoVariation),
        made => Ok(made),
    }
}

/// The bias of two readings or more, which may agree.
fn bias_of(readings: &[f64], reference: f64, confidence: f64) -> GaugeBias {
    let (count, df) = (readings.len(), readings.len() as f64 - 1.0);
    let (mean, squares) = mean_and_squares(readings);
    let off: Vec<_> = readings.iter().map(|reading| reading - reference).collect();
    let bias = mean_and_squares(&off).0;
    let sd = (squares / df).sqrt();
    let standard_error = sd / (count as f64).sqrt();
    let t = if bias == 0.0 { 0.0 } else { bias / standard_error };
    let interval = about(bias, standard_error, df, confidence);
    GaugeBias { reference, count, mean, bias, sd, standard_error, t, df, p: two_sided(t, df), interval }
}

/// A straight line through points by least squares, with the errors of its slope and intercept.
///
/// # Errors
/// [`GaugeStudyError`]: at least three points, of which two differ in x.
#[function(gives = "line", example([1, 2, 3, 4], [2.1, 3.9, 6.2, 7.8], 0.95))]
pub fn regression(
    /// The given values.
    #[pure]
    x: &[f64],
    /// What was found at each of them.
    #[pure]
    y: &[f64],
    /// The confidence of the intervals.
    #[pure]
    #[default(0.95)]
    #[by_name]
    confidence: f64,
) -> Result<Regression, GaugeStudyError> {
    if x.len() != y.len() {
        return Err(GaugeStudyError::Points { x: x.len(), y: y.len() });
    }
    check_finite("x of point", x)?;
    check_finite("y of point", y)?;
    line(x, y, confidence, GaugeStudyError::OneX)
}

/// The line through finite points, as many x as y. `equal_x` is the error where all x are equal.
fn line(
    x: &[f64],
    y: &[f64],
    confidence: f64,
    equal_x: GaugeStudyError,
) -> Result<Regression, GaugeStudyError> {
    check_confidence(confidence)?;
    least("points", x.len(), 3)?;
    let ((x_mean, xx), (y_mean, yy)) = (mean_and_squares(x), mean_and_squares(y));
    if xx == 0.0 {
        return Err(equal_x);
    }
    let (count, df) = (x.len() as f64, x.len() as f64 - 2.0);
    let xy: f64 = x.iter().zip(y).map(|(x, y)| (x - x_mean) * (y - y_mean)).sum();
    if !(xx + yy + xy.abs()).is_finite() {
        return Err(GaugeStudyError::TooLarge { what: "values" });
    }
    let slope = xy / xx;
    let left = x.iter().zip(y).map(|(x, y)| (y - y_mean) - slope * (x - x_mean));
    let left: f64 = left.map(|off| off * off).sum();
    let intercept = y_mean - slope * x_mean;
    let residual_sd = (left / df).sqrt();
    let slope_error = residual_sd / xx.sqrt();
    let intercept_error = residual_sd * (1.0 / count + x_mean * x_mean / xx).sqrt();
    let over = |value: f64, error: f64| if value == 0.0 { 0.0 } else { value / error };
    let (slope_t, intercept_t) = (over(slope, slope_error), over(intercept, intercept_error));
    Ok(Regression {
        count: x.len(),
        slope,
        intercept,
        slope_error,
        intercept_error,
        slope_t,
        intercept_t,
        slope_p: two_sided(slope_t, df),
        intercept_p: two_sided(intercept_t, df),
        slope_interval: about(slope, slope_error, df, confidence),
        intercept_interval: about(intercept, intercept_error, df, confidence),
        r_squared: if yy == 0.0 { f64::NAN } else { 1.0 - left / yy },
        residual_sd,
        df,
    })
}

/// How the bias of a gauge changes over its range: readings, each with the reference that was measured.
///
/// Source: AIAG, Measurement Systems Analysis, 4th ed., chapter III.
///
/// # Errors
/// [`GaugeStudyError`]: two references at least, each read twice.
#[function(gives = "linearity", only_c, example([2, 2, 4, 4], [2.1, 2.2, 4, 4.1], 0.95))]
pub fn gauge_linearity(
    /// The reference of each reading.
    #[pure]
    references: &[f64],
    /// The readings.
    #[pure]
    readings: &[f64],
    /// The confidence of the intervals.
    #[pure]
    confidence: f64,
) -> Result<GaugeLinearity, GaugeStudyError> {
    if references.len() != readings.len() {
        return Err(GaugeStudyError::Pairs { x: references.len(), y: readings.len() });
    }
    check_finite("reference", references)?;
    check_finite("reading", readings)?;
    let off: Vec<_> =
        readings.iter().zip(references).map(|(reading, reference)| reading - reference).collect();
    let mut pairs: Vec<_> = references.iter().copied().zip(readings.iter().copied()).collect();
    pairs.sort_by(|one, other| one.0.total_cmp(&other.0));
    let groups = || pairs.chunk_by(|one, other| one.0 == other.0);
    if groups().count() > 1
        && let Some(once) = groups().find(|pairs| pairs.len() == 1)
    {
        return Err(GaugeStudyError::ReadOnce { reference: once[0].0 });
    }
    let line = line(references, &off, confidence, GaugeStudyError::OneReference)?;
    if groups().all(|pairs| pairs.iter().all(|pair| pair.1 == pairs[0].1)) {
        return Err(GaugeStudyError::TrialsAgree);
    }
    let bias = |pairs: &[(f64, f64)]| {
        let readings: Vec<_> = pairs.iter().map(|(_, reading)| *reading).collect();
        bias_of(&readings, pairs[0].0, confidence)
    };
    let biases = groups().map(bias).collect();
    Ok(GaugeLinearity { line, biases })
}

/// Whether a gauge reads the same from day to day: a control chart of one master, and the drift of its points.
///
/// Without `sizes` the readings are single ones; with them, those of each session.
///
/// # Errors
/// [`ControlChartError`] of the chart: three points at least.
pub fn gauge_stability(
    readings: &[f64],
    sizes: &[f64],
    options: &ChartOptions<'_>,
    confidence: f64,
) -> Result<GaugeStability, ControlChartError> {
    let kind = if sizes.is_empty() { ChartKind::IMr } else { ChartKind::XbarR };
    let chart = control_chart(kind, readings, sizes, options)?;
    let points = &chart.location.points;
    let [numbers, values]: [Vec<f64>; 2] =
        [points.iter().map(|p| p.number as f64).collect(), points.iter().map(|p| p.value).collect()];
    let drift = regression(&numbers, &values, confidence).map_err(|error| match error {
        GaugeStudyError::Option { name, need, value } => ControlChartError::Option { name, need, value },
        _ => ControlChartError::TooFew { phase: 1, got: points.len(), least: 3 },
    })?;
    let dispersion = chart.dispersion.as_ref().is_none_or(|series| series.broken.is_empty());
    let stable = chart.location.broken.is_empty() && dispersion && drift.slope_p > 1.0 - confidence;
    Ok(GaugeStability { chart, drift, stable })
}

impl fmt::Display for GaugeBias {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "bias {:.6} at {}, p = {:.3}", self.bias, self.reference, self.p)
    }
}

impl fmt::Display for GaugeLinearity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Regression { slope, intercept, slope_p, .. } = &self.line;
        write!(f, "bias {intercept:.6} {slope:+.6} · reference, slope p = {slope_p:.3}")
    }
}

impl fmt::Display for GaugeStability {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", if self.stable { "stable" } else { "not stable" }, self.chart)
    }
}
